//! What inputs are given: single figures, choices, and figures in even steps.

use super::yaml::{Named, Places, Text};
use crate::handbook::{GivenLine, Spot, Supplied, Supply};
use serde::Deserialize;

/// A list is a choice; a scalar is one figure, or a stretch where it has a step.
#[derive(Deserialize)]
#[serde(untagged)]
pub(super) enum RawSupply {
    /// Several.
    Choice(Vec<Text>),
    /// One, or a stretch.
    One(Text),
}

/// What divides a stretch from its step.
const BY: &str = " by ";

/// The lines of a mapping of single figures at `path`.
pub(super) fn given(places: &Places, path: &[&str], raw: &Named<Text>) -> Vec<GivenLine> {
    let lines = raw.0.iter().map(|(name, value)| {
        let path = below(path, name);
        GivenLine { name: places.key_spot(&path), value: places.spot(&path, value) }
    });
    lines.collect()
}

/// The lines of a mapping of names to names at `path`.
pub(super) fn renamed(places: &Places, path: &[&str], raw: &Named<Text>) -> Vec<(Spot<String>, Spot<String>)> {
    given(places, path, raw).into_iter().map(|line| (line.name, line.value)).collect()
}

/// The lines of a mapping of supplies at `path`.
pub(super) fn supplied(places: &Places, path: &[&str], raw: &Named<RawSupply>) -> Vec<Supplied> {
    let lines = raw.0.iter().map(|(name, supply)| {
        let path = below(path, name);
        let supply = match supply {
            RawSupply::One(text) if text.0.contains(BY) => Supply::Stretch(places.spot(&path, text)),
            RawSupply::One(text) => Supply::One(places.spot(&path, text)),
            RawSupply::Choice(several) => Supply::Choice(
                several.iter().enumerate().map(|(i, text)| places.spot(&below(&path, &i.to_string()), text)).collect(),
            ),
        };
        Supplied { name: places.key_spot(&path), supply }
    });
    lines.collect()
}

fn below<'a>(path: &[&'a str], last: &'a str) -> Vec<&'a str> {
    path.iter().copied().chain(std::iter::once(last)).collect()
}
