/** One bike of the garage, from the browser's own list: it takes any number of them. */
import { html, nothing } from 'lit';

/**
 * @param {{id: string, title: string, none: string, garage: import('../data/garage.js').GarageState|null,
 *   value: string, choose: (bike_id: string) => void}} model `none` is chosen by an empty value
 */
export function bikeSelect({ id, title, none, garage, value, choose }) {
  if (!garage?.bikes.length) return nothing;
  return html`<div class="nudge-field"><label class="label" for=${id}>${title}</label>
    <select class="line-input" id=${id} @change=${(/** @type {any} */ event) => choose(event.target.value)}>
      <option value="" .selected=${value === ''}>${none}</option>
      ${garage.bikes.map(({ bike_id, fields }) => html`<option value=${bike_id} .selected=${bike_id === value}>${fields.name}</option>`)}
    </select></div>`;
}
