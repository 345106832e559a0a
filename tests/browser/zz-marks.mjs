import { browser } from './harness.mjs';
import { readFileSync, writeFileSync } from 'node:fs';
import { pathToFileURL } from 'node:url';
const INTO = '/work/main/target/find-bench/bound';
const q = process.argv[2], R=+process.argv[3]||15;
const m = l => `(window.__t=window.__t||[]).push(['${l}',performance.now()]);`;
function inst(f){ let s = readFileSync(f, 'utf8');
const rep = (a, b) => { if (!s.includes(a)) { console.error('no', a); return; } s = s.replace(a, () => b); };
rep("var asked = field.value.trim(), mine = ++run;", m("show") + "var asked = field.value.trim(), mine = ++run;");
rep("var read = reading(asked), tokens = ", "var read = reading(asked);" + m('read') + "var tokens = ");
rep("growing = growing && word.length > 1;", m('look')+"growing = growing && word.length > 1;");
rep("if (of(key) !== usual && word.length > 5) close = near(word, key, often);", m('near')+"if (of(key) !== usual && word.length > 5) close = near(word, key, often);"+m('neared'));
rep("script.onload = script.onerror = () => {", m('ask')+"script.onload = script.onerror = () => {");
rep("document.head.append(script);", "document.head.append(script);"+m('asked'));
rep("await take(key, found);\nif (growing && found.all", m('take')+"await take(key, found);"+m('took')+"\nif (growing && found.all");
rep("return { found, taken };", m('looked')+"return { found, taken };");
rep("var list = scores.all.filter(", m('added') + "var list = scores.all.filter(");
rep("result.tokens = result.tokens.map(stem);", m('listed') + "result.tokens = result.tokens.map(stem);");
rep("var result = both[0], shown = byKind(result.list);", m('sorted') + "var result = both[0], shown = byKind(result.list);");
rep("var top = shown.filter(g => g.count)", m('kinds') + "var top = shown.filter(g => g.count)");
rep("if (mine !== run) return;\nplace.replaceChildren", m('made') + "if (mine !== run) return;\nplace.replaceChildren");
rep("status.textContent = result.list.length", m('placed') + "status.textContent = result.list.length");
rep("place.dataset.best = asked;", m('status') + "place.dataset.best = asked;");
return s; }
const wait = ms => new Promise(r => setTimeout(r, ms));
const open = await browser();
for (const f of process.argv.slice(4)) {
writeFileSync(INTO + '/kit/script.js', inst(f));
const all = [];
for (let r = 0; r < R; r++) {
  const page = await (await open.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  const c = await page.context().newCDPSession(page); await c.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.goto(pathToFileURL(INTO+'/find.html').href); await page.waitForTimeout(700);
  const x = await page.evaluate((typed) => new Promise(done => { window.__t = []; const field = document.getElementById('find'), found = document.getElementById('found'); delete found.dataset.for; delete found.dataset.best; const begun = performance.now(); let best; new MutationObserver((_, w) => { if (found.dataset.best === typed) best ??= performance.now() - begun; if (found.dataset.for === typed) { w.disconnect(); done([...window.__t.map(([l, t]) => [l, t - begun]), ['best', best]]); } }).observe(found, { attributes: true }); field.value = typed; window.__t.push(['set', performance.now()]); field.dispatchEvent(new Event('input')); window.__t.push(['sent', performance.now()]); }), q);
  all.push(x); await page.context().close();
}
// mean of the middle half by mark
const names=[...new Set(all[0].slice(0,all[0].findIndex(y=>y[0]==='status')+1).map(x=>x[0])),'best'];
if(process.env.RAW) for(const x of all.sort((a,b)=>a.at(-1)[1]-b.at(-1)[1]).slice(6,9)){let l=0;console.log(x.slice(0,x.findIndex(y=>y[0]==='status')).map(([n,t])=>{const r=n+' '+t.toFixed(1)+(t-l>0.4?' (+'+(t-l).toFixed(1)+')':'');l=t;return r;}).join('  '),x.at(-1)[1]);}
const mid=n=>{const l=all.map(x=>(x.filter(y=>y[0]===n).at(-1)??[0,NaN])[1]).sort((a,b)=>a-b);return l[l.length>>1];};
let last=0; console.log(f.split('/').pop(), names.map(n=>[n,mid(n)]).sort((a,b)=>a[1]-b[1]).map(([n,t])=>{const r=n+' '+t.toFixed(1)+(t-last>0.4?' (+'+(t-last).toFixed(1)+')':'');last=t;return r;}).join('  '));
}
await open.close(); writeFileSync(INTO + '/kit/script.js', readFileSync('/tmp/script-base.js'));
