// A sound as the server can read it, and the microphone of this computer.

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
    return { blob: wav(heard), name: 'recording.wav' };
  } catch {
    return { blob, name };
  }
}

// 16-bit WAV, mono. The format: RIFF, Microsoft and IBM, 1991.
/** @param {AudioBuffer} heard */
function wav(heard) {
  const { length, numberOfChannels } = heard;
  const channels = Array.from({ length: numberOfChannels }, (_, k) => heard.getChannelData(k));
  const view = new DataView(new ArrayBuffer(44 + 2 * length));
  /** @param {number} at @param {string} text */
  const write = (at, text) => [...text].forEach((letter, k) => view.setUint8(at + k, letter.charCodeAt(0)));
  write(0, 'RIFF');
  view.setUint32(4, 36 + 2 * length, true);
  write(8, 'WAVEfmt ');
  view.setUint32(16, 16, true);
  view.setUint16(20, 1, true);
  view.setUint16(22, 1, true);
  view.setUint32(24, RATE_HZ, true);
  view.setUint32(28, 2 * RATE_HZ, true);
  view.setUint16(32, 2, true);
  view.setUint16(34, 16, true);
  write(36, 'data');
  view.setUint32(40, 2 * length, true);
  for (let i = 0; i < length; i += 1) {
    const sum = channels.reduce((all, channel) => all + channel[i], 0) / numberOfChannels;
    view.setInt16(44 + 2 * i, Math.max(-32768, Math.min(32767, Math.round(sum * 32767))), true);
  }
  return new Blob([view], { type: 'audio/wav' });
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
