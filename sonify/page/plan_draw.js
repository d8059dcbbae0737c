// A quantity drawn over the stages: with a finger, a mouse or keys, typed a value a stage, or picked as a shape.
// A place counts stages: 0 is where the first begins. What is drawn goes to the server, which keeps what it takes.

import { askAbout, Refused, start } from './plan_ask.js';
import { clearErrors, showError } from './plan_errors.js';
import { element } from './plan_fields.js';
import { NO_CHANGES, store } from './plan_store.js';
import { upper } from './plan_terms.js';
import { find, phrase, setState, setText } from './screen.js';
/** @import { Drawing, DrawnRow, Place } from './shapes.js' */

const ALONG = 0.25; // of a stage: how far an arrow key moves the pen
const UP = 0.02; // of the axis
const LEAP = 0.1;
const HAIR = 0.001; // two points at one place are a step: the earlier one is put a hair before it

/** @param {number} value @param {number} low @param {number} high */
const within = (value, low, high) => Math.min(Math.max(value, low), high);
/** @param {number} value */
const figure = (value) => String(Number(value.toPrecision(4)));

// The value of a line at a place.
/** @param {Place[]} line @param {number} place */
export function valueAt(line, place) {
  const k = line.findIndex(([x]) => x > place);
  if (k === 0 || line.length === 1) return line[0][1];
  if (k < 0) return line[line.length - 1][1];
  const [[x0, y0], [x1, y1]] = [line[k - 1], line[k]];
  return x1 > x0 ? y0 + ((y1 - y0) * (place - x0)) / (x1 - x0) : y1;
}

// A line with a stretch of it drawn anew. Its steps stay steps.
/** @param {Place[]} line @param {Place[]} stroke @returns {Place[]} */
export function redrawn(line, stroke) {
  const from = Math.min(...stroke.map(([x]) => x));
  const to = Math.max(...stroke.map(([x]) => x));
  const kept = line.map(([x, y], k) => /** @type {Place} */ ([line[k + 1]?.[0] === x && x > 0 ? x - HAIR : x, y]));
  return [...kept.filter(([x]) => x < from - HAIR), ...[...stroke].sort(([a], [b]) => a - b), ...kept.filter(([x]) => x > to + HAIR)];
}

export class DrawView {
  /** @type {Drawing | null | undefined} */
  drawing;
  /** @type {DrawnRow} */
  row;

  /** @param {(words: string) => void} told */
  constructor(told) {
    this.told = told;
    this.number = 0;
    this.pen = 0.5; // where the keys are
    this.mark = '';
    /** @type {Map<string, [low: number, high: number]>} */
    this.axes = new Map(); // by the quantity's name: how high she wants to draw
    /** @type {Place[] | null} */
    this.stroke = null;
    const choice = find('draw-choice', HTMLSelectElement);
    choice.addEventListener('change', () => {
      this.number = Number(choice.value);
      this.draw();
    });
    for (const id of ['draw-from', 'draw-to']) find(id).addEventListener('change', () => this.setAxis());
    const shape = find('draw-shape', HTMLSelectElement);
    shape.addEventListener('change', () => shape.value && this.change(this.shaped(shape.value)));
    const name = find('draw-name', HTMLInputElement);
    const unit = find('draw-unit-name', HTMLInputElement);
    find('draw-add').addEventListener('click', () => this.restructure({ add: name.value, unit: unit.value }));
    find('draw-rename').addEventListener('click', () => this.restructure({ rename: this.row?.number, name: name.value }));
    find('draw-remove').addEventListener('click', () => this.restructure({ remove: this.row?.number }));
    this.listen();
  }

  // A curve more, another name for one, or one less: the server writes it into the scene's text, with its rules.
  /** @param {Record<string, string | number | undefined>} curve */
  async restructure(curve) {
    const { scene } = store.now;
    clearErrors('[data-error="drawn"]');
    try {
      const found = await askAbout('/api/read', store.now, { body: (sent) => ({ .../** @type {any} */ (sent), kind: 'curve', curve }) });
      if (scene !== store.now.scene) return;
      find('draw-name', HTMLInputElement).value = '';
      if ('add' in curve) this.number = Number.MAX_SAFE_INTEGER; // the new one is the last
      store.change({ scene: found.inputs.scene, ...NO_CHANGES });
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      showError({ message: error.message, where: 'drawn' });
    }
  }

  listen() {
    const field = find('draw-field');
    field.addEventListener('pointerdown', (event) => {
      if (event.button !== 0 || !this.row) return;
      field.setPointerCapture(event.pointerId);
      this.stroke = [this.placeOf(event)];
      event.preventDefault();
    });
    field.addEventListener('pointermove', (event) => {
      if (!this.stroke) return;
      const moves = event.getCoalescedEvents?.() ?? [];
      this.stroke.push(...(moves.length ? moves : [event]).map((each) => this.placeOf(each)));
      setState(find('draw-stroke'), 'd', this.path(this.stroke));
    });
    field.addEventListener('pointerup', () => this.lift());
    field.addEventListener('pointercancel', () => {
      this.stroke = null;
      this.draw();
    });
    find('draw-pen').addEventListener('keydown', (event) => this.key(event));
  }

  lift() {
    const { stroke } = this;
    this.stroke = null;
    if (stroke) this.change({ points: redrawn(this.row.line, stroke) });
  }

  // What it stands on ------------------------------------------------------------------------------------------------

  get stages() {
    return this.drawing?.stages ?? [];
  }

  // The axis: what she chose, else from nothing to a little above what is drawn.
  /** @returns {[low: number, high: number]} */
  get axis() {
    const { name, low, high } = this.row;
    const chosen = this.axes.get(name);
    if (chosen) return [Math.min(chosen[0], low), Math.max(chosen[1], high)];
    const foot = low > 0 && low < 0.7 * high ? 0 : low;
    const head = high + 0.15 * (high - foot || Math.abs(high) || 1);
    return [foot, Number(head.toPrecision(2)) >= high ? Number(head.toPrecision(2)) : head];
  }

  setAxis() {
    const [low, high] = ['draw-from', 'draw-to'].map((id) => Number(find(id, HTMLInputElement).value));
    if (Number.isFinite(low) && high > low) this.axes.set(this.row.name, [low, high]);
    this.draw();
  }

  /** @param {{ clientX: number, clientY: number }} at @returns {Place} */
  placeOf({ clientX, clientY }) {
    const box = find('draw-field').getBoundingClientRect();
    const [low, high] = this.axis;
    const across = within((clientX - box.left) / box.width, 0, 1) * this.stages.length;
    const up = within(1 - (clientY - box.top) / box.height, 0, 1);
    return [Number(across.toFixed(3)), Number((low + (high - low) * up).toPrecision(4))];
  }

  // Changing it ------------------------------------------------------------------------------------------------------

  /** @param {Record<string, unknown>} edit @param {string} mark */
  change(edit, mark = '') {
    const [low, high] = this.axis;
    const number = String(this.row.number);
    const sent = { ...edit, ...('points' in edit ? { low, high, ...(this.drawing?.circle ? { close: this.stages.length } : {}) } : {}) };
    this.told(phrase('script-drawn', { name: upper(this.row.name) }));
    store.change({ drawn: { ...store.now.drawn, [number]: sent } }, mark);
  }

  /** @param {string} shape */
  shaped(shape) {
    const { low, high } = this.row;
    const top = low === high ? high + 1 : high;
    const [from, to] = ['falls', 'decays'].includes(shape) ? [top, low] : [low, top];
    return { shape, from, ...(shape === 'steady' ? {} : { to }), ...(['swings', 'repeats'].includes(shape) ? { times: 3 } : {}) };
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    if (event.ctrlKey || event.altKey || event.metaKey || !this.row) return;
    const [low, high] = this.axis;
    /** @type {Record<string, number>} */
    const along = { ArrowLeft: -ALONG, ArrowRight: ALONG };
    /** @type {Record<string, number>} */
    const up = { ArrowUp: UP, ArrowDown: -UP, PageUp: LEAP, PageDown: -LEAP, Home: -1, End: 1 };
    if (event.key in along) {
      this.pen = within(this.pen + along[event.key], 0, this.stages.length);
      this.draw();
    } else if (event.key in up) {
      const { line } = this.row;
      const value = within(valueAt(line, this.pen) + up[event.key] * (high - low), low, high);
      const beside = [this.pen - ALONG, this.pen + ALONG].filter((x) => x >= 0 && x <= this.stages.length);
      /** @type {Place[]} */
      const stroke = [[this.pen, value], ...beside.map((x) => /** @type {Place} */ ([x, valueAt(line, x)]))];
      this.row = { ...this.row, line: redrawn(line, stroke) }; // the next key goes on from here
      this.draw();
      this.change({ points: this.row.line }, `drawn.${this.row.number}`);
    } else return;
    event.preventDefault();
  }

  // Showing it -------------------------------------------------------------------------------------------------------

  /** @param {Drawing | null | undefined} drawing */
  show(drawing) {
    this.drawing = drawing;
    const rows = drawing?.quantities ?? [];
    find('draw-panel').hidden = !drawing;
    for (const id of ['draw-choice', 'draw-how', 'draw-board', 'draw-ends', 'draw-typed', 'draw-rename', 'draw-remove']) find(id).hidden = !rows.length;
    if (!rows.length || this.stroke) return;
    this.number = within(this.number, 0, rows.length - 1);
    const choice = find('draw-choice', HTMLSelectElement);
    const mark = JSON.stringify([rows.map(({ name }) => name), this.stages.map(({ title }) => title)]);
    if (this.mark !== mark) {
      this.mark = mark;
      choice.replaceChildren(...rows.map(({ name }, k) => new Option(upper(name), String(k))));
      const shapes = start.shapes.filter(([, , closes]) => closes || !drawing?.circle);
      find('draw-shape').replaceChildren(new Option('', ''), ...shapes.map(([name, words]) => new Option(words, name)));
      find('draw-columns').replaceChildren(...this.stages.map(({ title }) => element('div', 'column', title)));
      find('draw-values').replaceChildren(...this.stages.map(({ title }, k) => this.typed(title, k)));
    }
    choice.value = String(this.number);
    this.row = rows[this.number];
    this.draw();
  }

  /** @param {string} title @param {number} k */
  typed(title, k) {
    const label = element('label', '', title);
    const input = Object.assign(element('input'), { type: 'number', step: 'any' });
    input.dataset.stage = String(k);
    input.addEventListener('change', () => {
      const values = [...find('draw-values').querySelectorAll('input')].map((each) => Number(each.value));
      if (input.value !== '' && values.every(Number.isFinite)) this.change({ values });
    });
    label.append(input);
    return label;
  }

  /** @param {Place[]} line */
  path(line) {
    const [low, high] = this.axis;
    const places = line.map(([x, y]) => `${((1000 * x) / this.stages.length).toFixed(1)} ${(1000 - (1000 * (y - low)) / (high - low)).toFixed(1)}`);
    return places.length ? `M${places.join('L')}` : '';
  }

  draw() {
    const { drawing } = this;
    const row = drawing?.quantities[this.number];
    if (!row || !drawing) return;
    if (row.name !== this.row?.name) this.row = row;
    const { line, unit_shown: unit } = this.row;
    const [low, high] = this.axis;
    setState(find('draw-line'), 'd', this.path(line));
    setState(find('draw-stroke'), 'd', this.stroke ? this.path(this.stroke) : '');
    setText(find('draw-high'), `${figure(high)} ${unit}`);
    setText(find('draw-low'), `${figure(low)} ${unit}`);
    setText(find('draw-unit'), unit);
    for (const [id, end] of Object.entries({ 'draw-from': low, 'draw-to': high })) {
      if (document.activeElement !== find(id)) find(id, HTMLInputElement).value = figure(end);
    }
    find('draw-shape', HTMLSelectElement).value = row.shape && start.shapes.some(([name]) => name === row.shape) ? row.shape : '';
    for (const [k, input] of [...find('draw-values').querySelectorAll('input')].entries()) {
      if (document.activeElement !== input) input.value = figure(valueAt(line, k + 0.5));
    }
    this.drawPen();
  }

  drawPen() {
    const { line, unit_shown: unit } = this.row;
    const [low, high] = this.axis;
    const value = valueAt(line, this.pen);
    const pen = find('draw-pen');
    pen.style.setProperty('--across', String(this.pen / this.stages.length));
    pen.style.setProperty('--up', String((value - low) / (high - low)));
    const stage = Math.min(Math.floor(this.pen), this.stages.length - 1);
    setState(pen, 'aria-valuemin', figure(low));
    setState(pen, 'aria-valuemax', figure(high));
    setState(pen, 'aria-valuenow', figure(value));
    const share = Math.round(100 * (this.pen - stage));
    setState(pen, 'aria-valuetext', phrase('script-pen-at', { name: upper(this.row.name), value: figure(value), unit, share, stage: this.stages[stage].title }));
  }
}
