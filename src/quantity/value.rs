//! A quantity whose kind is known only when the program runs.

use super::kind::Kind;
use super::pressure::{Pressure, PressureDifference};
use super::temperature::{Temperature, TemperatureDifference};
use super::unit::Unit;

/// A number in SI units, and what it measures. A pressure is above a perfect vacuum, a temperature in kelvins.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Value {
    /// What it measures.
    pub kind: Kind,
    /// How much, in the SI unit of its kind: pascals, kelvins, meters, joules per kilogram.
    pub si: f64,
}

impl Value {
    /// From a number in the SI unit of `kind`.
    pub const fn of(kind: Kind, si: f64) -> Self {
        Self { kind, si }
    }

    /// From `number` of `unit`, where the air stands at `air`.
    pub fn from_unit(number: f64, unit: &Unit, air: Pressure) -> Self {
        Self { kind: unit.kind, si: unit.to_si(number, air) }
    }

    /// How many of `unit` it is, where the air stands at `air`. Means nothing for a unit of another kind.
    pub fn number_of(self, unit: &Unit, air: Pressure) -> f64 {
        unit.from_si(self.si, air)
    }

    /// As a pressure, where it is one.
    pub fn pressure(self) -> Option<Pressure> {
        (self.kind == Kind::Pressure).then(|| Pressure::from_pascal(self.si))
    }

    /// As a temperature, where it is one.
    pub fn temperature(self) -> Option<Temperature> {
        (self.kind == Kind::Temperature).then(|| Temperature::from_kelvin(self.si))
    }

    /// As a difference of temperatures, where it is one.
    pub fn temperature_difference(self) -> Option<TemperatureDifference> {
        (self.kind == Kind::TemperatureDifference).then(|| TemperatureDifference::from_kelvin(self.si))
    }
}

impl From<Pressure> for Value {
    fn from(pressure: Pressure) -> Self {
        Self::of(Kind::Pressure, pressure.as_pascal())
    }
}

impl From<PressureDifference> for Value {
    fn from(difference: PressureDifference) -> Self {
        Self::of(Kind::PressureDifference, difference.as_pascal())
    }
}

impl From<Temperature> for Value {
    fn from(temperature: Temperature) -> Self {
        Self::of(Kind::Temperature, temperature.as_kelvin())
    }
}

impl From<TemperatureDifference> for Value {
    fn from(difference: TemperatureDifference) -> Self {
        Self::of(Kind::TemperatureDifference, difference.as_kelvin())
    }
}
