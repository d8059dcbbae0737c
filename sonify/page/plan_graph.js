// The graph of a class's own table: bars for categories, a line over time, points for number against number.

import { find, phrase, setRows, setText } from './screen.js';
/** @import { Graph, GraphSeries } from './shapes.js' */

const SVG = 'http://www.w3.org/2000/svg';
const HIGH = 300;
const EDGE = { left: 64, right: 16, top: 30, bottom: 52 };
const LETTER = 8.5; // about as wide as a letter of the labels, in pixels
const MARK = 5;
const DASHES = ['', '7 5', '2 4', '12 4 2 4', '4 3', '9 3', '1 5', '6 2 1 2'];

/** @param {string} tag @param {Record<string, string | number>} attributes @param {string} text */
function drawn(tag, attributes, text = '') {
  const made = document.createElementNS(SVG, tag);
  for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, typeof value === 'number' ? value.toFixed(1) : value);
  made.textContent = text;
  return made;
}

/** @param {string} text @param {number} wide */
const cut = (text, wide) => (text.length * LETTER <= wide ? text : `${text.slice(0, Math.max(1, Math.floor(wide / LETTER) - 1))}…`);

// A mark of its own for each group: circle, square, triangle, diamond, and the same again, hollow.
/** @param {number} group @param {number} x @param {number} y */
function mark(group, x, y) {
  const r = MARK;
  const shapes = [
    () => drawn('circle', { cx: x, cy: y, r }),
    () => drawn('rect', { x: x - r, y: y - r, width: 2 * r, height: 2 * r }),
    () => drawn('path', { d: `M${x - r} ${y + r}H${x + r}L${x} ${y - r}Z` }),
    () => drawn('path', { d: `M${x} ${y - r - 1}L${x + r + 1} ${y}L${x} ${y + r + 1}L${x - r - 1} ${y}Z` }),
  ];
  const made = shapes[group % shapes.length]();
  made.setAttribute('class', group < shapes.length ? 'graph-mark' : 'graph-mark hollow');
  return made;
}

export class GraphView {
  /** @type {Graph | undefined} */
  graph;

  constructor() {
    this.wide = 0;
    find('graph-fit').addEventListener('change', () => this.draw());
    new ResizeObserver(([{ contentRect }]) => {
      if (Math.abs(contentRect.width - this.wide) > 1) this.draw();
    }).observe(find('graph'));
  }

  /** @param {Graph} graph */
  show(graph) {
    this.graph = graph;
    find('graph-fit-box').hidden = !graph.fitted.length;
    this.draw();
  }

  draw() {
    const { graph } = this;
    this.wide = find('graph').clientWidth;
    if (!graph || !this.wide) return;
    const svg = drawn('svg', { viewBox: `0 0 ${this.wide} ${HIGH}`, class: 'graph-field', role: 'img', 'aria-labelledby': 'graph-words' });
    svg.append(...this.axes(graph));
    if (graph.kind === 'bars') svg.append(...this.bars(graph));
    else for (const [group, series] of graph.series.entries()) svg.append(...this.points(graph, series, group));
    if (graph.fitted.length && find('graph-fit', HTMLInputElement).checked) {
      const d = graph.fitted.map(([x, y]) => `${this.across(graph, x).toFixed(1)} ${this.up(graph, y).toFixed(1)}`).join('L');
      svg.append(drawn('path', { class: 'graph-fit', d: `M${d}` }));
    }
    find('graph').replaceChildren(svg);
    setText(find('graph-words'), phrase('script-graph', { kind: graph.kind, up: graph.up, across: graph.across }));
    const groups = graph.series.length > 1 ? graph.series.map(({ group }) => group) : [];
    setRows(find('graph-groups'), groups, (item, name) => {
      const sign = drawn('svg', { viewBox: '0 0 44 20', class: 'graph-sign', 'aria-hidden': 'true' });
      const group = groups.indexOf(name);
      if (graph.kind === 'bars') sign.append(drawn('rect', { class: 'graph-bar', x: 12, y: 1, width: 20, height: 18, fill: `url(#hatch-${(group % 12) + 1})` }));
      else sign.append(drawn('path', { class: 'graph-line', d: 'M2 10H42', 'stroke-dasharray': DASHES[group % DASHES.length] }), mark(group, 22, 10));
      item.append(sign, name);
    });
  }

  // Where things are -------------------------------------------------------------------------------------------------

  get inner() {
    return this.wide - EDGE.left - EDGE.right;
  }

  /** @param {Graph} graph @param {number} step */
  across({ marks }, step) {
    const [[first], [last]] = [marks[0], marks[marks.length - 1]];
    const pad = 2 * MARK + 4;
    return EDGE.left + pad + ((this.inner - 2 * pad) * (step - first)) / (last - first || 1);
  }

  /** @param {Graph} graph @param {number} value */
  up({ low, high }, value) {
    return HIGH - EDGE.bottom - ((HIGH - EDGE.bottom - EDGE.top) * (value - low)) / (high - low);
  }

  // What is drawn ----------------------------------------------------------------------------------------------------

  /** @param {Graph} graph */
  axes(graph) {
    const [left, right, foot] = [EDGE.left, this.wide - EDGE.right, HIGH - EDGE.bottom];
    const found = graph.ticks.flatMap(([value, words]) => {
      const y = this.up(graph, value);
      return [drawn('path', { class: 'graph-rule', d: `M${left} ${y.toFixed(1)}H${right}` }), drawn('text', { x: left - 6, y: y + 4, 'text-anchor': 'end' }, cut(words, left - 8))];
    });
    found.push(drawn('path', { class: 'graph-axis', d: `M${left} ${EDGE.top}V${foot}H${right}` }));
    found.push(drawn('text', { class: 'graph-name', x: 2, y: 15 }, cut(graph.up, this.wide - 4)));
    found.push(drawn('text', { class: 'graph-name', x: right, y: HIGH - 8, 'text-anchor': 'end' }, cut(graph.across, this.inner)));
    const band = this.inner / graph.steps.length;
    let free = 0;
    for (const [k, [step, label]] of graph.marks.entries()) {
      const x = graph.kind === 'bars' ? left + band * (k + 0.5) : this.across(graph, step);
      const words = cut(label, graph.kind === 'bars' ? Math.max(band - 4, 3 * LETTER) : 12 * LETTER);
      const half = (words.length * LETTER) / 2;
      if (x - half < free || !label) continue;
      free = x + half + 4;
      found.push(drawn('text', { x: Math.min(x, this.wide - half), y: foot + 18, 'text-anchor': 'middle' }, words));
    }
    return found;
  }

  /** @param {Graph} graph */
  bars(graph) {
    const band = this.inner / graph.steps.length;
    const wide = (0.7 * band) / graph.series.length;
    return graph.series.flatMap((series, group) =>
      series.values.flatMap((value, k) => {
        if (value === null) return [];
        const x = EDGE.left + band * (k + 0.15) + wide * group;
        const [y, foot] = [this.up(graph, value), this.up(graph, Math.max(graph.low, Math.min(0, graph.high)))];
        const fill = `url(#hatch-${(group % 12) + 1})`;
        const bar = drawn('rect', { class: 'graph-bar', x, y: Math.min(y, foot), width: wide, height: Math.abs(foot - y), fill });
        const figure = wide > series.shown[k].length * LETTER ? [drawn('text', { x: x + wide / 2, y: Math.min(y, foot) - 5, 'text-anchor': 'middle' }, series.shown[k])] : [];
        return [bar, ...this.spread(graph, series, k, x + wide / 2), ...figure];
      }),
    );
  }

  /** @param {Graph} graph @param {GraphSeries} series @param {number} group */
  points(graph, series, group) {
    const places = series.values.map((value, k) => (value === null ? null : { x: this.across(graph, graph.steps[k]), y: this.up(graph, value), k }));
    const there = places.filter((place) => place !== null);
    const found = [];
    if (graph.joined) {
      const d = there.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join('L');
      found.push(drawn('path', { class: 'graph-line', d: `M${d}`, 'stroke-dasharray': DASHES[group % DASHES.length] }));
    }
    for (const { x, y, k } of there) {
      found.push(...this.spread(graph, series, k, x));
      if (there.length <= 60) found.push(mark(group, x, y));
    }
    return found;
  }

  // How far the repeats lie apart.
  /** @param {Graph} graph @param {GraphSeries} series @param {number} k @param {number} x */
  spread(graph, { least, most }, k, x) {
    const [low, high] = [least[k], most[k]];
    if (low === null || high === null || low === high) return [];
    const [foot, head] = [this.up(graph, low).toFixed(1), this.up(graph, high).toFixed(1)];
    return [drawn('path', { class: 'graph-spread', d: `M${x - 4} ${foot}H${x + 4}M${x} ${foot}V${head}M${x - 4} ${head}H${x + 4}` })];
  }
}
