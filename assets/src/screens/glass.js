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
  moveLine,
  showLines,
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
  const aim = target(now.task);
  const small = now.task === 'measure' && aim.pitches < LEAST_PITCHES;
  if (refused || small || now.why || !now.shown) return { body: before(now, refused, small), bench: nothing };
  return { body: lines(now, aim), bench: nothing };
}

/** @param {Glass} now @param {boolean} refused @param {boolean} small */
function before(now, refused, small) {
  const { text, pitches } = target(now.task);
  return html`<div class="glass-before sheets">
    <h1>${t('glass.title')}</h1>
    ${refused ? html`<p class="notice" role="alert">${glassWords()}</p>` : nothing}
    ${small ? html`<p class="notice" role="alert">${t('glass.small', { n: LEAST_PITCHES })}</p>` : nothing}
    ${now.why ? html`<p class="notice" role="alert">${named('glass', now.why)}</p>` : nothing}
    <ol class="sheet">${list(`glass.how.${now.task}`, { length: text, n: pitches }).map((one) => html`<li>${one}</li>`)}</ol>
    <div class="main-row">
      <button class="button" type="button" @click=${goBack}>${t('glass.leave')}</button>
      ${refused || small ? nothing : html`<button class="button main" type="button" @click=${now.why ? startAgain : showLines}>${t(now.why ? 'glass.again' : 'glass.start')}</button>`}
    </div>
  </div>`;
}

/** @param {Glass} now @param {ReturnType<typeof target>} aim */
function lines(now, aim) {
  const { ratio } = display();
  const lower = EDGE + now.at;
  return html`<div class="glass">
    <svg class="glass-lines" role="img" aria-label=${t('glass.lines', { length: `${now.at.toFixed(1)} px` })}>
      ${svg`<path d="M0 ${EDGE}H1000M0 ${lower}H1000"/>`}
    </svg>
    <div class="glass-hand">
      <p class="number" role="status">${t('glass.count', { n: now.taken.length + 1, all: aim.all })}</p>
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
