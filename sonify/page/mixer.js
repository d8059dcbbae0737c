// The audio graph: a gain for every part and bus, a limiter, and the sounds that are on the clock.

import { lengthened, levelAt, pcmBuffer, resampled, tapBuffer } from './samples.js';
/** @import { Bed, Part, Recording, Sounds, Voice } from './shapes.js' */

const LATE_S = 0.1;
const FADE_S = 0.03;
const WAIT_MS = 3000;
const LIMITER = { threshold: -2, knee: 0, ratio: 20, attack: 0.002, release: 0.1 };
const LIMITER_S = 0.006; // its delay, fixed by the Web Audio standard
const LIMITER_MAKE_UP = 1.132; // the gain it adds by itself at these settings, measured

export class Mixer {
  // The graph: made at the first press of Play.
  /** @type {AudioContext} */
  context;
  /** @type {AnalyserNode} */
  meter;
  /** @type {GainNode} */
  recordingBus;
  /** @type {GainNode} */
  countInBus;
  /** @type {GainNode} */
  clickBus;
  /** @type {GainNode} */
  boxBus;
  /** @type {GainNode} */
  bedBus;
  /** @type {GainNode} */
  strokeBus;
  /** @type {GainNode | undefined} */
  roomBus;
  /** @type {GainNode[]} */
  partBuses;
  /** @type {AudioBuffer[] | undefined} */
  taps;
  /** @type {AudioBuffer[] | undefined} */
  clicks;

  /** @param {Sounds} sounds @param {Part[]} parts */
  constructor(sounds, parts) {
    this.sounds = sounds;
    this.parts = parts;
    /** @type {AudioBuffer[]} */
    this.buffers = [];
    /** @type {Map<number, Recording>} */
    this.longer = new Map(); // recordings made longer, by index
    /** @type {Map<string, StereoPannerNode>} */
    this.places = new Map(); // panners, by part and pan
    /** @type {Set<Voice>} */
    this.voices = new Set();
    this.askedMs = 0; // when the sound was last asked to start
  }

  get missing() {
    return typeof AudioContext === 'undefined';
  }

  // Whether the browser lets nothing sound though it was asked a while ago.
  get blocked() {
    return Boolean(this.context) && this.context.state !== 'running' && performance.now() > this.askedMs + WAIT_MS;
  }

  get timeS() {
    return this.context ? this.context.currentTime : performance.now() / 1000;
  }

  get latencyS() {
    return this.context ? (this.context.baseLatency || 0) + (this.context.outputLatency || 0) + LIMITER_S : 0;
  }

  // The moment of the audio clock that leaves the loudspeaker now. `currentTime` moves in steps of a whole audio
  // block; the output timestamp runs smoothly, so it is used wherever it agrees with clock and latency.
  heardS() {
    const plain = this.timeS - this.latencyS;
    const stamp = this.context?.getOutputTimestamp?.();
    if (!stamp?.performanceTime || stamp.contextTime === undefined) return plain;
    const smooth = stamp.contextTime + (performance.now() - stamp.performanceTime) / 1000 - LIMITER_S;
    return Math.abs(smooth - plain) < 0.05 ? smooth : plain;
  }

  // Makes the graph at the first press of Play (browsers allow sound only then), and wakes it at every other.
  open() {
    this.askedMs = performance.now();
    if (this.missing) return;
    if (!this.context) this.build();
    this.context.resume();
  }

  build() {
    this.decode();
    this.context = new AudioContext({ latencyHint: 'balanced' });
    this.meter = new AnalyserNode(this.context, { fftSize: 2048 });
    this.meter.connect(this.context.destination);
    const limiter = new DynamicsCompressorNode(this.context, LIMITER);
    limiter.connect(this.bus(this.meter, 1 / LIMITER_MAKE_UP));
    this.recordingBus = this.bus(limiter);
    this.countInBus = this.bus(limiter);
    this.clickBus = this.bus(limiter);
    this.boxBus = this.bus(limiter); // the particle box
    this.bedBus = this.bus(this.recordingBus);
    this.strokeBus = this.bus(this.recordingBus);
    this.partBuses = this.parts.map((part) => this.bus(part.group ? this.strokeBus : this.countInBus));
    this.furnish();
    this.taps = [tapBuffer(1047), tapBuffer(1568)];
    this.clicks = [tapBuffer(2349, 0.004), tapBuffer(1760, 0.006)];
  }

  /** @param {AudioNode} into */
  bus(into, gain = 1) {
    const node = new GainNode(this.context, { gain });
    node.connect(into);
    return node;
  }

  // The room's answer to all groups together. A response at a higher rate has more samples, so each is less.
  furnish() {
    if (!this.sounds.room) return;
    const { rateHz, ears, gain } = this.sounds.room;
    const { sampleRate } = this.context;
    const answers = ears.map((pcm) => resampled(pcmBuffer(pcm, rateHz), sampleRate, (gain * rateHz) / sampleRate));
    const buffer = new AudioBuffer({ length: answers[0].length, numberOfChannels: 2, sampleRate });
    answers.forEach((answer, ear) => buffer.copyToChannel(answer, ear));
    const room = new ConvolverNode(this.context, { buffer, disableNormalization: true });
    this.roomBus = this.bus(this.recordingBus);
    const mono = new GainNode(this.context, { channelCount: 1, channelCountMode: 'explicit' });
    this.strokeBus.connect(mono).connect(room).connect(this.roomBus);
  }

  // Sounds that a server has sent, perhaps after the graph was made.
  soundsCame() {
    this.decode();
    if (this.context) this.furnish();
  }

  decode() {
    if (this.missing) return;
    const { samples, rateHz } = this.sounds;
    while (this.buffers.length < samples.length) {
      const sample = samples[this.buffers.length];
      this.buffers.push(pcmBuffer(sample.pcm, rateHz));
      sample.pcm = '';
    }
  }

  // Which buses sound. `isHeard`: whether a group does. With one group alone the background is silent, too.
  /** @param {{ recording: boolean, click: boolean, alone: number | null, isHeard: (group: number) => boolean }} how */
  balance({ recording, click, alone, isHeard }) {
    if (!this.context) return;
    /** @param {GainNode} bus @param {boolean} on */
    const set = (bus, on) => bus.gain.setTargetAtTime(on ? 1 : 0, this.context.currentTime, 0.012);
    set(this.recordingBus, recording);
    set(this.clickBus, click);
    set(this.countInBus, recording || click);
    set(this.bedBus, alone === null);
    this.parts.forEach((part, k) => set(this.partBuses[k], !part.group || isHeard(part.group)));
  }

  // The room answers from `startS` on; `hush` closes its door, so that a pause is silent at once.
  /** @param {number} startS */
  openRoom(startS) {
    this.roomBus?.gain.setTargetAtTime(1, startS, 0.005);
  }

  /** @param {number | 'box'} part @param {number} pan */
  place(part, pan) {
    const name = `${part} ${pan}`;
    const placed = this.places.get(name) ?? new StereoPannerNode(this.context, { pan });
    if (!this.places.has(name)) {
      placed.connect(part === 'box' ? this.boxBus : this.partBuses[part]);
      this.places.set(name, placed);
    }
    return placed;
  }

  /**
   * @param {AudioBufferSourceOptions} how
   * @param {number} gainValue
   * @param {AudioNode} into
   * @param {number} startS
   * @param {number} offsetS
   * @returns {Voice}
   */
  voice(how, gainValue, into, startS, offsetS) {
    const source = new AudioBufferSourceNode(this.context, how);
    const gain = new GainNode(this.context, { gain: gainValue });
    source.connect(gain).connect(into);
    source.start(Math.max(0, startS), offsetS);
    const voice = { source, gain, startS, held: source.loop };
    this.voices.add(voice);
    source.onended = () => {
      this.voices.delete(voice);
      gain.disconnect();
    };
    return voice;
  }

  // What to play an event with: its recording, as a loop where it is one or where the note outlasts it.
  /** @param {number} k @param {number} lastsS @returns {Recording} */
  source(k, lastsS) {
    const buffer = this.buffers[k];
    if (this.sounds.samples[k].loop) return { buffer, loop: true, loopStart: 0, loopEnd: buffer.duration };
    if (lastsS <= buffer.duration) return { buffer, loop: false, loopStart: 0, loopEnd: buffer.duration };
    const longer = this.longer.get(k) ?? lengthened(buffer);
    this.longer.set(k, longer);
    return longer;
  }

  // Puts event `i` on the clock at `startS`; `offsetS`: how much of it has passed by then.
  /** @param {number} i @param {number} startS @param {number} offsetS @param {number} speed */
  event(i, startS, offsetS, speed) {
    if (startS < this.timeS - LATE_S) return; // after a stall, better a gap than a burst of late strokes
    const { part, sample, gain, pan, lastsS } = this.sounds.events;
    const longS = lastsS[i] / speed;
    const how = this.source(sample[i], longS);
    if (!how.loop && offsetS >= how.buffer.duration) return;
    const round = how.loop ? how.loopEnd - how.loopStart : 0;
    const inside = offsetS < how.loopEnd ? offsetS : how.loopStart + ((offsetS - how.loopStart) % round);
    const voice = this.voice(how, gain[i], this.place(part[i], pan[i]), startS, inside);
    if (longS > 0) {
      voice.held = true;
      const endS = startS - offsetS + longS;
      voice.gain.gain.setTargetAtTime(0, endS, 0.03);
      voice.source.stop(endS + 0.25);
    }
  }

  /** @param {number} startS @param {boolean} first @param {AudioNode} into */
  tap(startS, first, into) {
    this.voice({ buffer: this.taps?.[first ? 1 : 0] }, 1, into, startS, 0);
  }

  // A single stroke of the particle box.
  /** @param {AudioBuffer | undefined} buffer @param {number} gain @param {number} pan @param {number} startS */
  stroke(buffer, gain, pan, startS) {
    return this.context ? this.voice({ buffer }, gain, this.place('box', pan), startS, 0) : null;
  }

  // Lays a background from one position to another; `timeOf` turns a position into a time on the clock.
  /** @param {Bed} bed @param {number} fromS @param {number} toS @param {(positionS: number) => number} timeOf */
  bed({ sample, levels }, fromS, toS, timeOf) {
    const [startS, endS] = [timeOf(fromS), timeOf(toS)];
    const buffer = this.buffers[sample];
    const { gain, source } = this.voice({ buffer, loop: true }, 0, this.bedBus, startS, fromS % buffer.duration);
    gain.gain.setValueAtTime(0, startS);
    gain.gain.linearRampToValueAtTime(levelAt(levels, fromS), startS + 0.1);
    for (const [atS, level] of levels) {
      const timeS = timeOf(atS);
      if (timeS > startS + 0.1 && timeS < endS) gain.gain.linearRampToValueAtTime(level, timeS);
    }
    gain.gain.linearRampToValueAtTime(levelAt(levels, toS), endS);
    gain.gain.linearRampToValueAtTime(0, endS + 0.5);
    source.stop(endS + 0.6);
  }

  // Takes sounds off the clock: those that would begin at `fromS` or later, and of those that sound by then the held
  // ones; strokes ring on. From 0: everything.
  /** @param {number} fromS */
  hush(fromS) {
    if (!this.context) return;
    if (fromS === 0) this.roomBus?.gain.setTargetAtTime(0, this.context.currentTime, FADE_S / 3);
    const nowS = this.context.currentTime;
    for (const { source, gain, startS, held } of this.voices) {
      if (startS >= fromS && startS > nowS) source.stop();
      else if (fromS === 0 || held) {
        const endS = Math.max(nowS, fromS);
        if (gain.gain.cancelAndHoldAtTime) gain.gain.cancelAndHoldAtTime(endS);
        else gain.gain.cancelScheduledValues(endS);
        gain.gain.setTargetAtTime(0, endS, FADE_S / 3);
        source.stop(endS + 2 * FADE_S);
      }
    }
  }

  // The level that is being played, root mean square of the last block.
  level() {
    if (!this.meter) return 0;
    const block = new Float32Array(this.meter.fftSize);
    this.meter.getFloatTimeDomainData(block);
    return Math.sqrt(block.reduce((sum, x) => sum + x * x, 0) / block.length);
  }
}
