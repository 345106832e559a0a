//! Thermal conductivity: a dilute gas, what density adds, and the rise near the critical point.

use std::f64::consts::PI;

use serde::Deserialize;

use super::free_volume::FreeVolume;
use crate::fluid::{measured, single::Single, table::TemperatureSum};

/// Boltzmann's constant as the correlations use it (CODATA 2010).
const BOLTZMANN: f64 = 1.380_648_8e-23;

/// λ = λ0(T) + Δλ(T, ρ) + λc(T, ρ); for R-23 a weighing of gas and liquid instead.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
pub(super) struct Conductivity {
    pub(super) source: String,
    dilute: Option<Ratio>,
    carbon_dioxide_dilute: Option<CarbonDioxideDilute>,
    residual: Option<Residual>,
    #[serde(default, with = "serde_yaml::with::singleton_map")]
    critical: Option<Critical>,
    free_volume: Option<FreeVolume>,
}

/// Σ A Tr^n/Σ B Tr^m.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Ratio {
    #[serde(deserialize_with = "measured::kelvin")]
    temperature: f64,
    numerator: TemperatureSum,
    denominator: TemperatureSum,
}

/// 1e-3 √Tr/Σ l/Tr^j (Huber and others 2016).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct CarbonDioxideDilute {
    #[serde(deserialize_with = "measured::kelvin")]
    temperature: f64,
    l: [f64; 4],
}

/// Σ B τ^t δ^d, δ by mass.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Residual {
    #[serde(deserialize_with = "measured::kelvin")]
    temperature: f64,
    #[serde(deserialize_with = "measured::kilogram_per_cubic_meter")]
    density: f64,
    columns: [String; 3],
    rows: Vec<[f64; 3]>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
enum Critical {
    OlchowySengers(OlchowySengers),
    Bell(Bell),
    Ammonia(Ammonia),
}

/// The simplified crossover of Olchowy and Sengers (International Journal of Thermophysics 10 (1989) 417).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct OlchowySengers {
    gamma: f64,
    amplitude: f64,
    /// m
    length: f64,
    /// 1/m
    wave_number: f64,
    #[serde(deserialize_with = "measured::kelvin")]
    reference_temperature: f64,
    critical: crate::fluid::equation::Critical,
}

/// a exp(b (τ − 1)⁴ + c (δ − 1)²) (Laesecke and others 1996).
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Bell {
    a: f64,
    b: f64,
    c: f64,
    #[serde(deserialize_with = "measured::kelvin")]
    temperature: f64,
    #[serde(deserialize_with = "measured::kilogram_per_cubic_meter")]
    density: f64,
}

/// The enhancement of Tufeu and others (1984), whose constants stand in [`Ammonia::at`].
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Ammonia {
    #[serde(deserialize_with = "measured::kelvin")]
    temperature: f64,
    #[serde(deserialize_with = "measured::kilogram_per_cubic_meter")]
    density: f64,
}

impl Conductivity {
    /// W/(m K) at `t` K and `rho` mol/m³ of a fluid whose viscosity there is `viscosity` Pa s.
    pub(super) fn at(&self, single: &Single<'_>, t: f64, rho: f64, viscosity: f64) -> f64 {
        let mut sum = 0.0;
        if let Some(d) = &self.dilute {
            let tr = t / d.temperature;
            sum += d.numerator.at(tr) / d.denominator.at(tr);
        }
        if let Some(d) = &self.carbon_dioxide_dilute {
            let tr = t / d.temperature;
            let [a, b, c, e] = d.l;
            sum += 1e-3 * tr.sqrt() / (a + b / tr + c / tr.powi(2) + e / tr.powi(3));
        }
        if let Some(free_volume) = &self.free_volume {
            return 1e-3 * free_volume.at(t, rho, sum);
        }
        let mass_density = rho * single.molar_mass;
        if let Some(r) = &self.residual {
            debug_assert_eq!(r.columns, ["B", "t", "d"]);
            let (tau, delta) = (r.temperature / t, mass_density / r.density);
            sum += r.rows.iter().map(|[b, t, d]| b * tau.powf(*t) * delta.powf(*d)).sum::<f64>();
        }
        sum + match &self.critical {
            Some(Critical::OlchowySengers(c)) => c.at(single, t, rho, viscosity),
            Some(Critical::Bell(c)) => {
                let (x, y) = (c.temperature / t - 1.0, mass_density / c.density - 1.0);
                c.a * (c.b * x.powi(4) + c.c * y * y).exp()
            }
            Some(Critical::Ammonia(c)) => c.at(t, mass_density),
            None => 0.0,
        }
    }
}

impl OlchowySengers {
    fn at(&self, single: &Single<'_>, t: f64, rho: f64, viscosity: f64) -> f64 {
        /// The universal exponents ν and γ
        const NU: f64 = 0.63;
        const GAMMA: f64 = 1.239;
        let c = &self.critical;
        // The compressibility above that at a temperature where nothing critical is left
        let compressibility = |t: f64| c.pressure / (c.density * c.density) * rho * rho / single.pressure(t, rho).1;
        let t_ref = self.reference_temperature;
        let excess = compressibility(t) - compressibility(t_ref) * t_ref / t;
        if excess < 10.0 * f64::EPSILON {
            return 0.0;
        }
        let length = self.length * (excess / self.gamma).powf(NU / GAMMA);
        let q = length * self.wave_number;
        let p = single.properties(t, rho);
        let (cp, cv) = (p.heat_capacity_p, p.heat_capacity_v);
        let omega = 2.0 / PI * ((cp - cv) / cp * q.atan() + cv / cp * q);
        let delta = rho / c.density;
        let background = 2.0 / PI * (1.0 - (-1.0 / (1.0 / q + q * q / (3.0 * delta * delta))).exp());
        rho * cp * self.amplitude * BOLTZMANN * t / (6.0 * PI * viscosity * length) * (omega - background)
    }
}

impl Ammonia {
    fn at(&self, t: f64, rho: f64) -> f64 {
        let s = (t / self.temperature - 1.0).abs().max(1e-9);
        let background = (2.60 + 1.6 * s) * 1e-5;
        let slope = (2.18 - 0.12 / (17.8 * s).exp()) * 1e5;
        let width = 0.61 * self.density + 16.5 * s.ln();
        let length = 1.34e-10 * s.powf(-0.63) * (1.0 + s.sqrt());
        let compressibility = 0.423e-8 * s.powf(-1.24) * (1.0 + s.sqrt() / 0.7);
        // CODATA 2006, as the correlation is usually coded
        let on_isochore =
            1.2 * 1.380_650_4e-23 * t * t / (6.0 * PI * background * length) * slope * slope * compressibility;
        let damped = on_isochore * (-36.0 * s * s).exp();
        let edge = 0.6 * self.density;
        let bell = |rho: f64| width * width / (width * width + (rho - 0.96 * self.density).powi(2));
        if rho < edge { damped * bell(edge) * (rho / edge).powi(2) } else { damped * bell(rho) }
    }
}
