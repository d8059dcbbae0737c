// Questions that are asked again and again: the newest wins, and answers to older ones are dropped.

import { askAbout, Refused } from './plan_ask.js';

// What the server is still computing is asked for again so often.
export const AGAIN_MS = 700;

// One kind of question, asked anew whenever what it is about has changed.
export class Question {
  // waiting: told why an answer takes longer than it should.
  constructor(path, answered, refused, waiting = () => {}) {
    Object.assign(this, { path, answered, refused, waiting, serial: 0, timer: 0, running: null });
  }

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

  async send(body, mine) {
    this.running = new AbortController();
    try {
      const found = await askAbout(this.path, body, { signal: this.running.signal });
      if (mine !== this.serial) return;
      if (found.waiting) {
        this.waiting(found.waiting);
        this.timer = setTimeout(() => this.send(body, mine), AGAIN_MS);
      } else this.answered(found);
    } catch (error) {
      if (!(error instanceof Refused)) {
        if (error.name === 'AbortError') return;
        throw error;
      }
      if (mine === this.serial) this.refused(error);
    }
  }
}
