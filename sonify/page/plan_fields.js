// One number of the plan: a slider, the same number to type, its unit in words, and the way back to the scene's own.

import { start } from './plan_ask.js';
import { showError } from './plan_errors.js';
import { phrase, setState, setText, span } from './screen.js';
/** @import { FieldData, Steps } from './shapes.js' */

/** @template {keyof HTMLElementTagNameMap} T @param {T} tag @returns {HTMLElementTagNameMap[T]} */
export function element(tag, className = '', text = '') {
  const made = document.createElement(tag);
  if (className) made.className = className;
  if (text) made.textContent = text;
  return made;
}

// A button at the end of a row.
/** @param {HTMLElement} row @param {string} words @param {() => unknown} pressed */
export function addButton(row, words, pressed) {
  const made = Object.assign(element('button', '', words), { type: 'button' });
  made.addEventListener('click', pressed);
  row.append(made);
}

/** @param {string} unit */
export const unitWords = (unit) => {
  const known = start.units[unit];
  if (known !== undefined) return known;
  if (unit === '1') return '';
  return unit.replace('**2', '²').replace('**3', '³').replaceAll('*', ' ');
};

// The scene's text with units as people read them: "14 degC" is "14 °C".
/** @param {string} text */
const readable = (text) => text.replace(/^(\S+)\s+(.+)$/, (_, figure, unit) => `${figure} ${unitWords(unit)}`);

/** @param {number | string} value */
const figure = (value) => String(Number(Number(value).toPrecision(10)));

// Text that has just changed is marked for a while, so that an eye elsewhere finds it.
const FRESH_MS = 2500;
/** @type {WeakMap<Element, number>} */
const freshening = new WeakMap();
let marking = true; // not while a scene is shown for the first time

/** @param {boolean} on */
export function setMarking(on) {
  marking = on;
}

/** @param {Element} place @param {string} text @param {Element} mark */
export function setFresh(place, text, mark = place) {
  if (place.textContent === text) return;
  const first = place.textContent === '';
  place.textContent = text;
  if (!first) freshen(mark);
}

/** @param {Element} place */
export function freshen(place) {
  if (!marking) return;
  clearTimeout(freshening.get(place));
  place.classList.add('fresh');
  freshening.set(place, setTimeout(() => place.classList.remove('fresh'), FRESH_MS));
}

/** @param {FieldData} data */
const kindOfField = (data) => (data.steps ? 'steps' : data.choices ? 'choice' : 'number');

let fields = 0;

export class Field {
  // Of a choice: the list; of a number or a row of steps: the box or the slider, and what stands around it.
  /** @type {HTMLSelectElement} */
  choice;
  /** @type {HTMLInputElement} */
  typed;
  /** @type {HTMLInputElement} */
  range;
  /** @type {HTMLElement} */
  low;
  /** @type {HTMLElement} */
  high;
  /** @type {HTMLElement} */
  unit;
  /** @type {HTMLOutputElement} */
  value;

  // where: as errors name it, "set.sea_temperature". changed(text, words): told each new value, as scene files have it.
  /**
   * @param {{ where: string, label: string, changed: (text: string, words: string) => void, reset?: () => void }} of
   */
  constructor({ where, label, changed, reset }) {
    fields += 1;
    this.where = where;
    this.label = label;
    this.changed = changed;
    /** @type {FieldData} */
    this.data = {};
    this.kind = '';
    this.names = '';
    const id = `field-${fields}`;
    this.box = element('div', 'field');
    this.box.dataset.field = where;
    const head = element('div', 'field-head');
    this.name = element('label', 'field-name', label);
    this.name.id = `${id}-name`;
    this.name.htmlFor = id;
    this.back = element('button', 'small', phrase('script-reset'));
    this.back.type = 'button';
    this.back.hidden = true;
    this.back.append(span('unseen', ` ${label}`));
    this.back.addEventListener('click', () => {
      reset?.();
      (this.kind === 'choice' ? this.choice : this.typed).focus();
    });
    head.append(this.name);
    this.help = element('p', 'hint');
    this.help.id = `${id}-help`;
    this.row = element('div', 'field-row');
    this.error = element('p', 'field-error');
    Object.assign(this.error, { id: `${id}-error`, hidden: true });
    this.error.dataset.error = where;
    this.id = id;
    head.append(this.back);
    this.box.append(head, this.help, this.row, this.error);
  }

  get described() {
    return `${this.help.id} ${this.error.id}`;
  }

  /** @param {FieldData} data */
  build(data) {
    this.kind = kindOfField(data);
    this.row.replaceChildren();
    if (this.kind === 'choice') this.buildChoice();
    else if (this.kind === 'steps') this.buildSteps();
    else this.buildNumber();
  }

  // A row of values, each with its words: what ends of rules can be, or a condition over many powers of ten.
  buildSteps() {
    this.typed = Object.assign(element('input'), { type: 'range', id: this.id, min: '0', step: '1' });
    this.typed.setAttribute('aria-describedby', this.described);
    this.value = element('output', 'value');
    this.value.htmlFor.value = this.id;
    const track = element('span', 'range-track');
    track.append(this.stepButton('−', phrase('script-less'), -1), this.typed, this.stepButton('+', phrase('script-more'), 1));
    this.name.after(this.value);
    this.row.append(track);
    this.typed.addEventListener('input', () => this.step(Number(this.typed.value)));
  }

  /** @param {string} sign @param {string} words @param {number} by */
  stepButton(sign, words, by) {
    const button = element('button', 'small step', sign);
    button.type = 'button';
    button.setAttribute('aria-label', `${this.label}: ${words}`);
    button.addEventListener('click', () => this.step(Number(this.typed.value) + by));
    return button;
  }

  /** @param {number} at */
  step(at) {
    const { texts = [], shown = [] } = this.data.steps ?? {};
    if (at < 0 || at >= texts.length) return;
    this.typed.value = String(at);
    setText(this.value, shown[at]);
    this.typed.setAttribute('aria-valuetext', shown[at]);
    this.changed(texts[at], `${this.label}: ${shown[at]}.`);
  }

  /** @param {Steps} steps */
  showSteps({ texts, shown, at }) {
    if (this.typed.max !== String(texts.length - 1)) this.typed.max = String(texts.length - 1);
    this.typed.value = String(at);
    setText(this.value, shown[at]);
    this.typed.setAttribute('aria-valuetext', shown[at]);
  }

  buildChoice() {
    this.choice = element('select');
    this.choice.id = this.id;
    this.choice.setAttribute('aria-describedby', this.described);
    this.choice.addEventListener('change', () => this.tell(this.choice.value));
    this.row.append(this.choice);
  }

  buildNumber() {
    this.low = element('span', 'range-end');
    this.high = element('span', 'range-end');
    this.low.ariaHidden = 'true';
    this.high.ariaHidden = 'true';
    this.range = Object.assign(element('input'), { type: 'range' });
    this.range.setAttribute('aria-labelledby', this.name.id);
    this.range.setAttribute('aria-describedby', this.error.id);
    this.typed = Object.assign(element('input'), { type: 'number', id: this.id, inputMode: 'decimal' });
    this.typed.setAttribute('aria-describedby', `${this.id}-unit ${this.described}`);
    this.unit = element('span', 'unit');
    this.unit.id = `${this.id}-unit`;
    const amount = element('span', 'amount');
    amount.append(this.typed, this.unit);
    const track = element('span', 'range-track');
    track.append(this.low, this.range, this.high);
    this.row.append(track, amount);
    this.range.addEventListener('input', () => this.move(this.range.value, this.typed));
    this.typed.addEventListener('input', () => this.move(this.typed.value, this.range));
    this.typed.addEventListener('change', () => this.settle());
  }

  /** @param {string} value @param {HTMLInputElement} other */
  move(value, other) {
    if (value === '' || !Number.isFinite(Number(value))) return;
    other.value = figure(value);
    this.sayValue(figure(value));
    this.tell(`${figure(value)}${this.data.unit && this.data.unit !== '1' ? ` ${this.data.unit}` : ''}`);
  }

  // What is left when the reader goes on: a number, or a word on what to type.
  settle() {
    if (this.typed.value !== '') return;
    showError({ message: phrase('script-type-a-number-for-such', { 'to-lower-case': this.label.toLowerCase(), figure: figure(this.data.value ?? 0) }), where: this.where });
    this.typed.value = figure(this.data.value ?? 0);
  }

  /** @param {string} value */
  sayValue(value) {
    this.range.setAttribute('aria-valuetext', `${value} ${unitWords(this.data.unit ?? '')}`.trim());
  }

  /** @param {string} text */
  tell(text) {
    this.changed(text, `${this.label}: ${readable(text)}.`);
  }

  /** @param {FieldData} data */
  show(data) {
    const kind = kindOfField(data);
    this.data = data;
    if (kind !== this.kind) this.build(data);
    setText(this.help, data.help ?? '');
    this.help.hidden = !data.help;
    this.box.classList.toggle('changed', Boolean(data.changed));
    this.back.hidden = !data.changed;
    if (kind === 'choice') {
      this.showChoice(data);
      return;
    }
    if (data.steps) {
      this.showSteps(data.steps);
      return;
    }
    this.showNumber(data);
  }

  /** @param {FieldData} data */
  showChoice({ choices = [], chosen = '' }) {
    const names = JSON.stringify(choices);
    if (this.names !== names) {
      this.names = names;
      this.choice.replaceChildren(...choices.map(([name, words]) => new Option(words, name)));
    }
    this.choice.value = chosen;
  }

  /** @param {FieldData} data */
  showNumber({ low = 0, high = 0, step = 1, value = 0, unit = '' }) {
    // A limit that is in the way would clamp the value: so limits come first, from the outside in.
    for (const input of [this.range, this.typed]) {
      for (const [name, of] of Object.entries({ min: low, max: high, step })) setState(input, name, String(of));
    }
    setText(this.low, figure(low));
    setText(this.high, figure(high));
    setText(this.unit, unitWords(unit));
    this.range.value = String(value);
    if (document.activeElement !== this.typed || Number(this.typed.value) !== value) this.typed.value = figure(value);
    this.sayValue(figure(value));
  }
}
