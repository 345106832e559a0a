// dist.mjs RUNS N [dir]
import { browser } from './harness.mjs';
import { pathToFileURL } from 'node:url';
import { readFileSync, readdirSync } from 'node:fs';
const R=+process.argv[2], N=+process.argv[3], DIRS=process.argv.slice(4);
const text = readdirSync('/work/main/content/lessons', { recursive: true, withFileTypes: true }).filter(e => e.isFile()).map(e => readFileSync((e.parentPath ?? e.path) + '/' + e.name, 'utf8').replace(/```[\s\S]*?```|^[>|#-].*$/gm, '')).join(' ').toLowerCase();
const stop = new Set('a an the of to in on and or is are it its at as by with from for that this which not no be into than where there whose when then until before after they them what'.split(' '));
const two = text.match(/\b[a-z]{3,} [a-z]{3,}\b/g).filter(b => b.split(' ').every(w => !stop.has(w)));
const three = text.match(/\b[a-z]{3,} [a-z]{3,} [a-z]{3,}\b/g).filter(b => b.split(' ').every(w => !stop.has(w)));
let seed = 11; const rnd = n => (seed = seed * 48271 % 2147483647) % n;
const qs=[]; for(let i=0;i<N;i++){ const l=i%3===2?three:two; let q=l[rnd(l.length)]; if(i%4===3){ const k=2+rnd(q.length-3); if(q[k]!==' '&&q[k+1]!==' '&&k+2<q.length) q=q.slice(0,k)+q[k+1]+q[k]+q.slice(k+2);} qs.push(q);} 
const open = await browser(); const ress=DIRS.map(()=>({}));
for (let r=0;r<R;r++) for (const q of qs) for (let d=0;d<DIRS.length;d++) { const DIR=DIRS[d],res=ress[d];
  const page = await (await open.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  const c = await page.context().newCDPSession(page); await c.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.goto(pathToFileURL(DIR+'/find.html').href); await page.waitForTimeout(500);
  const t = await page.evaluate((typed) => new Promise(done => { const field = document.getElementById('find'), found = document.getElementById('found'); let n=0; const t0 = performance.now(); let scripts; new MutationObserver((_, w) => { if (found.dataset.best === typed) { const t=performance.now()-t0; w.disconnect(); done([t,[...document.scripts].map(s=>s.src.split('/').pop().replace('.js','')).filter(s=>/^[welmt]\d|^[lm]/.test(s)).join(' '), document.getElementById('taken').textContent]); } }).observe(found, { attributes: true }); field.value = typed; field.dispatchEvent(new Event('input')); }), q);
  (res[q]??=[]).push(t); await page.context().close();
}
await open.close();
const mid=l=>l.map(x=>x[0]).sort((a,b)=>a-b)[l.length>>1];
for (const [d,res] of ress.entries()) { console.log(DIRS[d]); const rows=Object.entries(res).map(([q,l])=>[mid(l),q,l[0][1],l[0][2]]).sort((a,b)=>b[0]-a[0]);
rows.slice(0,+process.env.TOP||20).forEach(r=>console.log(r[0].toFixed(0),r[1],'|',r[2],'|',r[3]));
const t=rows.map(r=>r[0]); console.log('n',t.length,'median',t[t.length>>1].toFixed(0),'p90',t[Math.floor(t.length*.1)].toFixed(0),'over 50:',t.filter(x=>x>50).length);
}
