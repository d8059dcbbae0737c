// Plays the piece: every sound is put on the audio clock shortly before it is due. A slower tempo moves the sounds
// apart and leaves each as it is, so pitch stays. What is shown follows what is heard.

import { firstFrom, HAIR_S } from './clock.js';
import { Mixer } from './mixer.js';
/** @import { PieceClock } from './clock.js' */
/** @import { Clip, Now, Part, Run, Sounds } from './shapes.js' */

const AHEAD_S = 1.2; // a hidden tab wakes its timers once a second only
const EVERY_MS = 150;
const SOON_S = 0.06;
const RING_S = 2.5; // the last sounds die away
const CLIP_RING_S = 0.8;

// What stands for the sounds until a server has sent them.
/** @returns {Sounds} */
export function noSounds() {
  return { rateHz: 22050, samples: [], events: { timeS: [], part: [], sample: [], gain: [], pan: [], lastsS: [] }, beds: [], toCome: true };
}

export class Player extends EventTarget {
  /** @param {PieceClock} clock @param {Sounds} sounds @param {Part[]} parts */
  constructor(clock, sounds, parts) {
    super();
    this.clock = clock;
    this.sounds = sounds;
    this.mixer = new Mixer(sounds, parts);
    this.playing = false;
    this.restS = 0; // where a stopped piece stands
    this.speed = 1;
    /** @type {number | null} */
    this.repeat = null; // a stage's index
    /** @type {Clip | null} */
    this.clip = null; // a stretch that is played by itself
    /** @type {Run[]} */
    this.runs = []; // stretches of playing, the latest last
    /** @type {Set<number>} */
    this.resting = new Set(); // groups
    /** @type {number | null} */
    this.alone = null;
    this.recording = true;
    this.click = false;
    this.ticker = 0;
    /** @type {[positionS: number, countIn: boolean, clip: Clip | null] | null} */
    this.wanted = null;
  }

  // Where it is ----------------------------------------------------------------------------------------------------

  // Where the piece is at a moment of the audio clock, and in a count-in how many beats are still to come.
  /** @param {number} timeS */
  whereAt(timeS) {
    let run = this.runs[0];
    for (const each of this.runs) if (each.atS <= timeS) run = each;
    const positionS = run.fromS + Math.max(0, timeS - run.atS) * run.speed;
    return { positionS: Math.min(positionS, this.clock.endS), run };
  }

  // What to show `leadS` after the moment that is heard now: bar, beat and phase as the clock has them; `counting` is
  // how many beats of a count-in are left, `restart` whether that count-in leads into the middle of the piece.
  /** @returns {Now} */
  moment(leadS = 0) {
    if (!this.playing) return { ...this.clock.at(this.restS), positionS: this.restS, counting: 0, restart: false };
    const { positionS, run } = this.whereAt(this.mixer.heardS() + leadS);
    const restart = run.countIn > 0 && positionS < run.musicS - HAIR_S;
    if (!restart) {
      const now = this.clock.at(positionS);
      return { ...now, positionS, counting: Math.max(0, -now.beats), restart };
    }
    const music = this.clock.at(run.musicS);
    const counting = (run.musicS - positionS) / run.perBeatS;
    const passed = run.countIn - counting + HAIR_S;
    return {
      ...music,
      beat: (Math.floor(passed) % this.clock.beatsABar) + 1,
      phase: passed % 1,
      beats: music.beats - counting,
      positionS: run.musicS,
      counting,
      restart,
    };
  }

  /** @param {Run} run @param {number} positionS */
  timeOf(run, positionS) {
    return run.atS + (positionS - run.fromS) / run.speed;
  }

  // Commands -------------------------------------------------------------------------------------------------------

  // Starts at a position; `countIn` counts two bars first at the tempo found there (the very start has its own).
  /** @param {number} positionS @param {boolean} countIn @param {Clip | null} clip */
  play(positionS, countIn, clip = null) {
    this.mixer.open();
    if (this.sounds.toCome) {
      this.wanted = [positionS, countIn, clip]; // begins as soon as there is something to hear
      return;
    }
    this.clip = clip;
    if (this.mixer.missing) this.dispatchEvent(new Event('silent'));
    this.balance();
    this.mixer.hush(0);
    const atS = this.mixer.timeS + SOON_S;
    this.mixer.openRoom(atS);
    this.playing = true;
    this.runs = [this.newRun(atS, positionS, countIn && positionS >= this.clock.firstS - HAIR_S)];
    this.startRun(this.runs[0]);
    this.tick();
    clearInterval(this.ticker);
    this.ticker = setInterval(() => this.tick(), EVERY_MS);
    this.changed();
  }

  // The sounds that were to come are here: what was asked for meanwhile begins.
  /** @param {Sounds} sounds */
  soundsCame(sounds) {
    Object.assign(this.sounds, sounds, { toCome: false });
    this.mixer.soundsCame();
    const { wanted } = this;
    this.wanted = null;
    if (wanted) this.play(...wanted);
  }

  // A clip is heard at full tempo and with everyone, or with one group alone; then the piece stands where it stood.
  /** @param {Clip} clip */
  playClip(clip) {
    if (this.playing) this.pause();
    this.play(clip.fromS, false, clip);
  }

  stopClip() {
    if (this.wanted?.[2]) this.wanted = null;
    if (this.clip) this.stopAt(this.restS);
  }

  pause() {
    this.wanted = null;
    if (!this.playing) return;
    if (this.clip) {
      this.stopClip();
      return;
    }
    const { positionS, run } = this.whereAt(this.mixer.heardS());
    const musicS = Math.max(positionS, run.musicS);
    this.stopAt(musicS < this.clock.firstS ? 0 : musicS);
  }

  /** @param {number} positionS */
  stopAt(positionS) {
    clearInterval(this.ticker);
    this.mixer.hush(0);
    this.playing = false;
    this.clip = null;
    this.runs = [];
    this.restS = positionS;
    this.changed();
  }

  /** @param {number} positionS @param {boolean} countIn */
  goTo(positionS, countIn) {
    if (this.playing) this.play(positionS, countIn);
    else {
      if (this.wanted) this.wanted = [positionS, countIn, null];
      this.restS = positionS;
      this.changed();
    }
  }

  /** @param {number} speed */
  setSpeed(speed) {
    this.speed = speed;
    this.replan();
  }

  /** @param {number | null} stage */
  setRepeat(stage) {
    this.repeat = stage;
    this.replan();
  }

  // From now on the piece runs under the present settings: what was due later is put on the clock anew.
  replan() {
    if (this.playing) {
      const atS = this.mixer.timeS + SOON_S;
      const { positionS, run } = this.whereAt(atS);
      const musicS = Math.max(run.musicS, positionS);
      const next = { ...run, atS, fromS: positionS, musicS, doneS: -Infinity, ...this.terms(musicS) };
      this.runs = [...this.runs.filter((each) => each.atS < atS), next];
      this.mixer.hush(atS);
      this.startRun(next);
      this.tick();
    }
    this.changed();
  }

  /** @param {Set<number>} resting @param {number | null} alone */
  setGroups(resting, alone) {
    this.resting = resting;
    this.alone = alone;
    this.balance();
    this.changed();
  }

  /** @param {boolean} recording @param {boolean} click */
  setSound(recording, click) {
    this.recording = recording;
    this.click = click;
    this.balance();
    this.changed();
  }

  balance() {
    const { clip } = this;
    const recording = this.recording || clip !== null;
    const click = this.click && clip === null;
    const alone = clip ? clip.alone : this.alone;
    this.mixer.balance({ recording, click, alone, isHeard: (group) => this.isHeard(group) });
  }

  /** @param {number} group */
  isHeard(group) {
    if (this.clip) return this.clip.alone === null || this.clip.alone === group;
    return this.alone === null ? !this.resting.has(group) : this.alone === group;
  }

  changed() {
    this.dispatchEvent(new Event('change'));
  }

  // Runs -----------------------------------------------------------------------------------------------------------

  /** @param {number} atS @param {number} musicS @param {boolean} countIn @returns {Run} */
  newRun(atS, musicS, countIn) {
    const { perBeatS } = this.clock.barAt(musicS);
    const beats = countIn ? this.clock.countInBars * this.clock.beatsABar : 0;
    const fromS = musicS - beats * perBeatS;
    return { atS, fromS, musicS, countIn: beats, perBeatS, doneS: -Infinity, ...this.terms(musicS) };
  }

  // How fast a run goes, where it ends and whether it then begins again, as the settings are now.
  /** @param {number} musicS */
  terms(musicS) {
    if (this.clip) return { speed: 1, repeats: false, endS: this.clip.toS };
    const stage = this.repeat === null ? null : this.clock.stages[this.repeat];
    const repeats = stage !== null && musicS < stage.endS - HAIR_S;
    return { speed: this.speed, repeats, endS: repeats ? stage.endS : this.clock.endS };
  }

  /** @param {Run} run */
  startRun(run) {
    if (!this.mixer.context) return;
    const { timeS, lastsS } = this.sounds.events;
    const first = firstFrom(timeS, run.musicS);
    for (let i = 0; i < first; i += 1) {
      const passedS = run.musicS - timeS[i];
      // A long sound that began before is taken up in its middle.
      if (lastsS[i] > passedS + 0.1) this.mixer.event(i, this.timeOf(run, run.musicS), passedS / run.speed, run.speed);
    }
    for (const bed of this.sounds.beds) this.mixer.bed(bed, run.musicS, run.endS, (s) => this.timeOf(run, s));
  }

  tick() {
    if (this.mixer.blocked) {
      this.stopAt(this.clip ? this.restS : this.runs[0].musicS);
      this.dispatchEvent(new Event('blocked'));
      return;
    }
    const horizonS = this.mixer.timeS + AHEAD_S;
    let run = this.runs[this.runs.length - 1];
    for (;;) {
      const untilS = Math.min(run.fromS + (horizonS - run.atS) * run.speed, run.endS);
      if (this.mixer.context) this.schedule(run, untilS);
      run.doneS = Math.max(run.doneS, untilS);
      if (!run.repeats || this.repeat === null || this.timeOf(run, run.endS) > horizonS) break;
      const stage = this.clock.stages[this.repeat];
      const next = this.newRun(this.timeOf(run, run.endS), stage.startS, true);
      this.runs.push(next);
      this.startRun(next);
      run = next;
    }
    const heardS = this.mixer.heardS();
    while (this.runs.length > 1 && this.runs[1].atS < heardS - 1) this.runs.shift();
    if (this.clip && heardS > this.timeOf(run, run.endS) + CLIP_RING_S) this.stopClip();
    else if (!run.repeats && heardS > this.timeOf(run, run.endS) + RING_S) {
      this.stopAt(0);
      this.dispatchEvent(new Event('finish'));
    }
  }

  /** @param {Run} run @param {number} untilS */
  schedule(run, untilS) {
    const { timeS } = this.sounds.events;
    const fromS = Math.max(run.doneS, run.musicS);
    const end = firstFrom(timeS, untilS);
    for (let i = firstFrom(timeS, fromS); i < end; i += 1) {
      this.mixer.event(i, this.timeOf(run, timeS[i]), 0, run.speed);
    }
    for (let k = run.countIn; k > 0; k -= 1) {
      const beatS = run.musicS - k * run.perBeatS;
      if (beatS >= Math.max(run.doneS, run.fromS) - HAIR_S && beatS < untilS - HAIR_S) {
        const first = (run.countIn - k) % this.clock.beatsABar === 0;
        this.mixer.tap(this.timeOf(run, beatS), first, this.mixer.countInBus);
      }
    }
    for (const beat of this.clock.beatTimes) {
      if (beat.atS >= fromS - HAIR_S && beat.atS < untilS - HAIR_S && beat.bar >= 1) {
        this.mixer.tap(this.timeOf(run, beat.atS), beat.first, this.mixer.clickBus);
      }
    }
  }
}
