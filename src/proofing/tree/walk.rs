//! A case walked through its tree: at every question the answer that the case gives, to an outcome or to where it stops.

use super::answer_not_read::intervals;
use super::asked::{Asked, asked};
use super::choice_not_answered::choices_row;
use super::interval::Figures;
use super::ways::{Step, StepId, Way, Ways};
use super::work_out::{NotWorked, work_out};
use crate::handbook::{Case, Question, Span, Spot, Tree};
use crate::quantity::{ReadingError, nearest, plain_words, read};
use std::collections::{BTreeMap, BTreeSet};

/// A case walked.
#[derive(Debug)]
pub(super) struct Walk<'a> {
    /// The steps and the answers given; the last is where it ends.
    pub(super) way: Way,
    /// How it ends.
    pub(super) end: End<'a>,
    /// Places of the answers and readings of the case that were asked for.
    pub(super) used: BTreeSet<Span>,
}

/// How a walk ends.
#[derive(Debug)]
pub(super) enum End<'a> {
    /// At an outcome.
    Outcome(StepId),
    /// At the beginning of another tree, where the case has nothing more to say.
    Into,
    /// At a question that the case has no answer to.
    Unanswered(&'a Question),
    /// At a question that is worked out of a reading the case does not have.
    Lacking(&'a Question, String),
    /// At an answer or a reading of the case, here, that can't be read as one.
    NotRead(Span, String, Option<String>),
    /// At a question come to again with no other answer to give.
    Round(&'a Question),
    /// At a fault of the tree itself, which is a finding of its own.
    Fault,
}

/// What a case says, with what it has from the case it is like.
#[derive(Debug, Default)]
pub(super) struct Told<'a> {
    answers: BTreeMap<&'a str, &'a [Spot<String>]>,
    readings: BTreeMap<String, &'a Spot<String>>,
}

impl<'a> Told<'a> {
    /// What `case` of `tree` says. A `like:` that leads nowhere or round is let be.
    pub(super) fn by(tree: &'a Tree, case: &'a Case) -> Self {
        let mut told = Self::default();
        let mut seen = BTreeSet::new();
        let mut next = Some(case);
        while let Some(case) = next.filter(|case| seen.insert(case.name.at)) {
            for (question, answers) in &case.answers {
                told.answers.entry(&question.value).or_insert(answers);
            }
            for (reading, figure) in &case.readings {
                told.readings.entry(plain_words(&reading.value)).or_insert(figure);
            }
            next = case.like.as_ref().and_then(|like| tree.case(&like.value));
        }
        told
    }

    /// The answers to a question: under `tree/question`, or under the question's own name.
    fn answers_to(&self, tree: &Tree, question: &Question) -> Option<&'a [Spot<String>]> {
        let name = question.name.value.as_str();
        let long = format!("{}/{name}", tree.name);
        self.answers.get(long.as_str()).or_else(|| self.answers.get(name)).copied()
    }

    /// The reading that a question measures, where it measures one.
    fn reading_for(&self, question: &Question) -> Option<&'a Spot<String>> {
        self.readings.get(&plain_words(&question.measure.as_ref()?.value)).copied()
    }
}

/// Walks a case.
pub(super) fn walk<'a>(ways: &Ways<'a>, figures: Figures, tree: &'a Tree, case: &'a Case) -> Option<Walk<'a>> {
    let told = Told::by(tree, case);
    let mut asked_before: BTreeMap<StepId, usize> = BTreeMap::new();
    let mut walk = Walk { way: Vec::new(), end: End::Fault, used: BTreeSet::new() };
    let mut step = ways.start(tree)?;
    loop {
        let (here, question) = match ways.at(step) {
            Step::Question(here, question) => (here, question),
            Step::Outcome(..) => {
                walk.way.push((step, None));
                walk.end = End::Outcome(step);
                return Some(walk);
            }
            Step::Outside => return Some(walk),
        };
        // A case that says it ends at another tree's beginning ends there.
        if !walk.way.is_empty() && case.ends.value.strip_prefix("tree:").is_some_and(|name| name.trim() == here.name) {
            walk.end = End::Into;
            return Some(walk);
        }
        let times = asked_before.entry(step).or_default();
        let given = match told.answers_to(here, question) {
            Some(answers) => {
                // The last answer given holds from then on, but the same answers would only lead round again.
                if *times > 0 && *times >= answers.len() {
                    walk.end = End::Round(question);
                    walk.way.push((step, None));
                    return Some(walk);
                }
                answers.get(*times)
            }
            None if *times > 0 => {
                walk.end = End::Round(question);
                walk.way.push((step, None));
                return Some(walk);
            }
            None => told.reading_for(question),
        };
        *times += 1;
        let answer = match given {
            Some(given) => {
                walk.used.insert(given.at);
                answer_given(here, question, given, figures)
            }
            None if question.work_out.is_some() => match work_out(here, question, &told.readings, figures) {
                Ok((value, used)) => {
                    walk.used.extend(used.iter().map(|reading| reading.at));
                    Ok(answer_holding(here, question, value.si, figures))
                }
                Err(NotWorked::Lacking(reading)) => Err(End::Lacking(question, reading)),
                Err(NotWorked::Finding(finding)) => Err(End::NotRead(finding.at, finding.says, finding.instead)),
                Err(NotWorked::Impossible(says)) => Err(End::NotRead(case.name.at, says, None)),
                Err(NotWorked::Told) => Ok(None),
            },
            None => Err(End::Unanswered(question)),
        };
        match answer {
            Ok(Some(number)) => {
                walk.way.push((step, Some(number)));
                let lead = ways.leads(step).into_iter().find(|(answer, _)| *answer == Some(number));
                let Some((_, next)) = lead else { return Some(walk) };
                step = next;
            }
            Ok(None) => return Some(walk),
            Err(end) => {
                walk.way.push((step, None));
                walk.end = end;
                return Some(walk);
            }
        }
    }
}

/// The number of the answer that `given` is; none where the tree itself is at fault.
fn answer_given<'a>(
    tree: &Tree,
    question: &Question,
    given: &Spot<String>,
    figures: Figures,
) -> Result<Option<usize>, End<'a>> {
    match asked(tree, question) {
        Asked::Open => Ok(None),
        Asked::Words => {
            let number = question.answers.iter().position(|answer| answer.when.value == given.value);
            if number.is_some() || question.choices.iter().any(|choice| choice.value == given.value) {
                return Ok(number);
            }
            let choices = question.choices.iter().map(|choice| choice.value.as_str());
            let instead = nearest(&given.value, choices)
                .map_or_else(|| format!("one of {}", choices_row(question)), |choice| format!("`{choice}`"));
            let says = format!("`{}` is no answer to `{}`", given.value, question.name.value);
            Err(End::NotRead(given.at, says, Some(instead)))
        }
        Asked::Figure(kind) => {
            let read = read(&given.value, Some(kind)).and_then(|written| written.value(figures.air));
            let says = |error: ReadingError| error.to_string().replace('\u{a0}', " ");
            let value = read.map_err(|error| End::NotRead(given.at, says(error), None))?;
            Ok(answer_holding(tree, question, value.si, figures))
        }
    }
}

/// The number of the answer that is given for an SI value; none where the tree has none, or one that can't be read.
fn answer_holding(tree: &Tree, question: &Question, si: f64, figures: Figures) -> Option<usize> {
    let intervals = intervals(tree, question, figures)?;
    intervals.iter().find(|(_, interval)| interval.holds(si)).map(|(number, _)| *number)
}
