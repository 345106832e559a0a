// How fast Find answers in a large handbook on a slow processor, and how much a first find takes up.
//
//   node tests/browser/find-bench.mjs [LESSONS]
//
// Needs `cargo build --release` (or another program in PROGRAM). Lays out a handbook of LESSONS lessons (10,000 unless said) whose text is made of the demonstration handbook's sentences
// and of made-up words, so that its vocabulary grows with it as that of a real one does; binds it;
// opens its find page from the folder in a browser slowed four times and types: whole searches half a second after the page
// is there, sooner than a thumb is on the field, and letters both then and from the moment it is there. Beside a whole search
// stands its floor: a page that holds nothing but a field, as slowed, which takes up the same parts in the same order and does
// nothing with them. Beside the searches that were chosen, since each goes another way, stand some that were not: two and three
// words as they stand in the lessons, every fourth with two letters changed round. Prints figures for DEVELOPERS.md.

import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdirSync, readFileSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { loadavg } from 'node:os';
import path from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { unwatched } from './unwatched.mjs';

const ROOT = path.join(path.dirname(fileURLToPath(import.meta.url)), '../..');
const LESSONS = Number(process.argv[2] ?? 10_000);
const BOOK = path.join(ROOT, 'target/find-bench/book');
const INTO = path.join(ROOT, 'target/find-bench/bound');
const BARE = path.join(ROOT, 'target/find-bench/bare.html');
const CONTENT = path.join(ROOT, 'content');
// How many searches are picked from the lessons.
const PICKED = 48;
const TYPED = ['superheat', 'expansion valve', 'subcoolign', 'r410a', 'head pressure', 'liquid line screen', '118 psig r410a', 'evap', 'brine drain', 'ebaporator', 'ecpansion vlave'];

// The same numbers each time.
let seed = 1;
const random = (n) => { seed = (seed * 48_271) % 2_147_483_647; return seed % n; };
const pick = (list) => list[random(list.length)];
const made = () => Array.from({ length: 2 + random(3) }, () => pick(['ba', 'co', 'di', 'fer', 'gan', 'hol', 'kin', 'lor', 'mes', 'nat', 'pol', 'ris', 'sto', 'tum', 'ven', 'wal'])).join('');

function layOut() {
  rmSync(BOOK, { recursive: true, force: true });
  mkdirSync(path.join(BOOK, 'lessons/many'), { recursive: true });
  for (const name of ['refrigerants', 'terms.yaml', 'sources.yaml', 'values.yaml', 'hazards.yaml', 'trees', 'lessons', 'pictures', 'practice', 'sheets']) {
    cpSync(path.join(CONTENT, name), path.join(BOOK, name), { recursive: true });
  }
  const sentences = readdirSync(path.join(CONTENT, 'lessons'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .flatMap((entry) => readFileSync(path.join(entry.parentPath ?? entry.path, entry.name), 'utf8').replace(/^---[\s\S]*?---|```[\s\S]*?```|^>.*$|^\|.*$|^#.*$|^[-!].*$/gm, '').replace(/\[([^\]]*)\]\([^)]*\)/g, '$1').split(/(?<=\.)\s+/))
    .map((sentence) => sentence.replace(/\s+/g, ' ').trim()).filter((sentence) => /^[A-Z][^`*_<>[\]]{30,}\.$/.test(sentence));
  const names = [];
  for (let i = 0; i < LESSONS; i += 1) {
    const own = Array.from({ length: 4 }, made);
    const words = pick(sentences).replace(/[.,;:"]/g, '').split(' ').slice(0, 4).join(' ');
    const section = (title) => `## ${title}\n\n${Array.from({ length: 5 }, () => pick(sentences)).join(' ')} The ${own[random(4)]} ${own[random(4)]} is told from the ${made()}.\n`;
    const sections = Array.from({ length: 4 }, () => section(`${pick(sentences).split(' ').slice(0, 3).join(' ').replace(/[.,;:"]/g, '')} ${own[random(4)]}`));
    const name = `many-${i}`;
    names.push(name);
    writeFileSync(path.join(BOOK, `lessons/many/${name}.md`), `---\ntitle: "${words} ${own[0]}"\nindex: [${own[1]}]\n---\n${sections.join('\n')}`);
  }
  const front = readFileSync(path.join(CONTENT, 'handbook.yaml'), 'utf8').replace(/carry-copies:.*/, '');
  writeFileSync(path.join(BOOK, 'handbook.yaml'), `${front.trimEnd()}\n`.replace(/^parts:.*$/m, (line) => `${line}\n  - name: many\n    title: Many\n    lessons: [${names.join(', ')}]`));
}

function bind() {
  const begun = Date.now();
  execFileSync(process.env.PROGRAM ?? path.join(ROOT, 'target/release/coldpress'), ['bind', BOOK, '--into', INTO], { cwd: ROOT, stdio: 'inherit' });
  console.log(`bound in ${((Date.now() - begun) / 1000).toFixed(1)} s`);
}

const middle = (list) => list.sort((a, b) => a - b)[Math.floor(list.length / 2)];
const kb = (n) => `${(n / 1024).toFixed(0)} KB`;

if (!existsSync(INTO) || !process.env.AGAIN) { layOut(); bind(); }
const index = path.join(INTO, 'kit/find');
const parts = readdirSync(index);
const all = parts.reduce((sum, name) => sum + statSync(path.join(index, name)).size, 0);
const root = JSON.parse(readFileSync(path.join(INTO, 'kit/find.js'), 'utf8').split('["root"]=')[1].replace(/;\s*$/, ''));
console.log(`${root.counts.reduce((a, b) => a + b, 0)} entries, ${root.words.length} parts of words, ${parts.length} files, ${kb(all)} in all`);
console.log('typed                  first find takes up   first: on the screen   floor   whole   next: on the screen   whole');
const open = await unwatched(4);
const wait = (ms) => new Promise((on) => { setTimeout(on, ms); });
// The find page, or another, on a phone's screen.
const slowed = (file = path.join(INTO, 'find.html')) => open.page(pathToFileURL(file).href);
writeFileSync(BARE, '<!DOCTYPE html><html lang="en"><meta charset="utf-8"><title>Bare</title><input id="find">');
// The parts that have come when the screen is filled, by round: a part asked for after one has come begins the next. One that is
// asked for beforehand and comes later is not waited for. Watched in a visit of its own, since a page that is watched is slower.
async function roundsOf(typed) {
  const page = await slowed();
  await wait(500);
  const rounds = await page.run((typed) => new Promise((done) => {
    const field = document.getElementById('find');
    const found = document.getElementById('found');
    const rounds = [];
    const name = (script) => script.src.split('/').pop();
    const come = new Set();
    let waiting = false;
    document.addEventListener('load', (event) => { waiting = false; come.add(name(event.target)); }, { capture: true });
    new MutationObserver((changes) => changes.forEach((change) => {
      if (!waiting) rounds.push([]);
      waiting = true;
      rounds.at(-1).push(name(change.target));
    })).observe(document.head, { subtree: true, attributes: true, attributeFilter: ['src'] });
    new MutationObserver((_, watch) => {
      if (found.dataset.best !== typed) return;
      watch.disconnect();
      done(rounds.map((names) => names.filter((name) => come.has(name))).filter((names) => names.length > 0));
    }).observe(found, { attributes: true });
    field.value = typed;
    field.dispatchEvent(new Event('input'));
  }), typed);
  await page.shut();
  return rounds;
}
// As `typed` is answered at the least: the parts of each round taken up at once, one round after another. The usual words are
// there beforehand, as they are in the find page.
async function floor(typed, rounds) {
  const page = await slowed(BARE);
  const took = await page.run(async (typed, rounds) => {
    const scripts = Array.from({ length: 24 }, () => document.head.appendChild(document.createElement('script')));
    const take = (names) => Promise.all(names.map((name) => new Promise((done) => {
      const script = scripts.pop();
      script.onload = done;
      script.src = `bound/kit/find/${name}`;
    })));
    await take(['wu.js']);
    await new Promise((on) => setTimeout(on, 500));
    const begun = performance.now();
    document.getElementById('find').value = typed;
    for (const names of rounds) await take(names);
    return performance.now() - begun;
  }, typed, rounds);
  await page.shut();
  return took;
}
// From a key to what fills a phone's screen, and to all that is shown for it.
function answer(page, typed) {
  return page.run((typed) => new Promise((done) => {
    const field = document.getElementById('find');
    const found = document.getElementById('found');
    delete found.dataset.for;
    delete found.dataset.best;
    const begun = performance.now();
    let best;
    new MutationObserver((_, watch) => {
      if (found.dataset.best === typed) best ??= performance.now() - begun;
      if (found.dataset.for === typed) { watch.disconnect(); done([best, performance.now() - begun]); }
    }).observe(found, { attributes: true });
    field.value = typed;
    field.dispatchEvent(new Event('input'));
  }), typed);
}
for (const typed of TYPED) {
  const firsts = [];
  const nexts = [];
  const floors = [];
  const rounds = await roundsOf(typed);
  let taken = 0;
  for (let run = 0; run < 7; run += 1) {
    const page = await slowed();
    await wait(500);
    // The same again, with everything taken up, is a further letter's answer.
    firsts.push(await answer(page, typed));
    nexts.push(await answer(page, typed));
    taken = await page.run(() => [...document.scripts].map((s) => s.src).filter((src) => src.includes('/kit/find'))).then((urls) => urls.reduce((sum, url) => sum + statSync(fileURLToPath(url)).size, 0));
    await page.shut();
    floors.push([await floor(typed, rounds)]);
  }
  const ms = (list, which) => `${middle(list.map((answer) => answer[which])).toFixed(0)} ms`;
  console.log(`${typed.padEnd(22)} ${kb(taken).padStart(18)}   ${ms(firsts, 0).padStart(20)} ${ms(floors, 0).padStart(7)} ${ms(firsts, 1).padStart(7)}   ${ms(nexts, 0).padStart(19)} ${ms(nexts, 1).padStart(7)}`);
}
// Searches as nobody chose them.
function picked() {
  const text = readdirSync(path.join(CONTENT, 'lessons'), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => readFileSync(path.join(entry.parentPath ?? entry.path, entry.name), 'utf8').replace(/```[\s\S]*?```|^[>|#-].*$/gm, ''))
    .join('\n').toLowerCase();
  const rows = [2, 2, 3].map((words) => text.match(new RegExp(`\\b[a-z]{3,}(?: [a-z]{3,}){${words - 1}}\\b`, 'g')));
  return Array.from({ length: PICKED }, (_, n) => {
    const typed = pick(rows[n % rows.length]);
    const slip = 1 + random(typed.length - 2);
    return n % 4 === 3 ? typed.slice(0, slip) + typed[slip + 1] + typed[slip] + typed.slice(slip + 2) : typed;
  });
}
seed = 1;
const some = [];
for (const typed of picked()) {
  const firsts = [];
  for (let run = 0; run < 3; run += 1) {
    const page = await slowed();
    await wait(500);
    firsts.push((await answer(page, typed))[0]);
    await page.shut();
  }
  some.push([middle(firsts), typed]);
}
some.sort((a, b) => a[0] - b[0]);
const at = (share) => `${some[Math.min(some.length - 1, Math.floor(some.length * share))][0].toFixed(0)} ms`;
console.log(`${PICKED} searches picked from the lessons, the first of a visit, on the screen: half within ${at(0.5)}, nine in ten within ${at(0.9)}, the slowest ${at(1)} (${some.at(-1)[1]}), within 50 ms ${some.filter(([ms]) => ms <= 50).length}`);
// As a thumb types it, a letter every 120 ms: how long each letter waits for what it finds. Of several runs the middle, by letter.
console.log('typed letter by letter    half a second after opening: slowest   middle letter   at once: slowest');
async function letters(typed, after) {
  const runs = [];
  for (let run = 0; run < 5; run += 1) {
    const page = await slowed();
    await wait(after);
    const waits = await page.run(async (typed) => {
      const field = document.getElementById('find');
      const found = document.getElementById('found');
      const begun = {};
      const waits = {};
      new MutationObserver(() => {
        const { best } = found.dataset;
        if (best in begun) waits[best] ??= performance.now() - begun[best];
      }).observe(found, { attributes: true });
      for (let end = 1; end <= typed.length; end += 1) {
        const typedSoFar = typed.slice(0, end).trim();
        begun[typedSoFar] ??= performance.now();
        field.value = typed.slice(0, end);
        field.dispatchEvent(new Event('input'));
        await new Promise((on) => setTimeout(on, 120));
      }
      await new Promise((on) => setTimeout(on, 1000));
      // A letter whose answer was overtaken by the next waited at least so long.
      return Object.keys(begun).map((text) => waits[text] ?? 120);
    }, typed);
    runs.push(waits);
    await page.shut();
  }
  return runs[0].map((_, letter) => middle(runs.map((waits) => waits[letter])));
}
for (const typed of TYPED) {
  const [later, atOnce] = [await letters(typed, 500), await letters(typed, 0)];
  const ms = (n) => `${n.toFixed(0)} ms`;
  console.log(`${typed.padEnd(22)} ${ms(Math.max(...later)).padStart(38)} ${ms(middle(later)).padStart(15)} ${ms(Math.max(...atOnce)).padStart(18)}`);
}
await open.close();
console.log(`load average ${loadavg().map((n) => n.toFixed(1)).join(', ')}`);
