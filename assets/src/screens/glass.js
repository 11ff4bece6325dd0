/**
 * The glass: two lines on black, one of them movable. The chain or the rule
 * lies on the left, where nothing reacts to metal; the buttons are on the right.
 */
import { html, nothing, svg } from 'lit';
import { list, named, t } from '../words/t.js';
import {
  EDGE,
  LEAST_PITCHES,
  display,
  glassStands,
  goBack,
  lasts,
  moveLine,
  startAgain,
  take,
  target,
  untake,
} from './glass-actions.js';
import { glassWords } from './glass-kit.js';

/** @typedef {import('./glass-actions.js').Glass} Glass */

/** How far a touch moves the line, px. */
const PACES = /** @type {const} */ (['far', 'near', 'fine']);
const PX = { far: 24, near: 4, fine: 0 };

/** @param {import('../app/store.js').State} state */
export function glass({ glass: now }) {
  if (!now) return { body: nothing, bench: nothing };
  const stands = glassStands();
  const refused = now.task === 'measure' ? stands !== 'ok' : stands === 'zoomed';
  const small = now.task === 'measure' && target(now.task).pitches < LEAST_PITCHES;
  const why = now.why || (now.shown && !lasts(now) ? 'moved' : '');
  if (refused || small || why || !now.shown) return { body: before(now.task, why, refused, small), bench: nothing };
  return { body: lines(now), bench: nothing };
}

/** @param {Glass['task']} task @param {Glass['why']|'moved'} why @param {boolean} refused @param {boolean} small */
function before(task, why, refused, small) {
  const { text, pitches } = target(task);
  return html`<div class="glass-before sheets">
    <h1>${t('glass.title')}</h1>
    ${refused ? html`<p class="notice" role="alert">${glassWords()}</p>` : nothing}
    ${small ? html`<p class="notice" role="alert">${t('glass.small', { n: LEAST_PITCHES })}</p>` : nothing}
    ${why ? html`<p class="notice" role="alert">${named('glass', why)}</p>` : nothing}
    <ol class="sheet">${list(`glass.how.${task}`, { length: text, n: pitches }).map((one) => html`<li>${one}</li>`)}</ol>
    <div class="main-row">
      <button class="button" type="button" @click=${goBack}>${t('glass.leave')}</button>
      ${refused || small ? nothing : html`<button class="button main" type="button" @click=${startAgain}>${t(why ? 'glass.again' : 'glass.start')}</button>`}
    </div>
  </div>`;
}

/** @param {Glass} now */
function lines(now) {
  const { ratio } = display();
  const lower = EDGE + now.at;
  return html`<div class="glass">
    <svg class="glass-lines" role="img" aria-label=${t('glass.lines', { length: `${now.at.toFixed(1)} px` })}>
      ${svg`<path d="M0 ${EDGE}H1000M0 ${lower}H1000"/>`}
    </svg>
    <div class="glass-hand">
      <p class="number" role="status">${t('glass.count', { n: now.taken.length + 1, all: now.aim.all })}</p>
      <button class="button" type="button" @click=${goBack}>${t('glass.leave')}</button>
      ${now.taken.length ? html`<button class="button" type="button" @click=${untake}>${t('glass.undo')}</button>` : nothing}
      <div class="glass-paces">${PACES.map((pace) => {
        const px = PX[pace] || 1 / ratio;
        return html`<button class="button" type="button" aria-label=${t('glass.up', { pace: named('glass', pace) })}
            @click=${() => moveLine(-px)}>↑<span class="small">${named('glass', pace)}</span></button>
          <button class="button" type="button" aria-label=${t('glass.down', { pace: named('glass', pace) })}
            @click=${() => moveLine(px)}>↓<span class="small">${named('glass', pace)}</span></button>`;
      })}</div>
      <button class="button main" type="button" @click=${take}>${t('glass.take')}</button>
    </div>
  </div>`;
}
