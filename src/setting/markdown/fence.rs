//! Fenced blocks of a lesson: each set by the module of its kind; any other is code.

use super::Setter;
use crate::handbook::{Block, BlockKind};
use crate::setting::{SettingError, block, code, computed, drawing, form, plate, problem};
use pulldown_cmark::{CodeBlockKind, Event, TagEnd};
use std::ops::Range;

impl Setter<'_> {
    pub(super) fn fence(
        &mut self,
        kind: &CodeBlockKind<'_>,
        range: &Range<usize>,
        out: &mut String,
    ) -> Result<(), SettingError> {
        let mut text = String::new();
        while let Some((event, _)) = self.next() {
            match event {
                Event::End(TagEnd::CodeBlock) => break,
                Event::Text(words) => text.push_str(&words),
                _ => {}
            }
        }
        let read = self.blocks_of.and_then(|(lesson, base)| {
            let block = lesson.blocks.iter().find(|block| block.at.start == base + range.start)?;
            Some((lesson, block))
        });
        let level = if self.sections.is_empty() { 2 } else { 3 };
        match read {
            Some((_, Block { at, kind: BlockKind::SaturationTable(table) })) => {
                out.push_str(&block::saturation(self.press, &mut self.workings, level, *at, table)?);
            }
            Some((_, Block { at, kind: BlockKind::Example(example) })) => {
                out.push_str(&block::example(self.press, &mut self.workings, level, *at, example)?);
            }
            Some((_, Block { at, kind: BlockKind::ComputedTable(table) })) => {
                out.push_str(&computed::set(self.press, self.page, &mut self.workings, level, *at, table)?);
            }
            Some((_, Block { at, kind: BlockKind::Form(_) })) => {
                if let Some(form) = self.press.figures.forms.get(at) {
                    self.forms += 1;
                    out.push_str(&form::set(self.press, &mut self.workings, level, self.forms, form)?);
                }
            }
            Some((_, Block { kind: BlockKind::Practice(problem), .. })) => {
                out.push_str(&problem::set(self.press, &mut self.workings, level, problem, &mut self.keys)?);
            }
            Some((_, Block { at, kind: BlockKind::Plate(plate) })) => {
                out.push_str(&plate::set(self.press, self.page, *at, plate)?);
            }
            Some((_, Block { at, kind: BlockKind::Drawing(drawing) })) => {
                out.push_str(&drawing::set(self.press, *at, drawing)?);
            }
            Some((_, Block { kind: BlockKind::Tree(tree), .. })) => {
                out.push_str(&block::tree_card(self.press, self.page, level, &tree.tree.value)?);
            }
            _ => {
                let language = match kind {
                    CodeBlockKind::Fenced(info) => info.split_whitespace().next().unwrap_or(""),
                    CodeBlockKind::Indented => "",
                };
                out.push_str(&code::set(language, &text));
            }
        }
        Ok(())
    }
}
