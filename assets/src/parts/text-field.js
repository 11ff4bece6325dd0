/** A line, or a few, that is typed, with its name, a hint and what is wrong with it. */
import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';

/**
 * @param {{id: string, title: string, text: string, hint?: string, fault?: string, mode?: 'text'|'decimal'|'numeric',
 *   most?: number, lines?: number, type: (text: string) => void}} model more than one of `lines` for a longer text
 */
export function textField({ id, title, text, hint, fault, mode = 'text', most = 80, lines = 1, type }) {
  const about = [hint ? `${id}-hint` : '', fault ? `${id}-fault` : ''].join(' ').trim();
  const write = (/** @type {any} */ event) => type(event.target.value);
  return html`<div class="nudge-field">
    <label class="label" for=${id}>${title}</label>
    ${
      lines > 1
        ? html`<textarea class="line-input" id=${id} rows=${lines} maxlength=${most} .value=${live(text)} @input=${write}></textarea>`
        : html`<input class="line-input" id=${id} type="text" inputmode=${mode} autocomplete="off" spellcheck="false"
      autocapitalize=${mode === 'text' ? 'sentences' : 'off'} maxlength=${most} enterkeyhint="done" .value=${live(text)}
      aria-invalid=${fault ? 'true' : 'false'} aria-describedby=${about || nothing} @input=${write}>`
    }
    ${hint ? html`<p class="soft small" id="${id}-hint">${hint}</p>` : nothing}
    ${fault ? html`<p class="fault" id="${id}-fault">${fault}</p>` : nothing}
  </div>`;
}
