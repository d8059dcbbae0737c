// The science's curve and the class's own over the same bars, as the printed sheet has them.

import { phrase } from './screen.js';
/** @import { RecordingPlot } from './shapes.js' */

const SVG = 'http://www.w3.org/2000/svg';
const WIDTH = 1200;
const HEIGHT = 420;
const LEFT = 110;
const FOOT = 50;
const BEYOND = 16; // how large the triangle is, for a beat beyond the key's end

export class Chart {
  /** @param {HTMLElement} field @param {(bar: number) => void} go */
  constructor(field, go) {
    this.field = field;
    this.bars = 1;
    /** @type {SVGElement | null} */
    this.line = null;
    field.addEventListener('click', (event) => {
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
    const svg = document.createElementNS(SVG, 'svg');
    svg.setAttribute('viewBox', `0 0 ${WIDTH} ${HEIGHT}`);
    svg.setAttribute('class', 'curves-picture');
    svg.setAttribute('role', 'img');
    svg.setAttribute('aria-label', phrase('script_record-described', { bars }));
    /** @param {string} tag @param {Record<string, string | number>} attributes */
    const add = (tag, attributes) => {
      const element = document.createElementNS(SVG, tag);
      for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
      svg.append(element);
      return element;
    };
    /** @param {number} share */
    const x = (share) => LEFT + share * (WIDTH - LEFT);
    /** @param {number} share */
    const y = (share) => (1 - share) * (HEIGHT - FOOT);
    for (const { at, text } of plot.ticks) {
      add('line', { class: 'grid', x1: LEFT, x2: WIDTH, y1: y(at), y2: y(at) });
      add('text', { x: LEFT - 10, y: y(at) + 7, 'text-anchor': 'end' }).textContent = text;
    }
    for (const stage of plot.stages) {
      add('line', { class: 'grid', x1: x(stage.from), x2: x(stage.from), y1: 0, y2: HEIGHT });
      add('text', { x: (x(stage.from) + x(stage.to)) / 2, y: HEIGHT - 10, 'text-anchor': 'middle' }).textContent = stage.letter;
      if (stage.ours === null || stage.low === null || stage.high === null) continue;
      add('rect', { class: 'sure', x: x(stage.from), y: y(stage.high), width: x(stage.to) - x(stage.from), height: y(stage.low) - y(stage.high) });
      add('line', { class: 'ours', x1: x(stage.from), x2: x(stage.to), y1: y(stage.ours), y2: y(stage.ours) });
      if (stage.above === null) continue;
      const [middle, foot] = [(x(stage.from) + x(stage.to)) / 2, y(stage.ours)];
      const tip = foot + (stage.above ? -BEYOND : BEYOND);
      add('polygon', { class: 'beyond', points: `${middle - BEYOND},${foot} ${middle + BEYOND},${foot} ${middle},${tip}` });
    }
    add('polyline', { class: 'science', points: plot.science.map(([across, up]) => `${x(across).toFixed(1)},${y(up).toFixed(1)}`).join(' ') });
    this.line = add('line', { class: 'now', x1: LEFT, x2: LEFT, y1: 0, y2: HEIGHT - FOOT });
    this.field.replaceChildren(svg);
  }

  /** @param {number} bar */
  now(bar) {
    const x = LEFT + ((bar - 1) / this.bars) * (WIDTH - LEFT);
    for (const name of ['x1', 'x2']) this.line?.setAttribute(name, x.toFixed(1));
  }
}
