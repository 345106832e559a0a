// How soon a page stands on the screen: `node tests/browser/paint-bench.mjs [PAGE …]`, after `tests/run` or a bind.
//
// Opens each page by its file:// address in a browser slowed four times, as a phone's processor, each time in a window that
// has opened nothing before; prints the first paint and the first paint of content, for DEVELOPERS.md. A machine that does
// other work tells of that work: the load stands beside the figures.

import { loadavg } from 'node:os';
import { address, browser, bytes, pages } from './harness.mjs';

const RUNS = 9;
const heaviest = (folder) => pages().filter((name) => name.startsWith(folder)).sort((a, b) => bytes(b) - bytes(a))[0];
const asked = process.argv.slice(2);
const PAGES = asked.length ? asked : [
  'index.html', heaviest('lesson/'), 'lesson/r-410a.html', heaviest('tree/'), heaviest('refrigerant/'), 'computation/superheat.html', 'words.html', 'terms.html', 'find.html',
];
const middle = (list) => list.sort((a, b) => a - b)[Math.floor(list.length / 2)];

const open = await browser();
console.log('page                                   bytes   first paint   of content   slowest');
for (const name of PAGES) {
  const paints = [];
  for (let run = 0; run < RUNS; run += 1) {
    const context = await open.newContext({ viewport: { width: 390, height: 844 } });
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    await page.goto(address(name));
    await page.waitForFunction(() => performance.getEntriesByName('first-contentful-paint').length > 0);
    paints.push(await page.evaluate(() => ['first-paint', 'first-contentful-paint'].map((entry) => performance.getEntriesByName(entry)[0].startTime)));
    await context.close();
  }
  const of = (which) => paints.map((paint) => paint[which]);
  const ms = (n) => `${n.toFixed(0)} ms`;
  console.log(`${name.padEnd(36)} ${String(bytes(name)).padStart(7)}   ${ms(middle(of(0))).padStart(11)}   ${ms(middle(of(1))).padStart(10)}   ${ms(Math.max(...of(1))).padStart(7)}`);
}
await open.close();
console.log(`load average ${loadavg().map((n) => n.toFixed(1)).join(', ')}`);
