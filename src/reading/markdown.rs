//! What in a piece of Markdown is more than text: links, fenced blocks, block quotes that are notices, headings.

use super::link;
use crate::handbook::{Heading, Link, NoticeBlock, Signal, Span, Spot};
use pulldown_cmark::{CodeBlockKind, Event, HeadingLevel, Options, Parser, Tag, TagEnd};
use std::ops::Range;

/// The Markdown a handbook is written in: CommonMark with tables.
pub fn options() -> Options {
    Options::ENABLE_TABLES
}

/// A fenced block before anyone has looked into it.
#[derive(Debug)]
pub(super) struct Fence {
    /// From the opening fence to the closing one.
    pub(super) at: Span,
    /// The info string.
    pub(super) info: String,
    /// What stands between the fences.
    pub(super) inner: Span,
}

/// What [`scan`] finds, each in the order of its place.
#[derive(Debug, Default)]
pub(super) struct Scanned {
    pub(super) links: Vec<Link>,
    pub(super) fences: Vec<Fence>,
    pub(super) notices: Vec<NoticeBlock>,
    pub(super) headings: Vec<Heading>,
    /// Pictures: the whole, and its address.
    pub(super) pictures: Vec<(Span, String)>,
}

/// A link whose end has not been reached.
struct OpenLink {
    whole: Range<usize>,
    destination: String,
    words: String,
    inner: Option<Range<usize>>,
}

/// Goes through `text`, which stands at `at`.
pub(super) fn scan(text: &str, at: Span) -> Scanned {
    let mut scanned = Scanned::default();
    let mut open_link: Option<OpenLink> = None;
    let mut open_heading: Option<(Range<usize>, u8, String)> = None;
    let mut open_fence: Option<Fence> = None;
    let mut quote_depth = 0usize;
    for (event, range) in Parser::new_ext(text, options()).into_offset_iter() {
        match event {
            Event::Start(Tag::Link { dest_url, .. }) => {
                open_link = Some(OpenLink {
                    whole: range,
                    destination: dest_url.to_string(),
                    words: String::new(),
                    inner: None,
                });
            }
            Event::End(TagEnd::Link) => {
                scanned.links.extend(open_link.take().map(|link| place_link(text, at, link)));
            }
            Event::Start(Tag::Image { dest_url, .. }) => {
                scanned.pictures.push((at.within(range.start, range.end), dest_url.to_string()));
            }
            Event::Start(Tag::Heading { level, .. }) => {
                open_heading = Some((range, heading_level(level), String::new()));
            }
            Event::End(TagEnd::Heading(_)) => {
                if let Some((range, level, words)) = open_heading.take() {
                    let end = range.start + text[range.clone()].trim_end().len();
                    scanned.headings.push(Heading { at: at.within(range.start, end), level, text: words });
                }
            }
            Event::Start(Tag::CodeBlock(CodeBlockKind::Fenced(info))) => {
                let after_fence = text[range.clone()].find('\n').map_or(range.end, |i| range.start + i + 1);
                open_fence = Some(Fence {
                    at: at.within(range.start, range.end),
                    info: info.to_string(),
                    inner: at.within(after_fence, after_fence),
                });
            }
            Event::End(TagEnd::CodeBlock) => scanned.fences.extend(open_fence.take()),
            Event::Start(Tag::BlockQuote(_)) => {
                if quote_depth == 0 {
                    let end = range.start + text[range.clone()].trim_end().len();
                    let signal = signal_word(&text[range.clone()]);
                    scanned.notices.push(NoticeBlock { at: at.within(range.start, end), signal });
                }
                quote_depth += 1;
            }
            Event::End(TagEnd::BlockQuote(_)) => quote_depth = quote_depth.saturating_sub(1),
            Event::Text(words) | Event::Code(words) => {
                if let Some(fence) = &mut open_fence {
                    fence.inner.end = at.start + range.end;
                }
                if let Some(link) = &mut open_link {
                    link.words.push_str(&words);
                    extend(&mut link.inner, &range);
                }
                if let Some((_, _, so_far)) = &mut open_heading {
                    so_far.push_str(&words);
                }
                if open_fence.is_none()
                    && let Some(torn) = link::torn(text, range.start)
                {
                    let at = at.within(torn.start, torn.end);
                    scanned.links.push(link::torn_link(&text[torn], at));
                }
            }
            Event::SoftBreak | Event::HardBreak => {
                if let Some(link) = &mut open_link {
                    link.words.push(' ');
                }
            }
            _ => {}
        }
    }
    scanned
}

fn extend(inner: &mut Option<Range<usize>>, range: &Range<usize>) {
    match inner {
        Some(r) => r.end = range.end,
        None => *inner = Some(range.clone()),
    }
}

fn place_link(text: &str, at: Span, OpenLink { whole, destination, words, inner }: OpenLink) -> Link {
    let inner = inner.unwrap_or(whole.start..whole.start);
    let source = &text[whole.clone()];
    // `[text](destination)`; a link written in another way is marked as a whole.
    let to = source
        .rfind(&destination)
        .filter(|_| !destination.is_empty())
        .map_or(whole.clone(), |i| whole.start + i..whole.start + i + destination.len());
    link::link(
        at.within(whole.start, whole.end),
        Spot::new(words, at.within(inner.start, inner.end)),
        &destination,
        at.within(to.start, to.end),
    )
}

fn heading_level(level: HeadingLevel) -> u8 {
    match level {
        HeadingLevel::H1 => 1,
        HeadingLevel::H2 => 2,
        HeadingLevel::H3 => 3,
        HeadingLevel::H4 => 4,
        HeadingLevel::H5 => 5,
        HeadingLevel::H6 => 6,
    }
}

/// The signal word a block quote opens with, where it opens with one in bold.
fn signal_word(quote: &str) -> Option<Signal> {
    let opening = quote.trim_start_matches(['>', ' ']);
    Signal::ALL.into_iter().find(|signal| {
        opening
            .strip_prefix("**")
            .and_then(|rest| rest.strip_prefix(signal.word()))
            .is_some_and(|rest| rest.trim_start_matches([':', '.']).starts_with("**"))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn scan_all(text: &str) -> Scanned {
        scan(text, Span { end: text.len(), ..Span::default() })
    }

    #[test]
    fn a_fence_knows_what_is_in_it() {
        let text = "before\n\n```worked-example\ntitle: a\ngiven: b\n```\n\nafter\n";
        let scanned = scan_all(text);
        assert_eq!(scanned.fences[0].info, "worked-example");
        let inner = scanned.fences[0].inner;
        assert_eq!(&text[inner.start..inner.end], "title: a\ngiven: b\n");
    }

    #[test]
    fn an_empty_fence_is_empty() {
        let scanned = scan_all("```tree\n```\n");
        assert_eq!(scanned.fences[0].inner.start, scanned.fences[0].inner.end);
    }

    #[test]
    fn signal_words_are_told_from_margin_notes() {
        let scanned = scan_all("> **CAUTION** Hot.\n\n> **Cautious men** live.\n");
        assert_eq!(scanned.notices[0].signal, Some(Signal::Caution));
        assert_eq!(scanned.notices[1].signal, None);
    }
}
