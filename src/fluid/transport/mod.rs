//! Viscosity, thermal conductivity and surface tension: only where somebody has published a correlation.
//!
//! Takes temperature, density and, for the conductivity near the critical point, the model's own derivatives; gives SI
//! values with the paper they rest on. Blends are refused: no correlation of a blend is published that could be checked
//! here, and a rule of mixing needs the pure values of R-32 and the olefins, which have none of their own either.
//!
//! A file each in this folder for viscosity and conductivity, one for all surface tensions.

mod conductivity;
mod free_volume;
mod surface_tension;
mod viscosity;

use std::sync::OnceLock;

use serde::Deserialize;

use super::{FluidError, Phase, Refrigerant, State, error, model::Model, refrigerant::Known, single::Single};
use crate::quantity::Temperature;

/// A value with the paper it rests on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Correlated {
    /// In SI units.
    pub value: f64,
    /// The paper, as a citation in full words.
    pub source: &'static str,
}

/// A file of this folder.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Transport {
    designation: String,
    viscosity: viscosity::Viscosity,
    conductivity: conductivity::Conductivity,
}

macro_rules! files {
    ($($designation:literal $file:literal)*) => {
        &[$(($designation, concat!("transport/", $file), include_str!($file))),*]
    };
}

const FILES: &[(&str, &str, &str)] = files! {
    "R-23" "r-23.yaml"
    "R-123" "r-123.yaml"
    "R-125" "r-125.yaml"
    "R-134a" "r-134a.yaml"
    "R-152a" "r-152a.yaml"
    "R-290" "r-290.yaml"
    "R-600" "r-600.yaml"
    "R-600a" "r-600a.yaml"
    "R-717" "r-717.yaml"
    "R-744" "r-744.yaml"
};

static READ: [OnceLock<Result<Transport, FluidError>>; FILES.len()] = [const { OnceLock::new() }; FILES.len()];

/// The correlations of a pure refrigerant by the designation of its equation.
fn of(equation: &str) -> Option<Result<&'static Transport, FluidError>> {
    let at = FILES.iter().position(|(name, ..)| *name == equation)?;
    let (designation, file, text) = FILES[at];
    let read = READ[at].get_or_init(|| {
        let data = |says: String| FluidError::Data { file: file.to_owned(), says };
        let transport: Transport = serde_yaml::from_str(text).map_err(|e| data(e.to_string()))?;
        if transport.designation != designation {
            return Err(data(format!("it is of {}, not of {designation}", transport.designation)));
        }
        Ok(transport)
    });
    Some(read.as_ref().map_err(Clone::clone))
}

/// How it flows and conducts: pure refrigerants with a published correlation of their own only.
impl Refrigerant {
    /// Dynamic viscosity in Pa s of a state of one phase of this refrigerant.
    ///
    /// # Errors
    /// [`FluidError::NoCorrelation`] naming the refrigerants that have one; no blend has.
    pub fn viscosity_pa_s(&self, state: &State) -> Result<Correlated, FluidError> {
        self.model("viscosity")?.viscosity(state)
    }

    /// Thermal conductivity in W/(m K) of a state of one phase of this refrigerant.
    ///
    /// # Errors
    /// As [`Self::viscosity_pa_s`].
    pub fn thermal_conductivity_w_m_k(&self, state: &State) -> Result<Correlated, FluidError> {
        self.model("thermal conductivity")?.thermal_conductivity(state)
    }

    /// Viscosity, thermal conductivity and surface tension, each with the paper it would come from; none where no
    /// correlation is kept.
    pub fn correlations(&self) -> Vec<(&'static str, Option<&'static str>)> {
        match &self.known {
            Known::Equations(model) => model.correlations().to_vec(),
            Known::Points(_) => Vec::new(),
        }
    }

    /// Surface tension in N/m of the boiling liquid against its vapor.
    ///
    /// # Errors
    /// [`FluidError::NoCorrelation`]; [`FluidError::TemperatureOutside`] of [`Self::valid_temperature`].
    pub fn surface_tension_n_m(&self, t: Temperature) -> Result<Correlated, FluidError> {
        self.model("surface tension")?.surface_tension(t)
    }
}

impl Model {
    fn viscosity(&self, state: &State) -> Result<Correlated, FluidError> {
        let (transport, single, t, rho) = self.correlation("viscosity", state)?;
        let value = transport.viscosity.at(t, rho, single.molar_mass);
        self.finite("viscosity", state, value, &transport.viscosity.source)
    }

    fn thermal_conductivity(&self, state: &State) -> Result<Correlated, FluidError> {
        let (transport, single, t, rho) = self.correlation("thermal conductivity", state)?;
        let viscosity = transport.viscosity.at(t, rho, single.molar_mass);
        let value = transport.conductivity.at(&single, t, rho, viscosity);
        self.finite("thermal conductivity", state, value, &transport.conductivity.source)
    }

    fn surface_tension(&self, t: Temperature) -> Result<Correlated, FluidError> {
        let missing = || self.no_correlation("surface tension", surface_tension::known().join(", "));
        let [component] = self.core.mixture.components.as_slice() else { return Err(missing()) };
        let tension = surface_tension::of(component.designation())?.ok_or_else(missing)?;
        let (low, high) = self.answered();
        if !(low..=high).contains(&t.as_kelvin()) {
            return Err(FluidError::TemperatureOutside {
                refrigerant: self.core.designation.clone(),
                sought: "surface tension",
                asked: t,
                low: Temperature::from_kelvin(low),
                high: Temperature::from_kelvin(high),
                ends: super::model::ENDS,
            });
        }
        Ok(Correlated { value: tension.at(t.as_kelvin()), source: tension.source })
    }

    /// What there is a correlation of, with its paper.
    fn correlations(&self) -> [(&'static str, Option<&'static str>); 3] {
        let pure = match self.core.mixture.components.as_slice() {
            [component] => Some(component.designation()),
            _ => None,
        };
        let transport = pure.and_then(of).and_then(Result::ok);
        let tension = pure.and_then(|pure| surface_tension::of(pure).ok().flatten());
        [
            ("viscosity", transport.map(|transport| transport.viscosity.source.as_str())),
            ("thermal conductivity", transport.map(|transport| transport.conductivity.source.as_str())),
            ("surface tension", tension.map(|tension| tension.source)),
        ]
    }

    fn correlation(
        &self,
        sought: &'static str,
        state: &State,
    ) -> Result<(&'static Transport, Single<'_>, f64, f64), FluidError> {
        let missing = || {
            let known: Vec<&str> = FILES.iter().map(|(name, ..)| *name).collect();
            self.no_correlation(sought, known.join(", "))
        };
        let [component] = self.core.mixture.components.as_slice() else { return Err(missing()) };
        let transport = of(component.designation()).ok_or_else(missing)??;
        if state.phase == Phase::TwoPhase {
            let at = format!("at {}: liquid and vapor stand side by side", error::pressure(state.pressure));
            return Err(self.not_found(sought, at));
        }
        let single = self.single();
        let density = state.density / single.molar_mass;
        Ok((transport, single, state.temperature.as_kelvin(), density))
    }

    fn no_correlation(&self, sought: &'static str, known: String) -> FluidError {
        FluidError::NoCorrelation { refrigerant: self.core.designation.clone(), sought, known }
    }

    fn finite(
        &self,
        sought: &'static str,
        state: &State,
        value: f64,
        source: &'static str,
    ) -> Result<Correlated, FluidError> {
        if value.is_finite() && value > 0.0 {
            Ok(Correlated { value, source })
        } else {
            Err(self.not_found(sought, super::model::at(state.pressure, state.temperature)))
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_of_the_folder_is_read() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/fluid/transport");
        let mut there: Vec<String> = std::fs::read_dir(folder)
            .unwrap()
            .map(|f| f.unwrap().file_name().into_string().unwrap())
            .filter(|name| name.ends_with(".yaml") && name != "surface-tension.yaml")
            .collect();
        there.sort();
        let mut listed: Vec<String> = FILES.iter().map(|(_, file, _)| file.replace("transport/", "")).collect();
        listed.sort();
        assert_eq!(there, listed, "the folder against the list in this module");
        for (name, file, _) in FILES {
            of(name).unwrap().unwrap_or_else(|e| panic!("{file}: {e}"));
        }
    }
}
