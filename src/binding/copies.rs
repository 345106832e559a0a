//! The copies that are carried: which of them a handbook asks for, each made of the pages as they stand without them.

use super::PageFiles;
use super::archive::{ArchiveError, archive};
use super::epub::epub;
use super::keeper::{KEEPER, keeper};
use super::markup::MarkupError;
use super::page::{page, printed};
use crate::handbook::{Front, Handbook};
use crate::setting::{
    self, CARRY_EPUB, CARRY_FOLDER, CARRY_PAGE, Chapter, CopyMade, PRINT, Pages, SettingError, Theme, plain_name,
};

/// A copy could not be made.
#[derive(Debug, thiserror::Error)]
pub enum CopyError {
    /// It would not go into an archive.
    #[error(transparent)]
    Archive(#[from] ArchiveError),
    /// The leaf that offers the copies could not be set.
    #[error(transparent)]
    Setting(#[from] SettingError),
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

/// The files of `pages` with the copies that `handbook` asks for and the leaf that offers them, and with what lets a browser
/// keep the whole handbook.
///
/// # Errors
/// [`CopyError`]: which page would not go in, and why.
pub fn with_copies(pages: Pages, handbook: &Handbook, theme: &Theme) -> Result<PageFiles, CopyError> {
    let front = &handbook.front;
    let asked = |kind: &str| front.carry_copies.iter().any(|copy| copy.value == kind);
    // Keys that stand apart are for whoever binds the handbook: no copy carries them, and no browser keeps them.
    let mut files = pages.files;
    let keys = files.remove(setting::KEYS);
    let unprinted = Book { front, language: theme.language(), files: &files, outline: &pages.outline };
    let printed = printed(&unprinted, PRINT)?;
    files.insert(PRINT.to_owned(), printed.into_bytes());
    let book = Book { front, language: theme.language(), files: &files, outline: &pages.outline };
    let mut copies = Vec::new();
    if asked("folder") {
        let name = plain_name(&front.title);
        let name = if name.is_empty() { "handbook" } else { &name };
        copies.push((CARRY_FOLDER, archive(name, book.files)?));
    }
    if asked("page") {
        copies.push((CARRY_PAGE, page(&book, theme.copy_script())?.into_bytes()));
    }
    if asked("epub") {
        copies.push((CARRY_EPUB, epub(&book, theme.copy_style())?));
    }
    let made: Vec<CopyMade> = copies.iter().map(|(path, copy)| CopyMade { path, bytes: copy.len() }).collect();
    let (offer, html) = setting::set_offer(handbook, theme, &made)?;
    files.insert(offer, html);
    files.insert(KEEPER.to_owned(), keeper(&front.edition, &files, theme.keeper()).into_bytes());
    files.extend(keys.map(|page| (setting::KEYS.to_owned(), page)));
    files.extend(copies.into_iter().map(|(path, copy)| (path.to_owned(), copy)));
    Ok(files)
}
