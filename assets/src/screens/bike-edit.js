/** Everything about a bike that can be said. */
import { html, nothing } from 'lit';
import { drop, fill, form } from '../app/forms.js';
import { now } from '../app/store.js';
import { changesOf, formField, formOf, lengthUnit } from '../data/bike-form.js';
import { mayLead } from '../data/roles.js';
import { textField } from '../parts/text-field.js';
import { faultText } from '../words/engine.js';
import { named, t } from '../words/t.js';
import { commit, openBikePlace } from './bike-actions.js';
import { careChoice, driveChoice, sprocketChoice, unitOf } from './bike-ask.js';
import { chips, flash, withBike } from './bike-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {{state: State, name: string, filled: Record<string, any>, put: Record<string, any>,
 *   unreadable: string[], changed: boolean, ready: boolean}} Form
 */

/** What follows the bike in the address where only its numbers are asked for, by its shopping list. */
const NUMBERS_ONLY = '/numbers';

/** @param {string} argument */
export async function openEdit(argument) {
  await openBikePlace(argument);
  if (!argument.endsWith(NUMBERS_ONLY)) return;
  requestAnimationFrame(() => document.getElementById('edit-numbers')?.scrollIntoView());
}

/** @param {State} state @param {BikeDetail} detail @returns {string} where the form was come to from */
function cameFrom({ argument }, { meaning }) {
  return `#/${argument.endsWith(NUMBERS_ONLY) ? 'shopping' : 'bike'}/${meaning.bike_id}`;
}

/** @param {State} state */
export function bikeEdit(state) {
  return withBike(state, (detail) => {
    const one = entered(state, detail);
    return { body: body(one, detail), bench: bench(one, detail) };
  });
}

/** @param {State} state @param {BikeDetail} detail @returns {Form} */
function entered(state, { bike: { fields }, meaning }) {
  const name = `bike-edit/${meaning.bike_id}`;
  const filled = form(state, name, formOf(fields, state.settings.units));
  const { put, unreadable } = changesOf(filled, fields, state.settings.units);
  const changed = Object.keys(put).length > 0;
  const ready = changed && !unreadable.length && put.name !== null && mayLead(state.garage?.role);
  return { state, name, filled, put, unreadable, changed, ready };
}

/** @param {Form} one @param {BikeDetail} detail */
function body(one, detail) {
  const { filled, state } = one;
  const put = (/** @type {Record<string, any>} */ part) => fill(one.name, part);
  const lead = mayLead(state.garage?.role);
  return html`<div class="sheets bike-form">
    <h1>${t('edit.title', { name: detail.bike.fields.name })}</h1>
    ${lead ? nothing : html`<p class="fault">${t('form.viewer')}</p>`}
    <section class="sheet"><h2>${t('edit.basic')}</h2>
      ${field(one, 'name')}
      ${driveChoice(filled.drive, (drive) => put(drive === 'derailleur' ? { drive } : { drive, rear_sprockets: 0 }))}
      ${filled.drive === 'derailleur' ? sprocketChoice(filled.rear_sprockets, (n) => put({ rear_sprockets: n })) : nothing}
    </section>
    <section class="sheet"><h2>${t('edit.use')}</h2>
      ${careChoice(filled.care, (care) => put({ care }), t('ask.care'))}
      ${field(one, 'km_per_week')}
      ${chips({
        title: t('edit.bears'),
        options: ['e_drive', 'child_seat', 'load'].map((value) => ({ value, text: named('bike.bears', value) })),
        chosen: () => entered(now(), detail).filled.bears,
        choose: (bears) => put({ bears }),
      })}
      ${field(one, 'tag', t('edit.hint.tag'))} ${field(one, 'set', t('edit.hint.set'))} ${field(one, 'note')}
    </section>
    <details class="fold" id="edit-numbers" ?open=${detailsTouched(one) || state.argument.endsWith(NUMBERS_ONLY)}><summary>${t('edit.numbers')}</summary><div class="sheets">
      <p class="soft">${t('edit.numbers.hint')}</p>${numbers(one)}</div></details>
    ${state.forms[one.name] ? html`<button class="button quiet" type="button" @click=${() => drop(one.name)}>${t('edit.drop')}</button>` : nothing}
    ${lead ? html`<button class="button" type="button" @click=${() => remove(detail, one.name)}>${t('edit.remove')}</button>` : nothing}
  </div>`;
}

const NUMBERS = /** @type {const} */ ([
  ['chainrings', 'edit.hint.teeth'],
  ['sprockets', 'edit.hint.sprockets'],
  ['chainstay_mm', null],
  ['longest_chainstay_mm', 'edit.hint.longest'],
  ['etrto', 'edit.hint.etrto'],
  ['max_sprocket', null],
  ['capacity_teeth', null],
  ['adjust_forward_mm', null],
  ['adjust_back_mm', null],
]);

/** @param {Form} one whether a fault stands in the folded part */
function detailsTouched({ state, unreadable }) {
  const told = state.fault ? formField(state.fault.field) : '';
  return NUMBERS.some(([name]) => unreadable.includes(name) || name === told);
}

/** @param {Form} one */
function numbers(one) {
  return NUMBERS.map(([name, hint]) => field(one, name, hint ? t(hint) : undefined));
}

/** Fields that take more than a short text. @type {Record<string, number>} */
const MOST = { note: 2000, km_per_week: 10, etrto: 20 };

/** @param {Form} one @param {string} name @param {string} [hint] */
function field({ state, name: formName, filled, unreadable }, name, hint) {
  const unit = name === 'km_per_week' ? unitOf(state) : lengthUnit(state.settings.units);
  const told = state.fault && formField(state.fault.field) === name ? faultText(state.fault) : undefined;
  const words = ['name', 'tag', 'set', 'note', 'etrto'].includes(name);
  return textField({
    id: `edit-${name}`,
    title: t(/** @type {any} */ (`edit.field.${name}`), { unit }),
    text: filled[name],
    hint,
    mode: words || name.endsWith('_mm') ? 'text' : 'decimal',
    most: MOST[name] ?? 80,
    lines: name === 'note' ? 3 : 1,
    fault: unreadable.includes(name) ? t('form.unreadable') : told,
    type: (text) => fill(formName, { [name]: text }),
  });
}

/** @param {Form} one @param {BikeDetail} detail */
function bench({ state, unreadable, changed, ready }, detail) {
  return html`${flash(state)}<div class="main-row">
    <a class="button" href=${cameFrom(state, detail)}>${t('form.back')}</a>
    <button class="button main" type="button" aria-disabled=${ready ? 'false' : 'true'} @click=${() => saveForm(detail)}>${t(
      changed || unreadable.length ? 'form.save' : 'form.same',
    )}</button></div>`;
}

/** Saves what is entered by now. @param {BikeDetail} detail */
function saveForm(detail) {
  const { name, put, ready } = entered(now(), detail);
  if (!ready) return;
  commit([{ table: 'bikes', record_id: detail.meaning.bike_id, put }], {
    text: t('did.saved'),
    form: name,
    to: cameFrom(now(), detail),
  });
}

/** @param {BikeDetail} detail @param {string} name */
function remove({ bike, meaning: { bike_id } }, name) {
  commit([{ table: 'bikes', record_id: bike_id, remove: true }], {
    text: t('did.removed', { name: bike.fields.name }),
    form: name,
    to: '#/bikes',
  });
}
