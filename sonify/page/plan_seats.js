// Who sits where: each group with what it plays, chosen from a list or by dragging one group onto another.

import { element } from './plan_fields.js';
import { Mending } from './plan_mending.js';
import { fillSelect } from './plan_select.js';
import { store } from './plan_store.js';
import { rowEdit, withEdits } from './plan_words.js';
import { badge, find, findAll, phrase, setText, span } from './screen.js';
/** @import { Parts } from './plan_parts.js' */
/** @import { PartRow, Plan, Told } from './shapes.js' */

const PLACES = 'group:'; // how the value of an option begins that changes places with a group

/** @param {PartRow} row */
const groupsOf = (row) => [...new Set(row.played.map((each) => each.group))].sort((a, b) => a - b);

export class Seats {
  /** @param {Told} told @param {Parts} parts */
  constructor(told, parts) {
    this.told = told;
    this.parts = parts;
    this.mark = '';
    this.dragged = 0;
    /** @type {PartRow[]} */
    this.rows = [];
    // Who played what when a list got the focus: arrow keys lead through parts that are not meant.
    /** @type {{ group: number, part: string, rows: PartRow[] } | null} */
    this.from = null;
    this.moving = false; // the change, or the focus, is our own
    /** @type {{ group: number, part: string, select: HTMLSelectElement }[]} */
    this.selects = [];
    /** @type {Map<string, { box: HTMLElement, words: HTMLElement, mending: Mending }>} */
    this.notes = new Map();
    this.reset = find('seats-reset', HTMLButtonElement);
    this.reset.addEventListener('click', () => this.dealAnew());
    store.addEventListener('change', () => {
      if (!this.moving) this.from = null;
    });
  }

  /** @param {Plan} plan */
  show(plan) {
    this.rows = plan.parts.filter((row) => !row.silent);
    const groups = [...new Set(this.rows.flatMap(groupsOf))].sort((a, b) => a - b);
    const mark = JSON.stringify([groups.map((group) => [group, this.playedBy(group).map((row) => row.id)]), this.unplayed().map((row) => row.id)]);
    if (this.mark !== mark) this.frame(groups);
    this.mark = mark;
    for (const group of groups) setText(find(`seat-${group}-players`), phrase('script-count-players', { n: this.players(group) }));
    for (const { group, part, select } of this.selects) fillSelect(select, this.options(group, part, groups), part);
    for (const row of this.rows) this.note(row);
    this.reset.hidden = !this.asked().length;
  }

  /** @param {number} group */
  playedBy(group) {
    return this.rows.filter((row) => groupsOf(row).includes(group));
  }

  unplayed() {
    return this.rows.filter((row) => !row.played.length);
  }

  // All pupils of a group, both halves of it where it has two.
  /** @param {number} group */
  players(group) {
    const played = this.rows.flatMap((row) => row.played.filter((each) => each.group === group));
    const halves = new Map(played.map((each) => [each.team, each.players]));
    return [...halves.values()].reduce((sum, each) => sum + each, 0);
  }

  /** @param {number} group @param {string} part @param {number[]} groups @returns {import('./plan_select.js').Option[]} */
  options(group, part, groups) {
    const own = this.playedBy(group).map((row) => row.id);
    const names = (/** @type {number} */ other) => this.playedBy(other).map((row) => row.name).join(', ');
    return [
      ...this.rows.filter((row) => row.id === part || !own.includes(row.id)).map((row) => /** @type {[string, string]} */ ([row.id, row.name])),
      ...groups.filter((other) => other !== group).map((other) => /** @type {[string, string, string]} */ ([PLACES + other, phrase('script-seat-other', { group: other, parts: names(other) }), phrase('script-seat-places')])),
    ];
  }

  // The rows themselves are made anew only where what a group plays has changed; the focus stays with its group.
  /** @param {number[]} groups */
  frame(groups) {
    const focused = document.activeElement?.closest('[data-seat]');
    const at = focused instanceof HTMLElement && find('seats').contains(focused) ? focused.dataset.seat : undefined;
    this.selects = [];
    this.notes = new Map();
    find('seats').replaceChildren(...groups.map((group) => this.seat(group)), ...this.unplayed().map((row) => this.free(row, groups)));
    const again = at === undefined ? null : find('seats').querySelector(`[data-seat="${at}"] select`);
    this.moving = true;
    if (at !== undefined) (again instanceof HTMLElement ? again : find('seats-title')).focus();
    this.moving = false;
  }

  /** @param {number} group */
  seat(group) {
    const item = element('li', 'seat');
    item.dataset.seat = String(group);
    const who = element('div', 'seat-who');
    who.draggable = true;
    who.title = phrase('script-seat-drag');
    const icon = badge(((group - 1) % 12) + 1);
    const number = icon.querySelector('text');
    if (number) number.textContent = String(group);
    const players = span('hint', '');
    players.id = `seat-${group}-players`;
    who.append(icon, element('h4', '', phrase('script-seat-group', { group })), players);
    item.append(who);
    for (const [k, row] of this.playedBy(group).entries()) {
      item.append(this.choice(phrase(k ? 'script-seat-and' : 'script-seat-plays-label', { group }), group, row.id));
      item.append(this.noteOf(row, group));
    }
    this.drags(item, who, group);
    return item;
  }

  // A part that nobody plays, to be given to a group beside what that plays already.
  /** @param {PartRow} row @param {number[]} groups */
  free(row, groups) {
    const item = element('li', 'seat');
    item.dataset.seat = row.id;
    const label = element('label', 'seat-choice', phrase('script-seat-give', { part: row.name }));
    const select = element('select');
    fillSelect(select, [['', phrase('script-part-nobody')], ...groups.map((group) => /** @type {[string, string]} */ ([String(group), phrase('script-seat-group', { group })]))], '');
    select.addEventListener('change', () => {
      if (select.value) this.seatAll(new Map([[row.id, [Number(select.value)]]]), phrase('script-seat-plays', { group: Number(select.value), part: row.name }));
    });
    label.append(select);
    item.append(element('h4', '', row.name), label, this.noteOf(row, 0));
    return item;
  }

  /** @param {string} words @param {number} group @param {string} part */
  choice(words, group, part) {
    const label = element('label', 'seat-choice', words);
    const select = element('select');
    select.addEventListener('focus', () => {
      if (!this.moving || this.from?.group !== group) this.from = { group, part, rows: this.rows };
    });
    select.addEventListener('change', () => this.choose(group, part, select.value));
    label.append(select);
    this.selects.push({ group, part, select });
    return label;
  }

  // What is wrong with a part, with its first group.
  /** @param {PartRow} row @param {number} group */
  noteOf(row, group) {
    if (groupsOf(row).length && groupsOf(row)[0] !== group) return '';
    const box = element('div', 'seat-note');
    const words = element('ul', 'dots');
    const mending = new Mending(() => this.rows.find((each) => each.id === row.id) ?? row, {
      mend: (of, mend) => {
        find('seats-title').focus();
        this.parts.mend(of, mend, false);
      },
    });
    box.append(words, mending.button, mending.list);
    this.notes.set(row.id, { box, words, mending });
    return box;
  }

  /** @param {PartRow} row */
  note(row) {
    const note = this.notes.get(row.id);
    if (!note) return;
    const found = row.findings.filter((each) => each.serious || each.kind === 'class');
    const mark = JSON.stringify(found);
    if (note.words.dataset.mark !== mark) {
      note.words.dataset.mark = mark;
      note.words.replaceChildren(...found.map(({ message, fix }) => element('li', '', [message, fix].filter(Boolean).join(' '))));
    }
    note.mending.button.hidden = !found.some((each) => each.serious) && row.played.length > 0;
    note.box.hidden = !found.length && note.mending.button.hidden;
    note.mending.list.replaceChildren();
  }

  // A group plays another part: who played that takes over what this group leaves, unless others play it still.
  /** @param {number} group @param {string} part @param {string} to */
  choose(group, part, to) {
    const from = this.from?.group === group ? this.from : { part, rows: this.rows };
    if (to.startsWith(PLACES)) {
      this.changePlaces(group, Number(to.slice(PLACES.length)), from.rows);
      return;
    }
    const [left, taken] = [from.part, to].map((id) => from.rows.find((row) => row.id === id));
    if (!left || !taken) return;
    const stay = groupsOf(left).filter((each) => each !== group);
    const there = groupsOf(taken);
    const other = stay.length || left === taken ? 0 : (there.at(-1) ?? 0);
    const seats = new Map([
      [left.id, other ? [other] : stay],
      [taken.id, [...new Set([...there.filter((each) => each !== other), group])].sort((a, b) => a - b)],
    ]);
    const said = other ? phrase('script-seat-exchange', { group, part: taken.name, other, left: left.name }) : phrase('script-seat-plays', { group, part: taken.name });
    this.seatAll(seats, said, from.rows);
  }

  /** @param {number} one @param {number} other */
  changePlaces(one, other, rows = this.rows) {
    const turned = (/** @type {number} */ group) => (group === one ? other : group === other ? one : group);
    const seats = rows.filter((row) => row.played.length).map((row) => /** @type {[string, number[]]} */ ([row.id, groupsOf(row).map(turned).sort((a, b) => a - b)]));
    this.seatAll(new Map(seats), phrase('script-seat-turned', { group: one, other }), rows);
  }

  // From the first choice on it is hers who plays what: every part that is played keeps its groups.
  /** @param {Map<string, number[]>} seats @param {string} said */
  seatAll(seats, said, rows = this.rows) {
    /** @type {Record<string, unknown>} */
    let changes = {};
    for (const row of rows) {
      const groups = seats.get(row.id) ?? groupsOf(row);
      changes = { ...changes, ...rowEdit(`part.${row.id}.groups`, groups.length ? groups : undefined, withEdits(changes)) };
    }
    this.told(said);
    this.moving = true;
    store.change({ edits: withEdits(changes) }, 'seats');
    this.moving = false;
  }

  // The parts that somebody gave to groups.
  asked() {
    return this.rows.filter((row) => row.groups.length);
  }

  dealAnew() {
    /** @type {Record<string, unknown>} */
    let changes = {};
    for (const row of this.asked()) changes = { ...changes, ...rowEdit(`part.${row.id}.groups`, row.seated ? null : undefined, withEdits(changes)) };
    this.told(phrase('script-seat-dealt'));
    store.change({ edits: withEdits(changes) });
    find('seats-title').focus();
  }

  /** @param {HTMLElement} item @param {HTMLElement} who @param {number} group */
  drags(item, who, group) {
    who.addEventListener('dragstart', (event) => {
      this.dragged = group;
      event.dataTransfer?.setData('text/x-group', String(group)); // no text: that is taken for cells of a spreadsheet
    });
    who.addEventListener('dragend', () => {
      this.dragged = 0;
      for (const each of findAll('.seat', HTMLElement, find('seats'))) each.classList.remove('over');
    });
    item.addEventListener('dragover', (event) => {
      if (!this.dragged || this.dragged === group) return;
      event.preventDefault();
      item.classList.add('over');
    });
    item.addEventListener('dragleave', () => item.classList.remove('over'));
    item.addEventListener('drop', (event) => {
      event.preventDefault();
      event.stopPropagation();
      if (this.dragged && this.dragged !== group) this.changePlaces(this.dragged, group);
    });
  }
}
