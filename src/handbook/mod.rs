//! What a handbook is once it has been read: lessons, refrigerants, trees, standing values, terms, sources and notices,
//! and where in the author's files each of them stands.
//!
//! Plain data, no input or output and no sums: `reading` makes it, `proofing` examines it, `setting` sets it.

mod block;
mod finding;
mod front;
mod lesson;
mod list;
mod raster;
mod refrigerant;
mod sheet;
mod span;
mod tree;

pub use block::{
    Block, BlockKind, CodeBlock, ComputedTable, Drawing, DrawingList, Example, ExampleStep, Form, GivenLine, Plate,
    Problem, ProblemStep, SaturationTable, Supplied, Supply, TreeBlock,
};
pub use finding::{Finding, Seen, Weight};
pub use front::{Base, Front, Keys, Part, UnitsFirst};
pub use lesson::{Heading, Lesson, Link, NoticeBlock, Query, Scheme, Signal};
pub use list::{Hazard, Source, SourceKind, StandingValue, Term};
pub use raster::{Dots, Raster, RasterFault};
pub use refrigerant::{Gwp, MadeOf, PointTable, RefrigerantEntry};
pub use sheet::{ProblemSet, Sheet, SheetStep};
pub use span::{FileId, Files, SourceFile, Span, Spot};
pub use tree::{Answer, Case, Outcome, Question, Reading, Tree, WorkOut};

use std::collections::{BTreeMap, BTreeSet};

/// One handbook, read whole. Maps are kept in name order, so that everything made from them comes out in the same order.
#[derive(Clone, Debug, Default)]
pub struct Handbook {
    /// The author's files, by which spans are looked up.
    pub files: Files,
    /// Lists that could not be read, by file name: what they would have named is not missed as well.
    pub unread: BTreeSet<String>,
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
    /// Job sheets by name (the file's).
    pub sheets: BTreeMap<String, Sheet>,
    /// Problem sets by name (the file's).
    pub problem_sets: BTreeMap<String, ProblemSet>,
    /// Pictures by their path below the handbook's folder, `pictures/valve.svg`.
    pub pictures: BTreeMap<String, FileId>,
    /// Those of them that are made of dots and not of lines, by the same path.
    pub rasters: BTreeMap<String, Raster>,
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
            lessons.sort_by_cached_key(|l| {
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
                BlockKind::ComputedTable(table) => table.note_links.iter(),
                BlockKind::Practice(problem) => problem.say_links.iter(),
                _ => [].iter(),
            });
            lesson.links.iter().chain(conclusions)
        });
        let trees = self.trees.values().flat_map(|tree| tree.links.values().flatten());
        let terms = self.terms.values().flat_map(|term| term.means_links.iter());
        let sheets = self.sheets.values().flat_map(|sheet| sheet.links.values().flatten());
        let sets = self.problem_sets.values().flat_map(|set| {
            set.say_links.iter().chain(set.problems.iter().flat_map(|problem| problem.say_links.iter()))
        });
        lessons.chain(trees).chain(terms).chain(sheets).chain(sets)
    }

    /// Every problem of the handbook: those in lessons in the order of the lessons' names, then those of the sets.
    pub fn problems(&self) -> impl Iterator<Item = &Problem> {
        let blocks = self.lessons.values().flat_map(|lesson| &lesson.blocks);
        let in_lessons = blocks.filter_map(|block| match &block.kind {
            BlockKind::Practice(problem) => Some(problem),
            _ => None,
        });
        in_lessons.chain(self.problem_sets.values().flat_map(|set| &set.problems))
    }

    /// The lesson each table of the handbook stands in, by the table's name.
    pub fn tables(&self) -> BTreeMap<&str, &Lesson> {
        let mut tables = BTreeMap::new();
        for lesson in self.lessons.values() {
            for block in &lesson.blocks {
                if let Some(name) = block.table_name() {
                    tables.entry(name).or_insert(lesson);
                }
            }
        }
        tables
    }
}
