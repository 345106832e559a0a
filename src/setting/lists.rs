//! The lists at the back: terms, sources, standing values.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::figure::SetEquation;
use super::leaf::{Frame, Heading};
use super::letters::{Letter, by_letter};
use super::markdown::set_line;
use super::press::Press;
use super::print::{Both, anchor, spoken};
use super::register::{Target, source_address};
use super::words::fill;
use super::working::{Working, Workings};
use crate::handbook::{SourceKind, Term};
use serde::Serialize;
use std::collections::BTreeSet;
use tera::Context;

#[derive(Serialize)]
struct TermEntry {
    anchor: String,
    name: String,
    means: String,
    also: Vec<String>,
    taught: Option<PageLink>,
    working: String,
}

fn frame<'a>(press: &Press<'_>, path: &'a str, title: &'a str, guide: String) -> Frame {
    Frame::of(press, Heading { path, title, label: "", guide, home: None, kind: "back" })
}

fn used_in(press: &Press<'_>, target: &Target, path: &str) -> Vec<PageLink> {
    press.register.used_in(target, path).map(|page| PageLink::of(page, path)).collect()
}

/// The glossary.
pub(super) fn terms(press: &Press<'_>) -> Result<String, SettingError> {
    let mut workings = Workings::on(address::TERMS);
    let mut entries = Vec::new();
    for (name, term) in &press.book.terms {
        entries.push((term.called.clone(), term_entry(press, &mut workings, name, term)?));
    }
    let letters: Vec<Letter<TermEntry>> = by_letter(entries);
    let mut names = letters.iter().flat_map(|letter| &letter.entries).map(|entry| entry.name.as_str());
    let guide = match (names.next(), names.next_back()) {
        (Some(first), Some(last)) => fill(&fill(&press.theme.words.guide_to, "first", first), "last", last),
        _ => String::new(),
    };
    let frame = frame(press, address::TERMS, &press.theme.words.terms, guide);
    let mut context = Context::new();
    context.insert("letters", &letters);
    frame.fill(press, "terms.html", context)
}

fn term_entry(
    press: &Press<'_>,
    workings: &mut Workings<'_>,
    name: &str,
    term: &Term,
) -> Result<TermEntry, SettingError> {
    let mut working = Working::default();
    let means = set_line(press, address::TERMS, &term.means.value, &term.means_links, &mut working)?;
    let taught = term.taught.as_ref().and_then(|lesson| press.register.lessons.get(&lesson.value));
    Ok(TermEntry {
        anchor: anchor(name),
        name: term.called.clone(),
        means,
        also: term.also.clone(),
        taught: taught.map(|place| PageLink::of(&place.page, address::TERMS)),
        working: workings.set(press, &working)?,
    })
}

#[derive(Serialize)]
struct SourceEntry {
    anchor: String,
    title: String,
    taken: String,
    from_memory: bool,
    used_in: Vec<PageLink>,
}

#[derive(Serialize)]
struct SourcesOfKind {
    anchor: String,
    title: String,
    entries: Vec<SourceEntry>,
}

/// Sources by kind, and the equations of state of all refrigerants.
pub(super) fn sources(press: &Press<'_>) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let kinds = [
        (SourceKind::Standard, &words.kind_standard),
        (SourceKind::Regulation, &words.kind_regulation),
        (SourceKind::Paper, &words.kind_paper),
        (SourceKind::Dataset, &words.kind_dataset),
        (SourceKind::CommonPractice, &words.kind_common_practice),
    ];
    let mut set = Vec::new();
    for (kind, title) in kinds {
        let mut entries: Vec<SourceEntry> = press
            .book
            .sources
            .iter()
            .filter(|(_, source)| source.kind == kind)
            .map(|(key, source)| SourceEntry {
                anchor: anchor(key),
                title: source.title.clone(),
                taken: source.taken.clone(),
                from_memory: source.from_memory && source.kind != SourceKind::CommonPractice,
                used_in: used_in(press, &Target::Source(key.clone()), address::SOURCES),
            })
            .collect();
        entries.sort_by_key(|entry| entry.title.to_lowercase());
        if !entries.is_empty() {
            // A key may be named like a kind; the kinds have anchors of their own.
            set.push(SourcesOfKind { anchor: format!("kind-{}", anchor(title)), title: title.clone(), entries });
        }
    }
    let equations: BTreeSet<&SetEquation> = press.figures.fluids.values().flat_map(|fluid| &fluid.equations).collect();
    let mut context = Context::new();
    context.insert("kinds", &set);
    context.insert("equations", &equations);
    frame(press, address::SOURCES, &words.sources, String::new()).fill(press, "sources.html", context)
}

#[derive(Serialize)]
struct ValueEntry {
    anchor: String,
    value: Both,
    is: String,
    own: Option<Both>,
    note: Option<String>,
    source: String,
    source_href: Option<String>,
    used_in: Vec<PageLink>,
}

/// Standing values.
pub(super) fn values(press: &Press<'_>) -> Result<String, SettingError> {
    let values: Vec<ValueEntry> = press
        .book
        .values
        .iter()
        .map(|(name, value)| {
            let alike = || Both { us: value.value.value.clone(), si: value.value.value.clone() };
            let source = &value.source.value;
            ValueEntry {
                anchor: anchor(name),
                value: press.figures.values.get(name).cloned().unwrap_or_else(alike),
                is: spoken_start(&value.is),
                own: press.own_word(name),
                note: value.note.clone(),
                source: press.source_line(source),
                source_href: press
                    .book
                    .sources
                    .contains_key(source)
                    .then(|| address::href(address::VALUES, &source_address(source))),
                used_in: used_in(press, &Target::Value(name.clone()), address::VALUES),
            }
        })
        .collect();
    let mut context = Context::new();
    context.insert("values", &values);
    frame(press, address::VALUES, &press.theme.words.standing_values, String::new()).fill(press, "values.html", context)
}

/// A phrase with a large first letter. Hyphens stay, unlike in a name.
fn spoken_start(phrase: &str) -> String {
    let mut chars = phrase.chars();
    chars.next().map_or_else(String::new, |first| spoken(&first.to_string()) + chars.as_str())
}
