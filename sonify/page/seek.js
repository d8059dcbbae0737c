// Going along the curve by ear: each bar is heard as the slider comes to it, and a value can be looked for.

import { find, heightAt, phrase, setState, setText, told } from './screen.js';
/** @import { HearView } from './hear.js' */
/** @import { Shared } from './shapes.js' */

const NEAR = 0.06; // of the curve's height: as near as a finger is
const GOLDEN = 0.618; // steps that come everywhere, and never twice to one place
const NO_QUESTION = -1; // a clip of no listening question

export class Seek {
  /** @param {Shared} shared @param {HearView} hear */
  constructor({ player, clock, data }, hear) {
    this.player = player;
    this.clock = clock;
    this.data = data;
    this.hear = hear;
    this.asked = 0;
    /** @type {number | null} */
    this.wanted = null; // the share of the piece at which the value stands that is looked for
    this.heard = find('along-heard', HTMLInputElement);
    find('along').addEventListener('input', () => this.sound());
    find('chart-field').addEventListener('click', () => this.sound());
    find('seek-ask').addEventListener('click', () => (this.wanted === null ? this.ask() : this.stop('')));
    find('seek-here').addEventListener('click', () => this.answer());
    find('curve-choice').addEventListener('change', () => this.stop(''));
    find('seek-ask').hidden = !this.varies();
  }

  varies() {
    const { points } = this.hear.curve;
    return Math.max(...points) > Math.min(...points);
  }

  get bar() {
    return Math.max(this.player.moment().bar, 1);
  }

  // The bar in which the slider stands, once, unless the piece plays anyway.
  sound() {
    const { player, clock } = this;
    if (!this.heard.checked || find('seek').hidden || (player.playing && !player.clip)) return;
    const bar = this.bar;
    player.playClip({ question: NO_QUESTION, number: bar, fromS: clock.startOfBar(bar), toS: clock.startOfBar(bar + 1), alone: null });
  }

  /** @param {number} share */
  value(share) {
    const beats = this.clock.pieceBars * this.clock.beatsABar;
    return told(this.hear.curve.values, share * beats, beats);
  }

  ask() {
    const here = this.level(this.here);
    do this.asked += 1;
    while (Math.abs(this.level(this.share(this.asked * GOLDEN)) - here) <= NEAR && this.asked % 20);
    this.wanted = this.share(this.asked * GOLDEN);
    this.shown(phrase('script-seek-where', { value: this.value(this.wanted) }));
    find('along').focus();
  }

  // The middle of the bar in which the slider stands, as a share of the piece.
  get here() {
    return (this.bar - 0.5) / this.clock.pieceBars;
  }

  // The middle of the bar at a share of the piece.
  /** @param {number} share */
  share(share) {
    const { pieceBars } = this.clock;
    return (Math.floor((share % 1) * pieceBars) + 0.5) / pieceBars;
  }

  /** @param {number} share */
  level(share) {
    return heightAt(this.hear.curve.points, share) / this.data.science.height;
  }

  answer() {
    if (this.wanted === null) return;
    const { here } = this;
    const off = this.level(this.wanted) - this.level(here);
    const places = { here: this.value(here), value: this.value(this.wanted) };
    if (Math.abs(off) <= NEAR) this.stop(phrase('script-seek-found', places));
    else setText(find('seek-said'), phrase('script-seek-further', { ...places, way: off > 0 ? 'higher' : 'lower' }));
  }

  /** @param {string} words */
  stop(words) {
    this.wanted = null;
    find('seek-ask').hidden = !this.varies();
    this.shown(words);
  }

  /** @param {string} words */
  shown(words) {
    const seeking = this.wanted !== null;
    setText(find('seek-said'), words);
    find('seek').hidden = !words;
    find('seek-here').hidden = !seeking;
    setState(find('seek-ask'), 'aria-pressed', String(seeking));
    this.hear.hidesValue = seeking;
    this.hear.show(this.player.moment());
  }
}
