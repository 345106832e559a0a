//! How hard the air presses where the handbook is used, from the altitude, and the altitude from a barometer.
//!
//! Weather moves the true pressure by a few per cent; where a barometer is at hand its own reading (not reduced to sea
//! level) is better than this.

use super::kind::{Kind, System};
use super::pressure::Pressure;
use super::printing::print;
use super::unit;
use super::value::Value;

/// Temperature of the standard atmosphere at sea level, in kelvins.
const SEA_LEVEL_K: f64 = 288.15;
/// How fast the standard atmosphere cools with altitude, in kelvins per meter.
const LAPSE_K_M: f64 = 0.006_5;
/// Specific gas constant of the air of ISO 2533, in J/(kg·K).
const AIR_J_KG_K: f64 = 287.052_87;
const STANDARD_GRAVITY: f64 = 9.806_65;
/// g/(R L), the exponent of the barometric formula, 5.255 88.
const EXPONENT: f64 = STANDARD_GRAVITY / (AIR_J_KG_K * LAPSE_K_M);
const LOWEST_M: f64 = -5_000.0;
const HIGHEST_M: f64 = 11_000.0;

/// Why no air pressure can be told from an altitude, or no altitude from a pressure.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum AtmosphereError {
    /// Outside the layer in which the formula holds.
    #[error(
        "an altitude of {given} is outside the standard atmosphere's lowest layer, -5,000 m to 11,000 m (-16,404 ft to 36,089 ft)"
    )]
    AltitudeOutsideRange {
        /// The altitude, as printed.
        given: String,
    },
    /// A pressure that the layer does not hold.
    #[error("air at {given} is not found between -5,000 m and 11,000 m of the standard atmosphere")]
    PressureOutsideRange {
        /// The pressure, as printed.
        given: String,
    },
    /// Not a length.
    #[error("an altitude is a length, and this is {}", .given.one())]
    NotALength {
        /// The kind that was given.
        given: Kind,
    },
}

/// Pressure of the standard atmosphere at `altitude` above mean sea level.
///
/// `altitude` is a length from -5,000 m to 11,000 m.
/// # Errors
/// [`AtmosphereError::AltitudeOutsideRange`], [`AtmosphereError::NotALength`].
/// # Source
/// ISO 2533:1975, clause 2, equations for the layer from -2,000 m to 11,000 m of geopotential altitude (and, by its
/// addendum 2, from -5,000 m); the same figures as the US Standard Atmosphere, 1976.
/// ```
/// # use coldpress::quantity::{air_at, Kind, Value};
/// assert_eq!(format!("{:.3}", air_at(Value::of(Kind::Length, 1000.0)).unwrap().as_kilopascal()), "89.875");
/// assert!(air_at(Value::of(Kind::Length, 12_000.0)).is_err());
/// ```
pub fn air_at(altitude: Value) -> Result<Pressure, AtmosphereError> {
    if altitude.kind != Kind::Length {
        return Err(AtmosphereError::NotALength { given: altitude.kind });
    }
    let altitude_m = altitude.si;
    if !(LOWEST_M..=HIGHEST_M).contains(&altitude_m) {
        let unit = Kind::Length.unit_in(System::Si);
        return Err(AtmosphereError::AltitudeOutsideRange {
            given: print(altitude, unit, 0, Pressure::STANDARD_ATMOSPHERE),
        });
    }
    let ratio = (1.0 - LAPSE_K_M * altitude_m / SEA_LEVEL_K).powf(EXPONENT);
    Ok(Pressure::from_pascal(Pressure::STANDARD_ATMOSPHERE.as_pascal() * ratio))
}

/// The altitude, a length, at which the standard atmosphere presses as hard as `air`: the inverse of [`air_at`].
///
/// # Errors
/// [`AtmosphereError::PressureOutsideRange`] outside 22.6 kPa to 177.8 kPa.
/// # Source
/// As [`air_at`].
pub fn altitude_where(air: Pressure) -> Result<Value, AtmosphereError> {
    let ratio = air.as_pascal() / Pressure::STANDARD_ATMOSPHERE.as_pascal();
    let altitude_m = SEA_LEVEL_K / LAPSE_K_M * (1.0 - ratio.powf(1.0 / EXPONENT));
    // A hair's breadth for the ends of the range, which come back a rounding error outside.
    if (LOWEST_M - 1e-6..=HIGHEST_M + 1e-6).contains(&altitude_m) {
        Ok(Value::of(Kind::Length, altitude_m))
    } else {
        Err(AtmosphereError::PressureOutsideRange { given: print(air.into(), &unit::KILOPASCAL, 2, air) })
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pressures_are_those_of_the_printed_tables() {
        // US Standard Atmosphere 1976, table I, geopotential altitude: mbar to the digits printed there.
        for (altitude_m, printed) in [(0.0, "1013.25"), (5_000.0, "540.20"), (11_000.0, "226.32")] {
            let air = air_at(Value::of(Kind::Length, altitude_m)).unwrap();
            assert_eq!(format!("{:.2}", air.as_pascal() / 100.0), printed, "at {altitude_m} m");
        }
    }

    #[test]
    fn an_altitude_comes_back_from_its_own_pressure() {
        for altitude_m in [-5_000.0, -300.0, 0.0, 271.272, 1_524.0, 11_000.0] {
            let air = air_at(Value::of(Kind::Length, altitude_m)).unwrap();
            assert!((altitude_where(air).unwrap().si - altitude_m).abs() < 1e-6, "at {altitude_m} m");
        }
    }

    #[test]
    fn outside_the_layer_is_an_error_that_says_the_range() {
        let error = air_at(Value::of(Kind::Length, 12_000.0)).unwrap_err();
        assert_eq!(
            error.to_string(),
            "an altitude of 12,000\u{a0}m is outside the standard atmosphere's lowest layer, -5,000 m to 11,000 m (-16,404 ft to 36,089 ft)"
        );
        assert!(altitude_where(Pressure::from_kilopascal(10.0)).is_err());
        assert!(air_at(Value::of(Kind::Mass, 1.0)).is_err());
    }
}
