//! What a polynomial fitted to given points says at another place, as weights of the points.

/// The weights of the points in the value at `at` of the polynomial of this degree fitted to them, each point counting
/// by the inverse square of its uncertainty: points are (x, uncertainty). None where the points don't settle it.
///
/// Gram and Schmidt's orthogonal polynomials (Forsythe, Journal of the Society for Industrial and Applied Mathematics 5
/// (1957) 74): no matrix of powers is ever set up.
pub(super) fn weights(points: &[(f64, f64)], at: f64, degree: usize) -> Option<Vec<f64>> {
    if points.len() <= degree {
        return None;
    }
    let count: Vec<f64> = points.iter().map(|(_, u)| 1.0 / (u * u)).collect();
    let mut weights = vec![0.0; points.len()];
    let mut last = vec![0.0; points.len()];
    let mut now = vec![1.0; points.len()];
    let (mut last_at, mut now_at, mut last_norm) = (0.0, 1.0, 1.0);
    for k in 0..=degree {
        let norm: f64 = now.iter().zip(&count).map(|(p, c)| c * p * p).sum();
        if !(norm > 0.0 && norm.is_finite()) {
            return None;
        }
        for ((w, p), c) in weights.iter_mut().zip(&now).zip(&count) {
            *w += now_at * c * p / norm;
        }
        let middle = now.iter().zip(&count).zip(points).map(|((p, c), (x, _))| c * x * p * p).sum::<f64>() / norm;
        let back = if k == 0 { 0.0 } else { norm / last_norm };
        let next: Vec<f64> =
            points.iter().zip(&now).zip(&last).map(|(((x, _), p), q)| (x - middle) * p - back * q).collect();
        let next_at = (at - middle) * now_at - back * last_at;
        (last, now) = (now, next);
        (last_at, now_at, last_norm) = (now_at, next_at, norm);
    }
    Some(weights)
}

#[cfg(test)]
mod tests {
    use super::weights;

    #[test]
    fn a_cubic_is_met_by_a_cubic() {
        let f = |x: f64| 3.0 - x + 0.5 * x * x - 0.2 * x * x * x;
        let points: Vec<(f64, f64)> = (0..7).map(|i| (f64::from(i) * 0.3, 1.0 + 0.1 * f64::from(i))).collect();
        let weights = weights(&points, 2.3, 3).unwrap();
        let found: f64 = weights.iter().zip(&points).map(|(w, (x, _))| w * f(*x)).sum();
        assert!((found - f(2.3)).abs() < 1e-12);
        assert!((weights.iter().sum::<f64>() - 1.0).abs() < 1e-12);
    }

    #[test]
    fn too_few_points_settle_nothing() {
        assert!(weights(&[(0.0, 1.0), (1.0, 1.0)], 0.5, 2).is_none());
        assert!(weights(&[(1.0, 1.0), (1.0, 1.0), (1.0, 1.0)], 0.5, 1).is_none());
    }
}
