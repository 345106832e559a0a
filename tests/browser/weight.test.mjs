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

// Known to be too heavy on 2026-11-25, in KB: mathematics is set twice, once for each system of units, and these lessons
// have the most of it; four of them gained the table of a drawing that day. None may grow; one that comes under its limit is taken off the list.
const TOO_HEAVY = {
  'kit/style.css': 43,
  'lesson/equalizers.html': 76,
  'lesson/glide-and-curves.html': 71,
  'lesson/heat-load.html': 71,
  'lesson/liquid-temperature.html': 67,
  'lesson/moist-air.html': 75,
  'lesson/pressure-enthalpy.html': 82,
  'lesson/readings-you-can-trust.html': 61,
  'lesson/the-readings-table.html': 88,
};

test('lessons and trees, without pictures, are 60 KB or less, style and script 40', () => {
  none(files().flatMap((name) => {
    const [, asked, what] = LIMITS.find(([kind]) => kind.test(name)) ?? [];
    if (!asked) return [];
    const kb = weight(name) / 1024, limit = TOO_HEAVY[name] ?? asked;
    if (kb > limit) return [`${name}: ${what} of ${kb.toFixed(1)} KB; ${limit} at most`];
    return name in TOO_HEAVY && kb <= asked ? [`${name}: ${kb.toFixed(1)} KB is within ${asked}; take it off the list`] : [];
  }));
});

test('no file is empty', () => {
  none(files().filter((name) => bytes(name) === 0).map((name) => `${name}: empty`));
});
