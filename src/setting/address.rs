//! Where every page lies in a bound handbook, and how one page points at another.
//!
//! Paths have `/` between their parts and are counted from the handbook's folder. Links are always relative, so that a
//! handbook works from a folder, a web server and a phone's storage alike.

use std::fmt::Write;

/// The front board and contents.
pub const FRONT: &str = "index.html";
/// The glossary.
pub(super) const TERMS: &str = "terms.html";
/// Where facts and figures are from.
pub(super) const SOURCES: &str = "sources.html";
/// Standing values.
pub(super) const VALUES: &str = "values.html";
/// The printed index.
pub const WORDS: &str = "words.html";
/// The reference of computations.
pub(super) const COMPUTATIONS: &str = "computations.html";
/// The find leaf.
pub const FIND: &str = "find.html";
/// The keys to problems, where they stand apart; in a folder of their own, so that they can be taken out.
pub const KEYS: &str = "keys/index.html";
/// Carry copies.
pub(super) const CARRY: &str = "carry.html";
/// The carry copy that is the folder itself.
pub const CARRY_FOLDER: &str = "carry/folder.zip";
/// The carry copy that is one page.
pub const CARRY_PAGE: &str = "carry/page.html";
/// The carry copy for readers of electronic books.
pub const CARRY_EPUB: &str = "carry/book.epub";
/// The page that holds every leaf, to be printed.
pub const PRINT: &str = "print.html";
/// What the page to be printed has of style beside the rest: its running heads, chapter by chapter.
pub(super) const PRINT_STYLE: &str = "kit/print.css";
/// The style.
pub const STYLE: &str = "kit/style.css";
/// The script.
pub(super) const SCRIPT: &str = "kit/script.js";
/// The icon, which a theme has in its `kit/`.
pub(super) const ICON: &str = "kit/icon.svg";
/// What a phone needs to know to put the handbook among its programs.
pub(super) const MANIFEST: &str = "edition.webmanifest";
/// What Find reads first: where the parts of its index begin.
pub(super) const FIND_INDEX: &str = "kit/find.js";

/// A part of the index that Find looks in.
pub(super) fn find_part(name: &str) -> String {
    format!("kit/find/{name}.js")
}

/// What forms reckon with.
pub(super) const RECKONER: &str = "kit/reckon.js";

/// A computation's page.
pub(super) fn computation(name: &str) -> String {
    format!("computation/{name}.html")
}

/// The script of a computation.
pub(super) fn sum(name: &str) -> String {
    format!("kit/sum/{name}.js")
}

/// The script of a refrigerant's tables.
pub(super) fn fluid(designation: &str) -> String {
    format!("kit/fluid/{}.js", fluid_file(designation))
}

/// The name of that script without its ending, safe in an address.
pub(super) fn fluid_file(designation: &str) -> String {
    designation.to_lowercase().chars().map(|c| if c.is_ascii_alphanumeric() { c } else { '-' }).collect()
}

/// A lesson's page.
pub(super) fn lesson(name: &str) -> String {
    format!("lesson/{name}.html")
}

/// A tree's page.
pub(super) fn tree(name: &str) -> String {
    format!("tree/{name}.html")
}

/// A job sheet's page.
pub(super) fn sheet(name: &str) -> String {
    format!("sheet/{name}.html")
}

/// A problem set's page.
pub(super) fn problem_set(name: &str) -> String {
    format!("practice/{name}.html")
}

/// A refrigerant's page.
pub(super) fn refrigerant(designation: &str) -> String {
    format!("refrigerant/{}.html", designation.to_lowercase())
}

/// The link that leads from the page `from` to `to`, which may name an anchor after `#`.
pub(super) fn href(from: &str, to: &str) -> String {
    let (file, anchor) = to.split_once('#').map_or((to, None), |(file, anchor)| (file, Some(anchor)));
    let mut link = String::new();
    if file != from || anchor.is_none() {
        let (from_folder, _) = from.rsplit_once('/').unwrap_or(("", from));
        let (to_folder, to_name) = file.rsplit_once('/').unwrap_or(("", file));
        if from_folder != to_folder {
            for _ in from_folder.split('/').filter(|part| !part.is_empty()) {
                link.push_str("../");
            }
            if !to_folder.is_empty() {
                encode(to_folder, &mut link);
                link.push('/');
            }
        }
        encode(to_name, &mut link);
    }
    if let Some(anchor) = anchor {
        link.push('#');
        encode(anchor, &mut link);
    }
    link
}

/// Percent-encodes what may not stand in a path or fragment (RFC 3986, pchar and `/`).
fn encode(text: &str, out: &mut String) {
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || b"-._~!$()*+,;=@/".contains(&byte) {
            out.push(char::from(byte));
        } else {
            // Writing into a string cannot fail.
            let _ = write!(out, "%{byte:02X}");
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn links_are_relative() {
        assert_eq!(href("index.html", "lesson/bulb.html"), "lesson/bulb.html");
        assert_eq!(href("lesson/bulb.html", "lesson/superheat.html#s2"), "superheat.html#s2");
        assert_eq!(href("lesson/bulb.html", "tree/high.html"), "../tree/high.html");
        assert_eq!(href("lesson/bulb.html", "index.html"), "../index.html");
        assert_eq!(href("lesson/bulb.html", "lesson/bulb.html#w1"), "#w1");
    }

    #[test]
    fn odd_names_are_encoded() {
        assert_eq!(href("index.html", "lesson/a b\"c.html"), "lesson/a%20b%22c.html");
        assert_eq!(href("index.html", "refrigerant/r-1234ze(e).html"), "refrigerant/r-1234ze(e).html");
    }
}
