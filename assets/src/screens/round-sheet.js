/** A round on paper: shown by the print stylesheet only. */
import { html, nothing } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { standShape } from '../parts/stand-shape.js';
import { day } from '../words/numbers.js';
import { when } from '../words/times.js';
import { named, t } from '../words/t.js';
import { standParts, why } from './round-parts.js';

/**
 * @param {import('../data/rounds.js').Round} round
 * @param {number} drawn so many of its rows; none of it before the first, for the page itself comes before its print
 */
export function sheet(round, drawn) {
  if (!drawn) return nothing;
  const when = day(round.started_at);
  return html`<section class="paper">
    <h2>${round.name.includes(when) ? round.name : t('round.sheet.title', { name: round.name, when })}</h2>
    <p>${t('round.sheet.rule')}</p>
    <table><thead><tr>${['tag', 'bike', 'state', 'note', 'by'].map((one) => html`<th scope="col">${named('round.sheet', one)}</th>`)}</tr></thead>
    <tbody>${round.stands.slice(0, drawn).map((stand) => guard(standParts(stand), () => line(round, stand)))}</tbody></table>
    <p class="small">${t('round.sheet.careful')}</p>
    <p class="sign">${t('round.sheet.sign')}</p>
  </section>`;
}

/** @param {import('../data/rounds.js').Round} round @param {import('../data/rounds.js').Stand} stand */
function line(round, { bike, state, check, held }) {
  return html`<tr class=${state}>
        <td class="code">${bike.fields.tag ?? ''}</td><th scope="row">${bike.fields.name}</th>
        <td><span class="sheet-state">${standShape(state)} ${named('round.state', state)}</span></td>
        <td>${check ? why(check) : ''}${state === 'cleared' && held ? html` ${t('round.was', { reason: why(held) || t('round.reason.nothing') })}` : nothing}</td>
        <td>${check ? html`${check.by ?? ''} ${when(check.at, new Date(round.started_at))}` : nothing}</td>
      </tr>`;
}
