//! Standing values and the links that quote them. `value-not-read`: a standing value is no figure of its quantity;
//! `value-disagrees`: the words of a `value:` link are not the standing value.
//!
//! A limit that is written in ten places and changed in nine misleads in the tenth. So it stands in one place, and every
//! quotation is held against it.
//!
//! Trips: `[8 to 20 °F](value:superheat-range)` where the value is `8 to 18 °F`. Mended: `[8 to 18 °F](value:superheat-range)`.

use super::given;
use crate::handbook::{Finding, Handbook, Scheme};
use crate::quantity::{Kind, Pressure, ReadingError, Written, read, read_range};
use std::collections::BTreeMap;

/// Name of the quantity that is none: the value is words.
const WORDS: &str = "words";

/// A figure, a range of figures, or words.
#[derive(Clone, Debug, PartialEq)]
pub enum ValueFigure {
    /// One figure.
    One(Written),
    /// From the first to the second.
    Range(Written, Written),
    /// Words, like the place of a bulb on a clock face.
    Words(String),
}

/// `text` as one figure of `kind`, or as a range `a to b unit`.
pub(super) fn figure(text: &str, kind: Kind) -> Result<ValueFigure, ReadingError> {
    if text.contains(" to ") {
        let range = read_range(text, Some(kind))?;
        Ok(ValueFigure::Range(range.from, range.to))
    } else {
        read(text, Some(kind)).map(ValueFigure::One)
    }
}

/// Reads every standing value.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) -> BTreeMap<String, ValueFigure> {
    let mut values = BTreeMap::new();
    for (name, value) in &book.values {
        if value.quantity.value == WORDS {
            values.insert(name.clone(), ValueFigure::Words(value.value.value.clone()));
            continue;
        }
        let Some(kind) = Kind::from_name(&value.quantity.value) else {
            findings.push(given::kind_not_known(&value.quantity.value, value.quantity.at));
            continue;
        };
        match figure(&value.value.value, kind) {
            Ok(read) => {
                values.insert(name.clone(), read);
            }
            Err(error) => findings.push(
                Finding::error("value-not-read", value.value.at, error.to_string())
                    .seen(value.quantity.at, format!("it is to be a {}", kind.name())),
            ),
        }
    }
    values
}

/// Holds every `value:` link against its standing value.
pub(super) fn examine_links(
    book: &Handbook,
    values: &BTreeMap<String, ValueFigure>,
    air: Pressure,
    findings: &mut Vec<Finding>,
) {
    for link in book.links().filter(|link| link.scheme == Scheme::Value) {
        // A value that is not there is a dead link; one that could not be read has been told.
        let (Some(standing), Some(value)) = (values.get(&link.to.value), book.values.get(&link.to.value)) else {
            continue;
        };
        let text = link.text.value.trim();
        let agrees = match standing {
            ValueFigure::Words(words) => words.trim().eq_ignore_ascii_case(text),
            ValueFigure::One(one) => match figure(text, one.unit.kind) {
                Ok(ValueFigure::One(quoted)) => same(&quoted, one, air),
                _ => false,
            },
            ValueFigure::Range(from, to) => match figure(text, from.unit.kind) {
                Ok(ValueFigure::Range(a, b)) => same(&a, from, air) && same(&b, to, air),
                _ => false,
            },
        };
        if !agrees {
            findings.push(
                Finding::error(
                    "value-disagrees",
                    link.text.at,
                    format!("`{text}` is not the standing value `{}`", link.to.value),
                )
                .label("quoted here")
                .seen(value.value.at, "stands here")
                .instead(format!("write `{}`", value.value.value)),
            );
        }
    }
}

/// Whether `quoted` is `standing` to the last digit quoted, in whichever unit.
fn same(quoted: &Written, standing: &Written, air: Pressure) -> bool {
    match (quoted.value(air), standing.value(air)) {
        (Ok(a), Ok(b)) => {
            let tolerance = if quoted.unit == standing.unit { 0.0 } else { quoted.last_digit().si };
            (a.si - b.si).abs() <= tolerance + b.si.abs() * 1e-12
        }
        _ => false,
    }
}
