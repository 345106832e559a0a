//! `drawing` blocks.

use super::supply::{self, RawSupply};
use super::yaml::{self, Named, Text};
use crate::handbook::{Drawing, DrawingList, Finding, Span};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawDrawing {
    kind: Text,
    title: Text,
    #[serde(default)]
    given: Named<RawSupply>,
    #[serde(default)]
    points: Vec<Named<RawSupply>>,
    #[serde(default)]
    lines: Vec<Named<RawSupply>>,
    #[serde(default)]
    readings: Vec<Named<RawSupply>>,
    #[serde(default)]
    say: Option<Text>,
}

/// Reads a `drawing`. Which kinds there are, and what each is drawn from, proofing knows.
pub(super) fn read(inner: &str, at: Span) -> Result<Drawing, Box<Finding>> {
    let (raw, places) = yaml::read::<RawDrawing>(inner, at)?;
    let lists = [("points", &raw.points), ("lines", &raw.lines), ("readings", &raw.readings)];
    let lists = lists.into_iter().filter(|(_, items)| !items.is_empty()).map(|(name, items)| DrawingList {
        name: places.key_spot(&[name]),
        items: items
            .iter()
            .enumerate()
            .map(|(i, item)| {
                let number = i.to_string();
                (places.at(&[name, &number]), supply::supplied(&places, &[name, &number], item))
            })
            .collect(),
    });
    Ok(Drawing {
        kind: places.spot(&["kind"], &raw.kind),
        title: places.spot(&["title"], &raw.title),
        given: supply::supplied(&places, &["given"], &raw.given),
        lists: lists.collect(),
        say: raw.say.as_ref().map(|say| places.spot(&["say"], say)),
    })
}
