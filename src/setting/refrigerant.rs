//! A refrigerant's page: what it is made of, what the law and the can say, and what its figures rest on.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::leaf::{Frame, Heading};
use super::press::Press;
use super::print;
use super::register::{Target, source_address};
use super::words::fill;
use crate::handbook::{BlockKind, MadeOf, RefrigerantEntry};
use serde::Serialize;
use tera::Context;

#[derive(Serialize)]
struct Share {
    name: String,
    share: String,
    href: Option<String>,
}

#[derive(Serialize)]
struct TableLink {
    number: String,
    href: String,
    label: String,
}

/// Sets the page of `entry`.
pub(super) fn page(press: &Press<'_>, entry: &RefrigerantEntry) -> Result<String, SettingError> {
    let designation = &entry.designation.value;
    let path = address::refrigerant(designation);
    let target = Target::Refrigerant(designation.clone());
    let frame = Frame::of(
        press,
        Heading {
            path: &path,
            title: designation,
            label: "",
            guide: designation.clone(),
            home: press.register.home(&target),
            kind: "refrigerant",
        },
    );
    let made_of: Vec<Share> = match &entry.made_of {
        MadeOf::Equation(_) | MadeOf::NotKnown => Vec::new(),
        MadeOf::Blend(parts) => parts
            .iter()
            .map(|(part, share)| Share {
                name: part.value.clone(),
                share: share.value.clone(),
                href: press.register.refrigerants.get(&part.value).map(|page| frame.to(&page.path)),
            })
            .collect(),
    };
    let words = &press.theme.words;
    let mut context = Context::new();
    context.insert("note", &entry.note);
    context.insert("tables", &tables(press, &frame, designation));
    context.insert("made_of", &made_of);
    context.insert("safety_group", &entry.safety_group);
    let group = entry.safety_group.as_ref().and_then(|group| words.safety_groups.get(group));
    context.insert("safety_words", &group);
    if let Some(gwp) = &entry.gwp {
        let value = print::print(&gwp.value.to_string());
        context.insert("gwp", &std::collections::BTreeMap::from([("value", value), ("basis", gwp.basis.clone())]));
    }
    context.insert("oil", &entry.oil);
    if let Some(fluid) = press.figures.fluids.get(designation) {
        context.insert("equations", &fluid.equations);
        context.insert("pairs", &fluid.pairs);
        context.insert("correlations", &fluid.correlations);
        context.insert("range", &fluid.range);
    }
    context.insert("made_of_known", &!matches!(entry.made_of, MadeOf::NotKnown));
    if let Some(points) = &entry.points {
        context.insert("typed_rows", &fill(&words.typed_rows, "count", &points.rows.len().to_string()));
        let key = &points.source.value;
        if press.book.sources.contains_key(key) {
            let href = frame.to(&source_address(key));
            context.insert("typed_from", &PageLink { href, label: String::new(), title: press.source_line(key) });
        }
    }
    let sources: Vec<PageLink> = entry
        .sources
        .iter()
        .filter(|key| press.book.sources.contains_key(&key.value))
        .map(|key| PageLink {
            href: frame.to(&source_address(&key.value)),
            label: String::new(),
            title: press.source_line(&key.value),
        })
        .collect();
    context.insert("sources", &sources);
    frame.tie(press, &mut context, &target, &[]);
    frame.fill(press, "refrigerant.html", context)
}

/// The saturation tables of the refrigerant, in the order of their numbers.
fn tables(press: &Press<'_>, frame: &Frame, designation: &str) -> Vec<TableLink> {
    let lessons = press.book.in_order();
    let blocks = lessons.iter().flat_map(|leaf| &leaf.lesson.blocks);
    blocks
        .filter_map(|block| match &block.kind {
            BlockKind::SaturationTable(table) if table.refrigerant.value == designation => {
                press.register.tables.get(&table.name)
            }
            _ => None,
        })
        .map(|table| TableLink {
            number: table.number.clone(),
            href: frame.to(&table.address),
            label: press.register.lessons.get(&table.lesson).map_or_else(String::new, |place| place.page.label.clone()),
        })
        .collect()
}

/// What is said of a refrigerant in a line, for Find and the front: its safety group and what it is made of.
pub(super) fn in_a_line(press: &Press<'_>, entry: &RefrigerantEntry) -> String {
    let words = &press.theme.words;
    let mut said = Vec::new();
    match &entry.made_of {
        MadeOf::Equation(_) => said.push(words.single_substance.clone()),
        MadeOf::NotKnown => said.push(words.typed_points.to_lowercase()),
        MadeOf::Blend(parts) => {
            let parts: Vec<String> =
                parts.iter().map(|(part, share)| format!("{} {}", part.value, share.value)).collect();
            said.push(parts.join(", "));
        }
    }
    if let Some(group) = &entry.safety_group {
        said.push(format!("{} {group}", words.safety_group.to_lowercase()));
    }
    if let Some(gwp) = &entry.gwp {
        said.push(format!("GWP {} ({})", gwp.value, gwp.basis));
    }
    fill("{said}", "said", &said.join("; "))
}
