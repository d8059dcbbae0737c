// The particle box on the screen: the particles, the heating curve with its handle, and what is read there.

import { BoxPlayer } from './box.js';
import { find, findAll, findIn, phrase, setState, setText } from './screen.js';
/** @import { Film } from './film.js' */
/** @import { Mixer } from './mixer.js' */

const NUDGE = 0.01; // of the heating, for an arrow key
export const PARTICLE_KEYS = ['ArrowLeft', 'ArrowRight', 'ArrowUp', 'ArrowDown', 'Home', 'End', 'PageUp', 'PageDown'];

export class ParticlesView {
  /** @param {{ film: Film, mixer: Mixer, playing: () => void }} shared */
  constructor({ film, mixer, playing }) {
    this.film = film;
    this.box = new BoxPlayer(film, mixer);
    this.canvas = find('box', HTMLCanvasElement);
    this.pen = /** @type {CanvasRenderingContext2D} */ (this.canvas.getContext('2d'));
    this.still = matchMedia('(prefers-reduced-motion: reduce)');
    this.columns = findAll('.heating-column', HTMLElement);
    this.dots = [...find('beat-dots').children];
    this.waiting = 0;
    this.drawn = 0; // pictures so far
    this.seen = NaN; // the moment that was drawn last
    /** @type {Record<string, string> | null} */
    this.inks = null;
    this.drawCurve();
    this.listen(playing);
  }

  get visible() {
    return document.body.dataset.view === 'particles' && !document.hidden;
  }

  /** @param {() => void} playing */
  listen(playing) {
    const { box } = this;
    find('box-play').addEventListener('click', () => this.playOrPause());
    find('box-heat').addEventListener('click', () => box.setHeating(!box.heating));
    const choose = () => {
      box.setSound(find('box-beat-on', HTMLInputElement).checked, findIn(document, 'input[name="knocks"]:checked', HTMLInputElement).value);
    };
    for (const input of findAll('.box-controls input')) input.addEventListener('change', choose);
    box.addEventListener('change', () => {
      if (box.playing) playing();
      this.show();
      if (box.playing && !this.waiting) this.waiting = requestAnimationFrame(() => this.frame());
    });
    const slider = find('heating');
    slider.addEventListener('pointerdown', (event) => {
      slider.setPointerCapture(event.pointerId);
      this.slide(event);
    });
    slider.addEventListener('pointermove', (event) => {
      if (slider.hasPointerCapture(event.pointerId)) this.slide(event);
    });
    document.addEventListener('visibilitychange', () => {
      if (!this.visible) box.pause();
    });
    for (const query of ['(prefers-color-scheme: dark)', '(forced-colors: active)']) {
      matchMedia(query).addEventListener('change', () => {
        this.inks = null;
        this.show();
      });
    }
    addEventListener('resize', () => this.show());
  }

  playOrPause() {
    if (this.box.playing) this.box.pause();
    else this.box.play();
  }

  // The heating curve -----------------------------------------------------------------------------------------------

  drawCurve() {
    const { levels, height, last } = this.film;
    const places = levels.map((level, k) => `${((1000 * k) / last).toFixed(1)} ${height - level}`);
    find('heating-line').setAttribute('d', `M${places.join('L')}`);
    for (const column of this.columns) {
      column.style.setProperty('flex-grow', String(Number(column.dataset.to) - Number(column.dataset.from)));
    }
  }

  /** @param {PointerEvent} event */
  slide(event) {
    const { left, width } = find('heating').getBoundingClientRect();
    this.box.goTo(this.film.last * Math.min(Math.max((event.clientX - left) / width, 0), 1));
  }

  // The keys of a slider, where Page Up is more; elsewhere Page Down is the next state, as a presenter's clicker has it.
  /** @param {string} key @param {boolean} onSlider */
  move(key, onSlider) {
    const { film, box } = this;
    const place = box.place();
    const [less, more] = [place - NUDGE * film.last, place + NUDGE * film.last];
    /** @type {Record<string, number>} */
    const to = {
      ArrowRight: more,
      ArrowUp: more,
      ArrowLeft: less,
      ArrowDown: less,
      Home: 0,
      End: film.last,
      PageUp: this.otherStage(onSlider ? 1 : -1),
      PageDown: this.otherStage(onSlider ? -1 : 1),
    };
    box.goTo(to[key]);
  }

  // The middle of the state so many further on; of the last its end, where it is most itself.
  /** @param {number} steps */
  otherStage(steps) {
    const { stages } = this.film;
    const now = stages.indexOf(this.film.stageAt(this.box.place()));
    const wanted = Math.min(Math.max(now + steps, 0), stages.length - 1);
    const { from, to } = stages[wanted];
    return wanted === stages.length - 1 ? to : (from + to) / 2;
  }

  // The particles ---------------------------------------------------------------------------------------------------

  // The colours of the style sheet, as the browser has worked them out.
  colours() {
    if (!this.inks) {
      const style = getComputedStyle(this.canvas);
      const probe = document.createElement('span');
      this.canvas.before(probe);
      this.inks = {};
      for (const name of ['disc', 'disc-edge', 'ringed', 'way']) {
        probe.style.color = style.getPropertyValue(`--${name}`);
        this.inks[name] = getComputedStyle(probe).color;
      }
      probe.remove();
    }
    return this.inks;
  }

  /** @param {number} moment */
  drawParticles(moment) {
    const { canvas, pen, film } = this;
    const side = Math.round(canvas.clientWidth * Math.min(devicePixelRatio, 2));
    if (side === 0) return;
    this.drawn += 1;
    if (canvas.width !== side) canvas.width = canvas.height = side;
    const inks = this.colours();
    const radius = film.radius * side;
    /** @param {number} k */
    const across = (k) => film.place(2 * k, moment) * side;
    /** @param {number} k */
    const up = (k) => (1 - film.place(2 * k + 1, moment)) * side;
    pen.clearRect(0, 0, side, side);
    pen.lineWidth = Math.max(1, 0.15 * radius);
    pen.fillStyle = inks.disc;
    pen.strokeStyle = inks['disc-edge'];
    for (let k = 0; k < film.particles; k += 1) {
      pen.beginPath();
      pen.arc(across(k), up(k), radius, 0, 2 * Math.PI);
      pen.fill();
      pen.stroke();
    }
    this.drawWay(side, radius, inks.way);
    const [x, y] = [across(film.ringed), up(film.ringed)];
    pen.beginPath();
    pen.arc(x, y, radius, 0, 2 * Math.PI);
    pen.fillStyle = inks.ringed;
    pen.fill();
    pen.beginPath();
    pen.arc(x, y, 1.75 * radius, 0, 2 * Math.PI);
    pen.strokeStyle = inks.way;
    pen.lineWidth = Math.max(2, 0.4 * radius);
    pen.stroke();
  }

  // The way of the ringed one over the moments around its place; while heating, over those just passed.
  /** @param {number} side @param {number} radius @param {string} ink */
  drawWay(side, radius, ink) {
    const { film, pen, box } = this;
    const place = box.heating ? box.moment() : box.rest;
    const share = box.heating ? 1 : 0.5;
    const low = Math.min(Math.max(place - share * film.heldFrames, 0), film.last - film.heldFrames);
    const high = box.heating ? place : low + film.heldFrames;
    pen.beginPath();
    for (let at = low; at <= high; at += 0.5) {
      pen.lineTo(film.place(2 * film.ringed, at) * side, (1 - film.place(2 * film.ringed + 1, at)) * side);
    }
    pen.strokeStyle = ink;
    pen.lineWidth = Math.max(2, 0.35 * radius);
    pen.stroke();
  }

  // All of it -------------------------------------------------------------------------------------------------------

  frame() {
    this.waiting = 0;
    if (!this.box.playing || !this.visible) return;
    this.show();
    this.waiting = requestAnimationFrame(() => this.frame());
  }

  show() {
    if (document.body.dataset.view !== 'particles') return;
    const { box } = this;
    const place = box.place();
    // Whoever wants no motion sees stills: the place on the curve, and while heating a new one at every percent.
    const step = 0.01 * this.film.last;
    const seen = this.still.matches ? Math.round(place / step) * step : box.moment();
    if (seen !== this.seen || !box.playing) this.drawParticles(seen);
    this.seen = seen;
    this.showPlace(place);
    const beat = box.beatNow();
    for (const [k, dot] of this.dots.entries()) setState(dot, 'data-on', String(k + 1 === beat));
    setState(find('box-play'), 'data-playing', String(box.playing));
    setText(findIn(find('box-play'), '.words'), box.playing ? phrase('script-pause') : phrase('script-play'));
    setState(find('box-heat'), 'aria-pressed', String(box.heating));
  }

  /** @param {number} place */
  showPlace(place) {
    const { film } = this;
    const at = Math.round(place);
    const share = place / film.last;
    const stage = film.stageAt(place);
    const [temperature, beat] = [film.temperatures[at], Math.round(film.beats[at])];
    const slider = find('heating');
    slider.style.setProperty('--at', String(share));
    slider.style.setProperty('--level', String(film.levels[at] / film.height));
    setState(slider, 'aria-valuenow', String(Math.round(100 * share)));
    const words = phrase('script-of-the-heat-given', { 'to-lower-case': stage.word.toLowerCase(), share: share.toFixed(2), temperature });
    setState(slider, 'aria-valuetext', words);
    for (const [k, column] of this.columns.entries()) {
      column.classList.toggle('current', film.stages[k] === stage);
    }
    setText(find('box-state'), stage.word);
    setText(find('box-what'), `${stage.what}.`);
    setText(find('box-science'), stage.science);
    setText(find('box-words'), phrase('script-particles-in-a-box', { words, what: stage.what }));
    setText(find('box-temperature'), temperature);
    setText(find('box-speed'), `${film.speeds[at]} m/s`);
    setText(find('box-real'), `${film.realSpeeds[at]} m/s`);
    setText(find('box-knocks'), phrase('script-knocks-now-about-a-second', { phrase: phrase('script-count-taps', { n: film.knocksASecond[at] }) }));
    setText(find('box-beat'), String(beat));
  }
}
