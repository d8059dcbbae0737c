// Asking the server that runs on this computer.

import { find, phrase } from './screen.js';

export const start = JSON.parse(find('start-data').textContent);

export class Refused extends Error {
  constructor(message, { where = '', need = '', status = 0 } = {}) {
    super(message);
    Object.assign(this, { where, need, status });
  }
}

const SILENT =
  phrase('script-the-sonify-program-does-not') +
  phrase('script-sonify-serve-your-plan-is');

export async function ask(path, body, signal) {
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

// Readings may be megabytes: once the server has them, their key is sent in their place. Of a class that was opened from
// a file, the text is sent and what was changed since; `facts` is what the form shows of it.
function light({ scene, class: room, ...others }) {
  const { csv, ...kept } = scene;
  const { facts, ...given } = room ?? {};
  return { ...others, scene: kept.csv_key ? kept : scene, class: room && given };
}

export function whole(inputs) {
  const { csv_key: _, ...scene } = inputs.scene;
  return { ...light(inputs), scene };
}

// Asks about a plan. A server that was started anew is sent the readings again.
export async function askAbout(path, inputs, { signal, body = (sent) => sent } = {}) {
  try {
    return await ask(path, body(light(inputs)), signal);
  } catch (error) {
    if (error.need !== 'csv' || !inputs.scene.csv) throw error;
    return ask(path, body(whole(inputs)), signal);
  }
}
