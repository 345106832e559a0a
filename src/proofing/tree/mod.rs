//! Diagnostic trees proved: every way through them followed, every answer laid along its scale.
//!
//! Takes the handbook, its standing values and the air its gauges read against; gives, for every tree, what setting needs
//! to know of it, and the findings. How the trees hang together is worked out once, in `ways`; how answers lie along
//! what is measured, in `scale`. Each kind of finding has a file of its own, which says what it looks for, why it
//! matters, a text that trips it, and the same text mended.

mod lead;
mod ways;

mod asked;
mod interval;
mod scale;

mod order;
mod told;

mod answer_leads_nowhere;
mod name_shared;
mod question_without_answers;
mod start_not_found;

mod circle_without_way_out;
mod not_reached;
mod question_idle;
mod tree_never_entered;

mod kind_of_answer_open;
mod measure_not_known;
mod reading_not_listed;
mod reading_quantity_not_known;
mod work_out;

mod answer_gap;
mod answer_never;
mod answer_not_read;
mod answer_overlap;

mod answer_not_a_choice;
mod choice_not_answered;

mod walk;

mod case_ends_elsewhere;
mod case_never_asked;
mod case_not_read;
mod case_stops;
mod not_walked;

mod check_not_known;
mod check_skipped;
mod check_unlisted;
mod condemned_unproved;

#[cfg(test)]
mod bench;
#[cfg(test)]
mod brute;

pub use interval::{Bound, Interval};
pub use order::WayCount;

use super::ValueFigure;
use crate::fluid::Refrigerant;
use crate::handbook::{FileId, Finding, Handbook, Question, Span, Tree, Weight};
use crate::quantity::{Kind, Pressure};
use crate::trade::{self, Surroundings};
use asked::Asked;
use interval::Figures;
use std::collections::{BTreeMap, BTreeSet};
use ways::{Step, StepId, Ways};

/// What is proved of the trees of a handbook.
#[derive(Clone, Debug, Default)]
pub struct Proved {
    /// By the tree's name.
    pub trees: BTreeMap<String, TreeProof>,
    /// What was found wrong, by file, place and name.
    pub findings: Vec<Finding>,
}

/// What is known of a tree once it has been proved.
#[derive(Clone, Debug)]
pub struct TreeProof {
    /// How many questions it has.
    pub questions: usize,
    /// How many outcomes it has.
    pub outcomes: usize,
    /// How many ways lead through it.
    pub ways: WayCount,
    /// How many cases it has.
    pub cases: usize,
    /// How many answers its questions have between them.
    pub answers: usize,
    /// Those of them that no case walks, its own or another tree's: the question's name and the `when:`.
    pub not_walked: Vec<(String, String)>,
    /// Its questions and outcomes in reading order, those that can be reached: every answer leads forward in it, but for
    /// those that go back on purpose.
    pub steps: Vec<StepProof>,
}

/// What is known of a question or an outcome.
#[derive(Clone, Debug)]
pub struct StepProof {
    /// Its name.
    pub name: String,
    /// What kind of step it is.
    pub step: StepKind,
    /// Its number among the questions, or among the outcomes, of its tree, in reading order, from 1.
    pub number: usize,
    /// Where its answer is worked out: the computation's name, and by input the reading that it is.
    pub worked_out: Option<WorkedOut>,
    /// Questions asked on every way to it, in the order they are asked: of its own tree by their names, of others as
    /// `tree/question`.
    pub always_asked: Vec<String>,
}

/// How the answer to a question is worked out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct WorkedOut {
    /// Name of a computation of the catalogue.
    pub computation: &'static str,
    /// Its inputs, each with the name of the tree's reading that it is.
    pub inputs: Vec<(&'static str, String)>,
}

/// What kind of step of a tree something is.
#[derive(Clone, Debug)]
pub enum StepKind {
    /// A question answered by a figure, and what each of its answers is given for.
    Measured(Kind, Vec<Interval>),
    /// A question answered in words.
    Chosen,
    /// A question whose answers can't be told; a finding says why.
    Open,
    /// An outcome.
    Outcome,
}

/// Proves every tree of a handbook, with its standing values and its refrigerants by designation. Gauge figures are taken
/// at the altitude of `around`, where the air stands at `air`.
pub fn examine(
    book: &Handbook,
    values: &BTreeMap<String, ValueFigure>,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    air: Pressure,
) -> Proved {
    let ways = Ways::draw(book);
    let figures = Figures { book, values, air, roster, around };
    let mut findings = Vec::new();
    circle_without_way_out::look(&ways, &mut findings);
    for tree in book.trees.values() {
        answer_leads_nowhere::look(book, tree, &mut findings);
        name_shared::look(tree, &mut findings);
        question_without_answers::look(tree, &mut findings);
        start_not_found::look(book, tree, &mut findings);
        not_reached::look(&ways, tree, &mut findings);
        question_idle::look(&ways, tree, &mut findings);
        tree_never_entered::look(&ways, tree, &mut findings);
        kind_of_answer_open::look(tree, &mut findings);
        measure_not_known::look(tree, &mut findings);
        reading_not_listed::look(tree, &mut findings);
        reading_quantity_not_known::look(tree, &mut findings);
        work_out::look(tree, &mut findings);
        answer_not_read::look(tree, figures, &mut findings);
        answer_never::look(tree, figures, &mut findings);
        answer_gap::look(tree, figures, &mut findings);
        answer_overlap::look(tree, figures, &mut findings);
        answer_not_a_choice::look(tree, &mut findings);
        choice_not_answered::look(tree, &mut findings);
        check_not_known::look(&ways, tree, &mut findings);
        check_skipped::look(&ways, tree, &mut findings);
        check_unlisted::look(&ways, tree, &mut findings);
        condemned_unproved::look(&ways, tree, &mut findings);
    }
    let walked = walk_cases(&ways, figures, &mut findings);
    let faulty = faulty(&findings);
    let mut trees = BTreeMap::new();
    for tree in book.trees.values() {
        let proof = proof_of(&ways, tree, figures, &walked);
        // With a faulty tree about, cases are let be that might have walked these answers, in this tree or into it.
        if faulty.is_empty() {
            not_walked::look(tree, &proof.not_walked, &mut findings);
        }
        trees.insert(tree.name.clone(), proof);
    }
    findings.sort();
    Proved { trees, findings }
}

/// Files with an error in them.
fn faulty(findings: &[Finding]) -> BTreeSet<FileId> {
    findings.iter().filter(|finding| finding.weight == Weight::Error).map(|finding| finding.at.file).collect()
}

/// Walks the cases of every tree; gives the answers walked, by step and number. A case that leads through a tree with an
/// error in it is let be: where it goes astray it would tell the same fault once more.
fn walk_cases(ways: &Ways, figures: Figures, findings: &mut Vec<Finding>) -> BTreeSet<(StepId, usize)> {
    let faulty = faulty(findings);
    let mut walked = BTreeSet::new();
    for tree in figures.book.trees.values() {
        let ahead = ways.start(tree).map(|start| ways.reached_from(start)).unwrap_or_default();
        let mut on_the_way = ahead.iter().filter_map(|step| ways.at(*step).tree()).chain(std::iter::once(tree));
        if on_the_way.any(|tree| faulty.contains(&tree.at.file)) {
            continue;
        }
        let others = ahead.iter().filter_map(|step| ways.at(*step).question());
        let known: Vec<&str> =
            tree.questions.iter().chain(others).map(|question| question.name.value.as_str()).collect();
        let walks: Vec<_> = tree.cases.iter().map(|case| (case, walk::walk(ways, figures, tree, case))).collect();
        let used: BTreeSet<Span> =
            walks.iter().filter_map(|(_, walk)| walk.as_ref()).flat_map(|walk| walk.used.iter().copied()).collect();
        for (case, walk) in &walks {
            let walk = walk.as_ref();
            case_not_read::look(tree, case, walk, &known, findings);
            case_stops::look(ways, tree, case, walk, findings);
            case_ends_elsewhere::look(figures.book, ways, tree, case, walk, findings);
            case_never_asked::look(tree, case, walk, &used, &known, findings);
            let way = walk.iter().flat_map(|walk| &walk.way);
            walked.extend(way.filter_map(|(step, answer)| answer.map(|number| (*step, number))));
        }
    }
    walked
}

fn proof_of(ways: &Ways, tree: &Tree, figures: Figures, walked: &BTreeSet<(StepId, usize)>) -> TreeProof {
    let answers =
        tree.questions.iter().flat_map(|question| question.answers.iter().enumerate().map(move |a| (question, a)));
    let not_walked = answers
        .filter(|(question, (number, _))| {
            let step = ways.step(tree, &question.name.value);
            step.is_some_and(|step| !walked.contains(&(step, *number)))
        })
        .map(|(question, (_, answer))| (question.name.value.clone(), answer.when.value.clone()))
        .collect();
    let (mut questions, mut outcomes) = (0, 0);
    let steps = order::reading_order(ways, tree)
        .into_iter()
        .map(|id| {
            let (step, number) = match ways.at(id) {
                Step::Question(_, question) => {
                    questions += 1;
                    (step_kind(tree, question, figures), questions)
                }
                _ => {
                    outcomes += 1;
                    (StepKind::Outcome, outcomes)
                }
            };
            let always_asked = ways.always_asked(id).unwrap_or_default().into_iter().map(|before| {
                let name = ways.at(before).name();
                match ways.at(before).tree() {
                    Some(other) if other.name != tree.name => format!("{}/{name}", other.name),
                    _ => name.to_owned(),
                }
            });
            let worked_out = ways.at(id).question().and_then(|question| {
                let computation = trade::find(&question.work_out.as_ref()?.computation.value)?.name;
                Some(WorkedOut { computation, inputs: work_out::inputs(tree, question) })
            });
            let name = ways.at(id).name().to_owned();
            StepProof { name, step, number, worked_out, always_asked: always_asked.collect() }
        })
        .collect();
    TreeProof {
        questions: tree.questions.len(),
        outcomes: tree.outcomes.len(),
        ways: order::count(ways, tree),
        cases: tree.cases.len(),
        answers: tree.questions.iter().map(|question| question.answers.len()).sum(),
        not_walked,
        steps,
    }
}

fn step_kind(tree: &Tree, question: &Question, figures: Figures) -> StepKind {
    match asked::asked(tree, question) {
        Asked::Words => StepKind::Chosen,
        Asked::Open => StepKind::Open,
        Asked::Figure(kind) => match answer_not_read::intervals(tree, question, figures) {
            Some(read) => StepKind::Measured(kind, read.into_iter().map(|(_, interval)| interval).collect()),
            None => StepKind::Open,
        },
    }
}
