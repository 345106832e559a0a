//! Word of changes as they happen, from the system that files are kept by.
//!
//! Only that something changed is taken from it: what, is looked up. A system that gives no word, or a folder that is taken
//! away and put back, is no failure, because the loop looks over the folders once a second all the same.

use super::Sign;
use notify::event::{AccessKind, AccessMode, EventKind};
use notify::{RecommendedWatcher, RecursiveMode, Watcher};
use std::path::{Path, PathBuf};
use std::sync::mpsc::Sender;

/// Watches folders, each with all that is below it.
pub(super) struct Lookout {
    watching: Vec<(PathBuf, Option<u64>)>,
    /// Watches as long as it is kept.
    _watcher: Option<RecommendedWatcher>,
}

impl Lookout {
    pub(super) fn over(folders: &[PathBuf], signs: Sender<Sign>) -> Self {
        let watcher = notify::recommended_watcher(move |event: notify::Result<notify::Event>| {
            // What a look itself does, opening files and folders, is no change. An event that was lost is one.
            if event.map_or(true, |event| changes(event.kind)) {
                // A loop that has ended listens no more.
                let _ = signs.send(Sign::Look);
            }
        });
        let mut watcher = watcher.ok();
        for folder in folders {
            if let Some(watcher) = &mut watcher {
                // A folder that is not there is found when it is: see above.
                let _ = watcher.watch(folder, RecursiveMode::Recursive);
            }
        }
        Self { watching: known(folders), _watcher: watcher }
    }

    /// Watches anew where the folders are others, by name or in truth.
    pub(super) fn keep_up(&mut self, folders: &[PathBuf], signs: &Sender<Sign>) {
        if known(folders) != self.watching {
            *self = Self::over(folders, signs.clone());
            let _ = signs.send(Sign::Look);
        }
    }
}

fn changes(kind: EventKind) -> bool {
    !matches!(kind, EventKind::Access(access) if access != AccessKind::Close(AccessMode::Write))
}

fn known(folders: &[PathBuf]) -> Vec<(PathBuf, Option<u64>)> {
    folders.iter().map(|folder| (folder.clone(), number_of(folder))).collect()
}

/// The number by which the system knows a folder, so that one put in its place is told from it.
#[cfg(unix)]
fn number_of(folder: &Path) -> Option<u64> {
    use std::os::unix::fs::MetadataExt;
    std::fs::metadata(folder).ok().map(|folder| folder.ino())
}

#[cfg(not(unix))]
fn number_of(folder: &Path) -> Option<u64> {
    folder.is_dir().then_some(0)
}
