//! `page-table-off`: the compact table of a refrigerant that forms in the page read is further from its equations than
//! a reading is worth, 0.02 °F or 0.02 %.
//!
//! A form that reads a little beside the tables on the same page would be believed, and the two would be taken for two
//! truths. So the table is held against the engine each time it is made, and one that is further off is left out: forms
//! then don't offer the refrigerant. Its printed tables and figures come from the equations and are not touched.
//!
//! Trips: `made-of: {R-717: 50 %, R-134a: 50 %}`, whose parts hardly mix. Mended: a blend that is in use.

use crate::fluid::Refrigerant;
use crate::handbook::{Finding, Handbook};
use crate::quantity::number_text;
use crate::trade::{Compact, MOST_KELVIN, MOST_SHARE};
use std::collections::BTreeMap;
use std::sync::{Arc, LazyLock, Mutex, PoisonError};
use std::thread;

/// Tables made before by this run of the program, by what the refrigerant is made of: an author's desk proofs a
/// handbook again at every change, and a refrigerant seldom changes.
static MADE: LazyLock<Mutex<BTreeMap<String, Arc<Compact>>>> = LazyLock::new(Mutex::default);

/// The tables of every refrigerant of the roster, by designation.
pub(super) fn examine(
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
    findings: &mut Vec<Finding>,
) -> BTreeMap<String, Arc<Compact>> {
    let named: Vec<(&String, &Refrigerant)> = roster.iter().collect();
    let workers = thread::available_parallelism().map_or(1, usize::from).min(named.len().max(1));
    let made: Vec<(&String, Result<Arc<Compact>, String>)> = thread::scope(|scope| {
        let shares: Vec<_> = (0..workers)
            .map(|worker| {
                let share: Vec<_> = named.iter().skip(worker).step_by(workers).copied().collect();
                scope.spawn(move || share.into_iter().map(|(name, fluid)| (name, table(fluid))).collect::<Vec<_>>())
            })
            .collect();
        shares.into_iter().flat_map(|share| share.join().unwrap_or_default()).collect()
    });
    let mut tables = BTreeMap::new();
    for (designation, made) in made {
        let at = book.refrigerants.get(designation).map(|entry| entry.designation.at).unwrap_or_default();
        let says = match made {
            Ok(table) if table.holds() => {
                tables.insert(designation.clone(), table);
                continue;
            }
            Ok(table) => format!(
                "the page's table of `{designation}` is off by up to {} °F and {} %",
                number_text(table.off_kelvin * 1.8, 3),
                number_text(table.off_share * 100.0, 3)
            ),
            Err(error) => format!("the page's table of `{designation}` can't be made: {error}"),
        };
        findings.push(Finding::warning("page-table-off", at, says).instead(format!(
            "at most {} °F and {} % are borne, so forms leave it out; printed tables and figures are as they should be",
            number_text(MOST_KELVIN * 1.8, 2),
            number_text(MOST_SHARE * 100.0, 2)
        )));
    }
    tables
}

fn table(fluid: &Refrigerant) -> Result<Arc<Compact>, String> {
    let parts: Vec<(&str, f64)> =
        fluid.components().iter().map(|part| (part.designation, part.mass_fraction)).collect();
    if parts.is_empty() {
        return Compact::of(fluid).map(Arc::new).map_err(|error| error.to_string());
    }
    let key = format!("{} {parts:?} {:?}", fluid.designation(), fluid.reference());
    let known = MADE.lock().unwrap_or_else(PoisonError::into_inner).get(&key).cloned();
    if let Some(known) = known {
        return Ok(known);
    }
    let made = Arc::new(Compact::of(fluid).map_err(|error| error.to_string())?);
    MADE.lock().unwrap_or_else(PoisonError::into_inner).insert(key, made.clone());
    Ok(made)
}
