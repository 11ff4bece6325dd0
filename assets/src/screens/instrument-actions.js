/** What can be done about instruments. */
import { focusNext, goToLine } from '../app/focus.js';
import { NO_TOOL } from '../app/kit-state.js';
import { now, set } from '../app/store.js';
import { save } from '../data/garage.js';
import { tableRows } from '../data/garage-read.js';
import { current } from '../data/garage-state.js';
import { fieldsOf, formOf, unreadable } from '../data/instruments.js';
import { forget, keep } from '../data/local.js';
import { shown } from '../data/meaning.js';
import { troubleText } from '../words/troubles.js';

/** @typedef {import('../app/kit-state.js').ToolForm} ToolForm */

let saving = false;

/** @param {Partial<import('../app/kit-state.js').ToolState>} part */
function putTool(part) {
  set({ tool: { ...now().tool, ...part } });
}

/** @param {Partial<ToolForm>} part */
export function putToolForm(part) {
  const { tool } = now();
  const form = { ...tool.form, ...part };
  set({ tool: { ...tool, form, fault: '' }, trouble: keep('tool', { id: tool.id, form }) });
}

/** @param {string} argument the instrument's id, or `new` */
export async function openTool(argument) {
  const id = argument === 'new' ? '' : argument;
  putTool({ done: '', fault: '' });
  if (now().tool.id === id && now().tool.form !== NO_TOOL) return; // half typed: goes on
  putTool({ id, form: NO_TOOL });
  const row = id && (await tableRows((await current()).key, 'instruments')).find((one) => one.record_id === id);
  if (row && now().tool.id === id && now().tool.form === NO_TOOL) putTool({ form: formOf(shown(row)) });
}

/** The list: what was done last stays said until the next step. */
export function openTools() {
  putTool({ fault: '' });
}

/** @param {() => Promise<void>} work */
async function act(work) {
  if (saving) return;
  saving = true;
  try {
    await work();
  } catch (error) {
    putTool({ fault: troubleText(error) });
  } finally {
    saving = false;
  }
}

export function saveTool() {
  const { id, form } = now().tool;
  if (!form.name.trim() || unreadable(form).length) return;
  act(async () => {
    await save([
      id
        ? { table: 'instruments', record_id: id, put: fieldsOf(form, false) }
        : { table: 'instruments', put: fieldsOf(form, true) },
    ]);
    forget('tool');
    putTool({ id: '', form: NO_TOOL, done: 'saved', removed: null });
    location.hash = '#/instruments';
  });
}

export function removeTool() {
  const { id, form } = now().tool;
  act(async () => {
    await save([{ table: 'instruments', record_id: id, remove: true }]);
    forget('tool');
    putTool({ id: '', form: NO_TOOL, done: 'removed', removed: { id, name: form.name } });
    goToLine('#/instruments', 'undo');
  });
}

/** Brings back what was removed last. */
export function undoRemove() {
  const { removed } = now().tool;
  if (!removed) return;
  act(async () => {
    await save([{ table: 'instruments', record_id: removed.id, put: { name: removed.name } }]);
    putTool({ done: 'saved', removed: null });
    focusNext('place');
  });
}
