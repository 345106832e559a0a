// The copy in one page does what the folder does: leaves, links, Find, a diagnosis, units; and it asks for nothing.

import { strict as assert } from 'node:assert';
import { after, before, test } from 'node:test';
import { address, browser, pages, reader } from './harness.mjs';

const COPY = 'carry/page.html';
let open;
before(async () => { open = await browser(); });
after(() => open.close());

const shown = (page) => page.locator('.one-leaf').filter({ visible: true }).evaluateAll((all) => all.map((leaf) => leaf.id));

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
  assert.deepEqual(await shown(page), ['index.html']);
  const first = page.locator('.contents a[href^="#lesson/"]').filter({ visible: true }).first();
  const to = (await first.getAttribute('href')).slice(1);
  await first.click();
  assert.deepEqual(await shown(page), [to]);
  assert.match(await page.title(), /, /);
  await page.goBack();
  assert.deepEqual(await shown(page), ['index.html']);
  await page.goto(`${address(COPY)}#${to}`);
  await page.reload();
  assert.deepEqual(await shown(page), [to]);
  assert.deepEqual(troubles, []);
  await close();
});

test('Find finds in it, and what it finds opens', async () => {
  const { page, troubles, turnTo, close } = await reader(open);
  await turnTo(COPY);
  const field = page.locator('.tail [name=for]');
  await field.fill('superheat');
  await field.press('Enter');
  assert.deepEqual(await shown(page), ['find.html']);
  const found = page.locator('#found a').first();
  await found.waitFor();
  const to = decodeURIComponent((await found.getAttribute('href')).slice(1)).split(':')[0];
  await found.click();
  assert.deepEqual(await shown(page), [to]);
  assert.deepEqual(troubles, []);
  await close();
});

test('a diagnosis is worked through in it, and units switch', async () => {
  const { page, troubles, turnTo, close } = await reader(open);
  await turnTo(COPY);
  const tree = await page.evaluate(() => document.querySelector('.one-leaf ol.key').closest('.one-leaf').id);
  await page.goto(`${address(COPY)}#${tree}`);
  const here = page.locator(`[id="${tree}"]`);
  const asked = () => here.locator('.key .step, .ends .end').filter({ visible: true }).evaluateAll((all) => all.map((n) => n.id));
  const before = await asked();
  assert.equal(before.length, 1);
  await here.locator('.ways a').filter({ visible: true }).first().click();
  const after = await asked();
  assert.equal(after.length, 1);
  assert.notDeepEqual(after, before);
  assert.equal(await here.locator('[data-readings] tr:not(.blank-row)').count(), 1);
  await page.goBack();
  assert.deepEqual(await asked(), before);
  await page.locator('label[for=units-si]').click();
  assert.equal(await page.locator('.us').filter({ visible: true }).count(), 0);
  assert.deepEqual(troubles, []);
  await close();
});

test('without script every leaf is there to read', async () => {
  const { page, turnTo, close } = await reader(open, { script: false });
  await turnTo(COPY);
  assert.equal((await shown(page)).length, pages().length - 1);
  await close();
});
