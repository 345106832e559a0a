// What people type, read in a page as the program reads it, and quantities set as the program sets them.
// Takes `data`, which the program writes from its own tables: every unit and every kind.
((data) => {
  const US = 'us', SI = 'si', FIXED = 0, GAUGE = 1, VACUUM = 2, SEA_LEVEL = 101325, NBSP = '\u00a0', MINUS = '\u2212';
  const kinds = new Map();
  for (const [name, us, usDecimals, si, siDecimals, sample, difference] of data.kinds)
    kinds.set(name, {name, sample, difference, decimals: {us: usDecimals, si: siDecimals}, usual: {us, si}, units: []});
  const units = data.units.map(([symbol, kind, system, factor, offset, reference, counterpart, least, ...spellings]) => {
    const unit = {symbol, kind: data.kinds[kind][0], system: system ? SI : US, factor, offset, reference, counterpart, least, spellings: [symbol, ...spellings]};
    kinds.get(unit.kind).units.push(unit);
    return unit;
  });
  const unitOf = (kind, symbol) => kinds.get(kind).units.find(unit => unit.symbol === symbol);
  const unitIn = (kind, system) => unitOf(kind, kinds.get(kind).usual[system]);
  const inSystem = (unit, system) => unit.system === system ? unit : unitOf(unit.kind, unit.counterpart) || unit;
  const toSi = (unit, number, air) =>
    unit.reference === FIXED ? number * unit.factor + unit.offset : unit.reference === GAUGE ? number * unit.factor + air : air - number * unit.factor;
  const fromSi = (unit, si, air) =>
    unit.reference === FIXED ? (si - unit.offset) / unit.factor : unit.reference === GAUGE ? (si - air) / unit.factor : (air - si) / unit.factor;

  // As the program rounds: a tie to the even digit, where a page would round it up.
  const fixed = (size, decimals) => {
    if (size >= 1e21) return BigInt(size) + (decimals ? '.' + '0'.repeat(decimals) : '');
    const text = size.toFixed(decimals), doubled = size * 2 ** (decimals + 1), last = text.charCodeAt(text.length - 1) - 48;
    return Number.isInteger(doubled) && doubled % 2 === 1 && last % 2 === 1 ? text.slice(0, -1) + (last - 1) : text;
  };
  const numberText = (number, decimals) => {
    if (!isFinite(number)) return String(number);
    const [whole, rest] = fixed(Math.abs(number), decimals).split('.');
    const grouped = whole.length >= 5 ? whole.replace(/\B(?=(\d{3})+$)/g, ',') : whole;
    const text = rest === undefined ? grouped : grouped + '.' + rest;
    return number < 0 && /[1-9]/.test(text) ? MINUS + text : text;
  };
  const withUnit = (number, unit) => unit.symbol === '' ? number : number + NBSP + unit.symbol;
  const print = (si, unit, decimals, air) => withUnit(numberText(fromSi(unit, si, air), decimals), unit);

  const plainWords = text => text.replace(/[-_]/g, ' ').split(SPACES).filter(Boolean).join(' ').toLowerCase();
  const SPACES = /[\t-\r \u0085\u00a0\u1680\u2000-\u200a\u2028\u2029\u202f\u205f\u3000]+/;
  const tidy = text => text.split(SPACES).filter(Boolean).join(' ');
  const slips = (a, b) => {
    const x = [...a], y = [...b], rows = [y.reduce((row, _, j) => [...row, j + 1], [0])];
    for (let i = 1; i <= x.length; i++) {
      const row = [i];
      for (let j = 1; j <= y.length; j++) {
        row[j] = Math.min(rows[i - 1][j] + 1, row[j - 1] + 1, rows[i - 1][j - 1] + (x[i - 1] === y[j - 1] ? 0 : 1));
        if (i > 1 && j > 1 && x[i - 1] === y[j - 2] && x[i - 2] === y[j - 1] && x[i - 1] !== y[j - 1]) row[j] = Math.min(row[j], rows[i - 2][j - 2] + 1);
      }
      rows.push(row);
    }
    return rows[x.length][y.length];
  };
  const nearest = (typed, names) => {
    let found = null, least = Infinity;
    typed = plainWords(typed);
    for (const name of names) {
      const plain = plainWords(name), length = [...plain].length, apart = slips(typed, plain);
      if (apart <= Math.ceil(Math.max([...typed].length, length) / 3) && apart < Math.max(length, 2) && apart < least) { least = apart; found = name; }
    }
    return found;
  };

  const one = kind => (/^[aeio]/.test(kind) ? 'an ' : 'a ') + kind;
  const sample = kind => kind === 'ratio' ? 'a number, as `0.8`' : 'a number and its unit, as `' + (kind ? kinds.get(kind).sample : '118 psig') + '`';
  const choices = (kind, typed) => {
    if (kind === 'pressure') return '`' + typed + ' psig` or `' + typed + ' psia`';
    const us = unitIn(kind, US).symbol, si = unitIn(kind, SI).symbol;
    return us === si ? '`' + typed + ' ' + us + '`' : '`' + typed + ' ' + us + '` or `' + typed + ' ' + si + '`';
  };
  class ReadingError extends Error {}
  const refuse = text => { throw new ReadingError(text); };

  const takeFraction = text => {
    const found = /^(?:(\d+)[- ])?(\d+)\/(\d+)/.exec(text);
    if (!found) return null;
    const [whole, top, bottom] = [found[1] || '0', found[2], found[3]].map(Number);
    return Math.max(whole, top, bottom) > 4294967295 ? null : {fraction: [whole, top, bottom], length: found[0].length};
  };
  const takeNumber = (typed, kind) => {
    const bad = () => refuse('`' + typed + '` is not one number: write ' + sample(kind));
    const signs = /^[-\u2212\u2013+]*/.exec(typed)[0];
    if (signs.length > 1) bad();
    const unsigned = typed.slice(signs.length).replace(/^ +/, ''), before = typed.length - unsigned.length;
    if (!/^\.*[0-9]/.test(unsigned)) refuse('`' + typed + '` does not begin with a number: write ' + sample(kind));
    const sign = signs !== '' && signs !== '+' ? -1 : 1;
    const part = takeFraction(unsigned);
    if (part) {
      const [whole, top, bottom] = part.fraction;
      if (bottom === 0) bad();
      return {value: sign * (whole + top / bottom), decimals: 0, fraction: part.fraction, length: before + part.length};
    }
    const text = /^[0-9.,]*/.exec(unsigned)[0], point = text.indexOf('.');
    const whole = point < 0 ? text : text.slice(0, point), decimals = point < 0 ? null : text.slice(point + 1);
    if (decimals !== null && (decimals === '' || /[.,]/.test(decimals) || decimals.length > 255)) bad();
    const groups = whole.split(',');
    if (groups.length > 1 && (groups[0].length < 1 || groups[0].length > 3 || groups.slice(1).some(group => group.length !== 3)))
      refuse('`' + typed + '` has a comma that does not group thousands: a decimal is written with a point, as `' +
        typed.slice(0, before) + text.replace(',', '.') + unsigned.slice(text.length) + '`');
    return {value: sign * Number(text.replace(/,/g, '')), decimals: decimals === null ? 0 : decimals.length, fraction: null, length: before + text.length};
  };

  const relaxed = spelled => spelled.toLowerCase().replace(/ per /g, '/').replace(/[ .\u00b7*()^\u00b0\u00ba]/g, '')
    .replace(/[\u00b2\u2082]/g, '2').replace(/\u00b3/g, '3').replace(/[\u00b5\u03bc]/g, 'u');
  const prefixInDoubt = (spelled, unit) =>
    spelled !== '' && /^[mM][PAVJ]/.test(unit.symbol) && [...spelled][0] !== unit.symbol[0];
  const search = (spelled, among) => {
    for (const unit of among) for (const spelling of unit.spellings) if (spelling === spelled) return {unit, spelling};
    const loose = relaxed(spelled);
    if (loose !== '')
      for (const unit of among) for (const spelling of unit.spellings)
        if (relaxed(spelling) === loose && !prefixInDoubt(spelled, unit)) return {unit, spelling};
    return null;
  };
  const marked = (number, {symbol}) => ({
    psi: '`' + number + ' psig` or `' + number + ' psia`',
    bar: '`' + number + ' barg` or `' + number + ' bara`',
    inHg: '`' + number + ' inHg vac` or `' + number + ' inHg abs`',
    mmHg: '`' + number + ' mmHg abs`, or a vacuum as `inHg vac`',
  })[symbol] || 'it as a gauge or an absolute pressure, in psig or psia (' + symbol + ' measures differences here)';
  const unknown = (spelled, kind, typed) => {
    const known = units.filter(unit => !kind || unit.kind === kind)
      .flatMap(unit => [unit.symbol, ...unit.spellings.slice(1).filter(s => new TextEncoder().encode(s).length > 1)]).filter(Boolean);
    const near = nearest(spelled, known);
    refuse('`' + typed + '`: there is no unit `' + spelled + '`' +
      (near ? '; the nearest is `' + near + '`' : kind ? '; ' + one(kind) + ' is written as `' + kinds.get(kind).sample + '`' : ''));
  };
  const findUnit = (spelled, kind, typed, number) => {
    if (!kind) return search(spelled, units) || unknown(spelled, null, typed);
    const found = search(spelled, kinds.get(kind).units);
    if (found) return found;
    if (spelled === '') refuse('`' + typed + '` has no unit: ' + one(kind) + ' is written with one, as ' + choices(kind, typed));
    const doubtful = kind === 'pressure' && search(spelled, kinds.get('pressure difference').units);
    if (doubtful) refuse('`' + typed + '` does not say from where it is counted: write ' + marked(number, doubtful.unit));
    const other = search(spelled, units);
    if (other) refuse('`' + typed + '` is ' + one(other.unit.kind) + ', and ' + one(kind) + ' is wanted here: write it as `' + kinds.get(kind).sample + '`');
    return unknown(spelled, kind, typed);
  };

  const writtenNumber = written => {
    if (!written.fraction) return numberText(written.number, written.decimals);
    const [whole, top, bottom] = written.fraction, sign = written.number < 0 ? MINUS : '';
    return sign + (whole ? whole + '-' : '') + top + '/' + bottom;
  };
  const plainGauge = unit => {
    const to = {psig: 'psia', barg: 'bara', kPag: 'kPa', MPag: 'MPa'}[unit.symbol];
    return unit.reference === VACUUM ? unitOf('pressure', 'inHg abs') : unit.reference === GAUGE && to ? unitOf('pressure', to) : unit;
  };
  // The value in SI of what was read, where the air stands at `air`.
  const value = (written, air) => {
    const unit = written.unit, si = toSi(unit, written.number, air), shown = withUnit(writtenNumber(written), unit);
    if (unit.kind === 'temperature' && si < 0) refuse('`' + shown + '` is below absolute zero, -459.67 \u00b0F');
    if (unit.kind === 'pressure' && si < 0)
      refuse('`' + shown + '` is below a perfect vacuum' + (unit.reference === FIXED ? '' :
        ': the air itself is only ' + withUnit(numberText(air / unit.factor, 2), plainGauge(unit)) + ' there'));
    return si;
  };
  // Reads one figure of a kind, or of whatever kind its unit belongs to; throws a ReadingError that says how to write it.
  const read = (text, kind) => {
    const typed = tidy(String(text));
    if (typed === '') refuse('nothing is written here: write ' + sample(kind));
    const number = takeNumber(typed, kind), rest = typed.slice(number.length).trim();
    const {unit, spelling} = findUnit(rest, kind, typed, typed.slice(0, number.length).trim());
    if (number.fraction && unit.kind !== 'length')
      refuse('`' + typed + '` is a fraction, and only lengths are written so: write `' + (number.value + ' ' + rest).trim() + '`');
    const written = {number: number.value, decimals: number.decimals, fraction: number.fraction, unit, spelling};
    if (unit.reference === FIXED) value(written, SEA_LEVEL);
    return written;
  };
  // As `read`, but a number alone is in `symbol`: the unit that stands beside the blank.
  const readIn = (text, kind, symbol) => {
    const typed = tidy(String(text));
    let bare = false;
    try { bare = typed !== '' && takeNumber(typed, kind).length === typed.length; } catch (error) { bare = false; }
    return read(bare ? typed + ' ' + symbol : typed, kind);
  };

  // How many decimals of `unit` the digits of a figure are worth.
  const decimalsIn = (written, unit) => {
    let step = (written.fraction ? 1 / written.fraction[2] : 10 ** -written.decimals) * written.unit.factor;
    if (!written.fraction && written.decimals === 0)
      for (let rest = Math.abs(written.number); rest >= 100 && rest % 10 === 0; rest /= 10) step *= 10;
    return Math.max(Math.min(Math.max(Math.ceil(-Math.log10(step / unit.factor) - 0.31), 0), 9), unit.least);
  };
  const numberTo = (written, unit, decimals, air) => {
    if (unit === written.unit) return writtenNumber(written);
    const number = fromSi(unit, toSi(written.unit, written.number, air), air);
    for (let fewer = 0; fewer < decimals; fewer++) {
      const step = 10 ** -fewer;
      if (Math.abs(Math.round(number / step) * step - number) < 1e-9 * Math.max(Math.abs(number), step)) return numberText(number, fewer);
    }
    return numberText(number, decimals);
  };
  const shownIn = (written, system, air) => {
    const unit = inSystem(written.unit, system);
    return withUnit(numberTo(written, unit, decimalsIn(written, unit), air), unit);
  };
  return {kinds, units, unitOf, unitIn, inSystem, toSi, fromSi, numberText, withUnit, print, plainWords, nearest, ReadingError, read, readIn, value,
    decimalsIn, numberTo, shownIn, writtenNumber};
})
