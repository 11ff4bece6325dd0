/** Puts right a reading that the forecast has set aside. */
import { focusLine } from '../app/focus.js';
import { newId } from '../data/ids.js';
import { mendChanges, mendedReading } from '../data/mend-reading.js';
import { saidOne } from '../words/engine.js';
import { t } from '../words/t.js';
import { commit } from './bike-actions.js';

/**
 * A voided reading stays voided: to take that back, what it said is added anew
 * and what stood in for it is voided.
 * @param {import('../data/garage.js').BikeDetail} detail
 * @param {string} reading_id
 * @param {import('../parts/wear-fan/geometry.js').Aside|null} aside with the slip to take out; null to leave the
 *   reading out
 */
export async function mend(detail, reading_id, aside) {
  const row = detail.readings[reading_id];
  const right = aside ? mendedReading(row.fields.reading, aside) : null;
  const as = newId();
  const reason = aside ? saidOne(aside, 'why') : t('ahead.aside.reason');
  /** @type {import('../data/garage.js').Change[]} */
  const undo = [{ table: 'readings', put: row.fields }];
  if (right) undo.push({ table: 'readings', record_id: as, put: { void_reason: t('ahead.undo.reason') } });
  const text = t(right ? 'ahead.mended' : 'ahead.left');
  if (await commit(mendChanges(row, right, reason, as), { text, undo })) focusLine('undo');
}
