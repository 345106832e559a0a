//! A refrigerant's saturation lines read off expansions: for drawing, and for tables of many thousand figures.
//!
//! Made out of the solver's answers, to the side of which every piece was held (1e-8 of pressure and density). The idea
//! of replacing the solution by expansions is that of Bell and others' superancillary equations (Journal of Chemical
//! and Engineering Data 66 (2021), from memory); ours are made at the first use and for blends too.

use crate::quantity::{Pressure, Temperature};

use super::{
    FluidError,
    equilibrium::{Equilibrium, Side},
    expansion::Expansion,
    false_position::{self, Near},
    model::{ENDS, Model},
};

/// The saturation lines of one refrigerant as expansions.
///
/// Bubble and dew pressures and temperatures, and density, enthalpy and entropy of the phase that has the refrigerant's
/// composition: liquid at its bubble point, vapor at its dew point. Within 1e-8 of what the [`super::Refrigerant`]
/// answers (1e-8 of 100 kJ/kg in enthalpy, of 1 kJ/(kg K) in entropy), over the same range.
#[derive(Clone, Debug)]
pub struct Expanded {
    designation: String,
    bubble: Line,
    dew: Line,
}

/// One line. Densities and energies are smooth to the end of the line in u = √(1 − T/Tc); temperature is in ln p.
#[derive(Clone, Debug)]
struct Line {
    critical: f64,
    temperatures: (f64, f64),
    pressures: (f64, f64),
    /// ln p, density, enthalpy and entropy over u
    over_u: Expansion<4>,
    /// T over ln p
    t: Expansion<1>,
}

const LN_P: usize = 0;
const DENSITY: usize = 1;
const ENTHALPY: usize = 2;
const ENTROPY: usize = 3;

/// How near the solver each piece is held, relative or in units of 100 kJ/kg and 1 kJ/(kg K); a little closer than
/// what is promised between the places where it is proved.
const NEAR: f64 = 3e-9;

impl Expanded {
    pub(super) fn of(model: &Model) -> Result<Self, FluidError> {
        let line = |side| {
            Line::of(model, side).ok_or_else(|| model.not_found("expansion of the saturation lines", String::new()))
        };
        Ok(Self { designation: model.core.designation.clone(), bubble: line(Side::Bubble)?, dew: line(Side::Dew)? })
    }

    /// The pressure at which the liquid's first bubble forms.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`], here and below.
    pub fn bubble_pressure(&self, t: Temperature) -> Result<Pressure, FluidError> {
        let u = self.bubble.u_of(t).ok_or_else(|| self.outside(&self.bubble, "bubble pressure", t))?;
        Ok(Pressure::from_pascal(self.bubble.over_u.at(LN_P, u).exp()))
    }

    /// The pressure at which the vapor's first drop forms.
    ///
    /// # Errors
    /// As above.
    pub fn dew_pressure(&self, t: Temperature) -> Result<Pressure, FluidError> {
        let u = self.dew.u_of(t).ok_or_else(|| self.outside(&self.dew, "dew pressure", t))?;
        Ok(Pressure::from_pascal(self.dew.over_u.at(LN_P, u).exp()))
    }

    /// The temperature at which the liquid's first bubble forms.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`].
    pub fn bubble_temperature(&self, p: Pressure) -> Result<Temperature, FluidError> {
        self.temperature(&self.bubble, "bubble temperature", p)
    }

    /// The temperature at which the vapor's first drop forms.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`].
    pub fn dew_temperature(&self, p: Pressure) -> Result<Temperature, FluidError> {
        self.temperature(&self.dew, "dew temperature", p)
    }

    /// Density in kg/m³ of the liquid at its bubble point.
    ///
    /// # Errors
    /// As above.
    pub fn liquid_density_kg_m3(&self, t: Temperature) -> Result<f64, FluidError> {
        self.value(&self.bubble, DENSITY, "liquid density", t)
    }

    /// Density in kg/m³ of the vapor at its dew point.
    ///
    /// # Errors
    /// As above.
    pub fn vapor_density_kg_m3(&self, t: Temperature) -> Result<f64, FluidError> {
        self.value(&self.dew, DENSITY, "vapor density", t)
    }

    /// Specific enthalpy in J/kg of the liquid at its bubble point.
    ///
    /// # Errors
    /// As above.
    pub fn liquid_enthalpy_j_kg(&self, t: Temperature) -> Result<f64, FluidError> {
        self.value(&self.bubble, ENTHALPY, "liquid enthalpy", t)
    }

    /// Specific enthalpy in J/kg of the vapor at its dew point.
    ///
    /// # Errors
    /// As above.
    pub fn vapor_enthalpy_j_kg(&self, t: Temperature) -> Result<f64, FluidError> {
        self.value(&self.dew, ENTHALPY, "vapor enthalpy", t)
    }

    /// Specific entropy in J/(kg K) of the liquid at its bubble point.
    ///
    /// # Errors
    /// As above.
    pub fn liquid_entropy_j_kg_k(&self, t: Temperature) -> Result<f64, FluidError> {
        self.value(&self.bubble, ENTROPY, "liquid entropy", t)
    }

    /// Specific entropy in J/(kg K) of the vapor at its dew point.
    ///
    /// # Errors
    /// As above.
    pub fn vapor_entropy_j_kg_k(&self, t: Temperature) -> Result<f64, FluidError> {
        self.value(&self.dew, ENTROPY, "vapor entropy", t)
    }

    fn value(&self, line: &Line, k: usize, sought: &'static str, t: Temperature) -> Result<f64, FluidError> {
        let u = line.u_of(t).ok_or_else(|| self.outside(line, sought, t))?;
        Ok(line.over_u.at(k, u))
    }

    fn temperature(&self, line: &Line, sought: &'static str, p: Pressure) -> Result<Temperature, FluidError> {
        let (low, high) = line.pressures;
        if !(low..=high).contains(&p.as_pascal()) {
            return Err(FluidError::PressureOutside {
                refrigerant: self.designation.clone(),
                sought,
                asked: p,
                low: Pressure::from_pascal(low),
                high: Pressure::from_pascal(high),
                ends: ENDS,
            });
        }
        Ok(Temperature::from_kelvin(line.t.at(0, p.as_pascal().ln())))
    }

    fn outside(&self, line: &Line, sought: &'static str, asked: Temperature) -> FluidError {
        FluidError::TemperatureOutside {
            refrigerant: self.designation.clone(),
            sought,
            asked,
            low: Temperature::from_kelvin(line.temperatures.0),
            high: Temperature::from_kelvin(line.temperatures.1),
            ends: ENDS,
        }
    }
}

impl Line {
    fn of(model: &Model, side: Side) -> Option<Self> {
        let core = &model.core;
        let critical = core.critical()?.temperature;
        let curve = core.curve(side)?;
        let (temperatures, pressures) = (curve.temperatures(), curve.pressures());
        let u_of = |t: f64| (1.0 - t / critical).max(0.0).sqrt();
        let (t_low, t_high) = temperatures;

        let told = |found: &Equilibrium| -> Option<[f64; 4]> {
            let phase = match side {
                Side::Bubble => super::Phase::Liquid,
                Side::Dew => super::Phase::Vapor,
            };
            let state = model.saturated(found, phase).ok()?;
            Some([found.pressure.ln(), state.density, state.enthalpy, state.entropy])
        };
        let at_u = |u: f64| {
            let t = (critical * (1.0 - u * u)).clamp(t_low, t_high);
            told(&curve.at_temperature(&core.mixture, &core.z, t)?)
        };
        let tolerance = |y: &[f64; 4]| [NEAR, NEAR * y[DENSITY], NEAR * 1e5, NEAR * 1e3];
        let (u_high, u_low) = (u_of(t_high), u_of(t_low));
        let over_u = Expansion::of(&at_u, &at_u, u_high, u_low, &tolerance)?;

        // The inverse is read off the line just made, which costs next to nothing, and proved against the solver.
        let inverse = |ln_p: f64| {
            let gap = |u: f64| over_u.at(LN_P, u) - ln_p;
            let (hot, cold) = ((u_high, gap(u_high)), (u_low, gap(u_low)));
            // At an end of the line the pressure asked may lie a rounding outside.
            let u = if hot.1 <= 0.0 {
                u_high
            } else if cold.1 >= 0.0 {
                u_low
            } else {
                false_position::root(|u| Ok::<f64, ()>(gap(u)), hot, cold, Near { step: 1e-15, value: 1e-14 }).ok()?
            };
            Some([critical * (1.0 - u * u)])
        };
        let solved = |ln_p: f64| {
            let p = ln_p.exp().clamp(pressures.0, pressures.1);
            Some([curve.at_pressure(&core.mixture, &core.z, p)?.temperature])
        };
        let near = |t: &[f64; 1]| [NEAR * t[0]];
        let t = Expansion::of(&inverse, &solved, pressures.0.ln(), pressures.1.ln(), &near)?;
        Some(Self { critical, temperatures, pressures, over_u, t })
    }

    fn u_of(&self, t: Temperature) -> Option<f64> {
        let t = t.as_kelvin();
        (self.temperatures.0..=self.temperatures.1).contains(&t).then(|| (1.0 - t / self.critical).sqrt())
    }
}
