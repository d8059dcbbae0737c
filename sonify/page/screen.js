// What the views share: writing to the page only what changed, and who plays, how loud, and what comes next.

export const find = (id) => document.getElementById(id);

// The page's words: each message as its pieces. A piece is a text, a place to fill, or a choice between texts.
const WORDS = JSON.parse(find('words-data').textContent);
const PLURALS = new Intl.PluralRules(document.documentElement.lang);

// A message with its places filled. A number chooses its plural form, a text the variant of its name.
export function phrase(id, places = {}) {
  return filled(WORDS[id], places);
}

function filled(pieces, places) {
  return pieces.map((piece) => (typeof piece === 'string' ? piece : pieceOf(piece, places))).join('');
}

function pieceOf({ place, variants, other }, places) {
  const value = places[place];
  if (!variants) return String(value);
  return filled(variants[value] ?? variants[typeof value === 'number' ? PLURALS.select(value) : other] ?? variants[other], places);
}

export function setText(element, text) {
  if (element.textContent !== text) element.textContent = text;
}

export function setState(element, name, value) {
  if (element.getAttribute(name) !== value) element.setAttribute(name, value);
}

// Fills a list with one `li` a row, only when the rows changed. `fill` writes a row into its `li`.
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

export function span(className, text) {
  const element = document.createElement('span');
  element.className = className;
  element.textContent = text;
  return element;
}

// A small round plate with a group's hatching and number, for lists.
export function badge(group) {
  const SVG = 'http://www.w3.org/2000/svg';
  const add = (parent, tag, attributes) => {
    const element = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, value);
    parent.append(element);
    return element;
  };
  const svg = document.createElementNS(SVG, 'svg');
  for (const [name, value] of [['class', 'badge'], ['viewBox', '0 0 64 64'], ['aria-hidden', 'true']]) {
    svg.setAttribute(name, value);
  }
  add(svg, 'circle', { cx: 32, cy: 32, r: 30, fill: `url(#hatch-${group})` });
  add(svg, 'circle', { class: 'plate', cx: 32, cy: 32, r: 17 });
  add(svg, 'text', { x: 32, y: 32, 'text-anchor': 'middle', 'dominant-baseline': 'central' }).textContent = group;
  return svg;
}

// The text told at a beat, from a list spread evenly over all beats: each holds until the next.
export function told(texts, beat, beats) {
  const step = Math.ceil(beats / texts.length);
  return texts[Math.min(Math.max(Math.floor(beat / step), 0), texts.length - 1)];
}

export class Piece {
  constructor(data, clock) {
    this.parts = data.parts;
    this.groups = data.groups;
    this.moments = data.moments;
    this.clock = clock;
  }

  // The parts that play in a bar: who, on what, what is heard and how loud.
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
  nextMoment(beats, stayBeats = 0) {
    return this.moments.find((moment) => moment.beat > beats - stayBeats - 1e-6) ?? null;
  }

  nextEntrance(beats) {
    return this.moments.find((each) => each.beat > beats && each.lines.some((line) => line.action === 'enter')) ?? null;
  }
}
