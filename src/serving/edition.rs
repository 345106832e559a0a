//! A bound folder held in memory, whole: every file with its mark of content and its packed copy.
//!
//! Nothing is opened while a request is answered, so no path that a client makes up can lead anywhere, and the folder may
//! change places with a newer one at any time. Hidden files, and links that the file system follows elsewhere, are left out.

use super::media::{Media, media};
use flate2::Compression;
use flate2::write::GzEncoder;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::fs::{self, Metadata};
use std::io::{self, Write};
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::SystemTime;
use walkdir::WalkDir;

/// The file that marks a folder as a bound handbook and says which edition it is.
const MARK: &str = "edition.txt";

/// How often a folder that changes while it is read is read again before that is given up.
const MOST_TRIES: usize = 5;

/// No edition could be had from a folder.
#[derive(Debug, thiserror::Error)]
pub enum EditionError {
    /// The folder is no bound handbook.
    #[error("`{}` is not a bound handbook: it has no `{MARK}`", .0.display())]
    NotBound(PathBuf),
    /// A file could not be read.
    #[error("could not read `{}`: {source}", path.display())]
    Io {
        /// Which.
        path: PathBuf,
        /// Why.
        source: io::Error,
    },
    /// The folder was changed each time it was read.
    #[error("`{}` changes all the time; it was read {MOST_TRIES} times and never stood still", .0.display())]
    Unsteady(PathBuf),
}

/// A file in memory.
#[derive(Debug)]
pub(super) struct Held {
    pub(super) media: Media,
    pub(super) plain: Arc<[u8]>,
    /// The gzip copy, where it is smaller by enough to matter.
    pub(super) packed: Option<Arc<[u8]>>,
    /// Mark of the content: letters of its SHA-256.
    pub(super) mark: String,
}

/// See the module.
#[derive(Debug)]
pub struct Edition {
    files: BTreeMap<String, Held>,
    stamp: Stamp,
    name: String,
}

/// By what an edition in a folder is told from the one that was there before.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Stamp {
    folder: (u64, u64),
    mark: (u64, Option<SystemTime>),
}

impl Edition {
    /// Reads the bound handbook in `folder`, all of one edition: should the folder be exchanged meanwhile, it is read again.
    ///
    /// # Errors
    /// [`EditionError`].
    pub fn read(folder: &Path) -> Result<Self, EditionError> {
        for _ in 0..MOST_TRIES {
            let before = Stamp::of(folder)?;
            let files = match read_files(folder) {
                Ok(files) => files,
                // A file that went away while it was read is the sign of an exchange; anything else is the machine's.
                Err(EditionError::Io { source, .. })
                    if source.kind() == io::ErrorKind::NotFound && Stamp::of(folder).is_ok_and(|now| now != before) =>
                {
                    continue;
                }
                Err(error) => return Err(error),
            };
            if Stamp::of(folder)? == before {
                return Ok(Self::of(files, before));
            }
        }
        Err(EditionError::Unsteady(folder.to_owned()))
    }

    fn of(files: BTreeMap<String, Vec<u8>>, stamp: Stamp) -> Self {
        let name = files.get(MARK).map(|bytes| edition_name(&String::from_utf8_lossy(bytes))).unwrap_or_default();
        let files = files.into_iter().map(|(path, bytes)| (path.clone(), Held::of(&path, bytes))).collect();
        Self { files, stamp, name }
    }

    /// Title and edition in a line, as the folder's `edition.txt` gives them.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// How many files there are.
    pub fn len(&self) -> usize {
        self.files.len()
    }

    /// Whether there is no file.
    pub fn is_empty(&self) -> bool {
        self.files.is_empty()
    }

    /// Bytes held, packed copies included.
    pub fn weight(&self) -> usize {
        self.files.values().map(|held| held.plain.len() + held.packed.as_ref().map_or(0, |packed| packed.len())).sum()
    }

    pub(super) fn file(&self, path: &str) -> Option<&Held> {
        self.files.get(path)
    }

    pub(super) fn stamp(&self) -> &Stamp {
        &self.stamp
    }

    /// An edition of these files, for tests of what is answered from it.
    #[cfg(test)]
    pub(super) fn of_files(files: &[(&str, &str)]) -> Self {
        let files = files.iter().map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect();
        Self::of(files, Stamp { folder: (0, 0), mark: (0, None) })
    }
}

impl Held {
    pub(super) fn of(path: &str, plain: Vec<u8>) -> Self {
        let media = media(path);
        let packed = media.packs.then(|| pack(&plain)).flatten();
        let digest = Sha256::digest(&plain);
        let mark = digest.iter().take(12).map(|byte| format!("{byte:02x}")).collect();
        Self { media, plain: plain.into(), packed: packed.map(Into::into), mark }
    }
}

/// The gzip copy of `plain`, if it saves a tenth. It carries no time, so that it is the same each time it is made.
fn pack(plain: &[u8]) -> Option<Vec<u8>> {
    let mut encoder = GzEncoder::new(Vec::new(), Compression::new(7));
    let packed = encoder.write_all(plain).and_then(|()| encoder.finish()).ok()?;
    (packed.len() + packed.len() / 10 < plain.len()).then_some(packed)
}

impl Stamp {
    /// The stamp of what is in `folder` now.
    pub(super) fn of(folder: &Path) -> Result<Self, EditionError> {
        let path = folder.join(MARK);
        let mark = match fs::metadata(&path) {
            Ok(mark) if mark.is_file() => mark,
            Ok(_) => return Err(EditionError::NotBound(folder.to_owned())),
            Err(error) if matches!(error.kind(), io::ErrorKind::NotFound | io::ErrorKind::NotADirectory) => {
                return Err(EditionError::NotBound(folder.to_owned()));
            }
            Err(source) => return Err(EditionError::Io { path, source }),
        };
        let itself = fs::metadata(folder).map_err(|source| EditionError::Io { path: folder.to_owned(), source })?;
        Ok(Self { folder: number_of(&itself), mark: (mark.len(), mark.modified().ok()) })
    }
}

/// The number by which the system knows a folder, whatever it is called.
#[cfg(unix)]
fn number_of(folder: &Metadata) -> (u64, u64) {
    use std::os::unix::fs::MetadataExt;
    (folder.dev(), folder.ino())
}

/// Elsewhere the time of the mark has to do.
#[cfg(not(unix))]
fn number_of(_folder: &Metadata) -> (u64, u64) {
    (0, 0)
}

fn read_files(folder: &Path) -> Result<BTreeMap<String, Vec<u8>>, EditionError> {
    // The folder itself may be a link, as where a release is put in place by one; nothing in it is followed.
    let folder = fs::canonicalize(folder).map_err(|source| EditionError::Io { path: folder.to_owned(), source })?;
    let mut files = BTreeMap::new();
    let visible =
        |entry: &walkdir::DirEntry| entry.depth() == 0 || !entry.file_name().to_string_lossy().starts_with('.');
    for entry in WalkDir::new(&folder).follow_links(false).into_iter().filter_entry(visible) {
        let entry = entry.map_err(|error| EditionError::Io {
            path: error.path().unwrap_or(&folder).to_owned(),
            source: error.into_io_error().unwrap_or_else(|| io::Error::other("the folder leads back into itself")),
        })?;
        if !entry.file_type().is_file() {
            continue;
        }
        let path = entry.path();
        let below = path.strip_prefix(&folder).unwrap_or(path);
        let parts: Option<Vec<&str>> = below.components().map(|part| part.as_os_str().to_str()).collect();
        // A name that is no text can't be asked for.
        let Some(parts) = parts else { continue };
        let bytes = fs::read(path).map_err(|source| EditionError::Io { path: path.to_owned(), source })?;
        files.insert(parts.join("/"), bytes);
    }
    Ok(files)
}

/// `Title, edition 2026-11` from an `edition.txt`.
fn edition_name(text: &str) -> String {
    let title = text.lines().next().unwrap_or("");
    let edition = text.lines().find(|line| line.starts_with("edition "));
    edition.map_or_else(|| title.to_owned(), |edition| format!("{title}, {edition}"))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn lay(folder: &Path, text: &str) {
        fs::create_dir_all(folder.join("lesson")).unwrap();
        fs::write(folder.join("index.html"), text).unwrap();
        fs::write(folder.join("lesson/a.html"), text.repeat(500)).unwrap();
        fs::write(folder.join(MARK), "Cold notes\nLarkmoor\nedition 7\n").unwrap();
    }

    #[test]
    fn a_folder_is_held_whole_and_nothing_else_is() {
        let dir = tempfile::tempdir().unwrap();
        let bound = dir.path().join("bound");
        lay(&bound, "first");
        fs::write(dir.path().join("secret"), "outside").unwrap();
        fs::write(bound.join(".htpasswd"), "hidden").unwrap();
        fs::create_dir(bound.join(".git")).unwrap();
        fs::write(bound.join(".git/config"), "hidden").unwrap();
        #[cfg(unix)]
        {
            std::os::unix::fs::symlink(dir.path().join("secret"), bound.join("lesson/way-out.html")).unwrap();
            std::os::unix::fs::symlink(dir.path(), bound.join("up")).unwrap();
        }
        let edition = Edition::read(&bound).unwrap();
        let paths: Vec<&str> = edition.files.keys().map(String::as_str).collect();
        assert_eq!(paths, ["edition.txt", "index.html", "lesson/a.html"]);
        assert_eq!(edition.name(), "Cold notes, edition 7");
        assert!(edition.file("lesson/a.html").unwrap().packed.is_some());
        assert!(edition.file("index.html").unwrap().packed.is_none(), "packing five letters saves nothing");
    }

    #[test]
    fn a_folder_that_is_no_handbook_is_refused() {
        let dir = tempfile::tempdir().unwrap();
        assert!(matches!(Edition::read(dir.path()), Err(EditionError::NotBound(_))));
        assert!(matches!(Edition::read(&dir.path().join("missing")), Err(EditionError::NotBound(_))));
    }

    #[test]
    fn an_exchange_shows_in_the_stamp() {
        let dir = tempfile::tempdir().unwrap();
        let (bound, other) = (dir.path().join("bound"), dir.path().join("other"));
        lay(&bound, "first");
        lay(&other, "second");
        let first = Edition::read(&bound).unwrap();
        assert_eq!(*first.stamp(), Stamp::of(&bound).unwrap());
        fs::rename(&bound, dir.path().join("old")).unwrap();
        fs::rename(&other, &bound).unwrap();
        assert_ne!(*first.stamp(), Stamp::of(&bound).unwrap());
    }
}
