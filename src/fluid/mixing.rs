//! How the refrigerants of a blend act on each other, pair by pair: one YAML file a publication in `mixing/`.
//!
//! Gives the [`Mixing`] of two equations: the four parameters of the reducing functions and, where there is one, the
//! departure function. A pair that nobody has published is estimated by a named rule and says so; the rules stand in
//! the order of trust in [`estimate`].

use std::sync::{Arc, OnceLock};

use serde::Deserialize;

use super::{Equation, FluidError, measured, residual, table::Table};

/// What two refrigerants do to each other in the mixture model.
#[derive(Clone, Debug)]
pub(super) struct Mixing {
    pub(super) beta_t: f64,
    pub(super) gamma_t: f64,
    pub(super) beta_v: f64,
    pub(super) gamma_v: f64,
    pub(super) departure: Option<Departure>,
    pub(super) source: String,
    pub(super) uncertainty: String,
    /// The rule by which the pair was estimated; none where it is published.
    pub(super) rule: Option<&'static str>,
}

/// F times a function of τ and δ.
#[derive(Clone, Debug)]
pub(super) struct Departure {
    pub(super) factor: f64,
    pub(super) terms: Arc<residual::Terms>,
}

/// A file of `mixing/`.
#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
struct File {
    source: String,
    uncertainty: String,
    pairs: Vec<Row>,
    departures: std::collections::BTreeMap<String, Table>,
}

/// A pair in one of the two forms in print: β and γ, or the excess ξ on temperature and ζ on volume of 2004.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct Row {
    first: String,
    second: String,
    beta_t: Option<f64>,
    gamma_t: Option<f64>,
    beta_v: Option<f64>,
    gamma_v: Option<f64>,
    #[serde(default, deserialize_with = "measured::optional_kelvin")]
    xi: Option<f64>,
    #[serde(default, deserialize_with = "measured::optional_cubic_meter_per_mole")]
    zeta: Option<f64>,
    factor: Option<f64>,
    departure: Option<String>,
}

macro_rules! files {
    ($($file:literal)*) => {
        &[$((concat!("mixing/", $file), include_str!(concat!("mixing/", $file)))),*]
    };
}

const FILES: &[(&str, &str)] = files! {
    "lemmon-jacobsen-2004.yaml"
    "kunz-wagner-2012.yaml"
    "bell-lemmon-2016.yaml"
    "bell-mclinden-2020.yaml"
    "bell-2022.yaml"
    "bell-2023.yaml"
    "bell-2025.yaml"
};

/// A published pair in the order of its publication.
#[derive(Debug)]
struct Published {
    first: String,
    second: String,
    mixing: Mixing,
}

fn published() -> Result<&'static [Published], FluidError> {
    static READ: OnceLock<Result<Vec<Published>, FluidError>> = OnceLock::new();
    let read = READ.get_or_init(|| {
        let mut all = Vec::new();
        for (file, text) in FILES {
            all.extend(from_yaml(file, text)?);
        }
        Ok(all)
    });
    read.as_deref().map_err(Clone::clone)
}

fn from_yaml(name: &str, text: &str) -> Result<Vec<Published>, FluidError> {
    let data = |says: String| FluidError::Data { file: name.to_owned(), says };
    let file: File = serde_yaml::from_str(text).map_err(|e| data(e.to_string()))?;
    let mut departures = std::collections::BTreeMap::new();
    for (name, table) in &file.departures {
        let terms = residual::Terms::from_power_table(table).map_err(data)?;
        departures.insert(name.clone(), Arc::new(terms));
    }
    let mut all = Vec::new();
    for row in &file.pairs {
        let pair = format!("{} with {}", row.first, row.second);
        let (first, second) = (Equation::named(&row.first)?, Equation::named(&row.second)?);
        let (beta_t, gamma_t, beta_v, gamma_v) =
            match (row.beta_t, row.gamma_t, row.beta_v, row.gamma_v, row.xi, row.zeta) {
                (Some(beta_t), Some(gamma_t), Some(beta_v), Some(gamma_v), None, None) => {
                    (beta_t, gamma_t, beta_v, gamma_v)
                }
                (None, None, None, None, Some(xi), Some(zeta)) => {
                    let (gamma_t, gamma_v) = gammas_from_excess(first, second, xi, zeta);
                    (1.0, gamma_t, 1.0, gamma_v)
                }
                _ => {
                    return Err(data(format!("{pair}: give either the four of beta and gamma, or xi and zeta")));
                }
            };
        let departure = match (row.factor, &row.departure) {
            (None, None) => None,
            (Some(factor), Some(name)) => {
                let terms = departures
                    .get(name)
                    .ok_or_else(|| data(format!("{pair}: there is no departure function `{name}` in this file")))?;
                Some(Departure { factor, terms: Arc::clone(terms) })
            }
            _ => return Err(data(format!("{pair}: a departure function and its factor go together"))),
        };
        all.push(Published {
            first: row.first.clone(),
            second: row.second.clone(),
            mixing: Mixing {
                beta_t,
                gamma_t,
                beta_v,
                gamma_v,
                departure,
                source: file.source.clone(),
                uncertainty: file.uncertainty.clone(),
                rule: None,
            },
        });
    }
    Ok(all)
}

/// γT and γv of the form Tr = Σ xi Ti + Σ xi xj ξ, vr = Σ xi vi + Σ xi xj ζ, which is the other form with β = 1.
fn gammas_from_excess(first: &Equation, second: &Equation, xi: f64, zeta: f64) -> (f64, f64) {
    let (t1, t2) = (first.reducing.temperature, second.reducing.temperature);
    let (v1, v2) = (1.0 / first.reducing.density, 1.0 / second.reducing.density);
    let gamma_t = 0.5 * (t1 + t2 + xi) / (t1 * t2).sqrt();
    let gamma_v = 4.0 * (v1 + v2 + zeta) / (v1.cbrt() + v2.cbrt()).powi(3);
    (gamma_t, gamma_v)
}

/// The mixing of two equations, `first` with `second` in this order.
pub(super) fn of(first: &Equation, second: &Equation) -> Result<Mixing, FluidError> {
    match find(first.designation(), second.designation())? {
        Some(mixing) => Ok(mixing),
        None => estimate(first, second),
    }
}

fn find(first: &str, second: &str) -> Result<Option<Mixing>, FluidError> {
    for pair in published()? {
        if pair.first == first && pair.second == second {
            return Ok(Some(pair.mixing.clone()));
        }
        if pair.first == second && pair.second == first {
            let mut turned = pair.mixing.clone();
            turned.beta_t = 1.0 / turned.beta_t;
            turned.beta_v = 1.0 / turned.beta_v;
            return Ok(Some(turned));
        }
    }
    Ok(None)
}

/// Whose published pairs a refrigerant without its own may borrow: the compound of the same series nearest in size.
const HOMOLOGUES: &[(&str, &str)] = &[("R-601a", "R-600")];

const BORROWED: &str = "borrowed from the nearest homologue";
const LINEAR: &str = "linear in critical temperature and volume";

/// A pair that nobody has published, by the first of these rules that can be kept:
///
/// 1. *Borrowed from the nearest homologue*: the parameters of the like pair, component for component.
/// 2. *Linear in critical temperature and volume*: β = 1, γT = (T1+T2)/(2√(T1T2)), γv = 4(v1+v2)/(v1^⅓+v2^⅓)³, which
///    makes the reducing temperature and volume go straight with the mole fraction.
fn estimate(first: &Equation, second: &Equation) -> Result<Mixing, FluidError> {
    let like = |name: &str| HOMOLOGUES.iter().find(|(own, _)| *own == name).map(|(_, like)| *like);
    let (a, b) = (first.designation(), second.designation());
    for (x, y) in [(like(a), Some(b)), (Some(a), like(b)), (like(a), like(b))] {
        let (Some(x), Some(y)) = (x, y) else { continue };
        if x != y
            && let Some(mut mixing) = find(x, y)?
        {
            mixing.source = format!("estimated: {BORROWED}, {x} with {y}: {}", mixing.source);
            mixing.uncertainty = "estimated; some per cent in dew pressure".to_owned();
            mixing.rule = Some(BORROWED);
            mixing.departure = None;
            return Ok(mixing);
        }
    }
    let (gamma_t, gamma_v) = gammas_from_excess(first, second, 0.0, 0.0);
    Ok(Mixing {
        beta_t: 1.0,
        gamma_t,
        beta_v: 1.0,
        gamma_v,
        departure: None,
        source: format!("estimated: {LINEAR}"),
        uncertainty: "estimated; may be several per cent in pressure".to_owned(),
        rule: Some(LINEAR),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_of_the_folder_is_read() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/fluid/mixing");
        let mut there: Vec<String> =
            std::fs::read_dir(folder).unwrap().map(|f| f.unwrap().file_name().into_string().unwrap()).collect();
        there.sort();
        let mut listed: Vec<String> = FILES.iter().map(|(file, _)| file.replace("mixing/", "")).collect();
        listed.sort();
        assert_eq!(there, listed, "the folder against the list in this module");
        let pairs = published().unwrap_or_else(|e| panic!("{e}"));
        assert_eq!(pairs.len(), 125, "published pairs among the 21 equations");
    }

    #[test]
    fn a_pair_turned_round_has_beta_turned_over() {
        let (a, b) = (Equation::named("R-32").unwrap(), Equation::named("R-1234yf").unwrap());
        let (ab, ba) = (of(a, b).unwrap(), of(b, a).unwrap());
        assert_eq!(ab.beta_t, 1.011011);
        assert!((ba.beta_t * ab.beta_t - 1.0).abs() < 1e-15 && (ba.beta_v * ab.beta_v - 1.0).abs() < 1e-15);
        assert_eq!(ab.gamma_t, ba.gamma_t);
    }

    #[test]
    fn unpublished_pairs_say_by_which_rule_they_are_estimated() {
        let equation = |name| Equation::named(name).unwrap();
        let borrowed = of(equation("R-601a"), equation("R-125")).unwrap();
        assert_eq!((borrowed.rule, borrowed.beta_t, borrowed.gamma_t), (Some(BORROWED), 0.99482, 0.90412));
        let linear = of(equation("R-22"), equation("R-125")).unwrap();
        assert_eq!((linear.rule, linear.beta_t), (Some(LINEAR), 1.0));
    }

    #[test]
    fn half_a_pair_is_refused() {
        let text = "source: x\nuncertainty: x\npairs:\n  - {first: R-32, second: R-125, beta-t: 1}\ndepartures: {}\n";
        let error = from_yaml("x.yaml", text).unwrap_err().to_string();
        assert!(error.contains("R-32 with R-125"), "{error}");
    }
}
