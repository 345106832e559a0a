//! Markdown into HTML in the handbook's components.
//!
//! Takes the text of a lesson, or a line of an example, a tree or a term, with its links as they were read; gives HTML.
//! Raw HTML is never passed through: it is escaped and reads as it was typed.

use super::address;
use super::beside::Waiting;
use super::block;
use super::computed;
use super::drawing;
use super::notice;
use super::plate;
use super::press::Press;
use super::print;
use super::problem;
use super::register::Target;
use super::working::{StandingLine, Working, Workings};
use super::{SettingError, code, form};
use crate::handbook::{Block, BlockKind, Lesson, Link, Scheme};
use pulldown_cmark::{
    Alignment, CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd, TextMergeWithOffset,
};
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

    fn quote(&mut self, out: &mut String) -> Result<(), SettingError> {
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

    fn fence(&mut self, kind: &CodeBlockKind<'_>, range: &Range<usize>, out: &mut String) -> Result<(), SettingError> {
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

    fn list(&mut self, start: Option<u64>, out: &mut String) -> Result<(), SettingError> {
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

    fn table(&mut self, alignments: &[Alignment], out: &mut String) -> Result<(), SettingError> {
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

    /// Sets what runs in a line, up to the end of what holds it.
    fn inlines(&mut self, out: &mut String) -> Result<(), SettingError> {
        while let Some((event, range)) = self.next() {
            if matches!(event, Event::End(_)) {
                return Ok(());
            }
            self.inline(event, &range, out)?;
        }
        Ok(())
    }

    fn inline(&mut self, event: Event<'a>, range: &Range<usize>, out: &mut String) -> Result<(), SettingError> {
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

    fn next_link(&mut self, range: &Range<usize>) -> Option<&'a Link> {
        match &mut self.links {
            Links::ByPlace { base, links } => links.iter().find(|link| link.at.start == *base + range.start),
            Links::InOrder { links, next } => {
                *next += 1;
                links.get(*next - 1)
            }
        }
    }

    fn link(&mut self, destination: &str, range: &Range<usize>, out: &mut String) -> Result<(), SettingError> {
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
        let href = address::href(self.page, &super::register::value_address(name));
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
