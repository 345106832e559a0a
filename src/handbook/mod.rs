//! What a handbook is once it has been read: lessons, refrigerants, trees, standing values, terms, sources and notices,
//! and where in the author's files each of them stands.
//!
//! Plain data, no input or output and no sums: `reading` makes it, `proofing` examines it, `setting` sets it.

mod finding;
mod front;
mod lesson;
mod list;
mod refrigerant;
mod span;
mod tree;

pub use finding::{Finding, Seen, Weight};
pub use front::{Front, Part, UnitsFirst};
pub use lesson::{
    Block, BlockKind, CodeBlock, Example, ExampleStep, GivenLine, Heading, Lesson, Link, NoticeBlock, Query,
    SaturationTable, Scheme, Signal, TreeBlock,
};
pub use list::{Hazard, Source, SourceKind, StandingValue, Term};
pub use refrigerant::{Gwp, MadeOf, RefrigerantEntry};
pub use span::{FileId, Files, SourceFile, Span, Spot};
pub use tree::{Answer, Outcome, Question, Reading, Tree};

use std::collections::BTreeMap;

/// One handbook, read whole. Maps are kept in name order, so that everything made from them comes out in the same order.
#[derive(Clone, Debug, Default)]
pub struct Handbook {
    /// The author's files, by which spans are looked up.
    pub files: Files,
    /// `handbook.yaml`: title, house, edition, altitude, parts.
    pub front: Front,
    /// Lessons by name, in no reading order; [`Handbook::in_order`] gives that.
    pub lessons: BTreeMap<String, Lesson>,
    /// Refrigerants by designation.
    pub refrigerants: BTreeMap<String, RefrigerantEntry>,
    /// Diagnostic trees by name (the file's).
    pub trees: BTreeMap<String, Tree>,
    /// Standing values by name.
    pub values: BTreeMap<String, StandingValue>,
    /// Sources by key.
    pub sources: BTreeMap<String, Source>,
    /// Terms by name.
    pub terms: BTreeMap<String, Term>,
    /// Standing notices by the name of their hazard.
    pub hazards: BTreeMap<String, Hazard>,
}

/// Where a lesson stands in reading order.
#[derive(Clone, Copy, Debug)]
pub struct Leaf<'a> {
    /// Number of its part, from 1, counted over the parts as the front lists them.
    pub part_number: usize,
    /// The part.
    pub part: &'a Part,
    /// Number of the lesson within its part, from 1.
    pub number: usize,
    /// The lesson.
    pub lesson: &'a Lesson,
}

impl Leaf<'_> {
    /// The leaf's number as readers see it, `3·2`.
    pub fn label(&self) -> String {
        format!("{}·{}", self.part_number, self.number)
    }
}

impl Handbook {
    /// All lessons in reading order: parts as the front lists them, lessons as the part lists them and then by name.
    pub fn in_order(&self) -> Vec<Leaf<'_>> {
        let mut leaves = Vec::with_capacity(self.lessons.len());
        for (index, part) in self.front.parts.iter().enumerate() {
            let mut lessons: Vec<&Lesson> = self.lessons.values().filter(|l| l.part == part.name.value).collect();
            lessons.sort_by_key(|l| {
                let listed = part.lessons.iter().position(|name| name.value == l.name);
                (listed.unwrap_or(usize::MAX), l.name.clone())
            });
            leaves.extend(lessons.into_iter().enumerate().map(|(i, lesson)| Leaf {
                part_number: index + 1,
                part,
                number: i + 1,
                lesson,
            }));
        }
        leaves
    }

    /// Every link of the handbook: of lessons, of the conclusions of examples, of trees and of terms.
    pub fn links(&self) -> impl Iterator<Item = &Link> {
        let lessons = self.lessons.values().flat_map(|lesson| {
            let conclusions = lesson.blocks.iter().flat_map(|block| match &block.kind {
                BlockKind::Example(example) => example.so_links.iter(),
                _ => [].iter(),
            });
            lesson.links.iter().chain(conclusions)
        });
        let trees = self.trees.values().flat_map(|tree| tree.links.values().flatten());
        let terms = self.terms.values().flat_map(|term| term.means_links.iter());
        lessons.chain(trees).chain(terms)
    }

    /// The saturation tables of the handbook by name, each with the lesson it stands in.
    pub fn tables(&self) -> BTreeMap<&str, (&Lesson, &SaturationTable)> {
        let mut tables = BTreeMap::new();
        for lesson in self.lessons.values() {
            for block in &lesson.blocks {
                if let BlockKind::SaturationTable(table) = &block.kind {
                    tables.entry(table.name.as_str()).or_insert((lesson, table));
                }
            }
        }
        tables
    }
}
