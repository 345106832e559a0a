//! Figures ready to be set: every answer, input, equation and source as the page wants it, in both systems of units.
//!
//! The one place of this room that knows how proofing and the trade's catalogue hold a figure. Rounds and computes
//! nothing itself: what is printed is what was proofed.

use super::drawing::SetDrawing;
use super::print::Both;
use crate::handbook::Span;
use crate::trade::Compact;
use serde::{Serialize, Serializer};
use std::collections::BTreeMap;
use std::sync::Arc;

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
    /// What is shown beside them.
    pub(super) more: Vec<String>,
    /// A hair and a breath come after this row.
    pub(super) breath: bool,
}

/// Head of a column beside those of pressures.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct SetColumn {
    pub(super) name: String,
    pub(super) unit: String,
}

/// A saturation table in one system of units.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetRows {
    pub(super) temperature_unit: String,
    pub(super) pressure_unit: String,
    pub(super) glide_unit: String,
    /// Heads of what is shown beside pressures.
    pub(super) more: Vec<SetColumn>,
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

/// A property of flow or conduction, and the paper it is from; no paper where none is kept.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub(super) struct SetCorrelation {
    pub(super) name: String,
    pub(super) citation: String,
}

/// What a refrigerant's properties rest on.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetFluid {
    pub(super) equations: Vec<SetEquation>,
    pub(super) pairs: Vec<SetPair>,
    pub(super) correlations: Vec<SetCorrelation>,
    /// Temperatures between which it is known to boil.
    pub(super) range: Both,
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

/// Words that are the same in both systems of units are carried once.
fn once_where_alike<S: Serializer>(both: &Both, to: S) -> Result<S::Ok, S::Error> {
    if both.us == both.si { to.serialize_str(&both.us) } else { both.serialize(to) }
}

/// One draw of a problem.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct SetDraw {
    /// The question with its numbers put in.
    #[serde(serialize_with = "once_where_alike")]
    pub(super) ask: Both,
    /// The answer.
    #[serde(serialize_with = "once_where_alike")]
    pub(super) answer: Both,
    /// The answer in SI.
    pub(super) number: f64,
    /// How near a reader's must come, in SI.
    pub(super) within: f64,
    /// What a slip gives: its name, and the answer.
    pub(super) slips: Vec<(&'static str, f64)>,
    /// Steps to the answer.
    #[serde(skip)]
    pub(super) steps: Vec<SetStep>,
}

/// A problem.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct SetProblem {
    pub(super) draws: Vec<SetDraw>,
    /// What is asked for: the name of a kind.
    pub(super) kind: String,
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

/// A unit that a reading may be typed in.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct SetUnit {
    pub(super) symbol: String,
    /// Whether it is the one to begin with for readers of US customary units.
    pub(super) us: bool,
    /// And of SI.
    pub(super) si: bool,
}

/// A reading to be taken at a question.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct SetTaken {
    /// The input of the computation that it is; empty where the reading is the answer itself.
    pub(super) input: String,
    pub(super) reading: String,
    /// Name of its quantity; none for a refrigerant.
    pub(super) kind: Option<String>,
    pub(super) required: bool,
    /// Whether it may read less than nought.
    pub(super) below_nought: bool,
    pub(super) units: Vec<SetUnit>,
}

/// The run of SI values an answer is given for. The lower bound belongs to it and the upper one does not.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct SetRun {
    pub(super) from: Option<f64>,
    pub(super) to: Option<f64>,
}

/// What is taken at a question that is answered by a figure.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub(super) struct SetAsking {
    pub(super) blanks: Vec<SetTaken>,
    /// Name of the computation that makes the answer of the readings.
    pub(super) sum: Option<String>,
    /// By answer, in the author's order.
    pub(super) runs: Vec<SetRun>,
}

/// A blank of a form.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetBlank {
    /// Name of the input.
    pub(super) name: String,
    /// A refrigerant is chosen here.
    pub(super) fluid: bool,
    /// What stands in it in the case shown; a number alone, in the unit beside it. Empty where it is left out.
    pub(super) value: Both,
    pub(super) unit: Both,
    /// Why it may be left out, in words; empty where it may not.
    pub(super) leave: String,
    /// It holds words or signs that a keypad of digits lacks.
    pub(super) letters: bool,
}

/// What the answer of a form is held against.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct SetLookedFor {
    /// Ends in SI.
    pub(super) low: f64,
    pub(super) high: f64,
    /// The verdicts in words.
    pub(super) below: Both,
    pub(super) within: Both,
    pub(super) above: Both,
    /// That of the case shown.
    pub(super) verdict: Both,
    /// Name of the standing value.
    pub(super) value: String,
}

/// A form for one computation, with the case it shows worked.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct SetForm {
    /// Name of the computation.
    pub(super) sum: String,
    pub(super) title: String,
    pub(super) blanks: Vec<SetBlank>,
    /// What was found on the way to the answer.
    pub(super) steps: Vec<SetInput>,
    pub(super) figure: SetFigure,
    pub(super) looked_for: Option<SetLookedFor>,
}

/// An input of a computation as its page lists it.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetTake {
    pub(super) name: String,
    /// Its letter: MathML, empty where it has none.
    pub(super) letter: String,
    /// What it measures.
    pub(super) is: String,
    pub(super) about: String,
    pub(super) range: Option<Both>,
    pub(super) leave: Both,
}

/// A computation as its page shows it.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub(super) struct SetComputation {
    pub(super) name: String,
    pub(super) title: String,
    pub(super) purpose: String,
    pub(super) group: String,
    pub(super) takes: Vec<SetTake>,
    /// Lines of the formula: MathML.
    pub(super) equation: Vec<Both>,
    /// Letters and what they stand for.
    pub(super) legend: Vec<(String, Both)>,
    pub(super) refuses: Vec<String>,
    pub(super) minds: Vec<String>,
    pub(super) source: String,
    /// As it is asked for at a shell.
    pub(super) shell: String,
    pub(super) form: Option<SetForm>,
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
    /// Drawings by the place of their block.
    pub(super) drawings: BTreeMap<Span, SetDrawing>,
    /// Problems by name.
    pub(super) problems: BTreeMap<String, SetProblem>,
    /// Readings of job sheets by the place of what is to be done.
    pub(super) readings: BTreeMap<Span, SetReading>,
    /// Names of each tree's questions in the order in which they are read.
    pub(super) orders: BTreeMap<String, Vec<String>>,
    /// Answers of trees by the place of their text.
    pub(super) answers: BTreeMap<Span, Both>,
    /// What is taken at questions of trees, by the place of the question's name.
    pub(super) takes: BTreeMap<Span, SetAsking>,
    /// Refrigerants by designation.
    pub(super) fluids: BTreeMap<String, SetFluid>,
    /// The handbook's altitude and the air there.
    pub(super) altitude: Both,
    pub(super) air: Both,
    /// That air in pascals.
    pub(super) air_si: f64,
    /// Forms by the place of their block.
    pub(super) forms: BTreeMap<Span, SetForm>,
    /// The catalogue in its order.
    pub(super) catalogue: Vec<SetComputation>,
    /// The altitude in meters.
    pub(super) altitude_m: f64,
    /// Compact tables of refrigerants for forms in the page.
    pub(super) page_tables: BTreeMap<String, Arc<Compact>>,
}
