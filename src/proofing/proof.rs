//! What proofing hands on: the findings, and everything that was reckoned on the way to them.

use super::ValueFigure;
use super::tree::TreeProof;
use crate::fluid::Refrigerant;
use crate::handbook::{Finding, Span};
use crate::quantity::{Kind, Pressure, Unit, Value, Written};
use crate::trade::{Slip, Worked};
use std::collections::BTreeMap;

/// A handbook proofed.
#[derive(Debug)]
pub struct Proof {
    /// Findings by file, then place, then name.
    pub findings: Vec<Finding>,
    /// Altitude the handbook is read at.
    pub altitude: Value,
    /// Pressure of the air there, against which gauges read.
    pub air: Pressure,
    /// Refrigerants that could be built, by designation.
    pub roster: BTreeMap<String, Refrigerant>,
    /// Figures that `figure:` links ask for, by the place of the link.
    pub figures: BTreeMap<Span, StepProof>,
    /// Figures that `as:` links give, by the place of the link.
    pub given: BTreeMap<Span, ValueFigure>,
    /// Standing values by name.
    pub values: BTreeMap<String, ValueFigure>,
    /// The figures of the handbook below that standing values were set in place of, by the value's name.
    pub replaced_values: BTreeMap<String, ValueFigure>,
    /// Worked examples by the place of their block.
    pub examples: BTreeMap<Span, ExampleProof>,
    /// Saturation tables by the place of their block.
    pub tables: BTreeMap<Span, TableProof>,
    /// Computed tables by the place of their block.
    pub computed: BTreeMap<Span, ComputedProof>,
    /// The worked cases of forms by the place of their block.
    pub forms: BTreeMap<Span, FormProof>,
    /// Draws of every problem, by the problem's name.
    pub problems: BTreeMap<String, ProblemProof>,
    /// Steps of job sheets that ask for a reading, by the place of what is to be done.
    pub readings: BTreeMap<Span, ReadingProof>,
    /// What is known of each tree, by name.
    pub trees: BTreeMap<String, TreeProof>,
}

/// A worked example, reckoned.
#[derive(Clone, Debug)]
pub struct ExampleProof {
    /// What is given, in the author's order.
    pub given: Vec<GivenProof>,
    /// Steps in order.
    pub steps: Vec<StepProof>,
}

/// A line of what is given.
#[derive(Clone, Debug, PartialEq)]
pub enum GivenProof {
    /// A refrigerant, by designation.
    Refrigerant(String),
    /// A figure.
    Figure(Written),
}

/// A figure reckoned, and what the author wrote for it.
#[derive(Clone, Debug)]
pub struct StepProof {
    /// What it is called: the author's `as:`, or the computation's name.
    pub name: String,
    /// How it came.
    pub worked: Worked,
    /// The answer as the author wrote it, or as it was filled in for a question mark.
    pub written: Written,
}

/// A saturation table, reckoned in both systems of units.
#[derive(Clone, Debug)]
pub struct TableProof {
    /// Rows at round temperatures in °F, pressures in psig.
    pub us: TableRows,
    /// Rows at round temperatures in °C, pressures in bar gauge.
    pub si: TableRows,
    /// The three sums of one row in the middle, as a sample of the working: bubble pressure, dew pressure, glide.
    pub sample: Vec<Worked>,
}

/// Rows of one system of units.
#[derive(Clone, Debug)]
pub struct TableRows {
    /// Unit of the first column.
    pub temperature: &'static Unit,
    /// Decimals of the first column.
    pub temperature_decimals: u8,
    /// Step of the first column, in its unit.
    pub step: f64,
    /// Unit of the pressures.
    pub pressure: &'static Unit,
    /// Unit of the glide.
    pub difference: &'static Unit,
    /// Rows in order of temperature.
    pub rows: Vec<TableRow>,
}

/// A row: what could be reckoned, and why a cell could not.
#[derive(Clone, Debug)]
pub struct TableRow {
    /// Temperature.
    pub temperature: Value,
    /// Pressure at which the first bubble forms.
    pub bubble: Result<Value, String>,
    /// Pressure at which the last drop dries.
    pub dew: Result<Value, String>,
    /// Dew less bubble temperature at the dew pressure.
    pub glide: Result<Value, String>,
}

/// A computed table, reckoned in both systems of units.
#[derive(Clone, Debug)]
pub struct ComputedProof {
    /// What is the same in every cell, by plain name.
    pub given: Vec<(String, GivenProof)>,
    /// For US readers.
    pub us: Grid,
    /// For SI readers.
    pub si: Grid,
    /// One cell, as a sample of the working.
    pub sample: Worked,
}

/// The cells of a computed table in one system of units.
#[derive(Clone, Debug)]
pub struct Grid {
    /// Heads of the rows.
    pub down: AxisProof,
    /// Heads of the columns, where there is more than one.
    pub across: Option<AxisProof>,
    /// Unit of the cells.
    pub unit: &'static Unit,
    /// Decimals of the cells.
    pub decimals: u8,
    /// Rows of cells: a number in that unit, or why there is none.
    pub cells: Vec<Vec<Result<f64, String>>>,
}

/// Heads of rows or columns.
#[derive(Clone, Debug)]
pub struct AxisProof {
    /// Plain name of the input.
    pub name: String,
    /// Its figures or names in order.
    pub marks: Vec<GivenProof>,
}

/// The case a form shows worked.
#[derive(Clone, Debug)]
pub struct FormProof {
    /// How it came.
    pub worked: Worked,
    /// The standing value the answer is held against.
    pub looked_for: Option<String>,
}

/// A problem with its draws, each worked through. The first is the one an edition prints.
#[derive(Clone, Debug)]
pub struct ProblemProof {
    /// Draws, all different.
    pub draws: Vec<Draw>,
}

/// One draw of a problem's numbers.
#[derive(Clone, Debug)]
pub struct Draw {
    /// What was drawn, by plain name, in the author's order.
    pub figures: Vec<(String, GivenProof)>,
    /// Steps in order; the last one is asked for.
    pub steps: Vec<StepProof>,
    /// How near an answer must come, a difference in SI.
    pub within: f64,
    /// Answers that a slip would give.
    pub slips: Vec<(Slip, Value)>,
}

/// A reading a job sheet asks for.
#[derive(Clone, Debug)]
pub struct ReadingProof {
    /// What is measured.
    pub kind: Kind,
    /// What it should be.
    pub limit: Option<Limit>,
}

/// What a reading should be.
#[derive(Clone, Debug, PartialEq)]
pub enum Limit {
    /// Below this.
    Below(Written),
    /// This or above.
    Above(Written),
    /// From the first to the second.
    Within(Written, Written),
}
