//! The whole handbook as one page with everything inside: leaves, style, scripts, pictures, the index of Find.
//!
//! Every leaf becomes a section, its anchors named after it, and links lead to those. Without script the leaves follow one
//! another; with it one is shown at a time and everything works as it does in the folder. The page says for itself what it
//! may run: the scripts that are in it, and nothing from anywhere else.

use super::copies::{Book, CopyError};
use super::keeper::digest;
use super::markup::{Piece, Tag, closed_at, inside, pieces, target};
use super::within::{self, Scripts};
use crate::setting::{FIND, FRONT};
use std::collections::BTreeSet;
use std::fmt::Write;

/// Attributes whose value is the name of an anchor, or several with spaces between.
const NAMES: [&str; 12] = [
    "id",
    "for",
    "headers",
    "list",
    "form",
    "aria-labelledby",
    "aria-describedby",
    "aria-controls",
    "aria-details",
    "aria-owns",
    "data-start",
    "data-for",
];

/// Until the script shows one leaf, none is laid out: a whole handbook takes a phone a long time.
const OPENING: &str = ".opening .one-leaf{display:none}";

/// The whole handbook in a page; `show` is the script that shows one leaf at a time.
pub(super) fn page(book: &Book<'_>, show: &str) -> Result<String, CopyError> {
    let listed = book.outline.iter().flat_map(|chapter| &chapter.leaves).map(|leaf| leaf.path.as_str());
    let mut paths: Vec<&str> = listed.collect();
    paths.push(FIND);
    let copied: BTreeSet<&str> = paths.iter().copied().collect();
    let mut leaves = String::new();
    let mut scripts = Scripts::default();
    for path in &paths {
        let all = parted(book, path)?;
        scripts.take_up(path, &all);
        leaf(book, path, &all, &copied, &mut leaves)?;
    }
    // The board has no field for Find in its tail, because it has one on itself; any other leaf has.
    let with_tail = paths.get(1).copied().unwrap_or(FRONT);
    let tail = parted(book, with_tail)?;
    let tail = inside(&tail, |tag| tag.has_class("tail-in")).ok_or_else(|| lacks(with_tail, "tail"))?;
    // Find's own field keeps its name, by which its script knows it; the one in the tail gets another.
    let mut tail_html = String::new();
    Copying { book, from: with_tail, copied: &copied, named: &|id| tail_name(id), anchor, picture: within::data }
        .write(tail, &mut tail_html)?;
    let style = within::style(book)? + OPENING;
    let (scripts, runs) = scripts.write(book, show)?;
    let policy = format!(
        "default-src 'none'; img-src data:; font-src data:; style-src '{}'; script-src{runs}; form-action 'none'; base-uri 'none'",
        digest(style.as_bytes()),
    );
    let title = escaped(&format!("{}, {}", book.front.title, book.front.edition));
    let mut out = format!(
        "<!DOCTYPE html>\n<html lang=\"{language}\">\n<head>\n<meta charset=\"utf-8\">\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<title>{title}</title>\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<style>{style}</style>\n",
        language = escaped(book.language),
    );
    out.push_str(&scripts);
    out.push_str("</head>\n<body>\n<div class=\"edge-mark\" aria-hidden=\"true\"></div>\n");
    out.push_str(&leaves);
    let _ = writeln!(out, "<aside class=\"tail\"><div class=\"tail-in\">{tail_html}</div></aside>\n</body>\n</html>");
    Ok(out)
}

pub(super) fn lacks(path: &str, what: &'static str) -> CopyError {
    CopyError::Lacks { path: path.to_owned(), what }
}

fn parted<'a>(book: &Book<'a>, path: &str) -> Result<Vec<Piece<'a>>, CopyError> {
    pieces(book.text(path)?).map_err(|source| CopyError::Markup { path: path.to_owned(), source })
}

/// The anchor of a leaf, or of `id` on it.
fn anchor(path: &str, id: Option<&str>) -> String {
    match id {
        Some(id) if path == FIND => id.to_owned(),
        Some(id) => format!("{path}:{id}"),
        None => path.to_owned(),
    }
}

/// The same on the page to be printed, where drawings want names that XML allows.
fn printed_anchor(path: &str, id: Option<&str>) -> String {
    let leaf: String =
        path.trim_end_matches(".html").chars().map(|c| if c.is_alphanumeric() { c } else { '-' }).collect();
    let id = id.filter(|id| !id.is_empty());
    id.map_or_else(|| format!("leaf-{leaf}"), |id| format!("leaf-{leaf}.{id}"))
}

fn tail_name(id: &str) -> String {
    if id == "find" { "tail:find".to_owned() } else { id.to_owned() }
}

/// Writes the leaf at `path` as a section.
fn leaf(
    book: &Book<'_>,
    path: &str,
    all: &[Piece<'_>],
    copied: &BTreeSet<&str>,
    out: &mut String,
) -> Result<(), CopyError> {
    let title = inside(all, |tag| tag.name == "title").and_then(|inside| match inside {
        [Piece::Text(title)] => Some(*title),
        _ => None,
    });
    let body = all.iter().find_map(|piece| match piece {
        Piece::Open(tag) if tag.name == "body" => tag.attribute("class"),
        _ => None,
    });
    let leaf = inside(all, |tag| tag.has_class("book")).ok_or_else(|| lacks(path, "book"))?;
    let cut = inside(all, |tag| tag.has_class("tail-cut")).unwrap_or(&[]);
    let named = |id: &str| anchor(path, Some(id));
    let copying = Copying { book, from: path, copied, named: &named, anchor, picture: within::data };
    let _ = write!(
        out,
        "<section class=\"one-leaf\" id=\"{}\" data-title=\"{}\" data-body=\"{}\">",
        escaped(&anchor(path, None)),
        title.unwrap_or(""),
        body.unwrap_or("")
    );
    out.push_str("<template>");
    copying.write(cut, out)?;
    out.push_str("</template><div class=\"book\">");
    copying.write(leaf, out)?;
    out.push_str("</div></section>\n");
    Ok(())
}

/// The page at `path`, which is to be printed, with every leaf of the book behind what stands on it: a division for each
/// chapter, by whose anchor one can be printed alone.
pub(super) fn printed(book: &Book<'_>, path: &str) -> Result<String, CopyError> {
    let frame = book.text(path)?;
    let listed = book.outline.iter().flat_map(|chapter| &chapter.leaves).map(|leaf| leaf.path.as_str());
    let copied: BTreeSet<&str> = listed.collect();
    // Behind the frame's own book, before its tail.
    let at = frame.find("<aside class=\"tail\"").ok_or_else(|| lacks(path, "tail"))?;
    let (before, tail) = frame.split_at(at);
    let mut out = before.to_owned();
    for (place, chapter) in book.outline.iter().enumerate() {
        let _ = writeln!(out, "<div class=\"print-part\" id=\"{}\">", escaped(&chapter.anchor(place)));
        for leaf in &chapter.leaves {
            let all = parted(book, &leaf.path)?;
            let inner = inside(&all, |tag| tag.has_class("book")).ok_or_else(|| lacks(&leaf.path, "book"))?;
            let named = |id: &str| printed_anchor(&leaf.path, Some(id));
            let copying = Copying {
                book,
                from: &leaf.path,
                copied: &copied,
                named: &named,
                anchor: printed_anchor,
                // It lies in the folder itself, where the pictures are.
                picture: |_, path| Ok(encoded(path)),
            };
            let _ = write!(
                out,
                "<section class=\"one-leaf\" id=\"{}\"><div class=\"book\">",
                escaped(&printed_anchor(&leaf.path, None))
            );
            copying.write_flat(inner, &mut out)?;
            out.push_str("</div></section>\n");
        }
        out.push_str("</div>\n");
    }
    out.push_str(tail);
    Ok(out)
}

/// Copies pieces of the page `from`, with names and links as they must be in the one page.
struct Copying<'a> {
    book: &'a Book<'a>,
    from: &'a str,
    copied: &'a BTreeSet<&'a str>,
    named: &'a dyn Fn(&str) -> String,
    /// The anchor of a leaf, or of a name on it.
    anchor: fn(&str, Option<&str>) -> String,
    /// The address of a picture, by its path.
    picture: fn(&Book<'_>, &str) -> Result<String, CopyError>,
}

impl Copying<'_> {
    fn write(&self, pieces: &[Piece<'_>], out: &mut String) -> Result<(), CopyError> {
        let mut at = 0;
        while let Some(piece) = pieces.get(at) {
            match piece {
                // A page of its own has scripts of its own; in one page they stand at its head.
                Piece::Open(tag) if tag.name == "script" => at = closed_at(pieces, at).unwrap_or(at),
                Piece::Open(tag) => self.open(tag, out)?,
                Piece::Text(text) => out.push_str(text),
                Piece::Close(name) => {
                    let _ = write!(out, "</{name}>");
                }
            }
            at += 1;
        }
        Ok(())
    }

    /// Writes the pieces of a leaf that is one of many on a page: without its thumb index and its controls, and its main part
    /// a division like any other, since a page has one.
    fn write_flat(&self, pieces: &[Piece<'_>], out: &mut String) -> Result<(), CopyError> {
        let mut at = 0;
        while let Some(piece) = pieces.get(at) {
            match piece {
                Piece::Open(tag) if tag.name == "script" || tag.has_class("thumb") || tag.has_class("js-only") => {
                    at = closed_at(pieces, at).unwrap_or(at);
                }
                Piece::Open(tag) if tag.name == "main" => self.open(&Tag { name: "div", ..tag.clone() }, out)?,
                Piece::Close(name) if *name == "main" => out.push_str("</div>"),
                // Nor has a page more than one head of the first order.
                Piece::Open(tag) if tag.name == "h1" => out.push_str("<h2 class=\"h1\">"),
                Piece::Close(name) if *name == "h1" => out.push_str("</h2>"),
                Piece::Open(tag) => self.open(tag, out)?,
                Piece::Text(text) => out.push_str(text),
                Piece::Close(name) => {
                    let _ = write!(out, "</{name}>");
                }
            }
            at += 1;
        }
        Ok(())
    }

    fn open(&self, tag: &Tag<'_>, out: &mut String) -> Result<(), CopyError> {
        let _ = write!(out, "<{}", tag.name);
        for (name, value) in &tag.attributes {
            let Some(value) = value else {
                // One field in a page may ask for the cursor, and this page opens at its front.
                if *name != "autofocus" {
                    let _ = write!(out, " {name}");
                }
                continue;
            };
            let changed = match *name {
                // In mathematics `form` says how an operator stands.
                name if NAMES.contains(&name) && tag.name != "mo" => {
                    Some(value.split_ascii_whitespace().map(|id| (self.named)(id)).collect::<Vec<_>>().join(" "))
                }
                "href" | "xlink:href" => match self.link(value) {
                    Some(link) => Some(link),
                    // What was left out of the copy can't be led to.
                    None => continue,
                },
                "action" => self.link(value),
                "src" => Some(self.pictured(value)?),
                _ if value.contains("url(#") => Some(self.references(value)),
                _ => None,
            };
            let _ = write!(out, " {name}=\"{}\"", changed.as_deref().unwrap_or(value).replace('"', "&quot;"));
        }
        out.push_str(if tag.alone && !is_void(tag.name) { "/>" } else { ">" });
        Ok(())
    }

    /// Where a link leads in the one page. None where its leaf is not in it.
    fn link(&self, href: &str) -> Option<String> {
        let Some((path, id)) = target(self.from, href) else { return Some(href.to_owned()) };
        if path == self.from && id.as_deref().is_some_and(|id| !id.is_empty()) {
            return id.map(|id| format!("#{}", encoded(&(self.named)(&id))));
        }
        self.copied.contains(path.as_str()).then(|| format!("#{}", encoded(&(self.anchor)(&path, id.as_deref()))))
    }

    /// Where the page has a picture from.
    fn pictured(&self, src: &str) -> Result<String, CopyError> {
        let Some((path, _)) = target(self.from, src) else { return Ok(src.to_owned()) };
        (self.picture)(self.book, &path)
    }

    /// `url(#a)` of drawings.
    fn references(&self, value: &str) -> String {
        let mut parts = value.split("url(#");
        let mut out = parts.next().unwrap_or("").to_owned();
        for part in parts {
            let (id, rest) = part.split_once(')').unwrap_or((part, ""));
            let _ = write!(out, "url(#{}){rest}", encoded(&(self.named)(id)));
        }
        out
    }
}

fn is_void(name: &str) -> bool {
    matches!(
        name,
        "area"
            | "base"
            | "br"
            | "col"
            | "embed"
            | "hr"
            | "img"
            | "input"
            | "link"
            | "meta"
            | "source"
            | "track"
            | "wbr"
    )
}

/// A fragment as it may stand in a link.
fn encoded(anchor: &str) -> String {
    use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
    const KEPT: &AsciiSet = &NON_ALPHANUMERIC
        .remove(b'-')
        .remove(b'.')
        .remove(b'_')
        .remove(b'~')
        .remove(b'/')
        .remove(b':')
        .remove(b'(')
        .remove(b')');
    utf8_percent_encode(anchor, KEPT).to_string()
}

/// Text as it may stand in an attribute.
pub(super) fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::binding::PageFiles;
    use crate::handbook::Front;
    use crate::setting::{Chapter, OutlineLeaf, STYLE};

    const KIT: [(&str, &str); 2] = [(STYLE, "p{color:red}"), ("kit/script.js", "run();")];

    fn set(title: &str, body: &str) -> String {
        let up = if title == "A" { "../" } else { "" };
        format!(
            "<!DOCTYPE html><html><head><title>{title}</title><script src=\"{up}kit/script.js\"></script></head><body class=\"ch-1\">\
             <div class=\"book\"><main id=\"text\">{body}</main></div><aside class=\"tail\"><div class=\"tail-in\">\
             <form action=\"{up}find.html\"><input id=\"find\" autofocus></form><a class=\"tail-cut\" href=\"#thumb\">1</a></div></aside></body></html>"
        )
    }

    fn made(pages: &[(&str, String)]) -> Result<String, CopyError> {
        let mut files: PageFiles =
            pages.iter().map(|(path, html)| ((*path).to_owned(), html.clone().into_bytes())).collect();
        files.extend(KIT.map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec())));
        files.insert("pictures/dot.png".to_owned(), vec![1, 2, 3]);
        let leaves = pages
            .iter()
            .filter(|(path, _)| *path != FIND)
            .map(|(path, _)| OutlineLeaf { path: (*path).to_owned(), ..Default::default() });
        let outline = [Chapter { title: String::new(), leaves: leaves.collect(), ..Chapter::default() }];
        page(
            &Book {
                front: &Front { title: "A & B".into(), ..Front::default() },
                language: "en-US",
                files: &files,
                outline: &outline,
            },
            "show();",
        )
    }

    #[test]
    fn links_names_and_pictures_are_within_the_page() {
        let page = made(&[
            (FRONT, set("F", "<a href=\"lesson/a.html#s-2\">a</a><a href=\"carry.html\">copies</a><a href=\"https://example.org/\">out</a>")),
            ("lesson/a.html", set("A", "<h2 id=\"s-2\">2</h2><a href=\"../index.html\">up</a><a href=\"#s-2\">here</a><img src=\"../pictures/dot.png\" alt=\"\"><svg><path fill=\"url(#hatch)\"/></svg>")),
            (FIND, set("Find", "<input id=\"find\"><p id=\"found\"></p>")),
        ])
        .unwrap();
        for part in [
            "<a href=\"#lesson/a.html:s-2\">a</a>",
            "<a>copies</a>",
            "<a href=\"https://example.org/\">out</a>",
            "<h2 id=\"lesson/a.html:s-2\">",
            "<a href=\"#index.html\">up</a><a href=\"#lesson/a.html:s-2\">here</a>",
            "<img src=\"data:image/png;base64,AQID\" alt=\"\">",
            "<path fill=\"url(#lesson/a.html:hatch)\"/>",
            "<p id=\"found\">",
            "<form action=\"#find.html\"><input id=\"tail:find\"></form>",
            "<title>A &amp; B, </title>",
        ] {
            assert!(page.contains(part), "no {part} in {page}");
        }
        assert!(!page.contains("script.js"));
        assert!(page.contains(&digest(b"run();")) && page.contains(&digest(b"show();")));
    }

    #[test]
    fn a_leaf_that_is_not_whole_is_refused() {
        let error = made(&[(FRONT, set("F", "<p>"))]).unwrap_err();
        assert!(matches!(error, CopyError::Markup { .. }), "{error}");
    }
}
