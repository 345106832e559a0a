//! The zero of enthalpy and entropy: a matter of agreement, of which three are in use.

use crate::quantity::{Pressure, Temperature};

/// Where enthalpy and entropy are counted from: always saturated liquid, for a blend at its bubble point.
///
/// A constant is added to enthalpy and to entropy of the blend as a whole. The components are never reset one by one:
/// what mixing adds would then move the zero.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Reference {
    /// International Institute of Refrigeration: 200 kJ/kg and 1 kJ/(kg K) at 0 °C.
    #[default]
    Iir,
    /// ASHRAE: zero and zero at −40 °C, which is −40 °F too.
    Ashrae,
    /// Zero and zero at the bubble point under one standard atmosphere.
    NormalBoilingPoint,
}

/// What is held at the state of reference.
pub(super) enum Held {
    Temperature(Temperature),
    Pressure(Pressure),
}

impl Reference {
    /// Every one.
    pub const ALL: [Self; 3] = [Self::Iir, Self::Ashrae, Self::NormalBoilingPoint];

    /// The name it is chosen by: `IIR`.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Iir => "IIR",
            Self::Ashrae => "ASHRAE",
            Self::NormalBoilingPoint => "boiling-point",
        }
    }

    /// The one of this name, in any case.
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|zero| zero.name().eq_ignore_ascii_case(name.trim()))
    }

    /// What it is, in words that stand below a table.
    pub const fn told(self) -> &'static str {
        match self {
            Self::Iir => "200 kJ/kg and 1 kJ/(kg·K) for saturated liquid at 0 °C (IIR)",
            Self::Ashrae => "zero for saturated liquid at −40 °F (−40 °C) (ASHRAE)",
            Self::NormalBoilingPoint => "zero for saturated liquid under one standard atmosphere",
        }
    }

    pub(super) fn held(self) -> Held {
        match self {
            Self::Iir => Held::Temperature(Temperature::from_celsius(0.0)),
            Self::Ashrae => Held::Temperature(Temperature::from_celsius(-40.0)),
            Self::NormalBoilingPoint => Held::Pressure(Pressure::STANDARD_ATMOSPHERE),
        }
    }

    /// Enthalpy in J/kg and entropy in J/(kg K) at the state of reference.
    pub(super) fn values(self) -> (f64, f64) {
        match self {
            Self::Iir => (200e3, 1e3),
            Self::Ashrae | Self::NormalBoilingPoint => (0.0, 0.0),
        }
    }
}
