/** What each reading in the log said, asked of the engine once it is shown. */
import { now, set } from '../app/store.js';
import { stream } from '../data/bike-log.js';
import { wearRequest } from '../data/meaning.js';
import { engine } from '../engine/engine.js';

/** Asks about the readings that are shown and not known yet. */
export async function judgeShown() {
  const { detail, shown } = now().bike;
  if (!detail) return;
  const wanted = stream({ chains: [], readings: Object.values(detail.readings), distances: [], care: [] })
    .slice(0, shown)
    .filter(({ row }) => !now().judged[row.record_id]);
  /** @type {[string, any][]} */
  const answers = [];
  for (const { row } of wanted) {
    const chain = detail.chains[row.fields.chain_id];
    if (!chain) continue;
    const request = wearRequest(detail.bike.fields, chain.fields, row.fields);
    const answer = await engine.call('wear', request, { later: true }).catch(() => null);
    if (answer)
      answers.push([row.record_id, { elongation_percent: answer.elongation_percent, verdict: answer.verdict }]);
  }
  if (answers.length) set({ judged: { ...now().judged, ...Object.fromEntries(answers) } });
}
