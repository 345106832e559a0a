// The key: one question at a time. Each answer is a plain link, so the browser's own way back is a step back. What is
// read and answered makes the job's record: it outlives the page, and goes along where one tree leads into another.
document.addEventListener('DOMContentLoaded', function () {
  'use strict';
  var list = document.querySelector('ol.key');
  if (!list) return;
  var root = document.documentElement, sheet = list.parentNode, side = document.querySelector('.readings'), note = document.getElementById('job');
  var body = side.querySelector('[data-readings]'), spare = body.innerHTML, figure = document.querySelector('.whole-tree'), said = document.querySelector('[data-copied]');
  var title = document.querySelector('h1').textContent, path = location.pathname.split('/'), here = path.pop(), drawer = 'pocketbook.jobs.' + path.join('/');
  var jobs, job, index, rest;

  // A job is kept by the tree it was begun in: its steps, how many of them stand, and what was typed, by reading. Where
  // the device keeps nothing, the window does for as long as it is open.
  function open() {
    jobs = null;
    try { jobs = JSON.parse(localStorage.getItem(drawer)); } catch (e) { /* kept by the window, or not at all */ }
    if (!jobs && window.name.indexOf(drawer) === 0) try { jobs = JSON.parse(window.name.slice(drawer.length)); } catch (e) { /* not ours */ }
    if (!jobs || !jobs.by) jobs = { by: {} };
    job = jobs.by[jobs.at];
    if (!job || !job.steps.some(function (step) { return step.page === here || step.to === here; })) {
      jobs.at = here;
      job = jobs.by[here] || fresh('');
    }
    index = job.index;
    note.value = job.note;
    rest = resumed();
  }
  function fresh(note) { return { begun: Date.now(), note: note, steps: [], index: 0, typed: {} }; }
  function keep() {
    jobs.by[jobs.at] = job;
    var text = JSON.stringify(jobs);
    try { localStorage.setItem(drawer, text); } catch (e) { window.name = drawer + text; }
  }
  // Where a page opened without a place in it goes on.
  function resumed() {
    var next = job.steps[job.index];
    if (next && next.page === here) return next.from;
    for (var i = job.index; i > 0; i--) {
      var step = job.steps[i - 1];
      if (step.to === here) break;
      if (step.page === here) return step.to.charAt(0) === '#' && i === job.index ? step.to.slice(1) : step.from;
    }
    return list.dataset.start;
  }

  function asked() {
    var at = document.getElementById(location.hash.slice(1) || rest);
    return at && /\b(step|end)\b/.test(at.className) ? at.id : list.dataset.start;
  }
  // How many steps stand at that place of this tree: of several, nearest to where one was. All, where none leads there.
  function standing(id) {
    var best = -1;
    for (var i = 0; i <= job.steps.length; i++) {
      var next = job.steps[i], last = job.steps[i - 1];
      var is = next && next.page === here && next.from === id;
      is = is || last && (last.to === here ? id === list.dataset.start && (!next || next.page === here) : last.page === here && last.to === '#' + id);
      if (is && (best < 0 || Math.abs(i - index) <= Math.abs(best - index))) best = i;
    }
    return best < 0 ? job.steps.length : best;
  }
  function way(step) { var at = document.getElementById(step.from); return at && at.querySelectorAll('.ways a')[step.n]; }

  function show(move) {
    var id = asked(), at = document.getElementById(id);
    index = job.index = standing(id);
    if (job.steps.length) keep();
    document.querySelectorAll('.open,.chosen,.taken').forEach(function (n) { n.classList.remove('open', 'chosen', 'taken'); n.removeAttribute('aria-current'); });
    at.classList.add('open');
    mark('a[href="#' + id + '"]');
    job.steps.slice(0, index).forEach(function (step) {
      var link = step.page === here && way(step);
      if (!link) return;
      link.classList.add('chosen');
      link.setAttribute('aria-current', 'step');
      mark('[data-way="' + step.from + '.' + step.n + '"],a[href="#' + step.from + '"]' + (step.to.charAt(0) === '#' ? '' : ',a[href="' + step.to + '"]'));
    });
    write();
    var form = at.querySelector('.take');
    if (form) { fill(form); tell(form); }
    sheet.querySelector('[data-act=back]').disabled = !index;
    said.textContent = '';
    if (move && sheet.classList.contains('walk')) {
      var head = at.querySelector('h3');
      head.tabIndex = -1;
      head.focus({ preventScroll: true });
      at.scrollIntoView({ block: 'start' });
    }
  }
  function mark(what) { figure.querySelectorAll(what).forEach(function (n) { n.classList.add('taken'); }); }

  // The record: [when, tree, what was read or asked, what was found], the last in both systems of units.
  function record() {
    var rows = [];
    job.steps.slice(0, index).forEach(function (step) {
      (step.got || []).forEach(function (got) { rows.push([got.at, step.tree, got.name, same(got.text)]); });
      if (step.sum) rows.push([step.at, step.tree, step.sum.name, step.sum]);
      rows.push([step.at, step.tree, step.gate, step.found]);
    });
    return rows;
  }
  function same(text) { return { us: text, si: text }; }
  function two(n) { return (n < 10 ? '0' : '') + n; }
  function clock(at) { var d = new Date(at); return two(d.getHours()) + ':' + two(d.getMinutes()); }
  function day(at) { var d = new Date(at); return d.getFullYear() + '-' + two(d.getMonth() + 1) + '-' + two(d.getDate()); }
  function system() { var si = document.getElementById('units-si'); return si && si.checked ? 'si' : 'us'; }
  function put(node, both) {
    ['us', 'si'].forEach(function (system) {
      var span = node.appendChild(document.createElement('span'));
      span.className = system;
      span.textContent = both[system];
    });
  }
  function both(node) {
    function text(system) { var part = node.cloneNode(true); part.querySelectorAll(system === 'us' ? '.si' : '.us').forEach(function (n) { n.remove(); }); return part.textContent.trim(); }
    return { us: text('us'), si: text('si') };
  }
  function write() {
    var head, rows = record();
    body.textContent = '';
    rows.forEach(function (row) {
      var over = row[1] + ', ' + day(row[0]);
      if (over !== head) { body.insertRow().innerHTML = '<th colspan="3" scope="rowgroup"></th>'; body.lastChild.firstChild.textContent = head = over; }
      var tr = body.insertRow();
      tr.insertCell().textContent = clock(row[0]);
      tr.insertCell().textContent = row[2].charAt(0).toUpperCase() + row[2].slice(1);
      put(tr.insertCell(), row[3]);
    });
    if (!rows.length) body.innerHTML = spare;
    // What to have at hand, until there is something to read.
    side.querySelector('[data-listed]').hidden = rows.length > 0;
  }

  // Readings: what is typed is read with its unit, and an answer follows from it.
  function fill(form) {
    form.querySelectorAll('.blank').forEach(function (blank) {
      var typed = job.typed[blank.dataset.reading], input = blank.querySelector('input'), unit = blank.querySelector('select');
      if (typed && (!input || input.value === '')) { if (input) input.value = typed.number; unit.value = typed.unit; }
      else if (input && input.value === '') unit.selectedIndex = [].findIndex.call(unit.options, function (o) { return system() in o.dataset; });
    });
  }
  // {si, number, unit}; nothing where the blank is empty, and no `si` where it holds no reading.
  function read(blank) {
    var input = blank.querySelector('input'), unit = blank.querySelector('select');
    if (!input) return unit.value ? { si: unit.value, number: '', unit: unit.value } : null;
    var text = input.value.trim().replace(/\u2212/g, '-').replace(/,(?=\d{3}(\D|$))/g, '').replace(',', '.');
    if (!text) return null;
    var part = /^([-+]?(?:\d+\.?\d*|\.\d+))\s*(.*)$/.exec(text), said = part && part[2].replace(/\s/g, '').toLowerCase();
    var option = unit.options[said ? [].findIndex.call(unit.options, function (o) { return o.value.replace(/\s/g, '').toLowerCase() === said; }) : unit.selectedIndex];
    if (!part || !option) return { number: text, unit: unit.value };
    var si = part[1] * option.dataset.by + +option.dataset.from;
    return { si: si < 0 && /^(pressure|temperature)$/.test(blank.dataset.kind) ? undefined : si, number: part[1], unit: option.value };
  }
  function reading(form) {
    var given = {}, got = [], short = false, bad = false;
    form.querySelectorAll('.blank').forEach(function (blank) {
      var is = read(blank), name = blank.dataset.reading, typed = job.typed[name];
      if (!is) { short = short || 'required' in blank.dataset; return; }
      if (is.si === undefined) { bad = true; return; }
      given[blank.dataset.input || ''] = is.si;
      var as = typed && typed.number === is.number && typed.unit === is.unit;
      got.push({ name: name, text: (is.number + ' ' + is.unit).trim(), number: is.number, unit: is.unit, at: as ? typed.at : Date.now() });
    });
    return { given: given, got: got, short: short, bad: bad };
  }
  function tell(form) {
    var is = reading(form), verdict = form.querySelector('.verdict'), found = null;
    is.si = is.given[''];
    verdict.textContent = is.bad ? list.dataset.none : '';
    if (is.bad || is.short) is.si = undefined;
    form.parentNode.querySelectorAll('.ways a').forEach(function (link) {
      var holds = is.si !== undefined && !(is.si < +link.dataset.from) && !(is.si >= +link.dataset.to);
      if (holds) found = link;
    });
    if (found) put(verdict, both(found.querySelector('.if')));
    is.link = found;
    return is;
  }
  function answer(link, is) {
    if (!index) job.begun = Date.now();
    var question = link.closest('.step');
    job.steps.length = index;
    job.steps.push({
      page: here, tree: title, from: question.id, n: [].indexOf.call(question.querySelectorAll('.ways a'), link), to: link.getAttribute('href'),
      gate: question.dataset.name, found: both(link.querySelector('.if')), at: Date.now(), got: is && is.got, sum: is && is.sum
    });
    index = job.index = job.steps.length;
    keep();
  }
  list.addEventListener('click', function (event) {
    var link = event.target.closest('.ways a'), sign = event.target.closest('[data-sign]');
    if (link && !event.ctrlKey && !event.metaKey && !event.shiftKey) answer(link);
    if (!sign) return;
    var input = sign.parentNode.querySelector('input');
    input.value = /^[-\u2212]/.test(input.value) ? input.value.slice(1) : '-' + input.value;
    input.focus();
    tell(sign.form);
  });
  list.addEventListener('input', function (event) { if (event.target.form) tell(event.target.form); });
  list.addEventListener('change', function (event) {
    if (!event.target.form) return;
    reading(event.target.form).got.forEach(function (got) { job.typed[got.name] = { number: got.number, unit: got.unit, at: got.at }; });
    keep();
  });
  list.addEventListener('submit', function (event) {
    event.preventDefault();
    var form = event.target, is = tell(form);
    if (is.link) {
      is.got.forEach(function (got) { job.typed[got.name] = { number: got.number, unit: got.unit, at: got.at }; });
      answer(is.link, is);
      location.assign(is.link.href);
      return;
    }
    if (!form.querySelector('.verdict').textContent) form.querySelector('.verdict').textContent = list.dataset.none;
    var empty = [].find.call(form.querySelectorAll('.blank'), function (blank) { var is = read(blank); return is ? is.si === undefined : 'required' in blank.dataset; });
    if (empty) empty.querySelector('input,select').focus();
  });
  note.addEventListener('input', function () { job.note = note.value; keep(); });
  window.addEventListener('hashchange', function () { show(true); });
  window.addEventListener('pageshow', function (event) { if (event.persisted) { open(); show(false); } });
  document.querySelectorAll('.tail [name=units]').forEach(function (radio) {
    radio.addEventListener('change', function () { document.querySelectorAll('.open .take').forEach(function (form) { fill(form); tell(form); }); });
  });
  sheet.addEventListener('click', function (event) {
    var button = event.target.closest('[data-act]'), last = job.steps[index - 1];
    if (!button) return;
    if (button.dataset.act === 'again') {
      job = fresh('');
      jobs.at = here;
      note.value = '';
      list.querySelectorAll('.take').forEach(function (form) { form.reset(); });
      keep();
      index = 0;
      location.hash = rest = list.dataset.start;
      show(true);
    }
    if (button.dataset.act === 'back' && last) location.href = (last.page === here ? '' : last.page) + '#' + last.from;
    if (button.dataset.act === 'whole') button.setAttribute('aria-pressed', String(!sheet.classList.toggle('walk')));
  });

  // The record, printed by itself, copied, or saved.
  function table() {
    var end = sheet.querySelector('.end.open'), as = system(), now = Date.now(), head = side.querySelectorAll('thead th');
    function text(node) { return both(node)[as].replace(/\s+/g, ' '); }
    var rows = record().map(function (row) { return [day(row[0]), clock(row[0]), row[1], row[2], row[3][as]]; });
    if (end) rows.push([day(now), clock(now), title, list.dataset.outcome, text(end.querySelector('h3')) + '. ' + text(end.querySelector('p'))]);
    rows.unshift([list.dataset.date, head[0].textContent, list.dataset.tree, head[1].textContent, head[2].textContent]);
    return rows.map(function (row, n) { return [n ? note.value : note.labels[0].textContent].concat(row); });
  }
  var ways = {
    print: function () { root.classList.add('record-only'); window.print(); },
    drawing: function () { root.classList.add('drawing-only'); window.print(); },
    copy: function () {
      var text = table().map(function (row) { return row.join('\t'); }).join('\n');
      function tell(well) { said.textContent = well ? said.dataset.copied : said.dataset.refused; }
      function old() {
        var area = document.body.appendChild(document.createElement('textarea')), well = false;
        area.value = text;
        area.select();
        try { well = document.execCommand('copy'); } catch (e) { /* told below */ }
        area.remove();
        tell(well);
      }
      if (navigator.clipboard) navigator.clipboard.writeText(text).then(function () { tell(true); }, old); else old();
    },
    save: function () {
      // As RFC 4180 has it; the mark in front tells spreadsheets that it is UTF-8.
      var text = '\ufeff' + table().map(function (row) { return row.map(function (cell) { return '"' + cell.replace(/"/g, '""') + '"'; }).join(',') + '\r\n'; }).join('');
      var link = document.createElement('a');
      link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
      link.download = here.replace('.html', '') + '-' + day(Date.now()) + '.csv';
      link.click();
      setTimeout(function () { URL.revokeObjectURL(link.href); }, 1000);
    }
  };
  window.addEventListener('afterprint', function () { root.classList.remove('record-only', 'drawing-only'); });
  document.querySelectorAll('[data-record]').forEach(function (button) { button.addEventListener('click', function () { ways[button.dataset.record](); }); });
  sheet.classList.add('walk');
  open();
  show(false);
});
