//! Liquid and vapor side by side: one bubble or dew point by Newton's method.
//!
//! Takes a mixture, a composition, a temperature or a pressure, and a start; gives the point or nothing. Where the
//! start comes from is [`super::curve`]'s business.
//!
//! Unknowns are ln ρ of the phase whose composition is given and ln ρi of the other, and ln T where the pressure is
//! given; equations are equal fugacities and equal pressures. In logarithms no concentration can turn negative, and
//! nothing is divided by a small mole fraction. For a pure fluid these are the two unknowns of Akasaka (Journal of
//! Thermal Science and Technology 3 (2008) 442); for blends, the isochoric formulation in the concentrations of Deiters
//! and Bell (AIChE Journal 65 (2019) e16730, both from memory).

use super::{
    elimination,
    mixture::{Each, MOST, Mixture, Phase},
};

/// The most equations: every component of the second phase, the density of the first, and the temperature.
const SIZE: usize = MOST + 2;

/// Which phase has the composition of the blend.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Side {
    /// The liquid: its first bubble forms.
    Bubble,
    /// The vapor: its first drop forms.
    Dew,
}

/// What is held: temperature in K, or pressure in Pa.
#[derive(Clone, Copy, Debug)]
pub(super) enum Held {
    Temperature,
    Pressure(f64),
}

/// A point, or a guess at one: ln T, ln ρ of the given composition, ln ρi of the other phase.
#[derive(Clone, Copy, Debug)]
pub(super) struct Guess {
    pub(super) ln_t: f64,
    pub(super) ln_given: f64,
    pub(super) ln_other: Each,
}

/// A bubble or dew point.
#[derive(Clone, Copy, Debug)]
pub(super) struct Equilibrium {
    pub(super) guess: Guess,
    /// K
    pub(super) temperature: f64,
    /// Pa
    pub(super) pressure: f64,
    /// mol/m³ of each component in the liquid
    pub(super) liquid: Each,
    /// mol/m³ of each component in the vapor
    pub(super) vapor: Each,
}

/// Converged: potentials equal to this, in units of RT.
pub(super) const POTENTIAL_GAP: f64 = 1e-12;
/// Converged: pressures equal to this part of ρ'RT. The liquid's pressure is a difference of terms of that size, so a
/// measure relative to the pressure itself can't be kept where the pressure is low.
pub(super) const PRESSURE_GAP: f64 = 1e-11;
/// Converged: the pressure given is met to this part of it.
pub(super) const HELD_GAP: f64 = 1e-12;
/// How many times over the measure may be missed where rounding stands in its way, and after how many steps in vain.
const ROUNDING: f64 = 100.0;
const STANDS_STILL: usize = 3;
/// The longest step in any logarithm.
pub(super) const LONGEST_STEP: f64 = 0.5;
/// A liquid must be denser than its vapor by this factor; less is the trivial solution, both phases the same.
pub(super) const DENSER: f64 = 1.000_2;

/// The point nearest to the guess, or none where Newton's method doesn't get there.
pub(super) fn find(mixture: &Mixture, z: &Each, side: Side, held: Held, guess: Guess) -> Option<Equilibrium> {
    let n = mixture.len();
    let mut now = guess;
    let mut closest = (f64::INFINITY, guess);
    let mut since_closest = 0;
    for _ in 0..60 {
        let t = now.ln_t.exp();
        let (mut given, mut other) = ([0.0; MOST], [0.0; MOST]);
        let density = now.ln_given.exp();
        for i in 0..n {
            given[i] = density * z[i];
            other[i] = now.ln_other[i].exp();
        }
        let (a, b) = (mixture.phase(t, &given), mixture.phase(t, &other));
        let (liquid, vapor) = if side == Side::Bubble { (&a, &b) } else { (&b, &a) };

        let gap = Gap::between(mixture, t, liquid, vapor, held, n)?.size();
        // Where the liquid's terms cancel more than usual, rounding keeps the measure from being met: then the nearest
        // point is taken once steps no longer bring it nearer.
        let stands_still = since_closest >= STANDS_STILL && gap <= closest.0 && gap <= ROUNDING;
        if gap <= 1.0 || stands_still {
            if !(vapor.pressure > 0.0 && liquid.density > DENSER * vapor.density) {
                return None;
            }
            return Some(finish(mixture, z, side, held, now, &a, &b, t));
        }
        if gap < closest.0 {
            (closest, since_closest) = ((gap, now), 0);
        } else {
            since_closest += 1;
            if since_closest == STANDS_STILL && closest.0 <= ROUNDING {
                now = closest.1;
                continue;
            }
            if since_closest > 12 {
                return None;
            }
        }
        step(mixture, &mut now, &a, &b, vapor, t, held, n)?;
    }
    None
}

/// The point once the measure is met, moved by one step more, so small that it needn't be looked at again: near the
/// critical point densities answer to the last digits of the potentials.
#[expect(clippy::too_many_arguments, reason = "the loop's own variables")]
fn finish(
    mixture: &Mixture,
    z: &Each,
    side: Side,
    held: Held,
    now: Guess,
    given: &Phase,
    other: &Phase,
    t: f64,
) -> Equilibrium {
    let n = mixture.len();
    let vapor = if side == Side::Bubble { other } else { given };
    let mut moved = now;
    let stepped = step(mixture, &mut moved, given, other, vapor, t, held, n).is_some();
    let change = |a: f64, b: f64| (a - b).abs();
    let small = change(moved.ln_t, now.ln_t).max(change(moved.ln_given, now.ln_given))
        + (0..n).map(|i| change(moved.ln_other[i], now.ln_other[i])).fold(0.0, f64::max);
    let guess = if stepped && small < 1e-6 { moved } else { now };

    let mut pressure = vapor.pressure + vapor.pressure_by_t * (guess.ln_t - now.ln_t);
    let (mut own, mut others) = ([0.0; MOST], [0.0; MOST]);
    let density = guess.ln_given.exp();
    for i in 0..n {
        own[i] = density * z[i];
        others[i] = guess.ln_other[i].exp();
        pressure += vapor.pressure_by[i]
            * match side {
                Side::Bubble => guess.ln_other[i] - now.ln_other[i],
                Side::Dew => guess.ln_given - now.ln_given,
            };
    }
    let (temperature, pressure) = match held {
        Held::Temperature => (t, pressure),
        Held::Pressure(p) => (guess.ln_t.exp(), p),
    };
    let (liquid, vapor) = if side == Side::Bubble { (own, others) } else { (others, own) };
    Equilibrium { guess, temperature, pressure, liquid, vapor }
}

/// How far apart two potentials are, in units of RT. A component may be all but absent from one phase: then its potential
/// is a large number with its own rounding.
pub(super) fn potential_gap(liquid: f64, vapor: f64) -> f64 {
    (liquid - vapor).abs() / (1.0 + 0.01 * liquid.abs())
}

/// How far two phases are from equilibrium.
#[derive(Clone, Copy, Debug)]
struct Gap {
    potential: f64,
    pressure: f64,
    held: f64,
}

impl Gap {
    fn between(mixture: &Mixture, t: f64, liquid: &Phase, vapor: &Phase, held: Held, n: usize) -> Option<Self> {
        let mut potential = 0.0_f64;
        for k in 0..n {
            let gap = potential_gap(liquid.potential[k], vapor.potential[k]);
            if !gap.is_finite() {
                return None;
            }
            potential = potential.max(gap);
        }
        let pressure = (liquid.pressure - vapor.pressure).abs() / (mixture.gas_constant * t * liquid.density);
        let held = match held {
            Held::Temperature => 0.0,
            Held::Pressure(p) => (vapor.pressure / p - 1.0).abs(),
        };
        (pressure.is_finite() && held.is_finite()).then_some(Self { potential, pressure, held })
    }

    /// How many times over the measure is missed: one or less where it is met.
    fn size(&self) -> f64 {
        (self.potential / POTENTIAL_GAP).max(self.pressure / PRESSURE_GAP).max(self.held / HELD_GAP)
    }
}

/// One step of Newton's method, held to [`LONGEST_STEP`].
#[expect(clippy::too_many_arguments, reason = "the loop's own variables, taken apart for reading")]
fn step(
    mixture: &Mixture,
    now: &mut Guess,
    given: &Phase,
    other: &Phase,
    vapor: &Phase,
    t: f64,
    held: Held,
    n: usize,
) -> Option<()> {
    let floor = 1e-3 * mixture.gas_constant * t * given.density.min(other.density);
    let scale = given.pressure.abs().max(other.pressure.abs()).max(floor);
    let mut matrix = [[0.0; SIZE]; SIZE];
    let mut right = [0.0; SIZE];
    for k in 0..n {
        right[k] = other.potential[k] - given.potential[k];
        matrix[k][0] = given.potential_by[k][..n].iter().sum();
        for l in 0..n {
            matrix[k][l + 1] = -other.potential_by[k][l];
        }
        matrix[k][n + 1] = given.potential_by_t[k] - other.potential_by_t[k];
    }
    right[n] = (other.pressure - given.pressure) / scale;
    matrix[n][0] = given.pressure_by[..n].iter().sum::<f64>() / scale;
    for l in 0..n {
        matrix[n][l + 1] = -other.pressure_by[l] / scale;
    }
    matrix[n][n + 1] = (given.pressure_by_t - other.pressure_by_t) / scale;
    let mut size = n + 1;
    if let Held::Pressure(p) = held {
        right[n + 1] = (p - vapor.pressure) / p;
        if std::ptr::eq(vapor, given) {
            matrix[n + 1][0] = given.pressure_by[..n].iter().sum::<f64>() / p;
        } else {
            for l in 0..n {
                matrix[n + 1][l + 1] = other.pressure_by[l] / p;
            }
        }
        matrix[n + 1][n + 1] = vapor.pressure_by_t / p;
        size = n + 2;
    }
    if !elimination::solve(&mut matrix, &mut right, size) {
        return None;
    }
    let biggest = right[..size].iter().fold(0.0_f64, |most, x| most.max(x.abs()));
    let mut shorten = if biggest > LONGEST_STEP { LONGEST_STEP / biggest } else { 1.0 };
    if size == n + 2 {
        // The temperature moves least of all: a tenth in its logarithm is 30 K.
        shorten = shorten.min(0.1 / right[n + 1].abs().max(0.1));
        now.ln_t += shorten * right[n + 1];
    }
    now.ln_given += shorten * right[0];
    for k in 0..n {
        now.ln_other[k] += shorten * right[k + 1];
    }
    Some(())
}
