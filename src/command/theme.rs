//! The theme a handbook is set in: ours, with the handbook's own laid over it, in the fonts that have been installed.

use super::Failure;
use crate::handbook::{Finding, Handbook, Span};
use crate::proofing::Proof;
use crate::reading;
use crate::setting::{FONT_FILES, Theme, ThemeError, ThemeFault};
use std::collections::BTreeMap;
use std::path::Path;

/// A theme, and whether it is dressed in the families it is drawn for.
pub(super) struct Dressed {
    pub(super) theme: Theme,
    pub(super) in_its_fonts: bool,
}

/// The theme of the handbook in `dir`. What is wrong with its own is added to `proof` as a finding, and ours is used.
///
/// # Errors
/// The machine, where a file of the theme or of the fonts can't be read.
pub(super) fn theme(dir: &Path, book: &mut Handbook, proof: &mut Proof) -> Result<Dressed, Failure> {
    let machine = |error: &dyn std::fmt::Display| Failure::Machine(error.to_string());
    let own = reading::read_themes(dir).map_err(|error| machine(&error))?;
    let mut theme = match Theme::of_handbook(&own) {
        Ok(theme) => theme,
        Err(ThemeError::Own(fault)) => {
            proof.findings.push(finding(&fault, &own, book));
            Theme::pocketbook().map_err(|error| machine(&error))?
        }
        Err(error) if !own.is_empty() => {
            let at = ThemeFault {
                path: "words.yaml".to_owned(),
                line: 1,
                column: 1,
                says: error.to_string(),
                instead: None,
            };
            proof.findings.push(finding(&at, &own, book));
            Theme::pocketbook().map_err(|error| machine(&error))?
        }
        Err(error) => return Err(machine(&error)),
    };
    let wanted: Vec<&str> = FONT_FILES.iter().map(|file| file.from).collect();
    let found = reading::read_packages(dir, &wanted).map_err(|error| machine(&error))?;
    let in_its_fonts = found.is_some_and(|mut found| {
        let files: BTreeMap<String, Vec<u8>> =
            FONT_FILES.iter().filter_map(|file| Some((file.to.to_owned(), found.remove(file.from)?))).collect();
        theme.dress_in(files)
    });
    Ok(Dressed { theme, in_its_fonts })
}

/// A fault as a finding that shows the line it is on.
fn finding(fault: &ThemeFault, own: &[reading::OwnTheme], book: &mut Handbook) -> Finding {
    let bytes = own.iter().find_map(|(folder, files)| files.get(fault.path.strip_prefix(folder)?.strip_prefix('/')?));
    let text = bytes.map_or_else(String::new, |bytes| String::from_utf8_lossy(bytes).into_owned());
    let line_start: usize = text.split_inclusive('\n').take(fault.line.saturating_sub(1)).map(str::len).sum();
    let line = text.get(line_start..).and_then(|rest| rest.lines().next()).unwrap_or_default();
    let before: usize = line.chars().take(fault.column.saturating_sub(1)).map(char::len_utf8).sum();
    let start = line_start + before;
    let end = (line_start + line.len()).max(start);
    let file = book.files.add(fault.path.clone(), text);
    Finding::error("theme", Span { file, start, end }, fault.says.clone()).perhaps(fault.instead.clone())
}
