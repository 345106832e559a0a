//! `name-not-portable` and `names-differ-in-case`: a file whose page some machine could not hold.
//!
//! A page is named after its file, and a bound handbook is carried to machines of every kind. Windows keeps some names for
//! devices and some characters for itself, and it and others take `Bulb` and `bulb` for one.
//!
//! Trips: `lessons/fitting/con.md`. Mended: `lessons/fitting/condenser.md`.

use crate::handbook::{Finding, Handbook, SourceFile, Span};
use std::collections::BTreeMap;

/// Folders whose files have pages, or lie in the bound folder, under their own names.
const NAMED: [&str; 5] = ["lessons", "trees", "sheets", "practice", "pictures"];

/// Bytes that a name may have: the ending of its page and a folder or two must fit beside it.
const MOST: usize = 200;

/// Looks at the names of files.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) {
    let mut known: BTreeMap<(&str, String), (&str, Span)> = BTreeMap::new();
    for (id, file) in book.files.iter() {
        let Some((folder, stem)) = named(file) else { continue };
        let at = Span { file: id, start: 0, end: 0 };
        if let Some(why) = not_portable(stem) {
            findings.push(
                Finding::error("name-not-portable", at, format!("a file can't be called `{stem}` everywhere: {why}"))
                    .instead("give it a name of letters, digits and hyphens, and lead the links to it there"),
            );
        }
        let other = known.insert((folder, stem.to_lowercase()), (stem, at));
        if let Some((other, seen)) = other.filter(|(other, _)| *other != stem) {
            findings.push(
                Finding::error(
                    "names-differ-in-case",
                    at,
                    format!("`{stem}` and `{other}` are one name on some machines"),
                )
                .seen(seen, "the other one")
                .instead("give one of them another name, not only other capitals"),
            );
        }
    }
}

fn named(file: &SourceFile) -> Option<(&str, &str)> {
    let (folder, name) = (file.path.split('/').next()?, file.path.rsplit('/').next()?);
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    NAMED.contains(&folder).then_some((folder, stem))
}

fn not_portable(stem: &str) -> Option<String> {
    let device = stem.split('.').next().unwrap_or("").trim_end().to_ascii_lowercase();
    let numbered =
        |word: &str| device.strip_prefix(word).is_some_and(|n| n.len() == 1 && n.bytes().all(|b| b.is_ascii_digit()));
    if ["con", "prn", "aux", "nul"].contains(&device.as_str()) || numbered("com") || numbered("lpt") {
        return Some("Windows keeps it for a device".to_owned());
    }
    if let Some(kept) = stem.chars().find(|c| c.is_control() || "<>:\"\\|?*".contains(*c)) {
        return Some(format!("Windows keeps `{}` for itself", kept.escape_default()));
    }
    if stem.ends_with(['.', ' ']) || stem.starts_with(' ') {
        return Some("a dot or space at its end gets lost".to_owned());
    }
    (stem.len() > MOST).then(|| format!("it has {} bytes, and {MOST} are the most", stem.len()))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::Files;

    fn found(paths: &[&str]) -> Vec<&'static str> {
        let mut files = Files::default();
        for path in paths {
            files.add(*path, "");
        }
        let mut findings = Vec::new();
        examine(&Handbook { files, ..Handbook::default() }, &mut findings);
        findings.into_iter().map(|finding| finding.name).collect()
    }

    #[test]
    fn names_that_some_machine_can_not_hold_are_found() {
        let long = format!("lessons/a/{}.md", "a".repeat(MOST + 1));
        for path in [
            "lessons/a/con.md",
            "trees/Aux.yaml",
            "lessons/a/com1.old.md",
            "lessons/a/a:b.md",
            "sheets/a?.yaml",
            "lessons/a/a..md",
            "pictures/a .svg",
            &long,
        ] {
            assert_eq!(found(&[path]), ["name-not-portable"], "{path}");
        }
        for path in [
            "lessons/a/condenser.md",
            "lessons/a/com.md",
            "lessons/a/冷凍.md",
            "lessons/a/a b.md",
            "values.yaml",
            "refrigerants/R-410A.yaml",
        ] {
            assert_eq!(found(&[path]), Vec::<&str>::new(), "{path}");
        }
        assert_eq!(found(&["lessons/a/Bulb.md", "lessons/b/bulb.md"]), ["names-differ-in-case"]);
        assert_eq!(found(&["lessons/a/bulb.md", "trees/Bulb.yaml"]), Vec::<&str>::new());
    }
}
