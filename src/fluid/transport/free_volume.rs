//! The generalized model of Shan, Penoncello and Jacobsen (2000) for R-23: gas and liquid weighed by free volume.
//!
//! ((ρL − ρ)/ρL)^C1 X0 + (ρ/ρL)^C1 XL + Δc, with XL = C2 ρL²/(ρL − ρ) √T exp(ρ/(ρL − ρ) ΔG/(RT)) and
//! Δc = 4 Δmax/((e^χ + e^(−χ)) (e^θ + e^(−θ))), χ = ρ − ρc and θ = T − Tc. Densities in mol/dm³.

use serde::Deserialize;

use crate::fluid::measured;

/// The gas constant of the paper, J/(mol K).
const GAS_CONSTANT: f64 = 8.31451;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct FreeVolume {
    terms: Terms,
    /// mol/dm³
    critical_density: f64,
    #[serde(deserialize_with = "measured::kelvin")]
    critical_temperature: f64,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Terms {
    c1: f64,
    c2: f64,
    /// J/mol
    energy: f64,
    /// mol/dm³
    limiting_density: f64,
    critical_enhancement: f64,
}

impl FreeVolume {
    /// At `t` K and `rho` mol/m³, in the unit that the value of the dilute gas is given in.
    pub(super) fn at(&self, t: f64, rho: f64, dilute: f64) -> f64 {
        let terms = &self.terms;
        let (rho, limit) = (rho / 1e3, terms.limiting_density);
        let free = limit - rho;
        let liquid =
            terms.c2 * limit * limit / free * t.sqrt() * (rho / free * terms.energy / (GAS_CONSTANT * t)).exp();
        let twice_cosh = |x: f64| x.exp() + (-x).exp();
        let near = 4.0 * terms.critical_enhancement
            / (twice_cosh(rho - self.critical_density) * twice_cosh(t - self.critical_temperature));
        (free / limit).powf(terms.c1) * dilute + (rho / limit).powf(terms.c1) * liquid + near
    }
}
