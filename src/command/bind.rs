//! `coldpress bind [DIR]`: proof, then write the handbook; nothing is written where proofing finds an error.

use super::proof::{checked_text, proofed, tell};
use super::theme::{Dressed, theme};
use super::{Failure, Outcome, Progress, count_text, say};
use crate::binding::{self, BindError};
use crate::setting;
use std::path::Path;
use std::time::Instant;

const DRESSED: &str = "Set in Playfair and Archivo, which lie in kit/ with their licenses.";
const UNDRESSED: &str =
    "Set in the reader's own fonts; `npm ci --prefix themes/pocketbook` brings the two it is drawn for.";

/// Binds the handbook in `dir` into the folder `into`, and says what was made.
///
/// # Errors
/// Wrong usage where `into` is not ours to replace; the machine, where something can't be read or written. Whatever stood
/// in `into` stands there still.
pub(super) fn bind(dir: &Path, into: &Path) -> Result<Outcome, Failure> {
    let begun = Instant::now();
    let (mut book, mut proof) = proofed(dir)?;
    let Dressed { theme, in_its_fonts } = theme(dir, &mut book, &mut proof)?;
    tell(&book, &proof.findings);
    if !proof.holds() {
        say(&format!("Not bound: {}. {}", count_text(&proof.findings), kept_text(into)));
        return Ok(Outcome::Findings);
    }
    let progress = Progress::begin();
    progress.step("setting");
    let pages = setting::set(&book, &proof, &theme).map_err(|error| Failure::Machine(error.to_string()))?;
    progress.step("binding");
    let files = binding::with_copies(pages, &book, &theme).map_err(|error| Failure::Machine(error.to_string()))?;
    binding::bind(&files, &edition_text(&book.front), into).map_err(|error| match error {
        BindError::Io { .. } => Failure::Machine(error.to_string()),
        BindError::NotOurs(_) | BindError::NoName(_) => Failure::usage(error.to_string()),
    })?;
    drop(progress);
    let first = std::path::absolute(into.join("index.html")).unwrap_or_else(|_| into.join("index.html"));
    say(&format!(
        "Bound in {:.1} s: {} pages; {}; {}.\n{}\nOpen {}",
        begun.elapsed().as_secs_f64(),
        files.keys().filter(|path| path.ends_with(".html") && !path.starts_with("carry/")).count(),
        checked_text(&book, &proof),
        count_text(&proof.findings),
        if in_its_fonts { DRESSED } else { UNDRESSED },
        first.display(),
    ));
    Ok(Outcome::Fine)
}

fn kept_text(into: &Path) -> String {
    if into.exists() {
        format!("The edition in {} is as it was.", into.display())
    } else {
        "Nothing was written.".to_owned()
    }
}

/// The bound folder's `edition.txt`.
fn edition_text(front: &crate::handbook::Front) -> String {
    format!("{}\n{}\nedition {}\n\nOpen index.html\n", front.title, front.house, front.edition)
}
