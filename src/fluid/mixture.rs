//! The multi-fluid mixture model: the Helmholtz energy of a blend out of those of its components.
//!
//! αr(τ, δ, x) = Σ xi αr_i(τ, δ) + Σ_{i<j} xi xj Fij αr_ij(τ, δ), every component at the *blend's* τ = Tr(x)/T and
//! δ = ρ vr(x), with
//!
//! Tr(x) = Σ xi² Ti + Σ_{i<j} 2 xi xj βT γT (xi + xj)/(βT² xi + xj) √(Ti Tj), and vr(x) the same with βv, γv and
//! ⅛(vi^⅓ + vj^⅓)³ in place of the root (Kunz and Wagner 2012; Lemmon and Jacobsen 2004 in its own variables).
//!
//! What equilibrium needs is had from Ψ = ρ R T αr as a function of T and the concentrations ρi: the gradient gives
//! fugacities and pressure, the Hessian every derivative that Newton's method asks for. Tr and vr are homogeneous of
//! the second degree in x as written above, so that nothing is divided by a small xi. All derivatives are analytic.
//! A pure refrigerant is a blend of one.

use std::sync::Arc;

use super::{
    Equation, FluidError,
    mixing::{self, Mixing},
    residual::{Point, Residual, Terms},
};

/// The most components a blend may have. The blends of the standards have six at most.
pub(super) const MOST: usize = 8;

/// A number for each component; what lies past the last component is zero.
pub(super) type Each = [f64; MOST];

/// The molar gas constant, exact since 2019 (CODATA). Pures use the constant of their own paper.
const GAS_CONSTANT: f64 = 8.314_462_618_153_24;

/// Components and what they do to each other; the composition is given with each question.
#[derive(Debug)]
pub(super) struct Mixture {
    pub(super) components: Vec<&'static Equation>,
    pub(super) mixings: Vec<PairMixing>,
    /// J/(mol K)
    pub(super) gas_constant: f64,
    temperatures: PairSum,
    volumes: PairSum,
    departures: Vec<PairDeparture>,
}

/// The mixing of components `i` and `j`.
#[derive(Debug)]
pub(super) struct PairMixing {
    pub(super) i: usize,
    pub(super) j: usize,
    pub(super) mixing: Mixing,
}

/// Departure terms with the pairs that share them: (i, j, F).
#[derive(Debug)]
struct PairDeparture {
    terms: Arc<Terms>,
    pairs: Vec<(usize, usize, f64)>,
}

/// Σ xi² ai + Σ_{i<j} cij xi xj (xi + xj)/(bij xi + xj).
#[derive(Debug)]
struct PairSum {
    own: Each,
    pairs: Vec<(usize, usize, f64, f64)>,
}

/// A [`PairSum`] with its first and second derivatives by the xi, taken as if all were independent.
struct PairSums {
    value: f64,
    by: Each,
    by_by: [Each; MOST],
}

impl PairSum {
    fn value(&self, n: usize, x: &Each) -> f64 {
        let own: f64 = (0..n).map(|i| x[i] * x[i] * self.own[i]).sum();
        let pairs = self.pairs.iter().filter(|&&(i, j, ..)| x[i] + x[j] > 0.0);
        own + pairs.map(|&(i, j, c, b)| c * x[i] * x[j] * (x[i] + x[j]) / (b * x[i] + x[j])).sum::<f64>()
    }

    fn at(&self, n: usize, x: &Each) -> PairSums {
        let mut sums = PairSums { value: 0.0, by: [0.0; MOST], by_by: [[0.0; MOST]; MOST] };
        for i in 0..n {
            sums.value += x[i] * x[i] * self.own[i];
            sums.by[i] = 2.0 * x[i] * self.own[i];
            sums.by_by[i][i] = 2.0 * self.own[i];
        }
        for &(i, j, c, b) in &self.pairs {
            let (xi, xj) = (x[i], x[j]);
            let (s, m, q) = (xi + xj, xi * xj, b * xi + xj);
            // Both concentrations may have run out to nothing on the way of an iteration.
            if q <= 0.0 {
                continue;
            }
            let (sq, mq, q2) = (s / q, m / q, q * q);
            sums.value += c * m * sq;
            sums.by[i] += c * (xj * sq + mq - b * mq * sq);
            sums.by[j] += c * (xi * sq + mq - mq * sq);
            sums.by_by[i][i] += 2.0 * c * (xj / q - b * xj * s / q2 - b * m / q2 + b * b * mq * s / q2);
            sums.by_by[j][j] += 2.0 * c * (xi / q - xi * s / q2 - m / q2 + mq * s / q2);
            let cross = c * (sq + (xi + xj) / q - (xj + b * xi) * s / q2 - (1.0 + b) * m / q2 + 2.0 * b * mq * s / q2);
            sums.by_by[i][j] += cross;
            sums.by_by[j][i] += cross;
        }
        sums
    }
}

/// A phase at (T, ρi): what equilibrium needs of it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Phase {
    /// Pa
    pub(super) pressure: f64,
    /// mol/m³, all components together
    pub(super) density: f64,
    /// ln fi less ln RT: ln ρi + ∂(ραr)/∂ρi
    pub(super) potential: Each,
    /// ∂ potential\[k\] / ∂ ln ρ\[l\]
    pub(super) potential_by: [Each; MOST],
    /// ∂ potential\[k\] / ∂ ln T at fixed ρi, less that of ln RT
    pub(super) potential_by_t: Each,
    /// ∂p / ∂ ln ρ\[l\]
    pub(super) pressure_by: Each,
    /// ∂p / ∂ ln T at fixed ρi
    pub(super) pressure_by_t: f64,
}

impl Mixture {
    /// The mixture of these components, each pair published or estimated.
    pub(super) fn of(components: Vec<&'static Equation>) -> Result<Self, FluidError> {
        let n = components.len();
        let mut temperatures = PairSum { own: [0.0; MOST], pairs: Vec::new() };
        let mut volumes = PairSum { own: [0.0; MOST], pairs: Vec::new() };
        for (i, component) in components.iter().enumerate() {
            temperatures.own[i] = component.reducing.temperature;
            volumes.own[i] = 1.0 / component.reducing.density;
        }
        let mut mixings = Vec::new();
        let mut departures: Vec<PairDeparture> = Vec::new();
        for j in 1..n {
            for i in 0..j {
                let mixing = mixing::of(components[i], components[j])?;
                let root = (temperatures.own[i] * temperatures.own[j]).sqrt();
                let cubes = (volumes.own[i].cbrt() + volumes.own[j].cbrt()).powi(3) / 8.0;
                temperatures.pairs.push((
                    i,
                    j,
                    2.0 * mixing.beta_t * mixing.gamma_t * root,
                    mixing.beta_t * mixing.beta_t,
                ));
                volumes.pairs.push((i, j, 2.0 * mixing.beta_v * mixing.gamma_v * cubes, mixing.beta_v * mixing.beta_v));
                if let Some(departure) = &mixing.departure {
                    match departures.iter_mut().find(|d| Arc::ptr_eq(&d.terms, &departure.terms)) {
                        Some(shared) => shared.pairs.push((i, j, departure.factor)),
                        None => departures.push(PairDeparture {
                            terms: Arc::clone(&departure.terms),
                            pairs: vec![(i, j, departure.factor)],
                        }),
                    }
                }
                mixings.push(PairMixing { i, j, mixing });
            }
        }
        let gas_constant = if n == 1 { components[0].gas_constant } else { GAS_CONSTANT };
        Ok(Self { components, mixings, gas_constant, temperatures, volumes, departures })
    }

    pub(super) fn len(&self) -> usize {
        self.components.len()
    }

    /// Reducing temperature, K, and reducing molar volume, m³/mol, of a composition.
    pub(super) fn reducing(&self, x: &Each) -> (f64, f64) {
        (self.temperatures.value(self.len(), x), self.volumes.value(self.len(), x))
    }

    /// αr of a composition and its scaled derivatives at (τ, δ) of that composition.
    pub(super) fn residual(&self, x: &Each, point: &Point) -> Residual {
        let mut sum = Residual::default();
        for (component, &x) in self.components.iter().zip(x) {
            sum.add(x, &component.residual.at(point));
        }
        for departure in &self.departures {
            let factor: f64 = departure.pairs.iter().map(|&(i, j, f)| x[i] * x[j] * f).sum();
            sum.add(factor, &departure.terms.at(point));
        }
        sum
    }

    /// Fugacities, pressure and their derivatives at `t` K and the concentrations `rho` in mol/m³.
    pub(super) fn phase(&self, t: f64, rho: &Each) -> Phase {
        let n = self.len();
        let density: f64 = rho[..n].iter().sum();
        let mut x = [0.0; MOST];
        for i in 0..n {
            x[i] = rho[i] / density;
        }
        let (tr, vr) = (self.temperatures.at(n, &x), self.volumes.at(n, &x));
        let point = Point::at(tr.value / t, density * vr.value);

        // What each component adds, and the sums S_k = Σ_j x_j F a_kj and D = Σ x_i x_j F a_ij over departures.
        let mut own = [Residual::default(); MOST];
        let mut whole = Residual::default();
        for i in 0..n {
            own[i] = self.components[i].residual.at(&point);
            whole.add(x[i], &own[i]);
        }
        let mut shared = Residual::default();
        let mut pair_values = [[0.0; MOST]; MOST];
        for departure in &self.departures {
            let value = departure.terms.at(&point);
            for &(i, j, f) in &departure.pairs {
                own[i].add(x[j] * f, &value);
                own[j].add(x[i] * f, &value);
                shared.add(x[i] * x[j] * f, &value);
                pair_values[i][j] += f * value.a00;
                pair_values[j][i] += f * value.a00;
            }
        }
        whole.add(1.0, &shared);

        let rt = self.gas_constant * t;
        let mut phase = Phase {
            pressure: density * rt * (1.0 + whole.a01),
            density,
            potential: [0.0; MOST],
            potential_by: [[0.0; MOST]; MOST],
            potential_by_t: [0.0; MOST],
            pressure_by: [0.0; MOST],
            pressure_by_t: density * rt * (1.0 + whole.a01 - whole.a11),
        };
        // ρ∂δ/∂ρk / δ and ρ∂τ/∂ρk / τ; then the explicit part of ∂(ραr)/∂ρk and its δ- and τ-derivatives
        let (mut dk, mut tk) = ([0.0; MOST], [0.0; MOST]);
        let mut departure_sums = [0.0; MOST];
        for k in 0..n {
            dk[k] = vr.by[k] / vr.value - 1.0;
            tk[k] = tr.by[k] / tr.value - 2.0;
            own[k].add(-1.0, &shared);
            departure_sums[k] = pair_values[k][..n].iter().zip(&x).map(|(a, x)| a * x).sum::<f64>() - shared.a00;
            phase.potential[k] = rho[k].ln() + own[k].a00 + whole.a01 * dk[k] + whole.a10 * tk[k];
            phase.potential_by_t[k] = -(own[k].a10 + whole.a11 * dk[k] + (whole.a20 + whole.a10) * tk[k]);
        }
        for k in 0..n {
            for l in k..n {
                let ddkl = (vr.by_by[k][l] - vr.by[k] - vr.by[l]) / vr.value + 2.0;
                let ttkl = (tr.by_by[k][l] - 2.0 * (tr.by[k] + tr.by[l])) / tr.value + 6.0;
                let second = pair_values[k][l] - departure_sums[k] - departure_sums[l]
                    + own[k].a01 * dk[l]
                    + own[l].a01 * dk[k]
                    + own[k].a10 * tk[l]
                    + own[l].a10 * tk[k]
                    + whole.a02 * dk[k] * dk[l]
                    + whole.a11 * (dk[k] * tk[l] + dk[l] * tk[k])
                    + whole.a20 * tk[k] * tk[l]
                    + whole.a01 * ddkl
                    + whole.a10 * ttkl;
                phase.potential_by[k][l] = x[l] * second;
                phase.potential_by[l][k] = x[k] * second;
                phase.pressure_by[l] += x[k] * second;
                if k != l {
                    phase.pressure_by[k] += x[l] * second;
                }
            }
        }
        for k in 0..n {
            phase.potential_by[k][k] += 1.0;
            phase.pressure_by[k] = rt * rho[k] * (1.0 + phase.pressure_by[k]);
        }
        phase
    }
}
