/** A go/no-go gauge: which ends dropped in and which did not. */
import { html, nothing } from 'lit';
import { now, set } from '../app/store.js';
import { choice } from '../parts/choice.js';
import { faultText } from '../words/engine.js';
import { named, t } from '../words/t.js';
import { change } from './check-actions.js';
import { mine } from './check-mine.js';

/** @typedef {import('../data/draft.js').GaugeDraft} GaugeDraft */

/** @param {Partial<GaugeDraft>} part */
function put(part) {
  const { draft } = now();
  change({ ...draft, gauge: { ...draft.gauge, ...part } }, { stepFault: false });
}

/** @param {import('../app/store.js').State} state */
export function gaugeEnds(state) {
  const { draft, result, stepFault } = state;
  const { steps, bears_on } = draft.gauge;
  return html`<section class="ends">
    ${mine(state)}
    <h2>${t('gauge.title')}</h2>
    ${steps.map((step, i) => end(step, i))}
    ${result.fault ? html`<p class="fault">${faultText(result.fault)}</p>` : nothing}
    ${choice({
      name: 'bears',
      title: t('gauge.bears'),
      value: bears_on,
      options: /** @type {const} */ (['same_side', 'opposed_rollers']).map((value) => ({
        value,
        text: named('gauge', value),
      })),
      choose: (value) => put({ bears_on: value }),
    })}
    <p class="soft small">${named('gauge', `${bears_on}.text`)}</p>
    ${another(stepFault)}
  </section>`;
}

/**
 * @param {import('../data/draft.js').Step} step
 * @param {number} index
 */
function end({ percent, drops }, index) {
  const say = (/** @type {boolean} */ value) =>
    put({
      steps: now().draft.gauge.steps.map((one, i) =>
        i === index ? { percent, drops: one.drops === value ? null : value } : one,
      ),
    });
  const title = t('gauge.step', { percent });
  return html`<div role="group" aria-label=${title}>
    <p class="label">${title}</p>
    <div class="choices even">
      ${[true, false].map(
        (value) => html`<button class="chip" type="button" aria-pressed=${drops === value ? 'true' : 'false'}
        @click=${() => say(value)}>${t(value ? 'gauge.drops' : 'gauge.stays')}</button>`,
      )}
    </div>
  </div>`;
}

/** @param {boolean} fault */
function another(fault) {
  return html`<form class="end-of-row" @submit=${add}>
    <div>
      <label class="label" for="other-end">${t('gauge.other')}</label>
      <input class="line-input" id="other-end" name="percent" inputmode="decimal" autocomplete="off" maxlength="6"
        aria-invalid=${fault ? 'true' : 'false'} aria-describedby=${fault ? 'other-end-fault' : nothing}>
      ${fault ? html`<p class="fault" id="other-end-fault">${t('gauge.bad')}</p>` : nothing}
    </div>
    <button class="button">${t('gauge.add')}</button>
  </form>`;
}

/** @param {SubmitEvent} event */
function add(event) {
  event.preventDefault();
  const form = /** @type {HTMLFormElement} */ (event.target);
  const text = String(new FormData(form).get('percent')).trim().replace(',', '.');
  const percent = /^\d*\.?\d+$/.test(text) ? Number(text) : NaN;
  if (!(percent >= 0.05 && percent <= 3)) return set({ stepFault: true });
  const { steps } = now().draft.gauge;
  form.reset();
  if (steps.some((step) => step.percent === percent)) return set({ stepFault: false });
  put({ steps: [...steps, { percent, drops: null }].sort((a, b) => a.percent - b.percent) });
}
