// The Hear view: the transport, the science curve with its cursor, the half circle of groups, what is heard now.

import { badge, find, findAll, findIn, heightAt, phrase, setRows, setState, setText, span, told } from './screen.js';
/** @import { PieceClock } from './clock.js' */
/** @import { Player } from './player.js' */
/** @import { Now, Playing, Shared } from './shapes.js' */

const SVG = 'http://www.w3.org/2000/svg';
/** @param {string} d */
const drawnPath = (d) => {
  const path = document.createElementNS(SVG, 'path');
  path.setAttribute('d', d);
  return path;
};

export class HearView {
  /** @param {Shared} shared */
  constructor({ player, piece, clock, data, go, playOrPause }) {
    this.player = player;
    this.piece = piece;
    this.clock = clock;
    this.data = data;
    this.curve = data.science.curves[0];
    this.hidesValue = false; // while pupils look for one
    /** @type {HTMLElement[]} */
    this.columns = [];
    this.stageButtons = findAll('.stage', HTMLButtonElement);
    this.places = findAll('.place', HTMLElement);
    this.drawColumns();
    this.drawCurve();
    this.seatGroups();
    find('play').addEventListener('click', playOrPause);
    find('to-start').addEventListener('click', () => go.start());
    find('back').addEventListener('click', () => go.by(-1));
    find('on').addEventListener('click', () => go.by(1));
    // The address names the view, so the link goes there by itself.
    find('why-link').addEventListener('click', (event) => {
      event.preventDefault();
      document.querySelector('.why .key')?.setAttribute('open', '');
      find('why-title').scrollIntoView();
      find('why-title').focus({ preventScroll: true });
    });
    const choice = find('curve-choice', HTMLSelectElement);
    choice.addEventListener('change', () => {
      this.curve = data.science.curves[Number(choice.value)];
      this.drawCurve();
      this.show(player.moment());
    });
    const along = find('along', HTMLInputElement);
    along.addEventListener('input', () => {
      this.move(Number(along.value));
    });
    for (const button of this.stageButtons) {
      button.addEventListener('click', () => go.to(Number(button.dataset.stage)));
    }
    find('chart-field').addEventListener('click', (event) => this.clickChart(event));
  }

  // The chart -------------------------------------------------------------------------------------------------------

  drawColumns() {
    const columns = this.data.stages.map((stage) => {
      const column = document.createElement('div');
      column.className = 'column';
      column.append(span('letter', stage.letter));
      column.style.setProperty('flex-grow', String(stage.bars));
      return column;
    });
    find('chart-columns').replaceChildren(...columns);
    this.columns = columns;
  }

  drawCurve() {
    const { points, kind, paths, names, low, high, steps, described } = this.curve;
    const { height } = this.data.science;
    const places = points.map((point, k) => `${((1000 * k) / (points.length - 1)).toFixed(1)} ${height - point}`);
    const [first, ...others] = paths.length ? paths : [`M${places.join('L')}`];
    find('curve-line').setAttribute('d', first);
    find('chart-field').dataset.kind = kind;
    // What it is compared with, each with its own stroke, and all their names.
    find('curve-others').replaceChildren(...others.map((d) => drawnPath(d)));
    const named = names.map(([name, level]) => {
      const label = span('curve-name', name);
      label.style.setProperty('--level', String(level));
      return label;
    });
    find('curve-names').replaceChildren(...named);
    // A step a stage: what the held tempo was set from.
    /** @param {number} bar */
    const across = (bar) => ((1000 * (bar - 1)) / this.clock.pieceBars).toFixed(1);
    const flat = steps.map(({ bar, bars, level }) => `M${across(bar)} ${height - level}H${across(bar + bars)}`);
    find('curve-steps').setAttribute('d', flat.join(''));
    find('legend').hidden = !steps.length;
    for (const [id, texts] of Object.entries({ 'curve-high': high, 'curve-low': low })) {
      find(id).replaceChildren(...texts.filter(Boolean).map((text) => span('', text)));
    }
    setText(find('curve-words'), described);
  }

  /** @param {MouseEvent} event */
  clickChart(event) {
    const box = find('chart-field').getBoundingClientRect();
    const share = Math.min(Math.max((event.clientX - box.left) / box.width, 0), 0.9999);
    this.move(Math.floor(share * this.clock.pieceBars) + 1);
  }

  /** @param {number} bar */
  move(bar) {
    this.player.stopClip();
    this.player.goTo(this.clock.startOfBar(bar), false);
  }

  /** @param {number} beats */
  showChart(beats) {
    const all = this.clock.pieceBars * this.clock.beatsABar;
    const at = Math.min(Math.max(beats, 0), all);
    const { points, values } = this.curve;
    const level = heightAt(points, at / all);
    const field = find('chart-field').style;
    field.setProperty('--at', String(at / all));
    field.setProperty('--level', String(level / this.data.science.height));
    setText(find('curve-value'), this.hidesValue ? phrase('script-seek-hidden') : told(values, at, all));
    const whose = this.curve.whose && `: ${this.curve.whose}`;
    const time = told(this.data.science.times, at, all);
    setText(find('curve-time'), time ? phrase('script-at', { told: time, whose }) : '');
  }

  // What has just happened in the science: said for two bars.
  /** @param {number} beats */
  happening(beats) {
    /** @param {{ beat: number }} event */
    const lately = (event) => event.beat <= beats && beats < event.beat + 2 * this.clock.beatsABar;
    return this.data.science.events.findLast(lately)?.text ?? '';
  }

  // The groups ------------------------------------------------------------------------------------------------------

  seatGroups() {
    for (const [k, place] of this.places.entries()) {
      place.style.setProperty('--across', String(this.data.groups[k].across));
      place.style.setProperty('--up', String(this.data.groups[k].up));
      findIn(place, 'button').addEventListener('click', () => this.tapGroup(this.data.groups[k].number));
    }
    find('all-play').addEventListener('click', () => this.player.setGroups(new Set(), null));
    for (const choice of findAll('input[name="tap"]')) {
      choice.addEventListener('change', () => this.show(this.player.moment()));
    }
  }

  get tapMeans() {
    return findIn(document, 'input[name="tap"]:checked', HTMLInputElement).value;
  }

  /** @param {number} number */
  tapGroup(number) {
    const { resting, alone } = this.player;
    if (this.tapMeans === 'alone') {
      this.player.setGroups(resting, alone === number ? null : number);
      return;
    }
    const next = new Set(resting);
    if (!next.delete(number)) next.add(number);
    this.player.setGroups(next, null);
  }

  /** @param {number} number @param {Set<number>} playingGroups */
  groupState(number, playingGroups) {
    if (this.player.alone === number) return 'alone';
    if (!this.player.isHeard(number)) return this.player.alone === null ? 'resting' : 'silent';
    return playingGroups.has(number) ? 'playing' : 'waiting';
  }

  /** @param {Set<number>} playingGroups */
  showGroups(playingGroups) {
    const pressed = this.tapMeans === 'alone' ? ['alone'] : ['resting'];
    for (const [k, place] of this.places.entries()) {
      const { number } = this.data.groups[k];
      const state = this.groupState(number, playingGroups);
      const lit = playingGroups.has(number) && this.player.isHeard(number);
      const button = findIn(place, 'button');
      setState(place, 'data-lit', String(lit));
      setState(place, 'data-state', state);
      setState(button, 'aria-pressed', String(pressed.includes(state)));
      setText(findIn(button, '.group-state'), phrase('script-group-state', { state: state === 'alone' && lit ? 'alone-playing' : state }));
    }
  }

  // All of it -------------------------------------------------------------------------------------------------------

  /** @param {Now} now */
  show(now) {
    const { clock, player } = this;
    const counting = now.counting > 0;
    const bar = Math.max(now.bar, 1);
    const stageIndex = clock.stageAt(bar);
    const stage = clock.stages[stageIndex];
    setText(find('where-bar'), counting ? phrase('script-count-in') : phrase('script-bar-of', { bar, 'piece-bars': clock.pieceBars }));
    setText(find('where-stage'), `${stage.letter} ${stage.title}`);
    setText(find('where-tempo'), tempoText(clock, player, bar));
    const along = find('along', HTMLInputElement);
    if (Number(along.value) !== bar) along.value = String(bar);
    setState(along, 'aria-valuetext', phrase('script-bar-of-2', { bar, 'piece-bars': clock.pieceBars, title: stage.title }));
    this.showChart(counting ? (bar - 1) * clock.beatsABar : now.beats);
    for (const [k, button] of this.stageButtons.entries()) {
      if (k === stageIndex) setState(button, 'aria-current', 'step');
      else button.removeAttribute('aria-current');
      this.columns[k].classList.toggle('current', k === stageIndex);
    }
    const rows = player.playing && !counting && now.positionS < clock.endS ? this.piece.playingIn(bar) : [];
    this.showGroups(new Set(rows.map((row) => row.group)));
    setText(find('hear-caption'), [stage.caption, this.happening(now.beats)].filter(Boolean).join(' '));
    this.showSounding(rows.filter((row) => player.recording && player.isHeard(row.group)), counting);
  }

  /** @param {Playing[]} rows @param {boolean} counting */
  showSounding(rows, counting) {
    const lines = rows.map(({ group, name, heard, loud }) => ({ group, name, words: [heard, loud].filter(Boolean).join(', ') }));
    let quiet = phrase('script-press-play-to-listen');
    if (counting) quiet = phrase('script-the-count-in');
    else if (!this.player.recording) quiet = phrase('script-the-recording-is-switched-off');
    else if (this.player.playing) quiet = phrase('script-nobody-plays-here-2');
    setRows(find('sounding'), lines.length ? lines : [{ group: 0, name: '', words: quiet }], (item, { group, name, words }) => {
      if (!group) {
        item.textContent = words;
        return;
      }
      const line = span('', '');
      line.append(span('unseen', phrase('script-group', { group })), span('strong', name), `: ${words}`);
      item.append(badge(group), line);
    });
  }
}

// The tempo that is heard, with how far a rehearsal tempo slows it.
/** @param {PieceClock} clock @param {Player} player @param {number} bar */
export function tempoText(clock, player, bar) {
  const { bpm, words } = clock.tempoAt(bar);
  if (player.speed === 1) return phrase('script-beats-a-minute', { it: Math.round(bpm), words });
  return phrase('script-beats-a-minute-of-full', { it: Math.round(bpm * player.speed), 'it-2': Math.round(player.speed * 100) });
}
