//! `table-twice` and `problem-twice`: two tables, or two problems, of one name.
//!
//! Links and a reader's answers go by the name; with two of one name, one of them can't be reached.
//!
//! Trips: two `saturation-table` blocks for R-410A. Mended: one of them has `name: r-410a-low`.

use crate::handbook::{Finding, Handbook, Span};
use std::collections::BTreeMap;

/// Looks for names that stand twice.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) {
    let blocks = book.lessons.values().flat_map(|lesson| &lesson.blocks);
    let tables = blocks.filter_map(|block| Some((block.table_name()?, block.at)));
    twice("table-twice", "tables", tables, findings);
    let problems = book.problems().map(|problem| (problem.name.value.as_str(), problem.name.at));
    twice("problem-twice", "problems", problems, findings);
}

fn twice<'a>(
    name: &'static str,
    what: &str,
    named: impl Iterator<Item = (&'a str, Span)>,
    findings: &mut Vec<Finding>,
) {
    let mut known: BTreeMap<&str, Span> = BTreeMap::new();
    for (word, at) in named {
        if let Some(other) = known.insert(word, at) {
            findings.push(
                Finding::error(name, at, format!("there are two {what} `{word}`"))
                    .seen(other, "the other one")
                    .instead("give one of them another `name:`; it is known by it"),
            );
        }
    }
}
