// How many pupils need something, and in which group: lines of the class file's `needs` ("one hand: 2 in group 3").

import { showError } from './plan_errors.js';
import { store } from './plan_store.js';
import { findAll, findIn, phrase } from './screen.js';

/** @typedef {{ pupils: number, group: number }} Who */

/** @param {string} text @param {string} name */
export const isNeed = (text, name) => text === name || text.startsWith(`${name}:`);

/** @param {string} name @returns {Who[]} */
function held(name) {
  return store.room.needs.filter((/** @type {string} */ text) => isNeed(text, name)).map((/** @type {string} */ text) => {
    const [, pupils, group] = text.match(/: *(\d+)?(?: *in group (\d+))?$/) ?? [];
    return { pupils: Number(pupils ?? 1), group: Number(group ?? 0) };
  });
}

/** @param {string} name @param {Who} who */
function line(name, { pupils, group }) {
  if (pupils === 1 && !group) return name;
  return `${name}: ${pupils}${group ? ` in group ${group}` : ''}`;
}

export class NeedCounts {
  /** @param {(needs: string[], words: string, mark: string) => void} change @param {string[]} names in their order */
  constructor(change, names) {
    this.change = change;
    this.names = names;
    this.places = findAll('[data-who]', HTMLElement);
    for (const place of this.places) {
      place.addEventListener('change', (event) => this.changed(place, event.target));
      place.addEventListener('click', (event) => {
        if (event.target instanceof HTMLButtonElement) this.another(place);
      });
    }
  }

  /** @param {string} name @param {Who[]} rows @param {string} words */
  write(name, rows, words) {
    const lines = [...new Set(rows.map((who) => line(name, who)))];
    const needs = this.names.flatMap((each) => (each === name ? lines : store.room.needs.filter((/** @type {string} */ text) => isNeed(text, each))));
    this.change(needs, words, `class.needs.${name}`);
  }

  /** @param {HTMLElement} place @param {EventTarget | null} box */
  changed(place, box) {
    const name = place.dataset.who ?? '';
    const rows = held(name);
    const index = findAll('.who', HTMLElement, place).findIndex((row) => box instanceof Node && row.contains(box));
    if (index < 0 || index >= rows.length) return;
    if (box instanceof HTMLSelectElement) rows[index].group = Number(box.value);
    if (box instanceof HTMLInputElement) {
      const pupils = Number(box.value);
      const max = store.room.pupils;
      if (!box.value || !Number.isInteger(pupils) || pupils < 0 || pupils > max) {
        showError({ message: phrase('script-type-a-whole-number-up', { name: box.labels?.[0]?.textContent ?? name, max }), where: 'class.needs', typed: true });
        return;
      }
      rows[index].pupils = pupils;
    }
    const left = rows.filter((who) => who.pupils);
    this.write(name, left, phrase('script-need-now', { need: name, said: left.map((who) => this.told(who)).join('; ') || phrase('script-none') }));
    if (!left.length) findIn(document, `[data-need="${CSS.escape(name)}"]`, HTMLInputElement).focus();
  }

  /** @param {HTMLElement} place */
  another(place) {
    const name = place.dataset.who ?? '';
    const rows = held(name);
    const taken = new Set(rows.map((who) => who.group));
    const group = Array.from({ length: store.room.groups }, (_, at) => at + 1).find((each) => !taken.has(each));
    if (!group) return;
    this.write(name, [...rows, { pupils: 1, group }], phrase('script-need-now', { need: name, said: this.told({ pupils: 1, group }) }));
    this.show();
    findAll('select', HTMLSelectElement, place).at(-1)?.focus();
  }

  /** @param {Who} who */
  told({ pupils, group }) {
    return group ? phrase('script-need-in', { n: pupils, group }) : String(pupils);
  }

  // The boxes of each ticked need; those that have the focus stay as they are.
  show() {
    for (const place of this.places) {
      const name = place.dataset.who ?? '';
      const rows = held(name);
      place.hidden = !rows.length;
      while (findAll('.who', HTMLElement, place).length > rows.length) findAll('.who', HTMLElement, place).at(-1)?.remove();
      while (findAll('.who', HTMLElement, place).length < rows.length) findIn(place, 'button', HTMLButtonElement).before(this.row(name));
      findAll('.who', HTMLElement, place).forEach((row, at) => this.fill(row, rows[at]));
      findIn(place, 'button', HTMLButtonElement).hidden = rows.length >= store.room.groups;
    }
  }

  /** @param {string} name */
  row(name) {
    const row = document.createElement('span');
    row.className = 'who';
    const [count, group] = [document.createElement('label'), document.createElement('label')];
    const input = document.createElement('input');
    Object.assign(input, { type: 'number', min: '0', step: '1', inputMode: 'numeric' });
    count.append(phrase('script-need-how-many', { need: name }), ' ', input);
    group.append(phrase('script-need-which'), ' ', document.createElement('select'));
    row.append(count, ' ', group);
    return row;
  }

  /** @param {HTMLElement} row @param {Who} who */
  fill(row, { pupils, group }) {
    const input = findIn(row, 'input', HTMLInputElement);
    input.max = String(store.room.pupils);
    if (document.activeElement !== input || input.value !== '') input.value = String(pupils);
    const select = findIn(row, 'select', HTMLSelectElement);
    const most = Math.max(store.room.groups, group); // a group that is gone is shown until another is chosen
    if (select.options.length !== most + 1) {
      const names = Array.from({ length: most + 1 }, (_, at) => (at ? phrase('script-need-group', { group: at }) : phrase('script-need-any-group')));
      select.replaceChildren(...names.map((words, at) => new Option(words, String(at))));
    }
    select.value = String(group);
  }
}
