//! Find: its leaf, and the index that the reader's own machine looks in.
//!
//! The index is a script, not data, because a page opened from a folder may not read a file. It holds every leaf, section,
//! table, example, tree, refrigerant, term and standing value, and for each word of the text the entries it stands in.

use super::SettingError;
use super::address;
use super::leaf::{Frame, Heading};
use super::lesson::LessonPage;
use super::markdown;
use super::press::Press;
use super::print::curl;
use super::refrigerant;
use super::register::{term_address, value_address};
use super::words::fill;
use crate::handbook::{BlockKind, Leaf, Tree};
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use tera::Context;

/// Kinds of entries, in the order in which they are shown. The script goes by the place in this list.
const KINDS: usize = 8;
const TABLES: u8 = 0;
const SYMPTOMS: u8 = 1;
const LEAVES: u8 = 2;
const REFRIGERANTS: u8 = 3;
const TERMS: u8 = 4;
const VALUES: u8 = 5;
const EXAMPLES: u8 = 6;
const COMPUTATIONS: u8 = 7;

/// Words that stand everywhere and so find nothing.
const COMMON: [&str; 96] = [
    "a", "about", "above", "after", "all", "also", "an", "and", "any", "are", "as", "at", "be", "because", "been",
    "before", "below", "but", "by", "can", "comes", "do", "does", "each", "even", "every", "first", "for", "from",
    "get", "give", "goes", "had", "has", "have", "here", "how", "if", "in", "into", "is", "it", "its", "just", "keep",
    "less", "like", "made", "make", "may", "more", "most", "much", "must", "never", "no", "not", "now", "of", "off",
    "on", "one", "only", "or", "other", "out", "over", "own", "same", "see", "so", "some", "still", "such", "take",
    "than", "that", "the", "their", "them", "then", "there", "these", "they", "this", "through", "to", "two", "until",
    "up", "was", "what", "when", "where", "which", "with",
];

#[derive(Debug, Default, Serialize)]
struct Entry {
    /// Kind.
    k: u8,
    /// Title.
    t: String,
    /// Where it is, from the handbook's folder.
    h: String,
    /// Number.
    #[serde(skip_serializing_if = "String::is_empty")]
    l: String,
    /// A line about it.
    #[serde(skip_serializing_if = "String::is_empty")]
    s: String,
    /// Further words it goes by.
    #[serde(skip_serializing_if = "String::is_empty")]
    w: String,
}

#[derive(Debug, Default, Serialize)]
struct Index {
    entries: Vec<Entry>,
    words: BTreeMap<String, BTreeSet<usize>>,
}

impl Index {
    fn enter(&mut self, mut entry: Entry, text: &str) {
        let at = self.entries.len();
        entry.t = curl(&entry.t);
        entry.s = curl(&entry.s);
        for word in text.split(|c: char| !(c.is_alphanumeric() || c == '-')) {
            let word: String = word.chars().filter(|c| *c != '-').flat_map(char::to_lowercase).collect();
            let counts = word.chars().count() > 2 && word.chars().any(char::is_alphabetic);
            if counts && !COMMON.contains(&word.as_str()) {
                self.words.entry(word).or_default().insert(at);
            }
        }
        self.entries.push(entry);
    }
}

/// The index as a script.
pub(super) fn index(press: &Press<'_>, leaves: &[(Leaf<'_>, LessonPage)]) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let book = press.book;
    let mut index = Index::default();
    for (leaf, page) in leaves {
        enter_lesson(press, leaf, page, &mut index);
    }
    for tree in book.trees.values() {
        let purpose = tree.purpose.clone().unwrap_or_default();
        let entry = Entry {
            k: SYMPTOMS,
            t: tree.title.value.clone(),
            h: address::tree(&tree.name),
            s: purpose,
            w: tree.name.replace('-', " "),
            ..Entry::default()
        };
        index.enter(entry, &tree_words(tree));
    }
    for (designation, entry) in &book.refrigerants {
        let line = refrigerant::in_a_line(press, entry);
        let note = entry.note.clone().unwrap_or_default();
        let entry = Entry {
            k: REFRIGERANTS,
            t: designation.clone(),
            h: address::refrigerant(designation),
            s: line,
            ..Entry::default()
        };
        index.enter(entry, &note);
    }
    for (name, term) in &book.terms {
        let means = markdown::plain(&term.means.value);
        let entry = Entry {
            k: TERMS,
            t: term.called.clone(),
            h: term_address(name),
            s: means.clone(),
            w: term.also.join("; "),
            ..Entry::default()
        };
        index.enter(entry, &means);
    }
    for (name, value) in &book.values {
        let figure = press.figures.values.get(name);
        let shown = figure.map_or_else(
            || value.value.value.clone(),
            |both| {
                if both.us == both.si { both.us.clone() } else { format!("{} ({})", both.us, both.si) }
            },
        );
        let entry = Entry {
            k: VALUES,
            t: value.is.clone(),
            h: value_address(name),
            s: format!("{shown}; {}", press.source_line(&value.source.value)),
            w: name.replace('-', " "),
            ..Entry::default()
        };
        index.enter(entry, value.note.as_deref().unwrap_or(""));
    }
    for computation in &press.figures.catalogue {
        let takes: Vec<&str> = computation.takes.iter().map(|take| take.name.as_str()).collect();
        let entry = Entry {
            k: COMPUTATIONS,
            t: computation.title.clone(),
            h: address::computation(&computation.name),
            s: computation.purpose.clone(),
            w: computation.name.replace('-', " "),
            ..Entry::default()
        };
        index.enter(entry, &format!("{} {}", computation.group, takes.join(" ")));
    }
    let kinds: [&str; KINDS] = [
        &words.kind_tables,
        &words.kind_symptoms,
        &words.kind_leaves,
        &words.kind_refrigerants,
        &words.kind_terms,
        &words.kind_values,
        &words.kind_examples,
        &words.kind_computations,
    ];
    let json = |value: tera::Result<tera::Value>| {
        value.map(|value| value.to_string()).map_err(|error| SettingError::Template {
            template: address::FIND_INDEX.to_owned(),
            says: super::theme::causes(&error),
        })
    };
    let kinds = json(tera::to_value(kinds).map_err(tera::Error::json))?;
    let index = json(tera::to_value(index).map_err(tera::Error::json))?;
    Ok(format!("var handbookKinds={kinds};\nvar handbookIndex={index};\n"))
}

fn enter_lesson(press: &Press<'_>, leaf: &Leaf<'_>, page: &LessonPage, index: &mut Index) {
    let words = &press.theme.words;
    let lesson = leaf.lesson;
    let path = address::lesson(&lesson.name);
    let entry = Entry {
        k: LEAVES,
        t: lesson.title.value.clone(),
        h: path.clone(),
        l: leaf.label(),
        s: lesson.purpose.as_ref().map_or_else(String::new, |purpose| purpose.value.clone()),
        w: lesson.index.join("; "),
    };
    index.enter(entry, &page.opening);
    for section in &page.sections {
        let entry = Entry {
            k: LEAVES,
            t: section.title.clone(),
            h: format!("{path}#{}", section.anchor),
            l: leaf.label(),
            s: lesson.title.value.clone(),
            w: String::new(),
        };
        index.enter(entry, &section.words);
    }
    for block in &lesson.blocks {
        match &block.kind {
            BlockKind::SaturationTable(table) => {
                let Some(numbered) = press.register.tables.get(&table.name) else { continue };
                let range = press.figures.tables.get(&block.at).map_or_else(String::new, |set| {
                    fill(&fill(&words.from_to, "from", &set.us.from), "to", &set.us.to)
                });
                let entry = Entry {
                    k: TABLES,
                    t: format!("{}, {}", table.refrigerant.value, words.saturation),
                    h: numbered.address.clone(),
                    l: format!("{} {}", words.table, numbered.number),
                    s: range,
                    w: format!("{}; {}", words.temperature.replace('\u{ad}', ""), words.pressure),
                };
                index.enter(entry, "");
            }
            BlockKind::Example(example) => {
                let Some(numbered) = press.register.examples.get(&block.at) else { continue };
                let entry = Entry {
                    k: EXAMPLES,
                    t: example.title.value.clone(),
                    h: numbered.address.clone(),
                    l: format!("{} {}", words.example, numbered.number),
                    s: lesson.title.value.clone(),
                    w: String::new(),
                };
                let so = example.so.as_ref().map_or_else(String::new, |so| markdown::plain(&so.value));
                index.enter(entry, &so);
            }
            _ => {}
        }
    }
}

fn tree_words(tree: &Tree) -> String {
    let mut text = String::new();
    let asked = tree.questions.iter().flat_map(|question| [Some(&question.ask), question.because.as_ref()]);
    let said = tree.outcomes.iter().map(|outcome| Some(&outcome.say));
    for line in asked.chain(said).flatten() {
        text.push_str(&markdown::plain(&line.value));
        text.push(' ');
    }
    text
}

/// Sets the find leaf.
pub(super) fn page(press: &Press<'_>) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let script_words =
        BTreeMap::from([("none", &words.found_none), ("count", &words.found_count), ("taken", &words.taken_as)]);
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
    let script_words = tera::to_value(script_words).map_or_else(|_| "{}".to_owned(), |value| value.to_string());
    context.insert("script_words", &script_words);
    context.insert("index", &frame.to(address::WORDS));
    frame.fill(press, "find.html", context)
}
