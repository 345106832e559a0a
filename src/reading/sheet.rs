//! `sheets/*.yaml`: job sheets.

use super::link;
use super::yaml::{self, Places, Text};
use crate::handbook::{FileId, Finding, Handbook, Link, Sheet, SheetStep, Span, Spot};
use serde::Deserialize;
use std::collections::BTreeMap;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawSheet {
    title: Text,
    #[serde(default)]
    purpose: Option<Text>,
    #[serde(default)]
    lessons: Vec<Text>,
    #[serde(default)]
    trees: Vec<Text>,
    #[serde(default)]
    maker_first: bool,
    #[serde(default)]
    hazards: Vec<Text>,
    #[serde(default)]
    tools: Vec<Text>,
    #[serde(default)]
    before: Vec<Text>,
    steps: Vec<RawStep>,
    #[serde(default)]
    sign_off: Vec<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawStep {
    #[serde(rename = "do")]
    act: Text,
    #[serde(default)]
    caution: Option<Text>,
    #[serde(default)]
    take: Option<Text>,
    #[serde(default)]
    quantity: Option<Text>,
    #[serde(default)]
    limit: Option<Text>,
    #[serde(default)]
    work_out: Option<Text>,
}

/// Reads `sheets/<name>.yaml`.
pub(super) fn read(id: FileId, path: &str, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let at = Span { file: id, start: 0, end: text.len() };
    let name = path.rsplit_once('.').map_or(path, |(stem, _)| stem).to_owned();
    let (raw, places) = match yaml::read::<RawSheet>(text, at) {
        Ok(read) => read,
        Err(finding) => return findings.push(*finding),
    };
    let mut links = BTreeMap::new();
    let before = raw.before.iter().enumerate();
    let before = before.map(|(i, line)| linked(&places, &["before", &i.to_string()], line, text, &mut links)).collect();
    let steps = raw
        .steps
        .iter()
        .enumerate()
        .map(|(i, step)| {
            let n = i.to_string();
            let spot = |key, text: &Option<Text>| text.as_ref().map(|text| places.spot(&["steps", &n, key], text));
            SheetStep {
                act: linked(&places, &["steps", &n, "do"], &step.act, text, &mut links),
                caution: step
                    .caution
                    .as_ref()
                    .map(|caution| linked(&places, &["steps", &n, "caution"], caution, text, &mut links)),
                take: spot("take", &step.take),
                quantity: spot("quantity", &step.quantity),
                limit: spot("limit", &step.limit),
                work_out: spot("work-out", &step.work_out),
            }
        })
        .collect();
    let list = |key: &str, entries: &[Text]| -> Vec<Spot<String>> {
        entries.iter().enumerate().map(|(i, entry)| places.spot(&[key, &i.to_string()], entry)).collect()
    };
    let sheet = Sheet {
        at,
        title: places.spot(&["title"], &raw.title),
        purpose: raw.purpose.as_ref().map(|text| Spot::new(text.0.clone(), places.at(&["purpose"]))),
        lessons: list("lessons", &raw.lessons),
        trees: list("trees", &raw.trees),
        maker_first: raw.maker_first,
        hazards: list("hazards", &raw.hazards),
        tools: list("tools", &raw.tools),
        before,
        steps,
        sign_off: list("sign-off", &raw.sign_off),
        links,
        name: name.clone(),
    };
    book.sheets.insert(name, sheet);
}

fn linked(
    places: &Places,
    path: &[&str],
    text: &Text,
    file: &str,
    links: &mut BTreeMap<Span, Vec<Link>>,
) -> Spot<String> {
    let at = places.at(path);
    let found = link::links_of_scalar(&text.0, &file[at.start..at.end], at);
    if !found.is_empty() {
        links.insert(at, found);
    }
    Spot::new(text.0.clone(), at)
}
