// The curve small on the Conduct board, its moving point where the piece is: nothing to read, something to glance at.

import { findAll, findIn, heightAt, setState, span } from './screen.js';
/** @import { PieceClock } from './clock.js' */
/** @import { Curve, LessonData } from './shapes.js' */

export class Course {
  /** @param {HTMLElement} root @param {PieceClock} clock @param {LessonData} data @param {Curve} curve */
  constructor(root, clock, data, curve) {
    this.root = root;
    this.clock = clock;
    this.points = curve.points;
    this.height = data.science.height;
    root.hidden = !data.science.measured;
    const across = 1000 / (curve.points.length - 1);
    const line = curve.points.map((point, k) => `${(k * across).toFixed(1)} ${this.height - point}`).join('L');
    findIn(root, 'path').setAttribute('d', `M${line}`);
    const columns = data.stages.map((stage) => {
      const column = span('course-stage', stage.letter);
      column.style.setProperty('flex-grow', String(stage.bars));
      return column;
    });
    findIn(root, '.course-stages').replaceChildren(...columns);
    this.columns = findAll('.course-stage', HTMLElement, root);
  }

  /** @param {number} beats @param {number} stage */
  show(beats, stage) {
    if (this.root.hidden) return;
    const share = Math.min(Math.max(beats / (this.clock.pieceBars * this.clock.beatsABar), 0), 1);
    this.root.style.setProperty('--at', String(share));
    this.root.style.setProperty('--level', String(heightAt(this.points, share) / this.height));
    for (const [k, column] of this.columns.entries()) setState(column, 'data-on', String(k === stage));
  }
}
