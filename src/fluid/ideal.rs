//! The ideal-gas part α0 of the Helmholtz energy of one fluid, with its derivatives by τ.
//!
//! Takes the terms of a data file, gives α0 less ln δ: whoever adds the fluids of a blend knows each one's density.
//! The heat-capacity polynomials of older papers are turned into the same few kinds of term when they are read.

use serde::Deserialize;

use super::{measured, table::Table};

/// α0 less ln δ, with τ ∂/∂τ and τ² ∂²/∂τ².
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Ideal {
    pub(super) a0: f64,
    pub(super) a1: f64,
    pub(super) a2: f64,
}

/// The ideal-gas terms of one fluid as a data file holds them.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Rows {
    lead: Straight,
    #[serde(default)]
    offset: Straight,
    #[serde(default)]
    log_tau: f64,
    power: Option<Table>,
    planck_einstein: Option<Table>,
    constant_heat_capacity: Option<HeatCapacity>,
    polynomial_heat_capacity: Option<HeatCapacity>,
}

/// a1 + a2 τ.
#[derive(Clone, Copy, Debug, Default, Deserialize)]
#[serde(deny_unknown_fields)]
struct Straight {
    a1: f64,
    a2: f64,
}

/// cp0/R = Σ c T^t, integrated from a temperature; T is taken as `scale`/τ.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct HeatCapacity {
    #[serde(deserialize_with = "measured::kelvin")]
    from: f64,
    #[serde(deserialize_with = "measured::kelvin")]
    scale: f64,
    columns: Vec<String>,
    rows: Vec<[f64; 2]>,
}

/// constant + linear τ + log ln τ + Σ n τ^t + Σ n ln(1 − e^(−tτ)).
#[derive(Clone, Debug, Default)]
pub(super) struct Terms {
    constant: f64,
    linear: f64,
    log: f64,
    power: Vec<[f64; 2]>,
    planck_einstein: Vec<[f64; 2]>,
}

impl Terms {
    /// From the terms of a data file.
    ///
    /// # Errors
    /// What is wrong with a column or a row, in words.
    pub(super) fn from_rows(rows: &Rows) -> Result<Self, String> {
        let mut terms = Self {
            constant: rows.lead.a1 + rows.offset.a1,
            linear: rows.lead.a2 + rows.offset.a2,
            log: rows.log_tau,
            ..Self::default()
        };
        if let Some(table) = &rows.power {
            terms.power = table.rows(["n", "t"])?;
        }
        if let Some(table) = &rows.planck_einstein {
            terms.planck_einstein = table.rows(["n", "t"])?;
        }
        for capacity in rows.constant_heat_capacity.iter().chain(&rows.polynomial_heat_capacity) {
            if capacity.columns != ["c", "t"] {
                return Err(format!("the columns are [{}]; they should be [c, t]", capacity.columns.join(", ")));
            }
            for &[c, t] in &capacity.rows {
                terms.add_heat_capacity(c, t, capacity.from, capacity.scale)?;
            }
        }
        Ok(terms)
    }

    /// Adds cp0/R = c T^t, integrated twice from `from`:
    /// α0 = c/(t+1) (T^(t+1) − T0^(t+1))/T − c/t (T^t − T0^t), with logarithms for t = 0.
    fn add_heat_capacity(&mut self, c: f64, t: f64, from: f64, scale: f64) -> Result<(), String> {
        if t == -1.0 {
            return Err("a heat capacity that goes with 1/T is not provided for".to_owned());
        }
        self.linear -= c * from.powf(t + 1.0) / (scale * (t + 1.0));
        if t == 0.0 {
            self.constant += c + c * (from / scale).ln();
            self.log += c;
        } else {
            self.constant += c * from.powf(t) / t;
            self.power.push([-c * scale.powf(t) / (t * (t + 1.0)), -t]);
        }
        Ok(())
    }

    /// α0 less ln δ, and its derivatives.
    pub(super) fn at(&self, tau: f64) -> Ideal {
        let ln_tau = tau.ln();
        let mut sum = Ideal {
            a0: self.constant + self.linear * tau + self.log * ln_tau,
            a1: self.linear * tau + self.log,
            a2: -self.log,
        };
        for &[n, t] in &self.power {
            let v = n * (t * ln_tau).exp();
            sum.a0 += v;
            sum.a1 += v * t;
            sum.a2 += v * t * (t - 1.0);
        }
        for &[n, t] in &self.planck_einstein {
            let x = t * tau;
            // 1 − e^(−x), exact where x is small
            let rest = -(-x).exp_m1();
            let slope = x * (1.0 - rest) / rest;
            sum.a0 += n * rest.ln();
            sum.a1 += n * slope;
            sum.a2 -= n * slope * x / rest;
        }
        sum
    }
}
