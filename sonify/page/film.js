// The film of the particle box: where every particle is at any moment of it, and the knocks. A moment is counted in
// frames; between two frames places follow a smooth line through their neighbours.

import { lastNotAbove } from './clock.js';
/** @import { FilmData } from './shapes.js' */

const GRID = 65535;

/** @param {string} base64 */
function bytesOf(base64) {
  return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
}

/** @param {string} base64 @param {2 | 4} size */
function numbersOf(base64, size) {
  const view = new DataView(bytesOf(base64).buffer);
  /** @type {(at: number) => number} */
  const read = size === 2 ? (at) => view.getUint16(at, true) : (at) => view.getUint32(at, true);
  return Array.from({ length: view.byteLength / size }, (_, k) => read(k * size));
}

export class Film {
  /** @param {FilmData} data */
  constructor(data) {
    this.particles = data.particles;
    this.frames = data.frames;
    this.framesASecond = data.framesASecond;
    this.heldFrames = data.heldFrames;
    this.radius = data.radius;
    this.scale = data.scale;
    this.ringed = data.ringed;
    this.height = data.height;
    this.levels = data.levels;
    this.temperatures = data.temperatures;
    this.speeds = data.speeds;
    this.realSpeeds = data.realSpeeds;
    this.beats = data.beats;
    this.knocksASecond = data.knocksASecond;
    this.stages = data.stages;
    this.packed = { first: data.first, moves: data.moves };
    this.last = data.frames - 1;
    const { step, one, other, hard, stepsAFrame } = data.knocks;
    this.knockFrames = numbersOf(step, 4).map((steps) => steps / stepsAFrame);
    this.knockOne = numbersOf(one, 2);
    this.knockOther = numbersOf(other, 2);
    this.knockHard = Array.from(bytesOf(hard), (byte) => byte / 255);
  }

  // Shares of the width, frame after frame, each particle's across and up: made when first asked for.
  get places() {
    if (!this.decoded) {
      const first = numbersOf(this.packed.first, 2);
      const moves = new Int8Array(bytesOf(this.packed.moves).buffer);
      const size = first.length;
      const at = new Float64Array(first);
      this.decoded = new Float32Array(size * this.frames);
      for (let frame = 0; frame < this.frames; frame += 1) {
        for (let k = 0; k < size; k += 1) {
          if (frame > 0) at[k] += this.scale * moves[(frame - 1) * size + k];
          this.decoded[frame * size + k] = at[k] / GRID;
        }
      }
      this.packed = { first: '', moves: '' };
    }
    return this.decoded;
  }

  // Place `k` (twice the particle's number, and one more for how far up) at a moment: Catmull and Rom's curve.
  /** @param {number} k @param {number} moment */
  place(k, moment) {
    const { places, last } = this;
    const size = 2 * this.particles;
    const frame = Math.min(Math.floor(moment), last - 1);
    const t = moment - frame;
    /** @param {number} each */
    const at = (each) => places[Math.min(Math.max(each, 0), last) * size + k];
    const [a, b, c, d] = [at(frame - 1), at(frame), at(frame + 1), at(frame + 2)];
    return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
  }

  /** @param {number} moment */
  stageAt(moment) {
    return this.stages[lastNotAbove(this.stages, moment, (stage) => stage.from)];
  }
}
