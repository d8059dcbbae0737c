// The rules of a scene: each quantity heard as a feature of the sound, both ends of it, its key and how it is heard.

import { start } from './plan_ask.js';
import { element, Field, setFresh } from './plan_fields.js';
import { heading } from './plan_map.js';
import { store } from './plan_store.js';
import { termParts, upper } from './plan_terms.js';
import { find, phrase, setState, setText, span } from './screen.js';
/** @import { RuleChange, RuleRow, Told } from './shapes.js' */

/** @typedef {'from' | 'to'} Side */
/** @typedef {0 | 1} End */

/** @type {Record<string, string>} */
const CURVE_WORDS = { linear: phrase('script-equal-steps'), logarithmic: phrase('script-equal-ratios') };
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

  /** @param {RuleRow} rule @param {Rules} hear */
  constructor(rule, hear) {
    this.index = rule.index;
    /** @type {{ field: Field, side: Side, end: End }[]} */
    this.fields = [];
    const where = `rules.${rule.index}`;
    this.box = element('details', 'key rule');
    this.box.open = rule.index === 0;
    this.box.dataset.rule = String(rule.index);
    const summary = element('summary');
    this.title = element('h4');
    this.mark = span('pill', '');
    summary.append(this.title, this.mark);
    this.sentence = element('p', 'key-sentence');
    this.why = element('p');
    this.meaning = element('p', 'hint');
    this.error = element('p', 'field-error');
    Object.assign(this.error, { hidden: true });
    this.error.dataset.error = where;
    const ends = element('div', 'ends');
    ends.append(...ENDS.map(([end, words]) => this.end(rule, end, words, hear)));
    this.box.append(summary, this.sentence, this.why, this.meaning, ends, this.curveField(rule, hear), this.error, ...this.result(rule));
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

  /** @param {RuleRow} rule @param {RuleChange | undefined} changes @param {RuleRow} own */
  show(rule, changes, own) {
    const part = rule.part ? ` (${rule.part})` : '';
    setText(this.title, phrase('script-heard-as', { upper: upper(rule.quantity), control: start.controls[rule.control], part }));
    setFresh(this.mark, rule.audible ? phrase('script-heard') : phrase('script-hard-to-hear'));
    setState(this.mark, 'data-good', String(Boolean(rule.audible)));
    setFresh(this.sentence, rule.sentence);
    setText(this.why, rule.why);
    setText(this.meaning, rule.meaning ? `${upper(rule.quantity)}: ${rule.meaning}.` : '');
    for (const { field, side, end } of this.fields) {
      const steps = rule[end ? /** @type {const} */ (`${side}_high`) : /** @type {const} */ (`${side}_low`)];
      field.show({ steps, changed: changes?.[side] !== undefined && changes[side][end] !== own[side][end] });
    }
    const choices = rule.curves.map((name) => /** @type {[string, string]} */ ([name, CURVE_WORDS[name] ? `${name}: ${CURVE_WORDS[name]}` : name]));
    this.curve.box.hidden = choices.length < 2;
    this.curve.show({ choices, chosen: rule.curve, changed: changes?.curve !== undefined && changes.curve !== own.curve });
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

/** @param {RuleRow[]} rules @param {number} index */
function ruleAt(rules, index) {
  return /** @type {RuleRow} */ (rules.find((rule) => rule.index === index));
}

export class Rules {
  /** @param {Told} told */
  constructor(told) {
    /** @type {Map<number, RuleCard>} */
    this.cards = new Map();
    this.told = told;
    this.names = '';
    /** @type {RuleRow[]} */
    this.shown = [];
    /** @type {RuleRow[]} */
    this.written = [];
    find('reset-rules').addEventListener('click', () => {
      told(phrase('script-the-rules-are-as-the'));
      store.change({ rules: {} });
      find('rules-title').focus();
    });
  }

  // Both ends go to the server together: the one that was moved, and the other as it is.
  /** @param {number} index @param {Side} side @param {End} end @param {string} text @param {string} said */
  changeEnd(index, side, end, text, said) {
    const own = store.now.rules[index]?.[side] ?? ruleAt(this.shown, index)[side];
    const texts = own.map((other, k) => (k === end ? text : other));
    this.change(index, { [side]: texts }, `rules.${index}.${side}.${end}`, said);
  }

  // One end goes back to the scene's own; where the other is the scene's own too, nothing is left changed.
  /** @param {number} index @param {Side} side @param {End} end */
  resetEnd(index, side, end) {
    const written = ruleAt(this.written, index)[side];
    const texts = (store.now.rules[index]?.[side] ?? written).map((text, k) => (k === end ? written[k] : text));
    if (texts.every((text, k) => text === written[k])) this.reset(index, side);
    else this.change(index, { [side]: texts }, '', phrase('script-as-the-scene-has-it-2'));
  }

  /** @param {number} index @param {RuleChange} part @param {string} mark @param {string} said */
  change(index, part, mark, said) {
    this.told(said);
    store.change({ rules: { ...store.now.rules, [index]: { ...store.now.rules[index], ...part } } }, mark);
  }

  /** @param {number} index @param {keyof RuleChange} key */
  reset(index, key) {
    const { [key]: _, ...kept } = store.now.rules[index] ?? {};
    const { [index]: __, ...others } = store.now.rules;
    this.told(phrase('script-as-the-scene-has-it-2'));
    store.change({ rules: Object.keys(kept).length ? { ...others, [index]: kept } : others });
  }

  // written: the rules as the scene has them, where they are known yet.
  /** @param {RuleRow[]} rules @param {RuleRow[] | undefined} written */
  show(rules, written) {
    this.shown = rules;
    this.written = written ?? rules;
    const names = JSON.stringify(rules.map((rule) => [rule.index, rule.quantity, rule.control, rule.part]));
    if (this.names !== names) {
      this.names = names;
      this.cards = new Map(rules.map((rule) => [rule.index, new RuleCard(rule, this)]));
      find('rules').replaceChildren(...[...this.cards.values()].map((card) => card.box));
      if (!rules.length) find('rules').append(element('p', '', phrase('script-no-rules')));
    }
    for (const rule of rules) {
      this.cards.get(rule.index)?.show(rule, store.now.rules[rule.index], ruleAt(this.written, rule.index));
    }
    find('reset-rules').hidden = !Object.keys(store.now.rules).length;
  }
}
