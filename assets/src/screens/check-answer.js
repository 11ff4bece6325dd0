/** The verdict on its tag, and below it why, what next, and the cautions. */
import { html, nothing } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { spanDraft } from '../data/draft.js';
import { verdictShape } from '../parts/verdict-shape.js';
import { list, named, t } from '../words/t.js';
import { said, saidOne } from '../words/engine.js';
import { fixed, percent } from '../words/numbers.js';
import { language } from '../words/language.js';
import { engine } from '../engine/engine.js';
import { resume } from './check-actions.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/request.js').Answer} Answer
 */

/** @param {State} state */
export function answerTag(state) {
  const { result } = state;
  const answer = result.status === 'ok' || result.status === 'waiting' ? result.answers[result.counted] : undefined;
  const look = answer?.verdict ?? 'none';
  return html`<section class="tag ${look} ${result.status === 'waiting' && result.late ? 'busy' : ''}" aria-label=${t('answer.title')}>
    ${verdictShape(look)}
    <div role="status">
      <p class="word">${answer ? named('verdict', answer.verdict) : t(standing(state))}</p>
      ${answer ? figures(answer) : under(state)}
    </div>
  </section>`;
}

/** @param {State} state @returns {import('../words/t.js').Word} what stands where no verdict does */
function standing({ result, base, crashed }) {
  if (crashed || result.status === 'crash') return 'answer.crash';
  if (result.status === 'fault') return 'answer.fault';
  return base ? 'answer.none' : 'answer.starting';
}

/** @param {Answer} answer */
function figures(answer) {
  const [lo, hi] = answer.interval95_percent;
  return html`<p class="figure">${t(answer.elongation_percent < 0 ? 'answer.shorter' : 'answer.longer', {
    percent: percent(Math.abs(answer.elongation_percent)),
  })}</p>
    <p class="number small"><span class="whole">${t('answer.range', { lo: percent(lo), hi: percent(hi) })},</span>
      <span class="whole">${t('answer.limit', { percent: answer.limit_percent })}</span></p>`;
}

/** @param {State} state */
function under({ result, base, crashed }) {
  if (crashed || result.status === 'crash') {
    return html`<p>${t('answer.crash.text')}</p>
      <button class="button" type="button" @click=${startAgain}>${t('answer.restart')}</button>`;
  }
  if (result.status === 'none' && base)
    return html`<p class="number small">${t('answer.limit', { percent: base.limit })}</p>`;
  return nothing;
}

function startAgain() {
  engine.start();
  resume();
}

/** Drawn anew only for a new answer: most of a nudge's work would be here. @param {State} state */
export function answerDetails({ result, draft }) {
  const { answers, counted, status } = result;
  const told = [
    answers,
    counted,
    status === 'none',
    draft.instrument,
    draft.drive.chosen,
    spanDraft(draft)?.pitches,
    language(),
  ];
  return guard(told, () => details(result, draft));
}

/**
 * @param {import('../app/store.js').Result} result
 * @param {State['draft']} draft
 */
function details(result, draft) {
  const answer = result.answers[result.counted];
  if (!answer) return result.status === 'none' ? howTo(draft) : nothing;
  return html`<div class="sheets">
    ${draft.drive.chosen ? nothing : html`<p class="fault">${t('answer.assumed')}</p>`}
    ${sentences('next.title', said(answer, 'next_steps'))}
    ${why(answer, result)}
    ${sentences('cautions.title', said(answer, 'cautions'))}
  </div>`;
}

/**
 * @param {Answer} answer
 * @param {import('../app/store.js').Result} result
 */
function why(answer, { answers, counted }) {
  const most = [...answer.budget].sort((a, b) => b.standard_uncertainty_percent - a.standard_uncertainty_percent)[0];
  const total = percent(answer.standard_uncertainty_percent);
  return html`<section class="sheet">
    <h2>${t('why.title')}</h2>
    ${answers.length > 1 ? html`<p>${t('answer.counts', { n: counted + 1, of: answers.length })}</p>` : nothing}
    <ul>${said(answer, 'reasons').map((reason) => html`<li>${reason}</li>`)}</ul>
    ${
      most
        ? html`<details class="fold">
      <summary>${t('why.budget')}</summary>
      <p>${t('why.budget.text', { source: saidOne(most, 'note') || most.source, percent: total })}</p>
      ${budget(answer)}
    </details>`
        : nothing
    }
  </section>`;
}

/**
 * @param {Answer} answer
 */
function budget(answer) {
  return html`<table>
    <caption>${t('why.caption')}</caption>
    <thead><tr><th scope="col">${t('why.source')}</th><th scope="col" class="number">${t('why.percent')}</th></tr></thead>
    <tbody>${answer.budget.map(
      (line) => html`<tr>
      <td>${saidOne(line, 'note') || line.source}</td>
      <td class="number">${fixed(line.standard_uncertainty_percent, 3)}</td>
    </tr>`,
    )}</tbody>
    <tfoot><tr><th scope="row">${t('why.total')}</th>
      <td class="number">${fixed(answer.standard_uncertainty_percent, 3)}</td></tr></tfoot>
  </table>`;
}

/**
 * @param {import('../words/t.js').Word} title
 * @param {string[]} texts
 */
function sentences(title, texts) {
  return html`<section class="sheet"><h2>${t(title)}</h2><ul>${texts.map((text) => html`<li>${text}</li>`)}</ul></section>`;
}

/** @param {import('../data/draft.js').Draft} draft */
function howTo(draft) {
  const n = spanDraft(draft)?.pitches ?? 0;
  return html`<section class="sheet"><h2>${t('how.title')}</h2>
    <ol>${list(`how.${draft.instrument}`, { n }).map((text) => html`<li>${text}</li>`)}</ol></section>`;
}
