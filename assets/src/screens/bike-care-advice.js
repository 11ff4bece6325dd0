/** What is due for a chain: in a line, and why and how behind it. */
import { html, nothing } from 'lit';
import { within } from '../parts/distances.js';
import { said } from '../words/engine.js';
import { sentence } from '../words/numbers.js';
import { named, t } from '../words/t.js';

/** What a rider notices about a chain besides its look, as the calculation and the records name it. */
export const NOTICED = /** @type {const} */ (['ridden_wet', 'sounds_dry']);

/** @param {any} care the engine's answer @param {import('../parts/distances.js').Units} units @returns {string} what is due, or comes first */
export function upkeepWords({ do_now, next_task, next_in_km }, units) {
  const [first, then] = do_now;
  if (then) {
    return t('bike.care.both', { first: named('task', first), then: named('task', then).toLocaleLowerCase() });
  }
  const task = named('task', next_task);
  return next_in_km > 0 ? t('bike.care.next', { task, far: within(next_in_km, units) }) : t('bike.care.now', { task });
}

/** @param {any} answer null while the engine thinks @param {import('../parts/distances.js').Units} units */
export function careAdvice(answer, units) {
  if (!answer) return html`<p class="due">&nbsp;</p>`;
  return html`<div><p class="due">${upkeepWords(answer, units)}</p>
    <details class="fold"><summary>${t('look.why')}</summary>
      <div class="sheet">${listed([...because(answer), ...said(answer, 'reasons')])}
        <h2>${t('look.how')}</h2>${listed(said(answer, 'steps'))}
        <h2>${t('look.cautions')}</h2>${listed(said(answer, 'cautions'))}</div></details></div>`;
}

/** @param {any} answer @returns {string[]} why each task that is due is due */
function because({ tasks, do_now }) {
  return tasks
    .filter((/** @type {any} */ one) => do_now.includes(one.task))
    .flatMap((/** @type {any} */ one) =>
      said(one, 'reasons').map((text) => sentence(`${named('task', one.task)}: ${text}`)),
    );
}

/** @param {string[]} texts */
function listed(texts) {
  return texts.length ? html`<ul>${texts.map((text) => html`<li>${text}</li>`)}</ul>` : nothing;
}
