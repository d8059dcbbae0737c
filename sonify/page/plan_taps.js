// A beat to tap against, and a pattern heard in plain tones. Time is the audio clock's; nothing is recorded or sent.

const READY_S = 0.15;
const CLICK_S = 0.04;
const [STRONG_HZ, WEAK_HZ, TAP_HZ] = [1320, 880, 520];

export class Beat {
  constructor() {
    /** @type {AudioContext | null} */
    this.audio = null;
    /** @type {OscillatorNode[]} */
    this.sounding = [];
    this.timer = 0;
  }

  // The audio clock, which runs once somebody has pressed something.
  get clock() {
    this.audio ??= new AudioContext();
    if (this.audio.state === 'suspended') this.audio.resume();
    return this.audio;
  }

  /** @param {number} atS @param {number} hz @param {number} lastsS */
  tone(atS, hz, lastsS = CLICK_S) {
    const { clock } = this;
    const [oscillator, gain] = [clock.createOscillator(), clock.createGain()];
    oscillator.frequency.value = hz;
    gain.gain.setValueAtTime(0.25, atS);
    gain.gain.exponentialRampToValueAtTime(0.001, atS + lastsS);
    oscillator.connect(gain).connect(clock.destination);
    oscillator.start(atS);
    oscillator.stop(atS + lastsS);
    this.sounding.push(oscillator);
  }

  // Clicks for so many beats, `told` with the number of each as it comes and `done` after the last; gives when the
  // first beat falls, in seconds of performance.now().
  /** @param {{ beats: number, all: number, bpm: number, told: (beat: number) => void, done: () => void }} how */
  run({ beats, all, bpm, told, done }) {
    const { clock } = this;
    const [startS, beatS] = [clock.currentTime + READY_S, 60 / bpm];
    for (let k = 0; k < all; k += 1) this.tone(startS + k * beatS, k % beats ? WEAK_HZ : STRONG_HZ);
    const heardS = startS + (clock.outputLatency || clock.baseLatency || 0);
    let last = -1;
    const look = () => {
      const now = Math.floor((clock.currentTime - heardS) / beatS);
      if (now > last && now >= 0 && now < all) told((last = now));
      // Half a beat more: the last box may be tapped a little late.
      if (clock.currentTime > heardS + (all + 0.5) * beatS) this.stop(done);
    };
    this.timer = setInterval(look, 15);
    return performance.now() / 1000 + (heardS - clock.currentTime);
  }

  /** @param {{ atS: number, hz: number, lastsS: number }[]} tones @param {number} lengthS @param {() => void} done */
  play(tones, lengthS, done) {
    const startS = this.clock.currentTime + READY_S;
    for (const { atS, hz, lastsS } of tones) this.tone(startS + atS, hz || TAP_HZ, Math.max(lastsS, CLICK_S));
    this.timer = setInterval(() => this.clock.currentTime > startS + lengthS && this.stop(done), 40);
  }

  /** @param {() => void} [done] */
  stop(done) {
    clearInterval(this.timer);
    this.timer = 0;
    for (const one of this.sounding) one.stop();
    this.sounding = [];
    done?.();
  }
}

/** @type {Record<string, number>} */
const WHITE_KEYS = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };

// "C#5" as a MIDI number, and as a frequency.
/** @param {string} name */
export function midiOf(name) {
  const [, letter, shift, octave] = name.match(/^([A-G])([#b]?)(-?\d)$/) ?? [];
  if (!letter) return 0;
  const moved = { '#': 1, b: -1 }[shift] ?? 0;
  return 12 * (Number(octave) + 1) + (WHITE_KEYS[letter] ?? 0) + moved;
}

/** @param {string} name */
export const hzOf = (name) => (name ? 440 * 2 ** ((midiOf(name) - 69) / 12) : 0);

// Keys of a MIDI keyboard, where the browser offers them: `down` and `up` with the key's number.
/** @param {(midi: number) => void} down @param {(midi: number) => void} up */
export async function keyboard(down, up) {
  const access = await navigator.requestMIDIAccess();
  const listen = () => {
    for (const input of access.inputs.values()) {
      input.onmidimessage = ({ data }) => {
        const [status, key, velocity] = data ?? [];
        if ((status & 0xf0) === 0x90 && velocity) down(key);
        else if ((status & 0xf0) === 0x80 || (status & 0xf0) === 0x90) up(key);
      };
    }
  };
  listen();
  access.onstatechange = listen;
  return [...access.inputs.values()].map((input) => input.name ?? '');
}
