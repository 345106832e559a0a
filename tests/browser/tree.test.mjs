// A diagnosis is worked through question by question. Every way that the engine says leads through a tree is walked in the
// page, by touch and by keyboard alone, and must end where the engine ends: answers in words are pressed, readings typed
// with their units. Ways that begin alike are walked together as far as they do; from each end the page is led back step
// by step to where the next one turns off. Without script the same key is read from the page.
//
// The ways, with readings that lead along them, are written by `examples/tree_ways.rs`; see `tests/run`.

import { strict as assert } from 'node:assert';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { after, before, describe, test } from 'node:test';
import { inflateSync } from 'node:zlib';
import { BOUND, browser, none, onEveryPage, pages, reader, seen } from './harness.mjs';

let open;
before(async () => { open = await browser(); });
after(() => open.close());

const WRITTEN = process.env.WAYS ?? path.join(BOUND, '../ways.json');
assert.ok(existsSync(WRITTEN), `no ways in ${WRITTEN}: run \`cargo run --release --example tree_ways > target/browser-test/ways.json\` first`);
const WAYS = JSON.parse(readFileSync(WRITTEN, 'utf8'));
const TREES = pages().filter((name) => name.startsWith('tree/'));
const nameOf = (page) => page.slice('tree/'.length, -'.html'.length);

// The key as it is printed: its first question, and for each question where its answers lead.
const key = (page) => page.evaluate(() => ({
  start: document.querySelector('.key').dataset.start,
  ways: Object.fromEntries([...document.querySelectorAll('.key .step')].map((step) => [
    step.id, [...step.querySelectorAll('.ways a')].map((a) => a.getAttribute('href')),
  ])),
  ends: [...document.querySelectorAll('.ends .end')].map((end) => end.id),
}));
const opened = (page) => page.evaluate(() => [...document.querySelectorAll('.step.open,.end.open')].map((n) => n.id).join(' '));
const at = (page) => page.locator('.key .step, .ends .end').filter({ visible: true }).evaluateAll((all) => all.map((n) => n.id));
const record = (page) => page.evaluate(() => [...document.querySelectorAll('[data-readings] tr:not(.blank-row)')]
  .filter((row) => row.cells.length === 3).map((row) => [...row.cells].map((cell) => cell.innerText.trim())));
const when = (page, id, answer) => page.locator(`#${id} .ways a`).nth(answer).locator('.if').innerText().then((text) => text.trim());
const arrived = (page, id) => page.waitForFunction((id) => document.querySelector('.open')?.id === id, id);
const press = (page, act) => page.locator(`[data-act=${act}]`).click();

// Two pairs of hands. A finger presses, and chooses units from their list; a keyboard goes by Tab and types units.
const finger = {
  press: (page, what) => page.locator(what).tap(),
  async take(page, id, takes) {
    for (const [i, [, number, unit]] of takes.entries()) {
      const field = page.locator(`#${id}-${i + 1}`);
      if (await field.evaluate((n) => n.tagName) === 'SELECT') { await field.selectOption(number); continue; }
      await field.tap();
      await field.fill(number);
      await page.locator(`#${id} .blank`).nth(i).locator('select').selectOption(unit);
    }
    await page.locator(`#${id} .take [type=submit]`).tap();
  },
};
async function tabTo(page, what) {
  // So often as there should be places to stop at on the way; then one by one, looking each time.
  const between = await page.evaluate((what) => {
    const stops = [...document.querySelectorAll('a[href],button,input,select,textarea,summary,[tabindex]')]
      .filter((n) => n.tabIndex >= 0 && !n.disabled && n.checkVisibility({ visibilityProperty: true }));
    return stops.indexOf(document.querySelector(what)) - stops.indexOf(document.activeElement);
  }, what);
  for (let i = 0; i < between; i++) await page.keyboard.press('Tab');
  for (let i = 0; i < 150; i++) {
    if (await page.evaluate((what) => document.activeElement === document.querySelector(what), what)) return;
    await page.keyboard.press('Tab');
  }
  assert.fail(`${what} is not come to by Tab`);
}
const keyboard = {
  async press(page, what) { await tabTo(page, what); await page.keyboard.press('Enter'); },
  async take(page, id, takes) {
    for (const [i, [, number, unit]] of takes.entries()) {
      const field = `#${id}-${i + 1}`;
      await tabTo(page, field);
      if (await page.locator(field).evaluate((n) => n.tagName) === 'SELECT') { await page.keyboard.type(number); continue; }
      await page.keyboard.press('Control+A');
      await page.keyboard.type(`${number} ${unit}`.trim());
    }
    await page.keyboard.press('Enter');
  },
};

// The ways of a tree as a tree of steps: by answer, what is typed there and what comes next.
function branches(ways) {
  const root = { next: new Map() };
  for (const { steps, end } of ways) {
    let node = root;
    for (const { question, answer, takes } of steps) {
      node.question = question;
      if (!node.next.has(answer)) node.next.set(answer, { takes, next: new Map() });
      node = node.next.get(answer);
    }
    node.end = end;
  }
  return root;
}

async function walk(page, name, ways, hands) {
  let ends = 0;
  const given = [];
  const step = async (node) => {
    if (node.end !== undefined) {
      ends += 1;
      const other = node.end.startsWith('tree:') && node.end.slice('tree:'.length).trim();
      if (other) {
        await page.waitForURL(new RegExp(`/tree/${other}\\.html`));
        await page.waitForFunction(() => document.querySelector('.open')?.id === document.querySelector('.key').dataset.start);
      } else {
        await arrived(page, `e-${node.end}`);
        assert.ok(await page.evaluate(() => document.querySelector('.open').contains(document.activeElement)), 'the focus did not follow');
      }
      const rows = await record(page), expected = given.flat();
      assert.equal(rows.length, expected.length, `the record of a way to ${node.end}: ${rows.join('; ')}`);
      // What a sum comes to is for the engine's own tests; that it is a figure, and the answer, for these.
      expected.forEach((found, i) => (found === null ? assert.match(rows[i][2], /^[−\d]/) : assert.equal(rows[i][2], found)));
      for (const [time, reading] of rows) {
        assert.match(time, /^\d\d:\d\d$/);
        assert.ok(reading.length > 0);
      }
      return;
    }
    const id = `q-${node.question}`;
    for (const [answer, after] of node.next) {
      await arrived(page, id);
      const words = await when(page, id, answer), summed = await page.evaluate((id) => 'sum' in (document.querySelector(`#${id} .take`)?.dataset ?? {}), id);
      if (after.takes.length) await hands.take(page, id, after.takes);
      else await hands.press(page, `#${id} .ways li:nth-child(${answer + 1}) a`);
      // What is found by a sum is written down as well, between what is typed and what is answered.
      given.push([...after.takes.map(([, number, unit]) => `${number} ${unit}`.trim()), ...(summed && after.takes.length ? [null] : []), words]);
      await step(after);
      given.pop();
      await hands.press(page, '[data-act=back]');
    }
    await arrived(page, id);
  };
  await step(branches(ways));
  assert.equal(ends, ways.length);
  return ends;
}

test('every tree has its ways', () => {
  assert.ok(TREES.length >= 12);
  assert.deepEqual(TREES.map(nameOf).sort(), Object.keys(WAYS).sort());
});

// Two at a time: each waits for its own window most of the time.
describe('every way', { concurrency: 2 }, () => {
  for (const name of TREES) {
    const ways = WAYS[nameOf(name)];
    for (const [by, hands, window] of [
      ['touch', finger, { width: 390, height: 844, hasTouch: true, isMobile: true }],
      ['keyboard', keyboard, {}],
    ]) {
      test(`${name}: ${ways.length} ways by ${by} end where the engine ends`, async () => {
        const on = await reader(open, window);
        await on.turnTo(name);
        await walk(on.page, name, ways, hands);
        assert.deepEqual(await record(on.page), [], 'something stands in the record of a way that was all taken back');
        await on.close();
        none(on.troubles);
      });
    }
  }
});

// The longest way of a tree, walked by what the engine says.
const longest = (name) => [...WAYS[nameOf(name)]].sort((a, b) => b.steps.length - a.steps.length)[0];
async function along(page, way, hands = finger) {
  for (const { question, answer, takes } of way.steps) {
    await arrived(page, `q-${question}`);
    if (takes.length) await hands.take(page, `q-${question}`, takes);
    else await page.locator(`#q-${question} .ways a`).nth(answer).click();
  }
  if (!way.end.startsWith('tree:')) await arrived(page, `e-${way.end}`);
}
const touched = (more = {}) => reader(open, { hasTouch: true, ...more });
const inner = (name) => [...WAYS[nameOf(name)]].filter((way) => !way.end.startsWith('tree:')).sort((a, b) => b.steps.length - a.steps.length)[0];

for (const name of TREES) {
  test(`${name}: the browser's back, a reload, a closed page and beginning again`, async () => {
    const window = await touched();
    const { page } = window;
    await window.turnTo(name);
    const way = inner(name), last = `q-${way.steps.at(-1).question}`, end = `e-${way.end}`;
    const { start } = await key(page);
    await along(page, way);
    const all = await record(page);
    await page.reload();
    assert.equal(await opened(page), end, 'a reload loses the place');
    assert.deepEqual(await record(page), all, 'a reload loses the readings');
    const again = await page.context().newPage();
    await page.close();
    await again.goto(new URL(name, `file://${BOUND}/`).href);
    assert.equal(await opened(again), end, 'a closed page loses the place');
    assert.deepEqual(await record(again), all, 'a closed page loses the readings');
    await press(again, 'back');
    await arrived(again, last);
    assert.ok((await record(again)).length < all.length);
    await again.goBack();
    await arrived(again, end);
    assert.deepEqual(await record(again), all, 'what was not answered anew is gone');
    await press(again, 'again');
    assert.deepEqual(await at(again), [start]);
    assert.deepEqual(await record(again), []);
    await window.close();
    none(window.troubles);
  });

  test(`${name}: the way taken is marked in the key and in the drawing, which is one sheet on paper`, async () => {
    const window = await touched();
    const { page } = window;
    await window.turnTo(name);
    const { ways, ends, start } = await key(page);
    const way = longest(name);
    const beyond = way.end.startsWith('tree:') && way.steps.pop();
    await along(page, { steps: way.steps, end: 'tree:' });
    await arrived(page, beyond ? `q-${beyond.question}` : `e-${way.end}`);
    const taken = way.steps.map(({ question, answer }) => `q-${question}.${answer}`);
    const marked = await page.evaluate(() => ({
      lines: [...new Set([...document.querySelectorAll('.whole-tree g.taken')].map((n) => n.dataset.way))],
      boxes: [...document.querySelectorAll('.whole-tree a.taken')].map((n) => n.getAttribute('href').slice(1)),
      key: [...document.querySelectorAll('.ways a.chosen')].map((n) => `${n.closest('.step').id}.${[...n.closest('.ways').children].indexOf(n.parentNode)}`),
    }));
    assert.deepEqual(marked.lines.sort(), [...taken].sort());
    assert.deepEqual(marked.key.sort(), [...taken].sort());
    assert.deepEqual([...new Set(marked.boxes)].sort(), [...new Set([...way.steps.map((step) => `q-${step.question}`), await opened(page)])].sort());
    await press(page, 'whole');
    assert.deepEqual((await at(page)).sort(), [...Object.keys(ways), ...ends].sort());
    await press(page, 'again');
    await press(page, 'whole');
    assert.deepEqual(await at(page), [start]);
    for (const format of ['A4', 'Letter']) {
      await page.evaluate(() => document.documentElement.classList.add('drawing-only'));
      const points = await lettersOnPaper(page);
      assert.ok(points >= 4.9, `letters of ${points.toFixed(1)} points on paper`);
      assert.equal(sheets(await page.pdf({ format })), 1, `the drawing on ${format}`);
      await page.evaluate(() => document.documentElement.classList.remove('drawing-only'));
    }
    await window.close();
    none(window.troubles);
  });
}

// How large the smallest letters of the whole drawing are on paper, in points.
async function lettersOnPaper(page) {
  await page.emulateMedia({ media: 'print' });
  const pixels = await page.evaluate(() => {
    const sheet = document.querySelector('.on-sheet'), { width, height } = sheet.viewBox.baseVal, room = sheet.getBoundingClientRect();
    const least = Math.min(...[...document.querySelectorAll('.whole-tree svg[role] text')].map((n) => parseFloat(getComputedStyle(n).fontSize)));
    return least * Math.min(room.width / width, room.height / height);
  });
  await page.emulateMedia({ media: null });
  return pixels * 0.75;
}

// How many pages a PDF has: its objects stand in deflated streams.
function sheets(pdf) {
  const raw = pdf.toString('latin1');
  let text = raw;
  for (const { index } of raw.matchAll(/stream\r?\n/g)) {
    const from = raw.indexOf('\n', index) + 1, to = raw.indexOf('endstream', from);
    try { text += inflateSync(pdf.subarray(from, to)).toString('latin1'); } catch { /* a stream of another kind */ }
  }
  return [...text.matchAll(/\/Type\s*\/Page\b(?!s)/g)].length;
}

test('the drawing stays as large as it is on a phone, and is moved sideways', async () => {
  await onEveryPage(open, { width: 390, height: 844 }, async (page) => page.evaluate(() => {
    const figure = document.querySelector('.whole-tree'), faults = [];
    for (const svg of figure.querySelectorAll('svg[role]')) {
      if (Math.abs(svg.getBoundingClientRect().width - svg.viewBox.baseVal.width) > 1) faults.push('a strip is not at its full size');
    }
    const least = Math.min(...[...figure.querySelectorAll('text')].map((n) => parseFloat(getComputedStyle(n).fontSize)));
    if (least < 12) faults.push(`letters of ${least} px`);
    figure.scrollLeft = 1e6;
    if (figure.querySelector('svg').getBoundingClientRect().width > 390 && figure.scrollLeft === 0) faults.push('it can not be moved');
    if (document.documentElement.scrollWidth > innerWidth) faults.push('it pushes the page wide');
    return faults;
  }), TREES);
});

test('where nothing can be stored, the record is kept while the window is open', async () => {
  const window = await touched();
  const { page } = window;
  await page.addInitScript(() => Object.defineProperty(window, 'localStorage', { get() { throw new DOMException('refused', 'SecurityError'); } }));
  const name = TREES.find((name) => WAYS[nameOf(name)].some((way) => way.end.startsWith('tree:')));
  await window.turnTo(name);
  const way = WAYS[nameOf(name)].find((way) => way.end.startsWith('tree:'));
  await along(page, way);
  await page.waitForURL(new RegExp(`/${way.end.slice('tree:'.length).trim()}\\.html`));
  const all = await record(page);
  assert.ok(all.length >= way.steps.length, 'the record did not come along into the other tree');
  await page.reload();
  assert.deepEqual(await record(page), all);
  await window.close();
  none(window.troubles);
});

test('a record from a tree that has changed since, or no record at all, does no harm', async () => {
  const window = await touched();
  const { page } = window;
  await window.turnTo(TREES[0]);
  const { start } = await key(page);
  const here = TREES[0].split('/').pop();
  for (const kept of [
    'no JSON', '17', 'null', '{}', '{"by":{}}', '{"at":"x","by":{"x":{}}}',
    JSON.stringify({ at: here, by: { [here]: { begun: 0, note: '', index: 1, typed: {}, steps: [{ page: here, tree: 'A', from: 'q-gone', n: 3, to: '#q-gone-too', gate: 'Gone', found: { us: 'a', si: 'a' }, at: 0 }] } } }),
  ]) {
    await page.evaluate((kept) => Object.keys(localStorage).filter((k) => k.startsWith('pocketbook.jobs')).concat(`pocketbook.jobs.${location.pathname.split('/').slice(0, -1).join('/')}`).forEach((k) => localStorage.setItem(k, kept)), kept);
    await page.goto('about:blank');
    await window.turnTo(TREES[0]);
    assert.equal(await opened(page), start, kept);
  }
  await window.close();
  none(window.troubles);
});

test('what is typed is read with its unit, and what is no reading is said to be none', async () => {
  const window = await touched();
  const { page } = window;
  await window.turnTo('tree/superheat-high.html');
  await page.locator('#q-instruments .ways a').first().click();
  await page.locator('#q-air-path .ways a').first().click();
  await arrived(page, 'q-airflow');
  const field = page.locator('#q-airflow-1'), verdict = page.locator('#q-airflow .verdict');
  assert.equal(await field.getAttribute('inputmode'), 'decimal');
  assert.ok((await field.boundingBox()).height >= 44);
  for (const [typed, found] of [
    ['349.99', 'below 350 cfm/ton'], ['350', '350 to 450 cfm/ton'], ['449.9 cfm/ton', '350 to 450 cfm/ton'], ['450', '450 cfm/ton and above'],
    ['1,200', '450 cfm/ton and above'], ['40 L/(s·kW)', 'below 350 cfm/ton'], ['−5', 'below 350 cfm/ton'],
  ]) {
    await field.fill(typed);
    assert.equal((await verdict.locator('.us').innerText()).replace(/\s+/g, ' '), found, typed);
    await page.locator('#q-airflow .blank select').selectOption('cfm/ton');
  }
  for (const typed of ['', 'much', '3 psig', '1 2']) {
    await field.fill(typed);
    await page.locator('#q-airflow [type=submit]').click();
    assert.equal(await opened(page), 'q-airflow', typed);
    await verdict.filter({ hasText: typed === '' ? /No reading/ : /write|begin|unit/ }).waitFor();
    assert.ok(await field.evaluate((n) => n === document.activeElement), 'the blank is not pointed at');
  }
  await window.close();
  none(window.troubles);
});

test('the record is copied and saved as it stands, quotes and commas and all', async () => {
  const window = await touched({ acceptDownloads: true });
  const { page } = window;
  await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
  await window.turnTo('tree/superheat-high.html');
  await page.locator('#job').fill('Walk-in 2, "apple store"');
  const way = WAYS['superheat-high'].find((way) => way.end === 'restore-airflow' && way.steps.length === 3);
  await along(page, way);
  const [time] = (await record(page))[0];
  const [download] = await Promise.all([page.waitForEvent('download'), page.locator('[data-record=save]').click()]);
  assert.match(download.suggestedFilename(), /^superheat-high-\d{4}-\d\d-\d\d\.csv$/);
  const saved = readFileSync(await download.path(), 'utf8');
  assert.ok(saved.startsWith('\ufeff') && saved.endsWith('\r\n'));
  const rows = parsed(saved.slice(1));
  assert.deepEqual(rows[0], ['Job, machine, place', 'Date', 'Time', 'Diagnosis', 'Reading', 'Found']);
  assert.ok(rows.every((row) => row.length === 6));
  for (const row of rows.slice(1)) assert.equal(row[0], 'Walk-in 2, "apple store"');
  assert.match(rows[1][1], /^\d{4}-\d\d-\d\d$/);
  assert.equal(rows[1][2], time);
  const [, number, unit] = way.steps[2].takes[0];
  assert.deepEqual(rows.slice(1).map((row) => row.slice(3, 6)).slice(0, 4), [
    ['Superheat reads high', 'Instruments', 'they can'], ['Superheat reads high', 'Air path', 'yes, comfort cooling'],
    ['Superheat reads high', 'airflow per ton', `${number} ${unit}`], ['Superheat reads high', 'Airflow', 'below 350\u00a0cfm/ton'],
  ]);
  assert.equal(rows.at(-1)[4], 'Outcome');
  assert.match(rows.at(-1)[5], /^Restore airflow\. /);
  await page.locator('[data-record=copy]').click();
  await page.waitForFunction(() => document.querySelector('[data-copied]').textContent !== '');
  const copied = await page.evaluate(() => navigator.clipboard.readText());
  assert.deepEqual(copied.split('\n').map((line) => line.split('\t')), rows);
  await window.close();
  none(window.troubles);
});

// RFC 4180.
function parsed(csv) {
  const rows = [];
  let row = [], cell = '', quoted = false;
  for (let i = 0; i < csv.length; i++) {
    const c = csv[i];
    if (quoted && c === '"' && csv[i + 1] === '"') { cell += '"'; i += 1; } else if (c === '"') quoted = !quoted;
    else if (!quoted && c === ',') { row.push(cell); cell = ''; } else if (!quoted && c === '\r' && csv[i + 1] === '\n') { rows.push([...row, cell]); row = []; cell = ''; i += 1; } else cell += c;
  }
  return rows;
}

test('printed, the record is the readings and the outcome, on one sheet', async () => {
  const window = await touched();
  const { page } = window;
  await window.turnTo('tree/superheat-high.html');
  await along(page, inner('tree/superheat-high.html'));
  await page.evaluate(() => { window.print = () => { window.printed = document.documentElement.className; }; });
  await page.locator('[data-record=print]').click();
  assert.match(await page.evaluate(() => window.printed), /\brecord-only\b/);
  await page.emulateMedia({ media: 'print' });
  assert.equal(await seen(page, '.key'), false);
  assert.equal(await seen(page, '.whole-tree'), false);
  assert.equal(await page.locator('.end').filter({ visible: true }).count(), 1);
  assert.ok(await seen(page, '[data-readings] tr'));
  assert.equal(sheets(await page.pdf({ format: 'A4' })), 1);
  await page.evaluate(() => window.dispatchEvent(new Event('afterprint')));
  assert.ok(await seen(page, '.key'));
  await window.close();
  none(window.troubles);
});

test('without script every question stands on the page and every answer leads to its place', async () => {
  await onEveryPage(open, { script: false }, async (page) => {
    const printed = await key(page);
    const faults = [];
    const all = [...Object.keys(printed.ways), ...printed.ends];
    if ((await at(page)).length !== all.length) faults.push('not the whole key is seen');
    for (const to of Object.values(printed.ways).flat()) if (to.startsWith('#') && !all.includes(to.slice(1))) faults.push(`an answer leads to ${to}, which is not there`);
    const numbers = await page.locator('.step-no').allInnerTexts();
    if (numbers.join() !== numbers.map((_, i) => i + 1).join()) faults.push(`questions are numbered ${numbers}`);
    if (await seen(page, '.js-only')) faults.push('something is seen that does nothing without script');
    await page.locator('.ways a').first().click();
    if (!page.url().endsWith(printed.ways[printed.start][0])) faults.push('an answer does not lead on');
    return faults;
  }, TREES);
});

test('every question says why, how, what to mind and where it is taught; every outcome what to write down and mind', async () => {
  await onEveryPage(open, { script: false }, async (page) => page.evaluate(() => {
    const faults = [];
    for (const step of document.querySelectorAll('.step')) {
      if (!step.querySelector('.why') || step.querySelectorAll('.how').length !== 3 || !step.querySelector('.how a[href^="../lesson/"]')) faults.push(`${step.id} does not say all of it`);
    }
    for (const end of document.querySelectorAll('.end')) if (!end.querySelector('.record') || !end.querySelector('.notice')) faults.push(`${end.id} does not say all of it`);
    return faults;
  }), TREES);
});
