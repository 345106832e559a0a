// What a screen reader, a keyboard and weak eyes need: axe-core finds nothing on any page in any light; headings in order.

import { strict as assert } from 'node:assert';
import { after, before, test } from 'node:test';
import { AXE, LIGHTS, browser, none, onEveryPage, pages, reader } from './harness.mjs';

let open;
before(async () => { open = await browser(); });
after(() => open.close());

// Opens whatever is folded up and every step of a tree, so that nothing escapes examination.
const unfold = (page) => page.evaluate(() => {
  document.querySelectorAll('details:not(.light)').forEach((n) => { n.open = true; });
  document.querySelector('[data-act=whole]')?.click();
});

// What axe-core finds. It preloads no style sheets: from file:// a page may not read them. Colors depend on the light; all else is the same in each, and is examined once.
async function examine(page, light) {
  await page.evaluate((light) => { document.documentElement.dataset.light = light; }, light);
  const only = light === 'day' ? {} : { runOnly: ['color-contrast', 'link-in-text-block'] };
  const { violations } = await page.evaluate((only) => window.axe.run(document, { ...only, resultTypes: ['violations'], preload: false }), only);
  return violations.flatMap(({ id, help, nodes }) => nodes.map((n) => `${light}: ${id}: ${help}: ${n.target.join(' ')}`));
}

for (const width of [390, 1280]) {
  test(`axe-core finds nothing on any page, ${width} wide, in any light`, async () => {
    await onEveryPage(open, { width }, async (page) => {
      await unfold(page);
      await page.evaluate(AXE);
      const faults = [];
      for (const light of LIGHTS) faults.push(...await examine(page, light));
      return faults;
    });
  });
}

test('axe-core is at work', async () => {
  const window = await reader(open);
  await window.turnTo('index.html');
  await window.page.evaluate(AXE);
  await window.page.evaluate(() => { document.querySelector('main').innerHTML += '<img src="data:,"><p style="color:#ccc;background:#fff">pale</p>'; });
  const found = (await examine(window.page, 'day')).join('\n');
  assert.match(found, /image-alt/);
  assert.match(found, /color-contrast/);
  await window.close();
});

test('headings go down one level at a time, from a single h1', async () => {
  await onEveryPage(open, { script: false }, (page) => page.evaluate(() => {
    const levels = [...document.querySelectorAll('h1,h2,h3,h4,h5,h6')].map((h) => [Number(h.tagName[1]), h.textContent]);
    const faults = [];
    if (levels.filter(([level]) => level === 1).length !== 1) faults.push('not one h1');
    if (levels[0]?.[0] !== 1) faults.push(`begins with h${levels[0]?.[0]}`);
    levels.forEach(([level, text], i) => {
      if (i && level > levels[i - 1][0] + 1) faults.push(`h${level} “${text}” below an h${levels[i - 1][0]}`);
    });
    return faults;
  }));
});

// What is under the pointer is under it still when the button goes down: else the click is another's.
test('a button stays where it is under the pointer', async () => {
  await onEveryPage(open, {}, async (page) => {
    await unfold(page);
    const faults = [];
    for (const button of await page.locator('.press').filter({ visible: true }).all()) {
      await button.hover();
      const under = await button.evaluate((n) => {
        const { left, top, width, height } = n.getBoundingClientRect();
        return n.contains(document.elementFromPoint(left + width / 2, top + height / 2));
      });
      if (!under) faults.push(`“${await button.textContent()}” is not there any more`);
    }
    return faults;
  }, ['tree/superheat-high.html', 'computation/superheat.html', 'practice/the-cycle.html', 'sheet/set-superheat.html', 'print.html', 'carry.html', 'index.html']);
});

test('the keyboard comes to every control, in order, and it can be seen where it is', async () => {
  const names = ['index.html', 'find.html', ...['lesson/', 'tree/'].flatMap((folder) => pages().filter((name) => name.startsWith(folder)).slice(0, 1))];
  await onEveryPage(open, {}, async (page) => {
    const faults = [];
    const { length } = await page.evaluate(() => [...document.querySelectorAll('a[href],button,input,summary')]);
    await page.evaluate(() => { document.activeElement?.blur(); window.scrollTo(0, 0); });
    const been = [];
    for (let i = 0; i < length + 4; i += 1) {
      await page.keyboard.press('Tab');
      const at = await page.evaluate(() => {
        const n = document.activeElement;
        if (!n || n === document.body) return null;
        // A radio hidden under its label shows its focus on the label.
        const shown = n.matches('input[type=radio]') ? document.querySelector(`label[for="${n.id}"]`) : n;
        const box = shown.getBoundingClientRect();
        const style = getComputedStyle(shown);
        const drawn = style.outlineStyle !== 'none' || style.boxShadow !== 'none' || style.textDecorationLine !== 'none' || style.borderStyle !== 'none';
        return { name: n.id || n.textContent.trim().slice(0, 40) || n.tagName, inside: box.bottom > 0 && box.top < innerHeight && box.width > 0, drawn };
      });
      if (!at) break;
      been.push(at.name);
      if (!at.inside) faults.push(`${at.name} has the focus out of sight`);
      if (!at.drawn) faults.push(`nothing shows that ${at.name} has the focus`);
    }
    if (been.length < 5) faults.push(`the keyboard comes to ${been.length} controls only`);
    return faults;
  }, names);
});
