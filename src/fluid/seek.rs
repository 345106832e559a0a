//! The state of a refrigerant at a pressure and one thing more: temperature, enthalpy, entropy, or share of vapor.
//!
//! Which phase it is, is told from the bubble and dew points, never from density. Along a line of constant pressure
//! enthalpy and entropy rise with temperature, so that a bracket always closes.

use crate::quantity::{Pressure, Temperature};

use super::{
    FluidError, Phase, State,
    equilibrium::{Equilibrium, Side},
    error,
    false_position::{self, Near},
    model::{Found, Model, at, fractions},
    single::Single,
    split,
};

/// What is sought along a line of constant pressure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Caloric {
    /// J/kg
    Enthalpy,
    /// J/(kg K)
    Entropy,
}

/// The equations' common range: K, K, Pa.
struct Limits {
    low: f64,
    high: f64,
    pressure: f64,
}

const EQUATIONS: &str = "the range of its equation of state";

impl Model {
    /// One phase at a pressure and a temperature.
    pub(super) fn state(&self, p: Pressure, t: Temperature) -> Result<State, FluidError> {
        let (p_pa, t_k) = (self.positive("pressure", p.as_pascal())?, self.positive("temperature", t.as_kelvin())?);
        let limits = self.limits();
        self.inside_pressures(&limits, "state", p)?;
        if !(limits.low..=limits.high).contains(&t_k) {
            return Err(FluidError::TemperatureOutside {
                refrigerant: self.core.designation.clone(),
                sought: "state",
                asked: t,
                low: Temperature::from_kelvin(limits.low),
                high: Temperature::from_kelvin(limits.high),
                ends: EQUATIONS,
            });
        }
        let critical = self.critical()?.temperature.as_kelvin();
        let phase = if t_k <= self.answered().1 {
            let (bubble, dew) = (self.at_temperature(Side::Bubble, t)?, self.at_temperature(Side::Dew, t)?);
            if p_pa > bubble.pressure {
                Phase::Liquid
            } else if p_pa < dew.pressure {
                Phase::Vapor
            } else {
                return Err(FluidError::TwoPhase {
                    refrigerant: self.core.designation.clone(),
                    pressure: p,
                    temperature: t,
                    bubble: Pressure::from_pascal(bubble.pressure),
                    dew: Pressure::from_pascal(dew.pressure),
                });
            }
        } else {
            let (low, high) = self.near_critical_pressures()?;
            // The dew line of a blend turns back a little above its critical temperature.
            let end = if self.is_blend() { 1.01 * critical } else { critical };
            if t_k < end && p_pa > low && p_pa < high {
                return Err(self.near_critical("state", at(p, t))?);
            }
            match (t_k < critical, p_pa <= low) {
                (true, true) => Phase::Vapor,
                (true, false) => Phase::Liquid,
                (false, _) => Phase::Supercritical,
            }
        };
        let single = self.single();
        let density = self.density(&single, phase, t_k, p_pa, None).ok_or_else(|| self.not_found("state", at(p, t)))?;
        self.one_phase(&Found { single: &single, phase, pressure: p_pa, temperature: t_k, density, quality: None })
    }

    /// The state at a pressure where enthalpy or entropy has this value.
    pub(super) fn state_of(&self, p: Pressure, which: Caloric, value: f64) -> Result<State, FluidError> {
        let p_pa = self.positive("pressure", p.as_pascal())?;
        if !value.is_finite() {
            let quantity = which.name();
            return Err(FluidError::NotANumber { refrigerant: self.core.designation.clone(), quantity, value });
        }
        let limits = self.limits();
        self.inside_pressures(&limits, "state", p)?;
        let ends = |side| self.core.curve(side).map(|c| c.pressures());
        let (Some(bubble), Some(dew)) = (ends(Side::Bubble), ends(Side::Dew)) else {
            return Err(self.not_found("state", format!("at {}", error::pressure(p))));
        };
        // Below the pressure of the triple point there is vapor only; the line of a blend's drops begins lower than
        // that of its bubbles, and between the two nothing is known.
        if p_pa < dew.0 {
            return self.along(p_pa, which, value, Phase::Vapor, (limits.low, limits.high));
        }
        if p_pa <= bubble.1.min(dew.1) {
            let dew = self.at_pressure(Side::Dew, p)?;
            let vapor = self.saturated(&dew, Phase::Vapor)?;
            if value > which.of(&vapor) {
                return self.along(p_pa, which, value, Phase::Vapor, (dew.temperature, limits.high));
            }
            let bubble = self.at_pressure(Side::Bubble, p)?;
            let liquid = self.saturated(&bubble, Phase::Liquid)?;
            if value < which.of(&liquid) {
                return self.along(p_pa, which, value, Phase::Liquid, (limits.low, bubble.temperature));
            }
            return self.between(p, &bubble, &dew, which.name(), |state| which.of(state) - value);
        }
        let (low, high) = self.near_critical_pressures()?;
        if p_pa > low && p_pa < high {
            return Err(self.near_critical("state", format!("at {}", error::pressure(p)))?);
        }
        self.along(p_pa, which, value, Phase::Supercritical, (limits.low, limits.high))
    }

    /// The state at a pressure where this part of the mass is vapor.
    pub(super) fn state_at_quality(&self, p: Pressure, quality: f64) -> Result<State, FluidError> {
        if !(0.0..=1.0).contains(&quality) {
            return Err(FluidError::QualityOutside { refrigerant: self.core.designation.clone(), value: quality });
        }
        let (bubble, dew) = (self.at_pressure(Side::Bubble, p)?, self.at_pressure(Side::Dew, p)?);
        self.between(p, &bubble, &dew, "quality", |state| state.quality.unwrap_or(0.0) - quality)
    }

    /// Both phases at a pressure, so much of each that `gap` vanishes, which rises with the share of vapor.
    fn between(
        &self,
        p: Pressure,
        bubble: &Equilibrium,
        dew: &Equilibrium,
        sought: &'static str,
        gap: impl Fn(&State) -> f64,
    ) -> Result<State, FluidError> {
        let not_found = || self.not_found("state", format!("at {} and the {sought} asked", error::pressure(p)));
        let at_share = |share: f64| -> Result<State, FluidError> {
            let both = if share <= 0.0 {
                *bubble
            } else if share >= 1.0 {
                *dew
            } else if self.is_blend() {
                split::find(&self.core.mixture, &self.core.z, bubble, dew, share).ok_or_else(not_found)?
            } else {
                *dew
            };
            self.both(&both, share)
        };
        let (first, last) = (at_share(0.0)?, at_share(1.0)?);
        let (gap_first, gap_last) = (gap(&first), gap(&last));
        if gap_first >= 0.0 {
            return Ok(first);
        }
        if gap_last <= 0.0 {
            return Ok(last);
        }
        // The gap is all but straight in the share.
        let near = Near { step: 1e-15, value: 1e-12 * (gap_last - gap_first) };
        let mut found = last;
        let here = |share: f64| -> Result<f64, FluidError> {
            found = at_share(share)?;
            Ok(gap(&found))
        };
        false_position::root(here, (0.0, gap_first), (1.0, gap_last), near)?;
        if gap(&found).abs() <= 1e3 * near.value { Ok(found) } else { Err(not_found()) }
    }

    /// Liquid and vapor together, the part `share` of the moles vapor.
    fn both(&self, both: &Equilibrium, share: f64) -> Result<State, FluidError> {
        let (liquid, vapor) = (self.saturated(both, Phase::Liquid)?, self.saturated(both, Phase::Vapor)?);
        let mass = |rho| Single::of(&self.core.mixture, &fractions(rho).0).molar_mass;
        let (m_l, m_v) = (mass(&both.liquid), mass(&both.vapor));
        let quality = share * m_v / (share * m_v + (1.0 - share) * m_l);
        let mix = |f: fn(&State) -> f64| (1.0 - quality) * f(&liquid) + quality * f(&vapor);
        Ok(State {
            phase: Phase::TwoPhase,
            temperature: liquid.temperature,
            pressure: liquid.pressure,
            density: 1.0 / mix(State::volume_m3_kg),
            enthalpy: mix(State::enthalpy_j_kg),
            entropy: mix(State::entropy_j_kg_k),
            single: None,
            quality: Some(quality),
            mass_fractions: self.core.mass_fractions,
            count: liquid.count,
        })
    }

    /// One phase along a line of constant pressure, between two temperatures.
    fn along(
        &self,
        p: f64,
        which: Caloric,
        value: f64,
        phase: Phase,
        (mut low, mut high): (f64, f64),
    ) -> Result<State, FluidError> {
        let single = self.single();
        let pressure = Pressure::from_pascal(p);
        let critical = self.critical()?.temperature.as_kelvin();
        let at_temperature = |t: f64, near: Option<f64>| -> Result<(State, f64), FluidError> {
            let not_found = || self.not_found("state", at(pressure, Temperature::from_kelvin(t)));
            // Above the critical pressure liquid passes into gas without a border.
            let phase = match phase {
                Phase::Supercritical if t < critical => Phase::Liquid,
                _ if t >= critical => Phase::Supercritical,
                phase => phase,
            };
            let density = self.density(&single, phase, t, p, near).ok_or_else(not_found)?;
            let quality = None;
            let found = Found { single: &single, phase, pressure: p, temperature: t, density, quality };
            Ok((self.one_phase(&found)?, density))
        };
        let (cold, mut near) = at_temperature(low, None)?;
        let (hot, _) = at_temperature(high, None)?;
        if !(which.of(&cold)..=which.of(&hot)).contains(&value) {
            return Err(FluidError::CaloricOutside {
                refrigerant: self.core.designation.clone(),
                asked: which.told(value),
                pressure,
                low: which.told(which.of(&cold)),
                high: which.told(which.of(&hot)),
            });
        }
        let share = (value - which.of(&cold)) / (which.of(&hot) - which.of(&cold));
        let mut t = low + share * (high - low);
        for _ in 0..100 {
            let (state, density) = at_temperature(t, Some(near))?;
            near = density;
            let gap = value - which.of(&state);
            if gap > 0.0 {
                low = t;
            } else {
                high = t;
            }
            let capacity = state.single.map_or(f64::NAN, |s| s.heat_capacity_p);
            let step = match which {
                Caloric::Enthalpy => gap / capacity,
                Caloric::Entropy => gap * t / capacity,
            };
            if step.abs() <= 1e-13 * t || high - low <= 1e-13 * t {
                return Ok(state);
            }
            let next = t + step;
            t = if next > low && next < high { next } else { 0.5 * (low + high) };
        }
        Err(self.not_found("state", format!("at {} and the {} asked", error::pressure(pressure), which.name())))
    }

    /// The density, mol/m³, of a phase; `near` is one at a temperature not far off.
    fn density(&self, single: &Single<'_>, phase: Phase, t: f64, p: f64, near: Option<f64>) -> Option<f64> {
        let answered = t <= self.answered().1;
        let start = match phase {
            Phase::Liquid if answered => Some(self.core.curve(Side::Bubble)?.liquid_near(&self.core.mixture, t)),
            Phase::Vapor if answered => Some(p / (self.core.mixture.gas_constant * t)),
            Phase::Supercritical => near,
            _ => None,
        };
        let newton = start.and_then(|start| single.density(t, p, start));
        newton.or_else(|| {
            let all = single.densities(t, p);
            match phase {
                Phase::Liquid => all.last().copied(),
                _ => all.first().copied(),
            }
        })
    }

    /// The pressures, Pa, between which near the critical temperature liquid and vapor can't be told apart.
    fn near_critical_pressures(&self) -> Result<(f64, f64), FluidError> {
        let critical = self.critical()?.pressure.as_pascal();
        let end = |side| self.core.curve(side).map_or(critical, |c| c.pressures().1);
        if self.is_blend() {
            // The highest pressure of the border may lie a little above the critical one.
            Ok((end(Side::Dew).min(end(Side::Bubble)), 1.03 * end(Side::Bubble).max(critical)))
        } else {
            Ok((end(Side::Dew), critical))
        }
    }

    fn near_critical(&self, sought: &'static str, asked: String) -> Result<FluidError, FluidError> {
        let critical = self.critical()?;
        Ok(FluidError::NearCritical {
            refrigerant: self.core.designation.clone(),
            sought,
            asked,
            temperature: critical.temperature,
            pressure: critical.pressure,
        })
    }

    fn limits(&self) -> Limits {
        let mut limits = Limits { low: 0.0, high: f64::INFINITY, pressure: f64::INFINITY };
        for component in &self.core.mixture.components {
            let (low, high) = component.valid_temperature();
            limits.low = limits.low.max(low.as_kelvin());
            limits.high = limits.high.min(high.as_kelvin());
            limits.pressure = limits.pressure.min(component.valid_pressure().as_pascal());
        }
        limits
    }

    fn inside_pressures(&self, limits: &Limits, sought: &'static str, p: Pressure) -> Result<(), FluidError> {
        if p.as_pascal() <= limits.pressure {
            return Ok(());
        }
        Err(FluidError::PressureOutside {
            refrigerant: self.core.designation.clone(),
            sought,
            asked: p,
            low: Pressure::from_pascal(0.0),
            high: Pressure::from_pascal(limits.pressure),
            ends: EQUATIONS,
        })
    }
}

impl Caloric {
    fn of(self, state: &State) -> f64 {
        match self {
            Self::Enthalpy => state.enthalpy,
            Self::Entropy => state.entropy,
        }
    }

    fn name(self) -> &'static str {
        match self {
            Self::Enthalpy => "enthalpy",
            Self::Entropy => "entropy",
        }
    }

    /// In both unit systems. The Btu is that of the International Table, 2326 J/kg to the pound, exact.
    fn told(self, value: f64) -> String {
        match self {
            Self::Enthalpy => format!("an enthalpy of {:.2} Btu/lb ({:.2} kJ/kg)", value / 2326.0, value / 1e3),
            Self::Entropy => {
                format!("an entropy of {:.5} Btu/(lb °F) ({:.5} kJ/(kg K))", value / 4186.8, value / 1e3)
            }
        }
    }
}
