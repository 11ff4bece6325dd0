/** What a chain has run that nobody kept count of: typed, or one of a few round figures. */
import { html } from 'lit';
import { t } from '../words/t.js';
import { figure } from './distances.js';

/** In km or miles, as the setting is. */
const GUESSES = [0, 500, 1000, 2000, 3000, 5000];

/**
 * @param {{id: string, text: string, units: import('./distances.js').Units, put: (text: string) => void}} model
 */
export function ranField({ id, text, units, put }) {
  return html`<div class="how-far"><div class="nudge-field"><label class="label" for=${id}>${t(units === 'imperial' ? 'keep.ran.mi' : 'keep.ran')}</label>
    <input class="line-input" id=${id} inputmode="decimal" autocomplete="off" maxlength="12" .value=${text}
      @input=${(/** @type {any} */ event) => put(event.target.value)}></div>
    <div class="choices">${GUESSES.map(
      (guess) => html`<button class="chip" type="button" aria-pressed=${text === String(guess) ? 'true' : 'false'}
        @click=${() => put(String(guess))}>${guess === 0 ? t('keep.ran.new') : figure(guess, 'metric')}</button>`,
    )}</div></div>`;
}
