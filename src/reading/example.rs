//! `worked-example` blocks.

use super::yaml::{self, Named, Text};
use super::{link, supply};
use crate::handbook::{Example, ExampleStep, Finding, Span};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawExample {
    title: Text,
    given: Named<Text>,
    steps: Vec<RawStep>,
    #[serde(default)]
    so: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawStep {
    find: Text,
    #[serde(default)]
    of: Named<Text>,
    answer: Text,
    #[serde(default, rename = "as")]
    named: Option<Text>,
    #[serde(default)]
    within: Option<Text>,
}

/// Reads the YAML `inner`, which stands at `at`.
pub(super) fn read(inner: &str, at: Span) -> Result<Example, Box<Finding>> {
    let (raw, places) = yaml::read::<RawExample>(inner, at)?;
    let given = supply::given(&places, &["given"], &raw.given);
    let steps = raw
        .steps
        .iter()
        .enumerate()
        .map(|(i, step)| {
            let n = i.to_string();
            let spot = |key: &str, text: &Text| places.spot(&["steps", &n, key], text);
            ExampleStep {
                find: spot("find", &step.find),
                of: supply::renamed(&places, &["steps", &n, "of"], &step.of),
                answer: spot("answer", &step.answer),
                named: step.named.as_ref().map(|t| spot("as", t)),
                within: step.within.as_ref().map(|t| spot("within", t)),
            }
        })
        .collect();
    let (so, so_links) = link::linked(raw.so.as_ref(), &["so"], &places, inner, at);
    Ok(Example { title: places.spot(&["title"], &raw.title), given, steps, so, so_links })
}
