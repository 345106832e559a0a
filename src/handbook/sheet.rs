//! Job sheets: what is done in order, which readings are taken, and who signs.

use super::{Link, Span, Spot};
use std::collections::BTreeMap;

/// A job sheet as read.
#[derive(Clone, Debug)]
pub struct Sheet {
    /// Name: the file's, without `.yaml`.
    pub name: String,
    /// The whole file.
    pub at: Span,
    /// Title.
    pub title: Spot<String>,
    /// One sentence that says what it is for.
    pub purpose: Option<Spot<String>>,
    /// Lessons that teach the job.
    pub lessons: Vec<Spot<String>>,
    /// Trees that belong to it.
    pub trees: Vec<Spot<String>>,
    /// Sets the reminder that the maker's instructions govern.
    pub maker_first: bool,
    /// Names of the standing notices set under its head.
    pub hazards: Vec<Spot<String>>,
    /// What to have at hand.
    pub tools: Vec<Spot<String>>,
    /// What must be so before the job is begun: Markdown.
    pub before: Vec<Spot<String>>,
    /// Steps in order.
    pub steps: Vec<SheetStep>,
    /// Lines to be filled in at the end.
    pub sign_off: Vec<Spot<String>>,
    /// Links in the sheet's texts, by the place of the text they stand in.
    pub links: BTreeMap<Span, Vec<Link>>,
}

/// A step of a job.
#[derive(Clone, Debug)]
pub struct SheetStep {
    /// What to do: Markdown.
    pub act: Spot<String>,
    /// A caution that goes with it: Markdown.
    pub caution: Option<Spot<String>>,
    /// A reading to take.
    pub take: Option<Spot<String>>,
    /// The reading's quantity.
    pub quantity: Option<Spot<String>>,
    /// What the reading should be: `below 212 °F`, `within value:superheat-range`.
    pub limit: Option<Spot<String>>,
    /// A computation over the readings taken so far.
    pub work_out: Option<Spot<String>>,
}

/// A set of problems: one file of `practice/`.
#[derive(Clone, Debug)]
pub struct ProblemSet {
    /// Name: the file's, without `.yaml`.
    pub name: String,
    /// The whole file.
    pub at: Span,
    /// Title.
    pub title: Spot<String>,
    /// The lesson it belongs to.
    pub lesson: Option<Spot<String>>,
    /// What is said before the problems: Markdown.
    pub say: Option<Spot<String>>,
    /// Links in it.
    pub say_links: Vec<Link>,
    /// Problems in order.
    pub problems: Vec<super::Problem>,
}
