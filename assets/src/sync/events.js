/**
 * Hears from the server at once when there is something new. EventSource cannot
 * send the token, so the stream is read from a fetch.
 */
import { headers, reach } from './client.js';
import { eventReader } from './event-stream.js';

/**
 * Follows a garage's events until the stream ends.
 * @param {import('../data/garage-store.js').Garage} garage
 * @param {AbortSignal} signal ends it
 * @param {(cursor: string) => void} heard called once it is open, with '', and with the place of whatever is new
 * @returns {Promise<void>}
 * @throws {import('./client.js').NoSignal} when the stream breaks
 */
export async function follow(garage, signal, heard) {
  const all = headers(garage.token);
  if (garage.cursor) all['Last-Event-ID'] = garage.cursor;
  const path = `/garages/${garage.id}/events`;
  const response = await reach(path, { headers: all, signal, cache: 'no-store' });
  if (!response.ok || !response.body) return void response.body?.cancel();
  heard('');
  const read = eventReader();
  const reader = response.body.pipeThrough(new TextDecoderStream()).getReader();
  for (;;) {
    const { done, value } = await reader.read().catch(() => ({ done: true, value: '' }));
    if (done) return;
    for (const { event, id } of read(value ?? '')) if (event === 'cursor') heard(id);
  }
}
