//! `coldpress proof [DIR]`: everything read and reckoned again, nothing written.

use super::theme::theme;
use super::{Failure, Outcome, Progress, count_text, findings_text, say};
use crate::handbook::{Finding, Handbook};
use crate::proofing::{self, Proof};
use crate::reading;
use std::collections::BTreeMap;
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
    for line in estimated_text(&proof) {
        say(&line);
    }
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

/// What rests on an estimate: a line for each rule a blend's pairs were estimated by.
fn estimated_text(proof: &Proof) -> Vec<String> {
    let mut lines = Vec::new();
    for (designation, refrigerant) in &proof.roster {
        let mut by_rule: BTreeMap<&str, (Vec<String>, String)> = BTreeMap::new();
        for pair in refrigerant.pairs() {
            if let Some(rule) = pair.rule {
                let (pairs, _) = by_rule.entry(rule).or_insert_with(|| (Vec::new(), pair.uncertainty));
                pairs.push(format!("{} with {}", pair.first, pair.second));
            }
        }
        for (rule, (pairs, uncertainty)) in by_rule {
            lines.push(format!("{designation}: {}: {uncertainty}; rule: {rule}", pairs.join(", ")));
        }
    }
    lines
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
