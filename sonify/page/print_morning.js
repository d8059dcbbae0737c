// The morning itself: who is absent and what is broken goes to the server, what to write on which card comes back.

import { askAbout, Refused } from './plan_ask.js';
import { store } from './plan_store.js';
import { find, setRows, setText } from './screen.js';

export class Morning {
  constructor() {
    this.asking = false;
    find('morning').addEventListener('submit', (event) => {
      event.preventDefault();
      this.deal();
    });
  }

  async deal() {
    if (this.asking) return;
    this.asking = true;
    const error = find('morning-error');
    error.hidden = true;
    /** @type {string[]} */
    let lines = [];
    const [absent, broken] = ['absent', 'broken'].map((id) => find(id, HTMLInputElement).value);
    try {
      lines = (await askAbout('/api/redeal', store.now, { body: (inputs) => ({ inputs, absent, broken }) })).lines;
    } catch (refused) {
      if (!(refused instanceof Refused)) throw refused;
      setText(error, refused.message);
      error.hidden = false;
    } finally {
      this.asking = false;
    }
    setRows(find('morning-lines'), lines, (item, line) => setText(item, line));
  }

  // What was dealt out for another plan is no more so.
  clear() {
    find('morning-error').hidden = true;
    setRows(find('morning-lines'), [], () => {});
  }
}
