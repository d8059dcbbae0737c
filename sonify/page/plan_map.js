// The map of the piece: a row a part, a column a stage; a hatched field where the part plays, taller where louder.

import { start } from './plan_ask.js';
import { letterOf } from './plan_chart.js';
import { element, freshen, setFresh } from './plan_fields.js';
import { termParts, upper } from './plan_terms.js';
import { badge, find, findAll, findIn, phrase, setText, span } from './screen.js';
/** @import { MapRow, Plan, PlanStage } from './shapes.js' */

const SVG_NAMES = 'http://www.w3.org/2000/svg';

/** @param {number} group @param {number} level */
function playingField(group, level) {
  const svg = document.createElementNS(SVG_NAMES, 'svg');
  svg.setAttribute('class', 'map-field');
  svg.setAttribute('aria-hidden', 'true');
  const rect = document.createElementNS(SVG_NAMES, 'rect');
  const tall = Math.round(35 + 65 * Math.min(Math.max(level, 0), 1));
  const places = { x: '0', y: `${100 - tall}%`, width: '100%', height: `${tall}%` };
  for (const [name, value] of Object.entries(places)) rect.setAttribute(name, value);
  rect.setAttribute('fill', `url(#hatch-${((group - 1) % 12) + 1})`);
  svg.append(rect);
  return svg;
}

export class PieceMap {
  constructor() {
    /** @type {Map<string, HTMLTableRowElement>} */
    this.rows = new Map();
    this.mark = '';
    /** @type {string[]} */
    this.told = [];
  }

  /** @param {Plan} plan */
  show({ map, stages }) {
    this.frame(map, stages);
    const all = stages.reduce((sum, stage) => sum + stage.bars, 0);
    const columns = findAll('col:not(.map-names)', HTMLElement, find('map'));
    for (const [k, stage] of stages.entries()) {
      columns[k].style.setProperty('width', `${((stage.bars / all) * 62).toFixed(2)}%`);
    }
    for (const row of map) this.fill(/** @type {HTMLTableRowElement} */ (this.rows.get(row.name)), row, stages);
    this.explain(map);
  }

  // The table itself is built anew only where parts or stages come or go.
  /** @param {MapRow[]} map @param {PlanStage[]} stages */
  frame(map, stages) {
    const mark = JSON.stringify([map.map((row) => row.name), stages.map((stage) => stage.title)]);
    if (this.mark === mark) return;
    const table = element('table', 'map');
    const head = element('tr');
    head.append(heading('col', phrase('script-part')));
    const columns = document.createElement('colgroup');
    columns.append(element('col', 'map-names'));
    for (const [k, stage] of stages.entries()) {
      const cell = heading('col', letterOf(k));
      cell.append(span('unseen', ` ${stage.title}`));
      head.append(cell);
      columns.append(element('col'));
    }
    const body = document.createElement('tbody');
    this.rows = new Map(map.map((row) => [row.name, this.emptyRow(stages.length)]));
    body.append(...this.rows.values());
    const top = document.createElement('thead');
    top.append(head);
    table.append(columns, top, body);
    find('map').replaceChildren(table);
    if (this.mark) freshen(find('map'));
    this.mark = mark;
  }

  /** @param {number} stages */
  emptyRow(stages) {
    const line = element('tr');
    const name = heading('row', '');
    const words = element('div', 'map-words');
    words.append(span('map-part', ''), span('map-with', ''), span('map-swap', ''), span('map-swap', ''));
    name.append(words);
    line.append(name, ...Array.from({ length: stages }, () => element('td')));
    return line;
  }

  /** @param {HTMLTableRowElement} line @param {MapRow} row @param {PlanStage[]} stages */
  fill(line, row, stages) {
    const [name, ...cells] = line.cells;
    const words = findIn(name, '.map-words');
    if (name.dataset.group !== String(row.group)) {
      name.dataset.group = String(row.group);
      name.querySelector('svg')?.remove();
      name.prepend(badge(((row.group - 1) % 12) + 1));
      findIn(name, 'svg text').textContent = String(row.group);
    }
    setText(words.children[0], '');
    words.children[0].append(span('unseen', phrase('script-group', { group: row.group })), row.name);
    const swap = row.swaps.map(({ wanted, given, reason }) => phrase('script-in-place-of', { upper: upper(given), wanted, reason })).join(' ');
    const players = row.players ? `, ${phrase('script-count-players', { n: row.players })}` : '';
    setFresh(words.children[1], `${row.instrument}${players}${row.part ? `: ${row.part}` : ''}`);
    setFresh(words.children[2], swap);
    setFresh(words.children[3], row.sharing);
    for (const [k, cell] of cells.entries()) this.fillCell(cell, row, k, stages[k].title);
  }

  /** @param {HTMLElement} cell @param {MapRow} row @param {number} k @param {string} stage */
  fillCell(cell, row, k, stage) {
    const level = Number(row.stages[k] ?? 0);
    // Marked where it begins or ceases to play; a little louder or softer is drawn without a word.
    const mark = `${row.group} ${level}`;
    if (cell.dataset.mark === mark) return;
    if (cell.dataset.mark !== undefined && Number(cell.dataset.mark.split(' ')[1]) > 0 !== level > 0) freshen(cell);
    cell.dataset.mark = mark;
    if (level > 0) cell.replaceChildren(playingField(row.group, level), span('unseen', phrase('script-plays-in', { stage })));
    else cell.replaceChildren(span('unseen', phrase('script-rests')));
  }

  // The textures in use, each explained below the map.
  /** @param {MapRow[]} map */
  explain(map) {
    const words = [...new Set(map.map((row) => row.part))].filter((word) => start.terms[word]);
    if (words.join() === this.told.join()) return;
    this.told = words;
    find('map-terms').replaceChildren(
      ...words.map((word) => {
        const line = element('p', 'term-line');
        line.append(span('', word), ...termParts(word));
        return line;
      }),
    );
  }
}

/** @param {'row' | 'col'} scope @param {string} text */
export function heading(scope, text) {
  const cell = element('th', '', text);
  cell.scope = scope;
  return cell;
}
