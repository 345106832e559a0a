//! Reading what people type: `118psig`, `−10 F`, `1,200 cfm`, `1-1/8 in`, `8 to 18 °F`.
//!
//! Takes text and the kind that is wanted, if that is known; gives a [`Written`]. Guesses nothing that changes the
//! answer: where gauge or absolute is left open, or a comma could be a decimal point, it says how to write it.

use super::kind::Kind;
use super::number::take_number;
use super::printing::NO_BREAK_SPACE;
use super::reading_error::ReadingError;
use super::spelled_unit::find_unit;
use super::unit::{self, Reference};
use super::written::{Written, WrittenRange};

/// Reads one figure of `kind`, or, where that is not known, of whatever kind its unit belongs to (`°F` is then a
/// temperature, `psi` a difference, a bare number a ratio).
///
/// Understood: a sign (`-`, `−`), thousands grouped by commas, a decimal point, fractions for lengths; the unit with
/// or without a space, in any letter case that leaves no doubt. `kPa`, `MPa` and `Pa` without a mark are absolute
/// where a pressure is wanted, as in tables of properties.
/// # Errors
/// A [`ReadingError`] that says how it would be written.
/// ```
/// # use coldpress::quantity::{read, Kind, Pressure};
/// let air = Pressure::STANDARD_ATMOSPHERE;
/// let written = read("118psig", Some(Kind::Pressure)).unwrap();
/// assert_eq!(written.value(air).unwrap().pressure().unwrap().as_psig(air).round(), 118.0);
/// let doubtful = read("118 psi", Some(Kind::Pressure)).unwrap_err();
/// assert_eq!(doubtful.to_string(), "`118 psi` does not say from where it is counted: write `118 psig` or `118 psia`");
/// ```
pub fn read(text: &str, kind: Option<Kind>) -> Result<Written, ReadingError> {
    let typed = tidy(text);
    if typed.is_empty() {
        return Err(ReadingError::Nothing { wanted: kind });
    }
    let number = take_number(&typed, kind)?;
    let rest = typed[number.length..].trim();
    let number_text = typed[..number.length].trim().to_owned();
    let (unit, spelling) = find_unit(rest, kind, &typed, &number_text)?;
    if number.fraction.is_some() && unit.kind != Kind::Length {
        let instead = format!("{} {rest}", number.value).trim_end().to_owned();
        return Err(ReadingError::Fraction { typed, instead });
    }
    let written =
        Written { number: number.value, decimals: number.decimals, fraction: number.fraction, unit, spelling };
    if unit.reference == Reference::Fixed {
        // What is impossible in any air is said here, where the text still is; a gauge must wait for its air.
        written.value(unit::ANY_AIR)?;
    }
    Ok(written)
}

/// Reads `8 to 18 °F`, `8 °F to 18 °F` or `8–18 °F`.
///
/// # Errors
/// As [`read`]; [`ReadingError::NotARange`], [`ReadingError::Downward`].
pub fn read_range(text: &str, kind: Option<Kind>) -> Result<WrittenRange, ReadingError> {
    let typed = tidy(text);
    let ends = typed.split_once(" to ").or_else(|| {
        typed.match_indices('–').find(|(at, _)| *at > 0).map(|(at, dash)| (&typed[..at], &typed[at + dash.len()..]))
    });
    let Some((low, high)) = ends else {
        return Err(ReadingError::NotARange { typed });
    };
    let high = read(high, kind)?;
    let low = low.trim();
    let bare = take_number(low, kind).is_ok_and(|number| number.length == low.len());
    let low = if bare {
        read(&format!("{low} {}", high.spelling), Some(high.unit.kind))?
    } else {
        read(low, Some(high.unit.kind))?
    };
    if low.unit.to_si(low.number, unit::ANY_AIR) > high.unit.to_si(high.number, unit::ANY_AIR) {
        let instead = WrittenRange { from: high, to: low }.to_string().replace(NO_BREAK_SPACE, " ");
        return Err(ReadingError::Downward { typed, instead });
    }
    Ok(WrittenRange { from: low, to: high })
}

/// Every kind of space a plain one, none at the ends.
fn tidy(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Pressure;

    #[test]
    fn what_people_type_is_understood() {
        let table: &[(&str, Option<Kind>, f64, u8, &str)] = &[
            ("118psig", Some(Kind::Pressure), 118.0, 0, "psig"),
            ("118 psig", Some(Kind::Pressure), 118.0, 0, "psig"),
            ("118 PSIG", Some(Kind::Pressure), 118.0, 0, "psig"),
            ("118.50 psi gauge", Some(Kind::Pressure), 118.5, 2, "psig"),
            ("-10 °F", Some(Kind::Temperature), -10.0, 0, "°F"),
            ("−10F", Some(Kind::Temperature), -10.0, 0, "°F"),
            ("- 10 F", Some(Kind::Temperature), -10.0, 0, "°F"),
            ("52 degF", Some(Kind::Temperature), 52.0, 0, "°F"),
            ("11 °C", Some(Kind::Temperature), 11.0, 0, "°C"),
            ("298.15 K", Some(Kind::Temperature), 298.15, 2, "K"),
            ("15 inHg vac", Some(Kind::Pressure), 15.0, 0, "inHg vac"),
            ("15 inHgv", Some(Kind::Pressure), 15.0, 0, "inHg vac"),
            ("15 in. Hg vac.", Some(Kind::Pressure), 15.0, 0, "inHg vac"),
            ("500 microns", Some(Kind::Pressure), 500.0, 0, "microns"),
            ("500 µm Hg", Some(Kind::Pressure), 500.0, 0, "microns"),
            ("12 bar(g)", Some(Kind::Pressure), 12.0, 0, "barg"),
            ("814 kPa", Some(Kind::Pressure), 814.0, 0, "kPa"),
            ("814 kPa", Some(Kind::PressureDifference), 814.0, 0, "kPa"),
            ("2 bar", Some(Kind::PressureDifference), 2.0, 0, "bar"),
            ("0.5 in. w.c.", Some(Kind::PressureDifference), 0.5, 1, "inH₂O"),
            ("8 F", Some(Kind::TemperatureDifference), 8.0, 0, "°F"),
            ("8 dF", None, 8.0, 0, "°F"),
            ("4.5 K", Some(Kind::TemperatureDifference), 4.5, 1, "K"),
            ("1,200 cfm", Some(Kind::VolumeFlow), 1200.0, 0, "cfm"),
            ("1,200.5 cfm", Some(Kind::VolumeFlow), 1200.5, 1, "cfm"),
            ("760,000 micron", Some(Kind::Pressure), 760_000.0, 0, "microns"),
            ("400 cfm/ton", Some(Kind::FlowPerCapacity), 400.0, 0, "cfm/ton"),
            ("400 cfm per ton", None, 400.0, 0, "cfm/ton"),
            ("7/8 in", Some(Kind::Length), 0.875, 0, "in"),
            ("7/8\"", Some(Kind::Length), 0.875, 0, "in"),
            ("1-1/8 in", Some(Kind::Length), 1.125, 0, "in"),
            ("1 1/8 in.", None, 1.125, 0, "in"),
            (".5 psi", Some(Kind::PressureDifference), 0.5, 1, "psi"),
            ("0.8", Some(Kind::Ratio), 0.8, 1, ""),
            ("80 %", Some(Kind::Ratio), 80.0, 0, "%"),
            ("40.5", None, 40.5, 1, ""),
            ("36,000 btuh", Some(Kind::Power), 36_000.0, 0, "Btu/h"),
            ("12.6 uPa.s", Some(Kind::Viscosity), 12.6, 1, "µPa·s"),
            ("3.2 lb/min/ton", None, 3.2, 1, "lb/(min·ton)"),
            ("118\u{a0}psig", Some(Kind::Pressure), 118.0, 0, "psig"),
        ];
        for (text, kind, number, decimals, symbol) in table {
            let written = read(text, *kind).unwrap_or_else(|error| panic!("`{text}`: {error}"));
            assert_eq!(
                (written.number, written.decimals, written.unit.symbol),
                (*number, *decimals, *symbol),
                "`{text}`"
            );
            if let Some(kind) = kind {
                assert_eq!(written.unit.kind, *kind, "`{text}`");
            }
        }
    }

    #[test]
    fn what_is_refused_says_how_to_write_it() {
        let table: &[(&str, Option<Kind>, &str)] = &[
            ("", Some(Kind::Pressure), "nothing is written here: write a number and its unit, as `118 psig`"),
            (
                "psig",
                Some(Kind::Pressure),
                "`psig` does not begin with a number: write a number and its unit, as `118 psig`",
            ),
            (
                "--5 psi",
                Some(Kind::PressureDifference),
                "`--5 psi` is not one number: write a number and its unit, as `4.5 psi`",
            ),
            (
                "118",
                Some(Kind::Pressure),
                "`118` has no unit: a pressure is written with one, as `118 psig` or `118 psia`",
            ),
            (
                "52",
                Some(Kind::Temperature),
                "`52` has no unit: a temperature is written with one, as `52 °F` or `52 °C`",
            ),
            ("10", Some(Kind::Time), "`10` has no unit: a time is written with one, as `10 min`"),
            (
                "4,5 psi",
                Some(Kind::PressureDifference),
                "`4,5 psi` has a comma that does not group thousands: a decimal is written with a point, as `4.5 psi`",
            ),
            (
                "1,2000 cfm",
                Some(Kind::VolumeFlow),
                "`1,2000 cfm` has a comma that does not group thousands: a decimal is written with a point, as `1.2000 cfm`",
            ),
            (
                "1.2.3 psi",
                Some(Kind::PressureDifference),
                "`1.2.3 psi` is not one number: write a number and its unit, as `4.5 psi`",
            ),
            (
                "118 psi",
                Some(Kind::Pressure),
                "`118 psi` does not say from where it is counted: write `118 psig` or `118 psia`",
            ),
            (
                "12 bar",
                Some(Kind::Pressure),
                "`12 bar` does not say from where it is counted: write `12 barg` or `12 bara`",
            ),
            (
                "15 inHg",
                Some(Kind::Pressure),
                "`15 inHg` does not say from where it is counted: write `15 inHg vac` or `15 inHg abs`",
            ),
            ("118 psgi", Some(Kind::Pressure), "`118 psgi`: there is no unit `psgi`; the nearest is `psig`"),
            (
                "118 furlongs",
                Some(Kind::Pressure),
                "`118 furlongs`: there is no unit `furlongs`; a pressure is written as `118 psig`",
            ),
            ("3 mPa", Some(Kind::Pressure), "`3 mPa`: there is no unit `mPa`; the nearest is `MPa`"),
            (
                "52 °F",
                Some(Kind::Pressure),
                "`52 °F` is a temperature, and a pressure is wanted here: write it as `118 psig`",
            ),
            (
                "118 psig",
                Some(Kind::PressureDifference),
                "`118 psig` is a pressure, and a pressure difference is wanted here: write it as `4.5 psi`",
            ),
            (
                "52 dF",
                Some(Kind::Temperature),
                "`52 dF` is a temperature difference, and a temperature is wanted here: write it as `52 °F`",
            ),
            ("-500 °F", Some(Kind::Temperature), "`−500\u{a0}°F` is below absolute zero, -459.67 °F"),
            ("-5 psia", Some(Kind::Pressure), "`−5\u{a0}psia` is below a perfect vacuum"),
            ("7/8 lb", Some(Kind::Mass), "`7/8 lb` is a fraction, and only lengths are written so: write `0.875 lb`"),
            ("7/0 in", Some(Kind::Length), "`7/0 in` is not one number: write a number and its unit, as `30 ft`"),
        ];
        for (text, kind, says) in table {
            match read(text, *kind) {
                Ok(written) => panic!("`{text}` was read as {written}"),
                Err(error) => assert_eq!(error.to_string(), *says),
            }
        }
    }

    #[test]
    fn a_vacuum_deeper_than_the_air_is_refused_once_the_air_is_known() {
        let air = Pressure::from_psia(12.2);
        let written = read("26 inHg vac", Some(Kind::Pressure)).unwrap();
        assert_eq!(
            written.value(air).unwrap_err().to_string(),
            "`26\u{a0}inHg vac` is below a perfect vacuum: the air itself is only 24.84\u{a0}inHg abs there"
        );
        assert!(written.value(Pressure::STANDARD_ATMOSPHERE).is_ok());
        assert!(read("-14 psig", Some(Kind::Pressure)).unwrap().value(air).is_err());
    }

    #[test]
    fn ranges_are_read_with_one_unit_or_two() {
        let read = |text: &str| read_range(text, Some(Kind::TemperatureDifference)).map(|range| range.to_string());
        assert_eq!(read("8 to 18 °F").as_deref(), Ok("8 to 18\u{a0}°F"));
        assert_eq!(read("8 °F to 18 °F").as_deref(), Ok("8 to 18\u{a0}°F"));
        assert_eq!(read("8–18 dF").as_deref(), Ok("8 to 18\u{a0}°F"));
        assert_eq!(read_range("-10 to -5 °F", Some(Kind::Temperature)).unwrap().to_string(), "−10 to −5\u{a0}°F");
        assert_eq!(
            read("18 to 8 °F").unwrap_err().to_string(),
            "`18 to 8 °F` runs downward: write the lower end first, as `8 to 18 °F`"
        );
        assert_eq!(
            read("8 °F").unwrap_err().to_string(),
            "`8 °F` is not a range: write the two ends with `to` between, as `8 to 18 °F`"
        );
    }
}
