// How long after a save the page shows it, at a desk with a thousand lessons: 30 saves of one lesson, seen in Chromium.
//
//     node tests/load/desk.mjs
//
// Each lesson has prose, two computed figures, a worked example and a link to its neighbor. Time runs from before the file is
// written to the first frame in which the new words stand on the page.

import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { loadavg, tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('../..', import.meta.url));
const { chromium } = createRequire(path.join(root, 'tests/browser/x.mjs'))('playwright-core');
const PROGRAM = process.env.COLDPRESS ?? path.join(root, 'target/release/coldpress');
const dir = mkdtempSync(path.join(tmpdir(), 'coldpress-desk-')), content = path.join(dir, 'content');
execFileSync(PROGRAM, ['begin', content]);
const PROSE = 'The coil boils what the valve feeds it, and what leaves the coil warmer than it boiled is superheat. '.repeat(8);
for (let i = 0; i < 1000; i++) {
  writeFileSync(path.join(content, `lessons/reading-the-coil/lesson-${i}.md`), `---\ntitle: Lesson ${i}\n---
${PROSE}\n\nAt [20 psig](as:pressure) it boils at [?](figure:dew-temperature?refrigerant=R-134a&pressure=20psig), at 30 psig at
[?](figure:dew-temperature?refrigerant=R-134a&pressure=30psig); see [the one before](lesson:lesson-${(i + 999) % 1000}).\n\n## Worked\n\n${PROSE}

\`\`\`worked-example
title: The cooler of lesson ${i}
given:
  refrigerant: R-134a
  suction pressure: 20 psig
  suction line temperature: 33 °F
steps:
  - find: superheat
    answer: 11.5 °F
\`\`\`\n\n${`${PROSE}\n\n`.repeat(5)}Words number 0.\n`);
}
const lesson = path.join(content, 'lessons/reading-the-coil/lesson-500.md');
const desk = spawn(PROGRAM, ['desk', content, '--port', '0'], { stdio: ['ignore', 'pipe', 'inherit'] });
const lines = createInterface({ input: desk.stdout });
const address = await new Promise((is) => lines.on('line', (line) => { const at = /^Open (\S+)/.exec(line); if (at) is(at[1]); }));
const inside = [];
lines.on('line', (line) => { const at = /lesson-500\.md: set in (\d+) ms/.exec(line); if (at) inside.push(+at[1]); else console.log(line); });
const open = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run', '--disable-background-networking', '--disable-component-update', '--disable-sync'] });
const page = await open.newPage();
await page.goto(`${address}lesson/lesson-500.html`);
await page.getByText('Words number 0.').waitFor({ timeout: 300000 });
await page.evaluate(() => window.scrollTo(0, 300));
const took = [];
for (let n = 1; n <= 30; n++) {
  await page.waitForTimeout(n % 3 ? 150 : 1500);
  const text = readFileSync(lesson, 'utf8').replace(/Words number \d+\./, `Words number ${n}.`);
  const shown = page.evaluate((words) => new Promise((is) => {
    (function look() { if (document.querySelector('main').textContent.includes(words)) is(Date.now()); else requestAnimationFrame(look); })();
  }), `Words number ${n}.`);
  const begun = Date.now();
  writeFileSync(lesson, text);
  took.push((await shown) - begun);
}
const scrolled = await page.evaluate(() => window.scrollY);
await open.close();
desk.kill('SIGTERM');
rmSync(dir, { recursive: true });
const middle = (all) => all.sort((a, b) => a - b)[all.length >> 1];
const told = (all) => `median ${middle(all)} ms, shortest ${all[0]} ms, longest ${all.at(-1)} ms`;
console.log(`on the page: ${told(took)} of ${took.length}; of that inside the desk: ${told(inside)}; scroll ${scrolled}; load ${loadavg()[0].toFixed(1)}`);
