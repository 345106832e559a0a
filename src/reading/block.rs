//! Fenced blocks: those whose info string is one of ours hold YAML, all others are code.

use super::markdown::Fence;
use super::yaml::{self, Named, Text};
use super::{computed, drawing, example, problem};
use crate::handbook::{Block, BlockKind, CodeBlock, Finding, Plate, SaturationTable, Span, TreeBlock};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawSaturation {
    refrigerant: Text,
    from: Text,
    to: Text,
    step: Text,
    #[serde(default)]
    name: Option<Text>,
    #[serde(default)]
    also: Vec<Text>,
    #[serde(default)]
    counted_from: Option<Text>,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawTree {
    tree: Text,
}

#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct RawPlate {
    picture: Text,
    title: Text,
    #[serde(default)]
    key: Named<Text>,
    say: Text,
}

/// Reads one fence of the file whose text is `text`.
pub(super) fn read(fence: &Fence, text: &str, findings: &mut Vec<Finding>) -> Block {
    let inner = &text[fence.inner.start..fence.inner.end];
    let language = fence.info.split_whitespace().next().unwrap_or("");
    let kind = match language {
        "saturation-table" => saturation_table(inner, fence.inner),
        "tree" => tree(inner, fence.inner),
        "worked-example" => example::read(inner, fence.inner).map(BlockKind::Example),
        "computed-table" => computed::read_table(inner, fence.inner).map(BlockKind::ComputedTable),
        "work-it-out" => computed::read_form(inner, fence.inner).map(BlockKind::Form),
        "practice" => problem::read_block(inner, fence.inner).map(BlockKind::Practice),
        "plate" => plate(inner, fence.inner),
        "drawing" => drawing::read(inner, fence.inner).map(BlockKind::Drawing),
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
        also: raw.also.iter().enumerate().map(|(i, also)| places.spot(&["also", &i.to_string()], also)).collect(),
        counted_from: raw.counted_from.as_ref().map(|zero| places.spot(&["counted-from"], zero)),
    }))
}

fn tree(inner: &str, at: Span) -> Result<BlockKind, Box<Finding>> {
    let (raw, places) = yaml::read::<RawTree>(inner, at)?;
    Ok(BlockKind::Tree(TreeBlock { tree: places.spot(&["tree"], &raw.tree) }))
}

fn plate(inner: &str, at: Span) -> Result<BlockKind, Box<Finding>> {
    let (raw, places) = yaml::read::<RawPlate>(inner, at)?;
    let key = raw.key.0.iter();
    Ok(BlockKind::Plate(Plate {
        picture: places.spot(&["picture"], &raw.picture),
        title: places.spot(&["title"], &raw.title),
        key: key
            .map(|(letter, part)| (places.key_spot(&["key", letter]), places.spot(&["key", letter], part)))
            .collect(),
        say: places.spot(&["say"], &raw.say),
    }))
}
