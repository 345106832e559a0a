//! What is told of a refrigerant in one state, and of a bubble or dew point.

use crate::quantity::{Pressure, Temperature};

use super::mixture::{Each, MOST};

/// Liquid, vapor, both, or past the critical point.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Phase {
    /// Liquid alone.
    Liquid,
    /// Vapor alone.
    Vapor,
    /// Liquid and vapor side by side.
    TwoPhase,
    /// Above the critical temperature, where there is no telling liquid from vapor.
    Supercritical,
}

/// A refrigerant, or one phase of it, at one temperature and pressure.
///
/// Enthalpy and entropy are from the zero of the [`super::Refrigerant`] they came from
/// ([`super::Reference`]). Heat capacities and the speed of sound are those of one phase; a mixture of two has none.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct State {
    pub(super) phase: Phase,
    pub(super) temperature: Temperature,
    pub(super) pressure: Pressure,
    pub(super) density: f64,
    pub(super) enthalpy: f64,
    pub(super) entropy: f64,
    pub(super) single: Option<OnePhase>,
    pub(super) quality: Option<f64>,
    pub(super) mass_fractions: Each,
    pub(super) count: usize,
}

/// What only one phase alone has; J/(kg K) and m/s.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct OnePhase {
    pub(super) heat_capacity_p: f64,
    pub(super) heat_capacity_v: f64,
    pub(super) speed_of_sound: f64,
}

impl State {
    /// Which phase, or both.
    pub fn phase(&self) -> Phase {
        self.phase
    }
    /// Temperature.
    pub fn temperature(&self) -> Temperature {
        self.temperature
    }
    /// Pressure.
    pub fn pressure(&self) -> Pressure {
        self.pressure
    }
    /// Density in kg/m³.
    pub fn density_kg_m3(&self) -> f64 {
        self.density
    }
    /// Specific volume in m³/kg.
    pub fn volume_m3_kg(&self) -> f64 {
        1.0 / self.density
    }
    /// Specific enthalpy in J/kg.
    pub fn enthalpy_j_kg(&self) -> f64 {
        self.enthalpy
    }
    /// Specific entropy in J/(kg K).
    pub fn entropy_j_kg_k(&self) -> f64 {
        self.entropy
    }
    /// Specific internal energy in J/kg.
    pub fn energy_j_kg(&self) -> f64 {
        self.enthalpy - self.pressure.as_pascal() / self.density
    }
    /// Isobaric specific heat capacity in J/(kg K); none where two phases stand side by side.
    pub fn heat_capacity_p_j_kg_k(&self) -> Option<f64> {
        self.single.map(|s| s.heat_capacity_p)
    }
    /// Isochoric specific heat capacity in J/(kg K); none where two phases stand side by side.
    pub fn heat_capacity_v_j_kg_k(&self) -> Option<f64> {
        self.single.map(|s| s.heat_capacity_v)
    }
    /// Speed of sound in m/s; none where two phases stand side by side.
    pub fn speed_of_sound_m_s(&self) -> Option<f64> {
        self.single.map(|s| s.speed_of_sound)
    }
    /// Kilograms of vapor in a kilogram of both: 0 at the bubble point, 1 at the dew point; none away from saturation.
    pub fn quality(&self) -> Option<f64> {
        self.quality
    }
    /// The share by mass of each component in this state, in the order of [`super::Refrigerant::components`].
    ///
    /// In the first bubble over a blend, or its first drop, this is not the blend's own composition.
    pub fn mass_fractions(&self) -> &[f64] {
        debug_assert!(self.count <= MOST);
        &self.mass_fractions[..self.count.min(MOST)]
    }
}

/// A bubble or dew point, with both phases.
///
/// At a bubble point `liquid` has the composition of the blend and `vapor` is its first bubble; at a dew point `vapor`
/// has it and `liquid` is its first drop. For a pure refrigerant the two are the same point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Saturation {
    /// Of both phases.
    pub temperature: Temperature,
    /// Of both phases.
    pub pressure: Pressure,
    /// The boiling liquid.
    pub liquid: State,
    /// The vapor over it.
    pub vapor: State,
}

/// Where liquid and vapor become one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CriticalPoint {
    /// Critical temperature.
    pub temperature: Temperature,
    /// Critical pressure.
    pub pressure: Pressure,
    pub(super) density: f64,
}

impl CriticalPoint {
    /// Density in kg/m³.
    pub fn density_kg_m3(&self) -> f64 {
        self.density
    }
}
