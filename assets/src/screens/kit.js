/** Kit: units, light, what is on this phone, and what to be careful about. */
import { html, nothing } from 'lit';
import { install } from '../app/install.js';
import { askToPersist } from '../app/storage.js';
import { agree } from '../sync/updates.js';
import { build } from '../sync/build.js';
import { fixed } from '../words/numbers.js';
import { list, named, t } from '../words/t.js';
import { demoOffer } from './demo-offer.js';
import { glassSection } from './glass-kit.js';
import { settingsSheets } from './kit-settings.js';
import { photoSection } from './photo-kit.js';
import { statusWords } from './share-status.js';

/**
 * @typedef {import('../app/store.js').State} State
 */

/** @param {State} state */
export function kit(state) {
  const bare = !state.garage?.bikes.length;
  return {
    body: html`<div class="sheets">
      <h1>${t('kit.title')}</h1>
      ${bare ? demoOffer(state) : nothing}
      <section class="sheet"><h2>${t('kit.garage')}</h2><ul class="rows">${rows(state).map(row)}</ul></section>
      ${settingsSheets(state)}
      <section class="sheet"><h2>${t('kit.offline')}</h2>
        <p role="status">${named('kit.offline', state.offline === 'ready' && !state.online ? 'off' : state.offline)}</p>
        ${state.offline === 'insecure' ? html`<p><a href="/https">${t('kit.offline.how')}</a></p>` : nothing}</section>
      ${
        state.installable
          ? html`<section class="sheet"><p>${t('kit.install.text')}</p>
        <button class="button" type="button" @click=${install}>${t('kit.install')}</button></section>`
          : nothing
      }
      ${glassSection()}
      ${photoSection(state)}
      ${storage(state)}
      <section class="sheet"><h2>${t('kit.version')}</h2>
        <p>${t('kit.version.text', { version: build.version })}</p>
        ${
          state.update === 'none'
            ? nothing
            : html`<p>${t('update.text')}</p>
          <button class="button" type="button" @click=${agree}>${t('update.now')}</button>`
        }</section>
      ${bare ? nothing : demoOffer(state)}
      <section class="sheet"><h2>${t('kit.about')}</h2>
        ${list('kit.about', {}).map((text) => html`<p>${text}</p>`)}
        <p><a class="button quiet" href=${build.licences} target="_blank">${t('kit.licences')}</a></p></section>
    </div>`,
    bench: nothing,
  };
}

/** @param {State} state @returns {[place: string, title: string, lines: string[]][]} */
function rows({ garage }) {
  const tools = garage?.instruments ?? [];
  const names = tools.map(({ fields }) => fields.name).join(' · ');
  return [
    ['instruments', t('kit.row.instruments'), [names || t('kit.row.instruments.none')]],
    ['share', t('kit.row.share'), garage ? statusWords(garage) : []],
    ['backup', t('kit.row.backup'), [t('kit.row.backup.text')]],
  ];
}

/** @param {[place: string, title: string, lines: string[]]} row */
function row([place, title, lines]) {
  return html`<li><a class="row" href="#/${place}"><span><strong>${title}</strong><br>
    <span class="small soft">${lines.join(' ')}</span></span></a></li>`;
}

/** @param {State} state */
function storage({ persisted, estimate }) {
  const state = persisted === null ? 'unknown' : persisted ? 'yes' : 'no';
  return html`<section class="sheet"><h2>${t('kit.storage')}</h2>
    <p role="status">${named('kit.storage', state)}</p>
    ${estimate ? html`<p class="number">${t('kit.storage.used', { used: size(estimate.used), quota: size(estimate.quota) })}</p>` : nothing}
    ${state === 'no' ? html`<button class="button" type="button" @click=${askToPersist}>${t('kit.storage.ask')}</button>` : nothing}
    <a class="button" href="#/kept">${t('keep.see')}</a></section>`;
}

/** @param {number} bytes */
function size(bytes) {
  return bytes < 1e9 ? `${fixed(bytes / 1e6, 1)} MB` : `${fixed(bytes / 1e9, 0)} GB`;
}
