//! `handbook.yaml`.

use super::yaml::{self, Text};
use crate::handbook::{Base, FileId, Finding, Front, Handbook, Part, SourceFile, Span, Spot, UnitsFirst};
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

/// The front of a handbook that builds on another: what it leaves out is as it is there.
#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawOver {
    builds_on: Text,
    #[serde(default)]
    title: Option<Text>,
    #[serde(default)]
    house: Option<Text>,
    #[serde(default)]
    edition: Option<Text>,
    #[serde(default)]
    altitude: Option<Text>,
    #[serde(default)]
    units: Option<Text>,
    #[serde(default)]
    parts: Option<Vec<RawPart>>,
    #[serde(default)]
    carry_copies: Option<Vec<Text>>,
}

impl From<RawFront> for RawOver {
    fn from(raw: RawFront) -> Self {
        Self {
            builds_on: Text(String::new()),
            title: Some(raw.title),
            house: Some(raw.house),
            edition: Some(raw.edition),
            altitude: Some(raw.altitude),
            units: raw.units,
            parts: Some(raw.parts),
            carry_copies: Some(raw.carry_copies),
        }
    }
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

/// What `builds-on:` of this front says, where it can be read; its place is in file 0.
pub(super) fn builds_on(text: &str) -> Option<Spot<String>> {
    let at = Span { end: text.len(), ..Span::default() };
    let (raw, places) = yaml::read::<RawOver>(text, at).ok()?;
    Some(places.spot(&["builds-on"], &raw.builds_on))
}

/// Reads the front in `file` into `book`, over that of the handbook below it where there is one.
pub(super) fn read(id: FileId, file: &SourceFile, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let text = &file.text;
    let at = Span { file: id, start: 0, end: text.len() };
    let builds = text.lines().any(|line| line.starts_with("builds-on:"));
    let read = if builds {
        yaml::read::<RawOver>(text, at)
    } else {
        yaml::read::<RawFront>(text, at).map(|(raw, places)| (RawOver::from(raw), places))
    };
    let (raw, places) = match read {
        Ok(read) => read,
        Err(finding) => return findings.push(*finding),
    };
    let below = std::mem::take(&mut book.front);
    let base = builds
        .then(|| Base { title: below.title.clone(), house: below.house.clone(), edition: below.edition.clone() })
        .map(Box::new);
    let units = match raw.units.as_ref().map(|t| t.0.as_str()) {
        None => below.units,
        Some("US first") => UnitsFirst::Us,
        Some("SI first") => UnitsFirst::Si,
        Some(other) => {
            findings.push(
                Finding::error("units-not-known", places.at(&["units"]), format!("`{other}` is no order of units"))
                    .instead("write `US first` or `SI first`; both systems are set either way"),
            );
            UnitsFirst::Us
        }
    };
    book.front = Front {
        at,
        title: raw.title.map_or(below.title, |t| t.0),
        house: raw.house.map_or(below.house, |t| t.0),
        edition: raw.edition.map_or(below.edition, |t| places.spot(&["edition"], &t).value),
        altitude: raw.altitude.map_or(below.altitude, |t| places.spot(&["altitude"], &t)),
        units,
        parts: raw
            .parts
            .map_or(below.parts, |parts| parts.iter().enumerate().map(|(i, part)| part_of(part, i, &places)).collect()),
        carry_copies: raw.carry_copies.map_or(below.carry_copies, |copies| {
            let spot = |(i, copy): (usize, &Text)| places.spot(&["carry-copies", &i.to_string()], copy);
            copies.iter().enumerate().map(spot).collect()
        }),
        base,
    };
}

/// The part that stands at `i` in the list.
fn part_of(part: &RawPart, i: usize, places: &yaml::Places) -> Part {
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
}

/// `the-cycle` read aloud: `The cycle`.
fn title_of(name: &str) -> String {
    let spaced = name.replace('-', " ");
    let mut letters = spaced.chars();
    letters.next().map_or(String::new(), |first| first.to_uppercase().chain(letters).collect())
}
