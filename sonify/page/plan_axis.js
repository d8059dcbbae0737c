// A rule heard before the piece: its key as an axis whose ticks sound, alone or low to high, beside the scene's own.

import { askAbout, Refused } from './plan_ask.js';
import { announce, showError } from './plan_errors.js';
import { element } from './plan_fields.js';
import { store } from './plan_store.js';
import { pcmBuffer } from './samples.js';
import { findAll, phrase, setState, span } from './screen.js';
/** @import { AxisSounds, Inputs, RuleRow } from './shapes.js' */

const SOON_S = 0.08;
const RING_S = 1.2;
const BETWEEN_S = 0.6;

/** @type {AudioContext | null} */
let context = null;
/** @type {AudioBufferSourceNode[]} */
let playing = [];

// What one axis plays stops what another one played.
function hush() {
  for (const node of playing) node.stop();
  playing = [];
}

// Some rows of an axis, from `atS` of the audio clock on. Gives when they are over.
/** @param {AudioContext} audio @param {AxisSounds} sounds @param {number} first @param {number} after @param {number} atS */
function sound(audio, sounds, first, after, atS) {
  const [fromS, toS] = [sounds.starts[first], sounds.starts[after]];
  const { timeS, sample, gain, pan, lastsS } = sounds.events;
  sounds.buffers ??= sounds.samples.map(({ pcm }) => pcmBuffer(pcm, sounds.rateHz));
  for (const [k, when] of timeS.entries()) {
    if (when < fromS - 1e-4 || when >= toS - 1e-4) continue;
    const node = new AudioBufferSourceNode(audio, { buffer: sounds.buffers[sample[k]], loop: sounds.samples[sample[k]].loop });
    const level = new GainNode(audio, { gain: gain[k] });
    node.connect(level).connect(new StereoPannerNode(audio, { pan: pan[k] })).connect(audio.destination);
    node.start(atS + when - fromS);
    const endS = Math.min(sounds.samples[sample[k]].loop ? when + lastsS[k] : Infinity, toS + RING_S);
    node.stop(atS + endS - fromS);
    playing.push(node);
  }
  return atS + toS - fromS;
}

export class Axis {
  /** @param {string} index */
  constructor(index) {
    this.index = index;
    /** @type {Map<string, AxisSounds>} */
    this.held = new Map();
    this.mark = '';
    this.box = element('div', 'axis');
    this.box.setAttribute('role', 'group');
    this.ticks = element('ol', 'axis-ticks');
    this.all = this.button(phrase('script-axis-all'), () => this.play([store.now], null));
    this.both = this.button(phrase('script-axis-both'), () => this.play([this.own(), store.now], null));
    const buttons = element('p', 'buttons');
    buttons.append(this.all, this.both);
    this.box.append(this.ticks, buttons);
  }

  /** @param {string} words @param {() => void} pressed */
  button(words, pressed) {
    const button = element('button', 'small', words);
    button.type = 'button';
    button.addEventListener('click', pressed);
    return button;
  }

  /** @param {RuleRow} rule @param {string} name @param {boolean} changed */
  show(rule, name, changed) {
    setState(this.box, 'aria-label', phrase('script-axis', { name }));
    this.both.hidden = !changed;
    const mark = JSON.stringify(rule.key);
    if (mark === this.mark) return;
    this.mark = mark;
    const places = [phrase('script-low-end'), ...rule.key.slice(1, -1).map(() => ''), phrase('script-high-end')];
    this.ticks.replaceChildren(
      ...rule.key.map(([value, sounds], k) => {
        const item = element('li');
        const tick = element('button', 'axis-tick');
        tick.type = 'button';
        tick.append(span('unseen', places[k]), span('axis-value', value), span('axis-sound', sounds));
        tick.addEventListener('click', () => this.play([store.now], k));
        item.append(tick);
        return item;
      }),
    );
  }

  // The plan with this rule as the scene has it.
  own() {
    const { [this.index]: _, ...rules } = store.now.rules;
    const edits = Object.fromEntries(Object.entries(store.now.edits).filter(([path]) => !path.startsWith(`hear.${this.index}.`)));
    return { ...store.now, rules, edits };
  }

  // Versions of the rule in turn: one row of each, or all from low to high.
  /** @param {Inputs[]} versions @param {number | null} row */
  async play(versions, row) {
    context ??= new AudioContext();
    const audio = context;
    audio.resume();
    hush();
    setState(this.box, 'aria-busy', 'true');
    try {
      const found = [];
      for (const version of versions) found.push(await this.sounds(version));
      let atS = audio.currentTime + SOON_S;
      for (const sounds of found) {
        const last = sounds.starts.length - 1;
        atS = sound(audio, sounds, row ?? 0, row === null ? last : Math.min(row + 1, last), atS) + BETWEEN_S;
      }
      for (const [k, tick] of findAll('.axis-tick', HTMLElement, this.ticks).entries()) setState(tick, 'data-heard', String(row === null || k === row));
      announce(row === null ? phrase('script-axis-plays') : found[0].rows[row].join(': '));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      showError(error);
    } finally {
      setState(this.box, 'aria-busy', 'false');
    }
  }

  /** @param {Inputs} inputs @returns {Promise<AxisSounds>} */
  async sounds(inputs) {
    const mark = JSON.stringify([inputs.set, inputs.rules, inputs.drawn, inputs.edits, inputs.class, inputs.seed]);
    const held = this.held.get(mark);
    if (held) return held;
    const body = (/** @type {unknown} */ sent) => ({ .../** @type {object} */ (sent), rule: this.index });
    const found = await askAbout('/api/axis', inputs, { body });
    if (found.waiting) throw new Refused(found.waiting);
    if (this.held.size > 3) this.held.clear();
    this.held.set(mark, found);
    return found;
  }
}
