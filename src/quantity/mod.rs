//! A type per quantity: pressure, temperature, temperature difference, and what else the trade reads off an instrument.
//!
//! Takes numbers and text, gives quantities and text. Knows no refrigerant and no handbook. One unit inside each type
//! (the SI one), and the unit in the name of every door.

mod pressure;
mod temperature;

pub use pressure::{Pressure, PressureDifference};
pub use temperature::{Temperature, TemperatureDifference};
