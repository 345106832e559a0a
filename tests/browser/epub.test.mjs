// The electronic book, held to its format by EPUBCheck. `EPUBCHECK` names another jar than Debian's.

import { strict as assert } from 'node:assert';
import { spawnSync } from 'node:child_process';
import { existsSync } from 'node:fs';
import path from 'node:path';
import { test } from 'node:test';
import { BOUND } from './harness.mjs';

const JAR = process.env.EPUBCHECK ?? '/usr/share/java/epubcheck.jar';

test('EPUBCheck finds neither error nor warning', () => {
  assert.ok(existsSync(JAR), `no ${JAR}: install Debian's package epubcheck`);
  const ran = spawnSync('java', ['-jar', JAR, path.join(BOUND, 'carry/book.epub'), '--json', '-'], { encoding: 'utf8', maxBuffer: 1 << 26 });
  assert.equal(ran.error, undefined);
  const report = JSON.parse(ran.stdout.slice(ran.stdout.indexOf('{')));
  const told = report.messages.map((m) => `${m.severity} ${m.ID}: ${m.message} (${m.locations?.[0]?.path}:${m.locations?.[0]?.line})`);
  assert.deepEqual(told, []);
  assert.equal(ran.status, 0, ran.stderr);
  assert.match(report.publication.ePubVersion, /^3/);
});
