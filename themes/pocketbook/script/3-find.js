// Find: everything happens here, on the reader's own machine, in the index that came with the copy.
document.addEventListener('DOMContentLoaded', function () {
  'use strict';
  var place = document.getElementById('found'), field = document.getElementById('find'), status = document.getElementById('taken');
  if (!place || !window.handbookIndex) return;
  var words = JSON.parse(place.dataset.words), entries = handbookIndex.entries, vocabulary = new Map(), spelled = new Map(), title = document.title, MOST = 8;

  // Words as they are compared: small letters, no accents, hyphens gone, `R 410 A` one word like `R-410A`.
  function plain(text) {
    return text.toLowerCase().normalize('NFD').replace(/[\u0300-\u036f\u00ad]/g, '').replace(/[-\u2010\u2011\u2019'’]/g, '')
      .replace(/\br\s+(?=\d)/g, 'r').replace(/\b(r?\d{2,4})\s+([a-z])\b/g, '$1$2');
  }
  function split(text) { return plain(text).split(/[^a-z0-9/]+/).filter(Boolean); }
  // Endings off, so that mount, mounts, mounted and mounting are one.
  function stem(word) {
    if (/\d/.test(word) || word.length < 4) return word;
    word = word.replace(/ies$/, 'y').replace(/(ss|sh|ch|x)es$/, '$1').replace(/([^su])s$/, '$1');
    if (word.length > 5) word = word.replace(/(ing|ed|er|ers|ation|ly)$/, '');
    return word.replace(/([bdglmnprt])\1$/, '$1').replace(/e$/, '');
  }
  function know(word, entry, weight) {
    var key = stem(word), places = vocabulary.get(key);
    if (!places) { vocabulary.set(key, places = new Map()); spelled.set(key, word); }
    if ((places.get(entry) || 0) < weight) places.set(entry, weight);
  }
  entries.forEach(function (entry, i) {
    split(entry.t).forEach(function (word) {
      know(word, i, 10);
      if (/^r\d/.test(word)) know(word.slice(1), i, 9); // typed without its R
    });
    (entry.w || '').split('; ').forEach(function (name) { split(name).forEach(function (word) { know(word, i, 8); }); });
    split(entry.s || '').forEach(function (word) { know(word, i, 3); });
  });
  Object.keys(handbookIndex.words).forEach(function (word) { handbookIndex.words[word].forEach(function (i) { know(plain(word), i, 2); }); });

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
  function look(word, growing) {
    var key = stem(word), found = new Map();
    function take(places, share) { places.forEach(function (weight, i) { found.set(i, Math.max(found.get(i) || 0, weight * share)); }); }
    if (vocabulary.has(key)) take(vocabulary.get(key), 1);
    if (growing && word.length > 1) vocabulary.forEach(function (places, known) { if (known !== key && known.indexOf(word) === 0) take(places, 0.7); });
    var taken = null;
    if (!found.size && word.length > 3 && !/^\d+$/.test(word)) {
      var most = word.length > 7 ? 2 : 1, near = [];
      vocabulary.forEach(function (places, known) {
        var apart = known[0] === key[0] || word.length > 5 ? Math.min(slips(key, known, most), slips(word, spelled.get(known), most)) : most + 1;
        if (apart <= most && !/^\d+$/.test(known)) near.push([apart, -Array.from(places.values()).reduce(function (a, b) { return a + b; }, 0), known]);
      });
      near.sort(function (a, b) { return a[0] - b[0] || a[1] - b[1] || (a[2] < b[2] ? -1 : 1); });
      if (near.length) { taken = spelled.get(near[0][2]); take(vocabulary.get(near[0][2]), 1); }
    }
    return { found: found, taken: taken };
  }
  function search(asked, growing) {
    var tokens = split(asked), scores = new Map(), hits = new Map(), taken = [], any = false;
    tokens.forEach(function (word, n) {
      var result = look(word, growing && n === tokens.length - 1);
      if (result.taken) { taken.push(result.taken); tokens[n] = result.taken; }
      if (result.found.size) any = true;
      result.found.forEach(function (weight, i) { scores.set(i, (scores.get(i) || 0) + weight); hits.set(i, (hits.get(i) || 0) + 1); });
    });
    var most = Math.max.apply(null, [0].concat(Array.from(hits.values()))), whole = tokens.join(' '), list = [];
    if (any) scores.forEach(function (score, i) {
      if (hits.get(i) < most) return;
      var named = split(entries[i].t).join(' ');
      if (named === whole) score += 12; else if (named.indexOf(whole) === 0) score += 4;
      (entries[i].w || '').split('; ').forEach(function (name) { if (split(name).join(' ') === whole) score += 8; });
      list.push([score, i]);
    });
    list.sort(function (a, b) { return b[0] - a[0] || a[1] - b[1]; });
    return { list: list, taken: taken, tokens: tokens.map(stem), whole: tokens.join(' '), only: most === tokens.length };
  }
  // Other names lead to what they stand for: a search for a synonym searches for its term too.
  function answer(asked) {
    var result = search(asked, true), whole = result.whole, known = new Set(result.list.map(function (n) { return n[1]; }));
    entries.forEach(function (entry) {
      if (entry.k !== 4 || !(entry.w || '').split('; ').some(function (name) { return split(name).join(' ') === whole; })) return;
      var more = search(entry.t, false);
      if (more.only) more.list.forEach(function (n) { if (!known.has(n[1])) { known.add(n[1]); result.list.push([n[0] * 0.7, n[1]]); } });
      result.tokens = result.tokens.concat(more.tokens);
    });
    result.list.sort(function (a, b) { return b[0] - a[0] || a[1] - b[1]; });
    return result;
  }
  function element(name, kind, inside) { var n = document.createElement(name); if (kind) n.className = kind; (inside || []).forEach(function (i) { n.append(i); }); return n; }
  // The words that were looked for, marked.
  function marked(text, tokens) {
    var span = document.createElement('span');
    text.split(/([^\s,.;:()]+)/).forEach(function (piece) {
      var is = split(piece).some(function (word) { var s = stem(word); return tokens.some(function (t) { return t === s || t.length > 1 && word.indexOf(t) === 0 || /^r\d/.test(s) && s.slice(1) === t; }); });
      span.append(is ? element('mark', '', [piece]) : piece);
    });
    return span;
  }
  function show() {
    var asked = field.value.trim();
    place.textContent = ''; status.textContent = '';
    document.title = asked ? asked + ', ' + title : title;
    if (!asked) return;
    var result = answer(asked), groups = handbookKinds.map(function () { return []; });
    result.list.forEach(function (n) { groups[entries[n[1]].k].push(n); });
    if (!result.list.length) { status.textContent = words.none.replace('{asked}', '“' + asked + '”'); return; }
    status.textContent = words.count.replace('{count}', result.list.length) + (result.taken.length ? ' ' + words.taken.replace('{taken}', result.taken.join(', ')) : '');
    groups.map(function (list, kind) { return { kind: kind, list: list }; }).filter(function (g) { return g.list.length; })
      .sort(function (a, b) { return b.list[0][0] - a.list[0][0] || a.kind - b.kind; })
      .forEach(function (group) {
        var ul = element('ul', 'found');
        group.list.slice(0, MOST).forEach(function (n) {
          var entry = entries[n[1]], a = element('a', '', [element('span', 't', [marked(entry.t, result.tokens)])]);
          if (entry.l) a.firstChild.append(element('span', 'dots'), element('span', 'p', [entry.l]));
          a.href = entry.h;
          if (entry.s) { var line = marked(entry.s, result.tokens); line.className = 's'; a.append(line); }
          ul.append(element('li', '', [a]));
        });
        place.append(element('h2', 'found-kind', [handbookKinds[group.kind]]), ul);
      });
  }
  field.value = new URLSearchParams(location.search).get('for') || '';
  var wait;
  field.addEventListener('input', function () {
    clearTimeout(wait);
    wait = setTimeout(function () {
      show();
      try { history.replaceState(null, '', '?for=' + encodeURIComponent(field.value)); } catch (e) { /* a folder opened where this is not allowed */ }
    }, 120);
  });
  field.form.addEventListener('submit', function (event) { event.preventDefault(); clearTimeout(wait); show(); });
  show();
});
