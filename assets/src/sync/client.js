/** Calls to the server, each with its own patience. */

/** The server answered, but not with what was asked for. */
export class ServerFault extends Error {
  /**
   * @param {number} status
   * @param {import('../data/garage.js').Refusal} fault
   * @param {number} retryAfterMS as the server asks for, else 0
   */
  constructor(status, fault, retryAfterMS) {
    super(fault.message);
    this.status = status;
    this.fault = fault;
    this.retryAfterMS = retryAfterMS;
  }
}

/** Nothing came back from the server: no signal, or no server. */
export class NoSignal extends Error {}

/** After this long without an answer there is no signal, ms. */
const PATIENCE_MS = 30_000;

/**
 * @param {string} method
 * @param {string} path below /api/v1
 * @param {{token?: string, body?: object, signal?: AbortSignal}} [options]
 * @returns {Promise<{answer: any, serverMS: number}>} the JSON, null for status 204, and the server's clock, NaN when not told
 * @throws {ServerFault|NoSignal}
 */
export async function call(method, path, { token, body, signal } = {}) {
  const patience = AbortSignal.timeout(PATIENCE_MS);
  const response = await reach(path, {
    method,
    headers: headers(token),
    body: body && JSON.stringify(body),
    signal: signal ? AbortSignal.any([signal, patience]) : patience,
    cache: 'no-store',
  });
  const answer = response.status === 204 ? null : read(await response.text().catch(lost), response.status);
  if (!response.ok) throw new ServerFault(response.status, answer.error, waitOf(response));
  return { answer, serverMS: Date.parse(response.headers.get('date') ?? '') };
}

/**
 * @param {string} path below /api/v1
 * @param {RequestInit} init
 * @returns {Promise<Response>}
 * @throws {NoSignal}
 */
export function reach(path, init) {
  return fetch(`/api/v1${path}`, { ...init, credentials: 'omit', redirect: 'error' }).catch(lost);
}

/** @param {string} [token] @returns {Record<string, string>} */
export function headers(token) {
  return token ? { Authorization: `Bearer ${token}` } : {};
}

/** @param {unknown} error @returns {never} */
function lost(error) {
  throw new NoSignal('the server was not reached', { cause: error });
}

/** @param {string} text @param {number} status @returns {any} an object; with its error where the status says that there is one */
function read(text, status) {
  try {
    const answer = JSON.parse(text);
    if (answer && typeof answer === 'object' && (status < 300 || answer.error.code)) return answer;
  } catch {
    // said below
  }
  // Something between phone and server answers, a sign-in page of a hotel for instance.
  throw new NoSignal(`an answer of status ${status} is not the server's`);
}

/** @param {Response} response */
function waitOf(response) {
  return Number(response.headers.get('retry-after') ?? 0) * 1000 || 0;
}
