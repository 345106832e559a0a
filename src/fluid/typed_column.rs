//! One column of pressures of a typed table, as ln p against 1/T: which of its figures the others contradict.
//!
//! On ln p against 1/T a saturation line is all but straight; so each figure is predicted from its neighbors by a polynomial
//! of low degree, itself left out, and compared. How far off is too far follows from the figures themselves: half a unit of
//! the last digit typed, in the figure and in its neighbors, and the difference that the last power of the polynomial makes.

use super::{Column, TypedTable, polynomial, typing};

/// ln p against 1/T of one column.
pub(super) struct TypedColumn {
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

/// A figure that its neighbors contradict.
pub(super) struct Outlier {
    /// Of the table, counted from 0.
    pub(super) row: usize,
    /// ln p by the neighbors.
    pub(super) predicted: f64,
    /// How far from it a figure may be, in ln p.
    pub(super) tolerance: f64,
}

/// What the neighbors say of a figure, in ln p.
#[derive(Clone, Copy)]
struct Seen {
    predicted: f64,
    tolerance: f64,
}

/// How many neighbors a prediction rests on, at most, and the degree of its polynomial.
const NEIGHBORS: usize = 8;
const DEGREE: usize = 3;

impl TypedColumn {
    /// The figures of `column` in these rows of the table; what is no number is left out.
    pub(super) fn of(table: &TypedTable, column: Column, rows: &[usize]) -> Self {
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
        // In ln p half a unit counts for more the less the pressure is: the less of the one written and the one predicted.
        let own = self.nodes[i].half.max((self.nodes[i].half * (self.nodes[i].y - predicted).exp()).min(1.0));
        // Rounding is spread evenly over its half unit: three standard deviations of the neighbors' share, never more
        // than the most it can be.
        let square: f64 = weights.iter().zip(&near).map(|(w, &j)| (w * self.nodes[j].half).powi(2)).sum();
        let most: f64 = weights.iter().zip(&near).map(|(w, &j)| (w * self.nodes[j].half).abs()).sum();
        let neighbors = (3.0 * (square / 3.0).sqrt()).min(most);
        // A degree less and a degree more: in the middle of its neighbors an odd power changes nothing, so one alone
        // would not show what shape the polynomial misses.
        let shape = (predicted - value(&fewer)).abs() + (predicted - value(&more)).abs();
        Some(Seen { predicted, tolerance: 1.001 * own + neighbors + shape })
    }

    /// The figures that are off: the worst is set aside first, and the rest looked at again until they agree.
    pub(super) fn outliers(&self) -> Vec<Outlier> {
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
                let Seen { predicted, tolerance } = self.seen(i, &kept)?;
                let Node { row, y, .. } = self.nodes[i];
                ((y - predicted).abs() > tolerance).then_some(Outlier { row, predicted, tolerance })
            })
            .collect()
    }

    /// The row from which on all figures stand one row off, if there is one: moving them back leaves nothing to find.
    pub(super) fn shifted_from(&self) -> Option<usize> {
        let n = self.nodes.len();
        if n < 8 || self.outliers().len() < 2 {
            return None;
        }
        // In the order of the table, whose temperatures may fall.
        let falls = self.nodes[0].row > self.nodes[n - 1].row;
        let mut typed = self.nodes.clone();
        if falls {
            typed.reverse();
        }
        for from in 2..n - 2 {
            for up in [true, false] {
                let mut nodes = typed.clone();
                if up {
                    // A row was lost at `from`: the figures below moved up, and belong one row further down.
                    for j in from..n - 1 {
                        nodes[j].x = typed[j + 1].x;
                    }
                    nodes.pop();
                } else {
                    // A figure was typed twice at `from`: the figures below moved down.
                    for j in from..n {
                        nodes[j].x = typed[j - 1].x;
                    }
                    nodes.remove(from - 1);
                }
                let in_order = nodes.windows(2).all(|w| w[1].x != w[0].x && (w[1].x < w[0].x) == falls);
                if in_order && (Self { nodes }).outliers().is_empty() {
                    return Some(typed[from].row);
                }
            }
        }
        None
    }
}
