/** Whose chain is measured: the bike's drive and its chain's own limit judge the reading. */
import { now, set } from '../app/store.js';
import { swapped } from '../data/aside.js';
import { KeepError } from '../data/database.js';
import { openBike } from '../data/garage.js';
import { change, isOld } from './check-actions.js';

/** Sprockets to assume while their number is not known: those with the strictest limit. */
const STRICTEST = 12;

/** @param {string} bike_id empty for none; anything that is no bike changes nothing */
export async function takeFor(bike_id) {
  const { draft } = now();
  if (!bike_id) {
    if (draft.bike) change({ ...draft, bike: undefined });
    return;
  }
  try {
    const detail = await openBike(bike_id);
    if (!detail) return;
    const { fields } = detail.bike;
    const { limit_percent } = detail.chains[detail.meaning.fitted_chain_id ?? '']?.fields ?? {};
    const sprockets =
      fields.rear_sprockets ?? (fields.drive === 'derailleur' ? STRICTEST : now().draft.drive.sprockets);
    change({
      ...now().draft,
      drive: { kind: fields.drive, sprockets, chosen: true },
      bike: { bike_id, ...(limit_percent === undefined ? {} : { limit_percent }) },
    });
  } catch (error) {
    set({ trouble: error instanceof KeepError ? error.reason : 'lost' });
  }
}

/** Gives Check its own reading back, after one of a round. */
function giveBack() {
  const { draft } = now();
  if (!draft.for) return;
  const next = swapped(draft, '');
  change(next, { flash: isOld(next) ? 'old' : '' });
}

/** @param {string} bike_id from the address; without one the reading stays as it is */
export function openCheck(bike_id) {
  giveBack();
  if (bike_id) takeFor(bike_id);
}
