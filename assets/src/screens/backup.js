/** Backup: the garage as a file, a file into the garage, and deleting it. */
import { html, nothing } from 'lit';
import { ask } from '../parts/ask.js';
import { t } from '../words/t.js';
import {
  bringInFile,
  deleteAll,
  putBackup,
  saveFile,
  saveServerFile,
  stopImport,
  undoDelete,
} from './backup-actions.js';
import { inDemo } from './demo.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').GarageState} GarageState
 */

/** @param {State} state */
export function backup(state) {
  const { garage } = state;
  return {
    body: html`<div class="sheets">
      <h1>${t('backup.title')}</h1>
      ${garage ? (inDemo(state) ? html`<p>${t('kit.demo')}</p>` : body(state, garage)) : html`<p role="status">${t('bikes.loading')}</p>`}
    </div>`,
    bench: html`<div class="main-row"><a class="button" href="#/kit">${t('kit.back')}</a>
      ${garage && !inDemo(state) ? html`<button class="button main" type="button" @click=${saveFile}>${t('backup.export.act')}</button>` : nothing}</div>`,
  };
}

/** @param {State} state @param {GarageState} garage */
function body(state, garage) {
  const { busy, fault, done, deleted } = state.backup;
  const shared = garage.sync.state !== 'local';
  const server = shared && garage.sync.state !== 'revoked' && garage.sync.state !== 'gone';
  return html`<div class="flash" role="status">${busy?.step ? t(`backup.import.${busy.step}`, { done: busy.done, of: busy.of }) : done}
      ${busy?.step ? html`<button class="button" type="button" @click=${stopImport}>${t('backup.import.stop')}</button>` : nothing}
      ${deleted && !busy ? html`<button class="button" type="button" id="undo" @click=${undoDelete}>${t('backup.undo')}</button>` : nothing}</div>
    <div role="alert">${fault ? html`<p class="fault">${fault}</p>` : nothing}</div>
    <section class="sheet"><h2>${t('backup.export')}</h2><p>${t('backup.export.text')}</p>
      ${server ? fromServer() : nothing}</section>
    <section class="sheet"><h2>${t('backup.import')}</h2><p>${t('backup.import.text')}</p>
      <label class="button file">${t('backup.import.act')}<input type="file" accept=".json,application/json" @change=${choose}></label></section>
    ${deleting(state, garage, server)}`;
}

function fromServer() {
  return html`<p>${t('backup.server')}</p>
    <div class="choices"><button class="button" type="button" @click=${() => saveServerFile('export.csv')}>${t('backup.csv')}</button>
    <button class="button" type="button" @click=${() => saveServerFile('checks.ics')}>${t('backup.ics')}</button></div>`;
}

/** @param {any} event */
function choose({ target }) {
  const [file] = target.files;
  target.value = ''; // so that the same file may be chosen again
  if (file) bringInFile(file);
}

/** @param {State} state @param {GarageState} garage @param {boolean} server */
function deleting({ backup: { asking, busy } }, { role, bikes }, server) {
  return html`<section class="sheet"><h2>${t('backup.delete')}</h2>
    ${
      server && role !== 'owner'
        ? html`<p>${t('backup.role')}</p>`
        : ask({
            id: 'delete',
            asking,
            act: t('backup.delete.act'),
            text: t(server ? 'backup.delete.ask.shared' : 'backup.delete.ask.local', { n: bikes.length }),
            yes: t('backup.delete.yes'),
            no: t('backup.delete.no'),
            busy: Boolean(busy),
            ask: (on) => putBackup({ asking: on }),
            go: deleteAll,
          })
    }</section>`;
}
