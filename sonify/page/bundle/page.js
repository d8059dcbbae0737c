// Made by tests/javascript/bundle from the modules beside this folder: change those.
(() => {
  // clock.js
  var HAIR_S = 1e-4;
  function lastNotAbove(rows, wanted, valueOf) {
    let low = 0;
    let high = rows.length - 1;
    while (low < high) {
      const middle = low + high + 1 >> 1;
      if (valueOf(rows[middle]) <= wanted) low = middle;
      else high = middle - 1;
    }
    return low;
  }
  function firstFrom(times, positionS) {
    const wanted = positionS - HAIR_S;
    return times.length && times[0] < wanted ? lastNotAbove(times, wanted, (time) => time) + 1 : 0;
  }
  var PieceClock = class {
    /** @param {Timing} timing @param {Stage[]} stages */
    constructor(timing, stages) {
      this.beatsABar = timing.beatsABar;
      this.countInBars = timing.countInBars;
      this.pieceBars = timing.pieceBars;
      this.endS = timing.endS;
      this.tempi = timing.tempi;
      this.stages = stages;
      this.bars = timing.bars.map(([bar, startS, perBeatS]) => ({ bar, startS, perBeatS }));
      this.firstS = this.startOfBar(1);
      this.beatTimes = this.bars.flatMap(
        ({ bar, startS, perBeatS }) => Array.from({ length: this.beatsABar }, (_, k) => ({ bar, first: k === 0, atS: startS + k * perBeatS }))
      );
    }
    /** @param {number} positionS */
    barAt(positionS) {
      return this.bars[lastNotAbove(this.bars, positionS + HAIR_S, (row) => row.startS)];
    }
    /** @param {number} bar */
    startOfBar(bar) {
      const row = this.bars.find((each) => each.bar === bar);
      return row ? row.startS : this.endS;
    }
    // Bar and beat from 1, how far through the beat (0 to 1), and `beats`: how many since the first beat of bar 1.
    /** @param {number} positionS @returns {BeatPlace} */
    at(positionS) {
      const { bar, startS, perBeatS } = this.barAt(positionS);
      const inBar = Math.min(Math.max((positionS - startS + HAIR_S) / perBeatS, 0), this.beatsABar - 1e-9);
      return {
        bar,
        beat: Math.floor(inBar) + 1,
        phase: inBar % 1,
        beats: (bar - 1) * this.beatsABar + inBar,
        perBeatS
      };
    }
    /** @param {number} bar */
    stageAt(bar) {
      return lastNotAbove(this.stages, bar, (stage) => stage.bar);
    }
    /** @param {number} bar */
    tempoAt(bar) {
      return this.tempi[lastNotAbove(this.tempi, bar, (tempo) => tempo.bar)];
    }
  };

  // screen.js
  function find(id, kind) {
    return ofKind(document.getElementById(id), id, kind);
  }
  function findIn(where, selector, kind) {
    return ofKind(where.querySelector(selector), selector, kind);
  }
  function findAll(selector, kind, where = document) {
    return [...where.querySelectorAll(selector)].map((each) => ofKind(each, selector, kind));
  }
  function ofKind(found, name, kind) {
    if (kind && !(found instanceof kind)) throw new TypeError(`${name}: ${kind.name}`);
    return found;
  }
  var WORDS = readData("words-data");
  function readData(id) {
    return JSON.parse(find(id).textContent);
  }
  var PLURALS = new Intl.PluralRules(document.documentElement.lang);
  function phrase(id, places = {}) {
    return filled(WORDS[id], places);
  }
  function filled(pieces, places) {
    return pieces.map((piece2) => typeof piece2 === "string" ? piece2 : pieceOf(piece2, places)).join("");
  }
  function pieceOf({ place, variants, other = "" }, places) {
    const value = places[place];
    if (!variants) return String(value);
    return filled(variants[value] ?? variants[typeof value === "number" ? PLURALS.select(value) : other] ?? variants[other], places);
  }
  function setText(element, text) {
    if (element.textContent !== text) element.textContent = text;
  }
  function setState(element, name, value) {
    if (element.getAttribute(name) !== value) element.setAttribute(name, value);
  }
  function setRows(list, rows, fill) {
    const mark = JSON.stringify(rows);
    if (list.dataset.mark === mark) return;
    list.dataset.mark = mark;
    list.replaceChildren(
      ...rows.map((row) => {
        const item = document.createElement("li");
        fill(item, row);
        return item;
      })
    );
  }
  function span(className, text) {
    const element = document.createElement("span");
    element.className = className;
    element.textContent = text;
    return element;
  }
  function badge(group) {
    const SVG2 = "http://www.w3.org/2000/svg";
    const add = (parent, tag, attributes) => {
      const element = document.createElementNS(SVG2, tag);
      for (const [name, value] of Object.entries(attributes)) element.setAttribute(name, String(value));
      parent.append(element);
      return element;
    };
    const svg = document.createElementNS(SVG2, "svg");
    for (const [name, value] of [["class", "badge"], ["viewBox", "0 0 64 64"], ["aria-hidden", "true"]]) {
      svg.setAttribute(name, value);
    }
    add(svg, "circle", { cx: 32, cy: 32, r: 30, fill: `url(#hatch-${group})` });
    add(svg, "circle", { class: "plate", cx: 32, cy: 32, r: 17 });
    add(svg, "text", { x: 32, y: 32, "text-anchor": "middle", "dominant-baseline": "central" }).textContent = String(group);
    return svg;
  }
  function told(texts, beat, beats) {
    const step = Math.ceil(beats / texts.length);
    return texts[Math.min(Math.max(Math.floor(beat / step), 0), texts.length - 1)];
  }
  function heightAt(points, share) {
    const place = share * (points.length - 1);
    const k = Math.min(Math.floor(place), points.length - 2);
    return points[k] + (points[k + 1] - points[k]) * (place - k);
  }
  var Piece = class {
    /** @param {LessonData} data @param {PieceClock} clock */
    constructor(data2, clock2) {
      this.parts = data2.parts;
      this.groups = data2.groups;
      this.moments = data2.moments;
      this.clock = clock2;
    }
    // The parts that play in a bar: who, on what, what is heard and how loud.
    /** @param {number} bar @returns {Playing[]} */
    playingIn(bar) {
      return this.parts.flatMap((part) => {
        const stretch = part.spans.findLast(([first, after]) => first <= bar && bar < after);
        if (!stretch) return [];
        const mark = part.dynamics.findLast(([from]) => from <= bar);
        const { name, group, instruments } = part;
        return [{ name, group, instruments, heard: stretch[2], loud: mark?.[2] ?? "" }];
      });
    }
    // The moment at hand or next to come; one stays for `stayBeats` after it has come.
    /** @param {number} beats */
    nextMoment(beats, stayBeats = 0) {
      return this.moments.find((moment) => moment.beat > beats - stayBeats - 1e-6) ?? null;
    }
    /** @param {number} beats */
    nextEntrance(beats) {
      return this.moments.find((each) => each.beat > beats && each.lines.some((line) => line.action === "enter")) ?? null;
    }
  };

  // course.js
  var Course = class {
    /** @param {HTMLElement} root @param {PieceClock} clock @param {LessonData} data @param {Curve} curve */
    constructor(root, clock2, data2, curve) {
      this.root = root;
      this.clock = clock2;
      this.points = curve.points;
      this.height = data2.science.height;
      root.hidden = !data2.science.measured;
      const across = 1e3 / (curve.points.length - 1);
      const line = curve.points.map((point, k) => `${(k * across).toFixed(1)} ${this.height - point}`).join("L");
      findIn(root, "path").setAttribute("d", `M${line}`);
      const columns = data2.stages.map((stage) => {
        const column = span("course-stage", stage.letter);
        column.style.setProperty("flex-grow", String(stage.bars));
        return column;
      });
      findIn(root, ".course-stages").replaceChildren(...columns);
      this.columns = findAll(".course-stage", HTMLElement, root);
    }
    /** @param {number} beats @param {number} stage */
    show(beats, stage) {
      if (this.root.hidden) return;
      const share = Math.min(Math.max(beats / (this.clock.pieceBars * this.clock.beatsABar), 0), 1);
      this.root.style.setProperty("--at", String(share));
      this.root.style.setProperty("--level", String(heightAt(this.points, share) / this.height));
      for (const [k, column] of this.columns.entries()) setState(column, "data-on", String(k === stage));
    }
  };

  // hear.js
  var SVG = "http://www.w3.org/2000/svg";
  var drawnPath = (d) => {
    const path = document.createElementNS(SVG, "path");
    path.setAttribute("d", d);
    return path;
  };
  var HearView = class {
    /** @param {Shared} shared */
    constructor({ player: player2, piece: piece2, clock: clock2, data: data2, go: go2, playOrPause: playOrPause2 }) {
      this.player = player2;
      this.piece = piece2;
      this.clock = clock2;
      this.data = data2;
      this.curve = data2.science.curves[0];
      this.hidesValue = false;
      this.columns = [];
      this.stageButtons = findAll(".stage", HTMLButtonElement);
      this.places = findAll(".place", HTMLElement);
      this.drawColumns();
      this.drawCurve();
      this.seatGroups();
      find("play").addEventListener("click", playOrPause2);
      find("to-start").addEventListener("click", () => go2.start());
      find("back").addEventListener("click", () => go2.by(-1));
      find("on").addEventListener("click", () => go2.by(1));
      find("why-link").addEventListener("click", (event) => {
        event.preventDefault();
        document.querySelector(".why .key")?.setAttribute("open", "");
        find("why-title").scrollIntoView();
        find("why-title").focus({ preventScroll: true });
      });
      const choice = find("curve-choice", HTMLSelectElement);
      choice.addEventListener("change", () => {
        this.curve = data2.science.curves[Number(choice.value)];
        this.drawCurve();
        this.show(player2.moment());
      });
      const along = find("along", HTMLInputElement);
      along.addEventListener("input", () => {
        this.move(Number(along.value));
      });
      for (const button of this.stageButtons) {
        button.addEventListener("click", () => go2.to(Number(button.dataset.stage)));
      }
      find("chart-field").addEventListener("click", (event) => this.clickChart(event));
    }
    // The chart -------------------------------------------------------------------------------------------------------
    drawColumns() {
      const columns = this.data.stages.map((stage) => {
        const column = document.createElement("div");
        column.className = "column";
        column.append(span("letter", stage.letter));
        column.style.setProperty("flex-grow", String(stage.bars));
        return column;
      });
      find("chart-columns").replaceChildren(...columns);
      this.columns = columns;
    }
    drawCurve() {
      const { points, kind, paths, names, low, high, steps, described } = this.curve;
      const { height } = this.data.science;
      const places = points.map((point, k) => `${(1e3 * k / (points.length - 1)).toFixed(1)} ${height - point}`);
      const [first, ...others] = paths.length ? paths : [`M${places.join("L")}`];
      find("curve-line").setAttribute("d", first);
      find("chart-field").dataset.kind = kind;
      find("curve-others").replaceChildren(...others.map((d) => drawnPath(d)));
      const named = names.map(([name, level]) => {
        const label = span("curve-name", name);
        label.style.setProperty("--level", String(level));
        return label;
      });
      find("curve-names").replaceChildren(...named);
      const across = (bar) => (1e3 * (bar - 1) / this.clock.pieceBars).toFixed(1);
      const flat = steps.map(({ bar, bars, level }) => `M${across(bar)} ${height - level}H${across(bar + bars)}`);
      find("curve-steps").setAttribute("d", flat.join(""));
      find("legend").hidden = !steps.length;
      for (const [id, texts] of Object.entries({ "curve-high": high, "curve-low": low })) {
        find(id).replaceChildren(...texts.filter(Boolean).map((text) => span("", text)));
      }
      setText(find("curve-words"), described);
    }
    /** @param {MouseEvent} event */
    clickChart(event) {
      const box = find("chart-field").getBoundingClientRect();
      const share = Math.min(Math.max((event.clientX - box.left) / box.width, 0), 0.9999);
      this.move(Math.floor(share * this.clock.pieceBars) + 1);
    }
    /** @param {number} bar */
    move(bar) {
      this.player.stopClip();
      this.player.goTo(this.clock.startOfBar(bar), false);
    }
    /** @param {number} beats */
    showChart(beats) {
      const all = this.clock.pieceBars * this.clock.beatsABar;
      const at = Math.min(Math.max(beats, 0), all);
      const { points, values } = this.curve;
      const level = heightAt(points, at / all);
      const field = find("chart-field").style;
      field.setProperty("--at", String(at / all));
      field.setProperty("--level", String(level / this.data.science.height));
      setText(find("curve-value"), this.hidesValue ? phrase("script-seek-hidden") : told(values, at, all));
      const whose = this.curve.whose && `: ${this.curve.whose}`;
      const time = told(this.data.science.times, at, all);
      setText(find("curve-time"), time ? phrase("script-at", { told: time, whose }) : "");
    }
    // What has just happened in the science: said for two bars.
    /** @param {number} beats */
    happening(beats) {
      const lately = (event) => event.beat <= beats && beats < event.beat + 2 * this.clock.beatsABar;
      return this.data.science.events.findLast(lately)?.text ?? "";
    }
    // The groups ------------------------------------------------------------------------------------------------------
    seatGroups() {
      for (const [k, place] of this.places.entries()) {
        place.style.setProperty("--across", String(this.data.groups[k].across));
        place.style.setProperty("--up", String(this.data.groups[k].up));
        findIn(place, "button").addEventListener("click", () => this.tapGroup(this.data.groups[k].number));
      }
      find("all-play").addEventListener("click", () => this.player.setGroups(/* @__PURE__ */ new Set(), null));
      for (const choice of findAll('input[name="tap"]')) {
        choice.addEventListener("change", () => this.show(this.player.moment()));
      }
    }
    get tapMeans() {
      return findIn(document, 'input[name="tap"]:checked', HTMLInputElement).value;
    }
    /** @param {number} number */
    tapGroup(number) {
      const { resting, alone } = this.player;
      if (this.tapMeans === "alone") {
        this.player.setGroups(resting, alone === number ? null : number);
        return;
      }
      const next = new Set(resting);
      if (!next.delete(number)) next.add(number);
      this.player.setGroups(next, null);
    }
    /** @param {number} number @param {Set<number>} playingGroups */
    groupState(number, playingGroups) {
      if (this.player.alone === number) return "alone";
      if (!this.player.isHeard(number)) return this.player.alone === null ? "resting" : "silent";
      return playingGroups.has(number) ? "playing" : "waiting";
    }
    /** @param {Set<number>} playingGroups */
    showGroups(playingGroups) {
      const pressed = this.tapMeans === "alone" ? ["alone"] : ["resting"];
      for (const [k, place] of this.places.entries()) {
        const { number } = this.data.groups[k];
        const state2 = this.groupState(number, playingGroups);
        const lit = playingGroups.has(number) && this.player.isHeard(number);
        const button = findIn(place, "button");
        setState(place, "data-lit", String(lit));
        setState(place, "data-state", state2);
        setState(button, "aria-pressed", String(pressed.includes(state2)));
        setText(findIn(button, ".group-state"), phrase("script-group-state", { state: state2 === "alone" && lit ? "alone-playing" : state2 }));
      }
    }
    // All of it -------------------------------------------------------------------------------------------------------
    /** @param {Now} now */
    show(now) {
      const { clock: clock2, player: player2 } = this;
      const counting = now.counting > 0;
      const bar = Math.max(now.bar, 1);
      const stageIndex = clock2.stageAt(bar);
      const stage = clock2.stages[stageIndex];
      setText(find("where-bar"), counting ? phrase("script-count-in") : phrase("script-bar-of", { bar, "piece-bars": clock2.pieceBars }));
      setText(find("where-stage"), `${stage.letter} ${stage.title}`);
      setText(find("where-tempo"), tempoText(clock2, player2, bar));
      const along = find("along", HTMLInputElement);
      if (Number(along.value) !== bar) along.value = String(bar);
      setState(along, "aria-valuetext", phrase("script-bar-of-2", { bar, "piece-bars": clock2.pieceBars, title: stage.title }));
      this.showChart(counting ? (bar - 1) * clock2.beatsABar : now.beats);
      for (const [k, button] of this.stageButtons.entries()) {
        if (k === stageIndex) setState(button, "aria-current", "step");
        else button.removeAttribute("aria-current");
        this.columns[k].classList.toggle("current", k === stageIndex);
      }
      const rows = player2.playing && !counting && now.positionS < clock2.endS ? this.piece.playingIn(bar) : [];
      this.showGroups(new Set(rows.map((row) => row.group)));
      setText(find("hear-caption"), [stage.caption, this.happening(now.beats)].filter(Boolean).join(" "));
      this.showSounding(rows.filter((row) => player2.recording && player2.isHeard(row.group)), counting);
    }
    /** @param {Playing[]} rows @param {boolean} counting */
    showSounding(rows, counting) {
      const lines = rows.map(({ group, name, heard, loud }) => ({ group, name, words: [heard, loud].filter(Boolean).join(", ") }));
      let quiet2 = phrase("script-press-play-to-listen");
      if (counting) quiet2 = phrase("script-the-count-in");
      else if (!this.player.recording) quiet2 = phrase("script-the-recording-is-switched-off");
      else if (this.player.playing) quiet2 = phrase("script-nobody-plays-here-2");
      setRows(find("sounding"), lines.length ? lines : [{ group: 0, name: "", words: quiet2 }], (item, { group, name, words }) => {
        if (!group) {
          item.textContent = words;
          return;
        }
        const line = span("", "");
        line.append(span("unseen", phrase("script-group", { group })), span("strong", name), `: ${words}`);
        item.append(badge(group), line);
      });
    }
  };
  function tempoText(clock2, player2, bar) {
    const { bpm, words } = clock2.tempoAt(bar);
    if (player2.speed === 1) return phrase("script-beats-a-minute", { it: Math.round(bpm), words });
    return phrase("script-beats-a-minute-of-full", { it: Math.round(bpm * player2.speed), "it-2": Math.round(player2.speed * 100) });
  }

  // conduct.js
  var STAY_BEATS = 1;
  var MANY = 5;
  var SMALLEST = 0.7;
  var RESTING = phrase("script-resting-today");
  var NARROW = matchMedia("(max-width: 52rem), (max-aspect-ratio: 1)");
  var ConductView = class {
    /** @param {Shared} shared */
    constructor({ player: player2, piece: piece2, clock: clock2, data: data2, go: go2, playOrPause: playOrPause2 }) {
      this.player = player2;
      this.piece = piece2;
      this.clock = clock2;
      this.data = data2;
      this.posts = findAll(".post");
      this.still = matchMedia("(prefers-reduced-motion: reduce)");
      this.lock = null;
      this.room = "";
      this.size = 1;
      this.announced = -Infinity;
      this.keeping = Promise.resolve();
      this.course = new Course(find("course"), clock2, data2, this.curve);
      find("conduct-play").addEventListener("click", playOrPause2);
      find("conduct-start").addEventListener("click", () => go2.start());
      find("conduct-back").addEventListener("click", () => go2.by(-1));
      find("conduct-on").addEventListener("click", () => go2.by(1));
      find("conduct-repeat").addEventListener("click", () => {
        player2.setRepeat(player2.repeat === null ? this.stageIndex : null);
      });
      const speed = find("speed", HTMLInputElement);
      speed.addEventListener("input", () => player2.setSpeed(Number(speed.value) / 100));
      const [recording, click] = [find("recording-on", HTMLInputElement), find("click-on", HTMLInputElement)];
      for (const box of [recording, click]) box.addEventListener("change", () => player2.setSound(recording.checked, click.checked));
      find("whole-screen").addEventListener("click", () => this.toggleWholeScreen());
      document.addEventListener("fullscreenchange", () => this.showWholeScreen());
      document.addEventListener("visibilitychange", () => this.keepAwake());
      if (!document.documentElement.requestFullscreen) find("whole-screen").hidden = true;
      find("conduct").addEventListener("click", (event) => {
        if (event.detail > 0 && event.target instanceof Element && event.target.closest("button")) find("board").focus({ preventScroll: true });
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
        setText(find("awake"), phrase("script-this-browser-does-not-allow"));
        find("awake").hidden = false;
      }
    }
    showWholeScreen() {
      setText(find("whole-screen"), document.fullscreenElement ? phrase("script-leave-full-screen") : phrase("script-full-screen"));
    }
    // Keeps the screen on while the piece plays; says so where the browser cannot.
    async keepAwake() {
      this.keeping = this.keeping.then(() => this.lockOrRelease());
      await this.keeping;
    }
    async lockOrRelease() {
      const wanted = this.player.playing && document.body.dataset.view === "conduct" && !document.hidden;
      const warn = (words) => {
        setText(find("awake"), words);
        find("awake").hidden = words === "";
      };
      const why = isSecureContext ? phrase("script-this-browser-cannot") : phrase("script-without-an-encrypted-connection-a");
      const cannot = phrase("script-keep-the-screen-on-set", { why });
      if (!navigator.wakeLock) {
        warn(cannot);
        return;
      }
      try {
        if (wanted && (!this.lock || this.lock.released)) this.lock = await navigator.wakeLock.request("screen");
        if (!wanted && this.lock) {
          await this.lock.release();
          this.lock = null;
        }
        warn("");
      } catch {
        warn(cannot);
      }
    }
    // The beat --------------------------------------------------------------------------------------------------------
    /** @param {Now} now @param {boolean} ended */
    showBeat(now, ended) {
      const { clock: clock2, player: player2 } = this;
      const going = player2.playing && !ended;
      const bar = Math.max(now.bar, 1);
      let barWords = phrase("script-bar-of", { bar, "piece-bars": clock2.pieceBars });
      if (now.counting > 0 && going) barWords = phrase("script-count-in-to-bar", { bar });
      setText(find("pulse-bar"), barWords);
      setText(find("pulse-number"), going ? String(now.beat) : ended ? phrase("script-the-end") : phrase("script-ready"));
      setState(find("pulse-number"), "data-words", String(!going));
      setState(find("pulse-number"), "data-counting", String(going && now.counting > 0));
      for (const [k, post] of this.posts.entries()) {
        setState(post, "data-on", String(going && k + 1 === now.beat));
      }
      const along = (now.beat - 1 + (this.still.matches ? 0.5 : now.phase)) / clock2.beatsABar;
      find("track").style.setProperty("--along", String(going ? along : 0));
      setText(find("pulse-tempo"), tempoText(clock2, player2, bar).replace(/[:,] /, "\n"));
    }
    // Who comes next --------------------------------------------------------------------------------------------------
    /** @param {Now} now @param {boolean} ended */
    showComing(now, ended) {
      const moment = this.comingMoment(now);
      if (!moment || ended) {
        setText(find("coming-number"), "");
        setText(find("coming-unit"), ended ? phrase("script-well-played") : phrase("script-nothing-more-play-to-the"));
        setRows(find("coming-lines"), [], () => {
        });
        for (const name of ["reason", "gesture", "entrance"]) setText(find(`coming-${name}`), "");
        return;
      }
      const left = Math.ceil(moment.beat - now.beats - 1e-6);
      setText(find("coming-number"), left > 0 ? String(left) : phrase("script-now"));
      setText(find("coming-unit"), left > 0 ? left === 1 ? phrase("script-beat-to-go") : phrase("script-beats-to-go") : "");
      const lines = moment.lines.map((line) => ({ ...line, resting: this.resting(line.group) }));
      setRows(find("coming-lines"), lines, (item, line) => {
        if (line.group) item.append(badge(line.group), span("unseen", phrase("script-group", { group: line.group })));
        const words = span("", "");
        words.append(span("strong", line.who), line.resting ? RESTING : "", `: ${line.what}`);
        item.append(words);
      });
      const reason = moment.lines.map((line) => line.reason).find(Boolean);
      setText(find("coming-reason"), reason ? phrase("script-why", { reason }) : "");
      const gesture = moment.lines.map((line) => line.gesture).find(Boolean);
      setText(find("coming-gesture"), gesture ? phrase("script-gesture", { gesture }) : "");
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
      const entrance = moment.lines.some((line) => line.action === "enter") ? null : this.piece.nextEntrance(now.beats);
      if (!entrance) {
        setText(find("coming-entrance"), "");
        return;
      }
      const named = (line) => `${line.who}${this.resting(line.group) ? RESTING : ""}`;
      const who = entrance.lines.filter((line) => line.action === "enter").map(named).join(", ");
      const left = Math.ceil(entrance.beat - now.beats - 1e-6);
      setText(find("coming-entrance"), phrase("script-next-in-in", { who, phrase: phrase("script-count-beats", { n: left }) }));
    }
    // After a jump, whoever plays in that bar starts there, with whatever else happens on that beat.
    /** @param {Now} now @returns {Moment | null} */
    comingMoment(now) {
      if (!now.restart) return this.piece.nextMoment(now.beats, this.player.playing ? STAY_BEATS : 0);
      const beat = now.beats + now.counting;
      const lines = this.piece.playingIn(now.bar).map((row) => ({ group: row.group, who: row.name, action: "enter", what: row.loud ? phrase("script-start", { loud: row.loud }) : phrase("script-start-2"), gesture: "", reason: "" }));
      return { beat: Math.round(beat * 1e3) / 1e3, lines };
    }
    // One message a moment, a bar ahead, for those who listen to the page instead of looking at it.
    /** @param {Moment} moment @param {number} left */
    announce(moment, left) {
      if (left < 1 || left > this.clock.beatsABar || this.announced === moment.beat) return;
      this.announced = moment.beat;
      const who = moment.lines.map((line) => `${line.group ? phrase("script-group-2", { group: line.group }) : ""}${line.who}${this.resting(line.group) ? RESTING : ""}: ${line.what}`);
      setText(find("said"), phrase("script-in", { phrase: phrase("script-count-beats", { n: left }), who: who.join("; ") }));
    }
    /** @param {Playing[]} rows @param {boolean} counting */
    showPlaying(rows, counting) {
      const many = rows.length > MANY;
      const lines = rows.map(({ loud, group, name }) => ({ loud, who: { group, name, resting: this.resting(group) } }));
      if (many) lines.sort((a, b) => a.loud.localeCompare(b.loud));
      const gathered = [];
      for (const { loud, who } of lines) {
        const last = gathered.at(-1);
        if (many && last?.loud === loud) last.who.push(who);
        else gathered.push({ loud, who: [who] });
      }
      setState(find("playing"), "data-many", String(many));
      setRows(find("playing"), gathered, (item, { loud, who }) => {
        if (many && loud) item.append(span("loud", `${loud}:`));
        for (const { group, name, resting } of who) {
          const player2 = span("player", "");
          player2.append(badge(group), span("unseen", phrase("script-group", { group })), span("strong", `${name}${resting ? RESTING : ""}`));
          item.append(player2);
        }
        if (!many) item.append(span("loud", loud));
      });
      const title = this.player.playing ? phrase("script-playing-now") : phrase("script-playing-in-this-bar");
      const nobody = counting ? phrase("script-count-in-everybody-gets-ready") : phrase("script-nobody-plays-here");
      setText(find("playing-title"), rows.length ? title : nobody);
    }
    // Makes the text smaller where a stage's words would not fit the screen, down to a limit; never larger again within
    // a stage, so that nothing jumps.
    /** @param {Stage} stage */
    fit(stage) {
      const board = find("board");
      const room = `${innerWidth} ${innerHeight} ${stage.name}`;
      if (room !== this.room) {
        this.room = room;
        this.size = 1;
        board.style.setProperty("--fit", "1");
      }
      if (NARROW.matches) return;
      while (this.size > SMALLEST && find("conduct").scrollHeight > innerHeight + 1) {
        this.size -= 0.05;
        board.style.setProperty("--fit", String(this.size));
      }
    }
    // What the beat was set from: the stage's average where its tempo is held, else the value at this moment.
    /** @param {Now} now @param {number} bar */
    reading(now, bar) {
      const { heading, values, steps } = this.curve;
      const step = steps.find((each) => each.bar <= bar && bar < each.bar + each.bars);
      if (step) return phrase("script-this-stage", { words: step.words });
      const all = this.clock.pieceBars * this.clock.beatsABar;
      return `${heading}: ${told(values, now.beats + now.counting, all)}`;
    }
    // All of it -------------------------------------------------------------------------------------------------------
    /** @param {Now} now */
    show(now) {
      const { clock: clock2, player: player2 } = this;
      const ended = player2.playing && now.positionS >= clock2.endS - HAIR_S;
      const bar = Math.max(now.bar, 1);
      const stage = clock2.stages[clock2.stageAt(bar)];
      this.showBeat(now, ended);
      this.showComing(now, ended);
      setText(find("stage-now"), `${stage.letter} ${stage.title}`);
      setText(find("stage-line"), stage.caption);
      setText(find("stage-reading"), this.reading(now, bar));
      this.course.show(now.beats + now.counting, clock2.stageAt(bar));
      const rows = ended || now.counting > 0 ? [] : this.piece.playingIn(bar);
      this.showPlaying(rows, !ended && now.counting > 0);
      setState(find("conduct-repeat"), "aria-pressed", String(player2.repeat !== null));
      setText(find("speed-said"), `${Math.round(player2.speed * 100)} %`);
      this.fit(stage);
    }
  };

  // film.js
  var GRID = 65535;
  function bytesOf(base64) {
    return Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  }
  function numbersOf(base64, size) {
    const view = new DataView(bytesOf(base64).buffer);
    const read = size === 2 ? (at) => view.getUint16(at, true) : (at) => view.getUint32(at, true);
    return Array.from({ length: view.byteLength / size }, (_, k) => read(k * size));
  }
  var Film = class {
    /** @param {FilmData} data */
    constructor(data2) {
      this.particles = data2.particles;
      this.frames = data2.frames;
      this.framesASecond = data2.framesASecond;
      this.heldFrames = data2.heldFrames;
      this.radius = data2.radius;
      this.scale = data2.scale;
      this.ringed = data2.ringed;
      this.height = data2.height;
      this.levels = data2.levels;
      this.temperatures = data2.temperatures;
      this.speeds = data2.speeds;
      this.realSpeeds = data2.realSpeeds;
      this.beats = data2.beats;
      this.knocksASecond = data2.knocksASecond;
      this.stages = data2.stages;
      this.packed = { first: data2.first, moves: data2.moves };
      this.last = data2.frames - 1;
      const { step, one, other, hard, stepsAFrame } = data2.knocks;
      this.knockFrames = numbersOf(step, 4).map((steps) => steps / stepsAFrame);
      this.knockOne = numbersOf(one, 2);
      this.knockOther = numbersOf(other, 2);
      this.knockHard = Array.from(bytesOf(hard), (byte) => byte / 255);
    }
    // Shares of the width, frame after frame, each particle's across and up: made when first asked for.
    get places() {
      if (!this.decoded) {
        const first = numbersOf(this.packed.first, 2);
        const moves = new Int8Array(bytesOf(this.packed.moves).buffer);
        const size = first.length;
        const at = new Float64Array(first);
        this.decoded = new Float32Array(size * this.frames);
        for (let frame2 = 0; frame2 < this.frames; frame2 += 1) {
          for (let k = 0; k < size; k += 1) {
            if (frame2 > 0) at[k] += this.scale * moves[(frame2 - 1) * size + k];
            this.decoded[frame2 * size + k] = at[k] / GRID;
          }
        }
        this.packed = { first: "", moves: "" };
      }
      return this.decoded;
    }
    // Place `k` (twice the particle's number, and one more for how far up) at a moment: Catmull and Rom's curve.
    /** @param {number} k @param {number} moment */
    place(k, moment) {
      const { places, last } = this;
      const size = 2 * this.particles;
      const frame2 = Math.min(Math.floor(moment), last - 1);
      const t = moment - frame2;
      const at = (each) => places[Math.min(Math.max(each, 0), last) * size + k];
      const [a, b, c, d] = [at(frame2 - 1), at(frame2), at(frame2 + 1), at(frame2 + 2)];
      return b + 0.5 * t * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * (b - c) + d - a)));
    }
    /** @param {number} moment */
    stageAt(moment) {
      return this.stages[lastNotAbove(this.stages, moment, (stage) => stage.from)];
    }
  };

  // listening.js
  var ListeningView = class {
    /** @param {Shared} shared */
    constructor({ player: player2, clock: clock2, data: data2 }) {
      this.player = player2;
      this.clock = clock2;
      this.items = data2.listening;
      this.questions = findAll(".question", HTMLElement);
      this.now = 0;
      find("question-back").addEventListener("click", () => this.go(this.now - 1));
      find("question-on").addEventListener("click", () => this.go(this.now + 1));
      for (const [k, question] of this.questions.entries()) {
        for (const button of findAll(".clip", HTMLButtonElement, question)) {
          button.addEventListener("click", () => this.playOrStop(k, Number(button.dataset.clip)));
        }
        findIn(question, ".show-answer").addEventListener("click", () => this.turnAnswer(k));
      }
      player2.addEventListener("change", () => this.show());
    }
    /** @param {number} to */
    go(to) {
      this.player.stopClip();
      this.now = Math.min(Math.max(to, 0), this.items.length - 1);
      this.show();
      findIn(this.questions[this.now], "h3", HTMLElement).focus({ preventScroll: true });
    }
    playOrStop(question = this.now, clip = 0) {
      const { player: player2, clock: clock2 } = this;
      const same = player2.clip?.question === question && player2.clip.number === clip;
      player2.stopClip();
      if (same) return;
      const item = this.items[question];
      const { bar, after } = item.clips[clip];
      const only = this.questions[question].querySelector(".only:checked") !== null;
      player2.playClip({
        question,
        number: clip,
        fromS: clock2.startOfBar(bar),
        toS: clock2.startOfBar(after),
        alone: only ? item.group : null
      });
    }
    /** @param {number} k */
    turnAnswer(k) {
      const question = this.questions[k];
      const button = findIn(question, ".show-answer");
      const shown2 = button.getAttribute("aria-expanded") === "true";
      setState(button, "aria-expanded", String(!shown2));
      setText(button, shown2 ? phrase("script-show-the-answer") : phrase("script-hide-the-answer"));
      const { choices, answer, why } = this.items[k];
      const told2 = [phrase("script-the-answer", { words: choices[answer].words, why }), this.handsTold(question, answer)];
      setText(findIn(question, ".answer"), shown2 ? "" : told2.filter(Boolean).join(" "));
      for (const [n, card] of findAll(".choice-card", HTMLElement, question).entries()) {
        const verdict = findIn(card, ".verdict", HTMLElement);
        const chosen = findIn(card, "input", HTMLInputElement).checked;
        verdict.hidden = shown2 || !(n === answer || chosen);
        const right = chosen ? phrase("script-well-heard") : phrase("script-this-one");
        setText(verdict, n === answer ? right : phrase("script-not-this-one"));
      }
    }
    // How many of the class raised their hands for the answer, "" where nobody counted.
    /** @param {HTMLElement} question @param {number} answer */
    handsTold(question, answer) {
      const hands = findAll(".hand", HTMLInputElement, question).map((field) => Math.max(Math.round(field.valueAsNumber) || 0, 0));
      const all = hands.reduce((sum, each) => sum + each, 0);
      if (!all) return "";
      const right = hands[answer];
      return phrase("script-hands-told", { right, all, share: right === all ? "all" : 2 * right > all ? "most" : "few" });
    }
    show() {
      const { player: player2 } = this;
      for (const [k, question] of this.questions.entries()) {
        question.hidden = k !== this.now;
        for (const button of findAll(".clip", HTMLButtonElement, question)) {
          const playing = player2.clip?.question === k && player2.clip.number === Number(button.dataset.clip);
          setState(button, "data-playing", String(playing));
          setText(findIn(button, ".words"), playing ? phrase("script-stop-clip", { name: button.dataset.name ?? "" }) : phrase("script-play-clip", { name: button.dataset.name ?? "" }));
        }
      }
      setText(find("question-place"), phrase("script-question-of", { it: this.now + 1, items: this.items.length }));
      find("question-back", HTMLButtonElement).disabled = this.now === 0;
      find("question-on", HTMLButtonElement).disabled = this.now === this.items.length - 1;
    }
  };

  // box.js
  var BOX_AHEAD_S = 0.35;
  var BOX_EVERY_MS = 100;
  var BOX_SOON_S = 0.05;
  var KNOCK_GAIN = 0.3;
  var RINGED_GAIN = 0.7;
  var BEAT_GAIN = 0.8;
  var BEATS_ROUND = 4;
  var BoxPlayer = class extends EventTarget {
    // Made when it first runs.
    /** @type {BoxPlan} */
    plan;
    /** @type {Beat} */
    nextBeat;
    /** @param {Film} film @param {Mixer} mixer */
    constructor(film, mixer) {
      super();
      this.film = film;
      this.mixer = mixer;
      this.playing = false;
      this.heating = false;
      this.rest = 0;
      this.still = 0;
      this.beatOn = true;
      this.knocks = "all";
      this.voices = /* @__PURE__ */ new Set();
      this.beats = [];
      this.ticker = 0;
    }
    // The moments -----------------------------------------------------------------------------------------------------
    // From `atS` on the film runs forward from `from`: while heating to its end, held to and fro around its place.
    /** @param {number} atS */
    newPlan(atS) {
      const { film, rest, still, heating } = this;
      const low = Math.min(Math.max(rest - film.heldFrames / 2, 0), film.last - film.heldFrames);
      const [from, to] = heating ? [0, film.last] : [low, low + film.heldFrames];
      this.plan = { atS, from: still, low: from, high: to, heating, doneS: atS };
    }
    // The moment of the film at a time of the audio clock.
    /** @param {number} timeS */
    momentAt(timeS) {
      const { atS, from, low, high, heating } = this.plan;
      const along = from - low + Math.max(0, timeS - atS) * this.film.framesASecond;
      const length = high - low;
      if (heating) return low + Math.min(along, length);
      const round = along % (2 * length);
      return low + (round > length ? 2 * length - round : round);
    }
    moment() {
      return this.playing ? this.momentAt(this.mixer.heardS()) : this.still;
    }
    // Where on the heating curve it stands.
    place() {
      return this.playing && this.heating ? this.moment() : this.rest;
    }
    beatNow() {
      const heardS = this.mixer.heardS();
      return this.playing ? this.beats.findLast((beat) => beat.atS <= heardS + HAIR_S)?.number ?? 0 : 0;
    }
    // Commands --------------------------------------------------------------------------------------------------------
    play() {
      this.mixer.open();
      if (this.mixer.missing) this.dispatchEvent(new Event("silent"));
      this.playing = true;
      this.beats = [];
      this.nextBeat = { atS: this.mixer.timeS + 2 * BOX_SOON_S, number: 1 };
      this.fromTheColdAgain();
      this.replan();
      clearInterval(this.ticker);
      this.ticker = setInterval(() => this.tick(), BOX_EVERY_MS);
    }
    pause() {
      if (!this.playing) return;
      this.still = this.moment();
      if (this.heating) this.rest = this.still;
      this.playing = false;
      this.heating = false;
      clearInterval(this.ticker);
      this.hush(0);
      this.changed();
    }
    /** @param {number} moment */
    goTo(moment) {
      this.rest = Math.min(Math.max(moment, 0), this.film.last);
      this.still = this.rest;
      this.heating = false;
      this.replan();
    }
    /** @param {boolean} on */
    setHeating(on) {
      if (this.playing && this.heating) this.rest = this.moment();
      this.heating = on;
      this.still = this.rest;
      if (on && !this.playing) this.play();
      else {
        this.fromTheColdAgain();
        this.replan();
      }
    }
    // All heat given: heated once more, it begins again.
    fromTheColdAgain() {
      if (this.heating && this.rest >= this.film.last) this.rest = this.still = 0;
    }
    /** @param {boolean} beatOn @param {string} knocks */
    setSound(beatOn, knocks) {
      this.beatOn = beatOn;
      this.knocks = knocks;
      if (this.playing) this.reschedule(this.mixer.timeS + BOX_SOON_S);
      this.changed();
    }
    changed() {
      this.dispatchEvent(new Event("change"));
    }
    replan() {
      if (this.playing) {
        const atS = this.mixer.timeS + BOX_SOON_S;
        this.newPlan(atS);
        this.reschedule(atS);
      }
      this.changed();
    }
    // What was due later is taken off the clock and put on it anew, the beat without a stumble.
    /** @param {number} atS */
    reschedule(atS) {
      this.hush(atS);
      this.plan.doneS = atS;
      this.nextBeat = this.beats.find((beat) => beat.atS >= atS) ?? this.nextBeat;
      this.beats = this.beats.filter((beat) => beat.atS < atS);
      this.tick();
    }
    // Sounds ----------------------------------------------------------------------------------------------------------
    /** @param {number} fromS */
    hush(fromS) {
      for (const voice of this.voices) if (voice.startS >= fromS) voice.source.stop();
      this.voices = new Set([...this.voices].filter((voice) => voice.startS < fromS));
    }
    /** @param {AudioBuffer | undefined} buffer @param {number} gain @param {number} across @param {number} atS */
    sound(buffer, gain, across, atS) {
      const pan = Math.round(8 * (2 * across - 1)) / 10;
      const voice = this.mixer.stroke(buffer, gain, pan, atS);
      if (voice) this.voices.add(voice);
    }
    tick() {
      if (this.mixer.blocked) {
        this.pause();
        this.dispatchEvent(new Event("blocked"));
        return;
      }
      const untilS = this.mixer.timeS + BOX_AHEAD_S;
      this.scheduleKnocks(this.plan.doneS, untilS);
      this.plan.doneS = Math.max(this.plan.doneS, untilS);
      this.scheduleBeats(untilS);
      const nowS = this.mixer.timeS;
      for (const voice of this.voices) if (voice.startS < nowS - 1) this.voices.delete(voice);
      this.beats = this.beats.filter((beat) => beat.atS > nowS - 3);
      if (this.heating && this.moment() >= this.film.last) this.setHeating(false);
    }
    // Each beat is as long as the mean speed at its own moment has it.
    /** @param {number} untilS */
    scheduleBeats(untilS) {
      while (this.nextBeat.atS < untilS) {
        const { atS, number } = this.nextBeat;
        this.beats.push(this.nextBeat);
        if (this.beatOn) this.sound(this.mixer.taps?.[number === 1 ? 1 : 0], BEAT_GAIN, 0.5, atS);
        const perMinute = this.film.beats[Math.round(this.plan.heating ? this.momentAt(atS) : this.rest)];
        this.nextBeat = { atS: atS + 60 / perMinute, number: number % BEATS_ROUND + 1 };
      }
    }
    // The film's knocks between two times of the clock; where it runs to and fro they come in each direction.
    /** @param {number} fromS @param {number} untilS */
    scheduleKnocks(fromS, untilS) {
      const { film, plan } = this;
      const length = plan.high - plan.low;
      const startS = plan.atS - (plan.from - plan.low) / film.framesASecond;
      const lengthS = length / film.framesASecond;
      for (let timeS = fromS; timeS < untilS - 1e-9; ) {
        const turn = Math.floor((timeS - startS) / lengthS + 1e-9);
        if (plan.heating && turn > 0) return;
        const endS = Math.min(untilS, startS + (turn + 1) * lengthS);
        const back = turn % 2 === 1;
        for (let k = firstFrom(film.knockFrames, plan.low); film.knockFrames[k] <= plan.high; k += 1) {
          const passed = back ? plan.high - film.knockFrames[k] : film.knockFrames[k] - plan.low;
          const atS = startS + turn * lengthS + passed / film.framesASecond;
          if (atS >= timeS && atS < endS) this.knock(k, atS);
        }
        timeS = endS;
      }
    }
    /** @param {number} k @param {number} atS */
    knock(k, atS) {
      const { film, knocks, mixer } = this;
      const ringed = film.knockOne[k] === film.ringed || film.knockOther[k] === film.ringed;
      if (knocks === "none" || knocks === "ringed" && !ringed) return;
      const loud = ringed && knocks === "ringed" ? RINGED_GAIN : KNOCK_GAIN;
      const across = film.place(2 * film.knockOne[k], film.knockFrames[k]);
      this.sound(mixer.clicks?.[ringed ? 1 : 0], loud * (0.2 + 0.8 * film.knockHard[k]), across, atS);
    }
  };

  // particles.js
  var NUDGE = 0.01;
  var PARTICLE_KEYS = ["ArrowLeft", "ArrowRight", "ArrowUp", "ArrowDown", "Home", "End", "PageUp", "PageDown"];
  var ParticlesView = class {
    /** @param {{ film: Film, mixer: Mixer, playing: () => void }} shared */
    constructor({ film, mixer, playing }) {
      this.film = film;
      this.box = new BoxPlayer(film, mixer);
      this.canvas = find("box", HTMLCanvasElement);
      this.pen = /** @type {CanvasRenderingContext2D} */
      this.canvas.getContext("2d");
      this.still = matchMedia("(prefers-reduced-motion: reduce)");
      this.columns = findAll(".heating-column", HTMLElement);
      this.dots = [...find("beat-dots").children];
      this.waiting = 0;
      this.drawn = 0;
      this.seen = NaN;
      this.inks = null;
      this.drawCurve();
      this.listen(playing);
    }
    get visible() {
      return document.body.dataset.view === "particles" && !document.hidden;
    }
    /** @param {() => void} playing */
    listen(playing) {
      const { box } = this;
      find("box-play").addEventListener("click", () => this.playOrPause());
      find("box-heat").addEventListener("click", () => box.setHeating(!box.heating));
      const choose = () => {
        box.setSound(find("box-beat-on", HTMLInputElement).checked, findIn(document, 'input[name="knocks"]:checked', HTMLInputElement).value);
      };
      for (const input of findAll(".box-controls input")) input.addEventListener("change", choose);
      box.addEventListener("change", () => {
        if (box.playing) playing();
        this.show();
        if (box.playing && !this.waiting) this.waiting = requestAnimationFrame(() => this.frame());
      });
      const slider = find("heating");
      slider.addEventListener("pointerdown", (event) => {
        slider.setPointerCapture(event.pointerId);
        this.slide(event);
      });
      slider.addEventListener("pointermove", (event) => {
        if (slider.hasPointerCapture(event.pointerId)) this.slide(event);
      });
      document.addEventListener("visibilitychange", () => {
        if (!this.visible) box.pause();
      });
      for (const query of ["(prefers-color-scheme: dark)", "(forced-colors: active)"]) {
        matchMedia(query).addEventListener("change", () => {
          this.inks = null;
          this.show();
        });
      }
      addEventListener("resize", () => this.show());
    }
    playOrPause() {
      if (this.box.playing) this.box.pause();
      else this.box.play();
    }
    // The heating curve -----------------------------------------------------------------------------------------------
    drawCurve() {
      const { levels, height, last } = this.film;
      const places = levels.map((level, k) => `${(1e3 * k / last).toFixed(1)} ${height - level}`);
      find("heating-line").setAttribute("d", `M${places.join("L")}`);
      for (const column of this.columns) {
        column.style.setProperty("flex-grow", String(Number(column.dataset.to) - Number(column.dataset.from)));
      }
    }
    /** @param {PointerEvent} event */
    slide(event) {
      const { left, width } = find("heating").getBoundingClientRect();
      this.box.goTo(this.film.last * Math.min(Math.max((event.clientX - left) / width, 0), 1));
    }
    // The keys of a slider, where Page Up is more; elsewhere Page Down is the next state, as a presenter's clicker has it.
    /** @param {string} key @param {boolean} onSlider */
    move(key, onSlider) {
      const { film, box } = this;
      const place = box.place();
      const [less, more] = [place - NUDGE * film.last, place + NUDGE * film.last];
      const to = {
        ArrowRight: more,
        ArrowUp: more,
        ArrowLeft: less,
        ArrowDown: less,
        Home: 0,
        End: film.last,
        PageUp: this.otherStage(onSlider ? 1 : -1),
        PageDown: this.otherStage(onSlider ? -1 : 1)
      };
      box.goTo(to[key]);
    }
    // The middle of the state so many further on; of the last its end, where it is most itself.
    /** @param {number} steps */
    otherStage(steps) {
      const { stages } = this.film;
      const now = stages.indexOf(this.film.stageAt(this.box.place()));
      const wanted = Math.min(Math.max(now + steps, 0), stages.length - 1);
      const { from, to } = stages[wanted];
      return wanted === stages.length - 1 ? to : (from + to) / 2;
    }
    // The particles ---------------------------------------------------------------------------------------------------
    // The colours of the style sheet, as the browser has worked them out.
    colours() {
      if (!this.inks) {
        const style = getComputedStyle(this.canvas);
        const probe = document.createElement("span");
        this.canvas.before(probe);
        this.inks = {};
        for (const name of ["disc", "disc-edge", "ringed", "way"]) {
          probe.style.color = style.getPropertyValue(`--${name}`);
          this.inks[name] = getComputedStyle(probe).color;
        }
        probe.remove();
      }
      return this.inks;
    }
    /** @param {number} moment */
    drawParticles(moment) {
      const { canvas, pen, film } = this;
      const side = Math.round(canvas.clientWidth * Math.min(devicePixelRatio, 2));
      if (side === 0) return;
      this.drawn += 1;
      if (canvas.width !== side) canvas.width = canvas.height = side;
      const inks = this.colours();
      const radius = film.radius * side;
      const across = (k) => film.place(2 * k, moment) * side;
      const up = (k) => (1 - film.place(2 * k + 1, moment)) * side;
      pen.clearRect(0, 0, side, side);
      pen.lineWidth = Math.max(1, 0.15 * radius);
      pen.fillStyle = inks.disc;
      pen.strokeStyle = inks["disc-edge"];
      for (let k = 0; k < film.particles; k += 1) {
        pen.beginPath();
        pen.arc(across(k), up(k), radius, 0, 2 * Math.PI);
        pen.fill();
        pen.stroke();
      }
      this.drawWay(side, radius, inks.way);
      const [x, y] = [across(film.ringed), up(film.ringed)];
      pen.beginPath();
      pen.arc(x, y, radius, 0, 2 * Math.PI);
      pen.fillStyle = inks.ringed;
      pen.fill();
      pen.beginPath();
      pen.arc(x, y, 1.75 * radius, 0, 2 * Math.PI);
      pen.strokeStyle = inks.way;
      pen.lineWidth = Math.max(2, 0.4 * radius);
      pen.stroke();
    }
    // The way of the ringed one over the moments around its place; while heating, over those just passed.
    /** @param {number} side @param {number} radius @param {string} ink */
    drawWay(side, radius, ink) {
      const { film, pen, box } = this;
      const place = box.heating ? box.moment() : box.rest;
      const share = box.heating ? 1 : 0.5;
      const low = Math.min(Math.max(place - share * film.heldFrames, 0), film.last - film.heldFrames);
      const high = box.heating ? place : low + film.heldFrames;
      pen.beginPath();
      for (let at = low; at <= high; at += 0.5) {
        pen.lineTo(film.place(2 * film.ringed, at) * side, (1 - film.place(2 * film.ringed + 1, at)) * side);
      }
      pen.strokeStyle = ink;
      pen.lineWidth = Math.max(2, 0.35 * radius);
      pen.stroke();
    }
    // All of it -------------------------------------------------------------------------------------------------------
    frame() {
      this.waiting = 0;
      if (!this.box.playing || !this.visible) return;
      this.show();
      this.waiting = requestAnimationFrame(() => this.frame());
    }
    show() {
      if (document.body.dataset.view !== "particles") return;
      const { box } = this;
      const place = box.place();
      const step = 0.01 * this.film.last;
      const seen = this.still.matches ? Math.round(place / step) * step : box.moment();
      if (seen !== this.seen || !box.playing) this.drawParticles(seen);
      this.seen = seen;
      this.showPlace(place);
      const beat = box.beatNow();
      for (const [k, dot] of this.dots.entries()) setState(dot, "data-on", String(k + 1 === beat));
      setState(find("box-play"), "data-playing", String(box.playing));
      setText(findIn(find("box-play"), ".words"), box.playing ? phrase("script-pause") : phrase("script-play"));
      setState(find("box-heat"), "aria-pressed", String(box.heating));
    }
    /** @param {number} place */
    showPlace(place) {
      const { film } = this;
      const at = Math.round(place);
      const share = place / film.last;
      const stage = film.stageAt(place);
      const [temperature, beat] = [film.temperatures[at], Math.round(film.beats[at])];
      const slider = find("heating");
      slider.style.setProperty("--at", String(share));
      slider.style.setProperty("--level", String(film.levels[at] / film.height));
      setState(slider, "aria-valuenow", String(Math.round(100 * share)));
      const words = phrase("script-of-the-heat-given", { "to-lower-case": stage.word.toLowerCase(), share: share.toFixed(2), temperature });
      setState(slider, "aria-valuetext", words);
      for (const [k, column] of this.columns.entries()) {
        column.classList.toggle("current", film.stages[k] === stage);
      }
      setText(find("box-state"), stage.word);
      setText(find("box-what"), `${stage.what}.`);
      setText(find("box-science"), stage.science);
      setText(find("box-words"), phrase("script-particles-in-a-box", { words, what: stage.what }));
      setText(find("box-temperature"), temperature);
      setText(find("box-speed"), `${film.speeds[at]} m/s`);
      setText(find("box-real"), `${film.realSpeeds[at]} m/s`);
      setText(find("box-knocks"), phrase("script-knocks-now-about-a-second", { phrase: phrase("script-count-taps", { n: film.knocksASecond[at] }) }));
      setText(find("box-beat"), String(beat));
    }
  };

  // samples.js
  function tapBuffer(pitchHz, decayS = 9e-3) {
    const rateHz = 44100;
    const buffer = new AudioBuffer({ length: Math.round(2400 * decayS / 9e-3), sampleRate: rateHz });
    const data2 = buffer.getChannelData(0);
    for (let i = 0; i < data2.length; i += 1) {
      const t = i / rateHz;
      data2[i] = 0.5 * Math.sin(2 * Math.PI * pitchHz * t) * Math.exp(-t / decayS) * Math.min(1, t / 5e-4);
    }
    return buffer;
  }
  function pcmBuffer(base64, rateHz) {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const view = new DataView(bytes.buffer);
    const length = bytes.length >> 1;
    const buffer = new AudioBuffer({ length: Math.max(1, length), sampleRate: rateHz });
    const data2 = buffer.getChannelData(0);
    for (let i = 0; i < length; i += 1) data2[i] = view.getInt16(2 * i, true) / 32768;
    return buffer;
  }
  var REACH = 16;
  function resampled(buffer, rateHz, gain) {
    const ratio = buffer.sampleRate / rateHz;
    const from = buffer.getChannelData(0);
    const out = new Float32Array(Math.ceil(from.length / ratio));
    for (let i = 0; i < out.length; i += 1) {
      const place = i * ratio;
      const middle = Math.floor(place);
      let sum = 0;
      for (let k = Math.max(0, middle - REACH + 1); k <= Math.min(from.length - 1, middle + REACH); k += 1) {
        const x = place - k;
        const wave = x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x);
        sum += from[k] * wave * Math.cos(Math.PI * x / (2 * REACH)) ** 2;
      }
      out[i] = sum * gain;
    }
    return out;
  }
  function lengthened(buffer) {
    const from = Math.floor(0.35 * buffer.length);
    const to = Math.floor(0.8 * buffer.length);
    const fade = Math.floor(0.3 * (to - from));
    const longer = new AudioBuffer({ length: buffer.length, sampleRate: buffer.sampleRate });
    const data2 = longer.getChannelData(0);
    data2.set(buffer.getChannelData(0));
    for (let i = 0; i < fade; i += 1) {
      const share = i / fade;
      const before = data2[from - fade + i];
      data2[to - fade + i] = data2[to - fade + i] * Math.sqrt(1 - share) + before * Math.sqrt(share);
    }
    return { buffer: longer, loop: true, loopStart: from / buffer.sampleRate, loopEnd: to / buffer.sampleRate };
  }
  function levelAt(corners, positionS) {
    if (positionS <= corners[0][0]) return corners[0][1];
    const k = lastNotAbove(corners, positionS, (corner) => corner[0]);
    if (k === corners.length - 1) return corners[k][1];
    const [[fromS, from], [toS, to]] = [corners[k], corners[k + 1]];
    return from + (to - from) * (positionS - fromS) / (toS - fromS);
  }

  // mixer.js
  var LATE_S = 0.1;
  var FADE_S = 0.03;
  var WAIT_MS = 3e3;
  var LIMITER = { threshold: -2, knee: 0, ratio: 20, attack: 2e-3, release: 0.1 };
  var LIMITER_S = 6e-3;
  var LIMITER_MAKE_UP = 1.132;
  var Mixer = class {
    // The graph: made at the first press of Play.
    /** @type {AudioContext} */
    context;
    /** @type {AnalyserNode} */
    meter;
    /** @type {GainNode} */
    recordingBus;
    /** @type {GainNode} */
    countInBus;
    /** @type {GainNode} */
    clickBus;
    /** @type {GainNode} */
    boxBus;
    /** @type {GainNode} */
    bedBus;
    /** @type {GainNode} */
    strokeBus;
    /** @type {GainNode | undefined} */
    roomBus;
    /** @type {GainNode[]} */
    partBuses;
    /** @type {AudioBuffer[] | undefined} */
    taps;
    /** @type {AudioBuffer[] | undefined} */
    clicks;
    /** @param {Sounds} sounds @param {Part[]} parts */
    constructor(sounds2, parts) {
      this.sounds = sounds2;
      this.parts = parts;
      this.buffers = [];
      this.longer = /* @__PURE__ */ new Map();
      this.places = /* @__PURE__ */ new Map();
      this.voices = /* @__PURE__ */ new Set();
      this.askedMs = 0;
    }
    get missing() {
      return typeof AudioContext === "undefined";
    }
    // Whether the browser lets nothing sound though it was asked a while ago.
    get blocked() {
      return Boolean(this.context) && this.context.state !== "running" && performance.now() > this.askedMs + WAIT_MS;
    }
    get timeS() {
      return this.context ? this.context.currentTime : performance.now() / 1e3;
    }
    get latencyS() {
      return this.context ? (this.context.baseLatency || 0) + (this.context.outputLatency || 0) + LIMITER_S : 0;
    }
    // The moment of the audio clock that leaves the loudspeaker now. `currentTime` moves in steps of a whole audio
    // block; the output timestamp runs smoothly, so it is used wherever it agrees with clock and latency.
    heardS() {
      const plain = this.timeS - this.latencyS;
      const stamp = this.context?.getOutputTimestamp?.();
      if (!stamp?.performanceTime || stamp.contextTime === void 0) return plain;
      const smooth = stamp.contextTime + (performance.now() - stamp.performanceTime) / 1e3 - LIMITER_S;
      return Math.abs(smooth - plain) < 0.05 ? smooth : plain;
    }
    // Makes the graph at the first press of Play (browsers allow sound only then), and wakes it at every other.
    open() {
      this.askedMs = performance.now();
      if (this.missing) return;
      if (!this.context) this.build();
      this.context.resume();
    }
    build() {
      this.decode();
      this.context = new AudioContext({ latencyHint: "balanced" });
      this.meter = new AnalyserNode(this.context, { fftSize: 2048 });
      this.meter.connect(this.context.destination);
      const limiter = new DynamicsCompressorNode(this.context, LIMITER);
      limiter.connect(this.bus(this.meter, 1 / LIMITER_MAKE_UP));
      this.recordingBus = this.bus(limiter);
      this.countInBus = this.bus(limiter);
      this.clickBus = this.bus(limiter);
      this.boxBus = this.bus(limiter);
      this.bedBus = this.bus(this.recordingBus);
      this.strokeBus = this.bus(this.recordingBus);
      this.partBuses = this.parts.map((part) => this.bus(part.group ? this.strokeBus : this.countInBus));
      this.furnish();
      this.taps = [tapBuffer(1047), tapBuffer(1568)];
      this.clicks = [tapBuffer(2349, 4e-3), tapBuffer(1760, 6e-3)];
    }
    /** @param {AudioNode} into */
    bus(into, gain = 1) {
      const node = new GainNode(this.context, { gain });
      node.connect(into);
      return node;
    }
    // The room's answer to all groups together. A response at a higher rate has more samples, so each is less.
    furnish() {
      if (!this.sounds.room) return;
      const { rateHz, ears, gain } = this.sounds.room;
      const { sampleRate } = this.context;
      const answers = ears.map((pcm) => resampled(pcmBuffer(pcm, rateHz), sampleRate, gain * rateHz / sampleRate));
      const buffer = new AudioBuffer({ length: answers[0].length, numberOfChannels: 2, sampleRate });
      answers.forEach((answer, ear) => buffer.copyToChannel(answer, ear));
      const room = new ConvolverNode(this.context, { buffer, disableNormalization: true });
      this.roomBus = this.bus(this.recordingBus);
      const mono = new GainNode(this.context, { channelCount: 1, channelCountMode: "explicit" });
      this.strokeBus.connect(mono).connect(room).connect(this.roomBus);
    }
    // Sounds that a server has sent, perhaps after the graph was made.
    soundsCame() {
      this.decode();
      if (this.context) this.furnish();
    }
    decode() {
      if (this.missing) return;
      const { samples, rateHz } = this.sounds;
      while (this.buffers.length < samples.length) {
        const sample = samples[this.buffers.length];
        this.buffers.push(pcmBuffer(sample.pcm, rateHz));
        sample.pcm = "";
      }
    }
    // Which buses sound. `isHeard`: whether a group does. With one group alone the background is silent, too.
    /** @param {{ recording: boolean, click: boolean, alone: number | null, isHeard: (group: number) => boolean }} how */
    balance({ recording, click, alone, isHeard }) {
      if (!this.context) return;
      const set = (bus, on) => bus.gain.setTargetAtTime(on ? 1 : 0, this.context.currentTime, 0.012);
      set(this.recordingBus, recording);
      set(this.clickBus, click);
      set(this.countInBus, recording || click);
      set(this.bedBus, alone === null);
      this.parts.forEach((part, k) => set(this.partBuses[k], !part.group || isHeard(part.group)));
    }
    // The room answers from `startS` on; `hush` closes its door, so that a pause is silent at once.
    /** @param {number} startS */
    openRoom(startS) {
      this.roomBus?.gain.setTargetAtTime(1, startS, 5e-3);
    }
    /** @param {number | 'box'} part @param {number} pan */
    place(part, pan) {
      const name = `${part} ${pan}`;
      const placed = this.places.get(name) ?? new StereoPannerNode(this.context, { pan });
      if (!this.places.has(name)) {
        placed.connect(part === "box" ? this.boxBus : this.partBuses[part]);
        this.places.set(name, placed);
      }
      return placed;
    }
    /**
     * @param {AudioBufferSourceOptions} how
     * @param {number} gainValue
     * @param {AudioNode} into
     * @param {number} startS
     * @param {number} offsetS
     * @returns {Voice}
     */
    voice(how, gainValue, into, startS, offsetS) {
      const source = new AudioBufferSourceNode(this.context, how);
      const gain = new GainNode(this.context, { gain: gainValue });
      source.connect(gain).connect(into);
      source.start(Math.max(0, startS), offsetS);
      const voice = { source, gain, startS, held: source.loop };
      this.voices.add(voice);
      source.onended = () => {
        this.voices.delete(voice);
        gain.disconnect();
      };
      return voice;
    }
    // What to play an event with: its recording, as a loop where it is one or where the note outlasts it.
    /** @param {number} k @param {number} lastsS @returns {Recording} */
    source(k, lastsS) {
      const buffer = this.buffers[k];
      if (this.sounds.samples[k].loop) return { buffer, loop: true, loopStart: 0, loopEnd: buffer.duration };
      if (lastsS <= buffer.duration) return { buffer, loop: false, loopStart: 0, loopEnd: buffer.duration };
      const longer = this.longer.get(k) ?? lengthened(buffer);
      this.longer.set(k, longer);
      return longer;
    }
    // Puts event `i` on the clock at `startS`; `offsetS`: how much of it has passed by then.
    /** @param {number} i @param {number} startS @param {number} offsetS @param {number} speed */
    event(i, startS, offsetS, speed) {
      if (startS < this.timeS - LATE_S) return;
      const { part, sample, gain, pan, lastsS } = this.sounds.events;
      const longS = lastsS[i] / speed;
      const how = this.source(sample[i], longS);
      if (!how.loop && offsetS >= how.buffer.duration) return;
      const round = how.loop ? how.loopEnd - how.loopStart : 0;
      const inside = offsetS < how.loopEnd ? offsetS : how.loopStart + (offsetS - how.loopStart) % round;
      const voice = this.voice(how, gain[i], this.place(part[i], pan[i]), startS, inside);
      if (longS > 0) {
        voice.held = true;
        const endS = startS - offsetS + longS;
        voice.gain.gain.setTargetAtTime(0, endS, 0.03);
        voice.source.stop(endS + 0.25);
      }
    }
    /** @param {number} startS @param {boolean} first @param {AudioNode} into */
    tap(startS, first, into) {
      this.voice({ buffer: this.taps?.[first ? 1 : 0] }, 1, into, startS, 0);
    }
    // A single stroke of the particle box.
    /** @param {AudioBuffer | undefined} buffer @param {number} gain @param {number} pan @param {number} startS */
    stroke(buffer, gain, pan, startS) {
      return this.context ? this.voice({ buffer }, gain, this.place("box", pan), startS, 0) : null;
    }
    // Lays a background from one position to another; `timeOf` turns a position into a time on the clock.
    /** @param {Bed} bed @param {number} fromS @param {number} toS @param {(positionS: number) => number} timeOf */
    bed({ sample, levels }, fromS, toS, timeOf) {
      const [startS, endS] = [timeOf(fromS), timeOf(toS)];
      const buffer = this.buffers[sample];
      const { gain, source } = this.voice({ buffer, loop: true }, 0, this.bedBus, startS, fromS % buffer.duration);
      gain.gain.setValueAtTime(0, startS);
      gain.gain.linearRampToValueAtTime(levelAt(levels, fromS), startS + 0.1);
      for (const [atS, level] of levels) {
        const timeS = timeOf(atS);
        if (timeS > startS + 0.1 && timeS < endS) gain.gain.linearRampToValueAtTime(level, timeS);
      }
      gain.gain.linearRampToValueAtTime(levelAt(levels, toS), endS);
      gain.gain.linearRampToValueAtTime(0, endS + 0.5);
      source.stop(endS + 0.6);
    }
    // Takes sounds off the clock: those that would begin at `fromS` or later, and of those that sound by then the held
    // ones; strokes ring on. From 0: everything.
    /** @param {number} fromS */
    hush(fromS) {
      if (!this.context) return;
      if (fromS === 0) this.roomBus?.gain.setTargetAtTime(0, this.context.currentTime, FADE_S / 3);
      const nowS = this.context.currentTime;
      for (const { source, gain, startS, held } of this.voices) {
        if (startS >= fromS && startS > nowS) source.stop();
        else if (fromS === 0 || held) {
          const endS = Math.max(nowS, fromS);
          if (gain.gain.cancelAndHoldAtTime) gain.gain.cancelAndHoldAtTime(endS);
          else gain.gain.cancelScheduledValues(endS);
          gain.gain.setTargetAtTime(0, endS, FADE_S / 3);
          source.stop(endS + 2 * FADE_S);
        }
      }
    }
    // The level that is being played, root mean square of the last block.
    level() {
      if (!this.meter) return 0;
      const block = new Float32Array(this.meter.fftSize);
      this.meter.getFloatTimeDomainData(block);
      return Math.sqrt(block.reduce((sum, x) => sum + x * x, 0) / block.length);
    }
  };

  // player.js
  var AHEAD_S = 1.2;
  var EVERY_MS = 150;
  var SOON_S = 0.06;
  var RING_S = 2.5;
  var CLIP_RING_S = 0.8;
  function noSounds() {
    return { rateHz: 22050, samples: [], events: { timeS: [], part: [], sample: [], gain: [], pan: [], lastsS: [] }, beds: [], toCome: true };
  }
  var Player = class extends EventTarget {
    /** @param {PieceClock} clock @param {Sounds} sounds @param {Part[]} parts */
    constructor(clock2, sounds2, parts) {
      super();
      this.clock = clock2;
      this.sounds = sounds2;
      this.mixer = new Mixer(sounds2, parts);
      this.playing = false;
      this.restS = 0;
      this.speed = 1;
      this.repeat = null;
      this.clip = null;
      this.runs = [];
      this.resting = /* @__PURE__ */ new Set();
      this.alone = null;
      this.recording = true;
      this.click = false;
      this.ticker = 0;
      this.wanted = null;
    }
    // Where it is ----------------------------------------------------------------------------------------------------
    // Where the piece is at a moment of the audio clock, and in a count-in how many beats are still to come.
    /** @param {number} timeS */
    whereAt(timeS) {
      let run = this.runs[0];
      for (const each of this.runs) if (each.atS <= timeS) run = each;
      const positionS = run.fromS + Math.max(0, timeS - run.atS) * run.speed;
      return { positionS: Math.min(positionS, this.clock.endS), run };
    }
    // What to show `leadS` after the moment that is heard now: bar, beat and phase as the clock has them; `counting` is
    // how many beats of a count-in are left, `restart` whether that count-in leads into the middle of the piece.
    /** @returns {Now} */
    moment(leadS = 0) {
      if (!this.playing) return { ...this.clock.at(this.restS), positionS: this.restS, counting: 0, restart: false };
      const { positionS, run } = this.whereAt(this.mixer.heardS() + leadS);
      const restart = run.countIn > 0 && positionS < run.musicS - HAIR_S;
      if (!restart) {
        const now = this.clock.at(positionS);
        return { ...now, positionS, counting: Math.max(0, -now.beats), restart };
      }
      const music = this.clock.at(run.musicS);
      const counting = (run.musicS - positionS) / run.perBeatS;
      const passed = run.countIn - counting + HAIR_S;
      return {
        ...music,
        beat: Math.floor(passed) % this.clock.beatsABar + 1,
        phase: passed % 1,
        beats: music.beats - counting,
        positionS: run.musicS,
        counting,
        restart
      };
    }
    /** @param {Run} run @param {number} positionS */
    timeOf(run, positionS) {
      return run.atS + (positionS - run.fromS) / run.speed;
    }
    // Commands -------------------------------------------------------------------------------------------------------
    // Starts at a position; `countIn` counts two bars first at the tempo found there (the very start has its own).
    /** @param {number} positionS @param {boolean} countIn @param {Clip | null} clip */
    play(positionS, countIn, clip = null) {
      this.mixer.open();
      if (this.sounds.toCome) {
        this.wanted = [positionS, countIn, clip];
        return;
      }
      this.clip = clip;
      if (this.mixer.missing) this.dispatchEvent(new Event("silent"));
      this.balance();
      this.mixer.hush(0);
      const atS = this.mixer.timeS + SOON_S;
      this.mixer.openRoom(atS);
      this.playing = true;
      this.runs = [this.newRun(atS, positionS, countIn && positionS >= this.clock.firstS - HAIR_S)];
      this.startRun(this.runs[0]);
      this.tick();
      clearInterval(this.ticker);
      this.ticker = setInterval(() => this.tick(), EVERY_MS);
      this.changed();
    }
    // The sounds that were to come are here: what was asked for meanwhile begins.
    /** @param {Sounds} sounds */
    soundsCame(sounds2) {
      Object.assign(this.sounds, sounds2, { toCome: false });
      this.mixer.soundsCame();
      const { wanted } = this;
      this.wanted = null;
      if (wanted) this.play(...wanted);
    }
    // A clip is heard at full tempo and with everyone, or with one group alone; then the piece stands where it stood.
    /** @param {Clip} clip */
    playClip(clip) {
      if (this.playing) this.pause();
      this.play(clip.fromS, false, clip);
    }
    stopClip() {
      if (this.wanted?.[2]) this.wanted = null;
      if (this.clip) this.stopAt(this.restS);
    }
    pause() {
      this.wanted = null;
      if (!this.playing) return;
      if (this.clip) {
        this.stopClip();
        return;
      }
      const { positionS, run } = this.whereAt(this.mixer.heardS());
      const musicS = Math.max(positionS, run.musicS);
      this.stopAt(musicS < this.clock.firstS ? 0 : musicS);
    }
    /** @param {number} positionS */
    stopAt(positionS) {
      clearInterval(this.ticker);
      this.mixer.hush(0);
      this.playing = false;
      this.clip = null;
      this.runs = [];
      this.restS = positionS;
      this.changed();
    }
    /** @param {number} positionS @param {boolean} countIn */
    goTo(positionS, countIn) {
      if (this.playing) this.play(positionS, countIn);
      else {
        if (this.wanted) this.wanted = [positionS, countIn, null];
        this.restS = positionS;
        this.changed();
      }
    }
    /** @param {number} speed */
    setSpeed(speed) {
      this.speed = speed;
      this.replan();
    }
    /** @param {number | null} stage */
    setRepeat(stage) {
      this.repeat = stage;
      this.replan();
    }
    // From now on the piece runs under the present settings: what was due later is put on the clock anew.
    replan() {
      if (this.playing) {
        const atS = this.mixer.timeS + SOON_S;
        const { positionS, run } = this.whereAt(atS);
        const musicS = Math.max(run.musicS, positionS);
        const next = { ...run, atS, fromS: positionS, musicS, doneS: -Infinity, ...this.terms(musicS) };
        this.runs = [...this.runs.filter((each) => each.atS < atS), next];
        this.mixer.hush(atS);
        this.startRun(next);
        this.tick();
      }
      this.changed();
    }
    /** @param {Set<number>} resting @param {number | null} alone */
    setGroups(resting, alone) {
      this.resting = resting;
      this.alone = alone;
      this.balance();
      this.changed();
    }
    /** @param {boolean} recording @param {boolean} click */
    setSound(recording, click) {
      this.recording = recording;
      this.click = click;
      this.balance();
      this.changed();
    }
    balance() {
      const { clip } = this;
      const recording = this.recording || clip !== null;
      const click = this.click && clip === null;
      const alone = clip ? clip.alone : this.alone;
      this.mixer.balance({ recording, click, alone, isHeard: (group) => this.isHeard(group) });
    }
    /** @param {number} group */
    isHeard(group) {
      if (this.clip) return this.clip.alone === null || this.clip.alone === group;
      return this.alone === null ? !this.resting.has(group) : this.alone === group;
    }
    changed() {
      this.dispatchEvent(new Event("change"));
    }
    // Runs -----------------------------------------------------------------------------------------------------------
    /** @param {number} atS @param {number} musicS @param {boolean} countIn @returns {Run} */
    newRun(atS, musicS, countIn) {
      const { perBeatS } = this.clock.barAt(musicS);
      const beats = countIn ? this.clock.countInBars * this.clock.beatsABar : 0;
      const fromS = musicS - beats * perBeatS;
      return { atS, fromS, musicS, countIn: beats, perBeatS, doneS: -Infinity, ...this.terms(musicS) };
    }
    // How fast a run goes, where it ends and whether it then begins again, as the settings are now.
    /** @param {number} musicS */
    terms(musicS) {
      if (this.clip) return { speed: 1, repeats: false, endS: this.clip.toS };
      const stage = this.repeat === null ? null : this.clock.stages[this.repeat];
      const repeats = stage !== null && musicS < stage.endS - HAIR_S;
      return { speed: this.speed, repeats, endS: repeats ? stage.endS : this.clock.endS };
    }
    /** @param {Run} run */
    startRun(run) {
      if (!this.mixer.context) return;
      const { timeS, lastsS } = this.sounds.events;
      const first = firstFrom(timeS, run.musicS);
      for (let i = 0; i < first; i += 1) {
        const passedS = run.musicS - timeS[i];
        if (lastsS[i] > passedS + 0.1) this.mixer.event(i, this.timeOf(run, run.musicS), passedS / run.speed, run.speed);
      }
      for (const bed of this.sounds.beds) this.mixer.bed(bed, run.musicS, run.endS, (s) => this.timeOf(run, s));
    }
    tick() {
      if (this.mixer.blocked) {
        this.stopAt(this.clip ? this.restS : this.runs[0].musicS);
        this.dispatchEvent(new Event("blocked"));
        return;
      }
      const horizonS = this.mixer.timeS + AHEAD_S;
      let run = this.runs[this.runs.length - 1];
      for (; ; ) {
        const untilS = Math.min(run.fromS + (horizonS - run.atS) * run.speed, run.endS);
        if (this.mixer.context) this.schedule(run, untilS);
        run.doneS = Math.max(run.doneS, untilS);
        if (!run.repeats || this.repeat === null || this.timeOf(run, run.endS) > horizonS) break;
        const stage = this.clock.stages[this.repeat];
        const next = this.newRun(this.timeOf(run, run.endS), stage.startS, true);
        this.runs.push(next);
        this.startRun(next);
        run = next;
      }
      const heardS = this.mixer.heardS();
      while (this.runs.length > 1 && this.runs[1].atS < heardS - 1) this.runs.shift();
      if (this.clip && heardS > this.timeOf(run, run.endS) + CLIP_RING_S) this.stopClip();
      else if (!run.repeats && heardS > this.timeOf(run, run.endS) + RING_S) {
        this.stopAt(0);
        this.dispatchEvent(new Event("finish"));
      }
    }
    /** @param {Run} run @param {number} untilS */
    schedule(run, untilS) {
      const { timeS } = this.sounds.events;
      const fromS = Math.max(run.doneS, run.musicS);
      const end = firstFrom(timeS, untilS);
      for (let i = firstFrom(timeS, fromS); i < end; i += 1) {
        this.mixer.event(i, this.timeOf(run, timeS[i]), 0, run.speed);
      }
      for (let k = run.countIn; k > 0; k -= 1) {
        const beatS = run.musicS - k * run.perBeatS;
        if (beatS >= Math.max(run.doneS, run.fromS) - HAIR_S && beatS < untilS - HAIR_S) {
          const first = (run.countIn - k) % this.clock.beatsABar === 0;
          this.mixer.tap(this.timeOf(run, beatS), first, this.mixer.countInBus);
        }
      }
      for (const beat of this.clock.beatTimes) {
        if (beat.atS >= fromS - HAIR_S && beat.atS < untilS - HAIR_S && beat.bar >= 1) {
          this.mixer.tap(this.timeOf(run, beat.atS), beat.first, this.mixer.clickBus);
        }
      }
    }
  };

  // seek.js
  var NEAR = 0.06;
  var GOLDEN = 0.618;
  var NO_QUESTION = -1;
  var Seek = class {
    /** @param {Shared} shared @param {HearView} hear */
    constructor({ player: player2, clock: clock2, data: data2 }, hear2) {
      this.player = player2;
      this.clock = clock2;
      this.data = data2;
      this.hear = hear2;
      this.asked = 0;
      this.wanted = null;
      this.heard = find("along-heard", HTMLInputElement);
      find("along").addEventListener("input", () => this.sound());
      find("chart-field").addEventListener("click", () => this.sound());
      find("seek-ask").addEventListener("click", () => this.wanted === null ? this.ask() : this.stop(""));
      find("seek-here").addEventListener("click", () => this.answer());
      find("curve-choice").addEventListener("change", () => this.stop(""));
      find("seek-ask").hidden = !this.varies();
    }
    varies() {
      const { points } = this.hear.curve;
      return Math.max(...points) > Math.min(...points);
    }
    get bar() {
      return Math.max(this.player.moment().bar, 1);
    }
    // The bar in which the slider stands, once, unless the piece plays anyway.
    sound() {
      const { player: player2, clock: clock2 } = this;
      if (!this.heard.checked || find("seek").hidden || player2.playing && !player2.clip) return;
      const bar = this.bar;
      player2.playClip({ question: NO_QUESTION, number: bar, fromS: clock2.startOfBar(bar), toS: clock2.startOfBar(bar + 1), alone: null });
    }
    /** @param {number} share */
    value(share) {
      const beats = this.clock.pieceBars * this.clock.beatsABar;
      return told(this.hear.curve.values, share * beats, beats);
    }
    ask() {
      const here = this.level(this.here);
      do
        this.asked += 1;
      while (Math.abs(this.level(this.share(this.asked * GOLDEN)) - here) <= NEAR && this.asked % 20);
      this.wanted = this.share(this.asked * GOLDEN);
      this.shown(phrase("script-seek-where", { value: this.value(this.wanted) }));
      find("along").focus();
    }
    // The middle of the bar in which the slider stands, as a share of the piece.
    get here() {
      return (this.bar - 0.5) / this.clock.pieceBars;
    }
    // The middle of the bar at a share of the piece.
    /** @param {number} share */
    share(share) {
      const { pieceBars } = this.clock;
      return (Math.floor(share % 1 * pieceBars) + 0.5) / pieceBars;
    }
    /** @param {number} share */
    level(share) {
      return heightAt(this.hear.curve.points, share) / this.data.science.height;
    }
    answer() {
      if (this.wanted === null) return;
      const { here } = this;
      const off = this.level(this.wanted) - this.level(here);
      const places = { here: this.value(here), value: this.value(this.wanted) };
      if (Math.abs(off) <= NEAR) this.stop(phrase("script-seek-found", places));
      else setText(find("seek-said"), phrase("script-seek-further", { ...places, way: off > 0 ? "higher" : "lower" }));
    }
    /** @param {string} words */
    stop(words) {
      this.wanted = null;
      find("seek-ask").hidden = !this.varies();
      this.shown(words);
    }
    /** @param {string} words */
    shown(words) {
      const seeking = this.wanted !== null;
      setText(find("seek-said"), words);
      find("seek").hidden = !words;
      find("seek-here").hidden = !seeking;
      setState(find("seek-ask"), "aria-pressed", String(seeking));
      this.hear.hidesValue = seeking;
      this.hear.show(this.player.moment());
    }
  };

  // page.js
  var data = readData("lesson-data");
  var { sounds: soundsAddress } = document.body.dataset;
  var sounds = soundsAddress ? noSounds() : readData("sounds-data");
  document.getElementById("sounds-data")?.remove();
  var clock = new PieceClock(data.timing, data.stages);
  var player = new Player(clock, sounds, data.parts);
  var piece = new Piece(data, clock);
  var viewNames = findAll(".view").map((view) => view.id);
  var inConduct = () => document.body.dataset.view === "conduct";
  function startOf(stage) {
    return stage === 0 && inConduct() ? 0 : data.stages[stage].startS;
  }
  var go = {
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
    }
  };
  function playOrPause() {
    if (player.playing) player.pause();
    else if (inConduct() && player.restS >= clock.firstS) player.play(clock.barAt(player.restS).startS, true);
    else player.play(player.restS, false);
  }
  var shared = { player, piece, clock, data, go, playOrPause };
  var hear = new HearView(shared);
  if (data.science.measured) new Seek(shared, hear);
  var conduct = new ConductView(shared);
  var listening = data.listening.length ? new ListeningView(shared) : null;
  var particles = document.getElementById("film-data") ? new ParticlesView({ film: readFilm(), mixer: player.mixer, playing: quiet }) : null;
  function readFilm() {
    const film = readData("film-data");
    find("film-data").remove();
    return new Film(film);
  }
  function quiet() {
    if (!player.mixer.missing) find("trouble").hidden = true;
    player.pause();
  }
  async function fetchSounds(address) {
    say(phrase("script-the-sounds-are-on-their"));
    try {
      const answer = await fetch(address);
      if (!answer.ok) throw new Error(String(answer.status));
      const found = await answer.json();
      find("trouble").hidden = true;
      player.soundsCame(found);
    } catch {
      say(phrase("script-the-sounds-could-not-be"));
    }
  }
  if (soundsAddress) fetchSounds(soundsAddress);
  var frameS = 1 / 60;
  var lastFrameMs = 0;
  var waiting = 0;
  var shown = null;
  function draw() {
    shown = player.moment(player.playing ? frameS / 2 : 0);
    const { view } = document.body.dataset;
    if (view === "conduct") conduct.show(shown);
    else if (view === "hear") hear.show(shown);
    else if (view === "particles") particles?.show();
    else if (view === "listening") listening?.show();
  }
  function frame(nowMs) {
    waiting = 0;
    if (!player.playing) return;
    const lengthS = (nowMs - lastFrameMs) / 1e3;
    if (lengthS > 2e-3 && lengthS < 0.03) frameS += (lengthS - frameS) * 0.1;
    lastFrameMs = nowMs;
    draw();
    waiting = requestAnimationFrame(frame);
  }
  function showChange() {
    if (player.playing) particles?.box.pause();
    if (player.playing && !player.mixer.missing) find("trouble").hidden = true;
    for (const id of ["play", "conduct-play"]) {
      setState(find(id), "data-playing", String(player.playing));
      setText(findIn(find(id), ".words"), player.playing ? phrase("script-pause") : phrase("script-play"));
    }
    draw();
    conduct.keepAwake();
    if (player.playing && !waiting) waiting = requestAnimationFrame(frame);
  }
  player.addEventListener("change", showChange);
  player.addEventListener("silent", () => {
    say(phrase("script-this-browser-cannot-play-sound"));
  });
  particles?.box.addEventListener("silent", () => {
    say(phrase("script-this-browser-cannot-play-sound-2"));
  });
  for (const each of [player, particles?.box]) {
    each?.addEventListener("blocked", () => say(phrase("script-the-browser-holds-the-sound")));
  }
  player.addEventListener("finish", () => setText(find("said"), phrase("script-the-end-of-the-piece")));
  function say(trouble) {
    setText(find("trouble"), trouble);
    find("trouble").hidden = false;
  }
  function showView() {
    const wanted = location.hash.slice(1);
    const view = viewNames.includes(wanted) ? wanted : "hear";
    const before = document.body.dataset.view;
    document.body.dataset.view = view;
    for (const name of viewNames) find(name).hidden = name !== view;
    if (view !== "particles") particles?.box.pause();
    if (view !== "listening") player.stopClip();
    for (const link of findAll(".views a", HTMLAnchorElement)) {
      if (link.dataset.view === view) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    if (view === "conduct") find("board").focus({ preventScroll: true });
    else if (before === "conduct") find("play").focus({ preventScroll: true });
    window.scrollTo(0, 0);
    draw();
    conduct.keepAwake();
  }
  addEventListener("hashchange", showView);
  var PIECE_KEYS = { " ": playOrPause, ArrowLeft: () => go.by(-1), ArrowRight: () => go.by(1) };
  var KEYS = {
    hear: PIECE_KEYS,
    conduct: {
      ...PIECE_KEYS,
      PageUp: () => go.by(-1),
      PageDown: () => go.by(1),
      Home: () => go.start(),
      Escape: () => {
        location.hash = "#hear";
      }
    },
    particles: particles && {
      " ": () => particles.playOrPause(),
      ...Object.fromEntries(PARTICLE_KEYS.map((key) => [
        key,
        /** @param {Element} target */
        (target) => particles.move(key, target.id === "heating")
      ]))
    },
    listening: listening && {
      " ": () => listening.playOrStop(),
      ArrowLeft: () => listening.go(listening.now - 1),
      ArrowRight: () => listening.go(listening.now + 1)
    }
  };
  addEventListener("keydown", (event) => {
    const { key, target } = event;
    const action = KEYS[document.body.dataset.view ?? ""]?.[key];
    if (!(target instanceof Element) || event.ctrlKey || event.altKey || event.metaKey || !action) return;
    if (key === " " && target.closest("button, a, input, select, summary")) return;
    if (key !== "Escape" && key !== " " && target.closest('select, .scroll, input:not([type="checkbox"])')) return;
    event.preventDefault();
    const held = document.body.dataset.view === "particles" && key.startsWith("Arrow");
    if (held || !event.repeat) action(target);
  });
  var state = () => ({
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
      drawn: particles.drawn
    }
  });
  Object.assign(window, { sonifyState: state });
  showView();
  addEventListener("load", () => {
    const focus = () => soundsAddress && document.body.dataset.view === "hear" && document.activeElement === document.body && find("play").focus({ preventScroll: true });
    setTimeout(focus, 50);
  });
  (window.requestIdleCallback ?? setTimeout)(() => player.mixer.decode());
})();
