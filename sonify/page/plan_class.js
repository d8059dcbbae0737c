// The class: year, pupils, groups, what some need, how much the sheets help, and the music cupboard.

import { start } from './plan_ask.js';
import { clearErrors, showError } from './plan_errors.js';
import { NeedCounts, isNeed } from './plan_needs.js';
import { newId, store } from './plan_store.js';
import { find, findAll, phrase, setText } from './screen.js';
/** @import { ClassFacts, Told } from './shapes.js' */

/** @typedef {{ row: HTMLElement, tick: HTMLInputElement, count: HTMLInputElement, id: string, name: string }} Stocked */

/** @param {Element | null} place */
const textIn = (place) => place?.textContent.trim() ?? '';

export class ClassForm {
  /** @param {Told} told */
  constructor(told) {
    this.told = told;
    /** @type {Stocked[]} */
    this.rows = findAll('[data-instrument]', HTMLElement).map((row) => {
      const [tick, count] = findAll('input', HTMLInputElement, row);
      return { row, tick, count, id: row.dataset.instrument ?? '', name: textIn(row) };
    });
    for (const input of findAll('[data-class]', HTMLInputElement)) {
      input.addEventListener('change', () => this.number(input));
    }
    for (const input of findAll('[data-need]', HTMLInputElement)) {
      input.addEventListener('change', () => this.need(input));
    }
    this.counts = new NeedCounts((needs, words, mark) => {
      clearErrors();
      this.change({ needs }, words, mark);
    }, start.needs);
    for (const input of findAll('[name="scaffold"]', HTMLInputElement)) {
      input.addEventListener('change', () => {
        told(phrase('script-the-sheets', { trim: textIn(input.parentElement) }));
        store.change({ scaffold: input.value });
      });
    }
    for (const each of this.rows) {
      each.tick.addEventListener('change', () => this.stock(each, each.tick.checked ? 1 : 0));
      each.count.addEventListener('change', () => this.stock(each, Number(each.count.value)));
    }
    find('cupboard-search').addEventListener('input', () => this.filter());
    find('cupboard-ticked').addEventListener('change', () => this.filter());
    find('cupboard-filled').addEventListener('click', () => this.fill(start.class.cupboard, phrase('script-a-well-filled-cupboard')));
    find('cupboard-empty').addEventListener('click', () => this.fill({}, phrase('script-the-cupboard-is-empty-the')));
  }

  /** @param {Partial<ClassFacts>} part @param {string} words */
  change(part, words, mark = '') {
    this.told(words);
    const { facts, ...given } = store.now.class ?? {};
    store.change({ class: { ...start.class, ...facts, ...given, ...part }, class_id: store.now.class_id || newId() }, mark);
  }

  /** @param {HTMLInputElement} input */
  number(input) {
    const name = input.dataset.class ?? '';
    const label = textIn(input.labels?.[0] ?? null);
    const value = Number(input.value);
    const { min, max } = input;
    if (!input.value || !Number.isInteger(value) || value < Number(min) || value > Number(max)) {
      showError({ message: phrase('script-type-a-whole-number-from', { label, min, max }), where: `class.${name}`, typed: true });
      setText(find('bar-words'), phrase('script-not-taken-over-from-to', { 'to-lower-case': label.toLowerCase(), min, max }));
      return;
    }
    clearErrors();
    this.change({ [name]: value }, `${label}: ${value}.`, `class.${name}`);
  }

  /** @param {HTMLInputElement} input */
  need(input) {
    const ticked = start.needs.filter((need) => document.querySelector(`[data-need="${CSS.escape(need)}"]:checked`));
    // How many and which group stands in a class file ("one hand: 2 in group 3"), and is kept.
    const needs = ticked.flatMap((need) => {
      const held = store.room.needs.filter((/** @type {string} */ each) => isNeed(each, need));
      return held.length ? held : [need];
    });
    this.change({ needs }, `${textIn(input.parentElement)}: ${input.checked ? phrase('script-yes') : phrase('script-no')}.`);
  }

  /** @param {Stocked} row @param {number} wanted */
  stock({ id, name, count }, wanted) {
    if (!Number.isInteger(wanted) || wanted < 0 || wanted > Number(count.max)) {
      showError({ message: phrase('script-type-a-whole-number-up', { name, max: count.max }), where: `class.cupboard.${id}`, typed: true });
      return;
    }
    const cupboard = { ...store.room.cupboard };
    if (wanted) cupboard[id] = wanted;
    else delete cupboard[id];
    this.change({ cupboard }, `${name}: ${wanted || phrase('script-none')}.`, `class.cupboard.${id}`);
    // The count that had the focus is gone with the tick.
    if (!wanted && document.activeElement === count) this.rows.find((each) => each.id === id)?.tick.focus();
  }

  /** @param {Record<string, number>} cupboard @param {string} words */
  fill(cupboard, words) {
    this.change({ cupboard: { ...cupboard } }, words);
  }

  filter() {
    const words = find('cupboard-search', HTMLInputElement).value.toLowerCase().trim().split(/\s+/).filter(Boolean);
    const only = find('cupboard-ticked', HTMLInputElement).checked;
    let left = 0;
    for (const { row, tick } of this.rows) {
      row.hidden = (only && !tick.checked) || !words.every((word) => row.dataset.words?.includes(word));
      left += row.hidden ? 0 : 1;
    }
    for (const family of findAll('.family', HTMLElement)) {
      family.hidden = findAll('li', HTMLElement, family).every((row) => row.hidden);
    }
    find('cupboard-none').hidden = left > 0;
  }

  // Takes back what was typed and refused: the plan never had it. Whether there was anything.
  takeBack() {
    if (!document.querySelector('[data-error^="class."][data-typed="true"]:not([hidden])')) return false;
    this.show();
    return true;
  }

  // What stands in the form is the plan's own, not the server's answer: nothing may jump back while she types.
  show() {
    const room = store.room;
    clearErrors('[data-error^="class."][data-typed="true"]'); // each box shows the plan's own number again
    for (const input of findAll('[data-class]', HTMLInputElement)) {
      if (document.activeElement !== input || input.value !== '') input.value = String(room[/** @type {'year'} */ (input.dataset.class)]);
    }
    for (const input of findAll('[data-need]', HTMLInputElement)) input.checked = room.needs.some((/** @type {string} */ each) => isNeed(each, input.dataset.need ?? ''));
    this.counts.show();
    for (const input of findAll('[name="scaffold"]', HTMLInputElement)) input.checked = input.value === store.now.scaffold;
    for (const { tick, count, id, row } of this.rows) {
      const held = room.cupboard[id] ?? 0;
      tick.checked = held > 0;
      count.hidden = held === 0;
      if (held) count.value = String(held);
      row.classList.toggle('have', held > 0);
    }
    const kinds = Object.keys(room.cupboard).length;
    const all = Object.values(room.cupboard).reduce((sum, count) => sum + count, 0);
    const words = kinds
      ? phrase('script-of-2', { phrase: phrase('script-count-instruments', { n: all }), 'phrase-2': phrase('script-count-kinds', { n: kinds }) })
      : phrase('script-nothing-in-it-yet-the');
    setText(find('cupboard-words'), words);
    const { year, pupils, groups, minutes } = room;
    const cupboard = kinds ? phrase('script-of-3', { phrase: phrase('script-count-instruments', { n: all }), 'phrase-2': phrase('script-count-kinds', { n: kinds }) }) : phrase('script-no-instruments');
    setText(find('class-words'), phrase('script-year-pupils-in-minutes', { year, pupils, phrase: phrase('script-count-groups', { n: groups }), minutes, cupboard }));
    if (find('cupboard-ticked', HTMLInputElement).checked && !find('cupboard').contains(document.activeElement)) this.filter();
  }
}
