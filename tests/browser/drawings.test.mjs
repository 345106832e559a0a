// Drawings made from readings, as a browser letters them: whatever gothic the reader has, no line runs through lettering,
// nothing stands off its sheet, and nothing on a phone is smaller than 12 px.

import { after, before, test } from 'node:test';
import { browser, none, onEveryPage, pages, text } from './harness.mjs';

let open;
before(async () => { open = await browser(); });
after(() => open?.close());

const withDrawings = pages().filter((name) => text(name).includes('class="plate drawn"'));

// What is wrong with the drawings of a page, in the reader's system of units.
function look({ units, least }) {
  document.documentElement.dataset.units = units;
  const faults = [];
  for (const svg of document.querySelectorAll('.drawn svg')) {
    const plate = svg.closest('.plate').id;
    const scale = svg.getBoundingClientRect().width / svg.viewBox.baseVal.width;
    const sheet = svg.viewBox.baseVal;
    const texts = [...svg.querySelectorAll('text')].map((element) => {
      const box = element.getBBox();
      const size = parseFloat(getComputedStyle(element).fontSize);
      // The box is as high as a line of writing; figures and capitals fill the middle of it.
      const foot = parseFloat(element.getAttribute('y'));
      return { says: element.textContent, size, left: box.x + 0.5, right: box.x + box.width - 0.5, top: foot - 0.7 * size, bottom: foot };
    });
    for (const t of texts) {
      if (t.size * scale < least) faults.push(`${plate}: "${t.says}" is ${(t.size * scale).toFixed(1)} px`);
      if (t.left < 0 || t.right > sheet.width || t.top < 0 || t.bottom > sheet.height) faults.push(`${plate}: "${t.says}" stands off the sheet`);
      for (const o of texts) {
        if (o !== t && o.left < t.right && t.left < o.right && o.top < t.bottom && t.top < o.bottom) faults.push(`${plate}: "${t.says}" and "${o.says}" stand on one another`);
      }
    }
    for (const path of svg.querySelectorAll(':scope > path:not([fill]):not(.pap)')) {
      const length = path.getTotalLength();
      for (let at = 0; at <= length; at += 0.75) {
        const { x, y } = path.getPointAtLength(at);
        const hit = texts.find((t) => x > t.left && x < t.right && y > t.top && y < t.bottom);
        if (hit) { faults.push(`${plate}: a line (${path.getAttribute('class')}) runs through "${hit.says}"`); break; }
      }
    }
    if (!svg.querySelector('title')?.textContent || !svg.querySelector('desc')?.textContent) faults.push(`${plate}: no title or description`);
    if (!svg.closest('.plate').querySelector('table')) faults.push(`${plate}: no table`);
  }
  return faults;
}

test('the handbook has drawings made from readings', () => {
  none(withDrawings.length >= 8 ? [] : [`${withDrawings.length} pages have one`]);
});

for (const width of [390, 1280]) {
  for (const units of ['us', 'si']) {
    test(`no line runs through lettering at ${width} px, ${units}`, () =>
      onEveryPage(open, { width }, (page) => page.evaluate(look, { units, least: 12 }), withDrawings));
  }
}
