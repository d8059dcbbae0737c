// The boxes of a pattern, as a value: what a scene file has, what a tap or a key makes of it. Nothing of the page.

/** @import { OwnPattern } from './shapes.js' */

export const [SOUND, HELD, SILENT] = ['x', '-', '.'];
// How the boxes of one beat are counted aloud, by boxes a beat, as on the cards.
export const COUNTS = { 1: [''], 2: ['', '&'], 4: ['', 'e', '&', 'a'] };

/**
 * @typedef {object} Boxes
 * @property {number} beats in a bar
 * @property {number} each boxes a beat
 * @property {string[]} cells all bars, box by box
 * @property {string[]} notes by box, "" where there is none
 */

/** @param {number} beats @param {number} each @param {number} bars @returns {Boxes} */
export const empty = (beats, each, bars) => ({ beats, each, cells: Array(beats * each * bars).fill(SILENT), notes: Array(beats * each * bars).fill('') });

/** @param {OwnPattern} own @param {number} beats @returns {Boxes} */
export function boxesOf(own, beats) {
  const rows = own.boxes.map((row) => [...row.replace(/\s/g, '')]);
  const each = Math.max(1, ...rows.map((row) => Math.round(row.length / beats)));
  const cells = rows.flatMap((row) => spread(row, (beats * each) / row.length));
  const left = [...(own.notes ?? [])];
  return { beats, each, cells, notes: cells.map((cell) => (cell === SOUND ? (left.shift() ?? '') : '')) };
}

// A bar in finer boxes: a sound goes on in what its box is cut into only where it went on before.
/** @param {string[]} row @param {number} times */
function spread(row, times) {
  return row.flatMap((cell, k) => Array.from({ length: times }, (_, n) => (n === 0 ? cell : cell === HELD || row[k + 1] === HELD ? HELD : SILENT)));
}

/** @param {Boxes} boxes @param {string} name @returns {OwnPattern} */
export function patternOf({ beats, each, cells, notes }, name) {
  const bar = beats * each;
  const rows = Array.from({ length: cells.length / bar }, (_, n) => cells.slice(n * bar, (n + 1) * bar));
  const chosen = notes.filter((note, k) => cells[k] === SOUND && note);
  return {
    ...(name && { name }),
    boxes: rows.map((row) => Array.from({ length: beats }, (_, n) => row.slice(n * each, (n + 1) * each).join('')).join(' ')),
    ...(chosen.length && chosen.length === cells.filter((cell) => cell === SOUND).length && { notes: chosen }),
  };
}

// The same sounds in so many bars and boxes a beat; a sound that has no box there goes to the nearest before it.
/** @param {Boxes} boxes @param {number} each @param {number} bars @returns {Boxes} */
export function reshaped(boxes, each, bars) {
  const made = empty(boxes.beats, each, bars);
  for (const [k, cell] of boxes.cells.entries()) {
    const at = Math.floor((k * each) / boxes.each);
    if (at >= made.cells.length || cell === SILENT) continue;
    if (cell === SOUND) [made.cells[at], made.notes[at]] = [SOUND, boxes.notes[k]];
    else for (let n = at; n < at + Math.max(1, each / boxes.each) && n < made.cells.length; n += 1) if (made.cells[n] === SILENT && made.cells[n - 1] !== SILENT && n % (boxes.beats * each)) made.cells[n] = HELD;
  }
  return made;
}

// What a press on a box makes of it: a sound, a sound that goes on, silence.
/** @param {Boxes} boxes @param {number} k @param {boolean} held @param {string} note @returns {Boxes} */
export function pressed(boxes, k, held, note) {
  const cells = [...boxes.cells];
  const notes = [...boxes.notes];
  const goesOn = held && k % (boxes.beats * boxes.each) > 0 && cells[k - 1] !== SILENT;
  const next = cells[k] === SILENT ? SOUND : cells[k] === SOUND && goesOn ? HELD : SILENT;
  cells[k] = next;
  notes[k] = next === SOUND ? note : '';
  if (next === SILENT) for (let n = k + 1; cells[n] === HELD; n += 1) cells[n] = SILENT;
  return { ...boxes, cells, notes };
}

// What was tapped, each tap in the box that it is nearest to. at, until: in beats from the first. Two taps in one box
// are one sound; what comes a little early for the first belongs to it.
/** @param {Boxes} boxes @param {{ at: number, until: number, note: string }[]} taps @param {boolean} held @returns {Boxes} */
export function tapped(boxes, taps, held) {
  const made = empty(boxes.beats, boxes.each, boxes.cells.length / (boxes.beats * boxes.each));
  for (const { at, until, note } of taps) {
    const k = Math.max(0, Math.round(at * made.each));
    if (k >= made.cells.length) continue;
    [made.cells[k], made.notes[k]] = [SOUND, note];
    if (!held) continue;
    const end = Math.min(Math.round(until * made.each), made.cells.length, (Math.floor(k / (made.beats * made.each)) + 1) * made.beats * made.each);
    for (let n = k + 1; n < end; n += 1) [made.cells[n], made.notes[n]] = [HELD, ''];
  }
  return made;
}
