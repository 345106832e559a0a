//! A lesson: its head, its Markdown, and what in the Markdown is more than text: links, blocks, notices.

use super::{Span, Spot};

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
    /// A standing value, witnessed by the link's text.
    Value,
    /// A computation of the catalogue, witnessed by the link's text.
    Figure,
    /// A given figure, set in both systems of units.
    As,
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

/// A fenced block.
#[derive(Clone, Debug)]
pub struct Block {
    /// From the opening fence to the end of the closing one.
    pub at: Span,
    /// What it holds.
    pub kind: BlockKind,
}

/// What a fenced block holds.
#[derive(Clone, Debug)]
pub enum BlockKind {
    /// Pressure against temperature.
    SaturationTable(SaturationTable),
    /// A worked example.
    Example(Example),
    /// A tree set in place.
    Tree(TreeBlock),
    /// Code, to be highlighted.
    Code(CodeBlock),
    /// A block of ours that could not be read; a finding says why.
    Unread,
}

/// Code of some language.
#[derive(Clone, Debug)]
pub struct CodeBlock {
    /// The info string's first word; may be empty.
    pub language: String,
    /// The code.
    pub text: String,
}

/// A `saturation-table` block.
#[derive(Clone, Debug)]
pub struct SaturationTable {
    /// Name that `table:` links use.
    pub name: String,
    /// Designation of the refrigerant.
    pub refrigerant: Spot<String>,
    /// First temperature, as written.
    pub from: Spot<String>,
    /// Last temperature, as written.
    pub to: Spot<String>,
    /// Step, as written.
    pub step: Spot<String>,
}

/// A `tree` block: a tree set in place.
#[derive(Clone, Debug)]
pub struct TreeBlock {
    /// Name of the tree.
    pub tree: Spot<String>,
}

/// A line of an example's `given:`.
#[derive(Clone, Debug)]
pub struct GivenLine {
    /// What is given: `suction pressure`.
    pub name: Spot<String>,
    /// The figure or name as written: `118 psig`, `R-410A`.
    pub value: Spot<String>,
}

/// A step of a worked example.
#[derive(Clone, Debug)]
pub struct ExampleStep {
    /// Name of a computation.
    pub find: Spot<String>,
    /// Inputs by name, each the name of something given or found above.
    pub of: Vec<(Spot<String>, Spot<String>)>,
    /// The author's answer, or `?`.
    pub answer: Spot<String>,
    /// What the answer is called from here on.
    pub named: Option<Spot<String>>,
    /// Tolerance, where half a unit of the last digit will not do.
    pub within: Option<Spot<String>>,
}

/// A worked example.
#[derive(Clone, Debug)]
pub struct Example {
    /// Title.
    pub title: Spot<String>,
    /// What is given, in the author's order.
    pub given: Vec<GivenLine>,
    /// Steps in order.
    pub steps: Vec<ExampleStep>,
    /// What follows from it: Markdown, one line.
    pub so: Option<Spot<String>>,
    /// Links of `so`.
    pub so_links: Vec<Link>,
}
