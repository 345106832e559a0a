//! `figure-disagrees`: what an author wrote for a figure against what it comes to; `figure-not-read`: what was written
//! is no figure of that kind.
//!
//! A wrong figure in a handbook is worse than none, since it is believed. So the author's figure and the sum must agree
//! to half a unit of the last digit written.
//!
//! Trips: `answer: 28.9 °F` where the sum gives 29.8 °F. Mended: `answer: 29.8 °F`, or `answer: "?"` to have it filled in.

use crate::handbook::{Finding, Spot};
use crate::quantity::{Written, read};
use crate::trade::Worked;

/// What stands in a source file where the press is to fill in the figure.
pub(super) const FILL_IN: &str = "?";

/// The author's figure `written` for the sum `worked`, or the finding that it is another one. `within` is the author's
/// own tolerance.
pub(super) fn witness(
    written: &Spot<String>,
    worked: &Worked,
    within: Option<&Spot<String>>,
) -> Result<Written, Box<Finding>> {
    let text = written.value.trim();
    if text == FILL_IN {
        return Ok(worked.answer_written());
    }
    let kind = worked.answer.kind;
    let own = read(text, Some(kind)).map_err(|error| {
        Box::new(
            Finding::error("figure-not-read", written.at, error.to_string())
                .found(worked.plain_line(worked.system_of(&worked.answer_written())))
                .instead(format!("write `{}`, or `\"?\"` to have it filled in", plain(&worked.answer_written()))),
        )
    })?;
    let value = own
        .value(worked.air)
        .map_err(|error| Box::new(Finding::error("figure-not-read", written.at, error.to_string())))?;
    let tolerance = match within {
        Some(within) => tolerance(within, worked)?,
        None => own.last_digit().si,
    };
    let off = (value.si - worked.answer.si).abs();
    // The last term lets a sum that falls exactly between two digits go either way.
    if off <= tolerance.abs() * (1.0 + 1e-9) + worked.answer.si.abs() * 1e-12 {
        return Ok(own);
    }
    let plain_found = plain(&worked.answer_as(&own));
    let instead = if swapped(&plain(&own), &plain_found) {
        format!("two digits may have changed places: write `{plain_found}`, or `\"?\"` to have it filled in")
    } else {
        format!("write `{plain_found}`, or `\"?\"` to have it filled in")
    };
    let system = own.unit.system;
    let finding = Finding::error(
        "figure-disagrees",
        written.at,
        format!("this {} comes to {plain_found}", worked.computation.answer.name),
    )
    .label("written here")
    .found(worked.plain_line(system))
    .instead(instead);
    Err(Box::new(match worked.plain_inputs(system) {
        Some(inputs) => finding.found(format!("from {inputs}")),
        None => finding,
    }))
}

fn tolerance(within: &Spot<String>, worked: &Worked) -> Result<f64, Box<Finding>> {
    let read = read(&within.value, Some(worked.answer.kind.difference()));
    let value = read.and_then(|written| written.value(worked.air));
    value.map(|v| v.si).map_err(|error| Box::new(Finding::error("figure-not-read", within.at, error.to_string())))
}

/// A figure as an author types it: ordinary spaces and a hyphen for the minus.
fn plain(written: &Written) -> String {
    written.to_string().replace('\u{a0}', " ").replace('\u{2212}', "-")
}

/// Whether two neighboring digits changing places make one text the other.
fn swapped(one: &str, other: &str) -> bool {
    let (a, b): (Vec<char>, Vec<char>) = (one.chars().collect(), other.chars().collect());
    if a.len() != b.len() {
        return false;
    }
    let differ: Vec<usize> = (0..a.len()).filter(|&i| a[i] != b[i]).collect();
    match differ.as_slice() {
        [i, j] => {
            let between_are_points = (i + 1..*j).all(|k| a[k] == '.');
            between_are_points && a[*i] == b[*j] && a[*j] == b[*i]
        }
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_that_changed_places_are_seen() {
        assert!(swapped("28.9 °F", "29.8 °F"));
        assert!(swapped("13.5 °F", "15.3 °F"));
        assert!(!swapped("28.9 °F", "30.1 °F"));
        assert!(!swapped("28.9 °F", "28.9 °F"));
        assert!(!swapped("128.9 °F", "29.8 °F"));
    }
}
