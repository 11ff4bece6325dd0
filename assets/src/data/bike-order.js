/** Bikes by urgency, and the search among them. */

/**
 * @typedef {import('./request.js').Verdict} Verdict
 * @typedef {{km_to_limit: {p50: number}, probability_past_limit_now: number, check_again_in_km: number}} Forecast
 * @typedef {{fields: Record<string, any>, fitted_chain_id: string|null, last_reading: object|null,
 *   round?: {state: string}|null, forecast?: Forecast|null, judged?: {verdict: string}|null}} Bike what is needed of a BikeSummary
 * @typedef {'held'|'past'|'plan'|'due'|'again'|'unread'|'fine'|'bare'|'waiting'} Urgency
 */

/**
 * The verdict a bike stands under: that of its last reading, and never kinder
 * than the forecast has become since.
 * @param {Bike} bike
 * @returns {Verdict|'none'} none without a reading of the chain on it
 */
export function standing({ fitted_chain_id, last_reading, forecast, judged }) {
  if (!fitted_chain_id || !last_reading || !judged) return 'none';
  const verdict = /** @type {Verdict} */ (judged.verdict);
  if (verdict !== 'ride' && verdict !== 'plan') return verdict;
  if (!forecast) return verdict;
  if (forecast.probability_past_limit_now >= 0.5) return 'change';
  return forecast.check_again_in_km <= 0 ? 'plan' : verdict;
}

/** From the most urgent. A bike nobody measured comes before one that is known to be well. @type {Urgency[]} */
const ORDER = ['held', 'past', 'again', 'plan', 'due', 'unread', 'waiting', 'fine', 'bare'];

/**
 * @param {Bike} bike
 * @returns {Urgency} held in a round that is not finished; bare: no chain on it; unread: no reading of the chain on it; waiting: not worked out yet;
 *   due: no worse than ride by its last reading, but a check is due
 */
export function urgency(bike) {
  if (bike.round?.state === 'held') return 'held';
  if (!bike.fitted_chain_id) return 'bare';
  if (!bike.last_reading) return 'unread';
  if (!bike.forecast && !bike.judged) return 'waiting';
  const verdict = standing(bike);
  if (verdict === 'change' || verdict === 'change_and_inspect') return 'past';
  if (verdict === 'measure_again') return 'again';
  if (verdict === 'plan') return bike.judged?.verdict === 'plan' ? 'plan' : 'due';
  return 'fine';
}

/**
 * @template {Bike} B
 * @param {B[]} bikes
 * @returns {B[]} the most urgent first; then by what is left until the limit, then by name
 */
export function byUrgency(bikes) {
  return bikes
    .map((bike) => ({ bike, rank: ORDER.indexOf(urgency(bike)), left: left(bike), name: folded(bike.fields.name) }))
    .sort((a, b) => a.rank - b.rank || worse(a.bike, b.bike) || a.left - b.left || compare(a.name, b.name))
    .map(({ bike }) => bike);
}

/** @param {Bike} a @param {Bike} b the worst verdict before the bad one */
function worse(a, b) {
  return Number(b.judged?.verdict === 'change_and_inspect') - Number(a.judged?.verdict === 'change_and_inspect');
}

/** @param {Bike} bike @returns {number} km to the limit, last when not known */
function left({ last_reading, forecast }) {
  return last_reading && forecast ? forecast.km_to_limit.p50 : Number.MAX_VALUE;
}

/** @param {string} a @param {string} b */
function compare(a, b) {
  return a < b ? -1 : Number(a > b);
}

/** @param {unknown} text @returns {string} in small letters, without accents */
export function folded(text) {
  return String(text ?? '')
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase();
}

/**
 * @template {Bike} B
 * @param {B[]} bikes
 * @param {string} query words, all of which a bike's name, tag, group or note must hold
 * @returns {B[]} in the same order
 */
export function search(bikes, query) {
  const words = folded(query).split(/\s+/).filter(Boolean);
  if (!words.length) return bikes;
  return bikes.filter(({ fields: { name, tag, set, note } }) => {
    const text = folded([name, tag, set, note].join('\n'));
    return words.every((word) => text.includes(word));
  });
}
