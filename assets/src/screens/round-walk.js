/** A round under way: how far it is, who is where, and its bikes. */
import { html, nothing } from 'lit';
import { mayLead } from '../data/roles.js';
import { STATES, counts, whoIsWhere } from '../data/rounds.js';
import { roundBar } from '../parts/round-bar.js';
import { when } from '../words/times.js';
import { named, t } from '../words/t.js';
import { finishRound, find, findAndGo, foundIn, scan } from './round-actions.js';
import { person } from './round-home.js';
import { flash, standRows } from './round-parts.js';
import { log } from './round-log.js';
import { fold } from './round-rows.js';
import { sheet } from './round-sheet.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/rounds.js').Round} Round
 * @typedef {import('../data/rounds.js').Stand} Stand
 */

/** @param {State} state @param {Round} round @param {string} role */
export function walk(state, round, role) {
  const found = foundIn(round, state.round.find);
  const seeks = state.round.find.trim() !== '';
  return {
    body: html`<div class="sheets round">
      <div class="round-head"><a class="button quiet" href="#/round">${t('round.back')}</a></div>
      <h1>${round.name}</h1>
      ${roundBar(round.stands)}
      ${flash(state)}
      ${where(round)}
      ${role === 'viewer' || !state.round.nameless ? nothing : person(state)}
      ${round.stands.length ? nothing : html`<p>${t('round.empty')}</p>`}
      ${seeks && !found.length ? html`<p role="status">${t('round.find.none')}</p>` : nothing}
      ${STATES.map((one) => group(round, one, found, seeks))}
      ${fold('log', t('round.log'), () => log(round, state.round.log))}
      ${finish(round, role)}
      ${'BarcodeDetector' in globalThis ? nothing : html`<p class="soft small">${t('round.scan.how')}</p>`}
      ${sheet(round, state.round.paper)}
    </div>`,
    bench: bench(state, round, role),
  };
}

/** @param {Round} round */
function where(round) {
  const names = new Map(round.stands.map(({ bike }) => [bike.bike_id, bike.fields.name]));
  const people = whoIsWhere(round.checks);
  if (people.length < 2) return nothing;
  return html`<section aria-label=${t('round.where')}><ul class="where">${people.map(
    (one) =>
      html`<li>${t('round.where.line', { by: one.by ?? '', bike: names.get(one.bike_id) ?? '', when: when(one.at, new Date()) })}</li>`,
  )}</ul></section>`;
}

/**
 * @param {Round} round @param {import('../data/rounds.js').BikeState} name
 * @param {Stand[]} found @param {boolean} seeks
 */
function group(round, name, found, seeks) {
  const all = found.filter((stand) => stand.state === name);
  if (!all.length) return nothing;
  const rows = () => standRows(all, `#/round/${round.id}/`);
  const title = html`${named('round.state', name)} <span class="number">${all.length}</span>`;
  if (name === 'cleared' && !seeks) return fold('cleared', title, rows);
  return html`<section class="sheet"><h2>${title}</h2>${rows()}</section>`;
}

/** @param {Round} round @param {string} role */
function finish(round, role) {
  const n = counts(round.stands);
  if (!mayLead(role) || n.not_seen === 0) return nothing;
  return html`<button class="button" type="button" @click=${() => finishRound(round)}>${t('round.finish.left', { n: n.not_seen })}</button>`;
}

/** @param {State} state @param {Round} round @param {string} role */
function bench(state, round, role) {
  const next =
    round.stands.find((stand) => stand.state === 'not_seen') ?? round.stands.find((stand) => stand.state === 'held');
  const left = counts(round.stands).not_seen;
  return html`<form class="find" @submit=${(/** @type {Event} */ event) => findAndGo(event, round)}>
      <label class="away" for="find">${t('round.find')}</label>
      <input class="line-input" id="find" autocomplete="off" autocapitalize="characters" spellcheck="false" enterkeyhint="go"
        maxlength="200" placeholder=${t('round.find')} .value=${state.round.find}
        @input=${(/** @type {any} */ event) => find(event.target.value)}>
      ${scanner(round)}
    </form>
    ${state.round.trouble ? html`<p class="fault" role="status">${named('round.scan', state.round.trouble)}</p>` : nothing}
    <div class="main-row">${
      left === 0 && mayLead(role)
        ? html`<button class="button main" type="button" @click=${() => finishRound(round)}>${t('round.finish')}</button>`
        : next && role !== 'viewer'
          ? html`<a class="button main" href="#/round/${round.id}/${next.bike.bike_id}">${t('round.next', { name: next.bike.fields.name })}</a>`
          : nothing
    }</div>`;
}

/** @param {Round} round a photograph of a tag, where the browser itself reads codes */
function scanner(round) {
  if (!('BarcodeDetector' in globalThis)) return nothing;
  return html`<label class="button scan">${t('round.scan')}
    <input class="away" type="file" accept="image/*" capture="environment"
      @change=${(/** @type {Event} */ event) => scan(event, round)}></label>`;
}
