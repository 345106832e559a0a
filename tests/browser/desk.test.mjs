// The author's desk: the page follows the pen, slips stand at their place, and nothing an editor or git does ends it.

import { strict as assert } from 'node:assert';
import { execFileSync, spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { after, before, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { browser } from './harness.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const PROGRAM = process.env.COLDPRESS ?? path.join(root, 'target/release/coldpress');
const dir = mkdtempSync(path.join(tmpdir(), 'coldpress-desk-'));
const content = path.join(dir, 'content');
let open, desk, page, lesson, name;
const said = [], troubles = [];

before(async () => {
  open = await browser();
  execFileSync(PROGRAM, ['begin', content]);
  const folder = path.join(content, 'lessons');
  const found = execFileSync('find', [folder, '-name', '*.md']).toString().trim().split('\n').sort();
  lesson = found[0];
  name = path.basename(lesson, '.md');
  writeFileSync(lesson, `${readFileSync(lesson, 'utf8')}\n${'A line to make the leaf long.\n\n'.repeat(200)}Last words.\n`);
  desk = spawn(PROGRAM, ['desk', content, '--port', '0'], { stdio: ['ignore', 'pipe', 'pipe'] });
  const address = await new Promise((is, lost) => {
    createInterface({ input: desk.stdout }).on('line', (line) => { said.push(line); const at = /^Open (\S+)/.exec(line); if (at) is(at[1]); });
    createInterface({ input: desk.stderr }).on('line', (line) => said.push(line));
    desk.on('exit', (code) => lost(new Error(`the desk ended with ${code}`)));
  });
  page = await (await open.newContext()).newPage();
  page.on('pageerror', (error) => troubles.push(error.message));
  await page.goto(`${address}lesson/${name}.html`);
  await page.getByText('Last words.').waitFor({ timeout: 60000 });
});
after(async () => {
  await open.close();
  const ended = new Promise((is) => { desk.on('exit', is); });
  desk.kill('SIGTERM');
  assert.equal(await ended, 0);
  rmSync(dir, { recursive: true });
  assert.deepEqual(troubles, []);
});

const text = () => readFileSync(lesson, 'utf8');
const shows = (words) => page.getByText(words).first().waitFor({ timeout: 20000 });
const told = (words) => page.locator('.desk-unread', { hasText: words }).waitFor({ state: 'attached', timeout: 20000 });
const gone = (selector) => page.locator(selector).first().waitFor({ state: 'detached', timeout: 20000 });

test('an edit is on the page, and the page stays where it was', async () => {
  await page.evaluate(() => window.scrollTo(0, 2000));
  await page.evaluate(() => { window.notOpenedAnew = true; });
  writeFileSync(lesson, text().replace('Last words.', 'Later words.'));
  await shows('Later words.');
  assert.equal(await page.evaluate(() => window.scrollY), 2000);
  assert.equal(await page.evaluate(() => window.notOpenedAnew), true);
});

test('a file saved by rename is followed', async () => {
  const beside = path.join(path.dirname(lesson), '.new');
  writeFileSync(beside, text().replace('Later words.', 'Words by rename.'));
  renameSync(beside, lesson);
  await shows('Words by rename.');
});

test('a slip stands at its place with its line, and the terminal tells it once', async () => {
  const sound = text();
  writeFileSync(lesson, sound.replace('Words by rename.', 'It boils at [99.9 °F](figure:dew-temperature?refrigerant=R-134a&pressure=20psig).'));
  const slip = page.locator('.desk-slip').first();
  await slip.waitFor({ timeout: 20000 });
  assert.equal(await slip.locator('mark').innerText(), '99.9 °F');
  assert.match(await slip.locator('.desk-place').innerText(), new RegExp(`${name}\\.md:\\d+:\\d+`));
  const beside = await slip.evaluate((n) => n.previousElementSibling.closest('p, .working, details')?.textContent ?? '');
  const before = await slip.evaluate((n) => { let all = ''; for (let p = n.previousElementSibling, i = 0; p && i < 3; p = p.previousElementSibling, i++) all += p.textContent; return all; });
  assert.match(before + beside, /It boils at/);
  assert.match(await page.locator('.desk-list summary').innerText(), /1 error/);
  await page.waitForTimeout(3000); // the whole handbook has followed
  assert.equal(said.filter((line) => line.includes('error[figure-disagrees]')).length, 1);
  writeFileSync(lesson, sound);
  await gone('.desk-slip');
  await shows('Words by rename.');
});

test('a half-written head leaves the last good page up', async () => {
  const sound = text();
  writeFileSync(lesson, sound.slice(0, 9));
  await page.locator('.desk-list summary.desk-error').waitFor({ timeout: 20000 });
  await shows('Words by rename.');
  writeFileSync(lesson, Buffer.concat([Buffer.from(sound), Buffer.from([0xff, 0xfe])]));
  await told(/is not UTF-8 text/);
  writeFileSync(lesson, sound);
  await gone('.desk-list summary.desk-error');
});

test('a folder taken away and put back is outlived', async () => {
  renameSync(content, `${content}-away`);
  await told(/there is no folder/);
  await shows('Words by rename.');
  renameSync(`${content}-away`, content);
  await gone('.desk-unread');
  writeFileSync(lesson, text().replace('Words by rename.', 'Words after all.'));
  await shows('Words after all.');
});

test('the handbook stands in its own theme, and an edit of that is followed', async () => {
  const theme = path.join(content, 'theme');
  const spaced = (by) => page.waitForFunction((by) => getComputedStyle(document.querySelector('main p:not([class])')).letterSpacing === by, by, { timeout: 60000 });
  mkdirSync(path.join(theme, 'style'), { recursive: true });
  for (const by of ['3px', '5px']) {
    writeFileSync(path.join(theme, 'style/31-own.css'), `main p{letter-spacing:${by}}`);
    await spaced(by);
  }
  writeFileSync(path.join(theme, 'words.yaml'), 'find: Look up\nfnid: x\n');
  await page.locator('.desk-list', { hasText: 'theme/words.yaml:2:1' }).waitFor({ state: 'attached', timeout: 60000 });
  rmSync(theme, { recursive: true });
  await spaced('normal');
  await page.locator('.desk-list', { hasText: 'No findings' }).waitFor({ state: 'attached', timeout: 60000 });
});

test('a thousand changes at once are outlived', async () => {
  const more = path.join(path.dirname(lesson), 'more');
  mkdirSync(more);
  for (let i = 0; i < 1000; i++) writeFileSync(path.join(more, `many-${i}.md`), `---\ntitle: Many ${i}\n---\nText.\n`);
  writeFileSync(lesson, text().replace('Words after all.', 'Words among many.'));
  await shows('Words among many.');
  rmSync(more, { recursive: true });
  writeFileSync(lesson, text().replace('Words among many.', 'Words after many.'));
  await shows('Words after many.');
  await gone('.desk-list summary.desk-error');
});
