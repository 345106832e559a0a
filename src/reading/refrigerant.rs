//! `refrigerants/*.yaml`: what a refrigerant is made of, or points typed from a published table, and what is known of it
//! beside its properties.

use super::yaml::{self, Named, Text};
use crate::handbook::{FileId, Finding, Gwp, Handbook, MadeOf, PointTable, RefrigerantEntry, Span};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawRefrigerant {
    designation: Text,
    #[serde(default)]
    equation: Option<Text>,
    #[serde(default)]
    made_of: Option<Named<Text>>,
    #[serde(default)]
    points: Option<RawPoints>,
    #[serde(default)]
    safety_group: Option<Text>,
    #[serde(default)]
    gwp: Option<RawGwp>,
    #[serde(default)]
    oil: Option<Text>,
    #[serde(default)]
    sources: Vec<Text>,
    #[serde(default)]
    note: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawGwp {
    value: f64,
    basis: Text,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPoints {
    source: Text,
    columns: Vec<Text>,
    rows: Vec<Vec<Text>>,
}

pub(super) fn read(id: FileId, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let at = Span { file: id, start: 0, end: text.len() };
    let (raw, places) = match yaml::read::<RawRefrigerant>(text, at) {
        Ok(read) => read,
        Err(finding) => return findings.push(*finding),
    };
    let designation = places.spot(&["designation"], &raw.designation);
    let made_of = match (&raw.equation, &raw.made_of) {
        (Some(equation), None) => MadeOf::Equation(places.spot(&["equation"], equation)),
        (None, Some(parts)) => MadeOf::Blend(
            parts
                .0
                .iter()
                .map(|(name, share)| (places.key_spot(&["made-of", name]), places.spot(&["made-of", name], share)))
                .collect(),
        ),
        (None, None) if raw.points.is_some() => MadeOf::NotKnown,
        (Some(_), Some(_)) | (None, None) => {
            findings.push(
                Finding::error(
                    "refrigerant-unfounded",
                    designation.at,
                    format!("`{}` must rest on one thing, an equation, a blend or typed points", designation.value),
                )
                .instead(
                    "write `equation: R-134a` for a pure fluid, `made-of: {R-32: 50 %, R-125: 50 %}` for a blend, or `points:` \
                     where neither is known",
                ),
            );
            return;
        }
    };
    let points = raw.points.as_ref().map(|points| PointTable {
        at: places.at(&["points"]),
        source: places.spot(&["points", "source"], &points.source),
        columns: points
            .columns
            .iter()
            .enumerate()
            .map(|(i, column)| places.spot(&["points", "columns", &i.to_string()], column))
            .collect(),
        rows: points
            .rows
            .iter()
            .enumerate()
            .map(|(i, row)| {
                let cell = |(k, cell)| places.spot(&["points", "rows", &i.to_string(), &usize::to_string(&k)], cell);
                row.iter().enumerate().map(cell).collect()
            })
            .collect(),
    });
    if let Some(other) = book.refrigerants.get(&designation.value) {
        findings.push(
            Finding::error("refrigerant-twice", designation.at, format!("`{}` is described twice", designation.value))
                .seen(other.designation.at, "the other one")
                .instead("keep one of the two files"),
        );
        return;
    }
    let entry = RefrigerantEntry {
        at,
        made_of,
        points,
        safety_group: raw.safety_group.map(|t| t.0),
        gwp: raw.gwp.map(|g| Gwp { value: g.value, basis: g.basis.0 }),
        oil: raw.oil.map(|t| t.0),
        sources: raw
            .sources
            .iter()
            .enumerate()
            .map(|(i, source)| places.spot(&["sources", &i.to_string()], source))
            .collect(),
        note: raw.note.map(|t| t.0),
        designation: designation.clone(),
    };
    book.refrigerants.insert(designation.value, entry);
}
