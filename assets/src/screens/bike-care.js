/** Care of a chain: what was done, and the caution before lubricant goes onto dirt. */
import { html, nothing } from 'lit';
import { fill, form } from '../app/forms.js';
import { now, set } from '../app/store.js';
import { metre } from '../data/chain-moves.js';
import { mayAdd } from '../data/roles.js';
import { engine } from '../engine/engine.js';
import { choice } from '../parts/choice.js';
import { textField } from '../parts/text-field.js';
import { said } from '../words/engine.js';
import { named, t } from '../words/t.js';
import { commit } from './bike-actions.js';
import { NOTICED, careAdvice } from './bike-care-advice.js';
import { chainName, chips, dayField, flash, instant, withBike } from './bike-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {{chain: string, looks: ''|'clean'|'dirty', noticed: string[], did: string[], lubricant: string, day: string, note: string}} Filled
 * @typedef {BikeDetail['meaning']['chains'][number]} Chain
 * @typedef {{name: string, one: Filled, chain: Chain|undefined, order: string[]}} Look
 */

/** @type {Filled} */
const EMPTY = { chain: '', looks: '', noticed: [], did: [], lubricant: '', day: '', note: '' };

/** Chains that can be cared for. @param {BikeDetail} detail */
function inUse({ meaning }) {
  return meaning.chains.filter((chain) => chain.place !== 'retired');
}

/** @param {State} state @param {BikeDetail} detail @returns {Look} */
function look(state, detail) {
  const { meaning } = detail;
  const name = `bike-care/${meaning.bike_id}`;
  const filled = form(state, name, EMPTY);
  const all = inUse(detail);
  const chain = all.find((one) => one.chain_id === (filled.chain || meaning.fitted_chain_id)) ?? all[0];
  const lubricant = filled.lubricant || lastLubricant(detail, chain);
  return {
    name,
    one: { ...filled, lubricant },
    chain,
    order: meaning.chains.map((one) => one.chain_id),
  };
}

/** @param {BikeDetail} detail @param {Chain|undefined} chain @returns {string} what it runs on, as far as it was said */
function lastLubricant({ care }, chain) {
  const all = (chain?.care_ids ?? []).map((id) => care[id]?.fields.lubricant).filter(Boolean);
  return all.at(-1) ?? '';
}

/** @param {State} state */
export function bikeCare(state) {
  return withBike(state, (detail) => {
    const shown = look(state, detail);
    ask(shown);
    return { body: body(state, detail, shown), bench: bench(state, detail, shown) };
  });
}

/** The question asked last, so that each is asked once, and its answering. */
let asked = { question: '', done: Promise.resolve() };

/** @param {Look} shown @returns {object} what to ask the engine about the chain as it came in */
function asFound({ one: { looks, noticed, lubricant }, chain }) {
  return {
    ...chain?.care_request,
    ...Object.fromEntries(noticed.map((one) => [one, true])),
    ...(looks && { dirty: looks === 'dirty' }),
    ...(LUBRICANTS.includes(lubricant) && { lubricant }),
  };
}

/** @param {Look} shown @returns {object} what to ask the engine about what was done */
function request(shown) {
  // Whether it was due or not: what lubricating asks to be careful about is wanted.
  return { ...asFound(shown), ...(shown.one.did.includes('lubricated') && { sounds_dry: true }) };
}

/** Asks the engine what should come first with what is entered. @param {Look} shown */
function ask(shown) {
  if (!shown.chain) return Promise.resolve();
  const question = JSON.stringify(request(shown));
  if (question !== asked.question) asked = { question, done: answerTo(question, shown) };
  return asked.done;
}

/** @param {string} question @param {Look} shown */
async function answerTo(question, shown) {
  const both = [request(shown), asFound(shown)].map((what) => engine.call('care', what).catch(() => null));
  const [answer, found] = await Promise.all(both);
  if (question === asked.question) set({ careFirst: { question, answer, found, chain: shown.chain?.chain_id } });
}

/** @param {State} state @param {Look} shown @returns {any} what is due for the chain as it came in, as last answered */
function due({ careFirst }, { chain }) {
  return careFirst && careFirst.chain === chain?.chain_id ? careFirst.found : null;
}

/** @param {State} state @param {Look} shown @returns {any} the engine's answer to what is entered, null without */
function answered({ careFirst }, shown) {
  return careFirst?.question === JSON.stringify(request(shown)) ? careFirst.answer : null;
}

/** Those that the calculation knows and a rider puts on. */
const LUBRICANTS = ['oil', 'liquid_wax', 'hot_wax'];

/** @param {State} state @param {BikeDetail} detail @param {Look} shown */
function body(state, detail, shown) {
  const { one, name, chain, order } = shown;
  const put = (/** @type {Partial<Filled>} */ part) => fill(name, part);
  const all = inUse(detail);
  return html`<div class="sheets bike-form"><h1>${t('look.title')} · ${detail.bike.fields.name}</h1>
    ${careAdvice(due(state, shown), state.settings.units)}
    ${
      all.length > 1
        ? choice({
            name: 'chain',
            title: t('look.chain'),
            value: chain?.chain_id ?? null,
            options: all.map((each) => ({
              value: each.chain_id,
              text: chainName(detail.chains, each.chain_id, order),
            })),
            choose: (id) => put({ chain: id }),
          })
        : nothing
    }
    ${choice({
      name: 'looks',
      title: t('look.looks'),
      value: one.looks || 'unseen',
      options: ['clean', 'dirty', 'unseen'].map((value) => ({ value, text: named('look.looks', value) })),
      choose: (looks) => put({ looks: looks === 'unseen' ? '' : /** @type {'clean'|'dirty'} */ (looks) }),
    })}
    ${chips({
      title: t('look.noticed'),
      options: NOTICED.map((value) => ({ value, text: named('look.noticed', value) })),
      chosen: () => form(now(), name, EMPTY).noticed,
      choose: (noticed) => put({ noticed }),
    })}
    ${chips({
      title: t('look.did'),
      options: ['wiped', 'cleaned', 'lubricated', 'inspected'].map((value) => ({
        value,
        text: named('look.did', value),
      })),
      chosen: () => form(now(), name, EMPTY).did,
      choose: (did) => put({ did }),
    })}
    ${one.did.includes('lubricated') ? lubricated(state, shown) : nothing}
    ${dayField('care-day', one.day, (day) => put({ day }))}
    ${textField({ id: 'care-note', title: t('form.note'), text: one.note, most: 2000, lines: 2, type: (note) => put({ note }) })}
    ${one.did.includes('lubricated') || one.did.includes('cleaned') ? cautions(answered(state, shown)) : nothing}
  </div>`;
}

/** @param {State} state @param {Look} shown */
function lubricated(state, shown) {
  const answer = answered(state, shown);
  return html`${choice({
    name: 'lubricant',
    title: t('look.with'),
    value: shown.one.lubricant || null,
    options: LUBRICANTS.map((value) => ({ value, text: named('look.lubricant', value) })),
    choose: (lubricant) => fill(shown.name, { lubricant }),
  })}
  ${cleanFirst(shown.one, answer) ? warning(answer) : nothing}`;
}

/** @param {Filled} one @param {any} answer @returns {boolean} whether lubricant would go onto dirt */
function cleanFirst({ did, looks }, answer) {
  if (!did.includes('lubricated') || did.includes('cleaned')) return false;
  return answer ? answer.do_now[0] === 'clean' : looks === 'dirty';
}

/** @param {any} answer */
function warning(answer) {
  const clean = answer?.tasks.find((/** @type {any} */ one) => one.task === 'clean');
  const why = clean ? [...said(clean, 'reasons'), ...said(answer, 'reasons')] : [];
  return html`<div class="notice inside" role="alert"><h2>${t('look.first')}</h2>${why.map((text) => html`<p>${text}</p>`)}</div>`;
}

/** @param {any} answer */
function cautions(answer) {
  if (!answer) return nothing;
  return html`<section class="sheet"><h2>${t('look.cautions')}</h2>
    <ul>${said(answer, 'cautions').map((text) => html`<li>${text}</li>`)}</ul></section>`;
}

/** @param {State} state @param {Look} shown @returns {boolean} whether there is something to note */
function ready({ garage }, { one, chain }) {
  const something = one.did.length + one.noticed.length > 0 || one.looks !== '' || one.note.trim() !== '';
  return Boolean(chain) && something && mayAdd(garage?.role, 'care');
}

/** @param {State} state @param {BikeDetail} detail @param {Look} shown */
function bench(state, detail, shown) {
  const good = ready(state, shown);
  const word = !good
    ? 'look.main.none'
    : cleanFirst(shown.one, answered(state, shown))
      ? 'look.main.anyway'
      : 'look.main';
  return html`${flash(state)}<div class="main-row">
    <a class="button" href="#/bike/${detail.meaning.bike_id}">${t('form.back')}</a>
    <button class="button main" type="button" aria-disabled=${good ? 'false' : 'true'} @click=${() => saveForm(detail)}>${t(word)}</button></div>`;
}

/**
 * Saves what is entered by now. A caution that has not been on the screen yet is
 * shown first.
 * @param {BikeDetail} detail
 */
async function saveForm(detail) {
  const shown = look(now(), detail);
  if (!ready(now(), shown)) return;
  if (!answered(now(), shown)) {
    await ask(shown);
    if (cleanFirst(shown.one, answered(now(), shown))) return;
  }
  commit([entry(shown)], { text: t('did.care'), form: shown.name, to: `#/bike/${detail.meaning.bike_id}` });
}

/** A look alone is an entry too. @param {Look} shown @returns {import('../data/garage.js').Change} */
function entry({ one, chain }) {
  const { km = 0, chain_id = '' } = chain ?? {};
  return {
    table: 'care',
    put: {
      chain_id,
      at: instant(one.day),
      // Of another day only the day is known; the engine counts from it.
      ...(one.day ? {} : { at_km: metre(km) }),
      did: one.did.length ? one.did : ['inspected'],
      ...(one.looks ? { dirty: one.looks === 'dirty' } : {}),
      ...Object.fromEntries(one.noticed.map((each) => [each, true])),
      ...(one.did.includes('lubricated') && one.lubricant ? { lubricant: one.lubricant } : {}),
      ...(one.note.trim() ? { note: one.note.trim() } : {}),
    },
  };
}
