// The list of panels at the head of the bench: each is a few keys away, by Tab, arrow keys, Home and End.

import { find, findAll } from './screen.js';

export class Jumps {
  constructor() {
    this.links = findAll('a', HTMLAnchorElement, find('jumps'));
    find('jumps').addEventListener('keydown', (event) => this.key(event));
    // Where the chart stays in view above the panels, what is gone to must not come to lie under it.
    const chart = find('chart-panel');
    new ResizeObserver(() => document.documentElement.style.setProperty('--chart-tall', `${chart.offsetHeight}px`)).observe(chart);
  }

  // A panel that this scene does not have is not in the list.
  show() {
    for (const link of this.links) {
      const panel = document.querySelector(link.hash)?.closest('section');
      link.hidden = !panel || panel.hidden;
    }
  }

  /** @param {KeyboardEvent} event */
  key(event) {
    const { key, altKey, ctrlKey, metaKey, target } = event;
    const shown = this.links.filter((link) => !link.hidden);
    const at = shown.indexOf(/** @type {HTMLAnchorElement} */ (target));
    if (altKey || ctrlKey || metaKey || at < 0) return;
    const ways = { ArrowRight: at + 1, ArrowDown: at + 1, ArrowLeft: at - 1, ArrowUp: at - 1, Home: 0, End: -1 };
    const next = ways[/** @type {keyof typeof ways} */ (key)];
    if (next === undefined) return;
    event.preventDefault(); // the page stays where it is
    shown.at(next % shown.length)?.focus();
  }
}
