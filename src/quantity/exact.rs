//! What the factors of the units are multiplied out from: exact by definition, in SI.
//!
//! The international foot and pound (1959), standard gravity (1901), the international table Btu (1956), the US gallon
//! of 231 cubic inches. Tested beside the units that use them.

pub(super) use super::pressure::{INCH_OF_MERCURY, MICRON, PSI};
pub(super) use super::temperature::{FAHRENHEIT_ZERO, ICE_POINT};

pub(super) const FOOT: f64 = 0.3048;
pub(super) const INCH: f64 = FOOT / 12.0;
pub(super) const POUND: f64 = 0.453_592_37;
pub(super) const GRAIN: f64 = POUND / 7000.0;
pub(super) const GRAVITY: f64 = 9.806_65;
pub(super) const MINUTE: f64 = 60.0;
pub(super) const HOUR: f64 = 3600.0;
pub(super) const DAY: f64 = 86_400.0;
pub(super) const GALLON: f64 = 231.0 * INCH * INCH * INCH;
pub(super) const LITER: f64 = 1e-3;
/// One international table Btu in joules: 4186.8 J/(kg·K) for a pound and a degree Fahrenheit.
pub(super) const BTU: f64 = 4186.8 * POUND / 1.8;
/// One ton of refrigeration in watts: 12,000 Btu an hour.
pub(super) const TON: f64 = 12_000.0 * BTU / HOUR;
/// One mechanical horsepower in watts: 550 foot pounds-force a second.
pub(super) const HORSEPOWER: f64 = 550.0 * FOOT * POUND * GRAVITY;
pub(super) const FAHRENHEIT_DEGREE: f64 = 1.0 / 1.8;
pub(super) const CFM: f64 = FOOT * FOOT * FOOT / MINUTE;
/// One conventional inch of water in pascals: 1000 kg/m³ under standard gravity.
pub(super) const INCH_OF_WATER: f64 = 1000.0 * GRAVITY * INCH;
/// Enthalpy of dry air at 0 °F, from which US tables count, on the scale that counts from 0 °C: 1.006 kJ/(kg·K).
pub(super) const DRY_AIR_AT_FAHRENHEIT_ZERO: f64 = 1006.0 * (FAHRENHEIT_ZERO - ICE_POINT);
