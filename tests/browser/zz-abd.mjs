// node abd.mjs RUNS dir1 dir2 -- queries : whole searches in different bound folders
import { raw } from '/tmp/raw2.mjs';
import { pathToFileURL } from 'node:url';
const args = process.argv.slice(2), RUNS = +args.shift(), cut = args.indexOf('--');
const dirs = args.slice(0, cut), queries = args.slice(cut + 1);
const wait = ms => new Promise(r => setTimeout(r, ms));
const b = await raw();
const fn = (typed) => new Promise(done => { const field = document.getElementById('find'), found = document.getElementById('found'); delete found.dataset.for; delete found.dataset.best; const begun = performance.now(); let best; new MutationObserver((_, w) => { if (found.dataset.best === typed) best ??= performance.now() - begun; if (found.dataset.for === typed) { w.disconnect(); done([best, performance.now() - begun]); } }).observe(found, { attributes: true }); field.value = typed; field.dispatchEvent(new Event('input')); });
for (const q of queries) {
  const got = dirs.map(() => []);
  for (let r = 0; r < RUNS; r++) for (let v = 0; v < dirs.length; v++) {
    const p = await b.page(pathToFileURL(dirs[v] + '/find.html').href);
    await wait(+process.env.AFTER || 1000);
    got[v].push((await p.evaluate(fn, q))[0]);
    await p.close();
  }
  console.log(q.padEnd(20), got.map((g, v) => { g.sort((a, b) => a - b); return dirs[v].split('/').pop() + ' ' + g[g.length >> 1].toFixed(0) + ' (' + g[g.length >> 2].toFixed(0) + '–' + g[(g.length * 3) >> 2].toFixed(0) + ')'; }).join('   '));
}
b.close();
