//! Links: figures and standing values as they were reckoned, references as the address of what they lead to.

use super::{Links, Setter};
use crate::handbook::{Link, Scheme};
use crate::setting::register::{Target, value_address};
use crate::setting::working::StandingLine;
use crate::setting::{SettingError, address, print};
use std::fmt::Write;
use std::ops::Range;

impl<'a> Setter<'a> {
    fn next_link(&mut self, range: &Range<usize>) -> Option<&'a Link> {
        match &mut self.links {
            Links::ByPlace { base, links } => links.iter().find(|link| link.at.start == *base + range.start),
            Links::InOrder { links, next } => {
                *next += 1;
                links.get(*next - 1)
            }
        }
    }

    pub(super) fn link(
        &mut self,
        destination: &str,
        range: &Range<usize>,
        out: &mut String,
    ) -> Result<(), SettingError> {
        let read = self.next_link(range);
        let mut text = String::new();
        self.inlines(&mut text)?;
        let Some(link) = read else {
            out.push_str(&text);
            return Ok(());
        };
        match link.scheme {
            Scheme::Figure => match self.press.figures.figures.get(&link.at) {
                Some(figure) => {
                    out.push_str(&figure.answer.html("reckoned"));
                    self.working.figure(figure);
                }
                None => out.push_str(&unproved(&text)),
            },
            Scheme::As => match self.press.figures.given.get(&link.at) {
                Some(both) => out.push_str(&both.html("")),
                None => out.push_str(&unproved(&text)),
            },
            Scheme::Value => self.standing_value(link, &text, out),
            Scheme::Outside => {
                // Only what a reader's program may follow without harm; a handbook asks the network for nothing itself.
                if ["https://", "http://", "mailto:", "tel:"].iter().any(|safe| destination.starts_with(safe)) {
                    let _ = write!(
                        out,
                        "<a class=\"outside\" rel=\"noreferrer\" href=\"{}\">{text}</a>",
                        print::escape(destination)
                    );
                } else {
                    out.push_str(&text);
                }
            }
            _ => self.reference(link, &text, out),
        }
        Ok(())
    }

    fn reference(&mut self, link: &Link, text: &str, out: &mut String) {
        let target = Target::of(link);
        let address = target.as_ref().and_then(|target| self.press.register.address(target, self.press.book));
        let (Some(target), Some(address)) = (target, address) else {
            out.push_str(&unproved(text));
            return;
        };
        let href = address::href(self.page, &address);
        let leaf = self.press.register.label(&target).filter(|_| !address.starts_with(self.page));
        let leaf = leaf.map_or_else(String::new, |label| format!(" data-leaf=\"{label}\""));
        let class = if matches!(target, Target::Term(_)) { " class=\"term\"" } else { "" };
        let _ = write!(out, "<a{class} href=\"{href}\"{leaf}>{text}</a>");
    }

    fn standing_value(&mut self, link: &Link, text: &str, out: &mut String) {
        let name = &link.to.value;
        let (Some(both), Some(value)) = (self.press.figures.values.get(name), self.press.book.values.get(name)) else {
            out.push_str(&unproved(text));
            return;
        };
        let href = address::href(self.page, &value_address(name));
        let _ = write!(out, "<a class=\"standing\" href=\"{href}\">{}</a>", both.html(""));
        if let Some(mark) = self.press.own_mark(name) {
            let _ = write!(out, " <small class=\"own\">({})</small>", mark.html(""));
        }
        let source = self.press.source_line(&value.source.value);
        let own = self.press.own_word(name);
        self.working.standing(StandingLine { value: both.clone(), is: value.is.clone(), source, href, own });
    }
}

/// A figure or link that proofing found no answer for, as the author wrote it. A bound handbook has none: it is what the
/// author's desk shows until the finding is mended.
fn unproved(text: &str) -> String {
    format!("<span class=\"unproved\">{text}</span>")
}
