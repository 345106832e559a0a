//! The critical point of a blend: where its two phases become one.
//!
//! There the Hessian of the Helmholtz energy by the concentrations has a vanishing eigenvalue, and the third derivative
//! along that eigenvector vanishes too (Heidemann and Khalil, AIChE Journal 26 (1980) 769, in concentrations). The
//! temperature of the first condition is followed over density, and every change of sign of the second is closed in on.
//! Models with departure functions may have several such points: the hottest with positive pressure is the critical
//! point; the others lie inside the two-phase region.

use super::{
    false_position::{self, Near},
    mixture::{Each, MOST, Mixture},
};

/// A critical point: K, Pa, mol/m³.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Point {
    pub(super) temperature: f64,
    pub(super) pressure: f64,
    pub(super) density: f64,
}

/// The critical point of composition `z`, or none where no such point is found.
pub(super) fn find(mixture: &Mixture, z: &Each) -> Option<Point> {
    let n = mixture.len();
    if n == 1 {
        let c = mixture.components[0].critical;
        return Some(Point { temperature: c.temperature, pressure: c.pressure, density: c.density });
    }
    let (tr, vr) = mixture.reducing(z);
    let spinodal = Spinodal { mixture, z, n };

    const STEPS: usize = 36;
    let mut hottest: Option<Point> = None;
    let mut before: Option<(f64, f64, f64)> = None;
    let mut expected = tr;
    for i in 0..=STEPS {
        // From a dense liquid down to a thin gas: 1.8 to 0.5 of the reducing density
        let rho = (1.8 - 1.3 * i as f64 / STEPS as f64) / vr;
        let Some(t) = spinodal.temperature(rho, expected) else {
            before = None;
            continue;
        };
        expected = t;
        let third = spinodal.third(t, rho);
        if let Some((rho_0, _, third_0)) = before
            && third_0 * third <= 0.0
            && let Some(found) = spinodal.close_in((rho_0, third_0), (rho, third), t)
            && found.pressure > 0.0
            && hottest.is_none_or(|h| found.temperature > h.temperature)
        {
            hottest = Some(found);
        }
        before = Some((rho, t, third));
    }
    hottest
}

/// The limit of stability of one composition.
struct Spinodal<'a> {
    mixture: &'a Mixture,
    z: &'a Each,
    n: usize,
}

impl Spinodal<'_> {
    /// The Hessian δkl + √(xk xl) ρ ∂²(ραr)/∂ρk∂ρl at concentrations `rho`, scaled by the composition z.
    fn hessian(&self, t: f64, rho: &Each, density: f64) -> [Each; MOST] {
        let phase = self.mixture.phase(t, rho);
        let mut matrix = [[0.0; MOST]; MOST];
        for k in 0..self.n {
            for l in 0..self.n {
                // potential_by is by ln ρl: divide by ρl, multiply by the scales of both
                matrix[k][l] = phase.potential_by[k][l] / rho[l] * density * (self.z[k] * self.z[l]).sqrt();
            }
        }
        matrix
    }

    fn at(&self, t: f64, density: f64) -> (f64, Each) {
        let mut rho = [0.0; MOST];
        for i in 0..self.n {
            rho[i] = density * self.z[i];
        }
        smallest_eigenvalue(self.hessian(t, &rho, density), self.n)
    }

    /// The hottest temperature near `expected` at which the smallest eigenvalue vanishes at this density.
    fn temperature(&self, density: f64, expected: f64) -> Option<f64> {
        let value = |t: f64| self.at(t, density).0;
        // From the hot, stable side downward until it turns negative.
        let mut high = 1.04 * expected;
        let mut at_high = value(high);
        let mut tries = 0;
        while at_high <= 0.0 {
            high *= 1.05;
            at_high = value(high);
            tries += 1;
            if tries > 12 {
                return None;
            }
        }
        let mut low = high;
        let mut at_low = at_high;
        for _ in 0..60 {
            (high, at_high) = (low, at_low);
            low *= 0.985;
            at_low = value(low);
            if at_low <= 0.0 {
                return root(value, (low, at_low), (high, at_high), 1e-13 * high);
            }
        }
        None
    }

    /// The third derivative along the eigenvector, by central differences of the second with one Richardson step.
    fn third(&self, t: f64, density: f64) -> f64 {
        let (_, vector) = self.at(t, density);
        let second = |s: f64| {
            let mut rho = [0.0; MOST];
            for i in 0..self.n {
                rho[i] = density * (self.z[i] + s * self.z[i].sqrt() * vector[i]);
            }
            let matrix = self.hessian(t, &rho, density);
            let mut sum = 0.0;
            for k in 0..self.n {
                for l in 0..self.n {
                    sum += vector[k] * matrix[k][l] * vector[l];
                }
            }
            sum
        };
        let slope = |h: f64| (second(h) - second(-h)) / (2.0 * h);
        (4.0 * slope(1e-3) - slope(2e-3)) / 3.0
    }

    fn close_in(&self, a: (f64, f64), b: (f64, f64), expected: f64) -> Option<Point> {
        let value = |rho: f64| match self.temperature(rho, expected) {
            Some(t) => self.third(t, rho),
            None => f64::NAN,
        };
        let density = root(value, a, b, 1e-10 * a.0)?;
        let temperature = self.temperature(density, expected)?;
        let mut rho = [0.0; MOST];
        for i in 0..self.n {
            rho[i] = density * self.z[i];
        }
        let pressure = self.mixture.phase(temperature, &rho).pressure;
        (temperature.is_finite() && pressure.is_finite()).then_some(Point { temperature, pressure, density })
    }
}

/// A root between two places, found to a step of `width`; none where the function is no number on the way.
fn root(f: impl Fn(f64) -> f64, a: (f64, f64), b: (f64, f64), width: f64) -> Option<f64> {
    let finite = |x: f64| Some(f(x)).filter(|y| y.is_finite()).ok_or(());
    false_position::root(finite, a, b, Near { step: width, value: 0.0 }).ok()
}

/// The smallest eigenvalue of a symmetric matrix and its vector, the sum of whose components is positive: Jacobi's
/// rotations.
pub(super) fn smallest_eigenvalue(mut a: [Each; MOST], n: usize) -> (f64, Each) {
    let mut v = [[0.0; MOST]; MOST];
    for (i, row) in v.iter_mut().enumerate() {
        row[i] = 1.0;
    }
    for _ in 0..30 {
        let mut off = 0.0;
        let mut whole = 0.0;
        for i in 0..n {
            for j in 0..n {
                whole += a[i][j] * a[i][j];
                if i != j {
                    off += a[i][j] * a[i][j];
                }
            }
        }
        if off <= 1e-32 * whole {
            break;
        }
        for p in 0..n {
            for q in p + 1..n {
                if a[p][q] == 0.0 {
                    continue;
                }
                let theta = (a[q][q] - a[p][p]) / (2.0 * a[p][q]);
                let t = theta.signum() / (theta.abs() + (theta * theta + 1.0).sqrt());
                let c = 1.0 / (t * t + 1.0).sqrt();
                let s = t * c;
                for row in a.iter_mut().take(n) {
                    (row[p], row[q]) = (c * row[p] - s * row[q], s * row[p] + c * row[q]);
                }
                let (above, below) = a.split_at_mut(q);
                for (x, y) in above[p].iter_mut().zip(below[0].iter_mut()).take(n) {
                    (*x, *y) = (c * *x - s * *y, s * *x + c * *y);
                }
                for row in v.iter_mut().take(n) {
                    (row[p], row[q]) = (c * row[p] - s * row[q], s * row[p] + c * row[q]);
                }
            }
        }
    }
    let mut least = 0;
    for i in 1..n {
        if a[i][i] < a[least][least] {
            least = i;
        }
    }
    let mut vector = [0.0; MOST];
    for i in 0..n {
        vector[i] = v[i][least];
    }
    if vector.iter().sum::<f64>() < 0.0 {
        vector.iter_mut().for_each(|x| *x = -*x);
    }
    (a[least][least], vector)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_smallest_eigenvalue_of_a_known_matrix() {
        // Eigenvalues 2 − √2, 2, 2 + √2
        let mut a = [[0.0; MOST]; MOST];
        for (row, values) in a.iter_mut().zip([[2.0, -1.0, 0.0], [-1.0, 2.0, -1.0], [0.0, -1.0, 2.0]]) {
            row[..3].copy_from_slice(&values);
        }
        let (value, vector) = smallest_eigenvalue(a, 3);
        assert!((value - (2.0 - 2.0_f64.sqrt())).abs() < 1e-14);
        assert!((vector[1] / vector[0] - 2.0_f64.sqrt()).abs() < 1e-12);
    }
}
