//! What runs in a line. Its words are kept for Find, under the section they stand in.

use super::Setter;
use crate::setting::{SettingError, print};
use pulldown_cmark::{Event, Tag};
use std::fmt::Write;
use std::ops::Range;

impl<'a> Setter<'a> {
    /// Sets what runs in a line, up to the end of what holds it.
    pub(super) fn inlines(&mut self, out: &mut String) -> Result<(), SettingError> {
        while let Some((event, range)) = self.next() {
            if matches!(event, Event::End(_)) {
                return Ok(());
            }
            self.inline(event, &range, out)?;
        }
        Ok(())
    }

    pub(super) fn inline(
        &mut self,
        event: Event<'a>,
        range: &Range<usize>,
        out: &mut String,
    ) -> Result<(), SettingError> {
        match event {
            Event::Text(words) => {
                self.keep_words(&words);
                out.push_str(&print::print(&words));
            }
            Event::Html(words) | Event::InlineHtml(words) => out.push_str(&print::escape(&words)),
            Event::Code(words) => {
                self.keep_words(&words);
                let _ = write!(out, "<code>{}</code>", print::escape(&words));
            }
            Event::SoftBreak => {
                self.keep_words(" ");
                out.push('\n');
            }
            Event::HardBreak => {
                self.keep_words(" ");
                out.push_str("<br>\n");
            }
            Event::Start(Tag::Emphasis) => {
                let mut html = String::new();
                self.inlines(&mut html)?;
                let unsourced = &self.press.theme.words.common_practice;
                if self.held && html.trim_end_matches('.') == unsourced.trim_end_matches('.') {
                    let _ = write!(out, "<span class=\"caps\">{html}</span>");
                } else {
                    let _ = write!(out, "<em>{html}</em>");
                }
            }
            Event::Start(Tag::Strong) => {
                out.push_str("<strong>");
                self.inlines(out)?;
                out.push_str("</strong>");
            }
            Event::Start(Tag::Link { dest_url, .. }) => self.link(&dest_url, range, out)?,
            Event::Start(Tag::Image { .. }) => {
                // Pictures stand in plates; where one does not, the words that stand for it are what a reader gets.
                out.push_str("<em>");
                self.inlines(out)?;
                out.push_str("</em>");
            }
            Event::Start(tag) => self.block(tag, range.clone(), out)?,
            _ => {}
        }
        Ok(())
    }

    fn keep_words(&mut self, words: &str) {
        let kept = self.sections.last_mut().map_or(&mut self.opening, |section| &mut section.words);
        kept.push_str(words);
        kept.push(' ');
    }
}
