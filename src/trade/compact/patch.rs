//! Chebyshev terms over two variables: patches of a surface, halved where they are not met.

use super::piece::{between, clenshaw, node, terms_through, write_terms};
use super::short;
use std::fmt::Write as _;

/// Nodes of a patch along each variable.
const NODES: [usize; 2] = [9, 9];

/// A patch: `K` functions of two variables.
#[derive(Clone, Debug)]
pub(super) struct Patch<const K: usize> {
    /// From and to, along each variable.
    pub(super) ends: [(f64, f64); 2],
    /// Terms, those of the second variable together.
    terms: [Vec<Vec<f64>>; K],
}

impl<const K: usize> Patch<K> {
    /// The patches of `f` within `ends`, each value within `near` of the function's, halved at most `deepest` times.
    /// `off` is told how far each value was found to be off.
    ///
    /// None where `f` has no value somewhere.
    pub(super) fn all(
        f: &impl Fn(f64, f64) -> Option<[f64; K]>,
        ends: [(f64, f64); 2],
        near: &[f64; K],
        deepest: u32,
        off: &mut dyn FnMut(&[f64; K]),
    ) -> Option<Vec<Self>> {
        let mut patches = Vec::new();
        halve(f, ends, near, deepest, &mut patches, off)?;
        Some(patches)
    }

    pub(super) fn at(&self, k: usize, a: f64, b: f64) -> f64 {
        let place = |x: f64, (low, high): (f64, f64)| (2.0 * x - low - high) / (high - low);
        let t = place(b, self.ends[1]);
        let along: Vec<f64> = self.terms[k].iter().map(|terms| clenshaw(terms, t)).collect();
        clenshaw(&along, place(a, self.ends[0]))
    }

    pub(super) fn write(&self, text: &mut String) {
        let [(a, b), (c, d)] = self.ends;
        let _ = write!(text, "[{a:?},{b:?},{c:?},{d:?}");
        for rows in &self.terms {
            text.push_str(",[0");
            for row in rows {
                write_terms(row, text);
            }
            text.push(']');
        }
        text.push_str("],");
    }
}

fn halve<const K: usize>(
    f: &impl Fn(f64, f64) -> Option<[f64; K]>,
    ends: [(f64, f64); 2],
    near: &[f64; K],
    deepest: u32,
    patches: &mut Vec<Patch<K>>,
    off: &mut dyn FnMut(&[f64; K]),
) -> Option<()> {
    let [across, along] = NODES;
    let mut values: [Vec<Vec<f64>>; K] = std::array::from_fn(|_| vec![Vec::with_capacity(along); across]);
    for i in 0..across {
        for j in 0..along {
            let found = f(node(i, across, ends[0]), node(j, along, ends[1]))?;
            for (of, value) in values.iter_mut().zip(found) {
                of[i].push(value);
            }
        }
    }
    let full: [Vec<Vec<f64>>; K] = values.map(|rows| {
        let rows: Vec<Vec<f64>> = rows.iter().map(|row| terms_through(row)).collect();
        let columns: Vec<Vec<f64>> =
            (0..along).map(|j| terms_through(&rows.iter().map(|row| row[j]).collect::<Vec<_>>())).collect();
        (0..across).map(|i| columns.iter().map(|column| column[i]).collect()).collect()
    });
    let terms = std::array::from_fn(|k| cut(&full[k], near[k]));
    let patch = Patch { ends, terms };
    let mut worst = [0.0f64; K];
    for i in (0..=across).step_by(2) {
        for j in (0..=along).step_by(2) {
            // Staggered, so that more places are looked at for as many questions.
            let (a, b) = (between((i + j / 2 % 2).min(across), across, ends[0]), between(j, along, ends[1]));
            let wanted = f(a, b)?;
            for k in 0..K {
                worst[k] = worst[k].max((patch.at(k, a, b) - wanted[k]).abs());
            }
        }
    }
    if deepest == 0 || (0..K).all(|k| worst[k] <= near[k]) {
        off(&worst);
        patches.push(patch);
        return Some(());
    }
    // Halved along the variable whose last terms are the larger.
    let tail = |at: &dyn Fn(usize, usize) -> bool| -> f64 {
        (0..K)
            .map(|k| {
                let last = full[k].iter().enumerate().flat_map(|(i, row)| {
                    row.iter().enumerate().filter(move |(j, _)| at(i, *j)).map(|(_, term)| term.abs())
                });
                last.fold(0.0f64, f64::max) / near[k]
            })
            .fold(0.0, f64::max)
    };
    let first = tail(&|i, _| i + 2 >= across) > tail(&|_, j| j + 2 >= along);
    let split = usize::from(!first);
    let middle = 0.5 * (ends[split].0 + ends[split].1);
    let (mut lower, mut upper) = (ends, ends);
    lower[split].1 = middle;
    upper[split].0 = middle;
    halve(f, lower, near, deepest - 1, patches, off)?;
    halve(f, upper, near, deepest - 1, patches, off)
}

/// Terms shortened, and rows cut off where all that follows is too small to count.
fn cut(rows: &[Vec<f64>], near: f64) -> Vec<Vec<f64>> {
    let small = 0.01 * near;
    let mut rows: Vec<Vec<f64>> = rows
        .iter()
        .map(|row| {
            let kept = row.iter().rposition(|term| term.abs() > small).map_or(0, |last| last + 1);
            row[..kept].iter().map(|term| if term.abs() <= small { 0.0 } else { short(*term, small) }).collect()
        })
        .collect();
    while rows.last().is_some_and(Vec::is_empty) {
        rows.pop();
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_surface_is_met_within_what_was_asked() {
        let f = |a: f64, b: f64| Some([(a * b).exp(), (a + 2.0 * b).sin()]);
        let mut worst = [0.0f64; 2];
        let patches = Patch::all(&f, [(0.0, 2.0), (-1.0, 1.0)], &[1e-5, 1e-5], 6, &mut |off| {
            (0..2).for_each(|k| worst[k] = worst[k].max(off[k]));
        })
        .unwrap();
        assert!(worst[0] <= 1e-5 && worst[1] <= 1e-5);
        for i in 0..=20 {
            for j in 0..=20 {
                let (a, b) = (0.1 * f64::from(i), -1.0 + 0.1 * f64::from(j));
                let patch = patches
                    .iter()
                    .find(|p| a <= p.ends[0].1 && b <= p.ends[1].1 && a >= p.ends[0].0 && b >= p.ends[1].0);
                let wanted = f(a, b).unwrap();
                for k in 0..2 {
                    assert!((patch.unwrap().at(k, a, b) - wanted[k]).abs() < 2e-5, "{k} at {a}, {b}");
                }
            }
        }
    }
}
