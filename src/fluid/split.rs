//! A blend part boiled: both phases at a given pressure and share of vapor, each with its own composition.
//!
//! Unknowns are ln ρi of both phases and ln T; equations are equal fugacities, equal pressures, the pressure given, and
//! that both phases together are the blend. Newton's method, started between the bubble and the dew point with
//! equilibrium ratios whose logarithms go straight from one to the other (Rachford and Rice, Journal of Petroleum
//! Technology 4 (1952) 19, from memory, for the compositions of a given share).

use super::{
    elimination,
    equilibrium::{DENSER, Equilibrium, Guess, HELD_GAP, LONGEST_STEP, POTENTIAL_GAP, PRESSURE_GAP, potential_gap},
    mixture::{Each, MOST, Mixture},
};

/// Both phases' concentrations and the temperature.
const SIZE: usize = 2 * MOST + 1;
/// Converged: both phases together have this part of the moles of each component too many or too few.
const SHARE_GAP: f64 = 1e-12;

/// The phases at the pressure of `bubble` and `dew` (the same), where the part `vapor` of the moles is vapor.
pub(super) fn find(
    mixture: &Mixture,
    z: &Each,
    bubble: &Equilibrium,
    dew: &Equilibrium,
    vapor: f64,
) -> Option<Equilibrium> {
    let n = mixture.len();
    let p = bubble.pressure;
    let mut now = start(z, n, bubble, dew, vapor);
    for _ in 0..40 {
        let t = now.ln_t.exp();
        let (l, v) = (now.ln_liquid.map(f64::exp), now.ln_vapor.map(f64::exp));
        let (mut liquid, mut gas) = ([0.0; MOST], [0.0; MOST]);
        liquid[..n].copy_from_slice(&l[..n]);
        gas[..n].copy_from_slice(&v[..n]);
        let (a, b) = (mixture.phase(t, &liquid), mixture.phase(t, &gas));
        let scale = p.max(1e-3 * mixture.gas_constant * t * b.density);

        let mut matrix = [[0.0; SIZE]; SIZE];
        let mut right = [0.0; SIZE];
        let mut gap = 0.0_f64;
        for k in 0..n {
            right[k] = b.potential[k] - a.potential[k];
            gap = gap.max(potential_gap(a.potential[k], b.potential[k]) / POTENTIAL_GAP);
            for l in 0..n {
                matrix[k][l] = a.potential_by[k][l];
                matrix[k][n + l] = -b.potential_by[k][l];
            }
            matrix[k][2 * n] = a.potential_by_t[k] - b.potential_by_t[k];
        }
        right[n] = (b.pressure - a.pressure) / scale;
        right[n + 1] = (p - b.pressure) / p;
        gap = gap.max((b.pressure - a.pressure).abs() / (mixture.gas_constant * t * a.density) / PRESSURE_GAP);
        gap = gap.max(right[n + 1].abs() / HELD_GAP);
        for l in 0..n {
            matrix[n][l] = a.pressure_by[l] / scale;
            matrix[n][n + l] = -b.pressure_by[l] / scale;
            matrix[n + 1][n + l] = b.pressure_by[l] / p;
        }
        matrix[n][2 * n] = (a.pressure_by_t - b.pressure_by_t) / scale;
        matrix[n + 1][2 * n] = b.pressure_by_t / p;
        for i in 0..n - 1 {
            let (x, y) = (liquid[i] / a.density, gas[i] / b.density);
            let row = n + 2 + i;
            right[row] = (z[i] - (1.0 - vapor) * x - vapor * y) / z[i];
            gap = gap.max(right[row].abs() / SHARE_GAP);
            for j in 0..n {
                let own = if i == j { 1.0 } else { 0.0 };
                matrix[row][j] = (1.0 - vapor) * x * (own - liquid[j] / a.density) / z[i];
                matrix[row][n + j] = vapor * y * (own - gas[j] / b.density) / z[i];
            }
        }
        if !gap.is_finite() {
            return None;
        }
        if gap <= 1.0 {
            let guess = Guess { ln_t: now.ln_t, ln_given: 0.0, ln_other: [0.0; MOST] };
            return (a.density > DENSER * b.density).then_some(Equilibrium {
                guess,
                temperature: t,
                pressure: b.pressure,
                liquid,
                vapor: gas,
            });
        }
        let size = 2 * n + 1;
        if !elimination::solve(&mut matrix, &mut right, size) {
            return None;
        }
        let biggest = right[..size].iter().fold(0.0_f64, |most, x| most.max(x.abs()));
        let mut shorten = if biggest > LONGEST_STEP { LONGEST_STEP / biggest } else { 1.0 };
        shorten = shorten.min(0.05 / right[2 * n].abs().max(0.05));
        for i in 0..n {
            now.ln_liquid[i] += shorten * right[i];
            now.ln_vapor[i] += shorten * right[n + i];
        }
        now.ln_t += shorten * right[2 * n];
    }
    None
}

struct Unknowns {
    ln_t: f64,
    ln_liquid: Each,
    ln_vapor: Each,
}

fn start(z: &Each, n: usize, bubble: &Equilibrium, dew: &Equilibrium, vapor: f64) -> Unknowns {
    let between = |a: f64, b: f64| (1.0 - vapor) * a.ln() + vapor * b.ln();
    let total = |rho: &Each| rho.iter().sum::<f64>();
    let (mut x, mut y) = ([0.0; MOST], [0.0; MOST]);
    for i in 0..n {
        let at_bubble = bubble.vapor[i] / total(&bubble.vapor) / z[i];
        let at_dew = z[i] / (dew.liquid[i] / total(&dew.liquid));
        let ratio = between(at_bubble, at_dew).exp();
        x[i] = z[i] / (1.0 + vapor * (ratio - 1.0));
        y[i] = ratio * x[i];
    }
    let liquid = between(total(&bubble.liquid), total(&dew.liquid));
    let gas = between(total(&bubble.vapor), total(&dew.vapor));
    let (sum_x, sum_y) = (total(&x), total(&y));
    let mut unknowns =
        Unknowns { ln_t: between(bubble.temperature, dew.temperature), ln_liquid: [0.0; MOST], ln_vapor: [0.0; MOST] };
    for i in 0..n {
        unknowns.ln_liquid[i] = liquid + (x[i] / sum_x).ln();
        unknowns.ln_vapor[i] = gas + (y[i] / sum_y).ln();
    }
    unknowns
}
