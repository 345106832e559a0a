// A diagnosis is worked through question by question: every outcome can be reached by pressing answers, each answer is
// written down, and there is a way back. Without script the same key is read from the page.

import { strict as assert } from 'node:assert';
import { after, before, test } from 'node:test';
import { browser, none, onEveryPage, pages, reader, seen } from './harness.mjs';

let open;
before(async () => { open = await browser(); });
after(() => open.close());

const TREES = pages().filter((name) => name.startsWith('tree/'));

// The key as it is printed: its first question, and for each question where its answers lead.
const key = (page) => page.evaluate(() => ({
  start: document.querySelector('.key').dataset.start,
  ways: Object.fromEntries([...document.querySelectorAll('.key .step')].map((step) => [
    step.id, [...step.querySelectorAll('.ways a')].map((a) => a.getAttribute('href')),
  ])),
  ends: [...document.querySelectorAll('.ends .end')].map((end) => end.id),
}));

// The shortest way from the first question to every question and outcome: answers by number.
function shortest({ start, ways }) {
  const known = new Map([[start, []]]);
  for (const [at, answers] of known) { // grows as it is walked
    (ways[at] ?? []).forEach((href, number) => {
      if (!href.startsWith('#')) return; // into another tree, which is walked on its own
      const to = href.slice(1);
      if (!known.has(to)) known.set(to, [...answers, { at, number, to }]);
    });
  }
  return known;
}

const at = (page) => page.locator('.key .step, .ends .end').filter({ visible: true }).evaluateAll((all) => all.map((n) => n.id));
const readings = (page) => page.locator('[data-readings] tr:not(.blank-row)').evaluateAll((rows) => rows.map((row) => [...row.cells].map((c) => c.innerText.trim())));
const press = (page, act) => page.locator(`[data-act=${act}]`).click();

async function answer(page, { at: question, number, to }) {
  const way = page.locator(`#${question} .ways a`).nth(number);
  const words = (await way.locator('.if').innerText()).trim();
  await way.click();
  await page.waitForFunction((id) => document.getElementById(id).classList.contains('open'), to);
  return words;
}

test('there is a tree', () => assert.ok(TREES.length > 0));

for (const name of TREES) {
  test(`${name}: every outcome is reached by pressing answers, and each answer is written down`, async () => {
    const window = await reader(open);
    const { page } = window;
    await window.turnTo(name);
    const printed = await key(page);
    const known = shortest(printed);
    assert.ok(printed.ends.length >= 2);
    for (const end of printed.ends) {
      assert.ok(known.has(end), `no way to ${end}`);
      await press(page, 'again');
      assert.deepEqual(await at(page), [printed.start]);
      assert.deepEqual(await readings(page), []);
      const given = [];
      for (const step of known.get(end)) {
        given.push(await answer(page, step));
        assert.deepEqual(await at(page), [step.to], 'more, or other, than the one place is open');
      }
      const written = await readings(page);
      assert.deepEqual(written.map((row) => row[2]), given);
      for (const [time, reading] of written) {
        assert.match(time, /^\d\d:\d\d$/);
        assert.ok(reading.length > 0);
      }
      assert.ok(await page.evaluate((end) => document.getElementById(end).contains(document.activeElement), end), 'the focus did not follow');
    }
    await window.close();
    none(window.troubles);
  });

  test(`${name}: back, the browser's back, a reload and beginning again`, async () => {
    const window = await reader(open);
    const { page } = window;
    await window.turnTo(name);
    const printed = await key(page);
    const longest = [...shortest(printed).values()].sort((a, b) => b.length - a.length)[0];
    assert.ok(longest.length >= 2);
    for (const step of longest) await answer(page, step);
    const all = await readings(page);
    await page.reload();
    assert.deepEqual(await at(page), [longest.at(-1).to], 'a reload loses the place');
    assert.deepEqual(await readings(page), all, 'a reload loses the readings');
    await press(page, 'back');
    await page.waitForFunction((id) => document.getElementById(id).classList.contains('open'), longest.at(-1).at);
    assert.deepEqual(await readings(page), all.slice(0, -1));
    await answer(page, longest.at(-1));
    assert.equal((await readings(page)).length, all.length);
    await page.goBack();
    await page.waitForFunction((id) => document.getElementById(id).classList.contains('open'), longest.at(-1).at);
    assert.deepEqual(await readings(page), all.slice(0, -1));
    await press(page, 'again');
    assert.deepEqual(await at(page), [printed.start]);
    assert.deepEqual(await readings(page), []);
    await window.close();
    none(window.troubles);
  });

  test(`${name}: the whole tree can be shown, and one question at a time again`, async () => {
    const window = await reader(open);
    const { page } = window;
    await window.turnTo(name);
    const { ways, ends, start } = await key(page);
    await press(page, 'whole');
    assert.deepEqual((await at(page)).sort(), [...Object.keys(ways), ...ends].sort());
    await press(page, 'whole');
    assert.deepEqual(await at(page), [start]);
    await window.close();
    none(window.troubles);
  });
}

test('without script every question stands on the page and every answer leads to its place', async () => {
  await onEveryPage(open, { script: false }, async (page) => {
    const printed = await key(page);
    const faults = [];
    const all = [...Object.keys(printed.ways), ...printed.ends];
    if ((await at(page)).length !== all.length) faults.push('not the whole key is seen');
    for (const to of Object.values(printed.ways).flat()) if (to.startsWith('#') && !all.includes(to.slice(1))) faults.push(`an answer leads to ${to}, which is not there`);
    const known = shortest(printed);
    for (const id of all) if (!known.has(id)) faults.push(`no way to ${id}`);
    if (await seen(page, '.js-only')) faults.push('buttons are seen that do nothing without script');
    await page.locator('.ways a').first().click();
    if (!page.url().endsWith(printed.ways[printed.start][0])) faults.push('an answer does not lead on');
    return faults;
  }, TREES);
});
