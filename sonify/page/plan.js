// Puts the page together: views, the way to Hear and Conduct, undo, and what is kept in this tab.

import { Refused, start } from './plan_ask.js';
import { Bench } from './plan_bench.js';
import { announce, showError } from './plan_errors.js';
import { Files } from './plan_files.js';
import { Finder } from './plan_find.js';
import { Keeper } from './plan_keep.js';
import { patiently } from './plan_question.js';
import { begun, store } from './plan_store.js';
import { PrintView, viewNow } from './print.js';
import { find, findAll, phrase, setText } from './screen.js';
/** @import { Inputs } from './shapes.js' */

const bench = new Bench();
const printView = new PrintView();
const files = new Files(bench.told);
files.save(() => bench.plan);
const keeper = new Keeper(bench);
new Finder();

const TITLES = { plan: phrase('script-plan-a-lesson-sonify'), print: phrase('script-print-and-export-sonify') };
const WELCOME = [find('title').textContent, find('title-words').textContent];

function showView(moved = true) {
  const view = viewNow();
  document.body.dataset.view = view;
  document.title = TITLES[view];
  for (const name of ['plan', 'print']) find(name).hidden = name !== view;
  for (const link of findAll('.views a', HTMLAnchorElement)) {
    if (link.dataset.view === view) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  }
  find('bar').hidden = view !== 'plan' || !(store.now.scene || store.before.length);
  find('bar-hear').hidden = !store.now.scene;
  if (view === 'print') printView.show(store.now.scene ? bench.plan : null);
  if (!moved) return;
  window.scrollTo(0, 0);
  (view === 'print' ? find('print-title') : find('main')).focus({ preventScroll: true });
}

function showStore() {
  const chosen = store.now.scene !== null;
  const turned = find('bench').hidden === chosen;
  find('choose').hidden = chosen;
  find('bench').hidden = !chosen;
  find('undo', HTMLButtonElement).disabled = !store.before.length;
  find('redo', HTMLButtonElement).disabled = !store.after.length;
  if (chosen) bench.update();
  else {
    bench.question.drop();
    for (const [k, id] of ['title', 'title-words'].entries()) setText(find(id), WELCOME[k]);
    setText(find('bar-words'), phrase('script-undo-leads-back-to-the'));
  }
  showView(false);
  if (!turned) return;
  window.scrollTo(0, 0);
  (chosen ? find('about-title') : find('main')).focus({ preventScroll: true });
}

store.addEventListener('change', showStore);
bench.addEventListener('planned', () => {
  if (viewNow() === 'print') printView.show(bench.plan);
});
addEventListener('hashchange', () => {
  if (['', '#plan', '#print'].includes(location.hash)) showView();
  else document.querySelector(`${location.hash} ~ details`)?.setAttribute('open', '');
});

// Choosing, hearing, conducting -------------------------------------------------------------------------------------------

let going = false;

// The server makes the page that plays; it is opened as soon as it is there.
/** @param {'hear' | 'conduct'} view @param {Inputs} inputs */
async function go(view, inputs) {
  if (going) return;
  going = true;
  document.body.dataset.going = 'true';
  const words = view === 'hear' ? phrase('script-preparing-the-sound') : phrase('script-preparing-the-conductor-s-page');
  announce(words);
  setText(find('going-words'), words);
  find('going').hidden = false;
  try {
    const found = await patiently('/api/lesson', inputs, (why) => setText(find('going-words'), why));
    location.href = `/lesson/${found.key}#${view}`;
  } catch (error) {
    if (!(error instanceof Refused)) throw error;
    showError(error, () => go(view, inputs));
    find('going').hidden = true;
  } finally {
    going = false;
    delete document.body.dataset.going;
  }
}

/** @param {string} name @returns {Inputs} */
const named = (name) => ({ ...store.now, ...begun({ name }, keeper.idFor(name)) });
const present = () => (store.now.scene ? store.now : named(start.first));

for (const button of findAll('[data-plan]', HTMLButtonElement)) {
  button.addEventListener('click', () => store.change(named(button.dataset.plan ?? '')));
}
for (const button of findAll('[data-hear]', HTMLButtonElement)) {
  button.addEventListener('click', () => {
    store.change(named(button.dataset.hear ?? ''));
    go('hear', store.now);
  });
}
for (const link of findAll('[data-go]', HTMLAnchorElement)) {
  link.addEventListener('click', (event) => {
    event.preventDefault();
    go(link.dataset.go === 'hear' ? 'hear' : 'conduct', present());
  });
}
find('bar-hear').addEventListener('click', () => go('hear', store.now));
find('other-scene').addEventListener('click', () => store.change(begun(null)));

// Back from the playing page: the browser may show this one as it was left.
addEventListener('pageshow', () => {
  find('going').hidden = true;
});

// Undo -----------------------------------------------------------------------------------------------------------------

/** @param {'undo' | 'redo'} way */
function step(way) {
  if (way === 'undo' && bench.classForm.takeBack()) {
    setText(find('bar-words'), phrase('script-what-was-refused-is-gone'));
    announce(phrase('script-what-was-refused-is-gone'));
    return;
  }
  bench.told(way === 'undo' ? phrase('script-one-step-back') : phrase('script-one-step-forward'));
  store[way]();
  // A button that can do no more loses the focus: the other one has it then.
  if (find(way, HTMLButtonElement).disabled && document.activeElement === document.body) find(way === 'undo' ? 'redo' : 'undo').focus();
}

for (const way of /** @type {const} */ (['undo', 'redo'])) find(way).addEventListener('click', () => step(way));

addEventListener('keydown', (event) => {
  const { key, target } = event;
  if (!(event.ctrlKey || event.metaKey) || event.altKey || viewNow() !== 'plan') return;
  // A text that is being typed has an undo of its own.
  if (target instanceof Element && target.matches('input[type="number"], input[type="search"], input[type="text"], textarea')) return;
  const way = key.toLowerCase() === 'z' ? (event.shiftKey ? 'redo' : 'undo') : key.toLowerCase() === 'y' ? 'redo' : '';
  if (!way) return;
  event.preventDefault();
  step(way);
});

// What the page holds, for those who test it.
const state = () => ({
  inputs: store.now,
  plan: bench.plan,
  waiting: document.body.dataset.waiting === 'true',
  before: store.before.length,
  after: store.after.length,
  job: printView.state?.state ?? '',
});
Object.assign(window, { sonifyPlan: state });

showStore();
