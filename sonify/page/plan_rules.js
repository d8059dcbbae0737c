// The rules of a scene: each quantity heard as a feature of the sound, both ends of it, its key and how it is heard.

import { start } from './plan_ask.js';
import { element, Field, setFresh } from './plan_fields.js';
import { heading } from './plan_map.js';
import { Axis } from './plan_axis.js';
import { newRow } from './plan_parts.js';
import { fillSelect } from './plan_select.js';
import { store } from './plan_store.js';
import { termParts, upper } from './plan_terms.js';
import { rowEdit, withEdits } from './plan_words.js';
import { find, phrase, setRows, setState, setText, span } from './screen.js';
/** @import { Words } from './plan_words.js' */
/** @import { Plan, RuleChange, RuleRow, Told } from './shapes.js' */

/** @typedef {'from' | 'to'} Side */
/** @typedef {0 | 1} End */

/** @type {Record<string, string>} */
const CURVE_WORDS = {
  linear: phrase('script-equal-steps'),
  logarithmic: phrase('script-equal-ratios'),
  decibels: phrase('script-equal-decibels'),
};
/** @type {[End, string][]} */
const ENDS = [[0, phrase('script-low-end')], [1, phrase('script-high-end')]];

class RuleCard {
  // The parts that `curveField` and `result` make.
  /** @type {Field} */
  curve;
  /** @type {HTMLElement} */
  body;
  /** @type {HTMLElement} */
  heard;
  /** @type {HTMLElement} */
  heardBody;
  /** @type {HTMLElement} */
  verdict;
  /** @type {HTMLElement} */
  exaggeration;
  /** @type {HTMLElement} */
  control;
  /** @type {Map<string, HTMLSelectElement>} */
  selects;
  /** @type {HTMLButtonElement} */
  out;
  /** @type {HTMLButtonElement} */
  back;

  /** @param {RuleRow} rule @param {Rules} hear */
  constructor(rule, hear) {
    this.index = rule.index;
    this.rule = rule;
    /** @type {{ field: Field, side: Side, end: End }[]} */
    this.fields = [];
    const where = `rules.${rule.index}`;
    this.box = element('details', 'key rule');
    this.box.open = rule.index === '0';
    this.box.dataset.rule = String(rule.index);
    const summary = element('summary');
    this.title = element('h4');
    this.mark = span('pill', '');
    summary.append(this.title, this.mark);
    this.sentence = element('p', 'key-sentence');
    this.why = hear.words.at(`hear.${rule.index}.why`, phrase('script-own-reason', { quantity: upper(rule.quantity), control: start.controls[rule.control] })).box;
    this.meaning = element('p', 'hint');
    this.error = element('p', 'field-error');
    Object.assign(this.error, { hidden: true });
    this.error.dataset.error = where;
    const ends = element('div', 'ends');
    ends.append(...ENDS.map(([end, words]) => this.end(rule, end, words, hear)));
    this.axis = new Axis(rule.index);
    this.box.append(summary, this.sentence, this.why, this.meaning, this.made(rule, hear), ends, this.curveField(rule, hear), this.error, this.axis.box, ...this.result(rule));
  }

  /** @param {RuleRow} rule @param {End} end @param {string} words @param {Rules} hear */
  end(rule, end, words, hear) {
    const box = element('fieldset', 'end');
    box.append(element('legend', '', words));
    /** @type {[Side, string][]} */
    const sides = [['from', rule.quantity], ['to', start.controls[rule.control]]];
    for (const [side, label] of sides) {
      const field = new Field({
        where: `rules.${rule.index}.${side}.${end}`,
        label: upper(label),
        changed: (text, said) => hear.changeEnd(rule.index, side, end, text, `${words}. ${said}`),
        reset: () => hear.resetEnd(rule.index, side, end),
      });
      this.fields.push({ field, side, end });
      box.append(field.box);
    }
    return box;
  }

  // Which quantity, heard as what, of whom; which way; and the rule taken out.
  /** @param {RuleRow} rule @param {Rules} hear */
  made(rule, hear) {
    const { index } = rule;
    const box = element('fieldset', 'rule-made');
    box.append(element('legend', '', phrase('script-rule-made')));
    /** @type {[key: string, label: string, changed: (value: string) => void][]} */
    const rows = [
      ['quantity', phrase('script-rule-quantity'), (value) => hear.hear(this.rule, { quantity: value })],
      ['control', phrase('script-rule-control'), (value) => hear.hear(this.rule, { control: value })],
      ['part', phrase('script-rule-part'), (value) => hear.hear(this.rule, { part: value })],
    ];
    this.selects = new Map(
      rows.map(([key, label, changed]) => {
        const select = element('select');
        select.dataset.key = key;
        const name = element('label', 'field-name', label);
        name.append(select);
        box.append(name);
        select.addEventListener('change', () => changed(select.value));
        return /** @type {[string, HTMLSelectElement]} */ ([key, select]);
      }),
    );
    const buttons = element('p', 'buttons');
    /** @param {string} words @param {() => void} pressed */
    const button = (words, pressed) => {
      const made = element('button', 'small', words);
      made.type = 'button';
      made.addEventListener('click', pressed);
      buttons.append(made);
      return made;
    };
    button(phrase('script-rule-turn'), () => hear.turn(this.rule));
    this.out = button(phrase('script-rule-out'), () => hear.takeOut(this.rule));
    this.back = button(phrase('script-own-back'), () => hear.putBack(index));
    box.append(buttons);
    return box;
  }

  /** @param {RuleRow} rule @param {Rules} hear */
  showMade(rule, hear) {
    const { plan } = hear;
    if (!plan) return;
    const choices = /** @type {Record<string, [string, string][]>} */ ({
      quantity: plan.choices.quantities.map(({ name, unit }) => [name, unit ? `${upper(name)} (${unit})` : upper(name)]),
      control: Object.keys(plan.choices.controls).map((name) => [name, start.controls[name]]),
      part: [['', phrase('script-rule-all')], ...plan.parts.filter((part) => !part.silent).map((part) => /** @type {[string, string]} */ ([part.name, part.name]))],
    });
    for (const [key, select] of this.selects) fillSelect(select, choices[key], String(rule[/** @type {'quantity' | 'control' | 'part'} */ (key)]));
    /** @type {HTMLSelectElement} */ (this.selects.get('part')).disabled = rule.control === 'tempo';
    this.out.hidden = hear.shown.length < 2;
    this.back.hidden = !hear.isChanged(rule.index);
  }

  /** @param {RuleRow} rule @param {Rules} hear */
  curveField(rule, hear) {
    this.curve = new Field({
      where: `rules.${rule.index}.curve`,
      label: phrase('script-in-between-label'),
      changed: (text) => hear.change(rule.index, { curve: text }, `rules.${rule.index}.curve`, phrase('script-in-between', { text: CURVE_WORDS[text] ?? text })),
      reset: () => hear.reset(rule.index, 'curve'),
    });
    return this.curve.box;
  }

  /** @param {RuleRow} rule */
  result(rule) {
    const heads = [upper(rule.quantity), upper(start.controls[rule.control])];
    const { table, body } = keyTable(phrase('script-the-key'), heads);
    const heard = keyTable(phrase('script-in-this-piece'), [phrase('script-stage'), ...heads]);
    this.body = body;
    this.heard = heard.table;
    this.heardBody = heard.body;
    this.verdict = element('p', 'verdict');
    this.exaggeration = element('p', 'exaggeration');
    const explained = element('p', 'term-line');
    explained.append(span('', phrase('script-why-exaggerate')), ...termParts('exaggeration'));
    const control = element('p', 'term-line');
    this.control = control;
    const tables = element('div', 'scroll tables');
    tables.append(table, this.heard);
    Object.assign(tables, { tabIndex: 0, role: 'group', ariaLabel: phrase('script-key', { heads: heads.join(phrase('script-and')) }) });
    return [tables, this.verdict, this.exaggeration, control, explained];
  }

  /** @param {RuleRow} rule @param {RuleRow | undefined} own @param {Rules} hear */
  show(rule, own, hear) {
    this.rule = rule;
    const changed = hear.isChanged(rule.index);
    this.showMade(rule, hear);
    this.axis.show(rule, `${upper(rule.quantity)}, ${start.controls[rule.control]}`, changed);
    const part = rule.part ? ` (${rule.part})` : '';
    setText(this.title, phrase('script-heard-as', { upper: upper(rule.quantity), control: start.controls[rule.control], part }));
    setFresh(this.mark, rule.audible ? phrase('script-heard') : phrase('script-hard-to-hear'));
    setState(this.mark, 'data-good', String(Boolean(rule.audible)));
    setFresh(this.sentence, rule.sentence);
    setText(this.meaning, rule.meaning ? `${upper(rule.quantity)}: ${rule.meaning}.` : '');
    for (const { field, side, end } of this.fields) {
      const steps = rule[end ? /** @type {const} */ (`${side}_high`) : /** @type {const} */ (`${side}_low`)];
      field.show({ steps, changed: changed && own !== undefined && own.quantity === rule.quantity && own.control === rule.control && rule[side][end] !== own[side][end] });
    }
    const choices = rule.curves.map((name) => /** @type {[string, string]} */ ([name, CURVE_WORDS[name] ? `${name}: ${CURVE_WORDS[name]}` : name]));
    this.curve.box.hidden = choices.length < 2;
    this.curve.show({ choices, chosen: rule.curve, changed: changed && own !== undefined && rule.curve !== own.curve });
    fillTable(this.body, rule.key);
    this.heard.hidden = !rule.heard?.length;
    fillTable(this.heardBody, rule.heard ?? []);
    setFresh(this.verdict, rule.verdict);
    setFresh(this.exaggeration, rule.exaggeration);
    if (!this.control.children.length && start.terms[rule.control]) {
      this.control.append(span('', rule.control === start.controls[rule.control] ? phrase('script-what-is', { control: rule.control }) : phrase('script-the-musician-s-word', { control: rule.control })), ...termParts(rule.control));
    }
  }
}

// Fills the body of a table, its rows' first cells being headings; what changed in it is marked.
/** @param {HTMLElement} body @param {string[][]} rows */
function fillTable(body, rows) {
  while (body.children.length > rows.length) body.lastElementChild?.remove();
  while (body.children.length < rows.length) {
    const line = element('tr');
    line.append(heading('row', ''), ...rows[0].slice(1).map(() => element('td')));
    body.append(line);
  }
  for (const [k, row] of rows.entries()) {
    for (const [j, text] of row.entries()) setFresh(body.children[k].children[j], text);
  }
}

/** @param {string} captionText @param {string[]} heads */
function keyTable(captionText, heads) {
  const table = element('table', 'key-table');
  const top = document.createElement('thead');
  const line = element('tr');
  line.append(...heads.map((text) => heading('col', text)));
  top.append(line);
  const body = document.createElement('tbody');
  table.append(element('caption', '', captionText), top, body);
  return { table, body };
}

/** @param {RuleRow[]} rules @param {string} index */
function ruleAt(rules, index) {
  return /** @type {RuleRow} */ (rules.find((rule) => rule.index === index));
}

export class Rules {
  /** @param {Told} told @param {Words} words */
  constructor(told, words) {
    this.words = words;
    /** @type {Map<string, RuleCard>} */
    this.cards = new Map();
    this.told = told;
    this.names = '';
    this.opens = '';
    this.focused = '';
    /** @type {RuleRow[]} */
    this.shown = [];
    /** @type {RuleRow[]} */
    this.written = [];
    /** @type {Plan | null} */
    this.plan = null;
    find('rule-add').addEventListener('click', () => this.add());
    find('reset-rules').addEventListener('click', () => {
      told(phrase('script-the-rules-are-as-the'));
      store.change({ rules: {}, edits: withoutRules() });
      find('rules-title').focus();
    });
  }

  // Both ends go to the server together: the one that was moved, and the other as it is.
  /** @param {string} index @param {Side} side @param {End} end @param {string} text @param {string} said */
  changeEnd(index, side, end, text, said) {
    const own = store.now.rules[index]?.[side] ?? ruleAt(this.shown, index)[side];
    const texts = (this.edited(index, side) ?? own).map((other, k) => (k === end ? text : other));
    this.change(index, { [side]: texts }, `rules.${index}.${side}.${end}`, said);
  }

  // One end goes back to the scene's own; where the other is the scene's own too, nothing is left changed.
  /** @param {string} index @param {Side} side @param {End} end */
  resetEnd(index, side, end) {
    const written = ruleAt(this.written, index)[side];
    const texts = ruleAt(this.shown, index)[side].map((text, k) => (k === end ? written[k] : text));
    if (texts.every((text, k) => text === written[k])) this.reset(index, side);
    else this.change(index, { [side]: texts }, '', phrase('script-as-the-scene-has-it-2'));
  }

  // What an edit says of a rule; the ends of one that is a person's own, or hears something else, stand there.
  /** @param {string} index @param {string} key @returns {string[] | undefined} */
  edited(index, key) {
    const { edits } = store.now;
    const whole = /** @type {Record<string, string[]> | undefined} */ (edits[`hear.${index}`]);
    return whole ? whole[key] : /** @type {string[] | undefined} */ (edits[`hear.${index}.${key}`]);
  }

  /** @param {string} index @param {RuleChange} part @param {string} mark @param {string} said */
  change(index, part, mark, said) {
    this.told(said);
    const [key] = Object.keys(part);
    const whole = index.startsWith('new-') || this.edited(index, key) !== undefined;
    if (whole) store.change({ edits: withEdits(rowEdit(`hear.${index}.${key}`, part[/** @type {keyof RuleChange} */ (key)])) }, mark);
    else store.change({ rules: { ...store.now.rules, [index]: { ...store.now.rules[index], ...part } } }, mark);
  }

  /** @param {string} index @param {keyof RuleChange} key */
  reset(index, key) {
    const { [key]: _, ...kept } = store.now.rules[index] ?? {};
    const { [index]: __, ...others } = store.now.rules;
    this.told(phrase('script-as-the-scene-has-it-2'));
    store.change({ rules: Object.keys(kept).length ? { ...others, [index]: kept } : others, edits: withEdits({ [`hear.${index}.${key}`]: undefined }) });
  }

  /** @param {string} index */
  isChanged(index) {
    return !index.startsWith('new-') && (index in store.now.rules || Object.keys(store.now.edits).some((path) => path.startsWith(`hear.${index}.`)));
  }

  // Another quantity, control or part. Ends that belong to what was heard before go with it, and so does its reason.
  /** @param {RuleRow} rule @param {{ quantity?: string, control?: string, part?: string }} to */
  hear(rule, to) {
    const { plan } = this;
    if (!plan) return;
    const { index } = rule;
    const quantity = to.quantity ?? rule.quantity;
    const control = to.control ?? rule.control;
    const part = control === 'tempo' ? '' : (to.part ?? rule.part);
    /** @type {Record<string, unknown>} */
    const keys = {};
    if (quantity !== rule.quantity) Object.assign(keys, { quantity, from: plan.choices.quantities.find((each) => each.name === quantity)?.from });
    if (control !== rule.control) Object.assign(keys, { as: control, to: plan.choices.controls[control] });
    if (part !== rule.part) keys.part = part || null;
    if ('quantity' in keys || 'as' in keys) Object.assign(keys, { curve: 'linear', why: reason(quantity, control), claims: this.claims(index) });
    this.focused = Object.keys(to)[0];
    this.opens = index;
    this.edit(index, keys, phrase('script-rule-now', { quantity: upper(quantity), control: start.controls[control], whom: part || phrase('script-rule-all') }));
  }

  // What the scene's reason claims is not claimed of another one.
  /** @param {string} index */
  claims(index) {
    return this.plan?.texts.find((row) => row.path === `hear.${index}.why`)?.claimed.length ? null : undefined;
  }

  /** @param {string} index @param {Record<string, unknown>} keys @param {string} said */
  edit(index, keys, said) {
    /** @type {Record<string, unknown>} */
    let changes = {};
    for (const [key, value] of Object.entries(keys)) changes = { ...changes, ...rowEdit(`hear.${index}.${key}`, index.startsWith('new-') && value === null ? undefined : value, withEdits(changes)) };
    this.told(said);
    store.change({ edits: withEdits(changes) });
  }

  // Other ends of a rule, as a finding offers them: tried on this very piece.
  /** @param {string} index @param {RuleChange} change */
  mend(index, change) {
    this.told(phrase('script-mended'));
    const whole = index.startsWith('new-') || Object.keys(change).some((key) => this.edited(index, key) !== undefined);
    if (whole) this.edit(index, { ...change }, phrase('script-mended'));
    else store.change({ rules: { ...store.now.rules, [index]: { ...store.now.rules[index], ...change } } });
  }

  // The other way round: what was loud is soft.
  /** @param {RuleRow} rule */
  turn(rule) {
    const { index } = rule;
    const way = rule.to_high.at > rule.to_low.at ? 'down' : 'up';
    const to = [...rule.to].reverse();
    const why = reason(rule.quantity, rule.control, way);
    this.edit(index, { to, why, claims: this.claims(index) }, phrase('script-rule-turned', { low: rule.to[1], high: rule.to[0] }));
  }

  /** @param {RuleRow} rule */
  takeOut(rule) {
    const { index } = rule;
    const { [index]: _, ...rules } = store.now.rules;
    const kept = Object.fromEntries(Object.entries(store.now.edits).filter(([path]) => !path.startsWith(`hear.${index}.`)));
    this.told(phrase('script-rule-is-out', { quantity: upper(rule.quantity), control: start.controls[rule.control] }));
    store.change({ rules, edits: withEdits({ [`hear.${index}`]: index.startsWith('new-') ? undefined : null }, kept) });
    find('rules-title').focus();
  }

  // All of a rule as the scene has it.
  /** @param {string} index */
  putBack(index) {
    const { [index]: _, ...rules } = store.now.rules;
    const edits = Object.fromEntries(Object.entries(store.now.edits).filter(([path]) => path !== `hear.${index}` && !path.startsWith(`hear.${index}.`)));
    this.opens = index;
    this.focused = 'quantity';
    this.told(phrase('script-as-the-scene-has-it-2'));
    store.change({ rules, edits });
  }

  // A rule more: a quantity that nobody hears yet, as something that a part does not follow yet.
  add() {
    const { plan } = this;
    if (!plan || !plan.choices.quantities.length) return;
    const heard = new Set(plan.rules.map((rule) => rule.quantity));
    const quantity = plan.choices.quantities.find((each) => !heard.has(each.name)) ?? plan.choices.quantities[0];
    const parts = plan.parts.filter((part) => !part.silent);
    const taken = new Set(plan.rules.map((rule) => `${rule.control} ${rule.part}`));
    const free = ['dynamics', 'brightness', 'density', 'pitch'].flatMap((control) => parts.map((part) => ({ control, part: part.name }))).find(({ control, part }) => !taken.has(`${control} ${part}`));
    if (!free) return;
    const index = newRow('hear');
    const row = { quantity: quantity.name, as: free.control, part: free.part, from: quantity.from, to: plan.choices.controls[free.control], why: reason(quantity.name, free.control) };
    this.opens = index;
    this.focused = 'quantity';
    this.told(phrase('script-rule-now', { quantity: upper(quantity.name), control: start.controls[free.control], whom: free.part }));
    store.change({ edits: withEdits({ [`hear.${index}`]: row }) });
  }

  // written: the rules as the scene has them, where they are known yet.
  /** @param {Plan} plan @param {RuleRow[] | undefined} written */
  show(plan, written) {
    const { rules } = plan;
    this.plan = plan;
    this.shown = rules;
    this.written = written ?? rules;
    const names = JSON.stringify(rules.map((rule) => [rule.index, rule.quantity, rule.control, rule.part]));
    if (this.names !== names) this.frame(rules, names);
    for (const rule of rules) this.cards.get(rule.index)?.show(rule, this.written.find((each) => each.index === rule.index), this);
    find('reset-rules').hidden = !Object.keys(store.now.rules).length && !Object.keys(store.now.edits).some((path) => path.startsWith('hear.'));
    find('rule-add', HTMLButtonElement).hidden = !plan.choices.quantities.length || rules.length >= 40;
    this.showOut();
  }

  /** @param {RuleRow[]} rules @param {string} names */
  frame(rules, names) {
    const open = new Set([...this.cards].filter(([, card]) => card.box.open).map(([index]) => index));
    const first = this.names === '' || !rules.some((rule) => this.cards.has(rule.index));
    this.names = names;
    this.cards = new Map(rules.map((rule) => [rule.index, new RuleCard(rule, this)]));
    find('rules').replaceChildren(...[...this.cards.values()].map((card) => card.box));
    if (!rules.length) find('rules').append(element('p', '', phrase('script-no-rules')));
    if (!first) for (const [index, card] of this.cards) card.box.open = open.has(index) || index === this.opens;
    const made = this.cards.get(this.opens)?.selects.get(this.focused);
    this.opens = '';
    this.focused = '';
    if (made) made.focus();
  }

  // What is taken out, each one key away.
  showOut() {
    const gone = this.written.filter((rule) => store.now.edits[`hear.${rule.index}`] === null);
    setRows(find('rules-out'), gone, (item, rule) => {
      const back = element('button', 'small', phrase('script-rule-back'));
      back.type = 'button';
      back.append(span('unseen', `: ${upper(rule.quantity)}`));
      back.addEventListener('click', () => this.putBack(rule.index));
      item.append(span('', `${phrase('script-rule-gone', { quantity: upper(rule.quantity), control: start.controls[rule.control] })} `), back);
    });
  }
}

// The edits without those of rules.
const withoutRules = () => Object.fromEntries(Object.entries(store.now.edits).filter(([path]) => !path.startsWith('hear.')));

/** @param {string} quantity @param {string} control @param {'up' | 'down'} way */
const reason = (quantity, control, way = 'up') => phrase('script-rule-reason', { quantity, control, way });
