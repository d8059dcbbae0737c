// The present plan and the ones before it. They live in this tab; `plan_keep.js` keeps the plan beyond it.

import { start } from './plan_ask.js';
/** @import { ClassFacts, Inputs } from './shapes.js' */

const KEPT = 'sonify-plan';
const STEPS_BACK = 200;
const STEPS_KEPT = 20;
const ONE_GESTURE_MS = 900;

/** @type {Inputs} */
const NEW_PLAN = { scene: null, set: {}, rules: {}, drawn: {}, edits: {}, sounds: {}, class: null, scaffold: 'full', seed: 0, plan_id: '', class_id: '' };

// What a plan changes in its scene, by kind: nothing of each.
export const NO_CHANGES = { set: {}, rules: {}, drawn: {}, edits: {} };

/** @param {Inputs} of */
export const isChanged = ({ set, rules, drawn, edits }) => [set, rules, drawn, edits].some((changes) => Object.keys(changes).length > 0);

// A name under which a plan or a class is kept.
export const newId = () => [...crypto.getRandomValues(new Uint8Array(8))].map((byte) => byte.toString(16).padStart(2, '0')).join('');

// A scene that begins a plan of its own: as it stands, for the class at hand.
/** @param {Inputs['scene']} scene @param {string} [id] */
export const begun = (scene, id = newId()) => ({ scene, ...NO_CHANGES, sounds: {}, plan_id: scene ? id : '' });

class Store extends EventTarget {
  constructor() {
    super();
    this.now = NEW_PLAN;
    /** @type {Inputs[]} */
    this.before = [];
    /** @type {Inputs[]} */
    this.after = [];
    this.last = { mark: '', at: 0 };
    try {
      const kept = JSON.parse(sessionStorage.getItem(KEPT) ?? 'null');
      if (kept?.now) Object.assign(this, { now: { ...NEW_PLAN, ...kept.now }, before: kept.before ?? [] });
    } catch {
      // Where the tab may keep nothing, or something else lies there, the plan starts anew.
    }
  }

  // Changes with the same mark that follow each other quickly, such as the moves of one slider, are one step back.
  /** @param {Partial<Inputs>} part */
  change(part, mark = '') {
    const next = { ...this.now, ...part };
    if (JSON.stringify(next) === JSON.stringify(this.now)) return;
    const at = performance.now();
    const same = mark && mark === this.last.mark && at - this.last.at < ONE_GESTURE_MS;
    if (!same) this.before = [...this.before, this.now].slice(-STEPS_BACK);
    this.after = [];
    this.last = { mark, at };
    this.move(next);
  }

  undo() {
    const next = this.before.pop();
    if (!next) return;
    this.after.push(this.now);
    this.last = { mark: '', at: 0 };
    this.move(next);
  }

  redo() {
    const next = this.after.pop();
    if (!next) return;
    this.before.push(this.now);
    this.last = { mark: '', at: 0 };
    this.move(next);
  }

  /** @param {Inputs} next */
  move(next) {
    this.now = next;
    this.keep();
    this.dispatchEvent(new Event('change'));
  }

  keep() {
    for (const before of [this.before.slice(-STEPS_KEPT), []]) {
      try {
        sessionStorage.setItem(KEPT, JSON.stringify({ now: this.now, before }));
        return;
      } catch {
        // No room for the steps back: the plan alone is tried next, and without it the page still works.
      }
    }
  }

  // Nothing of it is left, and there is no way back.
  forget() {
    Object.assign(this, { now: NEW_PLAN, before: [], after: [] });
    try {
      sessionStorage.clear();
    } catch {
      // A tab that may keep nothing has nothing to forget.
    }
    this.dispatchEvent(new Event('change'));
  }

  /** @returns {ClassFacts} */
  get room() {
    return { ...start.class, ...this.now.class?.facts, ...this.now.class };
  }
}

export const store = new Store();
