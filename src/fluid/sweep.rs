//! Every bubble and dew point of every refrigerant: found, in equilibrium, and stable against any other phase.

use crate::quantity::Temperature;

use super::{
    checks::{all_designations, mixture},
    critical,
    equilibrium::Side,
    mixture::{Each, MOST, Mixture, Phase},
    model::Model,
    single::Single,
};

/// A refrigerant as its mixture, and as it is asked.
fn with_model(designation: &str) -> (Mixture, Model) {
    let (mixture, z) = mixture(designation);
    let parts = mixture.components.iter().zip(z);
    let shares: Vec<(&str, f64)> = parts.map(|(c, z)| (c.designation(), z * c.molar_mass)).collect();
    let model = Model::of(designation, &shares).unwrap();
    (mixture, model)
}

/// How many temperatures of each line are gone through: `COLDPRESS_SWEEP=20000 cargo test --release --lib sweep_of` asks
/// for more than the tests of every day do.
fn sweep() -> usize {
    std::env::var("COLDPRESS_SWEEP").ok().and_then(|text| text.parse().ok()).unwrap_or(4000)
}

/// Every temperature of both lines, from −60 °F or the triple point to 0.995 of the critical temperature, crowded toward
/// the end: the point is found; fugacities and pressures of its phases are equal as far as they can be told; both phases are
/// locally stable (the smallest eigenvalue of the scaled Hessian is positive); bubble never lies below dew; and pressure
/// rises along the line.
#[test]
fn sweep_of_every_line_finds_equilibrium_everywhere() {
    let (count, mut asked, mut failed) = (sweep(), 0, Vec::new());
    let mut worst: (f64, f64) = (0.0, 0.0);
    for name in all_designations() {
        let (mixture, model) = with_model(&name);
        let n = mixture.len();
        let critical = model.critical().unwrap().temperature.as_kelvin();
        let low = model.answered().0.max(Temperature::from_fahrenheit(-60.0).as_kelvin());
        let mut before = [0.0; 2];
        for i in 0..count {
            let t = low + (0.995 * critical - low) * (i as f64 / (count - 1) as f64).sqrt();
            let mut pressures = [f64::NAN; 2];
            for (k, side) in [Side::Bubble, Side::Dew].into_iter().enumerate() {
                asked += 1;
                let found = match model.at_temperature(side, Temperature::from_kelvin(t)) {
                    Ok(found) => found,
                    Err(error) => {
                        failed.push(format!("{name} {side:?} at {t} K: {error}"));
                        continue;
                    }
                };
                pressures[k] = found.pressure;
                let (liquid, vapor) = (mixture.phase(t, &found.liquid), mixture.phase(t, &found.vapor));
                // A component all but absent from one phase has a large potential, with its own rounding.
                let potential = (0..n)
                    .map(|i| {
                        (liquid.potential[i] - vapor.potential[i]).abs() / (1.0 + 0.01 * liquid.potential[i].abs())
                    })
                    .fold(0.0, f64::max);
                let pressure = (liquid.pressure - vapor.pressure).abs() / (mixture.gas_constant * t * liquid.density);
                worst = (worst.0.max(potential), worst.1.max(pressure));
                if !(potential < POTENTIALS_WITHIN && pressure < PRESSURES_WITHIN) {
                    failed.push(format!("{name} {side:?} at {t} K: Δg/RT is {potential:.1e}, Δp/ρRT {pressure:.1e}"));
                }
                if (found.pressure / vapor.pressure - 1.0).abs() > 1e-9 {
                    failed.push(format!("{name} {side:?} at {t} K: {} Pa is not that of its vapor", found.pressure));
                }
                for (phase, rho) in [(&liquid, &found.liquid), (&vapor, &found.vapor)] {
                    if least_curvature(phase, rho, n) <= 0.0 {
                        failed.push(format!("{name} {side:?} at {t} K: a phase is unstable"));
                    }
                }
                if found.pressure <= before[k] {
                    failed.push(format!("{name} {side:?} at {t} K: the pressure falls"));
                }
                before[k] = found.pressure;
            }
            if pressures[0] < pressures[1] * (1.0 - 1e-9) {
                failed.push(format!("{name} at {t} K: bubble {} below dew {}", pressures[0], pressures[1]));
            }
        }
    }
    println!("{asked} points, {} failed; worst Δg/RT {:.1e}, Δp/ρ'RT {:.1e}", failed.len(), worst.0, worst.1);
    assert!(failed.is_empty(), "{} of {asked} failed:\n{}", failed.len(), failed[..failed.len().min(40)].join("\n"));
}

/// How equal potentials and pressures are asked to be over the whole sweep.
const POTENTIALS_WITHIN: f64 = 1e-11;
const PRESSURES_WITHIN: f64 = 1e-11;

/// The smallest eigenvalue of the scaled Hessian of a phase.
fn least_curvature(phase: &Phase, rho: &Each, n: usize) -> f64 {
    let mut matrix = [[0.0; MOST]; MOST];
    for k in 0..n {
        for l in 0..n {
            matrix[k][l] = phase.potential_by[k][l] * (rho[k] / rho[l]).sqrt();
        }
    }
    critical::smallest_eigenvalue(matrix, n).0
}

/// Bubble and dew points are the stable solution: no phase tried lies below the plane that touches both.
///
/// With a(ρ) the Helmholtz energy density over RT, a(ρ) − Σ μi ρi + p/RT is nowhere negative (Michelsen's tangent-plane
/// test, Fluid Phase Equilibria 9 (1982) 1, in concentrations). Both phases themselves are local minima: the smallest
/// eigenvalue of their scaled Hessian is positive.
#[test]
fn bubble_and_dew_points_are_stable() {
    let mut state = 0x9e37_79b9_7f4a_7c15_u64;
    let mut random = || {
        state ^= state << 13;
        state ^= state >> 7;
        state ^= state << 17;
        (state >> 11) as f64 / (1_u64 << 53) as f64
    };
    let (mut tried, mut failed) = (0, Vec::new());
    for name in all_designations() {
        let (mixture, model) = with_model(&name);
        let n = mixture.len();
        let (low, high) = model.answered();
        let low = low.max(222.04); // −60 °F
        // Five temperatures every day; of a longer sweep, one in a hundred.
        let parts = (sweep() / 200).max(5);
        for part in (0..parts).map(|i| 0.98 * (i as f64 / (parts - 1) as f64).sqrt()) {
            let t = low + (high - low) * part;
            for side in [Side::Bubble, Side::Dew] {
                let found = model.at_temperature(side, Temperature::from_kelvin(t)).unwrap();
                let (liquid, vapor) = (mixture.phase(t, &found.liquid), mixture.phase(t, &found.vapor));
                for (phase, rho) in [(&liquid, &found.liquid), (&vapor, &found.vapor)] {
                    let least = least_curvature(phase, rho, n);
                    assert!(least > 0.0, "{name} {side:?} at {t} K: a phase is unstable, {least}");
                }
                let rt = mixture.gas_constant * t;
                for _ in 0..400 {
                    let mut x = [0.0; MOST];
                    for x in x.iter_mut().take(n) {
                        *x = -random().max(1e-300).ln();
                    }
                    let sum: f64 = x.iter().sum();
                    let x = x.map(|x| x / sum);
                    let (tr, vr) = mixture.reducing(&x);
                    // A vapor or a liquid. Between the two the terms of some equations make waves that no fluid has: R-22
                    // and R-32 far below the critical temperature, R-450A at 0.88 of it, R-717 near it too. Of blends
                    // within 6 % of their own critical temperature, all but, the whole range is tried; R-455A's is not: the terms that
                    // shape R-744 round its critical point dig a hole into every mixture near its critical density.
                    let cold = (1.0 - t / tr).max(0.0);
                    // Guggenheim's law of corresponding states: how dense a liquid of this composition would be.
                    let delta = 1.0 + 0.75 * cold + 1.75 * cold.cbrt();
                    let thin = (0.1 * vapor.density, 1.5 * vapor.density);
                    let dense = (0.95 * delta / vr, 1.2 * delta / vr);
                    let (thin, dense) = match (cold < 0.06 && n > 1 && name != "R-455A", random() > 0.5) {
                        (true, _) => (thin.0, dense.1),
                        (false, true) => dense,
                        (false, false) => thin,
                    };
                    let density = thin * (dense / thin).powf(random());
                    let single = Single::of(&mixture, &x);
                    let mut gap = density * (single.residual(t, density).a00 - 1.0) + vapor.pressure / rt;
                    for i in 0..n {
                        gap += density * x[i] * ((density * x[i]).ln() - vapor.potential[i]);
                    }
                    tried += 1;
                    if gap <= -1e-9 * density {
                        failed.push(format!(
                            "{name} {side:?} at {t} K: {x:?} at {density} mol/m³ is more stable by {:.1e} RT",
                            -gap / density
                        ));
                    }
                }
            }
        }
    }
    println!("{tried} phases tried against the planes of the bubble and dew points, {} below", failed.len());
    assert!(failed.is_empty(), "{} of {tried}:\n{}", failed.len(), failed[..failed.len().min(20)].join("\n"));
}
