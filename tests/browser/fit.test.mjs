// Pages fit their window: nothing runs past its edge at any width or with large letters, and gloved fingers hit controls.

import { after, before, test } from 'node:test';
import { WIDTHS, browser, onEveryPage } from './harness.mjs';

let open;
let large;
before(async () => {
  open = await browser();
  large = await browser({ letters: 32 });
});
after(() => Promise.all([open.close(), large.close()]));

// What runs past the window's edge, but for what lies in a box that scrolls by itself.
const past = (page) => page.evaluate(() => {
  const width = document.documentElement.clientWidth;
  const faults = [];
  const over = document.documentElement.scrollWidth - width;
  if (over > 0) faults.push(`can be pushed ${over} px sideways`);
  const clipped = (n) => {
    for (let up = n.parentElement; up && up !== document.body; up = up.parentElement) {
      if (getComputedStyle(up).overflowX !== 'visible') return true;
    }
    return false;
  };
  for (const n of document.querySelectorAll('body *:not(svg *)')) {
    const box = n.getBoundingClientRect();
    if (!n.checkVisibility() || box.height <= 1 || box.width <= 1) continue; // hidden, or for screen readers only
    if ((box.right > width + 0.5 || box.left < -0.5) && !clipped(n)) {
      faults.push(`${n.tagName.toLowerCase()}.${n.className} “${(n.textContent ?? '').trim().slice(0, 30)}” from ${box.left.toFixed(0)} to ${box.right.toFixed(0)}`);
    }
  }
  return faults.slice(0, 4);
});
const unfold = (page) => page.evaluate(() => {
  document.querySelectorAll('details:not(.light)').forEach((n) => { n.open = true; });
  document.querySelector('[data-act=whole]')?.click();
});

for (const width of WIDTHS) {
  test(`nothing runs past the edge, ${width} wide`, async () => {
    await onEveryPage(open, { width }, async (page) => { await unfold(page); return past(page); });
  });
  test(`nothing runs past the edge, ${width} wide, with letters of 200 %`, async () => {
    await onEveryPage(large, { width }, async (page) => { await unfold(page); return past(page); });
  });
}

test('on a phone every control of the tail, the answers and the thumb index is 44 px or more', async () => {
  await onEveryPage(open, { width: 390, height: 844, hasTouch: true, isMobile: true }, async (page) => {
    await page.locator('.light summary').click(); // its choices are controls too
    return page.evaluate(() => {
      document.querySelector('[data-act=whole]')?.click();
      const controls = '.tail a,.tail label,.tail summary,.ways a,.thumb a,.press,.findline input,.findline button,.found a,.contents a,.at-hand a,.working summary';
      return [...document.querySelectorAll(controls)].flatMap((n) => {
        const box = n.getBoundingClientRect();
        if (!n.checkVisibility({ visibilityProperty: true }) || box.width <= 1 || box.height <= 1) return [];
        const small = Math.min(box.width, box.height);
        return small < 44 ? [`${n.tagName.toLowerCase()} “${(n.textContent || n.id).trim().slice(0, 30)}” is ${box.width.toFixed(0)} × ${box.height.toFixed(0)}`] : [];
      }).slice(0, 6);
    });
  });
});

test('on a phone no letters are under 12 px', async () => {
  await onEveryPage(open, { width: 390, height: 844, isMobile: true }, (page) => page.evaluate(() => {
    const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
    const small = new Set();
    while (walker.nextNode()) {
      const { parentElement: n, textContent } = walker.currentNode;
      if (!textContent.trim() || n.closest('math,sub,sup,script,style')) continue;
      const box = n.getBoundingClientRect();
      const drawing = n.closest('svg');
      const scale = drawing ? (drawing.getScreenCTM?.()?.a ?? 1) : 1;
      const size = parseFloat(getComputedStyle(n).fontSize) * scale;
      if (n.checkVisibility() && box.width > 1 && box.height > 1 && size < 11.95) small.add(`“${textContent.trim().slice(0, 20)}” of ${size.toFixed(1)} px`);
    }
    return [...small].slice(0, 4);
  }));
});
