// A sound of a group's own, from a file or this computer's microphone: on the page of this computer alone. It is sent to
// the program on this computer and nowhere else, kept only where she ticks it, and named in the plan by its digest.

import { Refused, ask, sendFile } from './plan_ask.js';
import { announce, clearErrors, showError } from './plan_errors.js';
import { addButton, element } from './plan_fields.js';
import { fillSelect } from './plan_select.js';
import { SoundOffers, SoundSender } from './plan_sound_offers.js';
import { store } from './plan_store.js';
import { find, phrase, setText, span } from './screen.js';
import { wavOf } from './wav.js';
/** @import { MapRow, PartRow, Plan, PatternPart, Told } from './shapes.js' */

const PATH = 'sound.';
const LONGEST_S = 10;
const READ_THERE = /\.(wav|flac|ogg|mp3)$/i; // what the program reads; anything else the browser turns into a WAV first
/** @type {Record<string, string>} */
const DONE = {
  keep: phrase('script-sound-done-keep'),
  release: phrase('script-sound-done-release'),
  delete: phrase('script-sound-done-delete'),
  undelete: phrase('script-sound-done-undelete'),
};

/** @typedef {{ name: string, file: string }} OwnSound */
/** @typedef {{ here: boolean, kept: boolean }} Standing */

export class SoundView {
  /** @param {Told} told */
  constructor(told) {
    this.told = told;
    /** @type {PatternPart[]} */
    this.parts = [];
    /** @type {PartRow[]} */
    this.rows = [];
    /** @type {MapRow[]} */
    this.map = [];
    /** @type {Map<string, Standing>} */
    this.standing = new Map();
    /** @type {MediaRecorder | null} */
    this.recorder = null;
    this.sender = new SoundSender(plain);
    this.is = document.getElementById('sound-panel') !== null;
    if (!this.is) return;
    this.offers = new SoundOffers((sound) => this.takeOffered(sound), (address) => this.play(address));
    const file = find('sound-file', HTMLInputElement);
    file.addEventListener('change', async () => {
      const chosen = file.files?.[0];
      file.value = '';
      if (chosen) await this.take(chosen);
    });
    const record = find('sound-record');
    record.hidden = !(navigator.mediaDevices && 'MediaRecorder' in window);
    record.addEventListener('click', () => (this.recorder ? this.recorder.stop() : this.record()));
  }

  // Taking one -------------------------------------------------------------------------------------------------------

  get part() {
    return find('sound-part', HTMLSelectElement).value;
  }

  // A name that no other part of the piece asks for.
  /** @param {string} part */
  freeName(part, wanted = '') {
    const others = [...this.own.filter((sound) => sound.part !== part).map(({ name }) => name), ...this.rows.filter(({ name }) => name !== part).flatMap(({ written }) => written)];
    const asked = new Set(others.map((name) => name.toLowerCase()));
    const ours = wanted || phrase('script-sound-ours');
    let name = ours;
    for (let n = 2; asked.has(name.toLowerCase()); n += 1) name = `${ours} ${n}`;
    return name;
  }

  /** @param {string} message */
  refuse(message) {
    showError({ message, where: 'sound' });
  }

  /** @param {File} file */
  async take(file) {
    clearErrors('[data-error="sound"]');
    const { part } = this;
    const name = find('sound-name', HTMLInputElement).value.trim() || this.freeName(part);
    try {
      const sent = await plain(file);
      const found = await sendFile(`/api/sound?name=${encodeURIComponent(sent.name)}`, sent);
      this.put(part, name, found);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.refuse(error.message);
    }
  }

  // What a tablet sent, for its part if the piece has it, else for the one that is chosen.
  /** @param {import('./plan_sound_offers.js').TakenSound} sound */
  takeOffered(sound) {
    clearErrors('[data-error="sound"]');
    const part = this.parts.some((each) => each.part === sound.part) ? sound.part : this.part;
    const free = this.freeName(part, sound.name);
    return this.put(part, free, sound);
  }

  // A recording that the program holds goes into the plan.
  /** @param {string} part @param {string} name @param {{ key: string, seconds: number }} found */
  put(part, name, found) {
    const others = Object.entries(store.now.edits).filter(([path, value]) => path.startsWith(PATH) && path !== PATH + part && value);
    if (others.some(([, value]) => /** @type {OwnSound} */ (value).name.toLowerCase() === name.toLowerCase())) {
      this.refuse(phrase('script-sound-same-name', { name }));
      return false;
    }
    const mine = this.own.find((sound) => sound.part === part)?.file;
    const taken = new Set([...others.map(([, value]) => /** @type {OwnSound} */ (value).file), ...Object.keys(store.now.sounds).filter((file) => file !== mine)]);
    const letters = name.toLowerCase().replace(/[^a-z0-9]+/g, '-').replace(/^-|-$/g, '') || 'sound';
    let beside = `${letters}.wav`;
    for (let n = 2; taken.has(beside); n += 1) beside = `${letters}-${n}.wav`;
    this.standing.set(found.key, { here: true, kept: false });
    this.told(phrase('script-sound-put', { part, name, seconds: found.seconds }));
    store.change({ edits: { ...store.now.edits, [PATH + part]: { name, file: beside } }, sounds: { ...store.now.sounds, [beside]: found.key } });
    return true;
  }

  async record() {
    clearErrors('[data-error="sound"]');
    const button = find('sound-record');
    let stream;
    try {
      stream = await navigator.mediaDevices.getUserMedia({ audio: true });
    } catch {
      this.refuse(phrase('script-sound-no-microphone'));
      return;
    }
    /** @type {Blob[]} */
    const pieces = [];
    const recorder = new MediaRecorder(stream);
    this.recorder = recorder;
    recorder.addEventListener('dataavailable', ({ data }) => pieces.push(data));
    recorder.addEventListener('stop', async () => {
      this.recorder = null;
      clearTimeout(limit);
      for (const track of stream.getTracks()) track.stop();
      setText(button, phrase('script-sound-record'));
      await this.take(new File(pieces, 'recording', { type: recorder.mimeType }));
    });
    const limit = setTimeout(() => recorder.state === 'recording' && recorder.stop(), LONGEST_S * 1000);
    recorder.start();
    setText(button, phrase('script-sound-stop'));
    announce(phrase('script-sound-recording'));
  }

  // What there is ----------------------------------------------------------------------------------------------------

  /** @param {Plan} plan */
  show({ patterns, map, parts }) {
    this.sender.show({ patterns });
    if (!this.is) return;
    this.rows = parts;
    this.map = map;
    this.parts = patterns.parts;
    find('sound-panel').hidden = !this.parts.length;
    const choice = find('sound-part', HTMLSelectElement);
    const before = this.parts.some(({ part }) => part === choice.value) ? choice.value : (this.parts[0]?.part ?? '');
    fillSelect(choice, this.parts.map(({ part, group }) => [part, phrase('script-sound-of', { group, part })]), before);
    this.list();
  }

  // The sounds of the plan, by their parts.
  get own() {
    return Object.entries(store.now.edits).flatMap(([path, value]) => (path.startsWith(PATH) && value ? [{ part: path.slice(PATH.length), ...(/** @type {OwnSound} */ (value)) }] : []));
  }

  list() {
    const list = find('sound-list');
    const rows = this.own.map((sound) => {
      const swap = this.map.filter(({ name }) => name === sound.part).flatMap(({ swaps }) => swaps).find(({ wanted }) => wanted.toLowerCase() === sound.name.toLowerCase());
      return { ...sound, swap, key: store.now.sounds[sound.file] ?? '' };
    });
    const mark = JSON.stringify([rows, [...this.standing]]);
    if (list.dataset.mark === mark) return;
    list.dataset.mark = mark;
    list.replaceChildren(...rows.map((row) => this.row(row)));
    for (const { key } of rows) if (key && !this.standing.has(key)) this.do('', key);
  }

  /** @param {{ part: string, name: string, file: string, key: string, swap: MapRow['swaps'][number] | undefined }} sound */
  row({ part, name, key, swap }) {
    const item = element('li');
    const { here, kept } = this.standing.get(key) ?? { here: true, kept: false };
    const plays = swap ? phrase('script-sound-not-played', { part, given: swap.given, reason: swap.reason }) : part;
    item.append(span('strong', name), span('', here ? plays : phrase('script-sound-gone', { part })));
    if (here) {
      addButton(item, phrase('script-sound-hear', { name }), () => this.hear(key));
      const label = element('label', 'tick');
      const tick = Object.assign(element('input'), { type: 'checkbox', checked: kept });
      tick.addEventListener('change', () => this.do(tick.checked ? 'keep' : 'release', key));
      label.append(tick, ` ${phrase('script-sound-keep')}`);
      item.append(label);
      addButton(item, phrase('script-sound-delete', { name }), () => this.do('delete', key));
    } else if (this.standing.has(key)) addButton(item, phrase('script-sound-undelete', { name }), () => this.do('undelete', key));
    addButton(item, phrase('script-sound-out', { name }), () => {
      this.told(phrase('script-sound-taken-out', { part }));
      store.change({ edits: { ...store.now.edits, [PATH + part]: null } });
      find('sound-title').focus();
    });
    return item;
  }

  // Keep it on this computer or no longer, delete it, have it back; "" asks how it stands.
  /** @param {string} what @param {string} key */
  async do(what, key) {
    try {
      const found = await ask('/api/recordings', { do: what, key });
      this.standing.set(key, found);
      if (what) announce(DONE[what]);
      this.list();
      if (what) find('sound-title').focus();
      if (what === 'delete' || what === 'undelete') store.dispatchEvent(new Event('change')); // what plays is another sound now
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.refuse(error.message);
    }
  }

  /** @param {string} key */
  hear(key) {
    return this.play(`/api/sound/${key}`);
  }

  /** @param {string} address */
  async play(address) {
    const audio = new AudioContext();
    const answer = await fetch(address, { cache: 'no-store' });
    if (!answer.ok) return;
    const source = audio.createBufferSource();
    source.buffer = await audio.decodeAudioData(await answer.arrayBuffer());
    source.connect(audio.destination);
    source.addEventListener('ended', () => audio.close());
    source.start();
  }
}

// A file as the program reads it.
/** @param {File} file */
const plain = (file) => (READ_THERE.test(file.name) ? Promise.resolve(file) : asWav(file));

// Whatever the browser can hear as a WAV file of one channel, no longer than a sound may be.
/** @param {File} file */
async function asWav(file) {
  const audio = new AudioContext();
  try {
    const heard = await audio.decodeAudioData(await file.arrayBuffer());
    return new File([wavOf(heard, LONGEST_S + 0.02)], `${file.name.replace(/\.[^.]*$/, '') || 'recording'}.wav`);
  } catch {
    throw new Refused(phrase('script-sound-unheard'));
  } finally {
    audio.close();
  }
}
