/** Gears: the ladder, the table, what is worth knowing. */
import { html } from 'lit';
import { gearPicture } from '../parts/gear-picture/gear-picture.js';
import { length, speed } from '../parts/fit-numbers.js';
import { said } from '../words/engine.js';
import { fixed } from '../words/numbers.js';
import { named, t } from '../words/t.js';
import { cell, sentences } from './fit-parts.js';

/**
 * @typedef {import('../app/store.js').State['settings']['units']} Units
 * @typedef {{name: string, show: (gear: any, i: number) => string}} Column
 */

/** @param {import('../app/store.js').State} state @param {any} answer */
export function gearsAnswer({ settings: { units } }, answer) {
  const imperial = units === 'imperial';
  const written = (/** @type {number} */ value) =>
    t(imperial ? 'gears.inches' : 'gears.metres', { n: fixed(value, imperial ? 0 : 2) });
  return html`
    ${sentences('long.warnings', said(answer, 'warnings'), true)}
    <div class="sheet"><h2>${t('gears.picture')}</h2>
      ${gearPicture(answer.gears, imperial ? 'gear_inches' : 'development_m', written)}
      <p class="number">${t('gears.wheel', { length: length(answer.wheel_circumference_mm, units) })}</p></div>
    <div class="sheet"><h2>${t('gears.table')}</h2>${table(answer, columns(answer, units))}</div>
    ${sentences('gears.notes', said(answer, 'notes'))}
    ${sentences('cautions.title', said(answer, 'cautions'))}`;
}

/**
 * Metric units show metres and km/h, imperial ones inches and mph, mixed ones
 * metres, inches and km/h; what was not asked for has no column.
 * @param {any} answer
 * @param {Units} units
 * @returns {Column[]}
 */
function columns({ gears, steps_percent }, units) {
  const [first] = gears;
  /** @type {[boolean, string, Column['show']][]} */
  const all = [
    [true, 'ratio', (gear) => fixed(gear.ratio, 2)],
    [units !== 'imperial', 'development', (gear) => fixed(gear.development_m, 2)],
    [units !== 'metric', 'inches', (gear) => fixed(gear.gear_inches, 1)],
    [first.speed_kmh !== null, units === 'imperial' ? 'mph' : 'kmh', (gear) => speed(gear.speed_kmh, units)],
    [true, 'step', (_, i) => (i ? t('gears.step', { percent: fixed(steps_percent[i - 1], 0) }) : t('gears.none'))],
    [first.gain_ratio !== null, 'gain', (gear) => fixed(gear.gain_ratio, 2)],
    [first.chain_angle_deg !== null, 'angle', (gear) => t('gears.angle', { deg: fixed(gear.chain_angle_deg, 1) })],
    [
      first.chain_reaches !== null,
      'reaches',
      (gear) => t(gear.chain_reaches ? 'gears.reaches.yes' : 'gears.reaches.no'),
    ],
    [
      gears.some((/** @type {any} */ gear) => gear.duplicate_of),
      'same',
      (gear) => (gear.duplicate_of ? t('gears.pair', gear.duplicate_of) : ''),
    ],
  ];
  return all.filter(([on]) => on).map(([, name, show]) => ({ name, show }));
}

/** @param {any} answer @param {Column[]} shown */
function table({ gears }, shown) {
  return html`<div class="wide"><table>
    <thead><tr><th scope="col">${t('gears.column.pair')}</th>
      ${shown.map(({ name }) => html`<th scope="col" class="number">${named('gears.column', name)}</th>`)}</tr></thead>
    <tbody>${gears.map(
      (/** @type {any} */ gear, /** @type {number} */ i) => html`<tr>
      <th scope="row" class="number">${t('gears.pair', { ring: gear.ring, sprocket: gear.sprocket })}</th>
      ${shown.map(({ name, show }) => cell(named('gears.column', name), show(gear, i)))}</tr>`,
    )}</tbody>
  </table></div>`;
}
