//! Chebyshev expansions piece by piece: a function that is dear to work out, worked out once and then read off.
//!
//! Takes a function of one variable that gives several values at once, and how near each must be met. Every piece is
//! held against the function, or against a dearer one that is surer, at places between its nodes, and halved where it
//! isn't met. Knows no refrigerant.

/// The terms of a piece.
const TERMS: usize = 12;
/// Where, between −1 and 1, a piece is held against the function: away from its nodes.
const PROOFS: [f64; 4] = [-0.947, -0.41, 0.23, 0.86];
/// How often a piece may be halved.
const DEEPEST: u32 = 18;

/// `K` functions of one variable.
#[derive(Clone, Debug)]
pub(super) struct Expansion<const K: usize> {
    pieces: Vec<Piece<K>>,
}

#[derive(Clone, Debug)]
struct Piece<const K: usize> {
    low: f64,
    high: f64,
    terms: [[f64; TERMS]; K],
}

impl<const K: usize> Expansion<K> {
    /// Of `f` between `low` and `high`; each value of `proof` is met to its `tolerance`, which may depend on the value.
    ///
    /// None where either gives nothing somewhere or can't be met.
    pub(super) fn of(
        f: &impl Fn(f64) -> Option<[f64; K]>,
        proof: &impl Fn(f64) -> Option<[f64; K]>,
        low: f64,
        high: f64,
        tolerance: &impl Fn(&[f64; K]) -> [f64; K],
    ) -> Option<Self> {
        let mut pieces = Vec::new();
        halve(f, proof, low, high, tolerance, 0, &mut pieces)?;
        Some(Self { pieces })
    }

    /// The value of function `k` at `x`, which must lie between the ends.
    pub(super) fn at(&self, k: usize, x: f64) -> f64 {
        let after = self.pieces.partition_point(|piece| piece.high < x);
        self.pieces[after.min(self.pieces.len() - 1)].at(k, x)
    }
}

fn halve<const K: usize>(
    f: &impl Fn(f64) -> Option<[f64; K]>,
    proof: &impl Fn(f64) -> Option<[f64; K]>,
    low: f64,
    high: f64,
    tolerance: &impl Fn(&[f64; K]) -> [f64; K],
    depth: u32,
    pieces: &mut Vec<Piece<K>>,
) -> Option<()> {
    let piece = Piece::through(f, low, high)?;
    let mut met = true;
    for place in PROOFS {
        let x = place_in(low, high, place);
        let wanted = proof(x)?;
        let allowed = tolerance(&wanted);
        met = (0..K).all(|k| (piece.at(k, x) - wanted[k]).abs() <= allowed[k]);
        if !met {
            break;
        }
    }
    if met {
        pieces.push(piece);
        return Some(());
    }
    if depth >= DEEPEST {
        return None;
    }
    let middle = 0.5 * (low + high);
    halve(f, proof, low, middle, tolerance, depth + 1, pieces)?;
    halve(f, proof, middle, high, tolerance, depth + 1, pieces)
}

/// What lies at `place` of −1 to 1.
fn place_in(low: f64, high: f64, place: f64) -> f64 {
    0.5 * (low + high) + 0.5 * (high - low) * place
}

impl<const K: usize> Piece<K> {
    /// Through the function's values at the zeros of the Chebyshev polynomial of degree `TERMS`.
    fn through(f: &impl Fn(f64) -> Option<[f64; K]>, low: f64, high: f64) -> Option<Self> {
        let angle = |j: usize| std::f64::consts::PI * (j as f64 + 0.5) / TERMS as f64;
        let mut terms = [[0.0; TERMS]; K];
        for j in 0..TERMS {
            let values = f(place_in(low, high, angle(j).cos()))?;
            for (terms, value) in terms.iter_mut().zip(values) {
                for (i, term) in terms.iter_mut().enumerate() {
                    let share = if i == 0 { 1.0 } else { 2.0 } / TERMS as f64;
                    *term += share * value * (i as f64 * angle(j)).cos();
                }
            }
        }
        Some(Self { low, high, terms })
    }

    /// Clenshaw's sum (Mathematical Tables and Other Aids to Computation 9 (1955) 118).
    fn at(&self, k: usize, x: f64) -> f64 {
        let s = (2.0 * x - self.low - self.high) / (self.high - self.low);
        let (mut b1, mut b2) = (0.0, 0.0);
        for term in self.terms[k][1..].iter().rev() {
            (b1, b2) = (2.0 * s * b1 - b2 + term, b1);
        }
        s * b1 - b2 + self.terms[k][0]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_function_is_met_between_the_nodes_of_its_pieces() {
        let f = |x: f64| Some([x.exp(), 1.0 / (0.01 + x * x)]);
        let tolerance = |y: &[f64; 2]| y.map(|y| 1e-10 * y.abs());
        let expansion = Expansion::of(&f, &f, -1.0, 2.0, &tolerance).unwrap();
        for i in 0..=1000 {
            let x = -1.0 + 3.0 * f64::from(i) / 1000.0;
            let wanted = f(x).unwrap();
            for k in 0..2 {
                assert!((expansion.at(k, x) / wanted[k] - 1.0).abs() < 1e-9, "{k} at {x}");
            }
        }
        assert!(expansion.pieces.len() > 3);
    }

    #[test]
    fn what_cannot_be_met_is_told() {
        let (step, half) = (|x: f64| Some([x.signum()]), |x: f64| (x < 0.5).then_some([x]));
        let whole = |x: f64| Some([x]);
        assert!(Expansion::of(&step, &step, -1.0, 1.3, &|_| [1e-10]).is_none());
        assert!(Expansion::of(&half, &whole, 0.0, 1.0, &|_| [1e-10]).is_none());
        assert!(Expansion::of(&whole, &half, 0.0, 1.0, &|_| [1e-10]).is_none());
        // What is off from its proof is found, however smooth it is itself.
        assert!(Expansion::of(&whole, &|x: f64| Some([x + 1e-9]), 0.0, 1.0, &|_| [1e-10]).is_none());
    }
}
