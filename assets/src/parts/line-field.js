/** A line of text with its name above. */
import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';

/**
 * @param {{id: string, title: string, value: string, hint?: string, most?: number, mode?: 'text'|'decimal',
 *   fault?: string, type: (text: string) => void}} model
 */
export function field({ id, title, value, hint, most = 80, mode = 'text', fault, type }) {
  const about = [hint ? `${id}-hint` : '', fault ? `${id}-fault` : ''].join(' ').trim();
  return html`<div><label class="label" for=${id}>${title}</label>
    <input class="line-input" id=${id} maxlength=${most} inputmode=${mode} autocomplete="off" enterkeyhint="done"
      .value=${live(value)} aria-invalid=${fault ? 'true' : 'false'} aria-describedby=${about || nothing}
      @input=${(/** @type {any} */ event) => type(event.target.value)}>
    ${hint ? html`<p class="soft small" id="${id}-hint">${hint}</p>` : nothing}
    ${fault ? html`<p class="fault" id="${id}-fault">${fault}</p>` : nothing}</div>`;
}
