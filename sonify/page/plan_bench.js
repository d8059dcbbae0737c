// The bench: what she changes on the left, and on the right what it does to the science, the sound and the class.

import { start } from './plan_ask.js';
import { Chart, letterOf } from './plan_chart.js';
import { ClassForm } from './plan_class.js';
import { Compare } from './plan_compare.js';
import { DrawView } from './plan_draw.js';
import { announce, clearAnswered, hideTrouble, showError } from './plan_errors.js';
import { element, Field, setFresh, setMarking } from './plan_fields.js';
import { Jumps } from './plan_jumps.js';
import { PieceMap } from './plan_map.js';
import { Parts } from './plan_parts.js';
import { Question } from './plan_question.js';
import { Rules } from './plan_rules.js';
import { PatternView } from './plan_pattern.js';
import { Seats } from './plan_seats.js';
import { isChanged, NO_CHANGES, store } from './plan_store.js';
import { SoundView } from './plan_sound.js';
import { TableView } from './plan_table.js';
import { upper } from './plan_terms.js';
import { Words } from './plan_words.js';
import { find, phrase, setRows, setState, setText, span } from './screen.js';
/** @import { Refused } from './plan_ask.js' */
/** @import { Condition, Finding, Plan, RuleRow, Told } from './shapes.js' */

const WAIT_MS = 80;

export class Bench extends EventTarget {
  constructor() {
    super();
    /** @type {Plan | null} */
    this.plan = null;
    /** @type {Plan | null} */
    this.written = null; // the scene's own, before any change
    this.writtenFor = '';
    this.said = '';
    /** @type {Told} */
    const told = (words) => {
      this.said = words;
    };
    this.told = told;
    this.chart = new Chart();
    this.compare = new Compare(told);
    this.compare.addEventListener('change', () => this.drawChart());
    this.map = new PieceMap();
    this.words = new Words(told);
    this.parts = new Parts(told, this.words);
    this.seats = new Seats(told, this.parts);
    this.rules = new Rules(told, this.words);
    this.classForm = new ClassForm(told);
    this.table = new TableView();
    this.drawing = new DrawView(told);
    this.pattern = new PatternView(told);
    this.sound = new SoundView(told);
    this.jumps = new Jumps();
    this.names = '';
    /** @type {Map<string, Field>} */
    this.conditions = new Map();
    this.question = new Question('/api/plan', (plan) => this.show(plan), (error) => this.refuse(error), (words) => setText(find('bar-words'), words));
    this.first = new Question('/api/plan', (plan) => this.compareWritten(plan), () => {});
    find('reset-science').addEventListener('click', () => {
      told(phrase('script-the-science-is-as-the'));
      store.change({ set: {} });
      find('science-controls-title').focus();
    });
  }

  // Asks what the present plan comes to. Its answer is on the screen as soon as it is there.
  update() {
    this.classForm.show();
    document.body.dataset.waiting = 'true';
    const { scene } = store.now;
    this.question.ask(store.now, this.plan ? WAIT_MS : 0);
    const mark = JSON.stringify(scene);
    if (mark === this.writtenFor) return;
    this.writtenFor = mark;
    this.written = null;
    this.plan = null;
    if (isChanged(store.now)) this.first.ask({ ...store.now, ...NO_CHANGES }, 0);
  }

  /** @param {Plan} plan */
  compareWritten(plan) {
    this.written = plan;
    if (this.plan) this.draw(this.plan);
  }

  /** @param {Refused} error */
  refuse(error) {
    delete document.body.dataset.waiting;
    showError(error, () => this.update());
    const words = error.status ? phrase('script-not-possible-as-it-is') : phrase('script-the-program-does-not-answer');
    setText(find('bar-words'), words);
  }

  /** @param {Plan} plan */
  show(plan) {
    delete document.body.dataset.waiting;
    clearAnswered();
    hideTrouble();
    if (!isChanged(store.now)) this.written = plan;
    const words = this.plan ? [this.said, ...differences(this.plan, plan)].filter(Boolean).join(' ') : '';
    this.said = '';
    setMarking(this.plan !== null);
    this.plan = plan;
    this.draw(plan);
    setMarking(true);
    const first = phrase('script-ready-2', { title: plan.title, 'length-words': lengthWords(plan) });
    setText(find('bar-words'), words || first);
    if (words) announce(words);
    this.dispatchEvent(new Event('planned'));
  }

  /** @param {Plan} plan */
  draw(plan) {
    this.about(plan);
    this.table.show(plan.table);
    this.drawing.show(plan.drawing);
    this.showConditions(plan.conditions);
    this.rules.show(plan, this.written?.rules);
    this.parts.show(plan);
    this.seats.show(plan);
    this.words.show(plan.texts, plan.stages);
    this.compare.show(plan);
    this.drawChart();
    this.map.show(plan);
    this.pattern.show(plan);
    this.sound.show(plan);
    this.jumps.show();
    this.heard(plan.rules);
    this.findings(plan.findings);
    find('changed-panel').hidden = !plan.changed.length;
    setRows(find('changed'), plan.changed, (item, line) => {
      item.textContent = line;
    });
  }

  // The curve as it is, over that of the version kept as A, or of the scene as it stands.
  drawChart() {
    if (!this.plan) return;
    const { kept, found } = this.compare;
    setText(find('legend-now'), phrase(kept ? 'script-compare-legend-b' : 'script-compare-yours'));
    setText(find('legend-other'), phrase(kept ? 'script-compare-legend' : 'script-compare-written'));
    this.chart.show(this.plan, kept ? found : this.written);
  }

  /** @param {Plan} plan */
  about(plan) {
    const { title, ages, story, stages, curriculum } = plan;
    setText(find('title'), title);
    const { year, pupils, groups } = store.room;
    setText(find('title-words'), phrase('script-for-year-pupils-in', { year, pupils, phrase: phrase('script-count-groups', { n: groups }) }));
    setFresh(find('about-meta'), [ages?.length ? phrase('script-ages-to', { min: Math.min(...ages), max: Math.max(...ages) }) : '', phrase('script-count-stages', { n: stages.length }), lengthWords(plan)].filter(Boolean).join(' · '));
    setText(find('about-opening'), story.trim().match(/.+?[.!?](?=\s|$)/s)?.[0] ?? story);
    const lines = [curriculum ?? []].flat();
    find('about-curriculum-box').hidden = !lines.length;
    setRows(find('about-curriculum'), lines, (item, line) => {
      item.textContent = line;
    });
    setFresh(find('map-words'), lengthWords(plan));
    find('send-needs-field').hidden = !store.room.needs.length;
  }

  /** @param {Condition[]} rows */
  showConditions(rows) {
    const names = rows.map((row) => row.name).join('|');
    if (this.names !== names || !rows.length) {
      this.names = names;
      this.conditions = new Map(rows.map((row) => [row.name, this.conditionField(row)]));
      find('conditions').replaceChildren(...[...this.conditions.values()].map((field) => field.box));
      if (!rows.length) find('conditions').append(element('p', '', phrase('script-this-scene-plays-readings-as')));
    }
    for (const row of rows) this.conditions.get(row.name)?.show({ ...row, steps: row.choices, choices: undefined });
    find('reset-science').hidden = !Object.keys(store.now.set).length;
  }

  /** @param {Condition} condition */
  conditionField({ name, label }) {
    const where = `set.${name}`;
    return new Field({
      where,
      label: label ?? name,
      changed: (text, words) => {
        this.told(words);
        store.change({ set: { ...store.now.set, [name]: text } }, where);
      },
      reset: () => {
        const { [name]: _, ...set } = store.now.set;
        this.told(phrase('script-as-the-scene-has-it', { label }));
        store.change({ set });
      },
    });
  }

  /** @param {RuleRow[]} rules */
  heard(rules) {
    const list = find('heard');
    find('heard-panel').hidden = !rules.length;
    while (list.children.length > rules.length) list.lastElementChild?.remove();
    while (list.children.length < rules.length) {
      const item = element('li');
      item.append(span('pill', ''), span('heard-words', ''));
      list.append(item);
    }
    for (const [k, rule] of rules.entries()) {
      const [pill, words] = list.children[k].children;
      setFresh(pill, rule.audible ? phrase('script-heard') : phrase('script-hard-to-hear'));
      setState(pill, 'data-good', String(Boolean(rule.audible)));
      setFresh(words, `${upper(start.controls[rule.control])}${rule.part ? phrase('script-of', { part: rule.part }) : ''}: ${spread(rule)}`);
    }
  }

  /** @param {Finding[]} all */
  findings(all) {
    const serious = all.filter((each) => each.serious);
    const notes = all.filter((each) => !each.serious);
    setText(find('findings-title'), serious.length ? phrase('script-to-look-at', { serious: serious.length }) : phrase('script-nothing-to-mend'));
    setRows(find('findings'), serious, (item, { message, fix, rule, change }) => {
      item.append(span('strong', message));
      if (fix) item.append(' ', span('', fix));
      if (!Object.keys(change ?? {}).length) return;
      const button = element('button', 'small', phrase('script-do-that'));
      button.type = 'button';
      button.append(span('unseen', `: ${fix}`));
      button.addEventListener('click', () => {
        this.rules.mend(rule, change);
        find('findings-title').focus();
      });
      item.append(' ', button);
    });
    setText(find('notes-title'), phrase('script-good-to-know', { notes: notes.length }));
    find('notes-box').hidden = !notes.length;
    setRows(find('notes'), notes, (item, { message, fix }) => {
      item.textContent = [message, fix].filter(Boolean).join(' ');
    });
  }
}

// The ends of the sound.
/** @param {RuleRow} rule */
export function spread({ key, sentence }) {
  return key.length ? phrase('script-to', { key: key[0][1], at: key[key.length - 1][1] }) : sentence;
}

/** @param {Plan} plan */
function lengthWords({ seconds, bars }) {
  const whole = Math.round(seconds);
  const minutes = Math.floor(whole / 60);
  return `${minutes ? phrase('script-min', { minutes }) : ''}${whole % 60} s, ${phrase('script-count-bars', { n: bars })}`;
}

// What a change did, in a sentence or two: read out, and shown beside Undo.
/** @param {Plan} before @param {Plan} after */
function differences(before, after) {
  if (before.title !== after.title) return [`${after.title}, ${lengthWords(after)}.`];
  const said = [];
  /** @param {Plan} of */
  const beats = ({ stages }) => stages.map((stage, k) => `${letterOf(k)} ${Math.round(stage.bpm)}`).join(', ');
  if (beats(before) !== beats(after)) said.push(phrase('script-beats-a-minute-are-now', { beats: beats(after) }));
  for (const rule of after.rules) {
    const old = before.rules.find((each) => each.index === rule.index);
    if (old && old.audible !== rule.audible) said.push(phrase('script-is-now', { upper: upper(start.controls[rule.control]), part: rule.part ? phrase('script-of', { part: rule.part }) : '', audible: rule.audible ? phrase('script-heard') : phrase('script-hard-to-hear') }));
  }
  /** @param {Plan} of */
  const players = ({ map }) => JSON.stringify(map.map((row) => [row.name, row.instrument, row.stages.map(Boolean)]));
  if (players(before) !== players(after)) said.push(phrase('script-who-plays-when-has-changed'));
  if (lengthWords(before) !== lengthWords(after)) said.push(phrase('script-the-piece-takes', { 'length-words': lengthWords(after) }));
  /** @param {Plan} of */
  const problems = ({ findings }) => findings.filter((each) => each.serious).length;
  if (problems(before) !== problems(after)) said.push(phrase('script-things-to-look-at', { problems: problems(after) }));
  /** @param {Plan} of */
  const curves = ({ curves: all }) => JSON.stringify(all.map((curve) => curve.points));
  if (!said.length) said.push(curves(before) === curves(after) ? phrase('script-the-sound-stays-as-it') : phrase('script-the-curve-has-changed-a'));
  return said;
}
