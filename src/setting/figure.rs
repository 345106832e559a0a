//! Figures ready to be set: every answer, input, equation and source as the page wants it, in both systems of units.
//!
//! The one place of this room that knows how proofing and the trade's catalogue hold a figure. Rounds and computes
//! nothing itself: what is printed is what was proofed.

use super::print::Both;
use crate::handbook::Span;
use serde::Serialize;
use std::collections::BTreeMap;

/// One input of a figure.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct SetInput {
    pub(super) name: String,
    pub(super) value: Both,
}

/// A computed figure with all that its working shows.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetFigure {
    /// What was computed: `dew temperature`.
    pub(super) name: String,
    pub(super) answer: Both,
    pub(super) inputs: Vec<SetInput>,
    /// The formula line by line: HTML, as text or MathML.
    pub(super) equation: Vec<Both>,
    /// The formula with the numbers put in, line by line: HTML, as text or MathML.
    pub(super) numbers: Vec<Both>,
    /// Where the formula is from.
    pub(super) sources: Vec<String>,
    /// Designations of the refrigerants whose properties were asked for.
    pub(super) fluids: Vec<String>,
    /// What is to be said beside the answer.
    pub(super) notes: Vec<String>,
}

/// A step of a worked example.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct SetStep {
    /// What the answer is called.
    pub(super) name: String,
    /// The answer as the author wrote it, and in the other system.
    pub(super) answer: Both,
    pub(super) figure: SetFigure,
}

/// A worked example.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetExample {
    pub(super) given: Vec<SetInput>,
    pub(super) steps: Vec<SetStep>,
}

/// A row of a saturation table. A figure that could not be had is a dash.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct SetRow {
    pub(super) temperature: String,
    pub(super) bubble: String,
    pub(super) dew: String,
    pub(super) glide: String,
    /// A hair and a breath come after this row.
    pub(super) breath: bool,
}

/// A saturation table in one system of units.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetRows {
    pub(super) temperature_unit: String,
    pub(super) pressure_unit: String,
    pub(super) glide_unit: String,
    /// First and last temperature and the step between rows, with units.
    pub(super) from: String,
    pub(super) to: String,
    pub(super) step: String,
    pub(super) rows: Vec<SetRow>,
}

/// A saturation table.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct SetTable {
    pub(super) us: SetRows,
    pub(super) si: SetRows,
    /// Liquid and vapor boil at one pressure: a pure fluid, or an azeotrope to the digits printed.
    pub(super) one_curve: bool,
    /// The working of one row, as a sample.
    pub(super) working: Vec<SetFigure>,
    /// Temperature in kelvins and dew pressure in pascals, row by row, for drawings.
    #[serde(skip)]
    pub(super) curve: Vec<(f64, f64)>,
    /// Why some figures are dashes, each once.
    pub(super) dashes: Vec<String>,
}

/// An equation of state that a refrigerant's properties come from.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub(super) struct SetEquation {
    /// Designation of the fluid it is for.
    pub(super) name: String,
    pub(super) citation: String,
    /// Temperatures between which it holds.
    pub(super) range: Option<Both>,
    /// What its paper says of how far it may be off.
    pub(super) uncertainty: String,
}

/// Parameters by which two fluids of a blend are mixed.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub(super) struct SetPair {
    /// `R-32 and R-125`.
    pub(super) name: String,
    pub(super) citation: String,
    /// What its paper says of how far it may be off.
    pub(super) uncertainty: String,
    /// Estimated, not fitted to measurements.
    pub(super) estimated: bool,
}

/// What a refrigerant's properties rest on.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetFluid {
    pub(super) equations: Vec<SetEquation>,
    pub(super) pairs: Vec<SetPair>,
}

/// The cells of a computed table in one system of units.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetGrid {
    /// Head of the first column: what goes down, and its unit where all its figures share one.
    pub(super) down: String,
    pub(super) down_unit: String,
    /// What goes across; empty where there is one column.
    pub(super) across: String,
    /// Heads of the columns.
    pub(super) columns: Vec<String>,
    /// Unit of the cells.
    pub(super) unit: String,
    pub(super) rows: Vec<SetGridRow>,
}

/// A row of a computed table.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct SetGridRow {
    pub(super) head: String,
    pub(super) cells: Vec<String>,
    /// A hair and a breath come after this row.
    pub(super) breath: bool,
}

/// A computed table.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct SetComputed {
    /// What every cell is: `superheat`.
    pub(super) answer: String,
    pub(super) given: Vec<SetInput>,
    pub(super) us: SetGrid,
    pub(super) si: SetGrid,
    /// The working of one cell, as a sample.
    pub(super) working: SetFigure,
    /// Why some cells are dashes, each once.
    pub(super) dashes: Vec<String>,
}

/// A number in the unit that each system's readers answer in.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub(super) struct BothNumbers {
    pub(super) us: f64,
    pub(super) si: f64,
}

/// One draw of a problem.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct SetDraw {
    /// The question with its numbers put in.
    pub(super) ask: Both,
    /// The answer.
    pub(super) answer: Both,
    pub(super) number: BothNumbers,
    /// How near an answer must come.
    pub(super) within: BothNumbers,
    /// What a slip gives: its name, and the answer.
    pub(super) slips: Vec<(&'static str, BothNumbers)>,
    /// Steps to the answer.
    #[serde(skip)]
    pub(super) steps: Vec<SetStep>,
}

/// A problem.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct SetProblem {
    pub(super) draws: Vec<SetDraw>,
    /// Units of the answer.
    pub(super) unit: Both,
}

/// A reading a job sheet asks for.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetReading {
    pub(super) unit: Both,
    /// What it should be.
    pub(super) limit: Option<Both>,
}

/// Every figure of a handbook, ready to be set.
#[derive(Clone, Debug, Default)]
pub(super) struct Figures {
    /// `figure:` links by their place.
    pub(super) figures: BTreeMap<Span, SetFigure>,
    /// `as:` links by their place.
    pub(super) given: BTreeMap<Span, Both>,
    /// Standing values by name.
    pub(super) values: BTreeMap<String, Both>,
    /// The standing values of the handbook below that others were set in place of, by name.
    pub(super) replaced_values: BTreeMap<String, Both>,
    /// Worked examples by the place of their block.
    pub(super) examples: BTreeMap<Span, SetExample>,
    /// Saturation tables by the place of their block.
    pub(super) tables: BTreeMap<Span, SetTable>,
    /// Computed tables by the place of their block.
    pub(super) computed: BTreeMap<Span, SetComputed>,
    /// Problems by name.
    pub(super) problems: BTreeMap<String, SetProblem>,
    /// Readings of job sheets by the place of what is to be done.
    pub(super) readings: BTreeMap<Span, SetReading>,
    /// Names of each tree's questions in the order in which they are read.
    pub(super) orders: BTreeMap<String, Vec<String>>,
    /// Answers of trees by the place of their text.
    pub(super) answers: BTreeMap<Span, Both>,
    /// Refrigerants by designation.
    pub(super) fluids: BTreeMap<String, SetFluid>,
    /// The handbook's altitude and the air there.
    pub(super) altitude: Both,
    pub(super) air: Both,
}
