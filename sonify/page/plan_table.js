// A class's own table: what each column was taken for, in the words of fair testing, beside its graph. One click or one
// key says what a column is; the server then reads the table anew, and what comes of it is one step of the plan.

import { askAbout, Refused } from './plan_ask.js';
import { announce, clearErrors, showError } from './plan_errors.js';
import { element } from './plan_fields.js';
import { GraphView } from './plan_graph.js';
import { NO_CHANGES, store } from './plan_store.js';
import { find, findAll, phrase, setRows, setText, span } from './screen.js';
/** @import { OwnTable, TableColumn } from './shapes.js' */

export class TableView {
  /** @type {OwnTable | null | undefined} */
  table;

  constructor() {
    this.graph = new GraphView();
    this.mark = '';
    this.serial = 0;
    const sheets = find('table-sheet', HTMLSelectElement);
    sheets.addEventListener('change', () => this.correct({ sheet: sheets.value }));
    const name = find('table-name', HTMLInputElement);
    name.addEventListener('change', () => name.value.trim() && this.correct({ name: name.value.trim() }));
  }

  /** @param {OwnTable | null | undefined} table */
  show(table) {
    const came = find('table-panel').hidden && Boolean(table);
    this.table = table;
    find('table-panel').hidden = !table;
    if (!table) return;
    for (const [id, lines] of Object.entries({ 'table-told': table.told, 'table-doubts': table.doubts })) {
      setRows(find(id), lines, (item, line) => setText(item, line));
    }
    find('table-sheets').hidden = table.tables.length < 2;
    const sheets = find('table-sheet', HTMLSelectElement);
    sheets.replaceChildren(...table.tables.map((name) => new Option(name, name, false, name === table.chosen)));
    find('table-shipped').hidden = !table.shipped;
    find('table-naming').hidden = !table.name;
    find('table-name', HTMLInputElement).value = table.name;
    this.showColumns(table);
    this.graph.show(table.graph);
    // A table that was just given is what she looks at first.
    if (came && [document.body, find('main'), find('about-title')].some((each) => each === document.activeElement)) {
      find('table-title').focus({ preventScroll: true });
    }
  }

  /** @param {OwnTable} table */
  showColumns({ columns, roles, file }) {
    const mark = JSON.stringify([file, columns.map(({ label }) => label)]);
    if (this.mark !== mark) {
      this.mark = mark;
      find('table-columns').replaceChildren(...columns.map((column, k) => this.column(column, k, roles)));
    }
    for (const [k, { role }] of columns.entries()) {
      for (const input of findAll(`[name="role-${k}"]`, HTMLInputElement)) input.checked = input.value === role;
    }
  }

  /** @param {TableColumn} column @param {number} k @param {[string, string][]} roles */
  column({ label, cells }, k, roles) {
    const box = element('fieldset', 'table-column');
    const legend = element('legend', '', label);
    const choice = element('div', 'roles');
    for (const [role, words] of roles) {
      const name = element('label', 'role');
      const input = Object.assign(element('input'), { type: 'radio', name: `role-${k}`, value: role });
      input.addEventListener('change', () => this.correct({ column: label, role }));
      name.append(input, span('', words));
      choice.append(name);
    }
    box.addEventListener('keydown', (event) => {
      const chosen = findAll('input', HTMLInputElement, box)[Number(event.key) - 1];
      if (!chosen || event.ctrlKey || event.altKey || event.metaKey) return;
      event.preventDefault();
      chosen.focus();
      chosen.click();
    });
    box.append(legend, element('p', 'table-cells', cells.filter(Boolean).join(', ')), choice);
    return box;
  }

  /** @param {{ column: string, role: string } | { sheet: string } | { name: string }} what */
  async correct(what) {
    this.serial += 1;
    const mine = this.serial;
    const { scene } = store.now;
    clearErrors('[data-error="column"], [data-error="name"]');
    try {
      const found = await askAbout('/api/read', store.now, { body: (sent) => ({ ...what, kind: 'role', scene: /** @type {any} */ (sent).scene }) });
      if (mine !== this.serial || scene !== store.now.scene) return;
      store.change({ scene: { ...found.inputs.scene, csv: found.readings ?? scene?.csv }, ...NO_CHANGES }, 'table');
      announce(found.understood.join(' '));
    } catch (error) {
      if (!(error instanceof Refused)) throw error;
      if (mine !== this.serial) return;
      this.show(this.table);
      showError({ message: error.message, where: 'name' in what ? 'name' : 'column' });
      setText(find('bar-words'), phrase('script-the-table-stays-as-it-was'));
    }
  }
}
