/** Runs browser tests, all or those named, with one program with doors for all of them: node test/browser/run.js [FILE...] */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readdirSync } from 'node:fs';
import { DOORS, buildDoors } from './harness/doors-edition.js';

const HERE = new URL('.', import.meta.url).pathname;

const named = process.argv.slice(2);
const all = readdirSync(HERE).filter((name) => name.endsWith('.test.js'));
const files = named.length ? named : all.sort().map((name) => HERE + name);

const { program, remove } = await buildDoors();
try {
  const tests = spawn(process.execPath, ['--test', '--test-reporter=spec', '--test-concurrency=1', ...files], {
    stdio: 'inherit',
    env: { ...process.env, [DOORS]: program },
  });
  for (const signal of /** @type {const} */ (['SIGINT', 'SIGTERM'])) process.on(signal, () => tests.kill(signal));
  const [code] = await once(tests, 'exit');
  process.exitCode = code ?? 1;
} finally {
  await remove();
}
