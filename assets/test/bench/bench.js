/**
 * Sizes and speeds as a rider meets them, against their budgets: node
 * test/bench/bench.js after `make build`. Speeds depend on the machine and on
 * what else it does; sizes do not.
 */
import { newPhone } from '../browser/harness/phone.js';
import { startServer } from '../browser/harness/server.js';
import { session } from '../browser/harness/session.js';
import { BUDGET, sizes, totals } from '../size/size.js';
import { nativeAndWasm } from './ratio.js';
import { fans, nudges, offlineStart, slowStart } from './page.js';
import { pictures } from './photo.js';
import { comings, givingOut, walk } from './large.js';
import { edition, shed } from './shed.js';

/** @typedef {[what: string, got: number, unit: string, most: number]} Row */

const rows = sizes();
console.log('\nbytes a first visit loads, with brotli');
for (const { name, plain, sent } of rows)
  console.log(`  ${String(sent).padStart(8)} ${String(plain).padStart(9)} ${name}`);

/** @type {Row[]} */
const table = [
  ['engine, brotli', totals(rows).engine / 1000, 'kB', BUDGET.engine / 1000],
  ['first offline use, brotli', totals(rows).all / 1000, 'kB', BUDGET.all / 1000],
];

await session(async (t) => {
  const server = await startServer(t);
  const phone = () => newPhone(t, server.origin);
  const slow = await slowStart(await phone());
  table.push(['slow 4G: text is there', slow.text, 's', 1.5], ['slow 4G: first answer', slow.answer, 's', 5.5]);
  table.push(['offline, CPU 4 times slower: first answer', await offlineStart(await phone(), server), 's', 1]);
  await server.start();
  const { median, p95 } = await nudges(await phone());
  table.push(['a nudge, CPU 4 times slower: repaint, median', median, 'ms', 16]);
  table.push(['a nudge, CPU 4 times slower: repaint, 95 %', p95, 'ms', 16]);
  const fan = await fans(await phone());
  table.push(['a bike touched, CPU 4 times slower: wear fan, median', fan.median, 'ms', 300]);
  table.push(['a bike touched, CPU 4 times slower: wear fan, 95 %', fan.p95, 'ms', 300]);
  for (const reference of /** @type {const} */ (['frame', 'rule'])) {
    const { worked, memory } = await pictures(await phone(), reference);
    table.push([`12 megapixels with a ${reference}, CPU 4 times slower: answer`, worked, 's', 4]);
    table.push([`12 megapixels with a ${reference}: memory`, memory, 'MB', 200]);
  }
});

await session(async (t) => {
  const { program, remove } = await edition();
  t.after(remove);
  const { origin } = await startServer(t, program);
  const phone = await newPhone(t, origin);
  const large = await shed(phone);
  const longest = `500 bikes, CPU 4 times slower: longest task,`;
  table.push([`${longest} loading`, large.load, 'ms', 100], [`${longest} opening`, large.open, 'ms', 100]);
  table.push([`${longest} scrolling`, large.scroll, 'ms', 100], [`${longest} searching`, large.search, 'ms', 100]);
  table.push(['500 bikes, CPU 4 times slower: tap to fan', large.fan, 'ms', 300]);
  const round = await walk(phone.page);
  table.push([`${longest} round opens`, round.open, 'ms', 100], [`${longest} round scrolls`, round.scroll, 'ms', 100]);
  table.push([`${longest} round is searched`, round.search, 'ms', 100]);
  table.push([`${longest} bike is cleared`, round.clear, 'ms', 100]);
  table.push([`${longest} file is made`, await givingOut(phone.page), 'ms', 100]);
  const { taken, pulled } = await comings(await newPhone(t, origin), await newPhone(t, origin));
  const moving = 'CPU 4 times slower:';
  table.push([`${moving} longest task, file taken in`, taken.task, 'ms', 100]);
  table.push([`${moving} page's time, 1,000 records taken in`, taken.busy, 'ms', 2000]);
  table.push([`${moving} longest task, first pull`, pulled.task, 'ms', 100]);
  table.push([`${moving} page's time, 1,000 records pulled`, pulled.busy, 'ms', 1500]);
});

console.log(
  `\n${'from JSON to JSON'.padEnd(34)}${'native ms'.padStart(12)}${'wasm ms'.padStart(12)}  times  allocations`,
);
for (const { name, native, wasm, allocations } of await nativeAndWasm()) {
  const times = wasm / native;
  const ms = [native, wasm].map((ns) => (ns / 1e6).toFixed(4).padStart(12)).join('');
  console.log(`${name.padEnd(34)}${ms}${times.toFixed(1).padStart(7)}${String(allocations).padStart(13)}`);
  if (name.startsWith('wear/rule')) table.push(['wear: WebAssembly over native', times, 'times', 5]);
  const most = { 'forecast/readings=10': 15, 'forecast/readings=500': 60, 'forecast/gauge-only=500': 60 }[name];
  if (most) table.push([`${name}: native`, native / 1e6, 'ms', most]);
  if (!name.startsWith('forecast')) table.push([`${name}: native`, native / 1e6, 'ms', 0.2]);
}

console.log(`\n${'measured'.padEnd(56)}${'got'.padStart(9)}${'at most'.padStart(9)}`);
for (const [what, got, unit, most] of table) {
  const verdict = got <= most ? '' : '  over its budget';
  console.log(`${what.padEnd(56)}${got.toFixed(2).padStart(9)}${String(most).padStart(9)} ${unit}${verdict}`);
}
