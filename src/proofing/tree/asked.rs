//! How a question is answered: by a figure of some quantity, or in words.

use crate::handbook::{Question, Reading, Spot, Tree};
use crate::quantity::{Kind, plain_words};
use crate::trade;

/// How a question is answered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Asked {
    /// By a figure.
    Figure(Kind),
    /// By one of its choices.
    Words,
    /// It does not say, or what it says is not known; a finding tells.
    Open,
}

/// What a `measure:` means.
#[derive(Clone, Copy, Debug)]
pub(super) enum Measured<'a> {
    /// One of the tree's readings, and its quantity where that can be told.
    Reading(&'a Reading, Option<Kind>),
    /// A quantity, measured at this question.
    Quantity(Kind),
    /// What would be a reading of that quantity, if the tree had it among its readings.
    Unlisted(Kind),
    /// Nothing that is known.
    Unknown,
}

/// How that question of that tree is answered.
pub(super) fn asked(tree: &Tree, question: &Question) -> Asked {
    match (&question.measure, &question.work_out, question.choices.is_empty()) {
        (None, Some(work_out), true) => {
            let computation = trade::find(&work_out.computation.value);
            computation.map_or(Asked::Open, |computation| Asked::Figure(computation.answer.kind))
        }
        (Some(measure), None, true) => match measured(tree, measure) {
            Measured::Reading(_, Some(kind)) | Measured::Quantity(kind) | Measured::Unlisted(kind) => {
                Asked::Figure(kind)
            }
            Measured::Reading(_, None) | Measured::Unknown => Asked::Open,
        },
        (None, None, false) => Asked::Words,
        _ => Asked::Open,
    }
}

/// What that `measure:` means in that tree. A reading goes before a quantity of the same name.
pub(super) fn measured<'a>(tree: &'a Tree, measure: &Spot<String>) -> Measured<'a> {
    if let Some(reading) = tree.reading(&measure.value) {
        return Measured::Reading(reading, quantity_of(reading));
    }
    if let Some(kind) = Kind::from_name(&measure.value) {
        return Measured::Quantity(kind);
    }
    told_by(&measure.value).map_or(Measured::Unknown, Measured::Unlisted)
}

/// The quantity of a reading: the one it says, or the one its name tells.
pub(super) fn quantity_of(reading: &Reading) -> Option<Kind> {
    match &reading.quantity {
        Some(quantity) => Kind::from_name(&quantity.value),
        None => told_by(&reading.name.value),
    }
}

/// The quantity that a reading's name tells: the longest name of a quantity in it, `temperature drop` in `temperature
/// drop across the drier`; of two equally long, the later.
fn told_by(name: &str) -> Option<Kind> {
    let padded = format!(" {} ", plain_words(name));
    let names = Kind::ALL.iter().flat_map(|kind| {
        std::iter::once(kind.name()).chain(kind.also().iter().copied()).map(move |name| (*kind, name))
    });
    names
        .filter_map(|(kind, name)| {
            let name = plain_words(name);
            padded.rfind(&format!(" {name} ")).map(|at| ((name.len(), at), kind))
        })
        .max_by_key(|(size, kind)| (*size, std::cmp::Reverse(*kind)))
        .map(|(_, kind)| kind)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_readings_name_tells_its_quantity() {
        let told = |name| told_by(name).map(Kind::name);
        assert_eq!(told("suction pressure"), Some("pressure"));
        assert_eq!(told("Suction-line temperature"), Some("temperature"));
        assert_eq!(told("temperature drop across the drier"), Some("temperature difference"));
        assert_eq!(told("pressure drop across the coil"), Some("pressure difference"));
        assert_eq!(told("temperature at the suction pressure tap"), Some("temperature"));
        assert_eq!(told("subcooling at the valve"), Some("temperature difference"));
        assert_eq!(told("condensing over ambient"), None);
        assert_eq!(told("temperatures"), None);
    }
}
