//! Block quotes: a notice by its signal word, a margin note by its bold lead, an extract otherwise.

use super::Setter;
use crate::setting::{SettingError, block, notice};
use pulldown_cmark::{Event, Tag};
use std::fmt::Write;

impl Setter<'_> {
    pub(super) fn quote(&mut self, out: &mut String) -> Result<(), SettingError> {
        let outer = std::mem::replace(&mut self.held, true);
        let before = std::mem::take(&mut self.working);
        let opening = notice::opening(&self.events[self.at..]);
        let mut html = String::new();
        match opening {
            notice::Opening::Signal(signal, skip) => {
                // The paragraph's start stays; the signal word after it goes, for the panel says it.
                html.push_str("<p>");
                self.at += skip;
                self.bold_lead(&mut html)?;
                self.inlines(&mut html)?;
                html.push_str("</p>\n");
                self.blocks(&mut html)?;
                let working = self.working_html(outer)?;
                out.push_str(&block::notice(self.press, signal, &(html + &working), false)?);
            }
            notice::Opening::MarginNote => {
                html.push_str("<p>");
                self.at += 1;
                self.bold_lead(&mut html)?;
                self.inlines(&mut html)?;
                html.push_str("</p>\n");
                self.blocks(&mut html)?;
                let working = self.working_html(outer)?;
                out.push_str(&block::marginal(self.press, &html, &working)?);
            }
            notice::Opening::Extract => {
                self.blocks(&mut html)?;
                let working = self.working_html(outer)?;
                let _ = write!(out, "<blockquote class=\"extract\">\n{html}</blockquote>\n{working}");
            }
        }
        if outer {
            let inner = std::mem::replace(&mut self.working, before);
            inner.figures.iter().for_each(|figure| self.working.figure(figure));
        } else {
            self.working = before;
        }
        self.held = outer;
        Ok(())
    }

    fn working_html(&mut self, outer: bool) -> Result<String, SettingError> {
        if outer || self.working.figures.is_empty() {
            return Ok(String::new());
        }
        {
            let working = std::mem::take(&mut self.working);
            self.workings.set(self.press, &working)
        }
    }

    /// The bold words that a notice or a margin note opens with, where they come next.
    fn bold_lead(&mut self, out: &mut String) -> Result<(), SettingError> {
        if matches!(self.events.get(self.at), Some((Event::Start(Tag::Strong), _))) {
            self.at += 1;
            out.push_str("<b>");
            self.inlines(out)?;
            out.push_str("</b>");
        }
        Ok(())
    }
}
