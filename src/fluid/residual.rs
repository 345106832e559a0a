//! The residual Helmholtz energy αr(τ, δ) of one fluid or one departure function, with its derivatives.
//!
//! Takes the rows of coefficients out of a data file, gives αr and its first and second derivatives, all of them
//! analytic. Each kind of term stands under its formula. δ = ρ/ρr, τ = Tr/T; what the reducing values are is the
//! caller's business.
//!
//! Derivatives are kept in the scaled form δ∂/∂δ, τ∂/∂τ, δ²∂²/∂δ² and so on: in it every power is a bare factor, and
//! nothing is divided by a small δ.

use serde::Deserialize;

use super::table::Table;

/// αr and its scaled derivatives: the first digit counts those by τ, the second those by δ.
///
/// `a01` is δ ∂αr/∂δ, `a11` is δτ ∂²αr/∂δ∂τ, `a20` is τ² ∂²αr/∂τ².
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Residual {
    pub(super) a00: f64,
    pub(super) a01: f64,
    pub(super) a10: f64,
    pub(super) a02: f64,
    pub(super) a11: f64,
    pub(super) a20: f64,
}

impl Residual {
    /// Adds `factor` times another.
    #[inline]
    pub(super) fn add(&mut self, factor: f64, other: &Residual) {
        self.a00 += factor * other.a00;
        self.a01 += factor * other.a01;
        self.a10 += factor * other.a10;
        self.a02 += factor * other.a02;
        self.a11 += factor * other.a11;
        self.a20 += factor * other.a20;
    }

    /// Adds a term of value `v` whose logarithm has the scaled derivatives `k` = δ∂ln v/∂δ and `u` = τ∂ln v/∂τ, and
    /// theirs once more, `dk` = δ∂k/∂δ and `du` = τ∂u/∂τ.
    #[inline]
    fn add_term(&mut self, v: f64, k: f64, dk: f64, u: f64, du: f64) {
        self.a00 += v;
        self.a01 += v * k;
        self.a02 += v * (k * k - k + dk);
        self.a10 += v * u;
        self.a20 += v * (u * u - u + du);
        self.a11 += v * k * u;
    }
}

/// The greatest exponent of δ that a data file may use, and the greatest in e^(−δ^l).
const GREATEST_POWER: usize = 15;
const GREATEST_DAMPING: usize = 6;

/// A (τ, δ) with what many terms share: logarithms, powers of δ, and the damping factors e^(−δ^l).
///
/// Made once for a mixture's state and used by all its components.
#[derive(Clone, Copy, Debug)]
pub(super) struct Point {
    tau: f64,
    delta: f64,
    ln_tau: f64,
    powers: [f64; GREATEST_POWER + 1],
    damping: [f64; GREATEST_DAMPING + 1],
}

impl Point {
    #[inline]
    pub(super) fn at(tau: f64, delta: f64) -> Self {
        let mut powers = [1.0; GREATEST_POWER + 1];
        for d in 1..=GREATEST_POWER {
            powers[d] = powers[d - 1] * delta;
        }
        let mut damping = [1.0; GREATEST_DAMPING + 1];
        for (l, factor) in damping.iter_mut().enumerate().skip(1) {
            *factor = (-powers[l]).exp();
        }
        Self { tau, delta, ln_tau: tau.ln(), powers, damping }
    }
}

/// The residual terms of one fluid as a data file holds them.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Rows {
    power: Option<Table>,
    double_exponential: Option<Table>,
    gaussian: Option<Table>,
    gao_b: Option<Table>,
    non_analytic: Option<Table>,
}

/// The residual terms of one fluid, ready to be evaluated.
#[derive(Clone, Debug, Default)]
pub(super) struct Terms {
    power: Vec<PowerTerm>,
    double_exponential: Vec<DoubleExponentialTerm>,
    gaussian: Vec<GaussianTerm>,
    gao_b: Vec<GaoBTerm>,
    non_analytic: Vec<NonAnalyticTerm>,
}

impl Terms {
    /// From the rows of a data file.
    ///
    /// # Errors
    /// What is wrong with a column or a row, in words.
    pub(super) fn from_rows(rows: &Rows) -> Result<Self, String> {
        let mut terms = Self::default();
        if let Some(table) = &rows.power {
            terms.power = power_terms(table)?;
        }
        if let Some(table) = &rows.double_exponential {
            for [n, d, t, l, m] in table.rows(["n", "d", "t", "l", "m"])? {
                terms.double_exponential.push(DoubleExponentialTerm { power: power_term(n, d, t, l)?, m });
            }
        }
        if let Some(table) = &rows.gaussian {
            for [n, d, t, eta, epsilon, beta, gamma] in
                table.rows(["n", "d", "t", "eta", "epsilon", "beta", "gamma"])?
            {
                terms.gaussian.push(GaussianTerm { power: power_term(n, d, t, 0.0)?, eta, epsilon, beta, gamma });
            }
        }
        if let Some(table) = &rows.gao_b {
            for [n, d, t, eta, epsilon, beta, gamma, b] in
                table.rows(["n", "d", "t", "eta", "epsilon", "beta", "gamma", "b"])?
            {
                terms.gao_b.push(GaoBTerm { power: power_term(n, d, t, 0.0)?, eta, epsilon, beta, gamma, b });
            }
        }
        if let Some(table) = &rows.non_analytic {
            for [n, a, b, beta, big_a, big_b, big_c, big_d] in
                table.rows(["n", "a", "b", "beta", "A", "B", "C", "D"])?
            {
                terms.non_analytic.push(NonAnalyticTerm { n, a, b, beta, big_a, big_b, big_c, big_d });
            }
        }
        Ok(terms)
    }

    /// A departure function, which has power terms only.
    pub(super) fn from_power_table(table: &Table) -> Result<Self, String> {
        Ok(Self { power: power_terms(table)?, ..Self::default() })
    }

    /// αr and its derivatives at one point.
    #[inline]
    pub(super) fn at(&self, point: &Point) -> Residual {
        let mut sum = Residual::default();
        for term in &self.power {
            term.add_to(&mut sum, point);
        }
        for term in &self.double_exponential {
            term.add_to(&mut sum, point);
        }
        for term in &self.gaussian {
            term.add_to(&mut sum, point);
        }
        for term in &self.gao_b {
            term.add_to(&mut sum, point);
        }
        for term in &self.non_analytic {
            term.add_to(&mut sum, point);
        }
        sum
    }
}

fn power_terms(table: &Table) -> Result<Vec<PowerTerm>, String> {
    table.rows(["n", "d", "t", "l"])?.into_iter().map(|[n, d, t, l]| power_term(n, d, t, l)).collect()
}

fn power_term(n: f64, d: f64, t: f64, l: f64) -> Result<PowerTerm, String> {
    let whole = |name: &str, x: f64, most: usize| {
        if x.fract() == 0.0 && (0.0..=most as f64).contains(&x) {
            Ok(x as usize)
        } else {
            Err(format!("`{name}` is {x} in a row; it should be a whole number from 0 to {most}"))
        }
    };
    Ok(PowerTerm { n, d: whole("d", d, GREATEST_POWER)?, t, l: whole("l", l, GREATEST_DAMPING)? })
}

/// n δ^d τ^t, times e^(−δ^l) where l > 0.
#[derive(Clone, Copy, Debug)]
struct PowerTerm {
    n: f64,
    d: usize,
    t: f64,
    l: usize,
}

impl PowerTerm {
    #[inline]
    fn add_to(&self, sum: &mut Residual, at: &Point) {
        let v = self.n * at.powers[self.d] * at.damping[self.l] * (self.t * at.ln_tau).exp();
        let (l, d) = (self.l as f64, self.d as f64);
        let damped = l * at.powers[self.l];
        sum.add_term(v, d - damped, -l * damped, self.t, 0.0);
    }
}

/// n δ^d τ^t e^(−δ^l) e^(−τ^m), each factor only where its exponent is above zero (Lemmon and Jacobsen 2005).
#[derive(Clone, Copy, Debug)]
struct DoubleExponentialTerm {
    power: PowerTerm,
    m: f64,
}

impl DoubleExponentialTerm {
    #[inline]
    fn add_to(&self, sum: &mut Residual, at: &Point) {
        let p = &self.power;
        let tau_m = if self.m > 0.0 { (self.m * at.ln_tau).exp() } else { 0.0 };
        let v = p.n * at.powers[p.d] * at.damping[p.l] * (p.t * at.ln_tau - tau_m).exp();
        let (l, d) = (p.l as f64, p.d as f64);
        let damped = l * at.powers[p.l];
        sum.add_term(v, d - damped, -l * damped, p.t - self.m * tau_m, -self.m * self.m * tau_m);
    }
}

/// n δ^d τ^t exp(−η(δ−ε)² − β(τ−γ)²).
#[derive(Clone, Copy, Debug)]
struct GaussianTerm {
    power: PowerTerm,
    eta: f64,
    epsilon: f64,
    beta: f64,
    gamma: f64,
}

impl GaussianTerm {
    #[inline]
    fn add_to(&self, sum: &mut Residual, at: &Point) {
        let p = &self.power;
        let (x, y) = (at.delta - self.epsilon, at.tau - self.gamma);
        let v = p.n * at.powers[p.d] * (p.t * at.ln_tau - self.eta * x * x - self.beta * y * y).exp();
        let k = p.d as f64 - 2.0 * self.eta * at.delta * x;
        let dk = -2.0 * self.eta * at.delta * (at.delta + x);
        let u = p.t - 2.0 * self.beta * at.tau * y;
        let du = -2.0 * self.beta * at.tau * (at.tau + y);
        sum.add_term(v, k, dk, u, du);
    }
}

/// n δ^d τ^t exp(η(δ−ε)² + 1/(β(τ−γ)² + b)), with η negative (Gao and others 2020).
#[derive(Clone, Copy, Debug)]
struct GaoBTerm {
    power: PowerTerm,
    eta: f64,
    epsilon: f64,
    beta: f64,
    gamma: f64,
    b: f64,
}

impl GaoBTerm {
    #[inline]
    fn add_to(&self, sum: &mut Residual, at: &Point) {
        let p = &self.power;
        let (x, y) = (at.delta - self.epsilon, at.tau - self.gamma);
        let q = self.beta * y * y + self.b;
        let (q1, q2) = (2.0 * self.beta * y, 2.0 * self.beta);
        let v = p.n * at.powers[p.d] * (p.t * at.ln_tau + self.eta * x * x + 1.0 / q).exp();
        let k = p.d as f64 + 2.0 * self.eta * at.delta * x;
        let dk = 2.0 * self.eta * at.delta * (at.delta + x);
        let slope = -q1 / (q * q);
        let u = p.t + at.tau * slope;
        let du = at.tau * slope + at.tau * at.tau * (2.0 * q1 * q1 / q - q2) / (q * q);
        sum.add_term(v, k, dk, u, du);
    }
}

/// n Δ^b δ ψ with Δ = θ² + B((δ−1)²)^a, θ = (1−τ) + A((δ−1)²)^(1/(2β)), ψ = exp(−C(δ−1)² − D(τ−1)²)
/// (Span and Wagner 1996).
#[derive(Clone, Copy, Debug)]
struct NonAnalyticTerm {
    n: f64,
    a: f64,
    b: f64,
    beta: f64,
    big_a: f64,
    big_b: f64,
    big_c: f64,
    big_d: f64,
}

impl NonAnalyticTerm {
    fn add_to(&self, sum: &mut Residual, at: &Point) {
        let (delta, tau) = (at.delta, at.tau);
        let (x, y) = (delta - 1.0, tau - 1.0);
        // |x| to the exponents 1/β and 2a, with the derivatives by x. Both exponents are above 2, so that nothing is
        // divided by x itself.
        let power = |e: f64| {
            let size = x.abs();
            (size.powf(e), e * size.powf(e - 1.0) * x.signum(), e * (e - 1.0) * size.powf(e - 2.0))
        };
        let (w, w1, w2) = power(1.0 / self.beta);
        let (z, z1, z2) = power(2.0 * self.a);
        let theta = -y + self.big_a * w;
        let big = theta * theta + self.big_b * z;
        // Δ vanishes only at the critical point itself, where the terms do too and their second derivatives have no
        // limit. There they are left out.
        if big < 1e-40 {
            return;
        }
        let big_x = 2.0 * theta * self.big_a * w1 + self.big_b * z1;
        let big_y = -2.0 * theta;
        let big_xx = 2.0 * (self.big_a * w1).powi(2) + 2.0 * theta * self.big_a * w2 + self.big_b * z2;
        let big_xy = -2.0 * self.big_a * w1;
        let big_yy = 2.0;
        // f = ln of the term less ln n: b ln Δ + ln δ − C x² − D y²
        let f_x = self.b * big_x / big + 1.0 / delta - 2.0 * self.big_c * x;
        let f_y = self.b * big_y / big - 2.0 * self.big_d * y;
        let f_xx = self.b * (big_xx / big - (big_x / big).powi(2)) - 1.0 / (delta * delta) - 2.0 * self.big_c;
        let f_xy = self.b * (big_xy / big - big_x * big_y / (big * big));
        let f_yy = self.b * (big_yy / big - (big_y / big).powi(2)) - 2.0 * self.big_d;
        let v = self.n * delta * (self.b * big.ln() - self.big_c * x * x - self.big_d * y * y).exp();
        sum.a00 += v;
        sum.a01 += v * delta * f_x;
        sum.a10 += v * tau * f_y;
        sum.a02 += v * delta * delta * (f_x * f_x + f_xx);
        sum.a11 += v * delta * tau * (f_x * f_y + f_xy);
        sum.a20 += v * tau * tau * (f_y * f_y + f_yy);
    }
}
