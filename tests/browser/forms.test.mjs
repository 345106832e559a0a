// Forms: what the page reckons is what `coldpress reckon` reckons, for every computation, in both systems of units; what is
// typed is read as the program reads it; the altitude is the reader's own where one is set; without script the worked case
// stands there.

import { strict as assert } from 'node:assert';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { browser, none, pages, reader, text } from './harness.mjs';
import { BEYOND, alike, answer, blanksOf, digits, drawn, fill, lot, number, plain, said, settled, shell } from './reckoning.mjs';

// Their properties are not in the tables that pages carry; they are shown worked.
const NOT_IN_A_PAGE = ['heat-capacity', 'viscosity'];
const DRAWS = 3; // in each system of units

let open;
before(async () => { open = await browser(); });
after(() => open.close());

const computations = pages().filter((name) => name.startsWith('computation/'));
const units = (page, system) => page.evaluate((system) => document.querySelector(`label[for=units-${system}]`).click(), system);

test('every computation has a form, which gives what the program gives, whatever is filled in', { timeout: 900_000 }, async () => {
  assert.ok(computations.length > 90);
  const window = await reader(open);
  const faults = [];
  let compared = 0, refused = 0;
  for (const leaf of computations) {
    const name = path.basename(leaf, '.html');
    await window.turnTo(leaf);
    const { page } = window, form = page.locator('.workform');
    if (NOT_IN_A_PAGE.includes(name)) {
      if (await form.count() !== 0) faults.push(`${name}: a form, where no page can reckon`);
      if (!await page.locator('[data-answer] .answer').isVisible()) faults.push(`${name}: no worked case`);
      continue;
    }
    if (await form.count() !== 1) { faults.push(`${name}: ${await form.count()} forms`); continue; }
    await settled(page);
    const draw = lot(name);
    for (const system of ['us', 'si']) {
      await units(page, system);
      await page.waitForTimeout(20);
      const blanks = await blanksOf(form);
      for (let n = 0; n < DRAWS; n++) {
        const { typed, asked } = drawn(blanks, draw);
        await fill(page, form, typed);
        const [found, wanted] = [await answer(form), await shell(name, asked)];
        const told = await said(form);
        if (wanted.refused) {
          refused += 1;
          if (told === '') faults.push(`${name} ${JSON.stringify(asked)}: page ${JSON.stringify(found)}, program refuses: ${wanted.refused}`);
          continue;
        }
        compared += 1;
        // What lies outside the tables that a page carries is refused and not guessed.
        if (BEYOND.test(told)) { refused += 1; continue; }
        if (told !== '' || !alike(found.us, wanted.us) || !alike(found.si, wanted.si)) {
          faults.push(`${name} ${JSON.stringify(asked)}: page ${told || JSON.stringify(found)}, program ${JSON.stringify(wanted)}`);
        }
      }
    }
    faults.push(...window.troubles.splice(0).map((trouble) => `${name}: ${trouble}`));
  }
  await window.close();
  none(faults);
  assert.ok(compared > computations.length * DRAWS && refused < compared / 5, `${compared} compared, ${refused} refused`);
});

test('the case shown without script is the one that the script reckons, in lessons and in the reference', { timeout: 300_000 }, async () => {
  const still = await reader(open, { script: false }), quick = await reader(open);
  const faults = [];
  let onTheWay = 0;
  const withForms = pages().filter((name) => text(name).includes('class="workform'));
  assert.ok(withForms.some((name) => name.startsWith('lesson/')));
  for (const name of withForms) {
    await still.turnTo(name);
    await quick.turnTo(name);
    await settled(quick.page);
    const count = await still.page.locator('.workform').count();
    for (let n = 0; n < count; n++) {
      const [there, here] = [await answer(still.page.locator('.workform').nth(n)), await answer(quick.page.locator('.workform').nth(n))];
      // A case that its author gave in units of the other system stands in the blanks rounded.
      if (!alike(here.us, there.us, 0.02) || !alike(here.si, there.si, 0.02)) faults.push(`${name}, form ${n + 1}: ${JSON.stringify(here)}, printed ${JSON.stringify(there)}`);
      const listed = (window) => window.page.locator('.workform').nth(n).locator('[data-step]').evaluateAll((rows) => rows.map((row) => row.dataset.step).join('; '));
      const [steps, again] = [await listed(still), await listed(quick)];
      if (steps !== again) faults.push(`${name}, form ${n + 1}: on the way the page lists ${again || 'nothing'}, printed ${steps || 'nothing'}`);
      onTheWay += steps.split('; ').filter(Boolean).length;
      const shut = await still.page.locator('.workform').nth(n).locator('.blanks').isVisible();
      const worked = await still.page.locator('.workform').nth(n).locator('.no-js').isVisible();
      if (shut || !worked) faults.push(`${name}, form ${n + 1}: without script there are blanks, or no worked case`);
    }
    faults.push(...quick.troubles.splice(0).map((trouble) => `${name}: ${trouble}`));
  }
  await still.close();
  await quick.close();
  none(faults);
  assert.ok(onTheWay > 50, `${onTheWay} figures on the way were compared`);
});

test('what is typed is read as the program reads it, and refused in the same words', async () => {
  const typed = [
    '118', '118psig', '118 PSIG', '118 psi', '12 bar', '8.1 barg', '814 kPa', '15 inHg vac', '15 inHg', '26 in. Hg vac.', '−3 psig', '--3 psig',
    '118,5', '1,180 psig', '118 psgi', '52 °F', '118 furlongs', '1.1.8', 'about 118', '118 psig or so', '0.9 MPag', '132.2 psia', '-20 psig',
    '500 microns', '9 bar(g)', '12 bar a', '118 psi gauge', '7/8 psig', '3 mPa', '118\u00a0psig', '1e2 psig',
  ];
  const window = await reader(open);
  await window.turnTo('computation/dew-temperature.html');
  const form = window.page.locator('.workform');
  await settled(window.page);
  const faults = [];
  for (const one of typed) {
    await fill(window.page, form, { refrigerant: 'R-410A', pressure: one });
    // A number alone is in the unit beside the blank, which a shell has none of.
    const bare = /^[−-]?\d+(,\d{3})*(\.\d+)?$/.test(one);
    const wanted = await shell('dew-temperature', { refrigerant: 'R-410A', pressure: bare ? `${one} psig` : one });
    const [found, told] = [await answer(form), await said(form)];
    // The ends of what is known are told to more digits than the page's tables are near.
    const words = (says) => plain(says).replace(/^pressure: /, '').replace(/; it is known from.*/, '');
    if (wanted.refused ? words(told) !== words(wanted.refused) : told !== '' || !alike(found.us, wanted.us)) {
      faults.push(`${JSON.stringify(one)}: page ${told || found.us}, program ${wanted.refused ?? wanted.us}`);
    }
    if (wanted.refused && await form.locator('[name=pressure][aria-invalid=true]').count() === 0 && !/no dew temperature/.test(told)) faults.push(`${one}: the blank is not marked`);
  }
  await window.close();
  none(faults);
});

test('a reader turns the units, sets an altitude and goes back to the handbook’s; a verdict is said in words', async () => {
  const window = await reader(open, { width: 390, height: 844 });
  const { page } = window;
  await window.turnTo('lesson/superheat.html');
  const form = page.locator('.workform').first();
  await settled(page);
  const blank = (name) => form.locator(`[name="${name}"]`);
  assert.match(await form.locator('.verdict').innerText(), /^Within the 8 to 18/);
  await blank('suction line temperature').fill('70');
  await page.waitForFunction(() => /Above/.test(document.querySelector('.workform .verdict').textContent));
  await blank('suction line temperature').fill('45');
  await page.waitForFunction(() => /Below/.test(document.querySelector('.workform .verdict').textContent));
  await blank('suction line temperature').fill('');
  await page.waitForFunction(() => /Fill in suction line temperature/.test(document.querySelector('.workform .verdict').textContent));
  assert.equal(plain(await form.locator('[data-answer] .answer').innerText()), '—');
  await blank('suction line temperature').fill('52');

  // A number alone goes over into the other units; one with its unit stays as it was typed.
  await units(page, 'si');
  await page.waitForFunction(() => document.querySelector('.workform [name="suction pressure"]').value === '8.136');
  assert.equal(await blank('suction line temperature').inputValue(), '11.11');
  assert.equal(plain(await form.locator('[data-answer] .si').innerText()), '6.9 K');
  await blank('suction pressure').fill('118 psig');
  await units(page, 'us');
  await page.waitForTimeout(300);
  assert.equal(await blank('suction pressure').inputValue(), '118 psig');
  await blank('suction pressure').fill('118');

  // The reader's own altitude is kept, on every leaf, until it is given back.
  await page.waitForTimeout(300);
  const before = plain(await form.locator('[data-answer] .us').innerText());
  await blank('altitude').fill('5280');
  await page.waitForFunction((before) => document.querySelector('.workform [data-answer] .us').textContent.replaceAll('\u00a0', ' ') !== before, before);
  const wanted = await shell('superheat', { refrigerant: 'R-410A', 'suction pressure': '118 psig', 'suction line temperature': '52 °F', altitude: '5280 ft' });
  assert.ok(alike(await form.locator('[data-answer] .us').innerText(), wanted.us));
  assert.ok(await form.locator('[data-own]').isVisible());
  await window.turnTo('computation/dew-temperature.html');
  await settled(page);
  assert.equal(await page.locator('.workform [name=altitude]').inputValue(), '5280');
  await page.locator('.workform [data-own] button').click();
  await page.waitForFunction(() => document.querySelector('.workform [name=altitude]').value === '890');
  assert.equal(await page.locator('.workform [data-own]').isVisible(), false);
  await window.turnTo('lesson/superheat.html');
  await settled(page);
  assert.equal(plain(await page.locator('.workform [data-answer] .us').first().innerText()), before);

  // The working has the reader's numbers in it.
  await page.locator('.workform [name="suction pressure"]').first().fill('130');
  await page.waitForFunction(() => /130/.test(document.querySelector('.workform .working .sum math').textContent));
  const lines = await page.locator('.workform').first().locator('.working .sum .us').allTextContents();
  assert.ok(lines.some((line) => /130.psig\+14\.23.psia=144\.23.psia/.test(line)), lines.join('\n'));
  none(window.troubles);
  await window.close();
});
