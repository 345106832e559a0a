//! The unit that somebody spelled, among those of the kind that is wanted.
//!
//! Takes a spelling; gives the unit and the spelling of the table that it stands for. Letter case and typographic marks
//! are let pass where they leave no doubt.

use super::kind::Kind;
use super::reading_error::ReadingError;
use super::spelling::nearest;
use super::unit::{self, Unit};

/// The unit that `spelled` names, and the spelling from the table it was found under.
pub(super) fn find_unit(
    spelled: &str,
    wanted: Option<Kind>,
    typed: &str,
    number: &str,
) -> Result<(&'static Unit, &'static str), ReadingError> {
    let Some(kind) = wanted else {
        return search(spelled, unit::UNITS.iter().copied()).ok_or_else(|| unknown(spelled, None, typed));
    };
    if let Some(found) = search(spelled, kind.units()) {
        return Ok(found);
    }
    if spelled.is_empty() {
        return Err(ReadingError::NoUnit { typed: typed.to_owned(), wanted: kind });
    }
    if kind == Kind::Pressure
        && let Some((unit, _)) = search(spelled, Kind::PressureDifference.units())
    {
        return Err(ReadingError::GaugeOrAbsolute { typed: typed.to_owned(), instead: marked(number, unit) });
    }
    match search(spelled, unit::UNITS.iter().copied()) {
        Some((unit, _)) => Err(ReadingError::OtherQuantity { typed: typed.to_owned(), given: unit.kind, wanted: kind }),
        None => Err(unknown(spelled, Some(kind), typed)),
    }
}

/// The doubtful pressure written both ways, in the marks of its own unit where it has them.
fn marked(number: &str, unit: &Unit) -> String {
    let bare = unit.symbol;
    match bare {
        "psi" => format!("`{number} psig` or `{number} psia`"),
        "bar" => format!("`{number} barg` or `{number} bara`"),
        "inHg" => format!("`{number} inHg vac` or `{number} inHg abs`"),
        "mmHg" => format!("`{number} mmHg abs`, or a vacuum as `inHg vac`"),
        _ => format!("it as a gauge or an absolute pressure, in psig or psia ({bare} measures differences here)"),
    }
}

fn unknown(spelled: &str, wanted: Option<Kind>, typed: &str) -> ReadingError {
    let known = unit::UNITS
        .iter()
        .filter(|unit| wanted.is_none_or(|kind| unit.kind == kind))
        .flat_map(|unit| std::iter::once(unit.symbol).chain(unit.spellings.iter().copied().filter(|s| s.len() > 1)))
        .filter(|spelling| !spelling.is_empty());
    ReadingError::UnknownUnit {
        typed: typed.to_owned(),
        unit: spelled.to_owned(),
        nearest: nearest(spelled, known),
        wanted,
    }
}

fn search(spelled: &str, units: impl Iterator<Item = &'static Unit> + Clone) -> Option<(&'static Unit, &'static str)> {
    let spellings = units.flat_map(|unit| {
        std::iter::once(unit.symbol).chain(unit.spellings.iter().copied()).map(move |spelling| (unit, spelling))
    });
    let exact = spellings.clone().find(|(_, spelling)| *spelling == spelled);
    let loose = relaxed(spelled);
    exact.or_else(|| {
        if loose.is_empty() {
            return None;
        }
        spellings.into_iter().find(|(unit, spelling)| relaxed(spelling) == loose && !prefix_in_doubt(spelled, unit))
    })
}

/// A spelling with letter case, spaces, points and typographic marks made alike.
fn relaxed(spelled: &str) -> String {
    spelled
        .to_lowercase()
        .replace(" per ", "/")
        .chars()
        .filter_map(|c| match c {
            ' ' | '.' | '·' | '*' | '(' | ')' | '^' | '°' | 'º' => None,
            '²' | '₂' => Some('2'),
            '³' => Some('3'),
            'µ' | 'μ' => Some('u'),
            other => Some(other),
        })
        .collect()
}

/// Whether a change of letter case would turn a thousandth into a million: `mPa` is not `MPa`.
fn prefix_in_doubt(spelled: &str, unit: &Unit) -> bool {
    let mut typed = spelled.chars();
    let mut symbol = unit.symbol.chars();
    match (typed.next(), symbol.next(), symbol.next()) {
        (Some(typed), Some(symbol @ ('m' | 'M')), Some('P' | 'A' | 'V' | 'J')) => typed != symbol,
        _ => false,
    }
}
