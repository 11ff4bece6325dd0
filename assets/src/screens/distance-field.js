/** How far the bike has gone: its odometer, or what was ridden since the last entry. */
import { html } from 'lit';
import { choice } from '../parts/choice.js';
import { far, figure, kmPerUnit, readFar } from '../parts/distances.js';
import { nudgeField } from '../parts/nudge-field.js';
import { named, t } from '../words/t.js';

/**
 * @typedef {import('../data/distance-entry.js').Entered} Entered
 * @typedef {import('../data/distance-entry.js').Known} Known
 * @typedef {import('../data/distance-entry.js').Gone} Gone
 * @typedef {import('../parts/distances.js').Units} Units
 */

/** One touch of a button moves by so many km or miles. */
const STEP = 10;

/**
 * @param {{id: string, entered: Entered, known: Known, gone: Gone, units: Units, put: (part: Partial<Entered>) => void}} model
 */
export function distanceField({ id, entered, known, gone, units, put }) {
  const { mode, text } = entered;
  const per = kmPerUnit(units);
  const unit = units === 'imperial' ? 'mi' : 'km';
  const last = mode === 'odometer' ? (known.shown ?? 0) : 0;
  return html`<div class="how-far">
    ${
      known.shown === null
        ? html`<p class="label">${t('gone.since', { unit })}</p>`
        : choice({
            name: `${id}-mode`,
            title: t('gone.title', { unit }),
            even: true,
            value: mode,
            options: /** @type {const} */ (['odometer', 'since']).map((value) => ({
              value,
              text: named('gone.mode', value),
            })),
            choose: (value) => put({ mode: value, text: '' }),
          })
    }
    ${nudgeField({
      id,
      title: t(units === 'imperial' ? 'gone.mi' : 'gone.km', { title: named('gone.mode', mode) }),
      hidden: true,
      text,
      placeholder: figure(last, units),
      mode: 'decimal',
      less: t('gone.less'),
      more: t('gone.more'),
      hint: hint(mode, known, gone, units),
      fault: gone.fault ? named('gone.fault', gone.fault) : undefined,
      step: (steps) => {
        const read = readFar(text, units);
        const from = read === null || Number.isNaN(read) ? last : read;
        put({ text: String(Math.max(0, Math.round(from / per) + steps * STEP)) });
      },
      type: (typed) => put({ text: typed }),
    })}
  </div>`;
}

/** @param {Entered['mode']} mode @param {Known} known @param {Gone} gone @param {Units} units */
function hint(mode, known, gone, units) {
  if (gone.fault) return '';
  if (gone.earlier) return t('gone.earlier', { far: far(gone.chainKM, units) });
  const last = mode === 'odometer' ? t('gone.last', { far: far(known.shown ?? 0, units) }) : '';
  return `${last} ${t('gone.chain', { far: far(gone.chainKM, units) })}`.trim();
}
