//! The folder on the disk: which files a handbook has, and their texts.

use std::path::{Path, PathBuf};
use walkdir::WalkDir;

/// The machine failed us while the folder was read.
#[derive(Debug, thiserror::Error)]
pub enum FolderError {
    /// No such folder.
    #[error("there is no folder `{}`", .0.display())]
    Missing(PathBuf),
    /// A file could not be read.
    #[error("could not read `{}`: {source}", path.display())]
    Io {
        /// Which.
        path: PathBuf,
        /// Why.
        source: std::io::Error,
    },
    /// A file is not UTF-8 text.
    #[error("`{}` is not UTF-8 text: the first bad byte is number {offset}", path.display())]
    NotText {
        /// Which.
        path: PathBuf,
        /// First bad byte, from 0.
        offset: usize,
    },
}

/// Endings of the files that are read as text.
const TEXT_ENDINGS: [&str; 4] = ["md", "yaml", "yml", "svg"];

/// Reads every Markdown, YAML and SVG file below `dir`, in the order of their paths. Hidden files and folders, files with
/// other endings, and the handbook's own theme are left alone.
///
/// # Errors
/// [`FolderError`] names the file.
pub fn read_folder(dir: &Path) -> Result<Vec<(String, String)>, FolderError> {
    if !dir.is_dir() {
        return Err(FolderError::Missing(dir.to_owned()));
    }
    let mut texts = Vec::new();
    let visible = |entry: &walkdir::DirEntry| {
        let name = entry.file_name().to_string_lossy();
        entry.depth() == 0 || !(name.starts_with(['.', '~', '#']) || entry.depth() == 1 && name == super::theme::FOLDER)
    };
    for entry in WalkDir::new(dir).follow_links(true).sort_by_file_name().into_iter().filter_entry(visible) {
        let entry = entry.map_err(|e| FolderError::Io {
            path: e.path().unwrap_or(dir).to_owned(),
            source: e.into_io_error().unwrap_or_else(|| std::io::Error::other("the folder leads back into itself")),
        })?;
        let path = entry.path();
        let text_file =
            path.extension().is_some_and(|e| TEXT_ENDINGS.contains(&e.to_string_lossy().to_lowercase().as_str()));
        if !entry.file_type().is_file() || !text_file {
            continue;
        }
        let bytes = std::fs::read(path).map_err(|source| FolderError::Io { path: path.to_owned(), source })?;
        let text = String::from_utf8(bytes)
            .map_err(|e| FolderError::NotText { path: path.to_owned(), offset: e.utf8_error().valid_up_to() })?;
        let below = path.strip_prefix(dir).unwrap_or(path);
        let name: Vec<_> = below.components().map(|c| c.as_os_str().to_string_lossy().into_owned()).collect();
        texts.push((name.join("/"), text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text)));
    }
    texts.sort();
    Ok(texts)
}
