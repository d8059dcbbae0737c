// Print and export: what to make, how far it is, each file in plain words, and every sheet to look at before printing.

import { ask, askAbout, Refused } from './plan_ask.js';
import { announce, clearErrors, hideTrouble, showError, showTrouble } from './plan_errors.js';
import { element } from './plan_fields.js';
import { store } from './plan_store.js';
import { Morning } from './print_morning.js';
import { badge, find, findAll, phrase, setRows, setState, setText, span } from './screen.js';
/** @import { JobState, MapRow, PackFile, Plan } from './shapes.js' */

const POLL_MS = 400;
const KEPT_JOB = 'sonify-job';
/** @type {Record<string, (state: JobState) => string>} */
const STATES = {
  queued: ({ ahead }) => (ahead ? phrase('script-waiting-being-made-before-yours', { phrase: phrase('script-count-packs', { n: ahead }) }) : phrase('script-waiting-to-begin')),
  making: ({ doing }) => phrase('script-working', { doing: doing || phrase('script-starting') }),
  ready: () => phrase('script-ready-download-everything-or-take'),
  cancelled: () => phrase('script-cancelled-nothing-was-kept'),
  failed: () => phrase('script-it-could-not-be-made'),
};
// Paper first, then what anyone can open; what only a program reads is folded away.
const OPENED_BY_ANYONE = /\.(pdf|png|svg|html|wav|mp3|ogg|flac|txt)$/i;
/** @param {JobState | null} state */
const underWay = (state) => state?.state === 'queued' || state?.state === 'making';

/** @param {number} bytes */
const sizeWords = (bytes) => (bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`);

export const viewNow = () => (location.hash === '#print' ? 'print' : 'plan');

/** @param {string} id */
const isTicked = (id) => find(id, HTMLInputElement).checked;

export class PrintView {
  constructor() {
    /** @type {{ id: string, made: string } | null} */
    this.job = null;
    /** @type {JobState | null} */
    this.state = null;
    this.timer = 0;
    this.asking = false;
    this.cancelling = false;
    this.wanted = false; // whether the class needs large print
    this.mark = '';
    this.morning = new Morning();
    this.dealtFor = '';
    this.sheetsMark = '';
    /** @type {PackFile[]} */
    this.sheets = [];
    try {
      this.job = JSON.parse(sessionStorage.getItem(KEPT_JOB) ?? 'null');
    } catch {
      // Nothing kept: nothing was made in this tab.
    }
    find('print-form').addEventListener('submit', (event) => {
      event.preventDefault();
      this.make();
    });
    find('job-cancel').addEventListener('click', () => this.cancel());
    find('preview-choice').addEventListener('change', () => this.showSheets());
    if (this.job) this.look();
  }

  get running() {
    return this.asking || underWay(this.state);
  }

  // The plan as it is now: whom the pack is for, whom the recording may leave out.
  /** @param {Plan | null} plan */
  show(plan) {
    find('print-none').hidden = store.now.scene !== null;
    find('print-work').hidden = !plan;
    if (!plan) return;
    const { year, pupils, groups, needs } = store.room;
    setText(find('print-for'), phrase('script-for-year-pupils-in-2', { title: plan.title, year, pupils, phrase: phrase('script-count-groups', { n: groups }) }));
    const wanted = needs.includes('large print');
    if (this.wanted !== wanted) find('large-print', HTMLInputElement).checked = wanted;
    this.wanted = wanted;
    find('needs-go').hidden = !needs.length;
    find('sounds-go').hidden = !Object.keys(store.now.sounds).length;
    this.listGroups(plan.map);
    const now = JSON.stringify(store.now);
    if (this.dealtFor !== now) this.morning.clear();
    this.dealtFor = now;
    this.showOld();
  }

  /** @param {MapRow[]} map */
  listGroups(map) {
    const groups = new Map();
    for (const row of map) groups.set(row.group, [...(groups.get(row.group) ?? []), row.name]);
    const mark = JSON.stringify([...groups]);
    if (this.mark === mark) return;
    this.mark = mark;
    const box = find('without');
    for (const old of box.querySelectorAll('label')) old.remove();
    for (const [number, parts] of groups) {
      const label = element('label', 'tick');
      const input = Object.assign(element('input'), { type: 'checkbox', name: 'without', value: parts[0] });
      label.append(input, badge(((number - 1) % 12) + 1), span('', `${number}: ${parts.join(' and ')}`));
      box.append(label);
    }
  }

  get options() {
    /** @param {string} name */
    const ticked = (name) => findAll(`[name="${name}"]:checked`, HTMLInputElement).map((input) => input.value);
    return {
      audio: ticked('audio'),
      stems: isTicked('stems'),
      click: isTicked('click-track'),
      without: ticked('without'),
      also: ticked('also'),
      paper: ticked('paper')[0],
      large_print: isTicked('large-print'),
      needs: isTicked('needs-too'),
      sounds: isTicked('sounds-too'),
      for_keyboard: isTicked('for-keyboard'),
      midi_count_in: isTicked('midi-count-in'),
    };
  }

  async make() {
    if (this.running) return;
    this.asking = true;
    this.showState({ state: 'queued', ahead: 0, files: [] });
    clearErrors();
    hideTrouble();
    try {
      const inputs = store.now;
      const { job, ahead } = await askAbout('/api/pack', inputs, { body: (sent) => ({ inputs: sent, options: this.options }) });
      this.asking = false;
      this.job = { id: job, made: JSON.stringify(inputs) };
      this.keep();
      this.showState({ state: 'queued', ahead, files: [] });
      find('job-title').focus({ preventScroll: true });
      this.look();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.asking = false;
      this.showState({ state: 'failed', error: error.message, files: [] });
      if (error.where) showError(error);
      else showTrouble(error.message, () => this.make());
    } finally {
      this.asking = false;
    }
  }

  keep() {
    try {
      sessionStorage.setItem(KEPT_JOB, JSON.stringify(this.job));
    } catch {
      // Without room in the tab the job is lost on reloading only.
    }
  }

  async look() {
    clearTimeout(this.timer);
    if (!this.job) return;
    const { id } = this.job;
    try {
      const state = await ask(`/api/pack/${id}`);
      if (id === this.job?.id) this.showState(state);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (error.status === 404) this.forget();
      else setText(find('job-words'), error.message);
    }
    if (this.job && underWay(this.state)) this.timer = setTimeout(() => this.look(), POLL_MS);
  }

  // The server was started anew and knows nothing of it.
  forget() {
    const lost = this.state !== null;
    this.job = null;
    sessionStorage.removeItem(KEPT_JOB);
    this.showState({ state: lost ? 'failed' : null, error: phrase('script-the-program-was-started-anew'), files: [] });
  }

  async cancel() {
    // Not disabled: a button that is loses the focus.
    if (!this.job || this.asking || this.cancelling) return;
    this.cancelling = true;
    setState(find('job-cancel'), 'aria-disabled', 'true');
    try {
      await ask(`/api/pack/${this.job.id}/cancel`, {});
      await this.look();
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      setText(find('job-error'), error.message);
      find('job-error').hidden = false;
    } finally {
      this.cancelling = false;
    }
  }

  /** @param {JobState} state */
  showState(state) {
    const before = this.state;
    this.state = state;
    const running = this.running;
    const hadFocus = find('job-running').contains(document.activeElement);
    setText(find('job-words'), state.state ? STATES[state.state](state) : phrase('script-nothing-made-yet-it-takes'));
    find('job-running').hidden = !running;
    setState(find('job-cancel'), 'aria-disabled', String(Boolean(!this.job || this.asking || this.cancelling)));
    const share = Math.round(100 * (state.share ?? 0));
    find('job-progress', HTMLProgressElement).value = share;
    find('job-progress').textContent = `${share} %`;
    setState(find('make'), 'aria-disabled', String(Boolean(running)));
    setText(find('make'), running ? phrase('script-being-made') : phrase('script-make-everything'));
    setText(find('job-error'), state.state === 'failed' ? state.error ?? '' : '');
    find('job-error').hidden = state.state !== 'failed';
    if (hadFocus && !running) find('job-title').focus({ preventScroll: true });
    if (before?.state !== state.state && state.state) announce(find('job-words').textContent);
    this.showFiles(state.state === 'ready' ? state.files : []);
    // The sheets come into view where nothing else has her attention.
    const idle = [document.body, find('make'), find('job-title')].some((each) => each === document.activeElement);
    const justMade = state.state === 'ready' && underWay(before);
    if (justMade && idle && this.sheets.length && viewNow() === 'print') find('preview-title').focus();
  }

  /** @param {PackFile[]} files */
  showFiles(files) {
    find('job-files').hidden = !files.length;
    const address = this.job ? `/api/pack/${this.job.id}` : '';
    if (files.length) find('job-zip', HTMLAnchorElement).href = `${address}/zip`;
    const paper = files.filter((file) => file.pages > 0);
    const others = files.filter((file) => !file.pages);
    const forAll = [...paper, ...others.filter(({ name }) => OPENED_BY_ANYONE.test(name))];
    const forPrograms = others.filter(({ name }) => !OPENED_BY_ANYONE.test(name));
    /** @param {HTMLLIElement} item @param {PackFile} file */
    const line = (item, { n, name, bytes, words }) => {
      const link = element('a', 'file-name', name);
      link.href = `${address}/file/${n}`;
      link.download = '';
      item.append(link, span('file-words', words), span('file-size', sizeWords(bytes)));
    };
    setRows(find('files'), forAll, line);
    setRows(find('program-files'), forPrograms, line);
    find('program-files-box').hidden = !forPrograms.length;
    this.sheets = paper;
    find('preview').hidden = !this.sheets.length;
    const mark = JSON.stringify([address, this.sheets]);
    if (this.sheetsMark !== mark) {
      this.sheetsMark = mark;
      find('preview-choice').replaceChildren(...this.sheets.map((file, k) => new Option(`${file.name}, ${phrase('script-count-pages', { n: file.pages })}`, String(k))));
      if (this.sheets.length) this.showSheets();
    }
    this.showOld();
  }

  showOld() {
    find('job-old').hidden = !this.job || this.job.made === JSON.stringify(store.now);
  }

  // Pictures are fetched as they come into view.
  showSheets() {
    const { n, name, pages, words } = this.sheets[Number(find('preview-choice', HTMLSelectElement).value) || 0];
    const address = `/api/pack/${this.job?.id}`;
    const open = find('preview-open', HTMLAnchorElement);
    open.href = `${address}/file/${n}?open=1`;
    setText(open, phrase('script-open-to-print-new-tab', { name }));
    find('sheets').replaceChildren(
      ...Array.from({ length: pages }, (_, k) => {
        const item = element('li');
        const image = Object.assign(element('img', 'sheet'), {
          loading: 'lazy',
          alt: phrase('script-page-of', { name, k: k + 1, pages, words }),
          src: `${address}/page/${n}/${k + 1}`,
        });
        item.append(image, element('p', 'hint', phrase('script-page-of-2', { k: k + 1, pages })));
        return item;
      }),
    );
  }
}
