// On paper, A4 and Letter alike: page numbers, running heads, workings as notes, links with their leaf, no row cut in two;
// a pocket card alone on its sheet; a part alone, and the whole handbook.

import { strict as assert } from 'node:assert';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { PRINTED, browser, none, pages, reader, text } from './harness.mjs';

let open;
let folder;
before(async () => {
  open = await browser();
  folder = mkdtempSync(path.join(tmpdir(), 'printed-'));
});
after(async () => {
  await open.close();
  rmSync(folder, { recursive: true });
});

// The text of each sheet of a page as it is printed.
async function print(name, format, settings = {}) {
  const window = await reader(open, settings);
  await window.turnTo(name);
  const pdf = path.join(folder, 'a.pdf');
  await window.page.pdf({ path: pdf, format, printBackground: true, preferCSSPageSize: false, timeout: 0 });
  await window.close();
  none(window.troubles);
  const sheets = execFileSync('pdftotext', ['-layout', pdf, '-'], { encoding: 'utf8', maxBuffer: 1 << 28 }).split('\f').slice(0, -1);
  const size = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(execFileSync('pdfinfo', [pdf], { encoding: 'utf8' }));
  return { sheets, size: [Number(size[1]), Number(size[2])] };
}
const TITLE = /<em>([^<]*)<\/em>/.exec(text('index.html'))[1];
const LESSON = 'lesson/superheat.html';
const TABLE = pages().find((name) => /^lesson\/r-410a/.test(name));

for (const [format, width] of [['A4', 595], ['Letter', 612]]) {
  test(`a lesson on ${format}: running heads, page numbers, leaves of links, workings`, async () => {
    const { sheets, size } = await print(LESSON, format);
    assert.ok(Math.abs(size[0] - width) < 2);
    assert.ok(sheets.length > 1);
    none(sheets.flatMap((sheet, i) => [
      sheet.includes(TITLE) ? [] : [`sheet ${i + 1} has no running head`],
      new RegExp(`\\n\\s+${i + 1}\\s*$`).test(sheet.trimEnd()) ? [] : [`sheet ${i + 1} has no number at its foot`],
    ].flat()));
    const all = sheets.join('\n');
    assert.match(all, /\(leaf \d+·\d+\)/, 'links give no leaf');
    assert.match(all, /Found[\s\S]*Numbers[\s\S]*Source/, 'workings are not printed');
    assert.doesNotMatch(all, /Light|Find a page/, 'the tail is printed');
  });

  test(`a pocket card on ${format}: one sheet, and nothing else on it`, async () => {
    const card = /id="(table-[^"]*-card)"/.exec(text(TABLE))[1];
    const { sheets } = await print(`${TABLE}#${card}`, format);
    assert.equal(sheets.length, 1, 'not one sheet');
    for (const unit of ['°F', '°C', 'psig', 'bar']) assert.ok(sheets[0].includes(unit), `no ${unit}`);
    assert.doesNotMatch(sheets[0], /Show the working|Stands on|Print this leaf/);
  });
}

test('the card opens and prints without script', async () => {
  const card = /id="(table-[^"]*-card)"/.exec(text(TABLE))[1];
  const { sheets } = await print(`${TABLE}#${card}`, 'A4', { script: false });
  assert.equal(sheets.length, 1);
});

test('no row is cut in two, nor a notice, a question or an outcome', async () => {
  const window = await reader(open);
  await window.page.emulateMedia({ media: 'print' });
  for (const name of [LESSON, TABLE, pages().find((page) => page.startsWith('tree/'))]) {
    await window.turnTo(name);
    none(await window.page.evaluate(() => [...document.querySelectorAll('main tr,.notice,.step,.end,.plate')]
      .filter((n) => n.checkVisibility() && getComputedStyle(n).breakInside !== 'avoid').map((n) => `${n.tagName}.${n.className} may be cut`).slice(0, 4)));
  }
  await window.close();
});

test('a diagnosis is printed whole, key and tree, wherever one stands in it', async () => {
  const tree = pages().find((page) => page.startsWith('tree/'));
  const asked = [...text(tree).matchAll(/data-name="([^"]*)"/g)].map((m) => m[1]);
  const all = (await print(tree, 'A4')).sheets.join('\n').replace(/\s+/g, ' ').toLowerCase();
  none(asked.filter((name) => !all.includes(name.toLowerCase())).map((name) => `${name} is not printed`));
});

test('a part is printed alone: its lessons, each from a sheet of its own, under its name', async () => {
  const part = /id="part-2"><h3><span class="n">2<\/span><span class="t">([^<]*)<[\s\S]*?<\/ol>/.exec(text('index.html'));
  const lessons = [...part[0].matchAll(/href="(lesson\/[^"]*)"/g)].map((m) => m[1]);
  const { sheets } = await print(`${PRINTED}#part-2`, 'A4');
  assert.ok(sheets.length >= lessons.length);
  none(sheets.flatMap((sheet, i) => sheet.includes(part[1]) ? [] : [`sheet ${i + 1} is not under ${part[1]}`]));
  const other = /id="part-3"[\s\S]*?href="(lesson\/[^"]*)"/.exec(text('index.html'))[1];
  const title = (name) => /<h1>(.*?)<\/h1>/.exec(text(name))[1].replace(/<[^>]*>/g, '');
  const heads = sheets.map((sheet) => sheet.split('\n').slice(0, 14).join('\n'));
  for (const name of lessons.slice(0, 3)) assert.ok(heads.some((head) => head.includes(title(name))), `${title(name)} is not at the head of a sheet`);
  assert.ok(!heads.some((head) => head.includes(title(other))), 'another part is printed too');
});

test('the page of the whole handbook holds every leaf once, and its links stay on it', async () => {
  const window = await reader(open);
  await window.turnTo(PRINTED);
  const found = await window.page.evaluate(() => ({
    leaves: [...document.querySelectorAll('.one-leaf')].map((n) => n.id),
    dead: [...document.querySelectorAll('.one-leaf a[href^="#"]')].map((a) => a.getAttribute('href')).filter((href) => !document.getElementById(decodeURIComponent(href.slice(1)))),
    twice: [...document.querySelectorAll('[id]')].map((n) => n.id).filter((id, i, all) => all.indexOf(id) !== i).slice(0, 3),
  }));
  const left = new Set(['find.html', 'carry.html', PRINTED]);
  const printed = (name) => `leaf-${name.replace(/\.html$/, '').replace(/[^\p{L}\p{N}]/gu, '-')}`;
  none(pages().filter((name) => !left.has(name) && !found.leaves.includes(printed(name))).map((name) => `${name} is not there`));
  none([...found.dead.slice(0, 5), ...found.twice]);
  await window.close();
  none(window.troubles);
});
