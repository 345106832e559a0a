// Every page opens from its folder, with script and without, asks for nothing outside it, and complains of nothing.

import { strict as assert } from 'node:assert';
import { after, before, test } from 'node:test';
import { browser, onEveryPage, pages, reader } from './harness.mjs';

let open;
before(async () => { open = await browser(); });
after(() => open.close());

test('there is a front board, and lessons, trees, refrigerants and the leaves at the back', () => {
  const names = pages();
  for (const name of ['index.html', 'find.html', 'terms.html', 'sources.html', 'words.html', 'carry.html']) {
    assert.ok(names.includes(name), `${name} is missing`);
  }
  for (const folder of ['lesson/', 'tree/', 'refrigerant/']) {
    assert.ok(names.some((name) => name.startsWith(folder)), `no page in ${folder}`);
  }
});

for (const script of [true, false]) {
  test(`every page opens from its folder ${script ? 'with' : 'without'} script`, async () => {
    await onEveryPage(open, { script }, (page) => page.evaluate(() => {
      const faults = [];
      const root = document.documentElement;
      if (document.compatMode !== 'CSS1Compat') faults.push('no doctype');
      if (!/^[a-z]{2}/.test(root.lang)) faults.push('no language');
      if (!document.title.trim()) faults.push('no title');
      if (document.characterSet !== 'UTF-8') faults.push(`read as ${document.characterSet}`);
      const main = document.querySelectorAll('main');
      if (main.length !== 1) faults.push(`${main.length} main parts`);
      else if (main[0].innerText.trim().length < 40) faults.push('the main part is all but empty');
      if (getComputedStyle(document.body).fontFamily === 'Times New Roman') faults.push('no style');
      for (const [mark, what] of [['undefined', 'a hole'], ['NaN', 'a failed sum'], ['[object', 'an object'], ['{{', 'a slot']]) {
        if (document.body.innerText.includes(mark)) faults.push(`${what} in the text: ${mark}`);
      }
      const ids = [...document.querySelectorAll('[id]')].map((n) => n.id);
      const twice = ids.filter((id, i) => ids.indexOf(id) !== i);
      if (twice.length) faults.push(`ids used twice: ${twice.join(' ')}`);
      return faults;
    }));
  });
}

test('a page that asks for something outside its folder is caught', async () => {
  // The watch itself: were it blind, every test here would pass on anything.
  const window = await reader(open);
  await window.turnTo('index.html');
  const wanted = ['https://example.invalid/a.png', '../outside.png', 'missing.png'];
  await window.page.evaluate((wanted) => Promise.all(wanted.map((src) => new Promise((done) => {
    const picture = new Image();
    picture.onerror = done;
    picture.src = src;
  }))), wanted);
  await window.close();
  const told = window.troubles.join('\n');
  assert.match(told, /asked for https:\/\/example\.invalid\/a\.png, outside the folder/);
  assert.match(told, /asked for file:.*\/outside\.png, outside the folder/);
  assert.match(told, /asked for missing\.png, which is not there/);
  assert.match(told, /console error: /);
});
