//! `coldpress proof [DIR]`: everything read and reckoned again, nothing written.

use super::theme::theme;
use super::{Failure, Outcome, Progress, count_text, findings_text, say};
use crate::handbook::{Finding, Handbook};
use crate::proofing::{self, Proof};
use crate::reading;
use std::io::{self, IsTerminal, Write};
use std::path::Path;

/// Proofs the handbook in `dir` and says what was found.
///
/// # Errors
/// The machine, where the folder can't be read.
pub(super) fn proof(dir: &Path) -> Result<Outcome, Failure> {
    let (mut book, mut proof) = proofed(dir)?;
    theme(dir, &mut book, &mut proof)?;
    tell(&book, &proof.findings);
    say(&format!("{}: {}.", checked_text(&book, &proof), count_text(&proof.findings)));
    Ok(if proof.holds() { Outcome::Fine } else { Outcome::Findings })
}

/// Reads and proofs the handbook in `dir`.
pub(super) fn proofed(dir: &Path) -> Result<(Handbook, Proof), Failure> {
    let progress = Progress::begin();
    progress.step("reading");
    let layers = reading::read_pile(dir).map_err(|error| match error {
        reading::FolderError::Missing(_) => {
            Failure::usage(format!("{error}; `coldpress begin DIR` lays out a new handbook"))
        }
        other => Failure::Machine(other.to_string()),
    })?;
    let (book, findings) = reading::read_layers(layers);
    progress.step("proofing");
    let proof = proofing::proof(&book, findings);
    Ok((book, proof))
}

/// Shows findings on standard error.
pub(super) fn tell(book: &Handbook, findings: &[Finding]) {
    let mut err = anstream::AutoStream::auto(io::stderr());
    let colored = io::stderr().is_terminal();
    // Where standard error is gone there is nobody to tell.
    let _ = err.write_all(findings_text(&book.files, findings, colored).as_bytes());
}

/// What was gone through, in words.
pub(super) fn checked_text(book: &Handbook, proof: &Proof) -> String {
    format!(
        "{} lessons, {} figures witnessed, {} tables reckoned, {} trees proved, {} links followed",
        book.lessons.len(),
        proof.figures_witnessed(),
        proof.tables.len(),
        book.trees.len(),
        book.links().count(),
    )
}
