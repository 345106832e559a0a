//! What the files of a handbook looked like at one moment, and what is other at the next.
//!
//! By size, time and number of each file; and by content where a file was written so shortly before that its time would be
//! the same if it were written again.

use crate::reading;
use sha2::{Digest, Sha256};
use std::collections::BTreeMap;
use std::ffi::{OsStr, OsString};
use std::fs::Metadata;
use std::path::{Path, PathBuf};
use std::time::{Duration, SystemTime};
use walkdir::WalkDir;

/// Clocks of file systems step by up to this much.
const STEP: Duration = Duration::from_millis(30);

/// Files by their paths, compared as plain text: thousands are, at every look.
pub(super) struct Seen(BTreeMap<OsString, Look>);

#[derive(Clone, PartialEq, Eq)]
struct Look {
    size: u64,
    written: Option<SystemTime>,
    number: u64,
    /// Whether it was written so lately that another writing may bear the same time.
    late: bool,
    /// The content's digest, where the time can't be relied upon yet.
    content: Option<[u8; 32]>,
}

/// What changed between two looks.
#[derive(Debug, Default, PartialEq, Eq)]
pub(super) struct Changes {
    written: Vec<PathBuf>,
    come_or_gone: bool,
}

impl Seen {
    /// Looks over the folders. `before` is the look before this one.
    pub(super) fn of(folders: &[PathBuf], before: Option<&Self>) -> Self {
        let mut files = BTreeMap::new();
        for folder in folders {
            let visible = |entry: &walkdir::DirEntry| entry.depth() == 0 || !is_hidden(entry.file_name());
            // What can't be looked at is as good as gone; reading will say why.
            for entry in WalkDir::new(folder).follow_links(true).into_iter().filter_entry(visible).flatten() {
                if entry.file_type().is_file()
                    && matters(folder, entry.path())
                    && let Ok(file) = entry.metadata()
                {
                    let look =
                        Look::at(entry.path(), &file, before.and_then(|before| before.0.get(entry.path().as_os_str())));
                    files.insert(entry.into_path().into_os_string(), look);
                }
            }
        }
        Self(files)
    }

    /// What is other than it was `before`.
    pub(super) fn since(&self, before: &Self) -> Changes {
        let mut changes = Changes::default();
        for (path, look) in &self.0 {
            match before.0.get(path) {
                None => changes.come_or_gone = true,
                Some(known) if !known.same_as(look) => changes.written.push(PathBuf::from(path)),
                Some(_) => {}
            }
        }
        changes.come_or_gone |= before.0.keys().any(|path| !self.0.contains_key(path));
        changes
    }
}

impl Look {
    fn at(path: &Path, file: &Metadata, before: Option<&Self>) -> Self {
        let written = file.modified().ok();
        let now = SystemTime::now();
        let late = written.is_none_or(|written| now.duration_since(written).map_or(true, |since| since < STEP));
        let mut look = Self { size: file.len(), written, number: number_of(file), late, content: None };
        // Once more after that, to see what was written within the same time.
        if late || before.is_some_and(|before| before.late) {
            look.content = std::fs::read(path).ok().map(|bytes| Sha256::digest(bytes).into());
        }
        look
    }

    fn same_as(&self, later: &Self) -> bool {
        let alike = (self.size, self.written, self.number) == (later.size, later.written, later.number);
        alike && self.content.zip(later.content).is_none_or(|(content, later)| content == later)
    }
}

impl Changes {
    pub(super) fn is_empty(&self) -> bool {
        self.written.is_empty() && !self.come_or_gone
    }

    /// The lessons below `folder` that were written, where nothing else changed.
    pub(super) fn lessons(&self, folder: &Path) -> Option<Vec<String>> {
        if self.come_or_gone {
            return None;
        }
        let lesson = |path: &PathBuf| {
            let below = reading::path_of(path.strip_prefix(folder).ok()?)?;
            below.starts_with("lessons/").then_some(below)
        };
        self.written.iter().map(lesson).collect()
    }
}

fn is_hidden(name: &OsStr) -> bool {
    name.to_string_lossy().starts_with(['.', '~', '#']) || name == "node_modules"
}

/// Whether a handbook is made of a file: its texts, its pictures, its own theme.
fn matters(folder: &Path, path: &Path) -> bool {
    let below = path.strip_prefix(folder).unwrap_or(path);
    reading::path_of(below).is_some() || below.starts_with("theme") || below.starts_with("pictures")
}

#[cfg(unix)]
fn number_of(file: &Metadata) -> u64 {
    use std::os::unix::fs::MetadataExt;
    file.ino()
}

#[cfg(not(unix))]
fn number_of(_file: &Metadata) -> u64 {
    0
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;
    use std::thread::sleep;

    #[test]
    fn changes_are_seen_and_what_editors_leave_is_not() {
        let dir = tempfile::tempdir().unwrap();
        let folder = dir.path().to_owned();
        let folders = [folder.clone()];
        fs::create_dir_all(folder.join("lessons/coil")).unwrap();
        let lesson = folder.join("lessons/coil/a.md");
        fs::write(&lesson, "one").unwrap();
        let first = Seen::of(&folders, None);
        assert!(Seen::of(&folders, Some(&first)).since(&first).is_empty());

        // Written again at once, to the same length: the file system may give it the same time.
        fs::write(&lesson, "two").unwrap();
        let second = Seen::of(&folders, Some(&first));
        let lessons = second.since(&first).lessons(&folder).unwrap();
        assert_eq!(lessons, ["lessons/coil/a.md"]);

        sleep(STEP * 2);
        let third = Seen::of(&folders, Some(&second));
        assert!(third.since(&second).is_empty());
        let fourth = Seen::of(&folders, Some(&third));
        assert!(fourth.0[lesson.as_os_str()].content.is_none(), "a time long past is relied upon");

        for left in ["lessons/coil/.a.md.swp", "lessons/coil/a.md~", "lessons/coil/4913", "lessons/coil/#a.md#"] {
            fs::write(folder.join(left), "x").unwrap();
        }
        assert!(Seen::of(&folders, Some(&fourth)).since(&fourth).is_empty());

        // Saved by rename.
        fs::write(folder.join("lessons/coil/new"), "three").unwrap();
        fs::rename(folder.join("lessons/coil/new"), &lesson).unwrap();
        let fifth = Seen::of(&folders, Some(&fourth));
        assert_eq!(fifth.since(&fourth).lessons(&folder).unwrap(), ["lessons/coil/a.md"]);

        fs::remove_dir_all(&folder).unwrap();
        let gone = Seen::of(&folders, Some(&fifth)).since(&fifth);
        assert!(gone.come_or_gone && gone.lessons(&folder).is_none());
    }
}
