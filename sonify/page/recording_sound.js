// A sound as the server can read it, and the microphone of this computer.

import { wavOf } from './wav.js';

const RATE_HZ = 22050;
const LONGEST_S = 15 * 60;
// What the server reads without help; anything else this browser makes a WAV of, where it can and it is not too long.
const READ = /\.(wav|flac|ogg|mp3)$/i;
const MOST_DECODED = 60_000_000;

export const hasMicrophone = () => isSecureContext && Boolean(navigator.mediaDevices) && typeof MediaRecorder !== 'undefined';

// The same sound in a form that needs no further program on the teacher's computer; as it was where that fails.
/** @param {Blob} blob @param {string} name */
export async function readable(blob, name) {
  if (READ.test(name) || blob.size > MOST_DECODED) return { blob, name };
  try {
    const heard = await new OfflineAudioContext(1, 1, RATE_HZ).decodeAudioData(await blob.arrayBuffer());
    return { blob: new Blob([wavOf(heard)], { type: 'audio/wav' }), name: 'recording.wav' };
  } catch {
    return { blob, name };
  }
}

export class Microphone {
  /** @param {HTMLMeterElement} meter */
  constructor(meter) {
    this.meter = meter;
    /** @type {MediaRecorder | null} */
    this.recorder = null;
    /** @type {Blob[]} */
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
    recorder.addEventListener('dataavailable', ({ data }) => this.pieces.push(data));
    recorder.start(1000);
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
      const seconds = (performance.now() - begun) / 1000;
      tell(seconds);
      if (seconds > LONGEST_S) document.getElementById('stop')?.click();
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
      recorder.addEventListener('stop', done, { once: true });
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
    this.context = undefined;
    this.recorder = null;
    this.pieces = [];
    this.meter.hidden = true;
  }
}
