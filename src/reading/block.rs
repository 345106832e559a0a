//! Fenced blocks: those whose info string is one of ours hold YAML, all others are code.

use super::link;
use super::markdown::Fence;
use super::yaml::{self, Named, Text};
use crate::handbook::{
    Block, BlockKind, CodeBlock, Example, ExampleStep, Finding, GivenLine, SaturationTable, Span, Spot, TreeBlock,
};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawSaturation {
    refrigerant: Text,
    from: Text,
    to: Text,
    step: Text,
    #[serde(default)]
    name: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawTree {
    tree: Text,
}

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

/// Reads one fence of the file whose text is `text`.
pub(super) fn read(fence: &Fence, text: &str, findings: &mut Vec<Finding>) -> Block {
    let inner = &text[fence.inner.start..fence.inner.end];
    let language = fence.info.split_whitespace().next().unwrap_or("");
    let kind = match language {
        "saturation-table" => saturation_table(inner, fence.inner),
        "tree" => tree(inner, fence.inner),
        "worked-example" => example(inner, fence.inner),
        _ => Ok(BlockKind::Code(CodeBlock { language: language.to_owned(), text: inner.to_owned() })),
    };
    let kind = kind.unwrap_or_else(|mut finding| {
        if inner.trim().is_empty() {
            finding.at = fence.at;
        }
        findings.push(*finding);
        BlockKind::Unread
    });
    Block { at: fence.at, kind }
}

fn saturation_table(inner: &str, at: Span) -> Result<BlockKind, Box<Finding>> {
    let (raw, places) = yaml::read::<RawSaturation>(inner, at)?;
    let name = raw.name.map_or_else(|| raw.refrigerant.0.to_lowercase(), |n| n.0);
    Ok(BlockKind::SaturationTable(SaturationTable {
        name,
        refrigerant: places.spot(&["refrigerant"], &raw.refrigerant),
        from: places.spot(&["from"], &raw.from),
        to: places.spot(&["to"], &raw.to),
        step: places.spot(&["step"], &raw.step),
    }))
}

fn tree(inner: &str, at: Span) -> Result<BlockKind, Box<Finding>> {
    let (raw, places) = yaml::read::<RawTree>(inner, at)?;
    Ok(BlockKind::Tree(TreeBlock { tree: places.spot(&["tree"], &raw.tree) }))
}

fn example(inner: &str, at: Span) -> Result<BlockKind, Box<Finding>> {
    let (raw, places) = yaml::read::<RawExample>(inner, at)?;
    let given = raw
        .given
        .0
        .iter()
        .map(|(name, value)| GivenLine {
            name: places.key_spot(&["given", name]),
            value: places.spot(&["given", name], value),
        })
        .collect();
    let steps = raw
        .steps
        .iter()
        .enumerate()
        .map(|(i, step)| {
            let n = i.to_string();
            let spot = |key: &str, text: &Text| places.spot(&["steps", &n, key], text);
            ExampleStep {
                find: spot("find", &step.find),
                of: step
                    .of
                    .0
                    .iter()
                    .map(|(input, from)| {
                        (places.key_spot(&["steps", &n, "of", input]), places.spot(&["steps", &n, "of", input], from))
                    })
                    .collect(),
                answer: spot("answer", &step.answer),
                named: step.named.as_ref().map(|t| spot("as", t)),
                within: step.within.as_ref().map(|t| spot("within", t)),
            }
        })
        .collect();
    let so = raw.so.map(|t| Spot::new(t.0, places.at(&["so"])));
    let so_links = so.as_ref().map_or_else(Vec::new, |so| {
        let source = &inner[so.at.start - at.start..so.at.end - at.start];
        link::links_of_scalar(&so.value, source, so.at)
    });
    Ok(BlockKind::Example(Example { title: places.spot(&["title"], &raw.title), given, steps, so, so_links }))
}
