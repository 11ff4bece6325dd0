/**
 * What the engine says about chains, kept with what it was asked, so that it is
 * worked out once only.
 */
import { engine } from '../engine/engine.js';
import { EngineFault } from '../engine/bridge.js';
import { build } from '../sync/build.js';
import { keepForecast, keptForecast } from './garage-read.js';

/**
 * @typedef {import('./garage.js').BikeValue} BikeValue
 * @typedef {{forecast: object, wear: object|null}} Ask
 */

/** @param {Ask} ask @returns {string} what was asked, and of whom */
function question(ask) {
  return build.wasm + JSON.stringify(ask);
}

/**
 * @param {string} chainId
 * @param {Ask} ask
 * @param {{later?: boolean}} [options] as for the engine
 * @returns {Promise<import('./garage-read.js').Kept>} an answer is null where the engine refused the question
 */
export async function answersFor(chainId, ask, options) {
  const asked = question(ask);
  const kept = await keptForecast(chainId);
  if (kept?.asked === asked) return kept;
  const forecast = await answer('forecast', ask.forecast, options);
  const judged = ask.wear && (await answer('wear', ask.wear, options));
  const made = { chain_id: chainId, asked, forecast, judged };
  await keepForecast(made);
  return made;
}

/** @param {string} name @param {object} request @param {{later?: boolean}} [options] */
async function answer(name, request, options) {
  try {
    return await engine.call(name, request, options);
  } catch (error) {
    if (error instanceof EngineFault) return null;
    throw error;
  }
}

/**
 * @param {string|null} chainId
 * @param {Ask|null} ask
 * @returns {Promise<Pick<BikeValue, 'asked'|'forecast'|'judged'>>} what is kept of the answers about a chain,
 *   `asked` empty while they are to be worked out
 */
export async function keptAnswers(chainId, ask) {
  if (!chainId || !ask) return { asked: '', forecast: null, judged: null };
  const kept = await keptForecast(chainId);
  if (!kept || kept.asked !== question(ask)) return { asked: '', forecast: null, judged: null };
  return { asked: build.wasm, forecast: brief(kept.forecast), judged: short(kept.judged) };
}

/** @param {BikeValue} value @returns {boolean} whether the answers about its chain are to be worked out */
export function wanting({ fitted_chain_id, asked }) {
  return fitted_chain_id !== null && asked !== build.wasm;
}

/** @param {any} answer of the forecast @returns {import('./garage.js').Forecast|null} what lists show of it */
function brief(answer) {
  if (!answer) return null;
  const { limit_percent, elongation_now_percent, km_to_limit, probability_past_limit_now } = answer;
  const { check_again_in_km, check_again_in_days } = answer;
  return {
    ...{ limit_percent, elongation_now_percent, km_to_limit, probability_past_limit_now },
    ...{ check_again_in_km, check_again_in_days },
  };
}

/** @param {any} answer of wear @returns {import('./garage.js').Judged|null} */
function short(answer) {
  if (!answer) return null;
  const { verdict, elongation_percent, limit_percent, probability_past_limit, interval95_percent } = answer;
  return { verdict, elongation_percent, limit_percent, probability_past_limit, interval95_percent };
}
