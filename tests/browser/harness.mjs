// The bound handbook, a browser to open it in, and what every opened page is watched for.
//
// Pages are opened by their file:// address, as from a carried copy. Everything a page asks for is watched: what lies
// outside the bound folder is refused and reported, and so is whatever the browser puts on its console.

import { strict as assert } from 'node:assert';
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { createRequire } from 'node:module';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { chromium } from 'playwright-core';

const here = path.dirname(fileURLToPath(import.meta.url));

// The folder under test: `BOUND`, or where `tests/run` binds the demonstration handbook.
export const BOUND = path.resolve(process.env.BOUND ?? path.join(here, '../../target/browser-test/bound'));
assert.ok(
  existsSync(path.join(BOUND, 'index.html')),
  `no bound handbook in ${BOUND}: run \`cargo run --release -- bind content --into target/browser-test/bound\` first`,
);

// Debian's browser; the flags keep it from looking for a network, a graphics card or an update.
export const CHROMIUM = '/usr/bin/chromium';
export const FLAGS = [
  '--no-sandbox', '--disable-gpu', '--disable-quic', '--no-first-run',
  '--disable-background-networking', '--disable-component-update', '--disable-sync',
];

// Phone narrow and usual, tablet, desk, wall screen.
export const WIDTHS = [360, 390, 820, 1280, 2560];
export const LIGHTS = ['day', 'night', 'sun'];
export const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

// Every file of the bound folder, by its path with `/` between the parts, in order.
export function files(below = '') {
  return readdirSync(path.join(BOUND, below), { withFileTypes: true })
    .flatMap((entry) => {
      const name = below ? `${below}/${entry.name}` : entry.name;
      return entry.isDirectory() ? files(name) : [name];
    })
    .sort();
}

// The page that holds every leaf, to be printed. It has tests of its own, as the copies that are carried have.
export const PRINTED = 'print.html';
// The leaves of the folder.
export const pages = () => files().filter((name) => name.endsWith('.html') && name !== PRINTED && !name.startsWith('carry/'));
export const bytes = (name) => statSync(path.join(BOUND, name)).size;
export const text = (name) => readFileSync(path.join(BOUND, name), 'utf8');
export const address = (name) => new URL(name, `${pathToFileURL(BOUND).href}/`).href;

// The path below the bound folder that an address leads to, without query and fragment; null where it leads elsewhere.
export function below(url) {
  const { protocol, href, search, hash } = new URL(url);
  if (protocol !== 'file:') return null;
  const plain = href.slice(0, href.length - search.length - hash.length);
  const relative = path.relative(BOUND, fileURLToPath(plain));
  return relative.startsWith('..') || path.isAbsolute(relative) ? null : relative.split(path.sep).join('/');
}

// A browser. `letters` is the reader's default size of letters in pixels: 32 is text at 200 %.
export function browser({ letters = 16 } = {}) {
  const args = letters === 16 ? FLAGS : [...FLAGS, `--blink-settings=defaultFontSize=${letters}`];
  return chromium.launch({ executablePath: CHROMIUM, args });
}

// A reader's window on the handbook. `troubles` collects whatever should not have happened in it.
export async function reader(open, { width = 1280, height = 900, script = true, ...rest } = {}) {
  const context = await open.newContext({ viewport: { width, height }, javaScriptEnabled: script, ...rest });
  const troubles = [];
  await context.route('**/*', (route) => {
    const url = route.request().url();
    const name = below(url);
    if (name !== null && existsSync(path.join(BOUND, name))) return route.continue();
    troubles.push(name === null ? `asked for ${url}, outside the folder` : `asked for ${name}, which is not there`);
    return route.abort();
  });
  const page = await context.newPage();
  page.on('console', (message) => {
    if (['error', 'warning', 'assert'].includes(message.type())) troubles.push(`console ${message.type()}: ${message.text()}`);
  });
  page.on('pageerror', (error) => troubles.push(`script error: ${error.message}`));
  const turnTo = (name) => page.goto(address(name), { waitUntil: 'load' });
  return { page, troubles, turnTo, close: () => context.close() };
}

// Windows that look at pages at the same time: one for each processor of a small machine.
const WINDOWS = 2;

// Runs `look` on every page, in readers' windows of the same settings; whatever faults it returns, and the window's own
// troubles, are told together with the page they are on.
export async function onEveryPage(open, settings, look, names = pages()) {
  const left = [...names.entries()];
  const faults = [];
  await Promise.all(Array.from({ length: Math.min(WINDOWS, names.length) }, async () => {
    const window = await reader(open, settings);
    try {
      for (let next = left.shift(); next; next = left.shift()) {
        const [order, name] = next;
        await window.turnTo(name);
        const found = (await look(window.page, name)) ?? [];
        faults.push(...[...found, ...window.troubles.splice(0)].map((fault) => [order, `${name}: ${fault}`]));
      }
    } finally {
      await window.close();
    }
  }));
  none(faults.sort((a, b) => a[0] - b[0]).map(([, fault]) => fault));
}

// Fails with the list of faults, if there are any.
export function none(faults) {
  const shown = faults.slice(0, 40);
  if (faults.length > shown.length) shown.push(`… and ${faults.length - shown.length} more`);
  assert.ok(faults.length === 0, `\n  ${shown.join('\n  ')}`);
}

// Whether any element that matches `selector` can be seen.
export const seen = (page, selector) => page.locator(selector).filter({ visible: true }).count().then((n) => n > 0);
