// Every link of every page leads to a page and a place on it, and every page can be reached from the front board.

import { after, before, test } from 'node:test';
import { address, below, browser, files, none, pages, reader } from './harness.mjs';

let open;
const leaves = new Map(); // page → its ids and the links on it
before(async () => {
  open = await browser();
  const window = await reader(open, { script: false }); // without script: what is in the file, and nothing made later
  for (const name of pages()) {
    await window.turnTo(name);
    leaves.set(name, await window.page.evaluate(() => ({
      ids: [...document.querySelectorAll('[id]')].map((n) => n.id),
      links: [...document.querySelectorAll('[href],[src],[action],[data],[poster],[srcset]')].flatMap((n) =>
        ['href', 'src', 'action', 'data', 'poster', 'srcset'].filter((a) => n.hasAttribute(a)).map((a) => n.getAttribute(a))),
      refers: [...document.querySelectorAll('[for],[aria-labelledby],[aria-describedby],[aria-controls],[headers]')].flatMap((n) =>
        ['for', 'aria-labelledby', 'aria-describedby', 'aria-controls', 'headers'].flatMap((a) => (n.getAttribute(a) ?? '').split(/\s+/).filter(Boolean))),
    })));
  }
  await window.close();
});
after(() => open.close());

test('every link leads to a file of the folder and a place on it', () => {
  const there = new Set(files());
  const faults = [];
  for (const [name, { links }] of leaves) {
    for (const link of links) {
      if (/^(https?|mailto):/.test(link)) continue; // for the reader to follow; nothing is asked of the network before
      if (/^[a-z]+:|^\//i.test(link)) {
        faults.push(`${name}: ${link} is not relative`);
        continue;
      }
      const url = new URL(link, address(name));
      const to = below(url.href);
      const place = decodeURIComponent(url.hash.slice(1));
      if (to === null || !there.has(to)) faults.push(`${name}: ${link} leads to no file`);
      else if (place && leaves.has(to) && !leaves.get(to).ids.includes(place)) faults.push(`${name}: ${link}: no such place on ${to}`);
    }
  }
  none(faults);
});

test('every label and reference within a page finds what it names', () => {
  const faults = [];
  for (const [name, { ids, refers }] of leaves) {
    for (const id of refers) if (!ids.includes(id)) faults.push(`${name}: nothing is named ${id}`);
  }
  none(faults);
});

test('every page can be reached from the front board by links alone', () => {
  const reached = new Set(['index.html']);
  for (const name of reached) { // grows as it is walked
    for (const link of leaves.get(name)?.links ?? []) {
      if (/^[a-z]+:/i.test(link)) continue;
      const to = below(new URL(link, address(name)).href);
      if (leaves.has(to)) reached.add(to);
    }
  }
  none(pages().filter((name) => !reached.has(name)).map((name) => `${name}: no way there`));
});
