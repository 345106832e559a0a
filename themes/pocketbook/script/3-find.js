// Find: everything happens here, on the reader's own machine, in the index that came with the copy. The index is in parts
// (`src/setting/find/parts.rs` says which); only those that a search asks for are taken up.
document.addEventListener('DOMContentLoaded', function () {
  'use strict';
  var place = document.getElementById('found'), field = document.getElementById('find'), status = document.getElementById('taken');
  var parts = window.handbook, root = parts && parts.root;
  if (!place || !root) return;
  var words = JSON.parse(place.dataset.words), title = document.title, coming = {}, first = [0];
  var DIGITS = '0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_-', worth = {};
  // Shown at first: of a kind, of all, at least before the rest; how many ends of a half typed word are tried, in how many parts; and from what weight
  // on a word is a name by itself.
  var OF_KIND = 8, OF_ALL = 24, SCREEN = 5, ENDS = 12, ENDS_IN = 3, NAMED = 18;
  for (var d = 0; d < 64; d++) worth[DIGITS[d]] = d;
  root.counts.forEach(function (count) { first.push(first[first.length - 1] + count); });

  function part(name) {
    if (name in parts) return Promise.resolve(parts[name]);
    return coming[name] || (coming[name] = new Promise(function (done) {
      var script = document.createElement('script');
      script.src = 'kit/find/' + name + '.js';
      script.onload = script.onerror = function () { done(name in parts ? parts[name] : null); };
      document.head.append(script);
    }));
  }

  // Words as they are compared: small letters, no accents, hyphens gone, `R 410 A` one word like `R-410A`.
  function split(text) {
    var out = [];
    text.toLowerCase().normalize('NFD').replace(/[\u0300-\u036f\u00ad\-\u2010\u2011\u2019']/g, '').split(/[^\p{L}\p{N}/]+/u).forEach(function (word) {
      var last = out[out.length - 1];
      if (!word) return;
      if (last === 'r' && /^\d/.test(word) || /^r?\d{2,4}$/.test(last) && /^[a-z]$/.test(word)) out[out.length - 1] += word;
      else out.push(word);
    });
    return out;
  }
  // Endings off, so that mount, mounts, mounted and mounting are one.
  function stem(word) {
    if (/\d/.test(word) || word.length < 4) return word;
    word = word.replace(/ies$/, 'y').replace(/(ss|sh|ch|x)es$/, '$1').replace(/([^su])s$/, '$1');
    if (word.length > 5) word = word.replace(/(ation|ing|ers|ed|er|or|ly)$/, '');
    word = word.replace(/e$/, '');
    // evaporat-e, -ed, -ing, -or and evapor-ation
    if (word.length > 5) word = word.replace(/at$/, '');
    return word.replace(/([bdglmnprt])\1$/, '$1');
  }
  // The part of the words that a stem is in. Compared by code points, as they were sorted.
  function partOf(key) {
    var low = 0, high = root.words.length - 1;
    while (low < high) { var middle = (low + high + 1) >> 1; if (root.words[middle] <= key) low = middle; else high = middle - 1; }
    return 'w' + low;
  }
  // Weight by entry, out of `a3B1 25`.
  function places(text) {
    var found = new Map();
    text.split(' ').forEach(function (group) {
      var weight = worth[group[0]], at = 0, number = 0, scale = 1;
      for (var i = 1; i < group.length; i++) {
        var digit = worth[group[i]];
        number += digit % 32 * scale;
        if (digit < 32) { at += number; found.set(at, weight); number = 0; scale = 1; } else scale *= 32;
      }
    });
    return found;
  }
  // How many slips apart two words are: a letter wrong, missing, too many, or two changed round. Gives up past `most`.
  function slips(a, b, most) {
    if (Math.abs(a.length - b.length) > most) return most + 1;
    var before, last = [], row = [], i, j;
    for (j = 0; j <= b.length; j++) row[j] = j;
    for (i = 1; i <= a.length; i++) {
      before = last; last = row; row = [i];
      var least = i;
      for (j = 1; j <= b.length; j++) {
        row[j] = Math.min(last[j] + 1, row[j - 1] + 1, last[j - 1] + (a[i - 1] === b[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) row[j] = Math.min(row[j], before[j - 2] + 1);
        least = Math.min(least, row[j]);
      }
      if (least > most) return most + 1;
    }
    return row[b.length];
  }
  // How words are spelled that begin with `start`.
  async function spelled(names, start) {
    var lists = await Promise.all(names.map(part));
    return lists.flatMap(list => (' ' + (list || '')).split(' ' + start).slice(1))
      .map(function (word) { word = start + word.split(' ', 1)[0]; return { word: word.slice(0, -1), worth: worth[word[word.length - 1]] }; });
  }
  async function take(word, share, found) {
    var key = stem(word), of = (await part(partOf(key)) || {}).of || {};
    if (!Object.hasOwn(of, key)) return;
    places(of[key]).forEach(function (weight, entry) { found.set(entry, Math.max(found.get(entry) || 0, weight * share)); });
  }
  // The entries a typed word finds, and what it was taken for where nothing is spelled so.
  async function look(word, growing) {
    var found = new Map(), ends = [], taken = null, lists = growing && word.length > 1 && spelled(['l' + word[0]], word);
    await take(word, 1, found);
    if (lists) {
      var inParts = new Set([partOf(stem(word))]);
      ends = (await lists).filter(w => stem(w.word) !== stem(word));
      ends.sort((a, b) => b.worth - a.worth);
      ends = ends.slice(0, ENDS).filter(function (w) { var p = partOf(stem(w.word)); return inParts.has(p) || inParts.size < ENDS_IN && inParts.add(p); });
      await Promise.all(ends.map(w => take(w.word, 0.7, found)));
    }
    if (!found.size && word.length > 3 && !/^\d+$/.test(word)) {
      var most = word.length > 7 ? 2 : 1, key = stem(word), near = [];
      var names = ['l' + word[0]];
      if (word.length > 5) names.push('l' + word[1], 'm' + word[0], 'm' + word[1]);
      (await spelled(names, '')).forEach(function (w) {
        if (Math.abs(word.length - w.word.length) > 6) return;
        var apart = Math.min(slips(key, stem(w.word), most), slips(word, w.word, most));
        if (apart <= most) near.push([apart, -w.worth, w.word]);
      });
      near.sort((a, b) => a[0] - b[0] || a[1] - b[1] || (a[2] < b[2] ? -1 : 1));
      if (near.length) { taken = near[0][2]; await take(taken, 1, found); }
    }
    return { found: found, taken: taken };
  }
  async function search(tokens, growing) {
    var scores = new Map(), hits = new Map(), named = new Set(), taken = [];
    tokens = tokens.slice();
    var looked = await Promise.all(tokens.map((word, n) => look(word, growing && n === tokens.length - 1)));
    looked.forEach(function (result, n) {
      if (result.taken) { taken.push(result.taken); tokens[n] = result.taken; }
      result.found.forEach(function (weight, i) { scores.set(i, (scores.get(i) || 0) + weight); hits.set(i, (hits.get(i) || 0) + 1); if (weight >= NAMED) named.add(i); });
    });
    var most = 0, list = [];
    hits.forEach(function (n) { most = Math.max(most, n); });
    // Beside what has most of the words, what is called by one of them: `valve hunting` is hunting.
    scores.forEach(function (score, i) { if (hits.get(i) === most || named.has(i)) list.push([score * hits.get(i) / most, i]); });
    return { list: list, taken: taken, tokens: tokens, all: most === tokens.length };
  }
  // Other names lead to what they stand for: a search for a synonym searches for its term too.
  async function answer(tokens) {
    var result = await search(tokens, true), known = new Set(result.list.map(n => n[1]));
    var whole = result.tokens.join(' '), also = tokens.length ? (await part(partOf(stem(result.tokens[0]))) || {}).also || {} : {};
    for (var meant of Object.hasOwn(also, whole) ? also[whole] : []) {
      var more = await search(meant.split(' '), false);
      if (more.all) more.list.forEach(function (n) { if (!known.has(n[1])) { known.add(n[1]); result.list.push([n[0] * 0.7, n[1]]); } });
      result.tokens = result.tokens.concat(more.tokens);
    }
    result.tokens = result.tokens.map(stem);
    result.list.sort((a, b) => b[0] - a[0] || a[1] - b[1]);
    return result;
  }

  // A reading with its unit, and the refrigerant whose table has a row for it.
  var READING = /(^|\s)([-−+]?\d[\d.,]*)\s*°?\s*(psig?|barg?|kpag?|[fc])(?![a-z\d])/i;
  function reading(asked) {
    var read = READING.exec(asked), rest = read ? asked.replace(read[0], ' ') : asked, table = null;
    split(rest).forEach(function (word) { [word, 'r' + word].forEach(function (name) { if (Object.hasOwn(root.tables, name)) table = root.tables[name]; }); });
    return read && { rest: rest, table: table, said: read[0].trim(), number: number(read[2]) / (/^k/i.test(read[3]) ? 100 : 1), system: /^[pf]/i.test(read[3]) ? 'us' : 'si', pressure: /^[pbk]/i.test(read[3]) };
  }
  function number(text) { return Number(text.replace(/[−–]/g, '-').replace(/,(?=\d{3})/g, '').replace(',', '.')); }
  // The rows that a figure falls between: the first of the two; null outside.
  function between(rows, column, figure) {
    for (var i = 0; i < rows.length; i++) {
      var here = number(rows[i][column]), next = i + 1 < rows.length ? number(rows[i + 1][column]) : NaN;
      if (here === figure) return { row: i, same: true };
      if (here < figure && figure < next) return { row: i, same: false };
    }
    return null;
  }
  function atOnce(read, table) {
    var side = table[read.system], box = element('section', 'at-once', [element('h2', '', [element('span', 'nw', [table.name]), ', ' + read.said])]), list = element('dl', ''), rows = side.rows;
    var columns = table.one ? [[2, words.both]] : [[2, words.dew], [1, words.bubble]];
    function shown(figures, unit) { return figures[0] === figures[1] ? figures[0] + '\u00a0' + unit : words.to.replace('{from}', figures[0]).replace('{to}', figures[1] + '\u00a0' + unit); }
    columns.forEach(function (column) {
      var at = between(rows, read.pressure ? column[0] : 0, read.number);
      var dd = element('dd', '');
      if (at) {
        var last = at.same ? at.row : at.row + 1, asked = read.pressure ? 0 : column[0];
        var link = element('a', '', [element('b', '', [shown([rows[at.row][asked], rows[last][asked]], read.pressure ? side.t : side.p)]), ' ' + table.label]);
        // In a copy of one page there is no page to ask.
        link.href = table.href.replace(/(.)#/, '$1?lay=' + [read.system, at.row, last].join('-') + '#');
        dd.append(link);
      } else dd.append(words.at_none);
      list.append(element('div', '', [element('dt', '', [column[1]]), dd]));
    });
    // The forms that take such a reading, with it filled in.
    list.append(element('div', '', [element('dt', '', [words.form]), element('dd', '', root.forms.map(function (form) {
      var link = element('a', '', [element('b', '', [form[0]])]), asked = new URLSearchParams({ refrigerant: table.name });
      asked.set(form[read.pressure ? 2 : 3], read.number + ' ' + (read.pressure ? side.p : side.t));
      link.href = form[1].replace('#', '?' + asked + '#');
      return link;
    }))]));
    box.append(list);
    return box;
  }

  function element(name, kind, inside) { var n = document.createElement(name); if (kind) n.className = kind; (inside || []).forEach(function (i) { n.append(i); }); return n; }
  // The words that were looked for, marked.
  function marked(text, tokens) {
    var span = element('span');
    text.split(/([^\s,.;:()]+)/).forEach(function (piece) {
      var low = piece.toLowerCase(), is = tokens.some(t => low.includes(t[0])) && split(piece).some(function (word) { var s = stem(word); return tokens.some(t => t === s || t.length > 1 && word.indexOf(t) === 0 || /^r\d/.test(s) && s.slice(1) === t); });
      span.append(is ? element('mark', '', [piece]) : piece);
    });
    return span;
  }
  function kindOf(i) { var kind = 0; while (i >= first[kind + 1]) kind++; return kind; }
  async function entry(i) { var block = await part('e' + Math.floor(i / root.block)); return block && block[i % root.block]; }
  async function item(n, tokens) {
    var e = await entry(n[1]);
    if (!e) return '';
    var a = element('a', '', [element('span', 't', [marked(e[0], tokens)])]);
    if (e[2]) a.firstChild.append(element('span', 'dots'), element('span', 'p', [e[2]]));
    a.href = e[1];
    if (e[3]) { var line = marked(e[3], tokens); line.className = 's'; a.append(line); }
    return element('li', '', [a]);
  }
  async function group(g, tokens) {
    var list = g.list, ul = element('ul', 'found', await Promise.all(list.slice(0, g.count).map(n => item(n, tokens))));
    var out = [element('h2', 'found-kind', [root.kinds[g.kind]]), ul];
    if (list.length > g.count) {
      var more = element('button', 'press', [words.more]);
      more.type = 'button';
      more.addEventListener('click', async function () {
        var from = ul.children.length, next = await Promise.all(list.slice(from, from + OF_ALL).map(n => item(n, tokens)));
        ul.append(...next);
        ul.children[from].firstChild.focus();
        if (ul.children.length >= list.length) more.remove();
      });
      out.push(more);
    }
    return out;
  }
  var run = 0;
  async function show() {
    var asked = field.value.trim(), mine = ++run;
    document.title = asked ? asked + ', ' + title : title;
    if (!asked) { place.textContent = status.textContent = place.dataset.for = ''; return; }
    var read = reading(asked), tokens = split(read ? read.rest : asked), groups = root.kinds.map(() => []);
    var both = await Promise.all([answer(tokens.length ? tokens : split(asked)), read && read.table !== null ? part('t' + read.table) : null]);
    var result = both[0], left = OF_ALL;
    result.list.forEach(function (n) { groups[kindOf(n[1])].push(n); });
    var shown = groups.map(function (list, kind) { return { kind: kind, list: list }; }).filter(g => g.list.length)
      .sort((a, b) => b.list[0][0] - a.list[0][0] || a.kind - b.kind);
    // Each kind has its best first; what room is left goes to the kinds in their order.
    shown.forEach(function (g, n) { g.count = Math.min(g.list.length, OF_KIND, Math.max(2, left - 2 * (shown.length - n - 1))); left -= g.count; });
    // What fills a phone's screen is taken up first, and shown; the rest comes below it. Either is dropped when more is typed.
    for (var ahead = 0, n = 0; ahead < SCREEN && n < shown.length;) ahead += shown[n++].count;
    async function made(some) { return (await Promise.all(some.map(g => group(g, result.tokens)))).flat(); }
    var best = await made(shown.slice(0, n));
    if (mine !== run) return;
    place.replaceChildren(...(both[1] ? [atOnce(read, both[1])] : []), ...best);
    status.textContent = result.list.length || both[1]
      ? words.count.replace('{count}', result.list.length) + (result.taken.length ? ' ' + words.taken.replace('{taken}', result.taken.join(', ')) : '')
      : words.none.replace('{asked}', '“' + asked + '”');
    place.dataset.best = asked;
    var rest = await made(shown.slice(n));
    if (mine !== run) return;
    place.append(...rest);
    place.dataset.for = asked;
  }
  field.value = new URLSearchParams(location.search).get('for') || '';
  field.addEventListener('input', function () {
    show();
    // A folder may be opened where this is not allowed.
    try { history.replaceState(null, '', '?for=' + encodeURIComponent(field.value) + location.hash); } catch (e) {}
  });
  field.form.addEventListener('submit', function (event) { event.preventDefault(); show(); });
  // What the first letter typed would wait for is made ready now.
  setTimeout(reading, 0, title);
  show();
});
