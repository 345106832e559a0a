//! A handbook and those it builds on, the author's own first: which folders they lie in, and which of their files are read.
//!
//! A file of the upper handbook stands in place of one of the same path below; a lesson, of one of the same name, since
//! links go by it and a house may keep it in another part. Lists and the front are not replaced but laid over, entry by entry.

use crate::handbook::{FileId, Finding, Span, Spot};

/// One handbook of a pile.
#[derive(Clone, Debug, Default)]
pub struct Layer {
    /// The way to its folder from the author's, `../school/`; empty for the author's own.
    pub folder: String,
    /// Path below the folder and text of each of its files, in the order of their paths.
    pub texts: Vec<(String, String)>,
    /// Path and bytes of each of its pictures that are made of dots; no bytes where no page can show such a file.
    pub rasters: Vec<(String, Vec<u8>)>,
    /// Why the handbook that it says it builds on is not the next in the pile.
    pub(super) broken: Option<Broken>,
}

/// `builds-on:` leads to no handbook.
#[derive(Clone, Debug)]
pub(super) enum Broken {
    /// There is none.
    NotThere(Spot<String>),
    /// It is this one, or one that builds on this one.
    InACircle(Spot<String>),
}

impl Layer {
    /// The author's own files, with nothing below them.
    pub fn own(texts: Vec<(String, String)>) -> Self {
        Self { texts, ..Self::default() }
    }

    /// The finding for a `builds-on:` that leads nowhere. Its place is in this layer's front, the file `front`.
    pub(super) fn finding(&self, front: FileId) -> Option<Finding> {
        let (to, says, instead) = match self.broken.as_ref()? {
            Broken::NotThere(to) => (
                to,
                format!("there is no handbook in `{}` to build on", to.value),
                "name the folder that has the other handbook's `handbook.yaml`, as seen from this one",
            ),
            Broken::InACircle(to) => (
                to,
                format!("`{}` is this handbook itself, or builds on it", to.value),
                "of two handbooks only one can build on the other",
            ),
        };
        let at = Span { file: front, ..to.at };
        Some(Finding::error("nothing-to-build-on", at, says).instead(instead))
    }
}

/// The front of a handbook, in its folder.
pub(super) const FRONT: &str = "handbook.yaml";

/// What a file stands for: two files of one handbook pile with the same name here stand in each other's place.
pub(super) fn stands_for(path: &str) -> &str {
    match path.strip_prefix("lessons/").and_then(|below| below.rsplit_once('/')) {
        Some((_, name)) => name,
        None => path,
    }
}

/// Whether what stands in a file is laid over the same file below, entry by entry.
pub(super) fn laid_over(path: &str) -> bool {
    [FRONT, "values.yaml", "sources.yaml", "terms.yaml", "hazards.yaml"].contains(&path)
}
