// Puts the page together: reads the lesson, makes the player and both views, and listens to the keys.

import { PieceClock } from './clock.js';
import { ConductView } from './conduct.js';
import { Film } from './film.js';
import { HearView } from './hear.js';
import { ListeningView } from './listening.js';
import { PARTICLE_KEYS, ParticlesView } from './particles.js';
import { noSounds, Player } from './player.js';
import { find, findAll, findIn, phrase, Piece, readData, setState, setText } from './screen.js';
import { Seek } from './seek.js';
/** @import { FilmData, LessonData, Now, Sounds } from './shapes.js' */

/** @type {LessonData} */
const data = readData('lesson-data');
// A page from a server asks for its sounds and can be read and prepared meanwhile.
const { sounds: soundsAddress } = document.body.dataset;
/** @type {Sounds} */
const sounds = soundsAddress ? noSounds() : readData('sounds-data');
document.getElementById('sounds-data')?.remove();

const clock = new PieceClock(data.timing, data.stages);
const player = new Player(clock, sounds, data.parts);
const piece = new Piece(data, clock);

const viewNames = findAll('.view').map((view) => view.id);
const inConduct = () => document.body.dataset.view === 'conduct';

// From Conduct the class is counted in wherever it starts; the very start has its own count-in.
/** @param {number} stage */
function startOf(stage) {
  return stage === 0 && inConduct() ? 0 : data.stages[stage].startS;
}

const go = {
  /** @param {number} stage */
  to(stage) {
    if (player.repeat !== null) player.repeat = stage;
    player.goTo(startOf(stage), inConduct());
  },
  /** @param {number} steps */
  by(steps) {
    const now = clock.stageAt(Math.max(player.moment().bar, 1));
    go.to(Math.min(Math.max(now + steps, 0), data.stages.length - 1));
  },
  start() {
    if (player.repeat !== null) player.repeat = 0;
    player.goTo(0, inConduct());
  },
};

function playOrPause() {
  if (player.playing) player.pause();
  else if (inConduct() && player.restS >= clock.firstS) player.play(clock.barAt(player.restS).startS, true);
  else player.play(player.restS, false);
}

const shared = { player, piece, clock, data, go, playOrPause };
const hear = new HearView(shared);
if (data.science.measured) new Seek(shared, hear);
const conduct = new ConductView(shared);
const listening = data.listening.length ? new ListeningView(shared) : null;
const particles = document.getElementById('film-data') ? new ParticlesView({ film: readFilm(), mixer: player.mixer, playing: quiet }) : null;

function readFilm() {
  /** @type {FilmData} */
  const film = readData('film-data');
  find('film-data').remove();
  return new Film(film);
}

// The particle box and the piece never sound together.
function quiet() {
  if (!player.mixer.missing) find('trouble').hidden = true;
  player.pause();
}

/** @param {string} address */
async function fetchSounds(address) {
  say(phrase('script-the-sounds-are-on-their'));
  try {
    const answer = await fetch(address);
    if (!answer.ok) throw new Error(String(answer.status));
    const found = await answer.json();
    find('trouble').hidden = true;
    player.soundsCame(found);
  } catch {
    say(phrase('script-the-sounds-could-not-be'));
  }
}

if (soundsAddress) fetchSounds(soundsAddress);

// Showing -------------------------------------------------------------------------------------------------------------

let frameS = 1 / 60;
let lastFrameMs = 0;
let waiting = 0;
/** @type {Now | null} */
let shown = null;

// A frame is seen about half its length after it is drawn, on average: so it is drawn for that moment.
function draw() {
  shown = player.moment(player.playing ? frameS / 2 : 0);
  const { view } = document.body.dataset;
  if (view === 'conduct') conduct.show(shown);
  else if (view === 'hear') hear.show(shown);
  else if (view === 'particles') particles?.show();
  else if (view === 'listening') listening?.show();
}

/** @param {number} nowMs */
function frame(nowMs) {
  waiting = 0;
  if (!player.playing) return;
  const lengthS = (nowMs - lastFrameMs) / 1000;
  if (lengthS > 0.002 && lengthS < 0.03) frameS += (lengthS - frameS) * 0.1;
  lastFrameMs = nowMs;
  draw();
  waiting = requestAnimationFrame(frame);
}

function showChange() {
  if (player.playing) particles?.box.pause();
  if (player.playing && !player.mixer.missing) find('trouble').hidden = true;
  for (const id of ['play', 'conduct-play']) {
    setState(find(id), 'data-playing', String(player.playing));
    setText(findIn(find(id), '.words'), player.playing ? phrase('script-pause') : phrase('script-play'));
  }
  draw();
  conduct.keepAwake();
  if (player.playing && !waiting) waiting = requestAnimationFrame(frame);
}

player.addEventListener('change', showChange);
player.addEventListener('silent', () => {
  say(phrase('script-this-browser-cannot-play-sound'));
});
particles?.box.addEventListener('silent', () => {
  say(phrase('script-this-browser-cannot-play-sound-2'));
});
for (const each of [player, particles?.box]) {
  each?.addEventListener('blocked', () => say(phrase('script-the-browser-holds-the-sound')));
}
player.addEventListener('finish', () => setText(find('said'), phrase('script-the-end-of-the-piece')));

/** @param {string} trouble */
function say(trouble) {
  setText(find('trouble'), trouble);
  find('trouble').hidden = false;
}

// Views and keys ------------------------------------------------------------------------------------------------------

function showView() {
  const wanted = location.hash.slice(1);
  const view = viewNames.includes(wanted) ? wanted : 'hear';
  const before = document.body.dataset.view;
  document.body.dataset.view = view;
  for (const name of viewNames) find(name).hidden = name !== view;
  if (view !== 'particles') particles?.box.pause();
  if (view !== 'listening') player.stopClip();
  for (const link of findAll('.views a', HTMLAnchorElement)) {
    if (link.dataset.view === view) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  }
  if (view === 'conduct') find('board').focus({ preventScroll: true });
  else if (before === 'conduct') find('play').focus({ preventScroll: true });
  window.scrollTo(0, 0);
  draw();
  conduct.keepAwake();
}

addEventListener('hashchange', showView);

const PIECE_KEYS = { ' ': playOrPause, ArrowLeft: () => go.by(-1), ArrowRight: () => go.by(1) };
/** @type {Record<string, Record<string, (target: Element) => void> | null>} */
const KEYS = {
  hear: PIECE_KEYS,
  conduct: {
    ...PIECE_KEYS,
    PageUp: () => go.by(-1),
    PageDown: () => go.by(1),
    Home: () => go.start(),
    Escape: () => {
      location.hash = '#hear';
    },
  },
  particles: particles && {
    ' ': () => particles.playOrPause(),
    ...Object.fromEntries(PARTICLE_KEYS.map((key) => [key, /** @param {Element} target */ (target) => particles.move(key, target.id === 'heating')])),
  },
  listening: listening && {
    ' ': () => listening.playOrStop(),
    ArrowLeft: () => listening.go(listening.now - 1),
    ArrowRight: () => listening.go(listening.now + 1),
  },
};

addEventListener('keydown', (event) => {
  const { key, target } = event;
  const action = KEYS[document.body.dataset.view ?? '']?.[key];
  if (!(target instanceof Element) || event.ctrlKey || event.altKey || event.metaKey || !action) return;
  // A control that has the focus keeps the keys that work it.
  if (key === ' ' && target.closest('button, a, input, select, summary')) return;
  if (key !== 'Escape' && key !== ' ' && target.closest('select, .scroll, input:not([type="checkbox"])')) return;
  event.preventDefault();
  const held = document.body.dataset.view === 'particles' && key.startsWith('Arrow');
  if (held || !event.repeat) action(target);
});

// What the page is doing, for those who test it.
const state = () => ({
  view: document.body.dataset.view,
  playing: player.playing,
  shown,
  moment: player.moment(),
  contextS: player.mixer.timeS,
  latencyS: player.mixer.latencyS,
  heardS: player.mixer.heardS(),
  speed: player.speed,
  level: player.mixer.level(),
  voices: player.mixer.voices.size,
  resting: [...player.resting],
  alone: player.alone,
  repeat: player.repeat,
  clip: player.clip,
  box: particles && {
    playing: particles.box.playing,
    heating: particles.box.heating,
    place: particles.box.place(),
    moment: particles.box.moment(),
    plan: particles.box.plan,
    drawn: particles.drawn,
  },
});
Object.assign(window, { sonifyState: state });

showView();
// Whoever came from Plan to listen has Play at hand: the space bar presses it.
// Only once the browser has followed the address to its view, for that takes the focus away.
addEventListener('load', () => {
  const focus = () => soundsAddress && document.body.dataset.view === 'hear' && document.activeElement === document.body && find('play').focus({ preventScroll: true });
  setTimeout(focus, 50);
});
(window.requestIdleCallback ?? setTimeout)(() => player.mixer.decode());
