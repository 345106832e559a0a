//! The bubble or dew line of one composition, from its lowest temperature to just below the critical one.
//!
//! Gives any point of the line, at a temperature or at a pressure, without ever failing inside the range it tells. How:
//!
//! 1. One cold start at about 0.7 of the critical temperature, from Raoult's law with Wilson's estimate of the
//!    components' vapor pressures and Rackett's of their liquid volumes, then Newton's method ([`super::equilibrium`]).
//! 2. From there a walk up and a walk down, each point started from an extrapolation of the logarithms of the last
//!    three, halving the step where Newton's method fails. Steps are even in √(1 − T/Tc), in which the line is smooth
//!    all the way to the critical point.
//! 3. The points of the walk are kept, about forty. Every later question starts from an interpolation between them and
//!    needs two or three steps; its answer never depends on what was asked before.
//!
//! The walk is that of continuation methods for phase envelopes (Michelsen, Fluid Phase Equilibria 4 (1980) 1, from
//! memory); the variables are ours.

use super::{
    equilibrium::{self, Equilibrium, Guess, Held, Side},
    mixture::{Each, MOST, Mixture},
};

/// The points of a walk along one line.
#[derive(Debug)]
pub(super) struct Curve {
    side: Side,
    critical: f64,
    /// From the lowest temperature to the highest.
    points: Vec<Anchor>,
}

/// A solved point: u = √(1 − T/Tc), ln p, and the unknowns.
#[derive(Clone, Copy, Debug)]
struct Anchor {
    u: f64,
    t: f64,
    p: f64,
    ln_p: f64,
    guess: Guess,
}

/// The widest step of the walk in u.
const STEP: f64 = 0.022;

impl Curve {
    /// Walks the line of composition `z` between `low` and `high`, both in K, below the critical temperature.
    ///
    /// None where not even the cold start is found. The line may end below `high` where the walk does.
    pub(super) fn walk(mixture: &Mixture, z: &Each, side: Side, low: f64, high: f64, critical: f64) -> Option<Self> {
        let u_of = |t: f64| (1.0 - t / critical).sqrt();
        let (u_low, u_high) = (u_of(low), u_of(high));
        let steps = ((u_low - u_high) / STEP).ceil().max(4.0) as usize;
        let grid: Vec<f64> = (0..=steps).map(|i| u_low + (u_high - u_low) * i as f64 / steps as f64).collect();
        let temperature = |i: usize| match i {
            0 => low,
            _ if i == steps => high,
            _ => critical * (1.0 - grid[i] * grid[i]),
        };
        let middle = (0..=steps).find(|&i| temperature(i) >= 0.7 * critical).unwrap_or(steps / 2);

        // The cold start; a neighbor may do where one doesn't.
        let (first, anchor) = (0..=steps).find_map(|k| {
            let i = if k % 2 == 0 { middle.checked_add(k / 2) } else { middle.checked_sub(k / 2 + 1) };
            let i = i.filter(|&i| i <= steps)?;
            let t = temperature(i);
            let found = equilibrium::find(mixture, z, side, Held::Temperature, cold(mixture, z, side, t))?;
            Some((i, Anchor::of(grid[i], &found)))
        })?;

        let mut up = vec![anchor];
        for i in first + 1..=steps {
            match advance(mixture, z, side, &up, grid[i], temperature(i)) {
                Some(next) => up.push(next),
                None => break,
            }
        }
        let walker = Walker { mixture, z, side, critical };
        walker.end_before_the_turn(&mut up);
        let mut down = up.iter().take(3).rev().copied().collect::<Vec<_>>();
        let kept = down.len();
        for i in (0..first).rev() {
            match advance(mixture, z, side, &down, grid[i], temperature(i)) {
                Some(next) => down.push(next),
                None => break,
            }
        }
        let mut points = down.split_off(kept);
        points.reverse();
        points.append(&mut up);
        (points.len() >= 4).then_some(Self { side, critical, points })
    }

    /// The lowest and the highest temperature of the line, K.
    pub(super) fn temperatures(&self) -> (f64, f64) {
        (self.points[0].t, self.points[self.points.len() - 1].t)
    }

    /// The pressures at the two ends, Pa.
    pub(super) fn pressures(&self) -> (f64, f64) {
        (self.points[0].p, self.points[self.points.len() - 1].p)
    }

    /// The point at `t` K, which must lie between the two ends.
    pub(super) fn at_temperature(&self, mixture: &Mixture, z: &Each, t: f64) -> Option<Equilibrium> {
        let u = (1.0 - t / self.critical).max(0.0).sqrt();
        let above = self.points.partition_point(|a| a.t < t);
        let mut guess = self.between(above, |a| a.u, u);
        guess.ln_t = t.ln();
        equilibrium::find(mixture, z, self.side, Held::Temperature, guess).or_else(|| self.creep(mixture, z, above, t))
    }

    /// The point at `p` Pa, which must lie between the pressures of the two ends.
    pub(super) fn at_pressure(&self, mixture: &Mixture, z: &Each, p: f64) -> Option<Equilibrium> {
        let ln_p = p.ln();
        let above = self.points.partition_point(|a| a.p < p);
        let guess = self.between(above, |a| a.ln_p, ln_p);
        equilibrium::find(mixture, z, self.side, Held::Pressure(p), guess)
    }

    /// The density of the liquid on the line near `t` K, mol/m³: good for a start.
    pub(super) fn liquid_near(&self, mixture: &Mixture, t: f64) -> f64 {
        let u = (1.0 - t / self.critical).max(0.0).sqrt();
        let above = self.points.partition_point(|a| a.t < t);
        let guess = self.between(above, |a| a.u, u);
        match self.side {
            Side::Bubble => guess.ln_given.exp(),
            Side::Dew => guess.ln_other[..mixture.len()].iter().map(|ln| ln.exp()).sum(),
        }
    }

    /// The guess where `of` is `x`, from the four points round it (Lagrange's interpolation).
    fn between(&self, above: usize, of: impl Fn(&Anchor) -> f64, x: f64) -> Guess {
        let from = above.saturating_sub(2).min(self.points.len() - 4);
        interpolate(&self.points[from..from + 4], of, x)
    }

    /// A last resort: from the nearest kept point to `t` by small steps.
    fn creep(&self, mixture: &Mixture, z: &Each, above: usize, t: f64) -> Option<Equilibrium> {
        let near = above.clamp(1, self.points.len() - 1);
        let from = [self.points[near - 1], self.points[near]];
        let u = (1.0 - t / self.critical).max(0.0).sqrt();
        let anchor = advance(mixture, z, self.side, &from, u, t)?;
        equilibrium::find(mixture, z, self.side, Held::Temperature, anchor.guess)
    }
}

impl Anchor {
    fn of(u: f64, found: &Equilibrium) -> Self {
        Self { u, t: found.temperature, p: found.pressure, ln_p: found.pressure.ln(), guess: found.guess }
    }
}

/// What a walk goes along.
struct Walker<'a> {
    mixture: &'a Mixture,
    z: &'a Each,
    side: Side,
    critical: f64,
}

/// A line that still rises by less than this part of its usual d ln p/d ln T is about to turn.
const ABOUT_TO_TURN: f64 = 0.25;

impl Walker<'_> {
    /// Takes back the end of a line where its pressure turns: the bubble line of a blend with much glide has its highest
    /// pressure a little below the critical temperature, and past that a pressure has two temperatures.
    fn end_before_the_turn(&self, points: &mut Vec<Anchor>) {
        let n = points.len();
        if n < 6 {
            return;
        }
        let chord = |a: &Anchor, b: &Anchor| (b.ln_p - a.ln_p) / (b.t / a.t).ln();
        let usual = chord(&points[n - 6], &points[n - 5]);
        let turning = |at: &Anchor| self.slope(at).is_none_or(|slope| slope < ABOUT_TO_TURN * usual);
        let mut taken = None;
        while points.len() > 5 && points.last().is_some_and(turning) {
            taken = points.pop();
        }
        // Then as near to the turn as halving gets.
        let (Some(taken), Some(last)) = (taken, points.last().copied()) else { return };
        let (mut good, mut bad) = (last.u, taken.u);
        let mut nearest = None;
        for _ in 0..6 {
            let u = 0.5 * (good + bad);
            let t = self.critical * (1.0 - u * u);
            match advance(self.mixture, self.z, self.side, points, u, t).filter(|a| !turning(a)) {
                Some(anchor) => (good, nearest) = (u, Some(anchor)),
                None => bad = u,
            }
        }
        points.extend(nearest);
    }

    /// d ln p/d ln T at a point, from one a little colder.
    fn slope(&self, at: &Anchor) -> Option<f64> {
        const PART: f64 = 1e-5;
        let t = at.t * (1.0 - PART);
        let guess = Guess { ln_t: t.ln(), ..at.guess };
        let colder = equilibrium::find(self.mixture, self.z, self.side, Held::Temperature, guess)?;
        Some((at.ln_p - colder.pressure.ln()) / PART)
    }
}

/// The next point of a walk, at `u`; by way of points between where it can't be had at one go.
fn advance(mixture: &Mixture, z: &Each, side: Side, so_far: &[Anchor], u: f64, t: f64) -> Option<Anchor> {
    let mut trail: Vec<Anchor> = so_far[so_far.len().saturating_sub(3)..].to_vec();
    let critical = t / (1.0 - u * u);
    let mut part = 1.0;
    for _ in 0..200 {
        let last = trail[trail.len() - 1];
        let left = u - last.u;
        let whole = part >= 1.0;
        let (next_u, next_t) = if whole {
            (u, t)
        } else {
            let next = last.u + part * left;
            (next, critical * (1.0 - next * next))
        };
        let mut guess = interpolate(&trail[trail.len().saturating_sub(3)..], |a| a.u, next_u);
        guess.ln_t = next_t.ln();
        let found = equilibrium::find(mixture, z, side, Held::Temperature, guess)
            .filter(|found| follows(&last, next_t, found, side));
        match found {
            Some(found) => {
                let mut anchor = Anchor::of(next_u, &found);
                anchor.t = next_t;
                if whole {
                    return Some(anchor);
                }
                trail.push(anchor);
                part = (part * 2.0).min(1.0);
            }
            None => {
                part /= 2.0;
                if (part * left).abs() < 1e-6 {
                    return None;
                }
            }
        }
    }
    None
}

/// Whether a point can be the next of a line: pressure moves with temperature, and by no leap.
fn follows(last: &Anchor, t: f64, found: &Equilibrium, side: Side) -> bool {
    let up = t > last.t;
    let ln_ratio = (found.pressure / last.p).ln();
    // Clausius and Clapeyron: d ln p/d ln T is 4 to 40 over all of a refrigerant's range.
    let expected = 60.0 * (t / last.t).ln().abs() + 0.01;
    let smooth = ln_ratio.abs() < expected && (found.guess.ln_given - last.guess.ln_given).abs() < 1.5;
    let rises = match side {
        // At the very end of a dew line of a blend with much glide the pressure may stand still.
        Side::Dew => up == (ln_ratio > -1e-9),
        Side::Bubble => up == (ln_ratio > 0.0),
    };
    smooth && rises
}

/// Lagrange's polynomial through the unknowns of these points, at `x` of the variable `of`.
fn interpolate(points: &[Anchor], of: impl Fn(&Anchor) -> f64, x: f64) -> Guess {
    let mut guess = Guess { ln_t: 0.0, ln_given: 0.0, ln_other: [0.0; MOST] };
    for (i, point) in points.iter().enumerate() {
        let mut weight = 1.0;
        for (j, other) in points.iter().enumerate() {
            if i != j {
                weight *= (x - of(other)) / (of(point) - of(other));
            }
        }
        guess.ln_t += weight * point.guess.ln_t;
        guess.ln_given += weight * point.guess.ln_given;
        for (sum, value) in guess.ln_other.iter_mut().zip(point.guess.ln_other) {
            *sum += weight * value;
        }
    }
    guess
}

/// A start from nothing: Raoult's law, Wilson's vapor pressures and Rackett's liquid densities.
fn cold(mixture: &Mixture, z: &Each, side: Side, t: f64) -> Guess {
    let (mut p, mut volume) = ([0.0; MOST], [0.0; MOST]);
    for (i, component) in mixture.components.iter().enumerate() {
        let c = &component.critical;
        // Wilson: ln(p/pc) = 5.373 (1 + ω)(1 − Tc/T); it may be carried past the critical temperature.
        p[i] = c.pressure * (5.373 * (1.0 + component.acentric_factor) * (1.0 - c.temperature / t)).exp();
        // Rackett: ρ = ρc Zc^−(1 − T/Tc)^(2/7)
        let z_c = c.pressure / (c.density * component.gas_constant * c.temperature);
        let rest = (1.0 - t / c.temperature).max(0.01);
        volume[i] = z_c.powf(rest.powf(2.0 / 7.0)) / c.density;
    }
    let rt = mixture.gas_constant * t;
    let n = mixture.len();
    let sum = |f: &dyn Fn(usize) -> f64| (0..n).map(f).sum::<f64>();
    let mut guess = Guess { ln_t: t.ln(), ln_given: 0.0, ln_other: [0.0; MOST] };
    match side {
        Side::Bubble => {
            guess.ln_given = -sum(&|i| z[i] * volume[i]).ln();
            for i in 0..n {
                // The vapor is a little denser than an ideal gas.
                guess.ln_other[i] = (z[i] * p[i] / rt / 0.95).ln();
            }
        }
        Side::Dew => {
            let total = 1.0 / sum(&|i| z[i] / p[i]);
            guess.ln_given = (total / rt / 0.95).ln();
            let liquid_volume = sum(&|i| z[i] * total / p[i] * volume[i]);
            for i in 0..n {
                guess.ln_other[i] = (z[i] * total / p[i] / liquid_volume).ln();
            }
        }
    }
    guess
}
