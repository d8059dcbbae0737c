// Where in the piece a moment falls: bars, beats and stages. The seconds were worked out beforehand; here they are
// only looked up. A position is in seconds from the start of the recording, at full tempo.

/** @import { BeatPlace, Stage, Timing } from './shapes.js' */

// A moment is reached a hair early. Sounds begin on whole samples, up to 12 microseconds from where the beat is, and
// what belongs to a beat must neither be taken for the past nor shown a beat late.
export const HAIR_S = 1e-4;

// The last row whose value is not above `wanted`; the first where none is.
/** @template T @param {T[]} rows @param {number} wanted @param {(row: T) => number} valueOf */
export function lastNotAbove(rows, wanted, valueOf) {
  let low = 0;
  let high = rows.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if (valueOf(rows[middle]) <= wanted) low = middle;
    else high = middle - 1;
  }
  return low;
}

// The index of the first of these rising times that is not before a position.
/** @param {number[]} times @param {number} positionS */
export function firstFrom(times, positionS) {
  const wanted = positionS - HAIR_S;
  return times.length && times[0] < wanted ? lastNotAbove(times, wanted, (time) => time) + 1 : 0;
}

export class PieceClock {
  /** @param {Timing} timing @param {Stage[]} stages */
  constructor(timing, stages) {
    this.beatsABar = timing.beatsABar;
    this.countInBars = timing.countInBars;
    this.pieceBars = timing.pieceBars;
    this.endS = timing.endS;
    this.tempi = timing.tempi;
    this.stages = stages;
    this.bars = timing.bars.map(([bar, startS, perBeatS]) => ({ bar, startS, perBeatS }));
    this.firstS = this.startOfBar(1);
    this.beatTimes = this.bars.flatMap(({ bar, startS, perBeatS }) =>
      Array.from({ length: this.beatsABar }, (_, k) => ({ bar, first: k === 0, atS: startS + k * perBeatS })),
    );
  }

  /** @param {number} positionS */
  barAt(positionS) {
    return this.bars[lastNotAbove(this.bars, positionS + HAIR_S, (row) => row.startS)];
  }

  /** @param {number} bar */
  startOfBar(bar) {
    const row = this.bars.find((each) => each.bar === bar);
    return row ? row.startS : this.endS;
  }

  // Bar and beat from 1, how far through the beat (0 to 1), and `beats`: how many since the first beat of bar 1.
  /** @param {number} positionS @returns {BeatPlace} */
  at(positionS) {
    const { bar, startS, perBeatS } = this.barAt(positionS);
    const inBar = Math.min(Math.max((positionS - startS + HAIR_S) / perBeatS, 0), this.beatsABar - 1e-9);
    return {
      bar,
      beat: Math.floor(inBar) + 1,
      phase: inBar % 1,
      beats: (bar - 1) * this.beatsABar + inBar,
      perBeatS,
    };
  }

  /** @param {number} bar */
  stageAt(bar) {
    return lastNotAbove(this.stages, bar, (stage) => stage.bar);
  }

  /** @param {number} bar */
  tempoAt(bar) {
    return this.tempi[lastNotAbove(this.tempi, bar, (tempo) => tempo.bar)];
  }
}
