//! Markdown into HTML in the handbook's components.
//!
//! Takes the text of a lesson, or a line of an example, a tree or a term, with its links as they were read; gives HTML.
//! Raw HTML is never passed through: it is escaped and reads as it was typed.

mod fence;
mod inline;
mod link;
mod quote;
mod rows;

use super::SettingError;
use super::address;
use super::beside::Waiting;
use super::press::Press;
use super::print;
use super::problem;
use super::working::{Working, Workings};
use crate::handbook::{Lesson, Link};
use pulldown_cmark::{Event, HeadingLevel, Options, Parser, Tag, TagEnd, TextMergeWithOffset};
use serde::Serialize;
use std::collections::BTreeSet;
use std::fmt::Write;
use std::ops::Range;

/// A section of a lesson.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct Section {
    /// From 1.
    pub(super) number: usize,
    pub(super) anchor: String,
    pub(super) title: String,
    /// Its words, for Find.
    pub(super) words: String,
}

/// A lesson's text, set.
#[derive(Debug, Default)]
pub(super) struct SetText {
    pub(super) html: String,
    /// Words before the first section.
    pub(super) opening: String,
    pub(super) sections: Vec<Section>,
}

/// The Markdown of a handbook with the printer's quotation marks and dashes.
fn options() -> Options {
    crate::reading::markdown_options() | Options::ENABLE_SMART_PUNCTUATION
}

/// Sets the body of a lesson.
pub(super) fn set_lesson(press: &Press<'_>, lesson: &Lesson) -> Result<SetText, SettingError> {
    let page = address::lesson(&lesson.name);
    let text = press.book.files.text(lesson.body);
    let mut setter = Setter::new(press, &page, text, Links::ByPlace { base: lesson.body.start, links: &lesson.links });
    setter.blocks_of = Some((lesson, lesson.body.start));
    setter.waiting = Waiting::of(press.beside, lesson.body.file);
    let mut html = String::new();
    setter.blocks(&mut html)?;
    html.push_str(&problem::keys(press, 2, &setter.keys)?);
    Ok(SetText { html, opening: setter.opening, sections: setter.sections })
}

/// Sets a text that stands in a line of its own: no paragraph around it where it is a single one. Its links are
/// `links`, in order; figures in it go into `working`.
pub(super) fn set_line(
    press: &Press<'_>,
    page: &str,
    text: &str,
    links: &[Link],
    working: &mut Working,
) -> Result<String, SettingError> {
    let mut setter = Setter::new(press, page, text, Links::InOrder { links, next: 0 });
    setter.working = std::mem::take(working);
    setter.held = true;
    let mut html = String::new();
    setter.blocks(&mut html)?;
    *working = setter.working;
    let whole = html.strip_prefix("<p>").and_then(|rest| rest.strip_suffix("</p>\n"));
    Ok(whole.filter(|inner| !inner.contains("<p>")).map_or_else(|| html.clone(), str::to_owned))
}

/// The words of a text without markup.
pub(super) fn plain(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for event in Parser::new_ext(text, options()) {
        match event {
            Event::Text(words) | Event::Code(words) => out.push_str(&words),
            Event::SoftBreak | Event::HardBreak | Event::End(TagEnd::Paragraph) => out.push(' '),
            _ => {}
        }
    }
    out.trim_end().to_owned()
}

/// How the links of a text are found again: in a file by their place; in a line that may have been quoted or folded in
/// YAML, by their order.
enum Links<'a> {
    ByPlace { base: usize, links: &'a [Link] },
    InOrder { links: &'a [Link], next: usize },
}

struct Setter<'a> {
    press: &'a Press<'a>,
    page: &'a str,
    events: Vec<(Event<'a>, Range<usize>)>,
    at: usize,
    links: Links<'a>,
    blocks_of: Option<(&'a Lesson, usize)>,
    /// Figures since the last working was set.
    working: Working,
    workings: Workings<'a>,
    /// Keys to the problems set so far.
    keys: Vec<problem::Key>,
    /// Forms set so far.
    forms: usize,
    /// Inside a block whose working is set after the whole: a quote, a list, a table, a line.
    held: bool,
    sections: Vec<Section>,
    opening: String,
    anchors: BTreeSet<String>,
    /// What stands beside places of the text and has not been put down yet.
    waiting: Waiting<'a>,
}

impl<'a> Setter<'a> {
    fn new(press: &'a Press<'a>, page: &'a str, text: &'a str, links: Links<'a>) -> Self {
        let events = TextMergeWithOffset::new(Parser::new_ext(text, options()).into_offset_iter()).collect();
        Self {
            press,
            page,
            events,
            at: 0,
            links,
            blocks_of: None,
            working: Working::default(),
            workings: Workings::on(page),
            keys: Vec::new(),
            forms: 0,
            held: false,
            sections: Vec::new(),
            opening: String::new(),
            anchors: BTreeSet::new(),
            waiting: Waiting::default(),
        }
    }

    fn next(&mut self) -> Option<(Event<'a>, Range<usize>)> {
        let event = self.events.get(self.at).cloned();
        self.at += 1;
        event
    }

    /// Sets blocks up to the end of what holds them.
    fn blocks(&mut self, out: &mut String) -> Result<(), SettingError> {
        while let Some((event, range)) = self.next() {
            match event {
                Event::End(_) => return Ok(()),
                Event::Start(tag) => {
                    let in_line = matches!(tag, Tag::Emphasis | Tag::Strong | Tag::Link { .. } | Tag::Image { .. });
                    self.block(tag, range.clone(), out)?;
                    if let Some((_, base)) = self.blocks_of.filter(|_| !in_line) {
                        self.waiting.put(base + range.start..base + range.end, out);
                    }
                }
                Event::Rule => out.push_str("<hr>\n"),
                other => {
                    // A tight list item holds its words without a paragraph.
                    self.inline(other, &range, out)?;
                }
            }
        }
        Ok(())
    }

    fn block(&mut self, tag: Tag<'a>, range: Range<usize>, out: &mut String) -> Result<(), SettingError> {
        match tag {
            Tag::Paragraph => {
                out.push_str("<p>");
                self.inlines(out)?;
                out.push_str("</p>\n");
                self.flush(out)
            }
            Tag::Heading { level, .. } => self.heading(level, out),
            Tag::BlockQuote(_) => self.quote(out),
            Tag::CodeBlock(kind) => self.fence(&kind, &range, out),
            Tag::HtmlBlock => {
                out.push_str("<p>");
                self.inlines(out)?;
                out.push_str("</p>\n");
                Ok(())
            }
            Tag::List(start) => self.list(start, out),
            Tag::Table(alignments) => self.table(&alignments, out),
            Tag::Emphasis | Tag::Strong | Tag::Link { .. } | Tag::Image { .. } => {
                self.inline(Event::Start(tag), &range, out)
            }
            // Nothing else is switched on in the options; its words are kept all the same.
            _ => self.blocks(out),
        }
    }

    /// Sets the working of the figures since the last one, unless an outer block will.
    fn flush(&mut self, out: &mut String) -> Result<(), SettingError> {
        if self.held || self.working.figures.is_empty() {
            if !self.held {
                self.working = Working::default();
            }
            return Ok(());
        }
        let working = std::mem::take(&mut self.working);
        out.push_str(&self.workings.set(self.press, &working)?);
        Ok(())
    }

    fn heading(&mut self, level: HeadingLevel, out: &mut String) -> Result<(), SettingError> {
        let mut html = String::new();
        let from = self.at;
        self.inlines(&mut html)?;
        let title: String = self.events[from..self.at]
            .iter()
            .filter_map(|(event, _)| match event {
                Event::Text(words) | Event::Code(words) => Some(words.as_ref()),
                Event::SoftBreak | Event::HardBreak => Some(" "),
                _ => None,
            })
            .collect();
        let base = print::anchor(&title);
        let mut anchor = base.clone();
        let mut turn = 2;
        while anchor.is_empty() || !self.anchors.insert(anchor.clone()) {
            anchor = format!("{base}-{turn}");
            turn += 1;
        }
        // Section headings are the second level; what an author marks with a single # is one all the same, since the
        // first level is the lesson's title.
        if level <= HeadingLevel::H2 {
            let number = self.sections.len() + 1;
            let _ = writeln!(
                out,
                "<h2 id=\"{anchor}\"><span class=\"sec\">{number}<span class=\"say\">. </span></span>{html}</h2>"
            );
            self.sections.push(Section { number, anchor, title, words: String::new() });
        } else {
            let _ = writeln!(out, "<h3 id=\"{anchor}\">{html}</h3>");
        }
        Ok(())
    }
}
