/** A ride from a GPX file, measured by the engine while its progress is shown. */
import { html, nothing } from 'lit';
import { fill } from '../app/forms.js';
import { now, set } from '../app/store.js';
import { EngineFault } from '../engine/bridge.js';
import { engine } from '../engine/engine.js';
import { far } from '../parts/distances.js';
import { faultText, said, saidOne } from '../words/engine.js';
import { moment } from '../words/numbers.js';
import { t } from '../words/t.js';
import { dayField } from './bike-parts.js';

/**
 * @typedef {import('../app/store.js').State} State
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {import('./bike-distance-form.js').Run} Run
 * @typedef {{name: string, share: number}} Reading share of the file that is read, 0 to 1
 */

/** @type {AbortController|null} stops the file being read */
let stop = null;

/** @param {State} state @param {BikeDetail} detail @param {Run} run */
export function fileField(state, detail, run) {
  const { file } = run.form;
  const { rideFile, rideFault } = state;
  return html`${
    rideFile
      ? reading(rideFile)
      : html`<label class="button file">${t(file ? 'run.file.other' : 'run.file')}
      <input type="file" accept=".gpx,application/gpx+xml,text/xml" @change=${(/** @type {any} */ event) => choose(event, run.name)}></label>`
  }
    ${rideFault ? html`<p class="fault" role="alert">${rideFault}</p>` : nothing}
    ${file && !rideFile ? measured(state, detail, run) : nothing}`;
}

/** @param {Reading} file */
function reading({ name, share }) {
  return html`<label class="label" for="run-progress">${t('run.file.reading', { name })}</label>
    <progress id="run-progress" max="1" .value=${share}></progress>
    <button class="button" type="button" @click=${() => stop?.abort()}>${t('run.file.stop')}</button>`;
}

/** @param {State} state @param {BikeDetail} detail @param {Run} run */
function measured(state, detail, run) {
  const file = /** @type {import('./bike-distance-form.js').RideFile} */ (run.form.file);
  const { name, km, started_at, answer } = file;
  const again = Object.values(detail.distances).some(
    ({ fields }) => started_at && fields.source === 'gpx' && Date.parse(fields.at) === Date.parse(started_at),
  );
  return html`<div role="status"><p class="big number">${t('run.file.is', { name, far: far(km, state.settings.units) })}</p>
    ${started_at ? html`<p>${t('run.file.when', { when: moment(started_at) })}</p>` : nothing}
    ${again ? html`<p class="fault">${t('run.file.again')}</p>` : nothing}</div>
    ${answer.skipped.map((/** @type {any} */ one) => html`<p>${t('run.file.skipped', { n: one.count, why: saidOne(one, 'why') })}</p>`)}
    ${said(answer, 'notes').map((text) => html`<p class="soft">${text}</p>`)}
    ${started_at ? nothing : dayField('run-day', run.form.day, (day) => fill(run.name, { day }))}`;
}

/** @param {any} event @param {string} form */
async function choose({ target }, form) {
  const file = /** @type {File|undefined} */ (target.files?.[0]);
  target.value = '';
  if (!file) return;
  const { signal } = (stop = new AbortController());
  set({ rideFile: { name: file.name, share: 0 }, rideFault: '' });
  const progress = (/** @type {number} */ share) => now().rideFile && set({ rideFile: { name: file.name, share } });
  try {
    const answer = await engine.ride(file, { signal, progress });
    const { distance_km: km, started_at, skipped, skipped_codes, notes, note_codes } = answer;
    const kept = { skipped, skipped_codes, notes, note_codes };
    fill(form, { file: { name: file.name.slice(0, 80), km, started_at, answer: kept } });
    set({ rideFile: null });
  } catch (error) {
    set({ rideFile: null, rideFault: signal.aborted ? '' : told(error) });
  }
}

/** @param {unknown} error */
function told(error) {
  return error instanceof EngineFault ? faultText(error.fault) : t('run.file.crash');
}
