//! Fenced blocks: tables, examples, problems, forms, plates, trees set in place, and code.

use super::{Link, Span, Spot};

/// A fenced block.
#[derive(Clone, Debug)]
pub struct Block {
    /// From the opening fence to the end of the closing one.
    pub at: Span,
    /// What it holds.
    pub kind: BlockKind,
}

impl Block {
    /// The name that `table:` links use, where it is a table.
    pub fn table_name(&self) -> Option<&str> {
        match &self.kind {
            BlockKind::SaturationTable(table) => Some(&table.name),
            BlockKind::ComputedTable(table) => Some(&table.name.value),
            _ => None,
        }
    }
}

/// What a fenced block holds.
#[derive(Clone, Debug)]
pub enum BlockKind {
    /// Pressure against temperature.
    SaturationTable(SaturationTable),
    /// A worked example.
    Example(Example),
    /// Any computation of the catalogue over one or two inputs.
    ComputedTable(ComputedTable),
    /// A form in the page for one computation.
    Form(Form),
    /// A problem with numbers drawn from ranges.
    Practice(Problem),
    /// A drawing with a key to its parts.
    Plate(Plate),
    /// A drawing made from readings.
    Drawing(Drawing),
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
    /// What is shown beside pressures: `enthalpy`, `volume`.
    pub also: Vec<Spot<String>>,
    /// What enthalpy and entropy are counted from, where not what the handbook says.
    pub counted_from: Option<Spot<String>>,
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

/// What an input is taken from: one figure, a choice, or a stretch in even steps.
#[derive(Clone, Debug)]
pub enum Supply {
    /// One figure or name.
    One(Spot<String>),
    /// One of several figures or names.
    Choice(Vec<Spot<String>>),
    /// Figures in even steps, as written: `15 to 30 psig by 1 psig`.
    Stretch(Spot<String>),
}

/// A named input and what it is taken from.
#[derive(Clone, Debug)]
pub struct Supplied {
    /// Name of the input.
    pub name: Spot<String>,
    /// What it is taken from.
    pub supply: Supply,
}

/// A `computed-table` block.
#[derive(Clone, Debug)]
pub struct ComputedTable {
    /// Name that `table:` links use.
    pub name: Spot<String>,
    /// Title.
    pub title: Spot<String>,
    /// Name of the computation.
    pub find: Spot<String>,
    /// Inputs that are the same in every cell.
    pub given: Vec<GivenLine>,
    /// The input that goes down the table, a row for each of its figures.
    pub down: Supplied,
    /// The input that goes across it, a column for each.
    pub across: Option<Supplied>,
    /// Decimals of the answer, where not the computation's own.
    pub decimals: Option<u8>,
    /// A sentence under the table: Markdown.
    pub note: Option<Spot<String>>,
    /// Links in it.
    pub note_links: Vec<Link>,
}

/// A `work-it-out` block: a form for one computation.
#[derive(Clone, Debug)]
pub struct Form {
    /// Name of the computation.
    pub find: Spot<String>,
    /// The case it shows worked.
    pub given: Vec<GivenLine>,
    /// A standing value the answer is held against.
    pub looked_for: Option<Spot<String>>,
}

/// A step of a problem's working.
#[derive(Clone, Debug)]
pub struct ProblemStep {
    /// Name of a computation.
    pub find: Spot<String>,
    /// Inputs by name, each the name of something drawn or found above.
    pub of: Vec<(Spot<String>, Spot<String>)>,
    /// What the answer is called from here on.
    pub named: Option<Spot<String>>,
}

/// A problem whose numbers are drawn from ranges and whose key is computed.
#[derive(Clone, Debug)]
pub struct Problem {
    /// Where it stands.
    pub at: Span,
    /// Name, unique over the handbook.
    pub name: Spot<String>,
    /// Title.
    pub title: Spot<String>,
    /// What its numbers are drawn from, in the author's order.
    pub from: Vec<Supplied>,
    /// The question; `{suction pressure}` stands for what was drawn.
    pub ask: Spot<String>,
    /// Steps to the answer; the last one is asked for.
    pub steps: Vec<ProblemStep>,
    /// Draws whose answer lies outside are drawn again: a range as written.
    pub keep: Option<Spot<String>>,
    /// How near the reader's answer must come, as written.
    pub within: Option<Spot<String>>,
    /// What is said with the key: Markdown.
    pub say: Option<Spot<String>>,
    /// Links in it.
    pub say_links: Vec<Link>,
}

/// A `plate` block: a drawing with a key to its parts.
#[derive(Clone, Debug)]
pub struct Plate {
    /// Path of the picture below the handbook's folder.
    pub picture: Spot<String>,
    /// Title.
    pub title: Spot<String>,
    /// Letters in the drawing and what they stand for.
    pub key: Vec<(Spot<String>, Spot<String>)>,
    /// What the picture shows, in words.
    pub say: Spot<String>,
}

/// A `drawing` block: a drawing made from readings.
#[derive(Clone, Debug)]
pub struct Drawing {
    /// What is drawn: `three-forces`.
    pub kind: Spot<String>,
    /// Title.
    pub title: Spot<String>,
    /// What it is drawn from, in the author's order.
    pub given: Vec<Supplied>,
    /// What there are several of: points, lines or readings.
    pub lists: Vec<DrawingList>,
    /// What it shows, in words, where the author has better ones than the press.
    pub say: Option<Spot<String>>,
}

/// Several of one thing in a drawing.
#[derive(Clone, Debug)]
pub struct DrawingList {
    /// What they are: `points`.
    pub name: Spot<String>,
    /// Each with what is given of it, and where it stands.
    pub items: Vec<(Span, Vec<Supplied>)>,
}
