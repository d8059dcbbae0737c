// Plays the piece: every sound is put on the audio clock shortly before it is due. A slower tempo moves the sounds
// apart and leaves each as it is, so pitch stays. What is shown follows what is heard, through `heardS`.

const AHEAD_S = 1.2; // a hidden tab wakes its timers once a second only
const EVERY_MS = 150;
const SOON_S = 0.06;
const FADE_S = 0.03;
const RING_S = 2.5; // the last sounds die away
const LATE_S = 0.1;
const WAIT_MS = 3000;
const LIMITER_S = 0.006; // the delay of a DynamicsCompressorNode, fixed by the Web Audio standard
const LIMITER_MAKE_UP = 1.132; // the gain it adds by itself at the settings below, measured

// A short wooden tap for the beats of a click track; the piece's own count-in is recorded.
function tapBuffer(pitchHz) {
  const rateHz = 44100;
  const buffer = new AudioBuffer({ length: 2400, sampleRate: rateHz });
  const data = buffer.getChannelData(0);
  for (let i = 0; i < data.length; i += 1) {
    const t = i / rateHz;
    data[i] = 0.5 * Math.sin(2 * Math.PI * pitchHz * t) * Math.exp(-t / 0.009) * Math.min(1, t / 0.0005);
  }
  return buffer;
}

// 16-bit little-endian PCM in base64 to a buffer. Done by hand: exact, and no decoder's delay before the first sample.
function pcmBuffer(base64, rateHz) {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const view = new DataView(bytes.buffer);
  const length = bytes.length >> 1;
  const buffer = new AudioBuffer({ length: Math.max(1, length), sampleRate: rateHz });
  const data = buffer.getChannelData(0);
  for (let i = 0; i < length; i += 1) data[i] = view.getInt16(2 * i, true) / 32768;
  return buffer;
}

// A held sound made longer without changing its pitch: its middle goes round, the end of each round faded into the
// next. For rehearsal tempi, where a note lasts longer than its recording.
function lengthened(buffer) {
  const from = Math.floor(0.35 * buffer.length);
  const to = Math.floor(0.8 * buffer.length);
  const fade = Math.floor(0.3 * (to - from));
  const longer = new AudioBuffer({ length: buffer.length, sampleRate: buffer.sampleRate });
  const data = longer.getChannelData(0);
  data.set(buffer.getChannelData(0));
  for (let i = 0; i < fade; i += 1) {
    const share = i / fade;
    const before = data[from - fade + i];
    data[to - fade + i] = data[to - fade + i] * Math.sqrt(1 - share) + before * Math.sqrt(share);
  }
  return { buffer: longer, loop: true, loopStart: from / buffer.sampleRate, loopEnd: to / buffer.sampleRate };
}

// A curve of [seconds, value] corners at one moment, straight between them.
function levelAt(corners, positionS) {
  if (positionS <= corners[0][0]) return corners[0][1];
  const k = lastNotAbove(corners, positionS, (corner) => corner[0]);
  if (k === corners.length - 1) return corners[k][1];
  const [[fromS, from], [toS, to]] = [corners[k], corners[k + 1]];
  return from + ((to - from) * (positionS - fromS)) / (toS - fromS);
}

class Player extends EventTarget {
  constructor(clock, sounds, parts) {
    super();
    this.clock = clock;
    this.sounds = sounds;
    this.parts = parts;
    this.buffers = [];
    this.longer = new Map(); // recordings made longer, by index
    this.context = null;
    this.silent = false; // true where the browser has no Web Audio: then the beat runs on the page's own clock
    this.playing = false;
    this.restS = 0; // where a stopped piece stands
    this.speed = 1;
    this.repeat = null; // a stage's index
    this.runs = []; // stretches of playing, the latest last
    this.voices = new Set();
    this.resting = new Set(); // groups
    this.alone = null;
    this.recording = true;
    this.click = false;
    this.ticker = 0;
    this.askedMs = 0; // when the sound was last asked to start
  }

  // Clocks ---------------------------------------------------------------------------------------------------------

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
    if (!stamp || !stamp.performanceTime) return plain;
    const smooth = stamp.contextTime + (performance.now() - stamp.performanceTime) / 1000 - LIMITER_S;
    return Math.abs(smooth - plain) < 0.05 ? smooth : plain;
  }

  // Where the piece is at a moment of the audio clock, and in a count-in how many beats are still to come.
  whereAt(timeS) {
    let run = this.runs[0];
    for (const each of this.runs) if (each.atS <= timeS) run = each;
    const positionS = run.fromS + Math.max(0, timeS - run.atS) * run.speed;
    return { positionS: Math.min(positionS, this.clock.endS), run };
  }

  // What to show `leadS` after the moment that is heard now: bar, beat and phase as the clock has them; `counting` is
  // how many beats of a count-in are left, `restart` whether that count-in leads into the middle of the piece.
  moment(leadS = 0) {
    if (!this.playing) return { ...this.clock.at(this.restS), positionS: this.restS, counting: 0, restart: false };
    const { positionS, run } = this.whereAt(this.heardS() + leadS);
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

  timeOf(run, positionS) {
    return run.atS + (positionS - run.fromS) / run.speed;
  }

  // Commands -------------------------------------------------------------------------------------------------------

  // Starts at a position; `countIn` counts two bars first at the tempo found there (the very start has its own).
  play(positionS, countIn) {
    this.open();
    this.hush(0);
    const atS = this.timeS + SOON_S;
    this.playing = true;
    this.runs = [this.newRun(atS, positionS, countIn && positionS >= this.clock.firstS - HAIR_S)];
    this.startRun(this.runs[0]);
    this.tick();
    clearInterval(this.ticker);
    this.ticker = setInterval(() => this.tick(), EVERY_MS);
    this.changed();
  }

  pause() {
    if (!this.playing) return;
    const { positionS, run } = this.whereAt(this.heardS());
    const musicS = Math.max(positionS, run.musicS);
    this.stopAt(musicS < this.clock.firstS ? 0 : musicS);
  }

  stopAt(positionS) {
    clearInterval(this.ticker);
    this.hush(0);
    this.playing = false;
    this.runs = [];
    this.restS = positionS;
    this.changed();
  }

  goTo(positionS, countIn) {
    if (this.playing) this.play(positionS, countIn);
    else {
      this.restS = positionS;
      this.changed();
    }
  }

  setSpeed(speed) {
    this.speed = speed;
    this.replan();
  }

  setRepeat(stage) {
    this.repeat = stage;
    this.replan();
  }

  // From now on the piece runs under the present settings: what was due later is put on the clock anew.
  replan() {
    if (this.playing) {
      const atS = this.timeS + SOON_S;
      const { positionS, run } = this.whereAt(atS);
      const musicS = Math.max(run.musicS, positionS);
      const next = { ...run, atS, fromS: positionS, musicS, doneS: -Infinity, ...this.terms(musicS) };
      this.runs = [...this.runs.filter((each) => each.atS < atS), next];
      this.hush(atS);
      this.startRun(next);
      this.tick();
    }
    this.changed();
  }

  setGroups(resting, alone) {
    this.resting = resting;
    this.alone = alone;
    this.balance();
    this.changed();
  }

  setSound(recording, click) {
    this.recording = recording;
    this.click = click;
    this.balance();
    this.changed();
  }

  isHeard(group) {
    return this.alone === null ? !this.resting.has(group) : this.alone === group;
  }

  changed() {
    this.dispatchEvent(new Event('change'));
  }

  // Runs -----------------------------------------------------------------------------------------------------------

  newRun(atS, musicS, countIn) {
    const { perBeatS } = this.clock.barAt(musicS);
    const beats = countIn ? this.clock.countInBars * this.clock.beatsABar : 0;
    const fromS = musicS - beats * perBeatS;
    return { atS, fromS, musicS, countIn: beats, perBeatS, doneS: -Infinity, ...this.terms(musicS) };
  }

  // How fast a run goes, where it ends and whether it then begins again, as the settings are now.
  terms(musicS) {
    const stage = this.repeat === null ? null : this.clock.stages[this.repeat];
    const repeats = stage !== null && musicS < stage.endS - HAIR_S;
    return { speed: this.speed, repeats, endS: repeats ? stage.endS : this.clock.endS };
  }

  startRun(run) {
    if (!this.context) return;
    const { timeS, lastsS } = this.sounds.events;
    for (let i = 0; i < timeS.length && timeS[i] < run.musicS - HAIR_S; i += 1) {
      const passedS = run.musicS - timeS[i];
      // A long sound that began before is taken up in its middle.
      if (lastsS[i] > passedS + 0.1) this.sound(run, i, run.musicS, passedS / run.speed);
    }
    for (const bed of this.sounds.beds) this.layBed(run, bed);
  }

  tick() {
    if (this.context && this.context.state !== 'running' && performance.now() > this.askedMs + WAIT_MS) {
      this.stopAt(this.runs[0].musicS);
      this.dispatchEvent(new Event('blocked'));
      return;
    }
    const horizonS = this.timeS + AHEAD_S;
    let run = this.runs.at(-1);
    for (;;) {
      const untilS = Math.min(run.fromS + (horizonS - run.atS) * run.speed, run.endS);
      if (this.context) this.schedule(run, untilS);
      run.doneS = Math.max(run.doneS, untilS);
      if (!run.repeats || this.timeOf(run, run.endS) > horizonS) break;
      const stage = this.clock.stages[this.repeat];
      const next = this.newRun(this.timeOf(run, run.endS), stage.startS, true);
      this.runs.push(next);
      this.startRun(next);
      run = next;
    }
    const heardS = this.heardS();
    while (this.runs.length > 1 && this.runs[1].atS < heardS - 1) this.runs.shift();
    if (!run.repeats && heardS > this.timeOf(run, run.endS) + RING_S) {
      this.stopAt(0);
      this.dispatchEvent(new Event('finish'));
    }
  }

  schedule(run, untilS) {
    const { timeS } = this.sounds.events;
    const fromS = Math.max(run.doneS, run.musicS);
    let i = timeS.length && timeS[0] < fromS - HAIR_S ? lastNotAbove(timeS, fromS - HAIR_S, (t) => t) + 1 : 0;
    for (; i < timeS.length && timeS[i] < untilS - HAIR_S; i += 1) {
      this.sound(run, i, timeS[i], 0);
    }
    for (let k = run.countIn; k > 0; k -= 1) {
      const beatS = run.musicS - k * run.perBeatS;
      if (beatS >= Math.max(run.doneS, run.fromS) - HAIR_S && beatS < untilS - HAIR_S) {
        this.tap(run, beatS, (run.countIn - k) % this.clock.beatsABar === 0, this.countInBus);
      }
    }
    for (const beat of this.clock.beatTimes) {
      if (beat.atS >= fromS - HAIR_S && beat.atS < untilS - HAIR_S && beat.bar >= 1) {
        this.tap(run, beat.atS, beat.first, this.clickBus);
      }
    }
  }

  // Sounds ---------------------------------------------------------------------------------------------------------

  // Makes the audio graph at the first press of Play: browsers allow sound only then.
  open() {
    this.askedMs = performance.now();
    if (this.context) this.context.resume();
    if (this.context || this.silent) return;
    if (typeof AudioContext === 'undefined') {
      this.silent = true;
      this.dispatchEvent(new Event('silent'));
      return;
    }
    this.decode();
    this.context = new AudioContext({ latencyHint: 'balanced' });
    const bus = (into) => {
      const gain = new GainNode(this.context);
      gain.connect(into);
      return gain;
    };
    this.meter = new AnalyserNode(this.context, { fftSize: 2048 });
    this.meter.connect(this.context.destination);
    const level = bus(this.meter);
    level.gain.value = 1 / LIMITER_MAKE_UP;
    const settings = { threshold: -2, knee: 0, ratio: 20, attack: 0.002, release: 0.1 };
    const limiter = new DynamicsCompressorNode(this.context, settings);
    limiter.connect(level);
    this.recordingBus = bus(limiter);
    this.countInBus = bus(limiter);
    this.clickBus = bus(limiter);
    this.bedBus = bus(this.recordingBus);
    this.partBuses = this.parts.map((part) => bus(part.group ? this.recordingBus : this.countInBus));
    this.places = new Map();
    this.taps = [tapBuffer(1047), tapBuffer(1568)];
    this.balance();
    this.context.resume();
  }

  decode() {
    if (typeof AudioContext === 'undefined') return;
    const { samples, rateHz } = this.sounds;
    while (this.buffers.length < samples.length) {
      const sample = samples[this.buffers.length];
      this.buffers.push(pcmBuffer(sample.pcm, rateHz));
      sample.pcm = '';
    }
  }

  balance() {
    if (!this.context) return;
    const set = (bus, on) => bus.gain.setTargetAtTime(on ? 1 : 0, this.context.currentTime, 0.012);
    set(this.recordingBus, this.recording);
    set(this.clickBus, this.click);
    set(this.countInBus, this.recording || this.click);
    set(this.bedBus, this.alone === null);
    this.parts.forEach((part, k) => set(this.partBuses[k], !part.group || this.isHeard(part.group)));
  }

  place(part, pan) {
    const name = `${part} ${pan}`;
    if (!this.places.has(name)) {
      const panner = new StereoPannerNode(this.context, { pan });
      panner.connect(this.partBuses[part]);
      this.places.set(name, panner);
    }
    return this.places.get(name);
  }

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
  source(k, lastsS) {
    const buffer = this.buffers[k];
    if (this.sounds.samples[k].loop) return { buffer, loop: true, loopStart: 0, loopEnd: buffer.duration };
    if (lastsS <= buffer.duration) return { buffer, loop: false, loopEnd: buffer.duration };
    if (!this.longer.has(k)) this.longer.set(k, lengthened(buffer));
    return this.longer.get(k);
  }

  // Puts an event on the clock at a position; `offsetS`: how much of it has passed by then.
  sound(run, i, positionS, offsetS) {
    const { part, sample, gain, pan, lastsS } = this.sounds.events;
    const longS = lastsS[i] / run.speed;
    const how = this.source(sample[i], longS);
    if (!how.loop && offsetS >= how.buffer.duration) return;
    const startS = this.timeOf(run, positionS);
    if (startS < this.timeS - LATE_S) return; // after a stall, better a gap than a burst of late strokes
    const inside = offsetS < how.loopEnd ? offsetS : how.loopStart + ((offsetS - how.loopStart) % (how.loopEnd - how.loopStart));
    const voice = this.voice(how, gain[i], this.place(part[i], pan[i]), startS, inside);
    if (longS > 0) {
      voice.held = true;
      const endS = startS - offsetS + longS;
      voice.gain.gain.setTargetAtTime(0, endS, 0.03);
      voice.source.stop(endS + 0.25);
    }
  }

  tap(run, positionS, first, into) {
    this.voice({ buffer: this.taps[first ? 1 : 0] }, 1, into, this.timeOf(run, positionS), 0);
  }

  layBed(run, bed) {
    const startS = this.timeOf(run, run.musicS);
    const buffer = this.buffers[bed.sample];
    const { gain, source } = this.voice({ buffer, loop: true }, 0, this.bedBus, startS, run.musicS % buffer.duration);
    gain.gain.setValueAtTime(0, startS);
    gain.gain.linearRampToValueAtTime(levelAt(bed.levels, run.musicS), startS + 0.1);
    for (const [atS, level] of bed.levels) {
      if (atS > run.musicS + 0.1 * run.speed && atS <= run.endS) {
        gain.gain.linearRampToValueAtTime(level, this.timeOf(run, atS));
      }
    }
    const endS = this.timeOf(run, run.endS);
    gain.gain.linearRampToValueAtTime(levelAt(bed.levels, run.endS), endS);
    gain.gain.linearRampToValueAtTime(0, endS + 0.5);
    source.stop(endS + 0.6);
  }

  // Takes sounds off the clock: those that would begin at `fromS` or later, and of those that sound by then the held
  // ones; strokes ring on. From 0: everything.
  hush(fromS) {
    if (!this.context) return;
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
