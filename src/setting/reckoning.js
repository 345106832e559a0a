// The reckoner of this handbook: computations and refrigerants' tables fetched by script tag, so that a page opened from
// a folder can have them, and the altitude at which gauges are read here.
((reckoner, handbook) => {
  const tag = typeof document !== 'undefined' && document.currentScript;
  const kit = tag ? tag.src.replace(/[^/]*$/, '') : '';
  const had = {sum: {}, fluid: {}}, asked = {};
  // What a fetched file gives itself over to.
  const take = (kind, name, what) => { had[kind][name] = kind === 'fluid' ? reckoner.props(what) : what; };
  const fetched = (kind, name, file) => {
    if (had[kind][name]) return Promise.resolve(had[kind][name]);
    const path = kit + kind + '/' + file + '.js';
    return asked[path] = asked[path] || new Promise((done, failed) => {
      const script = document.createElement('script');
      script.src = path;
      script.onload = () => had[kind][name] ? done(had[kind][name]) : failed(new Error(path + ' does not hold ' + name));
      script.onerror = () => { delete asked[path]; failed(new Error(path + ' is missing from this copy')); };
      document.head.append(script);
    });
  };
  const sum = name => fetched('sum', name, name);
  const fluid = name => {
    const file = handbook.fluids[name];
    return file ? fetched('fluid', name, file) : Promise.reject(new Error('this handbook has no refrigerant `' + name + '`'));
  };
  // The reader's own altitude, kept on this device as it was typed.
  const KEPT = 'pocketbook.altitude';
  const own = () => { try { return localStorage.getItem(KEPT); } catch (error) { return null; } };
  const keepAltitude = text => {
    if (text !== null) reckoner.runtime.air(reckoner.value(reckoner.readIn(text, 'length', 'ft'), 101325));
    try { if (text === null) localStorage.removeItem(KEPT); else localStorage.setItem(KEPT, text); } catch (error) { /* then it holds for this page only */ }
  };
  const system = () => {
    const si = typeof document !== 'undefined' && document.getElementById('units-si');
    return si && si.checked ? 'si' : 'us';
  };
  // Altitude in meters, the air there in pascals, whether it is the reader's own, and the system of units that is shown.
  const around = () => {
    const kept = own();
    let altitude = handbook.altitude, mine = false, shown = handbook.shown;
    if (kept !== null) {
      try {
        const read = reckoner.readIn(kept, 'length', 'ft'), meters = reckoner.value(read, 101325);
        if (isFinite(reckoner.runtime.air(meters))) {
          altitude = meters; mine = true;
          shown = {us: reckoner.shownIn(read, 'us', 101325), si: reckoner.shownIn(read, 'si', 101325)};
        }
      } catch (error) { /* what was kept is no altitude: the handbook's stands */ }
    }
    return {altitude, air: reckoner.runtime.air(altitude), own: mine, shown, system: system()};
  };
  // Works out the computation `name`; refrigerants in `given` by their designations.
  const reckon = async (name, given, where) => {
    const entry = await sum(name), ready = {...given};
    for (const input of entry.inputs) {
      const key = Object.keys(ready).find(key => reckoner.plainWords(key) === reckoner.plainWords(input.name));
      if (!input.kind && key !== undefined && typeof ready[key] === 'string') ready[key] = await fluid(ready[key]);
    }
    return reckoner.work(entry, ready, {...around(), ...where});
  };
  return {...reckoner, take, sum, fluid, reckon, around, keepAltitude, system, fluids: Object.keys(handbook.fluids), handbook};
})
