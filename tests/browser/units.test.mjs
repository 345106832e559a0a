// Both systems of units are on every page; the switch in the tail shows one of them, and is remembered.

import { strict as assert } from 'node:assert';
import { after, before, test } from 'node:test';
import { address, browser, none, onEveryPage, pages, reader, seen } from './harness.mjs';

let open;
before(async () => { open = await browser(); });
after(() => open.close());

const press = (page, system) => page.locator(`label[for=units-${system}]`).click();
// What a reader sees of the page's text.
const text = (page) => page.locator('main').innerText();
const LESSONS = pages().filter((name) => name.startsWith('lesson/'));

// A page on which both a pressure and a temperature are set in both systems.
async function pageWithFigures(window) {
  for (const name of LESSONS) {
    await window.turnTo(name);
    const shown = await text(window.page);
    if (/\d\spsi[ga]/.test(shown) && /\d\s°F/.test(shown)) return name;
  }
  return assert.fail('no lesson shows both a pressure and a temperature');
}

for (const script of [true, false]) {
  test(`the switch turns psig and °F into bar and °C, and back, ${script ? 'with' : 'without'} script`, async () => {
    const window = await reader(open, { script });
    const { page } = window;
    await pageWithFigures(window);
    const before = await text(page);
    assert.doesNotMatch(before, /\d\sbar\b/);
    assert.doesNotMatch(before, /\d\s°C/);
    await press(page, 'si');
    const metric = await text(page);
    assert.match(metric, /\d\sbar/);
    assert.match(metric, /\d\s°C/);
    assert.doesNotMatch(metric, /\d\spsi/);
    assert.doesNotMatch(metric, /\d\s°F/);
    await press(page, 'us');
    assert.equal(await text(page), before);
    await window.close();
    none(window.troubles);
  });
}

test('every page shows one system at a time, whichever is chosen', async () => {
  await onEveryPage(open, {}, async (page) => {
    const faults = [];
    for (const [system, other] of [['us', 'si'], ['si', 'us']]) {
      await press(page, system);
      if (await seen(page, `main .${other}:not(input):not(label)`)) faults.push(`${other} is seen while ${system} is chosen`);
      const [mine, theirs] = await page.evaluate(() => ['us', 'si'].map((s) => document.querySelectorAll(`main .${s}:not(input):not(label)`).length));
      if (mine !== theirs) faults.push(`${mine} places in one system, ${theirs} in the other`);
    }
    return faults;
  });
});

test('the choice is remembered on the next page and after the window was closed', async () => {
  const window = await reader(open);
  const { page } = window;
  const name = await pageWithFigures(window);
  await press(page, 'si');
  const other = LESSONS.find((lesson) => lesson !== name);
  await window.turnTo(other);
  assert.ok(await page.locator('#units-si').isChecked(), 'forgotten on the next page');
  await page.close();
  const again = await page.context().newPage();
  await again.goto(address(name));
  assert.ok(await again.locator('#units-si').isChecked(), 'forgotten when the window was closed');
  assert.match(await text(again), /\d\s°C/);
  await again.locator('label[for=units-us]').click();
  await again.reload();
  assert.ok(await again.locator('#units-us').isChecked(), 'the second choice is not kept');
  await window.close();
  none(window.troubles);
});

test('the switch is worked from the keyboard', async () => {
  const window = await reader(open);
  await pageWithFigures(window);
  await window.page.locator('#units-us').focus();
  await window.page.keyboard.press('ArrowRight');
  assert.ok(await window.page.locator('#units-si').isChecked());
  assert.match(await text(window.page), /\d\s°C/);
  await window.close();
  none(window.troubles);
});
