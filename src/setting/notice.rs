//! What a block quote is: a notice under one of the four signal words, a margin note, or plain words of someone else.

use crate::handbook::Signal;
use pulldown_cmark::{Event, Tag, TagEnd};
use std::ops::Range;

/// How a block quote opens.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Opening {
    /// A signal word; so many events open the quote, up to the words after it.
    Signal(Signal, usize),
    /// Some other words in bold.
    MarginNote,
    /// Neither.
    Extract,
}

/// Looks at the events after a quote's start.
pub(super) fn opening(events: &[(Event<'_>, Range<usize>)]) -> Opening {
    let event = |i: usize| events.get(i).map(|(event, _)| event);
    if !matches!((event(0), event(1)), (Some(Event::Start(Tag::Paragraph)), Some(Event::Start(Tag::Strong)))) {
        return Opening::Extract;
    }
    let (Some(Event::Text(word)), Some(Event::End(TagEnd::Strong))) = (event(2), event(3)) else {
        return Opening::MarginNote;
    };
    let word = word.trim_end_matches([':', '.']);
    let Some(signal) = Signal::ALL.into_iter().find(|signal| signal.word() == word) else {
        return Opening::MarginNote;
    };
    // The space between the signal word and the bold sentence goes too.
    let blank = match event(4) {
        Some(Event::Text(text)) => text.trim().is_empty(),
        Some(Event::SoftBreak | Event::HardBreak) => true,
        _ => false,
    };
    Opening::Signal(signal, if blank { 5 } else { 4 })
}

/// The name of a signal in the theme's classes.
pub(super) fn class(signal: Signal) -> &'static str {
    match signal {
        Signal::Danger => "danger",
        Signal::Warning => "warning",
        Signal::Caution => "caution",
        Signal::Notice => "notice",
    }
}
