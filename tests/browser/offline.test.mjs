// From a web server the handbook is kept after one visit, of one edition and whole; a newer edition is spoken of and opens
// when asked to.

import { strict as assert } from 'node:assert';
import { execFileSync, spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { after, before, test } from 'node:test';
import { fileURLToPath } from 'node:url';
import { browser } from './harness.mjs';

const root = fileURLToPath(new URL('../..', import.meta.url));
const PROGRAM = process.env.COLDPRESS ?? path.join(root, 'target/release/coldpress');
const dir = mkdtempSync(path.join(tmpdir(), 'coldpress-offline-'));
const content = path.join(dir, 'content'), bound = path.join(dir, 'bound');
// Hosts that still run; none may outlive a test that failed.
const running = new Set();
let open;
before(async () => {
  open = await browser();
  execFileSync(PROGRAM, ['begin', content]);
  execFileSync(PROGRAM, ['bind', content, '--into', bound]);
});
after(async () => {
  running.forEach((child) => child.kill('SIGKILL'));
  await open.close();
  rmSync(dir, { recursive: true });
});

// A host at `port`; gives where it is and how to stop it.
async function host(port = 0) {
  const child = spawn(PROGRAM, ['host', bound, '--listen', `127.0.0.1:${port}`], { stdio: ['ignore', 'pipe', 'inherit'] });
  running.add(child);
  child.on('exit', () => running.delete(child));
  const lines = createInterface({ input: child.stdout });
  const address = await new Promise((found, lost) => {
    lines.on('line', (line) => { const at = /^Open (\S+)/.exec(line); if (at) found(at[1]); });
    child.on('exit', (code) => lost(new Error(`the host ended with ${code}`)));
  });
  const stop = () => new Promise((ended) => { child.on('exit', ended); child.kill('SIGTERM'); });
  return { address, stop };
}

const kept = (page) => page.waitForFunction(() => navigator.serviceWorker.controller !== null, null, { timeout: 20000 });

test('one visit keeps the whole handbook', async () => {
  const { address, stop } = await host();
  const context = await open.newContext();
  const page = await context.newPage();
  const troubles = [];
  page.on('console', (message) => { if (message.type() === 'error') troubles.push(message.text()); });
  page.on('pageerror', (error) => troubles.push(error.message));
  await page.goto(address);
  await kept(page);
  const port = new URL(address).port;
  const manifest = await page.evaluate(async () => (await fetch(document.querySelector('link[rel=manifest]').href)).json());
  assert.match(manifest.name, /edition/);
  assert.equal(await stop(), 0);
  const leaves = JSON.parse(/^var files=(.*);$/m.exec(readFileSync(path.join(bound, 'keeper.js'), 'utf8'))[1]);
  for (const leaf of Object.keys(leaves).filter((name) => name.endsWith('.html'))) {
    const answer = await page.goto(new URL(leaf, address).href);
    assert.equal(answer.status(), 200, leaf);
    assert.equal(await page.evaluate(() => getComputedStyle(document.body).display !== '' && document.styleSheets.length), leaf === 'print.html' ? 2 : 1, leaf);
  }
  await page.goto(`${new URL('find.html', address).href}?for=superheat`);
  await page.locator('#found a').first().waitFor();
  assert.deepEqual(troubles.filter((text) => !text.includes('ERR_CONNECTION_REFUSED')), []);

  // A newer edition at the same address: the one that is read stays until the reader asks.
  const front = path.join(content, 'handbook.yaml');
  const yaml = readFileSync(front, 'utf8');
  const edition = /^edition: *(\S+)/m.exec(yaml)[1];
  writeFileSync(front, yaml.replace(/^edition: .*$/m, 'edition: 2099-01'));
  execFileSync(PROGRAM, ['bind', content, '--into', bound]);
  const again = await host(port);
  await page.goto(address);
  const line = page.locator('[data-newer]');
  await line.waitFor({ state: 'visible', timeout: 20000 });
  assert.match(await line.innerText(), /2099-01/);
  assert.match(await page.locator('.colophon').innerText(), new RegExp(edition));
  await line.locator('a').click();
  await page.waitForFunction(() => document.querySelector('.colophon')?.innerText.includes('2099-01'), null, { timeout: 20000 });
  assert.equal(await again.stop(), 0);
  await page.reload();
  assert.match(await page.locator('.colophon').innerText(), /2099-01/);
  await context.close();
});
