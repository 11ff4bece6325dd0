/** A step that cannot be taken back is asked about once more, where it was begun. */
import { html } from 'lit';

/**
 * @param {{id: string, asking: boolean, act: string, text: string, yes: string, no: string, busy?: boolean,
 *   ask: (asking: boolean) => void, go: () => void}} model `act` names the button that asks
 */
export function ask({ id, asking, act, text, yes, no, busy = false, ask: turn, go }) {
  if (!asking) return html`<button class="button" type="button" id=${id} @click=${() => turn(true)}>${act}</button>`;
  return html`<div class="notice ask" role="group" aria-labelledby="${id}-ask"><p id="${id}-ask">${text}</p>
    <div class="choices">
      <button class="button" type="button" aria-disabled=${busy ? 'true' : 'false'} @click=${() => busy || go()}>${yes}</button>
      <button class="button quiet" type="button" id="${id}-no" @click=${() => turn(false)}>${no}</button>
    </div></div>`;
}
