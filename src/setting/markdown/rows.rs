//! Lists and tables. The working of figures in them is set after the whole.

use super::Setter;
use crate::setting::{SettingError, print};
use pulldown_cmark::{Alignment, Event, Tag, TagEnd};
use std::fmt::Write;

impl Setter<'_> {
    pub(super) fn list(&mut self, start: Option<u64>, out: &mut String) -> Result<(), SettingError> {
        match start {
            Some(1) => out.push_str("<ol class=\"steps\">\n"),
            Some(first) => {
                let _ = writeln!(out, "<ol class=\"steps\" start=\"{first}\">");
            }
            None => out.push_str("<ul class=\"points\">\n"),
        }
        let outer = std::mem::replace(&mut self.held, true);
        while let Some((event, _)) = self.next() {
            match event {
                Event::Start(Tag::Item) => {
                    out.push_str("<li>");
                    self.blocks(out)?;
                    out.push_str("</li>\n");
                }
                _ => break,
            }
        }
        out.push_str(if start.is_some() { "</ol>\n" } else { "</ul>\n" });
        self.held = outer;
        self.flush(out)
    }

    pub(super) fn table(&mut self, alignments: &[Alignment], out: &mut String) -> Result<(), SettingError> {
        out.push_str("<div class=\"ruled-wrap\" role=\"group\" tabindex=\"0\" aria-label=\"");
        out.push_str(&print::escape(&self.press.theme.words.table));
        out.push_str("\"><table class=\"ruled words\">\n");
        let outer = std::mem::replace(&mut self.held, true);
        let mut column = 0;
        let mut in_head = false;
        while let Some((event, _)) = self.next() {
            match event {
                Event::Start(Tag::TableHead) => {
                    in_head = true;
                    out.push_str("<thead><tr>");
                }
                Event::End(TagEnd::TableHead) => {
                    in_head = false;
                    column = 0;
                    out.push_str("</tr></thead>\n<tbody>\n");
                }
                Event::Start(Tag::TableRow) => out.push_str("<tr>"),
                Event::End(TagEnd::TableRow) => {
                    column = 0;
                    out.push_str("</tr>\n");
                }
                Event::Start(Tag::TableCell) => {
                    let side = match alignments.get(column) {
                        Some(Alignment::Right) => " class=\"right\"",
                        Some(Alignment::Center) => " class=\"center\"",
                        _ => "",
                    };
                    let mut words = String::new();
                    self.inlines(&mut words)?;
                    // A head without words, as over a first column that needs none, is no head.
                    let (name, scope) = match (in_head && !words.is_empty(), column) {
                        (true, _) => ("th", " scope=\"col\""),
                        (false, 0) if !in_head => ("th", " scope=\"row\""),
                        (false, _) => ("td", ""),
                    };
                    let _ = write!(out, "<{name}{scope}{side}>{words}</{name}>");
                    column += 1;
                }
                _ => break,
            }
        }
        out.push_str("</tbody></table></div>\n");
        self.held = outer;
        self.flush(out)
    }
}
