// Forms: the blanks are worked as they are filled, by the reckoner that came with the page.
ready(() => {
  var forms = document.querySelectorAll('.workform');
  if (!forms.length || !window.reckoner) return;
  var shown = system(), asked = new URLSearchParams(location.search);
  function blanks(form) { return [...form.querySelectorAll('.blanks input')]; }
  // What is typed, in the units of the other system: a number alone is converted, one with its unit stays.
  function turned(entry, blank, from, to) {
    var input = entry.inputs.find(i => i.name === blank.name);
    function beside(system) { return input.show ? reckoner.unitOf(input.kind, input.show[system][0]) : reckoner.unitIn(input.kind, system); }
    var air = reckoner.around().air, typed = blank.value.trim(), there = beside(from), here = beside(to), was = blank.was;
    // What was not changed since goes back to what it was.
    blank.was = { text: typed, system: from };
    if (was?.shown === typed && was.system === to) blank.value = was.text;
    else if (!was && typed === blank.dataset[from]) blank.value = blank.dataset[to];
    else if (/^[-\u2212+]?[\d.,\/ -]+$/.test(typed) && there !== here) {
      // What cannot be read is left to be mended where it stands.
      try {
        var written = reckoner.readIn(typed, input.kind, there.symbol);
        blank.value = reckoner.numberTo(written, here, reckoner.decimalsIn(written, here), air);
      } catch {}
    }
    blank.was.shown = blank.value;
  }
  function altitude(form, entry) {
    var blank = blanks(form).find(b => b.name === 'altitude');
    if (!blank) return;
    var around = reckoner.around(), own = form.querySelector('[data-own]');
    own.hidden = !around.own;
    if (document.activeElement !== blank) blank.value = around.own ? around.shown[shown].replace(/\s(ft|m)$/, '') : blank.dataset[shown];
  }
  function show(form, entry) {
    var given = {}, verdict = form.querySelector('.verdict'), answer = form.querySelector('[data-answer] .answer');
    form.querySelectorAll('.blanks [name]').forEach(blank => {
      if (blank.value.trim() !== '') given[blank.name] = blank.value;
      blank.removeAttribute('aria-invalid');
    });
    function say(text, kind) { verdict.append(make('p', kind, [text])); }
    return reckoner.reckon(entry.name, given).then(found => {
      verdict.textContent = '';
      putAnew(answer, found.text);
      form.querySelectorAll('[data-step]').forEach(row => { row.remove(); });
      found.steps.forEach(step => {
        if (step[1] === found.si) return;
        var about = entry.steps[step[0]], row = make('tr', '', [make('th', '', [step[0]]), make('td')]), text = {};
        ['us', 'si'].forEach(system => {
          text[system] = reckoner.print(step[1], reckoner.unitIn(about[0], system), reckoner.kinds.get(about[0]).decimals[system], found.air);
        });
        // A figure that its units can't tell is left to the working: nought where it isn't, or a row of digits.
        if ([text.us, text.si].some(t => step[1] && !/[1-9]/.test(t.split('\u00a0')[0]) || t.split(/[.\u00a0]/)[0].replace(/\D/g, '').length > 7)) return;
        row.dataset.step = step[0];
        row.firstChild.scope = 'row';
        put(row.lastChild, text);
        form.querySelector('[data-answer]').before(row);
      });
      if (form.dataset.low) {
        var low = +form.dataset.low, high = +form.dataset.high, hair = 1e-9 * (Math.abs(low) + Math.abs(high));
        var is = found.si < low - hair ? 'below' : found.si > high + hair ? 'above' : 'within';
        verdict.append(form.querySelector('[data-says]').content.querySelector('[data-verdict=' + is + ']').cloneNode(true));
      }
      found.notes.forEach(note => { say(note); });
      working(form, found);
    }, error => {
      verdict.textContent = '';
      answer.textContent = '\u2014';
      form.querySelectorAll('[data-step]').forEach(row => { row.lastChild.textContent = '\u2014'; });
      say(error.missing ? form.dataset.fill.replace('{name}', error.input) : error.message, 'wrong');
      var blank = error.input && form.querySelector('.blanks [name="' + CSS.escape(error.input) + '"]');
      if (blank) blank.setAttribute('aria-invalid', 'true');
      var details = form.querySelector('.working');
      if (details) details.hidden = true;
    });
  }
  // The working with the reader's own numbers, where the printed case had its.
  function working(form, found) {
    var details = form.querySelector('.working'), sheet = details && details.querySelector('.working-sheet');
    if (!sheet) return;
    details.hidden = false;
    putAnew(sheet.querySelector('b'), found.text);
    var inputs = sheet.children[1].querySelector('dd'), numbers = [...sheet.querySelectorAll('.sum .eq')].pop();
    inputs.textContent = '';
    found.inputs.forEach((input, i) => {
      var span = make('span');
      put(span, input);
      inputs.append((i ? '; ' : '') + input.name + ' ', span);
    });
    numbers.textContent = '';
    ['us', 'si'].forEach(system => {
      // One system may need a line more than the other.
      numbers.append(make('div', system, found.lines(system).map(line => { var div = make('div'); div.innerHTML = line.mathml; return div; })));
    });
  }
  forms.forEach(form => {
    reckoner.sum(form.dataset.sum).then(entry => {
      form.querySelectorAll('select').forEach(select => {
        var chosen = select.value;
        select.textContent = '';
        reckoner.fluids.forEach(name => { select.append(new Option(name, name, name === chosen, name === chosen)); });
      });
      blanks(form).forEach(blank => { blank.value = blank.dataset[shown]; });
      // What was typed in Find stands filled in, as a number alone where its unit stands beside the blank.
      form.querySelectorAll('.blanks [name]').forEach(blank => {
        var typed = asked.get(blank.name), unit = blank.parentNode.querySelector('.unit .' + shown);
        if (typed) blank.value = unit ? typed.replace(' ' + unit.textContent, '') : typed;
      });
      altitude(form, entry);
      var wait, again = () => { show(form, entry).then(() => { form.dataset.done = (+form.dataset.done || 0) + 1; }); };
      form.addEventListener('input', event => {
        clearTimeout(wait);
        wait = setTimeout(() => {
          if (event.target.name === 'altitude') {
            var text = event.target.value.trim(), unit = shown === 'us' ? ' ft' : ' m';
            // What cannot be read is said with the answer.
            try { reckoner.keepAltitude(text === '' || text === event.target.dataset[shown] ? null : /[a-z'\u2032]/i.test(text) ? text : text + unit); } catch {}
            forms.forEach(other => { other.dispatchEvent(new Event('altitude')); });
          } else again();
        }, 150);
      });
      form.addEventListener('altitude', () => { altitude(form, entry); again(); });
      form.addEventListener('units', event => {
        blanks(form).forEach(blank => { if (blank.name !== 'altitude') turned(entry, blank, event.detail.from, event.detail.to); });
        altitude(form, entry);
        again();
      });
      var back = form.querySelector('[data-own] button');
      if (back) back.onclick = () => {
        reckoner.keepAltitude(null);
        forms.forEach(other => { other.dispatchEvent(new Event('altitude')); });
      };
      again();
    });
  });
  document.querySelectorAll('.tail input[name=units]').forEach(radio => {
    radio.addEventListener('change', () => {
      var from = shown;
      shown = radio.value;
      if (from !== shown) forms.forEach(form => { form.dispatchEvent(new CustomEvent('units', { detail: { from: from, to: shown } })); });
    });
  });
});
