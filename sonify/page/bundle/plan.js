// Made by tests/javascript/bundle from the modules beside this folder: change those.
(() => {
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
    return pieces.map((piece) => typeof piece === "string" ? piece : pieceOf(piece, places)).join("");
  }
  function pieceOf({ place, variants, other = "" }, places) {
    const value = places[place];
    if (!variants) return String(value);
    return filled(variants[value] ?? variants[typeof value === "number" ? PLURALS.select(value) : other] ?? variants[other], places);
  }
  function setText(element2, text) {
    if (element2.textContent !== text) element2.textContent = text;
  }
  function setState(element2, name, value) {
    if (element2.getAttribute(name) !== value) element2.setAttribute(name, value);
  }
  function setRows(list, rows, fill2) {
    const mark2 = JSON.stringify(rows);
    if (list.dataset.mark === mark2) return;
    list.dataset.mark = mark2;
    list.replaceChildren(
      ...rows.map((row) => {
        const item = document.createElement("li");
        fill2(item, row);
        return item;
      })
    );
  }
  function span(className, text) {
    const element2 = document.createElement("span");
    element2.className = className;
    element2.textContent = text;
    return element2;
  }
  function badge(group) {
    const SVG2 = "http://www.w3.org/2000/svg";
    const add = (parent, tag, attributes) => {
      const element2 = document.createElementNS(SVG2, tag);
      for (const [name, value] of Object.entries(attributes)) element2.setAttribute(name, String(value));
      parent.append(element2);
      return element2;
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

  // plan_ask.js
  var start = readData("start-data");
  var Refused = class extends Error {
    /** @param {string} message @param {{ where?: string, need?: string, status?: number }} about */
    constructor(message, { where = "", need = "", status = 0 } = {}) {
      super(message);
      this.where = where;
      this.need = need;
      this.status = status;
    }
  };
  var aborted = (error) => error instanceof DOMException && error.name === "AbortError";
  var SILENT = phrase("script-the-sonify-program-does-not") + phrase("script-sonify-serve-your-plan-is");
  async function ask(path, body, signal) {
    const how = { cache: "no-store", ...signal && { signal } };
    if (body !== void 0) {
      Object.assign(how, { method: "POST", body: JSON.stringify(body) });
      how.headers = { "Content-Type": "application/json", "X-Sonify": "1" };
    }
    return answered(path, how);
  }
  var sendFile = (path, file) => answered(path, { cache: "no-store", method: "POST", body: file, headers: { "Content-Type": "application/octet-stream", "X-Sonify": "1" } });
  async function answered(path, how) {
    let answer;
    let found;
    try {
      answer = await fetch(path, how);
      found = await answer.json();
    } catch (error) {
      if (aborted(error)) throw error;
      throw new Refused(SILENT);
    }
    if (!answer.ok) throw new Refused(found.error ?? phrase("script-the-program-answered", { status: answer.status }), { ...found, status: answer.status });
    return found;
  }
  function light({ scene, class: room, ...others }) {
    const { csv: _, ...kept } = scene ?? {};
    const { facts: __, ...given } = room ?? {};
    return { ...others, scene: kept.csv_key ? kept : scene, class: room && given };
  }
  function whole(inputs) {
    const { csv_key: _, ...scene } = inputs.scene ?? {};
    return { ...light(inputs), scene };
  }
  async function askAbout(path, inputs, { signal, body = (sent) => sent } = {}) {
    try {
      return await ask(path, body(light(inputs)), signal);
    } catch (error) {
      if (!(error instanceof Refused) || error.need !== "csv" || !inputs.scene?.csv) throw error;
      return ask(path, body(whole(inputs)), signal);
    }
  }

  // plan_errors.js
  function announce(text) {
    const said = find("said");
    said.textContent = "";
    setTimeout(() => setText(said, text), 30);
  }
  var tryAgain = null;
  function showTrouble(text, again = null) {
    tryAgain = again;
    setText(find("trouble-words"), text);
    find("trouble-again").hidden = !again;
    find("trouble").hidden = false;
  }
  function hideTrouble() {
    find("trouble").hidden = true;
  }
  find("trouble-close").addEventListener("click", () => {
    hideTrouble();
    find("main").focus();
  });
  find("trouble-again").addEventListener("click", () => {
    find("main").focus();
    hideTrouble();
    tryAgain?.();
  });
  function placesOf(where) {
    const [whole2, index, side] = where.match(/^(?:hear|rules)\.(\d+)(?:\.(\w+))?/) ?? [];
    if (whole2) return [where, ...side === "curve" ? [`rules.${index}.curve`] : side ? [`rules.${index}.${side}.0`] : [], `rules.${index}`];
    const name = where.replace(/^(conditions|class|set)\./, "");
    if (name.startsWith("drawn")) return [where, "drawn"];
    if (name.startsWith("pattern")) return [where, "pattern"];
    if (name.startsWith("sound")) return [where, "sound"];
    const kind = name.startsWith("cupboard") ? ["class.cupboard"] : [];
    return [where, `set.${name}`, `options.${name}`, `class.${name}`, ...kind, ...where.startsWith("class") ? ["class"] : []];
  }
  function showError({ message, where, typed = false }, again = null) {
    clearErrors();
    const inView = (each) => each.closest(".page:not([hidden])") !== null && !each.closest("#choose[hidden], #bench[hidden]");
    const place = placesOf(where ?? "").flatMap((name) => findAll(`[data-error="${CSS.escape(name)}"]`, HTMLElement)).find(inView);
    if (!place) {
      showTrouble(message, again);
      return;
    }
    setText(place, message);
    place.hidden = false;
    place.dataset.typed = String(typed);
    for (const input of document.querySelectorAll(`[aria-describedby~="${CSS.escape(place.id || "none")}"]`)) {
      input.setAttribute("aria-invalid", "true");
    }
    place.closest("details")?.setAttribute("open", "");
    announce(message);
  }
  function clearErrors(which = "[data-error]") {
    for (const place of findAll(which, HTMLElement)) {
      place.hidden = true;
      for (const input of document.querySelectorAll(`[aria-describedby~="${CSS.escape(place.id || "none")}"]`)) input.removeAttribute("aria-invalid");
    }
  }
  var clearAnswered = () => clearErrors('[data-error]:not([data-typed="true"])');

  // plan_fields.js
  function element(tag, className = "", text = "") {
    const made = document.createElement(tag);
    if (className) made.className = className;
    if (text) made.textContent = text;
    return made;
  }
  var unitWords = (unit) => {
    const known = start.units[unit];
    if (known !== void 0) return known;
    if (unit === "1") return "";
    return unit.replace("**2", "²").replace("**3", "³").replaceAll("*", " ");
  };
  var readable = (text) => text.replace(/^(\S+)\s+(.+)$/, (_, figure3, unit) => `${figure3} ${unitWords(unit)}`);
  var figure = (value) => String(Number(Number(value).toPrecision(10)));
  var FRESH_MS = 2500;
  var freshening = /* @__PURE__ */ new WeakMap();
  var marking = true;
  function setMarking(on) {
    marking = on;
  }
  function setFresh(place, text, mark2 = place) {
    if (place.textContent === text) return;
    const first = place.textContent === "";
    place.textContent = text;
    if (!first) freshen(mark2);
  }
  function freshen(place) {
    if (!marking) return;
    clearTimeout(freshening.get(place));
    place.classList.add("fresh");
    freshening.set(place, setTimeout(() => place.classList.remove("fresh"), FRESH_MS));
  }
  var kindOfField = (data) => data.steps ? "steps" : data.choices ? "choice" : "number";
  var fields = 0;
  var Field = class {
    // Of a choice: the list; of a number or a row of steps: the box or the slider, and what stands around it.
    /** @type {HTMLSelectElement} */
    choice;
    /** @type {HTMLInputElement} */
    typed;
    /** @type {HTMLInputElement} */
    range;
    /** @type {HTMLElement} */
    low;
    /** @type {HTMLElement} */
    high;
    /** @type {HTMLElement} */
    unit;
    /** @type {HTMLOutputElement} */
    value;
    // where: as errors name it, "set.sea_temperature". changed(text, words): told each new value, as scene files have it.
    /**
     * @param {{ where: string, label: string, changed: (text: string, words: string) => void, reset?: () => void }} of
     */
    constructor({ where, label, changed, reset }) {
      fields += 1;
      this.where = where;
      this.label = label;
      this.changed = changed;
      this.data = {};
      this.kind = "";
      this.names = "";
      const id = `field-${fields}`;
      this.box = element("div", "field");
      this.box.dataset.field = where;
      const head = element("div", "field-head");
      this.name = element("label", "field-name", label);
      this.name.id = `${id}-name`;
      this.name.htmlFor = id;
      this.back = element("button", "small", phrase("script-reset"));
      this.back.type = "button";
      this.back.hidden = true;
      this.back.append(span("unseen", ` ${label}`));
      this.back.addEventListener("click", () => {
        reset?.();
        (this.kind === "choice" ? this.choice : this.typed).focus();
      });
      head.append(this.name);
      this.help = element("p", "hint");
      this.help.id = `${id}-help`;
      this.row = element("div", "field-row");
      this.error = element("p", "field-error");
      Object.assign(this.error, { id: `${id}-error`, hidden: true });
      this.error.dataset.error = where;
      this.id = id;
      head.append(this.back);
      this.box.append(head, this.help, this.row, this.error);
    }
    get described() {
      return `${this.help.id} ${this.error.id}`;
    }
    /** @param {FieldData} data */
    build(data) {
      this.kind = kindOfField(data);
      this.row.replaceChildren();
      if (this.kind === "choice") this.buildChoice();
      else if (this.kind === "steps") this.buildSteps();
      else this.buildNumber();
    }
    // A row of values, each with its words: what ends of rules can be, or a condition over many powers of ten.
    buildSteps() {
      this.typed = Object.assign(element("input"), { type: "range", id: this.id, min: "0", step: "1" });
      this.typed.setAttribute("aria-describedby", this.described);
      this.value = element("output", "value");
      this.value.htmlFor.value = this.id;
      const track = element("span", "range-track");
      track.append(this.stepButton("−", phrase("script-less"), -1), this.typed, this.stepButton("+", phrase("script-more"), 1));
      this.name.after(this.value);
      this.row.append(track);
      this.typed.addEventListener("input", () => this.step(Number(this.typed.value)));
    }
    /** @param {string} sign @param {string} words @param {number} by */
    stepButton(sign, words, by) {
      const button = element("button", "small step", sign);
      button.type = "button";
      button.setAttribute("aria-label", `${this.label}: ${words}`);
      button.addEventListener("click", () => this.step(Number(this.typed.value) + by));
      return button;
    }
    /** @param {number} at */
    step(at) {
      const { texts = [], shown = [] } = this.data.steps ?? {};
      if (at < 0 || at >= texts.length) return;
      this.typed.value = String(at);
      setText(this.value, shown[at]);
      this.typed.setAttribute("aria-valuetext", shown[at]);
      this.changed(texts[at], `${this.label}: ${shown[at]}.`);
    }
    /** @param {Steps} steps */
    showSteps({ texts, shown, at }) {
      if (this.typed.max !== String(texts.length - 1)) this.typed.max = String(texts.length - 1);
      this.typed.value = String(at);
      setText(this.value, shown[at]);
      this.typed.setAttribute("aria-valuetext", shown[at]);
    }
    buildChoice() {
      this.choice = element("select");
      this.choice.id = this.id;
      this.choice.setAttribute("aria-describedby", this.described);
      this.choice.addEventListener("change", () => this.tell(this.choice.value));
      this.row.append(this.choice);
    }
    buildNumber() {
      this.low = element("span", "range-end");
      this.high = element("span", "range-end");
      this.low.ariaHidden = "true";
      this.high.ariaHidden = "true";
      this.range = Object.assign(element("input"), { type: "range" });
      this.range.setAttribute("aria-labelledby", this.name.id);
      this.range.setAttribute("aria-describedby", this.error.id);
      this.typed = Object.assign(element("input"), { type: "number", id: this.id, inputMode: "decimal" });
      this.typed.setAttribute("aria-describedby", `${this.id}-unit ${this.described}`);
      this.unit = element("span", "unit");
      this.unit.id = `${this.id}-unit`;
      const amount = element("span", "amount");
      amount.append(this.typed, this.unit);
      const track = element("span", "range-track");
      track.append(this.low, this.range, this.high);
      this.row.append(track, amount);
      this.range.addEventListener("input", () => this.move(this.range.value, this.typed));
      this.typed.addEventListener("input", () => this.move(this.typed.value, this.range));
      this.typed.addEventListener("change", () => this.settle());
    }
    /** @param {string} value @param {HTMLInputElement} other */
    move(value, other) {
      if (value === "" || !Number.isFinite(Number(value))) return;
      other.value = figure(value);
      this.sayValue(figure(value));
      this.tell(`${figure(value)}${this.data.unit && this.data.unit !== "1" ? ` ${this.data.unit}` : ""}`);
    }
    // What is left when the reader goes on: a number, or a word on what to type.
    settle() {
      if (this.typed.value !== "") return;
      showError({ message: phrase("script-type-a-number-for-such", { "to-lower-case": this.label.toLowerCase(), figure: figure(this.data.value ?? 0) }), where: this.where });
      this.typed.value = figure(this.data.value ?? 0);
    }
    /** @param {string} value */
    sayValue(value) {
      this.range.setAttribute("aria-valuetext", `${value} ${unitWords(this.data.unit ?? "")}`.trim());
    }
    /** @param {string} text */
    tell(text) {
      this.changed(text, `${this.label}: ${readable(text)}.`);
    }
    /** @param {FieldData} data */
    show(data) {
      const kind = kindOfField(data);
      this.data = data;
      if (kind !== this.kind) this.build(data);
      setText(this.help, data.help ?? "");
      this.help.hidden = !data.help;
      this.box.classList.toggle("changed", Boolean(data.changed));
      this.back.hidden = !data.changed;
      if (kind === "choice") {
        this.showChoice(data);
        return;
      }
      if (data.steps) {
        this.showSteps(data.steps);
        return;
      }
      this.showNumber(data);
    }
    /** @param {FieldData} data */
    showChoice({ choices = [], chosen: chosen2 = "" }) {
      const names = JSON.stringify(choices);
      if (this.names !== names) {
        this.names = names;
        this.choice.replaceChildren(...choices.map(([name, words]) => new Option(words, name)));
      }
      this.choice.value = chosen2;
    }
    /** @param {FieldData} data */
    showNumber({ low = 0, high = 0, step: step2 = 1, value = 0, unit = "" }) {
      for (const input of [this.range, this.typed]) {
        for (const [name, of] of Object.entries({ min: low, max: high, step: step2 })) setState(input, name, String(of));
      }
      setText(this.low, figure(low));
      setText(this.high, figure(high));
      setText(this.unit, unitWords(unit));
      this.range.value = String(value);
      if (document.activeElement !== this.typed || Number(this.typed.value) !== value) this.typed.value = figure(value);
      this.sayValue(figure(value));
    }
  };

  // plan_terms.js
  var upper = (text) => text.charAt(0).toUpperCase() + text.slice(1);
  var terms = 0;
  function termParts(word) {
    const button = document.createElement("button");
    const words = document.createElement("span");
    terms += 1;
    words.id = `term-${terms}`;
    words.className = "term-words";
    words.hidden = true;
    words.textContent = `${upper(word)}: ${start.terms[word]}`;
    Object.assign(button, { type: "button", className: "term", textContent: "?" });
    button.setAttribute("aria-label", phrase("script-what-does-mean", { word }));
    button.setAttribute("aria-expanded", "false");
    button.setAttribute("aria-controls", words.id);
    button.addEventListener("click", () => {
      words.hidden = !words.hidden;
      button.setAttribute("aria-expanded", String(!words.hidden));
    });
    return [button, words];
  }
  function explainPlace(place) {
    const [button, words] = termParts(place.dataset.term ?? "");
    place.append(button);
    (place.closest(".panel-head") ?? place.closest("h3, legend, p"))?.after(words);
  }
  for (const place of findAll("[data-term]", HTMLElement)) explainPlace(place);

  // plan_chart.js
  var LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
  var letterOf = (k) => LETTERS[k % LETTERS.length];
  var Chart = class {
    // What is shown, once something is.
    /** @type {Plan} */
    plan;
    /** @type {Plan | null} */
    first;
    constructor() {
      this.chosen = "";
      const choice = find("curve-choice", HTMLSelectElement);
      choice.addEventListener("change", () => {
        this.chosen = choice.value;
        this.draw();
      });
    }
    // first: the same scene's answer before anything was changed, for comparison.
    /** @param {Plan} plan @param {Plan | null} first */
    show(plan, first) {
      this.plan = plan;
      this.first = first;
      findIn(document.body, ".chart-panel", HTMLElement).hidden = !plan.curves.length;
      if (!plan.curves.length) return;
      const tempo = plan.rules.find((rule) => rule.control === "tempo")?.quantity;
      const names = plan.curves.map((curve) => curve.quantity);
      const choice = find("curve-choice", HTMLSelectElement);
      if (choice.dataset.names !== names.join("|")) {
        choice.dataset.names = names.join("|");
        choice.replaceChildren(
          ...plan.curves.map((curve) => new Option(upper(curve.quantity) + (tempo === curve.quantity ? phrase("script-sets-the-tempo") : ""), curve.quantity))
        );
      }
      if (!names.includes(this.chosen)) this.chosen = (plan.curves.find((curve) => curve.lead) ?? plan.curves[0]).quantity;
      choice.value = this.chosen;
      this.draw();
      this.drawStages();
    }
    draw() {
      const curve = this.plan.curves.find((each) => each.quantity === this.chosen) ?? this.plan.curves[0];
      const before = this.first?.curves.find((each) => each.quantity === this.chosen);
      const both = before ? [curve, before] : [curve];
      const ends = both.flatMap((each) => each.points.map(([, y]) => y));
      const low = Math.min(...ends);
      const spread3 = Math.max(...ends) - low;
      const path = ({ points, joined }) => {
        const places = points.map(([x, y]) => `${(1e3 * x).toFixed(1)} ${(spread3 ? 1e3 - 1e3 * (y - low) / spread3 : 500).toFixed(1)}`);
        return places.map((place, k) => `${k && (joined || points[k - 1][1] === points[k][1]) ? "L" : "M"}${place}`).join("");
      };
      const line2 = path(curve);
      const differs = before && path(before) !== line2;
      if (find("curve-line").getAttribute("d") !== line2) setState(find("curve-line"), "d", line2);
      setState(find("curve-steps"), "d", differs ? path(before) : "");
      find("legend").hidden = !differs;
      find("curve-drawn").hidden = !curve.drawn;
      const unit = unitWords(curve.unit);
      const told = (value) => `${Number(value.toPrecision(3)).toLocaleString("en-GB", { maximumSignificantDigits: 3 })} ${unit}`.trim();
      const highest = both.reduce((one, other) => other.high > one.high ? other : one);
      const lowest = both.reduce((one, other) => other.low < one.low ? other : one);
      setFresh(find("curve-high"), [highest.high_beside, told(Math.max(...ends))].filter(Boolean).join("\n"));
      setFresh(find("curve-low"), [lowest.low_beside, told(low)].filter(Boolean).join("\n"));
      const stages = this.plan.stages.map((stage) => stage.title).join(", ");
      setText(
        find("curve-words"),
        curve.described ?? phrase("script-between-and-through", { upper: upper(curve.quantity), told: told(curve.low), "told-2": told(curve.high), stages })
      );
    }
    drawStages() {
      const { stages } = this.plan;
      const mark2 = JSON.stringify(stages);
      if (find("chart-columns").dataset.mark === mark2) return;
      find("chart-columns").dataset.mark = mark2;
      find("chart-columns").replaceChildren(
        ...stages.map((stage, k) => {
          const column = element("div", "column");
          column.append(span("letter", letterOf(k)));
          column.style.setProperty("flex-grow", String(stage.bars));
          return column;
        })
      );
      this.listStages();
    }
    listStages() {
      const { stages } = this.plan;
      const list = find("stage-line");
      while (list.children.length > stages.length) list.lastElementChild?.remove();
      while (list.children.length < stages.length) {
        const item = element("li");
        item.append(span("letter", ""), span("stage-title", ""), span("stage-bars", ""), span("stage-bpm", ""));
        list.append(item);
      }
      for (const [k, stage] of stages.entries()) {
        const [letter, title, bars, bpm] = list.children[k].children;
        setText(letter, letterOf(k));
        setFresh(title, stage.title);
        setFresh(bars, `${phrase("script-count-bars", { n: stage.bars })}${stage.seconds_text ? `, ${stage.seconds_text}` : ""}`);
        setFresh(bpm, tempoWords(stage.bpm));
      }
    }
  };
  var tempoWords = (bpm) => phrase("script-beats-min", { bpm: Math.round(bpm) });

  // plan_store.js
  var KEPT = "sonify-plan";
  var STEPS_BACK = 200;
  var STEPS_KEPT = 20;
  var ONE_GESTURE_MS = 900;
  var NEW_PLAN = { scene: null, set: {}, rules: {}, drawn: {}, edits: {}, sounds: {}, class: null, scaffold: "full", seed: 0, plan_id: "", class_id: "" };
  var NO_CHANGES = { set: {}, rules: {}, drawn: {}, edits: {} };
  var isChanged = ({ set, rules, drawn: drawn2, edits }) => [set, rules, drawn2, edits].some((changes2) => Object.keys(changes2).length > 0);
  var newId = () => [...crypto.getRandomValues(new Uint8Array(8))].map((byte) => byte.toString(16).padStart(2, "0")).join("");
  var begun = (scene, id = newId()) => ({ scene, ...NO_CHANGES, sounds: {}, plan_id: scene ? id : "" });
  var Store = class extends EventTarget {
    constructor() {
      super();
      this.now = NEW_PLAN;
      this.before = [];
      this.after = [];
      this.last = { mark: "", at: 0 };
      try {
        const kept = JSON.parse(sessionStorage.getItem(KEPT) ?? "null");
        if (kept?.now) Object.assign(this, { now: { ...NEW_PLAN, ...kept.now }, before: kept.before ?? [] });
      } catch {
      }
    }
    // Changes with the same mark that follow each other quickly, such as the moves of one slider, are one step back.
    /** @param {Partial<Inputs>} part */
    change(part, mark2 = "") {
      const next = { ...this.now, ...part };
      if (JSON.stringify(next) === JSON.stringify(this.now)) return;
      const at = performance.now();
      const same = mark2 && mark2 === this.last.mark && at - this.last.at < ONE_GESTURE_MS;
      if (!same) this.before = [...this.before, this.now].slice(-STEPS_BACK);
      this.after = [];
      this.last = { mark: mark2, at };
      this.move(next);
    }
    undo() {
      const next = this.before.pop();
      if (!next) return;
      this.after.push(this.now);
      this.last = { mark: "", at: 0 };
      this.move(next);
    }
    redo() {
      const next = this.after.pop();
      if (!next) return;
      this.before.push(this.now);
      this.last = { mark: "", at: 0 };
      this.move(next);
    }
    /** @param {Inputs} next */
    move(next) {
      this.now = next;
      this.keep();
      this.dispatchEvent(new Event("change"));
    }
    keep() {
      for (const before of [this.before.slice(-STEPS_KEPT), []]) {
        try {
          sessionStorage.setItem(KEPT, JSON.stringify({ now: this.now, before }));
          return;
        } catch {
        }
      }
    }
    // Nothing of it is left, and there is no way back.
    forget() {
      Object.assign(this, { now: NEW_PLAN, before: [], after: [] });
      try {
        sessionStorage.clear();
      } catch {
      }
      this.dispatchEvent(new Event("change"));
    }
    /** @returns {ClassFacts} */
    get room() {
      return { ...start.class, ...this.now.class?.facts, ...this.now.class };
    }
  };
  var store = new Store();

  // plan_needs.js
  var isNeed = (text, name) => text === name || text.startsWith(`${name}:`);
  function held(name) {
    return store.room.needs.filter((text) => isNeed(text, name)).map((text) => {
      const [, pupils, group] = text.match(/: *(\d+)?(?: *in group (\d+))?$/) ?? [];
      return { pupils: Number(pupils ?? 1), group: Number(group ?? 0) };
    });
  }
  function line(name, { pupils, group }) {
    if (pupils === 1 && !group) return name;
    return `${name}: ${pupils}${group ? ` in group ${group}` : ""}`;
  }
  var NeedCounts = class {
    /** @param {(needs: string[], words: string, mark: string) => void} change @param {string[]} names in their order */
    constructor(change, names) {
      this.change = change;
      this.names = names;
      this.places = findAll("[data-who]", HTMLElement);
      for (const place of this.places) {
        place.addEventListener("change", (event) => this.changed(place, event.target));
        place.addEventListener("click", (event) => {
          if (event.target instanceof HTMLButtonElement) this.another(place);
        });
      }
    }
    /** @param {string} name @param {Who[]} rows @param {string} words */
    write(name, rows, words) {
      const lines = [...new Set(rows.map((who) => line(name, who)))];
      const needs = this.names.flatMap((each) => each === name ? lines : store.room.needs.filter((text) => isNeed(text, each)));
      this.change(needs, words, `class.needs.${name}`);
    }
    /** @param {HTMLElement} place @param {EventTarget | null} box */
    changed(place, box) {
      const name = place.dataset.who ?? "";
      const rows = held(name);
      const index = findAll(".who", HTMLElement, place).findIndex((row) => box instanceof Node && row.contains(box));
      if (index < 0 || index >= rows.length) return;
      if (box instanceof HTMLSelectElement) rows[index].group = Number(box.value);
      if (box instanceof HTMLInputElement) {
        const pupils = Number(box.value);
        const max = store.room.pupils;
        if (!box.value || !Number.isInteger(pupils) || pupils < 0 || pupils > max) {
          showError({ message: phrase("script-type-a-whole-number-up", { name: box.labels?.[0]?.textContent ?? name, max }), where: "class.needs", typed: true });
          return;
        }
        rows[index].pupils = pupils;
      }
      const left = rows.filter((who) => who.pupils);
      this.write(name, left, phrase("script-need-now", { need: name, said: left.map((who) => this.told(who)).join("; ") || phrase("script-none") }));
      if (!left.length) findIn(document, `[data-need="${CSS.escape(name)}"]`, HTMLInputElement).focus();
    }
    /** @param {HTMLElement} place */
    another(place) {
      const name = place.dataset.who ?? "";
      const rows = held(name);
      const taken = new Set(rows.map((who) => who.group));
      const group = Array.from({ length: store.room.groups }, (_, at) => at + 1).find((each) => !taken.has(each));
      if (!group) return;
      this.write(name, [...rows, { pupils: 1, group }], phrase("script-need-now", { need: name, said: this.told({ pupils: 1, group }) }));
      this.show();
      findAll("select", HTMLSelectElement, place).at(-1)?.focus();
    }
    /** @param {Who} who */
    told({ pupils, group }) {
      return group ? phrase("script-need-in", { n: pupils, group }) : String(pupils);
    }
    // The boxes of each ticked need; those that have the focus stay as they are.
    show() {
      for (const place of this.places) {
        const name = place.dataset.who ?? "";
        const rows = held(name);
        place.hidden = !rows.length;
        while (findAll(".who", HTMLElement, place).length > rows.length) findAll(".who", HTMLElement, place).at(-1)?.remove();
        while (findAll(".who", HTMLElement, place).length < rows.length) findIn(place, "button", HTMLButtonElement).before(this.row(name));
        findAll(".who", HTMLElement, place).forEach((row, at) => this.fill(row, rows[at]));
        findIn(place, "button", HTMLButtonElement).hidden = rows.length >= store.room.groups;
      }
    }
    /** @param {string} name */
    row(name) {
      const row = document.createElement("span");
      row.className = "who";
      const [count, group] = [document.createElement("label"), document.createElement("label")];
      const input = document.createElement("input");
      Object.assign(input, { type: "number", min: "0", step: "1", inputMode: "numeric" });
      count.append(phrase("script-need-how-many", { need: name }), " ", input);
      group.append(phrase("script-need-which"), " ", document.createElement("select"));
      row.append(count, " ", group);
      return row;
    }
    /** @param {HTMLElement} row @param {Who} who */
    fill(row, { pupils, group }) {
      const input = findIn(row, "input", HTMLInputElement);
      input.max = String(store.room.pupils);
      if (document.activeElement !== input || input.value !== "") input.value = String(pupils);
      const select = findIn(row, "select", HTMLSelectElement);
      const most = Math.max(store.room.groups, group);
      if (select.options.length !== most + 1) {
        const names = Array.from({ length: most + 1 }, (_, at) => at ? phrase("script-need-group", { group: at }) : phrase("script-need-any-group"));
        select.replaceChildren(...names.map((words, at) => new Option(words, String(at))));
      }
      select.value = String(group);
    }
  };

  // plan_class.js
  var textIn = (place) => place?.textContent.trim() ?? "";
  var ClassForm = class {
    /** @param {Told} told */
    constructor(told) {
      this.told = told;
      this.rows = findAll("[data-instrument]", HTMLElement).map((row) => {
        const [tick, count] = findAll("input", HTMLInputElement, row);
        return { row, tick, count, id: row.dataset.instrument ?? "", name: textIn(row) };
      });
      for (const input of findAll("[data-class]", HTMLInputElement)) {
        input.addEventListener("change", () => this.number(input));
      }
      for (const input of findAll("[data-need]", HTMLInputElement)) {
        input.addEventListener("change", () => this.need(input));
      }
      this.counts = new NeedCounts((needs, words, mark2) => {
        clearErrors();
        this.change({ needs }, words, mark2);
      }, start.needs);
      for (const input of findAll('[name="scaffold"]', HTMLInputElement)) {
        input.addEventListener("change", () => {
          told(phrase("script-the-sheets", { trim: textIn(input.parentElement) }));
          store.change({ scaffold: input.value });
        });
      }
      for (const each of this.rows) {
        each.tick.addEventListener("change", () => this.stock(each, each.tick.checked ? 1 : 0));
        each.count.addEventListener("change", () => this.stock(each, Number(each.count.value)));
      }
      find("cupboard-search").addEventListener("input", () => this.filter());
      find("cupboard-ticked").addEventListener("change", () => this.filter());
      find("cupboard-filled").addEventListener("click", () => this.fill(start.class.cupboard, phrase("script-a-well-filled-cupboard")));
      find("cupboard-empty").addEventListener("click", () => this.fill({}, phrase("script-the-cupboard-is-empty-the")));
    }
    /** @param {Partial<ClassFacts>} part @param {string} words */
    change(part, words, mark2 = "") {
      this.told(words);
      const { facts, ...given } = store.now.class ?? {};
      store.change({ class: { ...start.class, ...facts, ...given, ...part }, class_id: store.now.class_id || newId() }, mark2);
    }
    /** @param {HTMLInputElement} input */
    number(input) {
      const name = input.dataset.class ?? "";
      const label = textIn(input.labels?.[0] ?? null);
      const value = Number(input.value);
      const { min, max } = input;
      if (!input.value || !Number.isInteger(value) || value < Number(min) || value > Number(max)) {
        showError({ message: phrase("script-type-a-whole-number-from", { label, min, max }), where: `class.${name}`, typed: true });
        setText(find("bar-words"), phrase("script-not-taken-over-from-to", { "to-lower-case": label.toLowerCase(), min, max }));
        return;
      }
      clearErrors();
      this.change({ [name]: value }, `${label}: ${value}.`, `class.${name}`);
    }
    /** @param {HTMLInputElement} input */
    need(input) {
      const ticked = start.needs.filter((need) => document.querySelector(`[data-need="${CSS.escape(need)}"]:checked`));
      const needs = ticked.flatMap((need) => {
        const held2 = store.room.needs.filter((each) => isNeed(each, need));
        return held2.length ? held2 : [need];
      });
      this.change({ needs }, `${textIn(input.parentElement)}: ${input.checked ? phrase("script-yes") : phrase("script-no")}.`);
    }
    /** @param {Stocked} row @param {number} wanted */
    stock({ id, name, count }, wanted) {
      if (!Number.isInteger(wanted) || wanted < 0 || wanted > Number(count.max)) {
        showError({ message: phrase("script-type-a-whole-number-up", { name, max: count.max }), where: `class.cupboard.${id}`, typed: true });
        return;
      }
      const cupboard = { ...store.room.cupboard };
      if (wanted) cupboard[id] = wanted;
      else delete cupboard[id];
      this.change({ cupboard }, `${name}: ${wanted || phrase("script-none")}.`, `class.cupboard.${id}`);
      if (!wanted && document.activeElement === count) this.rows.find((each) => each.id === id)?.tick.focus();
    }
    /** @param {Record<string, number>} cupboard @param {string} words */
    fill(cupboard, words) {
      this.change({ cupboard: { ...cupboard } }, words);
    }
    filter() {
      const words = find("cupboard-search", HTMLInputElement).value.toLowerCase().trim().split(/\s+/).filter(Boolean);
      const only = find("cupboard-ticked", HTMLInputElement).checked;
      let left = 0;
      for (const { row, tick } of this.rows) {
        row.hidden = only && !tick.checked || !words.every((word) => row.dataset.words?.includes(word));
        left += row.hidden ? 0 : 1;
      }
      for (const family of findAll(".family", HTMLElement)) {
        family.hidden = findAll("li", HTMLElement, family).every((row) => row.hidden);
      }
      find("cupboard-none").hidden = left > 0;
    }
    // Takes back what was typed and refused: the plan never had it. Whether there was anything.
    takeBack() {
      if (!document.querySelector('[data-error^="class."][data-typed="true"]:not([hidden])')) return false;
      this.show();
      return true;
    }
    // What stands in the form is the plan's own, not the server's answer: nothing may jump back while she types.
    show() {
      const room = store.room;
      clearErrors('[data-error^="class."][data-typed="true"]');
      for (const input of findAll("[data-class]", HTMLInputElement)) {
        if (document.activeElement !== input || input.value !== "") input.value = String(room[
          /** @type {'year'} */
          input.dataset.class
        ]);
      }
      for (const input of findAll("[data-need]", HTMLInputElement)) input.checked = room.needs.some((each) => isNeed(each, input.dataset.need ?? ""));
      this.counts.show();
      for (const input of findAll('[name="scaffold"]', HTMLInputElement)) input.checked = input.value === store.now.scaffold;
      for (const { tick, count, id, row } of this.rows) {
        const held2 = room.cupboard[id] ?? 0;
        tick.checked = held2 > 0;
        count.hidden = held2 === 0;
        if (held2) count.value = String(held2);
        row.classList.toggle("have", held2 > 0);
      }
      const kinds = Object.keys(room.cupboard).length;
      const all = Object.values(room.cupboard).reduce((sum, count) => sum + count, 0);
      const words = kinds ? phrase("script-of-2", { phrase: phrase("script-count-instruments", { n: all }), "phrase-2": phrase("script-count-kinds", { n: kinds }) }) : phrase("script-nothing-in-it-yet-the");
      setText(find("cupboard-words"), words);
      const { year, pupils, groups, minutes } = room;
      const cupboard = kinds ? phrase("script-of-3", { phrase: phrase("script-count-instruments", { n: all }), "phrase-2": phrase("script-count-kinds", { n: kinds }) }) : phrase("script-no-instruments");
      setText(find("class-words"), phrase("script-year-pupils-in-minutes", { year, pupils, phrase: phrase("script-count-groups", { n: groups }), minutes, cupboard }));
      if (find("cupboard-ticked", HTMLInputElement).checked && !find("cupboard").contains(document.activeElement)) this.filter();
    }
  };

  // plan_draw.js
  var ALONG = 0.25;
  var UP = 0.02;
  var LEAP = 0.1;
  var HAIR = 1e-3;
  var within = (value, low, high) => Math.min(Math.max(value, low), high);
  var figure2 = (value) => String(Number(value.toPrecision(4)));
  function valueAt(line2, place) {
    const k = line2.findIndex(([x]) => x > place);
    if (k === 0 || line2.length === 1) return line2[0][1];
    if (k < 0) return line2[line2.length - 1][1];
    const [[x0, y0], [x1, y1]] = [line2[k - 1], line2[k]];
    return x1 > x0 ? y0 + (y1 - y0) * (place - x0) / (x1 - x0) : y1;
  }
  function redrawn(line2, stroke) {
    const from = Math.min(...stroke.map(([x]) => x));
    const to = Math.max(...stroke.map(([x]) => x));
    const kept = line2.map(([x, y], k) => (
      /** @type {Place} */
      [line2[k + 1]?.[0] === x && x > 0 ? x - HAIR : x, y]
    ));
    return [...kept.filter(([x]) => x < from - HAIR), ...[...stroke].sort(([a], [b]) => a - b), ...kept.filter(([x]) => x > to + HAIR)];
  }
  var DrawView = class {
    /** @type {Drawing | null | undefined} */
    drawing;
    /** @type {DrawnRow} */
    row;
    /** @param {(words: string) => void} told */
    constructor(told) {
      this.told = told;
      this.number = 0;
      this.pen = 0.5;
      this.mark = "";
      this.axes = /* @__PURE__ */ new Map();
      this.stroke = null;
      const choice = find("draw-choice", HTMLSelectElement);
      choice.addEventListener("change", () => {
        this.number = Number(choice.value);
        this.draw();
      });
      for (const id of ["draw-from", "draw-to"]) find(id).addEventListener("change", () => this.setAxis());
      const shape = find("draw-shape", HTMLSelectElement);
      shape.addEventListener("change", () => shape.value && this.change(this.shaped(shape.value)));
      const name = find("draw-name", HTMLInputElement);
      const unit = find("draw-unit-name", HTMLInputElement);
      find("draw-add").addEventListener("click", () => this.restructure({ add: name.value, unit: unit.value }));
      find("draw-rename").addEventListener("click", () => this.restructure({ rename: this.row?.number, name: name.value }));
      find("draw-remove").addEventListener("click", () => this.restructure({ remove: this.row?.number }));
      this.listen();
    }
    // A curve more, another name for one, or one less: the server writes it into the scene's text, with its rules.
    /** @param {Record<string, string | number | undefined>} curve */
    async restructure(curve) {
      const { scene } = store.now;
      clearErrors('[data-error="drawn"]');
      try {
        const found = await askAbout("/api/read", store.now, { body: (sent) => ({ .../** @type {any} */
        sent, kind: "curve", curve }) });
        if (scene !== store.now.scene) return;
        find("draw-name", HTMLInputElement).value = "";
        if ("add" in curve) this.number = Number.MAX_SAFE_INTEGER;
        store.change({ scene: found.inputs.scene, ...NO_CHANGES });
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        showError({ message: error.message, where: "drawn" });
      }
    }
    listen() {
      const field = find("draw-field");
      field.addEventListener("pointerdown", (event) => {
        if (event.button !== 0 || !this.row) return;
        field.setPointerCapture(event.pointerId);
        this.stroke = [this.placeOf(event)];
        event.preventDefault();
      });
      field.addEventListener("pointermove", (event) => {
        if (!this.stroke) return;
        const moves = event.getCoalescedEvents?.() ?? [];
        this.stroke.push(...(moves.length ? moves : [event]).map((each) => this.placeOf(each)));
        setState(find("draw-stroke"), "d", this.path(this.stroke));
      });
      field.addEventListener("pointerup", () => this.lift());
      field.addEventListener("pointercancel", () => {
        this.stroke = null;
        this.draw();
      });
      find("draw-pen").addEventListener("keydown", (event) => this.key(event));
    }
    lift() {
      const { stroke } = this;
      this.stroke = null;
      if (stroke) this.change({ points: redrawn(this.row.line, stroke) });
    }
    // What it stands on ------------------------------------------------------------------------------------------------
    get stages() {
      return this.drawing?.stages ?? [];
    }
    // The axis: what she chose, else from nothing to a little above what is drawn.
    /** @returns {[low: number, high: number]} */
    get axis() {
      const { name, low, high } = this.row;
      const chosen2 = this.axes.get(name);
      if (chosen2) return [Math.min(chosen2[0], low), Math.max(chosen2[1], high)];
      const foot = low > 0 && low < 0.7 * high ? 0 : low;
      const head = high + 0.15 * (high - foot || Math.abs(high) || 1);
      return [foot, Number(head.toPrecision(2)) >= high ? Number(head.toPrecision(2)) : head];
    }
    setAxis() {
      const [low, high] = ["draw-from", "draw-to"].map((id) => Number(find(id, HTMLInputElement).value));
      if (Number.isFinite(low) && high > low) this.axes.set(this.row.name, [low, high]);
      this.draw();
    }
    /** @param {{ clientX: number, clientY: number }} at @returns {Place} */
    placeOf({ clientX, clientY }) {
      const box = find("draw-field").getBoundingClientRect();
      const [low, high] = this.axis;
      const across = within((clientX - box.left) / box.width, 0, 1) * this.stages.length;
      const up = within(1 - (clientY - box.top) / box.height, 0, 1);
      return [Number(across.toFixed(3)), Number((low + (high - low) * up).toPrecision(4))];
    }
    // Changing it ------------------------------------------------------------------------------------------------------
    /** @param {Record<string, unknown>} edit @param {string} mark */
    change(edit, mark2 = "") {
      const [low, high] = this.axis;
      const number = String(this.row.number);
      const sent = { ...edit, ..."points" in edit ? { low, high, ...this.drawing?.circle ? { close: this.stages.length } : {} } : {} };
      this.told(phrase("script-drawn", { name: upper(this.row.name) }));
      store.change({ drawn: { ...store.now.drawn, [number]: sent } }, mark2);
    }
    /** @param {string} shape */
    shaped(shape) {
      const { low, high } = this.row;
      const top = low === high ? high + 1 : high;
      const [from, to] = ["falls", "decays"].includes(shape) ? [top, low] : [low, top];
      return { shape, from, ...shape === "steady" ? {} : { to }, ...["swings", "repeats"].includes(shape) ? { times: 3 } : {} };
    }
    /** @param {KeyboardEvent} event */
    key(event) {
      if (event.ctrlKey || event.altKey || event.metaKey || !this.row) return;
      const [low, high] = this.axis;
      const along = { ArrowLeft: -ALONG, ArrowRight: ALONG };
      const up = { ArrowUp: UP, ArrowDown: -UP, PageUp: LEAP, PageDown: -LEAP, Home: -1, End: 1 };
      if (event.key in along) {
        this.pen = within(this.pen + along[event.key], 0, this.stages.length);
        this.draw();
      } else if (event.key in up) {
        const { line: line2 } = this.row;
        const value = within(valueAt(line2, this.pen) + up[event.key] * (high - low), low, high);
        const beside = [this.pen - ALONG, this.pen + ALONG].filter((x) => x >= 0 && x <= this.stages.length);
        const stroke = [[this.pen, value], ...beside.map((x) => (
          /** @type {Place} */
          [x, valueAt(line2, x)]
        ))];
        this.row = { ...this.row, line: redrawn(line2, stroke) };
        this.draw();
        this.change({ points: this.row.line }, `drawn.${this.row.number}`);
      } else return;
      event.preventDefault();
    }
    // Showing it -------------------------------------------------------------------------------------------------------
    /** @param {Drawing | null | undefined} drawing */
    show(drawing) {
      this.drawing = drawing;
      const rows = drawing?.quantities ?? [];
      find("draw-panel").hidden = !drawing;
      for (const id of ["draw-choice", "draw-how", "draw-board", "draw-ends", "draw-typed", "draw-rename", "draw-remove"]) find(id).hidden = !rows.length;
      if (!rows.length || this.stroke) return;
      this.number = within(this.number, 0, rows.length - 1);
      const choice = find("draw-choice", HTMLSelectElement);
      const mark2 = JSON.stringify([rows.map(({ name }) => name), this.stages.map(({ title }) => title)]);
      if (this.mark !== mark2) {
        this.mark = mark2;
        choice.replaceChildren(...rows.map(({ name }, k) => new Option(upper(name), String(k))));
        const shapes = start.shapes.filter(([, , closes]) => closes || !drawing?.circle);
        find("draw-shape").replaceChildren(new Option("", ""), ...shapes.map(([name, words]) => new Option(words, name)));
        find("draw-columns").replaceChildren(...this.stages.map(({ title }) => element("div", "column", title)));
        find("draw-values").replaceChildren(...this.stages.map(({ title }, k) => this.typed(title, k)));
      }
      choice.value = String(this.number);
      this.row = rows[this.number];
      this.draw();
    }
    /** @param {string} title @param {number} k */
    typed(title, k) {
      const label = element("label", "", title);
      const input = Object.assign(element("input"), { type: "number", step: "any" });
      input.dataset.stage = String(k);
      input.addEventListener("change", () => {
        const values = [...find("draw-values").querySelectorAll("input")].map((each) => Number(each.value));
        if (input.value !== "" && values.every(Number.isFinite)) this.change({ values });
      });
      label.append(input);
      return label;
    }
    /** @param {Place[]} line */
    path(line2) {
      const [low, high] = this.axis;
      const places = line2.map(([x, y]) => `${(1e3 * x / this.stages.length).toFixed(1)} ${(1e3 - 1e3 * (y - low) / (high - low)).toFixed(1)}`);
      return places.length ? `M${places.join("L")}` : "";
    }
    draw() {
      const { drawing } = this;
      const row = drawing?.quantities[this.number];
      if (!row || !drawing) return;
      if (row.name !== this.row?.name) this.row = row;
      const { line: line2, unit_shown: unit } = this.row;
      const [low, high] = this.axis;
      setState(find("draw-line"), "d", this.path(line2));
      setState(find("draw-stroke"), "d", this.stroke ? this.path(this.stroke) : "");
      setText(find("draw-high"), `${figure2(high)} ${unit}`);
      setText(find("draw-low"), `${figure2(low)} ${unit}`);
      setText(find("draw-unit"), unit);
      for (const [id, end] of Object.entries({ "draw-from": low, "draw-to": high })) {
        if (document.activeElement !== find(id)) find(id, HTMLInputElement).value = figure2(end);
      }
      find("draw-shape", HTMLSelectElement).value = row.shape && start.shapes.some(([name]) => name === row.shape) ? row.shape : "";
      for (const [k, input] of [...find("draw-values").querySelectorAll("input")].entries()) {
        if (document.activeElement !== input) input.value = figure2(valueAt(line2, k + 0.5));
      }
      this.drawPen();
    }
    drawPen() {
      const { line: line2, unit_shown: unit } = this.row;
      const [low, high] = this.axis;
      const value = valueAt(line2, this.pen);
      const pen = find("draw-pen");
      pen.style.setProperty("--across", String(this.pen / this.stages.length));
      pen.style.setProperty("--up", String((value - low) / (high - low)));
      const stage = Math.min(Math.floor(this.pen), this.stages.length - 1);
      setState(pen, "aria-valuemin", figure2(low));
      setState(pen, "aria-valuemax", figure2(high));
      setState(pen, "aria-valuenow", figure2(value));
      const share = Math.round(100 * (this.pen - stage));
      setState(pen, "aria-valuetext", phrase("script-pen-at", { name: upper(this.row.name), value: figure2(value), unit, share, stage: this.stages[stage].title }));
    }
  };

  // plan_map.js
  var SVG_NAMES = "http://www.w3.org/2000/svg";
  function playingField(group, level) {
    const svg = document.createElementNS(SVG_NAMES, "svg");
    svg.setAttribute("class", "map-field");
    svg.setAttribute("aria-hidden", "true");
    const rect = document.createElementNS(SVG_NAMES, "rect");
    const tall = Math.round(35 + 65 * Math.min(Math.max(level, 0), 1));
    const places = { x: "0", y: `${100 - tall}%`, width: "100%", height: `${tall}%` };
    for (const [name, value] of Object.entries(places)) rect.setAttribute(name, value);
    rect.setAttribute("fill", `url(#hatch-${(group - 1) % 12 + 1})`);
    svg.append(rect);
    return svg;
  }
  var PieceMap = class {
    constructor() {
      this.rows = /* @__PURE__ */ new Map();
      this.mark = "";
      this.told = [];
    }
    /** @param {Plan} plan */
    show({ map, stages }) {
      this.frame(map, stages);
      const all = stages.reduce((sum, stage) => sum + stage.bars, 0);
      const columns = findAll("col:not(.map-names)", HTMLElement, find("map"));
      for (const [k, stage] of stages.entries()) {
        columns[k].style.setProperty("width", `${(stage.bars / all * 62).toFixed(2)}%`);
      }
      for (const row of map) this.fill(
        /** @type {HTMLTableRowElement} */
        this.rows.get(row.name),
        row,
        stages
      );
      this.explain(map);
    }
    // The table itself is built anew only where parts or stages come or go.
    /** @param {MapRow[]} map @param {PlanStage[]} stages */
    frame(map, stages) {
      const mark2 = JSON.stringify([map.map((row) => row.name), stages.map((stage) => stage.title)]);
      if (this.mark === mark2) return;
      const table = element("table", "map");
      const head = element("tr");
      head.append(heading("col", phrase("script-part")));
      const columns = document.createElement("colgroup");
      columns.append(element("col", "map-names"));
      for (const [k, stage] of stages.entries()) {
        const cell = heading("col", letterOf(k));
        cell.append(span("unseen", ` ${stage.title}`));
        head.append(cell);
        columns.append(element("col"));
      }
      const body = document.createElement("tbody");
      this.rows = new Map(map.map((row) => [row.name, this.emptyRow(stages.length)]));
      body.append(...this.rows.values());
      const top = document.createElement("thead");
      top.append(head);
      table.append(columns, top, body);
      find("map").replaceChildren(table);
      if (this.mark) freshen(find("map"));
      this.mark = mark2;
    }
    /** @param {number} stages */
    emptyRow(stages) {
      const line2 = element("tr");
      const name = heading("row", "");
      const words = element("div", "map-words");
      words.append(span("map-part", ""), span("map-with", ""), span("map-swap", ""), span("map-swap", ""));
      name.append(words);
      line2.append(name, ...Array.from({ length: stages }, () => element("td")));
      return line2;
    }
    /** @param {HTMLTableRowElement} line @param {MapRow} row @param {PlanStage[]} stages */
    fill(line2, row, stages) {
      const [name, ...cells] = line2.cells;
      const words = findIn(name, ".map-words");
      if (name.dataset.group !== String(row.group)) {
        name.dataset.group = String(row.group);
        name.querySelector("svg")?.remove();
        name.prepend(badge((row.group - 1) % 12 + 1));
        findIn(name, "svg text").textContent = String(row.group);
      }
      setText(words.children[0], "");
      words.children[0].append(span("unseen", phrase("script-group", { group: row.group })), row.name);
      const swap = row.swaps.map(({ wanted, given, reason }) => phrase("script-in-place-of", { upper: upper(given), wanted, reason })).join(" ");
      const players = row.players ? `, ${phrase("script-count-players", { n: row.players })}` : "";
      setFresh(words.children[1], `${row.instrument}${players}${row.part ? `: ${row.part}` : ""}`);
      setFresh(words.children[2], swap);
      setFresh(words.children[3], row.sharing);
      for (const [k, cell] of cells.entries()) this.fillCell(cell, row, k, stages[k].title);
    }
    /** @param {HTMLElement} cell @param {MapRow} row @param {number} k @param {string} stage */
    fillCell(cell, row, k, stage) {
      const level = Number(row.stages[k] ?? 0);
      const mark2 = `${row.group} ${level}`;
      if (cell.dataset.mark === mark2) return;
      if (cell.dataset.mark !== void 0 && Number(cell.dataset.mark.split(" ")[1]) > 0 !== level > 0) freshen(cell);
      cell.dataset.mark = mark2;
      if (level > 0) cell.replaceChildren(playingField(row.group, level), span("unseen", phrase("script-plays-in", { stage })));
      else cell.replaceChildren(span("unseen", phrase("script-rests")));
    }
    // The textures in use, each explained below the map.
    /** @param {MapRow[]} map */
    explain(map) {
      const words = [...new Set(map.map((row) => row.part))].filter((word) => start.terms[word]);
      if (words.join() === this.told.join()) return;
      this.told = words;
      find("map-terms").replaceChildren(
        ...words.map((word) => {
          const line2 = element("p", "term-line");
          line2.append(span("", word), ...termParts(word));
          return line2;
        })
      );
    }
  };
  function heading(scope, text) {
    const cell = element("th", "", text);
    cell.scope = scope;
    return cell;
  }

  // plan_question.js
  var AGAIN_MS = 700;
  var Question = class {
    // waiting: told why an answer takes longer than it should.
    /**
     * @param {string} path
     * @param {(found: any) => void} answered
     * @param {(error: Refused) => void} refused
     * @param {(words: string) => void} waiting
     */
    constructor(path, answered2, refused, waiting = () => {
    }) {
      this.path = path;
      this.answered = answered2;
      this.refused = refused;
      this.waiting = waiting;
      this.serial = 0;
      this.timer = 0;
      this.running = null;
    }
    /** @param {Inputs} body @param {number} waitMs */
    ask(body, waitMs) {
      this.drop();
      const mine = this.serial;
      this.timer = setTimeout(() => this.send(body, mine), waitMs);
    }
    // Whatever is under way is of no interest any more.
    drop() {
      this.serial += 1;
      clearTimeout(this.timer);
      this.running?.abort();
    }
    /** @param {Inputs} body @param {number} mine */
    async send(body, mine) {
      const running = new AbortController();
      this.running = running;
      try {
        const found = await askAbout(this.path, body, { signal: running.signal });
        if (mine !== this.serial) return;
        if (found.waiting) {
          this.waiting(found.waiting);
          this.timer = setTimeout(() => this.send(body, mine), AGAIN_MS);
        } else this.answered(found);
      } catch (error) {
        if (aborted(error)) return;
        if (!(error instanceof Refused)) throw error;
        if (mine === this.serial) this.refused(error);
      }
    }
  };

  // plan_rules.js
  var CURVE_WORDS = { linear: phrase("script-equal-steps"), logarithmic: phrase("script-equal-ratios") };
  var ENDS = [[0, phrase("script-low-end")], [1, phrase("script-high-end")]];
  var RuleCard = class {
    // The parts that `curveField` and `result` make.
    /** @type {Field} */
    curve;
    /** @type {HTMLElement} */
    body;
    /** @type {HTMLElement} */
    heard;
    /** @type {HTMLElement} */
    heardBody;
    /** @type {HTMLElement} */
    verdict;
    /** @type {HTMLElement} */
    exaggeration;
    /** @type {HTMLElement} */
    control;
    /** @param {RuleRow} rule @param {Rules} hear */
    constructor(rule, hear) {
      this.index = rule.index;
      this.fields = [];
      const where = `rules.${rule.index}`;
      this.box = element("details", "key rule");
      this.box.open = rule.index === 0;
      this.box.dataset.rule = String(rule.index);
      const summary = element("summary");
      this.title = element("h4");
      this.mark = span("pill", "");
      summary.append(this.title, this.mark);
      this.sentence = element("p", "key-sentence");
      this.why = element("p");
      this.meaning = element("p", "hint");
      this.error = element("p", "field-error");
      Object.assign(this.error, { hidden: true });
      this.error.dataset.error = where;
      const ends = element("div", "ends");
      ends.append(...ENDS.map(([end, words]) => this.end(rule, end, words, hear)));
      this.box.append(summary, this.sentence, this.why, this.meaning, ends, this.curveField(rule, hear), this.error, ...this.result(rule));
    }
    /** @param {RuleRow} rule @param {End} end @param {string} words @param {Rules} hear */
    end(rule, end, words, hear) {
      const box = element("fieldset", "end");
      box.append(element("legend", "", words));
      const sides = [["from", rule.quantity], ["to", start.controls[rule.control]]];
      for (const [side, label] of sides) {
        const field = new Field({
          where: `rules.${rule.index}.${side}.${end}`,
          label: upper(label),
          changed: (text, said) => hear.changeEnd(rule.index, side, end, text, `${words}. ${said}`),
          reset: () => hear.resetEnd(rule.index, side, end)
        });
        this.fields.push({ field, side, end });
        box.append(field.box);
      }
      return box;
    }
    /** @param {RuleRow} rule @param {Rules} hear */
    curveField(rule, hear) {
      this.curve = new Field({
        where: `rules.${rule.index}.curve`,
        label: phrase("script-in-between-label"),
        changed: (text) => hear.change(rule.index, { curve: text }, `rules.${rule.index}.curve`, phrase("script-in-between", { text: CURVE_WORDS[text] ?? text })),
        reset: () => hear.reset(rule.index, "curve")
      });
      return this.curve.box;
    }
    /** @param {RuleRow} rule */
    result(rule) {
      const heads = [upper(rule.quantity), upper(start.controls[rule.control])];
      const { table, body } = keyTable(phrase("script-the-key"), heads);
      const heard = keyTable(phrase("script-in-this-piece"), [phrase("script-stage"), ...heads]);
      this.body = body;
      this.heard = heard.table;
      this.heardBody = heard.body;
      this.verdict = element("p", "verdict");
      this.exaggeration = element("p", "exaggeration");
      const explained = element("p", "term-line");
      explained.append(span("", phrase("script-why-exaggerate")), ...termParts("exaggeration"));
      const control = element("p", "term-line");
      this.control = control;
      const tables = element("div", "scroll tables");
      tables.append(table, this.heard);
      Object.assign(tables, { tabIndex: 0, role: "group", ariaLabel: phrase("script-key", { heads: heads.join(phrase("script-and")) }) });
      return [tables, this.verdict, this.exaggeration, control, explained];
    }
    /** @param {RuleRow} rule @param {RuleChange | undefined} changes @param {RuleRow} own */
    show(rule, changes2, own) {
      const part = rule.part ? ` (${rule.part})` : "";
      setText(this.title, phrase("script-heard-as", { upper: upper(rule.quantity), control: start.controls[rule.control], part }));
      setFresh(this.mark, rule.audible ? phrase("script-heard") : phrase("script-hard-to-hear"));
      setState(this.mark, "data-good", String(Boolean(rule.audible)));
      setFresh(this.sentence, rule.sentence);
      setText(this.why, rule.why);
      setText(this.meaning, rule.meaning ? `${upper(rule.quantity)}: ${rule.meaning}.` : "");
      for (const { field, side, end } of this.fields) {
        const steps = rule[end ? (
          /** @type {const} */
          `${side}_high`
        ) : (
          /** @type {const} */
          `${side}_low`
        )];
        field.show({ steps, changed: changes2?.[side] !== void 0 && changes2[side][end] !== own[side][end] });
      }
      const choices = rule.curves.map((name) => (
        /** @type {[string, string]} */
        [name, CURVE_WORDS[name] ? `${name}: ${CURVE_WORDS[name]}` : name]
      ));
      this.curve.box.hidden = choices.length < 2;
      this.curve.show({ choices, chosen: rule.curve, changed: changes2?.curve !== void 0 && changes2.curve !== own.curve });
      fillTable(this.body, rule.key);
      this.heard.hidden = !rule.heard?.length;
      fillTable(this.heardBody, rule.heard ?? []);
      setFresh(this.verdict, rule.verdict);
      setFresh(this.exaggeration, rule.exaggeration);
      if (!this.control.children.length && start.terms[rule.control]) {
        this.control.append(span("", rule.control === start.controls[rule.control] ? phrase("script-what-is", { control: rule.control }) : phrase("script-the-musician-s-word", { control: rule.control })), ...termParts(rule.control));
      }
    }
  };
  function fillTable(body, rows) {
    while (body.children.length > rows.length) body.lastElementChild?.remove();
    while (body.children.length < rows.length) {
      const line2 = element("tr");
      line2.append(heading("row", ""), ...rows[0].slice(1).map(() => element("td")));
      body.append(line2);
    }
    for (const [k, row] of rows.entries()) {
      for (const [j, text] of row.entries()) setFresh(body.children[k].children[j], text);
    }
  }
  function keyTable(captionText, heads) {
    const table = element("table", "key-table");
    const top = document.createElement("thead");
    const line2 = element("tr");
    line2.append(...heads.map((text) => heading("col", text)));
    top.append(line2);
    const body = document.createElement("tbody");
    table.append(element("caption", "", captionText), top, body);
    return { table, body };
  }
  function ruleAt(rules, index) {
    return (
      /** @type {RuleRow} */
      rules.find((rule) => rule.index === index)
    );
  }
  var Rules = class {
    /** @param {Told} told */
    constructor(told) {
      this.cards = /* @__PURE__ */ new Map();
      this.told = told;
      this.names = "";
      this.shown = [];
      this.written = [];
      find("reset-rules").addEventListener("click", () => {
        told(phrase("script-the-rules-are-as-the"));
        store.change({ rules: {} });
        find("rules-title").focus();
      });
    }
    // Both ends go to the server together: the one that was moved, and the other as it is.
    /** @param {number} index @param {Side} side @param {End} end @param {string} text @param {string} said */
    changeEnd(index, side, end, text, said) {
      const own = store.now.rules[index]?.[side] ?? ruleAt(this.shown, index)[side];
      const texts = own.map((other, k) => k === end ? text : other);
      this.change(index, { [side]: texts }, `rules.${index}.${side}.${end}`, said);
    }
    // One end goes back to the scene's own; where the other is the scene's own too, nothing is left changed.
    /** @param {number} index @param {Side} side @param {End} end */
    resetEnd(index, side, end) {
      const written = ruleAt(this.written, index)[side];
      const texts = (store.now.rules[index]?.[side] ?? written).map((text, k) => k === end ? written[k] : text);
      if (texts.every((text, k) => text === written[k])) this.reset(index, side);
      else this.change(index, { [side]: texts }, "", phrase("script-as-the-scene-has-it-2"));
    }
    /** @param {number} index @param {RuleChange} part @param {string} mark @param {string} said */
    change(index, part, mark2, said) {
      this.told(said);
      store.change({ rules: { ...store.now.rules, [index]: { ...store.now.rules[index], ...part } } }, mark2);
    }
    /** @param {number} index @param {keyof RuleChange} key */
    reset(index, key) {
      const { [key]: _, ...kept } = store.now.rules[index] ?? {};
      const { [index]: __, ...others } = store.now.rules;
      this.told(phrase("script-as-the-scene-has-it-2"));
      store.change({ rules: Object.keys(kept).length ? { ...others, [index]: kept } : others });
    }
    // written: the rules as the scene has them, where they are known yet.
    /** @param {RuleRow[]} rules @param {RuleRow[] | undefined} written */
    show(rules, written) {
      this.shown = rules;
      this.written = written ?? rules;
      const names = JSON.stringify(rules.map((rule) => [rule.index, rule.quantity, rule.control, rule.part]));
      if (this.names !== names) {
        this.names = names;
        this.cards = new Map(rules.map((rule) => [rule.index, new RuleCard(rule, this)]));
        find("rules").replaceChildren(...[...this.cards.values()].map((card) => card.box));
        if (!rules.length) find("rules").append(element("p", "", phrase("script-no-rules")));
      }
      for (const rule of rules) {
        this.cards.get(rule.index)?.show(rule, store.now.rules[rule.index], ruleAt(this.written, rule.index));
      }
      find("reset-rules").hidden = !Object.keys(store.now.rules).length;
    }
  };

  // plan_boxes.js
  var [SOUND, HELD, SILENT2] = ["x", "-", "."];
  var COUNTS = { 1: [""], 2: ["", "&"], 4: ["", "e", "&", "a"] };
  var empty = (beats, each, bars) => ({ beats, each, cells: Array(beats * each * bars).fill(SILENT2), notes: Array(beats * each * bars).fill("") });
  function boxesOf(own, beats) {
    const rows = own.boxes.map((row) => [...row.replace(/\s/g, "")]);
    const each = Math.max(1, ...rows.map((row) => Math.round(row.length / beats)));
    const cells = rows.flatMap((row) => spread(row, beats * each / row.length));
    const left = [...own.notes ?? []];
    return { beats, each, cells, notes: cells.map((cell) => cell === SOUND ? left.shift() ?? "" : "") };
  }
  function spread(row, times) {
    return row.flatMap((cell, k) => Array.from({ length: times }, (_, n) => n === 0 ? cell : cell === HELD || row[k + 1] === HELD ? HELD : SILENT2));
  }
  function patternOf({ beats, each, cells, notes }, name) {
    const bar = beats * each;
    const rows = Array.from({ length: cells.length / bar }, (_, n) => cells.slice(n * bar, (n + 1) * bar));
    const chosen2 = notes.filter((note, k) => cells[k] === SOUND && note);
    return {
      ...name && { name },
      boxes: rows.map((row) => Array.from({ length: beats }, (_, n) => row.slice(n * each, (n + 1) * each).join("")).join(" ")),
      ...chosen2.length && chosen2.length === cells.filter((cell) => cell === SOUND).length && { notes: chosen2 }
    };
  }
  function reshaped(boxes, each, bars) {
    const made = empty(boxes.beats, each, bars);
    for (const [k, cell] of boxes.cells.entries()) {
      const at = Math.floor(k * each / boxes.each);
      if (at >= made.cells.length || cell === SILENT2) continue;
      if (cell === SOUND) [made.cells[at], made.notes[at]] = [SOUND, boxes.notes[k]];
      else for (let n = at; n < at + Math.max(1, each / boxes.each) && n < made.cells.length; n += 1) if (made.cells[n] === SILENT2 && made.cells[n - 1] !== SILENT2 && n % (boxes.beats * each)) made.cells[n] = HELD;
    }
    return made;
  }
  function pressed(boxes, k, held2, note) {
    const cells = [...boxes.cells];
    const notes = [...boxes.notes];
    const goesOn = held2 && k % (boxes.beats * boxes.each) > 0 && cells[k - 1] !== SILENT2;
    const next = cells[k] === SILENT2 ? SOUND : cells[k] === SOUND && goesOn ? HELD : SILENT2;
    cells[k] = next;
    notes[k] = next === SOUND ? note : "";
    if (next === SILENT2) for (let n = k + 1; cells[n] === HELD; n += 1) cells[n] = SILENT2;
    return { ...boxes, cells, notes };
  }
  function tapped(boxes, taps, held2) {
    const made = empty(boxes.beats, boxes.each, boxes.cells.length / (boxes.beats * boxes.each));
    for (const { at, until, note } of taps) {
      const k = Math.max(0, Math.round(at * made.each));
      if (k >= made.cells.length) continue;
      [made.cells[k], made.notes[k]] = [SOUND, note];
      if (!held2) continue;
      const end = Math.min(Math.round(until * made.each), made.cells.length, (Math.floor(k / (made.beats * made.each)) + 1) * made.beats * made.each);
      for (let n = k + 1; n < end; n += 1) [made.cells[n], made.notes[n]] = [HELD, ""];
    }
    return made;
  }

  // plan_offers.js
  var LOOK_MS = 4e3;
  var Offers = class {
    // now: what stands in the boxes, and whose it is. taken: puts a pattern into the plan.
    /** @param {() => { part: string, pattern: OwnPattern | null }} now @param {(part: string, pattern: OwnPattern) => void} taken */
    constructor(now, taken) {
      this.taken = taken;
      const send = find("pattern-send");
      send.hidden = Boolean(start.home);
      send.addEventListener("click", () => this.send(now()));
      if (start.home && start.shared) setInterval(() => document.hidden || this.look(), LOOK_MS);
    }
    /** @param {{ part: string, pattern: OwnPattern | null }} what */
    async send({ part, pattern }) {
      if (!pattern) {
        showError({ message: phrase("script-offer-empty"), where: "pattern" });
        return;
      }
      try {
        await ask("/api/offer", { part, ...pattern });
        announce(phrase("script-offer-sent"));
        find("pattern-sent").hidden = false;
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        showError({ message: error.message, where: "pattern" });
      }
    }
    async look() {
      try {
        this.show((await ask("/api/offers")).offers);
      } catch {
      }
    }
    /** @param {Offer[]} offers */
    show(offers) {
      const list = find("pattern-offers");
      const mark2 = JSON.stringify(offers);
      if (list.dataset.mark === mark2) return;
      const more = offers.length > list.children.length;
      list.dataset.mark = mark2;
      find("pattern-offers-title").hidden = !offers.length;
      list.replaceChildren(...offers.map((offer) => this.row(offer)));
      if (more) announce(phrase("script-offer-waiting", { n: offers.length }));
    }
    /** @param {Offer} offer */
    row({ id, part, ...pattern }) {
      const item = element("li");
      item.append(span("strong", pattern.name || part), span("", `${part}: ${pattern.boxes.join(" | ")}`));
      const button = (words, take) => {
        const made = Object.assign(element("button", "", words), { type: "button" });
        made.addEventListener("click", async () => {
          if (take) this.taken(part, pattern);
          find("pattern-title").focus();
          this.show((await ask("/api/offers", { id })).offers);
        });
        item.append(made);
      };
      button(phrase("script-offer-take", { name: pattern.name || part }), true);
      button(phrase("script-offer-leave", { name: pattern.name || part }), false);
      return item;
    }
  };

  // plan_taps.js
  var READY_S = 0.15;
  var CLICK_S = 0.04;
  var [STRONG_HZ, WEAK_HZ, TAP_HZ] = [1320, 880, 520];
  var Beat = class {
    constructor() {
      this.audio = null;
      this.sounding = [];
      this.timer = 0;
    }
    // The audio clock, which runs once somebody has pressed something.
    get clock() {
      this.audio ??= new AudioContext();
      if (this.audio.state === "suspended") this.audio.resume();
      return this.audio;
    }
    /** @param {number} atS @param {number} hz @param {number} lastsS */
    tone(atS, hz, lastsS = CLICK_S) {
      const { clock } = this;
      const [oscillator, gain] = [clock.createOscillator(), clock.createGain()];
      oscillator.frequency.value = hz;
      gain.gain.setValueAtTime(0.25, atS);
      gain.gain.exponentialRampToValueAtTime(1e-3, atS + lastsS);
      oscillator.connect(gain).connect(clock.destination);
      oscillator.start(atS);
      oscillator.stop(atS + lastsS);
      this.sounding.push(oscillator);
    }
    // Clicks for so many beats, `told` with the number of each as it comes and `done` after the last; gives when the
    // first beat falls, in seconds of performance.now().
    /** @param {{ beats: number, all: number, bpm: number, told: (beat: number) => void, done: () => void }} how */
    run({ beats, all, bpm, told, done }) {
      const { clock } = this;
      const [startS, beatS] = [clock.currentTime + READY_S, 60 / bpm];
      for (let k = 0; k < all; k += 1) this.tone(startS + k * beatS, k % beats ? WEAK_HZ : STRONG_HZ);
      const heardS = startS + (clock.outputLatency || clock.baseLatency || 0);
      let last = -1;
      const look = () => {
        const now = Math.floor((clock.currentTime - heardS) / beatS);
        if (now > last && now >= 0 && now < all) told(last = now);
        if (clock.currentTime > heardS + (all + 0.5) * beatS) this.stop(done);
      };
      this.timer = setInterval(look, 15);
      return performance.now() / 1e3 + (heardS - clock.currentTime);
    }
    /** @param {{ atS: number, hz: number, lastsS: number }[]} tones @param {number} lengthS @param {() => void} done */
    play(tones, lengthS, done) {
      const startS = this.clock.currentTime + READY_S;
      for (const { atS, hz, lastsS } of tones) this.tone(startS + atS, hz || TAP_HZ, Math.max(lastsS, CLICK_S));
      this.timer = setInterval(() => this.clock.currentTime > startS + lengthS && this.stop(done), 40);
    }
    /** @param {() => void} [done] */
    stop(done) {
      clearInterval(this.timer);
      this.timer = 0;
      for (const one of this.sounding) one.stop();
      this.sounding = [];
      done?.();
    }
    get running() {
      return this.timer !== 0;
    }
  };
  var WHITE_KEYS = { C: 0, D: 2, E: 4, F: 5, G: 7, A: 9, B: 11 };
  function midiOf(name) {
    const [, letter, shift, octave] = name.match(/^([A-G])([#b]?)(-?\d)$/) ?? [];
    if (!letter) return 0;
    const moved = { "#": 1, b: -1 }[shift] ?? 0;
    return 12 * (Number(octave) + 1) + (WHITE_KEYS[letter] ?? 0) + moved;
  }
  var hzOf = (name) => name ? 440 * 2 ** ((midiOf(name) - 69) / 12) : 0;
  async function keyboard(down, up) {
    const access = await navigator.requestMIDIAccess();
    const listen = () => {
      for (const input of access.inputs.values()) {
        input.onmidimessage = ({ data }) => {
          const [status, key, velocity] = data ?? [];
          if ((status & 240) === 144 && velocity) down(key);
          else if ((status & 240) === 128 || (status & 240) === 144) up(key);
        };
      }
    };
    listen();
    access.onstatechange = listen;
    return [...access.inputs.values()].map((input) => input.name ?? "");
  }

  // plan_pattern.js
  var PATH = "pattern.";
  var MARKS = { [SOUND]: "●", [HELD]: "—", [SILENT2]: "" };
  var [SLOWEST, FASTEST] = [40, 160];
  var PatternView = class {
    /** @type {PatternFacts | undefined} */
    facts;
    /** @type {Boxes} */
    boxes = empty(4, 2, 1);
    /** @param {Told} told */
    constructor(told) {
      this.told = told;
      this.part = "";
      this.place = 0;
      this.shape = "";
      this.sent = "";
      this.beat = new Beat();
      this.taps = null;
      this.startS = 0;
      const part = find("pattern-part", HTMLSelectElement);
      part.addEventListener("change", () => this.choose(part.value));
      for (const id of ["pattern-bars", "pattern-each"]) find(id).addEventListener("change", () => this.reshape());
      find("pattern-name").addEventListener("change", () => this.put());
      find("pattern-clear").addEventListener("click", () => this.clear());
      find("pattern-take").addEventListener("click", () => this.take());
      find("pattern-hear").addEventListener("click", () => this.hear());
      find("pattern-tap").addEventListener("click", () => this.taps ? this.stop() : this.tap());
      find("pattern-grid").addEventListener("keydown", (event) => this.key(event));
      this.listen();
      this.offers = new Offers(
        () => ({ part: this.part, pattern: this.boxes.cells.includes(SOUND) ? patternOf(this.boxes, this.name) : null }),
        (whose, pattern) => this.takeOffered(whose, pattern)
      );
    }
    /** @returns {PatternPart | undefined} */
    get row() {
      return this.facts?.parts.find((each) => each.part === this.part);
    }
    get name() {
      return find("pattern-name", HTMLInputElement).value.trim();
    }
    // What the plan holds for the part now: what this page put there, or what stands in the scene's text.
    /** @returns {OwnPattern | null} */
    get own() {
      const here = (
        /** @type {OwnPattern | null | undefined} */
        store.now.edits[PATH + this.part]
      );
      return here === void 0 ? this.row?.own ?? null : here;
    }
    // Changing it ------------------------------------------------------------------------------------------------------
    /** @param {string} part */
    choose(part) {
      this.part = part;
      this.place = 0;
      this.load();
      this.draw();
    }
    load() {
      const { row, own } = this;
      this.sent = JSON.stringify(own);
      this.boxes = own ? boxesOf(own, this.facts?.beats ?? 4) : empty(this.facts?.beats ?? 4, 2, 1);
      find("pattern-name", HTMLInputElement).value = own?.name ?? (row ? phrase("script-pattern-of-group", { group: row.group }) : "");
    }
    // The boxes go into the plan as they are; without a sound there is no pattern.
    put(mark2 = "") {
      const made = this.boxes.cells.includes(SOUND) ? patternOf(this.boxes, this.name) : null;
      if (!made && !this.own) return;
      clearErrors('[data-error="pattern"]');
      this.sent = JSON.stringify(made);
      const { part } = this;
      this.told(made ? phrase("script-pattern-put", { part }) : phrase("script-pattern-out", { part }));
      store.change({ edits: { ...store.now.edits, [PATH + this.part]: made } }, mark2);
    }
    /** @param {Boxes} boxes @param {string} mark */
    change(boxes, mark2 = "") {
      this.boxes = boxes;
      this.draw();
      this.put(mark2);
    }
    reshape() {
      const [bars, each] = ["pattern-bars", "pattern-each"].map((id) => Number(find(id, HTMLSelectElement).value));
      this.place = 0;
      this.change(reshaped(this.boxes, each, bars));
    }
    clear() {
      this.stop();
      this.change(empty(this.boxes.beats, this.boxes.each, this.boxes.cells.length / (this.boxes.beats * this.boxes.each)));
      find("pattern-title").focus();
    }
    // What hands and bars allow, in place of what was made.
    take() {
      const played = this.row?.played;
      if (!played) return;
      this.change(boxesOf(played, this.boxes.beats));
      find("pattern-title").focus();
    }
    // What a tablet sent, for its part if the piece has it, else for the one that is chosen.
    /** @param {string} whose @param {OwnPattern} pattern */
    takeOffered(whose, pattern) {
      if (this.facts?.parts.some(({ part }) => part === whose)) this.choose(whose);
      find("pattern-name", HTMLInputElement).value = pattern.name ?? "";
      this.change(boxesOf(pattern, this.boxes.beats));
    }
    /** @param {number} k */
    press(k) {
      this.place = k;
      this.change(pressed(this.boxes, k, Boolean(this.row?.held), this.note), `${PATH}${this.part}`);
    }
    get note() {
      return this.row?.notes.length ? find("pattern-note", HTMLSelectElement).value : "";
    }
    /** @param {KeyboardEvent} event */
    key(event) {
      if (event.ctrlKey || event.altKey || event.metaKey) return;
      const { cells, notes } = this.boxes;
      const scale = this.row?.notes ?? [];
      const step2 = { ArrowLeft: -1, ArrowRight: 1, Home: -cells.length, End: cells.length }[event.key];
      const climb = { ArrowUp: 1, ArrowDown: -1 }[event.key];
      if (step2) {
        this.place = Math.min(Math.max(this.place + step2, 0), cells.length - 1);
        this.draw();
      } else if (climb && cells[this.place] === SOUND && scale.length) {
        const at = Math.min(Math.max(scale.indexOf(notes[this.place]) + climb, 0), scale.length - 1);
        find("pattern-note", HTMLSelectElement).value = scale[at];
        this.change({ ...this.boxes, notes: notes.map((note, k) => k === this.place ? scale[at] : note) }, `${PATH}${this.part}`);
      } else return;
      this.focus();
      event.preventDefault();
    }
    focus() {
      find("pattern-grid").querySelector('button[tabindex="0"]')?.dispatchEvent(new Event("wanted"));
    }
    // Tapping it -------------------------------------------------------------------------------------------------------
    listen() {
      const pad = find("pattern-pad");
      pad.addEventListener("pointerdown", (event) => {
        event.preventDefault();
        pad.focus();
        this.down(event.timeStamp / 1e3);
      });
      pad.addEventListener("pointerup", (event) => this.up(event.timeStamp / 1e3));
      pad.addEventListener("keydown", (event) => {
        if (event.key === "Escape") this.stop();
        if (event.key !== " " && event.key !== "Enter") return;
        event.preventDefault();
        if (!event.repeat) this.down(event.timeStamp / 1e3);
      });
      pad.addEventListener("keyup", (event) => [" ", "Enter"].includes(event.key) && this.up(event.timeStamp / 1e3));
      const midi = find("pattern-midi");
      midi.hidden = !("requestMIDIAccess" in navigator);
      midi.addEventListener("click", async () => {
        try {
          const now = () => performance.now() / 1e3;
          const names = await keyboard((key) => this.down(now(), this.nearest(key)), () => this.up(now()));
          announce(names.length ? phrase("script-pattern-keyboard", { name: names.join(", ") }) : phrase("script-pattern-no-keyboard"));
          setText(midi, names.length ? names.join(", ") : phrase("script-pattern-no-keyboard"));
        } catch {
          announce(phrase("script-pattern-no-keyboard"));
        }
      });
    }
    // The note of the part that is nearest to a key.
    /** @param {number} key */
    nearest(key) {
      const scale = this.row?.notes ?? [];
      return [...scale].sort((a, b) => Math.abs(midiOf(a) - key) - Math.abs(midiOf(b) - key))[0] ?? "";
    }
    tap() {
      this.stop();
      const { beats, cells, each } = this.boxes;
      const bars = cells.length / (beats * each);
      const pad = find("pattern-pad");
      pad.hidden = false;
      pad.focus();
      this.taps = [];
      announce(phrase("script-pattern-count-in"));
      setText(find("pattern-tap"), phrase("script-pattern-stop"));
      const beatS = 60 / this.bpm;
      const told = (k) => setText(pad, k < beats ? phrase("script-pattern-ready", { beat: k % beats + 1 }) : phrase("script-pattern-now", { beat: k % beats + 1 }));
      this.startS = this.beat.run({ beats, all: beats * (bars + 1), bpm: this.bpm, told, done: () => this.done() }) + beats * beatS;
    }
    get bpm() {
      const typed = Number(find("pattern-bpm", HTMLInputElement).value);
      return Math.min(Math.max(typed || 80, SLOWEST), FASTEST);
    }
    /** @param {number} atS @param {string} note */
    down(atS, note = this.note) {
      if (!this.taps) return;
      const at = (atS - this.startS) * this.bpm / 60;
      if (at > -0.5 / this.boxes.each) this.taps.push({ at, until: at, note });
    }
    /** @param {number} atS */
    up(atS) {
      const last = this.taps?.[this.taps.length - 1];
      if (last) last.until = Math.max(last.at, (atS - this.startS) * this.bpm / 60);
    }
    // The piece of time is over: what was tapped stands in the boxes. Nothing tapped changes nothing.
    done() {
      const { taps } = this;
      this.quiet();
      if (!taps?.length) {
        announce(phrase("script-pattern-nothing"));
        return;
      }
      this.change(tapped(this.boxes, taps, Boolean(this.row?.held)));
      announce(phrase("script-pattern-tapped", { n: this.boxes.cells.filter((cell) => cell === SOUND).length }));
    }
    stop() {
      this.beat.stop();
      this.quiet();
    }
    quiet() {
      const pad = find("pattern-pad");
      const held2 = document.activeElement === pad;
      this.taps = null;
      pad.hidden = true;
      setText(find("pattern-tap"), phrase("script-pattern-tap"));
      setState(find("pattern-hear"), "aria-pressed", "false");
      if (held2) find("pattern-tap").focus();
    }
    hear() {
      const on = find("pattern-hear").getAttribute("aria-pressed") === "true";
      this.stop();
      if (on) return;
      const { each, cells, notes } = this.boxes;
      const boxS = 60 / this.bpm / each;
      const tones = cells.flatMap((cell, k) => {
        if (cell !== SOUND) return [];
        let end = k + 1;
        while (cells[end] === HELD) end += 1;
        return [0, 1].map((turn) => ({ atS: (k + turn * cells.length) * boxS, hz: hzOf(notes[k]), lastsS: (end - k) * boxS }));
      });
      setState(find("pattern-hear"), "aria-pressed", "true");
      this.beat.play(tones, 2 * cells.length * boxS, () => this.quiet());
    }
    // Showing it -------------------------------------------------------------------------------------------------------
    /** @param {Plan} plan */
    show({ patterns }) {
      this.facts = patterns;
      const { parts } = patterns;
      find("pattern-panel").hidden = !parts.length;
      if (!parts.length) return;
      const choice = find("pattern-part", HTMLSelectElement);
      const mark2 = JSON.stringify(parts.map(({ part, group, instrument }) => [part, group, instrument]));
      if (choice.dataset.mark !== mark2) {
        choice.dataset.mark = mark2;
        choice.replaceChildren(...parts.map((row) => new Option(phrase("script-pattern-part", { group: row.group, part: row.part, instrument: row.instrument }), row.part)));
      }
      if (!this.row) this.part = parts.find((row) => row.own)?.part ?? parts[0].part;
      choice.value = this.part;
      if (this.shape === "" || this.boxes.beats !== patterns.beats || JSON.stringify(this.own) !== this.sent) this.load();
      this.draw();
    }
    draw() {
      const { row, boxes } = this;
      if (!row || !this.facts) return;
      const bars = boxes.cells.length / (boxes.beats * boxes.each);
      options("pattern-bars", Array.from({ length: this.facts.most_bars }, (_, n) => [String(n + 1), String(n + 1)]), String(bars));
      options("pattern-each", this.facts.boxes_a_beat.map((each) => [String(each), counted(this.facts?.beats ?? 4, each)]), String(boxes.each));
      options("pattern-note", row.notes.map((note) => [note, note]), find("pattern-note", HTMLSelectElement).value || row.notes[0] || "");
      find("pattern-note-field").hidden = !row.notes.length;
      const bpm = find("pattern-bpm", HTMLInputElement);
      if (bpm.dataset.part !== this.part) [bpm.value, bpm.dataset.part] = [String(Math.min(Math.max(Math.round(row.bpm), SLOWEST), FASTEST)), this.part];
      const shape = `${boxes.beats} ${boxes.each} ${bars}`;
      if (this.shape !== shape) this.frame(shape, bars);
      for (const [k, button] of [...find("pattern-grid").querySelectorAll("button")].entries()) this.fill(button, k);
      find("pattern-clear").hidden = !this.own;
      this.means(row);
    }
    /** @param {string} shape @param {number} bars */
    frame(shape, bars) {
      this.shape = shape;
      const { beats, each } = this.boxes;
      const words = COUNTS[
        /** @type {1 | 2 | 4} */
        each
      ];
      const made = Array.from({ length: bars }, (_, bar) => {
        const line2 = element("div", "pattern-bar");
        setState(line2, "role", "group");
        setState(line2, "aria-label", phrase("script-pattern-bar", { bar: bar + 1 }));
        for (let beat = 0; beat < beats; beat += 1) {
          const group = element("div", "pattern-beat");
          for (let n = 0; n < each; n += 1) group.append(this.box((bar * beats + beat) * each + n, n ? words[n] : String(beat + 1)));
          line2.append(group);
        }
        return line2;
      });
      find("pattern-grid").replaceChildren(...made);
    }
    /** @param {number} k @param {string} count */
    box(k, count) {
      const box = element("div", "pattern-box");
      const label = span("", count);
      setState(label, "aria-hidden", "true");
      const button = Object.assign(element("button"), { type: "button" });
      button.addEventListener("click", () => this.press(k));
      button.addEventListener("focus", () => {
        if (this.place === k) return;
        this.place = k;
        this.draw();
      });
      button.addEventListener("wanted", () => button.focus());
      box.append(label, button);
      return box;
    }
    /** @param {HTMLButtonElement} button @param {number} k */
    fill(button, k) {
      const { beats, each, cells, notes } = this.boxes;
      const [bar, beat, n] = [Math.floor(k / (beats * each)) + 1, Math.floor(k / each) % beats + 1, k % each];
      const count = n ? `${beat} ${COUNTS[
        /** @type {1 | 2 | 4} */
        each
      ][n]}` : String(beat);
      const what = cells[k] === SOUND ? phrase("script-pattern-sound", { note: notes[k] }) : cells[k] === HELD ? phrase("script-pattern-held") : phrase("script-pattern-silent");
      setText(button, cells[k] === SOUND && notes[k] ? notes[k] : MARKS[cells[k]]);
      setState(button, "data-box", cells[k]);
      setState(button, "aria-pressed", String(cells[k] !== SILENT2));
      setState(button, "aria-label", phrase("script-pattern-box", { bar, count, what }));
      button.tabIndex = k === this.place ? 0 : -1;
    }
    // What it means for the science, and what mends what cannot be played.
    /** @param {PatternPart} row */
    means(row) {
      const current = row.own && JSON.stringify(row.own.boxes) === JSON.stringify(patternOf(this.boxes, "").boxes);
      const told = current ? row.told.map(({ message, fix }) => [message, fix].filter(Boolean).join(" ")) : [];
      const lines = told.length ? told : [current ? phrase("script-pattern-fits", { part: row.part }) : phrase("script-pattern-none", { part: row.part })];
      setRows(find("pattern-told"), lines, (item, line2) => {
        item.textContent = line2;
      });
      find("pattern-take").hidden = !current || !row.played;
    }
  };
  function options(id, rows, value) {
    const select = find(id, HTMLSelectElement);
    const mark2 = JSON.stringify(rows);
    if (select.dataset.mark !== mark2) select.replaceChildren(...rows.map(([each, words]) => new Option(words, each)));
    select.dataset.mark = mark2;
    select.value = rows.some(([each]) => each === value) ? value : rows[0]?.[0] ?? "";
  }
  function counted(beats, each) {
    const words = COUNTS[
      /** @type {1 | 2 | 4} */
      each
    ];
    return Array.from({ length: Math.min(beats, 2) }, (_, beat) => words.map((word, n) => n ? word : String(beat + 1)).join(" ")).join(" ");
  }

  // plan_sound.js
  var PATH2 = "sound.";
  var LONGEST_S = 10;
  var READ_THERE = /\.(wav|flac|ogg|mp3)$/i;
  var FULL = 32767;
  var DONE = {
    keep: phrase("script-sound-done-keep"),
    release: phrase("script-sound-done-release"),
    delete: phrase("script-sound-done-delete"),
    undelete: phrase("script-sound-done-undelete")
  };
  var SoundView = class {
    /** @param {Told} told */
    constructor(told) {
      this.told = told;
      this.parts = [];
      this.map = [];
      this.standing = /* @__PURE__ */ new Map();
      this.recorder = null;
      this.is = document.getElementById("sound-panel") !== null;
      if (!this.is) return;
      const file = find("sound-file", HTMLInputElement);
      file.addEventListener("change", async () => {
        const chosen2 = file.files?.[0];
        file.value = "";
        if (chosen2) await this.take(chosen2);
      });
      const record = find("sound-record");
      record.hidden = !(navigator.mediaDevices && "MediaRecorder" in window);
      record.addEventListener("click", () => this.recorder ? this.recorder.stop() : this.record());
    }
    // Taking one -------------------------------------------------------------------------------------------------------
    get part() {
      return find("sound-part", HTMLSelectElement).value;
    }
    /** @param {string} message */
    refuse(message) {
      showError({ message, where: "sound" });
    }
    /** @param {File} file */
    async take(file) {
      clearErrors('[data-error="sound"]');
      const name = find("sound-name", HTMLInputElement).value.trim() || phrase("script-sound-ours");
      const { part } = this;
      try {
        const sent = READ_THERE.test(file.name) ? file : await asWav(file);
        const found = await sendFile(`/api/sound?name=${encodeURIComponent(sent.name)}`, sent);
        const others = Object.entries(store.now.edits).filter(([path, value]) => path.startsWith(PATH2) && path !== PATH2 + part && value);
        if (others.some(([, value]) => (
          /** @type {OwnSound} */
          value.name.toLowerCase() === name.toLowerCase()
        ))) {
          this.refuse(phrase("script-sound-same-name", { name }));
          return;
        }
        const taken = new Set(others.map(([, value]) => (
          /** @type {OwnSound} */
          value.file
        )));
        const plain = name.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "sound";
        let beside = `${plain}.wav`;
        for (let n = 2; taken.has(beside); n += 1) beside = `${plain}-${n}.wav`;
        this.standing.set(found.key, { here: true, kept: false });
        this.told(phrase("script-sound-put", { part, name, seconds: found.seconds }));
        store.change({ edits: { ...store.now.edits, [PATH2 + part]: { name, file: beside } }, sounds: { ...store.now.sounds, [beside]: found.key } });
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        this.refuse(error.message);
      }
    }
    async record() {
      clearErrors('[data-error="sound"]');
      const button = find("sound-record");
      let stream;
      try {
        stream = await navigator.mediaDevices.getUserMedia({ audio: true });
      } catch {
        this.refuse(phrase("script-sound-no-microphone"));
        return;
      }
      const pieces = [];
      const recorder = new MediaRecorder(stream);
      this.recorder = recorder;
      recorder.addEventListener("dataavailable", ({ data }) => pieces.push(data));
      recorder.addEventListener("stop", async () => {
        this.recorder = null;
        clearTimeout(limit);
        for (const track of stream.getTracks()) track.stop();
        setText(button, phrase("script-sound-record"));
        await this.take(new File(pieces, "recording", { type: recorder.mimeType }));
      });
      const limit = setTimeout(() => recorder.state === "recording" && recorder.stop(), LONGEST_S * 1e3);
      recorder.start();
      setText(button, phrase("script-sound-stop"));
      announce(phrase("script-sound-recording"));
    }
    // What there is ----------------------------------------------------------------------------------------------------
    /** @param {Plan} plan */
    show({ patterns, map }) {
      if (!this.is) return;
      this.map = map;
      this.parts = patterns.parts;
      find("sound-panel").hidden = !this.parts.length;
      const choice = find("sound-part", HTMLSelectElement);
      const mark2 = JSON.stringify(this.parts.map(({ part, group }) => [part, group]));
      if (choice.dataset.mark !== mark2) {
        const before = choice.value;
        choice.dataset.mark = mark2;
        choice.replaceChildren(...this.parts.map(({ part, group }) => new Option(phrase("script-sound-of", { group, part }), part)));
        if (this.parts.some(({ part }) => part === before)) choice.value = before;
      }
      this.list();
    }
    // The sounds of the plan, by their parts.
    get own() {
      return Object.entries(store.now.edits).flatMap(([path, value]) => path.startsWith(PATH2) && value ? [{ part: path.slice(PATH2.length), .../** @type {OwnSound} */
      value }] : []);
    }
    list() {
      const list = find("sound-list");
      const rows = this.own.map((sound) => {
        const swap = this.map.filter(({ name }) => name === sound.part).flatMap(({ swaps }) => swaps).find(({ wanted }) => wanted.toLowerCase() === sound.name.toLowerCase());
        return { ...sound, swap, key: store.now.sounds[sound.file] ?? "" };
      });
      const mark2 = JSON.stringify([rows, [...this.standing]]);
      if (list.dataset.mark === mark2) return;
      list.dataset.mark = mark2;
      list.replaceChildren(...rows.map((row) => this.row(row)));
      for (const { key } of rows) if (key && !this.standing.has(key)) this.do("", key);
    }
    /** @param {{ part: string, name: string, file: string, key: string, swap: MapRow['swaps'][number] | undefined }} sound */
    row({ part, name, key, swap }) {
      const item = element("li");
      const { here, kept } = this.standing.get(key) ?? { here: true, kept: false };
      const plays = swap ? phrase("script-sound-not-played", { part, given: swap.given, reason: swap.reason }) : part;
      item.append(span("strong", name), span("", here ? plays : phrase("script-sound-gone", { part })));
      const button = (words, done) => {
        const made = Object.assign(element("button", "", words), { type: "button" });
        made.addEventListener("click", done);
        item.append(made);
      };
      if (here) {
        button(phrase("script-sound-hear", { name }), () => this.hear(key));
        const label = element("label", "tick");
        const tick = Object.assign(element("input"), { type: "checkbox", checked: kept });
        tick.addEventListener("change", () => this.do(tick.checked ? "keep" : "release", key));
        label.append(tick, ` ${phrase("script-sound-keep")}`);
        item.append(label);
        button(phrase("script-sound-delete", { name }), () => this.do("delete", key));
      } else if (this.standing.has(key)) button(phrase("script-sound-undelete", { name }), () => this.do("undelete", key));
      button(phrase("script-sound-out", { name }), () => {
        this.told(phrase("script-sound-taken-out", { part }));
        store.change({ edits: { ...store.now.edits, [PATH2 + part]: null } });
        find("sound-title").focus();
      });
      return item;
    }
    // Keep it on this computer or no longer, delete it, have it back; "" asks how it stands.
    /** @param {string} what @param {string} key */
    async do(what, key) {
      try {
        const found = await ask("/api/recordings", { do: what, key });
        this.standing.set(key, found);
        if (what) announce(DONE[what]);
        this.list();
        if (what) find("sound-title").focus();
        if (what === "delete" || what === "undelete") store.dispatchEvent(new Event("change"));
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        this.refuse(error.message);
      }
    }
    /** @param {string} key */
    async hear(key) {
      const audio = new AudioContext();
      const answer = await fetch(`/api/sound/${key}`, { cache: "no-store" });
      if (!answer.ok) return;
      const source = audio.createBufferSource();
      source.buffer = await audio.decodeAudioData(await answer.arrayBuffer());
      source.connect(audio.destination);
      source.addEventListener("ended", () => audio.close());
      source.start();
    }
  };
  async function asWav(file) {
    const audio = new AudioContext();
    try {
      const heard = await audio.decodeAudioData(await file.arrayBuffer());
      const length = Math.min(heard.length, Math.round((LONGEST_S + 0.02) * heard.sampleRate));
      const view = new DataView(new ArrayBuffer(44 + 2 * length));
      const channels = Array.from({ length: heard.numberOfChannels }, (_, n) => heard.getChannelData(n));
      const write2 = (at, text) => [...text].forEach((letter, n) => view.setUint8(at + n, letter.charCodeAt(0)));
      write2(0, "RIFF");
      view.setUint32(4, 36 + 2 * length, true);
      write2(8, "WAVEfmt ");
      for (const [at, value] of [[16, 16], [24, heard.sampleRate], [28, 2 * heard.sampleRate], [40, 2 * length]]) view.setUint32(at, value, true);
      for (const [at, value] of [[20, 1], [22, 1], [32, 2], [34, 16]]) view.setUint16(at, value, true);
      write2(36, "data");
      for (let k = 0; k < length; k += 1) {
        const sum = channels.reduce((all, channel) => all + channel[k], 0) / channels.length;
        view.setInt16(44 + 2 * k, Math.round(Math.max(-1, Math.min(1, sum)) * FULL), true);
      }
      return new File([view.buffer], `${file.name.replace(/\.[^.]*$/, "") || "recording"}.wav`);
    } catch {
      throw new Refused(phrase("script-sound-unheard"));
    } finally {
      audio.close();
    }
  }

  // plan_graph.js
  var SVG = "http://www.w3.org/2000/svg";
  var HIGH = 300;
  var EDGE = { left: 64, right: 16, top: 30, bottom: 52 };
  var LETTER = 8.5;
  var MARK = 5;
  var DASHES = ["", "7 5", "2 4", "12 4 2 4", "4 3", "9 3", "1 5", "6 2 1 2"];
  function drawn(tag, attributes, text = "") {
    const made = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) made.setAttribute(name, typeof value === "number" ? value.toFixed(1) : value);
    made.textContent = text;
    return made;
  }
  var cut = (text, wide) => text.length * LETTER <= wide ? text : `${text.slice(0, Math.max(1, Math.floor(wide / LETTER) - 1))}…`;
  function mark(group, x, y) {
    const r = MARK;
    const shapes = [
      () => drawn("circle", { cx: x, cy: y, r }),
      () => drawn("rect", { x: x - r, y: y - r, width: 2 * r, height: 2 * r }),
      () => drawn("path", { d: `M${x - r} ${y + r}H${x + r}L${x} ${y - r}Z` }),
      () => drawn("path", { d: `M${x} ${y - r - 1}L${x + r + 1} ${y}L${x} ${y + r + 1}L${x - r - 1} ${y}Z` })
    ];
    const made = shapes[group % shapes.length]();
    made.setAttribute("class", group < shapes.length ? "graph-mark" : "graph-mark hollow");
    return made;
  }
  var GraphView = class {
    /** @type {Graph | undefined} */
    graph;
    constructor() {
      this.wide = 0;
      find("graph-fit").addEventListener("change", () => this.draw());
      new ResizeObserver(([{ contentRect }]) => {
        if (Math.abs(contentRect.width - this.wide) > 1) this.draw();
      }).observe(find("graph"));
    }
    /** @param {Graph} graph */
    show(graph) {
      this.graph = graph;
      find("graph-fit-box").hidden = !graph.fitted.length;
      this.draw();
    }
    draw() {
      const { graph } = this;
      this.wide = find("graph").clientWidth;
      if (!graph || !this.wide) return;
      const svg = drawn("svg", { viewBox: `0 0 ${this.wide} ${HIGH}`, class: "graph-field", role: "img", "aria-labelledby": "graph-words" });
      svg.append(...this.axes(graph));
      if (graph.kind === "bars") svg.append(...this.bars(graph));
      else for (const [group, series] of graph.series.entries()) svg.append(...this.points(graph, series, group));
      if (graph.fitted.length && find("graph-fit", HTMLInputElement).checked) {
        const d = graph.fitted.map(([x, y]) => `${this.across(graph, x).toFixed(1)} ${this.up(graph, y).toFixed(1)}`).join("L");
        svg.append(drawn("path", { class: "graph-fit", d: `M${d}` }));
      }
      find("graph").replaceChildren(svg);
      setText(find("graph-words"), phrase("script-graph", { kind: graph.kind, up: graph.up, across: graph.across }));
      const groups = graph.series.length > 1 ? graph.series.map(({ group }) => group) : [];
      setRows(find("graph-groups"), groups, (item, name) => {
        const sign = drawn("svg", { viewBox: "0 0 44 20", class: "graph-sign", "aria-hidden": "true" });
        const group = groups.indexOf(name);
        if (graph.kind === "bars") sign.append(drawn("rect", { class: "graph-bar", x: 12, y: 1, width: 20, height: 18, fill: `url(#hatch-${group % 12 + 1})` }));
        else sign.append(drawn("path", { class: "graph-line", d: "M2 10H42", "stroke-dasharray": DASHES[group % DASHES.length] }), mark(group, 22, 10));
        item.append(sign, name);
      });
    }
    // Where things are -------------------------------------------------------------------------------------------------
    get inner() {
      return this.wide - EDGE.left - EDGE.right;
    }
    /** @param {Graph} graph @param {number} step */
    across({ marks }, step2) {
      const [[first], [last]] = [marks[0], marks[marks.length - 1]];
      const pad = 2 * MARK + 4;
      return EDGE.left + pad + (this.inner - 2 * pad) * (step2 - first) / (last - first || 1);
    }
    /** @param {Graph} graph @param {number} value */
    up({ low, high }, value) {
      return HIGH - EDGE.bottom - (HIGH - EDGE.bottom - EDGE.top) * (value - low) / (high - low);
    }
    // What is drawn ----------------------------------------------------------------------------------------------------
    /** @param {Graph} graph */
    axes(graph) {
      const [left, right, foot] = [EDGE.left, this.wide - EDGE.right, HIGH - EDGE.bottom];
      const found = graph.ticks.flatMap(([value, words]) => {
        const y = this.up(graph, value);
        return [drawn("path", { class: "graph-rule", d: `M${left} ${y.toFixed(1)}H${right}` }), drawn("text", { x: left - 6, y: y + 4, "text-anchor": "end" }, cut(words, left - 8))];
      });
      found.push(drawn("path", { class: "graph-axis", d: `M${left} ${EDGE.top}V${foot}H${right}` }));
      found.push(drawn("text", { class: "graph-name", x: 2, y: 15 }, cut(graph.up, this.wide - 4)));
      found.push(drawn("text", { class: "graph-name", x: right, y: HIGH - 8, "text-anchor": "end" }, cut(graph.across, this.inner)));
      const band = this.inner / graph.steps.length;
      let free = 0;
      for (const [k, [step2, label]] of graph.marks.entries()) {
        const x = graph.kind === "bars" ? left + band * (k + 0.5) : this.across(graph, step2);
        const words = cut(label, graph.kind === "bars" ? Math.max(band - 4, 3 * LETTER) : 12 * LETTER);
        const half = words.length * LETTER / 2;
        if (x - half < free || !label) continue;
        free = x + half + 4;
        found.push(drawn("text", { x: Math.min(x, this.wide - half), y: foot + 18, "text-anchor": "middle" }, words));
      }
      return found;
    }
    /** @param {Graph} graph */
    bars(graph) {
      const band = this.inner / graph.steps.length;
      const wide = 0.7 * band / graph.series.length;
      return graph.series.flatMap(
        (series, group) => series.values.flatMap((value, k) => {
          if (value === null) return [];
          const x = EDGE.left + band * (k + 0.15) + wide * group;
          const [y, foot] = [this.up(graph, value), this.up(graph, Math.max(graph.low, Math.min(0, graph.high)))];
          const fill2 = `url(#hatch-${group % 12 + 1})`;
          const bar = drawn("rect", { class: "graph-bar", x, y: Math.min(y, foot), width: wide, height: Math.abs(foot - y), fill: fill2 });
          const figure3 = wide > series.shown[k].length * LETTER ? [drawn("text", { x: x + wide / 2, y: Math.min(y, foot) - 5, "text-anchor": "middle" }, series.shown[k])] : [];
          return [bar, ...this.spread(graph, series, k, x + wide / 2), ...figure3];
        })
      );
    }
    /** @param {Graph} graph @param {GraphSeries} series @param {number} group */
    points(graph, series, group) {
      const places = series.values.map((value, k) => value === null ? null : { x: this.across(graph, graph.steps[k]), y: this.up(graph, value), k });
      const there = places.filter((place) => place !== null);
      const found = [];
      if (graph.joined) {
        const d = there.map(({ x, y }) => `${x.toFixed(1)} ${y.toFixed(1)}`).join("L");
        found.push(drawn("path", { class: "graph-line", d: `M${d}`, "stroke-dasharray": DASHES[group % DASHES.length] }));
      }
      for (const { x, y, k } of there) {
        found.push(...this.spread(graph, series, k, x));
        if (there.length <= 60) found.push(mark(group, x, y));
      }
      return found;
    }
    // How far the repeats lie apart.
    /** @param {Graph} graph @param {GraphSeries} series @param {number} k @param {number} x */
    spread(graph, { least, most }, k, x) {
      const [low, high] = [least[k], most[k]];
      if (low === null || high === null || low === high) return [];
      const [foot, head] = [this.up(graph, low).toFixed(1), this.up(graph, high).toFixed(1)];
      return [drawn("path", { class: "graph-spread", d: `M${x - 4} ${foot}H${x + 4}M${x} ${foot}V${head}M${x - 4} ${head}H${x + 4}` })];
    }
  };

  // plan_table.js
  var TableView = class {
    /** @type {OwnTable | null | undefined} */
    table;
    constructor() {
      this.graph = new GraphView();
      this.mark = "";
      this.serial = 0;
      const sheets = find("table-sheet", HTMLSelectElement);
      sheets.addEventListener("change", () => this.correct({ sheet: sheets.value }));
      const name = find("table-name", HTMLInputElement);
      name.addEventListener("change", () => name.value.trim() && this.correct({ name: name.value.trim() }));
    }
    /** @param {OwnTable | null | undefined} table */
    show(table) {
      const came = find("table-panel").hidden && Boolean(table);
      this.table = table;
      find("table-panel").hidden = !table;
      if (!table) return;
      for (const [id, lines] of Object.entries({ "table-told": table.told, "table-doubts": table.doubts })) {
        setRows(find(id), lines, (item, line2) => setText(item, line2));
      }
      find("table-sheets").hidden = table.tables.length < 2;
      const sheets = find("table-sheet", HTMLSelectElement);
      sheets.replaceChildren(...table.tables.map((name) => new Option(name, name, false, name === table.chosen)));
      find("table-shipped").hidden = !table.shipped;
      find("table-naming").hidden = !table.name;
      find("table-name", HTMLInputElement).value = table.name;
      this.showColumns(table);
      this.graph.show(table.graph);
      if (came && [document.body, find("main"), find("about-title")].some((each) => each === document.activeElement)) {
        find("table-title").focus({ preventScroll: true });
      }
    }
    /** @param {OwnTable} table */
    showColumns({ columns, roles, file }) {
      const mark2 = JSON.stringify([file, columns.map(({ label }) => label)]);
      if (this.mark !== mark2) {
        this.mark = mark2;
        find("table-columns").replaceChildren(...columns.map((column, k) => this.column(column, k, roles)));
      }
      for (const [k, { role }] of columns.entries()) {
        for (const input of findAll(`[name="role-${k}"]`, HTMLInputElement)) input.checked = input.value === role;
      }
    }
    /** @param {TableColumn} column @param {number} k @param {[string, string][]} roles */
    column({ label, cells }, k, roles) {
      const box = element("fieldset", "table-column");
      const legend = element("legend", "", label);
      const choice = element("div", "roles");
      for (const [role, words] of roles) {
        const name = element("label", "role");
        const input = Object.assign(element("input"), { type: "radio", name: `role-${k}`, value: role });
        input.addEventListener("change", () => this.correct({ column: label, role }));
        name.append(input, span("", words));
        choice.append(name);
      }
      box.addEventListener("keydown", (event) => {
        const chosen2 = findAll("input", HTMLInputElement, box)[Number(event.key) - 1];
        if (!chosen2 || event.ctrlKey || event.altKey || event.metaKey) return;
        event.preventDefault();
        chosen2.focus();
        chosen2.click();
      });
      box.append(legend, element("p", "table-cells", cells.filter(Boolean).join(", ")), choice);
      return box;
    }
    /** @param {{ column: string, role: string } | { sheet: string } | { name: string }} what */
    async correct(what) {
      this.serial += 1;
      const mine = this.serial;
      const { scene } = store.now;
      clearErrors('[data-error="column"], [data-error="name"]');
      try {
        const found = await askAbout("/api/read", store.now, { body: (sent) => ({ ...what, kind: "role", scene: (
          /** @type {any} */
          sent.scene
        ) }) });
        if (mine !== this.serial || scene !== store.now.scene) return;
        store.change({ scene: { ...found.inputs.scene, csv: found.readings ?? scene?.csv }, ...NO_CHANGES }, "table");
        announce(found.understood.join(" "));
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        if (mine !== this.serial) return;
        this.show(this.table);
        showError({ message: error.message, where: "name" in what ? "name" : "column" });
        setText(find("bar-words"), phrase("script-the-table-stays-as-it-was"));
      }
    }
  };

  // plan_bench.js
  var WAIT_MS = 80;
  var Bench = class extends EventTarget {
    constructor() {
      super();
      this.plan = null;
      this.written = null;
      this.writtenFor = "";
      this.said = "";
      const told = (words) => {
        this.said = words;
      };
      this.told = told;
      this.chart = new Chart();
      this.map = new PieceMap();
      this.rules = new Rules(told);
      this.classForm = new ClassForm(told);
      this.table = new TableView();
      this.drawing = new DrawView(told);
      this.pattern = new PatternView(told);
      this.sound = new SoundView(told);
      this.names = "";
      this.conditions = /* @__PURE__ */ new Map();
      this.question = new Question("/api/plan", (plan) => this.show(plan), (error) => this.refuse(error), (words) => setText(find("bar-words"), words));
      this.first = new Question("/api/plan", (plan) => this.compare(plan), () => {
      });
      find("reset-science").addEventListener("click", () => {
        told(phrase("script-the-science-is-as-the"));
        store.change({ set: {} });
        find("science-controls-title").focus();
      });
    }
    // Asks what the present plan comes to. Its answer is on the screen as soon as it is there.
    update() {
      this.classForm.show();
      document.body.dataset.waiting = "true";
      const { scene } = store.now;
      this.question.ask(store.now, this.plan ? WAIT_MS : 0);
      const mark2 = JSON.stringify(scene);
      if (mark2 === this.writtenFor) return;
      this.writtenFor = mark2;
      this.written = null;
      this.plan = null;
      if (isChanged(store.now)) this.first.ask({ ...store.now, ...NO_CHANGES }, 0);
    }
    /** @param {Plan} plan */
    compare(plan) {
      this.written = plan;
      if (this.plan) this.draw(this.plan);
    }
    /** @param {Refused} error */
    refuse(error) {
      delete document.body.dataset.waiting;
      showError(error, () => this.update());
      const words = error.status ? phrase("script-not-possible-as-it-is") : phrase("script-the-program-does-not-answer");
      setText(find("bar-words"), words);
    }
    /** @param {Plan} plan */
    show(plan) {
      delete document.body.dataset.waiting;
      clearAnswered();
      hideTrouble();
      if (!isChanged(store.now)) this.written = plan;
      const words = this.plan ? [this.said, ...differences(this.plan, plan)].filter(Boolean).join(" ") : "";
      this.said = "";
      setMarking(this.plan !== null);
      this.plan = plan;
      this.draw(plan);
      setMarking(true);
      const first = phrase("script-ready-2", { title: plan.title, "length-words": lengthWords(plan) });
      setText(find("bar-words"), words || first);
      if (words) announce(words);
      this.dispatchEvent(new Event("planned"));
    }
    /** @param {Plan} plan */
    draw(plan) {
      this.about(plan);
      this.table.show(plan.table);
      this.drawing.show(plan.drawing);
      this.showConditions(plan.conditions);
      this.rules.show(plan.rules, this.written?.rules);
      this.chart.show(plan, this.written);
      this.map.show(plan);
      this.pattern.show(plan);
      this.sound.show(plan);
      this.heard(plan.rules);
      this.findings(plan.findings);
      find("changed-panel").hidden = !plan.changed.length;
      setRows(find("changed"), plan.changed, (item, line2) => {
        item.textContent = line2;
      });
    }
    /** @param {Plan} plan */
    about(plan) {
      const { title, ages, story, stages, curriculum } = plan;
      setText(find("title"), title);
      const { year, pupils, groups } = store.room;
      setText(find("title-words"), phrase("script-for-year-pupils-in", { year, pupils, phrase: phrase("script-count-groups", { n: groups }) }));
      setFresh(find("about-meta"), [ages?.length ? phrase("script-ages-to", { min: Math.min(...ages), max: Math.max(...ages) }) : "", phrase("script-count-stages", { n: stages.length }), lengthWords(plan)].filter(Boolean).join(" · "));
      setText(find("about-opening"), story.trim().match(/.+?[.!?](?=\s|$)/s)?.[0] ?? story);
      setText(find("about-story"), story);
      const lines = [curriculum ?? []].flat();
      find("about-curriculum-box").hidden = !lines.length;
      setRows(find("about-curriculum"), lines, (item, line2) => {
        item.textContent = line2;
      });
      setFresh(find("map-words"), lengthWords(plan));
      find("send-needs-field").hidden = !store.room.needs.length;
    }
    /** @param {Condition[]} rows */
    showConditions(rows) {
      const names = rows.map((row) => row.name).join("|");
      if (this.names !== names || !rows.length) {
        this.names = names;
        this.conditions = new Map(rows.map((row) => [row.name, this.conditionField(row)]));
        find("conditions").replaceChildren(...[...this.conditions.values()].map((field) => field.box));
        if (!rows.length) find("conditions").append(element("p", "", phrase("script-this-scene-plays-readings-as")));
      }
      for (const row of rows) this.conditions.get(row.name)?.show({ ...row, steps: row.choices, choices: void 0 });
      find("reset-science").hidden = !Object.keys(store.now.set).length;
    }
    /** @param {Condition} condition */
    conditionField({ name, label }) {
      const where = `set.${name}`;
      return new Field({
        where,
        label: label ?? name,
        changed: (text, words) => {
          this.told(words);
          store.change({ set: { ...store.now.set, [name]: text } }, where);
        },
        reset: () => {
          const { [name]: _, ...set } = store.now.set;
          this.told(phrase("script-as-the-scene-has-it", { label }));
          store.change({ set });
        }
      });
    }
    /** @param {RuleRow[]} rules */
    heard(rules) {
      const list = find("heard");
      find("heard-panel").hidden = !rules.length;
      while (list.children.length > rules.length) list.lastElementChild?.remove();
      while (list.children.length < rules.length) {
        const item = element("li");
        item.append(span("pill", ""), span("heard-words", ""));
        list.append(item);
      }
      for (const [k, rule] of rules.entries()) {
        const [pill, words] = list.children[k].children;
        setFresh(pill, rule.audible ? phrase("script-heard") : phrase("script-hard-to-hear"));
        setState(pill, "data-good", String(Boolean(rule.audible)));
        setFresh(words, `${upper(start.controls[rule.control])}${rule.part ? phrase("script-of", { part: rule.part }) : ""}: ${spread2(rule)}`);
      }
    }
    /** @param {Finding[]} all */
    findings(all) {
      const serious = all.filter((each) => each.serious);
      const notes = all.filter((each) => !each.serious);
      setText(find("findings-title"), serious.length ? phrase("script-to-look-at", { serious: serious.length }) : phrase("script-nothing-to-mend"));
      setRows(find("findings"), serious, (item, { message, fix }) => {
        item.append(span("strong", message));
        if (fix) item.append(" ", span("", fix));
      });
      setText(find("notes-title"), phrase("script-good-to-know", { notes: notes.length }));
      find("notes-box").hidden = !notes.length;
      setRows(find("notes"), notes, (item, { message, fix }) => {
        item.textContent = [message, fix].filter(Boolean).join(" ");
      });
    }
  };
  function spread2({ key, sentence }) {
    return key.length ? phrase("script-to", { key: key[0][1], at: key[key.length - 1][1] }) : sentence;
  }
  function lengthWords({ seconds, bars }) {
    const whole2 = Math.round(seconds);
    const minutes = Math.floor(whole2 / 60);
    return `${minutes ? phrase("script-min", { minutes }) : ""}${whole2 % 60} s, ${phrase("script-count-bars", { n: bars })}`;
  }
  function differences(before, after) {
    if (before.title !== after.title) return [`${after.title}, ${lengthWords(after)}.`];
    const said = [];
    const beats = ({ stages }) => stages.map((stage, k) => `${letterOf(k)} ${Math.round(stage.bpm)}`).join(", ");
    if (beats(before) !== beats(after)) said.push(phrase("script-beats-a-minute-are-now", { beats: beats(after) }));
    for (const rule of after.rules) {
      const old = before.rules.find((each) => each.index === rule.index);
      if (old && old.audible !== rule.audible) said.push(phrase("script-is-now", { upper: upper(start.controls[rule.control]), part: rule.part ? phrase("script-of", { part: rule.part }) : "", audible: rule.audible ? phrase("script-heard") : phrase("script-hard-to-hear") }));
    }
    const players = ({ map }) => JSON.stringify(map.map((row) => [row.name, row.instrument, row.stages.map(Boolean)]));
    if (players(before) !== players(after)) said.push(phrase("script-who-plays-when-has-changed"));
    if (lengthWords(before) !== lengthWords(after)) said.push(phrase("script-the-piece-takes", { "length-words": lengthWords(after) }));
    const problems = ({ findings }) => findings.filter((each) => each.serious).length;
    if (problems(before) !== problems(after)) said.push(phrase("script-things-to-look-at", { problems: problems(after) }));
    const curves = ({ curves: all }) => JSON.stringify(all.map((curve) => curve.points));
    if (!said.length) said.push(curves(before) === curves(after) ? phrase("script-the-sound-stays-as-it") : phrase("script-the-curve-has-changed-a"));
    return said;
  }

  // plan_files.js
  var MOST_BYTES = start.most_bytes;
  var TABLE = /\.(csv|tsv|txt)$/i;
  var SPREADSHEET = /\.(xlsx|xlsm|ods|xls)$/i;
  var OTHERS = {
    sound: /\.(wav|mp3|ogg|oga|flac|m4a|aac|aiff?|wma|opus)$/i,
    film: /\.(mp4|mov|avi|mkv|webm)$/i,
    picture: /\.(png|jpe?g|gif|webp|heic|bmp|svg|tiff?)$/i,
    music: /\.(mid|midi|musicxml|mxl|xml)$/i,
    document: /\.(pdf|docx?|odt|rtf|pages|pptx?|odp)$/i
  };
  var PACK = /\.(zip|html?)$/i;
  var PASTED = "my-table.csv";
  function download(name, text, type) {
    const link = element("a");
    link.href = URL.createObjectURL(new Blob([text], { type }));
    link.download = name;
    document.body.append(link);
    link.click();
    link.remove();
    setTimeout(() => URL.revokeObjectURL(link.href), 1e4);
  }
  var PACKED = "data:;base64,";
  var unpacked = (sent) => Uint8Array.from(atob(sent.slice(PACKED.length)), (letter) => letter.charCodeAt(0));
  var isTyped = (place) => place instanceof HTMLElement && place.matches('input:not([type="radio"], [type="checkbox"], [type="range"]), textarea');
  function packed(file) {
    return new Promise((done, failed) => {
      const reader = new FileReader();
      reader.onload = () => done(PACKED + String(reader.result).replace(/^[^,]*,/, ""));
      reader.onerror = () => failed(new Refused(phrase("script-cannot-be-read", { name: file.name })));
      reader.readAsDataURL(file);
    });
  }
  async function textOf(file) {
    const bytes = new Uint8Array(await file.arrayBuffer());
    if (bytes[0] === 255 && bytes[1] === 254) return new TextDecoder("utf-16le").decode(bytes);
    if (bytes[0] === 254 && bytes[1] === 255) return new TextDecoder("utf-16be").decode(bytes);
    try {
      return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    } catch {
      return new TextDecoder("windows-1252").decode(bytes);
    }
  }
  function kindOf(name, text) {
    if (TABLE.test(name) || SPREADSHEET.test(name)) return "csv";
    if (!/\.toml$/i.test(name)) return "";
    return /^\s*(\[cupboard\]|pupils\s*=)/m.test(text) ? "class" : "scene";
  }
  var changes = ({ set = {}, rules = {}, drawn: drawn2 = {}, edits = {}, sounds = {} }) => ({ set, rules, drawn: drawn2, edits, sounds });
  var Files = class {
    /** @param {Told} told */
    constructor(told) {
      this.told = told;
      for (const input of findAll(".file-input", HTMLInputElement)) {
        input.addEventListener("change", () => {
          this.open([...input.files ?? []]);
          input.value = "";
        });
      }
      addEventListener("dragover", (event) => {
        if (!event.dataTransfer?.types.some((type) => type === "Files" || type === "text/plain") || isTyped(event.target)) return;
        event.preventDefault();
        document.body.classList.add("dropping");
      });
      addEventListener("dragleave", (event) => {
        if (!event.relatedTarget) document.body.classList.remove("dropping");
      });
      addEventListener("drop", (event) => {
        document.body.classList.remove("dropping");
        if (!event.dataTransfer || isTyped(event.target)) return;
        if (this.given(event.dataTransfer)) event.preventDefault();
      });
      find("begin").addEventListener("submit", (event) => {
        event.preventDefault();
        this.begin(find("begin-process", HTMLSelectElement).value);
      });
      addEventListener("paste", (event) => {
        if (!event.clipboardData || isTyped(event.target) && event.target !== find("paste")) return;
        if (this.given(event.clipboardData)) event.preventDefault();
      });
    }
    // Whether there was something to open in what was dropped or pasted.
    /** @param {DataTransfer} data */
    given(data) {
      const text = data.getData("text/plain");
      if (data.files.length) this.open([...data.files]);
      else if (/[\t\n].*\S/s.test(text.trim())) this.open([new File([text], PASTED)]);
      else return false;
      return true;
    }
    /** @param {File[]} files */
    async open(files2) {
      try {
        const read = [];
        const packs = files2.filter((file) => PACK.test(file.name));
        for (const file of packs) await this.openPack(file);
        for (const file of files2) if (!packs.includes(file)) read.push(await this.read(file));
        const scenes = read.filter((each) => each.kind === "scene");
        for (const each of read) {
          const scene = each.kind === "csv" && scenes.find(({ text }) => text.includes(`"${each.file}"`));
          if (scene) scene.csv = each.text;
          each.beside = Boolean(scene);
        }
        for (const each of read) if (!each.beside) await this.take(each);
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        showError({ message: error.message, where: "file" });
        setText(find("bar-words"), phrase("script-the-file-was-not-opened"));
        const shown = findAll('[data-error="file"]').find((each) => each.checkVisibility());
        (shown ?? find("trouble")).scrollIntoView({ block: "center" });
      }
    }
    /** @param {File} file @returns {Promise<Read>} */
    async read(file) {
      const other = Object.keys(OTHERS).find((kind2) => OTHERS[kind2].test(file.name));
      if (other) throw new Refused(phrase("script-a-file-of-another-kind", { name: file.name, kind: other }));
      if (SPREADSHEET.test(file.name) && 1.4 * file.size > MOST_BYTES.csv) throw new Refused(phrase("script-spreadsheet-too-large", { name: file.name }));
      if (file.size > MOST_BYTES.csv) throw new Refused(phrase("script-has-mb-at-most-mb", { name: file.name, it: (file.size / 1e6).toFixed(0), e: MOST_BYTES.csv / 1e6 }));
      const text = SPREADSHEET.test(file.name) ? await packed(file) : await textOf(file);
      const kind = kindOf(file.name, text);
      if (!kind) throw new Refused(phrase("script-cannot-be-opened-here-choose", { name: file.name }));
      if (file.size > MOST_BYTES[kind]) throw new Refused(phrase("script-has-mb-a-has-1", { name: file.name, it: (file.size / 1e6).toFixed(1), kind }));
      return { kind, file: file.name, text };
    }
    // A whole pack: its plan comes back, with the scene, the table, the class and what was changed.
    /** @param {File} file */
    async openPack(file) {
      if (file.size > MOST_BYTES.pack) throw new Refused(phrase("script-pack-too-large", { name: file.name }));
      const { inputs, readings, understood } = await sendFile(`/api/open?name=${encodeURIComponent(file.name)}`, file);
      this.understood(understood);
      const { scene, ...others } = inputs;
      store.change({ ...others, ...begun({ ...scene, ...readings === null ? {} : { csv: readings } }), ...changes(others), class_id: "" });
    }
    /** @param {string[]} lines */
    understood(lines) {
      clearErrors();
      hideTrouble();
      for (const list of findAll(".understood", HTMLElement)) {
        list.hidden = false;
        list.replaceChildren(...lines.map((line2) => element("li", "", line2)));
      }
      this.told(lines.slice(0, 2).join(" "));
    }
    /** @param {Read} read */
    async take({ kind, file, text, csv }) {
      const found = await ask("/api/read", { kind, file, text, ...csv === void 0 ? {} : { csv } });
      const lines = [phrase("script-is-open", { file }), ...found.understood, ...found.findings.map(
        /** @param {Finding} each */
        (each) => each.message
      )];
      this.understood(lines);
      const readings = kind === "csv" ? text : csv;
      const opened = kind === "class" ? { class: { ...found.inputs.class, facts: found.class }, class_id: newId() } : begun({ ...found.inputs.scene, ...readings === void 0 ? {} : { csv: readings } });
      if (kind === "class" && !store.now.scene) announce(phrase("script-now-choose-a-scene", { lines: lines.join(" ") }));
      store.change(opened);
    }
    // A scene to start from, as `sonify new` writes it.
    /** @param {string} process */
    async begin(process) {
      try {
        const found = await ask("/api/read", { kind: "start", process });
        clearErrors();
        hideTrouble();
        this.told(found.understood.join(" "));
        store.change(begun({ ...found.inputs.scene, ...found.readings ? { csv: found.readings } : {} }));
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        showError({ message: error.message, where: "file" });
      }
    }
    // A scene that plays readings is of use only with the table beside it.
    /** @param {string} name */
    saveReadings(name) {
      const scene = store.now.scene ?? {};
      if (scene.csv) {
        download(name, scene.csv.startsWith(PACKED) ? unpacked(scene.csv) : scene.csv, "application/octet-stream");
        return;
      }
      const link = Object.assign(element("a"), { href: `/api/data/${encodeURIComponent(scene.name ?? "")}`, download: name });
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
        download(name, plan.scene_toml, "application/toml");
        if (data) this.saveReadings(data);
        announce(phrase("script-the-scene-is-saved-as", { name, data: data ? phrase("script-with-its-readings-in", { data }) : "" }));
      };
      find("save-scene").addEventListener("click", scene);
      find("save-class").addEventListener("click", () => {
        const plan = planNow();
        if (!plan) return;
        const needs = find("send-needs", HTMLInputElement).checked;
        download("my-class.toml", needs ? plan.class_toml : plan.class_toml_to_send, "application/toml");
        announce(phrase("script-the-class-is-saved-as"));
      });
    }
  };

  // plan_find.js
  var chosen = (name) => find(`find-${name}`, HTMLSelectElement).value;
  var Finder = class {
    constructor() {
      find("find").addEventListener("change", () => this.show());
      find("find").addEventListener("submit", (event) => event.preventDefault());
      find("find").addEventListener("reset", () => setTimeout(() => this.show()));
      store.addEventListener("change", () => this.show());
      this.show();
    }
    show() {
      const wanted = this.wanted();
      const shown = new Set(start.scenes.filter(wanted).map((scene) => scene.name));
      for (const card of findAll(".card", HTMLElement)) card.hidden = !shown.has(card.dataset.scene ?? "");
      setText(find("find-count"), phrase("script-scenes-found", { n: shown.size, all: start.scenes.length }));
    }
    /** @returns {(scene: SceneRow) => boolean} */
    wanted() {
      const [topic, year, minutes, kind] = ["topic", "year", "minutes", "kind"].map(chosen);
      const [above, most] = minutes.split(" ").map(Number);
      const { cupboard } = store.room;
      const atHand = find("find-at-hand", HTMLInputElement).checked;
      return (scene) => (!topic || scene.topics.includes(topic)) && (!year || scene.years.includes(Number(year))) && (!minutes || scene.minutes > above && scene.minutes <= most) && (!kind || scene.kind === kind) && (!atHand || scene.sounds.every((sounds) => !sounds.length || sounds.some((id) => cupboard[id])));
    }
  };

  // plan_keep.js
  var QUIET_MS = 1200;
  var NEW = "new";
  var DATE = new Intl.DateTimeFormat(document.documentElement.lang, { weekday: "short", day: "numeric", month: "short", hour: "2-digit", minute: "2-digit" });
  var when = (atS) => DATE.format(new Date(atS * 1e3));
  function option(value, words) {
    const made = element("option", "", words);
    made.value = value;
    return made;
  }
  var Keeper = class {
    /** @param {Bench} bench */
    constructor(bench2) {
      this.bench = bench2;
      this.shelf = { keeps: start.keeps, why: "", plans: [], classes: [] };
      this.timer = 0;
      this.marks = {};
      this.dropped = /* @__PURE__ */ new Set();
      this.queue = Promise.resolve();
      if (!start.keeps) return;
      bench2.addEventListener("planned", () => this.soon());
      store.addEventListener("change", () => this.show());
      addEventListener("visibilitychange", () => {
        if (document.visibilityState === "hidden" && this.timer) this.now();
      });
      this.listen();
      this.do({ do: "list" });
    }
    listen() {
      find("kept-name").addEventListener("change", () => this.rename("plan", store.now.plan_id, find("kept-name", HTMLInputElement)));
      find("class-name").addEventListener("change", () => this.rename("class", store.now.class_id, find("class-name", HTMLInputElement)));
      find("class-choice").addEventListener("change", () => this.take(find("class-choice", HTMLSelectElement).value));
      find("kept-back").addEventListener("click", () => this.open("plan", store.now.plan_id, Number(find("kept-states", HTMLSelectElement).value)));
      find("kept-copy").addEventListener("click", () => this.copy(find("kept-for", HTMLSelectElement).value));
      find("kept-forget").addEventListener("click", () => this.forget());
    }
    // Asks, and shows all that is kept then. What went wrong is one sentence on the page; nothing else stops for it.
    /** @param {object} asked @param {Inputs} [inputs] @returns {Promise<Shelf>} */
    async do(asked, inputs) {
      try {
        const found = await (inputs ? askAbout("/api/shelf", inputs, { body: (state2) => ({ ...asked, state: state2 }) }) : ask("/api/shelf", asked));
        this.shelf = found;
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        this.shelf = { ...this.shelf, keeps: false, why: error.message, kept: void 0, opened: void 0 };
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
      const room = inputs.class?.file?.replace(/\.toml$/i, "");
      const keep = async () => {
        if (inputs.class_id && inputs.class) await this.keep("class", inputs.class_id, room && room !== "class" ? room : phrase("script-my-class"), inputs);
        if (inputs.plan_id) await this.keep("plan", inputs.plan_id, plan.title, inputs);
      };
      this.queue = this.queue.then(keep);
    }
    /** @param {'plan' | 'class'} kind @param {string} id @param {string} name @param {Inputs} inputs */
    async keep(kind, id, name, inputs) {
      const mark2 = JSON.stringify(kind === "class" ? inputs.class : inputs);
      if (this.marks[id] === mark2 || this.dropped.has(id)) return;
      const { keeps } = await this.do({ do: "keep", kind, id, name }, inputs);
      if (keeps) this.marks[id] = mark2;
    }
    // The plan of a ready-made scene that was opened before and left as it stands is the same plan.
    /** @param {string} name */
    idFor(name) {
      const known = this.shelf.plans.find((row) => row.scene === name && row.untouched && !row.gone && row.class_id === store.now.class_id);
      return known ? known.id : newId();
    }
    // Having it back -----------------------------------------------------------------------------------------------------
    /** @param {'plan' | 'class'} kind @param {string} id @param {number} [state] */
    async open(kind, id, state2) {
      if (this.timer) this.now();
      await this.queue;
      const { opened } = await this.do({ do: "open", kind, id, ...state2 === void 0 ? {} : { state: state2 } });
      this.taken(opened);
    }
    /** @param {Partial<Inputs> | undefined} opened */
    taken(opened) {
      if (!opened) {
        if (this.shelf.why) showTrouble(this.shelf.why);
        return;
      }
      const row = this.shelf.plans.find((each) => each.id === opened.plan_id);
      if (row) this.bench.told(phrase("script-is-open", { file: row.name }));
      store.change(opened);
    }
    // Another of the classes, a new one, or the usual one.
    /** @param {string} id */
    async take(id) {
      if (id && id !== NEW) {
        await this.open("class", id);
        return;
      }
      store.change(id ? { class: { ...start.class }, class_id: newId() } : { class: null, class_id: "" });
    }
    /** @param {string} room */
    async copy(room) {
      this.now();
      await this.queue;
      const asked = { do: "copy", id: store.now.plan_id, class_id: room === NEW ? "" : room };
      const { opened } = await this.do(asked);
      if (opened && room === NEW) Object.assign(opened, { class: { ...start.class, ...store.now.class?.facts, ...store.now.class }, class_id: newId() });
      this.taken(opened);
      if (!opened) return;
      find("kept-name").focus();
      announce(phrase("script-the-copy-is-open"));
    }
    /** @param {'plan' | 'class'} kind @param {string} id @param {HTMLInputElement} input */
    async rename(kind, id, input) {
      if (!input.value.trim()) {
        this.show();
        return;
      }
      const { kept } = await this.do({ do: "rename", kind, id, name: input.value });
      if (kept) announce(phrase("script-it-is-called", { name: kept.name }));
    }
    /** @param {'plan' | 'class'} kind @param {KeptRow} row @param {'delete' | 'undelete'} way */
    async remove(kind, row, way) {
      if (way === "delete") this.dropped.add(row.id);
      else this.dropped.delete(row.id);
      await this.do({ do: way, kind, id: row.id });
      delete this.marks[row.id];
      announce(way === "delete" ? phrase("script-is-deleted", { name: row.name }) : phrase("script-is-back", { name: row.name }));
      findAll(`[data-kept="${row.id}"] button`, HTMLElement)[0]?.focus();
    }
    // At once and for good, here and in this tab.
    async forget() {
      clearTimeout(this.timer);
      this.timer = 0;
      await this.queue;
      const { keeps, why } = await this.do({ do: "forget" });
      if (!keeps) {
        showTrouble(why);
        return;
      }
      this.marks = {};
      this.dropped.clear();
      store.forget();
      this.show();
      announce(phrase("script-everything-is-forgotten"));
      find("main").focus();
    }
    // Showing ------------------------------------------------------------------------------------------------------------
    show() {
      const { keeps, why, plans, classes } = this.shelf;
      for (const place of findAll(".kept-not", HTMLElement)) {
        place.hidden = !why;
        setText(place, why ? phrase("script-cannot-keep", { why }) : "");
      }
      find("kept").hidden = !plans.length && !classes.length;
      this.list(find("kept-plans"), "plan", plans);
      this.list(find("kept-classes"), "class", classes);
      find("kept-classes-title").hidden = !classes.length;
      const there = classes.filter((row) => !row.gone);
      this.showClass(there, keeps);
      this.showPlan(plans.find((row) => row.id === store.now.plan_id), there);
    }
    /** @param {HTMLElement} list @param {'plan' | 'class'} kind @param {KeptRow[]} rows */
    list(list, kind, rows) {
      const mark2 = JSON.stringify(rows);
      if (list.dataset.mark === mark2) return;
      list.dataset.mark = mark2;
      list.replaceChildren(...rows.map((row) => this.row(kind, row)));
    }
    /** @param {'plan' | 'class'} kind @param {KeptRow} row */
    row(kind, row) {
      const item = element("li", row.gone ? "gone" : "");
      item.dataset.kept = row.id;
      const button = (label, pressed2) => {
        const made = element("button", "", label);
        made.type = "button";
        made.append(span("unseen", phrase("script-of-name", { name: row.name })));
        made.addEventListener("click", pressed2);
        return made;
      };
      const words = row.gone ? phrase("script-is-deleted", { name: row.name }) : phrase("script-kept-at", { when: when(row.states[row.states.length - 1]) });
      item.append(span("kept-title", row.gone ? "" : row.name), span("meta", words));
      const buttons = element("span", "buttons");
      if (row.gone) buttons.append(button(phrase("script-undo"), () => this.remove(kind, row, "undelete")));
      else {
        buttons.append(button(phrase("script-open"), () => this.open(kind, row.id)), button(phrase("script-delete"), () => this.remove(kind, row, "delete")));
      }
      item.append(buttons);
      return item;
    }
    /** @param {KeptRow[]} there @param {boolean} keeps */
    showClass(there, keeps) {
      const { class_id: id } = store.now;
      const row = there.find((each) => each.id === id);
      find("class-kept").hidden = !keeps && !there.length;
      const choice = find("class-choice", HTMLSelectElement);
      const rows = [option("", phrase("script-the-usual-class")), ...there.map((each) => option(each.id, each.name)), option(NEW, phrase("script-a-new-class"))];
      if (id && !row) rows.splice(1, 0, option(id, phrase("script-my-class")));
      fill(choice, rows, id);
      find("class-name-field").hidden = !row;
      write(find("class-name", HTMLInputElement), row?.name ?? "");
    }
    /** @param {KeptRow | undefined} row @param {KeptRow[]} classes */
    showPlan(row, classes) {
      find("kept-here").hidden = !row;
      if (!row) return;
      write(find("kept-name", HTMLInputElement), row.name);
      const last = row.states.length - 1;
      setText(find("kept-words"), phrase("script-kept-at", { when: when(row.states[last]) }));
      const earlier = row.states.map((atS, k) => option(String(k), when(atS))).slice(0, -1).reverse();
      find("kept-earlier").hidden = !earlier.length;
      fill(find("kept-states", HTMLSelectElement), earlier);
      const others = classes.filter((each) => each.id !== store.now.class_id);
      fill(find("kept-for", HTMLSelectElement), [...others.map((each) => option(each.id, each.name)), option(NEW, phrase("script-a-new-class"))]);
    }
  };
  function fill(select, options2, value) {
    const mark2 = options2.map((each) => `${each.value} ${each.textContent}`).join("\n");
    if (select.dataset.mark !== mark2) {
      const before = select.value;
      select.dataset.mark = mark2;
      select.replaceChildren(...options2);
      if (options2.some((each) => each.value === before)) select.value = before;
    }
    if (value !== void 0 && select.value !== value) select.value = value;
  }
  function write(input, value) {
    if (document.activeElement !== input && input.value !== value) input.value = value;
  }

  // print_morning.js
  var Morning = class {
    constructor() {
      this.asking = false;
      find("morning").addEventListener("submit", (event) => {
        event.preventDefault();
        this.deal();
      });
    }
    async deal() {
      if (this.asking) return;
      this.asking = true;
      const error = find("morning-error");
      error.hidden = true;
      let lines = [];
      const [absent, broken] = ["absent", "broken"].map((id) => find(id, HTMLInputElement).value);
      try {
        lines = (await askAbout("/api/redeal", store.now, { body: (inputs) => ({ inputs, absent, broken }) })).lines;
      } catch (refused) {
        if (!(refused instanceof Refused)) throw refused;
        setText(error, refused.message);
        error.hidden = false;
      } finally {
        this.asking = false;
      }
      setRows(find("morning-lines"), lines, (item, line2) => setText(item, line2));
    }
    // What was dealt out for another plan is no more so.
    clear() {
      find("morning-error").hidden = true;
      setRows(find("morning-lines"), [], () => {
      });
    }
  };

  // print.js
  var POLL_MS = 400;
  var KEPT_JOB = "sonify-job";
  var STATES = {
    queued: ({ ahead }) => ahead ? phrase("script-waiting-being-made-before-yours", { phrase: phrase("script-count-packs", { n: ahead }) }) : phrase("script-waiting-to-begin"),
    making: ({ doing }) => phrase("script-working", { doing: doing || phrase("script-starting") }),
    ready: () => phrase("script-ready-download-everything-or-take"),
    cancelled: () => phrase("script-cancelled-nothing-was-kept"),
    failed: () => phrase("script-it-could-not-be-made")
  };
  var OPENED_BY_ANYONE = /\.(pdf|png|svg|html|wav|mp3|ogg|flac|txt)$/i;
  var underWay = (state2) => state2?.state === "queued" || state2?.state === "making";
  var sizeWords = (bytes) => bytes < 1e6 ? `${Math.max(1, Math.round(bytes / 1e3))} kB` : `${(bytes / 1e6).toFixed(1)} MB`;
  var viewNow = () => location.hash === "#print" ? "print" : "plan";
  var isTicked = (id) => find(id, HTMLInputElement).checked;
  var PrintView = class {
    constructor() {
      this.job = null;
      this.state = null;
      this.timer = 0;
      this.asking = false;
      this.cancelling = false;
      this.wanted = false;
      this.mark = "";
      this.morning = new Morning();
      this.dealtFor = "";
      this.sheetsMark = "";
      this.sheets = [];
      try {
        this.job = JSON.parse(sessionStorage.getItem(KEPT_JOB) ?? "null");
      } catch {
      }
      find("print-form").addEventListener("submit", (event) => {
        event.preventDefault();
        this.make();
      });
      find("job-cancel").addEventListener("click", () => this.cancel());
      find("preview-choice").addEventListener("change", () => this.showSheets());
      if (this.job) this.look();
    }
    get running() {
      return this.asking || underWay(this.state);
    }
    // The plan as it is now: whom the pack is for, whom the recording may leave out.
    /** @param {Plan | null} plan */
    show(plan) {
      find("print-none").hidden = store.now.scene !== null;
      find("print-work").hidden = !plan;
      if (!plan) return;
      const { year, pupils, groups, needs } = store.room;
      setText(find("print-for"), phrase("script-for-year-pupils-in-2", { title: plan.title, year, pupils, phrase: phrase("script-count-groups", { n: groups }) }));
      const wanted = needs.includes("large print");
      if (this.wanted !== wanted) find("large-print", HTMLInputElement).checked = wanted;
      this.wanted = wanted;
      find("needs-go").hidden = !needs.length;
      find("sounds-go").hidden = !Object.keys(store.now.sounds).length;
      this.listGroups(plan.map);
      const now = JSON.stringify(store.now);
      if (this.dealtFor !== now) this.morning.clear();
      this.dealtFor = now;
      this.showOld();
    }
    /** @param {MapRow[]} map */
    listGroups(map) {
      const groups = /* @__PURE__ */ new Map();
      for (const row of map) groups.set(row.group, [...groups.get(row.group) ?? [], row.name]);
      const mark2 = JSON.stringify([...groups]);
      if (this.mark === mark2) return;
      this.mark = mark2;
      const box = find("without");
      for (const old of box.querySelectorAll("label")) old.remove();
      for (const [number, parts] of groups) {
        const label = element("label", "tick");
        const input = Object.assign(element("input"), { type: "checkbox", name: "without", value: parts[0] });
        label.append(input, badge((number - 1) % 12 + 1), span("", `${number}: ${parts.join(" and ")}`));
        box.append(label);
      }
    }
    get options() {
      const ticked = (name) => findAll(`[name="${name}"]:checked`, HTMLInputElement).map((input) => input.value);
      return {
        audio: ticked("audio"),
        stems: isTicked("stems"),
        click: isTicked("click-track"),
        without: ticked("without"),
        also: ticked("also"),
        paper: ticked("paper")[0],
        large_print: isTicked("large-print"),
        needs: isTicked("needs-too"),
        sounds: isTicked("sounds-too"),
        for_keyboard: isTicked("for-keyboard"),
        midi_count_in: isTicked("midi-count-in")
      };
    }
    async make() {
      if (this.running) return;
      this.asking = true;
      this.showState({ state: "queued", ahead: 0, files: [] });
      clearErrors();
      hideTrouble();
      try {
        const inputs = store.now;
        const { job, ahead } = await askAbout("/api/pack", inputs, { body: (sent) => ({ inputs: sent, options: this.options }) });
        this.asking = false;
        this.job = { id: job, made: JSON.stringify(inputs) };
        this.keep();
        this.showState({ state: "queued", ahead, files: [] });
        find("job-title").focus({ preventScroll: true });
        this.look();
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        this.asking = false;
        this.showState({ state: "failed", error: error.message, files: [] });
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
      }
    }
    async look() {
      clearTimeout(this.timer);
      if (!this.job) return;
      const { id } = this.job;
      try {
        const state2 = await ask(`/api/pack/${id}`);
        if (id === this.job?.id) this.showState(state2);
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        if (error.status === 404) this.forget();
        else setText(find("job-words"), error.message);
      }
      if (this.job && underWay(this.state)) this.timer = setTimeout(() => this.look(), POLL_MS);
    }
    // The server was started anew and knows nothing of it.
    forget() {
      const lost = this.state !== null;
      this.job = null;
      sessionStorage.removeItem(KEPT_JOB);
      this.showState({ state: lost ? "failed" : null, error: phrase("script-the-program-was-started-anew"), files: [] });
    }
    async cancel() {
      if (!this.job || this.asking || this.cancelling) return;
      this.cancelling = true;
      setState(find("job-cancel"), "aria-disabled", "true");
      try {
        await ask(`/api/pack/${this.job.id}/cancel`, {});
        await this.look();
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        setText(find("job-error"), error.message);
        find("job-error").hidden = false;
      } finally {
        this.cancelling = false;
      }
    }
    /** @param {JobState} state */
    showState(state2) {
      const before = this.state;
      this.state = state2;
      const running = this.running;
      const hadFocus = find("job-running").contains(document.activeElement);
      setText(find("job-words"), state2.state ? STATES[state2.state](state2) : phrase("script-nothing-made-yet-it-takes"));
      find("job-running").hidden = !running;
      setState(find("job-cancel"), "aria-disabled", String(Boolean(!this.job || this.asking || this.cancelling)));
      const share = Math.round(100 * (state2.share ?? 0));
      find("job-progress", HTMLProgressElement).value = share;
      find("job-progress").textContent = `${share} %`;
      setState(find("make"), "aria-disabled", String(Boolean(running)));
      setText(find("make"), running ? phrase("script-being-made") : phrase("script-make-everything"));
      setText(find("job-error"), state2.state === "failed" ? state2.error ?? "" : "");
      find("job-error").hidden = state2.state !== "failed";
      if (hadFocus && !running) find("job-title").focus({ preventScroll: true });
      if (before?.state !== state2.state && state2.state) announce(find("job-words").textContent);
      this.showFiles(state2.state === "ready" ? state2.files : []);
      const idle = [document.body, find("make"), find("job-title")].some((each) => each === document.activeElement);
      const justMade = state2.state === "ready" && underWay(before);
      if (justMade && idle && this.sheets.length && viewNow() === "print") find("preview-title").focus();
    }
    /** @param {PackFile[]} files */
    showFiles(files2) {
      find("job-files").hidden = !files2.length;
      const address = this.job ? `/api/pack/${this.job.id}` : "";
      if (files2.length) find("job-zip", HTMLAnchorElement).href = `${address}/zip`;
      const paper = files2.filter((file) => file.pages > 0);
      const others = files2.filter((file) => !file.pages);
      const forAll = [...paper, ...others.filter(({ name }) => OPENED_BY_ANYONE.test(name))];
      const forPrograms = others.filter(({ name }) => !OPENED_BY_ANYONE.test(name));
      const line2 = (item, { n, name, bytes, words }) => {
        const link = element("a", "file-name", name);
        link.href = `${address}/file/${n}`;
        link.download = "";
        item.append(link, span("file-words", words), span("file-size", sizeWords(bytes)));
      };
      setRows(find("files"), forAll, line2);
      setRows(find("program-files"), forPrograms, line2);
      find("program-files-box").hidden = !forPrograms.length;
      this.sheets = paper;
      find("preview").hidden = !this.sheets.length;
      const mark2 = JSON.stringify([address, this.sheets]);
      if (this.sheetsMark !== mark2) {
        this.sheetsMark = mark2;
        find("preview-choice").replaceChildren(...this.sheets.map((file, k) => new Option(`${file.name}, ${phrase("script-count-pages", { n: file.pages })}`, String(k))));
        if (this.sheets.length) this.showSheets();
      }
      this.showOld();
    }
    showOld() {
      find("job-old").hidden = !this.job || this.job.made === JSON.stringify(store.now);
    }
    // Pictures are fetched as they come into view.
    showSheets() {
      const { n, name, pages, words } = this.sheets[Number(find("preview-choice", HTMLSelectElement).value) || 0];
      const address = `/api/pack/${this.job?.id}`;
      const open = find("preview-open", HTMLAnchorElement);
      open.href = `${address}/file/${n}?open=1`;
      setText(open, phrase("script-open-to-print-new-tab", { name }));
      find("sheets").replaceChildren(
        ...Array.from({ length: pages }, (_, k) => {
          const item = element("li");
          const image = Object.assign(element("img", "sheet"), {
            loading: "lazy",
            alt: phrase("script-page-of", { name, k: k + 1, pages, words }),
            src: `${address}/page/${n}/${k + 1}`
          });
          item.append(image, element("p", "hint", phrase("script-page-of-2", { k: k + 1, pages })));
          return item;
        })
      );
    }
  };

  // plan.js
  var bench = new Bench();
  var printView = new PrintView();
  var files = new Files(bench.told);
  files.save(() => bench.plan);
  var keeper = new Keeper(bench);
  new Finder();
  var TITLES = { plan: phrase("script-plan-a-lesson-sonify"), print: phrase("script-print-and-export-sonify") };
  var WELCOME = [find("title").textContent, find("title-words").textContent];
  function showView(moved = true) {
    const view = viewNow();
    document.body.dataset.view = view;
    document.title = TITLES[view];
    for (const name of ["plan", "print"]) find(name).hidden = name !== view;
    for (const link of findAll(".views a", HTMLAnchorElement)) {
      if (link.dataset.view === view) link.setAttribute("aria-current", "page");
      else link.removeAttribute("aria-current");
    }
    find("bar").hidden = view !== "plan" || !(store.now.scene || store.before.length);
    find("bar-hear").hidden = !store.now.scene;
    if (view === "print") printView.show(store.now.scene ? bench.plan : null);
    if (!moved) return;
    window.scrollTo(0, 0);
    (view === "print" ? find("print-title") : find("main")).focus({ preventScroll: true });
  }
  function showStore() {
    const chosen2 = store.now.scene !== null;
    const turned = find("bench").hidden === chosen2;
    find("choose").hidden = chosen2;
    find("bench").hidden = !chosen2;
    find("undo", HTMLButtonElement).disabled = !store.before.length;
    find("redo", HTMLButtonElement).disabled = !store.after.length;
    if (chosen2) bench.update();
    else {
      bench.question.drop();
      for (const [k, id] of ["title", "title-words"].entries()) setText(find(id), WELCOME[k]);
      setText(find("bar-words"), phrase("script-undo-leads-back-to-the"));
    }
    showView(false);
    if (!turned) return;
    window.scrollTo(0, 0);
    (chosen2 ? find("about-title") : find("main")).focus({ preventScroll: true });
  }
  store.addEventListener("change", showStore);
  bench.addEventListener("planned", () => {
    if (viewNow() === "print") printView.show(bench.plan);
  });
  addEventListener("hashchange", () => {
    if (["", "#plan", "#print"].includes(location.hash)) showView();
    else document.querySelector(`${location.hash} ~ details`)?.setAttribute("open", "");
  });
  var going = false;
  async function go(view, inputs) {
    if (going) return;
    going = true;
    document.body.dataset.going = "true";
    const words = view === "hear" ? phrase("script-preparing-the-sound") : phrase("script-preparing-the-conductor-s-page");
    announce(words);
    setText(find("going-words"), words);
    find("going").hidden = false;
    try {
      let found = await askAbout("/api/lesson", inputs);
      while (found.waiting) {
        setText(find("going-words"), found.waiting);
        await new Promise((go2) => setTimeout(go2, AGAIN_MS));
        found = await askAbout("/api/lesson", inputs);
      }
      location.href = `/lesson/${found.key}#${view}`;
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      showError(error, () => go(view, inputs));
      find("going").hidden = true;
    } finally {
      going = false;
      delete document.body.dataset.going;
    }
  }
  var named = (name) => ({ ...store.now, ...begun({ name }, keeper.idFor(name)) });
  var present = () => store.now.scene ? store.now : named(start.first);
  for (const button of findAll("[data-plan]", HTMLButtonElement)) {
    button.addEventListener("click", () => store.change(named(button.dataset.plan ?? "")));
  }
  for (const button of findAll("[data-hear]", HTMLButtonElement)) {
    button.addEventListener("click", () => {
      store.change(named(button.dataset.hear ?? ""));
      go("hear", store.now);
    });
  }
  for (const link of findAll("[data-go]", HTMLAnchorElement)) {
    link.addEventListener("click", (event) => {
      event.preventDefault();
      go(link.dataset.go === "hear" ? "hear" : "conduct", present());
    });
  }
  find("bar-hear").addEventListener("click", () => go("hear", store.now));
  find("other-scene").addEventListener("click", () => store.change(begun(null)));
  addEventListener("pageshow", () => {
    find("going").hidden = true;
  });
  function step(way) {
    if (way === "undo" && bench.classForm.takeBack()) {
      setText(find("bar-words"), phrase("script-what-was-refused-is-gone"));
      announce(phrase("script-what-was-refused-is-gone"));
      return;
    }
    bench.told(way === "undo" ? phrase("script-one-step-back") : phrase("script-one-step-forward"));
    store[way]();
    if (find(way, HTMLButtonElement).disabled && document.activeElement === document.body) find(way === "undo" ? "redo" : "undo").focus();
  }
  for (
    const way of
    /** @type {const} */
    ["undo", "redo"]
  ) find(way).addEventListener("click", () => step(way));
  addEventListener("keydown", (event) => {
    const { key, target } = event;
    if (!(event.ctrlKey || event.metaKey) || event.altKey || viewNow() !== "plan") return;
    if (target instanceof Element && target.matches('input[type="number"], input[type="search"], input[type="text"], textarea')) return;
    const way = key.toLowerCase() === "z" ? event.shiftKey ? "redo" : "undo" : key.toLowerCase() === "y" ? "redo" : "";
    if (!way) return;
    event.preventDefault();
    step(way);
  });
  var state = () => ({
    inputs: store.now,
    plan: bench.plan,
    waiting: document.body.dataset.waiting === "true",
    before: store.before.length,
    after: store.after.length,
    job: printView.state?.state ?? ""
  });
  Object.assign(window, { sonifyPlan: state });
  showStore();
})();
