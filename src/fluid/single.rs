//! One phase of fixed composition: its pressure, energy, entropy, heat capacities and speed of sound at (T, ρ), and the
//! density at which it has a given pressure.
//!
//! Molar quantities in SI units; whoever reports them per kilogram or shifts their zero does so outside.
//!
//! Formulas: Span, Multiparameter Equations of State (2000), table 3.1, in the scaled derivatives of
//! [`super::residual`]. The ideal part of a blend is Σ xi (α0_i(Tr,i/T, ρ/ρr,i) + ln xi).

use super::{
    mixture::{Each, Mixture},
    residual::{Point, Residual},
};

/// A composition of a mixture, with what depends on nothing else.
#[derive(Clone, Copy, Debug)]
pub(super) struct Single<'a> {
    mixture: &'a Mixture,
    pub(super) x: Each,
    reducing_temperature: f64,
    reducing_volume: f64,
    /// kg/mol
    pub(super) molar_mass: f64,
}

/// Molar properties of one phase.
#[derive(Clone, Copy, Debug)]
pub(super) struct Properties {
    /// J/mol
    pub(super) enthalpy: f64,
    /// J/(mol K)
    pub(super) entropy: f64,
    /// J/(mol K)
    pub(super) heat_capacity_v: f64,
    /// J/(mol K)
    pub(super) heat_capacity_p: f64,
    /// m/s
    pub(super) speed_of_sound: f64,
}

impl<'a> Single<'a> {
    pub(super) fn of(mixture: &'a Mixture, x: &Each) -> Self {
        let (reducing_temperature, reducing_volume) = mixture.reducing(x);
        let molar_mass = mixture.components.iter().zip(x).map(|(c, x)| c.molar_mass * x).sum();
        Self { mixture, x: *x, reducing_temperature, reducing_volume, molar_mass }
    }

    /// αr and its scaled derivatives at `t` K and `rho` mol/m³.
    pub(super) fn residual(&self, t: f64, rho: f64) -> Residual {
        self.mixture.residual(&self.x, &Point::at(self.reducing_temperature / t, rho * self.reducing_volume))
    }

    /// Pressure, Pa, and ∂p/∂ln ρ.
    pub(super) fn pressure(&self, t: f64, rho: f64) -> (f64, f64) {
        let r = self.residual(t, rho);
        let scale = rho * self.mixture.gas_constant * t;
        (scale * (1.0 + r.a01), scale * (1.0 + 2.0 * r.a01 + r.a02))
    }

    /// Enthalpy, entropy and the rest at `t` K and `rho` mol/m³.
    pub(super) fn properties(&self, t: f64, rho: f64) -> Properties {
        let r = self.residual(t, rho);
        let gas_constant = self.mixture.gas_constant;
        let (mut a0, mut a1, mut a2) = (0.0, 0.0, 0.0);
        for (component, &x) in self.mixture.components.iter().zip(&self.x) {
            // What is all but absent has x ln x = 0, its limit.
            if x <= 0.0 {
                continue;
            }
            let ideal = component.ideal.at(component.reducing.temperature / t);
            a0 += x * (ideal.a0 + (rho * x / component.reducing.density).ln());
            a1 += x * ideal.a1;
            a2 += x * ideal.a2;
        }
        let (a10, a20) = (a1 + r.a10, a2 + r.a20);
        let stiffness = 1.0 + 2.0 * r.a01 + r.a02;
        let expansion = 1.0 + r.a01 - r.a11;
        let heat_capacity_v = -a20;
        let heat_capacity_p = heat_capacity_v + expansion * expansion / stiffness;
        let sound = gas_constant * t / self.molar_mass * (stiffness + expansion * expansion / heat_capacity_v);
        Properties {
            enthalpy: gas_constant * t * (1.0 + a10 + r.a01),
            entropy: gas_constant * (a10 - a0 - r.a00),
            heat_capacity_v: gas_constant * heat_capacity_v,
            heat_capacity_p: gas_constant * heat_capacity_p,
            speed_of_sound: sound.sqrt(),
        }
    }

    /// The density at which the pressure is `p`, found from `start` by Newton's method in ln ρ, in steps that never
    /// leave the side of the phase it started on.
    ///
    /// None where it doesn't get there or the phase turns unstable on the way.
    pub(super) fn density(&self, t: f64, p: f64, start: f64) -> Option<f64> {
        let mut ln_rho = start.ln();
        for _ in 0..100 {
            let rho = ln_rho.exp();
            let (now, by_ln) = self.pressure(t, rho);
            if !(now.is_finite() && by_ln > 0.0) {
                return None;
            }
            let step = (p - now) / by_ln;
            ln_rho += step.clamp(-0.3, 0.1);
            if step.abs() < 1e-14 || (p - now).abs() <= 1e-15 * rho * self.mixture.gas_constant * t {
                let rho = ln_rho.exp();
                return rho.is_finite().then_some(rho);
            }
            if step.abs() < 1e-9 {
                // The next step would be below rounding: take it without asking.
                return Some(ln_rho.exp());
            }
        }
        None
    }

    /// All densities of pressure `p` where the pressure rises with density, from a thin gas to a dense liquid.
    pub(super) fn densities(&self, t: f64, p: f64) -> Vec<f64> {
        const STEPS: usize = 400;
        let gap = |ln_rho: f64| self.pressure(t, ln_rho.exp()).0 - p;
        let low = (1e-3 * p / (self.mixture.gas_constant * t)).ln();
        let high = (4.5 / self.reducing_volume).ln();
        let mut found = Vec::new();
        let (mut x0, mut y0) = (low, gap(low));
        for i in 1..=STEPS {
            let x1 = low + (high - low) * i as f64 / STEPS as f64;
            let y1 = gap(x1);
            if y0 < 0.0 && y1 >= 0.0 {
                found.push(self.between(t, p, x0, x1));
            }
            (x0, y0) = (x1, y1);
        }
        found
    }

    /// The density between two logarithms on whose interval the pressure passes `p` upward: Newton, kept inside by
    /// bisection.
    fn between(&self, t: f64, p: f64, mut low: f64, mut high: f64) -> f64 {
        let mut x = 0.5 * (low + high);
        for _ in 0..200 {
            let (now, by_ln) = self.pressure(t, x.exp());
            if now < p {
                low = x;
            } else {
                high = x;
            }
            let newton = x + (p - now) / by_ln;
            let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
            if (next - x).abs() < 1e-15 * x.abs().max(1.0) {
                return next.exp();
            }
            x = next;
        }
        x.exp()
    }
}
