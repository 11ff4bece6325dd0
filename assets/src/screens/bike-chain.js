/** Everything about one chain that can be said. */
import { html } from 'lit';
import { fill, form } from '../app/forms.js';
import { now } from '../app/store.js';
import { formField } from '../data/bike-form.js';
import { CHAIN_FIELDS, chainChanges, chainForm } from '../data/chain-form.js';
import { mayLead } from '../data/roles.js';
import { textField } from '../parts/text-field.js';
import { faultText } from '../words/engine.js';
import { t } from '../words/t.js';
import { commit } from './bike-actions.js';
import { unitOf } from './bike-ask.js';
import { flash, withBike } from './bike-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').Row} Row
 */

/** What helps with a field. */
const HINTS = ['class', 'limit_percent', 'km_before'];

/** Longest texts, as the records take them. @type {Record<string, number>} */
const MOST = { name: 80, class: 40, closure: 40, note: 2000 };

/** @param {State} state */
export function bikeChain(state) {
  return withBike(state, (detail) => {
    const id = state.argument.split('/')[1] ?? '';
    const row = detail.chains[id];
    const back = html`<a class="button" href="#/chains/${detail.meaning.bike_id}">${t('form.back')}</a>`;
    const title = html`<h1>${t('chain.title')}</h1>`;
    if (!row) return { body: html`<div class="sheets">${title}<p>${t('chains.none')}</p></div>`, bench: back };
    const { name, filled, unreadable, changed, ready } = entered(state, row);
    return {
      body: html`<div class="sheets bike-form">${title}
        ${Object.keys(CHAIN_FIELDS).map((one) => field(state, name, filled, unreadable, one))}</div>`,
      bench: html`${flash(state)}<div class="main-row">${back}<button class="button main" type="button"
        aria-disabled=${ready ? 'false' : 'true'} @click=${() => saveForm(row)}>${t(
          changed || unreadable.length ? 'form.save' : 'form.same',
        )}</button></div>`,
    };
  });
}

/** @param {State} state @param {Row} row */
function entered(state, { record_id, fields }) {
  const name = `bike-chain/${record_id}`;
  const filled = form(state, name, chainForm(fields, state.settings.units));
  const { put, unreadable } = chainChanges(filled, fields, state.settings.units);
  const changed = Object.keys(put).length > 0;
  const ready = changed && !unreadable.length && mayLead(state.garage?.role);
  return { name, filled, put, unreadable, changed, ready };
}

/** Saves what is entered by now. @param {Row} row */
function saveForm(row) {
  const { name, put, ready } = entered(now(), row);
  if (!ready) return;
  commit([{ table: 'chains', record_id: row.record_id, put }], {
    text: t('did.saved'),
    form: name,
    to: `#/chains/${row.fields.bike_id}`,
  });
}

/** @param {State} state @param {string} form @param {Record<string, string>} filled @param {string[]} unreadable @param {string} name */
function field(state, form, filled, unreadable, name) {
  const told = state.fault && formField(state.fault.field) === name ? faultText(state.fault) : undefined;
  return textField({
    id: `chain-${name}`,
    title: t(/** @type {any} */ (`chain.field.${name}`), { unit: unitOf(state) }),
    text: filled[name],
    hint: HINTS.includes(name) ? t(/** @type {any} */ (`chain.hint.${name}`)) : undefined,
    mode: CHAIN_FIELDS[name] === 'words' ? 'text' : 'decimal',
    most: MOST[name] ?? 14,
    lines: name === 'note' ? 3 : 1,
    fault: unreadable.includes(name) ? t('form.unreadable') : told,
    type: (text) => fill(form, { [name]: text }),
  });
}
