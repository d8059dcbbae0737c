// What tablets sent and she has not settled yet, on her page: looked for now and then, and shown anew only where it changed.

import { ask, start } from './plan_ask.js';
import { announce } from './plan_errors.js';
import { find } from './screen.js';

const LOOK_MS = 4000;

/** @template Row */
export class Waiting {
  // address: where they are asked for, under `key` of the answer. list: the list's id; its title has one, too. news: what
  // is announced when there are more. row: what one looks like.
  /** @param {{ address: string, key: string, list: string, news: (n: number) => string }} what @param {(one: Row) => HTMLElement} row */
  constructor(what, row) {
    this.what = what;
    this.row = row;
    if (start.home && start.shared) setInterval(() => document.hidden || this.look(), LOOK_MS);
  }

  async look() {
    try {
      this.show((await ask(this.what.address))[this.what.key]);
    } catch {
      // A server that does not answer is told of elsewhere.
    }
  }

  /** @param {Row[]} rows */
  show(rows) {
    const list = find(this.what.list);
    const mark = JSON.stringify(rows);
    if (list.dataset.mark === mark) return;
    const more = rows.length > list.children.length;
    list.dataset.mark = mark;
    find(`${this.what.list}-title`).hidden = !rows.length;
    list.replaceChildren(...rows.map((one) => this.row(one)));
    if (more) announce(this.what.news(rows.length));
  }
}
