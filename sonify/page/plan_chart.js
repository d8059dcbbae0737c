// The science over the piece: the curve as it is now, over the curve as the scene has it, and its stages.

import { element, setFresh, unitWords } from './plan_fields.js';
import { upper } from './plan_terms.js';
import { find, findIn, phrase, setState, setText, span } from './screen.js';
/** @import { Plan, PlanCurve } from './shapes.js' */

const LETTERS = 'ABCDEFGHIJKLMNOPQRSTUVWXYZ';
/** @param {number} k */
export const letterOf = (k) => LETTERS[k % LETTERS.length];

export class Chart {
  // What is shown, once something is.
  /** @type {Plan} */
  plan;
  /** @type {{ curves: PlanCurve[] } | null} */
  first;

  constructor() {
    this.chosen = '';
    const choice = find('curve-choice', HTMLSelectElement);
    choice.addEventListener('change', () => {
      this.chosen = choice.value;
      this.draw();
    });
  }

  // first: the same scene's answer before anything was changed, for comparison.
  /** @param {Plan} plan @param {{ curves: PlanCurve[] } | null} first */
  show(plan, first) {
    this.plan = plan;
    this.first = first;
    // A scene in which nothing is measured has no curve, and no chart.
    findIn(document.body, '.chart-panel', HTMLElement).hidden = !plan.curves.length;
    if (!plan.curves.length) return;
    const tempo = plan.rules.find((rule) => rule.control === 'tempo')?.quantity;
    const names = plan.curves.map((curve) => curve.quantity);
    const choice = find('curve-choice', HTMLSelectElement);
    if (choice.dataset.names !== names.join('|')) {
      choice.dataset.names = names.join('|');
      choice.replaceChildren(
        ...plan.curves.map((curve) => new Option(upper(curve.quantity) + (tempo === curve.quantity ? phrase('script-sets-the-tempo') : ''), curve.quantity)),
      );
    }
    if (!names.includes(this.chosen)) this.chosen = (plan.curves.find((curve) => curve.first) ?? plan.curves[0]).quantity;
    choice.value = this.chosen;
    this.draw();
    this.drawStages();
  }

  draw() {
    const curve = this.plan.curves.find((each) => each.quantity === this.chosen) ?? this.plan.curves[0];
    const before = this.first?.curves.find((each) => each.quantity === this.chosen);
    const both = before ? [curve, before] : [curve];
    const ends = both.flatMap((each) => each.points.map(([, y]) => y));
    const low = Math.min(...ends);
    const spread = Math.max(...ends) - low;
    /** @param {PlanCurve} of */
    const path = ({ points, joined }) => {
      const places = points.map(([x, y]) => `${(1000 * x).toFixed(1)} ${(spread ? 1000 - (1000 * (y - low)) / spread : 500).toFixed(1)}`);
      // Over categories and steps no line leads from one value to the next.
      return places.map((place, k) => `${k && (joined || points[k - 1][1] === points[k][1]) ? 'L' : 'M'}${place}`).join('');
    };
    const line = path(curve);
    const differs = before && path(before) !== line;
    if (find('curve-line').getAttribute('d') !== line) setState(find('curve-line'), 'd', line);
    setState(find('curve-steps'), 'd', differs ? path(before) : '');
    find('legend').hidden = !differs;
    find('curve-drawn').hidden = !curve.drawn;
    const unit = unitWords(curve.unit);
    /** @param {number} value */
    const told = (value) => `${Number(value.toPrecision(3)).toLocaleString('en-GB', { maximumSignificantDigits: 3 })} ${unit}`.trim();
    // What goes with it, such as the °C beside a speed of molecules, stands first, as in Hear.
    const highest = both.reduce((one, other) => (other.high > one.high ? other : one));
    const lowest = both.reduce((one, other) => (other.low < one.low ? other : one));
    setFresh(find('curve-high'), [highest.high_beside, told(Math.max(...ends))].filter(Boolean).join('\n'));
    setFresh(find('curve-low'), [lowest.low_beside, told(low)].filter(Boolean).join('\n'));
    const stages = this.plan.stages.map((stage) => stage.title).join(', ');
    setText(
      find('curve-words'),
      curve.described ?? phrase('script-between-and-through', { upper: upper(curve.quantity), told: told(curve.low), 'told-2': told(curve.high), stages }),
    );
  }

  drawStages() {
    const { stages } = this.plan;
    const mark = JSON.stringify(stages);
    if (find('chart-columns').dataset.mark === mark) return;
    find('chart-columns').dataset.mark = mark;
    find('chart-columns').replaceChildren(
      ...stages.map((stage, k) => {
        const column = element('div', 'column');
        column.append(span('letter', letterOf(k)));
        column.style.setProperty('flex-grow', String(stage.bars));
        return column;
      }),
    );
    this.listStages();
  }

  listStages() {
    const { stages } = this.plan;
    const list = find('stage-line');
    while (list.children.length > stages.length) list.lastElementChild?.remove();
    while (list.children.length < stages.length) {
      const item = element('li');
      item.append(span('letter', ''), span('stage-title', ''), span('stage-bars', ''), span('stage-bpm', ''));
      list.append(item);
    }
    for (const [k, stage] of stages.entries()) {
      const [letter, title, bars, bpm] = list.children[k].children;
      setText(letter, letterOf(k));
      setFresh(title, stage.title);
      setFresh(bars, `${phrase('script-count-bars', { n: stage.bars })}${stage.seconds_text ? `, ${stage.seconds_text}` : ''}`);
      setFresh(bpm, tempoWords(stage.bpm));
    }
  }
}

/** @param {number} bpm */
const tempoWords = (bpm) => phrase('script-beats-min', { bpm: Math.round(bpm) });
