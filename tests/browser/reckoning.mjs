// What a form in a page answers, and what `coldpress reckon` says of the same: for tests that hold the one to the other.

import { strict as assert } from 'node:assert';
import { execFile } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { promisify } from 'node:util';

export const root = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');
const built = ['release', 'debug'].map((kind) => path.join(root, 'target', kind, 'coldpress'));
export const COLDPRESS = process.env.COLDPRESS ?? built.find(existsSync);
assert.ok(COLDPRESS, `no program in ${built.join(' or ')}: run \`cargo build --release\` first`);
const ALTITUDE = '890 ft'; // of the demonstration handbook and of the small ones

// What `coldpress reckon` says: both answers, or why there is none.
const run = promisify(execFile);
export async function shell(name, given, more = []) {
  const inputs = Object.entries({ altitude: ALTITUDE, ...given }).map(([input, typed]) => `${input}=${typed}`);
  try {
    const { stdout } = await run(COLDPRESS, ['reckon', name, ...inputs, ...more], { encoding: 'utf8' });
    const [, us, si] = /^.*?: (.*?) {3}\((.*)\)$/.exec(stdout.split('\n')[0]);
    return { us, si };
  } catch (error) {
    if (error.code !== 2) throw error;
    return { refused: error.stderr.replace(/^coldpress: /, '').trim() };
  }
}

export const plain = (shown) => shown.replaceAll('\u00a0', ' ').replaceAll('\u00ad', '').trim();
export const number = (shown) => Number(plain(shown).replace('−', '-').replace(/,(?=\d{3})/g, '').split(' ')[0]);
export const digits = (shown) => (/\.(\d+)/.exec(shown)?.[1] ?? '').length;
// Alike to the last digit and to what the page's tables may be off; a difference of two temperatures has both of theirs.
export function alike(page, program, share = 6e-4) {
  if (plain(page) === plain(program)) return true;
  const [a, b] = [number(page), number(program)];
  const same = plain(page).replace(/^[−\d.,]+/, '') === plain(program).replace(/^[−\d.,]+/, '');
  return same && Math.abs(a - b) <= Math.max(1.01 * 10 ** -digits(program), share * Math.abs(b));
}

export const settled = (page, n = 1) => page.waitForFunction((n) => [...document.querySelectorAll('.workform')].every((form) => +form.dataset.done >= n), n);
export const answer = (form) => form.locator('[data-answer] .answer').evaluate((node) => {
  const side = (kind) => (node.querySelector(`.${kind}`) ?? node).textContent;
  return { us: side('us'), si: side('si') };
});

// Fills blanks at once and waits until the page has reckoned with them.
export async function fill(page, form, given) {
  const done = await form.evaluate((node) => +node.dataset.done);
  await form.evaluate((node, given) => {
    for (const [name, typed] of Object.entries(given)) node.querySelector(`[name="${name}"]`).value = typed;
    node.querySelector('[name]').dispatchEvent(new Event('input', { bubbles: true }));
  }, given);
  await page.waitForFunction(([id, done]) => +document.getElementById(id).dataset.done > done, [await form.getAttribute('id'), done]);
}

export const said = (form) => form.locator('.verdict .wrong').allTextContents().then((all) => all.map(plain).join(' '));

// What a page says of a case that it does not work out.
export const BEYOND = /lies outside the table that the page carries|which the page does not work out/;

// A row of numbers that look drawn by lot and are the same each time for the same word: the Park-Miller generator.
export function lot(word) {
  const seed = [...word].reduce((sum, letter) => sum * 31 + letter.codePointAt(0), 7);
  let at = seed % 2147483647 || 1;
  return () => (at = (at * 48271) % 2147483647) / 2147483647;
}

// The blanks of a form as they stand in it.
export const blanksOf = (form) => form.evaluate((node) => [...node.querySelectorAll('.blanks [name]')].map((blank) => ({
  name: blank.name, fluid: blank.tagName === 'SELECT', choices: [...blank.options ?? []].map((option) => option.value),
  value: blank.value, unit: blank.nextElementSibling?.querySelector(`.${document.querySelector('#units-si').checked ? 'si' : 'us'}`)?.textContent
    ?? blank.nextElementSibling?.textContent ?? '',
})));

// Numbers near those that stand in the blanks, so that most draws have an answer: as they are typed into the page, and as
// the program is asked.
export function drawn(blanks, draw) {
  const typed = {}, asked = {};
  for (const blank of blanks) {
    if (blank.name === 'altitude') { asked.altitude = `${blank.value} ${blank.unit}`; continue; }
    if (blank.fluid) {
      // Now and then another refrigerant, as near as the list has it.
      typed[blank.name] = draw() < 0.4 ? blank.choices[Math.floor(draw() * blank.choices.length)] : blank.value;
      asked[blank.name] = typed[blank.name];
      continue;
    }
    if (blank.value === '') continue;
    const unit = /[^\d.,−/-]+$/.exec(blank.value)?.[0].trim() ?? blank.unit;
    const parted = /^(?:(\d+)-)?(\d+)\/(\d+)$/.exec(blank.value);
    const from = parted ? Number(parted[1] ?? 0) + parted[2] / parted[3] : number(blank.value);
    const to = (from * (0.9 + 0.2 * draw()) + (from === 0 ? draw() : 0)).toPrecision(4);
    const figure = String(Number(to)).includes('e') ? Number(to).toFixed(9) : String(Number(to));
    asked[blank.name] = `${figure} ${unit}`.trim();
    typed[blank.name] = unit === blank.unit ? figure : asked[blank.name];
  }
  return { typed, asked };
}
