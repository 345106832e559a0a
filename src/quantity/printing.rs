//! Quantities as they are set: true minus, thousands grouped, the unit held to its number.
//!
//! Takes values, gives text. What is printed here can be read back by [`super::read`].

use super::pressure::Pressure;
use super::unit::Unit;
use super::value::Value;

/// The minus sign of typography, U+2212.
pub(super) const MINUS: char = '\u{2212}';
/// What holds a unit to its number, U+00A0.
pub(super) const NO_BREAK_SPACE: char = '\u{a0}';

/// `value` in `unit` to `decimals` places, as `−10.5 °F` or `12,000 Btu/h`: a true minus, a no-break space before the
/// unit, thousands grouped by commas from 10,000. A gauge reads against `air`.
///
/// `unit` must be of the kind of `value`; the result means nothing otherwise.
/// ```
/// # use coldpress::quantity::{print, unit, Pressure};
/// let air = Pressure::STANDARD_ATMOSPHERE;
/// assert_eq!(print(Pressure::from_psig(118.0, air).into(), &unit::BARG, 2, air), "8.14\u{a0}barg");
/// ```
pub fn print(value: Value, unit: &Unit, decimals: u8, air: Pressure) -> String {
    debug_assert!(unit.kind == value.kind, "a {} printed in {}", value.kind, unit.symbol);
    with_unit(&number_text(unit.from_si(value.si, air), decimals), unit)
}

/// A number to `decimals` places with a true minus and grouped thousands: `−1,234.5` is written so only from 10,000
/// (`−1234.5`, `12,345`). Nothing is printed as minus zero.
pub fn number_text(number: f64, decimals: u8) -> String {
    let digits = format!("{:.*}", usize::from(decimals), number.abs());
    let negative = number < 0.0 && digits.bytes().any(|byte| (b'1'..=b'9').contains(&byte));
    let (whole, rest) = match digits.find('.') {
        Some(point) => digits.split_at(point),
        None => (digits.as_str(), ""),
    };
    let mut text = String::new();
    if negative {
        text.push(MINUS);
    }
    let grouped = whole.len() >= 5 && whole.bytes().all(|byte| byte.is_ascii_digit());
    for (place, digit) in whole.chars().enumerate() {
        if grouped && place > 0 && (whole.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text.push_str(rest);
    text
}

/// A number's text and its unit, held together; a pure number alone.
pub(super) fn with_unit(number: &str, unit: &Unit) -> String {
    if unit.symbol.is_empty() { number.to_owned() } else { format!("{number}{NO_BREAK_SPACE}{}", unit.symbol) }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Kind, System, read};
    use proptest::prelude::*;

    #[test]
    fn numbers_are_set_as_type_is_set() {
        assert_eq!(number_text(-10.04, 1), "−10.0");
        assert_eq!(number_text(-0.04, 1), "0.0");
        assert_eq!(number_text(9999.4, 0), "9999");
        assert_eq!(number_text(9999.6, 0), "10,000");
        assert_eq!(number_text(1_234_567.891, 2), "1,234,567.89");
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back_as_the_same_value(
            kind in proptest::sample::select(Kind::ALL),
            size in 0.0..1.0e6f64,
            decimals in 0..6u8,
            air_psia in 8.0..15.0f64,
            us in any::<bool>(),
        ) {
            let air = Pressure::from_psia(air_psia);
            let unit = kind.unit_in(if us { System::Us } else { System::Si });
            let value = Value::from_unit(size, unit, air);
            let text = print(value, unit, decimals, air);
            let written = read(&text, Some(kind)).map_err(|error| TestCaseError::fail(error.to_string()))?;
            prop_assert_eq!(written.unit, unit);
            prop_assert_eq!(written.decimals, decimals);
            let back = written.value(air).map_err(|error| TestCaseError::fail(error.to_string()))?;
            prop_assert!((back.si - value.si).abs() <= written.last_digit().si * (1.0 + 1e-6) + value.si.abs() * 1e-12, "{} gave {}", text, back.si);
        }
    }
}
