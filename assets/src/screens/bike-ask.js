/** One question at a time about a bike, asked when the answer is first needed. */
import { html, nothing } from 'lit';
import { fill, form } from '../app/forms.js';
import { now } from '../app/store.js';
import { mayLead } from '../data/roles.js';
import { choice } from '../parts/choice.js';
import { readFar } from '../parts/distances.js';
import { textField } from '../parts/text-field.js';
import { named, t } from '../words/t.js';
import { commit } from './bike-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {'drive'|'age'|'care'|'week'} Question
 */

/** @type {{later: Question[], kind: string, week: string, age: string}} `kind`: the drive, while its sprockets are asked */
const EMPTY = { later: [], kind: '', week: '', age: '' };

/** The unit in a label. @param {State} state */
export function unitOf({ settings: { units } }) {
  return units === 'imperial' ? 'mi' : 'km';
}

/** @param {BikeDetail} detail @returns {Question[]} what is not known and needed by now */
function open({ bike: { fields }, meaning, chains }) {
  const fitted = meaning.chains.find((one) => one.chain_id === meaning.fitted_chain_id);
  const read = Boolean(fitted?.reading_ids.length);
  /** @type {(Question|false)[]} */
  const all = [
    fields.drive === 'derailleur' && !fields.rear_sprockets && 'drive',
    fitted !== undefined && !read && chains[fitted.chain_id].fields.km_before === undefined && 'age',
    read && !fields.care && 'care',
    read && fields.km_per_week === undefined && 'week',
  ];
  return all.filter((one) => one !== false);
}

/** @param {State} state @param {BikeDetail} detail */
export function question(state, detail) {
  if (!mayLead(state.garage?.role)) return nothing;
  const name = `ask/${detail.meaning.bike_id}`;
  const filled = form(state, name, EMPTY);
  const next = open(detail).find((one) => !filled.later.includes(one));
  if (!next) return nothing;
  const later = () => fill(name, { later: [...filled.later, next] });
  return html`<section class="panel" aria-label=${t('ask.title')}>
    ${DRAW[next](state, detail, name)}
    <div><button class="button quiet" type="button" @click=${later}>${t('ask.later')}</button></div>
  </section>`;
}

/** @type {Record<Question, (state: State, detail: BikeDetail, name: string) => unknown>} */
const DRAW = { drive, care, week, age };

/** @param {State} state @param {BikeDetail} detail @param {string} name */
function drive(state, detail, name) {
  const { kind } = form(state, name, EMPTY);
  return html`<p class="soft">${t('bike.strict')}</p>
    ${driveChoice(kind || null, (one) =>
      one === 'derailleur' ? askSprockets(name) : put(detail, { drive: one, rear_sprockets: null }),
    )}
    ${kind ? sprocketChoice(0, (n) => put(detail, { drive: 'derailleur', rear_sprockets: n })) : nothing}`;
}

/** @param {string} name brings the question that follows into sight, over the dock */
function askSprockets(name) {
  fill(name, { kind: 'derailleur' });
  requestAnimationFrame(() =>
    [...document.querySelectorAll('.sprockets input')].at(-1)?.scrollIntoView({ block: 'center' }),
  );
}

/** @param {string|null} value @param {(drive: string) => void} choose */
export function driveChoice(value, choose) {
  return choice({
    name: 'drive',
    title: t('ask.drive'),
    even: true,
    value,
    options: ['derailleur', 'single', 'hub'].map((one) => ({ value: one, text: named('drive', one) })),
    choose,
  });
}

/** @param {number} value @param {(n: number) => void} choose */
export function sprocketChoice(value, choose) {
  const counts = Array.from({ length: 14 }, (_, i) => i + 1);
  return html`<div class="sprockets">${choice({
    name: 'rear_sprockets',
    title: t('edit.field.rear_sprockets'),
    value,
    options: counts.map((n) => ({ value: n, text: String(n) })),
    choose,
  })}</div>`;
}

/** @param {string} value @param {(care: string) => void} choose @param {string} title */
export function careChoice(value, choose, title) {
  return html`<div class="tall-choices">${choice({
    name: 'care',
    title,
    value,
    options: ['enclosed', 'clean', 'usual', 'gritty'].map((one) => ({
      value: one,
      text: html`<span><strong>${named('care', one)}</strong><br>${t(/** @type {any} */ (`care.${one}.text`))}</span>`,
    })),
    choose,
  })}</div>`;
}

/** @param {State} _state @param {BikeDetail} detail */
function care(_state, detail) {
  return careChoice('', (one) => put(detail, { care: one }), t('ask.care'));
}

/** @param {State} state @param {BikeDetail} detail @param {string} name */
function week(state, detail, name) {
  const filled = form(state, name, EMPTY);
  const km = readFar(filled.week, state.settings.units);
  const good = km !== null && !Number.isNaN(km);
  return html`<div class="end-of-row">${textField({
    id: 'ask-week',
    title: t('edit.field.km_per_week', { unit: unitOf(state) }),
    text: filled.week,
    hint: t('ask.week.hint'),
    mode: 'decimal',
    most: 10,
    fault: Number.isNaN(km) ? t('form.unreadable') : undefined,
    type: (text) => fill(name, { week: text }),
  })}
  <button class="button" type="button" aria-disabled=${good ? 'false' : 'true'}
    @click=${() => sayNumber('week', name, (km) => put(detail, { km_per_week: km }))}>${t('ask.save')}</button></div>`;
}

/** @param {State} state @param {BikeDetail} detail @param {string} name */
function age(state, detail, name) {
  const filled = form(state, name, EMPTY);
  const km = readFar(filled.age, state.settings.units);
  const good = km !== null && !Number.isNaN(km);
  const say = (/** @type {number} */ km_before) =>
    commit([{ table: 'chains', record_id: String(detail.meaning.fitted_chain_id), put: { km_before } }], {
      text: t('did.saved'),
    });
  return html`<h2>${t('ask.age')}</h2><p class="soft">${t('ask.age.hint')}</p>
    <div class="choices"><button class="button" type="button" @click=${() => say(0)}>${t('ask.age.new')}</button></div>
    <div class="end-of-row">${textField({
      id: 'ask-age',
      title: t('ask.age.some', { unit: unitOf(state) }),
      text: filled.age,
      mode: 'decimal',
      most: 10,
      fault: Number.isNaN(km) ? t('form.unreadable') : undefined,
      type: (text) => fill(name, { age: text }),
    })}
    <button class="button" type="button" aria-disabled=${good ? 'false' : 'true'}
      @click=${() => sayNumber('age', name, say)}>${t('ask.save')}</button></div>`;
}

/**
 * Says what is entered by now, once it is a distance.
 * @param {'week'|'age'} field @param {string} name @param {(km: number) => void} say
 */
function sayNumber(field, name, say) {
  const state = now();
  const km = readFar(form(state, name, EMPTY)[field], state.settings.units);
  if (km !== null && !Number.isNaN(km)) say(Math.round(km * 10) / 10);
}

/** @param {BikeDetail} detail @param {Record<string, any>} fields */
function put(detail, fields) {
  commit([{ table: 'bikes', record_id: detail.meaning.bike_id, put: fields }], { text: t('did.saved') });
}
