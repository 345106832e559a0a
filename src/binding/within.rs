//! What the one page carries within itself instead of fetching it: scripts, and the style with its fonts.
//!
//! Scripts that leaves name are run when the page is opened, in the order in which the leaves name them. The other scripts
//! of `kit/` are those that a script fetches when they are wanted, as parts of an index or tables of a refrigerant; they are
//! laid by as text under their paths, and the script of the copy hands them out.

use super::copies::{Book, CopyError};
use super::keeper::digest;
use super::markup::{Piece, target};
use super::page::{escaped, lacks};
use crate::setting::STYLE;
use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use std::fmt::Write;

/// Scripts of the one page.
#[derive(Default)]
pub(super) struct Scripts {
    /// Paths of those that are run at once, in order.
    named: Vec<String>,
}

impl Scripts {
    /// Takes up the scripts that the leaf at `path` names.
    pub(super) fn take_up(&mut self, path: &str, pieces: &[Piece<'_>]) {
        for piece in pieces {
            let Piece::Open(tag) = piece else { continue };
            let Some(src) = tag.attribute("src").filter(|_| tag.name == "script") else { continue };
            if let Some((script, _)) = target(path, src)
                && !self.named.contains(&script)
            {
                self.named.push(script);
            }
        }
    }

    /// The elements that hold all scripts, `show` as the last, and the digests of what may be run.
    pub(super) fn write(&self, book: &Book<'_>, show: &str) -> Result<(String, String), CopyError> {
        let later = book.files.keys().filter(|path| path.starts_with("kit/") && path.ends_with(".js"));
        let later = later.filter(|path| !self.named.contains(path));
        let (mut out, mut runs) = (String::new(), String::new());
        let mut put = |attributes: &str, text: &str| {
            // Writing into a string cannot fail.
            let _ = writeln!(out, "<script{attributes}>{text}</script>");
            let _ = write!(runs, " '{}'", digest(text.as_bytes()));
        };
        for path in later {
            let text = closed_off(book.text(path)?, "script", path)?;
            put(&format!(" type=\"text/plain\" data-path=\"{}\"", escaped(path)), text);
        }
        for path in &self.named {
            put("", closed_off(book.text(path)?, "script", path)?);
        }
        put("", closed_off(show, "script", "copies/page.js")?);
        Ok((out, runs))
    }
}

/// The style with its fonts and pictures inside it.
pub(super) fn style(book: &Book<'_>) -> Result<String, CopyError> {
    let text = closed_off(book.text(STYLE)?, "style", STYLE)?;
    let mut parts = text.split("url(");
    let mut out = parts.next().unwrap_or("").to_owned();
    for part in parts {
        let (named, rest) = part.split_once(')').unwrap_or((part, ""));
        let plain = named.trim().trim_matches(['"', '\'']);
        out.push_str("url(");
        match target(STYLE, plain).filter(|_| !plain.starts_with('#')) {
            Some((path, _)) => out.push_str(&data(book, &path)?),
            None => out.push_str(named),
        }
        out.push(')');
        out.push_str(rest);
    }
    Ok(out)
}

/// The file at `path` as an address that holds it.
pub(super) fn data(book: &Book<'_>, path: &str) -> Result<String, CopyError> {
    let bytes = book.files.get(path).ok_or_else(|| lacks(path, "bytes"))?;
    let kind = data_kind(path).ok_or_else(|| lacks(path, "kind of picture or font that is known"))?;
    Ok(format!("data:{kind};base64,{}", STANDARD.encode(bytes)))
}

/// The media type of a picture, by the ending of its name.
pub(super) fn picture_kind(path: &str) -> Option<&'static str> {
    data_kind(path).filter(|kind| kind.starts_with("image/"))
}

fn data_kind(path: &str) -> Option<&'static str> {
    let ending = path.rsplit_once('.').map(|(_, ending)| ending.to_ascii_lowercase())?;
    Some(match ending.as_str() {
        "svg" => "image/svg+xml",
        "png" => "image/png",
        "jpg" | "jpeg" => "image/jpeg",
        "webp" => "image/webp",
        "woff2" => "font/woff2",
        _ => return None,
    })
}

/// `text` as it may stand in a `name` element, which nothing but its end may end.
fn closed_off<'a>(text: &'a str, name: &str, path: &str) -> Result<&'a str, CopyError> {
    let lower = text.to_ascii_lowercase();
    if lower.contains(&format!("</{name}")) || lower.contains("<!--") {
        return Err(lacks(path, "text that may stand in a page"));
    }
    Ok(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::binding::PageFiles;
    use crate::binding::markup::pieces;
    use crate::handbook::Front;

    fn with(files: &[(&str, &str)], look: impl FnOnce(&Book<'_>)) {
        let files: PageFiles =
            files.iter().map(|(path, text)| ((*path).to_owned(), text.as_bytes().to_vec())).collect();
        look(&Book { front: &Front::default(), language: "en-US", files: &files, outline: &[] });
    }

    #[test]
    fn scripts_are_run_in_the_order_of_the_leaves_and_others_are_laid_by() {
        let files = [
            ("kit/script.js", "one();"),
            ("kit/form.js", "two();"),
            ("kit/fluid/r-410a.js", "later();"),
            ("keeper.js", "never();"),
        ];
        with(&files, |book| {
            let mut scripts = Scripts::default();
            let page = pieces("<script src=\"../kit/script.js\"></script><script src=\"../kit/form.js\"></script>");
            scripts.take_up("lesson/a.html", &page.unwrap());
            scripts.take_up("index.html", &pieces("<script src=\"kit/script.js\"></script>").unwrap());
            let (html, runs) = scripts.write(book, "show();").unwrap();
            assert_eq!(
                html,
                "<script type=\"text/plain\" data-path=\"kit/fluid/r-410a.js\">later();</script>\n\
                 <script>one();</script>\n<script>two();</script>\n<script>show();</script>\n"
            );
            assert_eq!(runs.matches("sha256-").count(), 4);
        });
    }

    #[test]
    fn a_style_carries_its_fonts() {
        let style_text = "@font-face{src:url(a.woff2) format(\"woff2\")}i{background:url(\"data:image/png;base64,AA\")}b{fill:url(#x)}";
        with(&[(STYLE, style_text), ("kit/a.woff2", "abc")], |book| {
            assert_eq!(
                style(book).unwrap(),
                "@font-face{src:url(data:font/woff2;base64,YWJj) format(\"woff2\")}\
                 i{background:url(\"data:image/png;base64,AA\")}b{fill:url(#x)}"
            );
        });
    }

    #[test]
    fn what_would_end_its_own_element_is_refused() {
        let error = closed_off("a('</SCRIPT>')", "script", "kit/script.js").unwrap_err();
        assert!(matches!(error, CopyError::Lacks { .. }), "{error}");
    }
}
