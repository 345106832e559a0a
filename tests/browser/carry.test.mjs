// The copy in one page does what the folder does: leaves, links, Find, forms, a diagnosis, units; and it asks for nothing.

import { strict as assert } from 'node:assert';
import { after, before, test } from 'node:test';
import { address, browser, none, pages, reader } from './harness.mjs';
import { BEYOND, alike, answer, blanksOf, drawn, fill, lot, said, shell } from './reckoning.mjs';

const COPY = 'carry/page.html';
let open;
before(async () => { open = await browser(); });
after(() => open.close());

const shown = (page) => page.locator('.one-leaf').filter({ visible: true }).evaluateAll((all) => all.map((leaf) => leaf.id));
// Which leaf is shown follows the address, a moment after it.
const comesTo = async (page, leaf) => {
  const alone = (leaf) => {
    const shown = [...document.querySelectorAll('.one-leaf')].filter((n) => n.checkVisibility());
    return shown.length === 1 && shown[0].id === leaf;
  };
  await page.waitForFunction(alone, leaf).catch(() => {});
  assert.deepEqual(await shown(page), [leaf]);
};

test('every leaf of the folder is in it, and every link in it leads somewhere', async () => {
  const { page, troubles, turnTo, close } = await reader(open);
  await turnTo(COPY);
  const { leaves, dead, twice } = await page.evaluate(() => {
    const ids = [...document.querySelectorAll('[id]')].map((n) => n.id);
    return {
      leaves: [...document.querySelectorAll('.one-leaf')].map((leaf) => leaf.id),
      dead: [...document.querySelectorAll('a[href]')].map((a) => a.getAttribute('href'))
        .filter((href) => !/^https?:/.test(href) && !(href[0] === '#' && document.getElementById(decodeURIComponent(href.slice(1))))),
      twice: ids.filter((id, i) => ids.indexOf(id) !== i),
    };
  });
  assert.deepEqual([...leaves].sort(), pages().filter((name) => name !== 'carry.html'));
  assert.deepEqual(dead, []);
  assert.deepEqual(twice, []);
  assert.deepEqual(troubles, []);
  await close();
});

test('one leaf is shown at a time, and the browser leads back', async () => {
  const { page, troubles, turnTo, close } = await reader(open);
  await turnTo(COPY);
  await comesTo(page, 'index.html');
  const first = page.locator('.contents a[href^="#lesson/"]').filter({ visible: true }).first();
  const to = (await first.getAttribute('href')).slice(1);
  await first.click();
  await comesTo(page, to);
  assert.match(await page.title(), /, /);
  await page.goBack();
  await comesTo(page, 'index.html');
  await page.goto(`${address(COPY)}#${to}`);
  await page.reload();
  await comesTo(page, to);
  assert.deepEqual(troubles, []);
  await close();
});

test('Find finds in it, and what it finds opens', async () => {
  const { page, troubles, turnTo, close } = await reader(open);
  await turnTo(COPY);
  const field = page.locator('.tail [name=for]');
  await field.fill('superheat');
  await field.press('Enter');
  await comesTo(page, 'find.html');
  const found = page.locator('#found a').first();
  await found.waitFor();
  const to = decodeURIComponent((await found.getAttribute('href')).slice(1)).split(':')[0];
  await found.click();
  await comesTo(page, to);
  assert.deepEqual(troubles, []);
  await close();
});

test('a diagnosis is worked through in it, and units switch', async () => {
  const { page, troubles, turnTo, close } = await reader(open);
  await turnTo(COPY);
  const tree = await page.evaluate(() => document.querySelector('.one-leaf ol.key').closest('.one-leaf').id);
  await page.goto(`${address(COPY)}#${tree}`);
  const here = page.locator(`[id="${tree}"]`);
  const asked = () => here.locator('ol.key .step, .ends .end').filter({ visible: true }).evaluateAll((all) => all.map((n) => n.id));
  const before = await asked();
  assert.equal(before.length, 1);
  await here.locator('.ways a').filter({ visible: true }).first().click();
  const after = await asked();
  assert.equal(after.length, 1);
  assert.notDeepEqual(after, before);
  assert.equal(await here.locator('[data-readings] tr:not(.blank-row) td:last-child').count(), 1);
  await page.goBack();
  assert.deepEqual(await asked(), before);
  await page.locator('label[for=units-si]').click();
  assert.equal(await page.locator('.us').filter({ visible: true }).count(), 0);
  assert.deepEqual(troubles, []);
  await close();
});

test('every computation has a form that reckons in it, from what the page itself holds, as the program does', { timeout: 600_000 }, async () => {
  const { page, troubles, turnTo, close } = await reader(open);
  await turnTo(COPY);
  await page.waitForFunction(() => [...document.querySelectorAll('.workform')].every((form) => +form.dataset.done >= 1), undefined, { timeout: 120_000 });
  // One form of each computation. A form need not be on the leaf that is shown to be filled.
  const ids = await page.evaluate(() => {
    const first = new Map();
    document.querySelectorAll('.workform').forEach((form) => { if (!first.has(form.dataset.sum)) first.set(form.dataset.sum, form.id); });
    return [...first];
  });
  assert.ok(ids.length > 80, `${ids.length} computations`);
  const faults = [];
  let compared = 0, beyond = 0;
  for (const [name, id] of ids) {
    const form = page.locator(`[id="${id}"]`);
    const { typed, asked } = drawn(await blanksOf(form), lot(id));
    await fill(page, form, typed);
    const [found, told, wanted] = [await answer(form), await said(form), await shell(name, asked)];
    if (BEYOND.test(told) || (wanted.refused && told !== '')) { beyond += 1; continue; }
    compared += 1;
    if (told !== '' || wanted.refused || !alike(found.us, wanted.us) || !alike(found.si, wanted.si)) {
      faults.push(`${id} ${JSON.stringify(asked)}: page ${told || JSON.stringify(found)}, program ${JSON.stringify(wanted)}`);
    }
  }
  none(faults);
  assert.ok(compared > 60 && beyond < compared / 5, `${compared} compared, ${beyond} beyond the page`);
  assert.deepEqual(troubles, []);
  await close();
});

test('what a tree works out from readings is worked out in it as the program does', { timeout: 120_000 }, async () => {
  const { page, troubles, turnTo, close } = await reader(open);
  await turnTo(COPY);
  const leaf = 'tree/superheat-high.html';
  await page.evaluate((leaf) => { location.hash = leaf; }, leaf);
  const take = page.locator(`[id="${leaf}"] form.take[data-sum=subcooling]`);
  const typed = { refrigerant: 'R-410A', 'liquid pressure': '380', 'liquid line temperature': '100.5' };
  await take.evaluate((form, typed) => {
    for (const [input, text] of Object.entries(typed)) form.querySelector(`[data-input="${input}"]`).querySelector('input, select').value = text;
    form.querySelector('input').dispatchEvent(new Event('input', { bubbles: true }));
  }, typed);
  const wanted = await shell('subcooling', { refrigerant: 'R-410A', 'liquid pressure': '380 psig', 'liquid line temperature': '100.5 °F' });
  await page.waitForFunction(([leaf, text]) => {
    const said = document.getElementById(leaf).querySelector('form.take[data-sum=subcooling] .verdict').textContent;
    return said.replace(/\s/g, ' ').includes(text);
  }, [leaf, wanted.us], { timeout: 20_000 });
  assert.deepEqual(troubles, []);
  await close();
});

test('without script every leaf is there to read', async () => {
  const { page, turnTo, close } = await reader(open, { script: false });
  await turnTo(COPY);
  assert.equal((await shown(page)).length, pages().length - 1);
  await close();
});
