// Runs the particle box on the audio clock: which moment of the film is heard when, the beat, and the knocks.

import { firstFrom, HAIR_S } from './clock.js';
/** @import { Film } from './film.js' */
/** @import { Mixer } from './mixer.js' */
/** @import { BoxPlan, Voice } from './shapes.js' */

const BOX_AHEAD_S = 0.35;
const BOX_EVERY_MS = 100;
const BOX_SOON_S = 0.05;
const KNOCK_GAIN = 0.3;
const RINGED_GAIN = 0.7;
const BEAT_GAIN = 0.8;
const BEATS_ROUND = 4;

/** @typedef {{ atS: number, number: number }} Beat */

export class BoxPlayer extends EventTarget {
  // Made when it first runs.
  /** @type {BoxPlan} */
  plan;
  /** @type {Beat} */
  nextBeat;

  /** @param {Film} film @param {Mixer} mixer */
  constructor(film, mixer) {
    super();
    this.film = film;
    this.mixer = mixer;
    this.playing = false;
    this.heating = false;
    this.rest = 0; // the moment of the film where it is held, or from where it is heated
    this.still = 0; // the moment that is seen while it pauses
    this.beatOn = true;
    this.knocks = 'all';
    /** @type {Set<Voice>} */
    this.voices = new Set();
    /** @type {Beat[]} */
    this.beats = []; // put on the clock
    this.ticker = 0;
  }

  // The moments -----------------------------------------------------------------------------------------------------

  // From `atS` on the film runs forward from `from`: while heating to its end, held to and fro around its place.
  /** @param {number} atS */
  newPlan(atS) {
    const { film, rest, still, heating } = this;
    const low = Math.min(Math.max(rest - film.heldFrames / 2, 0), film.last - film.heldFrames);
    const [from, to] = heating ? [0, film.last] : [low, low + film.heldFrames];
    this.plan = { atS, from: still, low: from, high: to, heating, doneS: atS };
  }

  // The moment of the film at a time of the audio clock.
  /** @param {number} timeS */
  momentAt(timeS) {
    const { atS, from, low, high, heating } = this.plan;
    const along = from - low + Math.max(0, timeS - atS) * this.film.framesASecond;
    const length = high - low;
    if (heating) return low + Math.min(along, length);
    const round = along % (2 * length);
    return low + (round > length ? 2 * length - round : round);
  }

  moment() {
    return this.playing ? this.momentAt(this.mixer.heardS()) : this.still;
  }

  // Where on the heating curve it stands.
  place() {
    return this.playing && this.heating ? this.moment() : this.rest;
  }

  beatNow() {
    const heardS = this.mixer.heardS();
    return this.playing ? this.beats.findLast((beat) => beat.atS <= heardS + HAIR_S)?.number ?? 0 : 0;
  }

  // Commands --------------------------------------------------------------------------------------------------------

  play() {
    this.mixer.open();
    if (this.mixer.missing) this.dispatchEvent(new Event('silent'));
    this.playing = true;
    this.beats = [];
    this.nextBeat = { atS: this.mixer.timeS + 2 * BOX_SOON_S, number: 1 };
    this.fromTheColdAgain();
    this.replan();
    clearInterval(this.ticker);
    this.ticker = setInterval(() => this.tick(), BOX_EVERY_MS);
  }

  pause() {
    if (!this.playing) return;
    this.still = this.moment();
    if (this.heating) this.rest = this.still;
    this.playing = false;
    this.heating = false;
    clearInterval(this.ticker);
    this.hush(0);
    this.changed();
  }

  /** @param {number} moment */
  goTo(moment) {
    this.rest = Math.min(Math.max(moment, 0), this.film.last);
    this.still = this.rest;
    this.heating = false;
    this.replan();
  }

  /** @param {boolean} on */
  setHeating(on) {
    if (this.playing && this.heating) this.rest = this.moment();
    this.heating = on;
    this.still = this.rest;
    if (on && !this.playing) this.play();
    else {
      this.fromTheColdAgain();
      this.replan();
    }
  }

  // All heat given: heated once more, it begins again.
  fromTheColdAgain() {
    if (this.heating && this.rest >= this.film.last) this.rest = this.still = 0;
  }

  /** @param {boolean} beatOn @param {string} knocks */
  setSound(beatOn, knocks) {
    this.beatOn = beatOn;
    this.knocks = knocks;
    if (this.playing) this.reschedule(this.mixer.timeS + BOX_SOON_S);
    this.changed();
  }

  changed() {
    this.dispatchEvent(new Event('change'));
  }

  replan() {
    if (this.playing) {
      const atS = this.mixer.timeS + BOX_SOON_S;
      this.newPlan(atS);
      this.reschedule(atS);
    }
    this.changed();
  }

  // What was due later is taken off the clock and put on it anew, the beat without a stumble.
  /** @param {number} atS */
  reschedule(atS) {
    this.hush(atS);
    this.plan.doneS = atS;
    this.nextBeat = this.beats.find((beat) => beat.atS >= atS) ?? this.nextBeat;
    this.beats = this.beats.filter((beat) => beat.atS < atS);
    this.tick();
  }

  // Sounds ----------------------------------------------------------------------------------------------------------

  /** @param {number} fromS */
  hush(fromS) {
    for (const voice of this.voices) if (voice.startS >= fromS) voice.source.stop();
    this.voices = new Set([...this.voices].filter((voice) => voice.startS < fromS));
  }

  /** @param {AudioBuffer | undefined} buffer @param {number} gain @param {number} across @param {number} atS */
  sound(buffer, gain, across, atS) {
    const pan = Math.round(8 * (2 * across - 1)) / 10; // in steps, and never quite at one ear
    const voice = this.mixer.stroke(buffer, gain, pan, atS);
    if (voice) this.voices.add(voice);
  }

  tick() {
    if (this.mixer.blocked) {
      this.pause();
      this.dispatchEvent(new Event('blocked'));
      return;
    }
    const untilS = this.mixer.timeS + BOX_AHEAD_S;
    this.scheduleKnocks(this.plan.doneS, untilS);
    this.plan.doneS = Math.max(this.plan.doneS, untilS);
    this.scheduleBeats(untilS);
    const nowS = this.mixer.timeS;
    for (const voice of this.voices) if (voice.startS < nowS - 1) this.voices.delete(voice);
    this.beats = this.beats.filter((beat) => beat.atS > nowS - 3);
    if (this.heating && this.moment() >= this.film.last) this.setHeating(false);
  }

  // Each beat is as long as the mean speed at its own moment has it.
  /** @param {number} untilS */
  scheduleBeats(untilS) {
    while (this.nextBeat.atS < untilS) {
      const { atS, number } = this.nextBeat;
      this.beats.push(this.nextBeat);
      if (this.beatOn) this.sound(this.mixer.taps?.[number === 1 ? 1 : 0], BEAT_GAIN, 0.5, atS);
      const perMinute = this.film.beats[Math.round(this.plan.heating ? this.momentAt(atS) : this.rest)];
      this.nextBeat = { atS: atS + 60 / perMinute, number: (number % BEATS_ROUND) + 1 };
    }
  }

  // The film's knocks between two times of the clock; where it runs to and fro they come in each direction.
  /** @param {number} fromS @param {number} untilS */
  scheduleKnocks(fromS, untilS) {
    const { film, plan } = this;
    const length = plan.high - plan.low;
    const startS = plan.atS - (plan.from - plan.low) / film.framesASecond; // as if it had begun at `low`
    const lengthS = length / film.framesASecond;
    for (let timeS = fromS; timeS < untilS - 1e-9; ) {
      const turn = Math.floor((timeS - startS) / lengthS + 1e-9);
      if (plan.heating && turn > 0) return;
      const endS = Math.min(untilS, startS + (turn + 1) * lengthS);
      const back = turn % 2 === 1;
      for (let k = firstFrom(film.knockFrames, plan.low); film.knockFrames[k] <= plan.high; k += 1) {
        const passed = back ? plan.high - film.knockFrames[k] : film.knockFrames[k] - plan.low;
        const atS = startS + turn * lengthS + passed / film.framesASecond;
        if (atS >= timeS && atS < endS) this.knock(k, atS);
      }
      timeS = endS;
    }
  }

  /** @param {number} k @param {number} atS */
  knock(k, atS) {
    const { film, knocks, mixer } = this;
    const ringed = film.knockOne[k] === film.ringed || film.knockOther[k] === film.ringed;
    if (knocks === 'none' || (knocks === 'ringed' && !ringed)) return;
    const loud = ringed && knocks === 'ringed' ? RINGED_GAIN : KNOCK_GAIN;
    const across = film.place(2 * film.knockOne[k], film.knockFrames[k]);
    this.sound(mixer.clicks?.[ringed ? 1 : 0], loud * (0.2 + 0.8 * film.knockHard[k]), across, atS);
  }
}
