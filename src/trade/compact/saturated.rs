//! The two saturation lines for a page.

use super::piece::{Piece, between};
use super::{Line, MOST_KELVIN, Off};
use crate::fluid::{Expanded, FluidError, Refrigerant};
use crate::quantity::Temperature;

/// How near a line is held, as a share of what may be off.
const NEAR: f64 = 0.1;
/// Places at which a line is held against the engine itself.
const PLACES: usize = 24;

/// Bubble and dew line.
pub(super) fn lines(fluid: &Refrigerant, off: &mut Off) -> Result<[Line; 2], FluidError> {
    let critical = fluid.critical().ok().map(|point| point.temperature.as_kelvin());
    let made = [line(fluid, false, critical)?, line(fluid, true, critical)?];
    let scale = latent(&made);
    for (side, line) in made.iter().enumerate() {
        hold(fluid, side == 1, line, scale, off)?;
    }
    Ok(made)
}

/// Enthalpy and entropy of boiling at the cold end.
pub(super) fn latent(lines: &[Line; 2]) -> [f64; 2] {
    let t = lines[0].temperatures.0.max(lines[1].temperatures.0);
    let gap = |k| (lines[1].at(k, t) - lines[0].at(k, t)).abs();
    [gap(2), gap(3)]
}

impl Line {
    fn u(&self, t: f64) -> f64 {
        (1.0 - t / self.critical).max(0.0).sqrt()
    }

    /// ln p, density, enthalpy or entropy at a temperature.
    pub(super) fn at(&self, k: usize, t: f64) -> f64 {
        let u = self.u(t);
        let piece = self.pieces.iter().find(|piece| u <= piece.high).or(self.pieces.last());
        piece.map_or(f64::NAN, |piece| piece.at(k, u))
    }
}

fn line(fluid: &Refrigerant, dew: bool, critical: Option<f64>) -> Result<Line, FluidError> {
    let (low, high) = fluid.valid_temperature();
    let (low, high) = (low.as_kelvin(), high.as_kelvin());
    let expanded = fluid.expanded().ok();
    let critical = critical.unwrap_or(high * 1.0005).max(high);
    let at = |u: f64| told(fluid, expanded, dew, Temperature::from_kelvin((critical * (1.0 - u * u)).clamp(low, high)));
    let u = |t: f64| (1.0 - t / critical).max(0.0).sqrt();
    let (cold, warm) = (at(u(low))?, at(u(high))?);
    // The page finds a temperature from a pressure on the same terms, so ln p must serve both.
    let slope = (warm[0] - cold[0]) / (high - low);
    let near_p = NEAR * (0.3 * slope * MOST_KELVIN).min(2e-4);
    let span = |k: usize| (warm[k] - cold[k]).abs().max(cold[k].abs() * 0.2);
    let near = [near_p, NEAR * 2e-4, NEAR * 2e-4 * span(2), NEAR * 2e-4 * span(3)];
    let pieces = Piece::all(&at, (u(high), u(low)), &near)?;
    Ok(Line { critical, temperatures: (low, high), pieces, caloric: expanded.is_some() })
}

/// ln p, ln ρ, enthalpy and entropy on the line, from the refrigerant's own expansion where it has one.
fn told(fluid: &Refrigerant, expanded: Option<&Expanded>, dew: bool, t: Temperature) -> Result<[f64; 4], FluidError> {
    Ok(match (expanded, dew) {
        (Some(line), false) => [
            line.bubble_pressure(t)?.as_pascal().ln(),
            line.liquid_density_kg_m3(t)?.ln(),
            line.liquid_enthalpy_j_kg(t)?,
            line.liquid_entropy_j_kg_k(t)?,
        ],
        (Some(line), true) => [
            line.dew_pressure(t)?.as_pascal().ln(),
            line.vapor_density_kg_m3(t)?.ln(),
            line.vapor_enthalpy_j_kg(t)?,
            line.vapor_entropy_j_kg_k(t)?,
        ],
        (None, false) => [fluid.bubble_pressure(t)?.as_pascal().ln(), 0.0, 0.0, 0.0],
        (None, true) => [fluid.dew_pressure(t)?.as_pascal().ln(), 0.0, 0.0, 0.0],
    })
}

/// Holds a line against the engine itself.
fn hold(fluid: &Refrigerant, dew: bool, line: &Line, scale: [f64; 2], off: &mut Off) -> Result<(), FluidError> {
    let (low, high) = line.temperatures;
    for place in 0..=PLACES {
        let t = between(place, PLACES, (low, high)).clamp(low, high);
        let kelvin = Temperature::from_kelvin(t);
        let pressure = if dew { fluid.dew_pressure(kelvin)? } else { fluid.bubble_pressure(kelvin)? };
        let off_ln = line.at(0, t) - pressure.as_pascal().ln();
        off.share(off_ln);
        let step = 1e-3 * (high - low);
        let (before, after) = ((t - step).max(low), (t + step).min(high));
        off.kelvin(off_ln * (after - before) / (line.at(0, after) - line.at(0, before)));
        if line.caloric {
            let point = if dew { fluid.dew(kelvin)? } else { fluid.bubble(kelvin)? };
            let state = if dew { &point.vapor } else { &point.liquid };
            off.share(line.at(1, t) - state.density_kg_m3().ln());
            off.share((line.at(2, t) - state.enthalpy_j_kg()) / scale[0]);
            off.share((line.at(3, t) - state.entropy_j_kg_k()) / scale[1]);
        }
    }
    Ok(())
}
