/** The real program on a free port, with a folder of its own for its data. */
import { execFile, spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createInterface } from 'node:readline';
import { promisify } from 'node:util';
import { closePages } from './ending.js';

/** The program that `make build` leaves. */
export const PROGRAM = new URL('../../../../tautspan', import.meta.url).pathname;

/**
 * @typedef {{origin: string, data: string, run: (...words: string[]) => Promise<unknown>, stop: () => Promise<void>, kill: () => Promise<void>,
 *   start: (program?: string) => Promise<void>}} Server `kill` is kill -9; `stop` ends the program; `start` starts it again, or another build, at the same address; `run` is another command of the program
 */

/**
 * @param {{after: (done: () => Promise<void>) => void}} t the test it is stopped with
 * @param {string} [program]
 * @returns {Promise<Server>}
 */
export async function startServer(t, program = PROGRAM) {
  const data = await mkdtemp(join(tmpdir(), 'tautspan-test-'));
  let { child, address } = await launch(program, '127.0.0.1:0', data);
  const server = {
    origin: `http://${address}`,
    data,
    run: (/** @type {string[]} */ ...words) => promisify(execFile)(program, words),
    async stop() {
      if (child.exitCode !== null || child.signalCode !== null) return;
      child.kill('SIGTERM');
      await once(child, 'exit');
    },
    async kill() {
      child.kill('SIGKILL');
      if (child.exitCode === null && child.signalCode === null) await once(child, 'exit');
    },
    async start(other = program) {
      await server.stop();
      ({ child } = await launch(other, address, data));
    },
  };
  t.after(async () => {
    await closePages(t);
    await server.stop();
    await rm(data, { recursive: true, force: true });
  });
  return server;
}

/**
 * @param {string} program
 * @param {string} address
 * @param {string} data
 */
async function launch(program, address, data) {
  const child = spawn(program, ['serve', '--addr', address, '--data', data], { stdio: ['ignore', 'ignore', 'pipe'] });
  const failed = once(child, 'error').then(([error]) => {
    throw new Error(`${program} did not start (make build makes it): ${error.message}`);
  });
  return Promise.race([failed, listening(child)]);
}

/** @param {import('node:child_process').ChildProcessByStdio<null, null, import('node:stream').Readable>} child */
async function listening(child) {
  const said = [];
  for await (const line of createInterface({ input: child.stderr })) {
    said.push(line);
    const { message, address } = JSON.parse(line);
    if (message !== 'listening') continue;
    child.stderr.resume();
    return { child, address: String(address) };
  }
  throw new Error(`the server ended before it listened: ${said.join('\n')}`);
}
