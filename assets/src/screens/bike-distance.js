/** How far a bike has gone: by odometer, ride, week or file. */
import { html, nothing } from 'lit';
import { fill } from '../app/forms.js';
import { now } from '../app/store.js';
import { mayAdd, mayLead } from '../data/roles.js';
import { choice } from '../parts/choice.js';
import { far } from '../parts/distances.js';
import { icon } from '../parts/icons.js';
import { textField } from '../parts/text-field.js';
import { day } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { unitOf } from './bike-ask.js';
import { filled, formName, ready } from './bike-distance-form.js';
import { fileField } from './bike-distance-file.js';
import { commit } from './bike-actions.js';
import { dayField, flash, withBike } from './bike-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('./bike-distance-form.js').Run} Run
 */

/** @param {State} state */
export function bikeDistance(state) {
  return withBike(state, (detail) => {
    const run = filled(state, detail);
    return { body: body(state, detail, run), bench: bench(state, detail, run) };
  });
}

/** @param {State} state @param {BikeDetail} detail @param {Run} run */
function body(state, detail, run) {
  const lead = mayLead(state.garage?.role);
  const ways = /** @type {const} */ (['odometer', 'ride', 'week', 'file']).filter((way) => way !== 'week' || lead);
  return html`<div class="sheets bike-form"><h1>${t('run.title')} · ${detail.bike.fields.name}</h1>
    <div class="instruments four">${choice({
      name: 'way',
      title: t('run.ways'),
      hidden: true,
      even: true,
      value: run.form.way,
      options: ways.map((value) => ({ value, text: html`${icon(value)}${named('run.way', value)}` })),
      choose: (way) => fill(run.name, { way }),
    })}</div>
    <div class="sheet">${DRAW[run.form.way](state, detail, run)}</div></div>`;
}

/** @type {Record<Run['form']['way'], (state: State, detail: BikeDetail, run: Run) => unknown>} */
const DRAW = { odometer, ride, week, file: fileField };

/** @param {Run} run @param {'odometer'|'ride'|'week'|'put_on'|'weeks'} field @param {string} title @param {string} [hint] */
function number(run, field, title, hint) {
  return textField({
    id: `run-${field}`,
    title,
    text: run.form[field],
    hint,
    mode: 'decimal',
    most: 14,
    fault: run.unreadable.includes(field) ? t('form.unreadable') : undefined,
    type: (text) => fill(run.name, { [field]: text }),
  });
}

/** @param {Run} run */
function when(run) {
  return dayField('run-day', run.form.day, (day) => fill(run.name, { day }));
}

/** @param {State} state @param {BikeDetail} detail @param {Run} run */
function odometer(state, detail, run) {
  const { units } = state.settings;
  const { last } = run;
  const unit = unitOf(state);
  return html`${number(
    run,
    'odometer',
    t('run.odometer', { unit }),
    last ? t('run.odometer.last', { far: far(last.km, units), when: day(last.at) }) : undefined,
  )}
  <p role="status">${change(run, units)}</p>
  ${when(run)} ${run.first ? since(state, detail, run) : nothing}`;
}

/** @param {Run} run @param {State['settings']['units']} units */
function change({ more, leap }, units) {
  if (more === null) return nothing;
  if (more < 0) return t('run.odometer.less');
  return html`${t('run.odometer.more', { far: far(more, units) })}${leap ? html` <strong>${t('run.odometer.leap')}</strong>` : nothing}`;
}

/** The first figure asks since when the chain runs. @param {State} state @param {BikeDetail} detail @param {Run} run */
function since(state, detail, run) {
  const { units } = state.settings;
  const fitted = detail.meaning.chains.find((one) => one.chain_id === detail.meaning.fitted_chain_id);
  const ran = far(fitted?.km ?? 0, units);
  const known = detail.chains[fitted?.chain_id ?? '']?.fields.km_before !== undefined;
  return html`${choice({
    name: 'since',
    title: t('run.since'),
    value: run.form.since,
    options: /** @type {const} */ (['now', 'zero', 'at']).map((value) => ({
      value,
      text: value === 'now' && known ? t('run.since.known', { far: ran }) : named('run.since', value),
    })),
    choose: (value) => fill(run.name, { since: value }),
  })}
  ${run.form.since === 'now' && !known ? html`<p class="soft">${t('run.since.now.text', { far: ran })}</p>` : nothing}
  ${run.form.since === 'at' ? number(run, 'put_on', t('run.put_on', { unit: unitOf(state) })) : nothing}`;
}

/** @param {State} state @param {BikeDetail} _detail @param {Run} run */
function ride(state, _detail, run) {
  return html`${number(run, 'ride', t('run.ride', { unit: unitOf(state) }))}${when(run)}`;
}

/** @param {State} state @param {BikeDetail} _detail @param {Run} run */
function week(state, _detail, run) {
  const { units } = state.settings;
  return html`${number(run, 'week', t('run.week', { unit: unitOf(state) }))}
    ${run.lastAt ? nothing : number(run, 'weeks', t('run.weeks'), t('run.week.none'))}
    ${
      run.weekly
        ? html`<p role="status">${run.lastAt ? t('run.week.since', { when: day(run.lastAt), far: far(run.weekly, units) }) : ''}</p>
      <label class="choice"><input type="checkbox" .checked=${run.form.add}
        @change=${(/** @type {any} */ event) => fill(run.name, { add: event.target.checked })}>
        <span class="chip">${t('run.week.add')}</span></label>`
        : nothing
    }`;
}

/** @param {State} state @param {BikeDetail} detail @param {Run} run */
function bench(state, detail, run) {
  const { changes, km } = ready(state, detail, run);
  const allowed = mayAdd(state.garage?.role, 'distances') && changes.length > 0;
  const none = run.form.way === 'file' ? 'run.main.file' : 'run.main.none';
  const main = km === null ? t('run.main.week') : t('run.main', { far: far(km, state.settings.units) });
  return html`${flash(state)}<div class="main-row">
    <a class="button" href="#/bike/${detail.meaning.bike_id}">${t('form.back')}</a>
    <button class="button main" type="button" aria-disabled=${allowed ? 'false' : 'true'}
      @click=${() => saveForm(detail)}>${allowed ? main : t(none)}</button></div>`;
}

/** Saves what is entered by now. @param {BikeDetail} detail */
function saveForm(detail) {
  const state = now();
  const { changes, km } = ready(state, detail, filled(state, detail));
  if (!changes.length || !mayAdd(state.garage?.role, 'distances')) return;
  commit(changes, {
    text: km === null ? t('did.saved') : t('did.distance', { far: far(km, state.settings.units) }),
    form: formName(detail),
    to: `#/bike/${detail.meaning.bike_id}`,
  });
}
