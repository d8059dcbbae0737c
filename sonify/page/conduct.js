// The Conduct view: one board for the projector. The moving bar runs along the posts of the beats and never flashes:
// a post changes twice a bar, less than three times a second at any tempo.

import { HAIR_S } from './clock.js';
import { Course } from './course.js';
import { tempoText } from './hear.js';
import { badge, find, findAll, phrase, setRows, setState, setText, span, told } from './screen.js';
/** @import { CueLine, Moment, Now, Playing, Shared, Stage } from './shapes.js' */

const STAY_BEATS = 1;
const MANY = 5;
const SMALLEST = 0.7;
const RESTING = phrase('script-resting-today');
const NARROW = matchMedia('(max-width: 52rem), (max-aspect-ratio: 1)');

export class ConductView {
  /** @param {Shared} shared */
  constructor({ player, piece, clock, data, go, playOrPause }) {
    this.player = player;
    this.piece = piece;
    this.clock = clock;
    this.data = data;
    this.posts = findAll('.post');
    this.still = matchMedia('(prefers-reduced-motion: reduce)');
    /** @type {WakeLockSentinel | null} */
    this.lock = null;
    this.room = ''; // the space and stage that the text was fitted to
    this.size = 1;
    this.announced = -Infinity; // the beat of the moment that was read out last
    /** @type {Promise<void>} */
    this.keeping = Promise.resolve();
    this.course = new Course(find('course'), clock, data, this.curve);
    find('conduct-play').addEventListener('click', playOrPause);
    find('conduct-start').addEventListener('click', () => go.start());
    find('conduct-back').addEventListener('click', () => go.by(-1));
    find('conduct-on').addEventListener('click', () => go.by(1));
    find('conduct-repeat').addEventListener('click', () => {
      player.setRepeat(player.repeat === null ? this.stageIndex : null);
    });
    const speed = find('speed', HTMLInputElement);
    speed.addEventListener('input', () => player.setSpeed(Number(speed.value) / 100));
    const [recording, click] = [find('recording-on', HTMLInputElement), find('click-on', HTMLInputElement)];
    for (const box of [recording, click]) box.addEventListener('change', () => player.setSound(recording.checked, click.checked));
    find('whole-screen').addEventListener('click', () => this.toggleWholeScreen());
    document.addEventListener('fullscreenchange', () => this.showWholeScreen());
    document.addEventListener('visibilitychange', () => this.keepAwake());
    if (!document.documentElement.requestFullscreen) find('whole-screen').hidden = true;
    // A mouse leaves the focus on the board, so that the space bar then plays and pauses.
    find('conduct').addEventListener('click', (event) => {
      if (event.detail > 0 && event.target instanceof Element && event.target.closest('button')) find('board').focus({ preventScroll: true });
    });
  }

  // What the beat follows, else what leads.
  get curve() {
    const { curves } = this.data.science;
    return curves.find((curve) => curve.steps.length) ?? curves[0];
  }

  get stageIndex() {
    return this.clock.stageAt(Math.max(this.player.moment().bar, 1));
  }

  // The screen ------------------------------------------------------------------------------------------------------

  async toggleWholeScreen() {
    try {
      if (document.fullscreenElement) await document.exitFullscreen();
      else await document.documentElement.requestFullscreen();
    } catch {
      setText(find('awake'), phrase('script-this-browser-does-not-allow'));
      find('awake').hidden = false;
    }
  }

  showWholeScreen() {
    setText(find('whole-screen'), document.fullscreenElement ? phrase('script-leave-full-screen') : phrase('script-full-screen'));
  }

  // Keeps the screen on while the piece plays; says so where the browser cannot.
  async keepAwake() {
    this.keeping = this.keeping.then(() => this.lockOrRelease());
    await this.keeping;
  }

  async lockOrRelease() {
    const wanted = this.player.playing && document.body.dataset.view === 'conduct' && !document.hidden;
    /** @param {string} words */
    const warn = (words) => {
      setText(find('awake'), words);
      find('awake').hidden = words === '';
    };
    const why = isSecureContext ? phrase('script-this-browser-cannot') : phrase('script-without-an-encrypted-connection-a');
    const cannot = phrase('script-keep-the-screen-on-set', { why });
    if (!navigator.wakeLock) {
      warn(cannot);
      return;
    }
    try {
      if (wanted && (!this.lock || this.lock.released)) this.lock = await navigator.wakeLock.request('screen');
      if (!wanted && this.lock) {
        await this.lock.release();
        this.lock = null;
      }
      warn('');
    } catch {
      warn(cannot);
    }
  }

  // The beat --------------------------------------------------------------------------------------------------------

  /** @param {Now} now @param {boolean} ended */
  showBeat(now, ended) {
    const { clock, player } = this;
    const going = player.playing && !ended;
    const bar = Math.max(now.bar, 1);
    let barWords = phrase('script-bar-of', { bar, 'piece-bars': clock.pieceBars });
    if (now.counting > 0 && going) barWords = phrase('script-count-in-to-bar', { bar });
    setText(find('pulse-bar'), barWords);
    setText(find('pulse-number'), going ? String(now.beat) : ended ? phrase('script-the-end') : phrase('script-ready'));
    setState(find('pulse-number'), 'data-words', String(!going));
    setState(find('pulse-number'), 'data-counting', String(going && now.counting > 0));
    for (const [k, post] of this.posts.entries()) {
      setState(post, 'data-on', String(going && k + 1 === now.beat));
    }
    const along = (now.beat - 1 + (this.still.matches ? 0.5 : now.phase)) / clock.beatsABar;
    find('track').style.setProperty('--along', String(going ? along : 0));
    setText(find('pulse-tempo'), tempoText(clock, player, bar).replace(/[:,] /, '\n'));
  }

  // Who comes next --------------------------------------------------------------------------------------------------

  /** @param {Now} now @param {boolean} ended */
  showComing(now, ended) {
    const moment = this.comingMoment(now);
    if (!moment || ended) {
      setText(find('coming-number'), '');
      setText(find('coming-unit'), ended ? phrase('script-well-played') : phrase('script-nothing-more-play-to-the'));
      setRows(find('coming-lines'), [], () => {});
      for (const name of ['reason', 'gesture', 'entrance']) setText(find(`coming-${name}`), '');
      return;
    }
    const left = Math.ceil(moment.beat - now.beats - 1e-6);
    setText(find('coming-number'), left > 0 ? String(left) : phrase('script-now'));
    setText(find('coming-unit'), left > 0 ? (left === 1 ? phrase('script-beat-to-go') : phrase('script-beats-to-go')) : '');
    const lines = moment.lines.map((line) => ({ ...line, resting: this.resting(line.group) }));
    setRows(find('coming-lines'), lines, (item, line) => {
      if (line.group) item.append(badge(line.group), span('unseen', phrase('script-group', { group: line.group })));
      const words = span('', '');
      words.append(span('strong', line.who), line.resting ? RESTING : '', `: ${line.what}`);
      item.append(words);
    });
    const reason = moment.lines.map((line) => line.reason).find(Boolean);
    setText(find('coming-reason'), reason ? phrase('script-why', { reason }) : '');
    const gesture = moment.lines.map((line) => line.gesture).find(Boolean);
    setText(find('coming-gesture'), gesture ? phrase('script-gesture', { gesture }) : '');
    this.showEntrance(moment, now);
    if (this.player.playing) this.announce(moment, left);
  }

  // The group sits out: the cue stays on the board for whoever takes it up again.
  /** @param {number} group */
  resting(group) {
    return this.player.resting.has(group);
  }

  // Where the next moment brings nobody in, the next group to come in is named as well.
  /** @param {Moment} moment @param {Now} now */
  showEntrance(moment, now) {
    const entrance = moment.lines.some((line) => line.action === 'enter') ? null : this.piece.nextEntrance(now.beats);
    if (!entrance) {
      setText(find('coming-entrance'), '');
      return;
    }
    /** @param {CueLine} line */
    const named = (line) => `${line.who}${this.resting(line.group) ? RESTING : ''}`;
    const who = entrance.lines.filter((line) => line.action === 'enter').map(named).join(', ');
    const left = Math.ceil(entrance.beat - now.beats - 1e-6);
    setText(find('coming-entrance'), phrase('script-next-in-in', { who, phrase: phrase('script-count-beats', { n: left }) }));
  }

  // After a jump, whoever plays in that bar starts there, with whatever else happens on that beat.
  /** @param {Now} now @returns {Moment | null} */
  comingMoment(now) {
    if (!now.restart) return this.piece.nextMoment(now.beats, this.player.playing ? STAY_BEATS : 0);
    const beat = now.beats + now.counting;
    const lines = this.piece
      .playingIn(now.bar)
      .map((row) => ({ group: row.group, who: row.name, action: 'enter', what: row.loud ? phrase('script-start', { loud: row.loud }) : phrase('script-start-2'), gesture: '', reason: '' }));
    return { beat: Math.round(beat * 1e3) / 1e3, lines };
  }

  // One message a moment, a bar ahead, for those who listen to the page instead of looking at it.
  /** @param {Moment} moment @param {number} left */
  announce(moment, left) {
    if (left < 1 || left > this.clock.beatsABar || this.announced === moment.beat) return;
    this.announced = moment.beat;
    const who = moment.lines.map((line) => `${line.group ? phrase('script-group-2', { group: line.group }) : ''}${line.who}${this.resting(line.group) ? RESTING : ''}: ${line.what}`);
    setText(find('said'), phrase('script-in', { phrase: phrase('script-count-beats', { n: left }), who: who.join('; ') }));
  }

  /** @param {Playing[]} rows @param {boolean} counting */
  showPlaying(rows, counting) {
    const many = rows.length > MANY;
    const lines = rows.map(({ loud, group, name }) => ({ loud, who: { group, name, resting: this.resting(group) } }));
    if (many) lines.sort((a, b) => a.loud.localeCompare(b.loud));
    /** @type {{ loud: string, who: { group: number, name: string, resting: boolean }[] }[]} */
    const gathered = [];
    for (const { loud, who } of lines) {
      const last = gathered.at(-1);
      if (many && last?.loud === loud) last.who.push(who);
      else gathered.push({ loud, who: [who] });
    }
    setState(find('playing'), 'data-many', String(many));
    setRows(find('playing'), gathered, (item, { loud, who }) => {
      if (many && loud) item.append(span('loud', `${loud}:`));  // what pupils choose has no loudness yet
      for (const { group, name, resting } of who) {
        const player = span('player', '');
        player.append(badge(group), span('unseen', phrase('script-group', { group })), span('strong', `${name}${resting ? RESTING : ''}`));
        item.append(player);
      }
      if (!many) item.append(span('loud', loud));
    });
    const title = this.player.playing ? phrase('script-playing-now') : phrase('script-playing-in-this-bar');
    const nobody = counting ? phrase('script-count-in-everybody-gets-ready') : phrase('script-nobody-plays-here');
    setText(find('playing-title'), rows.length ? title : nobody);
  }

  // Makes the text smaller where a stage's words would not fit the screen, down to a limit; never larger again within
  // a stage, so that nothing jumps.
  /** @param {Stage} stage */
  fit(stage) {
    const board = find('board');
    const room = `${innerWidth} ${innerHeight} ${stage.name}`;
    if (room !== this.room) {
      this.room = room;
      this.size = 1;
      board.style.setProperty('--fit', '1');
    }
    if (NARROW.matches) return;
    while (this.size > SMALLEST && find('conduct').scrollHeight > innerHeight + 1) {
      this.size -= 0.05;
      board.style.setProperty('--fit', String(this.size));
    }
  }

  // What the beat was set from: the stage's average where its tempo is held, else the value at this moment.
  /** @param {Now} now @param {number} bar */
  reading(now, bar) {
    const { heading, values, steps } = this.curve;
    const step = steps.find((each) => each.bar <= bar && bar < each.bar + each.bars);
    if (step) return phrase('script-this-stage', { words: step.words });
    const all = this.clock.pieceBars * this.clock.beatsABar;
    return `${heading}: ${told(values, now.beats + now.counting, all)}`;
  }

  // All of it -------------------------------------------------------------------------------------------------------

  /** @param {Now} now */
  show(now) {
    const { clock, player } = this;
    const ended = player.playing && now.positionS >= clock.endS - HAIR_S;
    const bar = Math.max(now.bar, 1);
    const stage = clock.stages[clock.stageAt(bar)];
    this.showBeat(now, ended);
    this.showComing(now, ended);
    setText(find('stage-now'), `${stage.letter} ${stage.title}`);
    setText(find('stage-line'), stage.caption);
    setText(find('stage-reading'), this.reading(now, bar));
    this.course.show(now.beats + now.counting, clock.stageAt(bar));
    const rows = ended || now.counting > 0 ? [] : this.piece.playingIn(bar);
    this.showPlaying(rows, !ended && now.counting > 0);
    setState(find('conduct-repeat'), 'aria-pressed', String(player.repeat !== null));
    setText(find('speed-said'), `${Math.round(player.speed * 100)} %`);
    this.fit(stage);
  }
}
