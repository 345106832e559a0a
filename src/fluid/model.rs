//! A refrigerant by its equations of state: one composition of a mixture, with what is worked out once for it.
//!
//! Gives bubble and dew points, the critical point, and the state of one phase whose density is known. What has to be
//! sought at a given pressure stands in [`super::seek`].

use std::sync::{Arc, OnceLock};

use crate::quantity::{Pressure, Temperature};

use super::{
    CriticalPoint, Equation, Expanded, FluidError, Phase, Reference, Saturation, State, critical,
    curve::Curve,
    equilibrium::{Equilibrium, Side},
    error,
    mixture::{Each, MOST, Mixture},
    reference,
    single::Single,
    state::OnePhase,
};

/// How near the critical temperature saturation is answered, as a part of it.
const NEAREST_PURE: f64 = 0.9999;
const NEAREST_BLEND: f64 = 0.9995;

/// A composition and the zero its enthalpy and entropy are counted from.
#[derive(Clone, Debug)]
pub(super) struct Model {
    pub(super) core: Arc<Core>,
    zero: Arc<Zero>,
}

/// What belongs to the composition.
#[derive(Debug)]
pub(super) struct Core {
    pub(super) designation: String,
    pub(super) mixture: Mixture,
    /// Mole fractions.
    pub(super) z: Each,
    pub(super) mass_fractions: Each,
    /// kg/mol
    pub(super) molar_mass: f64,
    critical: OnceLock<Option<critical::Point>>,
    bubble: OnceLock<Option<Curve>>,
    dew: OnceLock<Option<Curve>>,
}

/// The zero of enthalpy and entropy, and what it adds to them: J/kg and J/(kg K).
#[derive(Debug)]
struct Zero {
    reference: Reference,
    shift: OnceLock<Result<(f64, f64), FluidError>>,
    expanded: OnceLock<Result<Expanded, FluidError>>,
}

impl Zero {
    fn at(reference: Reference) -> Self {
        Self { reference, shift: OnceLock::new(), expanded: OnceLock::new() }
    }
}

/// One phase, its density and composition found.
pub(super) struct Found<'a> {
    pub(super) single: &'a Single<'a>,
    pub(super) phase: Phase,
    /// Pa
    pub(super) pressure: f64,
    /// K
    pub(super) temperature: f64,
    /// mol/m³
    pub(super) density: f64,
    pub(super) quality: Option<f64>,
}

impl Model {
    pub(super) fn of(designation: &str, parts: &[(&str, f64)]) -> Result<Self, FluidError> {
        let wrong = |says: String| FluidError::Composition { designation: designation.to_owned(), says };
        if parts.is_empty() || parts.len() > MOST {
            return Err(wrong(format!("it has {} parts; from 1 to {MOST} can be mixed", parts.len())));
        }
        for (i, (name, share)) in parts.iter().enumerate() {
            if !(share.is_finite() && *share > 0.0) {
                return Err(wrong(format!("the share of {name} is {share}; it should be a number above zero")));
            }
            if parts[..i].iter().any(|(other, _)| other == name) {
                return Err(wrong(format!("{name} stands there twice")));
            }
        }
        let components = parts.iter().map(|(name, _)| Equation::named(name)).collect::<Result<Vec<_>, _>>()?;
        let whole: f64 = parts.iter().map(|(_, share)| share).sum();
        let (mut mass_fractions, mut z) = ([0.0; MOST], [0.0; MOST]);
        let mut moles = 0.0;
        for (i, (component, (_, share))) in components.iter().zip(parts).enumerate() {
            mass_fractions[i] = share / whole;
            z[i] = mass_fractions[i] / component.molar_mass;
            moles += z[i];
        }
        z.iter_mut().for_each(|z| *z /= moles);
        if !z[..parts.len()].iter().all(|z| *z > 0.0 && z.is_finite()) {
            return Err(wrong("its shares differ too much to be counted".to_owned()));
        }
        Ok(Self {
            core: Arc::new(Core {
                designation: designation.to_owned(),
                mixture: Mixture::of(components)?,
                z,
                mass_fractions,
                molar_mass: 1.0 / moles,
                critical: OnceLock::new(),
                bubble: OnceLock::new(),
                dew: OnceLock::new(),
            }),
            zero: Arc::new(Zero::at(Reference::default())),
        })
    }

    pub(super) fn counted_from(&self, reference: Reference) -> Self {
        Self { core: Arc::clone(&self.core), zero: Arc::new(Zero::at(reference)) }
    }

    pub(super) fn with_reference(&self, reference: Reference) -> Result<Self, FluidError> {
        let other = self.counted_from(reference);
        other.shift()?;
        Ok(other)
    }

    pub(super) fn expanded(&self) -> Result<&Expanded, FluidError> {
        self.zero.expanded.get_or_init(|| Expanded::of(self)).as_ref().map_err(Clone::clone)
    }

    pub(super) fn reference(&self) -> Reference {
        self.zero.reference
    }

    pub(super) fn is_blend(&self) -> bool {
        self.core.mixture.len() > 1
    }

    pub(super) fn single(&self) -> Single<'_> {
        Single::of(&self.core.mixture, &self.core.z)
    }

    /// The temperatures between which both lines are answered, K; the same twice where there are no lines.
    pub(super) fn answered(&self) -> (f64, f64) {
        match (self.core.curve(Side::Bubble), self.core.curve(Side::Dew)) {
            (Some(bubble), Some(dew)) => {
                let (a, b) = (bubble.temperatures(), dew.temperatures());
                (a.0.max(b.0), a.1.min(b.1))
            }
            _ => (self.core.lowest(), self.core.lowest()),
        }
    }

    pub(super) fn critical(&self) -> Result<CriticalPoint, FluidError> {
        let point = self.core.critical().ok_or_else(|| self.not_found("critical point", String::new()))?;
        Ok(CriticalPoint {
            temperature: Temperature::from_kelvin(point.temperature),
            pressure: Pressure::from_pascal(point.pressure),
            density: point.density * self.core.molar_mass,
        })
    }

    pub(super) fn at_temperature(&self, side: Side, t: Temperature) -> Result<Equilibrium, FluidError> {
        let t_k = self.positive("temperature", t.as_kelvin())?;
        let sought = self.sought(side, "saturation pressure", "bubble pressure", "dew pressure");
        let not_found = || self.not_found(sought, format!("at {}", error::temperature(t)));
        let curve = self.core.curve(side).ok_or_else(not_found)?;
        let (low, high) = curve.temperatures();
        if !(low..=high).contains(&t_k) {
            return Err(FluidError::TemperatureOutside {
                refrigerant: self.core.designation.clone(),
                sought,
                asked: t,
                low: Temperature::from_kelvin(low),
                high: Temperature::from_kelvin(high),
                ends: ENDS,
            });
        }
        curve.at_temperature(&self.core.mixture, &self.core.z, t_k).ok_or_else(not_found)
    }

    pub(super) fn at_pressure(&self, side: Side, p: Pressure) -> Result<Equilibrium, FluidError> {
        let p_pa = self.positive("pressure", p.as_pascal())?;
        let sought = self.sought(side, "saturation temperature", "bubble temperature", "dew temperature");
        let not_found = || self.not_found(sought, format!("at {}", error::pressure(p)));
        let curve = self.core.curve(side).ok_or_else(not_found)?;
        let (low, high) = curve.pressures();
        if !(low..=high).contains(&p_pa) {
            return Err(FluidError::PressureOutside {
                refrigerant: self.core.designation.clone(),
                sought,
                asked: p,
                low: Pressure::from_pascal(low),
                high: Pressure::from_pascal(high),
                ends: ENDS,
            });
        }
        curve.at_pressure(&self.core.mixture, &self.core.z, p_pa).ok_or_else(not_found)
    }

    fn sought(&self, side: Side, pure: &'static str, bubble: &'static str, dew: &'static str) -> &'static str {
        match (self.is_blend(), side) {
            (false, _) => pure,
            (true, Side::Bubble) => bubble,
            (true, Side::Dew) => dew,
        }
    }

    pub(super) fn saturation(&self, found: &Equilibrium) -> Result<Saturation, FluidError> {
        Ok(Saturation {
            temperature: Temperature::from_kelvin(found.temperature),
            pressure: Pressure::from_pascal(found.pressure),
            liquid: self.saturated(found, Phase::Liquid)?,
            vapor: self.saturated(found, Phase::Vapor)?,
        })
    }

    /// One of two phases that stand side by side.
    pub(super) fn saturated(&self, found: &Equilibrium, phase: Phase) -> Result<State, FluidError> {
        let (rho, quality) = match phase {
            Phase::Liquid => (&found.liquid, 0.0),
            _ => (&found.vapor, 1.0),
        };
        let (x, density) = fractions(rho);
        let single = Single::of(&self.core.mixture, &x);
        let (pressure, temperature, quality) = (found.pressure, found.temperature, Some(quality));
        self.one_phase(&Found { single: &single, phase, pressure, temperature, density, quality })
    }

    /// The state of one phase, from the zero of this refrigerant.
    pub(super) fn one_phase(&self, found: &Found<'_>) -> Result<State, FluidError> {
        let (h, s) = self.shift()?;
        let mut state = self.core.unshifted(found);
        state.enthalpy += h;
        state.entropy += s;
        let single = state.single.map_or(0.0, |s| s.heat_capacity_p + s.heat_capacity_v + s.speed_of_sound);
        if [state.density, state.enthalpy, state.entropy, single].iter().all(|x| x.is_finite()) {
            Ok(state)
        } else {
            Err(self.not_found("state", at(state.pressure, state.temperature)))
        }
    }

    /// What brings enthalpy, J/kg, and entropy, J/(kg K), to the zero of this refrigerant.
    ///
    /// The same for every phase and composition of one blend: so much a kilogram, which no balance of mass and energy
    /// can tell.
    pub(super) fn shift(&self) -> Result<(f64, f64), FluidError> {
        let reference = self.zero.reference;
        self.zero
            .shift
            .get_or_init(|| {
                let equilibrium = match reference.held() {
                    reference::Held::Temperature(t) => self.at_temperature(Side::Bubble, t)?,
                    reference::Held::Pressure(p) => self.at_pressure(Side::Bubble, p)?,
                };
                let (x, density) = fractions(&equilibrium.liquid);
                let single = Single::of(&self.core.mixture, &x);
                let state = self.core.unshifted(&Found {
                    single: &single,
                    phase: Phase::Liquid,
                    pressure: equilibrium.pressure,
                    temperature: equilibrium.temperature,
                    density,
                    quality: None,
                });
                let (h, s) = reference.values();
                Ok((h - state.enthalpy, s - state.entropy))
            })
            .clone()
    }

    pub(super) fn positive(&self, quantity: &'static str, value: f64) -> Result<f64, FluidError> {
        if value.is_finite() && value > 0.0 {
            Ok(value)
        } else {
            Err(FluidError::NotANumber { refrigerant: self.core.designation.clone(), quantity, value })
        }
    }

    pub(super) fn not_found(&self, sought: &'static str, at: String) -> FluidError {
        FluidError::NotFound { refrigerant: self.core.designation.clone(), sought, at }
    }
}

/// The two ends of a saturation line, for its error.
pub(super) const ENDS: &str = "from the triple point to just below the critical point";

/// Where a state was asked for.
pub(super) fn at(p: Pressure, t: Temperature) -> String {
    format!("at {} and {}", error::pressure(p), error::temperature(t))
}

/// Mole fractions and their sum.
pub(super) fn fractions(rho: &Each) -> (Each, f64) {
    let density: f64 = rho.iter().sum();
    (rho.map(|rho| rho / density), density)
}

impl Core {
    /// The lowest temperature at which all components are fluid, K.
    pub(super) fn lowest(&self) -> f64 {
        self.mixture.components.iter().map(|c| c.triple_point).fold(0.0, f64::max)
    }

    pub(super) fn critical(&self) -> Option<critical::Point> {
        *self.critical.get_or_init(|| critical::find(&self.mixture, &self.z))
    }

    pub(super) fn curve(&self, side: Side) -> Option<&Curve> {
        // Of a pure refrigerant both lines are one.
        let side = if self.mixture.len() == 1 { Side::Dew } else { side };
        let place = match side {
            Side::Bubble => &self.bubble,
            Side::Dew => &self.dew,
        };
        place
            .get_or_init(|| {
                let critical = self.critical()?.temperature;
                let nearest = if self.mixture.len() == 1 { NEAREST_PURE } else { NEAREST_BLEND };
                Curve::walk(&self.mixture, &self.z, side, self.lowest(), nearest * critical, critical)
            })
            .as_ref()
    }

    fn unshifted(&self, found: &Found<'_>) -> State {
        let properties = found.single.properties(found.temperature, found.density);
        let mass = found.single.molar_mass;
        let mut mass_fractions = [0.0; MOST];
        for (i, component) in self.mixture.components.iter().enumerate() {
            mass_fractions[i] = found.single.x[i] * component.molar_mass / mass;
        }
        State {
            phase: found.phase,
            temperature: Temperature::from_kelvin(found.temperature),
            pressure: Pressure::from_pascal(found.pressure),
            density: found.density * mass,
            enthalpy: properties.enthalpy / mass,
            entropy: properties.entropy / mass,
            single: Some(OnePhase {
                heat_capacity_p: properties.heat_capacity_p / mass,
                heat_capacity_v: properties.heat_capacity_v / mass,
                speed_of_sound: properties.speed_of_sound,
            }),
            quality: found.quality,
            mass_fractions,
            count: self.mixture.len(),
        }
    }
}
