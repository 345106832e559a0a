import { copyFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
import { browser } from './harness.mjs';
const INTO = process.env.INTO || '/work/main/target/find-bench/bound';
const args = process.argv.slice(2), RUNS = +args.shift(), cut = args.indexOf('--');
const variants = args.slice(0, cut), queries = args.slice(cut + 1);
const open = await browser();
const fn = (typed) => new Promise(done => { const field = document.getElementById('find'), found = document.getElementById('found'); delete found.dataset.for; delete found.dataset.best; const begun = performance.now(); let best; new MutationObserver((_, w) => { if (found.dataset.best === typed) best ??= performance.now() - begun; if (found.dataset.for === typed) { w.disconnect(); done([best, performance.now() - begun]); } }).observe(found, { attributes: true }); field.value = typed; field.dispatchEvent(new Event('input')); });
for (const q of queries) {
  const got = variants.map(() => []);
  for (let r = 0; r < RUNS; r++) for (let v = 0; v < variants.length; v++) {
    copyFileSync(variants[v], INTO + '/kit/script.js');
    const page = await (await open.newContext({ viewport: { width: 390, height: 844 } })).newPage();
    const s = await page.context().newCDPSession(page);
    await s.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    await page.goto(pathToFileURL(INTO + '/find.html').href);
    await page.waitForTimeout(+process.env.AFTER || 500);
    got[v].push((await page.evaluate(fn, q))[0]);
    await page.context().close();
  }
  console.log(q.padEnd(20), got.map((g, v) => { g.sort((a, b) => a - b); return variants[v].split('/').pop().replace('.js', '') + ' ' + g[g.length >> 1].toFixed(0) + ' (' + g[g.length >> 2].toFixed(0) + '–' + g[(g.length * 3) >> 2].toFixed(0) + ')'; }).join('   '));
}
await open.close(); copyFileSync('/tmp/script-base.js', INTO + '/kit/script.js');
