//! Refrigerants that the shell knows by name: those the program brings, and those of a handbook.

use super::Failure;
use crate::fluid::Refrigerant;
use crate::proofing;
use crate::reading;
use include_dir::{Dir, include_dir};
use std::collections::BTreeMap;
use std::path::Path;

/// The demonstration handbook's refrigerants, which the program brings wherever it is run.
static BROUGHT: Dir<'static> = include_dir!("$CARGO_MANIFEST_DIR/content/refrigerants");

/// Refrigerants by designation: those the program brings and, over them, those of the handbook in `handbook`.
///
/// # Errors
/// The machine, where that folder can't be read.
pub(super) fn roster(handbook: Option<&Path>) -> Result<BTreeMap<String, Refrigerant>, Failure> {
    let brought = BROUGHT.files().filter_map(|file| {
        let name = file.path().file_name()?.to_string_lossy();
        Some((format!("refrigerants/{name}"), file.contents_utf8()?.to_owned()))
    });
    let mut roster = built(brought.collect());
    if let Some(dir) = handbook {
        let pile = reading::read_pile(dir).map_err(|error| match error {
            reading::FolderError::Missing(_) => Failure::usage(error.to_string()),
            other => Failure::Machine(other.to_string()),
        })?;
        for layer in pile.into_iter().rev() {
            let ours = layer.texts.into_iter().filter(|(path, _)| path.starts_with("refrigerants/"));
            roster.extend(built(ours.collect()));
        }
    }
    Ok(roster)
}

/// What can be built of these files. What can't is `proof`'s to tell; here it is a name not known.
fn built(mut texts: Vec<(String, String)>) -> BTreeMap<String, Refrigerant> {
    texts.sort();
    let (book, _) = reading::read_files(texts);
    proofing::build_roster(&book, &mut Vec::new())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_refrigerant_the_program_brings_can_be_built() {
        let roster = roster(None).unwrap();
        assert_eq!(roster.len(), BROUGHT.files().count());
        assert!(roster.contains_key("R-454B"));
    }
}
