// Find works from the folder alone: whatever is in the index is found by its name, slips of spelling are understood, and
// nothing that is typed leaves the page.

import { strict as assert } from 'node:assert';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { BOUND, browser, none, pages, reader, text } from './harness.mjs';

let open;
let window;
before(async () => {
  open = await browser();
  window = await reader(open);
});
after(() => open.close());

// The addresses found for what is typed, best first, as a reader sees them.
async function finds(typed) {
  await window.turnTo(`find.html?for=${encodeURIComponent(typed)}`);
  await window.page.waitForFunction((typed) => document.getElementById('found').dataset.for === typed, typed.trim());
  return window.page.locator('#found .found a').evaluateAll((links) => links.map((a) => a.getAttribute('href')));
}

// The same, typed into the field of the page that is open.
async function findsAsTyped(typed) {
  await window.page.evaluate((typed) => {
    const field = document.getElementById('find');
    field.value = typed;
    field.dispatchEvent(new Event('input'));
  }, typed);
  await window.page.waitForFunction((typed) => document.getElementById('found').dataset.for === typed, typed.trim());
  return window.page.evaluate(() => [...document.querySelectorAll('#found .found a')].map((a) => a.getAttribute('href')));
}

// Every entry of the index, out of all its parts.
async function indexed() {
  const { counts, block } = JSON.parse(text('kit/find.js').split('["root"]=')[1].replace(/;\s*$/, ''));
  const entries = [];
  const total = counts.reduce((a, b) => a + b, 0);
  for (let i = 0; i * block < total; i += 1) entries.push(...JSON.parse(text(`kit/find/e${i}.js`).split(`["e${i}"]=`)[1].replace(/;\s*$/, '')));
  assert.equal(entries.length, total);
  let kind = 0;
  let left = counts[0];
  return entries.map(([t, h, l, s]) => {
    while (left === 0) { kind += 1; left = counts[kind]; }
    left -= 1;
    return { t, h, l, s, k: kind };
  });
}

test('what is typed in the field is found as it is typed', async () => {
  const { page } = window;
  await window.turnTo('find.html');
  await page.locator('main input[type=search]').fill('superheat');
  await page.locator('#found .found a').first().waitFor();
  assert.match(await page.locator('#taken').innerText(), /\d/);
  await page.locator('#found .found a').first().click();
  assert.match(page.url(), /superheat/);
});

test('the field of the front board leads to what was typed there', async () => {
  const { page } = window;
  await window.turnTo('index.html');
  await page.locator('main input[type=search]').fill('subcooling');
  await page.keyboard.press('Enter');
  await page.waitForURL(/find\.html\?for=subcooling/);
  await page.locator('#found .found a').first().waitFor();
});

test('the field in the tail of a lesson leads to what was typed there', async () => {
  const { page } = window;
  await window.turnTo(pages().find((name) => name.startsWith('lesson/')));
  await page.locator('.tail input[type=search]').fill('glide');
  await page.keyboard.press('Enter');
  await page.waitForURL(/find\.html\?for=glide/);
  await page.locator('#found .found a').first().waitFor();
});

for (const [what, typed, leads] of [
  ['a term', 'superheat', /^terms\.html#|^lesson\/superheat/],
  ['a term that is misspelled', 'superheet', /superheat/],
  ['a term with two letters changed round', 'subcoolign', /subcooling/],
  ['a refrigerant as it is spoken', 'r410a', /r-410a/],
  ['a refrigerant without its letter', '410a', /r-410a/],
  ['a refrigerant in pieces', 'R 454 B', /r-454b/],
  ['a symptom', 'superheat high', /^tree\/superheat-high/],
  ['a symptom in other words', 'superheat reads high', /^tree\/superheat-high/],
  ['a term with a letter too many', 'supperheat', /superheat/],
  ['a term with its first letter wrong', 'xuperheat', /superheat/],
  ['two words, both misspelled', 'ecpansion vlave', /expansion-valve/],
  ['a short word with a letter wrong', 'cail', /coil/],
  ['a word with its ending changed round', 'chargign', /charging/],
  ['a short one with its ending changed round', 'settign', /setting/],
  ['a word whose ending lacks a letter', 'condensng', /condens/],
  ['a term by another of its endings', 'superheated', /superheat/],
  ['a lesson by what is done in it', 'evacuating', /^lesson\/evacuation/],
  ['a word half typed', 'subco', /subcooling/],
  ['a word with its ending half typed', 'evaporati', /evaporat/],
  ['a word that is cut shorter when whole', 'superhea', /superheat/],
  ['a beginning of many words', 'su', /superheat|subcooling|suction/],
  ['another name', 'txv', /expansion-valve/],
  ['what a question is about', 'what is superheat', /superheat/],
  ['a symptom in a question', 'why is the superheat so high', /^tree\/superheat-high/],
  ['a job in a question', 'how do you braze a valve', /^sheet\/braze|braz/],
]) {
  test(`${what} is found: ${typed}`, async () => {
    const found = await finds(typed);
    assert.ok(found.slice(0, 6).some((to) => leads.test(to)), `first six: ${found.slice(0, 6).join(', ') || 'nothing'}`);
  });
}

test('what fills the screen comes with the words, without a part of its own, and the address tells it to one who comes back', async () => {
  for (const typed of ['superheat', 'subco', 'txv']) {
    await window.turnTo('find.html');
    const taken = await window.page.evaluate((typed) => new Promise((done) => {
      const found = document.getElementById('found');
      new MutationObserver((_, watch) => {
        if (found.dataset.best !== typed) return;
        watch.disconnect();
        // The names of the parts by then, and how much is shown of them. The address follows at once.
        const then = { parts: Object.keys(window.handbook), shown: found.querySelectorAll('.found a').length };
        setTimeout(() => done({ address: location.search, ...then }));
      }).observe(found, { attributes: true, attributeFilter: ['data-best'] });
      const field = document.getElementById('find');
      field.value = typed;
      field.dispatchEvent(new Event('input'));
    }), typed);
    assert.equal(taken.shown, 3, typed);
    assert.equal(taken.address, `?for=${typed}`);
    assert.deepEqual(taken.parts.filter((name) => /^e\d/.test(name)), [], typed);
  }
});

test('what a question begins with is neither a slip nor something that must be found', async () => {
  for (const typed of ['what is superheat', 'does superheat', 'would should superheat']) {
    const found = await finds(typed);
    assert.doesNotMatch(await window.page.locator('#taken').innerText(), /taken as/i, typed);
    // The lesson called so, not whatever has every word in its title.
    assert.equal(found[0], 'lesson/superheat.html', typed);
  }
  assert.ok((await finds('how to')).length > 0, 'nothing but such words: they count');
});

test('a slip in a usual word is known without a list of spellings', async () => {
  for (const typed of ['xuperheat', 'ebaporator', 'ecpansion']) {
    await finds(typed);
    const parts = await window.page.evaluate(() => Object.keys(window.handbook));
    assert.deepEqual(parts.filter((name) => /^[lm]/.test(name)), [], typed);
    assert.ok(parts.some((name) => /^w\d/.test(name)), typed);
  }
});

test('everything in the index is found by its title, and is where the index says', async () => {
  await window.turnTo('find.html');
  const entries = await indexed();
  assert.ok(entries.length > pages().length / 2, `${entries.length} entries only`);
  const faults = [];
  for (const { t: title, h: to, k: kind } of entries) {
    if (!existsSync(path.join(BOUND, to.split('#')[0]))) faults.push(`${title}: no page ${to}`);
    const same = entries.filter((e) => e.t === title && e.k === kind).length;
    const found = await findsAsTyped(title);
    // At most eight of a kind are shown.
    if (same <= 8 && !found.includes(to)) faults.push(`${title}: ${to} is not among ${found.length} found`);
  }
  none(faults);
});

test('every lesson, tree and refrigerant is in the index', async () => {
  await window.turnTo('find.html');
  const known = new Set((await indexed()).map((e) => e.h.split('#')[0]));
  none(pages().filter((name) => /^(lesson|tree|refrigerant)\//.test(name) && !known.has(name)).map((name) => `${name} can't be found`));
});

test('a reading with its unit and a refrigerant is answered at once, and its rows are marked in the table', async () => {
  const { page } = window;
  for (const [typed, unit, system] of [['118 psig r410a', /°F/, 'us'], ['R-410A 8 bar', /°C/, 'si'], ['40 °F 410a', /psig/, 'us']]) {
    await finds(typed);
    const shown = await page.locator('.at-once').innerText();
    assert.match(shown, unit, typed);
    assert.match(shown, /R-410A/);
    await page.locator('.at-once a').first().click();
    await page.waitForURL(/lesson\/r-410a\.html\?lay=/);
    const rows = await page.locator(`.${system} .laid-from, .${system} .laid-to`).evaluateAll((all) => all.map((row) => [...row.cells].map((cell) => Number(cell.textContent.replace('−', '-')))));
    const typedNumber = Number(/\b(118|8|40)\b/.exec(typed)[0]);
    // The figure lies in one of the columns between the two rows, or is one of them.
    const ends = [rows[0], rows.at(-1)];
    assert.ok(ends[0].some((low, i) => low <= typedNumber && typedNumber <= ends[1][i]), `${typed}: ${JSON.stringify(rows)}`);
    assert.ok(await page.locator('.laid-from').first().isVisible());
  }
  // A kilopascal is a hundredth of a bar.
  await finds('350 kPa R134a');
  const kilopascals = await page.locator('.at-once dd').first().innerText();
  await finds('3.5 bar R134a');
  assert.equal(await page.locator('.at-once dd').first().innerText(), kilopascals);
  await finds('9000 psig r410a');
  assert.match(await page.locator('.at-once').innerText(), /Outside the table/);
});

for (const [typed, refrigerant, input, written] of [
  ['118 psig r410a', 'R-410A', 'suction pressure', '118'],
  ['8 bar r134a', 'R-134a', 'suction pressure', '8 barg'],
  ['45F 410a', 'R-410A', 'suction line temperature', '45'],
]) {
  test(`a reading offers the superheat form with it filled in: ${typed}`, async () => {
    const { page } = window;
    await finds(typed);
    await page.locator('.at-once a[href^="computation/superheat.html"]').click();
    const form = page.locator('.workform').first();
    await form.locator('xpath=self::*[@data-done]').waitFor();
    assert.equal(await form.locator('[name="refrigerant"]').inputValue(), refrigerant);
    assert.equal(await form.locator(`[name="${input}"]`).inputValue(), written);
    assert.match(await form.locator('[data-answer] .answer').innerText(), /\d/);
  });
}

test('a symptom is found by its name among other words', async () => {
  for (const [typed, tree] of [['valve hunting', 'tree/hunting.html'], ['frost on the bulb', 'tree/frost.html'], ['high head pressure', 'tree/head-high.html']]) {
    const found = await finds(typed);
    assert.ok(found.includes(tree), `${typed}: ${tree} is not among ${found.length} found`);
  }
});

test('what is not there is said to be not there', async () => {
  assert.deepEqual(await finds('zqxjkv'), []);
  assert.match(await window.page.locator('#taken').innerText(), /zqxjkv/);
});

test('what is typed is text, whatever is typed', async () => {
  for (const typed of ['<img src=x onerror=alert(1)>superheat', '"><b>', '%', '((', '\\', '__proto__', 'constructor', '🥶', ' '.repeat(50)]) {
    await finds(typed);
    assert.equal(await window.page.locator('#found img, #taken b').count(), 0, typed);
  }
});

test('nothing went wrong meanwhile, and nothing was asked of anyone', () => none(window.troubles));

test('without script the find page leads to the printed index', async () => {
  const still = await reader(open, { script: false });
  await still.turnTo('find.html');
  await still.page.locator('main .no-js a').click();
  assert.match(still.page.url(), /words\.html/);
  assert.ok((await still.page.locator('main a').count()) > 30);
  await still.close();
  none(still.troubles);
});
