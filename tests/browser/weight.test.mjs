// What pages weigh: they are carried on old phones and opened from slow cards.

import { test } from 'node:test';
import { bytes, files, none } from './harness.mjs';

const LIMITS = [
  [/^lesson\/.*\.html$/, 60, 'a lesson'],
  [/^tree\/.*\.html$/, 60, 'a tree'],
  [/\.css$/, 40, 'the style'],
  [/(^|\/)script\.js$/, 40, 'the script'],
];

test('lessons and trees are 60 KB or less, style and script 40', () => {
  none(files().flatMap((name) => {
    const [, limit, what] = LIMITS.find(([kind]) => kind.test(name)) ?? [];
    return limit && bytes(name) > limit * 1024 ? [`${name}: ${what} of ${(bytes(name) / 1024).toFixed(1)} KB; ${limit} at most`] : [];
  }));
});

test('no file is empty', () => {
  none(files().filter((name) => bytes(name) === 0).map((name) => `${name}: empty`));
});
