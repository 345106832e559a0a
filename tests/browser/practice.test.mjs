// Problems: an answer is read with its unit and held against the key; a slip that people make is named; another like it
// can be had. In print the key stands at the end of the page.

import { strict as assert } from 'node:assert';
import { after, before, test } from 'node:test';
import { browser, none, pages, reader, text } from './harness.mjs';

let open;
before(async () => { open = await browser(); });
after(() => open.close());

const withProblems = pages().filter((name) => text(name).includes('data-draws='));

test('each problem knows its answer in both systems of units, and each slip it was made to know', { timeout: 600_000 }, async () => {
  assert.ok(withProblems.length > 10);
  const window = await reader(open);
  const faults = [], slips = new Set();
  let problems = 0;
  for (const name of withProblems) {
    await window.turnTo(name);
    const found = await window.page.evaluate(() => {
      const faults = [], slips = [], all = [...document.querySelectorAll('.problem[data-draws]')];
      // What a reader types: the number of the unit that stands beside, to eight digits.
      const typed = (si, kind, system, beside) => {
        const symbol = (beside.querySelector(`.${system}`) ?? beside).textContent.trim();
        const unit = reckoner.unitOf(kind, symbol), air = reckoner.runtime.air(reckoner.handbook.altitude);
        return `${reckoner.fromSi(unit, si, air).toPrecision(8)} ${unit.symbol}`.replace(/(\d)e[+]?(-?\d+)/, (all, digit) => digit);
      };
      for (const problem of all) {
        const draws = JSON.parse(problem.dataset.draws), { kind } = problem.dataset, form = problem.querySelector('.try');
        const verdict = form.querySelector('.verdict'), input = form.querySelector('input');
        const beside = form.querySelector('.unit');
        const say = (text) => { input.value = text; form.requestSubmit(); return verdict.textContent; };
        draws.forEach((draw, n) => {
          for (const system of ['us', 'si']) {
            const right = say(typed(draw.number, kind, system, beside));
            if (right !== verdict.dataset.right) faults.push(`${problem.id}, draw ${n + 1}: ${input.value} is told "${right}"`);
            for (const [slip, si] of draw.slips) {
              slips.push(slip);
              const told = say(typed(si, kind, system, beside));
              // Two slips may give one figure; the first that fits is named.
              const names = draw.slips.filter(([, other]) => Math.abs(other - si) <= draw.within).map(([name]) => verdict.dataset[name]);
              if (!names.includes(told)) faults.push(`${problem.id}, draw ${n + 1}: the slip ${slip}, ${input.value}, is told "${told}"`);
            }
          }
          const off = draw.number + 3.7 * draw.within;
          const near = draw.slips.some(([, si]) => Math.abs(si - off) <= draw.within);
          if (!near && say(typed(off, kind, 'us', beside)) !== verdict.dataset.wrong) faults.push(`${problem.id}, draw ${n + 1}: ${input.value} is told "${verdict.textContent}"`);
          const another = form.querySelector('[data-another]');
          if (another && draws.length > 1) another.click();
        });
        // A whole turn leads back to the first.
        const ask = problem.querySelector('[data-ask] .us')?.textContent ?? problem.querySelector('[data-ask]').textContent;
        if (draws.length > 1 && ask.replace(/[\u00a0\u00ad]/g, ' ') !== draws[0].ask.us.replace(/\u00a0/g, ' ')) faults.push(`${problem.id}: after all others stands "${ask}"`);
        if (say('') !== verdict.dataset.none) faults.push(`${problem.id}: nothing is told "${verdict.textContent}"`);
        if (say('5 furlongs') === verdict.dataset.wrong || !/furlongs/.test(verdict.textContent)) faults.push(`${problem.id}: furlongs are told "${verdict.textContent}"`);
      }
      return { faults, slips, count: all.length };
    });
    problems += found.count;
    found.slips.forEach((slip) => slips.add(slip));
    faults.push(...[...found.faults, ...window.troubles.splice(0)].map((fault) => `${name}: ${fault}`));
  }
  await window.close();
  none(faults);
  assert.ok(problems > 20, `${problems} problems`);
  assert.deepEqual([...slips].sort(), ['curve', 'gauge', 'sign'], 'the demonstration handbook has each kind of slip');
});

test('in print the key stands at the end of the page and nowhere else', async () => {
  const window = await reader(open);
  const faults = [];
  await window.page.emulateMedia({ media: 'print' });
  for (const name of withProblems) {
    await window.turnTo(name);
    const fault = await window.page.evaluate(() => {
      const keys = document.querySelector('.keys'), problems = document.querySelectorAll('.problem[data-draws]');
      if (!keys || !keys.checkVisibility()) return 'no key in print';
      if ([...document.querySelectorAll('.key-answer')].some((node) => node.checkVisibility())) return 'an answer stands by its problem';
      if (keys.querySelectorAll('[data-for]').length !== problems.length) return 'not every problem has a key';
      const last = [...problems].pop();
      return last.compareDocumentPosition(keys) & Node.DOCUMENT_POSITION_FOLLOWING ? null : 'the key stands before a problem';
    });
    if (fault) faults.push(`${name}: ${fault}`);
  }
  await window.page.emulateMedia({ media: 'screen' });
  await window.turnTo(withProblems[0]);
  if (await window.page.locator('.keys').isVisible()) faults.push(`${withProblems[0]}: the key is seen on the screen`);
  await window.close();
  none(faults);
});
