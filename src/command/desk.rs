//! `coldpress desk [DIR]`: the handbook on this machine's own address, in step with its files, until it is stopped.

use super::host::stop_on_signals;
use super::proof::proofed;
use super::theme::{Dressed, theme};
use super::{Failure, Outcome, count_text, findings_text, say};
use crate::handbook::{Files, Finding};
use crate::serving::{Desk, Load, Loaded, Tell, Told};
use std::collections::BTreeSet;
use std::io::{self, IsTerminal, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, PoisonError};

/// Shows the handbook in `dir` at `port`.
///
/// # Errors
/// Wrong usage where there is no such folder; the machine where the port can't be had.
pub(super) fn desk(dir: &Path, port: u16) -> Result<Outcome, Failure> {
    if !dir.is_dir() {
        let missing = format!("there is no folder `{}`; `coldpress begin DIR` lays out a new handbook", dir.display());
        return Err(Failure::usage(missing));
    }
    let folder: PathBuf = dir.to_owned();
    let load: Load = Arc::new(move || loaded(&folder));
    let desk = Desk::open(dir, port, load)
        .map_err(|error| Failure::Machine(format!("could not listen at port {port}: {error}")))?;
    stop_on_signals(desk.stopper())?;
    say(&format!("Open http://{}/\nThe pages follow the files in {}. Ctrl-C stops.", desk.address(), dir.display()));
    let known = Mutex::new(BTreeSet::new());
    let tell: Tell = Box::new(move |told| match told {
        Told::Turned { lessons, files, findings, took } => {
            let mut known = known.lock().unwrap_or_else(PoisonError::into_inner);
            tell_new(files, findings, &mut known);
            let what = if lessons.is_empty() { "The handbook".to_owned() } else { lessons.join(", ") };
            let took = took.as_secs_f64() * 1e3;
            say(&format!("{what}: set in {took:.0} ms; {} in all.", count_text(findings)));
        }
        Told::Unread(why) => say(&format!("Not read: {why}. The pages are as they were before.")),
    });
    desk.serve(tell);
    Ok(Outcome::Fine)
}

fn loaded(dir: &Path) -> Result<Loaded, String> {
    let words = |failure| match failure {
        Failure::Usage(says) | Failure::Machine(says) => says,
    };
    let (mut book, mut proof) = proofed(dir).map_err(words)?;
    let Dressed { theme, .. } = theme(dir, &mut book, &mut proof).map_err(words)?;
    Ok(Loaded { book, proof, theme })
}

/// Tells the findings that have not been told yet, and forgets those that are mended.
fn tell_new(files: &Files, findings: &[Finding], known: &mut BTreeSet<String>) {
    let mut err = anstream::AutoStream::auto(io::stderr());
    let colored = io::stderr().is_terminal();
    let texts: Vec<String> =
        findings.iter().map(|finding| findings_text(files, std::slice::from_ref(finding), colored)).collect();
    for text in texts.iter().filter(|text| !known.contains(*text)) {
        // Where standard error is gone there is nobody to tell.
        let _ = err.write_all(text.as_bytes());
    }
    *known = texts.into_iter().collect();
}
