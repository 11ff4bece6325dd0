/** A row of chips of which one is chosen: real radio buttons underneath. */
import { html } from 'lit';

/**
 * @template {string|number} T
 * @param {{name: string, title: string, hidden?: boolean, even?: boolean, value: T|null,
 *   options: {value: T, text: unknown}[], choose: (value: T) => void}} model
 *   `hidden` keeps the title for screen readers only
 */
export function choice({ name, title, hidden = false, even = false, value, options, choose }) {
  return html`<fieldset class="pick">
    <legend class=${hidden ? 'away' : 'label'}>${title}</legend>
    <div class="choices ${even ? 'even' : ''}">
      ${options.map(
        (option) => html`<label class="choice">
        <input type="radio" name=${name} value=${option.value} .checked=${option.value === value}
          @change=${() => choose(option.value)}>
        <span class="chip">${option.text}</span>
      </label>`,
      )}
    </div>
  </fieldset>`;
}
