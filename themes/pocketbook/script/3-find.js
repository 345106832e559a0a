// Find: everything happens here, on the reader's own machine, in the index that came with the copy. The index is in parts
// (`src/setting/find/parts.rs` says which); only those that a search asks for are taken up.
ready(() => {
  var place = document.getElementById('found'), field = document.getElementById('find'), status = document.getElementById('taken');
  var parts = window.handbook, root = parts && parts.root;
  if (!place || !root) return;
  var words = JSON.parse(place.dataset.words), common = words.common, title = document.title, coming = {}, blanks = [], best = {}, usual, first = [0];
  // What a digit is worth.
  var worth = new Uint8Array(128);
  [...'0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_-'].forEach((digit, n) => { worth[digit.charCodeAt()] = n; });
  // Shown at first: of a kind, of all; how many ends of a half typed word are tried, and from how many
  // places on none is.
  var OF_KIND = 8, OF_ALL = 24, ENDS = 12, MANY = 400, ENDINGS = ['ations', 'ings', 'ers', 'ors', 'eds', 'es', 'ies', 'lys'];
  var often = spelled(root.like);
  for (var count of root.counts) first.push(first.at(-1) + count);
  // What is found is put in order as numbers, which is quick: entries in their order, more than RANK apart what weighs more.
  var RANK = 2 ** 24;
  function ranked(score, i) { return i - Math.round(score * 64) * RANK; }
  function at(rank) { return rank - Math.floor(rank / RANK) * RANK; }

  // A script that stands in the page already is sooner asked for, and the page isn't laid out anew for it.
  function stock() { while (blanks.length < 24) blanks.push(document.head.appendChild(make('script'))); }
  function part(name) {
    if (parts[name]) return Promise.resolve(parts[name]);
    return coming[name] ||= new Promise(done => {
      if (!blanks.length) stock();
      var script = blanks.pop();
      script.onload = script.onerror = () => done(parts[name]);
      script.src = 'kit/find/' + name + '.js';
    });
  }

  // As it is compared: small letters, no accents, hyphens gone.
  function plain(text) { return text.toLowerCase().normalize('NFD').replace(/[\u0300-\u036f\u00ad\-\u2010\u2011\u2019']/g, ''); }
  // The words of it, `R 410 A` one word like `R-410A`.
  function split(text) {
    var out = [];
    plain(text).split(/[^\p{L}\p{N}/]+/u).forEach(word => {
      var last = out.at(-1);
      if (!word) return;
      if (last === 'r' && /^\d/.test(word) || /^r?\d{2,4}$/.test(last) && /^[a-z]$/.test(word)) out.push(out.pop() + word);
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
    return low;
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
  // The part that a word is in. What comes with it to be shown is kept.
  function of(word) { return usual && Object.hasOwn(usual.of, word) ? usual : held(partOf(word)); }
  async function held(n) {
    var known = await part('w' + n) || { of: {}, also: {}, like: '' };
    Object.assign(best, known.best);
    return known;
  }
  async function take(key, found) {
    var words = (await of(key)).of;
    if (Object.hasOwn(words, key)) enter(words[key], 10, found);
  }
  // Numbers by entry, and which entries have one.
  function none() { return { of: new Uint16Array(first.at(-1)), all: [] }; }
  // Weight by entry in tenths, out of `a3B1 25`.
  function enter(text, share, found) {
    var { of, all } = found;
    text.split(' ').forEach(group => {
      var weight = worth[group.charCodeAt()] * share, at = 0, number = 0, scale = 1;
      for (var i = 1; i < group.length; i++) {
        var digit = worth[group.charCodeAt(i)];
        number += digit % 32 * scale;
        if (digit < 32) {
          at += number; number = 0; scale = 1;
          if (!of[at]) all.push(at);
          if (of[at] < weight) of[at] = weight;
        } else scale *= 32;
      }
    });
  }
  // What a word half typed may become: the best of what begins so, put together beforehand where that is much.
  async function grow(word, key, found) {
    var put = word + '*', at = partOf(put), all = (await held(at)).of, more = [], ends = [];
    if (Object.hasOwn(all, put)) return enter(all[put], root.less, found);
    while (at++ < partOf(word + '\uffff')) more.push(held(at));
    [{ of: all }, ...await Promise.all(more)].forEach(({ of }) => {
      for (var w in of) if (w.startsWith(word) && w !== key && !w.endsWith('*')) ends.push(of[w]);
    });
    ends.sort((a, b) => b.length - a.length).slice(0, ENDS).forEach(text => enter(text, root.less, found));
    // An ending half typed: mounti, evaporati; and superhea, whose stem is no ending short of it.
    for (var n = 1; !found.all.length && n < 5 && word.length - n > 3; n++) {
      var begun = word.slice(-n), cut = word.slice(0, -n);
      if (ENDINGS.some(e => e.startsWith(begun))) await Promise.all([take(stem(cut), found), take(cut, found)]);
    }
  }
  // Which letters there are in a word, as bits.
  function letters(word) { for (var bits = 0, i = word.length; i--;) bits |= 1 << word.charCodeAt(i) % 32; return bits; }
  // A list of spellings: each begins with so many letters of the one before. Words, what they are worth, their letters.
  function spelled(text) {
    var last = '';
    return text.split(' ').filter(Boolean).map(w => [last = last.slice(0, worth[w.charCodeAt()]) + w.slice(1, -1), worth[w.at(-1).charCodeAt()], letters(last)]);
  }
  // Those of a list that a word may be a slip for, the likeliest first: how many slips, `most` at the most, what it is worth, the
  // word. A short stem is like too many others: its word is compared as a whole. In a short word a slip in the first letter
  // makes another word of it.
  function near(word, key, list, most) {
    var whole = key.length < 5, begins = word.length < 6 && word[0], mine = letters(word) & (whole ? -1 : letters(key)), some = [];
    for (var [meant, value, bits] of list) {
      // Each letter that is not in it is a slip.
      for (var apart = most, lacks = mine & ~bits; apart--;) lacks &= lacks - 1;
      if (lacks || begins && begins !== meant[0]) continue;
      apart = slips(word, meant, most);
      if (apart && !whole) apart = Math.min(apart, slips(key, stem(meant), most));
      if (apart <= most) some.push([apart, value, meant]);
    }
    return some.sort(likelier);
  }
  function likelier(a, b) { return a[0] - b[0] || b[1] - a[1] || (a[2] < b[2] ? -1 : 1); }
  // The entries a typed word finds, and what it was taken for where nothing is spelled so.
  async function look(word, growing) {
    var found = none(), taken = null, key = stem(word), close = [];
    // A word that stands in many places is meant as it is. What it might become is on its way meanwhile, and what it might be
    // a slip for: a very short one is too much like others.
    growing = growing && word.length > 1;
    if (growing) of(word + '*');
    if (of(key) !== usual && word.length > 4) close = near(word, key, often, 1);
    if (close[0]) of(stem(close[0][2]));
    await take(key, found);
    if (growing && found.all.length < MANY) await grow(word, key, found);
    if (!found.all.length && word.length > 3 && !/^\d+$/.test(word) && !common.includes(word)) {
      var most = word.length > 7 ? 2 : 1;
      // An `ing` with a slip in it, what comes before it as it should be: `chargign`.
      for (var n = 2; n < 5 && word.length > 5 && !close[0]; n++) {
        var whole = word.slice(0, -n) + 'ing', mended = stem(whole);
        if (slips(word.slice(-n), 'ing', 1) === 1 && Object.hasOwn((await of(mended)).of, mended)) close = [[1, 0, whole]];
      }
      if (!close[0]) close = near(word, key, often, most);
      // The first letters are seldom the wrong ones: words with others, but for the usual ones, are tried where none with these
      // is like it.
      for (var names of [null, ['l' + word[0]], word.length > 5 ? ['l' + word[1], 'm' + word[0], 'm' + word[1]] : []]) {
        if (close[0] && (close[0][0] < 2 || names?.[1])) break;
        var lists = names ? await Promise.all(names.filter(name => root.spelled.includes(name)).map(part)) : [(await of(key)).like];
        close = close.concat(near(word, key, spelled(lists.join(' ')), most)).sort(likelier);
      }
      if (close[0]) { taken = close[0][2]; await take(stem(taken), found); }
    }
    return { found, taken };
  }
  // A common word, beside others, weighs little, and what is found needn't have it.
  async function search(tokens) {
    var scores = none(), hits = new Uint8Array(scores.of.length), named = hits.slice(), taken = [], most = 0;
    var all = tokens.every(word => common.includes(word));
    var looked = await Promise.all(tokens.map((word, n) => look(word, n === tokens.length - 1)));
    looked.forEach(({ taken: meant, found }, n) => {
      var light = !all && common.includes(tokens[n]);
      if (meant) { taken.push(meant); tokens[n] = meant; }
      for (var i of found.all) {
        if (!scores.of[i]) scores.all.push(i);
        scores.of[i] += light ? found.of[i] * root.light / 10 : found.of[i];
        if (light) continue;
        if (++hits[i] > most) most = hits[i];
        if (found.of[i] >= root.named) named[i] = 1;
      }
    });
    // Beside what has most of the words, what is called by one of them: `valve hunting` is hunting.
    var list = scores.all.filter(i => most && hits[i] === most || named[i]).map(i => ranked(scores.of[i] * hits[i] / most, i));
    return { list, taken, tokens };
  }
  // Other names lead to what they stand for: a search for a synonym searches for its term too.
  async function answer(tokens) {
    var result = await search(tokens), whole = result.tokens.join(' '), also = (await of(stem(result.tokens[0] || ''))).also;
    if (Object.hasOwn(also, whole)) {
      var known = new Set(result.list.map(at));
      also[whole].forEach(meant => {
        var more = none();
        enter(meant[1], root.less, more);
        more.all.forEach(i => { if (!known.has(i)) { known.add(i); result.list.push(ranked(more.of[i], i)); } });
        result.tokens = result.tokens.concat(meant[0].split(' '));
      });
    }
    result.tokens = result.tokens.map(stem);
    result.list = new Float64Array(result.list).sort();
    return result;
  }

  // A reading with its unit, and the refrigerant whose table has a row for it.
  var READING = /(^|\s)([-−+]?\d[\d.,]*)\s*°?\s*(psig?|barg?|kpag?|[fc])(?![a-z\d])/i;
  function reading(asked) {
    if (!/\d/.test(asked)) return null;
    var read = READING.exec(asked), rest = read ? asked.replace(read[0], ' ') : asked, table = null;
    split(rest).forEach(word => { [word, 'r' + word].forEach(name => { if (Object.hasOwn(root.tables, name)) table = root.tables[name]; }); });
    return read && { rest, table, said: read[0].trim(), number: number(read[2]) / (/^k/i.test(read[3]) ? 100 : 1), system: /^[pf]/i.test(read[3]) ? 'us' : 'si', pressure: /^[pbk]/i.test(read[3]) };
  }
  function number(text) { return Number(text.replace(/[−–]/g, '-').replace(/,(?=\d{3})/g, '').replace(',', '.')); }
  // The rows that a figure falls between: the first of the two; null outside.
  function between(rows, column, figure) {
    for (var i = 0; i < rows.length; i++) {
      var here = number(rows[i][column]), next = rows[i + 1] ? number(rows[i + 1][column]) : NaN;
      if (here === figure) return { row: i, same: true };
      if (here < figure && figure < next) return { row: i, same: false };
    }
    return null;
  }
  function atOnce(read, table) {
    var side = table[read.system], box = make('section', 'at-once', [make('h2', '', [make('span', 'nw', [table.name]), ', ' + read.said])]), list = make('dl', ''), rows = side.rows;
    var columns = table.one ? [[2, words.both]] : [[2, words.dew], [1, words.bubble]];
    function shown(figures, unit) { return figures[0] === figures[1] ? figures[0] + '\u00a0' + unit : words.to.replace('{from}', figures[0]).replace('{to}', figures[1] + '\u00a0' + unit); }
    columns.forEach(column => {
      var at = between(rows, read.pressure ? column[0] : 0, read.number);
      var dd = make('dd', '');
      if (at) {
        var last = at.same ? at.row : at.row + 1, asked = read.pressure ? 0 : column[0];
        var link = make('a', '', [make('b', '', [shown([rows[at.row][asked], rows[last][asked]], read.pressure ? side.t : side.p)]), ' ' + table.label]);
        // In a copy of one page there is no page to ask.
        link.href = table.href.replace(/(.)#/, '$1?lay=' + [read.system, at.row, last].join('-') + '#');
        dd.append(link);
      } else dd.append(words.at_none);
      list.append(make('div', '', [make('dt', '', [column[1]]), dd]));
    });
    // The forms that take such a reading, with it filled in.
    list.append(make('div', '', [make('dt', '', [words.form]), make('dd', '', root.forms.map(form => {
      var link = make('a', '', [make('b', '', [form[0]])]), asked = new URLSearchParams({ refrigerant: table.name });
      asked.set(form[read.pressure ? 2 : 3], read.number + ' ' + (read.pressure ? side.p : side.t));
      link.href = form[1].replace('#', '?' + asked + '#');
      return link;
    }))]));
    box.append(list);
    return box;
  }

  // The words that were looked for, marked.
  function marked(text, tokens) {
    var span = make('span');
    text.split(/([^\s,.;:()]+)/).forEach(piece => {
      // For most pieces a look for two letters is enough.
      var low = plain(piece), is = tokens.some(t => low.includes(t.slice(0, 2))) && split(low).some(word => { var s = stem(word); return tokens.some(t => t === s || t.length > 1 && word.indexOf(t) === 0 || /^r\d/.test(s) && s.slice(1) === t); });
      span.append(is ? make('mark', '', [piece]) : piece);
    });
    return span;
  }
  function kindOf(i) { var kind = 0; while (i >= first[kind + 1]) kind++; return kind; }
  async function entry(i) { if (best[i]) return best[i]; var block = await part('e' + Math.floor(i / root.block)); return block?.[i % root.block]; }
  async function item(rank, tokens) {
    var e = await entry(at(rank));
    if (!e) return '';
    var a = make('a', '', [make('span', 't', [marked(e[0], tokens)])]);
    if (e[2]) a.firstChild.append(make('span', 'dots'), make('span', 'p', [e[2]]));
    a.href = e[1];
    if (e[3]) { var line = marked(e[3], tokens); line.className = 's'; a.append(line); }
    return make('li', '', [a]);
  }
  // A kind with its first `count`; `most` are there once the rest are taken up.
  function items(list, tokens) { return Promise.all(list.map(rank => item(rank, tokens))); }
  async function group(g, tokens) {
    g.ul = make('ul', 'found', await items(g.list.slice(0, g.count), tokens));
    return [make('h2', 'found-kind', [root.kinds[g.kind]]), g.ul];
  }
  async function fill(g, tokens) {
    var list = g.list, ul = g.ul;
    ul.append(...await items(list.slice(g.count, g.most), tokens));
    if (list.length > g.most) {
      var more = make('button', 'press', [words.more]);
      more.type = 'button';
      more.onclick = async () => {
        var from = ul.children.length, next = await items(list.slice(from, from + OF_ALL), tokens);
        ul.append(...next);
        ul.children[from].firstChild.focus();
        if (ul.children.length >= list.length) more.remove();
      };
      ul.after(more);
    }
  }
  // What was found by its kind, each with its best first, and how much of it is shown.
  function byKind(list) {
    var groups = root.kinds.map(() => []), left = OF_ALL, ahead = root.screen;
    list.forEach(rank => groups[kindOf(at(rank))].push(rank));
    var shown = groups.map((list, kind) => ({ kind, list })).filter(g => g.list.length)
      .sort((a, b) => a.list[0] - b.list[0]);
    // What room is left goes to the kinds in their order. What fills a phone's screen is shown first, the rest once it is taken
    // up, below it.
    shown.forEach((g, n) => {
      g.most = Math.min(g.list.length, OF_KIND, Math.max(2, left - 2 * (shown.length - n - 1)));
      g.count = Math.min(g.most, ahead);
      left -= g.most;
      ahead -= g.count;
    });
    return shown;
  }
  var run = 0;
  // What waits for the browser to turn to other things first, as to what is to be seen.
  function pause() { return new Promise(on => { setTimeout(on); }); }
  // The title and the address say what is asked, so that one who comes back finds it so. That costs a browser more than an
  // answer does, which goes first. A folder may be opened where no address may be set.
  function note(asked) {
    document.title = asked ? asked + ', ' + title : title;
    if (asked !== noted) try { history.replaceState(null, '', '?for=' + encodeURIComponent(noted = asked) + location.hash); } catch {}
  }
  async function show() {
    var asked = field.value.trim(), mine = ++run;
    if (!asked) { place.textContent = status.textContent = place.dataset.for = ''; return note(asked); }
    var read = reading(asked), tokens = split(read ? read.rest : asked);
    var both = await Promise.all([answer(tokens.length ? tokens : split(asked)), read && read.table !== null ? part('t' + read.table) : null]);
    var result = both[0], shown = byKind(result.list);
    async function made(some) { return (await Promise.all(some.map(g => group(g, result.tokens)))).flat(); }
    var top = shown.filter(g => g.count), screen = await made(top);
    if (mine !== run) return;
    place.replaceChildren(...(both[1] ? [atOnce(read, both[1])] : []), ...screen);
    status.textContent = result.list.length || both[1]
      ? words.count.replace('{count}', result.list.length) + (result.taken.length ? ' ' + words.taken.replace('{taken}', result.taken.join(', ')) : '')
      : words.none.replace('{asked}', '“' + asked + '”');
    place.dataset.best = asked;
    await pause();
    if (mine !== run) return;
    note(asked);
    var rest = shown.filter(g => !g.count), below = await made(rest);
    if (mine !== run) return;
    place.append(...below);
    await Promise.all(top.concat(rest).map(g => fill(g, result.tokens)));
    if (mine === run) place.dataset.for = asked;
    stock();
  }
  var noted = field.value = new URLSearchParams(location.search).get('for') || '';
  field.oninput = show;
  field.form.onsubmit = event => { event.preventDefault(); show(); };
  show();
  // A browser is slow to run anything for the first times: what the first letter typed would wait for is run through now, unseen,
  // with a word that stands everywhere, in many places by its name, and a slip. The words that are asked for most are taken up for it.
  // Whoever types already is not kept waiting.
  setTimeout(async () => {
    stock();
    var known = await held('u'), all = '\uffff', many = 'x01'.repeat(Math.min(700, none().of.length >> 2));
    var slip = (often.find(w => w[0].length > 7) || [title])[0].slice(1);
    known.of[all] = known.of[all + '*'] = 'z' + many + ' a' + many + many;
    usual = known;
    reading('1 psig');
    for (var n = 3; n && run < 2; n--) {
      near(slip, slip, often, 1);
      byKind((await answer([all, all, all])).list);
      await group({ kind: 0, list: Object.keys(best).slice(0, root.screen).map(Number), count: root.screen }, ['a']);
      await pause();
    }
  }, 100);
});
