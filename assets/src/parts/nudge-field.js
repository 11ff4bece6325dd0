/** A value with a button for less and one for more; typing works as well. */
import { html, nothing } from 'lit';
import { live } from 'lit/directives/live.js';

/** Longer texts are set smaller. */
const LONG = 12;

/**
 * @param {{id: string, title: string, hidden?: boolean, large?: boolean, text: string, hint?: string,
 *   placeholder?: string, mode?: 'text'|'decimal'|'numeric', less: string, more: string, fault?: string,
 *   step: (steps: number) => void, type: (text: string) => void}} model
 *   `less` and `more` name the buttons; `step` is called with -1 or 1
 */
export function nudgeField(model) {
  const { id, title, hidden = false, large = false, text, hint, placeholder = '', mode = 'text' } = model;
  const about = [hint ? `${id}-hint` : '', model.fault ? `${id}-fault` : ''].join(' ').trim();
  return html`<div class="nudge-field">
    <label class=${hidden ? 'away' : 'label'} for=${id}>${title}</label>
    <div class="nudge ${large ? 'large' : ''}">
      <button class="button" type="button" aria-label=${model.less} @click=${() => model.step(-1)}>−</button>
      <div class="field">
        <input id=${id} class=${text.length > LONG ? 'long' : ''} type="text" inputmode=${mode} autocomplete="off" autocapitalize="off" spellcheck="false"
          maxlength="40" enterkeyhint="done" placeholder=${placeholder} .value=${live(text)}
          aria-invalid=${model.fault ? 'true' : 'false'} aria-describedby=${about || nothing}
          @input=${(/** @type {any} */ event) => model.type(event.target.value)}>
      </div>
      <button class="button" type="button" aria-label=${model.more} @click=${() => model.step(1)}>+</button>
    </div>
    ${hint ? html`<p class="soft small" id="${id}-hint">${hint}</p>` : nothing}
    ${model.fault ? html`<p class="fault" id="${id}-fault">${model.fault}</p>` : nothing}
  </div>`;
}
