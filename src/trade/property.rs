//! The property look-ups a formula may make: each with its letter, what it is asked at, what it gives, and how the
//! refrigerant answers it.

use crate::fluid::{FluidError, Refrigerant};
use crate::quantity::{Kind, Pressure, Temperature};

use super::expression::{Expr, Node};
use super::input::Input;

/// A property of a refrigerant that formulas ask for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Property {
    /// Pressure at which the first bubble forms, from temperature.
    BubblePressure,
    /// Pressure at which the first drop forms, from temperature.
    DewPressure,
    /// Temperature at which the first bubble forms, from pressure.
    BubbleTemperature,
    /// Temperature at which the first drop forms, from pressure.
    DewTemperature,
    /// Density of saturated liquid, from temperature.
    LiquidDensity,
    /// Specific enthalpy of saturated liquid, from temperature.
    LiquidEnthalpy,
    /// Density of saturated vapor, from temperature.
    VaporDensity,
    /// Specific enthalpy of saturated vapor, from temperature.
    VaporEnthalpy,
    /// Specific entropy of saturated liquid, from temperature.
    LiquidEntropy,
    /// Specific entropy of saturated vapor, from temperature.
    VaporEntropy,
    /// Specific enthalpy of saturated liquid, from pressure.
    LiquidEnthalpyAtPressure,
    /// Specific enthalpy of saturated vapor, from pressure.
    VaporEnthalpyAtPressure,
    /// Density of one phase, from pressure and temperature.
    Density,
    /// Specific enthalpy of one phase, from pressure and temperature.
    Enthalpy,
    /// Specific entropy of one phase, from pressure and temperature.
    Entropy,
    /// Isobaric specific heat capacity of one phase, from pressure and temperature.
    HeatCapacity,
    /// Dynamic viscosity of one phase, from pressure and temperature; of pure refrigerants with a published correlation.
    Viscosity,
    /// Temperature at a pressure and a specific enthalpy, of one phase or both.
    TemperatureAtEnthalpy,
    /// Specific enthalpy at a pressure and a specific entropy, of one phase or both.
    EnthalpyAtEntropy,
    /// The lowest temperature at which it is known to boil.
    LowestTemperature,
    /// The highest temperature at which it boils, just below the critical one.
    HighestTemperature,
}

use Property::*;

/// One look-up that a computation made.
#[derive(Clone, Debug, PartialEq)]
pub struct LookUp {
    /// The input that named the refrigerant.
    pub fluid: &'static str,
    /// What was asked for.
    pub property: Property,
    /// Temperature or pressure, or pressure and temperature, that it was asked at, in SI.
    pub at: Vec<f64>,
    /// What was answered, in SI.
    pub value: f64,
}

/// What one property look-up is called and what it takes and gives.
pub(super) struct Signature {
    /// The letter it is shown by.
    pub(super) symbol: &'static str,
    /// In plain words.
    pub(super) name: &'static str,
    /// What it is asked at.
    pub(super) at: &'static [Kind],
    /// What it gives.
    pub(super) gives: Kind,
    /// Its name where a page asks for it.
    pub(super) script: &'static str,
}

impl Property {
    /// Every one.
    pub const ALL: [Property; 21] = [
        BubblePressure,
        DewPressure,
        BubbleTemperature,
        DewTemperature,
        LiquidDensity,
        LiquidEnthalpy,
        VaporDensity,
        VaporEnthalpy,
        LiquidEntropy,
        VaporEntropy,
        LiquidEnthalpyAtPressure,
        VaporEnthalpyAtPressure,
        Density,
        Enthalpy,
        Entropy,
        HeatCapacity,
        Viscosity,
        TemperatureAtEnthalpy,
        EnthalpyAtEntropy,
        LowestTemperature,
        HighestTemperature,
    ];

    /// In plain words: `dew temperature`.
    pub const fn name(self) -> &'static str {
        self.signature().name
    }

    /// The name under which a page's script asks for it: `dewTemperature`.
    pub const fn script_name(self) -> &'static str {
        self.signature().script
    }

    /// Whether it is counted from a zero that is a matter of agreement, which whoever shows it must name.
    pub const fn has_zero(self) -> bool {
        matches!(
            self,
            LiquidEnthalpy
                | VaporEnthalpy
                | LiquidEntropy
                | VaporEntropy
                | LiquidEnthalpyAtPressure
                | VaporEnthalpyAtPressure
                | Enthalpy
                | Entropy
                | EnthalpyAtEntropy
        )
    }

    pub(super) const fn signature(self) -> Signature {
        const fn of(
            symbol: &'static str,
            name: &'static str,
            at: &'static [Kind],
            gives: Kind,
            script: &'static str,
        ) -> Signature {
            Signature { symbol, name, at, gives, script }
        }
        const T: &[Kind] = &[Kind::Temperature];
        const P: &[Kind] = &[Kind::Pressure];
        const PT: &[Kind] = &[Kind::Pressure, Kind::Temperature];
        const PH: &[Kind] = &[Kind::Pressure, Kind::SpecificEnthalpy];
        const PS: &[Kind] = &[Kind::Pressure, Kind::SpecificEntropy];
        match self {
            BubblePressure => of("p_bub", "bubble pressure", T, Kind::Pressure, "bubblePressure"),
            DewPressure => of("p_dew", "dew pressure", T, Kind::Pressure, "dewPressure"),
            BubbleTemperature => of("T_bub", "bubble temperature", P, Kind::Temperature, "bubbleTemperature"),
            DewTemperature => of("T_dew", "dew temperature", P, Kind::Temperature, "dewTemperature"),
            LiquidDensity => of("ρ_liq", "density of saturated liquid", T, Kind::Density, "liquidDensity"),
            LiquidEnthalpy => of("h_liq", "enthalpy of saturated liquid", T, Kind::SpecificEnthalpy, "liquidEnthalpy"),
            VaporDensity => of("ρ_vap", "density of saturated vapor", T, Kind::Density, "vaporDensity"),
            VaporEnthalpy => of("h_vap", "enthalpy of saturated vapor", T, Kind::SpecificEnthalpy, "vaporEnthalpy"),
            LiquidEntropy => of("s_liq", "entropy of saturated liquid", T, Kind::SpecificEntropy, "liquidEntropy"),
            VaporEntropy => of("s_vap", "entropy of saturated vapor", T, Kind::SpecificEntropy, "vaporEntropy"),
            LiquidEnthalpyAtPressure => {
                of("h_bub", "enthalpy of saturated liquid", P, Kind::SpecificEnthalpy, "liquidEnthalpyAtPressure")
            }
            VaporEnthalpyAtPressure => {
                of("h_dew", "enthalpy of saturated vapor", P, Kind::SpecificEnthalpy, "vaporEnthalpyAtPressure")
            }
            Density => of("ρ", "density", PT, Kind::Density, "density"),
            Enthalpy => of("h", "specific enthalpy", PT, Kind::SpecificEnthalpy, "enthalpy"),
            Entropy => of("s", "specific entropy", PT, Kind::SpecificEntropy, "entropy"),
            HeatCapacity => of("c_p", "specific heat capacity", PT, Kind::SpecificEntropy, "heatCapacity"),
            Viscosity => of("μ", "viscosity", PT, Kind::Viscosity, "viscosity"),
            TemperatureAtEnthalpy => {
                of("T_h", "temperature by enthalpy", PH, Kind::Temperature, "temperatureAtEnthalpy")
            }
            EnthalpyAtEntropy => of("h_s", "enthalpy by entropy", PS, Kind::SpecificEnthalpy, "enthalpyAtEntropy"),
            LowestTemperature => of("T_lowest", "lowest temperature", &[], Kind::Temperature, "lowestTemperature"),
            HighestTemperature => of("T_highest", "highest temperature", &[], Kind::Temperature, "highestTemperature"),
        }
    }

    /// The property of `fluid`, in SI, at `at`, in SI and in the order of the signature.
    pub(super) fn of(self, fluid: &Refrigerant, at: &[f64]) -> Result<f64, FluidError> {
        let first = at.first().copied().unwrap_or(f64::NAN);
        let second = at.get(1).copied().unwrap_or(f64::NAN);
        let temperature = Temperature::from_kelvin(first);
        let pressure = Pressure::from_pascal(first);
        let single = || fluid.state(pressure, Temperature::from_kelvin(second));
        Ok(match self {
            BubblePressure => fluid.bubble_pressure(temperature)?.as_pascal(),
            DewPressure => fluid.dew_pressure(temperature)?.as_pascal(),
            BubbleTemperature => fluid.bubble_temperature(pressure)?.as_kelvin(),
            DewTemperature => fluid.dew_temperature(pressure)?.as_kelvin(),
            LiquidDensity => fluid.bubble(temperature)?.liquid.density_kg_m3(),
            LiquidEnthalpy => fluid.bubble(temperature)?.liquid.enthalpy_j_kg(),
            VaporDensity => fluid.dew(temperature)?.vapor.density_kg_m3(),
            VaporEnthalpy => fluid.dew(temperature)?.vapor.enthalpy_j_kg(),
            LiquidEntropy => fluid.bubble(temperature)?.liquid.entropy_j_kg_k(),
            VaporEntropy => fluid.dew(temperature)?.vapor.entropy_j_kg_k(),
            LiquidEnthalpyAtPressure => fluid.bubble_at_pressure(pressure)?.liquid.enthalpy_j_kg(),
            VaporEnthalpyAtPressure => fluid.dew_at_pressure(pressure)?.vapor.enthalpy_j_kg(),
            Density => single()?.density_kg_m3(),
            Enthalpy => single()?.enthalpy_j_kg(),
            Entropy => single()?.entropy_j_kg_k(),
            // A state found from pressure and temperature is one phase, which has a heat capacity.
            HeatCapacity => single()?.heat_capacity_p_j_kg_k().unwrap_or(f64::NAN),
            Viscosity => fluid.viscosity_pa_s(&single()?)?.value,
            TemperatureAtEnthalpy => fluid.state_at_enthalpy(pressure, second)?.temperature().as_kelvin(),
            EnthalpyAtEntropy => fluid.state_at_entropy(pressure, second)?.enthalpy_j_kg(),
            LowestTemperature => fluid.valid_temperature().0.as_kelvin(),
            HighestTemperature => fluid.valid_temperature().1.as_kelvin(),
        })
    }
}

fn look_up(property: Property, fluid: &Input, at: Vec<Expr>) -> Expr {
    Expr::new(Node::Property(property, fluid.clone(), at))
}

macro_rules! look_ups {
    ($($name:ident: $property:ident($($at:ident),*), $doc:literal;)*) => {
        $(
            #[doc = $doc]
            pub(super) fn $name(fluid: &Input, $($at: impl Into<Expr>),*) -> Expr {
                look_up(Property::$property, fluid, vec![$($at.into()),*])
            }
        )*
    };
}

look_ups! {
    bubble_pressure: BubblePressure(temperature), "The pressure at which `fluid` forms its first bubble.";
    dew_pressure: DewPressure(temperature), "The pressure at which `fluid` forms its first drop.";
    bubble_temperature: BubbleTemperature(pressure), "The temperature at which `fluid` forms its first bubble.";
    dew_temperature: DewTemperature(pressure), "The temperature at which `fluid` forms its first drop.";
    liquid_density: LiquidDensity(temperature), "The density of saturated liquid.";
    liquid_enthalpy: LiquidEnthalpy(temperature), "The specific enthalpy of saturated liquid.";
    vapor_density: VaporDensity(temperature), "The density of saturated vapor.";
    vapor_enthalpy: VaporEnthalpy(temperature), "The specific enthalpy of saturated vapor.";
    liquid_entropy: LiquidEntropy(temperature), "The specific entropy of saturated liquid.";
    vapor_entropy: VaporEntropy(temperature), "The specific entropy of saturated vapor.";
    liquid_enthalpy_at_pressure: LiquidEnthalpyAtPressure(pressure), "The specific enthalpy of saturated liquid.";
    vapor_enthalpy_at_pressure: VaporEnthalpyAtPressure(pressure), "The specific enthalpy of saturated vapor.";
    density: Density(pressure, temperature), "The density of one phase.";
    enthalpy: Enthalpy(pressure, temperature), "The specific enthalpy of one phase.";
    entropy: Entropy(pressure, temperature), "The specific entropy of one phase.";
    heat_capacity: HeatCapacity(pressure, temperature), "The isobaric specific heat capacity of one phase.";
    viscosity: Viscosity(pressure, temperature), "The dynamic viscosity of one phase.";
    temperature_at_enthalpy: TemperatureAtEnthalpy(pressure, enthalpy), "The temperature at a specific enthalpy, of one phase or both.";
    enthalpy_at_entropy: EnthalpyAtEntropy(pressure, entropy), "The specific enthalpy at a specific entropy, of one phase or both.";
    lowest_temperature: LowestTemperature(), "The lowest temperature at which `fluid` is known to boil.";
    highest_temperature: HighestTemperature(), "The highest temperature at which `fluid` boils.";
}
