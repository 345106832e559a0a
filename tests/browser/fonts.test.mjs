// With the two families installed the handbook is dressed in them; without, in the reader's own fonts. `tests/run` binds it
// both ways: the second lies in `DRESSED`.

import { strict as assert } from 'node:assert';
import { existsSync, readFileSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { after, before, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { BOUND, browser, none } from './harness.mjs';

const DRESSED = path.resolve(process.env.DRESSED ?? path.join(BOUND, '../dressed'));
const PAGES = ['index.html', 'lesson/superheat.html', 'lesson/r-410a.html', 'tree/superheat-high.html', 'terms.html'];
let open;
before(async () => {
  assert.ok(existsSync(DRESSED), `no dressed handbook in ${DRESSED}: run tests/run, or set DRESSED`);
  open = await browser();
});
after(() => open.close());

// The faces that a page has taken up, by family, and whatever went wrong.
async function faces(folder, name, width) {
  const context = await open.newContext({ viewport: { width, height: 900 } });
  const page = await context.newPage();
  const troubles = [];
  page.on('console', (message) => { if (message.type() === 'error') troubles.push(message.text()); });
  page.on('requestfailed', (request) => troubles.push(`${request.url()} failed`));
  await page.goto(pathToFileURL(path.join(folder, name)).href);
  const found = await page.evaluate(async () => {
    await document.fonts.ready;
    return {
      taken: [...document.fonts].filter((face) => face.status === 'loaded').map((face) => `${face.family.replaceAll('"', '')} ${face.style}`),
      over: document.documentElement.scrollWidth - document.documentElement.clientWidth,
      asked: performance.getEntriesByType('resource').map((r) => r.name).filter((url) => url.endsWith('.woff2')),
    };
  });
  await context.close();
  return { ...found, troubles };
}

test('dressed: text, heads and gothic are taken up from the folder, and pages fit as before', async () => {
  for (const name of PAGES) {
    for (const width of [360, 1280]) {
      const { taken, over, troubles } = await faces(DRESSED, name, width);
      for (const face of ['Handbook Text normal', 'Handbook Head normal', 'Handbook Gothic normal']) assert.ok(taken.includes(face), `${name}: ${face} is not among ${taken.join(', ')}`);
      assert.ok(over <= 0, `${name} runs ${over} px past the edge, ${width} wide`);
      none(troubles);
    }
  }
});

test('dressed: the licenses lie beside the fonts', () => {
  for (const family of ['playfair', 'archivo']) {
    assert.match(readFileSync(path.join(DRESSED, `kit/${family}-license.txt`), 'utf8'), /SIL OPEN FONT LICENSE/i);
  }
});

test('undressed: no font is brought, named or asked for', async () => {
  assert.deepEqual(readdirSync(path.join(BOUND, 'kit')).filter((name) => /woff|license/.test(name)), []);
  assert.doesNotMatch(readFileSync(path.join(BOUND, 'kit/style.css'), 'utf8'), /@font-face/);
  for (const name of PAGES) {
    const { asked, over, troubles } = await faces(BOUND, name, 360);
    assert.deepEqual(asked, []);
    assert.ok(over <= 0);
    none(troubles);
  }
});

test('both ways the rest of the folder is the same', () => {
  for (const name of PAGES) assert.equal(readFileSync(path.join(DRESSED, name), 'utf8'), readFileSync(path.join(BOUND, name), 'utf8'));
});
