//! Find: its leaf, and the index that the reader's own machine looks in.
//!
//! `entries` gathers what there is to be found, `spelling` says when two words are the same, `words` where each stands, and
//! `parts` makes scripts of it all, small enough that a search takes up little however large the handbook. The script of the
//! theme looks in them.

mod spelling;

mod entries;
mod words;

mod parts;

use super::SettingError;
use super::address;
use super::leaf::{Frame, Heading};
use super::lesson::LessonPage;
use super::press::Press;
use crate::handbook::Leaf;
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};
use tera::Context;

/// Kinds of entries, in the order in which they are shown. The script goes by the place in this list.
const TABLES: u8 = 0;
const SYMPTOMS: u8 = 1;
const LEAVES: u8 = 2;
const REFRIGERANTS: u8 = 3;
const TERMS: u8 = 4;
const VALUES: u8 = 5;
const EXAMPLES: u8 = 6;
const COMPUTATIONS: u8 = 7;

/// Something that can be found.
#[derive(Debug, Default)]
struct Entry {
    kind: u8,
    title: String,
    /// Where it is, from the handbook's folder.
    href: String,
    /// Its number; empty where it has none.
    label: String,
    /// A line about it.
    line: String,
    /// Further names it goes by.
    names: Vec<String>,
    /// Words of its text that find it.
    text: BTreeSet<String>,
}

impl Entry {
    /// What the page shows of it.
    fn shown(&self) -> Value {
        json!([self.title, self.href, self.label, self.line])
    }
}

/// A table of pressure against temperature, for a reading that is typed.
struct Rows {
    refrigerant: String,
    shown: Value,
}

/// A form that a reading is typed for.
struct Form {
    title: String,
    href: String,
    /// The input that takes a pressure, and the one that takes a temperature.
    pressure: String,
    temperature: String,
}

/// The index: scripts by their path in the bound folder.
pub(super) fn index(press: &Press<'_>, leaves: &[(Leaf<'_>, LessonPage)]) -> BTreeMap<String, String> {
    let words = &press.theme.words;
    let kinds: [&str; 8] = [
        &words.kind_tables,
        &words.kind_symptoms,
        &words.kind_leaves,
        &words.kind_refrigerants,
        &words.kind_terms,
        &words.kind_values,
        &words.kind_examples,
        &words.kind_computations,
    ];
    let (tables, forms) = (entries::tables(press), entries::forms(press));
    let common = common(press);
    let entries = entries::entries(press, leaves, &common);
    let parts = parts::parts(&kinds, TERMS, common, &entries, &tables, &forms);
    let placed = parts.into_iter().map(|(name, script)| match name.as_str() {
        "root" => (address::FIND_INDEX.to_owned(), script),
        name => (address::find_part(name), script),
    });
    placed.collect()
}

/// The words that stand everywhere.
fn common(press: &Press<'_>) -> BTreeSet<String> {
    spelling::split(&press.theme.words.find_common).into_iter().collect()
}

/// Sets the find leaf.
pub(super) fn page(press: &Press<'_>) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let script_words = json!({
        "none": words.found_none,
        "count": words.found_count,
        "taken": words.taken_as,
        "common": common(press).into_iter().collect::<Vec<_>>(),
        "more": words.found_more,
        "at_none": words.at_once_none,
        "to": words.from_to,
        "bubble": format!("{}, {}", words.bubble, words.bubble_use),
        "dew": format!("{}, {}", words.dew, words.dew_use),
        "both": words.pressure,
        "form": words.work_it_out,
    });
    let heading = Heading {
        path: address::FIND,
        title: &words.find,
        label: "",
        guide: String::new(),
        home: None,
        kind: "finding",
    };
    let frame = Frame::of(press, heading);
    let mut context = Context::new();
    context.insert("script_words", &script_words.to_string());
    context.insert("index", &frame.to(address::WORDS));
    frame.fill(press, "find.html", context)
}
