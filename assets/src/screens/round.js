/** Round: a walk through a set of bikes, alone or together. */
import { html, nothing } from 'lit';
import { roundOf } from '../data/round-view.js';
import { mayAdd } from '../data/roles.js';
import { t } from '../words/t.js';
import { oneBike } from './round-bike.js';
import { home } from './round-home.js';
import { clearingAnyway, holding } from './round-reasons.js';
import { summary } from './round-summary.js';
import { walk } from './round-walk.js';

/** @param {import('../app/store.js').State} state */
export function round(state) {
  const { garage, argument } = state;
  if (!garage) return plain(html`<p role="status">${t('round.loading')}</p>`);
  const [id, bikeId, step] = argument.split('/');
  if (!id) return home(state, garage);
  const one = roundOf(garage, id, state.round.detail);
  if (!one) return plain(html`<p>${t('round.missing')}</p>`);
  if (!bikeId) return one.finished_at ? summary(state, one, garage.role) : walk(state, one, garage.role);
  const stand = one.stands.find(({ bike }) => bike.bike_id === bikeId);
  if (!stand) return plain(html`<p>${t('round.missing.bike')}</p>`);
  const writes = mayAdd(garage.role, 'round_checks') && !one.finished_at;
  if (step === 'hold' && writes) return holding(state, one, stand);
  if (step === 'clear' && writes) return clearingAnyway(state, one, stand);
  return oneBike(state, one, stand, writes);
}

/** @param {unknown} text a page with nothing on it but the way back */
function plain(text) {
  return {
    body: html`<div class="sheets round"><h1>${t('round.title')}</h1>${text}</div>`,
    bench: text ? html`<a class="button" href="#/round">${t('round.back')}</a>` : nothing,
  };
}
