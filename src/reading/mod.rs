//! A folder of an author's files into a [`Handbook`].
//!
//! Takes a folder (or files already in memory), gives a handbook and the findings made on the way. Does not give up at
//! the first fault: one bad lesson does not hide the next. What figures and trees are worth is left to `proofing`.
//!
//! `folder` and `theme` are the only modules of this room that touch a disk.

mod block;
mod computed;
mod drawing;
mod example;
mod folder;
mod front;
mod layers;
mod lesson;
mod link;
mod list;
mod markdown;
mod problem;
mod raster;
mod refrigerant;
mod sheet;
mod supply;
mod theme;
mod tree;
mod yaml;

pub use folder::{FolderError, path_of, read_file, read_folder, read_pile};
pub use layers::Layer;
pub use markdown::options as markdown_options;
pub use theme::{OwnTheme, read_packages, read_themes};

use crate::handbook::{FileId, Files, Finding, Handbook, Raster, Span};
use std::collections::BTreeSet;

/// Reads the lesson at `path` again, from `text`, into a handbook that was read with another text of it. Everything else
/// stays as it is.
///
/// Gives the findings of this file. None, and nothing changed, where `path` is not the one lesson of its name that the
/// handbook was read with: then only reading all of it will do.
pub fn read_lesson_again(book: &mut Handbook, path: &str, text: &str) -> Option<Vec<Finding>> {
    let below = path.strip_prefix("lessons/")?;
    let (_, name) = below.rsplit_once('/')?;
    let name = name.strip_suffix(".md")?;
    let id = book.lessons.get(name)?.body.file;
    if book.files.path(id) != path || book.files.depth(id) != 0 {
        return None;
    }
    let mut findings = Vec::new();
    book.files.replace(id, text);
    book.lessons.remove(name);
    lesson::read(id, below, text, book, &mut findings);
    Some(findings)
}

/// Reads a handbook from files already in memory: path below the folder and text, in the order of their paths.
///
/// Gives what could be read, and a finding for everything that could not.
pub fn read_files(texts: Vec<(String, String)>) -> (Handbook, Vec<Finding>) {
    read_layers(vec![Layer::own(texts)])
}

/// Reads a handbook and those it builds on, its own layer first.
///
/// Gives what could be read, and a finding for everything that could not.
pub fn read_layers(layers: Vec<Layer>) -> (Handbook, Vec<Finding>) {
    let mut files = Files::default();
    let mut book = Handbook::default();
    let mut findings = Vec::new();
    let mut taken = BTreeSet::new();
    let mut to_read: Vec<Vec<FileId>> = Vec::new();
    for (depth, layer) in layers.into_iter().enumerate() {
        let mut names = BTreeSet::new();
        let mut ids = Vec::new();
        let replaced = |path: &str| !layers::laid_over(path) && taken.contains(layers::stands_for(path));
        for (path, text) in &layer.texts {
            names.insert(layers::stands_for(path).to_owned());
            let id = files.add_below(depth, layer.folder.clone(), path.clone(), text.clone());
            if path == layers::FRONT {
                findings.extend(layer.finding(id));
            }
            if !replaced(path) {
                ids.push(id);
            }
        }
        for (path, bytes) in &layer.rasters {
            names.insert(path.clone());
            let id = files.add_below(depth, layer.folder.clone(), path.clone(), "");
            if !replaced(path) {
                let raster = Raster { size: raster::size(path, bytes), bytes: bytes.as_slice().into() };
                book.pictures.insert(path.clone(), id);
                book.rasters.insert(path.clone(), raster);
            }
        }
        taken.extend(names);
        to_read.push(ids);
    }
    let mut found_front = false;
    // From the lowest up, so that what is laid over finds what it is laid over.
    let in_turn = to_read.iter().rev().flatten();
    for (id, file) in in_turn.filter_map(|id| files.get(*id).map(|file| (*id, file))) {
        let path = file.path.as_str();
        let (folder, name) = path.split_once('/').unwrap_or(("", path));
        match (folder, name) {
            ("", "handbook.yaml") => {
                found_front = true;
                front::read(id, file, &mut book, &mut findings);
            }
            ("", "values.yaml") => list::read_values(id, file, &mut book, &mut findings),
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
