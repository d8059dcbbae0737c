// Two versions of a plan: one is kept as A, what is changed since is B. Both sound in turn at the same bar.

import { ask, Refused, whole } from './plan_ask.js';
import { announce, showError } from './plan_errors.js';
import { PieceClock } from './clock.js';
import { fillSelect } from './plan_select.js';
import { Question, patiently } from './plan_question.js';
import { store } from './plan_store.js';
import { Player } from './player.js';
import { find, phrase, setRows, setState, setText } from './screen.js';
/** @import { Clip, Inputs, Plan, PlanCurve, Told } from './shapes.js' */

const KEPT = 'sonify-plan-a';
const BARS = 4;
const EVERY_MS = 200;

/** @typedef {'A' | 'B'} Which */
/** @typedef {{ lines: string[], curves: PlanCurve[], title: string, length: string }} Compared */

export class Compare extends EventTarget {
  /** @param {Told} told */
  constructor(told) {
    super();
    this.told = told;
    /** @type {Inputs | null} */
    this.kept = null;
    /** @type {Compared | null} */
    this.found = null;
    /** @type {Map<string, Player>} */
    this.players = new Map();
    /** @type {Which | ''} */
    /** @type {Plan | null} */
    this.plan = null;
    /** @type {Player | null} */
    this.now = null; // what was heard last
    this.serial = 0;
    this.timer = 0;
    this.mark = '';
    try {
      this.kept = JSON.parse(sessionStorage.getItem(KEPT) ?? 'null');
    } catch {
      // Where the tab may keep nothing, A is kept as long as the page is there.
    }
    this.question = new Question('/api/compare', (found) => this.answered(found), (error) => this.refused(error));
    find('compare-keep').addEventListener('click', () => this.keep());
    find('compare-drop').addEventListener('click', () => this.drop());
    find('compare-back').addEventListener('click', () => {
      if (!this.kept) return;
      this.told(phrase('script-compare-back'));
      store.change(this.kept);
    });
    for (const which of /** @type {const} */ (['A', 'B'])) find(`compare-hear-${which.toLowerCase()}`).addEventListener('click', () => this.hear(which));
    find('compare-hear-both').addEventListener('click', () => this.inTurn());
    find('compare-stop').addEventListener('click', () => this.stop());
  }

  keep() {
    this.stop();
    this.kept = store.now;
    this.found = null;
    this.mark = '';
    this.save();
    announce(phrase('script-compare-kept'));
    if (this.plan) this.show(this.plan);
    this.dispatchEvent(new Event('change'));
    find('compare-from').focus();
  }

  drop() {
    this.stop();
    this.kept = null;
    this.found = null;
    this.mark = '';
    this.question.drop();
    this.save();
    announce(phrase('script-compare-dropped'));
    if (this.plan) this.show(this.plan);
    this.dispatchEvent(new Event('change'));
    find('compare-keep').focus();
  }

  save() {
    try {
      sessionStorage.setItem(KEPT, JSON.stringify(this.kept));
    } catch {
      // As above.
    }
  }

  /** @param {Plan} plan */
  show(plan) {
    this.plan = plan;
    const { kept } = this;
    find('compare-both').hidden = !kept;
    find('compare-how').hidden = kept !== null;
    if (!kept) return;
    fillSelect(find('compare-from', HTMLSelectElement), plan.stages.map((stage) => [String(stage.bar), stage.title]), find('compare-from', HTMLSelectElement).value || '1');
    const mark = JSON.stringify([kept, store.now]);
    if (mark === this.mark) return;
    this.mark = mark;
    const same = JSON.stringify(kept) === JSON.stringify(store.now);
    for (const id of ['compare-hear-b', 'compare-hear-both', 'compare-back']) find(id, HTMLButtonElement).disabled = same;
    this.question.ask(/** @type {Inputs} */ ({ ...store.now, other: whole(kept) }), 0);
  }

  /** @param {Compared} found */
  answered(found) {
    this.found = found;
    const same = JSON.stringify(this.kept) === JSON.stringify(store.now);
    setText(find('compare-a'), same ? phrase('script-compare-same') : phrase('script-compare-a', { title: found.title, length: found.length }));
    setRows(find('compare-lines'), same ? [] : found.lines, (item, line) => {
      item.textContent = line;
    });
    this.dispatchEvent(new Event('change'));
  }

  /** @param {Refused} error */
  refused(error) {
    showError({ message: error.message, where: 'compare' });
  }

  // Hearing ------------------------------------------------------------------------------------------------------------

  // What plays one of them, made once; the server makes its sounds.
  /** @param {Which} which @returns {Promise<Player>} */
  async player(which) {
    const inputs = which === 'A' && this.kept ? this.kept : store.now;
    setText(find('compare-now'), phrase('script-compare-preparing', { which }));
    const made = await patiently('/api/lesson', inputs);
    const held = this.players.get(made.key);
    if (held) return held;
    const [{ timing, stages, parts }, sounds] = await Promise.all([ask(`/lesson/${made.key}/timing`), ask(`/lesson/${made.key}/sounds`)]);
    const player = new Player(new PieceClock(timing, stages), sounds, parts);
    if (this.players.size > 3) this.players.clear();
    this.players.set(made.key, player);
    return player;
  }

  // The other one goes on at the bar where this one was; nothing plays yet: at the stage that is chosen.
  /** @param {Which} which */
  async hear(which) {
    const from = this.bar();
    await this.start(which, from, null);
  }

  // The bar that is heard, or that is chosen.
  bar() {
    const now = this.now?.playing ? this.now.moment().bar : 0;
    return Math.max(1, now || Number(find('compare-from', HTMLSelectElement).value) || 1);
  }

  /** @param {Which} which @param {number} bar @param {(() => void) | null} then after so many bars */
  async start(which, bar, then) {
    this.serial += 1;
    const mine = this.serial;
    clearInterval(this.timer); // what was to follow the one before does not
    this.now?.pause();
    try {
      const player = await this.player(which);
      if (mine !== this.serial) return;
      this.now?.pause();
      this.now = player;
      const { clock } = player;
      const first = Math.min(bar, clock.pieceBars);
      if (then) {
        const clip = /** @type {Clip} */ ({ question: -1, number: 0, fromS: clock.startOfBar(first), toS: clock.startOfBar(first + BARS), alone: null });
        player.playClip(clip);
      } else player.play(clock.startOfBar(first), false);
      this.tell(which, then);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.stop();
      showError({ message: error.message, where: 'compare' });
    }
  }

  async inTurn() {
    const bar = this.bar();
    await this.start('A', bar, () => this.start('B', bar, () => {}));
  }

  // Which one is heard, and where, as long as it is.
  /** @param {Which} which @param {(() => void) | null} then */
  tell(which, then) {
    this.press(which);
    clearInterval(this.timer);
    this.timer = setInterval(() => {
      const { now } = this;
      if (now?.playing) {
        setText(find('compare-now'), phrase('script-compare-bar', { which, bar: Math.max(1, now.moment().bar) }));
        return;
      }
      this.press('');
      if (then) then();
    }, EVERY_MS);
  }

  /** @param {Which | ''} which */
  press(which) {
    if (!which) clearInterval(this.timer);
    for (const each of ['A', 'B']) setState(find(`compare-hear-${each.toLowerCase()}`), 'aria-pressed', String(each === which));
    if (!which) setText(find('compare-now'), '');
  }

  stop() {
    this.serial += 1;
    this.now?.pause();
    this.press('');
  }
}
