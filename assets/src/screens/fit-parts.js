/** What several of Fit's answers share. */
import { html, nothing } from 'lit';
import { t } from '../words/t.js';

/**
 * @param {import('../words/t.js').Word} title
 * @param {string[]} texts
 * @param {boolean} [strong] set off from the rest
 */
export function sentences(title, texts, strong = false) {
  if (!texts.length) return nothing;
  return html`<section class="sheet ${strong ? 'panel' : ''}"><h2>${t(title)}</h2>
    <ul>${texts.map((text) => html`<li>${text}</li>`)}</ul></section>`;
}

/**
 * A table of names and values.
 * @param {[string, unknown][]} rows
 */
export function facts(rows) {
  return html`<table><tbody>${rows.map(([name, value]) => html`<tr><th scope="row">${name}</th><td class="number">${value}</td></tr>`)}</tbody></table>`;
}

/** @param {string} name of the column, over the value where columns have no room @param {string|number} value */
export function cell(name, value) {
  return html`<td class="number" data-name=${name}>${value}</td>`;
}
