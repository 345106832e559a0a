//! The equations of state of pure refrigerants: one YAML file each in `equations/`, inside the program.
//!
//! Gives an [`Equation`] by designation. A file is read at its first use and kept. The residual and ideal-gas terms are
//! evaluated in [`super::residual`] and [`super::ideal`]; this module only holds them beside what a reader is told.

use std::sync::OnceLock;

use serde::Deserialize;

use super::{FluidError, ideal, measured, residual};

/// The equation of state of a pure refrigerant, as its file holds it: the paper, and within what it holds.
#[derive(Debug)]
pub struct Equation {
    designation: String,
    chemical_name: String,
    cas: String,
    source: String,
    uncertainty: String,
    valid: Valid,
    pub(super) gas_constant: f64,
    pub(super) molar_mass: f64,
    pub(super) reducing: Reducing,
    pub(super) critical: Critical,
    pub(super) triple_point: f64,
    pub(super) acentric_factor: f64,
    pub(super) residual: residual::Terms,
    pub(super) ideal: ideal::Terms,
}

/// Temperatures in K, pressure in MPa.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Valid {
    #[serde(deserialize_with = "measured::kelvin")]
    from: f64,
    #[serde(deserialize_with = "measured::kelvin")]
    to: f64,
    #[serde(deserialize_with = "measured::megapascal")]
    up_to: f64,
}

/// The state the equation is written round: not always the critical one.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Reducing {
    /// K
    #[serde(deserialize_with = "measured::kelvin")]
    pub(super) temperature: f64,
    /// mol/m³
    #[serde(deserialize_with = "measured::mole_per_cubic_meter")]
    pub(super) density: f64,
}

/// Where the equation has its critical point.
#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Critical {
    /// K
    #[serde(deserialize_with = "measured::kelvin")]
    pub(super) temperature: f64,
    /// Pa
    #[serde(deserialize_with = "measured::pascal")]
    pub(super) pressure: f64,
    /// mol/m³
    #[serde(deserialize_with = "measured::mole_per_cubic_meter")]
    pub(super) density: f64,
}

/// A file of `equations/`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct File {
    designation: String,
    chemical_name: String,
    cas: String,
    source: String,
    valid: Valid,
    uncertainty: String,
    #[serde(deserialize_with = "measured::joule_per_mole_kelvin")]
    gas_constant: f64,
    #[serde(deserialize_with = "measured::kilogram_per_mole")]
    molar_mass: f64,
    reducing: Reducing,
    critical: Critical,
    #[serde(deserialize_with = "measured::kelvin")]
    triple_point: f64,
    acentric_factor: f64,
    residual: residual::Rows,
    ideal: ideal::Rows,
}

/// One line a fluid: its designation and the text of its file.
macro_rules! files {
    ($($designation:literal $file:literal)*) => {
        &[$(($designation, concat!("equations/", $file), include_str!(concat!("equations/", $file)))),*]
    };
}

const FILES: &[(&str, &str, &str)] = files! {
    "R-22" "r-22.yaml"
    "R-23" "r-23.yaml"
    "R-32" "r-32.yaml"
    "R-123" "r-123.yaml"
    "R-125" "r-125.yaml"
    "R-134a" "r-134a.yaml"
    "R-143a" "r-143a.yaml"
    "R-152a" "r-152a.yaml"
    "R-227ea" "r-227ea.yaml"
    "R-290" "r-290.yaml"
    "R-600" "r-600.yaml"
    "R-600a" "r-600a.yaml"
    "R-601a" "r-601a.yaml"
    "R-717" "r-717.yaml"
    "R-744" "r-744.yaml"
    "R-1233zd(E)" "r-1233zd-e.yaml"
    "R-1234yf" "r-1234yf.yaml"
    "R-1234ze(E)" "r-1234ze-e.yaml"
    "R-1270" "r-1270.yaml"
    "R-1336mzz(E)" "r-1336mzz-e.yaml"
    "R-13I1" "r-13i1.yaml"
};

static READ: [OnceLock<Result<Equation, FluidError>>; FILES.len()] = [const { OnceLock::new() }; FILES.len()];

impl Equation {
    /// The equation of the pure refrigerant of this designation, as `R-134a`.
    ///
    /// # Errors
    /// [`FluidError::UnknownEquation`] naming the nearest designations there are.
    pub fn named(designation: &str) -> Result<&'static Equation, FluidError> {
        let at = FILES
            .iter()
            .position(|(name, ..)| *name == designation)
            .ok_or_else(|| FluidError::unknown_equation(designation, Self::designations()))?;
        let (_, file, text) = FILES[at];
        READ[at].get_or_init(|| Self::from_yaml(file, text)).as_ref().map_err(Clone::clone)
    }

    /// The designations of all equations there are, by number.
    pub fn designations() -> impl Iterator<Item = &'static str> {
        FILES.iter().map(|(name, ..)| *name)
    }

    fn from_yaml(file: &str, text: &str) -> Result<Equation, FluidError> {
        let data = |says: String| FluidError::Data { file: file.to_owned(), says };
        let file: File = serde_yaml::from_str(text).map_err(|e| data(e.to_string()))?;
        Ok(Equation {
            residual: residual::Terms::from_rows(&file.residual).map_err(data)?,
            ideal: ideal::Terms::from_rows(&file.ideal).map_err(data)?,
            designation: file.designation,
            chemical_name: file.chemical_name,
            cas: file.cas,
            source: file.source,
            uncertainty: file.uncertainty,
            valid: file.valid,
            gas_constant: file.gas_constant,
            molar_mass: file.molar_mass,
            reducing: file.reducing,
            critical: file.critical,
            triple_point: file.triple_point,
            acentric_factor: file.acentric_factor,
        })
    }

    /// The designation, as `R-134a`.
    pub fn designation(&self) -> &str {
        &self.designation
    }
    /// The name of the compound, as `1,1,1,2-tetrafluoroethane`.
    pub fn chemical_name(&self) -> &str {
        &self.chemical_name
    }
    /// The number of the compound in the registry of the Chemical Abstracts Service.
    pub fn cas(&self) -> &str {
        &self.cas
    }
    /// The paper the equation is printed in, as a citation in full words.
    pub fn source(&self) -> &str {
        &self.source
    }
    /// What the paper says of its own uncertainty, in words.
    pub fn uncertainty(&self) -> &str {
        &self.uncertainty
    }
    /// The lowest and the highest temperature the paper vouches for.
    pub fn valid_temperature(&self) -> (crate::quantity::Temperature, crate::quantity::Temperature) {
        let kelvin = crate::quantity::Temperature::from_kelvin;
        (kelvin(self.valid.from), kelvin(self.valid.to))
    }
    /// The highest pressure the paper vouches for.
    pub fn valid_pressure(&self) -> crate::quantity::Pressure {
        crate::quantity::Pressure::from_pascal(self.valid.up_to * 1e6)
    }
    /// Molar mass in kg/mol.
    pub fn molar_mass_kg_mol(&self) -> f64 {
        self.molar_mass
    }
    /// The triple point as the paper has it.
    pub fn triple_point(&self) -> crate::quantity::Temperature {
        crate::quantity::Temperature::from_kelvin(self.triple_point)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_of_the_folder_is_read_under_its_own_designation() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/fluid/equations");
        let mut there: Vec<String> =
            std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().file_name().into_string().unwrap()).collect();
        there.sort();
        let mut listed: Vec<String> = FILES.iter().map(|(_, file, _)| file.replace("equations/", "")).collect();
        listed.sort();
        assert_eq!(there, listed, "the folder against the list in this module");
        for (name, file, _) in FILES {
            let equation = Equation::named(name).unwrap_or_else(|e| panic!("{file}: {e}"));
            assert_eq!(equation.designation(), *name, "{file}");
            assert!(equation.source().len() > 60, "{file} has no citation");
        }
    }

    #[test]
    fn an_unknown_key_is_refused() {
        let text = FILES[0].2.replace("acentric-factor", "acentric-factors");
        let error = Equation::from_yaml("r-22.yaml", &text).unwrap_err().to_string();
        assert!(error.contains("r-22.yaml") && error.contains("acentric-factors"), "{error}");
    }

    #[test]
    fn an_unknown_designation_names_its_neighbors() {
        let error = Equation::named("R-134").unwrap_err().to_string();
        assert!(error.contains("`R-134`") && error.contains("R-134a"), "{error}");
    }
}
