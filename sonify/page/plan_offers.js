// Patterns from tablet to teacher: a tablet sends what stands in its boxes; on her page they wait until she takes them or not.

import { Refused, ask, start } from './plan_ask.js';
import { announce, showError } from './plan_errors.js';
import { element } from './plan_fields.js';
import { find, phrase, span } from './screen.js';
/** @import { OwnPattern } from './shapes.js' */

const LOOK_MS = 4000;

/** @typedef {OwnPattern & { id: number, part: string }} Offer */

export class Offers {
  // now: what stands in the boxes, and whose it is. taken: puts a pattern into the plan.
  /** @param {() => { part: string, pattern: OwnPattern | null }} now @param {(part: string, pattern: OwnPattern) => void} taken */
  constructor(now, taken) {
    this.taken = taken;
    const send = find('pattern-send');
    send.hidden = Boolean(start.home);
    send.addEventListener('click', () => this.send(now()));
    if (start.home && start.shared) setInterval(() => document.hidden || this.look(), LOOK_MS);
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

  async look() {
    try {
      this.show((await ask('/api/offers')).offers);
    } catch {
      // A server that does not answer is told of elsewhere.
    }
  }

  /** @param {Offer[]} offers */
  show(offers) {
    const list = find('pattern-offers');
    const mark = JSON.stringify(offers);
    if (list.dataset.mark === mark) return;
    const more = offers.length > list.children.length;
    list.dataset.mark = mark;
    find('pattern-offers-title').hidden = !offers.length;
    list.replaceChildren(...offers.map((offer) => this.row(offer)));
    if (more) announce(phrase('script-offer-waiting', { n: offers.length }));
  }

  /** @param {Offer} offer */
  row({ id, part, ...pattern }) {
    const item = element('li');
    item.append(span('strong', pattern.name || part), span('', `${part}: ${pattern.boxes.join(' | ')}`));
    /** @param {string} words @param {boolean} take */
    const button = (words, take) => {
      const made = Object.assign(element('button', '', words), { type: 'button' });
      made.addEventListener('click', async () => {
        if (take) this.taken(part, pattern);
        find('pattern-title').focus();
        this.show((await ask('/api/offers', { id })).offers);
      });
      item.append(made);
    };
    button(phrase('script-offer-take', { name: pattern.name || part }), true);
    button(phrase('script-offer-leave', { name: pattern.name || part }), false);
    return item;
  }
}
