// Questions that are asked again and again: the newest wins, and answers to older ones are dropped.

import { aborted, askAbout, Refused } from './plan_ask.js';
/** @import { Inputs } from './shapes.js' */

// What the server is still computing is asked for again so often.
const AGAIN_MS = 700;

// Asks until there is an answer. waiting: told why it takes longer than it should.
/** @param {string} path @param {Inputs} inputs @param {(words: string) => void} waiting */
export async function patiently(path, inputs, waiting = () => {}) {
  for (;;) {
    const found = await askAbout(path, inputs);
    if (!found.waiting) return found;
    waiting(found.waiting);
    await new Promise((go) => setTimeout(go, AGAIN_MS));
  }
}

// One kind of question, asked anew whenever what it is about has changed.
export class Question {
  // waiting: told why an answer takes longer than it should.
  /**
   * @param {string} path
   * @param {(found: any) => void} answered
   * @param {(error: Refused) => void} refused
   * @param {(words: string) => void} waiting
   */
  constructor(path, answered, refused, waiting = () => {}) {
    this.path = path;
    this.answered = answered;
    this.refused = refused;
    this.waiting = waiting;
    this.serial = 0;
    this.timer = 0;
    /** @type {AbortController | null} */
    this.running = null;
  }

  /** @param {Inputs} body @param {number} waitMs */
  ask(body, waitMs) {
    this.drop();
    const mine = this.serial;
    this.timer = setTimeout(() => this.send(body, mine), waitMs);
  }

  // Whatever is under way is of no interest any more.
  drop() {
    this.serial += 1;
    clearTimeout(this.timer);
    this.running?.abort();
  }

  /** @param {Inputs} body @param {number} mine */
  async send(body, mine) {
    const running = new AbortController();
    this.running = running;
    try {
      const found = await askAbout(this.path, body, { signal: running.signal });
      if (mine !== this.serial) return;
      if (found.waiting) {
        this.waiting(found.waiting);
        this.timer = setTimeout(() => this.send(body, mine), AGAIN_MS);
      } else this.answered(found);
    } catch (error) {
      if (aborted(error)) return;
      if (!(error instanceof Refused)) throw error;
      if (mine === this.serial) this.refused(error);
    }
  }
}
