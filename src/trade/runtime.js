// What the script of every computation makes use of. Quantities are in SI throughout.
(() => {
  // The steps of one computation: each worked out when it is first asked for, and kept; and which were, in order.
  const steps = () => {
    let turn = 0, done = [];
    return {
      once: (name, work) => {
        let known = -1, value;
        return () => {
          if (known !== turn) { value = work(); known = turn; done.push([name, value]); }
          return value;
        };
      },
      clear: () => { turn++; done = []; },
      done: () => done.slice(),
    };
  };

  // Where f is zero between low and high, NaN where it does not cross: Brent (1973), chapter 4.
  const root = (low, high, f) => {
    const tolerance = 1e-13 * Math.abs(high - low);
    let a = low, b = high, fa = f(a), fb = f(b);
    if (fa === 0) return a;
    if (!(fa * fb <= 0)) return NaN;
    let c = a, fc = fa, last = b - a, beforeLast = last;
    for (let i = 0; i < 200; i++) {
      if (Math.abs(fc) < Math.abs(fb)) {
        [a, b, c] = [b, c, b];
        [fa, fb, fc] = [fb, fc, fb];
      }
      const slack = 2 * Number.EPSILON * Math.abs(b) + 0.5 * tolerance;
      const half = 0.5 * (c - b);
      if (Math.abs(half) <= slack || fb === 0) break;
      if (Math.abs(beforeLast) < slack || Math.abs(fa) <= Math.abs(fb)) {
        last = beforeLast = half;
      } else {
        const s = fb / fa;
        let p, q;
        if (a === c) {
          p = 2 * half * s;
          q = 1 - s;
        } else {
          const r = fb / fc, t = fa / fc;
          p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
          q = (t - 1) * (r - 1) * (s - 1);
        }
        if (p > 0) q = -q; else p = -p;
        if (2 * p < Math.min(3 * half * q - Math.abs(slack * q), Math.abs(beforeLast * q))) {
          beforeLast = last;
          last = p / q;
        } else {
          last = beforeLast = half;
        }
      }
      a = b; fa = fb;
      b += Math.abs(last) > slack ? last : (half < 0 ? -slack : slack);
      fb = f(b);
      if ((fb > 0) === (fc > 0)) {
        c = a; fc = fa; last = beforeLast = b - a;
      }
    }
    return b;
  };

  // Pressure of the standard atmosphere in pascals at an altitude in meters, -5000 to 11000: ISO 2533:1975.
  const air = altitude =>
    altitude >= -5000 && altitude <= 11000
      ? 101325 * Math.pow(1 - 0.0065 * altitude / 288.15, 9.80665 / (287.05287 * 0.0065))
      : NaN;

  return {steps, root, air};
})()
