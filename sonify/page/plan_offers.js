// Patterns from tablet to teacher: a tablet sends what stands in its boxes; on her page they wait until she takes them or not.

import { Refused, ask, start } from './plan_ask.js';
import { announce, showError } from './plan_errors.js';
import { addButton, element } from './plan_fields.js';
import { Waiting } from './plan_waiting.js';
import { find, phrase, span } from './screen.js';
/** @import { OwnPattern } from './shapes.js' */

/** @typedef {OwnPattern & { id: number, part: string }} Offer */

export class Offers {
  // now: what stands in the boxes, and whose it is. taken: puts a pattern into the plan.
  /** @param {() => { part: string, pattern: OwnPattern | null }} now @param {(part: string, pattern: OwnPattern) => void} taken */
  constructor(now, taken) {
    this.taken = taken;
    const send = find('pattern-send');
    send.hidden = Boolean(start.home);
    send.addEventListener('click', () => this.send(now()));
    this.waiting = new Waiting(
      { address: '/api/offers', key: 'offers', list: 'pattern-offers', news: (n) => phrase('script-offer-waiting', { n }) },
      (/** @type {Offer} */ offer) => this.row(offer),
    );
  }

  /** @param {{ part: string, pattern: OwnPattern | null }} what */
  async send({ part, pattern }) {
    if (!pattern) {
      showError({ message: phrase('script-offer-empty'), where: 'pattern' });
      return;
    }
    try {
      await ask('/api/offer', { part, ...pattern });
      announce(phrase('script-offer-sent'));
      find('pattern-sent').hidden = false;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      showError({ message: error.message, where: 'pattern' });
    }
  }

  /** @param {Offer} offer */
  row({ id, part, ...pattern }) {
    const item = element('li');
    item.append(span('strong', pattern.name || part), span('', `${part}: ${pattern.boxes.join(' | ')}`));
    /** @param {string} words @param {boolean} take */
    const button = (words, take) =>
      addButton(item, words, async () => {
        if (take) this.taken(part, pattern);
        find('pattern-title').focus();
        this.waiting.show((await ask('/api/offers', { id })).offers);
      });
    button(phrase('script-offer-take', { name: pattern.name || part }), true);
    button(phrase('script-offer-leave', { name: pattern.name || part }), false);
    return item;
  }
}
