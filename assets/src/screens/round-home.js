/** Round: rounds under way, one to start, what is overdue, and those before. */
import { html, nothing } from 'lit';
import { mayLead } from '../data/roles.js';
import { overdue, roundsOf } from '../data/round-view.js';
import { counts, offers } from '../data/rounds.js';
import { choice } from '../parts/choice.js';
import { roundBar } from '../parts/round-bar.js';
import { standShape } from '../parts/stand-shape.js';
import { day } from '../words/numbers.js';
import { weekday, when } from '../words/times.js';
import { named, t } from '../words/t.js';
import { demoOffer } from './demo-offer.js';
import { putPerson, putStart, startRound } from './round-actions.js';
import { flash, needsReading, why } from './round-parts.js';
import { fold, rows } from './round-rows.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/rounds.js').Round} Round
 */

/** @param {State} state @param {import('../data/garage.js').GarageState} garage */
export function home(state, garage) {
  const rounds = roundsOf(garage);
  const running = rounds.filter((one) => !one.finished_at);
  const leads = mayLead(garage.role);
  return {
    body: html`<div class="sheets round">
      <h1>${t('round.title')}</h1>
      ${flash(state)}
      ${garage.bikes.length ? nothing : html`<p>${t('round.none')}</p>${demoOffer(state)}`}
      ${garage.role === 'viewer' ? html`<p>${t('round.viewer')}</p>` : nothing}
      ${running.length ? html`<section class="sheet"><h2>${t('round.running')}</h2>${running.map(card)}</section>` : nothing}
      ${leads && garage.bikes.length ? start(state, garage, running.length > 0) : nothing}
      ${garage.role === 'checker' && !running.length ? html`<p>${t('round.checker')}</p>` : nothing}
      ${garage.bikes.length ? due(garage) : nothing}
      ${past(rounds.filter((one) => one.finished_at))}
      ${garage.bikes.length ? html`<a class="button" href="#/tags">${t('round.tags')}</a>` : nothing}
    </div>`,
    bench: bench(state, garage, running),
  };
}

/** @param {State} state @param {import('../data/garage.js').GarageState} garage @param {Round[]} running */
function bench(state, garage, running) {
  if (!garage.bikes.length) return html`<a class="button main" href="#/bikes">${t('round.none.act')}</a>`;
  if (running.length) {
    return html`<a class="button main" href="#/round/${running[0].id}">${t('round.go', { name: running[0].name })}</a>`;
  }
  return mayLead(garage.role) ? starter(state, garage) : nothing;
}

/** @param {Round} round */
function card(round) {
  return html`<a class="row" href="#/round/${round.id}"><span><strong>${round.name}</strong>
    <span class="small soft">${when(round.started_at, new Date())}</span></span></a>${roundBar(round.stands)}`;
}

/** @param {State} state @param {import('../data/garage.js').GarageState} garage @param {boolean} folded */
function start(state, garage, folded) {
  const all = offers(garage.bikes);
  const fields = html`
    <div><label class="label" for="round-name">${t('round.start.name')}</label>
      <input class="line-input" id="round-name" maxlength="80" autocomplete="off" enterkeyhint="done"
        .value=${state.round.start.name ?? weekday(new Date())}
        @input=${(/** @type {any} */ event) => putStart({ name: event.target.value })}></div>
    ${choice({
      name: 'pick',
      title: t('round.start.bikes'),
      value: all[state.round.start.pick] ? state.round.start.pick : 0,
      options: all.map((offer, i) => ({
        value: i,
        text: html`${pickWords(offer.pick)} <span class="number">${offer.count}</span>`,
      })),
      choose: (pick) => putStart({ pick }),
    })}
    ${person(state)}`;
  if (!folded) return html`<section class="sheet"><h2>${t('round.start')}</h2>${fields}</section>`;
  return html`<details class="fold"><summary>${t('round.start')}</summary>
    <div class="sheet">${fields}${starter(state, garage)}</div></details>`;
}

/** @param {State} state @param {import('../data/garage.js').GarageState} garage */
function starter(state, garage) {
  const all = offers(garage.bikes);
  const { pick, count } = all[state.round.start.pick] ?? all[0];
  return html`<button class="button main" type="button"
    @click=${() => startRound(pick)}>${t('round.start.act', { n: count })}</button>`;
}

/** @param {State} state the name that stands beside what is entered here */
export function person(state) {
  return html`<div><label class="label" for="person">${t('round.person')}</label>
    <input class="line-input" id="person" maxlength="80" autocomplete="name" enterkeyhint="done" aria-describedby="person-hint"
      .value=${state.person} @input=${(/** @type {any} */ event) => putPerson(event.target.value)}>
    <p class="soft small" id="person-hint">${t('round.person.hint')}</p></div>`;
}

/** @param {import('../data/rounds.js').Pick} pick @returns {string} which bikes, in words */
export function pickWords({ set, tag_start, care }) {
  const parts = [
    set && t('round.pick.set', { set }),
    tag_start && t('round.pick.tag_start', { tag: tag_start }),
    care && named('round.pick.care', care),
  ].filter(Boolean);
  return parts.join(', ') || t('round.pick.all');
}

/** @param {import('../data/garage.js').GarageState} garage bikes never read are many at first: they are folded */
function due(garage) {
  const all = overdue(garage);
  const never = all.filter((one) => one.why === 'unread');
  const rest = all.filter((one) => one.why !== 'unread');
  return html`<section class="sheet"><h2>${t('round.due')} <span class="number">${all.length}</span></h2>
    ${all.length ? nothing : html`<p>${t('round.due.none')}</p>`}
    ${dueRows(rest)}
    ${
      never.length
        ? fold('unread', html`${t('round.due.never')} <span class="number">${never.length}</span>`, () =>
            dueRows(never),
          )
        : nothing
    }</section>`;
}

/** @param {import('../data/round-view.js').Due[]} all */
function dueRows(all) {
  return rows(all, {
    key: ({ bike }) => bike.bike_id,
    parts: ({ bike: { fields, forecast, judged, last_reading }, why: reason, held }) => {
      return [fields, forecast, judged, last_reading, reason, held?.id];
    },
    line: dueRow,
  });
}

/** @param {import('../data/round-view.js').Due} due */
function dueRow({ bike, why: reason, held }) {
  const words =
    reason === 'held' && held
      ? t('round.due.held', { when: day(held.at), reason: why(held) || t('round.reason.nothing') })
      : needsReading(bike);
  return html`<a class="row" href="#/bike/${bike.bike_id}">${reason === 'held' ? standShape('held') : nothing}
    <span><strong>${bike.fields.name}</strong>${words ? html`<br>${words}` : nothing}</span></a>`;
}

/** @param {Round[]} rounds */
function past(rounds) {
  if (!rounds.length) return nothing;
  return html`<section class="sheet"><h2>${t('round.past')}</h2>
    <ul class="rows">${rounds.map((round) => {
      const n = counts(round.stands);
      return html`<li><a class="row" href="#/round/${round.id}"><span><strong>${round.name}</strong><br>
        ${t('round.past.line', { cleared: n.cleared, held: n.held, left: n.not_seen })}</span></a></li>`;
    })}</ul></section>`;
}
