//! Superheated vapor, boiling blends, and what lies above the critical pressure, for a page.
//!
//! Each is a surface over two variables in which it is smooth: vapor over u of its dew temperature and degrees of
//! superheat, a boiling blend over u and the share of its latent heat.

use super::patch::Patch;
use super::saturated::latent;
use super::{Line, MOST_KELVIN, MOST_SHARE, Off, Sheet};
use crate::fluid::Refrigerant;
use crate::quantity::{Pressure, Temperature};

/// Kelvins that the air reaches on a warm day, and with it a gas cooler.
const WARM_DAY: f64 = 310.0;
/// How near a surface is held, as a share of what may be off.
const NEAR: f64 = 0.35;
/// Kelvins above the dew temperature to which vapor is known, where the equation reaches so far; the first that can be
/// had throughout is taken.
const SUPERHEATS: [f64; 5] = [140.0, 110.0, 80.0, 60.0, 40.0];
/// Nearest to the critical temperature, as a share of it, that the vapor in front of or behind a compressor is known.
const NEAREST: f64 = 0.97;
/// Farthest from it.
const FARTHEST: f64 = 0.55;

fn ends(line: &Line) -> (f64, f64) {
    let (low, high) = line.temperatures;
    let u = |t: f64| (1.0 - t / line.critical).max(0.0).sqrt();
    (u(high.min(NEAREST * line.critical)), u(low.max(FARTHEST * line.critical)))
}

fn at_u(line: &Line, u: f64) -> f64 {
    line.critical * (1.0 - u * u)
}

/// p/(ρT), enthalpy and entropy of vapor over u of its dew temperature and degrees above it.
pub(super) fn vapor(fluid: &Refrigerant, dew: &Line, off: &mut Off) -> Option<Sheet<3>> {
    let across = ends(dew);
    let told = |u: f64, degrees: f64| {
        let boils = at_u(dew, u);
        let p = Pressure::from_pascal(dew.at(0, boils).exp());
        // The dew point itself is a hair away, on either side.
        let state = fluid.state(p, Temperature::from_kelvin(boils + degrees.max(0.02))).ok()?;
        let gas = p.as_pascal() / (state.density_kg_m3() * state.temperature().as_kelvin());
        Some([gas, state.enthalpy_j_kg(), state.entropy_j_kg_k()])
    };
    let corner = told(across.1, 0.0)?;
    let far = told(across.1, 40.0)?;
    let capacity = (far[1] - corner[1]) / 40.0;
    let near =
        [NEAR * MOST_SHARE * corner[0], NEAR * MOST_KELVIN * capacity, NEAR * MOST_KELVIN * capacity / dew.critical];
    for most in SUPERHEATS {
        if told(across.0, most).is_none() || told(across.1, most).is_none() {
            continue;
        }
        let spans = [across, (0.0, most)];
        let mut worst = [0.0f64; 3];
        let patches = Patch::all(&told, spans, &near, 6, &mut |found| {
            (0..3).for_each(|k| worst[k] = worst[k].max(found[k]));
        });
        if let Some(patches) = patches {
            off.share(worst[0] / corner[0]);
            off.kelvin(worst[1] / capacity);
            off.kelvin(worst[2] / capacity * dew.critical);
            return Some(Sheet { patches, spans });
        }
    }
    None
}

/// Where a boiling blend stands between its bubble and its dew temperature, as a share of its glide, over u of its dew
/// temperature and the share of the latent heat it has taken up. None of a pure refrigerant, whose temperature stands.
pub(super) fn boiling(fluid: &Refrigerant, lines: &[Line; 2], off: &mut Off) -> Option<Sheet<1>> {
    let [bubble, dew] = lines;
    if !fluid.is_blend() {
        return None;
    }
    let across = ends(dew);
    let glide = std::cell::Cell::new(0.0f64);
    let told = |u: f64, share: f64| {
        let boils = at_u(dew, u);
        let ln_p = dew.at(0, boils);
        let begins = temperature(bubble, ln_p)?;
        glide.set(glide.get().max(boils - begins));
        if boils - begins < 0.02 {
            return Some([share]);
        }
        let (from, to) = (bubble.at(2, begins), dew.at(2, boils));
        let share = share.clamp(1e-4, 1.0 - 1e-4);
        let state = fluid.state_at_enthalpy(Pressure::from_pascal(ln_p.exp()), from + share * (to - from)).ok()?;
        Some([(state.temperature().as_kelvin() - begins) / (boils - begins)])
    };
    told(across.0, 0.5)?;
    told(across.1, 0.5)?;
    let most = glide.get();
    let near = [NEAR * MOST_KELVIN / most.max(0.05)];
    let spans = [across, (0.0, 1.0)];
    let mut worst = 0.0f64;
    let patches = Patch::all(&told, spans, &near, 6, &mut |found| worst = worst.max(found[0]))?;
    off.kelvin(worst * most);
    Some(Sheet { patches, spans })
}

/// Enthalpy above the critical pressure, over pressure and temperature, of refrigerants whose critical temperature a warm
/// day reaches. The critical point itself, where it is steepest, is left out.
pub(super) fn dense(fluid: &Refrigerant, lines: &[Line; 2], off: &mut Off) -> Option<Sheet<1>> {
    let critical = fluid.critical().ok()?;
    let (t, p) = (critical.temperature.as_kelvin(), critical.pressure.as_pascal());
    if t > WARM_DAY {
        return None;
    }
    let told = |p: f64, t: f64| {
        Some([fluid.state(Pressure::from_pascal(p), Temperature::from_kelvin(t)).ok()?.enthalpy_j_kg()])
    };
    let spans = [(1.05 * p, 1.9 * p), (t - 20.0, t + 40.0)];
    let [latent, _] = latent(lines);
    let near = [0.5 * MOST_SHARE * latent];
    let mut worst = 0.0f64;
    let patches = Patch::all(&told, spans, &near, 14, &mut |found| worst = worst.max(found[0]))?;
    off.share(worst / latent);
    Some(Sheet { patches, spans })
}

/// The temperature at which a line has this ln p.
fn temperature(line: &Line, ln_p: f64) -> Option<f64> {
    let (mut low, mut high) = line.temperatures;
    if !(line.at(0, low) <= ln_p && ln_p <= line.at(0, high)) {
        return None;
    }
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        if line.at(0, middle) < ln_p { low = middle } else { high = middle }
    }
    Some(0.5 * (low + high))
}
