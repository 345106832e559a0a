//! `dead-link`: a link, or a name in a head or a list, that leads to nothing.
//!
//! A reader in the field who follows a link must arrive. So every name an author refers to something by is looked up,
//! and where it leads nowhere the nearest name that does is told.
//!
//! Trips: `[the bulb](lesson:bulb-mountin)`. Mended: `[the bulb](lesson:bulb-mounting)`.

use crate::handbook::{BlockKind, Finding, Handbook, Link, Scheme, Spot};
use crate::quantity::nearest;
use crate::trade;
use std::collections::BTreeMap;

/// Lists and what they hold. What a list would have held is not missed where the list itself could not be read.
const LISTS: [(&str, &str); 4] = [
    ("terms.yaml", "term"),
    ("values.yaml", "standing value"),
    ("sources.yaml", "source"),
    ("hazards.yaml", "standing notice"),
];

/// Looks every name up.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) {
    let tables = book.tables();
    for link in book.links() {
        let to = &link.to;
        match link.scheme {
            Scheme::Lesson => look_up(book, to, "lesson", &book.lessons, findings),
            Scheme::Term => look_up(book, to, "term", &book.terms, findings),
            Scheme::Tree => look_up(book, to, "tree", &book.trees, findings),
            Scheme::Refrigerant => look_up(book, to, "refrigerant", &book.refrigerants, findings),
            Scheme::Source => look_up(book, to, "source", &book.sources, findings),
            Scheme::Sheet => look_up(book, to, "job sheet", &book.sheets, findings),
            Scheme::Practice => look_up(book, to, "problem set", &book.problem_sets, findings),
            Scheme::Value => look_up(book, to, "standing value", &book.values, findings),
            Scheme::Table if !tables.contains_key(to.value.as_str()) => {
                findings.push(dead(to, "table", tables.keys().copied()));
            }
            Scheme::Computation if trade::find(&to.value).is_none() => {
                findings.push(dead(to, "computation", trade::catalogue().iter().map(|c| c.name)));
            }
            Scheme::Outside => findings.extend(outside(link)),
            // Figures are looked up in the catalogue, where they are worked.
            Scheme::Table | Scheme::Computation | Scheme::Figure | Scheme::As => {}
        }
    }
    for lesson in book.lessons.values() {
        for need in &lesson.needs {
            look_up(book, need, "lesson", &book.lessons, findings);
        }
        for hazard in &lesson.hazards {
            look_up(book, hazard, "standing notice", &book.hazards, findings);
        }
        for block in &lesson.blocks {
            match &block.kind {
                BlockKind::Tree(set) => look_up(book, &set.tree, "tree", &book.trees, findings),
                BlockKind::SaturationTable(table) => {
                    look_up(book, &table.refrigerant, "refrigerant", &book.refrigerants, findings);
                }
                BlockKind::Plate(plate) => look_up(book, &plate.picture, "picture", &book.pictures, findings),
                BlockKind::Form(form) => {
                    if let Some(value) = &form.looked_for {
                        look_up(book, value, "standing value", &book.values, findings);
                    }
                }
                BlockKind::Example(_)
                | BlockKind::ComputedTable(_)
                | BlockKind::Practice(_)
                | BlockKind::Drawing(_)
                | BlockKind::Code(_)
                | BlockKind::Unread => {}
            }
        }
    }
    for sheet in book.sheets.values() {
        for lesson in &sheet.lessons {
            look_up(book, lesson, "lesson", &book.lessons, findings);
        }
        for tree in &sheet.trees {
            look_up(book, tree, "tree", &book.trees, findings);
        }
        for hazard in &sheet.hazards {
            look_up(book, hazard, "standing notice", &book.hazards, findings);
        }
    }
    for lesson in book.problem_sets.values().filter_map(|set| set.lesson.as_ref()) {
        look_up(book, lesson, "lesson", &book.lessons, findings);
    }
    for part in &book.front.parts {
        for lesson in &part.lessons {
            look_up(book, lesson, "lesson", &book.lessons, findings);
        }
    }
    for value in book.values.values() {
        look_up(book, &value.source, "source", &book.sources, findings);
    }
    for entry in book.refrigerants.values() {
        let typed_from = entry.points.iter().map(|points| &points.source);
        for source in entry.sources.iter().chain(typed_from) {
            look_up(book, source, "source", &book.sources, findings);
        }
    }
    for taught in book.terms.values().filter_map(|t| t.taught.as_ref()) {
        look_up(book, taught, "lesson", &book.lessons, findings);
    }
}

fn look_up<T>(
    book: &Handbook,
    name: &Spot<String>,
    what: &str,
    known: &BTreeMap<String, T>,
    findings: &mut Vec<Finding>,
) {
    let unread = LISTS.iter().any(|(list, holds)| *holds == what && book.unread.contains(*list));
    if !unread && !known.contains_key(&name.value) {
        findings.push(dead(name, what, known.keys().map(String::as_str)));
    }
}

fn dead<'a>(name: &Spot<String>, what: &str, known: impl Iterator<Item = &'a str>) -> Finding {
    let known: Vec<&str> = known.collect();
    let instead = match (nearest(&name.value, known.iter().copied()), known.as_slice()) {
        (Some(near), _) => format!("the nearest is `{near}`"),
        (None, []) => format!("the handbook has no {what} yet"),
        (None, [only]) => format!("there is only `{only}`"),
        (None, few) if few.len() <= 8 => format!("there are `{}`", few.join("`, `")),
        (None, many) => format!("none of the {} there are is near it", many.len()),
    };
    Finding::error("dead-link", name.at, format!("there is no {what} `{}`", name.value)).instead(instead)
}

/// A destination as it can be followed: names have no spaces, and what is given is written with `%20`.
fn without_spaces(to: &str) -> String {
    let (name, given) = to.split_once('?').map_or((to, ""), |(name, _)| (name, &to[name.len()..]));
    let words: Vec<&str> = name.split_whitespace().collect();
    let name = words.join("-").replace(":-", ":");
    name + &given.trim().replace(char::is_whitespace, "%20")
}

/// A destination with none of our schemes. Addresses on the network are left to the reader to follow.
fn outside(link: &Link) -> Option<Finding> {
    let to = link.to.value.as_str();
    let on_the_network = ["https://", "http://", "mailto:"].iter().any(|scheme| to.starts_with(scheme));
    let in_the_page = to.starts_with('#');
    if !on_the_network && to.contains(char::is_whitespace) {
        return Some(
            Finding::error("dead-link", link.to.at, format!("`{to}` holds a space, and so is no link but plain text"))
                .instead(format!("`{}`", without_spaces(to))),
        );
    }
    (!on_the_network && !in_the_page).then(|| {
        Finding::error("dead-link", link.to.at, format!("`{to}` says not what it leads to")).instead(
            "write what it is and its name, `lesson:bulb-mounting`, `term:superheat`, `table:r-410a`, or a whole address that begins with `https://`",
        )
    })
}
