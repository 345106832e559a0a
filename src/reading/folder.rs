//! The folder on the disk: which files a handbook has, and their texts.

use super::front;
use super::layers::{Broken, FRONT, Layer};
use super::raster;
use std::collections::BTreeSet;
use std::ffi::OsStr;
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

/// Whether a file or folder of that name is one of a handbook's; what is hidden or left by an editor is not.
fn visible(name: &OsStr) -> bool {
    !name.to_string_lossy().starts_with(['.', '~', '#'])
}

/// Whether a file of that name is read.
fn read_as_text(path: &Path) -> bool {
    path.extension().is_some_and(|e| TEXT_ENDINGS.contains(&e.to_string_lossy().to_lowercase().as_str()))
}

/// The path of `below` as a handbook knows it, with `/` between its parts; `below` is counted from the handbook's folder.
/// None where it is none of the files that [`read_folder`] reads.
pub fn path_of(below: &Path) -> Option<String> {
    let parts: Vec<&OsStr> = below.components().map(|part| part.as_os_str()).collect();
    let theme = parts.first().is_some_and(|part| *part == super::theme::FOLDER);
    let ours = !parts.is_empty() && !theme && read_as_text(below) && parts.iter().all(|part| visible(part));
    ours.then(|| parts.iter().map(|part| part.to_string_lossy()).collect::<Vec<_>>().join("/"))
}

/// Reads one file as [`read_folder`] does.
///
/// # Errors
/// [`FolderError`] names the file.
pub fn read_file(path: &Path) -> Result<String, FolderError> {
    let bytes = std::fs::read(path).map_err(|source| FolderError::Io { path: path.to_owned(), source })?;
    let text = String::from_utf8(bytes)
        .map_err(|e| FolderError::NotText { path: path.to_owned(), offset: e.utf8_error().valid_up_to() })?;
    Ok(text.strip_prefix('\u{feff}').map(str::to_owned).unwrap_or(text))
}

/// Reads every Markdown, YAML and SVG file below `dir`, in the order of their paths. Hidden files and folders, files with
/// other endings, and the handbook's own theme are left alone.
///
/// # Errors
/// [`FolderError`] names the file.
pub fn read_folder(dir: &Path) -> Result<Vec<(String, String)>, FolderError> {
    if !dir.is_dir() {
        return Err(FolderError::Missing(dir.to_owned()));
    }
    let ours = |name: &str| name != super::theme::FOLDER;
    let texts = files_below(dir, dir, ours)?.into_iter().filter(|(_, path)| read_as_text(path));
    texts.map(|(name, path)| Ok((name, read_file(&path)?))).collect()
}

/// Where a handbook keeps its pictures.
const PICTURES: &str = "pictures";

/// Every file of `pictures/` below `dir` that is not read as text, in the order of their paths; its bytes, where it is a
/// picture by its name.
fn read_rasters(dir: &Path) -> Result<Vec<(String, Vec<u8>)>, FolderError> {
    let folder = dir.join(PICTURES);
    if !folder.is_dir() {
        return Ok(Vec::new());
    }
    let pictures = files_below(dir, &folder, |_| true)?.into_iter().filter(|(_, path)| !read_as_text(path));
    let read = |path: PathBuf| std::fs::read(&path).map_err(|source| FolderError::Io { path, source });
    pictures
        .map(|(name, path)| Ok((name.clone(), if raster::is_shown(&name) { read(path)? } else { Vec::new() })))
        .collect()
}

/// The files below `folder`, hidden ones left out, and of folders only `ours`: each by its path below `dir`, with `/` between
/// the parts, and where it lies; in the order of those paths.
fn files_below(dir: &Path, folder: &Path, ours: impl Fn(&str) -> bool) -> Result<Vec<(String, PathBuf)>, FolderError> {
    let name = |path: &Path| {
        let below = path.strip_prefix(dir).unwrap_or(path);
        let parts: Vec<_> = below.components().map(|part| part.as_os_str().to_string_lossy()).collect();
        parts.join("/")
    };
    let shown =
        |entry: &walkdir::DirEntry| entry.depth() == 0 || visible(entry.file_name()) && ours(&name(entry.path()));
    let mut files = Vec::new();
    for entry in WalkDir::new(folder).follow_links(true).sort_by_file_name().into_iter().filter_entry(shown) {
        let entry = entry.map_err(|e| FolderError::Io {
            path: e.path().unwrap_or(dir).to_owned(),
            source: e.into_io_error().unwrap_or_else(|| std::io::Error::other("the folder leads back into itself")),
        })?;
        if entry.file_type().is_file() {
            files.push((name(entry.path()), entry.into_path()));
        }
    }
    files.sort();
    Ok(files)
}

/// Reads the handbook in `dir` and those it builds on, one below the other.
///
/// # Errors
/// [`FolderError`] names the file. A `builds-on:` that leads to no handbook, or back to where it came from, is no failure of
/// the machine: [`super::read_layers`] makes a finding of it.
pub fn read_pile(dir: &Path) -> Result<Vec<Layer>, FolderError> {
    let mut pile = Vec::new();
    let mut seen = BTreeSet::new();
    let mut folder = PathBuf::new();
    loop {
        // Joined with nothing, a path would gain a slash that the author did not write.
        let here = if folder.as_os_str().is_empty() { dir.to_owned() } else { dir.join(&folder) };
        seen.insert(std::fs::canonicalize(&here).unwrap_or_else(|_| here.clone()));
        let (texts, rasters) = (read_folder(&here)?, read_rasters(&here)?);
        let mut layer = Layer { folder: shown(&folder), texts, rasters, broken: None };
        let base = layer.texts.iter().find(|(path, _)| path == FRONT).and_then(|(_, text)| front::builds_on(text));
        let Some(base) = base else {
            pile.push(layer);
            return Ok(pile);
        };
        folder.push(&base.value);
        let there = dir.join(&folder);
        if !there.join(FRONT).is_file() {
            layer.broken = Some(Broken::NotThere(base));
        } else if seen.contains(&std::fs::canonicalize(&there).unwrap_or(there)) {
            layer.broken = Some(Broken::InACircle(base));
        }
        let broken = layer.broken.is_some();
        pile.push(layer);
        if broken {
            return Ok(pile);
        }
    }
}

/// A way of folders as people are told of it, with `/` between and at the end.
fn shown(folder: &Path) -> String {
    folder.components().map(|part| format!("{}/", part.as_os_str().to_string_lossy())).collect()
}
