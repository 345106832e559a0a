//! The door of this room: a refrigerant, pure or blended, and what can be asked of it.

use std::sync::{Arc, OnceLock};

use crate::quantity::{Pressure, Temperature};

use super::{
    CriticalPoint, Equation, FluidError, Phase, Reference, Saturation, State, critical,
    curve::Curve,
    equilibrium::{Equilibrium, Side},
    mixture::{Each, MOST, Mixture},
    single::Single,
    state::OnePhase,
};

/// A refrigerant, pure or a blend. Cheap to clone; may be shared between threads.
///
/// What is worked out once for a composition (its critical point, the points its bubble and dew lines are started from)
/// is worked out at the first question that needs it. An answer never depends on what was asked before.
///
/// ```
/// # fn main() -> Result<(), coldpress::fluid::FluidError> {
/// use coldpress::{fluid::Refrigerant, quantity::{Pressure, Temperature}};
/// let r410a = Refrigerant::blend("R-410A", &[("R-32", 0.5), ("R-125", 0.5)])?;
/// let boils = r410a.dew_temperature(Pressure::from_psia(132.7))?;
/// assert_eq!(format!("{:.1}", boils.as_fahrenheit()), "39.8");
/// let error = r410a.dew_pressure(Temperature::from_fahrenheit(200.0)).unwrap_err();
/// assert!(error.to_string().starts_with("R-410A: no dew pressure at 200.0 °F (93.3 °C); it is known from"));
/// # Ok(())
/// # }
/// ```
#[derive(Clone, Debug)]
pub struct Refrigerant {
    core: Arc<Core>,
    zero: Arc<Zero>,
}

/// What belongs to the composition.
#[derive(Debug)]
struct Core {
    designation: String,
    mixture: Mixture,
    /// mole fractions
    z: Each,
    mass_fractions: Each,
    /// kg/mol
    molar_mass: f64,
    critical: OnceLock<Option<critical::Point>>,
    bubble: OnceLock<Option<Curve>>,
    dew: OnceLock<Option<Curve>>,
}

/// The zero of enthalpy and entropy, and what it adds to them: J/kg and J/(kg K).
#[derive(Debug)]
struct Zero {
    reference: Reference,
    shift: OnceLock<Result<(f64, f64), FluidError>>,
}

/// One component of a refrigerant.
#[derive(Clone, Copy, Debug)]
pub struct Component {
    /// As `R-32`.
    pub designation: &'static str,
    /// Share of the mass.
    pub mass_fraction: f64,
    /// Its equation of state: paper, range, uncertainty.
    pub equation: &'static Equation,
}

/// What is known of how two components of a blend act on each other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Pair {
    /// As `R-32`.
    pub first: &'static str,
    /// As `R-125`.
    pub second: &'static str,
    /// The paper the parameters are printed in, as a citation in full words; for an estimate, what it rests on.
    pub source: String,
    /// What the paper says of its own uncertainty, in words.
    pub uncertainty: String,
    /// Whether nobody has published this pair.
    pub estimated: bool,
    /// For an estimate, the name of the rule it was made by.
    pub rule: Option<&'static str>,
}

/// How near the critical temperature saturation is answered, as a part of it.
const NEAREST_PURE: f64 = 0.9999;
const NEAREST_BLEND: f64 = 0.9995;

impl Refrigerant {
    /// A pure refrigerant by the designation of its equation, as `R-134a`.
    ///
    /// # Errors
    /// [`FluidError::UnknownEquation`].
    pub fn pure(designation: &str) -> Result<Self, FluidError> {
        Self::blend(designation, &[(designation, 1.0)])
    }

    /// A blend of these parts: designation of an equation and share of the mass, any unit; the shares are brought to
    /// a sum of one.
    ///
    /// # Errors
    /// [`FluidError::UnknownEquation`]; [`FluidError::Composition`] where a share is not above zero, a part stands there
    /// twice, or there are none or too many.
    pub fn blend(designation: &str, parts: &[(&str, f64)]) -> Result<Self, FluidError> {
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
            zero: Arc::new(Zero { reference: Reference::default(), shift: OnceLock::new() }),
        })
    }

    /// The same refrigerant with enthalpy and entropy counted from another zero.
    ///
    /// # Errors
    /// Where the state of reference lies outside of what is known, as the normal boiling point of R-744.
    pub fn with_reference(&self, reference: Reference) -> Result<Self, FluidError> {
        let other = Self { core: Arc::clone(&self.core), zero: Arc::new(Zero { reference, shift: OnceLock::new() }) };
        other.shift()?;
        Ok(other)
    }

    /// The zero enthalpy and entropy are counted from.
    pub fn reference(&self) -> Reference {
        self.zero.reference
    }

    /// The name it was made under.
    pub fn designation(&self) -> &str {
        &self.core.designation
    }

    /// Whether it has more than one component.
    pub fn is_blend(&self) -> bool {
        self.core.mixture.len() > 1
    }

    /// Molar mass in kg/mol.
    pub fn molar_mass(&self) -> f64 {
        self.core.molar_mass
    }

    /// Its components, in the order they were given in.
    pub fn components(&self) -> Vec<Component> {
        let parts = self.core.mixture.components.iter().zip(self.core.mass_fractions);
        parts
            .map(|(&equation, mass_fraction)| Component {
                designation: equation.designation(),
                mass_fraction,
                equation,
            })
            .collect()
    }

    /// Every two of its components, with the source of what is known of them; none for a pure refrigerant.
    pub fn pairs(&self) -> Vec<Pair> {
        let components = &self.core.mixture.components;
        let mixings = self.core.mixture.mixings.iter();
        mixings
            .map(|pair| Pair {
                first: components[pair.i].designation(),
                second: components[pair.j].designation(),
                source: pair.mixing.source.clone(),
                uncertainty: pair.mixing.uncertainty.clone(),
                estimated: pair.mixing.rule.is_some(),
                rule: pair.mixing.rule,
            })
            .collect()
    }

    /// The temperatures between which bubble and dew points are answered.
    ///
    /// From the triple point (for a blend, the highest of its components') to just below the critical temperature.
    pub fn valid_temperature(&self) -> (Temperature, Temperature) {
        let kelvin = Temperature::from_kelvin;
        match (self.core.curve(Side::Bubble), self.core.curve(Side::Dew)) {
            (Some(bubble), Some(dew)) => {
                let (a, b) = (bubble.temperatures(), dew.temperatures());
                (kelvin(a.0.max(b.0)), kelvin(a.1.min(b.1)))
            }
            // An empty range, which every temperature lies outside of
            _ => (kelvin(self.core.lowest()), kelvin(self.core.lowest())),
        }
    }

    /// Where liquid and vapor become one.
    ///
    /// # Errors
    /// [`FluidError::NotFound`] where a blend shows no critical point.
    pub fn critical(&self) -> Result<CriticalPoint, FluidError> {
        let point = self.core.critical().ok_or_else(|| self.not_found("critical point", String::new()))?;
        Ok(CriticalPoint {
            temperature: Temperature::from_kelvin(point.temperature),
            pressure: Pressure::from_pascal(point.pressure),
            density: point.density * self.core.molar_mass,
        })
    }

    /// The pressure at which the liquid's first bubble forms.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn bubble_pressure(&self, t: Temperature) -> Result<Pressure, FluidError> {
        self.at_temperature(Side::Bubble, t).map(|e| Pressure::from_pascal(e.pressure))
    }

    /// The pressure at which the vapor's first drop forms.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn dew_pressure(&self, t: Temperature) -> Result<Pressure, FluidError> {
        self.at_temperature(Side::Dew, t).map(|e| Pressure::from_pascal(e.pressure))
    }

    /// The temperature at which the liquid's first bubble forms.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`] naming the range.
    pub fn bubble_temperature(&self, p: Pressure) -> Result<Temperature, FluidError> {
        self.at_pressure(Side::Bubble, p).map(|e| Temperature::from_kelvin(e.temperature))
    }

    /// The temperature at which the vapor's first drop forms.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`] naming the range.
    pub fn dew_temperature(&self, p: Pressure) -> Result<Temperature, FluidError> {
        self.at_pressure(Side::Dew, p).map(|e| Temperature::from_kelvin(e.temperature))
    }

    /// The bubble point at a temperature, both phases.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn bubble(&self, t: Temperature) -> Result<Saturation, FluidError> {
        self.at_temperature(Side::Bubble, t).and_then(|e| self.saturation(&e))
    }

    /// The dew point at a temperature, both phases.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn dew(&self, t: Temperature) -> Result<Saturation, FluidError> {
        self.at_temperature(Side::Dew, t).and_then(|e| self.saturation(&e))
    }

    /// The bubble point at a pressure, both phases.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`] naming the range.
    pub fn bubble_at_pressure(&self, p: Pressure) -> Result<Saturation, FluidError> {
        self.at_pressure(Side::Bubble, p).and_then(|e| self.saturation(&e))
    }

    /// The dew point at a pressure, both phases.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`] naming the range.
    pub fn dew_at_pressure(&self, p: Pressure) -> Result<Saturation, FluidError> {
        self.at_pressure(Side::Dew, p).and_then(|e| self.saturation(&e))
    }

    /// The state of one phase alone at a pressure and a temperature: subcooled liquid, superheated vapor, or past the
    /// critical temperature.
    ///
    /// Which phase is told from the bubble and dew pressures at that temperature, never from density.
    ///
    /// # Errors
    /// [`FluidError::TwoPhase`] between bubble and dew; [`FluidError::TemperatureOutside`] or
    /// [`FluidError::PressureOutside`] of what the equations hold for; [`FluidError::NearCritical`].
    pub fn state(&self, p: Pressure, t: Temperature) -> Result<State, FluidError> {
        let (p_pa, t_k) = (self.positive("pressure", p.as_pascal())?, self.positive("temperature", t.as_kelvin())?);
        self.inside_equations("state", p, t)?;
        let critical = self.critical()?;
        let single = Single::of(&self.core.mixture, &self.core.z);
        let (_, answered) = self.valid_temperature();
        let not_found = || self.not_found("state", at(p, t));

        if t_k <= answered.as_kelvin() {
            let (bubble, dew) = (self.at_temperature(Side::Bubble, t)?, self.at_temperature(Side::Dew, t)?);
            let sum = |rho: &Each| rho.iter().sum::<f64>();
            let (phase, rho) = if p_pa > bubble.pressure {
                (Phase::Liquid, single.density(t_k, p_pa, sum(&bubble.liquid)))
            } else if p_pa < dew.pressure {
                let start = sum(&dew.vapor) * p_pa / dew.pressure;
                let ideal = p_pa / (self.core.mixture.gas_constant * t_k);
                (Phase::Vapor, single.density(t_k, p_pa, start).or_else(|| single.density(t_k, p_pa, ideal)))
            } else {
                return Err(FluidError::TwoPhase {
                    refrigerant: self.designation().to_owned(),
                    pressure: p,
                    temperature: t,
                    bubble: Pressure::from_pascal(bubble.pressure),
                    dew: Pressure::from_pascal(dew.pressure),
                });
            };
            let rho = rho.ok_or_else(not_found)?;
            return self.one_phase(&single, phase, p_pa, t_k, rho, &self.core.z, None);
        }

        // Between the end of the saturation lines and the critical temperature, and for a blend a little above it (its
        // dew line turns back there), only pressures clearly to one side are answered.
        let t_critical = critical.temperature.as_kelvin();
        let end = if self.is_blend() { 1.01 * t_critical } else { t_critical };
        if t_k < end {
            let (low, high) = self.near_critical_pressures(critical.pressure);
            if (low..=high).contains(&p_pa) {
                return Err(FluidError::NearCritical {
                    refrigerant: self.designation().to_owned(),
                    sought: "state",
                    asked: t,
                    critical: critical.temperature,
                });
            }
            let roots = single.densities(t_k, p_pa);
            let (phase, rho) = match (t_k < t_critical, p_pa < low) {
                (true, true) => (Phase::Vapor, roots.first()),
                (true, false) => (Phase::Liquid, roots.last()),
                (false, _) => (Phase::Supercritical, roots.first()),
            };
            let rho = *rho.ok_or_else(not_found)?;
            return self.one_phase(&single, phase, p_pa, t_k, rho, &self.core.z, None);
        }
        let rho = *single.densities(t_k, p_pa).first().ok_or_else(not_found)?;
        self.one_phase(&single, Phase::Supercritical, p_pa, t_k, rho, &self.core.z, None)
    }

    /// Pressures round the critical one, Pa, within which near the critical temperature nothing is answered.
    fn near_critical_pressures(&self, critical: Pressure) -> (f64, f64) {
        let end = |side| self.core.curve(side).map(|c| c.pressures().1);
        let pc = critical.as_pascal();
        (0.97 * end(Side::Dew).unwrap_or(pc).min(pc), 1.03 * end(Side::Bubble).unwrap_or(pc).max(pc))
    }

    fn positive(&self, quantity: &'static str, value: f64) -> Result<f64, FluidError> {
        if value.is_finite() && value > 0.0 {
            Ok(value)
        } else {
            Err(FluidError::NotANumber { refrigerant: self.designation().to_owned(), quantity, value })
        }
    }

    /// Within the ranges that the papers of all components vouch for.
    fn inside_equations(&self, sought: &'static str, p: Pressure, t: Temperature) -> Result<(), FluidError> {
        let ranges = || self.core.mixture.components.iter().map(|c| (c.valid_temperature(), c.valid_pressure()));
        let low = ranges().map(|((low, _), _)| low.as_kelvin()).fold(0.0, f64::max);
        let high = ranges().map(|((_, high), _)| high.as_kelvin()).fold(f64::INFINITY, f64::min);
        let most = ranges().map(|(_, p)| p.as_pascal()).fold(f64::INFINITY, f64::min);
        let ends = "the range of its equation of state";
        if !(low..=high).contains(&t.as_kelvin()) {
            return Err(FluidError::TemperatureOutside {
                refrigerant: self.designation().to_owned(),
                sought,
                asked: t,
                low: Temperature::from_kelvin(low),
                high: Temperature::from_kelvin(high),
                ends,
            });
        }
        if p.as_pascal() > most {
            return Err(FluidError::PressureOutside {
                refrigerant: self.designation().to_owned(),
                sought,
                asked: p,
                low: Pressure::from_pascal(0.0),
                high: Pressure::from_pascal(most),
                ends,
            });
        }
        Ok(())
    }

    fn at_temperature(&self, side: Side, t: Temperature) -> Result<Equilibrium, FluidError> {
        let t_k = self.positive("temperature", t.as_kelvin())?;
        let sought = match (self.is_blend(), side) {
            (false, _) => "saturation pressure",
            (true, Side::Bubble) => "bubble pressure",
            (true, Side::Dew) => "dew pressure",
        };
        let curve = self
            .core
            .curve(side)
            .ok_or_else(|| self.not_found(sought, format!("at {}", super::error::temperature(t))))?;
        let (low, high) = curve.temperatures();
        if !(low..=high).contains(&t_k) {
            return Err(FluidError::TemperatureOutside {
                refrigerant: self.designation().to_owned(),
                sought,
                asked: t,
                low: Temperature::from_kelvin(low),
                high: Temperature::from_kelvin(high),
                ends: ENDS,
            });
        }
        curve
            .at_temperature(&self.core.mixture, &self.core.z, t_k)
            .ok_or_else(|| self.not_found(sought, format!("at {}", super::error::temperature(t))))
    }

    fn at_pressure(&self, side: Side, p: Pressure) -> Result<Equilibrium, FluidError> {
        let p_pa = self.positive("pressure", p.as_pascal())?;
        let sought = match (self.is_blend(), side) {
            (false, _) => "saturation temperature",
            (true, Side::Bubble) => "bubble temperature",
            (true, Side::Dew) => "dew temperature",
        };
        let curve =
            self.core.curve(side).ok_or_else(|| self.not_found(sought, format!("at {}", super::error::pressure(p))))?;
        let (low, high) = curve.pressures();
        if !(low..=high).contains(&p_pa) {
            return Err(FluidError::PressureOutside {
                refrigerant: self.designation().to_owned(),
                sought,
                asked: p,
                low: Pressure::from_pascal(low),
                high: Pressure::from_pascal(high),
                ends: ENDS,
            });
        }
        curve
            .at_pressure(&self.core.mixture, &self.core.z, p_pa)
            .ok_or_else(|| self.not_found(sought, format!("at {}", super::error::pressure(p))))
    }

    fn saturation(&self, found: &Equilibrium) -> Result<Saturation, FluidError> {
        Ok(Saturation {
            temperature: Temperature::from_kelvin(found.temperature),
            pressure: Pressure::from_pascal(found.pressure),
            liquid: self.phase_of(found, Phase::Liquid)?,
            vapor: self.phase_of(found, Phase::Vapor)?,
        })
    }

    /// One of the phases of a bubble or dew point, from the zero of this refrigerant.
    fn phase_of(&self, found: &Equilibrium, phase: Phase) -> Result<State, FluidError> {
        let (rho, quality) = match phase {
            Phase::Liquid => (&found.liquid, 0.0),
            _ => (&found.vapor, 1.0),
        };
        let (x, density) = fractions(rho);
        let single = Single::of(&self.core.mixture, &x);
        self.one_phase(&single, phase, found.pressure, found.temperature, density, &x, Some(quality))
    }

    #[expect(clippy::too_many_arguments, reason = "a state is these numbers")]
    fn one_phase(
        &self,
        single: &Single<'_>,
        phase: Phase,
        p: f64,
        t: f64,
        rho: f64,
        x: &Each,
        quality: Option<f64>,
    ) -> Result<State, FluidError> {
        let (h, s) = self.shift()?;
        let mut state = unshifted(&self.core, single, phase, p, t, rho, x, quality);
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
    fn shift(&self) -> Result<(f64, f64), FluidError> {
        let reference = self.zero.reference;
        self.zero
            .shift
            .get_or_init(|| {
                let found = match reference.held() {
                    super::reference::Held::Temperature(t) => self.at_temperature(Side::Bubble, t)?,
                    super::reference::Held::Pressure(p) => self.at_pressure(Side::Bubble, p)?,
                };
                let (x, density) = fractions(&found.liquid);
                let single = Single::of(&self.core.mixture, &x);
                let state =
                    unshifted(&self.core, &single, Phase::Liquid, found.pressure, found.temperature, density, &x, None);
                let (h, s) = reference.values();
                Ok((h - state.enthalpy, s - state.entropy))
            })
            .clone()
    }

    fn not_found(&self, sought: &'static str, at: String) -> FluidError {
        FluidError::NotFound { refrigerant: self.designation().to_owned(), sought, at }
    }
}

/// The two ends of a saturation line, for its error.
const ENDS: &str = "from the triple point to just below the critical point";

fn at(p: Pressure, t: Temperature) -> String {
    format!("at {} and {}", super::error::pressure(p), super::error::temperature(t))
}

/// Mole fractions and their sum.
fn fractions(rho: &Each) -> (Each, f64) {
    let density: f64 = rho.iter().sum();
    (rho.map(|rho| rho / density), density)
}

#[expect(clippy::too_many_arguments, reason = "a state is these numbers")]
fn unshifted(
    core: &Core,
    single: &Single<'_>,
    phase: Phase,
    p: f64,
    t: f64,
    rho: f64,
    x: &Each,
    quality: Option<f64>,
) -> State {
    let properties = single.properties(t, rho);
    let mass = single.molar_mass;
    let mut mass_fractions = [0.0; MOST];
    for (i, component) in core.mixture.components.iter().enumerate() {
        mass_fractions[i] = x[i] * component.molar_mass / mass;
    }
    State {
        phase,
        temperature: Temperature::from_kelvin(t),
        pressure: Pressure::from_pascal(p),
        density: rho * mass,
        enthalpy: properties.enthalpy / mass,
        entropy: properties.entropy / mass,
        single: Some(OnePhase {
            heat_capacity_p: properties.heat_capacity_p / mass,
            heat_capacity_v: properties.heat_capacity_v / mass,
            speed_of_sound: properties.speed_of_sound,
        }),
        quality,
        mass_fractions,
        count: core.mixture.len(),
    }
}

impl Core {
    /// The lowest temperature at which all components are fluid, K.
    fn lowest(&self) -> f64 {
        self.mixture.components.iter().map(|c| c.triple_point).fold(0.0, f64::max)
    }

    fn critical(&self) -> Option<critical::Point> {
        *self.critical.get_or_init(|| critical::find(&self.mixture, &self.z))
    }

    fn curve(&self, side: Side) -> Option<&Curve> {
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
}
