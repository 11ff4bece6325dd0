/** The garage as a file, out and in, and away; what is deleted can be brought back for a while. */
import { focusLine, focusNext } from '../app/focus.js';
import { now, set } from '../app/store.js';
import { current, fresh } from '../data/garage-state.js';
import { addGarage } from '../data/garage-store.js';
import { newId } from '../data/ids.js';
import { EngineFault } from '../engine/bridge.js';
import { headers, reach } from '../sync/client.js';
import { deleteGarage, exportAll, importFile, openGarage } from '../sync/sharing.js';
import { faultText } from '../words/engine.js';
import { t } from '../words/t.js';
import { troubleText } from '../words/troubles.js';

/** @param {Partial<import('../app/kit-state.js').BackupState>} part */
export function putBackup(part) {
  set({ backup: { ...now().backup, ...part } });
}

/** Comes to the place anew; an undo that is still possible stays. */
export function openBackup() {
  putBackup({ busy: null, fault: '', asking: false, done: now().backup.deleted ? now().backup.done : '' });
}

/** @param {() => Promise<Partial<import('../app/kit-state.js').BackupState>>} work */
async function act(work) {
  if (now().backup.busy) return;
  putBackup({ busy: { done: 0, of: 0 }, fault: '', done: '' });
  try {
    putBackup(await work());
  } catch (error) {
    putBackup({ fault: troubleText(error) });
  } finally {
    putBackup({ busy: null });
  }
}

/** @param {Blob} blob @param {string} name hands a file to the phone */
function handOver(blob, name) {
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
}

export function saveFile() {
  act(async () => {
    const { blob, name } = await exportAll();
    handOver(blob, name);
    return { done: t('backup.export.done', { name }) };
  });
}

/** @param {'export.csv'|'checks.ics'} path a file the server makes */
export function saveServerFile(path) {
  act(async () => {
    const { id, token } = await current();
    const response = await reach(`/garages/${id}/${path}`, { headers: headers(token) });
    if (!response.ok) throw new Error(`the server answered ${response.status}`);
    handOver(await response.blob(), `tautspan-${path}`);
    return { done: t('backup.export.done', { name: `tautspan-${path}` }) };
  });
}

/** What stops the file that is brought in. */
let stopping = new AbortController();

/** Stops bringing a file in; what is in by then stays. */
export function stopImport() {
  stopping.abort();
}

/** @param {File} file */
export function bringInFile(file) {
  stopping = new AbortController();
  const { signal } = stopping;
  act(async () => {
    try {
      const progress = (/** @type {'look'|'take'} */ step, /** @type {number} */ done, /** @type {number} */ of) =>
        putBackup({ busy: { step, done, of } });
      const counts = await importFile(file, { progress, signal });
      return { done: t(signal.aborted ? 'backup.import.stopped' : 'backup.import.done', counts) };
    } catch (error) {
      if (signal.aborted) return { done: t('backup.import.stopped', { put: 0 }) };
      if (!(error instanceof EngineFault)) throw error;
      return { fault: `${t('backup.import.fault')} ${faultText(error.fault)}` };
    }
  });
}

/** Deletes the open garage, once it is held as a file in case it was a mistake. */
export async function deleteAll() {
  await act(async () => {
    const { name } = await current();
    const { blob } = await exportAll();
    await deleteGarage();
    return { asking: false, done: t('backup.deleted'), deleted: { file: blob, name } };
  });
  focusLine('undo');
}

/** Brings back what was deleted, as a garage on this phone. */
export function undoDelete() {
  const { deleted } = now().backup;
  if (!deleted) return;
  act(async () => {
    const key = newId();
    await addGarage({ ...fresh(), key, name: deleted.name });
    await openGarage(key);
    await importFile(deleted.file);
    focusNext('place');
    return { deleted: null, done: t('backup.undone') };
  });
}
