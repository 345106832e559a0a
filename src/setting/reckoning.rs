//! The scripts that forms reckon with: the reckoner, a file for each computation of the catalogue and one for each
//! refrigerant. A page asks for those it needs, by script tag, so that a folder opened from a disk has them too.

use super::address;
use super::press::Press;
use super::theme::without_indents;
use crate::quantity;
use crate::trade::{RECKONER, RUNTIME, catalogue};
use std::collections::BTreeMap;

/// Every script by its path.
pub(super) fn scripts(press: &Press<'_>) -> Vec<(String, String)> {
    let mut files = vec![(address::RECKONER.to_owned(), reckoner(press))];
    for c in catalogue() {
        let text = format!("reckoner.take(\"sum\",{:?},{});\n", c.name, c.page_script());
        files.push((address::sum(c.name), without_indents(&text)));
    }
    for (designation, table) in &press.figures.page_tables {
        let text = format!("reckoner.take(\"fluid\",{designation:?},{});\n", table.script());
        files.push((address::fluid(designation), text));
    }
    files
}

fn reckoner(press: &Press<'_>) -> String {
    let figures = &press.figures;
    let fluids: BTreeMap<&String, String> =
        figures.page_tables.keys().map(|name| (name, address::fluid_file(name))).collect();
    let shown = &figures.altitude;
    let files: Vec<String> = fluids.iter().map(|(name, file)| format!("{name:?}:{file:?}")).collect();
    let handbook = format!(
        "{{altitude:{:?},shown:{{us:{:?},si:{:?}}},fluids:{{{}}}}}",
        figures.altitude_m,
        shown.us,
        shown.si,
        files.join(",")
    );
    let text = format!(
        "window.reckoner = ({})(({})({},\n{}), {handbook});\n",
        include_str!("reckoning.js").trim_end(),
        RECKONER.trim_end(),
        quantity::page_script(),
        RUNTIME.trim_end(),
    );
    without_indents(&text)
}
