import { pathToFileURL } from 'node:url';
import { browser } from './harness.mjs';
const INTO='/work/main/target/find-bench/bound';
const open = await browser();
const variants = { base:'', contain:'#find{contain:strict;height:52px;width:240px}', layout:'#find{contain:layout paint}', nothumb:'.thumb,.tail{display:none}', noedge:'.edge-mark,.thumb,.tail,.foot{display:none}', form:'.findline{contain:strict;height:52px;width:330px}' };
const got={};
for (let r=0;r<12;r++) for (const k in variants) {
  const page = await (await open.newContext({ viewport: { width: 390, height: 844 } })).newPage();
  const s = await page.context().newCDPSession(page);
  await s.send('Emulation.setCPUThrottlingRate', { rate: 4 });
  await page.goto(pathToFileURL(INTO+'/find.html').href);
  if (variants[k]) await page.addStyleTag({content:variants[k]});
  await page.waitForTimeout(800);
  const x = await page.evaluate(async () => {
    const field=document.getElementById('find'); const out=[];
    for (let n=0;n<1;n++) {
      await new Promise(on=>setTimeout(on,40));
      const t = await new Promise(done => { field.value = n%2 ? '' : 'brine drain';
        requestAnimationFrame(() => { const a=performance.now(); const c=new MessageChannel(); c.port1.onmessage=()=>done(performance.now()-a); c.port2.postMessage(0); }); });
      out.push(t);
    }
    return out.filter((_,i)=>i%2===0);
  });
  (got[k]??=[]).push(...x);
  await page.context().close();
}
for (const k in got) { const g=got[k].sort((a,b)=>a-b); console.log(k.padEnd(9), g[g.length>>2].toFixed(1), g[g.length>>1].toFixed(1), g[g.length*3>>2].toFixed(1)); }
await open.close();
