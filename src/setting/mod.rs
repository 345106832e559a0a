//! A proofed handbook into pages: Markdown to HTML in the handbook's components, tables, keys, index and Find.
//!
//! Takes a handbook, what proofing reckoned for it, and a theme; gives every file of the bound folder as bytes. Computes
//! no figure and touches no disk. The same input gives the same bytes: nothing here asks for the time or lets an
//! unordered map reach a page.

#![deny(clippy::disallowed_methods)]

mod print;

mod address;
mod figure;
mod from_blocks;
mod from_proof;
mod register;
mod words;

mod theme;

mod press;

mod leaf;

mod block;
mod code;
mod computed;
mod drawing;
mod markdown;
mod notice;
mod plate;
mod problem;
mod working;

mod key;
mod lesson;
mod refrigerant;
mod sheet;
mod tree_drawing;
mod tree_layout;

mod letters;
mod lists;

mod back;
mod find;
mod front;

pub use theme::{Theme, ThemeError};

use crate::handbook::Handbook;
use crate::proofing::Proof;
use figure::Figures;
use press::Press;
use register::Register;
use std::collections::BTreeMap;
use thiserror::Error;

/// Where the folder's carry copy lies in a bound handbook, if it is made. Its leaf links to it; `binding` makes it.
pub use address::CARRY_FOLDER;

/// Why a handbook could not be set.
#[derive(Debug, Error)]
pub enum SettingError {
    /// A template of the theme could not be filled.
    #[error("`{template}` of the theme could not be filled: {says}")]
    Template {
        /// The template.
        template: String,
        /// What it is about, from the outside in.
        says: String,
    },
}

/// A handbook set: every file of its bound folder, and how much of what is in it.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Pages {
    /// Files by their path below the folder, with `/` between the parts.
    pub files: BTreeMap<String, Vec<u8>>,
    /// The leaf of carry copies as it lies inside a copy.
    pub carried_leaf: Vec<u8>,
    /// Lessons set.
    pub lessons: usize,
    /// Diagnostic trees set.
    pub trees: usize,
    /// Refrigerants set.
    pub refrigerants: usize,
    /// Saturation tables set.
    pub tables: usize,
    /// Worked examples set.
    pub examples: usize,
    /// Computed figures set, those of examples and tables' cells not counted.
    pub figures: usize,
}

/// Sets `book`, whose figures are those of `proof`, in `theme`.
///
/// A figure or link that `proof` has no answer for is set as its author wrote it and marked; a handbook that proofs
/// clean has none.
///
/// # Errors
/// [`SettingError`] where a template of the theme can't be filled.
pub fn set(book: &Handbook, proof: &Proof, theme: &Theme) -> Result<Pages, SettingError> {
    set_figures(book, from_proof::figures(book, proof, &theme.words), theme)
}

/// `pages` with the carry copies that the handbook asks for, made by `archive` from a folder's name and its files.
///
/// The copies go last, so that what is carried is the handbook as it stands without them.
///
/// # Errors
/// Those of `archive`.
pub fn with_carry_copies<E>(
    mut pages: Pages,
    book: &Handbook,
    archive: impl FnOnce(&str, &BTreeMap<String, Vec<u8>>) -> Result<Vec<u8>, E>,
) -> Result<Pages, E> {
    if book.front.carry_copies.iter().any(|copy| copy.value == "folder") {
        let name = print::anchor(&book.front.title);
        let name = if name.is_empty() { "handbook" } else { &name };
        let mut carried = pages.files.clone();
        carried.insert(address::CARRY.to_owned(), pages.carried_leaf.clone());
        let folder = archive(name, &carried)?;
        pages.files.insert(CARRY_FOLDER.to_owned(), folder);
    }
    Ok(pages)
}

fn set_figures(book: &Handbook, figures: Figures, theme: &Theme) -> Result<Pages, SettingError> {
    let press = Press { book, figures, theme, register: Register::of(book) };
    let in_order = book.in_order();
    let mut leaves = Vec::with_capacity(in_order.len());
    for (i, leaf) in in_order.iter().enumerate() {
        leaves.push((*leaf, lesson::page(&press, leaf, in_order.get(i + 1))?));
    }
    let mut files: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    let mut put = |path: String, text: String| {
        files.insert(path, text.into_bytes());
    };
    put(address::FIND_INDEX.to_owned(), find::index(&press, &leaves)?);
    for (leaf, page) in leaves {
        put(address::lesson(&leaf.lesson.name), page.html);
    }
    for tree in book.trees.values() {
        put(address::tree(&tree.name), key::page(&press, tree)?);
    }
    for (designation, entry) in &book.refrigerants {
        put(address::refrigerant(designation), refrigerant::page(&press, entry)?);
    }
    for sheet in book.sheets.values() {
        put(address::sheet(&sheet.name), sheet::page(&press, sheet)?);
    }
    for set in book.problem_sets.values() {
        put(address::problem_set(&set.name), problem::page(&press, set)?);
    }
    put(address::FRONT.to_owned(), front::page(&press)?);
    put(address::TERMS.to_owned(), lists::terms(&press)?);
    put(address::SOURCES.to_owned(), lists::sources(&press)?);
    put(address::VALUES.to_owned(), lists::values(&press)?);
    put(address::WORDS.to_owned(), back::index(&press)?);
    put(address::FIND.to_owned(), find::page(&press)?);
    put(address::CARRY.to_owned(), back::carry(&press, false)?);
    let carried_leaf = back::carry(&press, true)?.into_bytes();
    put(address::STYLE.to_owned(), theme.style().to_owned() + &front::imprint(&press)?);
    put(address::SCRIPT.to_owned(), theme.script().to_owned());
    Ok(Pages {
        files,
        carried_leaf,
        lessons: in_order.len(),
        trees: book.trees.len(),
        refrigerants: book.refrigerants.len(),
        tables: press.figures.tables.len(),
        examples: press.figures.examples.len(),
        figures: press.figures.figures.len(),
    })
}

#[cfg(test)]
mod tests;
