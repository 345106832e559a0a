//! `handbook.yaml`.

use super::yaml::{self, Text};
use crate::handbook::{FileId, Finding, Front, Handbook, Part, Span, UnitsFirst};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawFront {
    title: Text,
    house: Text,
    edition: Text,
    altitude: Text,
    #[serde(default)]
    units: Option<Text>,
    parts: Vec<RawPart>,
    #[serde(default)]
    carry_copies: Vec<Text>,
}

#[derive(Deserialize)]
#[serde(untagged)]
enum RawPart {
    Whole(RawPartFields),
    Name(Text),
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPartFields {
    name: Text,
    #[serde(default)]
    title: Option<Text>,
    #[serde(default)]
    lessons: Vec<Text>,
}

pub(super) fn read(id: FileId, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let at = Span { file: id, start: 0, end: text.len() };
    let (raw, places) = match yaml::read::<RawFront>(text, at) {
        Ok(read) => read,
        Err(finding) => return findings.push(*finding),
    };
    let units = match raw.units.as_ref().map(|t| t.0.as_str()) {
        None | Some("US first") => UnitsFirst::Us,
        Some("SI first") => UnitsFirst::Si,
        Some(other) => {
            findings.push(
                Finding::error("units-not-known", places.at(&["units"]), format!("`{other}` is no order of units"))
                    .instead("write `US first` or `SI first`; both systems are set either way"),
            );
            UnitsFirst::Us
        }
    };
    let parts = raw
        .parts
        .iter()
        .enumerate()
        .map(|(i, part)| {
            let n = i.to_string();
            match part {
                RawPart::Name(name) => {
                    Part { name: places.spot(&["parts", &n], name), title: title_of(&name.0), lessons: Vec::new() }
                }
                RawPart::Whole(fields) => Part {
                    name: places.spot(&["parts", &n, "name"], &fields.name),
                    title: fields.title.as_ref().map_or_else(|| title_of(&fields.name.0), |t| t.0.clone()),
                    lessons: fields
                        .lessons
                        .iter()
                        .enumerate()
                        .map(|(k, lesson)| places.spot(&["parts", &n, "lessons", &k.to_string()], lesson))
                        .collect(),
                },
            }
        })
        .collect();
    book.front = Front {
        at,
        title: raw.title.0,
        house: raw.house.0,
        edition: places.spot(&["edition"], &raw.edition).value,
        altitude: places.spot(&["altitude"], &raw.altitude),
        units,
        parts,
        carry_copies: raw
            .carry_copies
            .iter()
            .enumerate()
            .map(|(i, copy)| places.spot(&["carry-copies", &i.to_string()], copy))
            .collect(),
    };
}

/// `the-cycle` read aloud: `The cycle`.
fn title_of(name: &str) -> String {
    let spaced = name.replace('-', " ");
    let mut letters = spaced.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
