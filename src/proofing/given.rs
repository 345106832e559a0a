//! `as:` links: figures that are given, not reckoned, set in both systems of units. `given-not-read`: the text is no
//! figure of the kind named.
//!
//! `12 °F` on a thermometer and `12 °F` of superheat turn into different numbers in °C, so the author says which.
//!
//! Trips: `[118 psi](as:pressure)`. Mended: `[118 psig](as:pressure)`.

use super::ValueFigure;
use super::value;
use crate::handbook::{Finding, Handbook, Scheme, Span};
use crate::quantity::{Kind, nearest, plain_words};
use std::collections::BTreeMap;

/// Reads every `as:` link of the handbook.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) -> BTreeMap<Span, ValueFigure> {
    let mut given = BTreeMap::new();
    for link in book.links().filter(|link| link.scheme == Scheme::As) {
        let Some(kind) = Kind::from_name(&plain_words(&link.to.value)) else {
            findings.push(kind_not_known(&link.to.value, link.to.at));
            continue;
        };
        match value::figure(&link.text.value, kind) {
            Ok(figure) => {
                given.insert(link.at, figure);
            }
            Err(error) => findings.push(Finding::error("given-not-read", link.text.at, error.to_string())),
        }
    }
    given
}

/// `quantity-not-known`: the name of a quantity that is none.
pub(super) fn kind_not_known(name: &str, at: Span) -> Finding {
    let names = Kind::ALL.iter().map(|kind| kind.name());
    Finding::error("quantity-not-known", at, format!("there is no quantity `{name}`")).instead(
        nearest(name, names).map_or_else(
            || "quantities are `pressure`, `pressure difference`, `temperature`, `temperature difference`, `length` and the like".to_owned(),
            |near| format!("the nearest is `{near}`"),
        ),
    )
}
