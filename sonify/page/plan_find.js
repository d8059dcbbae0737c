// Which scenes are shown: by topic, school year, minutes, where the numbers come from, and what is in the cupboard.

import { start } from './plan_ask.js';
import { store } from './plan_store.js';
import { find, findAll, phrase, setText } from './screen.js';
/** @import { SceneRow } from './shapes.js' */

/** @param {string} name */
const chosen = (name) => find(`find-${name}`, HTMLSelectElement).value;

export class Finder {
  constructor() {
    find('find').addEventListener('change', () => this.show());
    find('find').addEventListener('submit', (event) => event.preventDefault());
    // The fields are empty only after the event.
    find('find').addEventListener('reset', () => setTimeout(() => this.show()));
    store.addEventListener('change', () => this.show());
    this.show();
  }

  show() {
    const wanted = this.wanted();
    const shown = new Set(start.scenes.filter(wanted).map((scene) => scene.name));
    for (const card of findAll('.card', HTMLElement)) card.hidden = !shown.has(card.dataset.scene ?? '');
    setText(find('find-count'), phrase('script-scenes-found', { n: shown.size, all: start.scenes.length }));
  }

  /** @returns {(scene: SceneRow) => boolean} */
  wanted() {
    const [topic, year, minutes, kind] = ['topic', 'year', 'minutes', 'kind'].map(chosen);
    const [above, most] = minutes.split(' ').map(Number);
    const { cupboard } = store.room;
    const atHand = find('find-at-hand', HTMLInputElement).checked;
    return (scene) =>
      (!topic || scene.topics.includes(topic)) &&
      (!year || scene.years.includes(Number(year))) &&
      (!minutes || (scene.minutes > above && scene.minutes <= most)) &&
      (!kind || scene.kind === kind) &&
      (!atHand || scene.sounds.every((sounds) => !sounds.length || sounds.some((id) => cupboard[id])));
  }
}
