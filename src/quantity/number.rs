//! The number at the start of a text: `-10`, `1,200.5`, `1-1/8`.
//!
//! Takes a text whose spaces are tidied; gives the number, how it was written and how much of the text it takes. A comma
//! that could be a decimal point is refused.

use super::kind::Kind;
use super::reading_error::ReadingError;

/// A number as it was written.
pub(super) struct Number {
    pub(super) value: f64,
    pub(super) decimals: u8,
    /// Whole, numerator and denominator, where it is a fraction.
    pub(super) fraction: Option<(u32, u32, u32)>,
    /// Bytes of the text it takes.
    pub(super) length: usize,
}

/// Takes the number off the start of `typed`; errors speak of `wanted`.
pub(super) fn take_number(typed: &str, wanted: Option<Kind>) -> Result<Number, ReadingError> {
    let bad = || ReadingError::BadNumber { typed: typed.to_owned(), wanted };
    let unsigned = typed.trim_start_matches(['-', '−', '–', '+']);
    let signs = typed.len() - unsigned.len();
    let negative = match typed[..signs].chars().count() {
        0 => false,
        1 => !typed.starts_with('+'),
        _ => return Err(bad()),
    };
    let after_space = unsigned.len() - unsigned.trim_start().len();
    let unsigned = unsigned.trim_start();
    let before = signs + after_space;
    if !unsigned.trim_start_matches('.').starts_with(|c: char| c.is_ascii_digit()) {
        return Err(ReadingError::NoNumber { typed: typed.to_owned(), wanted });
    }
    let sign = if negative { -1.0 } else { 1.0 };
    if let Some((fraction, length)) = take_fraction(unsigned) {
        let (whole, numerator, denominator) = fraction;
        if denominator == 0 {
            return Err(bad());
        }
        let value = sign * (f64::from(whole) + f64::from(numerator) / f64::from(denominator));
        return Ok(Number { value, decimals: 0, fraction: Some(fraction), length: before + length });
    }
    let length = unsigned.find(|c: char| !c.is_ascii_digit() && c != '.' && c != ',').unwrap_or(unsigned.len());
    let text = &unsigned[..length];
    let (whole, decimals) = match text.split_once('.') {
        Some((whole, decimals)) => (whole, Some(decimals)),
        None => (text, None),
    };
    if decimals.is_some_and(|digits| digits.is_empty() || digits.contains(['.', ','])) {
        return Err(bad());
    }
    let mut groups = whole.split(',');
    let first = groups.next().unwrap_or_default();
    let grouped = whole.contains(',');
    if grouped && (!(1..=3).contains(&first.len()) || groups.any(|group| group.len() != 3)) {
        let rest = &unsigned[length..];
        let instead = format!("{}{}{rest}", &typed[..before], text.replacen(',', ".", 1));
        return Err(ReadingError::Comma { typed: typed.to_owned(), instead });
    }
    let plain = text.replace(',', "");
    let value: f64 = plain.parse().map_err(|_| bad())?;
    let decimals = u8::try_from(decimals.map_or(0, str::len)).map_err(|_| bad())?;
    Ok(Number { value: sign * value, decimals, fraction: None, length: before + length })
}

/// `7/8`, `1-1/8` or `1 1/8` at the start of `text`: whole, numerator, denominator, and the bytes taken.
fn take_fraction(text: &str) -> Option<((u32, u32, u32), usize)> {
    let digits = |from: usize| text[from..].find(|c: char| !c.is_ascii_digit()).map_or(text.len(), |n| from + n);
    let parse = |from: usize, to: usize| text[from..to].parse::<u32>().ok();
    let first = digits(0);
    let after = text[first..].chars().next()?;
    let (whole, numerator_at) = match after {
        '/' => (0, 0),
        '-' | ' ' => (parse(0, first)?, first + 1),
        _ => return None,
    };
    let slash = digits(numerator_at);
    let denominator_at = slash + 1;
    if slash == numerator_at || !text[slash..].starts_with('/') {
        return None;
    }
    let end = digits(denominator_at);
    Some(((whole, parse(numerator_at, slash)?, parse(denominator_at, end)?), end))
}
