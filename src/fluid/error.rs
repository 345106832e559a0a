//! What can't be answered, and why: written for the person who asked.

use crate::quantity::{Pressure, Temperature};

/// A question about a refrigerant that has no answer here.
///
/// The texts name the refrigerant, what was asked, and the range within which there is an answer, in both unit systems.
/// There is never a NaN, an infinity or an extrapolated figure instead.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FluidError {
    /// No equation of state under this designation.
    #[error("no equation of state is known for `{designation}`; the nearest there are: {nearest}")]
    UnknownEquation {
        /// As it was asked for.
        designation: String,
        /// The designations most like it, joined for reading.
        nearest: String,
    },
    /// A composition that can't be one.
    #[error("`{designation}` can't be mixed: {says}")]
    Composition {
        /// Of the blend.
        designation: String,
        /// Which part is wrong, and what would be right.
        says: String,
    },
    /// A temperature outside of what can be answered.
    #[error(
        "{refrigerant}: no {sought} at {}; it is known from {} to {} ({ends})",
        temperature(*.asked), temperature(*.low), temperature(*.high)
    )]
    TemperatureOutside {
        /// Designation.
        refrigerant: String,
        /// The quantity that was asked for.
        sought: &'static str,
        /// The temperature it was asked at.
        asked: Temperature,
        /// The lowest there is an answer for.
        low: Temperature,
        /// The highest there is an answer for.
        high: Temperature,
        /// What the two ends are, in words.
        ends: &'static str,
    },
    /// A pressure outside of what can be answered.
    #[error(
        "{refrigerant}: no {sought} at {}; it is known from {} to {} ({ends})",
        pressure(*.asked), pressure(*.low), pressure(*.high)
    )]
    PressureOutside {
        /// Designation.
        refrigerant: String,
        /// The quantity that was asked for.
        sought: &'static str,
        /// The pressure it was asked at.
        asked: Pressure,
        /// The lowest there is an answer for.
        low: Pressure,
        /// The highest there is an answer for.
        high: Pressure,
        /// What the two ends are, in words.
        ends: &'static str,
    },
    /// Both phases stand side by side at this pressure and temperature, so one alone can't be named.
    #[error(
        "{refrigerant} at {} and {} is liquid and vapor at once (bubble pressure {}, dew pressure {}), \
         so it is no single phase; its enthalpy or the share of vapor must be known too",
        self::pressure(*.pressure), self::temperature(*.temperature), self::pressure(*.bubble), self::pressure(*.dew)
    )]
    TwoPhase {
        /// Designation.
        refrigerant: String,
        /// As asked.
        pressure: Pressure,
        /// As asked.
        temperature: Temperature,
        /// Bubble pressure at that temperature.
        bubble: Pressure,
        /// Dew pressure at that temperature.
        dew: Pressure,
    },
    /// An input that is no number, or a pressure or temperature at or below absolute zero.
    #[error("{refrigerant}: {quantity} must be a number above absolute zero, not {value}")]
    NotANumber {
        /// Designation.
        refrigerant: String,
        /// Which input.
        quantity: &'static str,
        /// As it came.
        value: f64,
    },
    /// Too near the critical point of the refrigerant for a trustworthy answer.
    #[error(
        "{refrigerant}: no {sought} {asked}: too near the critical point, {} and {}",
        self::temperature(*.temperature), self::pressure(*.pressure)
    )]
    NearCritical {
        /// Designation.
        refrigerant: String,
        /// The quantity that was asked for.
        sought: &'static str,
        /// Where it was asked for, in words and both unit systems.
        asked: String,
        /// The critical temperature.
        temperature: Temperature,
        /// The critical pressure.
        pressure: Pressure,
    },
    /// An enthalpy or entropy that the refrigerant has at no temperature its equations hold for.
    #[error("{refrigerant} has {asked} at no temperature it is known for; at {} it goes from {low} to {high}", self::pressure(*.pressure))]
    CaloricOutside {
        /// Designation.
        refrigerant: String,
        /// Name and value in both unit systems.
        asked: String,
        /// The pressure it was asked at.
        pressure: Pressure,
        /// The lowest at that pressure, in both unit systems.
        low: String,
        /// The highest at that pressure, in both unit systems.
        high: String,
    },
    /// A share of vapor that is none.
    #[error("{refrigerant}: a quality of {value} can't be; it is the share of vapor by mass, from 0 to 1")]
    QualityOutside {
        /// Designation.
        refrigerant: String,
        /// As it came.
        value: f64,
    },
    /// Nobody has published a correlation of this for the refrigerant that is kept here.
    #[error("{refrigerant}: no correlation of {sought} is kept for it; there is one for {known}, pure")]
    NoCorrelation {
        /// Designation.
        refrigerant: String,
        /// The quantity that was asked for.
        sought: &'static str,
        /// The pure refrigerants that have one, joined for reading.
        known: String,
    },
    /// The refrigerant is known by points typed from a table, which don't give this.
    #[error("{refrigerant}: {sought} can't be had: it is known by typed points of pressure and temperature only")]
    NotFromPoints {
        /// Designation.
        refrigerant: String,
        /// The quantity that was asked for.
        sought: &'static str,
    },
    /// Typed points that make no curve.
    #[error("{refrigerant}: the typed points can't be used: {says}")]
    Points {
        /// Designation.
        refrigerant: String,
        /// Which row is wrong, and what would be right.
        says: String,
    },
    /// The equations were set up and their solution was not found. It is said rather than guessed round.
    #[error("{refrigerant}: {sought} could not be found {at}")]
    NotFound {
        /// Designation.
        refrigerant: String,
        /// The quantity that was asked for.
        sought: &'static str,
        /// For which inputs, in words.
        at: String,
    },
    /// A data file inside the program is not as it should be.
    #[error("{file}: {says}")]
    Data {
        /// The file, below `src/fluid/`.
        file: String,
        /// What is wrong.
        says: String,
    },
}

impl FluidError {
    /// An unknown designation with those most like it.
    pub(super) fn unknown_equation(designation: &str, known: impl Iterator<Item = &'static str>) -> Self {
        let mut known: Vec<&str> = known.collect();
        let plain = |s: &str| s.to_lowercase().replace('-', "");
        known.sort_by_key(|name| strsim::damerau_levenshtein(&plain(designation), &plain(name)));
        known.truncate(3);
        Self::UnknownEquation { designation: designation.to_owned(), nearest: known.join(", ") }
    }
}

/// A temperature in both unit systems, as `40.0 °F (4.4 °C)`.
pub(super) fn temperature(t: Temperature) -> String {
    format!("{:.1} °F ({:.1} °C)", t.as_fahrenheit(), t.as_celsius())
}

/// A pressure in both unit systems, as `132.7 psia (915.0 kPa)`; four figures where it is small.
pub(super) fn pressure(p: Pressure) -> String {
    let figures = |x: f64| {
        let size = x.abs();
        if size >= 100.0 {
            format!("{x:.1}")
        } else if size >= 1e-3 || size == 0.0 {
            let places = (3 - size.max(1e-3).log10().floor() as i32).max(0) as usize;
            format!("{x:.places$}")
        } else {
            format!("{x:.3e}")
        }
    };
    format!("{} psia ({} kPa)", figures(p.as_psia()), figures(p.as_kilopascal()))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pressures_are_told_in_both_unit_systems() {
        assert_eq!(pressure(Pressure::from_psia(132.7)), "132.7 psia (914.9 kPa)");
        assert_eq!(pressure(Pressure::from_pascal(1234.0)), "0.1790 psia (1.234 kPa)");

        assert_eq!(temperature(Temperature::from_fahrenheit(40.0)), "40.0 °F (4.4 °C)");
    }
}
