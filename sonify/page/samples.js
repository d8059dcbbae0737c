// Recordings as audio buffers, made by hand: exact, and without a decoder's delay before the first sample.

import { lastNotAbove } from './clock.js';
/** @import { Corner, Recording } from './shapes.js' */

// A short wooden tap for the beats of a click track; the piece's own count-in is recorded. Drier ones are the knocks of
// the particle box.
/** @param {number} pitchHz */
export function tapBuffer(pitchHz, decayS = 0.009) {
  const rateHz = 44100;
  const buffer = new AudioBuffer({ length: Math.round((2400 * decayS) / 0.009), sampleRate: rateHz });
  const data = buffer.getChannelData(0);
  for (let i = 0; i < data.length; i += 1) {
    const t = i / rateHz;
    data[i] = 0.5 * Math.sin(2 * Math.PI * pitchHz * t) * Math.exp(-t / decayS) * Math.min(1, t / 0.0005);
  }
  return buffer;
}

// 16-bit little-endian PCM in base64 to a buffer.
/** @param {string} base64 @param {number} rateHz */
export function pcmBuffer(base64, rateHz) {
  const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  const view = new DataView(bytes.buffer);
  const length = bytes.length >> 1;
  const buffer = new AudioBuffer({ length: Math.max(1, length), sampleRate: rateHz });
  const data = buffer.getChannelData(0);
  for (let i = 0; i < length; i += 1) data[i] = view.getInt16(2 * i, true) / 32768;
  return buffer;
}

// A buffer at another rate, louder or softer: every sample a sum of the given ones around it, as wide as `REACH`.
const REACH = 16;

/** @param {AudioBuffer} buffer @param {number} rateHz @param {number} gain */
export function resampled(buffer, rateHz, gain) {
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
      sum += from[k] * wave * Math.cos((Math.PI * x) / (2 * REACH)) ** 2;
    }
    out[i] = sum * gain;
  }
  return out;
}

// A held sound made longer without changing its pitch: its middle goes round, the end of each round faded into the
// next. For rehearsal tempi, where a note lasts longer than its recording.
/** @param {AudioBuffer} buffer @returns {Recording} */
export function lengthened(buffer) {
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
/** @param {Corner[]} corners @param {number} positionS */
export function levelAt(corners, positionS) {
  if (positionS <= corners[0][0]) return corners[0][1];
  const k = lastNotAbove(corners, positionS, (corner) => corner[0]);
  if (k === corners.length - 1) return corners[k][1];
  const [[fromS, from], [toS, to]] = [corners[k], corners[k + 1]];
  return from + ((to - from) * (positionS - fromS)) / (toS - fromS);
}
