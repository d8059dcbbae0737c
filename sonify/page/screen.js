// What the views share: writing to the page only what changed, and who plays, how loud, and what comes next.

/** @import { PieceClock } from './clock.js' */
/** @import { LessonData, Places, Playing, WordPiece } from './shapes.js' */

/**
 * The element of the page with an identifier. `kind`: its class, where what is particular to it is used.
 * @template {HTMLElement} [E=HTMLElement]
 * @param {string} id
 * @param {new () => E} [kind]
 * @returns {E}
 */
export function find(id, kind) {
  return ofKind(document.getElementById(id), id, kind);
}

/**
 * The first element within another one that a selector names.
 * @template {Element} [E=HTMLElement]
 * @param {ParentNode} where
 * @param {string} selector
 * @param {new () => E} [kind]
 * @returns {E}
 */
export function findIn(where, selector, kind) {
  return ofKind(where.querySelector(selector), selector, kind);
}

/**
 * All elements that a selector names.
 * @template {Element} [E=HTMLElement]
 * @param {string} selector
 * @param {new () => E} [kind]
 * @param {ParentNode} where
 * @returns {E[]}
 */
export function findAll(selector, kind, where = document) {
  return [...where.querySelectorAll(selector)].map((each) => ofKind(each, selector, kind));
}

/** @param {Element | null} found @param {string} name @param {(new () => Element) | undefined} kind @returns {any} */
function ofKind(found, name, kind) {
  if (kind && !(found instanceof kind)) throw new TypeError(`${name}: ${kind.name}`);
  return found;
}

// The page's words: each message as its pieces. A piece is a text, a place to fill, or a choice between texts.
/** @type {Record<string, WordPiece[]>} */
const WORDS = readData('words-data');
// Data that the page carries.
/** @param {string} id */
export function readData(id) {
  return JSON.parse(find(id).textContent);
}

const PLURALS = new Intl.PluralRules(document.documentElement.lang);

// A message with its places filled. A number chooses its plural form, a text the variant of its name.
/** @param {string} id @param {Places} places */
export function phrase(id, places = {}) {
  return filled(WORDS[id], places);
}

/** @param {WordPiece[]} pieces @param {Places} places @returns {string} */
function filled(pieces, places) {
  return pieces.map((piece) => (typeof piece === 'string' ? piece : pieceOf(piece, places))).join('');
}

/** @param {Exclude<WordPiece, string>} piece @param {Places} places */
function pieceOf({ place, variants, other = '' }, places) {
  const value = places[place];
  if (!variants) return String(value);
  return filled(variants[value] ?? variants[typeof value === 'number' ? PLURALS.select(value) : other] ?? variants[other], places);
}

/** @param {Element} element @param {string} text */
export function setText(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

/** @param {Element} element @param {string} name @param {string} value */
export function setState(element, name, value) {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

// Fills a list with one `li` a row, only when the rows changed. `fill` writes a row into its `li`.
/** @template T @param {HTMLElement} list @param {T[]} rows @param {(item: HTMLLIElement, row: T) => void} fill */
export function setRows(list, rows, fill) {
  const mark = JSON.stringify(rows);
  if (list.dataset.mark === mark) return;
  list.dataset.mark = mark;
  list.replaceChildren(
    ...rows.map((row) => {
      const item = document.createElement('li');
      fill(item, row);
      return item;
    }),
  );
}

/** @param {string} className @param {string} text */
export function span(className, text) {
  const element = document.createElement('span');
  element.className = className;
  element.textContent = text;
  return element;
}

// A small round plate with a group's hatching and number, for lists.
/** @param {number} group */
export function badge(group) {
  const SVG = 'http://www.w3.org/2000/svg';
  /** @param {Element} parent @param {string} tag @param {Record<string, string | number>} attributes */
  const add = (parent, tag, attributes) => {
    const element = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
    parent.append(element);
    return element;
  };
  const svg = document.createElementNS(SVG, 'svg');
  for (const [name, value] of [['class', 'badge'], ['viewBox', '0 0 64 64'], ['aria-hidden', 'true']]) {
    svg.setAttribute(name, value);
  }
  add(svg, 'circle', { cx: 32, cy: 32, r: 30, fill: `url(#hatch-${group})` });
  add(svg, 'circle', { class: 'plate', cx: 32, cy: 32, r: 17 });
  add(svg, 'text', { x: 32, y: 32, 'text-anchor': 'middle', 'dominant-baseline': 'central' }).textContent = String(group);
  return svg;
}

// The text told at a beat, from a list spread evenly over all beats: each holds until the next.
/** @param {string[]} texts @param {number} beat @param {number} beats */
export function told(texts, beat, beats) {
  const step = Math.ceil(beats / texts.length);
  return texts[Math.min(Math.max(Math.floor(beat / step), 0), texts.length - 1)];
}

// The height of a drawn line at a share of the piece, from 0 to 1.
/** @param {number[]} points @param {number} share */
export function heightAt(points, share) {
  const place = share * (points.length - 1);
  const k = Math.min(Math.floor(place), points.length - 2);
  return points[k] + (points[k + 1] - points[k]) * (place - k);
}

export class Piece {
  /** @param {LessonData} data @param {PieceClock} clock */
  constructor(data, clock) {
    this.parts = data.parts;
    this.groups = data.groups;
    this.moments = data.moments;
    this.clock = clock;
  }

  // The parts that play in a bar: who, on what, what is heard and how loud.
  /** @param {number} bar @returns {Playing[]} */
  playingIn(bar) {
    return this.parts.flatMap((part) => {
      const stretch = part.spans.findLast(([first, after]) => first <= bar && bar < after);
      if (!stretch) return [];
      const mark = part.dynamics.findLast(([from]) => from <= bar);
      const { name, group, instruments } = part;
      return [{ name, group, instruments, heard: stretch[2], loud: mark?.[2] ?? '' }];
    });
  }

  // The moment at hand or next to come; one stays for `stayBeats` after it has come.
  /** @param {number} beats */
  nextMoment(beats, stayBeats = 0) {
    return this.moments.find((moment) => moment.beat > beats - stayBeats - 1e-6) ?? null;
  }

  /** @param {number} beats */
  nextEntrance(beats) {
    return this.moments.find((each) => each.beat > beats && each.lines.some((line) => line.action === 'enter')) ?? null;
  }
}
