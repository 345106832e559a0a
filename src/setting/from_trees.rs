//! What proofing knows of trees, made ready to be set: the order of their questions, their answers in both systems of
//! units, and what a reader is asked to take at each question. Computes nothing.

use super::figure::{SetAsking, SetRun, SetTaken, SetUnit};
use super::from_proof::{both, range};
use super::print::Both;
use super::words::{Words, fill};
use crate::handbook::{Question, Span, Tree};
use crate::proofing::Proof;
use crate::proofing::tree::{Bound, Interval, StepKind, TreeProof};
use crate::quantity::{Kind, Pressure, System, Unit, unit};
use crate::trade::{self, InputKind};

/// Names of a tree's questions in reading order.
pub(super) fn order(tree: &TreeProof) -> Vec<String> {
    let questions = tree.steps.iter().filter(|step| !matches!(step.step, StepKind::Outcome));
    questions.map(|step| step.name.clone()).collect()
}

/// The answers of a tree that are figures, by the place of their text.
pub(super) fn answers(tree: &Tree, proof: &Proof, words: &Words) -> Vec<(Span, Both)> {
    let Some(proved) = proof.trees.get(&tree.name) else { return Vec::new() };
    let mut set = Vec::new();
    for step in &proved.steps {
        if let StepKind::Measured(_, intervals) = &step.step
            && let Some(question) = tree.question(&step.name)
        {
            let shown = intervals.iter().map(|interval| bounds(interval, words, proof.air));
            set.extend(question.answers.iter().map(|answer| answer.when.at).zip(shown));
        }
    }
    set
}

/// What an answer is given for, in words. Its lower bound belongs to it and its upper one does not.
fn bounds(interval: &Interval, words: &Words, air: Pressure) -> Both {
    let said = |words: &str, bound: &Bound| both(|system| fill(words, "figure", &bound.written.shown_in(system, air)));
    match (&interval.from, &interval.to) {
        (None, None) => both(|_| words.answer_any.clone()),
        (None, Some(to)) => said(&words.answer_below, to),
        (Some(from), None) => said(&words.answer_above, from),
        (Some(from), Some(to)) => range(&from.written, &to.written, words, air),
    }
}

/// What is taken at the questions of a tree that are answered by a figure, by the place of the question's name.
pub(super) fn takes(tree: &Tree, proof: &Proof) -> Vec<(Span, SetAsking)> {
    let Some(proved) = proof.trees.get(&tree.name) else { return Vec::new() };
    let mut takes = Vec::new();
    for step in &proved.steps {
        let StepKind::Measured(kind, intervals) = &step.step else { continue };
        let Some(question) = tree.question(&step.name) else { continue };
        let runs = intervals.iter().map(|run| {
            let si = |bound: &Option<Bound>| bound.as_ref().map(|bound| bound.si);
            SetRun { from: si(&run.from), to: si(&run.to) }
        });
        let computation = step.worked_out.as_ref().and_then(|worked| trade::find(worked.computation));
        let blanks = match (&step.worked_out, computation) {
            (Some(worked), Some(computation)) => worked
                .inputs
                .iter()
                .filter_map(|(name, reading)| {
                    let input = computation.input(name)?;
                    let kind = match input.kind {
                        InputKind::Refrigerant => None,
                        InputKind::Quantity(kind) => Some(kind),
                    };
                    Some(blank(name, reading, kind, input.required(), &[]))
                })
                .collect(),
            _ => vec![blank("", &measured(tree, question), Some(*kind), true, intervals)],
        };
        let sum = computation.map(|computation| computation.name.to_owned());
        takes.push((question.name.at, SetAsking { blanks, sum, runs: runs.collect() }));
    }
    takes
}

/// What is measured at a question, as its readers call it: the reading of the tree, or what the question is about.
fn measured(tree: &Tree, question: &Question) -> String {
    let measure = question.measure.as_ref().map_or("", |measure| measure.value.as_str());
    tree.reading(measure).map_or(measure, |reading| &reading.name.value).to_owned()
}

fn blank(input: &str, reading: &str, kind: Option<Kind>, required: bool, intervals: &[Interval]) -> SetTaken {
    let bounds = intervals.iter().flat_map(|run| [&run.from, &run.to]).flatten();
    SetTaken {
        input: input.to_owned(),
        reading: reading.to_owned(),
        kind: kind.map(|kind| kind.name().to_owned()),
        required,
        below_nought: matches!(kind, Some(Kind::Temperature | Kind::TemperatureDifference | Kind::Pressure)),
        units: kind.map_or_else(Vec::new, |kind| units(kind, bounds)),
    }
}

/// The units a reading may be typed in: those at home in either system, those its instruments show, and those the
/// bounds are written in.
fn units<'a>(kind: Kind, bounds: impl Iterator<Item = &'a Bound>) -> Vec<SetUnit> {
    let shown: &[&'static Unit] = match kind {
        Kind::Pressure => &[&unit::INCH_OF_MERCURY_OF_VACUUM, &unit::KILOPASCAL_GAUGE],
        Kind::Ratio => &[&unit::PERCENT],
        _ => &[],
    };
    let at_home = [kind.unit_in(System::Us), kind.unit_in(System::Si)];
    let mut units: Vec<&'static Unit> = Vec::new();
    for unit in at_home.into_iter().chain(shown.iter().copied()).chain(bounds.map(|bound| bound.written.unit)) {
        if !units.contains(&unit) {
            units.push(unit);
        }
    }
    let set = |unit: &&'static Unit| SetUnit {
        symbol: unit.symbol.to_owned(),
        us: *unit == at_home[0],
        si: *unit == at_home[1],
    };
    units.iter().map(set).collect()
}
