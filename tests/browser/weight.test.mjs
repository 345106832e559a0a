// What pages weigh: they are carried on old phones and opened from slow cards.

import { test } from 'node:test';
import { bytes, files, none, text } from './harness.mjs';

const LIMITS = [
  [/^lesson\/.*\.html$/, 60, 'a lesson'],
  [/^tree\/.*\.html$/, 60, 'a tree'],
  [/\.css$/, 40, 'the style'],
  [/(^|\/)script\.js$/, 40, 'the script'],
];

// What a page weighs without its pictures: drawings are told from text by their element.
function weight(name) {
  return name.endsWith('.html') ? Buffer.byteLength(text(name).replace(/<svg[\s\S]*?<\/svg>/g, '')) : bytes(name);
}

test('lessons and trees, without pictures, are 60 KB or less, style and script 40', () => {
  none(files().flatMap((name) => {
    const [, limit, what] = LIMITS.find(([kind]) => kind.test(name)) ?? [];
    if (!limit) return [];
    const kb = weight(name) / 1024;
    return kb > limit ? [`${name}: ${what} of ${kb.toFixed(1)} KB; ${limit} at most`] : [];
  }));
});

test('no file is empty', () => {
  none(files().filter((name) => bytes(name) === 0).map((name) => `${name}: empty`));
});
