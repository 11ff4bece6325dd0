/** The frame round every screen: name plate, notices, the screen, its bench, the places. */
import { html, nothing, render } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { icon } from '../parts/icons.js';
import { demoMark, demoNote } from '../screens/demo.js';
import { agree } from '../sync/updates.js';
import { language } from '../words/language.js';
import { named, t } from '../words/t.js';
import { PLACES, screen, tryAgain } from './router.js';
import { now, set, watch } from './store.js';

/** @typedef {import('./store.js').State} State */

/** @param {HTMLElement} root drawn into once per frame at most, after any change */
export function startFrame(root) {
  let asked = 0;
  const draw = () => {
    asked = 0;
    try {
      render(frame(now()), root);
      watchDock();
    } catch (error) {
      console.error(error);
      render(stumbled(), root);
    }
  };
  root.replaceChildren();
  watch(() => {
    asked ||= requestAnimationFrame(draw);
  });
  addEventListener('resize', settleDock);
  draw();
}

/** How much of the window the dock may cover. */
const DOCK_SHARE = 0.55;

/** How high the dock is, seen after layout is done, so that no drawing has to force one. */
const dockHeight = new ResizeObserver(settleDock);

/** @type {Element|undefined} */
let dock;

/** Not every place has a dock, and a new one must be watched anew. */
function watchDock() {
  if (dock?.isConnected) return;
  const [now] = document.getElementsByClassName('dock');
  if (now === dock) return;
  dockHeight.disconnect();
  dock = now;
  if (dock) dockHeight.observe(dock);
}

/**
 * A dock that would cover most of the window lies at the end of the page. The
 * window is what a keyboard on the screen leaves of it.
 */
function settleDock() {
  const frame = dock?.parentElement;
  if (!dock || !frame) return;
  const before = frame.classList.contains('low');
  const low = frame.classList.toggle('low', dock.clientHeight > innerHeight * DOCK_SHARE);
  frame.style.setProperty('--dock', low ? '0px' : `${dock.clientHeight}px`);
  // What is being typed into moves with the dock, or stays clear of it.
  const typed = document.activeElement;
  if (!typed?.matches('input, textarea')) return;
  if (!dock.contains(typed)) typed.scrollIntoView({ block: 'nearest' });
  else if (low && !before) typed.scrollIntoView({ block: 'center' });
}

/** @param {State} state */
function frame(state) {
  const place = PLACES[state.place];
  const { body, bench } = screen(state);
  entitle(`${t(place.title)} · ${t('app.name')}`);
  // Whoever looks from outside sees by it which place is drawn: the address changes some frames earlier.
  const at = [state.place, state.argument].filter(Boolean).join('/');
  if (place.bare)
    return html`<main class="place bare" id="place" data-place=${at} tabindex="-1">${body}</main>${demoNote(state)}`;
  return html`<div class="frame">
    <a class="skip" href="#place" @click=${skip}>${t('app.skip')}</a>
    <header class="plate">${icon('mark')}<span class="name">${t('app.name')}</span>
      <span class="small" role="status">${named('offline', offline(state))}</span></header>
    ${notices(state)} ${demoMark(state)}
    <main class="place" id="place" data-place=${at} tabindex="-1">${body}</main>
    <footer class="dock">
      ${bench === nothing ? nothing : html`<div class="bench">${bench}</div>`}
      ${guard([state.place, language()], () => places(place.under ?? state.place))}
    </footer>
  </div>`;
}

/** @param {string} here the place that is marked */
function places(here) {
  return html`<nav aria-label=${t('app.places')}><ul class="places">${Object.entries(PLACES).map(([name, one]) =>
    one.icon
      ? html`<li><a href="#/${name}" aria-current=${name === here ? 'page' : nothing}>${icon(one.icon)}${t(one.title)}</a></li>`
      : nothing,
  )}</ul></nav>`;
}

let entitled = '';

/** A title set anew, even to the same, is told to the whole browser. @param {string} title */
function entitle(title) {
  if (title !== entitled) document.title = title;
  entitled = title;
}

/** @param {State} state */
function offline(state) {
  if (state.fetching === 'busy') return 'fetching';
  return state.offline === 'ready' && !state.online ? 'off' : state.offline;
}

/** @param {Event} event */
function skip(event) {
  event.preventDefault();
  document.getElementById('place')?.focus();
}

/** @param {State} state */
function notices({ trouble, update, fetching }) {
  return html`<div class="alerts" role="alert">${trouble ? html`<p class="notice">${named('trouble', trouble)}</p>` : nothing}${
    fetching === 'failed'
      ? html`<div class="notice"><p>${t('app.part.failed')}</p>
      <div class="choices"><button class="button" type="button" @click=${tryAgain}>${t('app.part.again')}</button></div></div>`
      : nothing
  }</div>
    <div class="alerts" role="status">${
      update === 'waiting'
        ? html`<div class="notice">
      <p>${t('update.text')}</p>
      <div class="choices">
        <button class="button" type="button" @click=${agree}>${t('update.now')}</button>
        <button class="button quiet" type="button" @click=${() => set({ update: 'later' })}>${t('update.later')}</button>
      </div></div>`
        : nothing
    }</div>`;
}

/** When drawing fails: say so, and offer a way on that loses as little as possible. */
function stumbled() {
  const empty = () => {
    localStorage.removeItem('tautspan.draft');
    location.reload();
  };
  return html`<main class="static" role="alert"><h1>${t('app.crash.title')}</h1><p>${t('app.crash.text')}</p>
    <p><button class="button" type="button" @click=${() => location.reload()}>${t('app.crash.reload')}</button></p>
    <p><button class="button" type="button" @click=${empty}>${t('app.crash.empty')}</button></p></main>`;
}
