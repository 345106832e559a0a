//! The bound folder: written beside its place in full, then put there in one step.
//!
//! Pages are written to `.NAME.binding-*` next to the folder. Where a folder stands already, the two change places in one
//! step of the file system; where the file system can't do that, the old one is moved aside first, and moved back should
//! the second step fail. What an interrupted run left behind is cleared away by the next.

use super::PageFiles;
use std::fs::{self, File, TryLockError};
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Written into every bound folder; a folder without it is never replaced.
const MARK: &str = "edition.txt";

/// The handbook was not bound. What stood there before stands there still.
#[derive(Debug, thiserror::Error)]
pub enum BindError {
    /// The place is taken by something that is no bound handbook.
    #[error("`{}` is not a bound handbook (it has no `{MARK}`), so it is left alone; name another folder with --into", .0.display())]
    NotOurs(PathBuf),
    /// The place has no name, like `/`.
    #[error("`{}` can't hold a handbook; name a folder with --into", .0.display())]
    NoName(PathBuf),
    /// The machine failed us.
    #[error("could not {what} `{}`: {source}", path.display())]
    Io {
        /// What was being done.
        what: &'static str,
        /// To which file or folder.
        path: PathBuf,
        /// Why it failed.
        source: io::Error,
    },
}

fn failed<'a>(what: &'static str, path: &'a Path) -> impl FnOnce(io::Error) -> BindError + 'a {
    move |source| BindError::Io { what, path: path.to_owned(), source }
}

/// Puts `pages`, with an `edition.txt` that says `edition`, into the folder `into`.
///
/// # Errors
/// [`BindError`]; the folder is then as it was.
pub fn bind(pages: &PageFiles, edition: &str, into: &Path) -> Result<(), BindError> {
    let name = into.file_name().ok_or_else(|| BindError::NoName(into.to_owned()))?.to_string_lossy().into_owned();
    let parent = match into.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent,
        _ => Path::new("."),
    };
    check_ours(into)?;
    fs::create_dir_all(parent).map_err(failed("make the folder", parent))?;
    clear_leftovers(parent, &name);
    let workshop = Workshop::open(parent, &name)?;
    let fresh = workshop.path.join("fresh");
    write_all(pages, edition, &fresh)?;
    put_in_place(&fresh, into, &workshop.path.join("old"))?;
    // The edition is in place; should the power fail now, the one before may be found there instead, whole.
    let _ = sync_folder(parent);
    Ok(())
}

/// Refuses a place that holds something other than a bound handbook.
fn check_ours(into: &Path) -> Result<(), BindError> {
    if !into.exists() {
        return Ok(());
    }
    let empty = fs::read_dir(into).map(|mut entries| entries.next().is_none()).unwrap_or(false);
    if empty || into.join(MARK).is_file() { Ok(()) } else { Err(BindError::NotOurs(into.to_owned())) }
}

/// The folder in which an edition is made ready; removed when it is dropped.
struct Workshop {
    path: PathBuf,
    lock: Option<File>,
}

/// The lock's name in a workshop: held by its process as long as that lives.
const LOCK: &str = "lock";

impl Workshop {
    fn open(parent: &Path, name: &str) -> Result<Self, BindError> {
        for attempt in 0..u32::MAX {
            let path = parent.join(format!("{}{}-{attempt}", prefix(name), std::process::id()));
            match fs::create_dir(&path) {
                Ok(()) => {
                    if let Some(lock) = take_lock(&path)? {
                        return Ok(Self { path, lock });
                    }
                }
                Err(e) if e.kind() == io::ErrorKind::AlreadyExists => {}
                Err(e) => return Err(failed("make the folder", &path)(e)),
            }
        }
        Err(BindError::NoName(parent.to_owned()))
    }
}

/// What the names of workshops for `name` begin with, cut where a file system would take no name as long.
fn prefix(name: &str) -> String {
    let cut = (0..=name.len().min(200)).rev().find(|at| name.is_char_boundary(*at)).unwrap_or(0);
    format!(".{}.binding-", &name[..cut])
}

impl Drop for Workshop {
    fn drop(&mut self) {
        // Nothing hangs on this: a workshop that stays is cleared by the next run.
        let _ = clear(&self.path);
        drop(self.lock.take());
    }
}

/// Takes the lock of the new workshop `path`; none inside where the file system has no locks, and then what a killed run
/// leaves is never cleared. None outside where another run has taken the workshop for a leftover before it was locked.
fn take_lock(path: &Path) -> Result<Option<Option<File>>, BindError> {
    let lock_path = path.join(LOCK);
    let lock = match File::create(&lock_path) {
        Ok(lock) => lock,
        Err(e) if e.kind() == io::ErrorKind::NotFound => return Ok(None),
        Err(e) => return Err(failed("write", &lock_path)(e)),
    };
    match lock.try_lock() {
        Ok(()) if lock_path.exists() => Ok(Some(Some(lock))),
        Ok(()) | Err(TryLockError::WouldBlock) => Ok(None),
        Err(TryLockError::Error(_)) => Ok(Some(None)),
    }
}

/// Removes a workshop, its lock last: whatever interrupts, what is left has a lock to tell whose it is, or is empty.
fn clear(workshop: &Path) -> io::Result<()> {
    for entry in fs::read_dir(workshop)?.flatten() {
        if entry.file_name() != LOCK {
            fs::remove_dir_all(entry.path())?;
        }
    }
    match fs::remove_file(workshop.join(LOCK)) {
        Err(e) if e.kind() != io::ErrorKind::NotFound => return Err(e),
        _ => {}
    }
    fs::remove_dir(workshop)
}

/// Removes workshops whose process is gone.
fn clear_leftovers(parent: &Path, name: &str) {
    let prefix = prefix(name);
    let Ok(entries) = fs::read_dir(parent) else { return };
    for entry in entries.flatten() {
        if !entry.file_name().to_string_lossy().starts_with(&prefix) {
            continue;
        }
        match File::open(entry.path().join(LOCK)) {
            // The lock is held while the workshop is cleared.
            Ok(lock) if lock.try_lock().is_ok() => {
                let _ = clear(&entry.path());
            }
            Ok(_) => {}
            // Killed before its lock or after: it goes if it is empty, and a living run makes itself another.
            Err(_) => {
                let _ = fs::remove_dir(entry.path());
            }
        }
    }
}

fn write_all(pages: &PageFiles, edition: &str, fresh: &Path) -> Result<(), BindError> {
    fs::create_dir(fresh).map_err(failed("make the folder", fresh))?;
    let mark = (MARK.to_owned(), edition.as_bytes().to_vec());
    for (path, bytes) in pages.iter().chain(std::iter::once((&mark.0, &mark.1))) {
        let file = path.split('/').fold(fresh.to_owned(), |folder, part| folder.join(part));
        if let Some(folder) = file.parent() {
            fs::create_dir_all(folder).map_err(failed("make the folder", folder))?;
        }
        let mut open = File::create(&file).map_err(failed("write", &file))?;
        open.write_all(bytes).map_err(failed("write", &file))?;
        if !ONE_FLUSH {
            open.sync_data().map_err(failed("write", &file))?;
        }
    }
    sync_folder(fresh).map_err(failed("write", fresh))
}

/// Moves `fresh` to `into`; what stood there goes to `old`.
fn put_in_place(fresh: &Path, into: &Path, old: &Path) -> Result<(), BindError> {
    if !into.exists() {
        return fs::rename(fresh, into).map_err(failed("put in place", into));
    }
    if change_places(fresh, into) {
        return Ok(());
    }
    fs::rename(into, old).map_err(failed("move aside", into))?;
    fs::rename(fresh, into).map_err(|e| {
        // Put back what was there; if that fails too the error still names the place, and the old edition is beside it.
        let _ = fs::rename(old, into);
        failed("put in place", into)(e)
    })
}

/// Lets two folders change places in one step, where the system has such a step. False where it has not.
#[cfg(any(target_os = "linux", target_os = "android", target_vendor = "apple"))]
fn change_places(one: &Path, other: &Path) -> bool {
    use rustix::fs::{CWD, RenameFlags, renameat_with};
    renameat_with(CWD, one, CWD, other, RenameFlags::EXCHANGE).is_ok()
}

#[cfg(not(any(target_os = "linux", target_os = "android", target_vendor = "apple")))]
fn change_places(_one: &Path, _other: &Path) -> bool {
    false
}

/// Whether one call puts everything written so far on the disk, so that files need not be flushed one by one.
const ONE_FLUSH: bool = cfg!(any(target_os = "linux", target_os = "android"));

/// Puts what was written in `folder` on the disk, so that a power failure after the change of places finds it there.
#[cfg(any(target_os = "linux", target_os = "android"))]
fn sync_folder(folder: &Path) -> io::Result<()> {
    rustix::fs::syncfs(File::open(folder)?).map_err(io::Error::from)
}

#[cfg(not(any(target_os = "linux", target_os = "android")))]
fn sync_folder(folder: &Path) -> io::Result<()> {
    // Not every system opens a folder as a file; the files themselves have been flushed one by one.
    File::open(folder).and_then(|open| open.sync_all()).or(Ok(()))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn pages(text: &str) -> PageFiles {
        PageFiles::from([("index.html".to_owned(), text.into()), ("lesson/a.html".to_owned(), text.into())])
    }

    fn entries(folder: &Path) -> Vec<String> {
        let mut names: Vec<_> =
            fs::read_dir(folder).unwrap().map(|e| e.unwrap().file_name().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    #[test]
    fn an_edition_replaces_the_one_before_and_leaves_nothing_beside_it() {
        let dir = tempfile::tempdir().unwrap();
        let into = dir.path().join("Larkmoor notes, ü");
        bind(&pages("first"), "1", &into).unwrap();
        let mut second = pages("second");
        second.remove("lesson/a.html");
        bind(&second, "2", &into).unwrap();
        assert_eq!(fs::read_to_string(into.join("index.html")).unwrap(), "second");
        assert!(!into.join("lesson").exists());
        assert_eq!(entries(dir.path()), ["Larkmoor notes, ü"]);
    }

    #[test]
    fn a_folder_that_is_not_ours_is_left_alone() {
        let dir = tempfile::tempdir().unwrap();
        fs::write(dir.path().join("taxes.ods"), "x").unwrap();
        assert!(matches!(bind(&pages("a"), "1", dir.path()), Err(BindError::NotOurs(_))));
        assert_eq!(entries(dir.path()), ["taxes.ods"]);
    }

    #[test]
    fn a_bind_that_fails_leaves_the_edition_before() {
        let dir = tempfile::tempdir().unwrap();
        let into = dir.path().join("bound");
        bind(&pages("first"), "1", &into).unwrap();
        let mut bad = pages("second");
        bad.insert("index.html/x".to_owned(), b"a file can't be a folder".to_vec());
        let error = bind(&bad, "2", &into).unwrap_err();
        assert!(matches!(error, BindError::Io { .. }), "{error}");
        assert_eq!(fs::read_to_string(into.join("index.html")).unwrap(), "first");
        assert_eq!(entries(dir.path()), ["bound"]);
    }

    #[test]
    fn what_a_killed_run_left_is_cleared_and_what_a_living_one_holds_is_not() {
        let dir = tempfile::tempdir().unwrap();
        let dead = dir.path().join(".bound.binding-1-0");
        fs::create_dir(&dead).unwrap();
        fs::write(dead.join(LOCK), "").unwrap();
        fs::create_dir_all(dead.join("fresh/lesson")).unwrap();
        let unlocked = dir.path().join(".bound.binding-2-0");
        fs::create_dir(&unlocked).unwrap();
        let alive = Workshop::open(dir.path(), "bound").unwrap();
        bind(&pages("a"), "1", &dir.path().join("bound")).unwrap();
        assert!(!dead.exists());
        assert!(!unlocked.exists());
        assert!(alive.path.exists());
    }
}
