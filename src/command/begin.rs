//! `coldpress begin DIR`: a new handbook folder, small but complete: it proofs and binds as it is.

use super::{Failure, Outcome, say};
use include_dir::{Dir, DirEntry, include_dir};
use std::fs;
use std::path::Path;

/// The folder that is laid out: a small handbook that teaches the format by being read.
static STARTER: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/src/command/starter");

/// Lays out a new handbook in `dir`, which must not hold anything yet.
///
/// # Errors
/// Wrong usage where something stands there; the machine where it can't be written, and then nothing is left.
pub(super) fn begin(dir: &Path) -> Result<Outcome, Failure> {
    let taken = dir.exists() && fs::read_dir(dir).map(|mut entries| entries.next().is_some()).unwrap_or(true);
    if taken {
        return Err(Failure::usage(format!(
            "`{}` is not empty; name a new folder, so that nothing in it is lost",
            dir.display()
        )));
    }
    let parent = dir.parent().filter(|p| !p.as_os_str().is_empty()).unwrap_or(Path::new("."));
    let name = dir.file_name().ok_or_else(|| Failure::usage(format!("`{}` can't hold a handbook", dir.display())))?;
    fs::create_dir_all(parent).map_err(|e| Failure::machine("make the folder", parent, &e))?;
    let fresh = parent.join(format!(".{}.beginning-{}", name.to_string_lossy(), std::process::id()));
    let written = write(&STARTER, &fresh).and_then(|()| {
        if dir.exists() {
            fs::remove_dir(dir).map_err(|e| Failure::machine("replace the empty folder", dir, &e))?;
        }
        fs::rename(&fresh, dir).map_err(|e| Failure::machine("put in place", dir, &e))
    });
    if written.is_err() {
        let _ = fs::remove_dir_all(&fresh);
    }
    written?;
    let shown = dir.display();
    say(&format!(
        "A new handbook lies in {shown}. It proofs and binds as it is:\n  coldpress proof {shown}\n  coldpress bind {shown}"
    ));
    Ok(Outcome::Fine)
}

fn write(from: &Dir<'_>, to: &Path) -> Result<(), Failure> {
    fs::create_dir_all(to).map_err(|e| Failure::machine("make the folder", to, &e))?;
    for entry in from.entries() {
        let Some(name) = entry.path().file_name() else { continue };
        let path = to.join(name);
        match entry {
            DirEntry::Dir(dir) => write(dir, &path)?,
            DirEntry::File(file) => {
                fs::write(&path, file.contents()).map_err(|e| Failure::machine("write", &path, &e))?;
            }
        }
    }
    Ok(())
}
