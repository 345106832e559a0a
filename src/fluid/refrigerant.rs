//! The door of this room: a refrigerant, and what can be asked of it.

use std::sync::Arc;

use crate::quantity::{Pressure, Temperature};

use super::{
    CriticalPoint, Equation, Expanded, FluidError, Reference, Saturation, State, TypedPoint,
    equilibrium::Side,
    model::Model,
    points::{Line, Points},
    seek::Caloric,
};

/// A refrigerant: pure, a blend, or known by points typed from a table. Cheap to clone; may be shared between threads.
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
    pub(super) known: Known,
}

#[derive(Clone, Debug)]
pub(super) enum Known {
    Equations(Model),
    Points(Arc<Points>),
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

/// How a refrigerant is made, and what it is.
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
        Ok(Self { known: Known::Equations(Model::of(designation, parts)?) })
    }

    /// A refrigerant without an equation, by three or more points of a published table, in any order.
    ///
    /// It answers bubble and dew pressures and temperatures between its points and nothing else. Look over the table
    /// with [`super::TypedTable::slips`] first: a slip of the pen small enough to leave the pressures rising is not
    /// refused here.
    ///
    /// # Errors
    /// [`FluidError::Points`] where the points make no rising curve.
    pub fn typed(designation: &str, rows: &[TypedPoint]) -> Result<Self, FluidError> {
        Ok(Self { known: Known::Points(Arc::new(Points::of(designation, rows)?)) })
    }

    /// The same refrigerant with enthalpy and entropy counted from another zero.
    ///
    /// # Errors
    /// Where the state of reference lies outside of what is known, as the normal boiling point of R-744.
    pub fn with_reference(&self, reference: Reference) -> Result<Self, FluidError> {
        Ok(Self { known: Known::Equations(self.model(BEYOND_SATURATION)?.with_reference(reference)?) })
    }

    /// The same as [`Self::with_reference`], where whether it has that state is found when enthalpy or entropy is asked
    /// for; one known by typed points, which never has them, is left as it is.
    pub fn counted_from(&self, reference: Reference) -> Self {
        let known = match &self.known {
            Known::Equations(model) => Known::Equations(model.counted_from(reference)),
            Known::Points(points) => Known::Points(Arc::clone(points)),
        };
        Self { known }
    }

    /// The zero enthalpy and entropy are counted from.
    pub fn reference(&self) -> Reference {
        match &self.known {
            Known::Equations(model) => model.reference(),
            Known::Points(_) => Reference::default(),
        }
    }

    /// The name it was made under.
    pub fn designation(&self) -> &str {
        match &self.known {
            Known::Equations(model) => &model.core.designation,
            Known::Points(points) => &points.designation,
        }
    }

    /// Whether it has more than one component; of typed points, whether bubble and dew differ anywhere.
    pub fn is_blend(&self) -> bool {
        match &self.known {
            Known::Equations(model) => model.is_blend(),
            Known::Points(points) => points.is_blend,
        }
    }

    /// Molar mass in kg/mol.
    ///
    /// # Errors
    /// [`FluidError::NotFromPoints`].
    pub fn molar_mass(&self) -> Result<f64, FluidError> {
        Ok(self.model("molar mass")?.core.molar_mass)
    }

    /// Its components, in the order they were given in; none where it is known by typed points.
    pub fn components(&self) -> Vec<Component> {
        let Known::Equations(model) = &self.known else { return Vec::new() };
        let parts = model.core.mixture.components.iter().zip(model.core.mass_fractions);
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
        let Known::Equations(model) = &self.known else { return Vec::new() };
        let components = &model.core.mixture.components;
        let mixings = model.core.mixture.mixings.iter();
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

    pub(super) fn model(&self, sought: &'static str) -> Result<&Model, FluidError> {
        match &self.known {
            Known::Equations(model) => Ok(model),
            Known::Points(points) => Err(FluidError::NotFromPoints { refrigerant: points.designation.clone(), sought }),
        }
    }
}

/// Where it boils and condenses.
impl Refrigerant {
    /// The temperatures between which bubble and dew points are answered.
    ///
    /// From the triple point (for a blend, the highest of its components') to just below the critical temperature:
    /// 0.9999 of it for a pure refrigerant, 0.9995 for a blend. Of typed points, from the first to the last.
    pub fn valid_temperature(&self) -> (Temperature, Temperature) {
        match &self.known {
            Known::Equations(model) => {
                let (low, high) = model.answered();
                (Temperature::from_kelvin(low), Temperature::from_kelvin(high))
            }
            Known::Points(points) => points.bubble.temperatures(),
        }
    }

    /// Where liquid and vapor become one.
    ///
    /// # Errors
    /// [`FluidError::NotFound`] where a blend shows no critical point; [`FluidError::NotFromPoints`].
    pub fn critical(&self) -> Result<CriticalPoint, FluidError> {
        self.model("critical point")?.critical()
    }

    /// The pressure at which the liquid's first bubble forms.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn bubble_pressure(&self, t: Temperature) -> Result<Pressure, FluidError> {
        self.pressure(Side::Bubble, t)
    }

    /// The pressure at which the vapor's first drop forms.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn dew_pressure(&self, t: Temperature) -> Result<Pressure, FluidError> {
        self.pressure(Side::Dew, t)
    }

    /// The temperature at which the liquid's first bubble forms.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`] naming the range.
    pub fn bubble_temperature(&self, p: Pressure) -> Result<Temperature, FluidError> {
        self.temperature(Side::Bubble, p)
    }

    /// The temperature at which the vapor's first drop forms.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`] naming the range.
    pub fn dew_temperature(&self, p: Pressure) -> Result<Temperature, FluidError> {
        self.temperature(Side::Dew, p)
    }

    /// The bubble point at a temperature, both phases.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn bubble(&self, t: Temperature) -> Result<Saturation, FluidError> {
        let model = self.model(BEYOND_SATURATION)?;
        model.at_temperature(Side::Bubble, t).and_then(|e| model.saturation(&e))
    }

    /// The dew point at a temperature, both phases.
    ///
    /// # Errors
    /// [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn dew(&self, t: Temperature) -> Result<Saturation, FluidError> {
        let model = self.model(BEYOND_SATURATION)?;
        model.at_temperature(Side::Dew, t).and_then(|e| model.saturation(&e))
    }

    /// The bubble point at a pressure, both phases.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`] naming the range.
    pub fn bubble_at_pressure(&self, p: Pressure) -> Result<Saturation, FluidError> {
        let model = self.model(BEYOND_SATURATION)?;
        model.at_pressure(Side::Bubble, p).and_then(|e| model.saturation(&e))
    }

    /// The dew point at a pressure, both phases.
    ///
    /// # Errors
    /// [`FluidError::PressureOutside`] naming the range.
    pub fn dew_at_pressure(&self, p: Pressure) -> Result<Saturation, FluidError> {
        let model = self.model(BEYOND_SATURATION)?;
        model.at_pressure(Side::Dew, p).and_then(|e| model.saturation(&e))
    }

    /// The saturation lines as expansions, many times as fast to read; made at the first call, which takes some
    /// milliseconds.
    ///
    /// # Errors
    /// [`FluidError::NotFromPoints`].
    pub fn expanded(&self) -> Result<&Expanded, FluidError> {
        self.model("expansion of the saturation lines")?.expanded()
    }

    fn pressure(&self, side: Side, t: Temperature) -> Result<Pressure, FluidError> {
        let points = match &self.known {
            Known::Equations(model) => {
                return model.at_temperature(side, t).map(|e| Pressure::from_pascal(e.pressure));
            }
            Known::Points(points) => points,
        };
        let (line, sought) = typed_line(points, side, "bubble pressure", "dew pressure");
        let (low, high) = line.temperatures();
        if t >= low && t <= high {
            return Ok(line.pressure(t));
        }
        let refrigerant = points.designation.clone();
        Err(FluidError::TemperatureOutside { refrigerant, sought, asked: t, low, high, ends: POINTS })
    }

    fn temperature(&self, side: Side, p: Pressure) -> Result<Temperature, FluidError> {
        let points = match &self.known {
            Known::Equations(model) => {
                return model.at_pressure(side, p).map(|e| Temperature::from_kelvin(e.temperature));
            }
            Known::Points(points) => points,
        };
        let (line, sought) = typed_line(points, side, "bubble temperature", "dew temperature");
        let (low, high) = line.pressures();
        if p >= low && p <= high {
            return Ok(line.temperature(p));
        }
        let refrigerant = points.designation.clone();
        Err(FluidError::PressureOutside { refrigerant, sought, asked: p, low, high, ends: POINTS })
    }
}

/// What a refrigerant known by typed points can't be asked for.
const BEYOND_SATURATION: &str = "its density, enthalpy and entropy";

/// The two ends of typed points, for their error.
const POINTS: &str = "the first and the last of its typed points";

fn typed_line<'a>(points: &'a Points, side: Side, bubble: &'static str, dew: &'static str) -> (&'a Line, &'static str) {
    match side {
        Side::Bubble => (&points.bubble, bubble),
        Side::Dew => (&points.dew, dew),
    }
}

/// What it is like away from saturation.
impl Refrigerant {
    /// The state of one phase alone at a pressure and a temperature: subcooled liquid, superheated vapor, or past the
    /// critical temperature.
    ///
    /// # Errors
    /// [`FluidError::TwoPhase`] between bubble and dew; [`FluidError::TemperatureOutside`] or
    /// [`FluidError::PressureOutside`] of what the equations hold for; [`FluidError::NearCritical`].
    pub fn state(&self, p: Pressure, t: Temperature) -> Result<State, FluidError> {
        self.model(BEYOND_SATURATION)?.state(p, t)
    }

    /// The state at a pressure and a specific enthalpy in J/kg, of one phase or both.
    ///
    /// The enthalpy is counted from the zero of this refrigerant ([`Self::reference`]). For a blend part boiled, both
    /// phases have compositions of their own and the temperature lies between bubble and dew point.
    ///
    /// # Errors
    /// [`FluidError::CaloricOutside`] naming the range at that pressure; [`FluidError::PressureOutside`];
    /// [`FluidError::NearCritical`].
    pub fn state_at_enthalpy(&self, p: Pressure, enthalpy_j_kg: f64) -> Result<State, FluidError> {
        self.model(BEYOND_SATURATION)?.state_of(p, Caloric::Enthalpy, enthalpy_j_kg)
    }

    /// The state at a pressure and a specific entropy in J/(kg K), of one phase or both.
    ///
    /// # Errors
    /// As [`Self::state_at_enthalpy`].
    pub fn state_at_entropy(&self, p: Pressure, entropy_j_kg_k: f64) -> Result<State, FluidError> {
        self.model(BEYOND_SATURATION)?.state_of(p, Caloric::Entropy, entropy_j_kg_k)
    }

    /// The state at a pressure where this part of the mass is vapor, from 0 to 1.
    ///
    /// # Errors
    /// [`FluidError::QualityOutside`]; [`FluidError::PressureOutside`] of the saturation lines.
    pub fn state_at_quality(&self, p: Pressure, quality: f64) -> Result<State, FluidError> {
        self.model(BEYOND_SATURATION)?.state_at_quality(p, quality)
    }
}
