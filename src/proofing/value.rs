//! Standing values and the links that quote them. `value-not-read`: a standing value is no figure of its quantity;
//! `value-disagrees`: the words of a `value:` link are not the standing value.
//!
//! A limit that is written in ten places and changed in nine misleads in the tenth. So it stands in one place, and every
//! quotation is held against it.
//!
//! Trips: `[8 to 20 °F](value:superheat-range)` where the value is `8 to 18 °F`. Mended: `[8 to 18 °F](value:superheat-range)`.
//!
//! A handbook that builds on another may set a value of its own in place of one below; a lesson from below that quotes the
//! old one is then still right, and is set with the new. So a quotation is held against the value as it stood where the
//! quotation was written.

use super::given;
use crate::handbook::{Finding, Handbook, Scheme, StandingValue};
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

/// The figure of one standing value.
fn read_value(value: &StandingValue) -> Result<ValueFigure, Box<Finding>> {
    if value.quantity.value == WORDS {
        return Ok(ValueFigure::Words(value.value.value.clone()));
    }
    let Some(kind) = Kind::from_name(&value.quantity.value) else {
        return Err(Box::new(given::kind_not_known(&value.quantity.value, value.quantity.at)));
    };
    figure(&value.value.value, kind).map_err(|error| {
        let finding = Finding::error("value-not-read", value.value.at, error.to_string());
        Box::new(finding.seen(value.quantity.at, format!("it is to be a {}", kind.name())))
    })
}

/// Reads every standing value.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) -> BTreeMap<String, ValueFigure> {
    let mut values = BTreeMap::new();
    for (name, value) in &book.values {
        match read_value(value) {
            Ok(read) => {
                values.insert(name.clone(), read);
            }
            Err(finding) => findings.push(*finding),
        }
    }
    values
}

/// The figures that standing values were set in place of, by the value's name.
pub(super) fn replaced(book: &Handbook) -> BTreeMap<String, ValueFigure> {
    let replaced = book.values.iter().filter_map(|(name, value)| {
        let old = read_value(value.replaces.as_deref()?).ok()?;
        Some((name.clone(), old))
    });
    replaced.collect()
}

/// The value as it stands for one who writes in a handbook `depth` below the author's own.
fn as_of(value: &StandingValue, depth: usize, depth_of: impl Fn(&StandingValue) -> usize) -> &StandingValue {
    let mut standing = value;
    while depth_of(standing) < depth {
        let Some(below) = &standing.replaces else { break };
        standing = below;
    }
    standing
}

/// Holds every `value:` link against its standing value.
pub(super) fn examine_links(book: &Handbook, air: Pressure, findings: &mut Vec<Finding>) {
    for link in book.links().filter(|link| link.scheme == Scheme::Value) {
        // A value that is not there is a dead link; one that could not be read has been told.
        let Some(value) = book.values.get(&link.to.value) else { continue };
        let value = as_of(value, book.files.depth(link.text.at.file), |v| book.files.depth(v.at.file));
        let Ok(standing) = read_value(value) else { continue };
        let text = link.text.value.trim();
        let agrees = match &standing {
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
