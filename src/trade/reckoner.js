// Computations, figures and refrigerants in a page. Takes `quantity`, which reads and prints, and `runtime`, which solves.
// Everything inside is in SI, pressures above a vacuum. What goes wrong is an Error whose message is for the reader.
((quantity, runtime) => {
  const {kinds, unitOf, unitIn, inSystem, toSi, fromSi, numberText, print, readIn, value, numberTo, decimalsIn, plainWords} = quantity;
  const SEA_LEVEL = 101325, US = 'us', SI = 'si';
  const fail = text => { throw new Error(text); };
  const plain = text => text.replace(/\u00a0/g, ' ').replace(/\u2212/g, '-');

  // --- refrigerants: compact tables of Chebyshev terms -------------------------------------------------------------
  const sum = (terms, s) => {
    let b1 = 0, b2 = 0;
    for (let i = terms.length - 1; i > 0; i--) [b1, b2] = [2 * s * b1 - b2 + terms[i], b1];
    return terms.length ? s * b1 - b2 + terms[0] : 0;
  };
  const place = (x, low, high) => (2 * x - low - high) / (high - low);
  const props = table => {
    const [bubble, dew] = table.lines;
    const both = (si, us, metric, figures) => figures(fromSi(us, si, SEA_LEVEL)) + ' ' + us.symbol + ' (' + figures(fromSi(metric, si, SEA_LEVEL)) + ' ' + metric.symbol + ')';
    const degrees = t => both(t, unitIn('temperature', US), unitIn('temperature', SI), x => x.toFixed(1));
    const pressures = p => both(p, unitOf('pressure', 'psia'), unitOf('pressure', 'kPa'), x =>
      Math.abs(x) >= 100 ? x.toFixed(1) : Math.abs(x) >= 1e-3 || x === 0 ? x.toFixed(Math.max(3 - Math.floor(Math.log10(Math.max(Math.abs(x), 1e-3))), 0)) : x.toExponential(3).replace('e+', 'e'));
    const outside = (what, asked, low, high, shown) =>
      fail(table.name + ': no ' + what + ' at ' + shown(asked) + '; it is known from ' + shown(low) + ' to ' + shown(high) +
        (bubble.k ? ' (from the triple point to just below the critical point)' : ' (the first and the last of its typed points)'));
    const at = (line, k, t) => {
      const u = Math.sqrt(Math.max(0, 1 - t / line.c)), piece = line.p.find(p => u <= p[1]) || line.p[line.p.length - 1];
      return sum(piece[2 + k], place(u, piece[0], piece[1]));
    };
    const of = (line, k, t, what) => {
      const slack = 1e-9 * t;
      if (!(t >= line.t[0] - slack && t <= line.t[1] + slack)) outside(what, t, line.t[0], line.t[1], degrees);
      if (k > 0 && !line.k) fail(table.name + ': its ' + what + ' is not known, for it is known by typed points only');
      return at(line, k, Math.min(Math.max(t, line.t[0]), line.t[1]));
    };
    const ends = line => [Math.exp(at(line, 0, line.t[0])), Math.exp(at(line, 0, line.t[1]))];
    const temperature = (line, p, what) => {
      const [low, high] = ends(line), ln = Math.log(p);
      if (!(p >= low * (1 - 1e-9) && p <= high * (1 + 1e-9))) outside(what, p, low, high, pressures);
      if (p <= low) return line.t[0];
      if (p >= high) return line.t[1];
      return runtime.root(line.t[0], line.t[1], t => at(line, 0, t) - ln);
    };
    // A sheet's values at two variables, none outside of it.
    const sheet = (of, k, a, b) => {
      const near = 1e-9, inside = (x, low, high) => x >= low - near && x <= high + near;
      const patch = of && of.p.find(p => inside(a, p[0], p[1]) && inside(b, p[2], p[3]));
      if (!patch) return NaN;
      const rows = patch[4 + k].slice(1).map(row => sum(row, place(b, patch[2], patch[3])));
      return sum(rows, place(a, patch[0], patch[1]));
    };
    const beyond = (what, p, t) => fail(table.name + ': its ' + what + ' at ' + pressures(p) + ' and ' + degrees(t) +
      ' lies outside the table that the page carries');
    const u = t => Math.sqrt(Math.max(0, 1 - t / dew.c));
    const single = (k, what) => (p, t) => {
      const found = table.dense && p > ends(dew)[1] ? k === 1 ? sheet(table.dense, 0, p, t) : NaN : (() => {
        if (p > ends(dew)[1] || p < ends(dew)[0]) return NaN;
        const boils = temperature(dew, p, what);
        return t < boils - 1e-6 ? NaN : sheet(table.vapor, k, u(boils), Math.max(0, t - boils));
      })();
      if (!isFinite(found)) beyond(what, p, t);
      return k === 0 ? p / (found * t) : found;
    };
    const seek = (k, p, wanted, what) => {
      const boils = temperature(dew, p, what), most = table.vapor ? table.vapor.s[3] : 0;
      const over = w => sheet(table.vapor, k, u(boils), w) - wanted;
      if (!(over(most) >= 0)) beyond(what, p, boils + most);
      return boils + runtime.root(0, most, over);
    };
    return {
      name: table.name,
      bubblePressure: t => Math.exp(of(bubble, 0, t, 'bubble pressure')),
      dewPressure: t => Math.exp(of(dew, 0, t, 'dew pressure')),
      bubbleTemperature: p => temperature(bubble, p, 'bubble temperature'),
      dewTemperature: p => temperature(dew, p, 'dew temperature'),
      liquidDensity: t => Math.exp(of(bubble, 1, t, 'density')),
      vaporDensity: t => Math.exp(of(dew, 1, t, 'density')),
      liquidEnthalpy: t => of(bubble, 2, t, 'enthalpy'),
      vaporEnthalpy: t => of(dew, 2, t, 'enthalpy'),
      liquidEntropy: t => of(bubble, 3, t, 'entropy'),
      vaporEntropy: t => of(dew, 3, t, 'entropy'),
      liquidEnthalpyAtPressure: p => of(bubble, 2, temperature(bubble, p, 'enthalpy'), 'enthalpy'),
      vaporEnthalpyAtPressure: p => of(dew, 2, temperature(dew, p, 'enthalpy'), 'enthalpy'),
      density: single(0, 'density'),
      enthalpy: single(1, 'enthalpy'),
      entropy: single(2, 'entropy'),
      temperatureAtEnthalpy: (p, h) => {
        const begins = temperature(bubble, p, 'temperature'), boils = temperature(dew, p, 'temperature');
        const from = of(bubble, 2, begins, 'enthalpy'), to = of(dew, 2, boils, 'enthalpy');
        if (h >= to) return seek(1, p, h, 'temperature');
        if (h < from) fail(table.name + ': at ' + pressures(p) + ' this is liquid that does not boil');
        const share = (h - from) / (to - from);
        if (boils - begins < 0.02 || !table.boiling) return begins + share * (boils - begins);
        const there = sheet(table.boiling, 0, u(boils), share);
        return isFinite(there) ? begins + there * (boils - begins) : beyond('temperature', p, begins);
      },
      enthalpyAtEntropy: (p, s) => {
        const begins = temperature(bubble, p, 'enthalpy'), boils = temperature(dew, p, 'enthalpy');
        const to = of(dew, 3, boils, 'entropy');
        if (s >= to) return single(1, 'enthalpy')(p, seek(2, p, s, 'enthalpy'));
        return fail(table.name + ': part of it is liquid at ' + pressures(p) + ', which the page does not work out (it boils at ' + degrees(begins) + ')');
      },
      lowestTemperature: () => bubble.t[0],
      highestTemperature: () => bubble.t[1],
    };
  };

  // --- one computation ---------------------------------------------------------------------------------------------
  const significant = number => {
    const size = Math.floor(Math.log10(Math.max(Math.abs(number), 1e-300)));
    const text = numberText(number, Math.min(Math.max(4 - size, 0), 9));
    return text.includes('.') ? text.replace(/0+$/, '').replace(/\.$/, '') : text;
  };
  const escape = text => text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;');
  const digits = number => number[0] === '\u2212' ? '<mrow><mo form="prefix">\u2212</mo><mn>' + number.slice(1) + '</mn></mrow>' : '<mn>' + number + '</mn>';
  const FENCE = ['<mrow><mo>(</mo>', '<mo>)</mo></mrow>'];

  // What the templates of a working are filled from: the figures of one run, for readers of one system.
  const filler = (sum, run, system) => {
    const quantityOf = (si, unit, decimals) => ({n: numberText(fromSi(unit, si, run.air), decimals), u: unit.symbol});
    const fine = (si, unit) => {
      const number = fromSi(unit, si, run.air), size = Math.abs(number);
      if (unit.symbol === '' && size !== 0 && !(size >= 1e-4 && size < 1e9)) {
        const [mantissa, power] = number.toExponential(4).split('e');
        return {n: mantissa.replace(/0+$/, '').replace(/\.$/, '').replace('-', '\u2212'), e: String(Number(power)).replace('-', '\u2212'), u: ''};
      }
      return {n: significant(number), u: unit.symbol};
    };
    const pressure = si => {
      const unit = symbol => unitOf('pressure', symbol);
      if (system === US) return si < 1e3 ? fine(si, unit('microns')) : si < 1e4 ? fine(si, unit('psia')) : quantityOf(si, unit('psia'), 2);
      return si < 1e3 ? fine(si, unit('Pa')) : si < 1e4 ? fine(si, unit('kPa')) : quantityOf(si, unit('kPa'), 1);
    };
    const absolute = si => quantityOf(si, unitOf('temperature', system === US ? '\u00b0R' : 'K'), 2);
    const usual = (kind, si, onAbsolute, show) => {
      const unit = show ? unitOf(kind, show[system][0]) : unitIn(kind, system);
      if (kind === 'pressure') return pressure(si);
      if (kind === 'temperature' && onAbsolute) return absolute(si);
      if (kind === 'temperature' || kind === 'temperature difference') return quantityOf(si, unit, 2);
      return fine(si, unit);
    };
    const unitFor = (input, written) =>
      written.unit.system === system ? written.unit : input.show ? unitOf(input.kind, input.show[system][0]) : inSystem(written.unit, system);
    // Kilopascals for bar, as in the program's workings.
    const reading = unit => unit.symbol === 'barg' ? unitOf('pressure', 'kPag') : unit;
    const writtenFigure = (written, unit) => ({n: numberTo(written, unit, decimalsIn(written, unit) + 1, run.air), u: unit.symbol});
    const shownIn = input => input.show ? [unitOf(input.kind, input.show[system][0]), input.show[system][1]] : [unitIn(input.kind, system), kinds.get(input.kind).decimals[system]];
    const against = (input, given) => {
      const unit = reading(given.written ? unitFor(input, given.written) : shownIn(input)[0]);
      if (given.written) return [writtenFigure(given.written, unit), unit];
      return [quantityOf(given.si, unit, unit === shownIn(input)[0] ? shownIn(input)[1] : Math.max(shownIn(input)[1] - 2, 0)), unit];
    };
    const F = {
      if: (name, lines) => run.steps.some(step => step[0] === name) ? lines() : [],
      set: q => {
        if (q.word !== undefined) return '<mtext>' + escape(q.word) + '</mtext>';
        if (q.e !== undefined) return '<mrow>' + digits(q.n) + '<mo>\u00d7</mo><msup><mn>10</mn>' + digits(q.e) + '</msup></mrow>';
        return q.u === '' ? digits(q.n) : '<mrow>' + digits(q.n) + '<mtext>\u00a0' + escape(q.u) + '</mtext></mrow>';
      },
      base: q => q.u === '' && q.e === undefined ? F.set(q) : FENCE[0] + F.set(q) + FENCE[1],
      open: q => q.n && q.n[0] === '\u2212' ? FENCE[0] : '',
      shut: q => q.n && q.n[0] === '\u2212' ? FENCE[1] : '',
      air: () => pressure(run.air),
      usual,
      step: (name, si, onAbsolute) => usual(sum.steps[name][0], si, onAbsolute, sum.steps[name][1]),
      count: (si, kind, symbol) => ({n: significant(fromSi(unitOf(kind, symbol), si, run.air)), u: ''}),
      fluid: name => ({word: run.given[name].fluid.name}),
      constant: (number, decimals, kind, symbol, onAbsolute) => {
        const written = {number, decimals, fraction: null, unit: unitOf(kind, symbol)};
        if (onAbsolute && kind === 'temperature') return absolute(toSi(written.unit, number, SEA_LEVEL));
        const unit = inSystem(written.unit, system);
        return {n: numberTo(written, unit, decimalsIn(written, unit), SEA_LEVEL), u: unit.symbol};
      },
      input: (name, onAbsolute) => {
        const input = sum.inputs.find(input => input.name === name), given = run.given[name];
        if (!given) return {word: name};
        if (input.kind === 'pressure') {
          if (!input.gauge) return pressure(given.si);
          if (given.written && given.written.unit.reference === 1) return against(input, given)[0];
          const [unit, decimals] = shownIn(input);
          return quantityOf(given.si, reading(unit), (reading(unit) === unit ? decimals : Math.max(decimals - 2, 0)) + 1);
        }
        if (input.kind === 'temperature' && onAbsolute) return usual(input.kind, given.si, 1);
        if (given.written) return writtenFigure(given.written, reading(unitFor(input, given.written)));
        return usual(input.kind, given.si, onAbsolute, input.show);
      },
      absolutes: () => sum.inputs.flatMap(input => {
        const given = run.given[input.name];
        if (input.kind !== 'pressure' || !given || input.gauge || input.unasked) return [];
        const [shown, unit] = against(input, given);
        if (unit.reference === 0) return [];
        const read = F.set(shown), air = F.set(F.air()), negative = shown.n[0] === '\u2212';
        const side = unit.reference === 1 ? '<mrow>' + read + '<mo>+</mo>' + air + '</mrow>'
          : '<mrow>' + air + '<mo>\u2212</mo>' + (negative ? FENCE[0] + read + FENCE[1] : read) + '</mrow>';
        return [[input.name, [input.symbol.replace(/<\/?math>/g, ''), side, F.set(pressure(given.si))]]];
      }),
      answer: si => {
        const [symbol, decimals] = sum.answer.show[system], unit = unitOf(sum.answer.kind, symbol), sides = [];
        if (unit.reference !== 0) sides.push(F.set(pressure(si)));
        if (reading(unit) !== unit) sides.push(F.set(quantityOf(si, reading(unit), Math.max(decimals - 2, 0) + 1)));
        return [...sides, F.set(quantityOf(si, unit, decimals))];
      },
    };
    return F;
  };

  const names = inputs => inputs.map(input => input.name).join(' or ');
  // Works `sum` out. `given` holds, by the names of its inputs, text as it is typed, or {si}, or a refrigerant's
  // properties; `around` says {altitude} in meters and the {system} whose units a number alone is in.
  const work = (sum, given, around) => {
    const system = around.system || US;
    const find = name => Object.keys(given).find(key => plainWords(key) === plainWords(name));
    const unitBeside = input => input.show ? input.show[system][0] : unitIn(input.kind, system).symbol;
    const reading = (input, text) => {
      try { return readIn(text, input.kind, unitBeside(input)); } catch (error) { throw Object.assign(error, {input: input.name}); }
    };
    for (const key of Object.keys(given))
      if (plainWords(key) !== 'altitude' && !sum.inputs.some(input => plainWords(input.name) === plainWords(key)))
        fail(sum.name + ' takes no `' + key + '`; it takes ' + sum.inputs.map(input => input.name).join(', '));
    const altitudeKey = find('altitude'), said = altitudeKey !== undefined && given[altitudeKey] !== '' ? given[altitudeKey] : undefined;
    let altitude = around.altitude || 0;
    if (said !== undefined) altitude = said.si !== undefined ? said.si : value(readIn(said, 'length', system === US ? 'ft' : 'm'), SEA_LEVEL);
    const air = runtime.air(altitude);
    if (!isFinite(air)) fail('an altitude of ' + print(altitude, unitOf('length', 'm'), 0, SEA_LEVEL) +
      ' is outside the standard atmosphere\'s lowest layer, -5,000 m to 11,000 m (-16,404 ft to 36,089 ft)');
    const run = {air, altitude, given: {}, steps: []}, inSi = {}, fluids = {}, missing = [], groups = {};
    for (const input of sum.inputs) {
      const key = find(input.name);
      let typed = key === undefined ? undefined : given[key];
      if (typeof typed === 'string' && typed.trim() === '') typed = undefined;
      if (input.group) (groups[input.group] = groups[input.group] || []).push([input, typed !== undefined]);
      if (typed === undefined && input.usual !== undefined) typed = input.usual;
      if (typed === undefined && input.around) typed = {si: altitude};
      if (typed === undefined) {
        if (!input.optional && !input.group) missing.push(input);
        continue;
      }
      if (!input.kind) {
        if (!typed.dewTemperature) fail(input.name + ' is the name of a refrigerant, as `R-410A`, not a figure');
        run.given[input.name] = {fluid: typed};
        fluids[input.name] = typed;
        continue;
      }
      let written = null, si;
      if (typeof typed === 'object') si = typed.si;
      else {
        written = reading(input, typed);
        try { si = value(written, air); } catch (error) { throw Object.assign(error, {input: input.name}); }
      }
      if (input.range) {
        const [low, high] = input.range.map(text => quantity.read(text, input.kind)), bound = end => toSi(end.unit, end.number, air);
        const hair = 1e-9 * Math.abs(bound(high) - bound(low));
        if (!(si >= bound(low) - hair && si <= bound(high) + hair)) {
          // As many decimals as show that it lies outside.
          const number = fromSi(low.unit, si, air), inside = decimals => { const x = +number.toFixed(decimals); return x >= low.number && x <= high.number; };
          let decimals = Math.max(low.decimals, high.decimals, 1);
          while (decimals < 9 && inside(decimals)) decimals++;
          const shown = print(si, low.unit, decimals, air);
          const outside = new Error(input.name + ' of ' + shown + ' is outside ' + quantity.withUnit(quantity.writtenNumber(low), low.unit) + ' to ' +
            quantity.withUnit(quantity.writtenNumber(high), high.unit) + ', where ' + sum.name + ' holds');
          throw Object.assign(outside, {input: input.name});
        }
      }
      run.given[input.name] = {written, si};
      inSi[input.name] = si;
    }
    for (const members of Object.values(groups)) {
      const found = members.filter(member => member[1]).length, all = names(members.map(member => member[0]));
      if (found === 0) fail(sum.name + ' also needs ' + all);
      if (found > 1) fail(sum.name + ' takes only one of ' + all + ', and more was given');
    }
    if (missing.length) throw Object.assign(new Error(sum.name + ' also needs ' + missing.map(input =>
      input.name + ' (as `' + (input.kind ? kinds.get(input.kind).sample : 'R-410A') + '`)').join(' and ')), {input: missing[0].name, missing: true});
    const worked = sum.work(inSi, air, Object.assign({}, fluids, fluids.refrigerant), runtime);
    if (worked.refused.length) fail(sum.name + ': ' + worked.refused[0]);
    if (!isFinite(worked.answer)) fail(sum.name + ': ' + sum.answer.name + ' has no value for these figures');
    run.steps = worked.steps;
    const text = system => {
      const [symbol, decimals] = sum.answer.show[system];
      return print(worked.answer, unitOf(sum.answer.kind, symbol), decimals, air);
    };
    const inputText = (input, system) => {
      const known = run.given[input.name];
      if (known.fluid) return known.fluid.name;
      const unit = known.written && (known.written.unit.system === system ? known.written.unit
        : input.show ? unitOf(input.kind, input.show[system][0]) : inSystem(known.written.unit, system));
      if (known.written) return quantity.withUnit(numberTo(known.written, unit, decimalsIn(known.written, unit), air), unit);
      const [symbol, decimals] = input.show ? input.show[system] : [unitIn(input.kind, system).symbol, kinds.get(input.kind).decimals[system]];
      return print(known.si, unitOf(input.kind, symbol), decimals, air);
    };
    return {
      sum, si: worked.answer, kind: sum.answer.kind, air, altitude, notes: worked.notes, steps: worked.steps,
      text: {us: text(US), si: text(SI)},
      inputs: sum.inputs.filter(input => run.given[input.name]).map(input => ({name: input.name, us: inputText(input, US), si: inputText(input, SI)})),
      // The working with these numbers, MathML line by line.
      lines: system => worked.lines(filler(sum, run, system)).map(([name, sides]) =>
        ({name, mathml: '<math><mrow>' + sides.filter((side, i) => side !== sides[i - 1]).join('<mo>=</mo>') + '</mrow></math>'})),
    };
  };
  return {...quantity, runtime, props, work, plain};
})
