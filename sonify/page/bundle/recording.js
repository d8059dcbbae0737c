// Made by tests/javascript/bundle from the modules beside this folder: change those.
(() => {
  // clock.js
  var HAIR_S = 1e-4;
  function lastNotAbove(rows, wanted, valueOf) {
    let low = 0;
    let high = rows.length - 1;
    while (low < high) {
      const middle = low + high + 1 >> 1;
      if (valueOf(rows[middle]) <= wanted) low = middle;
      else high = middle - 1;
    }
    return low;
  }
  function firstFrom(times, positionS) {
    const wanted = positionS - HAIR_S;
    return times.length && times[0] < wanted ? lastNotAbove(times, wanted, (time2) => time2) + 1 : 0;
  }
  var PieceClock = class {
    /** @param {Timing} timing @param {Stage[]} stages */
    constructor(timing, stages) {
      this.beatsABar = timing.beatsABar;
      this.countInBars = timing.countInBars;
      this.pieceBars = timing.pieceBars;
      this.endS = timing.endS;
      this.tempi = timing.tempi;
      this.stages = stages;
      this.bars = timing.bars.map(([bar2, startS, perBeatS]) => ({ bar: bar2, startS, perBeatS }));
      this.firstS = this.startOfBar(1);
      this.beatTimes = this.bars.flatMap(
        ({ bar: bar2, startS, perBeatS }) => Array.from({ length: this.beatsABar }, (_, k) => ({ bar: bar2, first: k === 0, atS: startS + k * perBeatS }))
      );
    }
    /** @param {number} positionS */
    barAt(positionS) {
      return this.bars[lastNotAbove(this.bars, positionS + HAIR_S, (row) => row.startS)];
    }
    /** @param {number} bar */
    startOfBar(bar2) {
      const row = this.bars.find((each) => each.bar === bar2);
      return row ? row.startS : this.endS;
    }
    // Bar and beat from 1, how far through the beat (0 to 1), and `beats`: how many since the first beat of bar 1.
    /** @param {number} positionS @returns {BeatPlace} */
    at(positionS) {
      const { bar: bar2, startS, perBeatS } = this.barAt(positionS);
      const inBar = Math.min(Math.max((positionS - startS + HAIR_S) / perBeatS, 0), this.beatsABar - 1e-9);
      return {
        bar: bar2,
        beat: Math.floor(inBar) + 1,
        phase: inBar % 1,
        beats: (bar2 - 1) * this.beatsABar + inBar,
        perBeatS
      };
    }
    /** @param {number} bar */
    stageAt(bar2) {
      return lastNotAbove(this.stages, bar2, (stage) => stage.bar);
    }
    /** @param {number} bar */
    tempoAt(bar2) {
      return this.tempi[lastNotAbove(this.tempi, bar2, (tempo) => tempo.bar)];
    }
  };

  // samples.js
  function tapBuffer(pitchHz, decayS = 9e-3) {
    const rateHz = 44100;
    const buffer = new AudioBuffer({ length: Math.round(2400 * decayS / 9e-3), sampleRate: rateHz });
    const data2 = buffer.getChannelData(0);
    for (let i = 0; i < data2.length; i += 1) {
      const t = i / rateHz;
      data2[i] = 0.5 * Math.sin(2 * Math.PI * pitchHz * t) * Math.exp(-t / decayS) * Math.min(1, t / 5e-4);
    }
    return buffer;
  }
  function pcmBuffer(base64, rateHz) {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const view = new DataView(bytes.buffer);
    const length = bytes.length >> 1;
    const buffer = new AudioBuffer({ length: Math.max(1, length), sampleRate: rateHz });
    const data2 = buffer.getChannelData(0);
    for (let i = 0; i < length; i += 1) data2[i] = view.getInt16(2 * i, true) / 32768;
    return buffer;
  }
  var REACH = 16;
  function resampled(buffer, rateHz, gain) {
    const ratio = buffer.sampleRate / rateHz;
    const from = buffer.getChannelData(0);
    const out = new Float32Array(Math.ceil(from.length / ratio));
    for (let i = 0; i < out.length; i += 1) {
      const place = i * ratio;
      const middle = Math.floor(place);
      let sum = 0;
      for (let k = Math.max(0, middle - REACH + 1); k <= Math.min(from.length - 1, middle + REACH); k += 1) {
        const x = place - k;
        const wave = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
        sum += from[k] * wave * Math.cos(Math.PI * x / (2 * REACH)) ** 2;
      }
      out[i] = sum * gain;
    }
    return out;
  }
  function lengthened(buffer) {
    const from = Math.floor(0.35 * buffer.length);
    const to = Math.floor(0.8 * buffer.length);
    const fade = Math.floor(0.3 * (to - from));
    const longer = new AudioBuffer({ length: buffer.length, sampleRate: buffer.sampleRate });
    const data2 = longer.getChannelData(0);
    data2.set(buffer.getChannelData(0));
    for (let i = 0; i < fade; i += 1) {
      const share = i / fade;
      const before = data2[from - fade + i];
      data2[to - fade + i] = data2[to - fade + i] * Math.sqrt(1 - share) + before * Math.sqrt(share);
    }
    return { buffer: longer, loop: true, loopStart: from / buffer.sampleRate, loopEnd: to / buffer.sampleRate };
  }
  function levelAt(corners, positionS) {
    if (positionS <= corners[0][0]) return corners[0][1];
    const k = lastNotAbove(corners, positionS, (corner) => corner[0]);
    if (k === corners.length - 1) return corners[k][1];
    const [[fromS, from], [toS, to]] = [corners[k], corners[k + 1]];
    return from + (to - from) * (positionS - fromS) / (toS - fromS);
  }

  // mixer.js
  var LATE_S = 0.1;
  var FADE_S = 0.03;
  var WAIT_MS = 3e3;
  var LIMITER = { threshold: -2, knee: 0, ratio: 20, attack: 2e-3, release: 0.1 };
  var LIMITER_S = 6e-3;
  var LIMITER_MAKE_UP = 1.132;
  var Mixer = class {
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
      this.buffers = [];
      this.longer = /* @__PURE__ */ new Map();
      this.places = /* @__PURE__ */ new Map();
      this.voices = /* @__PURE__ */ new Set();
      this.askedMs = 0;
    }
    get missing() {
      return typeof AudioContext === "undefined";
    }
    // Whether the browser lets nothing sound though it was asked a while ago.
    get blocked() {
      return Boolean(this.context) && this.context.state !== "running" && performance.now() > this.askedMs + WAIT_MS;
    }
    get timeS() {
      return this.context ? this.context.currentTime : performance.now() / 1e3;
    }
    get latencyS() {
      return this.context ? (this.context.baseLatency || 0) + (this.context.outputLatency || 0) + LIMITER_S : 0;
    }
    // The moment of the audio clock that leaves the loudspeaker now. `currentTime` moves in steps of a whole audio
    // block; the output timestamp runs smoothly, so it is used wherever it agrees with clock and latency.
    heardS() {
      const plain = this.timeS - this.latencyS;
      const stamp = this.context?.getOutputTimestamp?.();
      if (!stamp?.performanceTime || stamp.contextTime === void 0) return plain;
      const smooth = stamp.contextTime + (performance.now() - stamp.performanceTime) / 1e3 - LIMITER_S;
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
      this.context = new AudioContext({ latencyHint: "balanced" });
      this.meter = new AnalyserNode(this.context, { fftSize: 2048 });
      this.meter.connect(this.context.destination);
      const limiter = new DynamicsCompressorNode(this.context, LIMITER);
      limiter.connect(this.bus(this.meter, 1 / LIMITER_MAKE_UP));
      this.recordingBus = this.bus(limiter);
      this.countInBus = this.bus(limiter);
      this.clickBus = this.bus(limiter);
      this.boxBus = this.bus(limiter);
      this.bedBus = this.bus(this.recordingBus);
      this.strokeBus = this.bus(this.recordingBus);
      this.partBuses = this.parts.map((part) => this.bus(part.group ? this.strokeBus : this.countInBus));
      this.furnish();
      this.taps = [tapBuffer(1047), tapBuffer(1568)];
      this.clicks = [tapBuffer(2349, 4e-3), tapBuffer(1760, 6e-3)];
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
      const answers = ears.map((pcm) => resampled(pcmBuffer(pcm, rateHz), sampleRate, gain * rateHz / sampleRate));
      const buffer = new AudioBuffer({ length: answers[0].length, numberOfChannels: 2, sampleRate });
      answers.forEach((answer, ear) => buffer.copyToChannel(answer, ear));
      const room = new ConvolverNode(this.context, { buffer, disableNormalization: true });
      this.roomBus = this.bus(this.recordingBus);
      const mono = new GainNode(this.context, { channelCount: 1, channelCountMode: "explicit" });
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
        sample.pcm = "";
      }
    }
    // Which buses sound. `isHeard`: whether a group does. With one group alone the background is silent, too.
    /** @param {{ recording: boolean, click: boolean, alone: number | null, isHeard: (group: number) => boolean }} how */
    balance({ recording, click, alone, isHeard }) {
      if (!this.context) return;
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
      this.roomBus?.gain.setTargetAtTime(1, startS, 5e-3);
    }
    /** @param {number | 'box'} part @param {number} pan */
    place(part, pan) {
      const name = `${part} ${pan}`;
      const placed = this.places.get(name) ?? new StereoPannerNode(this.context, { pan });
      if (!this.places.has(name)) {
        placed.connect(part === "box" ? this.boxBus : this.partBuses[part]);
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
      if (startS < this.timeS - LATE_S) return;
      const { part, sample, gain, pan, lastsS } = this.sounds.events;
      const longS = lastsS[i] / speed;
      const how = this.source(sample[i], longS);
      if (!how.loop && offsetS >= how.buffer.duration) return;
      const round = how.loop ? how.loopEnd - how.loopStart : 0;
      const inside = offsetS < how.loopEnd ? offsetS : how.loopStart + (offsetS - how.loopStart) % round;
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
      return this.context ? this.voice({ buffer }, gain, this.place("box", pan), startS, 0) : null;
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
      for (const { source, gain, startS, held: held2 } of this.voices) {
        if (startS >= fromS && startS > nowS) source.stop();
        else if (fromS === 0 || held2) {
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
  };

  // player.js
  var AHEAD_S = 1.2;
  var EVERY_MS = 150;
  var SOON_S = 0.06;
  var RING_S = 2.5;
  var CLIP_RING_S = 0.8;
  function noSounds() {
    return { rateHz: 22050, samples: [], events: { timeS: [], part: [], sample: [], gain: [], pan: [], lastsS: [] }, beds: [], toCome: true };
  }
  var Player = class extends EventTarget {
    /** @param {PieceClock} clock @param {Sounds} sounds @param {Part[]} parts */
    constructor(clock2, sounds, parts) {
      super();
      this.clock = clock2;
      this.sounds = sounds;
      this.mixer = new Mixer(sounds, parts);
      this.playing = false;
      this.restS = 0;
      this.speed = 1;
      this.repeat = null;
      this.clip = null;
      this.runs = [];
      this.resting = /* @__PURE__ */ new Set();
      this.alone = null;
      this.recording = true;
      this.click = false;
      this.ticker = 0;
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
        beat: Math.floor(passed) % this.clock.beatsABar + 1,
        phase: passed % 1,
        beats: music.beats - counting,
        positionS: run.musicS,
        counting,
        restart
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
        this.wanted = [positionS, countIn, clip];
        return;
      }
      this.clip = clip;
      if (this.mixer.missing) this.dispatchEvent(new Event("silent"));
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
      this.dispatchEvent(new Event("change"));
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
        if (lastsS[i] > passedS + 0.1) this.mixer.event(i, this.timeOf(run, run.musicS), passedS / run.speed, run.speed);
      }
      for (const bed of this.sounds.beds) this.mixer.bed(bed, run.musicS, run.endS, (s) => this.timeOf(run, s));
    }
    tick() {
      if (this.mixer.blocked) {
        this.stopAt(this.clip ? this.restS : this.runs[0].musicS);
        this.dispatchEvent(new Event("blocked"));
        return;
      }
      const horizonS = this.mixer.timeS + AHEAD_S;
      let run = this.runs[this.runs.length - 1];
      for (; ; ) {
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
        this.dispatchEvent(new Event("finish"));
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
  };

  // screen.js
  function find(id, kind) {
    return ofKind(document.getElementById(id), id, kind);
  }
  function ofKind(found, name, kind) {
    if (kind && !(found instanceof kind)) throw new TypeError(`${name}: ${kind.name}`);
    return found;
  }
  var WORDS = readData("words-data");
  function readData(id) {
    return JSON.parse(find(id).textContent);
  }
  var PLURALS = new Intl.PluralRules(document.documentElement.lang);
  function phrase(id, places = {}) {
    return filled(WORDS[id], places);
  }
  function filled(pieces, places) {
    return pieces.map((piece) => typeof piece === "string" ? piece : pieceOf(piece, places)).join("");
  }
  function pieceOf({ place, variants, other = "" }, places) {
    const value = places[place];
    if (!variants) return String(value);
    return filled(variants[value] ?? variants[typeof value === "number" ? PLURALS.select(value) : other] ?? variants[other], places);
  }
  function setText(element, text) {
    if (element.textContent !== text) element.textContent = text;
  }
  function setRows(list, rows, fill) {
    const mark = JSON.stringify(rows);
    if (list.dataset.mark === mark) return;
    list.dataset.mark = mark;
    list.replaceChildren(
      ...rows.map((row) => {
        const item = document.createElement("li");
        fill(item, row);
        return item;
      })
    );
  }

  // recording_chart.js
  var SVG = "http://www.w3.org/2000/svg";
  var WIDTH = 1200;
  var HEIGHT = 420;
  var LEFT = 110;
  var FOOT = 50;
  var BEYOND = 16;
  var Chart = class {
    /** @param {HTMLElement} field @param {(bar: number) => void} go */
    constructor(field, go) {
      this.field = field;
      this.bars = 1;
      this.line = null;
      field.addEventListener("click", (event) => {
        const box = field.firstElementChild?.getBoundingClientRect();
        if (!box) return;
        const scale = Math.min(box.width / WIDTH, box.height / HEIGHT);
        const x = (event.clientX - box.left - (box.width - WIDTH * scale) / 2) / scale;
        const share = (x - LEFT) / (WIDTH - LEFT);
        if (share >= 0 && share <= 1) go(Math.min(this.bars, 1 + Math.floor(share * this.bars)));
      });
    }
    /** @param {RecordingPlot} plot @param {number} bars */
    draw(plot, bars) {
      this.bars = bars;
      const svg = document.createElementNS(SVG, "svg");
      svg.setAttribute("viewBox", `0 0 ${WIDTH} ${HEIGHT}`);
      svg.setAttribute("class", "curves-picture");
      svg.setAttribute("role", "img");
      svg.setAttribute("aria-label", phrase("script_record-described", { bars }));
      const add = (tag, attributes) => {
        const element = document.createElementNS(SVG, tag);
        for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
        svg.append(element);
        return element;
      };
      const x = (share) => LEFT + share * (WIDTH - LEFT);
      const y = (share) => (1 - share) * (HEIGHT - FOOT);
      for (const { at, text } of plot.ticks) {
        add("line", { class: "grid", x1: LEFT, x2: WIDTH, y1: y(at), y2: y(at) });
        add("text", { x: LEFT - 10, y: y(at) + 7, "text-anchor": "end" }).textContent = text;
      }
      for (const stage of plot.stages) {
        add("line", { class: "grid", x1: x(stage.from), x2: x(stage.from), y1: 0, y2: HEIGHT });
        add("text", { x: (x(stage.from) + x(stage.to)) / 2, y: HEIGHT - 10, "text-anchor": "middle" }).textContent = stage.letter;
        if (stage.ours === null || stage.low === null || stage.high === null) continue;
        add("rect", { class: "sure", x: x(stage.from), y: y(stage.high), width: x(stage.to) - x(stage.from), height: y(stage.low) - y(stage.high) });
        add("line", { class: "ours", x1: x(stage.from), x2: x(stage.to), y1: y(stage.ours), y2: y(stage.ours) });
        if (stage.above === null) continue;
        const [middle, foot] = [(x(stage.from) + x(stage.to)) / 2, y(stage.ours)];
        const tip = foot + (stage.above ? -BEYOND : BEYOND);
        add("polygon", { class: "beyond", points: `${middle - BEYOND},${foot} ${middle + BEYOND},${foot} ${middle},${tip}` });
      }
      add("polyline", { class: "science", points: plot.science.map(([across, up]) => `${x(across).toFixed(1)},${y(up).toFixed(1)}`).join(" ") });
      this.line = add("line", { class: "now", x1: LEFT, x2: LEFT, y1: 0, y2: HEIGHT - FOOT });
      this.field.replaceChildren(svg);
    }
    /** @param {number} bar */
    now(bar2) {
      const x = LEFT + (bar2 - 1) / this.bars * (WIDTH - LEFT);
      for (const name of ["x1", "x2"]) this.line?.setAttribute(name, x.toFixed(1));
    }
  };

  // wav.js
  var FULL = 32767;
  var HEAD_BYTES = 44;
  function wavOf(heard, longestS = Infinity) {
    const { numberOfChannels, sampleRate } = heard;
    const length = Math.min(heard.length, Math.round(longestS * sampleRate));
    const channels = Array.from({ length: numberOfChannels }, (_, n) => heard.getChannelData(n));
    const view = new DataView(new ArrayBuffer(HEAD_BYTES + 2 * length));
    const write = (at, text) => [...text].forEach((letter, n) => view.setUint8(at + n, letter.charCodeAt(0)));
    write(0, "RIFF");
    view.setUint32(4, HEAD_BYTES - 8 + 2 * length, true);
    write(8, "WAVEfmt ");
    for (const [at, value] of [[16, 16], [24, sampleRate], [28, 2 * sampleRate], [40, 2 * length]]) view.setUint32(at, value, true);
    for (const [at, value] of [[20, 1], [22, 1], [32, 2], [34, 16]]) view.setUint16(at, value, true);
    write(36, "data");
    for (let k = 0; k < length; k += 1) {
      const sum = channels.reduce((all, channel) => all + channel[k], 0) / numberOfChannels;
      view.setInt16(HEAD_BYTES + 2 * k, Math.round(Math.max(-1, Math.min(1, sum)) * FULL), true);
    }
    return view.buffer;
  }

  // recording_sound.js
  var RATE_HZ = 22050;
  var LONGEST_S = 15 * 60;
  var READ = /\.(wav|flac|ogg|mp3)$/i;
  var MOST_DECODED = 6e7;
  var hasMicrophone = () => isSecureContext && Boolean(navigator.mediaDevices) && typeof MediaRecorder !== "undefined";
  async function readable(blob, name) {
    if (READ.test(name) || blob.size > MOST_DECODED) return { blob, name };
    try {
      const heard = await new OfflineAudioContext(1, 1, RATE_HZ).decodeAudioData(await blob.arrayBuffer());
      return { blob: new Blob([wavOf(heard)], { type: "audio/wav" }), name: "recording.wav" };
    } catch {
      return { blob, name };
    }
  }
  var Microphone = class {
    /** @param {HTMLMeterElement} meter */
    constructor(meter) {
      this.meter = meter;
      this.recorder = null;
      this.pieces = [];
      this.ticker = 0;
    }
    get recording() {
      return this.recorder !== null;
    }
    // What a browser does to a voice on a call would take the music away: all of it is turned off.
    /** @param {(seconds: number) => void} tell */
    async begin(tell) {
      const audio = { echoCancellation: false, noiseSuppression: false, autoGainControl: false };
      const stream = await navigator.mediaDevices.getUserMedia({ audio });
      const recorder = new MediaRecorder(stream);
      this.recorder = recorder;
      this.pieces = [];
      recorder.addEventListener("dataavailable", ({ data: data2 }) => this.pieces.push(data2));
      recorder.start(1e3);
      const begun = performance.now();
      const context = new AudioContext();
      const heard = context.createAnalyser();
      context.createMediaStreamSource(stream).connect(heard);
      const samples = new Float32Array(heard.fftSize);
      this.context = context;
      this.meter.hidden = false;
      const tick = () => {
        heard.getFloatTimeDomainData(samples);
        this.meter.value = Math.min(1, samples.reduce((most, value) => Math.max(most, Math.abs(value)), 0));
        const seconds = (performance.now() - begun) / 1e3;
        tell(seconds);
        if (seconds > LONGEST_S) document.getElementById("stop")?.click();
      };
      tick();
      this.ticker = setInterval(tick, 200);
    }
    // What was recorded; the microphone is let go of.
    /** @returns {Promise<Blob | null>} */
    async end() {
      const { recorder } = this;
      if (!recorder) return null;
      await new Promise((done) => {
        recorder.addEventListener("stop", done, { once: true });
        recorder.stop();
      });
      const blob = new Blob(this.pieces, { type: recorder.mimeType });
      this.drop();
      return blob;
    }
    drop() {
      clearInterval(this.ticker);
      for (const track of this.recorder?.stream.getTracks() ?? []) track.stop();
      this.context?.close();
      this.context = void 0;
      this.recorder = null;
      this.pieces = [];
      this.meter.hidden = true;
    }
  };

  // recording.js
  var ASK_MS = 700;
  var MOST_BYTES = 4e8;
  var data = readData("lesson-data");
  var { key = "", sounds: soundsAddress = "" } = document.body.dataset;
  var clock = new PieceClock(data.timing, data.stages);
  var player = new Player(clock, noSounds(), data.parts);
  var ours = find("ours", HTMLAudioElement);
  var bar = find("bar", HTMLInputElement);
  var microphone = new Microphone(find("level", HTMLMeterElement));
  var sending = null;
  var asking = 0;
  var held = null;
  var told = null;
  async function asked(what, options = {}) {
    const answer = await fetch(`/api/recording/${key}${what}`, options);
    const found = await answer.json();
    if (!answer.ok) throw new Error(found.error);
    return found;
  }
  var posted = (what) => asked(what, { method: "POST", headers: { "Content-Type": "application/json", "X-Sonify": "1" }, body: "{}" });
  function trouble(error) {
    const silent = !(error instanceof Error) || error instanceof TypeError;
    setText(find("trouble"), silent ? phrase("script_record-no-answer") : error.message);
    find("trouble").hidden = false;
  }
  function working(words, share) {
    find("work").hidden = false;
    find("bring").hidden = true;
    setText(find("work-words"), words);
    const bar2 = find("work-share", HTMLProgressElement);
    if (share === null) bar2.removeAttribute("value");
    else bar2.value = share;
  }
  function idle() {
    clearTimeout(asking);
    find("work").hidden = true;
    find("bring").hidden = false;
  }
  async function send(blob, name) {
    find("trouble").hidden = true;
    find("result").hidden = true;
    stopPlaying();
    if (blob.size > MOST_BYTES) {
      trouble(new Error(phrase("script_record-too-large", { most: MOST_BYTES / 1e6 })));
      return;
    }
    const own = sending = new AbortController();
    try {
      working(phrase("script_record-preparing"), null);
      const ready = await readable(blob, name);
      if (own.signal.aborted) return;
      working(phrase("script_record-sending"), null);
      held = blob;
      const options = { method: "POST", headers: { "Content-Type": "application/octet-stream", "X-Sonify": "1" }, body: ready.blob, signal: own.signal };
      show(await asked(`/file?name=${encodeURIComponent(ready.name)}`, options));
    } catch (error) {
      idle();
      if (!own.signal.aborted) trouble(error);
    } finally {
      sending = null;
    }
  }
  async function ask() {
    try {
      show(await asked(""));
    } catch (error) {
      idle();
      trouble(error);
    }
  }
  function show(state) {
    clearTimeout(asking);
    if (["arriving", "measuring", "waiting"].includes(state.state)) {
      const waits = state.state === "waiting";
      working(waits ? phrase("script_record-waiting") : phrase("script_record-measuring", { doing: state.doing }), waits ? null : state.share);
      asking = setTimeout(ask, ASK_MS);
      return;
    }
    idle();
    if (state.state === "failed") trouble(new Error(state.error));
    if (state.state === "ready" && state.told) showTold(state.told, state.from_phone);
  }
  async function stop() {
    sending?.abort();
    microphone.drop();
    try {
      const state = await posted("/cancel");
      idle();
      setText(find("said"), phrase("script_record-stopped"));
      if (state.state === "ready") show(state);
    } catch (error) {
      idle();
      trouble(error);
    }
  }
  function showTold(found, fromPhone) {
    told = found;
    find("result").hidden = false;
    const notes = found.clipped ? [phrase("script_record-clipped")] : [];
    if (found.recognised) notes.unshift(phrase("script_record-from-to", { start: time(found.start_s ?? 0), end: time(found.end_s ?? 0) }));
    else notes.unshift(found.why);
    setText(find("result-title"), found.recognised ? phrase("script_record-found", { takes: found.takes }) : phrase("script_record-not-found"));
    setRows(find("result-notes"), notes, (item, words) => setText(item, words));
    for (const part of find("result").querySelectorAll(".panel")) part.hidden = !found.recognised;
    find("result-title").focus({ preventScroll: false });
    if (!found.recognised) return;
    const { plot } = found.sheet;
    find("curves").hidden = !plot;
    if (plot) {
      setText(find("curves-unit"), plot["unit-told"]);
      setText(find("curves-legend"), plot.legend);
      chart.draw(plot, data.timing.pieceBars);
    }
    const here = !fromPhone && held !== null;
    find("play-ours").hidden = !here;
    find("gone").hidden = here;
    if (here && held) {
      if (ours.src) URL.revokeObjectURL(ours.src);
      ours.src = URL.createObjectURL(held);
    }
    showStages(found);
    showSentences(found);
    showBar();
  }
  function showStages(found) {
    const rows = found.stages.map((stage, k) => stageRow(stage, found.sheet.rows[k].told));
    find("stages").replaceChildren(...rows);
  }
  function stageRow(stage, words) {
    const row = document.createElement("tr");
    const go = document.createElement("button");
    go.type = "button";
    go.setAttribute("aria-label", phrase("script_record-jump", { bar: stage.bar }));
    setText(go, stage.letter);
    go.addEventListener("click", () => goTo(stage.bar));
    const heard = stage.bpm === null ? "–" : phrase("script_record-tempo", { value: Math.round(stage.bpm), low: Math.round(stage.bpm_low ?? 0), high: Math.round(stage.bpm_high ?? 0) });
    const heads = find("result").querySelectorAll("thead th");
    const cells = ["", stage.title, String(Math.round(stage.planned_bpm)), heard, words].map((text, k) => {
      const cell = document.createElement(k ? "td" : "th");
      if (k) setText(cell, text);
      else cell.append(go);
      if (k > 1 && text) cell.dataset.head = heads[k].textContent ?? "";
      return cell;
    });
    row.append(...cells);
    return row;
  }
  function showSentences({ questions, next_run, sheet }) {
    const can = questions.filter(({ answer }) => answer !== "cannot tell");
    const cannot = questions.filter(({ answer }) => answer === "cannot tell");
    const fill = (item, { question, words }) => {
      const strong = document.createElement("strong");
      setText(strong, question);
      item.replaceChildren(strong, ` ${words}`);
    };
    setRows(find("answers"), can.map(({ question, answer, why }) => ({ question, words: phrase("script_record-answer", { answer, why }) })), fill);
    setRows(find("untold-list"), cannot.map(({ question, why }) => ({ question, words: phrase("script_record-because", { why }) })), fill);
    find("untold").hidden = !cannot.length;
    setText(find("untold-count"), phrase("script_record-untold", { count: cannot.length }));
    setRows(find("next"), next_run, (item, words) => setText(item, words));
    setRows(find("reflect"), sheet.reflect, (item, words) => setText(item, words));
  }
  function time(seconds) {
    const whole = Math.max(0, Math.round(seconds));
    return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
  }
  var chart = new Chart(find("curves-field"), (to) => goTo(to));
  function startOfOurs(number) {
    const bars = told?.bars ?? [];
    return (bars.find((each) => each.bar === number) ?? bars.find((each) => each.bar > number) ?? bars.at(-1))?.start_s ?? 0;
  }
  function goTo(number) {
    bar.value = String(number);
    showBar();
    if (!ours.paused) ours.currentTime = startOfOurs(number);
    else if (player.playing) player.goTo(clock.startOfBar(number), false);
  }
  function showBar() {
    setText(find("bar-said"), phrase("script_record-bar", { bar: Number(bar.value), bars: data.timing.pieceBars }));
    chart.now(Number(bar.value));
  }
  function stopPlaying() {
    ours.pause();
    player.pause();
  }
  function playOurs() {
    const stops = !ours.paused;
    stopPlaying();
    if (stops) return;
    ours.currentTime = startOfOurs(Number(bar.value));
    ours.play().catch(trouble);
  }
  function playPiece() {
    const stops = player.playing;
    stopPlaying();
    if (!stops) player.play(clock.startOfBar(Number(bar.value)), false);
  }
  function follow() {
    const playing = !ours.paused || player.playing;
    setText(find("play-ours"), ours.paused ? phrase("script_record-play-ours") : phrase("script_record-stop-playing"));
    setText(find("play-piece"), player.playing ? phrase("script_record-stop-playing") : phrase("script_record-play-piece"));
    if (!playing) return;
    const at = ours.paused ? player.moment().bar : told?.bars.findLast((each) => each.start_s <= ours.currentTime)?.bar ?? 1;
    if (at >= 1) {
      bar.value = String(at);
      showBar();
    }
  }
  setInterval(follow, 150);
  var file = find("file", HTMLInputElement);
  var drop = find("drop");
  file.addEventListener("change", () => {
    const [given] = file.files ?? [];
    file.value = "";
    if (given) send(given, given.name);
  });
  for (const kind of ["dragenter", "dragover"]) {
    document.body.addEventListener(kind, (event) => {
      event.preventDefault();
      drop.dataset.over = "true";
    });
  }
  document.body.addEventListener("dragleave", () => delete drop.dataset.over);
  document.body.addEventListener("drop", (event) => {
    event.preventDefault();
    delete drop.dataset.over;
    const given = event.dataTransfer?.files[0];
    if (given && find("work").hidden) send(given, given.name);
  });
  find("microphone").hidden = !hasMicrophone();
  find("record").addEventListener("click", async () => {
    find("trouble").hidden = true;
    find("result").hidden = true;
    stopPlaying();
    try {
      await microphone.begin((seconds) => working(phrase("script_record-recording", { time: time(seconds) }), null));
    } catch {
      trouble(new Error(phrase("script_record-no-microphone")));
    }
  });
  find("stop").addEventListener("click", async () => {
    const taken = microphone.recording ? await microphone.end() : null;
    if (taken) send(taken, "microphone.webm");
    else stop();
  });
  document.getElementById("phone")?.addEventListener("click", async () => {
    find("trouble").hidden = true;
    find("result").hidden = true;
    try {
      show(await posted("/wait"));
    } catch (error) {
      trouble(error);
    }
  });
  bar.addEventListener("input", () => goTo(Number(bar.value)));
  find("play-ours").addEventListener("click", playOurs);
  find("play-piece").addEventListener("click", playPiece);
  async function fetchSounds() {
    try {
      const answer = await fetch(soundsAddress);
      if (answer.ok) player.soundsCame(await answer.json());
    } catch {
    }
  }
  fetchSounds();
  ask();
  Object.assign(window, { sonifyRecording: () => ({ told, playing: player.playing, oursPaused: ours.paused, bar: Number(bar.value) }) });
})();
