// Every page is valid HTML by the standard's own checker, which runs on this machine and says nothing at all.

import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { test } from 'node:test';
import { BOUND, PRINTED, none, pages } from './harness.mjs';

const CHECKER = createRequire(import.meta.url).resolve('vnu-jar/build/dist/vnu.jar');

// What the checker says of files, one line for each message.
function check(names, from = BOUND) {
  const run = spawnSync('java', ['-Xss4m', '-jar', CHECKER, '--format', 'gnu', ...names], { cwd: from, encoding: 'utf8', maxBuffer: 1 << 26 });
  assert.equal(run.error, undefined, `the checker needs Java: ${run.error}`);
  return run.stderr.split('\n').filter(Boolean).map((line) => line.replace(/^"file:.*?\/(?=[^/]*\/?[^/]*")/, '"'));
}

test('every page passes the HTML checker without a message', () => none(check([...pages(), PRINTED])));

test('the checker is at work', () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'pages-'));
  try {
    writeFileSync(path.join(folder, 'bad.html'), '<!DOCTYPE html><html lang="en"><title>a</title><p id="a"><ul id="a"></ul><img src="a.png">');
    const told = check(['bad.html'], folder).join('\n');
    assert.match(told, /Duplicate ID/);
    assert.match(told, /alt/);
  } finally {
    rmSync(folder, { recursive: true });
  }
});
