//! A typed table looked over for slips of the pen, before its figures are trusted.
//!
//! Temperatures are held to the even step of their neighbors, pressures to the curve of theirs ([`super::typed_column`]).
//! The worst figure is set aside and the rest looked at again, until the rest agree; so one slip doesn't accuse the rows
//! round it. What may have happened to a figure is told by [`super::typing`].

use crate::quantity::{Kind, Value};

use super::{
    Column, Slip, SlipKind, TypedTable,
    typed_column::{Outlier, TypedColumn},
    typing,
};

impl TypedTable {
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
            let curve = TypedColumn::of(self, column, &rows);
            if let Some(row) = curve.shifted_from() {
                let written = self.text(column, row).to_owned();
                slips.push(Slip {
                    row,
                    column,
                    kind: SlipKind::ShiftedFromHere,
                    written,
                    expected: None,
                    likely: None,
                });
                continue;
            }
            slips.extend(curve.outliers().iter().map(|outlier| self.explain(column, outlier)));
        }
        self.tell_exchanges_once(&mut slips);
        slips.sort_by_key(|s| (s.row, s.column as usize));
        slips
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

    fn explain(&self, column: Column, outlier: &Outlier) -> Slip {
        let &Outlier { row, predicted, tolerance } = outlier;
        let unit = self.unit(column);
        let written = self.text(column, row).to_owned();
        let number_of = |p: f64| Value::of(Kind::Pressure, p).number_of(unit, self.air);
        let expected = number_of(predicted.exp());
        let within = (number_of((predicted + tolerance).exp()) - expected).abs();
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
    /// is too little off to break either curve. Below a shift of one column nothing is said of the two side by side.
    fn tell_exchanges_once(&self, slips: &mut Vec<Slip>) {
        let shifts = slips.iter().filter(|s| s.kind == SlipKind::ShiftedFromHere);
        let level = shifts.map(|s| s.row).min().unwrap_or(self.rows.len());
        for row in 0..level {
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
