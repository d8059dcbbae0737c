// Asking the server that runs on this computer.

import { phrase, readData } from './screen.js';
/** @import { Inputs, Start } from './shapes.js' */

/** @type {Start} */
export const start = readData('start-data');

export class Refused extends Error {
  /** @param {string} message @param {{ where?: string, need?: string, status?: number }} about */
  constructor(message, { where = '', need = '', status = 0 } = {}) {
    super(message);
    this.where = where;
    this.need = need;
    this.status = status;
  }
}

// Whether a question was dropped on purpose.
/** @param {unknown} error */
export const aborted = (error) => error instanceof DOMException && error.name === 'AbortError';

const SILENT =
  phrase('script-the-sonify-program-does-not') +
  phrase('script-sonify-serve-your-plan-is');

/** @param {string} path @param {unknown} [body] @param {AbortSignal} [signal] */
export async function ask(path, body, signal) {
  /** @type {RequestInit} */
  const how = { cache: 'no-store', ...(signal && { signal }) };
  if (body !== undefined) {
    Object.assign(how, { method: 'POST', body: JSON.stringify(body) });
    how.headers = { 'Content-Type': 'application/json', 'X-Sonify': '1' };
  }
  return answered(path, how);
}

// A file as it is, such as a pack.
/** @param {string} path @param {File} file */
export const sendFile = (path, file) => answered(path, { cache: 'no-store', method: 'POST', body: file, headers: { 'Content-Type': 'application/octet-stream', 'X-Sonify': '1' } });

/** @param {string} path @param {RequestInit} how */
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
  if (!answer.ok) throw new Refused(found.error ?? phrase('script-the-program-answered', { status: answer.status }), { ...found, status: answer.status });
  return found;
}

// Readings may be megabytes: once the server has them, their key is sent in their place. Of a class that was opened from
// a file, the text is sent and what was changed since; `facts` is what the form shows of it.
/** @param {Inputs} inputs */
function light({ scene, class: room, ...others }) {
  const { csv: _, ...kept } = scene ?? {};
  const { facts: __, ...given } = room ?? {};
  return { ...others, scene: kept.csv_key ? kept : scene, class: room && given };
}

/** @param {Inputs} inputs */
export function whole(inputs) {
  const { csv_key: _, ...scene } = inputs.scene ?? {};
  return { ...light(inputs), scene };
}

// Asks about a plan. A server that was started anew is sent the readings again.
/**
 * @param {string} path
 * @param {Inputs} inputs
 * @param {{ signal?: AbortSignal, body?: (sent: unknown) => unknown }} how
 */
export async function askAbout(path, inputs, { signal, body = (sent) => sent } = {}) {
  try {
    return await ask(path, body(light(inputs)), signal);
  } catch (error) {
    if (!(error instanceof Refused) || error.need !== 'csv' || !inputs.scene?.csv) throw error;
    return ask(path, body(whole(inputs)), signal);
  }
}
