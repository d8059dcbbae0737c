// Lists to choose from.

/** @typedef {[value: string, words: string, group?: string]} Option */

// The options anew only where they differ: a list that is open stays open. Those of a group stand under its words.
/** @param {HTMLSelectElement} select @param {Option[]} options @param {string} value */
export function fillSelect(select, options, value) {
  const mark = JSON.stringify(options);
  if (select.dataset.mark !== mark) {
    select.dataset.mark = mark;
    /** @type {Map<string, HTMLElement>} */
    const groups = new Map();
    select.replaceChildren();
    for (const [name, words, group] of options) {
      let place = /** @type {HTMLElement} */ (select);
      if (group) {
        place = groups.get(group) ?? Object.assign(document.createElement('optgroup'), { label: group });
        groups.set(group, place);
        select.append(place);
      }
      place.append(new Option(words, name));
    }
  }
  if (select.value !== value) select.value = value;
}
