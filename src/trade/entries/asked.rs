//! Inputs that several entries ask for, worded alike wherever they occur.

use crate::quantity::{Kind, unit};
use crate::trade::expression::{Expr, quantity};
use crate::trade::input::{Input, given};

/// The dew temperature in the evaporator.
pub(super) fn evaporating_temperature() -> Input {
    given("evaporating temperature", "T_e", Kind::Temperature)
        .about("dew temperature at the pressure of the evaporator's outlet")
}

/// The bubble temperature in the condenser.
pub(super) fn condensing_temperature() -> Input {
    given("condensing temperature", "T_c", Kind::Temperature)
        .about("bubble temperature at the pressure of the condenser's outlet")
}

/// The liquid in front of the valve.
pub(super) fn liquid_temperature() -> Input {
    given("liquid temperature", "T_l", Kind::Temperature).about("of the liquid in front of the valve")
}

/// Superheat where the suction vapor is looked at.
pub(super) fn superheat() -> Input {
    given("superheat", "SH", Kind::TemperatureDifference).between(0.0, 100.0, &unit::FAHRENHEIT_OF_DIFFERENCE)
}

/// Cold made.
pub(super) fn capacity() -> Input {
    given("capacity", "Q", Kind::Power).between(0.001, 10_000.0, &unit::TON_OF_REFRIGERATION)
}

/// Inside diameter of a tube.
pub(super) fn tube_bore() -> Input {
    given("tube bore", "d", Kind::Length)
        .about("inside diameter")
        .between(0.02, 12.0, &unit::INCH)
        .shown((&unit::INCH, 3), (&unit::MILLIMETER, 2))
}

/// How much higher the valve stands than the condenser.
pub(super) fn lift() -> Input {
    given("lift", "H", Kind::Length)
        .about("how much higher the valve stands than the condenser; negative where it stands lower")
        .between(-300.0, 300.0, &unit::FOOT)
        .default_to(0.0, 0, &unit::FOOT)
}

/// A loss of pressure, nothing where it is not known.
pub(super) fn loss(name: &'static str, symbol: &'static str) -> Input {
    given(name, symbol, Kind::PressureDifference).between(0.0, 500.0, &unit::PSI).default_to(0.0, 0, &unit::PSI)
}

/// Standard gravity.
pub(super) fn gravity() -> Expr {
    crate::trade::expression::constant("g", 9.806_65, 5, &unit::METER_PER_SECOND_SQUARED, "standard gravity")
}

/// No difference of temperatures, for comparisons.
pub(super) fn no_degrees() -> Expr {
    quantity(0.0, 0, &unit::FAHRENHEIT_OF_DIFFERENCE, "")
}

/// No difference of pressures, for comparisons.
pub(super) fn no_pressure() -> Expr {
    quantity(0.0, 0, &unit::PSI, "")
}
