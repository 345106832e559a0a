// The key: one question at a time. Each answer is a plain link, so the browser's own way back is a step back. What is
// read and answered makes the job's record: it outlives the page, and goes along where one tree leads into another. A
// copy in one page has a key for every tree, its names with the tree's page before them.
ready(() => {
  var root = document.documentElement;
  function two(n) { return (n < 10 ? '0' : '') + n; }
  function clock(at) { var d = new Date(at); return two(d.getHours()) + ':' + two(d.getMinutes()); }
  function day(at) { var d = new Date(at); return d.getFullYear() + '-' + two(d.getMonth() + 1) + '-' + two(d.getDate()); }
  function same(text) { return { us: text, si: text }; }
  function both(node) {
    function text(system) { var part = node.cloneNode(true); part.querySelectorAll(system === 'us' ? '.si' : '.us').forEach(n => { n.remove(); }); return part.textContent.trim(); }
    return { us: text('us'), si: text('si') };
  }
  function named(href) { return decodeURIComponent(href.slice(1)); }

  document.querySelectorAll('ol.key').forEach(list => {
    var sheet = list.parentNode, leaf = list.closest('main'), alone = list.closest('.one-leaf'), words = list.dataset, start = words.start;
    var side = leaf.querySelector('.readings'), note = side.querySelector('input'), body = side.querySelector('[data-readings]'), spare = body.innerHTML;
    var figure = leaf.querySelector('.whole-tree'), said = leaf.querySelector('[data-copied]'), title = leaf.querySelector('h1').textContent;
    var path = location.pathname.split('/'), here = alone ? alone.id : path.pop(), drawer = 'pocketbook.jobs.' + path.join('/');
    var jobs, job, index, rest, away = !mine();

    // A job is kept by the tree it was begun in: its steps, how many of them stand, and what was typed, by reading. Where
    // the device keeps nothing, the window does for as long as it is open.
    function open() {
      jobs = null;
      // Else kept by the window, or not at all; what stands there may not be ours.
      try { jobs = JSON.parse(localStorage.getItem(drawer)); } catch {}
      if (!jobs && window.name.indexOf(drawer) === 0) try { jobs = JSON.parse(window.name.slice(drawer.length)); } catch {}
      if (!jobs?.by) jobs = { by: {} };
      job = whole(jobs.by[jobs.at]);
      if (!job.steps.some(step => step.page === here || step.into === here)) {
        jobs.at = here;
        job = whole(jobs.by[here]);
      }
      index = job.index;
      note.value = job.note;
      rest = resumed();
    }
    // As it was kept, without what the tree no longer has; a fresh one where there is none.
    function whole(job) {
      if (!job?.steps || !job.typed || job.steps.some(step => step.page === here && !way(step))) return { note: '', steps: [], index: 0, typed: {} };
      return job;
    }
    function keep() {
      jobs.by[jobs.at] = job;
      var text = JSON.stringify(jobs);
      try { localStorage.setItem(drawer, text); } catch { window.name = drawer + text; }
    }
    // Where a page opened without a place in it goes on.
    function resumed() {
      var next = job.steps[job.index];
      if (next && next.page === here) return next.from;
      for (var i = job.index; i > 0; i--) {
        var step = job.steps[i - 1];
        if (step.into === here) break;
        if (step.page === here) return step.to && i === job.index ? step.to : step.from;
      }
      return start;
    }
    function way(step) { var at = document.getElementById(step.from); return at && leaf.contains(at) && at.querySelectorAll('.ways a')[step.n]; }
    function asked() {
      var at = document.getElementById(named(location.hash) || rest);
      return at && leaf.contains(at) && /\b(step|end)\b/.test(at.className) ? at.id : rest;
    }
    // Whether the place that is asked for is in this tree; in a page of its own it always is.
    function mine() { var at = alone && document.getElementById(named(location.hash)); return !alone || alone === at || alone.contains(at); }
    // How many steps stand at that place of this tree: of several, nearest to where one was. All, where none leads there.
    function standing(id) {
      var best = -1;
      for (var i = 0; i <= job.steps.length; i++) {
        var next = job.steps[i], last = job.steps[i - 1];
        var is = next && next.page === here && next.from === id;
        is ||= last && (last.into === here ? id === start && !next : last.page === here && last.to === id);
        if (is && (best < 0 || Math.abs(i - index) <= Math.abs(best - index))) best = i;
      }
      return best < 0 ? job.steps.length : best;
    }

    function show(move) {
      var id = asked(), at = document.getElementById(id), taken = [];
      index = job.index = standing(id);
      if (job.steps.length && mine()) keep();
      leaf.querySelectorAll('.open,.chosen,.taken').forEach(n => { n.classList.remove('open', 'chosen', 'taken'); n.removeAttribute('aria-current'); });
      at.classList.add('open');
      taken.push(id);
      job.steps.slice(0, index).forEach(step => {
        var link = step.page === here && way(step);
        if (!link) return;
        link.classList.add('chosen');
        link.setAttribute('aria-current', 'step');
        taken.push(step.from, step.into);
        figure.querySelectorAll('[data-way="' + step.from.split(':').pop() + '.' + step.n + '"]').forEach(n => { n.classList.add('taken'); });
      });
      figure.querySelectorAll('a').forEach(box => {
        var leads = box.getAttribute('href');
        if (taken.includes(leads[0] === '#' ? named(leads) : leads)) box.classList.add('taken');
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

    // The record: [when, tree, what was read or asked, what was found], the last in both systems of units.
    function record() {
      var rows = [];
      job.steps.slice(0, index).forEach(step => {
        (step.got || []).forEach(got => { rows.push([got.at, step.tree, got.name, same(got.text)]); });
        if (step.sum) rows.push([step.at, step.tree, step.sum.name, step.sum]);
        rows.push([step.at, step.tree, step.gate, step.found]);
      });
      return rows;
    }
    function write() {
      var head, rows = record();
      body.textContent = '';
      rows.forEach(row => {
        var over = row[1] + ', ' + day(row[0]), tr;
        if (over !== head) { tr = body.insertRow(); tr.innerHTML = '<th colspan="3" scope="rowgroup"></th>'; tr.firstChild.textContent = head = over; }
        tr = body.insertRow();
        tr.insertCell().textContent = clock(row[0]);
        tr.insertCell().textContent = row[2].charAt(0).toUpperCase() + row[2].slice(1);
        put(tr.insertCell(), row[3]);
      });
      if (!rows.length) body.innerHTML = spare;
      // What to have at hand, until there is something to read.
      side.querySelector('[data-listed]').hidden = rows.length > 0;
    }

    // Readings: what is typed is read with its unit, sums are done with it, and an answer follows.
    function each(form, what) { form.querySelectorAll('.blank').forEach(blank => { what(blank, blank.dataset, blank.querySelector('input'), blank.querySelector('select')); }); }
    function fill(form) {
      each(form, (blank, is, input, unit) => {
        var typed = job.typed[is.reading], empty = (input || unit).value === '';
        if (typed && empty) { if (input) input.value = typed.number; unit.value = typed.unit; }
        else if (input && empty) unit.selectedIndex = [...unit.options].findIndex(o => system() in o.dataset);
      });
    }
    // What the blanks hold: inputs for a sum, what goes into the record, and the first blank that is empty, or none of this.
    function taken(form) {
      var held = { given: {}, got: [] };
      each(form, (blank, is, input, unit) => {
        var text = (input || unit).value.trim(), typed = job.typed[is.reading], written;
        if (!text) { if ('required' in is && !held.empty) held.empty = input || unit; return; }
        try {
          if (input) {
            written = reckoner.readIn(text, is.kind, unit.value);
            held.si = reckoner.value(written, +words.air);
          }
        } catch (error) {
          held.why ||= error.message;
          held.empty ||= input;
          return;
        }
        // A number alone is in the unit beside it.
        var as = input && /^[-+\u2212\d.,\s\/]+$/.test(text) ? (text + ' ' + unit.value).trim() : text, unchanged = typed && typed.number === text && typed.unit === unit.value;
        held.given[is.input || ''] = as;
        held.got.push({ name: is.reading, text: as, number: input ? text : '', unit: unit.value, at: unchanged ? typed.at : Date.now() });
      });
      return held;
    }
    function remember(held) { held.got.forEach(got => { job.typed[got.name] = { number: got.number, unit: got.unit, at: got.at }; }); }
    // Says which answer follows; of several askings the last holds. Gives what the blanks hold, with that answer's link.
    function tell(form) {
      var turn = form.turn = {}, held = taken(form), verdict = form.querySelector('.verdict');
      var name = form.dataset.sum, ready = !held.why && !held.empty;
      return Promise.resolve(name && ready ? reckoner.reckon(name, held.given) : null).then(sum => {
        if (sum) held.si = sum.si;
        return sum && reckoner.sum(name).then(entry => { held.sum = { name: entry.answer.name, us: sum.text.us, si: sum.text.si, full: sum }; });
      }).catch(error => { held.why = error.message; }).then(() => {
        if (form.turn !== turn) return null;
        verdict.textContent = held.why || '';
        if (held.why || held.empty) return held;
        form.parentNode.querySelectorAll('.ways a').forEach(link => {
          if (!(held.si < +link.dataset.from) && !(held.si >= +link.dataset.to)) held.link = link;
        });
        if (held.sum) {
          verdict.append(held.sum.name.charAt(0).toUpperCase() + held.sum.name.slice(1) + ' ');
          var answer = make('b');
          put(answer, held.sum);
          verdict.append(answer, ': ');
        }
        if (held.link) put(verdict, both(held.link.querySelector('.if')));
        if (held.sum) working(verdict, held.sum.full);
        return held;
      });
    }
    function working(verdict, sum) {
      var rows = make('dl', 'working-sheet'), details = make('details', 'working', [make('summary', '', [make('span', '', [words.working])]), rows]);
      verdict.append(details);
      function row(name, fill, kind) {
        var dd = make('dd');
        fill(dd);
        rows.append(make('div', kind, [make('dt', '', [name]), dd]));
      }
      sum.inputs.forEach(input => { row(input.name, dd => { put(dd, input); }); });
      var lines = { us: sum.lines('us'), si: sum.lines('si') };
      (lines.us.length < lines.si.length ? lines.si : lines.us).forEach((line, n) => {
        function math(system) { return lines[system][n] ? lines[system][n].mathml : ''; }
        row(line.name, dd => { put(dd, { us: math('us'), si: math('si') }, 'innerHTML'); }, 'sum');
      });
      details.append(...sum.notes.map(text => make('p', '', [text])));
    }
    function answer(link, held) {
      var question = link.closest('.step'), leads = link.getAttribute('href'), to = leads[0] === '#' && named(leads);
      var at = to && document.getElementById(to), within = at && at !== alone && leaf.contains(at);
      job.steps.length = index;
      job.steps.push({
        page: here, tree: title, from: question.id, n: [...question.querySelectorAll('.ways a')].indexOf(link),
        to: within ? to : '', into: within ? '' : to || leads, gate: question.dataset.name, found: both(link.querySelector('.if')), at: Date.now(),
        got: held && held.got, sum: held && held.sum && { name: held.sum.name, us: held.sum.us, si: held.sum.si }
      });
      index = job.index = job.steps.length;
      keep();
    }
    list.addEventListener('click', event => {
      var link = event.target.closest('.ways a'), sign = event.target.closest('[data-sign]');
      if (link && !event.ctrlKey && !event.metaKey && !event.shiftKey) answer(link);
      if (!sign) return;
      var input = sign.parentNode.querySelector('input');
      input.value = /^[-\u2212]/.test(input.value) ? input.value.slice(1) : '-' + input.value;
      input.focus();
      tell(sign.form);
    });
    list.addEventListener('input', event => { tell(event.target.form); });
    list.addEventListener('change', event => { remember(taken(event.target.form)); keep(); });
    list.addEventListener('submit', event => {
      event.preventDefault();
      var form = event.target;
      tell(form).then(held => {
        if (!held) return;
        if (held.link) {
          remember(held);
          answer(held.link, held);
          location.assign(held.link.href);
          return;
        }
        form.querySelector('.verdict').textContent = held.why || words.none;
        if (held.empty) held.empty.focus();
      });
    });
    var forms = list.querySelectorAll('.take');
    // Where what reckons could not be had the answers can be pressed, as on paper.
    if (!window.reckoner) forms.forEach(form => { form.remove(); });
    else list.querySelectorAll('[data-fluid]').forEach(select => { reckoner.fluids.forEach(name => { select.add(new Option(name)); }); });

    note.oninput = () => { job.note = note.value; keep(); };
    // A tree in a copy of one page is opened anew when one comes to it from elsewhere, as a page of its own would be.
    window.addEventListener('hashchange', () => { var from = away; away = !mine(); if (away) return; if (from) open(); show(true); });
    window.addEventListener('pageshow', event => { if (event.persisted) { open(); show(false); } });
    document.querySelectorAll('.tail [name=units]').forEach(radio => {
      radio.addEventListener('change', () => { leaf.querySelectorAll('.open .take').forEach(form => { fill(form); tell(form); }); });
    });
    sheet.addEventListener('click', event => {
      var button = event.target.closest('[data-act]'), last = job.steps[index - 1];
      if (!button) return;
      if (button.dataset.act === 'again') {
        jobs.at = here;
        jobs.by[here] = null;
        job = whole();
        note.value = '';
        forms.forEach(form => { if (form.isConnected) form.reset(); });
        keep();
        index = 0;
        rest = start;
        location.hash = encodeURI(start);
        show(true);
      }
      if (button.dataset.act === 'back' && last) location.href = (last.page === here || alone ? '' : last.page) + '#' + encodeURI(last.from);
      if (button.dataset.act === 'whole') button.setAttribute('aria-pressed', !sheet.classList.toggle('walk'));
    });

    // The record, printed by itself, copied, or saved.
    function table() {
      var end = sheet.querySelector('.end.open'), as = system(), now = Date.now(), head = side.querySelectorAll('thead th');
      function text(node) { return both(node)[as].replace(/\s+/g, ' '); }
      var rows = record().map(row => [day(row[0]), clock(row[0]), row[1], row[2], row[3][as]]);
      if (end) rows.push([day(now), clock(now), title, words.outcome, text(end.querySelector('h3')) + '. ' + text(end.querySelector('p'))]);
      rows.unshift([words.date, head[0].textContent, words.tree, head[1].textContent, head[2].textContent]);
      return rows.map((row, n) => [n ? note.value : note.labels[0].textContent].concat(row));
    }
    function printed(what) { return () => { root.classList.add(what); window.print(); }; }
    var ways = {
      print: printed('record-only'),
      drawing: printed('drawing-only'),
      copy: () => {
        var text = table().map(row => row.join('\t')).join('\n');
        function done(well) { said.textContent = well ? said.dataset.copied : said.dataset.refused; }
        function old() {
          var area = make('textarea'), well = false;
          document.body.append(area);
          area.value = text;
          area.select();
          // A failure is told below.
          try { well = document.execCommand('copy'); } catch {}
          area.remove();
          done(well);
        }
        if (navigator.clipboard) navigator.clipboard.writeText(text).then(() => { done(true); }, old); else old();
      },
      save: () => {
        // As RFC 4180 has it; the mark in front tells spreadsheets that it is UTF-8.
        var text = '\ufeff' + table().map(row => row.map(cell => '"' + cell.replace(/"/g, '""') + '"').join(',') + '\r\n').join('');
        var link = make('a');
        link.href = URL.createObjectURL(new Blob([text], { type: 'text/csv;charset=utf-8' }));
        link.download = here.replace(/^.*\/|\.html$/g, '') + '-' + day(Date.now()) + '.csv';
        link.click();
        setTimeout(() => { URL.revokeObjectURL(link.href); }, 1000);
      }
    };
    leaf.querySelectorAll('[data-record]').forEach(button => { button.onclick = ways[button.dataset.record]; });
    sheet.classList.add('walk');
    open();
    show(false);
  });
  window.addEventListener('afterprint', () => { root.classList.remove('record-only', 'drawing-only'); });
});
