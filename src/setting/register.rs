//! The register: number, address and title of everything a page can point at, and what points at it.
//!
//! Takes a handbook, gives look-ups. Everything is numbered in reading order, as a printer would: leaves `3·2` by part and
//! place, tables and examples `3·1` by part in the order in which they stand.

use super::address;
use super::print;
use crate::handbook::{BlockKind, Handbook, Leaf, Link, Problem, Scheme, Span, Tree};
use crate::trade;
use std::collections::{BTreeMap, BTreeSet};

/// Something a link of ours can lead to.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Target {
    Lesson(String),
    Term(String),
    Table(String),
    Tree(String),
    Refrigerant(String),
    Source(String),
    Value(String),
    Sheet(String),
    Practice(String),
    Computation(String),
}

impl Target {
    /// What a link leads to; none for figures and for what lies outside.
    pub(super) fn of(link: &Link) -> Option<Self> {
        let name = || link.to.value.clone();
        Some(match link.scheme {
            Scheme::Lesson => Self::Lesson(name()),
            Scheme::Term => Self::Term(name()),
            Scheme::Table => Self::Table(name()),
            Scheme::Tree => Self::Tree(name()),
            Scheme::Refrigerant => Self::Refrigerant(name()),
            Scheme::Source => Self::Source(name()),
            Scheme::Value => Self::Value(name()),
            Scheme::Sheet => Self::Sheet(name()),
            Scheme::Practice => Self::Practice(name()),
            Scheme::Computation => Self::computation(&link.to.value),
            Scheme::Figure | Scheme::As | Scheme::Outside => return None,
        })
    }

    /// A computation of the catalogue, by the name an author wrote.
    fn computation(name: &str) -> Self {
        Self::Computation(trade::find(name).map_or(name, |known| known.name).to_owned())
    }
}

/// A page that stands on another, or is used by it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct PageRef {
    /// Its place among all pages, for sorting.
    pub(super) order: usize,
    /// Its path below the handbook's folder.
    pub(super) path: String,
    /// Its number, `3·2`; empty where it has none.
    pub(super) label: String,
    /// Its title, plain.
    pub(super) title: String,
}

/// Where a table or an example stands and what it is numbered.
#[derive(Clone, Debug)]
pub(super) struct Numbered {
    /// `8·2`.
    pub(super) number: String,
    /// Path and anchor.
    pub(super) address: String,
    /// Name of the lesson it stands in.
    pub(super) lesson: String,
}

/// A lesson's place in the book.
#[derive(Clone, Debug)]
pub(super) struct LessonPlace {
    pub(super) page: PageRef,
    /// Number of its part, from 1.
    pub(super) part: usize,
}

/// See the module.
#[derive(Debug, Default)]
pub(super) struct Register {
    pub(super) lessons: BTreeMap<String, LessonPlace>,
    /// Tables by name.
    pub(super) tables: BTreeMap<String, Numbered>,
    /// Examples by the place of their block.
    pub(super) examples: BTreeMap<Span, Numbered>,
    /// The page of each tree.
    pub(super) trees: BTreeMap<String, PageRef>,
    /// The page of each refrigerant.
    pub(super) refrigerants: BTreeMap<String, PageRef>,
    /// The page of each job sheet.
    pub(super) sheets: BTreeMap<String, PageRef>,
    /// The page of each problem set.
    pub(super) problem_sets: BTreeMap<String, PageRef>,
    /// Plates and problems in lessons, by the place of their block.
    pub(super) plates: BTreeMap<Span, String>,
    /// The part in whose cut of the thumb index a tree or refrigerant is kept: that of the lesson that sets it.
    homes: BTreeMap<Target, usize>,
    used_in: BTreeMap<Target, BTreeSet<PageRef>>,
}

impl Register {
    /// Goes once through the handbook and numbers everything.
    pub(super) fn of(book: &Handbook) -> Self {
        let mut register = Self::default();
        let leaves = book.in_order();
        let trees = leaves.len();
        for (order, leaf) in leaves.iter().enumerate() {
            register.enter_lesson(order, leaf);
        }
        for (i, tree) in book.trees.values().enumerate() {
            let path = address::tree(&tree.name);
            let page = PageRef { order: trees + i, path, label: String::new(), title: tree.title.value.clone() };
            register.trees.insert(tree.name.clone(), page);
        }
        for (i, designation) in book.refrigerants.keys().enumerate() {
            let order = trees + book.trees.len() + i;
            let path = address::refrigerant(designation);
            let page = PageRef { order, path, label: String::new(), title: designation.clone() };
            register.refrigerants.insert(designation.clone(), page);
        }
        let first = trees + book.trees.len() + book.refrigerants.len();
        for (i, sheet) in book.sheets.values().enumerate() {
            let path = address::sheet(&sheet.name);
            let page = PageRef { order: first + i, path, label: String::new(), title: sheet.title.value.clone() };
            register.sheets.insert(sheet.name.clone(), page);
        }
        for (i, set) in book.problem_sets.values().enumerate() {
            let path = address::problem_set(&set.name);
            let order = first + book.sheets.len() + i;
            let page = PageRef { order, path, label: String::new(), title: set.title.value.clone() };
            register.problem_sets.insert(set.name.clone(), page);
        }
        for leaf in &leaves {
            register.enter_uses_of_lesson(leaf);
        }
        for sheet in book.sheets.values() {
            let page = register.sheets[&sheet.name].clone();
            sheet.links.values().flatten().for_each(|link| register.enter_link(link, &page));
            let sums = sheet.steps.iter().filter_map(|step| step.work_out.as_ref());
            sums.for_each(|sum| register.use_of(Target::computation(&sum.value), &page));
            sheet.lessons.iter().for_each(|lesson| register.use_of(Target::Lesson(lesson.value.clone()), &page));
            sheet.trees.iter().for_each(|tree| register.use_of(Target::Tree(tree.value.clone()), &page));
        }
        for set in book.problem_sets.values() {
            let page = register.problem_sets[&set.name].clone();
            set.say_links.iter().for_each(|link| register.enter_link(link, &page));
            set.problems.iter().for_each(|problem| register.enter_problem(problem, &page));
            set.lesson.iter().for_each(|lesson| register.use_of(Target::Lesson(lesson.value.clone()), &page));
        }
        register.house_trees(&leaves);
        for tree in book.trees.values() {
            register.enter_uses_of_tree(tree);
        }
        for (designation, entry) in &book.refrigerants {
            let page = register.refrigerants[designation].clone();
            for source in &entry.sources {
                register.use_of(Target::Source(source.value.clone()), &page);
            }
        }
        register
    }

    fn enter_lesson(&mut self, order: usize, leaf: &Leaf<'_>) {
        let lesson = leaf.lesson;
        let path = address::lesson(&lesson.name);
        let page = PageRef { order, path: path.clone(), label: leaf.label(), title: lesson.title.value.clone() };
        self.lessons.insert(lesson.name.clone(), LessonPlace { page, part: leaf.part_number });
        let part = format!("{}·", leaf.part_number);
        for block in &lesson.blocks {
            let lesson = lesson.name.clone();
            match &block.kind {
                BlockKind::SaturationTable(table) => {
                    let of_part = self.tables.values().filter(|t| t.number.starts_with(&part)).count();
                    let number = format!("{part}{}", of_part + 1);
                    let address = format!("{path}#{}", table_anchor(&table.name));
                    self.tables.entry(table.name.clone()).or_insert(Numbered { number, address, lesson });
                    let home = Target::Refrigerant(table.refrigerant.value.clone());
                    self.homes.entry(home).or_insert(leaf.part_number);
                }
                BlockKind::ComputedTable(table) => {
                    let of_part = self.tables.values().filter(|t| t.number.starts_with(&part)).count();
                    let number = format!("{part}{}", of_part + 1);
                    let address = format!("{path}#{}", table_anchor(&table.name.value));
                    self.tables.entry(table.name.value.clone()).or_insert(Numbered { number, address, lesson });
                }
                BlockKind::Plate(_) | BlockKind::Drawing(_) => {
                    let of_part = self.plates.values().filter(|number| number.starts_with(&part)).count();
                    self.plates.insert(block.at, format!("{part}{}", of_part + 1));
                }
                BlockKind::Example(_) => {
                    let of_part = self.examples.values().filter(|e| e.number.starts_with(&part)).count();
                    let number = format!("{part}{}", of_part + 1);
                    let address = format!("{path}#{}", example_anchor(&number));
                    self.examples.insert(block.at, Numbered { number, address, lesson });
                }
                BlockKind::Tree(tree) => {
                    self.homes.entry(Target::Tree(tree.tree.value.clone())).or_insert(leaf.part_number);
                }
                _ => {}
            }
        }
    }

    fn enter_uses_of_lesson(&mut self, leaf: &Leaf<'_>) {
        let lesson = leaf.lesson;
        let page = self.lessons[&lesson.name].page.clone();
        for need in &lesson.needs {
            self.use_of(Target::Lesson(need.value.clone()), &page);
        }
        for link in &lesson.links {
            self.enter_link(link, &page);
        }
        for block in &lesson.blocks {
            match &block.kind {
                BlockKind::Example(example) => {
                    example.so_links.iter().for_each(|link| self.enter_link(link, &page));
                    example.steps.iter().for_each(|step| self.use_of(Target::computation(&step.find.value), &page));
                }
                BlockKind::ComputedTable(table) => {
                    table.note_links.iter().for_each(|link| self.enter_link(link, &page));
                    self.use_of(Target::computation(&table.find.value), &page);
                }
                BlockKind::Form(form) => self.use_of(Target::computation(&form.find.value), &page),
                BlockKind::Practice(problem) => self.enter_problem(problem, &page),
                BlockKind::SaturationTable(table) => {
                    self.use_of(Target::Refrigerant(table.refrigerant.value.clone()), &page);
                }
                BlockKind::Tree(tree) => self.use_of(Target::Tree(tree.tree.value.clone()), &page),
                _ => {}
            }
        }
    }

    /// Trees that no lesson sets in place are kept with the part that sets most of the others, or that sends to trees most
    /// often: the part on diagnosing, whatever its author calls it.
    fn house_trees(&mut self, leaves: &[Leaf<'_>]) {
        let mut sent: BTreeMap<usize, usize> = BTreeMap::new();
        for (_, part) in self.homes.iter().filter(|(target, _)| matches!(target, Target::Tree(_))) {
            // One set in place weighs more than any number sent to.
            *sent.entry(*part).or_default() += 1000;
        }
        for leaf in leaves {
            let links = leaf.lesson.links.iter().filter(|link| link.scheme == Scheme::Tree);
            *sent.entry(leaf.part_number).or_default() += links.count();
        }
        let most = sent.into_iter().filter(|(_, links)| *links > 0).max_by_key(|(part, links)| (*links, *part));
        if let Some((part, _)) = most {
            for name in self.trees.keys() {
                self.homes.entry(Target::Tree(name.clone())).or_insert(part);
            }
        }
    }

    fn enter_uses_of_tree(&mut self, tree: &Tree) {
        let page = self.trees[&tree.name].clone();
        for link in tree.links.values().flatten() {
            self.enter_link(link, &page);
        }
        for sum in tree.questions.iter().filter_map(|question| question.work_out.as_ref()) {
            self.use_of(Target::computation(&sum.computation.value), &page);
        }
        for answer in tree.questions.iter().flat_map(|q| &q.answers) {
            if let Some((_, name)) = answer.when.value.split_once("value:") {
                self.use_of(Target::Value(name.trim().to_owned()), &page);
            }
        }
    }

    fn enter_problem(&mut self, problem: &Problem, page: &PageRef) {
        problem.say_links.iter().for_each(|link| self.enter_link(link, page));
        problem.steps.iter().for_each(|step| self.use_of(Target::computation(&step.find.value), page));
    }

    fn enter_link(&mut self, link: &Link, page: &PageRef) {
        for (_, given) in &link.query {
            if self.refrigerants.contains_key(&given.value) {
                self.use_of(Target::Refrigerant(given.value.clone()), page);
            }
        }
        if link.scheme == Scheme::Figure {
            self.use_of(Target::computation(&link.to.value), page);
        }
        let Some(target) = Target::of(link) else { return };
        self.use_of(target, page);
    }

    fn use_of(&mut self, target: Target, page: &PageRef) {
        self.used_in.entry(target).or_default().insert(page.clone());
    }

    /// The pages that lead to `target`, in reading order, without the page `from` itself.
    pub(super) fn used_in<'a>(&'a self, target: &Target, from: &'a str) -> impl Iterator<Item = &'a PageRef> {
        self.used_in.get(target).into_iter().flatten().filter(move |page| page.path != from)
    }

    /// The part whose cut is marked on the page of `target`.
    pub(super) fn home(&self, target: &Target) -> Option<usize> {
        match target {
            Target::Lesson(name) => self.lessons.get(name).map(|place| place.part),
            other => self.homes.get(other).copied(),
        }
    }

    /// Path and anchor of `target`, where the handbook has it.
    pub(super) fn address(&self, target: &Target, book: &Handbook) -> Option<String> {
        match target {
            Target::Lesson(name) => self.lessons.get(name).map(|place| place.page.path.clone()),
            Target::Table(name) => self.tables.get(name).map(|table| table.address.clone()),
            Target::Tree(name) => self.trees.get(name).map(|page| page.path.clone()),
            Target::Refrigerant(name) => self.refrigerants.get(name).map(|page| page.path.clone()),
            Target::Term(name) => book.terms.contains_key(name).then(|| term_address(name)),
            Target::Source(name) => book.sources.contains_key(name).then(|| source_address(name)),
            Target::Value(name) => book.values.contains_key(name).then(|| value_address(name)),
            Target::Sheet(name) => self.sheets.get(name).map(|page| page.path.clone()),
            Target::Practice(name) => self.problem_sets.get(name).map(|page| page.path.clone()),
            Target::Computation(name) => trade::find(name).map(|known| address::computation(known.name)),
        }
    }

    /// The number a printed link to `target` gives, `3·2`.
    pub(super) fn label(&self, target: &Target) -> Option<&str> {
        let label = match target {
            Target::Lesson(name) => &self.lessons.get(name)?.page.label,
            Target::Table(name) => &self.lessons.get(&self.tables.get(name)?.lesson)?.page.label,
            _ => return None,
        };
        Some(label)
    }
}

/// Path and anchor of a term.
pub(super) fn term_address(name: &str) -> String {
    format!("{}#{}", address::TERMS, print::anchor(name))
}

/// Path and anchor of a source.
pub(super) fn source_address(key: &str) -> String {
    format!("{}#{}", address::SOURCES, print::anchor(key))
}

/// Path and anchor of a standing value.
pub(super) fn value_address(name: &str) -> String {
    format!("{}#{}", address::VALUES, print::anchor(name))
}

/// Anchor of a table on its page.
pub(super) fn table_anchor(name: &str) -> String {
    format!("table-{}", print::anchor(name))
}

/// Anchor of an example on its page, from its number.
pub(super) fn example_anchor(number: &str) -> String {
    format!("example-{}", print::anchor(number))
}
