// Each word of the trade has a small button beside it that explains it where it stands.

import { start } from './plan_ask.js';
import { findAll, phrase } from './screen.js';

/** @param {string} text */
export const upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);

let terms = 0;

// The button, and the explanation that it opens; where the words go is for the caller to say.
/** @param {string} word */
export function termParts(word) {
  const button = document.createElement('button');
  const words = document.createElement('span');
  terms += 1;
  words.id = `term-${terms}`;
  words.className = 'term-words';
  words.hidden = true;
  words.textContent = `${upper(word)}: ${start.terms[word]}`;
  Object.assign(button, { type: 'button', className: 'term', textContent: '?' });
  button.setAttribute('aria-label', phrase('script-what-does-mean', { word }));
  button.setAttribute('aria-expanded', 'false');
  button.setAttribute('aria-controls', words.id);
  button.addEventListener('click', () => {
    words.hidden = !words.hidden;
    button.setAttribute('aria-expanded', String(!words.hidden));
  });
  return [button, words];
}

// Puts the button at a place marked with `data-term`, and the words under the line in which it stands.
/** @param {HTMLElement} place */
function explainPlace(place) {
  const [button, words] = termParts(place.dataset.term ?? '');
  place.append(button);
  (place.closest('.panel-head') ?? place.closest('h3, legend, p'))?.after(words);
}

for (const place of findAll('[data-term]', HTMLElement)) explainPlace(place);
