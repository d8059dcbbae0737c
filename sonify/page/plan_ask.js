// Asking the server that runs on this computer. The newest question wins; answers to older ones are dropped.

const start = JSON.parse(find('start-data').textContent);

class Refused extends Error {
  constructor(message, { where = '', need = '', status = 0 } = {}) {
    super(message);
    Object.assign(this, { where, need, status });
  }
}

const SILENT =
  phrase('script-the-sonify-program-does-not') +
  phrase('script-sonify-serve-your-plan-is');

async function ask(path, body, signal) {
  const how = { signal, cache: 'no-store' };
  if (body !== undefined) {
    Object.assign(how, { method: 'POST', body: JSON.stringify(body) });
    how.headers = { 'Content-Type': 'application/json', 'X-Sonify': '1' };
  }
  let answer;
  let found;
  try {
    answer = await fetch(path, how);
    found = await answer.json();
  } catch (error) {
    if (error.name === 'AbortError') throw error;
    throw new Refused(SILENT);
  }
  if (!answer.ok) throw new Refused(found.error ?? phrase('script-the-program-answered', { status: answer.status }), { ...found, status: answer.status });
  return found;
}

// What the server is still computing is asked for again so often.
const AGAIN_MS = 700;

// One kind of question, asked anew whenever what it is about has changed.
class Question {
  // waiting: told why an answer takes longer than it should.
  constructor(path, answered, refused, waiting = () => {}) {
    Object.assign(this, { path, answered, refused, waiting, serial: 0, timer: 0, running: null });
  }

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

  async send(body, mine) {
    this.running = new AbortController();
    try {
      const found = await askAbout(this.path, body, { signal: this.running.signal });
      if (mine !== this.serial) return;
      if (found.waiting) {
        this.waiting(found.waiting);
        this.timer = setTimeout(() => this.send(body, mine), AGAIN_MS);
      } else this.answered(found);
    } catch (error) {
      if (!(error instanceof Refused)) {
        if (error.name === 'AbortError') return;
        throw error;
      }
      if (mine === this.serial) this.refused(error);
    }
  }
}

// Saying things ---------------------------------------------------------------------------------------------------------

function announce(text) {
  const said = find('said');
  // The same words again are announced again only where the text has changed in between.
  said.textContent = '';
  setTimeout(() => setText(said, text), 30);
}

let tryAgain = null;

function showTrouble(text, again = null) {
  tryAgain = again;
  setText(find('trouble-words'), text);
  find('trouble-again').hidden = !again;
  find('trouble').hidden = false;
}

function hideTrouble() {
  find('trouble').hidden = true;
}

find('trouble-close').addEventListener('click', () => {
  hideTrouble();
  find('main').focus();
});
find('trouble-again').addEventListener('click', () => {
  find('main').focus();
  hideTrouble();
  tryAgain?.();
});

// The fields that an error may be about, the nearest first: it names a key of the scene or the class file.
function placesOf(where) {
  const [whole, index, side] = where.match(/^(?:hear|rules)\.(\d+)(?:\.(\w+))?/) ?? [];
  if (whole) return [where, ...(side === 'curve' ? [`rules.${index}.curve`] : side ? [`rules.${index}.${side}.0`] : []), `rules.${index}`];
  const name = where.replace(/^(conditions|class|set)\./, '');
  const kind = name.startsWith('cupboard') ? ['class.cupboard'] : [];
  return [where, `set.${name}`, `options.${name}`, `class.${name}`, ...kind, ...(where.startsWith('class') ? ['class'] : [])];
}

// An error stands beside the field it is about; where none is, at the top of the page.
function showError({ message, where, typed = false }, again = null) {
  clearErrors();
  const inView = (each) => each.closest('.page')?.hidden === false && !each.closest('#choose[hidden], #bench[hidden]');
  const place = placesOf(where ?? '').flatMap((name) => [...document.querySelectorAll(`[data-error="${CSS.escape(name)}"]`)]).find(inView);
  if (!place) {
    showTrouble(message, again);
    return;
  }
  setText(place, message);
  place.hidden = false;
  place.dataset.typed = typed;
  for (const input of document.querySelectorAll(`[aria-describedby~="${CSS.escape(place.id || 'none')}"]`)) {
    input.setAttribute('aria-invalid', 'true');
  }
  place.closest('details')?.setAttribute('open', '');
  announce(message);
}

function clearErrors(which = '[data-error]') {
  for (const place of document.querySelectorAll(which)) {
    place.hidden = true;
    for (const input of document.querySelectorAll(`[aria-describedby~="${CSS.escape(place.id || 'none')}"]`)) input.removeAttribute('aria-invalid');
  }
}

// An answer is about what was sent: what was typed since and could not be sent stays told.
const clearAnswered = () => clearErrors('[data-error]:not([data-typed="true"])');
