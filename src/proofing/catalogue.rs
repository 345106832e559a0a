//! The worked figure of every computation of the catalogue, for the pages that show it: with the handbook's refrigerants
//! and at its altitude. No findings come of it; the figures themselves are held by the catalogue's own tests.

use crate::fluid::Refrigerant;
use crate::trade::{self, Surroundings, Worked};
use std::collections::BTreeMap;

/// Works every computation's own example. One whose refrigerant the handbook lacks is worked with another that it has,
/// where that can be; otherwise it is left out.
pub(super) fn examine(roster: &BTreeMap<String, Refrigerant>, around: &Surroundings) -> BTreeMap<&'static str, Worked> {
    let mut worked = BTreeMap::new();
    for c in trade::catalogue() {
        let with = |fluid: &dyn Fn(&str) -> Option<Refrigerant>| {
            let given = c.worked.given(c, fluid).ok()?;
            trade::reckon(c, &given, around).ok()
        };
        let own = with(&|name| roster.get(name).cloned());
        let found = own.or_else(|| roster.values().find_map(|other| with(&|_| Some(other.clone()))));
        if let Some(found) = found {
            worked.insert(c.name, found);
        }
    }
    worked
}
