import { browser, BOUND } from './harness.mjs';
import { pathToFileURL } from 'node:url';
const open = await browser(); const page = await (await open.newContext({ viewport: { width: 390, height: 844 } })).newPage();
await page.goto(pathToFileURL((process.env.B||BOUND)+'/find.html').href);
for (const q of process.argv.slice(2)) console.log(q, '→', await page.evaluate((typed) => new Promise(done => { const field = document.getElementById('find'), found = document.getElementById('found'); new MutationObserver((_, w) => { if (found.dataset.for === typed) { w.disconnect(); done([document.getElementById('taken').textContent, ...[...found.querySelectorAll('.t')].slice(0,6).map(x=>x.textContent)].join(' | ')); } }).observe(found, { attributes: true }); field.value = typed; field.dispatchEvent(new Event('input')); }), q));
await open.close();
