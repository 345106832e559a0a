//! `values.yaml`, `sources.yaml`, `terms.yaml`, `hazards.yaml`: lists of named entries.

use super::link;
use super::yaml::{self, Named, Text};
use crate::handbook::{
    FileId, Finding, Handbook, Hazard, Signal, Source, SourceFile, SourceKind, Span, Spot, StandingValue, Term,
};
use serde::Deserialize;
use serde::de::DeserializeOwned;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawValue {
    is: Text,
    value: Text,
    quantity: Text,
    source: Text,
    #[serde(default)]
    note: Option<Text>,
    #[serde(default)]
    by: Option<Text>,
    #[serde(default)]
    because: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSource {
    title: Text,
    kind: RawKind,
    taken: Text,
    seen: RawSeen,
}

#[derive(Deserialize)]
#[serde(rename_all = "kebab-case")]
enum RawKind {
    Standard,
    Paper,
    Regulation,
    Dataset,
    #[serde(rename = "common practice")]
    CommonPractice,
}

#[derive(Deserialize)]
enum RawSeen {
    #[serde(rename = "seen")]
    Seen,
    #[serde(rename = "from memory")]
    FromMemory,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawTerm {
    #[serde(default)]
    called: Option<Text>,
    means: Text,
    #[serde(default)]
    also: Vec<Text>,
    #[serde(default)]
    taught: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawHazard {
    signal: RawSignal,
    hazard: Text,
    avoid: Text,
}

#[derive(Deserialize)]
#[serde(rename_all = "UPPERCASE")]
enum RawSignal {
    Danger,
    Warning,
    Caution,
    Notice,
}

pub(super) fn read_values(id: FileId, file: &SourceFile, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let read = entries::<RawValue>(id, &file.text, findings, |places, name, raw| {
        let value = StandingValue {
            at: places.key(&[name]),
            is: raw.is.0,
            value: places.spot(&[name, "value"], &raw.value),
            quantity: places.spot(&[name, "quantity"], &raw.quantity),
            source: places.spot(&[name, "source"], &raw.source),
            note: raw.note.map(|t| t.0),
            by: raw.by.as_ref().map(|t| places.spot(&[name, "by"], t)),
            because: raw.because.map(|t| t.0),
            replaces: book.values.remove(name).map(Box::new),
        };
        book.values.insert(name.to_owned(), value);
    });
    if !read {
        book.unread.insert("values.yaml".to_owned());
    }
}

pub(super) fn read_sources(id: FileId, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let read = entries::<RawSource>(id, text, findings, |places, name, raw| {
        let source = Source {
            at: places.key(&[name]),
            title: raw.title.0,
            kind: match raw.kind {
                RawKind::Standard => SourceKind::Standard,
                RawKind::Paper => SourceKind::Paper,
                RawKind::Regulation => SourceKind::Regulation,
                RawKind::Dataset => SourceKind::Dataset,
                RawKind::CommonPractice => SourceKind::CommonPractice,
            },
            taken: raw.taken.0,
            from_memory: matches!(raw.seen, RawSeen::FromMemory),
        };
        book.sources.insert(name.to_owned(), source);
    });
    if !read {
        book.unread.insert("sources.yaml".to_owned());
    }
}

pub(super) fn read_terms(id: FileId, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let read = entries::<RawTerm>(id, text, findings, |places, name, raw| {
        let at = places.at(&[name, "means"]);
        let term = Term {
            at: places.key(&[name]),
            called: raw.called.map_or_else(|| name.replace('-', " "), |t| t.0),
            means_links: link::links_of_scalar(&raw.means.0, &text[at.start..at.end], at),
            means: Spot::new(raw.means.0, at),
            also: raw.also.into_iter().map(|t| t.0).collect(),
            taught: raw.taught.as_ref().map(|t| places.spot(&[name, "taught"], t)),
        };
        book.terms.insert(name.to_owned(), term);
    });
    if !read {
        book.unread.insert("terms.yaml".to_owned());
    }
}

pub(super) fn read_hazards(id: FileId, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let read = entries::<RawHazard>(id, text, findings, |places, name, raw| {
        let hazard = Hazard {
            at: places.key(&[name]),
            signal: match raw.signal {
                RawSignal::Danger => Signal::Danger,
                RawSignal::Warning => Signal::Warning,
                RawSignal::Caution => Signal::Caution,
                RawSignal::Notice => Signal::Notice,
            },
            hazard: raw.hazard.0,
            avoid: raw.avoid.0,
        };
        book.hazards.insert(name.to_owned(), hazard);
    });
    if !read {
        book.unread.insert("hazards.yaml".to_owned());
    }
}

/// Reads a file of named entries and hands over each. False where the file could not be read.
fn entries<T: DeserializeOwned>(
    id: FileId,
    text: &str,
    findings: &mut Vec<Finding>,
    mut take: impl FnMut(&yaml::Places, &str, T),
) -> bool {
    let at = Span { file: id, start: 0, end: text.len() };
    match yaml::read::<Named<T>>(text, at) {
        Ok((raw, places)) => {
            for (name, entry) in raw.0 {
                take(&places, &name, entry);
            }
            true
        }
        Err(finding) => {
            findings.push(*finding);
            false
        }
    }
}
