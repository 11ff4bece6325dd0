/** A new bike: a name is enough. */
import { html } from 'lit';
import { fill, form } from '../app/forms.js';
import { now } from '../app/store.js';
import { newId } from '../data/ids.js';
import { mayAdd } from '../data/roles.js';
import { textField } from '../parts/text-field.js';
import { t } from '../words/t.js';
import { commit } from './bike-actions.js';
import { flash } from './bike-parts.js';

const FORM = 'bike-add';

/**
 * A bike has a chain on it, whatever else is known; what drives it is asked on
 * its page, and until then the strictest limit holds.
 * @param {import('../app/store.js').State} state
 */
export function bikeAdd(state) {
  const { name, ready } = entered(state);
  return {
    body: html`<form class="sheets" id="add" @submit=${add}><h1>${t('add.title')}</h1>
      ${textField({ id: 'bike-name', title: t('add.name'), text: name, type: (text) => fill(FORM, { name: text }) })}
      ${mayAdd(state.garage?.role, 'bikes') ? '' : html`<p class="fault">${t('form.viewer')}</p>`}</form>`,
    bench: html`${flash(state)}<div class="main-row">
      <a class="button" href="#/bikes">${t('form.back')}</a>
      <button class="button main" form="add" aria-disabled=${ready ? 'false' : 'true'}>${t(ready ? 'add.main' : 'add.none')}</button></div>`,
  };
}

/** @param {import('../app/store.js').State} state */
function entered(state) {
  const { name } = form(state, FORM, { name: '' });
  return { name, ready: name.trim() !== '' && mayAdd(state.garage?.role, 'bikes') };
}

/** @param {Event} event */
function add(event) {
  event.preventDefault();
  const { name, ready } = entered(now());
  if (!ready) return;
  const id = newId();
  commit(
    [
      { table: 'bikes', record_id: id, put: { name: name.trim(), drive: 'derailleur' } },
      { table: 'chains', put: { bike_id: id, fitted_at_km: 0 } },
    ],
    { text: t('did.bike'), form: FORM, to: `#/bike/${id}` },
  );
}
