// A form in a page: its blanks filled in, its answer read, and what `coldpress reckon` answers to the same.

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
const digits = (shown) => (/\.(\d+)/.exec(shown)?.[1] ?? '').length;
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
export const said = (form) => form.locator('.verdict .wrong').allTextContents().then((all) => all.map(plain).join(' '));

// Fills blanks at once and waits until the page has reckoned with them.
export async function fill(page, form, given) {
  const done = await form.evaluate((node) => +node.dataset.done);
  await form.evaluate((node, given) => {
    for (const [name, typed] of Object.entries(given)) node.querySelector(`[name="${name}"]`).value = typed;
    node.querySelector('[name]').dispatchEvent(new Event('input', { bubbles: true }));
  }, given);
  await page.waitForFunction(([id, done]) => +document.getElementById(id).dataset.done > done, [await form.getAttribute('id'), done]);
}
