// What is kept on this computer without asking: plans and classes by name, as the program that runs here has them.

import { ask, askAbout, Refused, start } from './plan_ask.js';
import { announce, showTrouble } from './plan_errors.js';
import { element } from './plan_fields.js';
import { newId, store } from './plan_store.js';
import { find, findAll, phrase, setText, span } from './screen.js';
/** @import { Bench } from './plan_bench.js' */
/** @import { Inputs, KeptRow, Shelf } from './shapes.js' */

// So long nothing may have changed before a plan is kept.
const QUIET_MS = 1200;
const NEW = 'new';

const DATE = new Intl.DateTimeFormat(document.documentElement.lang, { weekday: 'short', day: 'numeric', month: 'short', hour: '2-digit', minute: '2-digit' });
/** @param {number} atS */
const when = (atS) => DATE.format(new Date(atS * 1000));

/** @param {string} value @param {string} words */
function option(value, words) {
  const made = element('option', '', words);
  made.value = value;
  return made;
}

export class Keeper {
  /** @param {Bench} bench */
  constructor(bench) {
    this.bench = bench;
    /** @type {Shelf} */
    this.shelf = { keeps: start.keeps, why: '', plans: [], classes: [] };
    this.timer = 0;
    /** @type {Record<string, string>} */
    this.marks = {}; // what is kept already, by what it is of
    /** @type {Set<string>} */
    this.dropped = new Set(); // deleted here: kept no more until that is undone
    /** @type {Promise<void>} */
    this.queue = Promise.resolve();
    if (!start.keeps) return;
    bench.addEventListener('planned', () => this.soon());
    store.addEventListener('change', () => this.show());
    addEventListener('visibilitychange', () => {
      if (document.visibilityState === 'hidden' && this.timer) this.now();
    });
    this.listen();
    this.do({ do: 'list' });
  }

  listen() {
    find('kept-name').addEventListener('change', () => this.rename('plan', store.now.plan_id, find('kept-name', HTMLInputElement)));
    find('class-name').addEventListener('change', () => this.rename('class', store.now.class_id, find('class-name', HTMLInputElement)));
    find('class-choice').addEventListener('change', () => this.take(find('class-choice', HTMLSelectElement).value));
    find('kept-back').addEventListener('click', () => this.open('plan', store.now.plan_id, Number(find('kept-states', HTMLSelectElement).value)));
    find('kept-copy').addEventListener('click', () => this.copy(find('kept-for', HTMLSelectElement).value));
    find('kept-forget').addEventListener('click', () => this.forget());
  }

  // Asks, and shows all that is kept then. What went wrong is one sentence on the page; nothing else stops for it.
  /** @param {object} asked @param {Inputs} [inputs] @returns {Promise<Shelf>} */
  async do(asked, inputs) {
    try {
      const found = await (inputs ? askAbout('/api/shelf', inputs, { body: (state) => ({ ...asked, state }) }) : ask('/api/shelf', asked));
      this.shelf = found;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      this.shelf = { ...this.shelf, keeps: false, why: error.message, kept: undefined, opened: undefined };
    }
    this.show();
    return this.shelf;
  }

  // Keeping ------------------------------------------------------------------------------------------------------------

  soon() {
    clearTimeout(this.timer);
    this.timer = setTimeout(() => this.now(), QUIET_MS);
  }

  now() {
    clearTimeout(this.timer);
    this.timer = 0;
    const { plan } = this.bench;
    const inputs = store.now;
    if (!inputs.scene || !plan) return;
    const room = inputs.class?.file?.replace(/\.toml$/i, '');
    const keep = async () => {
      if (inputs.class_id && inputs.class) await this.keep('class', inputs.class_id, room && room !== 'class' ? room : phrase('script-my-class'), inputs);
      if (inputs.plan_id) await this.keep('plan', inputs.plan_id, plan.title, inputs);
    };
    this.queue = this.queue.then(keep);
  }

  /** @param {'plan' | 'class'} kind @param {string} id @param {string} name @param {Inputs} inputs */
  async keep(kind, id, name, inputs) {
    const mark = JSON.stringify(kind === 'class' ? inputs.class : inputs);
    if (this.marks[id] === mark || this.dropped.has(id)) return;
    const { keeps } = await this.do({ do: 'keep', kind, id, name }, inputs);
    if (keeps) this.marks[id] = mark;
  }

  // The plan of a ready-made scene that was opened before and left as it stands is the same plan.
  /** @param {string} name */
  idFor(name) {
    const known = this.shelf.plans.find((row) => row.scene === name && row.untouched && !row.gone && row.class_id === store.now.class_id);
    return known ? known.id : newId();
  }

  // Having it back -----------------------------------------------------------------------------------------------------

  /** @param {'plan' | 'class'} kind @param {string} id @param {number} [state] */
  async open(kind, id, state) {
    if (this.timer) this.now(); // what was changed a moment ago is kept first
    await this.queue;
    const { opened } = await this.do({ do: 'open', kind, id, ...(state === undefined ? {} : { state }) });
    this.taken(opened);
  }

  /** @param {Partial<Inputs> | undefined} opened */
  taken(opened) {
    if (!opened) {
      if (this.shelf.why) showTrouble(this.shelf.why);
      return;
    }
    const row = this.shelf.plans.find((each) => each.id === opened.plan_id);
    if (row) this.bench.told(phrase('script-is-open', { file: row.name }));
    store.change(opened);
  }

  // Another of the classes, a new one, or the usual one.
  /** @param {string} id */
  async take(id) {
    if (id && id !== NEW) {
      await this.open('class', id);
      return;
    }
    store.change(id ? { class: { ...start.class }, class_id: newId() } : { class: null, class_id: '' });
  }

  /** @param {string} room */
  async copy(room) {
    this.now();
    await this.queue;
    const asked = { do: 'copy', id: store.now.plan_id, class_id: room === NEW ? '' : room };
    const { opened } = await this.do(asked);
    if (opened && room === NEW) Object.assign(opened, { class: { ...start.class, ...store.now.class?.facts, ...store.now.class }, class_id: newId() });
    this.taken(opened);
    if (!opened) return;
    find('kept-name').focus();
    announce(phrase('script-the-copy-is-open'));
  }

  /** @param {'plan' | 'class'} kind @param {string} id @param {HTMLInputElement} input */
  async rename(kind, id, input) {
    if (!input.value.trim()) {
      this.show();
      return;
    }
    const { kept } = await this.do({ do: 'rename', kind, id, name: input.value });
    if (kept) announce(phrase('script-it-is-called', { name: kept.name }));
  }

  /** @param {'plan' | 'class'} kind @param {KeptRow} row @param {'delete' | 'undelete'} way */
  async remove(kind, row, way) {
    if (way === 'delete') this.dropped.add(row.id);
    else this.dropped.delete(row.id);
    await this.do({ do: way, kind, id: row.id });
    delete this.marks[row.id];
    announce(way === 'delete' ? phrase('script-is-deleted', { name: row.name }) : phrase('script-is-back', { name: row.name }));
    // The button that was pressed is gone: the other one of its row has the focus then.
    findAll(`[data-kept="${row.id}"] button`, HTMLElement)[0]?.focus();
  }

  // At once and for good, here and in this tab.
  async forget() {
    clearTimeout(this.timer);
    this.timer = 0;
    await this.queue;
    const { keeps, why } = await this.do({ do: 'forget' });
    if (!keeps) {
      showTrouble(why);
      return;
    }
    this.marks = {};
    this.dropped.clear();
    store.forget();
    this.show();
    announce(phrase('script-everything-is-forgotten'));
    find('main').focus();
  }

  // Showing ------------------------------------------------------------------------------------------------------------

  show() {
    const { keeps, why, plans, classes } = this.shelf;
    for (const place of findAll('.kept-not', HTMLElement)) {
      place.hidden = !why;
      setText(place, why ? phrase('script-cannot-keep', { why }) : '');
    }
    find('kept').hidden = !plans.length && !classes.length;
    this.list(find('kept-plans'), 'plan', plans);
    this.list(find('kept-classes'), 'class', classes);
    find('kept-classes-title').hidden = !classes.length;
    const there = classes.filter((row) => !row.gone);
    this.showClass(there, keeps);
    this.showPlan(plans.find((row) => row.id === store.now.plan_id), there);
  }

  /** @param {HTMLElement} list @param {'plan' | 'class'} kind @param {KeptRow[]} rows */
  list(list, kind, rows) {
    const mark = JSON.stringify(rows);
    if (list.dataset.mark === mark) return;
    list.dataset.mark = mark;
    list.replaceChildren(...rows.map((row) => this.row(kind, row)));
  }

  /** @param {'plan' | 'class'} kind @param {KeptRow} row */
  row(kind, row) {
    const item = element('li', row.gone ? 'gone' : '');
    item.dataset.kept = row.id;
    /** @param {string} label @param {() => void} pressed */
    const button = (label, pressed) => {
      const made = element('button', '', label);
      made.type = 'button';
      made.append(span('unseen', phrase('script-of-name', { name: row.name })));
      made.addEventListener('click', pressed);
      return made;
    };
    const words = row.gone ? phrase('script-is-deleted', { name: row.name }) : phrase('script-kept-at', { when: when(row.states[row.states.length - 1]) });
    item.append(span('kept-title', row.gone ? '' : row.name), span('meta', words));
    const buttons = element('span', 'buttons');
    if (row.gone) buttons.append(button(phrase('script-undo'), () => this.remove(kind, row, 'undelete')));
    else {
      buttons.append(button(phrase('script-open'), () => this.open(kind, row.id)), button(phrase('script-delete'), () => this.remove(kind, row, 'delete')));
    }
    item.append(buttons);
    return item;
  }

  /** @param {KeptRow[]} there @param {boolean} keeps */
  showClass(there, keeps) {
    const { class_id: id } = store.now;
    const row = there.find((each) => each.id === id);
    find('class-kept').hidden = !keeps && !there.length;
    const choice = find('class-choice', HTMLSelectElement);
    const rows = [option('', phrase('script-the-usual-class')), ...there.map((each) => option(each.id, each.name)), option(NEW, phrase('script-a-new-class'))];
    if (id && !row) rows.splice(1, 0, option(id, phrase('script-my-class')));
    fill(choice, rows, id);
    find('class-name-field').hidden = !row;
    write(find('class-name', HTMLInputElement), row?.name ?? '');
  }

  /** @param {KeptRow | undefined} row @param {KeptRow[]} classes */
  showPlan(row, classes) {
    find('kept-here').hidden = !row;
    if (!row) return;
    write(find('kept-name', HTMLInputElement), row.name);
    const last = row.states.length - 1;
    setText(find('kept-words'), phrase('script-kept-at', { when: when(row.states[last]) }));
    const earlier = row.states.map((atS, k) => option(String(k), when(atS))).slice(0, -1).reverse();
    find('kept-earlier').hidden = !earlier.length;
    fill(find('kept-states', HTMLSelectElement), earlier);
    const others = classes.filter((each) => each.id !== store.now.class_id);
    fill(find('kept-for', HTMLSelectElement), [...others.map((each) => option(each.id, each.name)), option(NEW, phrase('script-a-new-class'))]);
  }
}

// New options only where they differ: a list that is open stays open.
/** @param {HTMLSelectElement} select @param {HTMLOptionElement[]} options @param {string} [value] */
function fill(select, options, value) {
  const mark = options.map((each) => `${each.value} ${each.textContent}`).join('\n');
  if (select.dataset.mark !== mark) {
    const before = select.value;
    select.dataset.mark = mark;
    select.replaceChildren(...options);
    if (options.some((each) => each.value === before)) select.value = before;
  }
  if (value !== undefined && select.value !== value) select.value = value;
}

// What is being typed stays.
/** @param {HTMLInputElement} input @param {string} value */
function write(input, value) {
  if (document.activeElement !== input && input.value !== value) input.value = value;
}
