//! A set page taken apart into its tags and texts, so that a copy can be put together from it.
//!
//! Takes markup as `setting` writes it: every element that is opened is closed, quotes stand round values, and what is
//! text is escaped. What is written otherwise is refused rather than guessed at. Texts and values are handed on as they are
//! written, escapes and all.

/// A piece of a page.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) enum Piece<'a> {
    /// Text between tags, as written; the inside of a script or style too.
    Text(&'a str),
    /// `<name …>`.
    Open(Tag<'a>),
    /// `</name>`.
    Close(&'a str),
}

/// An opening tag.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Tag<'a> {
    pub(super) name: &'a str,
    /// Names and values as written; no value where there is only a name.
    pub(super) attributes: Vec<(&'a str, Option<&'a str>)>,
    /// Nothing stands inside and no closing tag follows: `<br>`, `<path/>`.
    pub(super) alone: bool,
}

impl<'a> Tag<'a> {
    /// The value of the attribute `name`.
    pub(super) fn attribute(&self, name: &str) -> Option<&'a str> {
        self.attributes.iter().find(|(known, _)| *known == name).and_then(|(_, value)| *value)
    }

    /// Whether `class` is one of its classes.
    pub(super) fn has_class(&self, class: &str) -> bool {
        self.attribute("class").is_some_and(|classes| classes.split_ascii_whitespace().any(|known| known == class))
    }
}

/// Markup that is not as it is expected.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[error("{what} at byte {at}")]
pub struct MarkupError {
    /// What is wrong.
    pub what: String,
    /// Where.
    pub at: usize,
}

/// Elements of HTML that have no inside.
const ALONE: [&str; 14] =
    ["area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "param", "source", "track", "wbr"];

/// Takes a page apart.
///
/// # Errors
/// [`MarkupError`] where a tag is not whole, or one is closed that was not the last opened.
pub(super) fn pieces(page: &str) -> Result<Vec<Piece<'_>>, MarkupError> {
    let mut pieces = Vec::new();
    let mut open: Vec<&str> = Vec::new();
    let mut at = 0;
    let fail = |at: usize, what: String| MarkupError { what, at };
    while at < page.len() {
        let rest = &page[at..];
        // The inside of a script is text up to its end, whatever it looks like.
        let raw = open.last().filter(|name| matches!(**name, "script" | "style"));
        let text_end = match raw {
            Some(name) => rest.find(&format!("</{name}")),
            None => rest.find('<'),
        }
        .unwrap_or(rest.len());
        if text_end > 0 {
            pieces.push(Piece::Text(&rest[..text_end]));
            at += text_end;
            continue;
        }
        if let Some(comment) = rest.strip_prefix("<!--") {
            let end = comment.find("-->").ok_or_else(|| fail(at, "a comment without end".to_owned()))?;
            at += end + 7;
        } else if rest.starts_with("<!") || rest.starts_with("<?") {
            at += 1 + rest.find('>').ok_or_else(|| fail(at, "a declaration without end".to_owned()))?;
        } else if let Some(closing) = rest.strip_prefix("</") {
            let end = closing.find('>').ok_or_else(|| fail(at, "a tag without end".to_owned()))?;
            let name = closing[..end].trim_end();
            let last = open.pop();
            if last != Some(name) {
                let last = last.map_or_else(|| "nothing".to_owned(), |last| format!("`{last}`"));
                return Err(fail(at, format!("`{name}` is closed where {last} is open")));
            }
            pieces.push(Piece::Close(name));
            at += end + 3;
        } else {
            let (tag, length) = tag(rest).map_err(|what| fail(at, what))?;
            if !tag.alone {
                open.push(tag.name);
            }
            pieces.push(Piece::Open(tag));
            at += length;
        }
    }
    match open.last() {
        None => Ok(pieces),
        Some(name) => Err(fail(at, format!("`{name}` is never closed"))),
    }
}

/// The tag that `text` begins with, and its length.
fn tag(text: &str) -> Result<(Tag<'_>, usize), String> {
    let is_name = |b: u8| b.is_ascii_alphanumeric() || matches!(b, b'-' | b'_' | b':' | b'.');
    let bytes = text.as_bytes();
    let name_end = 1 + bytes[1..].iter().take_while(|b| is_name(**b)).count();
    let name = &text[1..name_end];
    if name.is_empty() {
        return Err("a `<` that opens no tag".to_owned());
    }
    let mut attributes = Vec::new();
    let mut at = name_end;
    loop {
        at += bytes[at..].iter().take_while(|b| b.is_ascii_whitespace()).count();
        match bytes.get(at) {
            None => return Err(format!("`{name}` without its `>`")),
            Some(b'>') => {
                return Ok((Tag { name, attributes, alone: ALONE.contains(&name) }, at + 1));
            }
            Some(b'/') if bytes.get(at + 1) == Some(&b'>') => {
                return Ok((Tag { name, attributes, alone: true }, at + 2));
            }
            Some(_) => {}
        }
        let key_end = at + bytes[at..].iter().take_while(|b| is_name(**b)).count();
        let key = &text[at..key_end];
        if key.is_empty() {
            return Err(format!("something that is no attribute in `{name}`"));
        }
        at = key_end;
        if bytes.get(at) != Some(&b'=') {
            attributes.push((key, None));
            continue;
        }
        let quote = match bytes.get(at + 1) {
            Some(b'"') => '"',
            Some(b'\'') => '\'',
            _ => return Err(format!("`{key}` of `{name}` without quotes")),
        };
        let value = &text[at + 2..];
        let end = value.find(quote).ok_or_else(|| format!("`{key}` of `{name}` without its closing quote"))?;
        attributes.push((key, Some(&value[..end])));
        at += end + 3;
    }
}

/// The first element that `wanted` is true of, with its own tags.
pub(super) fn element<'a, 'p>(pieces: &'p [Piece<'a>], wanted: impl Fn(&Tag<'a>) -> bool) -> Option<&'p [Piece<'a>]> {
    let start = pieces.iter().position(|piece| matches!(piece, Piece::Open(tag) if !tag.alone && wanted(tag)))?;
    pieces.get(start..=closed_at(pieces, start)?)
}

/// The pieces inside that element.
pub(super) fn inside<'a, 'p>(pieces: &'p [Piece<'a>], wanted: impl Fn(&Tag<'a>) -> bool) -> Option<&'p [Piece<'a>]> {
    let whole = element(pieces, wanted)?;
    whole.get(1..whole.len() - 1)
}

/// Where the element that is opened at `start` is closed.
pub(super) fn closed_at(pieces: &[Piece<'_>], start: usize) -> Option<usize> {
    let mut depth = 0_usize;
    for (i, piece) in pieces.iter().enumerate().skip(start) {
        match piece {
            Piece::Open(tag) if !tag.alone => depth += 1,
            Piece::Close(_) => depth = depth.checked_sub(1)?,
            _ => {}
        }
        if depth == 0 {
            return Some(i);
        }
    }
    None
}

/// Where the link `href` on the page `from` leads within the handbook: path and anchor, each decoded. None where it leads
/// outside.
pub(super) fn target(from: &str, href: &str) -> Option<(String, Option<String>)> {
    let href = href.replace("&amp;", "&");
    let (file, anchor) = href.split_once('#').map_or((href.as_str(), None), |(file, anchor)| (file, Some(anchor)));
    let first = file.split(['/', '?']).next().unwrap_or("");
    if first.contains(':') || file.starts_with('/') {
        return None;
    }
    let file = file.split_once('?').map_or(file, |(file, _)| file);
    let decoded = |text: &str| percent_encoding::percent_decode_str(text).decode_utf8_lossy().into_owned();
    let anchor = anchor.map(decoded);
    if file.is_empty() {
        return Some((from.to_owned(), anchor));
    }
    let mut parts: Vec<&str> = from.split('/').collect();
    parts.pop();
    for part in file.split('/') {
        match part {
            "" | "." => {}
            ".." => {
                parts.pop()?;
            }
            part => parts.push(part),
        }
    }
    Some((decoded(&parts.join("/")), anchor))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_page_comes_apart_and_nothing_is_lost() {
        let page = "<!DOCTYPE html>\n<p class=\"a b\" hidden>1 &lt; 2<br><!-- <no> --><svg viewBox='0 0 1 1'><path d=\"M0 0\"/></svg></p><script>if (a < b) c(\"</p>\");</script>";
        let pieces = pieces(page).unwrap();
        let Piece::Open(first) = &pieces[1] else { panic!("{pieces:?}") };
        assert!(first.has_class("b") && !first.has_class("a b") && first.attributes[1] == ("hidden", None));
        assert!(pieces.contains(&Piece::Text("if (a < b) c(\"</p>\");")));
        assert!(pieces.contains(&Piece::Text("1 &lt; 2")));
        assert_eq!(pieces.iter().filter(|p| matches!(p, Piece::Close(_))).count(), 3);
        assert_eq!(inside(&pieces, |tag| tag.name == "svg").unwrap().len(), 1);
    }

    #[test]
    fn what_is_not_whole_is_refused() {
        for (page, what) in [
            ("<p>", "`p` is never closed"),
            ("<p></div>", "`div` is closed where `p` is open"),
            ("</p>", "`p` is closed where nothing is open"),
            ("<p class=a></p>", "`class` of `p` without quotes"),
            ("<p class=\"a></p>", "`class` of `p` without its closing quote"),
            ("a < b", "a `<` that opens no tag"),
            ("<p", "`p` without its `>`"),
            ("<!-- a", "a comment without end"),
        ] {
            assert_eq!(pieces(page).unwrap_err().what, what, "{page}");
        }
    }

    #[test]
    fn links_lead_where_they_led() {
        let to = |from: &str, href: &str| target(from, href);
        assert_eq!(to("lesson/a.html", "../tree/b.html#q-1"), Some(("tree/b.html".into(), Some("q-1".into()))));
        assert_eq!(to("lesson/a.html", "#s%202"), Some(("lesson/a.html".into(), Some("s 2".into()))));
        assert_eq!(to("index.html", "lesson/a%20b.html"), Some(("lesson/a b.html".into(), None)));
        assert_eq!(to("index.html", "find.html?for=x"), Some(("find.html".into(), None)));
        assert_eq!(to("index.html", "https://example.org/"), None);
        assert_eq!(to("index.html", "mailto:a@example.org"), None);
        assert_eq!(to("index.html", "../x"), None);
    }
}
