// Saving and opening: the same files that the command line reads, by button, file picker or by dropping them here.

import { ask, Refused, sendFile, start } from './plan_ask.js';
import { announce, clearErrors, hideTrouble, showError } from './plan_errors.js';
import { element } from './plan_fields.js';
import { begun, newId, store } from './plan_store.js';
import { find, findAll, phrase, setText } from './screen.js';
/** @import { Finding, Inputs, Plan, Told } from './shapes.js' */

/** @typedef {'scene' | 'class' | 'csv'} Kind */
/** @typedef {{ kind: Kind, file: string, text: string, csv?: string, beside?: boolean }} Read */

const MOST_BYTES = start.most_bytes;
const TABLE = /\.(csv|tsv|txt)$/i;
const SPREADSHEET = /\.(xlsx|xlsm|ods|xls)$/i;
// What else may be dropped, by its ending: it is told what it is.
/** @type {Record<string, RegExp>} */
const OTHERS = {
  sound: /\.(wav|mp3|ogg|oga|flac|m4a|aac|aiff?|wma|opus)$/i,
  film: /\.(mp4|mov|avi|mkv|webm)$/i,
  picture: /\.(png|jpe?g|gif|webp|heic|bmp|svg|tiff?)$/i,
  music: /\.(mid|midi|musicxml|mxl|xml)$/i,
  document: /\.(pdf|docx?|odt|rtf|pages|pptx?|odp)$/i,
};
const PACK = /\.(zip|html?)$/i;
const PASTED = 'my-table.csv';

/** @param {string} name @param {BlobPart} text @param {string} type */
function download(name, text, type) {
  const link = element('a');
  link.href = URL.createObjectURL(new Blob([text], { type }));
  link.download = name;
  document.body.append(link);
  link.click();
  link.remove();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

// A spreadsheet goes to the server as it is: its bytes as text, after this mark.
const PACKED = 'data:;base64,';

/** @param {string} sent */
const unpacked = (sent) => Uint8Array.from(atob(sent.slice(PACKED.length)), (letter) => letter.charCodeAt(0));

// What is being typed keeps what is pasted into it.
/** @param {EventTarget | null} place */
const isTyped = (place) => place instanceof HTMLElement && place.matches('input:not([type="radio"], [type="checkbox"], [type="range"]), textarea');

/** @param {File} file @returns {Promise<string>} */
function packed(file) {
  return new Promise((done, failed) => {
    const reader = new FileReader();
    reader.onload = () => done(PACKED + String(reader.result).replace(/^[^,]*,/, ''));
    reader.onerror = () => failed(new Refused(phrase('script-cannot-be-read', { name: file.name })));
    reader.readAsDataURL(file);
  });
}

// Loggers write UTF-8, UTF-16 with a mark at its head, or the old Windows letters.
/** @param {File} file */
async function textOf(file) {
  const bytes = new Uint8Array(await file.arrayBuffer());
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return new TextDecoder('utf-16le').decode(bytes);
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return new TextDecoder('utf-16be').decode(bytes);
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder('windows-1252').decode(bytes);
  }
}

/** @param {string} name @param {string} text @returns {Kind | ''} */
function kindOf(name, text) {
  if (TABLE.test(name) || SPREADSHEET.test(name)) return 'csv';
  if (!/\.toml$/i.test(name)) return '';
  return /^\s*(\[cupboard\]|pupils\s*=)/m.test(text) ? 'class' : 'scene';
}

/** @param {Partial<Inputs>} of */
const changes = ({ set = {}, rules = {}, drawn = {}, edits = {}, sounds = {} }) => ({ set, rules, drawn, edits, sounds });

export class Files {
  /** @param {Told} told */
  constructor(told) {
    this.told = told;
    for (const input of findAll('.file-input', HTMLInputElement)) {
      input.addEventListener('change', () => {
        this.open([...(input.files ?? [])]);
        input.value = '';
      });
    }
    addEventListener('dragover', (event) => {
      if (!event.dataTransfer?.types.some((type) => type === 'Files' || type === 'text/plain') || isTyped(event.target)) return;
      event.preventDefault();
      document.body.classList.add('dropping');
    });
    addEventListener('dragleave', (event) => {
      if (!event.relatedTarget) document.body.classList.remove('dropping');
    });
    addEventListener('drop', (event) => {
      document.body.classList.remove('dropping');
      if (!event.dataTransfer || isTyped(event.target)) return;
      if (this.given(event.dataTransfer)) event.preventDefault();
    });
    find('begin').addEventListener('submit', (event) => {
      event.preventDefault();
      this.begin(find('begin-process', HTMLSelectElement).value);
    });
    // Cells that were copied in a spreadsheet come as text, their columns parted by tabs.
    addEventListener('paste', (event) => {
      if (!event.clipboardData || (isTyped(event.target) && event.target !== find('paste'))) return;
      if (this.given(event.clipboardData)) event.preventDefault();
    });
  }

  // Whether there was something to open in what was dropped or pasted.
  /** @param {DataTransfer} data */
  given(data) {
    const text = data.getData('text/plain');
    if (data.files.length) this.open([...data.files]);
    else if (/[\t\n].*\S/s.test(text.trim())) this.open([new File([text], PASTED)]);
    else return false;
    return true;
  }

  /** @param {File[]} files */
  async open(files) {
    try {
      const read = [];
      const packs = files.filter((file) => PACK.test(file.name));
      for (const file of packs) await this.openPack(file);
      for (const file of files) if (!packs.includes(file)) read.push(await this.read(file));
      const scenes = read.filter((each) => each.kind === 'scene');
      for (const each of read) {
        // A table that lies beside a scene which names it belongs to that scene.
        const scene = each.kind === 'csv' && scenes.find(({ text }) => text.includes(`"${each.file}"`));
        if (scene) scene.csv = each.text;
        each.beside = Boolean(scene);
      }
      for (const each of read) if (!each.beside) await this.take(each);
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      showError({ message: error.message, where: 'file' });
      setText(find('bar-words'), phrase('script-the-file-was-not-opened'));
      // A file falls anywhere on the page: what is wrong with it comes into view.
      const shown = findAll('[data-error="file"]').find((each) => each.checkVisibility());
      (shown ?? find('trouble')).scrollIntoView({ block: 'center' });
    }
  }

  /** @param {File} file @returns {Promise<Read>} */
  async read(file) {
    const other = Object.keys(OTHERS).find((kind) => OTHERS[kind].test(file.name));
    if (other) throw new Refused(phrase('script-a-file-of-another-kind', { name: file.name, kind: other }));
    if (SPREADSHEET.test(file.name) && 1.4 * file.size > MOST_BYTES.csv) throw new Refused(phrase('script-spreadsheet-too-large', { name: file.name }));
    if (file.size > MOST_BYTES.csv) throw new Refused(phrase('script-has-mb-at-most-mb', { name: file.name, it: (file.size / 1e6).toFixed(0), e: MOST_BYTES.csv / 1e6 }));
    const text = SPREADSHEET.test(file.name) ? await packed(file) : await textOf(file);
    const kind = kindOf(file.name, text);
    if (!kind) throw new Refused(phrase('script-cannot-be-opened-here-choose', { name: file.name }));
    if (file.size > MOST_BYTES[kind]) throw new Refused(phrase('script-has-mb-a-has-1', { name: file.name, it: (file.size / 1e6).toFixed(1), kind }));
    return { kind, file: file.name, text };
  }

  // A whole pack: its plan comes back, with the scene, the table, the class and what was changed.
  /** @param {File} file */
  async openPack(file) {
    if (file.size > MOST_BYTES.pack) throw new Refused(phrase('script-pack-too-large', { name: file.name }));
    const { inputs, readings, understood } = await sendFile(`/api/open?name=${encodeURIComponent(file.name)}`, file);
    this.understood(understood);
    const { scene, ...others } = inputs;
    store.change({ ...others, ...begun({ ...scene, ...(readings === null ? {} : { csv: readings }) }), ...changes(others), class_id: '' });
  }

  /** @param {string[]} lines */
  understood(lines) {
    clearErrors();
    hideTrouble();
    for (const list of findAll('.understood', HTMLElement)) {
      list.hidden = false;
      list.replaceChildren(...lines.map((line) => element('li', '', line)));
    }
    this.told(lines.slice(0, 2).join(' '));
  }

  /** @param {Read} read */
  async take({ kind, file, text, csv }) {
    const found = await ask('/api/read', { kind, file, text, ...(csv === undefined ? {} : { csv }) });
    const lines = [phrase('script-is-open', { file }), ...found.understood, ...found.findings.map(/** @param {Finding} each */ (each) => each.message)];
    this.understood(lines);
    // The readings are kept here too: a server that is started anew asks for them once more.
    const readings = kind === 'csv' ? text : csv;
    const opened =
      kind === 'class'
        ? { class: { ...found.inputs.class, facts: found.class }, class_id: newId() }
        : begun({ ...found.inputs.scene, ...(readings === undefined ? {} : { csv: readings }) });
    if (kind === 'class' && !store.now.scene) announce(phrase('script-now-choose-a-scene', { lines: lines.join(' ') }));
    store.change(opened);
  }

  // A scene to start from, as `sonify new` writes it.
  /** @param {string} process */
  async begin(process) {
    try {
      const found = await ask('/api/read', { kind: 'start', process });
      clearErrors();
      hideTrouble();
      this.told(found.understood.join(' '));
      store.change(begun({ ...found.inputs.scene, ...(found.readings ? { csv: found.readings } : {}) }));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      showError({ message: error.message, where: 'file' });
    }
  }

  // A scene that plays readings is of use only with the table beside it.
  /** @param {string} name */
  saveReadings(name) {
    const scene = store.now.scene ?? {};
    if (scene.csv) {
      download(name, scene.csv.startsWith(PACKED) ? unpacked(scene.csv) : scene.csv, 'application/octet-stream');
      return;
    }
    const link = Object.assign(element('a'), { href: `/api/data/${encodeURIComponent(scene.name ?? '')}`, download: name });
    document.body.append(link);
    link.click();
    link.remove();
  }

  /** @param {() => Plan | null} planNow */
  save(planNow) {
    const scene = () => {
      const plan = planNow();
      if (!plan) return;
      const { scene_file: name, data_file: data } = plan;
      download(name, plan.scene_toml, 'application/toml');
      if (data) this.saveReadings(data);
      announce(phrase('script-the-scene-is-saved-as', { name, data: data ? phrase('script-with-its-readings-in', { data }) : '' }));
    };
    find('save-scene').addEventListener('click', scene);
    find('save-class').addEventListener('click', () => {
      const plan = planNow();
      if (!plan) return;
      const needs = find('send-needs', HTMLInputElement).checked;
      download('my-class.toml', needs ? plan.class_toml : plan.class_toml_to_send, 'application/toml');
      announce(phrase('script-the-class-is-saved-as'));
    });
  }
}
