//! The lists at a handbook's back: standing values, sources, terms, standing notices.

use super::{Link, Signal, Span, Spot};

/// A named figure or range that lessons, trees and forms refer to.
#[derive(Clone, Debug)]
pub struct StandingValue {
    /// The entry's key.
    pub at: Span,
    /// What it is, in plain words.
    pub is: String,
    /// Figure, range or words as written: `8 to 18 °F`, `10 or 2 o'clock`.
    pub value: Spot<String>,
    /// Name of its quantity, or `words`.
    pub quantity: Spot<String>,
    /// Key of its source.
    pub source: Spot<String>,
    /// A further sentence.
    pub note: Option<String>,
    /// Who set it, where it stands in place of a value of the handbook below.
    pub by: Option<Spot<String>>,
    /// Why it was set so.
    pub because: Option<String>,
    /// The value of the handbook below that it stands in place of.
    pub replaces: Option<Box<StandingValue>>,
}

/// What kind of thing a source is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum SourceKind {
    /// A published standard.
    Standard,
    /// A paper.
    Paper,
    /// A law or rule.
    Regulation,
    /// A data set or reference library.
    Dataset,
    /// What the trade does, written down nowhere that can be named.
    CommonPractice,
}

/// Something that figures and facts are taken from.
#[derive(Clone, Debug)]
pub struct Source {
    /// The entry's key.
    pub at: Span,
    /// Title with edition.
    pub title: String,
    /// What kind of source it is.
    pub kind: SourceKind,
    /// What is taken from it.
    pub taken: String,
    /// Taken from memory, not from the page.
    pub from_memory: bool,
}

/// A term of the glossary.
#[derive(Clone, Debug)]
pub struct Term {
    /// The entry's key.
    pub at: Span,
    /// What readers see it called: the author's `called:`, or the key with spaces for its hyphens.
    pub called: String,
    /// What it means: Markdown, a sentence or two.
    pub means: Spot<String>,
    /// Links in it.
    pub means_links: Vec<Link>,
    /// Other words for it, and what people type.
    pub also: Vec<String>,
    /// The lesson that teaches it.
    pub taught: Option<Spot<String>>,
}

/// A standing notice that lessons set under their head.
#[derive(Clone, Debug)]
pub struct Hazard {
    /// The entry's key.
    pub at: Span,
    /// Its signal word.
    pub signal: Signal,
    /// The hazard and what it does.
    pub hazard: String,
    /// How to avoid it.
    pub avoid: String,
}
