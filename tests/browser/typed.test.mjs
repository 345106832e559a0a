// Forms for a refrigerant known by a published table only: what the page reckons between its points is what `coldpress
// reckon` reckons; outside of them, and where more than saturation is asked, it is refused. The handbook is `tests/typed`.

import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { COLDPRESS, alike, answer, fill, plain, root, said, settled, shell } from './reckoning.mjs';

const book = path.join(root, 'tests/typed');
const dir = mkdtempSync(path.join(tmpdir(), 'coldpress-typed-'));
execFileSync(COLDPRESS, ['bind', book, '--into', path.join(dir, 'bound')], { cwd: dir, stdio: 'ignore' });
process.env.BOUND = path.join(dir, 'bound');
const { browser, none, reader } = await import('./harness.mjs');

let open;
before(async () => { open = await browser(); });
after(async () => { await open.close(); rmSync(dir, { recursive: true }); });

const FLUID = 'R-XXX';
const program = (name, given) => shell(name, { refrigerant: FLUID, ...given }, ['--with', book]);

// Every computation that saturation is enough for, filled in from end to end of the points: −40 to 140 °F, 8.5 to 514 psig.
const CASES = {
  'bubble-pressure': [-39.5, -3, 0, 41.7, 88, 139].map((t) => ({ temperature: `${t} °F` })),
  'dew-pressure': [-40, -22.2, 5, 60, 139.9].map((t) => ({ temperature: `${t} °F` })),
  'bubble-temperature': ['11 psig', '118 psig', '20 bara', '513 psig'].map((p) => ({ pressure: p })),
  'dew-temperature': ['9 psig', '118 psig', '800 kPa', '499 psig'].map((p) => ({ pressure: p })),
  glide: ['11 psig', '118 psig', '300 psig'].map((p) => ({ pressure: p })),
  superheat: [[12, -20], [60, 32], [118, 52], [140, 40]].map(([p, t]) => ({ 'suction pressure': `${p} psig`, 'suction line temperature': `${t} °F` })),
  subcooling: [[150, 40], [280, 80], [340, 95], [510, 150]].map(([p, t]) => ({ 'liquid pressure': `${p} psig`, 'liquid line temperature': `${t} °F` })),
};

test('between its points a form gives what the program gives', { timeout: 300_000 }, async () => {
  const window = await reader(open);
  const faults = [];
  for (const [name, cases] of Object.entries(CASES)) {
    await window.turnTo(`computation/${name}.html`);
    const form = window.page.locator('.workform');
    await settled(window.page);
    for (const given of cases) {
      await fill(window.page, form, { refrigerant: FLUID, ...given });
      const [found, wanted, told] = [await answer(form), await program(name, given), await said(form)];
      if (wanted.refused || told !== '' || !alike(found.us, wanted.us) || !alike(found.si, wanted.si)) {
        faults.push(`${name} ${JSON.stringify(given)}: page ${told || JSON.stringify(found)}, program ${JSON.stringify(wanted)}`);
      }
    }
  }
  faults.push(...window.troubles);
  await window.close();
  none(faults);
});

test('in a lesson superheat is read off the dew column and subcooling off the bubble column', async () => {
  const window = await reader(open);
  await window.turnTo('lesson/two-readings.html');
  await settled(window.page);
  // On the card 60 psig of dew lies between 10 and 20 °F, 280 psig of bubble between 90 and 100 °F.
  for (const [n, name, given, less] of [
    [0, 'superheat', { 'suction pressure': '60 psig', 'suction line temperature': '32 °F' }, [12, 22]],
    [1, 'subcooling', { 'liquid pressure': '280 psig', 'liquid line temperature': '80 °F' }, [10, 20]],
  ]) {
    const form = window.page.locator('.workform').nth(n);
    const [before, wanted] = [await answer(form), await program(name, given)];
    assert.ok(alike(before.us, wanted.us), `${name}: page ${before.us}, program ${wanted.us}`);
    assert.ok(parseFloat(plain(before.us)) > less[0] && parseFloat(plain(before.us)) < less[1], before.us);
    // The same readings on the blend whose figures the card has, by its equations: within a tenth of a degree and a digit.
    await fill(window.page, form, { refrigerant: 'R-454B' });
    const after = await answer(form);
    assert.ok(Math.abs(parseFloat(plain(after.us)) - parseFloat(plain(before.us))) <= 0.11, `${before.us} from points, ${after.us} by equations`);
    assert.equal(await said(form), '');
  }
  none(window.troubles);
  await window.close();
});

test('outside of its points, and where more than saturation is asked, a form says why there is no answer', async () => {
  const window = await reader(open);
  const faults = [];
  for (const [name, given, words] of [
    ['dew-temperature', { pressure: '600 psig' }, /R-XXX: no dew temperature at .* \(the first and the last of its typed points\)/],
    ['bubble-temperature', { pressure: '5 psig' }, /R-XXX: no bubble temperature at .* \(the first and the last of its typed points\)/],
    ['dew-pressure', { temperature: '150 °F' }, /R-XXX: no dew pressure at 150.0 °F \(65.6 °C\).* 140.0 °F .*its typed points\)/],
    ['superheat', { 'suction pressure': '2 psig', 'suction line temperature': '0 °F' }, /R-XXX: no dew temperature at/],
    ['liquid-density', { temperature: '40 °F' }, /R-XXX: its density is not known, for it is known by typed points only/],
    ['vapor-enthalpy', { temperature: '40 °F' }, /R-XXX: its enthalpy is not known, for it is known by typed points only/],
  ]) {
    await window.turnTo(`computation/${name}.html`);
    const form = window.page.locator('.workform');
    await settled(window.page);
    await fill(window.page, form, { refrigerant: FLUID, ...given });
    const [told, shown, wanted] = [await said(form), await answer(form), await program(name, given)];
    if (!words.test(told) || plain(shown.us) !== '—') faults.push(`${name} ${JSON.stringify(given)}: page ${told || shown.us}`);
    if (!wanted.refused) faults.push(`${name}: the program answers ${wanted.us}`);
  }
  faults.push(...window.troubles);
  await window.close();
  none(faults);
});
