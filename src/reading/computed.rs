//! `computed-table` and `work-it-out` blocks.

use super::link;
use super::supply::{self, RawSupply};
use super::yaml::{self, Named, Text};
use crate::handbook::{ComputedTable, Finding, Form, Span, Supplied};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawTable {
    name: Text,
    title: Text,
    find: Text,
    #[serde(default)]
    given: Named<Text>,
    down: Named<RawSupply>,
    #[serde(default)]
    across: Option<Named<RawSupply>>,
    #[serde(default)]
    decimals: Option<u8>,
    #[serde(default)]
    note: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawForm {
    find: Text,
    #[serde(default)]
    given: Named<Text>,
    #[serde(default)]
    looked_for: Option<Text>,
}

/// Reads a `computed-table`.
pub(super) fn read_table(inner: &str, at: Span) -> Result<ComputedTable, Box<Finding>> {
    let (raw, places) = yaml::read::<RawTable>(inner, at)?;
    let one = |key: &str, mut inputs: Vec<Supplied>| match (inputs.pop(), inputs.is_empty()) {
        (Some(only), true) => Ok(only),
        _ => Err(Box::new(
            Finding::error("table-not-read", places.at(&[key]), format!("`{key}:` takes one input"))
                .instead(format!("write `{key}: {{suction pressure: 40 to 80 psig by 5 psig}}`")),
        )),
    };
    let down = one("down", supply::supplied(&places, &["down"], &raw.down))?;
    let across = match &raw.across {
        Some(across) => Some(one("across", supply::supplied(&places, &["across"], across))?),
        None => None,
    };
    let (note, note_links) = link::linked(raw.note.as_ref(), &["note"], &places, inner, at);
    Ok(ComputedTable {
        name: places.spot(&["name"], &raw.name),
        title: places.spot(&["title"], &raw.title),
        find: places.spot(&["find"], &raw.find),
        given: supply::given(&places, &["given"], &raw.given),
        down,
        across,
        decimals: raw.decimals,
        note,
        note_links,
    })
}

/// Reads a `work-it-out`.
pub(super) fn read_form(inner: &str, at: Span) -> Result<Form, Box<Finding>> {
    let (raw, places) = yaml::read::<RawForm>(inner, at)?;
    let looked_for = match &raw.looked_for {
        Some(text) => {
            let spot = places.spot(&["looked-for"], text);
            match spot.value.strip_prefix("value:") {
                Some(name) => Some(crate::handbook::Spot::new(name.trim().to_owned(), spot.at)),
                None => {
                    return Err(Box::new(
                        Finding::error("form-not-read", spot.at, format!("`{}` is no standing value", spot.value))
                            .instead("write `looked-for: value:superheat-range`"),
                    ));
                }
            }
        }
        None => None,
    };
    Ok(Form {
        find: places.spot(&["find"], &raw.find),
        given: supply::given(&places, &["given"], &raw.given),
        looked_for,
    })
}
