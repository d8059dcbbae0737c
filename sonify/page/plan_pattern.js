// A group's own pattern: boxes as on its card, filled with a finger, a mouse or keys, or tapped against the beat. It goes
// into the scene's text, so that undo, the shelf, a file that is sent and `make` have it.

import { COUNTS, HELD, SILENT, SOUND, boxesOf, empty, patternOf, pressed, reshaped, tapped } from './plan_boxes.js';
import { announce, clearErrors } from './plan_errors.js';
import { element } from './plan_fields.js';
import { Offers } from './plan_offers.js';
import { fillSelect } from './plan_select.js';
import { store } from './plan_store.js';
import { Beat, hzOf, keyboard, midiOf } from './plan_taps.js';
import { find, phrase, setRows, setState, setText, span } from './screen.js';
/** @import { Boxes } from './plan_boxes.js' */
/** @import { OwnPattern, PatternFacts, PatternPart, Plan, Told } from './shapes.js' */

const PATH = 'pattern.';
const MARKS = { [SOUND]: '●', [HELD]: '—', [SILENT]: '' };
const [SLOWEST, FASTEST] = [40, 160];

export class PatternView {
  /** @type {PatternFacts | undefined} */
  facts;
  /** @type {Boxes} */
  boxes = empty(4, 2, 1);

  /** @param {Told} told */
  constructor(told) {
    this.told = told;
    this.part = '';
    this.place = 0; // the box that the keys are in
    this.shape = '';
    this.sent = ''; // what was put into the plan last, so that an answer to it does not move the boxes
    this.beat = new Beat();
    /** @type {{ at: number, until: number, note: string }[] | null} */
    this.taps = null;
    this.startS = 0;
    const part = find('pattern-part', HTMLSelectElement);
    part.addEventListener('change', () => this.choose(part.value));
    for (const id of ['pattern-bars', 'pattern-each']) find(id).addEventListener('change', () => this.reshape());
    find('pattern-name').addEventListener('change', () => this.put());
    find('pattern-clear').addEventListener('click', () => this.clear());
    find('pattern-take').addEventListener('click', () => this.take());
    find('pattern-hear').addEventListener('click', () => this.hear());
    find('pattern-tap').addEventListener('click', () => (this.taps ? this.stop() : this.tap()));
    find('pattern-grid').addEventListener('keydown', (event) => this.key(event));
    this.listen();
    this.offers = new Offers(
      () => ({ part: this.part, pattern: this.boxes.cells.includes(SOUND) ? patternOf(this.boxes, this.name) : null }),
      (whose, pattern) => this.takeOffered(whose, pattern),
    );
  }

  /** @returns {PatternPart | undefined} */
  get row() {
    return this.facts?.parts.find((each) => each.part === this.part);
  }

  get name() {
    return find('pattern-name', HTMLInputElement).value.trim();
  }

  // What the plan holds for the part now: what this page put there, or what stands in the scene's text.
  /** @returns {OwnPattern | null} */
  get own() {
    const here = /** @type {OwnPattern | null | undefined} */ (store.now.edits[PATH + this.part]);
    return here === undefined ? (this.row?.own ?? null) : here;
  }

  // Changing it ------------------------------------------------------------------------------------------------------

  /** @param {string} part */
  choose(part) {
    this.stop(); // what is tapped was for the part before
    this.part = part;
    this.place = 0;
    this.load();
    this.draw();
  }

  load() {
    const { row, own } = this;
    this.sent = JSON.stringify(own);
    this.boxes = own ? boxesOf(own, this.facts?.beats ?? 4) : empty(this.facts?.beats ?? 4, 2, 1);
    find('pattern-name', HTMLInputElement).value = own?.name ?? (row ? phrase('script-pattern-of-group', { group: row.group }) : '');
  }

  // The boxes go into the plan as they are; without a sound there is no pattern.
  put(mark = '') {
    const made = this.boxes.cells.includes(SOUND) ? patternOf(this.boxes, this.name) : null;
    if (!made && !this.own) return;
    clearErrors('[data-error="pattern"]');
    this.sent = JSON.stringify(made);
    const { part } = this;
    this.told(made ? phrase('script-pattern-put', { part }) : phrase('script-pattern-out', { part }));
    store.change({ edits: { ...store.now.edits, [PATH + this.part]: made } }, mark);
  }

  /** @param {Boxes} boxes @param {string} mark */
  change(boxes, mark = '') {
    this.boxes = boxes;
    this.draw();
    this.put(mark);
  }

  reshape() {
    const [bars, each] = ['pattern-bars', 'pattern-each'].map((id) => Number(find(id, HTMLSelectElement).value));
    this.place = 0;
    this.change(reshaped(this.boxes, each, bars));
  }

  clear() {
    this.stop();
    this.change(empty(this.boxes.beats, this.boxes.each, this.boxes.cells.length / (this.boxes.beats * this.boxes.each)));
    find('pattern-title').focus();
  }

  // What hands and bars allow, in place of what was made.
  take() {
    const played = this.row?.played;
    if (!played) return;
    this.change(boxesOf(played, this.boxes.beats));
    find('pattern-title').focus();
  }

  // What a tablet sent, for its part if the piece has it, else for the one that is chosen.
  /** @param {string} whose @param {OwnPattern} pattern */
  takeOffered(whose, pattern) {
    if (this.facts?.parts.some(({ part }) => part === whose)) this.choose(whose);
    find('pattern-name', HTMLInputElement).value = pattern.name ?? '';
    this.change(boxesOf(pattern, this.boxes.beats));
  }

  /** @param {number} k */
  press(k) {
    this.place = k;
    this.change(pressed(this.boxes, k, Boolean(this.row?.held), this.note), `${PATH}${this.part}`);
  }

  get note() {
    return this.row?.notes.length ? find('pattern-note', HTMLSelectElement).value : '';
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const { cells, notes } = this.boxes;
    const scale = this.row?.notes ?? [];
    const step = { ArrowLeft: -1, ArrowRight: 1, Home: -cells.length, End: cells.length }[event.key];
    const climb = { ArrowUp: 1, ArrowDown: -1 }[event.key];
    if (step) {
      this.place = Math.min(Math.max(this.place + step, 0), cells.length - 1);
      this.draw();
    } else if (climb && cells[this.place] === SOUND && scale.length) {
      const at = Math.min(Math.max(scale.indexOf(notes[this.place]) + climb, 0), scale.length - 1);
      find('pattern-note', HTMLSelectElement).value = scale[at];
      this.change({ ...this.boxes, notes: notes.map((note, k) => (k === this.place ? scale[at] : note)) }, `${PATH}${this.part}`);
    } else return;
    this.focus();
    event.preventDefault();
  }

  focus() {
    find('pattern-grid').querySelector('button[tabindex="0"]')?.dispatchEvent(new Event('wanted'));
  }

  // Tapping it -------------------------------------------------------------------------------------------------------

  listen() {
    const pad = find('pattern-pad');
    pad.addEventListener('pointerdown', (event) => {
      event.preventDefault();
      pad.focus();
      this.down(event.timeStamp / 1000);
    });
    pad.addEventListener('pointerup', (event) => this.up(event.timeStamp / 1000));
    pad.addEventListener('keydown', (event) => {
      if (event.key === 'Escape') this.stop();
      if (event.key !== ' ' && event.key !== 'Enter') return;
      event.preventDefault();
      if (!event.repeat) this.down(event.timeStamp / 1000);
    });
    pad.addEventListener('keyup', (event) => [' ', 'Enter'].includes(event.key) && this.up(event.timeStamp / 1000));
    const midi = find('pattern-midi');
    midi.hidden = !('requestMIDIAccess' in navigator);
    midi.addEventListener('click', async () => {
      try {
        const now = () => performance.now() / 1000;
        const names = await keyboard((key) => this.down(now(), this.nearest(key)), () => this.up(now()));
        announce(names.length ? phrase('script-pattern-keyboard', { name: names.join(', ') }) : phrase('script-pattern-no-keyboard'));
        setText(midi, names.length ? names.join(', ') : phrase('script-pattern-no-keyboard'));
      } catch {
        announce(phrase('script-pattern-no-keyboard'));
      }
    });
  }

  // The note of the part that is nearest to a key.
  /** @param {number} key */
  nearest(key) {
    const scale = this.row?.notes ?? [];
    return [...scale].sort((a, b) => Math.abs(midiOf(a) - key) - Math.abs(midiOf(b) - key))[0] ?? '';
  }

  tap() {
    this.stop();
    const { beats, cells, each } = this.boxes;
    const bars = cells.length / (beats * each);
    const pad = find('pattern-pad');
    pad.hidden = false;
    pad.focus();
    this.taps = [];
    announce(phrase('script-pattern-count-in'));
    setText(find('pattern-tap'), phrase('script-pattern-stop'));
    const beatS = 60 / this.bpm;
    const told = (/** @type {number} */ k) => setText(pad, k < beats ? phrase('script-pattern-ready', { beat: (k % beats) + 1 }) : phrase('script-pattern-now', { beat: (k % beats) + 1 }));
    this.startS = this.beat.run({ beats, all: beats * (bars + 1), bpm: this.bpm, told, done: () => this.done() }) + beats * beatS;
  }

  get bpm() {
    const typed = Number(find('pattern-bpm', HTMLInputElement).value);
    return Math.min(Math.max(typed || 80, SLOWEST), FASTEST);
  }

  /** @param {number} atS @param {string} note */
  down(atS, note = this.note) {
    if (!this.taps) return;
    const at = ((atS - this.startS) * this.bpm) / 60;
    if (at > -0.5 / this.boxes.each) this.taps.push({ at, until: at, note });
  }

  /** @param {number} atS */
  up(atS) {
    const last = this.taps?.[this.taps.length - 1];
    if (last) last.until = Math.max(last.at, ((atS - this.startS) * this.bpm) / 60);
  }

  // The piece of time is over: what was tapped stands in the boxes. Nothing tapped changes nothing.
  done() {
    const { taps } = this;
    this.quiet();
    if (!taps?.length) {
      announce(phrase('script-pattern-nothing'));
      return;
    }
    this.change(tapped(this.boxes, taps, Boolean(this.row?.held)));
    announce(phrase('script-pattern-tapped', { n: this.boxes.cells.filter((cell) => cell === SOUND).length }));
  }

  stop() {
    this.beat.stop();
    this.quiet();
  }

  quiet() {
    const pad = find('pattern-pad');
    const held = document.activeElement === pad;
    this.taps = null;
    pad.hidden = true;
    setText(find('pattern-tap'), phrase('script-pattern-tap'));
    setState(find('pattern-hear'), 'aria-pressed', 'false');
    if (held) find('pattern-tap').focus();
  }

  hear() {
    const on = find('pattern-hear').getAttribute('aria-pressed') === 'true';
    this.stop();
    if (on) return;
    const { each, cells, notes } = this.boxes;
    const boxS = 60 / this.bpm / each;
    const tones = cells.flatMap((cell, k) => {
      if (cell !== SOUND) return [];
      let end = k + 1;
      while (cells[end] === HELD) end += 1;
      return [0, 1].map((turn) => ({ atS: (k + turn * cells.length) * boxS, hz: hzOf(notes[k]), lastsS: (end - k) * boxS }));
    });
    setState(find('pattern-hear'), 'aria-pressed', 'true');
    this.beat.play(tones, 2 * cells.length * boxS, () => this.quiet());
  }

  // Showing it -------------------------------------------------------------------------------------------------------

  /** @param {Plan} plan */
  show({ patterns }) {
    this.facts = patterns;
    const { parts } = patterns;
    find('pattern-panel').hidden = !parts.length;
    if (!parts.length) return;
    const choice = find('pattern-part', HTMLSelectElement);
    if (!this.row) {
      this.stop();
      this.part = parts.find((row) => row.own)?.part ?? parts[0].part;
    }
    fillSelect(choice, parts.map(({ group, part, instrument }) => [part, phrase('script-pattern-part', { group, part, instrument })]), this.part);
    if (this.shape === '' || this.boxes.beats !== patterns.beats || JSON.stringify(this.own) !== this.sent) this.load();
    this.draw();
  }

  draw() {
    const { row, boxes } = this;
    if (!row || !this.facts) return;
    const bars = boxes.cells.length / (boxes.beats * boxes.each);
    options('pattern-bars', Array.from({ length: this.facts.most_bars }, (_, n) => [String(n + 1), String(n + 1)]), String(bars));
    options('pattern-each', this.facts.boxes_a_beat.map((each) => [String(each), counted(this.facts?.beats ?? 4, each)]), String(boxes.each));
    options('pattern-note', row.notes.map((note) => [note, note]), find('pattern-note', HTMLSelectElement).value || row.notes[0] || '');
    find('pattern-note-field').hidden = !row.notes.length;
    const bpm = find('pattern-bpm', HTMLInputElement);
    if (bpm.dataset.part !== this.part) [bpm.value, bpm.dataset.part] = [String(Math.min(Math.max(Math.round(row.bpm), SLOWEST), FASTEST)), this.part];
    const shape = `${boxes.beats} ${boxes.each} ${bars}`;
    if (this.shape !== shape) this.frame(shape, bars);
    for (const [k, button] of [...find('pattern-grid').querySelectorAll('button')].entries()) this.fill(button, k);
    find('pattern-clear').hidden = !this.own;
    this.means(row);
  }

  /** @param {string} shape @param {number} bars */
  frame(shape, bars) {
    this.shape = shape;
    const { beats, each } = this.boxes;
    const words = COUNTS[/** @type {1 | 2 | 4} */ (each)];
    const made = Array.from({ length: bars }, (_, bar) => {
      const line = element('div', 'pattern-bar');
      setState(line, 'role', 'group');
      setState(line, 'aria-label', phrase('script-pattern-bar', { bar: bar + 1 }));
      for (let beat = 0; beat < beats; beat += 1) {
        const group = element('div', 'pattern-beat');
        for (let n = 0; n < each; n += 1) group.append(this.box((bar * beats + beat) * each + n, n ? words[n] : String(beat + 1)));
        line.append(group);
      }
      return line;
    });
    find('pattern-grid').replaceChildren(...made);
  }

  /** @param {number} k @param {string} count */
  box(k, count) {
    const box = element('div', 'pattern-box');
    const label = span('', count);
    setState(label, 'aria-hidden', 'true');
    const button = Object.assign(element('button'), { type: 'button' });
    button.addEventListener('click', () => this.press(k));
    button.addEventListener('focus', () => {
      if (this.place === k) return;
      this.place = k;
      this.draw();
    });
    button.addEventListener('wanted', () => button.focus());
    box.append(label, button);
    return box;
  }

  /** @param {HTMLButtonElement} button @param {number} k */
  fill(button, k) {
    const { beats, each, cells, notes } = this.boxes;
    const [bar, beat, n] = [Math.floor(k / (beats * each)) + 1, (Math.floor(k / each) % beats) + 1, k % each];
    const count = n ? `${beat} ${COUNTS[/** @type {1 | 2 | 4} */ (each)][n]}` : String(beat);
    const what = cells[k] === SOUND ? phrase('script-pattern-sound', { note: notes[k] }) : cells[k] === HELD ? phrase('script-pattern-held') : phrase('script-pattern-silent');
    setText(button, cells[k] === SOUND && notes[k] ? notes[k] : MARKS[cells[k]]);
    setState(button, 'data-box', cells[k]);
    setState(button, 'aria-pressed', String(cells[k] !== SILENT));
    setState(button, 'aria-label', phrase('script-pattern-box', { bar, count, what }));
    button.tabIndex = k === this.place ? 0 : -1;
  }

  // What it means for the science, and what mends what cannot be played.
  /** @param {PatternPart} row */
  means(row) {
    const current = row.own && JSON.stringify(row.own.boxes) === JSON.stringify(patternOf(this.boxes, '').boxes);
    const told = current ? row.told.map(({ message, fix }) => [message, fix].filter(Boolean).join(' ')) : [];
    const lines = told.length ? told : [current ? phrase('script-pattern-fits', { part: row.part }) : phrase('script-pattern-none', { part: row.part })];
    setRows(find('pattern-told'), lines, (item, line) => {
      item.textContent = line;
    });
    find('pattern-take').hidden = !current || !row.played;
  }
}

/** @param {string} id @param {[value: string, words: string][]} rows @param {string} value */
function options(id, rows, value) {
  fillSelect(find(id, HTMLSelectElement), rows, rows.some(([each]) => each === value) ? value : (rows[0]?.[0] ?? ''));
}

/** @param {number} beats @param {number} each */
function counted(beats, each) {
  const words = COUNTS[/** @type {1 | 2 | 4} */ (each)];
  return Array.from({ length: Math.min(beats, 2) }, (_, beat) => words.map((word, n) => (n ? word : String(beat + 1))).join(' ')).join(' ');
}
