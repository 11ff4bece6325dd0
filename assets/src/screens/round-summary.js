/** A finished round: what goes out, what stays in, and who said so. */
import { html, nothing } from 'lit';
import { mayLead } from '../data/roles.js';
import { STATES } from '../data/rounds.js';
import { roundBar } from '../parts/round-bar.js';
import { when } from '../words/times.js';
import { named, t } from '../words/t.js';
import { finishRound, print } from './round-actions.js';
import { log } from './round-log.js';
import { flash, standRows } from './round-parts.js';
import { fold } from './round-rows.js';
import { sheet } from './round-sheet.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/rounds.js').Round} Round
 */

/** @param {State} state @param {Round} round @param {string} role */
export function summary(state, round, role) {
  const of = round.stands.length;
  const drawn = Math.min(state.round.paper, of);
  const inside = round.stands.filter((stand) => stand.state !== 'cleared');
  return {
    body: html`<div class="sheets round">
      <div class="round-head"><a class="button quiet" href="#/round">${t('round.back')}</a></div>
      <h1>${round.name}</h1>
      <p class="soft">${t('round.sum.started', { when: when(round.started_at, new Date()) })}<br>
        ${t('round.sum.finished', { when: when(round.finished_at ?? '', new Date()) })}</p>
      ${roundBar(round.stands)}
      ${flash(state)}
      <p class="big">${inside.length ? t('round.sum.in') : t('round.sum.out', { n: round.stands.length })}</p>
      ${STATES.map((name) => states(round, name))}
      ${fold('log', t('round.log'), () => log(round, state.round.log))}
      ${mayLead(role) ? html`<button class="button" type="button" @click=${() => finishRound(round)}>${t('round.sum.again')}</button>` : nothing}
      ${sheet(round, state.round.paper)}
    </div>`,
    bench: html`<button class="button main" type="button" aria-disabled=${drawn < of ? 'true' : 'false'}
      @click=${() => drawn === of && print()}>${drawn < of ? t('tags.drawing', { n: drawn, of }) : t('round.sum.print')}</button>`,
  };
}

/** @param {Round} round @param {import('../data/rounds.js').BikeState} name */
function states(round, name) {
  const all = round.stands.filter(({ state }) => state === name);
  if (!all.length) return nothing;
  return html`<section class="sheet"><h2>${named('round.state', name)} <span class="number">${all.length}</span></h2>
    ${standRows(all, '#/bike/')}</section>`;
}
