//! A lesson: its head, its Markdown, and what in the Markdown is more than text: links, blocks, notices.

use super::{Block, Span, Spot};

/// A lesson as read.
#[derive(Clone, Debug, Default)]
pub struct Lesson {
    /// File name without `.md`; unique over the handbook.
    pub name: String,
    /// Name of the part whose folder it lies in.
    pub part: String,
    /// Title.
    pub title: Spot<String>,
    /// One sentence that says what the lesson is for.
    pub purpose: Option<Spot<String>>,
    /// Lessons to be read first.
    pub needs: Vec<Spot<String>>,
    /// Sets the reminder that the maker's instructions govern.
    pub maker_first: bool,
    /// Names of the standing notices set under the head.
    pub hazards: Vec<Spot<String>>,
    /// Further words under which the index and the find field list the lesson.
    pub index: Vec<String>,
    /// The Markdown after the head.
    pub body: Span,
    /// Links in the body, by place.
    pub links: Vec<Link>,
    /// Fenced blocks in the body, by place.
    pub blocks: Vec<Block>,
    /// Notices and margin notes in the body, by place.
    pub notices: Vec<NoticeBlock>,
    /// Headings in the body, by place.
    pub headings: Vec<Heading>,
}

/// A heading of the body.
#[derive(Clone, Debug)]
pub struct Heading {
    /// The whole heading.
    pub at: Span,
    /// 2 for a section.
    pub level: u8,
    /// Its words without markup.
    pub text: String,
}

/// What a link leads to, by its scheme.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Scheme {
    /// Another lesson.
    Lesson,
    /// A term of the glossary.
    Term,
    /// A computed table.
    Table,
    /// A diagnostic tree.
    Tree,
    /// A refrigerant's page.
    Refrigerant,
    /// A source.
    Source,
    /// A job sheet.
    Sheet,
    /// A problem set.
    Practice,
    /// A standing value, witnessed by the link's text.
    Value,
    /// A computation of the catalogue, witnessed by the link's text.
    Figure,
    /// A given figure, set in both systems of units.
    As,
    /// The page of a computation of the catalogue.
    Computation,
    /// An address on the network, or any scheme not ours.
    Outside,
}

/// The query of a `figure:` link: names and what is given for each, decoded, in the order written.
pub type Query = Vec<(Spot<String>, Spot<String>)>;

/// A link in a lesson, an example or a tree.
#[derive(Clone, Debug)]
pub struct Link {
    /// The whole link, from `[` to `)`.
    pub at: Span,
    /// Scheme of its destination.
    pub scheme: Scheme,
    /// What follows the scheme, up to the query.
    pub to: Spot<String>,
    /// The query, where the scheme has one.
    pub query: Query,
    /// The text between the brackets, without markup.
    pub text: Spot<String>,
}

/// One of the four signal words of ANSI Z535.6.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Signal {
    /// Death or serious injury will follow if it is not avoided.
    Danger,
    /// Death or serious injury could follow.
    Warning,
    /// Minor or moderate injury could follow.
    Caution,
    /// Damage, not injury.
    Notice,
}

impl Signal {
    /// The four, gravest first.
    pub const ALL: [Signal; 4] = [Signal::Danger, Signal::Warning, Signal::Caution, Signal::Notice];

    /// The word as it is printed.
    pub fn word(self) -> &'static str {
        match self {
            Signal::Danger => "DANGER",
            Signal::Warning => "WARNING",
            Signal::Caution => "CAUTION",
            Signal::Notice => "NOTICE",
        }
    }
}

/// A block quote that is a notice or a margin note.
#[derive(Clone, Copy, Debug)]
pub struct NoticeBlock {
    /// The whole block quote.
    pub at: Span,
    /// Its signal word; none for a margin note.
    pub signal: Option<Signal>,
}
