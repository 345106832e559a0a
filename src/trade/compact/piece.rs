//! Chebyshev terms over one variable, as few and as short as the page can do with.
//!
//! Takes a function of one variable that gives several values, and how near each must come. Every piece is held against
//! the function midway between its nodes, where such terms are furthest off, and halved where it isn't met.

use super::short;
use std::f64::consts::PI;
use std::fmt::Write as _;

/// Nodes of a piece.
const NODES: usize = 16;
/// How often a piece may be halved.
const DEEPEST: u32 = 9;

#[derive(Clone, Debug)]
pub(super) struct Piece<const K: usize> {
    pub(super) low: f64,
    pub(super) high: f64,
    pub(super) terms: [Vec<f64>; K],
}

impl<const K: usize> Piece<K> {
    /// The pieces between `low` and `high`, each value within `near` of the function's.
    pub(super) fn all<E>(
        f: &impl Fn(f64) -> Result<[f64; K], E>,
        (low, high): (f64, f64),
        near: &[f64; K],
    ) -> Result<Vec<Self>, E> {
        let mut pieces = Vec::new();
        halve(f, (low, high), near, 0, &mut pieces)?;
        Ok(pieces)
    }

    /// The value of function `k` at `x`.
    pub(super) fn at(&self, k: usize, x: f64) -> f64 {
        clenshaw(&self.terms[k], (2.0 * x - self.low - self.high) / (self.high - self.low))
    }

    pub(super) fn write(&self, values: usize, text: &mut String) {
        let _ = write!(text, "[{:?},{:?}", self.low, self.high);
        for terms in &self.terms[..values] {
            write_terms(terms, text);
        }
        text.push_str("],");
    }
}

pub(super) fn write_terms(terms: &[f64], text: &mut String) {
    text.push_str(",[");
    for (i, term) in terms.iter().enumerate() {
        let _ = write!(text, "{}{term}", if i == 0 { "" } else { "," });
    }
    text.push(']');
}

/// Clenshaw's sum (Mathematical Tables and Other Aids to Computation 9 (1955) 118).
pub(super) fn clenshaw(terms: &[f64], s: f64) -> f64 {
    let Some((first, rest)) = terms.split_first() else { return 0.0 };
    let (mut b1, mut b2) = (0.0, 0.0);
    for term in rest.iter().rev() {
        (b1, b2) = (2.0 * s * b1 - b2 + term, b1);
    }
    s * b1 - b2 + first
}

/// The terms through values at `count` nodes.
pub(super) fn terms_through(values: &[f64]) -> Vec<f64> {
    let count = values.len();
    (0..count)
        .map(|i| {
            let share = if i == 0 { 1.0 } else { 2.0 } / count as f64;
            let sum: f64 = values.iter().enumerate().map(|(j, v)| v * (i as f64 * angle(j, count)).cos()).sum();
            share * sum
        })
        .collect()
}

fn angle(j: usize, count: usize) -> f64 {
    PI * (j as f64 + 0.5) / count as f64
}

/// Node `j` of `count` between `low` and `high`.
pub(super) fn node(j: usize, count: usize, (low, high): (f64, f64)) -> f64 {
    0.5 * (low + high) + 0.5 * (high - low) * angle(j, count).cos()
}

/// Midway between nodes `j` and `j + 1`; the ends themselves for the first and the last.
pub(super) fn between(j: usize, count: usize, (low, high): (f64, f64)) -> f64 {
    0.5 * (low + high) + 0.5 * (high - low) * (PI * j as f64 / count as f64).cos()
}

fn halve<const K: usize, E>(
    f: &impl Fn(f64) -> Result<[f64; K], E>,
    ends: (f64, f64),
    near: &[f64; K],
    depth: u32,
    pieces: &mut Vec<Piece<K>>,
) -> Result<(), E> {
    let mut values: [Vec<f64>; K] = std::array::from_fn(|_| Vec::with_capacity(NODES));
    for j in 0..NODES {
        for (of, value) in values.iter_mut().zip(f(node(j, NODES, ends))?) {
            of.push(value);
        }
    }
    let terms = std::array::from_fn(|k| cut(terms_through(&values[k]), near[k]));
    let piece = Piece { low: ends.0, high: ends.1, terms };
    let mut met = true;
    for j in (0..=NODES).step_by(2) {
        let x = between(j, NODES, ends);
        let wanted = f(x)?;
        met &= (0..K).all(|k| (piece.at(k, x) - wanted[k]).abs() <= near[k]);
    }
    if met || depth >= DEEPEST {
        pieces.push(piece);
        return Ok(());
    }
    let middle = 0.5 * (ends.0 + ends.1);
    halve(f, (ends.0, middle), near, depth + 1, pieces)?;
    halve(f, (middle, ends.1), near, depth + 1, pieces)
}

/// Terms shortened, those too small to count left off the end.
fn cut(mut terms: Vec<f64>, near: f64) -> Vec<f64> {
    let mut spent = 0.0;
    while let Some(last) = terms.last() {
        spent += last.abs();
        if spent > 0.2 * near {
            break;
        }
        terms.pop();
    }
    terms.iter().map(|term| short(*term, 0.02 * near)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_function_is_met_within_what_was_asked() {
        let f = |x: f64| Ok::<_, ()>([x.exp(), 1.0 / (0.05 + x * x)]);
        let pieces = Piece::all(&f, (-1.0, 2.0), &[1e-5, 1e-4]).unwrap();
        for i in 0..=300 {
            let x = -1.0 + 0.01 * f64::from(i);
            let piece = pieces.iter().find(|piece| x <= piece.high).unwrap_or(&pieces[pieces.len() - 1]);
            let [a, b] = f(x).unwrap();
            assert!((piece.at(0, x) - a).abs() < 1.2e-5 && (piece.at(1, x) - b).abs() < 1.2e-4, "at {x}");
        }
    }
}
