// What would mend a part that cannot be played as it is: asked of the server, which tries each way on this very piece.

import { askAbout, Refused } from './plan_ask.js';
import { announce, showError } from './plan_errors.js';
import { element } from './plan_fields.js';
import { store } from './plan_store.js';
import { findAll, phrase, setText } from './screen.js';
/** @import { Mend, PartRow } from './shapes.js' */

export class Mending {
  // of: the part. taker: who puts what mends it into the plan.
  /** @param {() => PartRow} of @param {{ mend: (row: PartRow, mend: Mend) => void }} taker */
  constructor(of, taker) {
    this.of = of;
    this.taker = taker;
    this.list = element('ul', 'part-mends');
    this.button = element('button', 'small', phrase('script-part-mend'));
    this.button.type = 'button';
    this.button.addEventListener('click', () => this.ask());
  }

  async ask() {
    const asked = store.now;
    const row = this.of();
    setText(this.button, phrase('script-part-trying'));
    this.button.disabled = true;
    try {
      const body = (/** @type {unknown} */ sent) => ({ .../** @type {object} */ (sent), part: row.id });
      const { mends } = await askAbout('/api/mend', store.now, { body });
      if (store.now === asked) this.show(row, mends);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      showError(error);
    } finally {
      setText(this.button, phrase('script-part-mend'));
      this.button.disabled = false;
    }
  }

  /** @param {PartRow} row @param {Mend[]} mends */
  show(row, mends) {
    const rows = mends.map((mend) => {
      const item = element('li');
      const button = element('button', 'small', mend.words);
      button.type = 'button';
      button.addEventListener('click', () => this.taker.mend(row, mend));
      item.append(button);
      return item;
    });
    this.list.replaceChildren(...(rows.length ? rows : [element('li', 'hint', phrase('script-part-no-mend'))]));
    const first = findAll('button', HTMLElement, this.list)[0];
    if (first) first.focus();
    announce(rows.length ? phrase('script-part-mends', { n: rows.length }) : phrase('script-part-no-mend'));
  }
}
