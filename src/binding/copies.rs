//! The copies that are carried: which of them a handbook asks for, each made of the pages as they stand without them.

use super::PageFiles;
use super::archive::{ArchiveError, archive};
use super::epub::epub;
use super::keeper::{KEEPER, keeper};
use super::markup::MarkupError;
use super::page::page;
use crate::handbook::Front;
use crate::setting::{CARRY_EPUB, CARRY_FOLDER, CARRY_PAGE, Chapter, Pages, Theme, plain_name};

/// A copy could not be made.
#[derive(Debug, thiserror::Error)]
pub enum CopyError {
    /// It would not go into an archive.
    #[error(transparent)]
    Archive(#[from] ArchiveError),
    /// A page's markup is not as it should be, as a theme of one's own may make it.
    #[error("`{path}` can't go into a carry copy: {source}")]
    Markup {
        /// The page.
        path: String,
        /// What is wrong with it.
        source: MarkupError,
    },
    /// A page has no such part, or a part that must be there is no text.
    #[error("`{path}` can't go into a carry copy: it has no {what}")]
    Lacks {
        /// The page or file.
        path: String,
        /// What is missing.
        what: &'static str,
    },
}

/// What copies are made of.
pub(super) struct Book<'a> {
    pub(super) front: &'a Front,
    pub(super) language: &'a str,
    pub(super) files: &'a PageFiles,
    pub(super) outline: &'a [Chapter],
}

impl<'a> Book<'a> {
    /// The text of the file at `path`.
    pub(super) fn text(&self, path: &str) -> Result<&'a str, CopyError> {
        let bytes = self.files.get(path).ok_or_else(|| CopyError::Lacks { path: path.to_owned(), what: "bytes" })?;
        std::str::from_utf8(bytes).map_err(|_| CopyError::Lacks { path: path.to_owned(), what: "text" })
    }
}

/// The files of `pages` with the copies that `front` asks for, and with what lets a browser keep the whole handbook.
///
/// # Errors
/// [`CopyError`]: which page would not go in, and why.
pub fn with_copies(pages: Pages, front: &Front, theme: &Theme) -> Result<PageFiles, CopyError> {
    let asked = |kind: &str| front.carry_copies.iter().any(|copy| copy.value == kind);
    let book = Book { front, language: theme.language(), files: &pages.files, outline: &pages.outline };
    let mut copies = PageFiles::new();
    if asked("folder") {
        let name = plain_name(&front.title);
        let name = if name.is_empty() { "handbook" } else { &name };
        copies.insert(CARRY_FOLDER.to_owned(), archive(name, book.files)?);
    }
    if asked("page") {
        copies.insert(CARRY_PAGE.to_owned(), page(&book, theme.copy_script())?.into_bytes());
    }
    if asked("epub") {
        copies.insert(CARRY_EPUB.to_owned(), epub(&book, theme.copy_style())?);
    }
    copies.insert(KEEPER.to_owned(), keeper(&front.edition, book.files, theme.keeper()).into_bytes());
    let mut files = pages.files;
    files.append(&mut copies);
    Ok(files)
}
