// Sounds from tablet to teacher: a tablet on plain HTTP has no microphone of ours, and sends a file of its own recorder;
// on her page each waits until she has heard it and takes it or not.

import { Refused, ask, sendFile } from './plan_ask.js';
import { clearErrors, showError } from './plan_errors.js';
import { addButton, element } from './plan_fields.js';
import { fillSelect } from './plan_select.js';
import { Waiting } from './plan_waiting.js';
import { find, phrase, setText, span } from './screen.js';
/** @import { Plan } from './shapes.js' */

/** @typedef {{ id: number, part: string, name: string, seconds: number }} SentSound */
/** @typedef {{ id: number, key: string, part: string, name: string, seconds: number }} TakenSound */

// On a tablet: a part, a name, a file.
export class SoundSender {
  // plain: a file as the program reads it.
  /** @param {(file: File) => Promise<File>} plain */
  constructor(plain) {
    this.is = document.getElementById('sound-send-panel') !== null;
    if (!this.is) return;
    const input = find('sound-send-file', HTMLInputElement);
    input.addEventListener('change', async () => {
      const chosen = input.files?.[0];
      input.value = '';
      if (chosen) await this.send(chosen, plain);
    });
  }

  /** @param {Pick<Plan, 'patterns'>} plan */
  show({ patterns }) {
    if (!this.is) return;
    find('sound-send-panel').hidden = !patterns.parts.length;
    const choice = find('sound-send-part', HTMLSelectElement);
    const rows = patterns.parts.map(({ part, group }) => /** @type {[string, string]} */ ([part, phrase('script-sound-of', { group, part })]));
    fillSelect(choice, rows, rows.some(([part]) => part === choice.value) ? choice.value : (rows[0]?.[0] ?? ''));
  }

  /** @param {File} file @param {(file: File) => Promise<File>} plain */
  async send(file, plain) {
    clearErrors('[data-error="sound-send"]');
    const done = find('sound-send-done');
    setText(done, phrase('script-sound-sending'));
    try {
      const sent = await plain(file);
      const words = { name: sent.name, part: find('sound-send-part', HTMLSelectElement).value, called: find('sound-send-name', HTMLInputElement).value.trim() };
      const { seconds } = await sendFile(`/api/sent-sound/file?${new URLSearchParams(words)}`, sent);
      setText(done, phrase('script-sound-sent', { seconds }));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setText(done, '');
      showError({ message: error.message, where: 'sound-send' });
    }
  }
}

// On her page: what waits.
export class SoundOffers {
  // taken: puts a sound into the plan; whether it could.
  /** @param {(sound: TakenSound) => boolean} taken @param {(address: string) => void} hear */
  constructor(taken, hear) {
    this.taken = taken;
    this.hear = hear;
    this.waiting = new Waiting(
      { address: '/api/sent-sounds', key: 'sounds', list: 'sound-offers', news: (n) => phrase('script-sounds-waiting', { n }) },
      (/** @type {SentSound} */ sound) => this.row(sound),
    );
  }

  /** @param {SentSound} sound */
  row(sound) {
    const { id, part, seconds } = sound;
    const name = sound.name || phrase('script-sound-ours');
    const item = element('li');
    item.append(span('strong', name), span('', phrase('script-sound-from', { part, seconds })));
    addButton(item, phrase('script-sound-hear', { name }), () => this.hear(`/api/sent-sounds/${id}`));
    addButton(item, phrase('script-offer-take', { name }), () => this.settle(sound, true));
    addButton(item, phrase('script-offer-leave', { name }), () => this.settle(sound, false));
    return item;
  }

  /** @param {SentSound} sound @param {boolean} take */
  async settle(sound, take) {
    try {
      const found = await ask('/api/sent-sounds', { id: sound.id, take });
      if (take && found.key) this.taken({ ...sound, key: found.key });
      this.waiting.show(found.sounds);
      find('sound-title').focus();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      showError({ message: error.message, where: 'sound' });
    }
  }
}
