/** Who cleared and held what: every check of a round, none left out. */
import { html, nothing } from 'lit';
import { byTime } from '../data/rounds.js';
import { standShape } from '../parts/stand-shape.js';
import { when } from '../words/times.js';
import { named, t } from '../words/t.js';
import { why } from './round-parts.js';

/** @param {import('../data/rounds.js').Round} round @param {number} drawn so many of its checks, the latest */
export function log(round, drawn) {
  if (!round.checks.length) return html`<p>${t('round.log.none')}</p>`;
  const names = new Map(round.stands.map(({ bike }) => [bike.bike_id, bike.fields.name]));
  const latest = byTime(round.checks).reverse().slice(0, drawn);
  return html`<ol class="checks" reversed start=${round.checks.length}>${latest.map(
    (check) => html`<li>${standShape(check.state)}<div>
      <p><strong>${names.get(check.bike_id) ?? ''}</strong> ${named('round.state', check.state)}</p>
      <p class="small">${check.by ?? t('round.log.nobody')}, <time datetime=${check.at}>${when(check.at, new Date())}</time></p>
      ${why(check) ? html`<p class="small">${why(check)}</p>` : nothing}
      ${round.vain.has(check.id) ? html`<p class="small fault">${t('round.log.idle')}</p>` : nothing}
    </div></li>`,
  )}</ol>`;
}
