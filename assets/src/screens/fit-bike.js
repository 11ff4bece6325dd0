/** Fit from a saved bike, and what is found out there back to the bike. */
import { html, nothing } from 'lit';
import { now, set } from '../app/store.js';
import { bikeFromFit, fitFromBike, news } from '../data/fit-bike.js';
import { emptyFit } from '../data/fit-draft.js';
import { bikeSelect } from '../parts/bike-select.js';
import { named, t } from '../words/t.js';
import { put, refusal } from './bike-work.js';
import { changeFit } from './fit-actions.js';

/** @typedef {import('../app/store.js').State} State */

/** @param {State} state above the fields */
export function fromBike({ garage, fit }) {
  return bikeSelect({
    id: 'fit-bike',
    title: t('fit.bike'),
    none: t('fit.bike.none'),
    garage,
    value: garage?.bikes.some((one) => one.bike_id === fit.bike_id) ? fit.bike_id : '',
    choose,
  });
}

/** @param {string} bike_id what was entered can be brought back */
function choose(bike_id) {
  const { garage, fit, settings } = now();
  const bike = garage?.bikes.find((one) => one.bike_id === bike_id);
  const next = bike
    ? fitFromBike(fit, bike_id, bike.fields, bike.chain, settings.units)
    : { ...emptyFit(settings.units), question: fit.question, drive: fit.drive };
  changeFit(next, { fitBefore: fit, fitSaved: '' });
}

/** @param {State} state below the fields: what the bike does not know yet */
export function toBike(state) {
  const { garage, fit, fitSaved } = state;
  const bike = garage?.bikes.find((one) => one.bike_id === fit.bike_id);
  if (!bike) return nothing;
  const fresh = { ...news(bikeFromFit(fit), bike.fields), ...family(state, bike) };
  const names = Object.keys(fresh);
  return html`<div class="stack" role="status">
    ${fitSaved && !names.length ? html`<p>${t('fit.saved', { name: bike.fields.name })}</p>` : nothing}</div>
    ${refusal(state)}
    ${
      names.length
        ? html`<div class="sheet"><p class="soft small">${t('fit.news', { list: names.map((name) => named('fit.keeps', name)).join(', ') })}</p>
      <button class="button" type="button" @click=${() => save(bike, fresh)}>${t('fit.save', { name: bike.fields.name })}</button></div>`
        : nothing
    }`;
}

/**
 * The family of the chain that is on it, once the engine is sure of it.
 * @param {State} state
 * @param {import('../data/garage.js').BikeSummary} bike
 */
function family({ fit, fitResults: { which } }, { chain }) {
  if (fit.question !== 'which' || which.status !== 'ok' || !chain || !fit.which.outer_width_mm.text.trim()) return {};
  const { candidates, caution_codes, none_fit } = which.answer;
  const unsure = caution_codes.some((/** @type {{code: string}} */ { code }) => code === 'identify_caution_unsure');
  if (none_fit || unsure || candidates[0].class === chain.class) return {};
  return { class: candidates[0].class };
}

/** @param {import('../data/garage.js').BikeSummary} bike @param {Record<string, any>} fresh */
async function save({ bike_id, fitted_chain_id }, { class: family, ...fields }) {
  /** @type {import('../data/garage.js').Change[]} */
  const changes = [];
  if (Object.keys(fields).length) changes.push({ table: 'bikes', record_id: bike_id, put: fields });
  if (family && fitted_chain_id) changes.push({ table: 'chains', record_id: fitted_chain_id, put: { class: family } });
  if (await put(changes)) set({ fitSaved: bike_id });
}
