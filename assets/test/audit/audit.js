/**
 * Audits the built program with Lighthouse as a slow phone meets it: the scores
 * and each point lost. Node test/audit/audit.js after `make build`. The phone is
 * really slowed down, not simulated: a simulation puts whatever is painted late
 * down to every file before it, and this page has text long before its engine.
 */
import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { findChromium } from '../browser/harness/phone.js';
import { startServer } from '../browser/harness/server.js';
import { session } from '../browser/harness/session.js';

const LIGHTHOUSE = 'lighthouse@12.8.2';
const PLACES = ['check', 'bikes', 'fit', 'round', 'kit'];

await session(async (t) => {
  const server = await startServer(t);
  for (const place of PLACES) report(place, audited(`${server.origin}/#/${place}`));
});

/** @param {string} url @returns {any} */
function audited(url) {
  const path = join(mkdtempSync(join(tmpdir(), 'audit-')), 'report.json');
  const how = ['--throttling-method=devtools', '--chrome-flags=--headless=new --no-sandbox', '--quiet'];
  execFileSync('npx', ['--yes', LIGHTHOUSE, url, ...how, '--output=json', `--output-path=${path}`], {
    env: { ...process.env, CHROME_PATH: findChromium() },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  return JSON.parse(readFileSync(path, 'utf8'));
}

/** @param {string} place @param {any} report */
function report(place, { categories, audits }) {
  console.log(place);
  for (const { title, score, auditRefs } of Object.values(categories)) {
    console.log(`  ${title.padEnd(16)} ${Math.round(score * 100)}`);
    for (const { id, weight } of auditRefs) {
      const { score: got, displayValue = '' } = audits[id];
      if (weight > 0 && got !== null && got < 1) console.log(`    ${id}: ${Math.round(got * 100)} ${displayValue}`);
    }
  }
}
