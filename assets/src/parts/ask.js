/** A step that cannot be taken back is asked about once more, where it was begun. */
import { html, nothing } from 'lit';

/**
 * @param {{id: string, asking: boolean, act: string, text: string, more?: unknown, yes: string|typeof nothing, no: string,
 *   busy?: boolean, ask: (asking: boolean) => void, go: () => void}} model `act` names the button that asks; `more`: what
 *   is chosen first; without `yes` there is nothing to be done yet
 */
export function ask({ id, asking, act, text, more = nothing, yes, no, busy = false, ask: turn, go }) {
  const say = (/** @type {boolean} */ on) => {
    turn(on);
    look(on ? `${id}-no` : id);
  };
  if (!asking) return html`<button class="button" type="button" id=${id} @click=${() => say(true)}>${act}</button>`;
  return html`<div class="notice ask" role="group" aria-labelledby="${id}-ask">${more}<p id="${id}-ask" role=${more === nothing ? nothing : 'status'}>${text}</p>
    <div class="choices">
      ${
        yes === nothing
          ? nothing
          : html`<button class="button" type="button" aria-disabled=${busy ? 'true' : 'false'} @click=${() => busy || go()}>${yes}</button>`
      }
      <button class="button quiet" type="button" id="${id}-no" @click=${() => say(false)}>${no}</button>
    </div></div>`;
}

/** Focus follows the question, and the question comes out from under the dock. @param {string} id */
function look(id) {
  requestAnimationFrame(() => document.getElementById(id)?.focus());
}
