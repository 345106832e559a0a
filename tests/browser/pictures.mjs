// Pictures of typical pages, to look at: `node tests/browser/pictures.mjs`, after `tests/run` or a bind. They come to lie
// in tests/browser/pictures/, which git leaves alone. With `--readme`, only the two that README.md shows, into docs/; take
// those of the handbook in its own fonts: `BOUND=target/browser-test/dressed node tests/browser/pictures.mjs --readme`.

import { execFileSync } from 'node:child_process';
import { existsSync, mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import { LIGHTS, address, browser, bytes, pages, reader } from './harness.mjs';

const INTO = path.join(path.dirname(fileURLToPath(import.meta.url)), 'pictures');
const WIDTHS = [390, 820, 1280];

// The fullest page of a folder: the one that shows most of what can be on such a page.
const fullest = (folder, but = []) => pages().filter((name) => name.startsWith(folder) && !but.includes(name)).sort((a, b) => bytes(b) - bytes(a))[0];
const lesson = fullest('lesson/', ['lesson/r-454b.html']);
const TYPICAL = [
  'index.html', lesson, 'lesson/bulb-mounting.html', 'lesson/r-454b.html', fullest('tree/'), fullest('refrigerant/'), 'terms.html',
  'find.html?for=superheat',
].filter((name) => name && existsSync(fileURLToPath(address(name.split('?')[0]))));
const label = (name) => name.replace(/\?.*/, '').replace(/\.html$/, '').replaceAll('/', '-');

const open = await browser();
if (process.argv.includes('--readme')) {
  const docs = path.join(path.dirname(fileURLToPath(import.meta.url)), '../../docs');
  for (const { name, from, to, light, ...screen } of [
    { name: 'lesson/superheat.html', from: 'h2', to: 'lesson.png', light: 'day', width: 1280, height: 940 },
    { name: 'tree/superheat-high.html', to: 'tree.png', light: 'night', width: 390, height: 844, deviceScaleFactor: 2 },
  ]) {
    const window = await reader(open, screen);
    await window.turnTo(name);
    await window.page.evaluate((light) => { document.documentElement.dataset.light = light; return document.fonts.ready; }, light);
    if (from) await window.page.locator(from).first().evaluate((n) => n.scrollIntoView());
    await window.page.screenshot({ path: path.join(docs, to) });
    await window.close();
  }
  await open.close();
  process.exit();
}

rmSync(INTO, { recursive: true, force: true });
mkdirSync(INTO, { recursive: true });
for (const width of WIDTHS) {
  const window = await reader(open, { width, height: width < 700 ? 844 : 900 });
  for (const name of TYPICAL) {
    await window.turnTo(name);
    for (const light of LIGHTS) {
      await window.page.evaluate((light) => { document.documentElement.dataset.light = light; }, light);
      await window.page.screenshot({ path: path.join(INTO, `${label(name)}-${width}-${light}.png`), fullPage: light === 'day' });
    }
  }
  await window.close();
}
const still = await reader(open, { script: false, width: 390, height: 844 });
for (const name of TYPICAL) {
  await still.turnTo(name);
  await still.page.screenshot({ path: path.join(INTO, `${label(name)}-390-without-script.png`), fullPage: true });
}
await still.close();

const printed = await reader(open);
for (const name of TYPICAL) {
  await printed.turnTo(name);
  const pdf = path.join(INTO, `${label(name)}.pdf`);
  await printed.page.pdf({ path: pdf, preferCSSPageSize: true, printBackground: true });
  try {
    execFileSync('pdftoppm', ['-r', '60', '-png', pdf, path.join(INTO, `${label(name)}-print`)]);
  } catch (error) {
    if (error.code !== 'ENOENT') throw error; // without pdftoppm (Debian's poppler-utils) the PDF is all there is
  }
}
await open.close();
console.log(`pictures lie in ${INTO}`);
