// What went wrong, said where it belongs; and what is read out.

import { find, findAll, setText } from './screen.js';

/** @param {string} text */
export function announce(text) {
  const said = find('said');
  // The same words again are announced again only where the text has changed in between.
  said.textContent = '';
  setTimeout(() => setText(said, text), 30);
}

/** @type {(() => void) | null} */
let tryAgain = null;

/** @param {string} text @param {(() => void) | null} again */
export function showTrouble(text, again = null) {
  tryAgain = again;
  setText(find('trouble-words'), text);
  find('trouble-again').hidden = !again;
  find('trouble').hidden = false;
}

export function hideTrouble() {
  find('trouble').hidden = true;
}

find('trouble-close').addEventListener('click', () => {
  hideTrouble();
  find('main').focus();
});
find('trouble-again').addEventListener('click', () => {
  find('main').focus();
  hideTrouble();
  tryAgain?.();
});

// The fields that an error may be about, the nearest first: it names a key of the scene or the class file.
/** @param {string} where */
function placesOf(where) {
  const [whole, index, side] = where.match(/^(?:hear|rules)\.([\w-]+)(?:\.(\w+))?/) ?? [];
  const own = `edits.${where.replace(/\.\d+$/, '')}`;
  if (whole) return [where, own, `edits.${where.split('.').slice(0, 2).join('.')}`, ...(side === 'curve' ? [`rules.${index}.curve`] : side ? [`rules.${index}.${side}.0`] : []), `rules.${index}`];
  const name = where.replace(/^(conditions|class|set)\./, '');
  if (name.startsWith('drawn')) return [where, 'drawn'];
  if (name.startsWith('pattern')) return [where, 'pattern'];
  if (name.startsWith('sound')) return [where, 'sound'];
  const kind = name.startsWith('cupboard') ? ['class.cupboard'] : [];
  return [where, own, `edits.${where.split('.').slice(0, 2).join('.')}`, `set.${name}`, `options.${name}`, `class.${name}`, ...kind, ...(where.startsWith('class') ? ['class'] : [])];
}

// An error stands beside the field it is about; where none is, at the top of the page.
/** @param {{ message: string, where?: string, typed?: boolean }} error @param {(() => void) | null} again */
export function showError({ message, where, typed = false }, again = null) {
  clearErrors();
  /** @param {HTMLElement} each */
  const inView = (each) => each.closest('.page:not([hidden])') !== null && !each.closest('#choose[hidden], #bench[hidden]');
  const place = placesOf(where ?? '').flatMap((name) => findAll(`[data-error="${CSS.escape(name)}"]`, HTMLElement)).find(inView);
  if (!place) {
    showTrouble(message, again);
    return;
  }
  setText(place, message);
  place.hidden = false;
  place.dataset.typed = String(typed);
  for (const input of document.querySelectorAll(`[aria-describedby~="${CSS.escape(place.id || 'none')}"]`)) {
    input.setAttribute('aria-invalid', 'true');
  }
  place.closest('details')?.setAttribute('open', '');
  announce(message);
}

export function clearErrors(which = '[data-error]') {
  for (const place of findAll(which, HTMLElement)) {
    place.hidden = true;
    for (const input of document.querySelectorAll(`[aria-describedby~="${CSS.escape(place.id || 'none')}"]`)) input.removeAttribute('aria-invalid');
  }
}

// An answer is about what was sent: what was typed since and could not be sent stays told.
export const clearAnswered = () => clearErrors('[data-error]:not([data-typed="true"])');
