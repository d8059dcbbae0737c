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
    const [whole2, index, side] = where.match(/^(?:hear|rules)\.([\w-]+)(?:\.(\w+))?/) ?? [];
    const own = `edits.${where.replace(/\.\d+$/, "")}`;
    if (whole2) return [where, own, `edits.${where.split(".").slice(0, 2).join(".")}`, ...side === "curve" ? [`rules.${index}.curve`] : side ? [`rules.${index}.${side}.0`] : [], `rules.${index}`];
    const name = where.replace(/^(conditions|class|set)\./, "");
    if (name.startsWith("drawn")) return [where, "drawn"];
    if (name.startsWith("pattern")) return [where, "pattern"];
    if (name.startsWith("sound")) return [where, "sound"];
    const kind = name.startsWith("cupboard") ? ["class.cupboard"] : [];
    return [where, own, `edits.${where.split(".").slice(0, 2).join(".")}`, `set.${name}`, `options.${name}`, `class.${name}`, ...kind, ...where.startsWith("class") ? ["class"] : []];
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
    const made2 = document.createElement(tag);
    if (className) made2.className = className;
    if (text) made2.textContent = text;
    return made2;
  }
  function addButton(row, words, pressed2) {
    const made2 = Object.assign(element("button", "", words), { type: "button" });
    made2.addEventListener("click", pressed2);
    row.append(made2);
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
    /** @type {{ curves: PlanCurve[] } | null} */
    first;
    constructor() {
      this.chosen = "";
      const choice2 = find("curve-choice", HTMLSelectElement);
      choice2.addEventListener("change", () => {
        this.chosen = choice2.value;
        this.draw();
      });
    }
    // first: the same scene's answer before anything was changed, for comparison.
    /** @param {Plan} plan @param {{ curves: PlanCurve[] } | null} first */
    show(plan, first) {
      this.plan = plan;
      this.first = first;
      findIn(document.body, ".chart-panel", HTMLElement).hidden = !plan.curves.length;
      if (!plan.curves.length) return;
      const tempo = plan.rules.find((rule) => rule.control === "tempo")?.quantity;
      const names = plan.curves.map((curve) => curve.quantity);
      const choice2 = find("curve-choice", HTMLSelectElement);
      if (choice2.dataset.names !== names.join("|")) {
        choice2.dataset.names = names.join("|");
        choice2.replaceChildren(
          ...plan.curves.map((curve) => new Option(upper(curve.quantity) + (tempo === curve.quantity ? phrase("script-sets-the-tempo") : ""), curve.quantity))
        );
      }
      if (!names.includes(this.chosen)) this.chosen = (plan.curves.find((curve) => curve.first) ?? plan.curves[0]).quantity;
      choice2.value = this.chosen;
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

  // plan_select.js
  function fillSelect(select, options2, value) {
    const mark2 = JSON.stringify(options2);
    if (select.dataset.mark !== mark2) {
      select.dataset.mark = mark2;
      const groups = /* @__PURE__ */ new Map();
      select.replaceChildren();
      for (const [name, words, group] of options2) {
        let place = (
          /** @type {HTMLElement} */
          select
        );
        if (group) {
          place = groups.get(group) ?? Object.assign(document.createElement("optgroup"), { label: group });
          groups.set(group, place);
          select.append(place);
        }
        place.append(new Option(words, name));
      }
    }
    if (select.value !== value) select.value = value;
  }

  // plan_question.js
  var AGAIN_MS = 700;
  async function patiently(path, inputs, waiting = () => {
  }) {
    for (; ; ) {
      const found = await askAbout(path, inputs);
      if (!found.waiting) return found;
      waiting(found.waiting);
      await new Promise((go2) => setTimeout(go2, AGAIN_MS));
    }
  }
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

  // samples.js
  function tapBuffer(pitchHz, decayS = 9e-3) {
    const rateHz = 44100;
    const buffer = new AudioBuffer({ length: Math.round(2400 * decayS / 9e-3), sampleRate: rateHz });
    const data = buffer.getChannelData(0);
    for (let i = 0; i < data.length; i += 1) {
      const t = i / rateHz;
      data[i] = 0.5 * Math.sin(2 * Math.PI * pitchHz * t) * Math.exp(-t / decayS) * Math.min(1, t / 5e-4);
    }
    return buffer;
  }
  function pcmBuffer(base64, rateHz) {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const view = new DataView(bytes.buffer);
    const length = bytes.length >> 1;
    const buffer = new AudioBuffer({ length: Math.max(1, length), sampleRate: rateHz });
    const data = buffer.getChannelData(0);
    for (let i = 0; i < length; i += 1) data[i] = view.getInt16(2 * i, true) / 32768;
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
    const data = longer.getChannelData(0);
    data.set(buffer.getChannelData(0));
    for (let i = 0; i < fade; i += 1) {
      const share = i / fade;
      const before = data[from - fade + i];
      data[to - fade + i] = data[to - fade + i] * Math.sqrt(1 - share) + before * Math.sqrt(share);
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
    constructor(sounds, parts) {
      this.sounds = sounds;
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
      const plain2 = this.timeS - this.latencyS;
      const stamp = this.context?.getOutputTimestamp?.();
      if (!stamp?.performanceTime || stamp.contextTime === void 0) return plain2;
      const smooth = stamp.contextTime + (performance.now() - stamp.performanceTime) / 1e3 - LIMITER_S;
      return Math.abs(smooth - plain2) < 0.05 ? smooth : plain2;
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
      for (const { source, gain, startS, held: held2 } of this.voices) {
        if (startS >= fromS && startS > nowS) source.stop();
        else if (fromS === 0 || held2) {
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
  var Player = class extends EventTarget {
    /** @param {PieceClock} clock @param {Sounds} sounds @param {Part[]} parts */
    constructor(clock, sounds, parts) {
      super();
      this.clock = clock;
      this.sounds = sounds;
      this.mixer = new Mixer(sounds, parts);
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
    soundsCame(sounds) {
      Object.assign(this.sounds, sounds, { toCome: false });
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

  // plan_compare.js
  var KEPT2 = "sonify-plan-a";
  var BARS = 4;
  var EVERY_MS2 = 200;
  var Compare = class extends EventTarget {
    /** @param {Told} told */
    constructor(told) {
      super();
      this.told = told;
      this.kept = null;
      this.found = null;
      this.players = /* @__PURE__ */ new Map();
      this.plan = null;
      this.now = null;
      this.serial = 0;
      this.timer = 0;
      this.mark = "";
      try {
        this.kept = JSON.parse(sessionStorage.getItem(KEPT2) ?? "null");
      } catch {
      }
      this.question = new Question("/api/compare", (found) => this.answered(found), (error) => this.refused(error));
      find("compare-keep").addEventListener("click", () => this.keep());
      find("compare-drop").addEventListener("click", () => this.drop());
      find("compare-back").addEventListener("click", () => {
        if (!this.kept) return;
        this.told(phrase("script-compare-back"));
        store.change(this.kept);
      });
      for (
        const which of
        /** @type {const} */
        ["A", "B"]
      ) find(`compare-hear-${which.toLowerCase()}`).addEventListener("click", () => this.hear(which));
      find("compare-hear-both").addEventListener("click", () => this.inTurn());
      find("compare-stop").addEventListener("click", () => this.stop());
    }
    keep() {
      this.stop();
      this.kept = store.now;
      this.found = null;
      this.mark = "";
      this.save();
      announce(phrase("script-compare-kept"));
      if (this.plan) this.show(this.plan);
      this.dispatchEvent(new Event("change"));
      find("compare-from").focus();
    }
    drop() {
      this.stop();
      this.kept = null;
      this.found = null;
      this.mark = "";
      this.question.drop();
      this.save();
      announce(phrase("script-compare-dropped"));
      if (this.plan) this.show(this.plan);
      this.dispatchEvent(new Event("change"));
      find("compare-keep").focus();
    }
    save() {
      try {
        sessionStorage.setItem(KEPT2, JSON.stringify(this.kept));
      } catch {
      }
    }
    /** @param {Plan} plan */
    show(plan) {
      this.plan = plan;
      const { kept } = this;
      find("compare-both").hidden = !kept;
      find("compare-how").hidden = kept !== null;
      if (!kept) return;
      fillSelect(find("compare-from", HTMLSelectElement), plan.stages.map((stage) => [String(stage.bar), stage.title]), find("compare-from", HTMLSelectElement).value || "1");
      const mark2 = JSON.stringify([kept, store.now]);
      if (mark2 === this.mark) return;
      this.mark = mark2;
      const same = JSON.stringify(kept) === JSON.stringify(store.now);
      for (const id of ["compare-hear-b", "compare-hear-both", "compare-back"]) find(id, HTMLButtonElement).disabled = same;
      this.question.ask(
        /** @type {Inputs} */
        { ...store.now, other: whole(kept) },
        0
      );
    }
    /** @param {Compared} found */
    answered(found) {
      this.found = found;
      const same = JSON.stringify(this.kept) === JSON.stringify(store.now);
      setText(find("compare-a"), same ? phrase("script-compare-same") : phrase("script-compare-a", { title: found.title, length: found.length }));
      setRows(find("compare-lines"), same ? [] : found.lines, (item, line2) => {
        item.textContent = line2;
      });
      this.dispatchEvent(new Event("change"));
    }
    /** @param {Refused} error */
    refused(error) {
      showError({ message: error.message, where: "compare" });
    }
    // Hearing ------------------------------------------------------------------------------------------------------------
    // What plays one of them, made once; the server makes its sounds.
    /** @param {Which} which @returns {Promise<Player>} */
    async player(which) {
      const inputs = which === "A" && this.kept ? this.kept : store.now;
      setText(find("compare-now"), phrase("script-compare-preparing", { which }));
      const made2 = await patiently("/api/lesson", inputs);
      const held2 = this.players.get(made2.key);
      if (held2) return held2;
      const [{ timing, stages, parts }, sounds] = await Promise.all([ask(`/lesson/${made2.key}/timing`), ask(`/lesson/${made2.key}/sounds`)]);
      const player = new Player(new PieceClock(timing, stages), sounds, parts);
      if (this.players.size > 3) this.players.clear();
      this.players.set(made2.key, player);
      return player;
    }
    // The other one goes on at the bar where this one was; nothing plays yet: at the stage that is chosen.
    /** @param {Which} which */
    async hear(which) {
      const from = this.bar();
      await this.start(which, from, null);
    }
    // The bar that is heard, or that is chosen.
    bar() {
      const now = this.now?.playing ? this.now.moment().bar : 0;
      return Math.max(1, now || Number(find("compare-from", HTMLSelectElement).value) || 1);
    }
    /** @param {Which} which @param {number} bar @param {(() => void) | null} then after so many bars */
    async start(which, bar, then) {
      this.serial += 1;
      const mine = this.serial;
      clearInterval(this.timer);
      this.now?.pause();
      try {
        const player = await this.player(which);
        if (mine !== this.serial) return;
        this.now?.pause();
        this.now = player;
        const { clock } = player;
        const first = Math.min(bar, clock.pieceBars);
        if (then) {
          const clip = (
            /** @type {Clip} */
            { question: -1, number: 0, fromS: clock.startOfBar(first), toS: clock.startOfBar(first + BARS), alone: null }
          );
          player.playClip(clip);
        } else player.play(clock.startOfBar(first), false);
        this.tell(which, then);
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        this.stop();
        showError({ message: error.message, where: "compare" });
      }
    }
    async inTurn() {
      const bar = this.bar();
      await this.start("A", bar, () => this.start("B", bar, () => {
      }));
    }
    // Which one is heard, and where, as long as it is.
    /** @param {Which} which @param {(() => void) | null} then */
    tell(which, then) {
      this.press(which);
      clearInterval(this.timer);
      this.timer = setInterval(() => {
        const { now } = this;
        if (now?.playing) {
          setText(find("compare-now"), phrase("script-compare-bar", { which, bar: Math.max(1, now.moment().bar) }));
          return;
        }
        this.press("");
        if (then) then();
      }, EVERY_MS2);
    }
    /** @param {Which | ''} which */
    press(which) {
      if (!which) clearInterval(this.timer);
      for (const each of ["A", "B"]) setState(find(`compare-hear-${each.toLowerCase()}`), "aria-pressed", String(each === which));
      if (!which) setText(find("compare-now"), "");
    }
    stop() {
      this.serial += 1;
      this.now?.pause();
      this.press("");
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
      const choice2 = find("draw-choice", HTMLSelectElement);
      choice2.addEventListener("change", () => {
        this.number = Number(choice2.value);
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
      const choice2 = find("draw-choice", HTMLSelectElement);
      const mark2 = JSON.stringify([rows.map(({ name }) => name), this.stages.map(({ title }) => title)]);
      if (this.mark !== mark2) {
        this.mark = mark2;
        choice2.replaceChildren(...rows.map(({ name }, k) => new Option(upper(name), String(k))));
        const shapes = start.shapes.filter(([, , closes]) => closes || !drawing?.circle);
        find("draw-shape").replaceChildren(new Option("", ""), ...shapes.map(([name, words]) => new Option(words, name)));
        find("draw-columns").replaceChildren(...this.stages.map(({ title }) => element("div", "column", title)));
        find("draw-values").replaceChildren(...this.stages.map(({ title }, k) => this.typed(title, k)));
      }
      choice2.value = String(this.number);
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

  // plan_jumps.js
  var Jumps = class {
    constructor() {
      this.links = findAll("a", HTMLAnchorElement, find("jumps"));
      find("jumps").addEventListener("keydown", (event) => this.key(event));
      const chart = find("chart-panel");
      new ResizeObserver(() => document.documentElement.style.setProperty("--chart-tall", `${chart.offsetHeight}px`)).observe(chart);
    }
    // A panel that this scene does not have is not in the list.
    show() {
      for (const link of this.links) {
        const panel = document.querySelector(link.hash)?.closest("section");
        link.hidden = !panel || panel.hidden;
      }
    }
    /** @param {KeyboardEvent} event */
    key(event) {
      const { key, altKey, ctrlKey, metaKey, target } = event;
      const shown = this.links.filter((link) => !link.hidden);
      const at = shown.indexOf(
        /** @type {HTMLAnchorElement} */
        target
      );
      if (altKey || ctrlKey || metaKey || at < 0) return;
      const ways = { ArrowRight: at + 1, ArrowDown: at + 1, ArrowLeft: at - 1, ArrowUp: at - 1, Home: 0, End: -1 };
      const next = ways[
        /** @type {keyof typeof ways} */
        key
      ];
      if (next === void 0) return;
      event.preventDefault();
      shown.at(next % shown.length)?.focus();
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
      const swap = row.swaps.map(({ wanted, given, reason: reason2 }) => phrase("script-in-place-of", { upper: upper(given), wanted, reason: reason2 })).join(" ");
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

  // plan_mending.js
  var Mending = class {
    // of: the part. taker: who puts what mends it into the plan.
    /** @param {() => PartRow} of @param {{ mend: (row: PartRow, mend: Mend) => void }} taker */
    constructor(of, taker) {
      this.of = of;
      this.taker = taker;
      this.list = element("ul", "part-mends");
      this.button = element("button", "small", phrase("script-part-mend"));
      this.button.type = "button";
      this.button.addEventListener("click", () => this.ask());
    }
    async ask() {
      const asked = store.now;
      const row = this.of();
      setText(this.button, phrase("script-part-trying"));
      this.button.disabled = true;
      try {
        const body = (sent) => ({ .../** @type {object} */
        sent, part: row.id });
        const { mends } = await askAbout("/api/mend", store.now, { body });
        if (store.now === asked) this.show(row, mends);
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        showError(error);
      } finally {
        setText(this.button, phrase("script-part-mend"));
        this.button.disabled = false;
      }
    }
    /** @param {PartRow} row @param {Mend[]} mends */
    show(row, mends) {
      const rows = mends.map((mend) => {
        const item = element("li");
        const button = element("button", "small", mend.words);
        button.type = "button";
        button.addEventListener("click", () => this.taker.mend(row, mend));
        item.append(button);
        return item;
      });
      this.list.replaceChildren(...rows.length ? rows : [element("li", "hint", phrase("script-part-no-mend"))]);
      const first = findAll("button", HTMLElement, this.list)[0];
      if (first) first.focus();
      announce(rows.length ? phrase("script-part-mends", { n: rows.length }) : phrase("script-part-no-mend"));
    }
  };

  // plan_words.js
  var TYPED_MS = 200;
  var made = 0;
  function withEdits(changes2, edits = store.now.edits) {
    const kept = Object.entries({ ...edits, ...changes2 }).filter(([, value]) => value !== void 0);
    return Object.fromEntries(kept);
  }
  var OwnText = class {
    // path: as edits name it. label: what it is, "Title". long: whether it takes several lines.
    /** @param {{ path: string, label: string, told: Told, long?: boolean, heading?: boolean, also?: (words: string) => Record<string, unknown> }} of */
    constructor({ path, label, told, long = true, heading: heading2 = false, also = () => ({}) }) {
      made += 1;
      this.id = `own-${made}`;
      this.path = path;
      this.label = label;
      this.told = told;
      this.long = long;
      this.also = also;
      this.row = null;
      this.timer = 0;
      this.asked = new AbortController();
      this.box = element("div", "own");
      this.box.dataset.own = path;
      this.text = element(heading2 ? "h4" : "p", "own-text");
      this.text.addEventListener("click", () => this.open());
      this.state = element("p", "hint own-state");
      this.change = this.button(phrase("script-own-change"), () => this.open());
      this.back = this.button(phrase("script-own-back"), () => this.reset());
      const tools = element("p", "own-tools");
      tools.append(this.change, this.back);
      this.error = element("p", "field-error");
      Object.assign(this.error, { id: `${this.id}-error`, hidden: true });
      this.error.dataset.error = `edits.${path}`;
      this.form = element("div", "own-form");
      this.form.hidden = true;
      this.box.append(this.text, this.state, tools, this.form, this.error);
    }
    /** @param {string} words @param {() => void} pressed */
    button(words, pressed2, className = "small") {
      const button = element("button", className, words);
      button.type = "button";
      button.append(span("unseen", `: ${this.label}`));
      button.addEventListener("click", pressed2);
      return button;
    }
    /** @param {string} label */
    relabel(label) {
      if (this.label === label) return;
      this.label = label;
      for (const button of [this.change, this.back]) setText(findIn(button, ".unseen"), `: ${label}`);
    }
    /** @param {TextRow} row */
    show(row) {
      this.row = row;
      setText(this.text, row.text || phrase("script-own-empty"));
      this.text.classList.toggle("own-none", !row.text);
      const changed = row.original !== row.text;
      this.back.hidden = !changed || row.original === null;
      this.box.classList.toggle("changed", changed && row.original !== null);
      const told = this.reading(row.age, row.loose);
      const untrue = row.claims.filter((claim) => !claim.holds).map((claim) => phrase("script-own-not-so", { claim: claim.says }));
      setText(this.state, changed ? [...told, ...untrue].join(" ") : untrue.join(" "));
      this.state.hidden = !this.state.textContent;
    }
    /** @param {number | null} age @param {string[]} loose */
    reading(age, loose) {
      const told = age === null ? [] : [phrase(age > 9 ? "script-own-reads-older" : "script-own-reads", { age: Math.round(age) })];
      if (loose.length) told.push(phrase("script-own-loose", { figures: loose.join(", ") }));
      return told;
    }
    open() {
      const { row } = this;
      if (!row || !this.form.hidden) return;
      const label = element("label", "field-name", this.label);
      const box = this.long ? Object.assign(element("textarea"), { rows: Math.min(10, Math.max(2, Math.ceil(row.text.length / 60))) }) : Object.assign(element("input"), { type: "text" });
      label.htmlFor = `${this.id}-box`;
      Object.assign(box, { id: `${this.id}-box`, value: row.text, spellcheck: true, autocomplete: "off" });
      const reads = element("p", "hint");
      reads.id = `${this.id}-reads`;
      reads.setAttribute("role", "status");
      box.setAttribute("aria-describedby", `${reads.id} ${this.error.id}`);
      setText(reads, this.reading(row.age, row.loose).join(" "));
      const buttons = element("p", "buttons");
      buttons.append(
        this.button(phrase("script-own-done"), () => this.done(box.value), "strongest"),
        this.button(phrase("script-own-leave"), () => this.close(), "")
      );
      box.addEventListener("input", () => this.typed(box.value, reads));
      box.addEventListener("keydown", (event) => {
        const { key, ctrlKey, metaKey } = (
          /** @type {KeyboardEvent} */
          event
        );
        if (key === "Escape") this.close();
        else if (key === "Enter" && (ctrlKey || metaKey || !this.long)) this.done(box.value);
        else return;
        event.preventDefault();
        event.stopPropagation();
      });
      this.form.replaceChildren(label, box, reads, this.claims(row), buttons);
      this.form.hidden = false;
      this.text.hidden = true;
      this.state.hidden = true;
      this.change.hidden = true;
      box.focus();
    }
    // What the scene says that the words claim. Unticked, it is claimed no more, and checked no more.
    /** @param {TextRow} row */
    claims(row) {
      if (!row.claimed.length) return element("span");
      const box = element("fieldset", "ticks stacked");
      box.append(element("legend", "", phrase("script-own-claims")));
      for (const words of row.claimed) {
        const claim = row.claims.find((each) => each.text === words);
        const tick = Object.assign(element("input"), { type: "checkbox", checked: claim !== void 0, value: words });
        const label = element("label", "tick");
        const said = claim?.says ?? words;
        label.append(tick, ` ${claim && !claim.holds ? phrase("script-own-not-so", { claim: said }) : said}`);
        box.append(label);
      }
      return box;
    }
    /** @param {string} text @param {HTMLElement} reads */
    typed(text, reads) {
      clearTimeout(this.timer);
      this.timer = setTimeout(() => this.ask(text, reads), TYPED_MS);
    }
    /** @param {string} text @param {HTMLElement} reads */
    async ask(text, reads) {
      this.asked.abort();
      this.asked = new AbortController();
      try {
        const body = (sent) => ({ .../** @type {Inputs} */
        sent, words: { path: this.path, text, claims: this.ticked() } });
        const found = await askAbout("/api/words", store.now, { signal: this.asked.signal, body });
        setText(reads, this.reading(found.age, found.loose).join(" "));
      } catch (error) {
        if (!aborted(error) && !(error instanceof Refused)) throw error;
      }
    }
    ticked() {
      return findAll('input[type="checkbox"]:checked', HTMLInputElement, this.form).map((each) => each.value);
    }
    /** @param {string} text */
    done(text) {
      const { row, path } = this;
      if (!row) return;
      const words = text.replace(/\s+/g, " ").trim();
      if (/^title$|\.(name|why)$/.test(path) && !words) {
        showError({ message: phrase("script-own-needed", { label: this.label }), where: `edits.${path}`, typed: true });
        return;
      }
      clearErrors();
      const ticked = this.ticked();
      this.close();
      const claims = row.claimed.length ? { [claimsPath(path)]: ticked.length === row.claimed.length ? void 0 : ticked } : {};
      this.told(phrase("script-own-changed", { label: this.label }));
      store.change({ edits: { ...withEdits({ ...rowEdit(path, words === row.original ? void 0 : words), ...claims, ...this.also(words) }) } });
    }
    reset() {
      this.told(phrase("script-as-the-scene-has-it", { label: this.label }));
      store.change({ edits: withEdits({ [this.path]: void 0, [claimsPath(this.path)]: void 0, ...this.also(this.row?.original ?? "") }) });
      this.change.focus();
    }
    close() {
      clearTimeout(this.timer);
      this.asked.abort();
      if (this.form.hidden) return;
      this.form.hidden = true;
      this.form.replaceChildren();
      this.text.hidden = false;
      this.state.hidden = !this.state.textContent;
      this.change.hidden = false;
      this.change.focus();
    }
  };
  var claimsPath = (path) => path.replace(/\.\w+$/, ".claims");
  function rowEdit(path, value, edits = store.now.edits) {
    const [whole2, row, key] = path.match(/^((?:part|hear)\.new-\d+)\.(\w+)$/) ?? [];
    if (!whole2) return { [path]: value };
    const { [key]: _, ...kept } = (
      /** @type {Record<string, unknown>} */
      edits[row] ?? {}
    );
    return { [row]: value === void 0 ? kept : { ...kept, [key]: value } };
  }
  var Words = class {
    /** @param {Told} told */
    constructor(told) {
      this.told = told;
      this.texts = /* @__PURE__ */ new Map();
      this.names = "";
    }
    // The words of a path, in a place of their own; made once.
    /** @param {string} path @param {string} label @param {{ long?: boolean, heading?: boolean, also?: (words: string) => Record<string, unknown> }} how */
    at(path, label, how = {}) {
      const found = this.texts.get(path);
      found?.relabel(label);
      if (found) return found;
      const text = new OwnText({ path, label, told: this.told, ...how });
      this.texts.set(path, text);
      return text;
    }
    /** @param {TextRow[]} rows @param {{ name: string, title: string }[]} stages */
    show(rows, stages) {
      const mark2 = rows.map((row) => row.path).join("|");
      if (mark2 !== this.names) this.frame(rows, stages);
      this.names = mark2;
      for (const row of rows) this.texts.get(row.path)?.show(row);
    }
    /** @param {TextRow[]} rows @param {{ name: string, title: string }[]} stages */
    frame(rows, stages) {
      const [title, story, captions] = ["own-title", "own-story", "own-captions"].map((id) => (
        /** @type {HTMLElement} */
        document.getElementById(id)
      ));
      title.replaceChildren(this.at("title", phrase("script-own-title"), { long: false, heading: true }).box);
      story.replaceChildren(this.at("story", phrase("script-own-story")).box);
      captions.replaceChildren(
        ...stages.flatMap((stage, k) => {
          const of = rows.filter((row) => row.path.startsWith(`stage.${stage.name}.`));
          return of.map((row) => {
            const item = element("li");
            const why = row.path.endsWith(".why");
            const label = phrase(why ? "script-own-why" : "script-own-caption", { stage: stage.title });
            item.append(span("letter", String.fromCharCode(65 + k % 26)), this.at(row.path, label).box);
            return item;
          });
        })
      );
    }
  };

  // plan_parts.js
  var LONGEST_NAME = 40;
  function choice(label, changed) {
    const box = element("div", "part-choice");
    const select = element("select");
    const name = element("label", "field-name", label);
    name.append(select);
    select.addEventListener("change", () => changed(select.value));
    box.append(name);
    return { box, select };
  }
  function unlike(name, taken) {
    for (let n = 2; ; n += 1) {
      const made2 = `${name.slice(0, LONGEST_NAME - 3)} ${n}`;
      if (!taken.some((other) => other.toLowerCase() === made2.toLowerCase())) return made2;
    }
  }
  function newRow(table, edits = store.now.edits) {
    for (let n = 1; ; n += 1) if (!(`${table}.new-${n}` in edits)) return `new-${n}`;
  }
  var PartCard = class {
    /** @param {PartRow} row @param {Parts} parts */
    constructor(row, parts) {
      const { id } = row;
      this.parts = parts;
      this.row = row;
      this.stagesMark = "";
      this.ticks = [];
      this.box = element("details", "key part");
      this.box.dataset.part = id;
      this.title = element("h4");
      this.mark = span("pill", "");
      const summary = element("summary");
      summary.append(this.title, this.mark);
      this.findings = element("ul", "dots part-findings");
      this.mending = new Mending(() => this.row, parts);
      const given = `part.${id}`;
      this.card = parts.words.at(`${given}.meaning`, phrase("script-part-card", { part: row.name }));
      this.sound = choice(phrase("script-part-sound"), (value) => this.take(value));
      this.asked = element("p", "hint");
      this.takeGiven = this.button("", () => this.take(this.row.played[0]?.given[0] ?? ""), "small");
      this.texture = choice(phrase("script-part-texture"), (value) => this.set({ texture: value }, `${phrase("script-part-texture")}: ${value}.`));
      this.term = element("p", "term-line");
      this.line = choice(phrase("script-part-line"), (value) => this.set({ line: value || void 0 }, `${phrase("script-part-line")}: ${lineWords(value)}.`));
      this.stages = element("fieldset", "ticks");
      this.rests = Object.assign(element("input"), { type: "checkbox" });
      this.rests.addEventListener("change", () => this.set({ rests: this.rests.checked ? void 0 : false }, phrase("script-part-changed", { part: this.row.name })));
      const rests = element("label", "tick");
      rests.append(this.rests, ` ${phrase("script-part-rests")}`);
      this.silence = this.button("", () => this.parts.silence(this.row), "");
      this.split = this.button(phrase("script-part-split"), () => this.parts.split(this.row), "");
      this.reset = this.button(phrase("script-own-back"), () => this.parts.reset(this.row), "");
      this.join = choice(phrase("script-part-join"), () => {
      });
      this.joinNow = this.button(phrase("script-part-join-now"), () => this.parts.join(this.row, this.join.select.value), "small");
      this.join.box.append(this.joinNow);
      const buttons = element("p", "buttons");
      buttons.append(this.split, this.silence, this.reset);
      this.error = element("p", "field-error");
      Object.assign(this.error, { hidden: true });
      this.error.dataset.error = `edits.${given}`;
      const name = parts.words.at(`${given}.name`, phrase("script-part-name"), { long: false, also: (words) => this.parts.renamed(id, words) });
      this.still = element("p", "hint");
      const soundBox = element("div", "part-sound");
      soundBox.append(this.sound.box, this.asked, this.takeGiven);
      this.playing = element("div", "part-playing");
      this.texture.box.append(this.term);
      this.playing.append(soundBox, this.texture.box, this.line.box, this.stages, rests);
      this.box.append(summary, this.findings, this.mending.button, this.mending.list, name.box, this.still, this.card.box, this.playing, this.join.box, buttons, this.error);
    }
    /** @param {string} words @param {() => void} pressed */
    button(words, pressed2, className = "small") {
      const button = element("button", className, words);
      button.type = "button";
      button.addEventListener("click", pressed2);
      return button;
    }
    // Some keys of the part set anew; undefined is the scene's own.
    /** @param {Record<string, unknown>} keys @param {string} said */
    set(keys, said) {
      this.parts.set(this.row, keys, said);
    }
    // The instrument becomes the first that the part asks for; the others stay behind it.
    /** @param {string} id */
    take(id) {
      const { row } = this;
      const at = row.sounds.indexOf(id);
      const others = row.written.filter((_, k) => k !== at);
      const known = this.parts.plan?.at_hand.find((each) => each.id === id);
      this.set({ sounds: [at < 0 ? id : row.written[at], ...others].slice(0, 20) }, phrase("script-part-takes", { part: row.name, instrument: known?.name ?? id }));
    }
    /** @param {PartRow} row @param {Plan} plan */
    show(row, plan) {
      this.row = row;
      const { played, silent } = row;
      const groups = played.map((each) => each.group);
      const wrong = row.findings.filter((each) => each.serious);
      this.title.replaceChildren(...groups.map((group) => badge((group - 1) % 12 + 1)), silent ? row.name : `${row.name}: ${namesOf(played.flatMap((each) => each.given), plan.at_hand)}`);
      for (const [k, svg] of [...this.title.querySelectorAll("svg text")].entries()) setText(svg, String(groups[k]));
      const said = silent ? phrase("script-part-silent") : !played.length ? phrase("script-part-nobody") : wrong.length ? phrase("script-part-trouble") : "";
      setText(this.mark, said);
      this.mark.hidden = !said;
      setState(this.mark, "data-good", "false");
      this.showFindings(row);
      this.showStill(row, plan);
      this.mending.button.hidden = silent || !wrong.length && played.length > 0;
      this.playing.hidden = silent;
      this.showSound(row, plan.at_hand);
      fillSelect(this.texture.select, plan.choices.textures.map((name) => [name, name]), row.texture);
      this.texture.select.disabled = row.only_beat;
      if (this.term.dataset.term !== row.texture) {
        this.term.dataset.term = row.texture;
        this.term.replaceChildren(span("", row.texture), ...termParts(row.texture));
      }
      const usual = played[0]?.line ?? "";
      fillSelect(this.line.select, [["", phrase("script-part-line-class", { line: row.line ? "" : lineWords(usual) })], ...plan.choices.lines.map((name) => (
        /** @type {[string, string]} */
        [name, lineWords(name)]
      ))], row.line);
      this.showStages(row, plan);
      this.rests.checked = row.rests;
      setText(this.silence, row.id.startsWith("new-") ? phrase("script-part-out") : silent ? phrase("script-part-plays") : phrase("script-part-silence"));
      this.reset.hidden = !this.parts.isChanged(row);
      this.split.hidden = silent || row.only_beat || plan.parts.length >= 12;
      const others = plan.parts.filter((each) => each.id !== row.id && !each.silent);
      fillSelect(this.join.select, others.map((each) => [each.id, each.name]), others.some((each) => each.id === this.join.select.value) ? this.join.select.value : others[0]?.id ?? "");
      this.join.box.hidden = silent || !others.length;
    }
    /** @param {PartRow} row */
    showFindings(row) {
      const mark2 = JSON.stringify(row.findings);
      if (this.findings.dataset.mark === mark2) return;
      this.findings.dataset.mark = mark2;
      this.findings.replaceChildren(
        ...row.findings.map(({ message, fix }) => element("li", "", [message, fix].filter(Boolean).join(" ")))
      );
      this.findings.hidden = !row.findings.length;
    }
    // Free texts keep the words that they have: what the part was called may be a thing of the science, too.
    /** @param {PartRow} row @param {Plan} plan */
    showStill(row, plan) {
      const was = plan.texts.find((each) => each.path === `part.${row.id}.name`)?.original;
      const lower = ` ${(was ?? "").toLowerCase()} `;
      const plain2 = (text) => ` ${text.toLowerCase().replace(/[^\p{L}\p{N}'’-]+/gu, " ")} `;
      const texts = was && was !== row.name ? plan.texts.filter((each) => !each.path.endsWith(".name") && plain2(each.text).includes(lower)) : [];
      const labels = texts.map((each) => this.parts.words.texts.get(each.path)?.label ?? "").filter(Boolean);
      setText(this.still, labels.length ? phrase("script-part-still", { name: was ?? "", texts: labels.join(", ") }) : "");
      this.still.hidden = !labels.length;
    }
    /** @param {PartRow} row @param {Instrument[]} atHand */
    showSound(row, atHand) {
      const main = row.played[0]?.given[0] ?? "";
      const known = atHand.some((each) => each.id === main) || !main ? atHand : [...atHand, { id: main, name: main, count: 1, textures: [row.texture], pitched: true }];
      const fits = (each) => each.textures.includes(row.texture) && (each.pitched || !row.notes);
      const good = known.filter(fits).map((each) => (
        /** @type {[string, string]} */
        [each.id, phrase("script-part-instrument", { name: upper(each.name), count: each.count })]
      ));
      const others = known.filter((each) => !fits(each)).map((each) => (
        /** @type {[string, string]} */
        [each.id, phrase("script-part-instrument-not", { name: upper(each.name) })]
      ));
      const options2 = [...good, ...others];
      fillSelect(this.sound.select, main ? options2 : [["", phrase("script-part-nobody")], ...options2], main);
      const [swap] = row.swaps;
      setText(this.asked, swap ? phrase("script-in-place-of", { upper: upper(swap.given), wanted: swap.wanted, reason: swap.reason }) : "");
      this.asked.hidden = !swap;
      this.takeGiven.hidden = !swap;
      if (swap) setText(this.takeGiven, phrase("script-part-take", { instrument: swap.given }));
    }
    /** @param {PartRow} row @param {Plan} plan */
    showStages(row, plan) {
      const { stages } = plan.choices;
      const mark2 = JSON.stringify(stages);
      if (this.stagesMark !== mark2) {
        this.stagesMark = mark2;
        this.ticks = stages.map(([name]) => Object.assign(element("input"), { type: "checkbox", value: name }));
        const labels = stages.map(([, title], k) => {
          const label = element("label", "tick");
          label.append(this.ticks[k], ` ${letterOf(k)} ${title}`);
          return label;
        });
        for (const tick of this.ticks) tick.addEventListener("change", () => this.tick(tick));
        this.stages.replaceChildren(element("legend", "", phrase("script-part-stages")), ...labels);
      }
      for (const tick of this.ticks) tick.checked = row.stages === "all" || row.stages.includes(tick.value);
    }
    /** @param {HTMLInputElement} tick */
    tick(tick) {
      const ticked = this.ticks.filter((each) => each.checked).map((each) => each.value);
      if (!ticked.length) {
        tick.checked = true;
        showError({ message: phrase("script-part-one-stage"), where: `part.${this.row.id}`, typed: true });
        return;
      }
      const away = this.row.stages === "all" ? [] : this.row.stages.filter((name) => !this.ticks.some((each) => each.value === name));
      this.set({ stages: ticked.length === this.ticks.length && !away.length ? "all" : [...ticked, ...away] }, phrase("script-part-changed", { part: this.row.name }));
    }
  };
  var lineWords = (line2) => line2 ? phrase("script-part-line-words", { line: line2 }) : "";
  var namesOf = (ids, atHand) => [...new Set(ids)].map((id) => atHand.find((each) => each.id === id)?.name ?? id).join(", ");
  var withoutRules = (rules) => Object.fromEntries(rules.map((index) => [`hear.${index}`, index.startsWith("new-") ? void 0 : null]));
  var Parts = class {
    /** @param {Told} told @param {Words} words */
    constructor(told, words) {
      this.told = told;
      this.words = words;
      this.cards = /* @__PURE__ */ new Map();
      this.names = "";
      this.plan = null;
      this.opens = "";
      find("part-add").addEventListener("click", () => this.add());
      store.addEventListener("change", () => {
        for (const { mending } of this.cards.values()) mending.list.replaceChildren();
      });
    }
    /** @param {Plan} plan */
    show(plan) {
      this.plan = plan;
      const mark2 = JSON.stringify(plan.parts.map((row) => [row.id, row.name]));
      if (this.names !== mark2) {
        const open = new Set([...this.cards].filter(([, card]) => card.box.open).map(([id]) => id));
        const focused = document.activeElement;
        this.names = mark2;
        this.cards = new Map(plan.parts.map((row) => [row.id, new PartCard(row, this)]));
        find("parts").replaceChildren(...[...this.cards.values()].map((card) => card.box));
        for (const [id, card] of this.cards) card.box.open = open.has(id) || id === this.opens;
        if (focused instanceof HTMLElement && find("parts").contains(focused)) focused.focus();
      }
      for (const row of plan.parts) this.cards.get(row.id)?.show(row, plan);
      find("part-add", HTMLButtonElement).disabled = plan.parts.length >= 12;
      const made2 = this.cards.get(this.opens);
      this.opens = "";
      if (made2) made2.box.querySelector("summary")?.focus();
    }
    /** @param {PartRow} row */
    isChanged(row) {
      return !row.id.startsWith("new-") && Object.keys(store.now.edits).some((path) => path.startsWith(`part.${row.id}.`));
    }
    /** @param {PartRow} row @param {Record<string, unknown>} keys @param {string} said */
    set(row, keys, said) {
      let changes2 = {};
      for (const [key, value] of Object.entries(keys)) changes2 = { ...changes2, ...rowEdit(`part.${row.id}.${key}`, value, withEdits(changes2)) };
      this.change(changes2, said);
    }
    /** @param {Record<string, unknown>} changes @param {string} said */
    change(changes2, said) {
      this.told(said);
      store.change({ edits: withEdits(changes2) });
    }
    /** @param {PartRow} row */
    reset(row) {
      const back = Object.fromEntries(Object.keys(store.now.edits).filter((path) => path.startsWith(`part.${row.id}.`)).map((path) => [path, void 0]));
      const was = this.plan?.texts.find((each) => each.path === `part.${row.id}.name`)?.original;
      const changes2 = { ...back, ...was && was !== row.name ? this.renamed(row.id, was) : {} };
      this.change(changes2, phrase("script-as-the-scene-has-it", { label: row.name }));
      this.cards.get(row.id)?.box.querySelector("summary")?.focus();
    }
    /** @param {PartRow} row */
    silence(row) {
      if (row.id.startsWith("new-")) {
        this.change({ [`part.${row.id}`]: void 0, ...withoutRules(this.rulesOf(row)), ...this.ownUnder(row, "") }, phrase("script-part-is-out", { part: row.name }));
        find("part-add").focus();
        return;
      }
      const last = this.plan?.parts.filter((each) => !each.silent).length === 1;
      if (!row.silent && last) {
        showError({ message: phrase("script-part-last"), where: `part.${row.id}`, typed: true });
        return;
      }
      this.change({ [`part.${row.id}.silent`]: row.silent ? void 0 : true }, phrase(row.silent ? "script-part-plays-again" : "script-part-is-silent", { part: row.name }));
    }
    // Its rules go by its name, and so does what it has of its own. What the scene itself says of a part of its own follows
    // where the text is made: only what stands among the edits is called anew here.
    /** @param {string} id @param {string} name */
    renamed(id, name) {
      const row = this.plan?.parts.find((each) => each.id === id);
      if (!row) return {};
      let changes2 = this.ownUnder(row, name);
      for (const index of id.startsWith("new-") ? this.rulesOf(row) : this.rulesAmongEdits(row)) changes2 = { ...changes2, ...rowEdit(`hear.${index}.part`, name, withEdits(changes2)) };
      return changes2;
    }
    // What a part is called in the edits: also the name for which a plan was refused, but never another part's.
    /** @param {PartRow} row */
    calledIn({ id, name }) {
      const others = this.plan?.parts.filter((each) => each.id !== id).map((each) => each.name) ?? [];
      const edits = store.now.edits;
      const written = String(edits[`part.${id}.name`] ?? /** @type {{ name?: string } | undefined} */
      edits[`part.${id}`]?.name ?? name);
      return [name, written].filter((each) => !others.includes(each));
    }
    // The rules of a new part, by number. A plan leaves those out whose place a pattern of its own takes: they are edits.
    /** @param {PartRow} row */
    rulesOf(row) {
      const planned = this.plan?.rules.filter((rule) => rule.part === row.name).map((rule) => rule.index) ?? [];
      return [.../* @__PURE__ */ new Set([...planned, ...this.rulesAmongEdits(row)])];
    }
    /** @param {PartRow} row */
    rulesAmongEdits(row) {
      const names = this.calledIn(row);
      return Object.entries(store.now.edits).flatMap(([path, value]) => {
        const [, index, key] = path.match(/^hear\.([^.]+)(\.part)?$/) ?? [];
        const part = key ? value : (
          /** @type {{ part?: string } | null} */
          value?.part
        );
        return index && names.includes(String(part)) ? [index] : [];
      });
    }
    // A new part's own pattern and sound under another name, or gone without one.
    /** @param {PartRow} row @param {string} name */
    ownUnder(row, name) {
      const { edits } = store.now;
      const changes2 = {};
      if (this.plan?.parts.some((each) => each.id !== row.id && each.name === name)) return changes2;
      for (const kind of ["pattern.", "sound."]) {
        for (const was of this.calledIn(row).filter((each) => each !== name)) {
          if (edits[kind + was] === void 0) continue;
          changes2[kind + was] = void 0;
          if (name) changes2[kind + name] = edits[kind + was];
        }
      }
      return changes2;
    }
    add() {
      const { plan } = this;
      if (!plan) return;
      const id = newRow("part");
      const used = new Set(plan.parts.flatMap((part) => part.played.flatMap((each) => each.given)));
      const drone = plan.at_hand.filter((each) => each.textures.includes("drone"));
      const free = drone.find((each) => !used.has(each.id) && each.count) ?? drone[0] ?? plan.at_hand[0];
      const name = unlike(phrase("script-part-new"), plan.parts.map((part) => part.name));
      const row = { name, texture: free.textures.includes("drone") ? "drone" : free.textures[0], sounds: [free.id], meaning: "" };
      this.opens = id;
      this.change({ [`part.${id}`]: row }, phrase("script-part-added", { part: name }));
    }
    // Another part beside this one: the same card, the same rules, sounds of its own.
    /** @param {PartRow} row */
    split(row) {
      const { plan } = this;
      if (!plan) return;
      const id = newRow("part");
      const name = unlike(row.name, plan.parts.map((part) => part.name));
      const [first, ...others] = row.written;
      const keys = { texture: row.texture, sounds: others.length ? [...others, first] : [first], stages: row.stages, meaning: row.meaning, ...row.rests ? {} : { rests: false }, ...row.line ? { line: row.line } : {} };
      const changes2 = { [`part.${id}`]: { name, ...keys } };
      for (const rule of plan.rules.filter((each) => each.part === row.name)) {
        const { quantity, control, from, to, why, curve } = rule;
        changes2[`hear.${newRow("hear", withEdits(changes2))}`] = { quantity, as: control, part: name, from, to, curve, why };
      }
      this.opens = id;
      this.change(changes2, phrase("script-part-divided", { part: row.name, other: name }));
    }
    // One part plays for both: in the stages of both, and by the other's rules where it has none of its own.
    /** @param {PartRow} row @param {string} other */
    join(row, other) {
      const { plan } = this;
      const into = plan?.parts.find((each) => each.id === other);
      if (!plan || !into) return;
      const stages = row.stages === "all" || into.stages === "all" ? "all" : plan.choices.stages.map(([name]) => name).filter((name) => row.stages.includes(name) || into.stages.includes(name));
      let changes2 = rowEdit(`part.${into.id}.stages`, stages);
      const own = new Set(plan.rules.filter((rule) => rule.part === into.name).map((rule) => rule.control));
      const fresh = row.id.startsWith("new-");
      for (const rule of plan.rules.filter((each) => each.part === row.name)) {
        if (!own.has(rule.control)) changes2 = { ...changes2, ...rowEdit(`hear.${rule.index}.part`, into.name, withEdits(changes2)) };
        else if (fresh) changes2 = { ...changes2, ...withoutRules([rule.index]) };
      }
      if (fresh) changes2 = { ...changes2, ...withoutRules(this.rulesOf(row).filter((index) => plan.rules.every((rule) => rule.index !== index))) };
      changes2 = { ...changes2, [fresh ? `part.${row.id}` : `part.${row.id}.silent`]: fresh ? void 0 : true, ...fresh ? this.ownUnder(row, "") : {} };
      this.change(changes2, phrase("script-part-joined", { part: row.name, other: into.name }));
      this.cards.get(into.id)?.box.querySelector("summary")?.focus();
    }
    // here: whether it was asked for in the part's own card.
    /** @param {PartRow} row @param {Mend} mend */
    mend(row, mend, here = true) {
      this.told(mend.words);
      if (here) this.cards.get(row.id)?.box.querySelector("summary")?.focus();
      const { facts, ...given } = store.now.class ?? {};
      let changes2 = {};
      for (const [path, value] of Object.entries(mend.edits)) changes2 = { ...changes2, ...rowEdit(path, value, withEdits(changes2)) };
      store.change({
        edits: withEdits(changes2),
        ...mend.class ? { class: { ...start.class, ...facts, ...given, ...mend.class } } : {}
      });
    }
  };

  // plan_axis.js
  var SOON_S2 = 0.08;
  var RING_S2 = 1.2;
  var BETWEEN_S = 0.6;
  var context = null;
  var playing = [];
  function hush() {
    for (const node of playing) node.stop();
    playing = [];
  }
  function sound(audio, sounds, first, after, atS) {
    const [fromS, toS] = [sounds.starts[first], sounds.starts[after]];
    const { timeS, sample, gain, pan, lastsS } = sounds.events;
    sounds.buffers ??= sounds.samples.map(({ pcm }) => pcmBuffer(pcm, sounds.rateHz));
    for (const [k, when2] of timeS.entries()) {
      if (when2 < fromS - 1e-4 || when2 >= toS - 1e-4) continue;
      const node = new AudioBufferSourceNode(audio, { buffer: sounds.buffers[sample[k]], loop: sounds.samples[sample[k]].loop });
      const level = new GainNode(audio, { gain: gain[k] });
      node.connect(level).connect(new StereoPannerNode(audio, { pan: pan[k] })).connect(audio.destination);
      node.start(atS + when2 - fromS);
      const endS = Math.min(sounds.samples[sample[k]].loop ? when2 + lastsS[k] : Infinity, toS + RING_S2);
      node.stop(atS + endS - fromS);
      playing.push(node);
    }
    return atS + toS - fromS;
  }
  var Axis = class {
    /** @param {string} index */
    constructor(index) {
      this.index = index;
      this.held = /* @__PURE__ */ new Map();
      this.mark = "";
      this.box = element("div", "axis");
      this.box.setAttribute("role", "group");
      this.ticks = element("ol", "axis-ticks");
      this.all = this.button(phrase("script-axis-all"), () => this.play([store.now], null));
      this.both = this.button(phrase("script-axis-both"), () => this.play([this.own(), store.now], null));
      const buttons = element("p", "buttons");
      buttons.append(this.all, this.both);
      this.box.append(this.ticks, buttons);
    }
    /** @param {string} words @param {() => void} pressed */
    button(words, pressed2) {
      const button = element("button", "small", words);
      button.type = "button";
      button.addEventListener("click", pressed2);
      return button;
    }
    /** @param {RuleRow} rule @param {string} name @param {boolean} changed */
    show(rule, name, changed) {
      setState(this.box, "aria-label", phrase("script-axis", { name }));
      this.both.hidden = !changed;
      const mark2 = JSON.stringify(rule.key);
      if (mark2 === this.mark) return;
      this.mark = mark2;
      const places = [phrase("script-low-end"), ...rule.key.slice(1, -1).map(() => ""), phrase("script-high-end")];
      this.ticks.replaceChildren(
        ...rule.key.map(([value, sounds], k) => {
          const item = element("li");
          const tick = element("button", "axis-tick");
          tick.type = "button";
          tick.append(span("unseen", places[k]), span("axis-value", value), span("axis-sound", sounds));
          tick.addEventListener("click", () => this.play([store.now], k));
          item.append(tick);
          return item;
        })
      );
    }
    // The plan with this rule as the scene has it.
    own() {
      const { [this.index]: _, ...rules } = store.now.rules;
      const edits = Object.fromEntries(Object.entries(store.now.edits).filter(([path]) => !path.startsWith(`hear.${this.index}.`)));
      return { ...store.now, rules, edits };
    }
    // Versions of the rule in turn: one row of each, or all from low to high.
    /** @param {Inputs[]} versions @param {number | null} row */
    async play(versions, row) {
      context ??= new AudioContext();
      const audio = context;
      audio.resume();
      hush();
      setState(this.box, "aria-busy", "true");
      try {
        const found = [];
        for (const version of versions) found.push(await this.sounds(version));
        let atS = audio.currentTime + SOON_S2;
        for (const sounds of found) {
          const last = sounds.starts.length - 1;
          atS = sound(audio, sounds, row ?? 0, row === null ? last : Math.min(row + 1, last), atS) + BETWEEN_S;
        }
        for (const [k, tick] of findAll(".axis-tick", HTMLElement, this.ticks).entries()) setState(tick, "data-heard", String(row === null || k === row));
        announce(row === null ? phrase("script-axis-plays") : found[0].rows[row].join(": "));
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        showError(error);
      } finally {
        setState(this.box, "aria-busy", "false");
      }
    }
    /** @param {Inputs} inputs @returns {Promise<AxisSounds>} */
    async sounds(inputs) {
      const mark2 = JSON.stringify([inputs.set, inputs.rules, inputs.drawn, inputs.edits, inputs.class, inputs.seed]);
      const held2 = this.held.get(mark2);
      if (held2) return held2;
      const body = (sent) => ({ .../** @type {object} */
      sent, rule: this.index });
      const found = await askAbout("/api/axis", inputs, { body });
      if (found.waiting) throw new Refused(found.waiting);
      if (this.held.size > 3) this.held.clear();
      this.held.set(mark2, found);
      return found;
    }
  };

  // plan_rules.js
  var CURVE_WORDS = {
    linear: phrase("script-equal-steps"),
    logarithmic: phrase("script-equal-ratios"),
    decibels: phrase("script-equal-decibels")
  };
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
    /** @type {Map<string, HTMLSelectElement>} */
    selects;
    /** @type {HTMLButtonElement} */
    out;
    /** @type {HTMLButtonElement} */
    back;
    /** @param {RuleRow} rule @param {Rules} hear */
    constructor(rule, hear) {
      this.index = rule.index;
      this.rule = rule;
      this.fields = [];
      const where = `rules.${rule.index}`;
      this.box = element("details", "key rule");
      this.box.open = rule.index === "0";
      this.box.dataset.rule = String(rule.index);
      const summary = element("summary");
      this.title = element("h4");
      this.mark = span("pill", "");
      summary.append(this.title, this.mark);
      this.sentence = element("p", "key-sentence");
      this.why = hear.words.at(`hear.${rule.index}.why`, phrase("script-own-reason", { quantity: upper(rule.quantity), control: start.controls[rule.control] })).box;
      this.meaning = element("p", "hint");
      this.error = element("p", "field-error");
      Object.assign(this.error, { hidden: true });
      this.error.dataset.error = where;
      const ends = element("div", "ends");
      ends.append(...ENDS.map(([end, words]) => this.end(rule, end, words, hear)));
      this.axis = new Axis(rule.index);
      this.box.append(summary, this.sentence, this.why, this.meaning, this.made(rule, hear), ends, this.curveField(rule, hear), this.error, this.axis.box, ...this.result(rule));
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
    // Which quantity, heard as what, of whom; which way; and the rule taken out.
    /** @param {RuleRow} rule @param {Rules} hear */
    made(rule, hear) {
      const { index } = rule;
      const box = element("fieldset", "rule-made");
      box.append(element("legend", "", phrase("script-rule-made")));
      const rows = [
        ["quantity", phrase("script-rule-quantity"), (value) => hear.hear(this.rule, { quantity: value })],
        ["control", phrase("script-rule-control"), (value) => hear.hear(this.rule, { control: value })],
        ["part", phrase("script-rule-part"), (value) => hear.hear(this.rule, { part: value })]
      ];
      this.selects = new Map(
        rows.map(([key, label, changed]) => {
          const select = element("select");
          select.dataset.key = key;
          const name = element("label", "field-name", label);
          name.append(select);
          box.append(name);
          select.addEventListener("change", () => changed(select.value));
          return (
            /** @type {[string, HTMLSelectElement]} */
            [key, select]
          );
        })
      );
      const buttons = element("p", "buttons");
      const button = (words, pressed2) => {
        const made2 = element("button", "small", words);
        made2.type = "button";
        made2.addEventListener("click", pressed2);
        buttons.append(made2);
        return made2;
      };
      button(phrase("script-rule-turn"), () => hear.turn(this.rule));
      this.out = button(phrase("script-rule-out"), () => hear.takeOut(this.rule));
      this.back = button(phrase("script-own-back"), () => hear.putBack(index));
      box.append(buttons);
      return box;
    }
    /** @param {RuleRow} rule @param {Rules} hear */
    showMade(rule, hear) {
      const { plan } = hear;
      if (!plan) return;
      const choices = (
        /** @type {Record<string, [string, string][]>} */
        {
          quantity: plan.choices.quantities.map(({ name, unit }) => [name, unit ? `${upper(name)} (${unit})` : upper(name)]),
          control: Object.keys(plan.choices.controls).map((name) => [name, start.controls[name]]),
          part: [["", phrase("script-rule-all")], ...plan.parts.filter((part) => !part.silent).map((part) => (
            /** @type {[string, string]} */
            [part.name, part.name]
          ))]
        }
      );
      for (const [key, select] of this.selects) fillSelect(select, choices[key], String(rule[
        /** @type {'quantity' | 'control' | 'part'} */
        key
      ]));
      this.selects.get("part").disabled = rule.control === "tempo";
      this.out.hidden = hear.shown.length < 2;
      this.back.hidden = !hear.isChanged(rule.index);
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
    /** @param {RuleRow} rule @param {RuleRow | undefined} own @param {Rules} hear */
    show(rule, own, hear) {
      this.rule = rule;
      const changed = hear.isChanged(rule.index);
      this.showMade(rule, hear);
      this.axis.show(rule, `${upper(rule.quantity)}, ${start.controls[rule.control]}`, changed);
      const part = rule.part ? ` (${rule.part})` : "";
      setText(this.title, phrase("script-heard-as", { upper: upper(rule.quantity), control: start.controls[rule.control], part }));
      setFresh(this.mark, rule.audible ? phrase("script-heard") : phrase("script-hard-to-hear"));
      setState(this.mark, "data-good", String(Boolean(rule.audible)));
      setFresh(this.sentence, rule.sentence);
      setText(this.meaning, rule.meaning ? `${upper(rule.quantity)}: ${rule.meaning}.` : "");
      for (const { field, side, end } of this.fields) {
        const steps = rule[end ? (
          /** @type {const} */
          `${side}_high`
        ) : (
          /** @type {const} */
          `${side}_low`
        )];
        field.show({ steps, changed: changed && own !== void 0 && own.quantity === rule.quantity && own.control === rule.control && rule[side][end] !== own[side][end] });
      }
      const choices = rule.curves.map((name) => (
        /** @type {[string, string]} */
        [name, CURVE_WORDS[name] ? `${name}: ${CURVE_WORDS[name]}` : name]
      ));
      this.curve.box.hidden = choices.length < 2;
      this.curve.show({ choices, chosen: rule.curve, changed: changed && own !== void 0 && rule.curve !== own.curve });
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
    /** @param {Told} told @param {Words} words */
    constructor(told, words) {
      this.words = words;
      this.cards = /* @__PURE__ */ new Map();
      this.told = told;
      this.names = "";
      this.opens = "";
      this.focused = "";
      this.shown = [];
      this.written = [];
      this.plan = null;
      find("rule-add").addEventListener("click", () => this.add());
      find("reset-rules").addEventListener("click", () => {
        told(phrase("script-the-rules-are-as-the"));
        store.change({ rules: {}, edits: withoutRules2() });
        find("rules-title").focus();
      });
    }
    // Both ends go to the server together: the one that was moved, and the other as it is.
    /** @param {string} index @param {Side} side @param {End} end @param {string} text @param {string} said */
    changeEnd(index, side, end, text, said) {
      const own = store.now.rules[index]?.[side] ?? ruleAt(this.shown, index)[side];
      const texts = (this.edited(index, side) ?? own).map((other, k) => k === end ? text : other);
      this.change(index, { [side]: texts }, `rules.${index}.${side}.${end}`, said);
    }
    // One end goes back to the scene's own; where the other is the scene's own too, nothing is left changed.
    /** @param {string} index @param {Side} side @param {End} end */
    resetEnd(index, side, end) {
      const written = ruleAt(this.written, index)[side];
      const texts = ruleAt(this.shown, index)[side].map((text, k) => k === end ? written[k] : text);
      if (texts.every((text, k) => text === written[k])) this.reset(index, side);
      else this.change(index, { [side]: texts }, "", phrase("script-as-the-scene-has-it-2"));
    }
    // What an edit says of a rule; the ends of one that is a person's own, or hears something else, stand there.
    /** @param {string} index @param {string} key @returns {string[] | undefined} */
    edited(index, key) {
      const { edits } = store.now;
      const whole2 = (
        /** @type {Record<string, string[]> | undefined} */
        edits[`hear.${index}`]
      );
      return whole2 ? whole2[key] : (
        /** @type {string[] | undefined} */
        edits[`hear.${index}.${key}`]
      );
    }
    /** @param {string} index @param {RuleChange} part @param {string} mark @param {string} said */
    change(index, part, mark2, said) {
      this.told(said);
      const [key] = Object.keys(part);
      const whole2 = index.startsWith("new-") || this.edited(index, key) !== void 0;
      if (whole2) store.change({ edits: withEdits(rowEdit(`hear.${index}.${key}`, part[
        /** @type {keyof RuleChange} */
        key
      ])) }, mark2);
      else store.change({ rules: { ...store.now.rules, [index]: { ...store.now.rules[index], ...part } } }, mark2);
    }
    /** @param {string} index @param {keyof RuleChange} key */
    reset(index, key) {
      const { [key]: _, ...kept } = store.now.rules[index] ?? {};
      const { [index]: __, ...others } = store.now.rules;
      this.told(phrase("script-as-the-scene-has-it-2"));
      store.change({ rules: Object.keys(kept).length ? { ...others, [index]: kept } : others, edits: withEdits({ [`hear.${index}.${key}`]: void 0 }) });
    }
    /** @param {string} index */
    isChanged(index) {
      return !index.startsWith("new-") && (index in store.now.rules || Object.keys(store.now.edits).some((path) => path.startsWith(`hear.${index}.`)));
    }
    // Another quantity, control or part. Ends that belong to what was heard before go with it, and so does its reason.
    /** @param {RuleRow} rule @param {{ quantity?: string, control?: string, part?: string }} to */
    hear(rule, to) {
      const { plan } = this;
      if (!plan) return;
      const { index } = rule;
      const quantity = to.quantity ?? rule.quantity;
      const control = to.control ?? rule.control;
      const part = control === "tempo" ? "" : to.part ?? rule.part;
      const keys = {};
      if (quantity !== rule.quantity) Object.assign(keys, { quantity, from: plan.choices.quantities.find((each) => each.name === quantity)?.from });
      if (control !== rule.control) Object.assign(keys, { as: control, to: plan.choices.controls[control] });
      if (part !== rule.part) keys.part = part || null;
      if ("quantity" in keys || "as" in keys) Object.assign(keys, { curve: "linear", why: reason(quantity, control), claims: this.claims(index) });
      this.focused = Object.keys(to)[0];
      this.opens = index;
      this.edit(index, keys, phrase("script-rule-now", { quantity: upper(quantity), control: start.controls[control], whom: part || phrase("script-rule-all") }));
    }
    // What the scene's reason claims is not claimed of another one.
    /** @param {string} index */
    claims(index) {
      return this.plan?.texts.find((row) => row.path === `hear.${index}.why`)?.claimed.length ? null : void 0;
    }
    /** @param {string} index @param {Record<string, unknown>} keys @param {string} said */
    edit(index, keys, said) {
      let changes2 = {};
      for (const [key, value] of Object.entries(keys)) changes2 = { ...changes2, ...rowEdit(`hear.${index}.${key}`, index.startsWith("new-") && value === null ? void 0 : value, withEdits(changes2)) };
      this.told(said);
      store.change({ edits: withEdits(changes2) });
    }
    // Other ends of a rule, as a finding offers them: tried on this very piece.
    /** @param {string} index @param {RuleChange} change */
    mend(index, change) {
      this.told(phrase("script-mended"));
      const whole2 = index.startsWith("new-") || Object.keys(change).some((key) => this.edited(index, key) !== void 0);
      if (whole2) this.edit(index, { ...change }, phrase("script-mended"));
      else store.change({ rules: { ...store.now.rules, [index]: { ...store.now.rules[index], ...change } } });
    }
    // The other way round: what was loud is soft.
    /** @param {RuleRow} rule */
    turn(rule) {
      const { index } = rule;
      const way = rule.to_high.at > rule.to_low.at ? "down" : "up";
      const to = [...rule.to].reverse();
      const why = reason(rule.quantity, rule.control, way);
      this.edit(index, { to, why, claims: this.claims(index) }, phrase("script-rule-turned", { low: rule.to[1], high: rule.to[0] }));
    }
    /** @param {RuleRow} rule */
    takeOut(rule) {
      const { index } = rule;
      const { [index]: _, ...rules } = store.now.rules;
      const kept = Object.fromEntries(Object.entries(store.now.edits).filter(([path]) => !path.startsWith(`hear.${index}.`)));
      this.told(phrase("script-rule-is-out", { quantity: upper(rule.quantity), control: start.controls[rule.control] }));
      store.change({ rules, edits: withEdits({ [`hear.${index}`]: index.startsWith("new-") ? void 0 : null }, kept) });
      find("rules-title").focus();
    }
    // All of a rule as the scene has it.
    /** @param {string} index */
    putBack(index) {
      const { [index]: _, ...rules } = store.now.rules;
      const edits = Object.fromEntries(Object.entries(store.now.edits).filter(([path]) => path !== `hear.${index}` && !path.startsWith(`hear.${index}.`)));
      this.opens = index;
      this.focused = "quantity";
      this.told(phrase("script-as-the-scene-has-it-2"));
      store.change({ rules, edits });
    }
    // A rule more: a quantity that nobody hears yet, as something that a part does not follow yet.
    add() {
      const { plan } = this;
      if (!plan || !plan.choices.quantities.length) return;
      const heard = new Set(plan.rules.map((rule) => rule.quantity));
      const quantity = plan.choices.quantities.find((each) => !heard.has(each.name)) ?? plan.choices.quantities[0];
      const parts = plan.parts.filter((part) => !part.silent);
      const taken = new Set(plan.rules.map((rule) => `${rule.control} ${rule.part}`));
      const free = ["dynamics", "brightness", "density", "pitch"].flatMap((control) => parts.map((part) => ({ control, part: part.name }))).find(({ control, part }) => !taken.has(`${control} ${part}`));
      if (!free) return;
      const index = newRow("hear");
      const row = { quantity: quantity.name, as: free.control, part: free.part, from: quantity.from, to: plan.choices.controls[free.control], why: reason(quantity.name, free.control) };
      this.opens = index;
      this.focused = "quantity";
      this.told(phrase("script-rule-now", { quantity: upper(quantity.name), control: start.controls[free.control], whom: free.part }));
      store.change({ edits: withEdits({ [`hear.${index}`]: row }) });
    }
    // written: the rules as the scene has them, where they are known yet.
    /** @param {Plan} plan @param {RuleRow[] | undefined} written */
    show(plan, written) {
      const { rules } = plan;
      this.plan = plan;
      this.shown = rules;
      this.written = written ?? rules;
      const names = JSON.stringify(rules.map((rule) => [rule.index, rule.quantity, rule.control, rule.part]));
      if (this.names !== names) this.frame(rules, names);
      for (const rule of rules) this.cards.get(rule.index)?.show(rule, this.written.find((each) => each.index === rule.index), this);
      find("reset-rules").hidden = !Object.keys(store.now.rules).length && !Object.keys(store.now.edits).some((path) => path.startsWith("hear."));
      find("rule-add", HTMLButtonElement).hidden = !plan.choices.quantities.length || rules.length >= 40;
      this.showOut();
    }
    /** @param {RuleRow[]} rules @param {string} names */
    frame(rules, names) {
      const open = new Set([...this.cards].filter(([, card]) => card.box.open).map(([index]) => index));
      const first = this.names === "" || !rules.some((rule) => this.cards.has(rule.index));
      this.names = names;
      this.cards = new Map(rules.map((rule) => [rule.index, new RuleCard(rule, this)]));
      find("rules").replaceChildren(...[...this.cards.values()].map((card) => card.box));
      if (!rules.length) find("rules").append(element("p", "", phrase("script-no-rules")));
      if (!first) for (const [index, card] of this.cards) card.box.open = open.has(index) || index === this.opens;
      const made2 = this.cards.get(this.opens)?.selects.get(this.focused);
      this.opens = "";
      this.focused = "";
      if (made2) made2.focus();
    }
    // What is taken out, each one key away.
    showOut() {
      const gone = this.written.filter((rule) => store.now.edits[`hear.${rule.index}`] === null);
      setRows(find("rules-out"), gone, (item, rule) => {
        const back = element("button", "small", phrase("script-rule-back"));
        back.type = "button";
        back.append(span("unseen", `: ${upper(rule.quantity)}`));
        back.addEventListener("click", () => this.putBack(rule.index));
        item.append(span("", `${phrase("script-rule-gone", { quantity: upper(rule.quantity), control: start.controls[rule.control] })} `), back);
      });
    }
  };
  var withoutRules2 = () => Object.fromEntries(Object.entries(store.now.edits).filter(([path]) => !path.startsWith("hear.")));
  var reason = (quantity, control, way = "up") => phrase("script-rule-reason", { quantity, control, way });

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
    const made2 = empty(boxes.beats, each, bars);
    for (const [k, cell] of boxes.cells.entries()) {
      const at = Math.floor(k * each / boxes.each);
      if (at >= made2.cells.length || cell === SILENT2) continue;
      if (cell === SOUND) [made2.cells[at], made2.notes[at]] = [SOUND, boxes.notes[k]];
      else for (let n = at; n < at + Math.max(1, each / boxes.each) && n < made2.cells.length; n += 1) if (made2.cells[n] === SILENT2 && made2.cells[n - 1] !== SILENT2 && n % (boxes.beats * each)) made2.cells[n] = HELD;
    }
    return made2;
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
    const made2 = empty(boxes.beats, boxes.each, boxes.cells.length / (boxes.beats * boxes.each));
    for (const { at, until, note } of taps) {
      const k = Math.max(0, Math.round(at * made2.each));
      if (k >= made2.cells.length) continue;
      [made2.cells[k], made2.notes[k]] = [SOUND, note];
      if (!held2) continue;
      const end = Math.min(Math.round(until * made2.each), made2.cells.length, (Math.floor(k / (made2.beats * made2.each)) + 1) * made2.beats * made2.each);
      for (let n = k + 1; n < end; n += 1) [made2.cells[n], made2.notes[n]] = [HELD, ""];
    }
    return made2;
  }

  // plan_waiting.js
  var LOOK_MS = 4e3;
  var Waiting = class {
    // address: where they are asked for, under `key` of the answer. list: the list's id; its title has one, too. news: what
    // is announced when there are more. row: what one looks like.
    /** @param {{ address: string, key: string, list: string, news: (n: number) => string }} what @param {(one: Row) => HTMLElement} row */
    constructor(what, row) {
      this.what = what;
      this.row = row;
      if (start.home && start.shared) setInterval(() => document.hidden || this.look(), LOOK_MS);
    }
    async look() {
      try {
        this.show((await ask(this.what.address))[this.what.key]);
      } catch {
      }
    }
    /** @param {Row[]} rows */
    show(rows) {
      const list = find(this.what.list);
      const mark2 = JSON.stringify(rows);
      if (list.dataset.mark === mark2) return;
      const more = rows.length > list.children.length;
      list.dataset.mark = mark2;
      find(`${this.what.list}-title`).hidden = !rows.length;
      list.replaceChildren(...rows.map((one) => this.row(one)));
      if (more) announce(this.what.news(rows.length));
    }
  };

  // plan_offers.js
  var Offers = class {
    // now: what stands in the boxes, and whose it is. taken: puts a pattern into the plan.
    /** @param {() => { part: string, pattern: OwnPattern | null }} now @param {(part: string, pattern: OwnPattern) => void} taken */
    constructor(now, taken) {
      this.taken = taken;
      const send = find("pattern-send");
      send.hidden = Boolean(start.home);
      send.addEventListener("click", () => this.send(now()));
      this.waiting = new Waiting(
        { address: "/api/offers", key: "offers", list: "pattern-offers", news: (n) => phrase("script-offer-waiting", { n }) },
        (offer) => this.row(offer)
      );
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
    /** @param {Offer} offer */
    row({ id, part, ...pattern }) {
      const item = element("li");
      item.append(span("strong", pattern.name || part), span("", `${part}: ${pattern.boxes.join(" | ")}`));
      const button = (words, take) => addButton(item, words, async () => {
        if (take) this.taken(part, pattern);
        find("pattern-title").focus();
        this.waiting.show((await ask("/api/offers", { id })).offers);
      });
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
      this.stop();
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
      const made2 = this.boxes.cells.includes(SOUND) ? patternOf(this.boxes, this.name) : null;
      if (!made2 && !this.own) return;
      clearErrors('[data-error="pattern"]');
      this.sent = JSON.stringify(made2);
      const { part } = this;
      this.told(made2 ? phrase("script-pattern-put", { part }) : phrase("script-pattern-out", { part }));
      store.change({ edits: { ...store.now.edits, [PATH + this.part]: made2 } }, mark2);
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
      const choice2 = find("pattern-part", HTMLSelectElement);
      if (!this.row) {
        this.stop();
        this.part = parts.find((row) => row.own)?.part ?? parts[0].part;
      }
      fillSelect(choice2, parts.map(({ group, part, instrument }) => [part, phrase("script-pattern-part", { group, part, instrument })]), this.part);
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
      const made2 = Array.from({ length: bars }, (_, bar) => {
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
      find("pattern-grid").replaceChildren(...made2);
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
    fillSelect(find(id, HTMLSelectElement), rows, rows.some(([each]) => each === value) ? value : rows[0]?.[0] ?? "");
  }
  function counted(beats, each) {
    const words = COUNTS[
      /** @type {1 | 2 | 4} */
      each
    ];
    return Array.from({ length: Math.min(beats, 2) }, (_, beat) => words.map((word, n) => n ? word : String(beat + 1)).join(" ")).join(" ");
  }

  // plan_seats.js
  var PLACES = "group:";
  var groupsOf = (row) => [...new Set(row.played.map((each) => each.group))].sort((a, b) => a - b);
  var Seats = class {
    /** @param {Told} told @param {Parts} parts */
    constructor(told, parts) {
      this.told = told;
      this.parts = parts;
      this.mark = "";
      this.dragged = 0;
      this.rows = [];
      this.from = null;
      this.moving = false;
      this.selects = [];
      this.notes = /* @__PURE__ */ new Map();
      this.reset = find("seats-reset", HTMLButtonElement);
      this.reset.addEventListener("click", () => this.dealAnew());
      store.addEventListener("change", () => {
        if (!this.moving) this.from = null;
      });
    }
    /** @param {Plan} plan */
    show(plan) {
      this.rows = plan.parts.filter((row) => !row.silent);
      const groups = [...new Set(this.rows.flatMap(groupsOf))].sort((a, b) => a - b);
      const mark2 = JSON.stringify([groups.map((group) => [group, this.playedBy(group).map((row) => row.id)]), this.unplayed().map((row) => row.id)]);
      if (this.mark !== mark2) this.frame(groups);
      this.mark = mark2;
      for (const group of groups) setText(find(`seat-${group}-players`), phrase("script-count-players", { n: this.players(group) }));
      for (const { group, part, select } of this.selects) fillSelect(select, this.options(group, part, groups), part);
      for (const row of this.rows) this.note(row);
      this.reset.hidden = !this.asked().length;
    }
    /** @param {number} group */
    playedBy(group) {
      return this.rows.filter((row) => groupsOf(row).includes(group));
    }
    unplayed() {
      return this.rows.filter((row) => !row.played.length);
    }
    // All pupils of a group, both halves of it where it has two.
    /** @param {number} group */
    players(group) {
      const played = this.rows.flatMap((row) => row.played.filter((each) => each.group === group));
      const halves = new Map(played.map((each) => [each.team, each.players]));
      return [...halves.values()].reduce((sum, each) => sum + each, 0);
    }
    /** @param {number} group @param {string} part @param {number[]} groups @returns {import('./plan_select.js').Option[]} */
    options(group, part, groups) {
      const own = this.playedBy(group).map((row) => row.id);
      const names = (other) => this.playedBy(other).map((row) => row.name).join(", ");
      return [
        ...this.rows.filter((row) => row.id === part || !own.includes(row.id)).map((row) => (
          /** @type {[string, string]} */
          [row.id, row.name]
        )),
        ...groups.filter((other) => other !== group).map((other) => (
          /** @type {[string, string, string]} */
          [PLACES + other, phrase("script-seat-other", { group: other, parts: names(other) }), phrase("script-seat-places")]
        ))
      ];
    }
    // The rows themselves are made anew only where what a group plays has changed; the focus stays with its group.
    /** @param {number[]} groups */
    frame(groups) {
      const focused = document.activeElement?.closest("[data-seat]");
      const at = focused instanceof HTMLElement && find("seats").contains(focused) ? focused.dataset.seat : void 0;
      this.selects = [];
      this.notes = /* @__PURE__ */ new Map();
      find("seats").replaceChildren(...groups.map((group) => this.seat(group)), ...this.unplayed().map((row) => this.free(row, groups)));
      const again = at === void 0 ? null : find("seats").querySelector(`[data-seat="${at}"] select`);
      this.moving = true;
      if (at !== void 0) (again instanceof HTMLElement ? again : find("seats-title")).focus();
      this.moving = false;
    }
    /** @param {number} group */
    seat(group) {
      const item = element("li", "seat");
      item.dataset.seat = String(group);
      const who = element("div", "seat-who");
      who.draggable = true;
      who.title = phrase("script-seat-drag");
      const icon = badge((group - 1) % 12 + 1);
      const number = icon.querySelector("text");
      if (number) number.textContent = String(group);
      const players = span("hint", "");
      players.id = `seat-${group}-players`;
      who.append(icon, element("h4", "", phrase("script-seat-group", { group })), players);
      item.append(who);
      for (const [k, row] of this.playedBy(group).entries()) {
        item.append(this.choice(phrase(k ? "script-seat-and" : "script-seat-plays-label", { group }), group, row.id));
        item.append(this.noteOf(row, group));
      }
      this.drags(item, who, group);
      return item;
    }
    // A part that nobody plays, to be given to a group beside what that plays already.
    /** @param {PartRow} row @param {number[]} groups */
    free(row, groups) {
      const item = element("li", "seat");
      item.dataset.seat = row.id;
      const label = element("label", "seat-choice", phrase("script-seat-give", { part: row.name }));
      const select = element("select");
      fillSelect(select, [["", phrase("script-part-nobody")], ...groups.map((group) => (
        /** @type {[string, string]} */
        [String(group), phrase("script-seat-group", { group })]
      ))], "");
      select.addEventListener("change", () => {
        if (select.value) this.seatAll(/* @__PURE__ */ new Map([[row.id, [Number(select.value)]]]), phrase("script-seat-plays", { group: Number(select.value), part: row.name }));
      });
      label.append(select);
      item.append(element("h4", "", row.name), label, this.noteOf(row, 0));
      return item;
    }
    /** @param {string} words @param {number} group @param {string} part */
    choice(words, group, part) {
      const label = element("label", "seat-choice", words);
      const select = element("select");
      select.addEventListener("focus", () => {
        if (!this.moving || this.from?.group !== group) this.from = { group, part, rows: this.rows };
      });
      select.addEventListener("change", () => this.choose(group, part, select.value));
      label.append(select);
      this.selects.push({ group, part, select });
      return label;
    }
    // What is wrong with a part, with its first group.
    /** @param {PartRow} row @param {number} group */
    noteOf(row, group) {
      if (groupsOf(row).length && groupsOf(row)[0] !== group) return "";
      const box = element("div", "seat-note");
      const words = element("ul", "dots");
      const mending = new Mending(() => this.rows.find((each) => each.id === row.id) ?? row, {
        mend: (of, mend) => {
          find("seats-title").focus();
          this.parts.mend(of, mend, false);
        }
      });
      box.append(words, mending.button, mending.list);
      this.notes.set(row.id, { box, words, mending });
      return box;
    }
    /** @param {PartRow} row */
    note(row) {
      const note = this.notes.get(row.id);
      if (!note) return;
      const found = row.findings.filter((each) => each.serious || each.kind === "class");
      const mark2 = JSON.stringify(found);
      if (note.words.dataset.mark !== mark2) {
        note.words.dataset.mark = mark2;
        note.words.replaceChildren(...found.map(({ message, fix }) => element("li", "", [message, fix].filter(Boolean).join(" "))));
      }
      note.mending.button.hidden = !found.some((each) => each.serious) && row.played.length > 0;
      note.box.hidden = !found.length && note.mending.button.hidden;
      note.mending.list.replaceChildren();
    }
    // A group plays another part: who played that takes over what this group leaves, unless others play it still.
    /** @param {number} group @param {string} part @param {string} to */
    choose(group, part, to) {
      const from = this.from?.group === group ? this.from : { part, rows: this.rows };
      if (to.startsWith(PLACES)) {
        this.changePlaces(group, Number(to.slice(PLACES.length)), from.rows);
        return;
      }
      const [left, taken] = [from.part, to].map((id) => from.rows.find((row) => row.id === id));
      if (!left || !taken) return;
      const stay = groupsOf(left).filter((each) => each !== group);
      const there = groupsOf(taken);
      const other = stay.length || left === taken ? 0 : there.at(-1) ?? 0;
      const seats = /* @__PURE__ */ new Map([
        [left.id, other ? [other] : stay],
        [taken.id, [.../* @__PURE__ */ new Set([...there.filter((each) => each !== other), group])].sort((a, b) => a - b)]
      ]);
      const said = other ? phrase("script-seat-exchange", { group, part: taken.name, other, left: left.name }) : phrase("script-seat-plays", { group, part: taken.name });
      this.seatAll(seats, said, from.rows);
    }
    /** @param {number} one @param {number} other */
    changePlaces(one, other, rows = this.rows) {
      const turned = (group) => group === one ? other : group === other ? one : group;
      const seats = rows.filter((row) => row.played.length).map((row) => (
        /** @type {[string, number[]]} */
        [row.id, groupsOf(row).map(turned).sort((a, b) => a - b)]
      ));
      this.seatAll(new Map(seats), phrase("script-seat-turned", { group: one, other }), rows);
    }
    // From the first choice on it is hers who plays what: every part that is played keeps its groups.
    /** @param {Map<string, number[]>} seats @param {string} said */
    seatAll(seats, said, rows = this.rows) {
      let changes2 = {};
      for (const row of rows) {
        const groups = seats.get(row.id) ?? groupsOf(row);
        changes2 = { ...changes2, ...rowEdit(`part.${row.id}.groups`, groups.length ? groups : void 0, withEdits(changes2)) };
      }
      this.told(said);
      this.moving = true;
      store.change({ edits: withEdits(changes2) }, "seats");
      this.moving = false;
    }
    // The parts that somebody gave to groups.
    asked() {
      return this.rows.filter((row) => row.groups.length);
    }
    dealAnew() {
      let changes2 = {};
      for (const row of this.asked()) changes2 = { ...changes2, ...rowEdit(`part.${row.id}.groups`, row.seated ? null : void 0, withEdits(changes2)) };
      this.told(phrase("script-seat-dealt"));
      store.change({ edits: withEdits(changes2) });
      find("seats-title").focus();
    }
    /** @param {HTMLElement} item @param {HTMLElement} who @param {number} group */
    drags(item, who, group) {
      who.addEventListener("dragstart", (event) => {
        this.dragged = group;
        event.dataTransfer?.setData("text/x-group", String(group));
      });
      who.addEventListener("dragend", () => {
        this.dragged = 0;
        for (const each of findAll(".seat", HTMLElement, find("seats"))) each.classList.remove("over");
      });
      item.addEventListener("dragover", (event) => {
        if (!this.dragged || this.dragged === group) return;
        event.preventDefault();
        item.classList.add("over");
      });
      item.addEventListener("dragleave", () => item.classList.remove("over"));
      item.addEventListener("drop", (event) => {
        event.preventDefault();
        event.stopPropagation();
        if (this.dragged && this.dragged !== group) this.changePlaces(this.dragged, group);
      });
    }
  };

  // plan_sound_offers.js
  var SoundSender = class {
    // plain: a file as the program reads it.
    /** @param {(file: File) => Promise<File>} plain */
    constructor(plain2) {
      this.is = document.getElementById("sound-send-panel") !== null;
      if (!this.is) return;
      const input = find("sound-send-file", HTMLInputElement);
      input.addEventListener("change", async () => {
        const chosen2 = input.files?.[0];
        input.value = "";
        if (chosen2) await this.send(chosen2, plain2);
      });
    }
    /** @param {Pick<Plan, 'patterns'>} plan */
    show({ patterns }) {
      if (!this.is) return;
      find("sound-send-panel").hidden = !patterns.parts.length;
      const choice2 = find("sound-send-part", HTMLSelectElement);
      const rows = patterns.parts.map(({ part, group }) => (
        /** @type {[string, string]} */
        [part, phrase("script-sound-of", { group, part })]
      ));
      fillSelect(choice2, rows, rows.some(([part]) => part === choice2.value) ? choice2.value : rows[0]?.[0] ?? "");
    }
    /** @param {File} file @param {(file: File) => Promise<File>} plain */
    async send(file, plain2) {
      clearErrors('[data-error="sound-send"]');
      const done = find("sound-send-done");
      setText(done, phrase("script-sound-sending"));
      try {
        const sent = await plain2(file);
        const words = { name: sent.name, part: find("sound-send-part", HTMLSelectElement).value, called: find("sound-send-name", HTMLInputElement).value.trim() };
        const { seconds } = await sendFile(`/api/sent-sound/file?${new URLSearchParams(words)}`, sent);
        setText(done, phrase("script-sound-sent", { seconds }));
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        setText(done, "");
        showError({ message: error.message, where: "sound-send" });
      }
    }
  };
  var SoundOffers = class {
    // taken: puts a sound into the plan; whether it could.
    /** @param {(sound: TakenSound) => boolean} taken @param {(address: string) => void} hear */
    constructor(taken, hear) {
      this.taken = taken;
      this.hear = hear;
      this.waiting = new Waiting(
        { address: "/api/sent-sounds", key: "sounds", list: "sound-offers", news: (n) => phrase("script-sounds-waiting", { n }) },
        (sound2) => this.row(sound2)
      );
    }
    /** @param {SentSound} sound */
    row(sound2) {
      const { id, part, seconds } = sound2;
      const name = sound2.name || phrase("script-sound-ours");
      const item = element("li");
      item.append(span("strong", name), span("", phrase("script-sound-from", { part, seconds })));
      addButton(item, phrase("script-sound-hear", { name }), () => this.hear(`/api/sent-sounds/${id}`));
      addButton(item, phrase("script-offer-take", { name }), () => this.settle(sound2, true));
      addButton(item, phrase("script-offer-leave", { name }), () => this.settle(sound2, false));
      return item;
    }
    /** @param {SentSound} sound @param {boolean} take */
    async settle(sound2, take) {
      try {
        const found = await ask("/api/sent-sounds", { id: sound2.id, take });
        if (take && found.key) this.taken({ ...sound2, key: found.key });
        this.waiting.show(found.sounds);
        find("sound-title").focus();
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        showError({ message: error.message, where: "sound" });
      }
    }
  };

  // wav.js
  var FULL = 32767;
  var HEAD_BYTES = 44;
  function wavOf(heard, longestS = Infinity) {
    const { numberOfChannels, sampleRate } = heard;
    const length = Math.min(heard.length, Math.round(longestS * sampleRate));
    const channels = Array.from({ length: numberOfChannels }, (_, n) => heard.getChannelData(n));
    const view = new DataView(new ArrayBuffer(HEAD_BYTES + 2 * length));
    const write2 = (at, text) => [...text].forEach((letter, n) => view.setUint8(at + n, letter.charCodeAt(0)));
    write2(0, "RIFF");
    view.setUint32(4, HEAD_BYTES - 8 + 2 * length, true);
    write2(8, "WAVEfmt ");
    for (const [at, value] of [[16, 16], [24, sampleRate], [28, 2 * sampleRate], [40, 2 * length]]) view.setUint32(at, value, true);
    for (const [at, value] of [[20, 1], [22, 1], [32, 2], [34, 16]]) view.setUint16(at, value, true);
    write2(36, "data");
    for (let k = 0; k < length; k += 1) {
      const sum = channels.reduce((all, channel) => all + channel[k], 0) / numberOfChannels;
      view.setInt16(HEAD_BYTES + 2 * k, Math.round(Math.max(-1, Math.min(1, sum)) * FULL), true);
    }
    return view.buffer;
  }

  // plan_sound.js
  var PATH2 = "sound.";
  var LONGEST_S = 10;
  var READ_THERE = /\.(wav|flac|ogg|mp3)$/i;
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
      this.rows = [];
      this.map = [];
      this.standing = /* @__PURE__ */ new Map();
      this.recorder = null;
      this.sender = new SoundSender(plain);
      this.is = document.getElementById("sound-panel") !== null;
      if (!this.is) return;
      this.offers = new SoundOffers((sound2) => this.takeOffered(sound2), (address) => this.play(address));
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
    // A name that no other part of the piece asks for.
    /** @param {string} part */
    freeName(part, wanted = "") {
      const others = [...this.own.filter((sound2) => sound2.part !== part).map(({ name: name2 }) => name2), ...this.rows.filter(({ name: name2 }) => name2 !== part).flatMap(({ written }) => written)];
      const asked = new Set(others.map((name2) => name2.toLowerCase()));
      const ours = wanted || phrase("script-sound-ours");
      let name = ours;
      for (let n = 2; asked.has(name.toLowerCase()); n += 1) name = `${ours} ${n}`;
      return name;
    }
    /** @param {string} message */
    refuse(message) {
      showError({ message, where: "sound" });
    }
    /** @param {File} file */
    async take(file) {
      clearErrors('[data-error="sound"]');
      const { part } = this;
      const name = find("sound-name", HTMLInputElement).value.trim() || this.freeName(part);
      try {
        const sent = await plain(file);
        const found = await sendFile(`/api/sound?name=${encodeURIComponent(sent.name)}`, sent);
        this.put(part, name, found);
      } catch (error) {
        if (!(error instanceof Refused)) throw error;
        this.refuse(error.message);
      }
    }
    // What a tablet sent, for its part if the piece has it, else for the one that is chosen.
    /** @param {import('./plan_sound_offers.js').TakenSound} sound */
    takeOffered(sound2) {
      clearErrors('[data-error="sound"]');
      const part = this.parts.some((each) => each.part === sound2.part) ? sound2.part : this.part;
      const free = this.freeName(part, sound2.name);
      return this.put(part, free, sound2);
    }
    // A recording that the program holds goes into the plan.
    /** @param {string} part @param {string} name @param {{ key: string, seconds: number }} found */
    put(part, name, found) {
      const others = Object.entries(store.now.edits).filter(([path, value]) => path.startsWith(PATH2) && path !== PATH2 + part && value);
      if (others.some(([, value]) => (
        /** @type {OwnSound} */
        value.name.toLowerCase() === name.toLowerCase()
      ))) {
        this.refuse(phrase("script-sound-same-name", { name }));
        return false;
      }
      const mine = this.own.find((sound2) => sound2.part === part)?.file;
      const taken = /* @__PURE__ */ new Set([...others.map(([, value]) => (
        /** @type {OwnSound} */
        value.file
      )), ...Object.keys(store.now.sounds).filter((file) => file !== mine)]);
      const letters = name.toLowerCase().replace(/[^a-z0-9]+/g, "-").replace(/^-|-$/g, "") || "sound";
      let beside = `${letters}.wav`;
      for (let n = 2; taken.has(beside); n += 1) beside = `${letters}-${n}.wav`;
      this.standing.set(found.key, { here: true, kept: false });
      this.told(phrase("script-sound-put", { part, name, seconds: found.seconds }));
      store.change({ edits: { ...store.now.edits, [PATH2 + part]: { name, file: beside } }, sounds: { ...store.now.sounds, [beside]: found.key } });
      return true;
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
    show({ patterns, map, parts }) {
      this.sender.show({ patterns });
      if (!this.is) return;
      this.rows = parts;
      this.map = map;
      this.parts = patterns.parts;
      find("sound-panel").hidden = !this.parts.length;
      const choice2 = find("sound-part", HTMLSelectElement);
      const before = this.parts.some(({ part }) => part === choice2.value) ? choice2.value : this.parts[0]?.part ?? "";
      fillSelect(choice2, this.parts.map(({ part, group }) => [part, phrase("script-sound-of", { group, part })]), before);
      this.list();
    }
    // The sounds of the plan, by their parts.
    get own() {
      return Object.entries(store.now.edits).flatMap(([path, value]) => path.startsWith(PATH2) && value ? [{ part: path.slice(PATH2.length), .../** @type {OwnSound} */
      value }] : []);
    }
    list() {
      const list = find("sound-list");
      const rows = this.own.map((sound2) => {
        const swap = this.map.filter(({ name }) => name === sound2.part).flatMap(({ swaps }) => swaps).find(({ wanted }) => wanted.toLowerCase() === sound2.name.toLowerCase());
        return { ...sound2, swap, key: store.now.sounds[sound2.file] ?? "" };
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
      if (here) {
        addButton(item, phrase("script-sound-hear", { name }), () => this.hear(key));
        const label = element("label", "tick");
        const tick = Object.assign(element("input"), { type: "checkbox", checked: kept });
        tick.addEventListener("change", () => this.do(tick.checked ? "keep" : "release", key));
        label.append(tick, ` ${phrase("script-sound-keep")}`);
        item.append(label);
        addButton(item, phrase("script-sound-delete", { name }), () => this.do("delete", key));
      } else if (this.standing.has(key)) addButton(item, phrase("script-sound-undelete", { name }), () => this.do("undelete", key));
      addButton(item, phrase("script-sound-out", { name }), () => {
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
    hear(key) {
      return this.play(`/api/sound/${key}`);
    }
    /** @param {string} address */
    async play(address) {
      const audio = new AudioContext();
      const answer = await fetch(address, { cache: "no-store" });
      if (!answer.ok) return;
      const source = audio.createBufferSource();
      source.buffer = await audio.decodeAudioData(await answer.arrayBuffer());
      source.connect(audio.destination);
      source.addEventListener("ended", () => audio.close());
      source.start();
    }
  };
  var plain = (file) => READ_THERE.test(file.name) ? Promise.resolve(file) : asWav(file);
  async function asWav(file) {
    const audio = new AudioContext();
    try {
      const heard = await audio.decodeAudioData(await file.arrayBuffer());
      return new File([wavOf(heard, LONGEST_S + 0.02)], `${file.name.replace(/\.[^.]*$/, "") || "recording"}.wav`);
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
    const made2 = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) made2.setAttribute(name, typeof value === "number" ? value.toFixed(1) : value);
    made2.textContent = text;
    return made2;
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
    const made2 = shapes[group % shapes.length]();
    made2.setAttribute("class", group < shapes.length ? "graph-mark" : "graph-mark hollow");
    return made2;
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
      const choice2 = element("div", "roles");
      for (const [role, words] of roles) {
        const name = element("label", "role");
        const input = Object.assign(element("input"), { type: "radio", name: `role-${k}`, value: role });
        input.addEventListener("change", () => this.correct({ column: label, role }));
        name.append(input, span("", words));
        choice2.append(name);
      }
      box.addEventListener("keydown", (event) => {
        const chosen2 = findAll("input", HTMLInputElement, box)[Number(event.key) - 1];
        if (!chosen2 || event.ctrlKey || event.altKey || event.metaKey) return;
        event.preventDefault();
        chosen2.focus();
        chosen2.click();
      });
      box.append(legend, element("p", "table-cells", cells.filter(Boolean).join(", ")), choice2);
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
  var WAIT_MS2 = 80;
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
      this.compare = new Compare(told);
      this.compare.addEventListener("change", () => this.drawChart());
      this.map = new PieceMap();
      this.words = new Words(told);
      this.parts = new Parts(told, this.words);
      this.seats = new Seats(told, this.parts);
      this.rules = new Rules(told, this.words);
      this.classForm = new ClassForm(told);
      this.table = new TableView();
      this.drawing = new DrawView(told);
      this.pattern = new PatternView(told);
      this.sound = new SoundView(told);
      this.jumps = new Jumps();
      this.names = "";
      this.conditions = /* @__PURE__ */ new Map();
      this.question = new Question("/api/plan", (plan) => this.show(plan), (error) => this.refuse(error), (words) => setText(find("bar-words"), words));
      this.first = new Question("/api/plan", (plan) => this.compareWritten(plan), () => {
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
      this.question.ask(store.now, this.plan ? WAIT_MS2 : 0);
      const mark2 = JSON.stringify(scene);
      if (mark2 === this.writtenFor) return;
      this.writtenFor = mark2;
      this.written = null;
      this.plan = null;
      if (isChanged(store.now)) this.first.ask({ ...store.now, ...NO_CHANGES }, 0);
    }
    /** @param {Plan} plan */
    compareWritten(plan) {
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
      this.rules.show(plan, this.written?.rules);
      this.parts.show(plan);
      this.seats.show(plan);
      this.words.show(plan.texts, plan.stages);
      this.compare.show(plan);
      this.drawChart();
      this.map.show(plan);
      this.pattern.show(plan);
      this.sound.show(plan);
      this.jumps.show();
      this.heard(plan.rules);
      this.findings(plan.findings);
      find("changed-panel").hidden = !plan.changed.length;
      setRows(find("changed"), plan.changed, (item, line2) => {
        item.textContent = line2;
      });
    }
    // The curve as it is, over that of the version kept as A, or of the scene as it stands.
    drawChart() {
      if (!this.plan) return;
      const { kept, found } = this.compare;
      setText(find("legend-now"), phrase(kept ? "script-compare-legend-b" : "script-compare-yours"));
      setText(find("legend-other"), phrase(kept ? "script-compare-legend" : "script-compare-written"));
      this.chart.show(this.plan, kept ? found : this.written);
    }
    /** @param {Plan} plan */
    about(plan) {
      const { title, ages, story, stages, curriculum } = plan;
      setText(find("title"), title);
      const { year, pupils, groups } = store.room;
      setText(find("title-words"), phrase("script-for-year-pupils-in", { year, pupils, phrase: phrase("script-count-groups", { n: groups }) }));
      setFresh(find("about-meta"), [ages?.length ? phrase("script-ages-to", { min: Math.min(...ages), max: Math.max(...ages) }) : "", phrase("script-count-stages", { n: stages.length }), lengthWords(plan)].filter(Boolean).join(" · "));
      setText(find("about-opening"), story.trim().match(/.+?[.!?](?=\s|$)/s)?.[0] ?? story);
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
      setRows(find("findings"), serious, (item, { message, fix, rule, change }) => {
        item.append(span("strong", message));
        if (fix) item.append(" ", span("", fix));
        if (!Object.keys(change ?? {}).length) return;
        const button = element("button", "small", phrase("script-do-that"));
        button.type = "button";
        button.append(span("unseen", `: ${fix}`));
        button.addEventListener("click", () => {
          this.rules.mend(rule, change);
          find("findings-title").focus();
        });
        item.append(" ", button);
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
    const made2 = element("option", "", words);
    made2.value = value;
    return made2;
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
        const made2 = element("button", "", label);
        made2.type = "button";
        made2.append(span("unseen", phrase("script-of-name", { name: row.name })));
        made2.addEventListener("click", pressed2);
        return made2;
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
      const choice2 = find("class-choice", HTMLSelectElement);
      const rows = [option("", phrase("script-the-usual-class")), ...there.map((each) => option(each.id, each.name)), option(NEW, phrase("script-a-new-class"))];
      if (id && !row) rows.splice(1, 0, option(id, phrase("script-my-class")));
      fill(choice2, rows, id);
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
      const found = await patiently("/api/lesson", inputs, (why) => setText(find("going-words"), why));
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
