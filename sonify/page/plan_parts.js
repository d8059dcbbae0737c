// The parts of a scene: what each is played on, how it moves, how hard its line is, when it plays; one more, one less,
// one divided, two joined; and what mends what cannot be played.

import { start } from './plan_ask.js';
import { letterOf } from './plan_chart.js';
import { showError } from './plan_errors.js';
import { element } from './plan_fields.js';
import { Mending } from './plan_mending.js';
import { fillSelect } from './plan_select.js';
import { store } from './plan_store.js';
import { termParts, upper } from './plan_terms.js';
import { rowEdit, withEdits } from './plan_words.js';
import { badge, find, phrase, setState, setText, span } from './screen.js';
/** @import { Words } from './plan_words.js' */
/** @import { Instrument, Mend, PartRow, Plan, Told } from './shapes.js' */

const LONGEST_NAME = 40;

/** @param {string} label @param {(value: string) => void} changed */
function choice(label, changed) {
  const box = element('div', 'part-choice');
  const select = element('select');
  const name = element('label', 'field-name', label);
  name.append(select);
  select.addEventListener('change', () => changed(select.value));
  box.append(name);
  return { box, select };
}

// A name that no other has, no longer than a scene allows.
/** @param {string} name @param {string[]} taken */
export function unlike(name, taken) {
  for (let n = 2; ; n += 1) {
    const made = `${name.slice(0, LONGEST_NAME - 3)} ${n}`;
    if (!taken.some((other) => other.toLowerCase() === made.toLowerCase())) return made;
  }
}

// The first name of a new row that is free.
/** @param {'part' | 'hear'} table */
export function newRow(table, edits = store.now.edits) {
  for (let n = 1; ; n += 1) if (!(`${table}.new-${n}` in edits)) return `new-${n}`;
}

class PartCard {
  /** @param {PartRow} row @param {Parts} parts */
  constructor(row, parts) {
    const { id } = row;
    this.parts = parts;
    this.row = row;
    this.stagesMark = '';
    /** @type {HTMLInputElement[]} */
    this.ticks = [];
    this.box = element('details', 'key part');
    this.box.dataset.part = id;
    this.title = element('h4');
    this.mark = span('pill', '');
    const summary = element('summary');
    summary.append(this.title, this.mark);
    this.findings = element('ul', 'dots part-findings');
    this.mending = new Mending(() => this.row, parts);
    const given = `part.${id}`;
    this.card = parts.words.at(`${given}.meaning`, phrase('script-part-card', { part: row.name }));
    this.sound = choice(phrase('script-part-sound'), (value) => this.take(value));
    this.asked = element('p', 'hint');
    this.takeGiven = this.button('', () => this.take(this.row.played[0]?.given[0] ?? ''), 'small');
    this.texture = choice(phrase('script-part-texture'), (value) => this.set({ texture: value }, `${phrase('script-part-texture')}: ${value}.`));
    this.term = element('p', 'term-line');
    this.line = choice(phrase('script-part-line'), (value) => this.set({ line: value || undefined }, `${phrase('script-part-line')}: ${lineWords(value)}.`));
    this.stages = element('fieldset', 'ticks');
    this.rests = Object.assign(element('input'), { type: 'checkbox' });
    this.rests.addEventListener('change', () => this.set({ rests: this.rests.checked ? undefined : false }, phrase('script-part-changed', { part: this.row.name })));
    const rests = element('label', 'tick');
    rests.append(this.rests, ` ${phrase('script-part-rests')}`);
    this.silence = this.button('', () => this.parts.silence(this.row), '');
    this.split = this.button(phrase('script-part-split'), () => this.parts.split(this.row), '');
    this.reset = this.button(phrase('script-own-back'), () => this.parts.reset(this.row), '');
    this.join = choice(phrase('script-part-join'), () => {});
    this.joinNow = this.button(phrase('script-part-join-now'), () => this.parts.join(this.row, this.join.select.value), 'small');
    this.join.box.append(this.joinNow);
    const buttons = element('p', 'buttons');
    buttons.append(this.split, this.silence, this.reset);
    this.error = element('p', 'field-error');
    Object.assign(this.error, { hidden: true });
    this.error.dataset.error = `edits.${given}`;
    const name = parts.words.at(`${given}.name`, phrase('script-part-name'), { long: false, also: (words) => this.parts.renamed(id, words) });
    this.still = element('p', 'hint');
    const soundBox = element('div', 'part-sound');
    soundBox.append(this.sound.box, this.asked, this.takeGiven);
    this.playing = element('div', 'part-playing');
    this.texture.box.append(this.term);
    this.playing.append(soundBox, this.texture.box, this.line.box, this.stages, rests);
    this.box.append(summary, this.findings, this.mending.button, this.mending.list, name.box, this.still, this.card.box, this.playing, this.join.box, buttons, this.error);
  }

  /** @param {string} words @param {() => void} pressed */
  button(words, pressed, className = 'small') {
    const button = element('button', className, words);
    button.type = 'button';
    button.addEventListener('click', pressed);
    return button;
  }

  // Some keys of the part set anew; undefined is the scene's own.
  /** @param {Record<string, unknown>} keys @param {string} said */
  set(keys, said) {
    this.parts.set(this.row, keys, said);
  }

  // The instrument becomes the first that the part asks for; the others stay behind it.
  /** @param {string} id */
  take(id) {
    const { row } = this;
    const at = row.sounds.indexOf(id);
    const others = row.written.filter((_, k) => k !== at);
    const known = this.parts.plan?.at_hand.find((each) => each.id === id);
    this.set({ sounds: [at < 0 ? id : row.written[at], ...others].slice(0, 20) }, phrase('script-part-takes', { part: row.name, instrument: known?.name ?? id }));
  }

  /** @param {PartRow} row @param {Plan} plan */
  show(row, plan) {
    this.row = row;
    const { played, silent } = row;
    const groups = played.map((each) => each.group);
    const wrong = row.findings.filter((each) => each.serious);
    this.title.replaceChildren(...groups.map((group) => badge(((group - 1) % 12) + 1)), silent ? row.name : `${row.name}: ${namesOf(played.flatMap((each) => each.given), plan.at_hand)}`);
    for (const [k, svg] of [...this.title.querySelectorAll('svg text')].entries()) setText(svg, String(groups[k]));
    const said = silent ? phrase('script-part-silent') : !played.length ? phrase('script-part-nobody') : wrong.length ? phrase('script-part-trouble') : '';
    setText(this.mark, said);
    this.mark.hidden = !said;
    setState(this.mark, 'data-good', 'false');
    this.showFindings(row);
    this.showStill(row, plan);
    this.mending.button.hidden = silent || (!wrong.length && played.length > 0);
    this.playing.hidden = silent;
    this.showSound(row, plan.at_hand);
    fillSelect(this.texture.select, plan.choices.textures.map((name) => [name, name]), row.texture);
    this.texture.select.disabled = row.only_beat;
    if (this.term.dataset.term !== row.texture) {
      this.term.dataset.term = row.texture;
      this.term.replaceChildren(span('', row.texture), ...termParts(row.texture));
    }
    const usual = played[0]?.line ?? '';
    fillSelect(this.line.select, [['', phrase('script-part-line-class', { line: row.line ? '' : lineWords(usual) })], ...plan.choices.lines.map((name) => /** @type {[string, string]} */ ([name, lineWords(name)]))], row.line);
    this.showStages(row, plan);
    this.rests.checked = row.rests;
    setText(this.silence, row.id.startsWith('new-') ? phrase('script-part-out') : silent ? phrase('script-part-plays') : phrase('script-part-silence'));
    this.reset.hidden = !this.parts.isChanged(row);
    this.split.hidden = silent || row.only_beat || plan.parts.length >= 12;
    const others = plan.parts.filter((each) => each.id !== row.id && !each.silent);
    fillSelect(this.join.select, others.map((each) => [each.id, each.name]), others.some((each) => each.id === this.join.select.value) ? this.join.select.value : (others[0]?.id ?? ''));
    this.join.box.hidden = silent || !others.length;
  }

  /** @param {PartRow} row */
  showFindings(row) {
    const mark = JSON.stringify(row.findings);
    if (this.findings.dataset.mark === mark) return;
    this.findings.dataset.mark = mark;
    this.findings.replaceChildren(
      ...row.findings.map(({ message, fix }) => element('li', '', [message, fix].filter(Boolean).join(' '))),
    );
    this.findings.hidden = !row.findings.length;
  }

  // Free texts keep the words that they have: what the part was called may be a thing of the science, too.
  /** @param {PartRow} row @param {Plan} plan */
  showStill(row, plan) {
    const was = plan.texts.find((each) => each.path === `part.${row.id}.name`)?.original;
    const lower = ` ${(was ?? '').toLowerCase()} `;
    const plain = (/** @type {string} */ text) => ` ${text.toLowerCase().replace(/[^\p{L}\p{N}'’-]+/gu, ' ')} `;
    const texts = was && was !== row.name ? plan.texts.filter((each) => !each.path.endsWith('.name') && plain(each.text).includes(lower)) : [];
    const labels = texts.map((each) => this.parts.words.texts.get(each.path)?.label ?? '').filter(Boolean);
    setText(this.still, labels.length ? phrase('script-part-still', { name: was ?? '', texts: labels.join(', ') }) : '');
    this.still.hidden = !labels.length;
  }

  /** @param {PartRow} row @param {Instrument[]} atHand */
  showSound(row, atHand) {
    const main = row.played[0]?.given[0] ?? '';
    const known = atHand.some((each) => each.id === main) || !main ? atHand : [...atHand, { id: main, name: main, count: 1, textures: [row.texture], pitched: true }];
    const fits = (/** @type {Instrument} */ each) => each.textures.includes(row.texture) && (each.pitched || !row.notes);
    const good = known.filter(fits).map((each) => /** @type {[string, string]} */ ([each.id, phrase('script-part-instrument', { name: upper(each.name), count: each.count })]));
    const others = known.filter((each) => !fits(each)).map((each) => /** @type {[string, string]} */ ([each.id, phrase('script-part-instrument-not', { name: upper(each.name) })]));
    const options = [...good, ...others];
    fillSelect(this.sound.select, main ? options : [['', phrase('script-part-nobody')], ...options], main);
    const [swap] = row.swaps;
    setText(this.asked, swap ? phrase('script-in-place-of', { upper: upper(swap.given), wanted: swap.wanted, reason: swap.reason }) : '');
    this.asked.hidden = !swap;
    this.takeGiven.hidden = !swap;
    if (swap) setText(this.takeGiven, phrase('script-part-take', { instrument: swap.given }));
  }

  /** @param {PartRow} row @param {Plan} plan */
  showStages(row, plan) {
    const { stages } = plan.choices;
    const mark = JSON.stringify(stages);
    if (this.stagesMark !== mark) {
      this.stagesMark = mark;
      this.ticks = stages.map(([name]) => Object.assign(element('input'), { type: 'checkbox', value: name }));
      const labels = stages.map(([, title], k) => {
        const label = element('label', 'tick');
        label.append(this.ticks[k], ` ${letterOf(k)} ${title}`);
        return label;
      });
      for (const tick of this.ticks) tick.addEventListener('change', () => this.tick(tick));
      this.stages.replaceChildren(element('legend', '', phrase('script-part-stages')), ...labels);
    }
    for (const tick of this.ticks) tick.checked = row.stages === 'all' || row.stages.includes(tick.value);
  }

  /** @param {HTMLInputElement} tick */
  tick(tick) {
    const ticked = this.ticks.filter((each) => each.checked).map((each) => each.value);
    if (!ticked.length) {
      tick.checked = true;
      showError({ message: phrase('script-part-one-stage'), where: `part.${this.row.id}`, typed: true });
      return;
    }
    // A stage that did not come here is the part's own still.
    const away = this.row.stages === 'all' ? [] : this.row.stages.filter((name) => !this.ticks.some((each) => each.value === name));
    this.set({ stages: ticked.length === this.ticks.length && !away.length ? 'all' : [...ticked, ...away] }, phrase('script-part-changed', { part: this.row.name }));
  }
}

/** @param {string} line */
const lineWords = (line) => (line ? phrase('script-part-line-words', { line }) : '');

/** @param {string[]} ids @param {Instrument[]} atHand */
const namesOf = (ids, atHand) => [...new Set(ids)].map((id) => atHand.find((each) => each.id === id)?.name ?? id).join(', ');

// A new part's own rules go with it.
/** @param {string[]} rules */
const withoutRules = (rules) => Object.fromEntries(rules.map((index) => [`hear.${index}`, index.startsWith('new-') ? undefined : null]));

export class Parts {
  /** @param {Told} told @param {Words} words */
  constructor(told, words) {
    this.told = told;
    this.words = words;
    /** @type {Map<string, PartCard>} */
    this.cards = new Map();
    this.names = '';
    /** @type {Plan | null} */
    this.plan = null;
    this.opens = '';
    find('part-add').addEventListener('click', () => this.add());
    // What was tried on another plan mends nothing.
    store.addEventListener('change', () => {
      for (const { mending } of this.cards.values()) mending.list.replaceChildren();
    });
  }

  /** @param {Plan} plan */
  show(plan) {
    this.plan = plan;
    const mark = JSON.stringify(plan.parts.map((row) => [row.id, row.name]));
    if (this.names !== mark) {
      const open = new Set([...this.cards].filter(([, card]) => card.box.open).map(([id]) => id));
      const focused = document.activeElement;
      this.names = mark;
      this.cards = new Map(plan.parts.map((row) => [row.id, new PartCard(row, this)]));
      find('parts').replaceChildren(...[...this.cards.values()].map((card) => card.box));
      for (const [id, card] of this.cards) card.box.open = open.has(id) || id === this.opens;
      if (focused instanceof HTMLElement && find('parts').contains(focused)) focused.focus(); // moved, it lost the focus
    }
    for (const row of plan.parts) this.cards.get(row.id)?.show(row, plan);
    find('part-add', HTMLButtonElement).disabled = plan.parts.length >= 12;
    const made = this.cards.get(this.opens);
    this.opens = '';
    if (made) made.box.querySelector('summary')?.focus();
  }

  /** @param {PartRow} row */
  isChanged(row) {
    return !row.id.startsWith('new-') && Object.keys(store.now.edits).some((path) => path.startsWith(`part.${row.id}.`));
  }

  /** @param {PartRow} row @param {Record<string, unknown>} keys @param {string} said */
  set(row, keys, said) {
    /** @type {Record<string, unknown>} */
    let changes = {};
    for (const [key, value] of Object.entries(keys)) changes = { ...changes, ...rowEdit(`part.${row.id}.${key}`, value, withEdits(changes)) };
    this.change(changes, said);
  }

  /** @param {Record<string, unknown>} changes @param {string} said */
  change(changes, said) {
    this.told(said);
    store.change({ edits: withEdits(changes) });
  }

  /** @param {PartRow} row */
  reset(row) {
    const back = Object.fromEntries(Object.keys(store.now.edits).filter((path) => path.startsWith(`part.${row.id}.`)).map((path) => [path, undefined]));
    const was = this.plan?.texts.find((each) => each.path === `part.${row.id}.name`)?.original;
    const changes = { ...back, ...(was && was !== row.name ? this.renamed(row.id, was) : {}) };
    this.change(changes, phrase('script-as-the-scene-has-it', { label: row.name }));
    this.cards.get(row.id)?.box.querySelector('summary')?.focus();
  }

  /** @param {PartRow} row */
  silence(row) {
    if (row.id.startsWith('new-')) {
      this.change({ [`part.${row.id}`]: undefined, ...withoutRules(this.rulesOf(row)), ...this.ownUnder(row, '') }, phrase('script-part-is-out', { part: row.name }));
      find('part-add').focus();
      return;
    }
    const last = this.plan?.parts.filter((each) => !each.silent).length === 1;
    if (!row.silent && last) {
      showError({ message: phrase('script-part-last'), where: `part.${row.id}`, typed: true });
      return;
    }
    this.change({ [`part.${row.id}.silent`]: row.silent ? undefined : true }, phrase(row.silent ? 'script-part-plays-again' : 'script-part-is-silent', { part: row.name }));
  }

  // Its rules go by its name, and so does what it has of its own. What the scene itself says of a part of its own follows
  // where the text is made: only what stands among the edits is called anew here.
  /** @param {string} id @param {string} name */
  renamed(id, name) {
    const row = this.plan?.parts.find((each) => each.id === id);
    if (!row) return {};
    let changes = this.ownUnder(row, name);
    for (const index of id.startsWith('new-') ? this.rulesOf(row) : this.rulesAmongEdits(row)) changes = { ...changes, ...rowEdit(`hear.${index}.part`, name, withEdits(changes)) };
    return changes;
  }

  // What a part is called in the edits: also the name for which a plan was refused, but never another part's.
  /** @param {PartRow} row */
  calledIn({ id, name }) {
    const others = this.plan?.parts.filter((each) => each.id !== id).map((each) => each.name) ?? [];
    const edits = store.now.edits;
    const written = String(edits[`part.${id}.name`] ?? /** @type {{ name?: string } | undefined} */ (edits[`part.${id}`])?.name ?? name);
    return [name, written].filter((each) => !others.includes(each));
  }

  // The rules of a new part, by number. A plan leaves those out whose place a pattern of its own takes: they are edits.
  /** @param {PartRow} row */
  rulesOf(row) {
    const planned = this.plan?.rules.filter((rule) => rule.part === row.name).map((rule) => rule.index) ?? [];
    return [...new Set([...planned, ...this.rulesAmongEdits(row)])];
  }

  /** @param {PartRow} row */
  rulesAmongEdits(row) {
    const names = this.calledIn(row);
    return Object.entries(store.now.edits).flatMap(([path, value]) => {
      const [, index, key] = path.match(/^hear\.([^.]+)(\.part)?$/) ?? [];
      const part = key ? value : /** @type {{ part?: string } | null} */ (value)?.part;
      return index && names.includes(String(part)) ? [index] : [];
    });
  }

  // A new part's own pattern and sound under another name, or gone without one.
  /** @param {PartRow} row @param {string} name */
  ownUnder(row, name) {
    const { edits } = store.now;
    /** @type {Record<string, unknown>} */
    const changes = {};
    if (this.plan?.parts.some((each) => each.id !== row.id && each.name === name)) return changes;
    for (const kind of ['pattern.', 'sound.']) {
      for (const was of this.calledIn(row).filter((each) => each !== name)) {
        if (edits[kind + was] === undefined) continue;
        changes[kind + was] = undefined;
        if (name) changes[kind + name] = edits[kind + was];
      }
    }
    return changes;
  }

  add() {
    const { plan } = this;
    if (!plan) return;
    const id = newRow('part');
    const used = new Set(plan.parts.flatMap((part) => part.played.flatMap((each) => each.given)));
    const drone = plan.at_hand.filter((each) => each.textures.includes('drone'));
    const free = drone.find((each) => !used.has(each.id) && each.count) ?? drone[0] ?? plan.at_hand[0];
    const name = unlike(phrase('script-part-new'), plan.parts.map((part) => part.name));
    const row = { name, texture: free.textures.includes('drone') ? 'drone' : free.textures[0], sounds: [free.id], meaning: '' };
    this.opens = id;
    this.change({ [`part.${id}`]: row }, phrase('script-part-added', { part: name }));
  }

  // Another part beside this one: the same card, the same rules, sounds of its own.
  /** @param {PartRow} row */
  split(row) {
    const { plan } = this;
    if (!plan) return;
    const id = newRow('part');
    const name = unlike(row.name, plan.parts.map((part) => part.name));
    const [first, ...others] = row.written;
    const keys = { texture: row.texture, sounds: others.length ? [...others, first] : [first], stages: row.stages, meaning: row.meaning, ...(row.rests ? {} : { rests: false }), ...(row.line ? { line: row.line } : {}) };
    /** @type {Record<string, unknown>} */
    const changes = { [`part.${id}`]: { name, ...keys } };
    for (const rule of plan.rules.filter((each) => each.part === row.name)) {
      const { quantity, control, from, to, why, curve } = rule;
      changes[`hear.${newRow('hear', withEdits(changes))}`] = { quantity, as: control, part: name, from, to, curve, why };
    }
    this.opens = id;
    this.change(changes, phrase('script-part-divided', { part: row.name, other: name }));
  }

  // One part plays for both: in the stages of both, and by the other's rules where it has none of its own.
  /** @param {PartRow} row @param {string} other */
  join(row, other) {
    const { plan } = this;
    const into = plan?.parts.find((each) => each.id === other);
    if (!plan || !into) return;
    const stages = row.stages === 'all' || into.stages === 'all' ? 'all' : plan.choices.stages.map(([name]) => name).filter((name) => row.stages.includes(name) || into.stages.includes(name));
    let changes = rowEdit(`part.${into.id}.stages`, stages);
    const own = new Set(plan.rules.filter((rule) => rule.part === into.name).map((rule) => rule.control));
    const fresh = row.id.startsWith('new-');
    for (const rule of plan.rules.filter((each) => each.part === row.name)) {
      if (!own.has(rule.control)) changes = { ...changes, ...rowEdit(`hear.${rule.index}.part`, into.name, withEdits(changes)) };
      else if (fresh) changes = { ...changes, ...withoutRules([rule.index]) };
    }
    if (fresh) changes = { ...changes, ...withoutRules(this.rulesOf(row).filter((index) => plan.rules.every((rule) => rule.index !== index))) };
    changes = { ...changes, [fresh ? `part.${row.id}` : `part.${row.id}.silent`]: fresh ? undefined : true, ...(fresh ? this.ownUnder(row, '') : {}) };
    this.change(changes, phrase('script-part-joined', { part: row.name, other: into.name }));
    this.cards.get(into.id)?.box.querySelector('summary')?.focus();
  }

  // here: whether it was asked for in the part's own card.
  /** @param {PartRow} row @param {Mend} mend */
  mend(row, mend, here = true) {
    this.told(mend.words);
    if (here) this.cards.get(row.id)?.box.querySelector('summary')?.focus();
    const { facts, ...given } = store.now.class ?? {};
    /** @type {Record<string, unknown>} */
    let changes = {};
    for (const [path, value] of Object.entries(mend.edits)) changes = { ...changes, ...rowEdit(path, value, withEdits(changes)) };
    store.change({
      edits: withEdits(changes),
      ...(mend.class ? { class: { ...start.class, ...facts, ...given, ...mend.class } } : {}),
    });
  }
}
