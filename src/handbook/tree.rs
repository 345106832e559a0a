//! A diagnostic tree: questions, answers that lead on, outcomes.

use super::{Link, Span, Spot};
use crate::quantity::plain_words;
use std::collections::BTreeMap;

/// A tree as read. Questions and outcomes keep the author's order.
#[derive(Clone, Debug)]
pub struct Tree {
    /// Name: the file's, without `.yaml`.
    pub name: String,
    /// The whole file.
    pub at: Span,
    /// Title: the symptom.
    pub title: Spot<String>,
    /// What it is for.
    pub purpose: Option<String>,
    /// Whether a technician may begin with it. If not, it is only ever come to from another tree.
    pub stands_alone: bool,
    /// Readings the technician is asked to have at hand.
    pub readings: Vec<Reading>,
    /// Name of the first question.
    pub start: Spot<String>,
    /// Questions in the author's order.
    pub questions: Vec<Question>,
    /// Outcomes in the author's order.
    pub outcomes: Vec<Outcome>,
    /// Cases in the author's order.
    pub cases: Vec<Case>,
    /// Links in the tree's texts, by the place of the text they stand in.
    pub links: BTreeMap<Span, Vec<Link>>,
}

/// Something the technician reads off an instrument or a plate before the tree is begun.
#[derive(Clone, Debug)]
pub struct Reading {
    /// Its name: `suction pressure`.
    pub name: Spot<String>,
    /// Name of its quantity, where its own name does not tell: `condensing over ambient: temperature difference`.
    pub quantity: Option<Spot<String>>,
}

/// A question of a tree.
#[derive(Clone, Debug)]
pub struct Question {
    /// Name.
    pub name: Spot<String>,
    /// The question in words.
    pub ask: Spot<String>,
    /// What is measured, where the answer is a figure: one of the tree's readings, or the name of a quantity.
    pub measure: Option<Spot<String>>,
    /// What is worked out, where the answer is a figure that follows from the tree's readings.
    pub work_out: Option<WorkOut>,
    /// The set of answers in words, where the answer is one.
    pub choices: Vec<Spot<String>>,
    /// Why it is asked here.
    pub because: Option<Spot<String>>,
    /// How the measurement is taken.
    pub how: Option<Spot<String>>,
    /// What could hurt someone, or the machine, while it is asked.
    pub caution: Option<Spot<String>>,
    /// The lesson that teaches it, by name.
    pub lesson: Option<Spot<String>>,
    /// Answers in the author's order.
    pub answers: Vec<Answer>,
}

/// A figure to be worked out of readings.
#[derive(Clone, Debug)]
pub struct WorkOut {
    /// Name of a computation of the catalogue.
    pub computation: Spot<String>,
    /// Inputs by name, each with the reading it is; an input that is called as its reading is need not be here.
    pub of: Vec<(Spot<String>, Spot<String>)>,
}

/// An answer and where it leads.
#[derive(Clone, Debug)]
pub struct Answer {
    /// `below 350 cfm/ton`, `350 to 450 cfm/ton`, `above 450 cfm/ton`, or one of the choices.
    pub when: Spot<String>,
    /// Name of a question or an outcome; `tree:` and a name for the beginning of another tree.
    pub go: Spot<String>,
}

/// Where a tree ends.
#[derive(Clone, Debug)]
pub struct Outcome {
    /// Name.
    pub name: Spot<String>,
    /// What to do next.
    pub say: Spot<String>,
    /// What to write down.
    pub record: Option<Spot<String>>,
    /// Caution that goes with it.
    pub caution: Option<Spot<String>>,
    /// Questions that must have been asked on every way here.
    pub only_after: Vec<Spot<String>>,
    /// The part that is condemned, where one is.
    pub condemns: Option<Spot<String>>,
}

/// What is found at one machine, and where the tree must lead it.
#[derive(Clone, Debug)]
pub struct Case {
    /// Name.
    pub name: Spot<String>,
    /// What it is, in plain words.
    pub is: Option<Spot<String>>,
    /// Another case, whose readings and answers hold here too where this one has none of its own.
    pub like: Option<Spot<String>>,
    /// Readings by name, as written: `118 psig`, `R-410A`.
    pub readings: Vec<(Spot<String>, Spot<String>)>,
    /// By question, what is answered: once, or the first time, the second time and so on.
    pub answers: Vec<(Spot<String>, Vec<Spot<String>>)>,
    /// The outcome it must end at; `tree:` and a name where it goes on in another tree.
    pub ends: Spot<String>,
}

impl Tree {
    /// The question of that name.
    pub fn question(&self, name: &str) -> Option<&Question> {
        self.questions.iter().find(|q| q.name.value == name)
    }

    /// The reading of that name; case, hyphens and spaces are all alike.
    pub fn reading(&self, name: &str) -> Option<&Reading> {
        let wanted = plain_words(name);
        self.readings.iter().find(|reading| plain_words(&reading.name.value) == wanted)
    }

    /// The case of that name.
    pub fn case(&self, name: &str) -> Option<&Case> {
        self.cases.iter().find(|case| case.name.value == name)
    }

    /// The outcome of that name.
    pub fn outcome(&self, name: &str) -> Option<&Outcome> {
        self.outcomes.iter().find(|o| o.name.value == name)
    }
}
