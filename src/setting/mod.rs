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
mod from_catalogue;
mod from_proof;
mod from_trees;
mod register;
mod words;

mod dress;
mod lean_style;
mod own_theme;
mod theme;

mod press;

mod beside;
mod reckoning;

mod leaf;

mod block;
mod code;
mod computed;
mod drawing;
mod form;
mod markdown;
mod notice;
mod plate;
mod problem;
mod shared_math;
mod working;

mod computation;
mod key;
mod lesson;
mod refrigerant;
mod sheet;
mod tree_drawing;
mod tree_layout;

mod letters;
mod lists;

mod manifest;
mod outline;

mod carry;
mod find;
mod front;
mod index;
mod printing;

pub use beside::{Beside, page_of};
pub use carry::CopyMade;
pub use dress::{FONT_FILES, FontFile};
pub use outline::{Chapter, OutlineLeaf};
pub use own_theme::ThemeFault;
pub use print::anchor as plain_name;
pub use theme::{Theme, ThemeError};

use crate::handbook::Handbook;
use crate::proofing::Proof;
use figure::Figures;
use press::Press;
use register::Register;
use std::collections::BTreeMap;
use thiserror::Error;

/// Where things lie in a bound handbook that `binding` makes or takes apart for the copies that are carried.
pub use address::{CARRY_EPUB, CARRY_FOLDER, CARRY_PAGE, FIND, FRONT, KEYS, PRINT, STYLE, WORDS};

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
    /// The pages in the order in which the book is read, without Find and the leaf of carry copies.
    pub outline: Vec<Chapter>,
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
    set_beside(book, proof, theme, &[])
}

/// Sets `book` as [`set`] does, with what stands `beside` places of its lessons.
///
/// # Errors
/// [`SettingError`] where a template of the theme can't be filled.
pub fn set_beside(book: &Handbook, proof: &Proof, theme: &Theme, beside: &Beside) -> Result<Pages, SettingError> {
    set_figures(book, from_proof::figures(book, proof, &theme.words), theme, beside)
}

/// Sets the page of the lesson `name` alone, from a proof that has at least this lesson's figures: the page that [`set`]
/// sets, as long as the proof of the rest would be the same. None where there is no such lesson in any part.
///
/// # Errors
/// [`SettingError`] where a template of the theme can't be filled.
pub fn set_lesson(
    book: &Handbook,
    proof: &Proof,
    theme: &Theme,
    name: &str,
    beside: &Beside,
) -> Result<Option<(String, Vec<u8>)>, SettingError> {
    let figures = from_proof::lesson_figures(book, proof, &theme.words);
    let press = Press { book, figures, theme, register: Register::of(book), beside };
    let in_order = book.in_order();
    let Some(place) = in_order.iter().position(|leaf| leaf.lesson.name == name) else { return Ok(None) };
    let page = lesson::page(&press, &in_order[place], in_order.get(place + 1))?;
    Ok(Some((address::lesson(name), page.html.into_bytes())))
}

/// Sets the leaf that offers `copies`, to take the place of the one that [`set`] set, which says of itself that it lies in a
/// copy.
///
/// # Errors
/// [`SettingError`] where a template of the theme can't be filled.
pub fn set_offer(book: &Handbook, theme: &Theme, copies: &[CopyMade]) -> Result<(String, Vec<u8>), SettingError> {
    let press = Press { book, figures: Figures::default(), theme, register: Register::of(book), beside: &[] };
    let html = carry::page(&press, &carry::Copies::Offered(copies))?;
    Ok((address::CARRY.to_owned(), html.into_bytes()))
}

fn set_figures(book: &Handbook, figures: Figures, theme: &Theme, beside: &Beside) -> Result<Pages, SettingError> {
    let press = Press { book, figures, theme, register: Register::of(book), beside };
    let in_order = book.in_order();
    let mut leaves = Vec::with_capacity(in_order.len());
    for (i, leaf) in in_order.iter().enumerate() {
        leaves.push((*leaf, lesson::page(&press, leaf, in_order.get(i + 1))?));
    }
    let mut files: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    let mut put = |path: String, text: String| {
        files.insert(path, text.into_bytes());
    };
    for (path, part) in find::index(&press, &leaves) {
        put(path, part);
    }
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
    for computation in &press.figures.catalogue {
        put(address::computation(&computation.name), computation::page(&press, computation)?);
    }
    put(address::COMPUTATIONS.to_owned(), computation::list(&press)?);
    if let Some(keys) = problem::keys_page(&press)? {
        put(address::KEYS.to_owned(), keys);
    }
    put(address::FRONT.to_owned(), front::page(&press)?);
    put(address::TERMS.to_owned(), lists::terms(&press)?);
    put(address::SOURCES.to_owned(), lists::sources(&press)?);
    put(address::VALUES.to_owned(), lists::values(&press)?);
    put(address::WORDS.to_owned(), index::page(&press)?);
    put(address::FIND.to_owned(), find::page(&press)?);
    let outline = outline::of(&press);
    put(address::PRINT.to_owned(), printing::page(&press, &outline)?);
    put(address::PRINT_STYLE.to_owned(), printing::style(&press, &outline)?);
    put(address::CARRY.to_owned(), carry::page(&press, &carry::Copies::Inside)?);
    put(address::STYLE.to_owned(), theme.dress().faces().to_owned() + theme.style() + &front::imprint(&press)?);
    put(address::SCRIPT.to_owned(), theme.script().to_owned());
    for (path, script) in reckoning::scripts(&press) {
        put(path, script);
    }
    put(address::MANIFEST.to_owned(), manifest::of(&press));
    files.extend(theme.kit().iter().map(|(path, bytes)| (path.clone(), bytes.clone())));
    files.extend(theme.dress().files.clone());
    files.extend(plate::files(book));
    Ok(Pages {
        files,
        outline,
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
