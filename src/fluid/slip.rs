//! Slips of the pen in a table of saturation pressures.
//!
//! Takes the figures as they were typed, gives the rows that break the curve. On ln p against 1/T a saturation line is
//! all but straight; so each figure is predicted from its neighbors by a polynomial of low degree, itself left out, and
//! compared. How far off is too far follows from the figures themselves: half a unit of the last digit typed, in the
//! figure and in its neighbors, and the difference that the last power of the polynomial makes. The worst is set aside
//! and the rest looked at again, until the rest agree; so one slip doesn't accuse the rows round it.

use std::fmt;

use crate::quantity::{Kind, Pressure, Temperature, Unit, Value};

use super::{FluidError, TypedPoint, polynomial, typing};

/// A table as it was typed: each column with its unit, each figure as text.
#[derive(Clone, Debug)]
pub struct TypedTable {
    /// Unit of the column of temperatures.
    pub temperature: &'static Unit,
    /// Unit of the column of bubble pressures.
    pub bubble: &'static Unit,
    /// Unit of the column of dew pressures.
    pub dew: &'static Unit,
    /// The air around the gauge that gauge pressures are counted from.
    pub air: Pressure,
    /// The rows, in the order of the table.
    pub rows: Vec<TypedRow>,
}

/// A row as it was typed. A table of a pure refrigerant has one pressure: the same text twice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypedRow {
    /// Temperature.
    pub temperature: String,
    /// Bubble pressure.
    pub bubble: String,
    /// Dew pressure.
    pub dew: String,
}

/// Which figure of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// The temperature.
    Temperature,
    /// The bubble pressure.
    Bubble,
    /// The dew pressure.
    Dew,
}

/// What seems to have happened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlipKind {
    /// It is no number, or a pressure below zero absolute.
    NotANumber,
    /// Two digits changed places.
    SwappedDigits,
    /// The decimal point is in the wrong place or missing.
    DecimalPoint,
    /// A digit was left out.
    DroppedDigit,
    /// A digit too many.
    ExtraDigit,
    /// One digit is another.
    WrongDigit,
    /// The figure belongs in a neighboring row.
    ShiftedRow,
    /// Bubble and dew pressure have changed places.
    BubbleBelowDew,
    /// From this row on, all figures stand one row too high or too low.
    ShiftedFromHere,
    /// None of these explains it.
    OffTheCurve,
}

/// A figure that breaks the curve of its neighbors.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// The row, counted from 0.
    pub row: usize,
    /// The figure in it.
    pub column: Column,
    /// What seems to have happened.
    pub kind: SlipKind,
    /// The figure as typed.
    pub written: String,
    /// What the neighbors say, in the unit of the column; none where there are too few to say.
    pub expected: Option<f64>,
    /// The figure that was likely meant, as it would be typed.
    pub likely: Option<String>,
}

impl Slip {
    /// What is wrong, without the row: `the bubble pressure `131.2` breaks the curve of the rows around it`.
    pub fn says(&self) -> String {
        let what = match self.column {
            Column::Temperature => "temperature",
            Column::Bubble => "bubble pressure",
            Column::Dew => "dew pressure",
        };
        let says = match self.kind {
            SlipKind::NotANumber => "is no number above zero absolute",
            SlipKind::BubbleBelowDew => "and its neighbor have changed places: bubble is never below dew",
            SlipKind::ShiftedFromHere => "and all figures below stand in the wrong row, off by one",
            _ => "breaks the curve of the rows around it",
        };
        format!("the {what} `{}` {says}", self.written)
    }

    /// How it may have come about, where that can be told.
    pub fn explanation(&self) -> Option<&'static str> {
        match self.kind {
            SlipKind::SwappedDigits => Some("two digits may have changed places"),
            SlipKind::DecimalPoint => Some("the decimal point may be in the wrong place"),
            SlipKind::DroppedDigit => Some("a digit may have been left out"),
            SlipKind::ExtraDigit => Some("there may be a digit too many"),
            SlipKind::WrongDigit => Some("a digit may be wrong"),
            SlipKind::ShiftedRow => Some("it seems to belong in a neighboring row"),
            SlipKind::NotANumber | SlipKind::BubbleBelowDew | SlipKind::ShiftedFromHere | SlipKind::OffTheCurve => None,
        }
    }
}

impl fmt::Display for Slip {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "row {}: {}", self.row + 1, self.says())?;
        if let Some(explanation) = self.explanation() {
            write!(f, "; {explanation}")?;
        }
        match &self.likely {
            Some(likely) => write!(f, ": likely `{likely}`"),
            None => Ok(()),
        }
    }
}

impl TypedTable {
    /// The points of the table, for [`super::Refrigerant::typed`].
    ///
    /// # Errors
    /// [`FluidError::Points`] naming the first figure that is no number.
    pub fn points(&self, designation: &str) -> Result<Vec<TypedPoint>, FluidError> {
        let number = |i: usize, text: &str, unit: &Unit| {
            let read = typing::number(text).map(|n| Value::from_unit(n, unit, self.air).si);
            read.ok_or_else(|| FluidError::Points {
                refrigerant: designation.to_owned(),
                says: format!("`{text}` in row {} is no number", i + 1),
            })
        };
        let point = |(i, row): (usize, &TypedRow)| {
            Ok(TypedPoint {
                temperature: Temperature::from_kelvin(number(i, &row.temperature, self.temperature)?),
                bubble: Pressure::from_pascal(number(i, &row.bubble, self.bubble)?),
                dew: Pressure::from_pascal(number(i, &row.dew, self.dew)?),
            })
        };
        self.rows.iter().enumerate().map(point).collect()
    }

    /// The figures that break the curve, row by row. None where all agree to the digits typed.
    ///
    /// Five rows or more are needed to tell anything; fewer are looked over for figures that are no numbers only.
    pub fn slips(&self) -> Vec<Slip> {
        let mut slips = self.no_numbers();
        let rows: Vec<usize> = (0..self.rows.len()).filter(|i| !slips.iter().any(|s| s.row == *i)).collect();
        let temperatures: Vec<f64> =
            rows.iter().map(|&i| self.si(Column::Temperature, i).unwrap_or(f64::NAN)).collect();

        let shifted = self.temperature_slips(&rows, &temperatures, &mut slips);
        let rows: Vec<usize> = rows.into_iter().filter(|i| !shifted.contains(i)).collect();

        let one_column = self.rows.iter().all(|row| row.bubble == row.dew);
        let columns: &[Column] = if one_column { &[Column::Bubble] } else { &[Column::Bubble, Column::Dew] };
        for &column in columns {
            let curve = Curve::of(self, column, &rows);
            if let Some(slip) = curve.all_shifted(self, column) {
                slips.push(slip);
                continue;
            }
            for (at, seen) in curve.outliers() {
                slips.push(self.explain(column, &curve, at, seen));
            }
        }
        self.tell_exchanges_once(&mut slips);
        slips.sort_by_key(|s| (s.row, s.column as usize));
        slips
    }

    fn text(&self, column: Column, row: usize) -> &str {
        let row = &self.rows[row];
        match column {
            Column::Temperature => &row.temperature,
            Column::Bubble => &row.bubble,
            Column::Dew => &row.dew,
        }
    }

    fn unit(&self, column: Column) -> &'static Unit {
        match column {
            Column::Temperature => self.temperature,
            Column::Bubble => self.bubble,
            Column::Dew => self.dew,
        }
    }

    /// A figure in kelvins or pascals, where it is a number above zero.
    fn si(&self, column: Column, row: usize) -> Option<f64> {
        let number = typing::number(self.text(column, row))?;
        Some(Value::from_unit(number, self.unit(column), self.air).si).filter(|x| x.is_finite() && *x > 0.0)
    }

    fn no_numbers(&self) -> Vec<Slip> {
        let mut slips = Vec::new();
        for row in 0..self.rows.len() {
            for column in [Column::Temperature, Column::Bubble, Column::Dew] {
                if self.si(column, row).is_none() {
                    slips.push(Slip {
                        row,
                        column,
                        kind: SlipKind::NotANumber,
                        written: self.text(column, row).to_owned(),
                        expected: None,
                        likely: None,
                    });
                }
            }
        }
        slips
    }

    /// Temperatures out of an even step: those rows are told and left out of the rest.
    fn temperature_slips(&self, rows: &[usize], t: &[f64], slips: &mut Vec<Slip>) -> Vec<usize> {
        let mut told = Vec::new();
        if rows.len() < 5 {
            return told;
        }
        let mut steps: Vec<f64> = t.windows(2).map(|w| w[1] - w[0]).collect();
        steps.sort_by(f64::total_cmp);
        let step = steps[steps.len() / 2];
        let even = |a: f64, b: f64, n: f64| (b - a - n * step).abs() < 0.01 * step.abs();
        for i in 0..rows.len() {
            let expected = if i > 0 && i + 1 < rows.len() && even(t[i - 1], t[i + 1], 2.0) {
                t[i - 1] + step
            } else if i == 0 && even(t[1], t[2], 1.0) && even(t[2], t[3], 1.0) {
                t[1] - step
            } else if i + 1 == rows.len() && even(t[i - 2], t[i - 1], 1.0) && even(t[i - 3], t[i - 2], 1.0) {
                t[i - 1] + step
            } else {
                continue;
            };
            // The end of a table may change its step: only a temperature out of order, or one between even neighbors.
            let end = i == 0 || i + 1 == rows.len();
            let wrong_way = if i == 0 { (t[1] - t[0]) * step <= 0.0 } else { (t[i] - t[i - 1]) * step <= 0.0 };
            if (t[i] - expected).abs() < 0.01 * step.abs() || (end && !wrong_way) {
                continue;
            }
            // Two rows that changed places as wholes, or a step that is uneven by intent, are for the curve to judge.
            let row = rows[i];
            let written = self.text(Column::Temperature, row).to_owned();
            let number = Value::of(Kind::Temperature, expected).number_of(self.temperature, self.air);
            let decimals = typing::decimals(&written);
            let half = 0.5 * 10f64.powi(-decimals);
            let (kind, likely) = typing::explain(&written, number, 1.01 * half);
            told.push(row);
            slips.push(Slip {
                row,
                column: Column::Temperature,
                kind,
                written,
                expected: Some(number),
                likely: Some(likely),
            });
        }
        told
    }

    fn explain(&self, column: Column, curve: &Curve, at: usize, seen: Seen) -> Slip {
        let row = curve.nodes[at].row;
        let unit = self.unit(column);
        let written = self.text(column, row).to_owned();
        let number_of = |p: f64| Value::of(Kind::Pressure, p).number_of(unit, self.air);
        let expected = number_of(seen.predicted.exp());
        let within = (number_of((seen.predicted + seen.tolerance).exp()) - expected).abs();
        let belongs_next = [row.checked_sub(1), Some(row + 1)]
            .into_iter()
            .flatten()
            .any(|other| other < self.rows.len() && self.text(column, other) == written);
        let opposite = self.text(if column == Column::Bubble { Column::Dew } else { Column::Bubble }, row);
        let exchanged = opposite != written
            && typing::number(opposite).is_some_and(|n| (n - expected).abs() <= within)
            && self.si(Column::Bubble, row) < self.si(Column::Dew, row);
        let (kind, likely) = if exchanged {
            (SlipKind::BubbleBelowDew, opposite.to_owned())
        } else if belongs_next {
            (SlipKind::ShiftedRow, typing::like(expected, &written))
        } else {
            typing::explain(&written, expected, within)
        };
        Slip { row, column, kind, written, expected: Some(expected), likely: Some(likely) }
    }

    /// Bubble and dew of one row that changed places are one slip; so is a bubble pressure below its dew pressure that
    /// is too little off to break either curve.
    fn tell_exchanges_once(&self, slips: &mut Vec<Slip>) {
        for row in 0..self.rows.len() {
            let mut told = 0;
            slips.retain(|s| {
                let exchange = s.row == row && s.kind == SlipKind::BubbleBelowDew;
                told += usize::from(exchange);
                !(exchange && told > 1)
            });
            let below = match (self.si(Column::Bubble, row), self.si(Column::Dew, row)) {
                (Some(bubble), Some(dew)) => bubble < dew,
                _ => false,
            };
            if below && !slips.iter().any(|s| s.row == row) {
                slips.push(Slip {
                    row,
                    column: Column::Bubble,
                    kind: SlipKind::BubbleBelowDew,
                    written: self.rows[row].bubble.clone(),
                    expected: None,
                    likely: Some(self.rows[row].dew.clone()),
                });
            }
        }
    }
}

/// ln p against 1/T of one column.
struct Curve {
    nodes: Vec<Node>,
}

#[derive(Clone, Copy)]
struct Node {
    row: usize,
    /// −1000/T
    x: f64,
    /// ln p
    y: f64,
    /// Half a unit of the last digit typed, in ln p.
    half: f64,
}

/// What the neighbors say of a figure.
#[derive(Clone, Copy)]
struct Seen {
    predicted: f64,
    tolerance: f64,
}

/// How many neighbors a prediction rests on, at most, and the degree of its polynomial.
const NEIGHBORS: usize = 8;
const DEGREE: usize = 3;

impl Curve {
    fn of(table: &TypedTable, column: Column, rows: &[usize]) -> Self {
        let unit = table.unit(column);
        let mut nodes: Vec<Node> = rows
            .iter()
            .filter_map(|&row| {
                let (t, p) = (table.si(Column::Temperature, row)?, table.si(column, row)?);
                let half = 0.5 * 10f64.powi(-typing::decimals(table.text(column, row))) * unit.factor.abs();
                Some(Node { row, x: -1e3 / t, y: p.ln(), half: half / p })
            })
            .collect();
        nodes.sort_by(|a, b| a.x.total_cmp(&b.x));
        nodes.dedup_by(|b, a| a.x == b.x);
        // A dropped last digit makes a figure look coarser than its column: all are held to the finest digit.
        let finest = nodes.iter().map(|n| n.half * n.y.exp()).fold(f64::INFINITY, f64::min);
        for node in &mut nodes {
            node.half = finest / node.y.exp();
        }
        Self { nodes }
    }

    /// What the neighbors of node `i` among those `kept` say of it.
    fn seen(&self, i: usize, kept: &[bool]) -> Option<Seen> {
        let mut near: Vec<usize> = (0..self.nodes.len()).filter(|&j| j != i && kept[j]).collect();
        near.sort_by_key(|j| j.abs_diff(i));
        near.truncate(NEIGHBORS);
        if near.len() < 4 {
            return None;
        }
        near.sort_unstable();
        let points: Vec<(f64, f64)> = near.iter().map(|&j| (self.nodes[j].x, self.nodes[j].half)).collect();
        let at = self.nodes[i].x;
        let degree = DEGREE.min(near.len() - 2);
        let weights = polynomial::weights(&points, at, degree)?;
        let fewer = polynomial::weights(&points, at, degree - 1)?;
        let more = polynomial::weights(&points, at, degree + 1).unwrap_or_else(|| weights.clone());
        let value = |weights: &[f64]| weights.iter().zip(&near).map(|(w, &j)| w * self.nodes[j].y).sum::<f64>();
        let predicted = value(&weights);
        // Rounding is spread evenly over its half unit: three standard deviations of the neighbors' share, never more
        // than the most it can be.
        let own = self.nodes[i].half.max((self.nodes[i].half * (self.nodes[i].y - predicted).exp()).min(1.0));
        let square: f64 = weights.iter().zip(&near).map(|(w, &j)| (w * self.nodes[j].half).powi(2)).sum();
        let most: f64 = weights.iter().zip(&near).map(|(w, &j)| (w * self.nodes[j].half).abs()).sum();
        let neighbors = (3.0 * (square / 3.0).sqrt()).min(most);
        // A degree less and a degree more: in the middle of its neighbors an odd power changes nothing, so one alone
        // would not show what shape the polynomial misses.
        let shape = (predicted - value(&fewer)).abs() + (predicted - value(&more)).abs();
        Some(Seen { predicted, tolerance: 1.001 * own + neighbors + shape })
    }

    /// The nodes that are off, worst first set aside, with what the rest say of each.
    fn outliers(&self) -> Vec<(usize, Seen)> {
        let mut kept = vec![true; self.nodes.len()];
        let mut found = Vec::new();
        while found.len() < self.nodes.len() / 2 {
            let worst = (0..self.nodes.len())
                .filter(|&i| kept[i])
                .filter_map(|i| {
                    let seen = self.seen(i, &kept)?;
                    Some((i, (self.nodes[i].y - seen.predicted).abs() / seen.tolerance))
                })
                .max_by(|a, b| a.1.total_cmp(&b.1));
            match worst {
                Some((i, off)) if off > 1.0 => {
                    kept[i] = false;
                    found.push(i);
                }
                _ => break,
            }
        }
        // What was set aside first may have been judged by what was set aside later.
        found
            .into_iter()
            .filter_map(|i| {
                let seen = self.seen(i, &kept)?;
                ((self.nodes[i].y - seen.predicted).abs() > seen.tolerance).then_some((i, seen))
            })
            .collect()
    }

    /// Whether from some row on all figures stand one row off: then moving them back leaves nothing to find.
    fn all_shifted(&self, table: &TypedTable, column: Column) -> Option<Slip> {
        let n = self.nodes.len();
        if n < 8 || self.outliers().len() < 2 {
            return None;
        }
        for from in 2..n - 2 {
            for up in [true, false] {
                let mut nodes = self.nodes.clone();
                if up {
                    // A row was lost at `from`: the figures below moved up, and belong one row further down.
                    for j in from..n - 1 {
                        nodes[j].x = self.nodes[j + 1].x;
                    }
                    nodes.pop();
                } else {
                    // A figure was typed twice at `from`: the figures below moved down.
                    for j in from..n {
                        nodes[j].x = self.nodes[j - 1].x;
                    }
                    nodes.remove(from - 1);
                }
                if nodes.windows(2).all(|w| w[1].x > w[0].x) && (Curve { nodes }).outliers().is_empty() {
                    let row = self.nodes[from].row;
                    let kind = SlipKind::ShiftedFromHere;
                    let written = table.text(column, row).to_owned();
                    return Some(Slip { row, column, kind, written, expected: None, likely: None });
                }
            }
        }
        None
    }
}
