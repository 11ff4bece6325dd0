/** What went wrong with the server, the engine or the phone, in words. */
import { KeepError } from '../data/database.js';
import { EngineFault } from '../engine/bridge.js';
import { NoSignal, ServerFault } from '../sync/client.js';
import { faultText } from './engine.js';
import { named, t } from './t.js';

/** @param {unknown} error @returns {string} a sentence for the rider */
export function troubleText(error) {
  if (error instanceof ServerFault || error instanceof EngineFault) return faultText(error.fault);
  if (error instanceof NoSignal) return t('share.nosignal');
  if (error instanceof KeepError) return named('trouble', error.reason);
  console.error(error);
  return t('share.lost');
}
