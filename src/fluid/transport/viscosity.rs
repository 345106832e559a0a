//! Viscosity: a dilute gas, what a little density adds, and the rest.

use serde::Deserialize;

use super::free_volume::FreeVolume;
use crate::fluid::{
    measured,
    table::{Sum, TemperatureSum},
};

/// Avogadro's number as the correlations use it (CODATA 2010).
const AVOGADRO: f64 = 6.022_141_29e23;

/// η = η0(T) (1 + B(T) ρ) + Δη(T, ρ); for R-23 a weighing of gas and liquid instead.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Viscosity {
    pub(super) source: String,
    #[serde(with = "serde_yaml::with::singleton_map")]
    dilute: Dilute,
    /// σ, nm
    #[serde(deserialize_with = "measured::nanometer")]
    size: f64,
    /// ε/k, K
    #[serde(deserialize_with = "measured::kelvin")]
    energy: f64,
    initial_density: Option<TemperatureSum>,
    residual: Option<BatschinskiHildebrand>,
    carbon_dioxide_residual: Option<CarbonDioxideResidual>,
    free_volume: Option<FreeVolume>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
enum Dilute {
    CollisionIntegral(CollisionIntegral),
    LennardJones(LennardJones),
    Powers(TemperatureSum),
    CarbonDioxide(CarbonDioxideDilute),
}

/// C √(M T)/(σ² exp Σ a (ln T/(ε/k))^t).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct CollisionIntegral {
    factor: f64,
    /// g/mol
    molar_mass: f64,
    columns: [String; 2],
    rows: Vec<[f64; 2]>,
}

/// 26.692e-9 √(M T)/(σ² Ω), Ω of Neufeld, Janzen and Aziz (Journal of Chemical Physics 57 (1972) 1100).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct LennardJones {
    /// g/mol
    molar_mass: f64,
}

/// 1.0055e-3 √T/(a0 + a1 T^(1/6) + a2 exp(a3 T^⅓) + (a4 + a5 T^⅓) exp(−T^⅓) + a6 √T) (Laesecke and Muzny 2017).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct CarbonDioxideDilute {
    a: [f64; 7],
}

/// Σ a δ^d τ^t + Σ f δ^d τ^t (1/(δ0 − δ) − 1/δ0), with the close-packed density δ0 = Σ g τ^h/Σ p τ^q.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct BatschinskiHildebrand {
    #[serde(deserialize_with = "measured::kelvin")]
    temperature: f64,
    #[serde(deserialize_with = "measured::mole_per_cubic_meter")]
    density: f64,
    terms: Sum,
    factor: Sum,
    close_packed: TemperatureSum,
    close_packed_divisor: TemperatureSum,
}

/// η_t (c1 Tr ρr³ + (ρr² + ρr^γ)/(Tr − c2)) in the triple point's temperature and liquid density, with
/// η_t = ρ_t^⅔ √(R T_t)/(M^(1/6) N_A^⅓) (Laesecke and Muzny 2017).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct CarbonDioxideResidual {
    #[serde(deserialize_with = "measured::kelvin")]
    triple_temperature: f64,
    /// kg/m³
    triple_density: f64,
    /// kg/mol
    molar_mass: f64,
    /// J/(mol K)
    gas_constant: f64,
    c1: f64,
    c2: f64,
    gamma: f64,
}

impl Viscosity {
    /// Pa s at `t` K and `rho` mol/m³ of a fluid whose equation has this molar mass, kg/mol.
    pub(super) fn at(&self, t: f64, rho: f64, molar_mass: f64) -> f64 {
        let dilute = self.dilute.at(t, self.size, self.energy);
        if let Some(free_volume) = &self.free_volume {
            return 1e-6 * free_volume.at(t, rho, 1e6 * dilute);
        }
        let mut sum = dilute;
        if let Some(initial) = &self.initial_density {
            let volume = AVOGADRO * (self.size * 1e-9).powi(3);
            sum += dilute * volume * initial.at(t / self.energy) * rho;
        }
        if let Some(r) = &self.residual {
            let (tau, delta) = (r.temperature / t, rho / r.density);
            let packed = r.close_packed.at(tau) / r.close_packed_divisor.at(tau);
            sum += r.terms.at(delta, tau) + r.factor.at(delta, tau) * (1.0 / (packed - delta) - 1.0 / packed);
        }
        if let Some(r) = &self.carbon_dioxide_residual {
            let (tr, dr) = (t / r.triple_temperature, rho * molar_mass / r.triple_density);
            let scale = r.triple_density.powf(2.0 / 3.0) * (r.gas_constant * r.triple_temperature).sqrt()
                / (r.molar_mass.powf(1.0 / 6.0) * AVOGADRO.cbrt());
            sum += scale * (r.c1 * tr * dr.powi(3) + (dr * dr + dr.powf(r.gamma)) / (tr - r.c2));
        }
        sum
    }
}

impl Dilute {
    fn at(&self, t: f64, size: f64, energy: f64) -> f64 {
        match self {
            Self::CollisionIntegral(c) => {
                debug_assert_eq!(c.columns, ["a", "t"]);
                let ln_t = (t / energy).ln();
                // Whole exponents of a logarithm that may be negative
                let sum: f64 = c.rows.iter().map(|[a, t]| a * ln_t.powi(*t as i32)).sum();
                c.factor * (c.molar_mass * t).sqrt() / (size * size * sum.exp())
            }
            Self::LennardJones(l) => {
                let s = t / energy;
                let integral =
                    1.16145 * s.powf(-0.14874) + 0.52487 * (-0.77320 * s).exp() + 2.16178 * (-2.43787 * s).exp();
                26.692e-9 * (l.molar_mass * t).sqrt() / (size * size * integral)
            }
            Self::Powers(sum) => sum.at(t),
            Self::CarbonDioxide(c) => {
                let [a0, a1, a2, a3, a4, a5, a6] = c.a;
                let (root, sixth) = (t.cbrt(), t.powf(1.0 / 6.0));
                let below = a0 + a1 * sixth + a2 * (a3 * root).exp() + (a4 + a5 * root) * (-root).exp() + a6 * t.sqrt();
                1.0055e-3 * t.sqrt() / below
            }
        }
    }
}
