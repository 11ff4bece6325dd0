/**
 * The one way to the engine: calls go to a worker one at a time and come back
 * as promises. Calls made before the engine is started, or ready, wait. A crash is told to
 * whoever watches, and the engine is started again.
 */

/**
 * @typedef {{state: 'loading'|'ready'|'crashed', why: string}} EngineState `why` is for the log, not the rider
 * @typedef {{postMessage: (message: any) => void, terminate: () => void,
 *   onmessage: ((event: any) => void)|null, onerror: ((event: any) => void)|null}} Port a Worker
 * @typedef {{name: string, records?: boolean, json?: string, file?: Blob, later?: boolean, signal?: AbortSignal,
 *   progress?: (share: number) => void}} Question
 * @typedef {Question & {id: number, sent: boolean,
 *   resolve: (answer: any) => void, reject: (error: Error) => void}} Call
 */

/** What the engine answers to a request it refuses; see the contract's error object. */
export class EngineFault extends Error {
  /** @param {{code: string, field: string, message: string}} fault */
  constructor(fault) {
    super(fault.message);
    this.fault = fault;
  }
}

/** The engine ended before it could answer. */
export class EngineCrash extends Error {}

/** How often in a row the engine is started again by itself. */
const RESTARTS = 2;

/** After this long without an answer, or a sign of one under way, the engine counts as hung, ms. */
const PATIENCE_MS = 20_000;

/** See the head of this file. */
export class Bridge {
  /** @type {Call[]} the first one may be with the worker, the rest wait */
  #calls = [];
  /** @type {Port|null} */
  #port = null;
  /** @type {EngineState} */
  #now = { state: 'loading', why: '' };
  /** @type {Set<(now: EngineState) => void>} */
  #watchers = new Set();
  #lastId = 0;
  #crashes = 0;
  /** @type {ReturnType<typeof setTimeout>|undefined} */
  #patience;

  /**
   * @param {() => Port} makePort starts a worker
   * @param {() => Promise<any>} load gives what the worker needs to start the engine
   * @param {number} [patienceMS]
   */
  constructor(makePort, load, patienceMS = PATIENCE_MS) {
    this.makePort = makePort;
    this.load = load;
    this.patienceMS = patienceMS;
  }

  /** @returns {EngineState} */
  get now() {
    return this.#now;
  }

  /**
   * @param {(now: EngineState) => void} watcher told now and after every change
   * @returns {() => void} stops it
   */
  watch(watcher) {
    this.#watchers.add(watcher);
    watcher(this.#now);
    return () => this.#watchers.delete(watcher);
  }

  /**
   * @param {string} name of the calculation
   * @param {object} request
   * @param {{signal?: AbortSignal, later?: boolean}} [options] `later`: after all that somebody waits for
   * @returns {Promise<any>} the response
   * @throws {EngineFault|EngineCrash|DOMException} refused, ended, or aborted by the signal
   */
  call(name, request, { signal, later } = {}) {
    return this.#add({ name, json: JSON.stringify(request), signal, later });
  }

  /**
   * What the phone asks about its own records: change, merge, garage.
   * @param {string} name
   * @param {object} request
   * @param {{later?: boolean}} [options] as for call
   * @returns {Promise<any>} the response
   * @throws {EngineFault|EngineCrash} as call
   */
  records(name, request, { later } = {}) {
    return this.#add({ name, records: true, json: JSON.stringify(request), later });
  }

  /**
   * The records of a garage that was given out as a file.
   * @param {string} text of the file, or of a part of it in the same form
   * @returns {Promise<any>} the response
   * @throws {EngineFault|EngineCrash} as call
   */
  takeIn(text) {
    return this.#add({ name: 'import', records: true, json: `{"file":${text || 'null'}}` });
  }

  /**
   * The calculation ride for a GPX file, which may be larger than a request.
   * @param {Blob} file
   * @param {{signal?: AbortSignal, progress?: (share: number) => void}} [options] told how much is read, 0 to 1
   * @returns {Promise<any>} the response
   * @throws {EngineFault|EngineCrash|DOMException} as call
   */
  ride(file, { signal, progress } = {}) {
    return this.#add({ name: 'ride', file, signal, progress });
  }

  /** @param {Question} question */
  #add(question) {
    return new Promise((resolve, reject) => {
      const { signal, later } = question;
      if (signal?.aborted) return reject(signal.reason);
      if (this.#now.state === 'crashed') return reject(new EngineCrash(this.#now.why));
      /** @type {Call} */
      const call = { ...question, id: ++this.#lastId, sent: false, resolve, reject };
      signal?.addEventListener('abort', () => this.#abort(call), { once: true });
      const behind = later ? -1 : this.#calls.findIndex((other) => other.later && !other.sent);
      this.#calls.splice(behind < 0 ? this.#calls.length : behind, 0, call);
      this.#next();
    });
  }

  /** Starts the engine, and again after it gave up. */
  start() {
    if (this.#port) return;
    this.#crashes = 0;
    this.#begin();
  }

  #begin() {
    this.#tell({ state: 'loading', why: '' });
    const port = this.makePort();
    this.#port = port;
    port.onmessage = ({ data }) => port === this.#port && this.#receive(data);
    port.onerror = (event) => port === this.#port && this.#crash(event.message ?? 'the worker failed');
    this.load().then(
      (module) => port === this.#port && port.postMessage({ module }),
      (error) => port === this.#port && this.#crash(String(error)),
    );
  }

  /** @param {{ready?: true, crash?: string, id?: number, json?: string, share?: number}} message */
  #receive({ ready, crash, id, json, share }) {
    if (crash !== undefined) return this.#crash(crash);
    if (ready) {
      this.#tell({ state: 'ready', why: '' });
      return this.#next();
    }
    if (id !== this.#calls[0]?.id) return;
    clearTimeout(this.#patience);
    if (share !== undefined) {
      this.#wait(); // it is slow, not hung
      return this.#calls[0].progress?.(share);
    }
    this.#crashes = 0;
    settle(/** @type {Call} */ (this.#calls.shift()), String(json));
    this.#next();
  }

  #next() {
    const call = this.#calls[0];
    if (!call || call.sent || this.#now.state !== 'ready') return;
    call.sent = true;
    this.#wait();
    const { id, name, json, file, records } = call;
    this.#port?.postMessage({ id, name, ...(file ? { file } : { json }), ...(records ? { records } : {}) });
  }

  #wait() {
    this.#patience = setTimeout(() => this.#crash('no answer in time'), this.patienceMS);
  }

  /** @param {Call} call a call that is with the worker stays in line, its answer is dropped */
  #abort(call) {
    if (!call.sent) this.#calls = this.#calls.filter((other) => other !== call);
    call.reject(/** @type {AbortSignal} */ (call.signal).reason);
  }

  /** @param {string} why */
  #crash(why) {
    clearTimeout(this.#patience);
    this.#port?.terminate();
    this.#port = null;
    const error = new EngineCrash(why);
    if (this.#calls[0]?.sent) this.#calls.shift()?.reject(error);
    if (++this.#crashes <= RESTARTS) return this.#begin();
    for (const call of this.#calls.splice(0)) call.reject(error);
    this.#tell({ state: 'crashed', why });
  }

  /** @param {EngineState} now */
  #tell(now) {
    this.#now = now;
    for (const watcher of this.#watchers) watcher(now);
  }
}

/** @param {Call} call @param {string} json the engine's answer */
function settle(call, json) {
  try {
    const answer = JSON.parse(json);
    if (answer.error) call.reject(new EngineFault(answer.error));
    else call.resolve(answer);
  } catch (error) {
    call.reject(new EngineCrash(`unreadable answer: ${error}`));
  }
}
