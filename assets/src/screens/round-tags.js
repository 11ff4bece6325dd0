/** Tags to print: a code for cameras, a short one for thumbs, the bike's name. */
import { html, nothing } from 'lit';
import { now } from '../app/store.js';
import { mayLead } from '../data/roles.js';
import { bikeAddress, offers, picked } from '../data/rounds.js';
import { choice } from '../parts/choice.js';
import { qrCode } from '../parts/qr-code/qr-code.js';
import { t } from '../words/t.js';
import { giveCodes, print, setRound } from './round-actions.js';
import { pickWords } from './round-home.js';
import { flash } from './round-parts.js';
import { drawOn } from './round-rows.js';

/** Names of this machine itself, which no phone can reach (RFC 6761, RFC 5735, RFC 4291). */
export const LOCAL = /^(localhost|.*\.localhost|127(\.\d+){3}|0\.0\.0\.0|\[::1?\])$/;

/** So many tags are drawn in one go, for a code takes a slow phone some milliseconds. */
const AT_ONCE = 12;

/** Comes to the tags. */
export function openTags() {
  setRound({ tagsDrawn: 0, fault: '' });
  drawTags();
}

/** Draws the tags by and by, so that the page answers meanwhile; those of bikes that come later too. */
export function drawTags() {
  const { place, garage } = now();
  if (place === 'tags' && garage) drawOn('tagsDrawn', () => now().garage?.bikes.length ?? 0, AT_ONCE);
}

/** @param {import('../app/store.js').State} state */
export function tags(state) {
  const { garage } = state;
  if (!garage) return { body: html`<p role="status">${t('round.loading')}</p>`, bench: nothing };
  const all = offers(garage.bikes);
  const { pick } = all[state.round.tagPick] ?? all[0];
  const bikes = picked(garage.bikes, pick);
  const drawn = Math.min(state.round.tagsDrawn, bikes.length);
  const bare = bikes.filter(({ fields }) => !fields.tag);
  const giving = bare.length > 0 && mayLead(garage.role);
  const { origin, hostname } = location;
  return {
    body: html`<div class="sheets round">
      <div class="round-head screen-only"><a class="button quiet" href="#/round">${t('round.back')}</a></div>
      <div class="screen-only sheets"><h1>${t('tags.title')}</h1>
        <p>${t('tags.text')}</p>
        <p class=${LOCAL.test(hostname) ? 'fault' : 'soft'}>${t(LOCAL.test(hostname) ? 'tags.local' : 'tags.opens', { origin })}</p>
        ${all.length > 1 ? picker(state, all) : nothing}
        ${flash(state)}</div>
      <ul class="tag-sheet">${bikes.slice(0, drawn).map((bike) => tag(bike, origin))}</ul>
    </div>`,
    bench: html`<div class="main-row"><button class="button ${giving ? '' : 'main'}" type="button" aria-disabled=${drawn < bikes.length ? 'true' : 'false'}
      @click=${() => drawn === bikes.length && print()}>${
        drawn < bikes.length ? t('tags.drawing', { n: drawn, of: bikes.length }) : t('tags.print')
      }</button>${giving ? give(bare) : nothing}</div>`,
  };
}

/** @param {import('../app/store.js').State} state @param {import('../data/rounds.js').Offer[]} all */
function picker(state, all) {
  return choice({
    name: 'tag-pick',
    title: t('round.start.bikes'),
    value: all[state.round.tagPick] ? state.round.tagPick : 0,
    options: all.map((offer, i) => ({
      value: i,
      text: html`${pickWords(offer.pick)} <span class="number">${offer.count}</span>`,
    })),
    choose: (tagPick) => setRound({ tagPick }),
  });
}

/** @param {import('../data/rounds.js').Bike[]} bare */
function give(bare) {
  return html`<button class="button main" type="button" @click=${() => giveCodes(bare)}>${t('tags.give', {
    n: bare.length,
  })}</button>`;
}

/** @param {import('../data/rounds.js').Bike} bike @param {string} origin */
function tag({ bike_id, fields }, origin) {
  return html`<li class="paper-tag">${qrCode(bikeAddress(origin, bike_id), t('tags.code', { name: fields.name }))}
    <div><p class="tag-name">${fields.name}</p><p class="tag-code">${fields.tag ?? t('tags.none')}</p>
      ${fields.set ? html`<p class="small">${fields.set}</p>` : nothing}
      <p class="small">${t('tags.scan', { app: t('app.name') })}</p></div></li>`;
}
