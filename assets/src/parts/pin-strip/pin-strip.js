/**
 * <taut-pin-strip>: the far end of the measured span under a rule, as input and
 * answer in one. It is a slider: arrow keys and dragging move the pin mark by
 * mark, and it says so with a `pin-move` event whose detail is the count of
 * marks. For a gauge it is a picture only.
 */
import { html, render } from 'lit';
import { stepMM } from '../../data/lengths.js';
import { t } from '../../words/t.js';
import { drawing } from './drawing.js';
import { WIDTH, view } from './geometry.js';

/** @typedef {import('./drawing.js').Model} Model */

const DRAG_START_PX = 6;
const KEYS = { ArrowLeft: -1, ArrowDown: -1, ArrowRight: 1, ArrowUp: 1, PageDown: -4, PageUp: 4 };

export class PinStrip extends HTMLElement {
  /** @type {Model|undefined} */
  #model;
  /** @type {{x: number, sent: number, moving: boolean}|null} */
  drag = null;

  get model() {
    return this.#model;
  }

  set model(model) {
    this.#model = model;
    if (model) render(this.picture(model), this, { host: this });
  }

  /** @param {Model} model */
  picture(model) {
    const seen = view(model);
    if (model.still) {
      return html`<div class="strip still" role="img" aria-label=${model.text}>${drawing(model, seen)}</div>`;
    }
    return html`<div class="strip" role="slider" tabindex="0" aria-label=${t('strip.label')}
        aria-orientation="horizontal" aria-valuemin=${model.nominal - model.length * 0.005}
        aria-valuemax=${model.nominal + model.length * 0.03} aria-valuenow=${model.mm ?? model.nominal}
        aria-valuetext=${model.text} @keydown=${this.onKey} @pointerdown=${this.onDown}
        @pointermove=${this.onMove} @pointerup=${this.onUp} @pointercancel=${this.onUp}>
      ${drawing(model, seen)}
      <p class="strip-scale">${seen.scale >= 1 ? t('strip.scale', { scale: seen.scale }) : t('strip.shrunk')}</p>
    </div>`;
  }

  /** @param {KeyboardEvent} event */
  onKey(event) {
    const steps = KEYS[/** @type {keyof typeof KEYS} */ (event.key)];
    if (!steps) return;
    event.preventDefault();
    this.move(steps);
  }

  /** @param {PointerEvent} event */
  onDown(event) {
    if (event.button === 0) this.drag = { x: event.clientX, sent: 0, moving: false };
  }

  /** @param {PointerEvent} event */
  onMove(event) {
    if (!this.drag || !this.model) return;
    const dx = event.clientX - this.drag.x;
    const box = /** @type {HTMLElement} */ (event.currentTarget);
    if (!this.drag.moving && Math.abs(dx) > DRAG_START_PX) {
      this.drag.moving = true;
      box.setPointerCapture(event.pointerId);
    }
    if (!this.drag.moving) return;
    const pace = (box.clientWidth / WIDTH) * view(this.model).scale * stepMM(this.model.marks);
    const steps = Math.round(dx / Math.max(pace, 4)) - this.drag.sent;
    this.drag.sent += steps;
    if (steps) this.move(steps);
  }

  onUp() {
    this.drag = null;
  }

  /** @param {number} steps */
  move(steps) {
    this.dispatchEvent(new CustomEvent('pin-move', { detail: steps, bubbles: true }));
  }
}

customElements.define('taut-pin-strip', PinStrip);
