//! Surface tension of a pure refrigerant against its own vapor: σ = Σ a (1 − T/Tc)^n.

use std::{collections::BTreeMap, sync::OnceLock};

use serde::Deserialize;

use crate::fluid::{FluidError, measured};

const FILE: &str = include_str!("surface-tension.yaml");

/// A publication with the fluids it is taken for.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct Publication {
    source: String,
    fluids: BTreeMap<String, Terms>,
}

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Terms {
    #[serde(deserialize_with = "measured::kelvin")]
    critical_temperature: f64,
    terms: Vec<[f64; 2]>,
}

/// The correlation of one fluid.
#[derive(Clone, Copy, Debug)]
pub(super) struct SurfaceTension {
    pub(super) source: &'static str,
    terms: &'static Terms,
}

impl SurfaceTension {
    /// N/m at `t` K; nothing is left of it from the critical temperature on.
    pub(super) fn at(&self, t: f64) -> f64 {
        let rest = (1.0 - t / self.terms.critical_temperature).max(0.0);
        self.terms.terms.iter().map(|[a, n]| a * rest.powf(*n)).sum()
    }
}

fn publications() -> Result<&'static [Publication], FluidError> {
    static READ: OnceLock<Result<Vec<Publication>, FluidError>> = OnceLock::new();
    READ.get_or_init(|| {
        serde_yaml::from_str(FILE)
            .map_err(|e| FluidError::Data { file: "transport/surface-tension.yaml".to_owned(), says: e.to_string() })
    })
    .as_deref()
    .map_err(Clone::clone)
}

/// By the designation of its equation.
pub(super) fn of(equation: &str) -> Result<Option<SurfaceTension>, FluidError> {
    Ok(publications()?.iter().find_map(|publication| {
        let terms = publication.fluids.get(equation)?;
        Some(SurfaceTension { source: &publication.source, terms })
    }))
}

/// The fluids there is a correlation for.
pub(super) fn known() -> Vec<&'static str> {
    let all = publications().unwrap_or_default().iter();
    all.flat_map(|publication| publication.fluids.keys().map(String::as_str)).collect()
}
