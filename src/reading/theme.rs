//! The files of a handbook's own theme, and of the fonts that a theme is dressed in. Left as bytes: what they are worth is
//! for whoever sets pages.

use super::folder::FolderError;
use super::front;
use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};
use walkdir::WalkDir;

/// Where a handbook keeps a theme of its own.
pub(super) const FOLDER: &str = "theme";
/// Where packages are installed beside a theme.
const PACKAGES: &str = "node_modules";

/// A handbook's own theme: where its folder lies, as seen from the handbook's, and its files by path below it.
pub type OwnTheme = (String, BTreeMap<String, Vec<u8>>);

/// Every file of the theme folders of the handbook in `dir` and of those it builds on, the lowest first. Hidden files and
/// installed packages are left alone, and so are handbooks without a theme of their own.
///
/// # Errors
/// [`FolderError::Io`] names the file.
pub fn read_themes(dir: &Path) -> Result<Vec<OwnTheme>, FolderError> {
    let mut themes = Vec::new();
    let mut seen = BTreeSet::new();
    let mut below = PathBuf::new();
    while seen.insert(std::fs::canonicalize(dir.join(&below)).unwrap_or_else(|_| dir.join(&below))) {
        let files = read_theme(&dir.join(&below))?;
        if !files.is_empty() {
            let folder = below.join(FOLDER);
            let parts: Vec<_> = folder.components().map(|part| part.as_os_str().to_string_lossy()).collect();
            themes.push((parts.join("/"), files));
        }
        // What is wrong with the front of a handbook is said where the handbook is read.
        let front = std::fs::read_to_string(dir.join(&below).join("handbook.yaml")).unwrap_or_default();
        let Some(base) = front::builds_on(&front) else { break };
        below.push(base.value);
    }
    themes.reverse();
    Ok(themes)
}

fn read_theme(dir: &Path) -> Result<BTreeMap<String, Vec<u8>>, FolderError> {
    let theme = dir.join(FOLDER);
    let mut files = BTreeMap::new();
    if !theme.is_dir() {
        return Ok(files);
    }
    let ours = |entry: &walkdir::DirEntry| {
        let name = entry.file_name().to_string_lossy();
        entry.depth() == 0 || !(name.starts_with(['.', '~', '#']) || name == PACKAGES)
    };
    for entry in WalkDir::new(&theme).follow_links(true).sort_by_file_name().into_iter().filter_entry(ours) {
        let entry = entry.map_err(|e| FolderError::Io {
            path: e.path().unwrap_or(&theme).to_owned(),
            source: e.into_io_error().unwrap_or_else(|| std::io::Error::other("the folder leads back into itself")),
        })?;
        if !entry.file_type().is_file() {
            continue;
        }
        let below = entry.path().strip_prefix(&theme).unwrap_or(entry.path());
        let name: Vec<_> = below.components().map(|part| part.as_os_str().to_string_lossy().into_owned()).collect();
        files.insert(name.join("/"), read(entry.path())?);
    }
    Ok(files)
}

/// The files `wanted`, by path below where packages are installed, from the first place that has them all: beside the
/// handbook's own theme, or beside the theme `themes/pocketbook` of the folder that the program was started in. None where
/// no place has.
///
/// # Errors
/// [`FolderError::Io`] where a file is there and can't be read.
pub fn read_packages<'a>(dir: &Path, wanted: &[&'a str]) -> Result<Option<BTreeMap<&'a str, Vec<u8>>>, FolderError> {
    let places: [PathBuf; 2] = [dir.join(FOLDER), ["themes", "pocketbook"].iter().collect()];
    for place in places.iter().map(|place| place.join(PACKAGES)) {
        if wanted.iter().all(|path| place.join(path).is_file()) {
            let files = wanted.iter().map(|path| Ok((*path, read(&place.join(path))?)));
            return files.collect::<Result<_, FolderError>>().map(Some);
        }
    }
    Ok(None)
}

fn read(path: &Path) -> Result<Vec<u8>, FolderError> {
    std::fs::read(path).map_err(|source| FolderError::Io { path: path.to_owned(), source })
}
