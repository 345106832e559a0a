//! What Find knows of a handbook: every leaf, section, table, example, tree, refrigerant, term, standing value, job sheet and
//! problem set, with the words it is found by.

use super::spelling::split;
use super::{COMPUTATIONS, EXAMPLES, Entry, Form, LEAVES, REFRIGERANTS, Rows, SYMPTOMS, TABLES, TERMS, VALUES};
use crate::handbook::{BlockKind, Leaf, Tree};
use crate::quantity::{Kind, System};
use crate::setting::address;
use crate::setting::figure::SetRows;
use crate::setting::lesson::LessonPage;
use crate::setting::markdown;
use crate::setting::press::Press;
use crate::setting::print::curl;
use crate::setting::refrigerant;
use crate::setting::register::{term_address, value_address};
use crate::setting::words::fill;
use serde_json::{Value, json};
use std::collections::BTreeSet;

/// Letters of a line below a title; what is longer is cut between words.
const LONGEST_LINE: usize = 150;

/// Computations that a pressure or temperature is mostly read for.
const READ_FOR: [&str; 2] = ["superheat", "subcooling"];

/// Entries while they are gathered.
struct Gathered<'a> {
    entries: Vec<Entry>,
    /// Words that stand everywhere and so find no text.
    common: &'a BTreeSet<String>,
}

impl Gathered<'_> {
    fn enter(&mut self, mut entry: Entry, text: &str) {
        entry.title = curl(&entry.title);
        entry.line = cut(&curl(&entry.line));
        let counts = |word: &String| word.chars().count() > 2 && word.chars().any(char::is_alphabetic);
        entry.text = split(text).into_iter().filter(|word| counts(word) && !self.common.contains(word)).collect();
        self.entries.push(entry);
    }
}

/// A line that is not too long.
fn cut(line: &str) -> String {
    let Some((end, _)) = line.char_indices().nth(LONGEST_LINE) else { return line.to_owned() };
    let end = line[..end].rfind(' ').unwrap_or(end);
    format!("{}…", line[..end].trim_end_matches([',', ';', ':', '.']))
}

/// Every entry, by kind, each kind in the order of the book.
pub(super) fn entries(press: &Press<'_>, leaves: &[(Leaf<'_>, LessonPage)], common: &BTreeSet<String>) -> Vec<Entry> {
    let words = &press.theme.words;
    let book = press.book;
    let mut index = Gathered { entries: Vec::new(), common };
    for (leaf, page) in leaves {
        enter_lesson(press, leaf, page, &mut index);
    }
    for tree in book.trees.values() {
        let entry = Entry {
            kind: SYMPTOMS,
            title: tree.title.value.clone(),
            href: address::tree(&tree.name),
            line: tree.purpose.clone().unwrap_or_default(),
            names: vec![tree.name.replace('-', " ")],
            ..Entry::default()
        };
        index.enter(entry, &tree_words(tree));
    }
    for (designation, entry) in &book.refrigerants {
        let line = refrigerant::in_a_line(press, entry);
        let note = entry.note.clone().unwrap_or_default();
        let entry = Entry {
            kind: REFRIGERANTS,
            title: designation.clone(),
            href: address::refrigerant(designation),
            line,
            ..Entry::default()
        };
        index.enter(entry, &note);
    }
    for (name, term) in &book.terms {
        let means = markdown::plain(&term.means.value);
        let entry = Entry {
            kind: TERMS,
            title: term.called.clone(),
            href: term_address(name),
            line: means.clone(),
            names: term.also.clone(),
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
            kind: VALUES,
            title: value.is.clone(),
            href: value_address(name),
            line: format!("{shown}; {}", press.source_line(&value.source.value)),
            names: vec![name.replace('-', " ")],
            ..Entry::default()
        };
        index.enter(entry, value.note.as_deref().unwrap_or(""));
    }
    for sheet in book.sheets.values() {
        let entry = Entry {
            kind: LEAVES,
            title: sheet.title.value.clone(),
            href: address::sheet(&sheet.name),
            label: words.sheet.clone(),
            line: sheet.purpose.as_ref().map_or_else(String::new, |purpose| purpose.value.clone()),
            ..Entry::default()
        };
        let steps: Vec<String> = sheet.steps.iter().map(|step| markdown::plain(&step.act.value)).collect();
        index.enter(entry, &steps.join(" "));
    }
    for set in book.problem_sets.values() {
        let entry = Entry {
            kind: LEAVES,
            title: set.title.value.clone(),
            href: address::problem_set(&set.name),
            label: words.problem_sets.clone(),
            ..Entry::default()
        };
        let asked: Vec<&str> = set.problems.iter().map(|problem| problem.ask.value.as_str()).collect();
        index.enter(entry, &asked.join(" "));
    }
    for computation in &press.figures.catalogue {
        let takes: Vec<&str> = computation.takes.iter().map(|take| take.name.as_str()).collect();
        let entry = Entry {
            kind: COMPUTATIONS,
            title: computation.title.clone(),
            href: address::computation(&computation.name),
            line: computation.purpose.clone(),
            // A name that is the title is no further name: it would be found before the term of that name.
            names: Some(computation.name.replace('-', " "))
                .filter(|name| *name != computation.title.to_lowercase().replace('-', " "))
                .into_iter()
                .collect(),
            ..Entry::default()
        };
        index.enter(entry, &format!("{} {}", computation.group, takes.join(" ")));
    }
    index.entries.sort_by_key(|entry| entry.kind);
    index.entries
}

/// The forms that take one reading of a refrigerant's pressure or temperature further.
pub(super) fn forms(press: &Press<'_>) -> Vec<Form> {
    let catalogue = press.figures.catalogue.iter().filter(|sum| READ_FOR.contains(&sum.name.as_str()));
    let forms = catalogue.filter_map(|sum| {
        let blanks = &sum.form.as_ref()?.blanks;
        let taking = |unit: &str| blanks.iter().find(|blank| blank.unit.us == unit).map(|blank| blank.name.clone());
        Some(Form {
            title: sum.title.clone(),
            href: format!("{}#form-1", address::computation(&sum.name)),
            pressure: taking(Kind::Pressure.unit_in(System::Us).symbol)?,
            temperature: taking(Kind::Temperature.unit_in(System::Us).symbol)?,
        })
    });
    forms.collect()
}

/// The tables of pressure against temperature, row by row, in the order of the book.
pub(super) fn tables(press: &Press<'_>) -> Vec<Rows> {
    let rows = |rows: &SetRows| -> Value {
        let figures: Vec<[&str; 3]> =
            rows.rows.iter().map(|row| [row.temperature.as_str(), &row.bubble, &row.dew]).collect();
        json!({ "t": rows.temperature_unit, "p": rows.pressure_unit, "rows": figures })
    };
    let mut tables = Vec::new();
    for block in press.book.in_order().iter().flat_map(|leaf| &leaf.lesson.blocks) {
        if let BlockKind::SaturationTable(table) = &block.kind
            && let Some(numbered) = press.register.tables.get(&table.name)
            && let Some(set) = press.figures.tables.get(&block.at)
        {
            tables.push(Rows {
                refrigerant: table.refrigerant.value.clone(),
                shown: json!({
                    "name": table.refrigerant.value,
                    "href": numbered.address,
                    "label": format!("{} {}", press.theme.words.table, numbered.number),
                    "one": set.one_curve,
                    "us": rows(&set.us),
                    "si": rows(&set.si),
                }),
            });
        }
    }
    tables
}

fn enter_lesson(press: &Press<'_>, leaf: &Leaf<'_>, page: &LessonPage, index: &mut Gathered<'_>) {
    let words = &press.theme.words;
    let lesson = leaf.lesson;
    let path = address::lesson(&lesson.name);
    let entry = Entry {
        kind: LEAVES,
        title: lesson.title.value.clone(),
        href: path.clone(),
        label: leaf.label(),
        line: lesson.purpose.as_ref().map_or_else(String::new, |purpose| purpose.value.clone()),
        names: lesson.index.clone(),
        ..Entry::default()
    };
    index.enter(entry, &page.opening);
    for section in &page.sections {
        let entry = Entry {
            kind: LEAVES,
            title: section.title.clone(),
            href: format!("{path}#{}", section.anchor),
            label: leaf.label(),
            line: lesson.title.value.clone(),
            ..Entry::default()
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
                    kind: TABLES,
                    title: format!("{}, {}", table.refrigerant.value, words.saturation),
                    href: numbered.address.clone(),
                    label: format!("{} {}", words.table, numbered.number),
                    line: range,
                    names: vec![words.temperature.replace('\u{ad}', ""), words.pressure.clone()],
                    ..Entry::default()
                };
                index.enter(entry, "");
            }
            BlockKind::ComputedTable(table) => {
                let Some(numbered) = press.register.tables.get(&table.name.value) else { continue };
                let entry = Entry {
                    kind: TABLES,
                    title: table.title.value.clone(),
                    href: numbered.address.clone(),
                    label: format!("{} {}", words.table, numbered.number),
                    line: lesson.title.value.clone(),
                    ..Entry::default()
                };
                let note = table.note.as_ref().map_or_else(String::new, |note| markdown::plain(&note.value));
                index.enter(entry, &note);
            }
            BlockKind::Example(example) => {
                let Some(numbered) = press.register.examples.get(&block.at) else { continue };
                let entry = Entry {
                    kind: EXAMPLES,
                    title: example.title.value.clone(),
                    href: numbered.address.clone(),
                    label: format!("{} {}", words.example, numbered.number),
                    line: lesson.title.value.clone(),
                    ..Entry::default()
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
