//! What reading and proofing have to say about a handbook: data, shown in whatever way the caller picks.

use super::Span;

/// How much a finding weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Weight {
    /// The handbook is not made while it stands.
    Error,
    /// The handbook is made; the author should look.
    Warning,
}

/// Another place that bears on a finding, and what to say of it.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Seen {
    /// The place.
    pub at: Span,
    /// What it has to do with the finding.
    pub says: String,
}

/// One thing found wrong, or worth a look.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Finding {
    /// Bytes in the author's file; findings sort by file, then place, then name.
    pub at: Span,
    /// Lasting, searchable name, like `figure-disagrees`.
    pub name: &'static str,
    /// Error or warning.
    pub weight: Weight,
    /// What is wrong, in the author's words; small first letter, no full stop.
    pub says: String,
    /// What to write at the marked place itself.
    pub label: String,
    /// How the press came to it: the sum it did, the path it walked.
    pub found: Vec<String>,
    /// Other places that bear on it.
    pub seen: Vec<Seen>,
    /// What would be right, where that is known.
    pub instead: Option<String>,
}

impl Finding {
    /// An error named `name` at `at`.
    pub fn error(name: &'static str, at: Span, says: impl Into<String>) -> Self {
        Self {
            at,
            name,
            weight: Weight::Error,
            says: says.into(),
            label: String::new(),
            found: Vec::new(),
            seen: Vec::new(),
            instead: None,
        }
    }

    /// A warning named `name` at `at`.
    pub fn warning(name: &'static str, at: Span, says: impl Into<String>) -> Self {
        Self { weight: Weight::Warning, ..Self::error(name, at, says) }
    }

    /// With words at the marked place.
    pub fn label(mut self, label: impl Into<String>) -> Self {
        self.label = label.into();
        self
    }

    /// With a line that says how it was found.
    pub fn found(mut self, how: impl Into<String>) -> Self {
        self.found.push(how.into());
        self
    }

    /// With another place that bears on it.
    pub fn seen(mut self, at: Span, says: impl Into<String>) -> Self {
        self.seen.push(Seen { at, says: says.into() });
        self
    }

    /// With what would be right.
    pub fn instead(mut self, instead: impl Into<String>) -> Self {
        self.instead = Some(instead.into());
        self
    }

    /// With what would be right, where that is known.
    pub fn perhaps(mut self, instead: Option<String>) -> Self {
        self.instead = instead;
        self
    }
}
