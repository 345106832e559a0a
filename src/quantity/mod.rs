//! A type per quantity: pressure, temperature, temperature difference, and what else the trade reads off an instrument.
//!
//! Takes numbers and text, gives quantities and text. Knows no refrigerant and no handbook. One unit inside each type
//! (the SI one), and the unit in the name of every door. Where the kind of a quantity is known only when the program
//! runs, as it is for what an author types, a [`Value`] carries its [`Kind`] with it.

#![deny(clippy::disallowed_methods)]

mod pressure;
mod temperature;

mod exact;
mod kind;
pub mod unit;

mod value;

mod printing;
mod written;

mod number;
mod reading;
mod reading_error;
mod spelled_unit;
mod spelling;

mod atmosphere;

mod page;

pub use atmosphere::{AtmosphereError, air_at, altitude_where};
pub use kind::{Dimension, Kind, Scale, System};
pub use page::page_script;
pub use pressure::{Pressure, PressureDifference};
pub use printing::{number_text, print};
pub use reading::{read, read_range};
pub use reading_error::ReadingError;
pub use spelling::{nearest, plain_words};
pub use temperature::{Temperature, TemperatureDifference};
pub use unit::{Reference, Unit};
pub use value::Value;
pub use written::{Written, WrittenRange};
