// The page of the class's own recording: it is brought, the server measures it, and what it says stands beside the
// science. The sound itself is kept in this tab alone, to be played; the server deletes its copy.

import { PieceClock } from './clock.js';
import { noSounds, Player } from './player.js';
import { Chart } from './recording_chart.js';
import { hasMicrophone, Microphone, readable } from './recording_sound.js';
import { find, phrase, readData, setRows, setText } from './screen.js';
/** @import { LessonData, Measured, MeasuredStage, RecordingState } from './shapes.js' */

const ASK_MS = 700;
const MOST_BYTES = 400_000_000;

/** @type {Pick<LessonData, 'title' | 'timing' | 'stages' | 'parts'>} */
const data = readData('lesson-data');
const { key = '', sounds: soundsAddress = '' } = document.body.dataset;
const clock = new PieceClock(data.timing, data.stages);
const player = new Player(clock, noSounds(), data.parts);
const ours = find('ours', HTMLAudioElement);
const bar = find('bar', HTMLInputElement);
const microphone = new Microphone(find('level', HTMLMeterElement));

/** @type {AbortController | null} */
let sending = null;
let asking = 0;
/** @type {Blob | null} */
let held = null; // what was brought here, until another is
/** @type {Measured | null} */
let told = null;

// Talking with the server ---------------------------------------------------------------------------------------------

/** @param {string} what @param {RequestInit} [options] @returns {Promise<RecordingState>} */
async function asked(what, options = {}) {
  const answer = await fetch(`/api/recording/${key}${what}`, options);
  const found = await answer.json();
  if (!answer.ok) throw new Error(found.error);
  return found;
}

/** @param {string} what */
const posted = (what) => asked(what, { method: 'POST', headers: { 'Content-Type': 'application/json', 'X-Sonify': '1' }, body: '{}' });

/** @param {unknown} error */
function trouble(error) {
  const silent = !(error instanceof Error) || error instanceof TypeError;
  setText(find('trouble'), silent ? phrase('script_record-no-answer') : error.message);
  find('trouble').hidden = false;
}

/** @param {string} words @param {number | null} share */
function working(words, share) {
  find('work').hidden = false;
  find('bring').hidden = true;
  setText(find('work-words'), words);
  const bar = find('work-share', HTMLProgressElement);
  if (share === null) bar.removeAttribute('value');
  else bar.value = share;
}

function idle() {
  clearTimeout(asking);
  find('work').hidden = true;
  find('bring').hidden = false;
}

/** @param {Blob} blob @param {string} name */
async function send(blob, name) {
  find('trouble').hidden = true;
  find('result').hidden = true;
  stopPlaying();
  if (blob.size > MOST_BYTES) {
    trouble(new Error(phrase('script_record-too-large', { most: MOST_BYTES / 1e6 })));
    return;
  }
  const own = (sending = new AbortController());
  try {
    working(phrase('script_record-preparing'), null);
    const ready = await readable(blob, name);
    if (own.signal.aborted) return;
    working(phrase('script_record-sending'), null);
    held = blob;
    const options = { method: 'POST', headers: { 'Content-Type': 'application/octet-stream', 'X-Sonify': '1' }, body: ready.blob, signal: own.signal };
    show(await asked(`/file?name=${encodeURIComponent(ready.name)}`, options));
  } catch (error) {
    idle();
    if (!own.signal.aborted) trouble(error);
  } finally {
    sending = null;
  }
}

async function ask() {
  try {
    show(await asked(''));
  } catch (error) {
    idle();
    trouble(error);
  }
}

/** @param {RecordingState} state */
function show(state) {
  clearTimeout(asking);
  if (['arriving', 'measuring', 'waiting'].includes(state.state)) {
    const waits = state.state === 'waiting';
    working(waits ? phrase('script_record-waiting') : phrase('script_record-measuring', { doing: state.doing }), waits ? null : state.share);
    asking = setTimeout(ask, ASK_MS);
    return;
  }
  idle();
  if (state.state === 'failed') trouble(new Error(state.error));
  if (state.state === 'ready' && state.told) showTold(state.told, state.from_phone);
}

async function stop() {
  sending?.abort();
  microphone.drop();
  try {
    const state = await posted('/cancel');
    idle();
    setText(find('said'), phrase('script_record-stopped'));
    if (state.state === 'ready') show(state);
  } catch (error) {
    idle();
    trouble(error);
  }
}

// What came of it -----------------------------------------------------------------------------------------------------

/** @param {Measured} found @param {boolean} fromPhone */
function showTold(found, fromPhone) {
  told = found;
  find('result').hidden = false;
  const notes = found.clipped ? [phrase('script_record-clipped')] : [];
  if (found.recognised) notes.unshift(phrase('script_record-from-to', { start: time(found.start_s ?? 0), end: time(found.end_s ?? 0) }));
  else notes.unshift(found.why);
  setText(find('result-title'), found.recognised ? phrase('script_record-found', { takes: found.takes }) : phrase('script_record-not-found'));
  setRows(find('result-notes'), notes, (item, words) => setText(item, words));
  for (const part of find('result').querySelectorAll('.panel')) /** @type {HTMLElement} */ (part).hidden = !found.recognised;
  find('result-title').focus({ preventScroll: false });
  if (!found.recognised) return;
  const { plot } = found.sheet;
  find('curves').hidden = !plot;
  if (plot) {
    setText(find('curves-unit'), plot['unit-told']);
    setText(find('curves-legend'), plot.legend);
    chart.draw(plot, data.timing.pieceBars);
  }
  const here = !fromPhone && held !== null;
  find('play-ours').hidden = !here;
  find('gone').hidden = here;
  if (here && held) {
    if (ours.src) URL.revokeObjectURL(ours.src);
    ours.src = URL.createObjectURL(held);
  }
  showStages(found);
  showSentences(found);
  showBar();
}

/** @param {Measured} found */
function showStages(found) {
  const rows = found.stages.map((stage, k) => stageRow(stage, found.sheet.rows[k].told));
  find('stages').replaceChildren(...rows);
}

/** @param {MeasuredStage} stage @param {string} words */
function stageRow(stage, words) {
  const row = document.createElement('tr');
  const go = document.createElement('button');
  go.type = 'button';
  go.setAttribute('aria-label', phrase('script_record-jump', { bar: stage.bar }));
  setText(go, stage.letter);
  go.addEventListener('click', () => goTo(stage.bar));
  const heard = stage.bpm === null ? '–' : phrase('script_record-tempo', { value: Math.round(stage.bpm), low: Math.round(stage.bpm_low ?? 0), high: Math.round(stage.bpm_high ?? 0) });
  const heads = find('result').querySelectorAll('thead th');
  const cells = ['', stage.title, String(Math.round(stage.planned_bpm)), heard, words].map((text, k) => {
    const cell = document.createElement(k ? 'td' : 'th');
    if (k) setText(cell, text);
    else cell.append(go);
    if (k > 1 && text) cell.dataset.head = heads[k].textContent ?? '';
    return cell;
  });
  row.append(...cells);
  return row;
}

/** @param {Measured} found */
function showSentences({ questions, next_run, sheet }) {
  const can = questions.filter(({ answer }) => answer !== 'cannot tell');
  const cannot = questions.filter(({ answer }) => answer === 'cannot tell');
  /** @param {HTMLLIElement} item @param {{ question: string; words: string }} row */
  const fill = (item, { question, words }) => {
    const strong = document.createElement('strong');
    setText(strong, question);
    item.replaceChildren(strong, ` ${words}`);
  };
  setRows(find('answers'), can.map(({ question, answer, why }) => ({ question, words: phrase('script_record-answer', { answer, why }) })), fill);
  setRows(find('untold-list'), cannot.map(({ question, why }) => ({ question, words: phrase('script_record-because', { why }) })), fill);
  find('untold').hidden = !cannot.length;
  setText(find('untold-count'), phrase('script_record-untold', { count: cannot.length }));
  setRows(find('next'), next_run, (item, words) => setText(item, words));
  setRows(find('reflect'), sheet.reflect, (item, words) => setText(item, words));
}

/** @param {number} seconds */
function time(seconds) {
  const whole = Math.max(0, Math.round(seconds));
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`;
}

// Listening to both ---------------------------------------------------------------------------------------------------

const chart = new Chart(find('curves-field'), (to) => goTo(to));

// Where a bar is in the recording; of one that was left out, the next that was played.
/** @param {number} number */
function startOfOurs(number) {
  const bars = told?.bars ?? [];
  return (bars.find((each) => each.bar === number) ?? bars.find((each) => each.bar > number) ?? bars.at(-1))?.start_s ?? 0;
}

/** @param {number} number */
function goTo(number) {
  bar.value = String(number);
  showBar();
  if (!ours.paused) ours.currentTime = startOfOurs(number);
  else if (player.playing) player.goTo(clock.startOfBar(number), false);
}

function showBar() {
  setText(find('bar-said'), phrase('script_record-bar', { bar: Number(bar.value), bars: data.timing.pieceBars }));
  chart.now(Number(bar.value));
}

function stopPlaying() {
  ours.pause();
  player.pause();
}

function playOurs() {
  const stops = !ours.paused;
  stopPlaying();
  if (stops) return;
  ours.currentTime = startOfOurs(Number(bar.value));
  ours.play().catch(trouble);
}

function playPiece() {
  const stops = player.playing;
  stopPlaying();
  if (!stops) player.play(clock.startOfBar(Number(bar.value)), false);
}

function follow() {
  const playing = !ours.paused || player.playing;
  setText(find('play-ours'), ours.paused ? phrase('script_record-play-ours') : phrase('script_record-stop-playing'));
  setText(find('play-piece'), player.playing ? phrase('script_record-stop-playing') : phrase('script_record-play-piece'));
  if (!playing) return;
  const at = ours.paused ? player.moment().bar : (told?.bars.findLast((each) => each.start_s <= ours.currentTime)?.bar ?? 1);
  if (at >= 1) {
    bar.value = String(at);
    showBar();
  }
}
setInterval(follow, 150);

// What a person presses -----------------------------------------------------------------------------------------------

const file = find('file', HTMLInputElement);
const drop = find('drop');
file.addEventListener('change', () => {
  const [given] = file.files ?? [];
  file.value = '';
  if (given) send(given, given.name);
});
for (const kind of ['dragenter', 'dragover']) {
  document.body.addEventListener(kind, (event) => {
    event.preventDefault();
    drop.dataset.over = 'true';
  });
}
document.body.addEventListener('dragleave', () => delete drop.dataset.over);
document.body.addEventListener('drop', (event) => {
  event.preventDefault();
  delete drop.dataset.over;
  const given = event.dataTransfer?.files[0];
  if (given && find('work').hidden) send(given, given.name);
});

find('microphone').hidden = !hasMicrophone();
find('record').addEventListener('click', async () => {
  find('trouble').hidden = true;
  find('result').hidden = true;
  stopPlaying();
  try {
    await microphone.begin((seconds) => working(phrase('script_record-recording', { time: time(seconds) }), null));
  } catch {
    trouble(new Error(phrase('script_record-no-microphone')));
  }
});
find('stop').addEventListener('click', async () => {
  const taken = microphone.recording ? await microphone.end() : null;
  if (taken) send(taken, 'microphone.webm');
  else stop();
});
document.getElementById('phone')?.addEventListener('click', async () => {
  find('trouble').hidden = true;
  find('result').hidden = true;
  try {
    show(await posted('/wait'));
  } catch (error) {
    trouble(error);
  }
});
bar.addEventListener('input', () => goTo(Number(bar.value)));
find('play-ours').addEventListener('click', playOurs);
find('play-piece').addEventListener('click', playPiece);

async function fetchSounds() {
  try {
    const answer = await fetch(soundsAddress);
    if (answer.ok) player.soundsCame(await answer.json());
  } catch {
    // the piece cannot be played here; everything else can be done
  }
}

fetchSounds();
ask(); // a recording that a phone sent while this page was away, or that is still being measured

Object.assign(window, { sonifyRecording: () => ({ told, playing: player.playing, oursPaused: ours.paused, bar: Number(bar.value) }) });
