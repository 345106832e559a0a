//! A folder of an author's files into a [`Handbook`].
//!
//! Takes a folder (or files already in memory), gives a handbook and the findings made on the way. Does not give up at
//! the first fault: one bad lesson does not hide the next. What figures and trees are worth is left to `proofing`.
//!
//! `folder` is the only module of this room that touches a disk.

mod block;
mod computed;
mod drawing;
mod example;
mod folder;
mod front;
mod lesson;
mod link;
mod list;
mod markdown;
mod problem;
mod refrigerant;
mod sheet;
mod supply;
mod tree;
mod yaml;

pub use folder::{FolderError, read_folder};
pub use markdown::options as markdown_options;

use crate::handbook::{FileId, Files, Finding, Handbook, Span};

/// Reads a handbook from files already in memory: path below the folder and text, in the order of their paths.
///
/// Gives what could be read, and a finding for everything that could not.
pub fn read_files(texts: Vec<(String, String)>) -> (Handbook, Vec<Finding>) {
    let mut files = Files::default();
    for (path, text) in texts {
        files.add(path, text);
    }
    let mut book = Handbook::default();
    let mut findings = Vec::new();
    let mut found_front = false;
    for (id, file) in files.iter() {
        let path = file.path.as_str();
        let (folder, name) = path.split_once('/').unwrap_or(("", path));
        match (folder, name) {
            ("", "handbook.yaml") => {
                found_front = true;
                front::read(id, &file.text, &mut book, &mut findings);
            }
            ("", "values.yaml") => list::read_values(id, &file.text, &mut book, &mut findings),
            ("", "sources.yaml") => list::read_sources(id, &file.text, &mut book, &mut findings),
            ("", "terms.yaml") => list::read_terms(id, &file.text, &mut book, &mut findings),
            ("", "hazards.yaml") => list::read_hazards(id, &file.text, &mut book, &mut findings),
            ("lessons", name) => lesson::read(id, name, &file.text, &mut book, &mut findings),
            ("refrigerants", _) => refrigerant::read(id, &file.text, &mut book, &mut findings),
            ("sheets", name) => sheet::read(id, name, &file.text, &mut book, &mut findings),
            ("practice", name) => problem::read_set(id, name, &file.text, &mut book, &mut findings),
            ("pictures", _) => {
                book.pictures.insert(path.to_owned(), id);
            }
            ("trees", name) => tree::read(id, name, &file.text, &mut book, &mut findings),
            _ => findings.push(
                Finding::warning(
                    "file-not-read",
                    Span { file: id, start: 0, end: 0 },
                    format!("`{path}` is no kind of file that a handbook has"),
                )
                .instead("move it out of the folder, or into lessons/, refrigerants/, trees/, sheets/, practice/ or pictures/"),
            ),
        }
    }
    if !found_front {
        // No file of the folder is the place of a file that is not there.
        let at = Span { file: FileId(u32::MAX), start: 0, end: 0 };
        findings.push(
            Finding::error("no-front", at, "the folder has no `handbook.yaml`")
                .instead("lay out a new handbook with `coldpress begin`, or write one with title, house, edition, altitude and parts"),
        );
    }
    book.files = files;
    (book, findings)
}
