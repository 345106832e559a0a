//! What stands beside a place of an author's file on its page: for a desk, which shows findings where they are.
//!
//! It comes after the block that the place is in. What is beside a place in no block, as in a lesson's head or a tree's
//! YAML, is set nowhere; whoever handed it in looks for it on the page and shows it otherwise.

use super::address;
use crate::handbook::{FileId, Handbook, Span};
use std::ops::Range;

/// Places, and the HTML that stands beside each.
pub type Beside = [(Span, String)];

/// Those in one file, while it is set.
#[derive(Default)]
pub(super) struct Waiting<'a>(Vec<(usize, &'a str)>);

impl<'a> Waiting<'a> {
    pub(super) fn of(beside: &'a Beside, file: FileId) -> Self {
        let here = beside.iter().filter(|(at, _)| at.file == file);
        Self(here.map(|(at, html)| (at.start, html.as_str())).collect())
    }

    /// Puts down those whose place is in `range` of the file.
    pub(super) fn put(&mut self, range: Range<usize>, out: &mut String) {
        self.0.retain(|(at, html)| {
            let here = range.contains(at);
            if here {
                out.push_str(html);
            }
            !here
        });
    }
}

/// The page on which that file of an author's is set; the first page where it is set on none of its own.
pub fn page_of(book: &Handbook, file: FileId) -> String {
    let path = book.files.path(file);
    let (folder, name) = path.rsplit_once('/').unwrap_or(("", path));
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    let refrigerant = || book.refrigerants.iter().find(|(_, entry)| entry.at.file == file);
    match folder.split('/').next().unwrap_or("") {
        "lessons" => address::lesson(stem),
        "trees" => address::tree(stem),
        "sheets" => address::sheet(stem),
        "practice" => address::problem_set(stem),
        "refrigerants" => {
            refrigerant().map_or_else(|| address::FRONT.to_owned(), |(name, _)| address::refrigerant(name))
        }
        "" => match stem {
            "values" => address::VALUES,
            "terms" => address::TERMS,
            "sources" => address::SOURCES,
            _ => address::FRONT,
        }
        .to_owned(),
        _ => address::FRONT.to_owned(),
    }
}
