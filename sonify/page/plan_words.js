// Words that a person can change where they stand: the text, a box to write in, how it reads, and what was there first.

import { aborted, askAbout, Refused } from './plan_ask.js';
import { clearErrors, showError } from './plan_errors.js';
import { element } from './plan_fields.js';
import { store } from './plan_store.js';
import { findAll, findIn, phrase, setText, span } from './screen.js';
/** @import { Inputs, TextRow, Told } from './shapes.js' */

const TYPED_MS = 200;
let made = 0;

// A path of an edit in the place of another, or taken away where the scene's own stands again.
/** @param {Record<string, unknown>} changes values by path; undefined takes one back */
export function withEdits(changes, edits = store.now.edits) {
  const kept = Object.entries({ ...edits, ...changes }).filter(([, value]) => value !== undefined);
  return Object.fromEntries(kept);
}

export class OwnText {
  // path: as edits name it. label: what it is, "Title". long: whether it takes several lines.
  /** @param {{ path: string, label: string, told: Told, long?: boolean, heading?: boolean, also?: (words: string) => Record<string, unknown> }} of */
  constructor({ path, label, told, long = true, heading = false, also = () => ({}) }) {
    made += 1;
    this.id = `own-${made}`;
    this.path = path;
    this.label = label;
    this.told = told;
    this.long = long;
    this.also = also; // what else changes with it
    /** @type {TextRow | null} */
    this.row = null;
    this.timer = 0;
    this.asked = new AbortController();
    this.box = element('div', 'own');
    this.box.dataset.own = path;
    this.text = element(heading ? 'h4' : 'p', 'own-text');
    this.text.addEventListener('click', () => this.open());
    this.state = element('p', 'hint own-state');
    this.change = this.button(phrase('script-own-change'), () => this.open());
    this.back = this.button(phrase('script-own-back'), () => this.reset());
    const tools = element('p', 'own-tools');
    tools.append(this.change, this.back);
    this.error = element('p', 'field-error');
    Object.assign(this.error, { id: `${this.id}-error`, hidden: true });
    this.error.dataset.error = `edits.${path}`;
    this.form = element('div', 'own-form');
    this.form.hidden = true;
    this.box.append(this.text, this.state, tools, this.form, this.error);
  }

  /** @param {string} words @param {() => void} pressed */
  button(words, pressed, className = 'small') {
    const button = element('button', className, words);
    button.type = 'button';
    button.append(span('unseen', `: ${this.label}`));
    button.addEventListener('click', pressed);
    return button;
  }

  /** @param {string} label */
  relabel(label) {
    if (this.label === label) return;
    this.label = label;
    for (const button of [this.change, this.back]) setText(findIn(button, '.unseen'), `: ${label}`);
  }

  /** @param {TextRow} row */
  show(row) {
    this.row = row;
    setText(this.text, row.text || phrase('script-own-empty'));
    this.text.classList.toggle('own-none', !row.text);
    const changed = row.original !== row.text;
    this.back.hidden = !changed || row.original === null;
    this.box.classList.toggle('changed', changed && row.original !== null);
    const told = this.reading(row.age, row.loose);
    const untrue = row.claims.filter((claim) => !claim.holds).map((claim) => phrase('script-own-not-so', { claim: claim.says }));
    setText(this.state, changed ? [...told, ...untrue].join(' ') : untrue.join(' '));
    this.state.hidden = !this.state.textContent;
  }

  /** @param {number | null} age @param {string[]} loose */
  reading(age, loose) {
    const told = age === null ? [] : [phrase(age > 9 ? 'script-own-reads-older' : 'script-own-reads', { age: Math.round(age) })];
    if (loose.length) told.push(phrase('script-own-loose', { figures: loose.join(', ') }));
    return told;
  }

  open() {
    const { row } = this;
    if (!row || !this.form.hidden) return;
    const label = element('label', 'field-name', this.label);
    const box = this.long ? Object.assign(element('textarea'), { rows: Math.min(10, Math.max(2, Math.ceil(row.text.length / 60))) }) : Object.assign(element('input'), { type: 'text' });
    label.htmlFor = `${this.id}-box`;
    Object.assign(box, { id: `${this.id}-box`, value: row.text, spellcheck: true, autocomplete: 'off' });
    const reads = element('p', 'hint');
    reads.id = `${this.id}-reads`;
    reads.setAttribute('role', 'status');
    box.setAttribute('aria-describedby', `${reads.id} ${this.error.id}`);
    setText(reads, this.reading(row.age, row.loose).join(' '));
    const buttons = element('p', 'buttons');
    buttons.append(
      this.button(phrase('script-own-done'), () => this.done(box.value), 'strongest'),
      this.button(phrase('script-own-leave'), () => this.close(), ''),
    );
    box.addEventListener('input', () => this.typed(box.value, reads));
    box.addEventListener('keydown', (event) => {
      const { key, ctrlKey, metaKey } = /** @type {KeyboardEvent} */ (event);
      if (key === 'Escape') this.close();
      else if (key === 'Enter' && (ctrlKey || metaKey || !this.long)) this.done(box.value);
      else return;
      event.preventDefault();
      event.stopPropagation();
    });
    this.form.replaceChildren(label, box, reads, this.claims(row), buttons);
    this.form.hidden = false;
    this.text.hidden = true;
    this.state.hidden = true;
    this.change.hidden = true;
    box.focus();
  }

  // What the scene says that the words claim. Unticked, it is claimed no more, and checked no more.
  /** @param {TextRow} row */
  claims(row) {
    if (!row.claimed.length) return element('span');
    const box = element('fieldset', 'ticks stacked');
    box.append(element('legend', '', phrase('script-own-claims')));
    for (const words of row.claimed) {
      const claim = row.claims.find((each) => each.text === words);
      const tick = Object.assign(element('input'), { type: 'checkbox', checked: claim !== undefined, value: words });
      const label = element('label', 'tick');
      const said = claim?.says ?? words;
      label.append(tick, ` ${claim && !claim.holds ? phrase('script-own-not-so', { claim: said }) : said}`);
      box.append(label);
    }
    return box;
  }

  /** @param {string} text @param {HTMLElement} reads */
  typed(text, reads) {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.ask(text, reads), TYPED_MS);
  }

  /** @param {string} text @param {HTMLElement} reads */
  async ask(text, reads) {
    this.asked.abort();
    this.asked = new AbortController();
    try {
      const body = (/** @type {unknown} */ sent) => ({ .../** @type {Inputs} */ (sent), words: { path: this.path, text, claims: this.ticked() } });
      const found = await askAbout('/api/words', store.now, { signal: this.asked.signal, body });
      setText(reads, this.reading(found.age, found.loose).join(' '));
    } catch (error) {
      // The words can be written without it.
      if (!aborted(error) && !(error instanceof Refused)) throw error;
    }
  }

  ticked() {
    return findAll('input[type="checkbox"]:checked', HTMLInputElement, this.form).map((each) => each.value);
  }

  /** @param {string} text */
  done(text) {
    const { row, path } = this;
    if (!row) return;
    const words = text.replace(/\s+/g, ' ').trim();
    if (/^title$|\.(name|why)$/.test(path) && !words) {
      showError({ message: phrase('script-own-needed', { label: this.label }), where: `edits.${path}`, typed: true });
      return;
    }
    clearErrors();
    const ticked = this.ticked();
    this.close();
    const claims = row.claimed.length ? { [claimsPath(path)]: ticked.length === row.claimed.length ? undefined : ticked } : {};
    this.told(phrase('script-own-changed', { label: this.label }));
    store.change({ edits: { ...withEdits({ ...rowEdit(path, words === row.original ? undefined : words), ...claims, ...this.also(words) }) } });
  }

  reset() {
    this.told(phrase('script-as-the-scene-has-it', { label: this.label }));
    store.change({ edits: withEdits({ [this.path]: undefined, [claimsPath(this.path)]: undefined, ...this.also(this.row?.original ?? '') }) });
    this.change.focus();
  }

  close() {
    clearTimeout(this.timer);
    this.asked.abort();
    if (this.form.hidden) return;
    this.form.hidden = true;
    this.form.replaceChildren();
    this.text.hidden = false;
    this.state.hidden = !this.state.textContent;
    this.change.hidden = false;
    this.change.focus();
  }
}

/** @param {string} path */
const claimsPath = (path) => path.replace(/\.\w+$/, '.claims');

// An edit of one key. Of a part or a rule that is a person's own, all its lines are one edit.
/** @param {string} path @param {unknown} value */
export function rowEdit(path, value, edits = store.now.edits) {
  const [whole, row, key] = path.match(/^((?:part|hear)\.new-\d+)\.(\w+)$/) ?? [];
  if (!whole) return { [path]: value };
  const { [key]: _, ...kept } = /** @type {Record<string, unknown>} */ (edits[row] ?? {});
  return { [row]: value === undefined ? kept : { ...kept, [key]: value } };
}

// The scene's own words: its title, its story, and what pupils read at each stage.
export class Words {
  /** @param {Told} told */
  constructor(told) {
    this.told = told;
    /** @type {Map<string, OwnText>} */
    this.texts = new Map();
    this.names = '';
  }

  // The words of a path, in a place of their own; made once.
  /** @param {string} path @param {string} label @param {{ long?: boolean, heading?: boolean, also?: (words: string) => Record<string, unknown> }} how */
  at(path, label, how = {}) {
    const found = this.texts.get(path);
    found?.relabel(label);
    if (found) return found;
    const text = new OwnText({ path, label, told: this.told, ...how });
    this.texts.set(path, text);
    return text;
  }

  /** @param {TextRow[]} rows @param {{ name: string, title: string }[]} stages */
  show(rows, stages) {
    const mark = rows.map((row) => row.path).join('|');
    if (mark !== this.names) this.frame(rows, stages);
    this.names = mark;
    for (const row of rows) this.texts.get(row.path)?.show(row);
  }

  /** @param {TextRow[]} rows @param {{ name: string, title: string }[]} stages */
  frame(rows, stages) {
    const [title, story, captions] = ['own-title', 'own-story', 'own-captions'].map((id) => /** @type {HTMLElement} */ (document.getElementById(id)));
    title.replaceChildren(this.at('title', phrase('script-own-title'), { long: false, heading: true }).box);
    story.replaceChildren(this.at('story', phrase('script-own-story')).box);
    captions.replaceChildren(
      ...stages.flatMap((stage, k) => {
        const of = rows.filter((row) => row.path.startsWith(`stage.${stage.name}.`));
        return of.map((row) => {
          const item = element('li');
          const why = row.path.endsWith('.why');
          const label = phrase(why ? 'script-own-why' : 'script-own-caption', { stage: stage.title });
          item.append(span('letter', String.fromCharCode(65 + (k % 26))), this.at(row.path, label).box);
          return item;
        });
      }),
    );
  }
}
