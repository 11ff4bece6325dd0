/** Puts right a reading that the forecast has set aside. */
import { focusNext } from '../app/focus.js';
import { now, set } from '../app/store.js';
import { newId } from '../data/ids.js';
import { mendChanges, mendedReading } from '../data/mend-reading.js';
import { saidOne } from '../words/engine.js';
import { t } from '../words/t.js';
import { put } from './bike-work.js';

/**
 * @typedef {import('../data/garage.js').BikeDetail} BikeDetail
 * @typedef {{bike_id: string, fields: Record<string, any>, as: string}} Mended what a voided reading was, and the
 *   id of the one put in its place, empty for none
 */

/**
 * @param {BikeDetail} detail
 * @param {string} reading_id
 * @param {import('../parts/wear-fan/geometry.js').Aside|null} aside with the slip to take out; null to leave the
 *   reading out
 */
export async function mend(detail, reading_id, aside) {
  const row = detail.readings[reading_id];
  const right = aside ? mendedReading(row.fields.reading, aside) : null;
  const as = right ? newId() : '';
  const reason = aside ? saidOne(aside, 'why') : t('ahead.aside.reason');
  const done = await put(mendChanges(row, right, reason, as));
  if (!done) return;
  set({ mended: { bike_id: detail.bike.record_id, fields: row.fields, as } });
  focusNext('undo-mend');
}

/** A voided reading stays voided; what it said is added anew, and what stood in for it is voided. */
export async function undoMend() {
  const { mended } = now();
  if (!mended) return;
  /** @type {import('../data/garage.js').Change[]} */
  const changes = [{ table: 'readings', put: mended.fields }];
  if (mended.as)
    changes.push({ table: 'readings', record_id: mended.as, put: { void_reason: t('ahead.undo.reason') } });
  if (await put(changes)) set({ mended: null });
}
