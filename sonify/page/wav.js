// A sound as a file that every program reads: 16-bit WAV of one channel. The format: RIFF, Microsoft and IBM, 1991.

const FULL = 32_767;
const HEAD_BYTES = 44;

/** @param {AudioBuffer} heard @param {number} [longestS] */
export function wavOf(heard, longestS = Infinity) {
  const { numberOfChannels, sampleRate } = heard;
  const length = Math.min(heard.length, Math.round(longestS * sampleRate));
  const channels = Array.from({ length: numberOfChannels }, (_, n) => heard.getChannelData(n));
  const view = new DataView(new ArrayBuffer(HEAD_BYTES + 2 * length));
  /** @param {number} at @param {string} text */
  const write = (at, text) => [...text].forEach((letter, n) => view.setUint8(at + n, letter.charCodeAt(0)));
  write(0, 'RIFF');
  view.setUint32(4, HEAD_BYTES - 8 + 2 * length, true);
  write(8, 'WAVEfmt ');
  for (const [at, value] of [[16, 16], [24, sampleRate], [28, 2 * sampleRate], [40, 2 * length]]) view.setUint32(at, value, true);
  for (const [at, value] of [[20, 1], [22, 1], [32, 2], [34, 16]]) view.setUint16(at, value, true);
  write(36, 'data');
  for (let k = 0; k < length; k += 1) {
    const sum = channels.reduce((all, channel) => all + channel[k], 0) / numberOfChannels;
    view.setInt16(HEAD_BYTES + 2 * k, Math.round(Math.max(-1, Math.min(1, sum)) * FULL), true);
  }
  return view.buffer;
}
