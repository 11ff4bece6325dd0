/** Another chain on a bike: what becomes of the old one, what the new one is, and how to fit it safely. */
import { html, nothing } from 'lit';
import { now } from '../app/store.js';
import { gone } from '../data/distance-entry.js';
import { countOf } from '../data/shopping.js';
import { whole } from '../data/teeth.js';
import { choice } from '../parts/choice.js';
import { about, far } from '../parts/distances.js';
import { fittingSteps } from '../parts/fitting-steps.js';
import { nudgeField } from '../parts/nudge-field.js';
import { textField } from '../parts/text-field.js';
import { familyName, said } from '../words/engine.js';
import { t } from '../words/t.js';
import { refusal, standIn } from './bike-work.js';
import { finishChange, fitted, knownDistance, putChange } from './change-actions.js';
import { distanceField } from './distance-field.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('../data/chain-change.js').Draft} Draft
 */

/** Pitches a count begins with when it is nudged from nothing and nothing could be worked out. */
const USUAL_PITCHES = 112;

/** @param {State} state */
export function bikeChange(state) {
  const { work, changing, settings } = state;
  const detail = work?.detail;
  if (!detail || !changing) return standIn(state, 'change.title');
  const known = knownDistance(detail);
  const then = gone(changing, known, settings.units);
  const on = fitted(detail);
  const ready = !then.fault && !Number.isNaN(whole(changing.pitches));
  return {
    body: html`<div class="sheets">
      <h1>${t('change.for', { name: detail.bike.fields.name })}</h1>
      ${on ? oldChain(state, detail, changing) : html`<p>${t('change.bare')}</p>`}
      ${putOn(detail, changing, settings.units)}
      <section class="sheet">${distanceField({ id: 'change-km', entered: changing, known, gone: then, units: settings.units, put: putChange })}</section>
      ${changing.next ? nothing : newChain(state, changing)}
      ${changing.next ? nothing : life(state)}
      ${fittingSteps({
        kind: detail.bike.fields.drive === 'derailleur' ? 'derailleur' : 'fixed',
        n: whole(changing.pitches) || null,
        half: false,
        closure: changing.closure,
        done: () => now().changing?.done ?? [],
        put: putChange,
      })}
      <p class="soft">${t('change.mechanic')}</p>
    </div>`,
    bench: html`${refusal(state)}<div class="main-row">
      <a class="button" href="#/bike/${detail.bike.record_id}">${t('shop.back')}</a>
      <button class="button main" type="button" aria-disabled=${ready ? 'false' : 'true'} @click=${finishChange}>${t('change.done')}</button></div>`,
  };
}

/** @param {State} state @param {BikeDetail} detail @param {Draft} draft */
function oldChain({ settings }, detail, { old }) {
  const on = fitted(detail);
  const { name } = detail.chains[on?.chain_id ?? '']?.fields ?? {};
  return html`<section class="sheet">
    <p class="number">${t(name ? 'change.old.named' : 'change.old', { name, far: far(on?.km ?? 0, settings.units) })}</p>
    ${choice({
      name: 'old-chain',
      title: t('change.old.title'),
      even: true,
      value: old,
      options: [
        { value: /** @type {const} */ ('retire'), text: t('change.old.retire') },
        { value: /** @type {const} */ ('rest'), text: t('change.old.rest') },
      ],
      choose: (value) => putChange({ old: value }),
    })}
    <p class="soft small">${t(old === 'retire' ? 'change.old.retire.text' : 'change.old.rest.text')}</p></section>`;
}

/** @param {BikeDetail} detail @param {Draft} draft @param {State['settings']['units']} units a new one, or one that rests */
function putOn({ meaning, chains }, { next }, units) {
  const resting = meaning.chains.filter((one) => one.place === 'resting');
  if (!resting.length) return nothing;
  return html`<section class="sheet">${choice({
    name: 'next-chain',
    title: t('change.next'),
    value: next,
    options: [
      { value: '', text: t('change.next.new') },
      ...resting.map((one, i) => ({
        value: one.chain_id,
        text: t('change.next.rested', {
          name: chains[one.chain_id]?.fields.name ?? t('change.next.number', { n: i + 1 }),
          far: far(one.km, units),
        }),
      })),
    ],
    choose: (value) => putChange({ next: value }),
  })}</section>`;
}

/** @param {State} state @param {Draft} draft */
function newChain({ work }, draft) {
  /** @type {import('../data/shopping.js').Family[]} */
  const families = work?.answers.family?.answer?.candidates ?? [];
  const fitting = families.filter((one) => one.fits_this_bike !== false || one.class === draft.class);
  const chosen = families.find((one) => one.class === draft.class);
  const count = whole(draft.pitches);
  const unreadable = Number.isNaN(count);
  const counted = work?.answers.length?.answer;
  const worked = counted ? countOf(counted) : null;
  const from = worked ?? USUAL_PITCHES;
  return html`<section class="sheet"><h2>${t('change.new')}</h2>
    ${choice({
      name: 'chain-class',
      title: t('change.class'),
      value: draft.class,
      options: [
        ...fitting.map((one) => ({ value: one.class, text: familyName(one) })),
        { value: '', text: t('change.unknown') },
      ],
      choose: (value) => putChange({ class: value }),
    })}
    ${chosen?.fits_this_bike === false ? html`<p class="fault">${t('which.fits.no')}</p>` : nothing}
    ${nudgeField({
      id: 'chain-pitches',
      title: t('change.pitches'),
      hint: worked === null ? t('change.pitches.hint') : t('change.pitches.worked', { n: worked }),
      text: draft.pitches,
      mode: 'numeric',
      less: t('nudge.fewer'),
      more: t('nudge.further'),
      fault: unreadable ? t('fit.unreadable.number') : undefined,
      step: (steps) => putChange({ pitches: String(count ? Math.max(2, count + 2 * steps) : from) }),
      type: (pitches) => putChange({ pitches }),
    })}
    ${textField({ id: 'chain-name', title: t('change.name'), text: draft.name, type: (name) => putChange({ name }) })}
  </section>`;
}

/** What the finished chains say about the next one's life. @param {State} state */
function life({ work, settings: { units } }) {
  const answer = work?.answers.life?.answer;
  if (!answer) return nothing;
  const { p05, p50, p95 } = answer.km_to_limit;
  const n = answer.earlier_chains.length;
  return html`<section class="sheet"><h2>${t('change.life')}</h2>
    <p class="number big">${t('change.life.is', { far: about(p50, units) })}</p>
    <p class="number">${t('change.life.range', { low: about(p05, units), high: about(p95, units), limit: answer.limit_percent })}</p>
    <p>${n === 0 ? t('change.life.none') : t('change.life.some', { n })}</p>
    <details class="fold"><summary>${t('change.life.why')}</summary>
      <ul>${said(answer, 'notes').map((text) => html`<li>${text}</li>`)}</ul></details></section>`;
}
