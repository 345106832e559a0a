// Light: the paper and ink to read by, chosen in the tail; unset, as the device is set.

import { strict as assert } from 'node:assert';
import { after, before, test } from 'node:test';
import { LIGHTS, browser, none, pages, reader } from './harness.mjs';

let open;
before(async () => { open = await browser(); });
after(() => open.close());

// Lightness of the paper, 0 to 1, and the contrast of the ink on it.
const look = (page) => page.evaluate(() => {
  const shade = (color) => {
    const [r, g, b] = color.match(/[\d.]+/g).slice(0, 3).map((c) => {
      const part = Number(c) / 255;
      return part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * r + 0.7152 * g + 0.0722 * b;
  };
  const leaf = document.querySelector('main');
  let ground = leaf;
  while (ground && /rgba\(.*, 0\)|transparent/.test(getComputedStyle(ground).backgroundColor)) ground = ground.parentElement;
  const paper = shade(getComputedStyle(ground ?? document.documentElement).backgroundColor);
  const ink = shade(getComputedStyle(leaf).color);
  return { paper, contrast: (Math.max(paper, ink) + 0.05) / (Math.min(paper, ink) + 0.05) };
});
async function choose(page, light) {
  await page.locator('.light summary').click();
  await page.locator(`label[for=light-${light}]`).click();
}
const LESSON = pages().find((name) => name.startsWith('lesson/')) ?? 'index.html';

for (const script of [true, false]) {
  test(`day, night and sun each change paper and ink, ${script ? 'with' : 'without'} script`, async () => {
    const window = await reader(open, { script });
    await window.turnTo(LESSON);
    const found = {};
    for (const light of LIGHTS) {
      if (!(await window.page.locator(`label[for=light-${light}]`).isVisible())) await window.page.locator('.light summary').click();
      await window.page.locator(`label[for=light-${light}]`).click();
      found[light] = await look(window.page);
    }
    assert.ok(found.day.paper > 0.7 && found.day.contrast > 12, JSON.stringify(found.day));
    assert.ok(found.night.paper < 0.02 && found.night.contrast > 10, JSON.stringify(found.night));
    assert.ok(found.sun.paper === 1 && found.sun.contrast > 20.9, JSON.stringify(found.sun));
    await window.close();
    none(window.troubles);
  });
}

test('the choice is remembered, and there is a way back to the device’s own', async () => {
  const window = await reader(open, { colorScheme: 'dark' });
  const { page } = window;
  await window.turnTo('index.html');
  assert.ok((await look(page)).paper < 0.02, 'a device set dark is not followed');
  await choose(page, 'day');
  await window.turnTo(LESSON);
  assert.ok((await look(page)).paper > 0.7, 'day is not remembered');
  await choose(page, 'device');
  assert.ok((await look(page)).paper < 0.02, 'no way back to the device');
  await window.turnTo('index.html');
  assert.ok((await look(page)).paper < 0.02, 'the way back is not remembered');
  await window.close();
  none(window.troubles);
});

test('a device that asks for more contrast is followed', async () => {
  const window = await reader(open, { contrast: 'more' });
  await window.turnTo(LESSON);
  assert.ok((await look(window.page)).contrast > 20.9);
  await window.close();
});
