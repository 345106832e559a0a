//! The handbook as an electronic book: EPUB 3.3, with the discovery metadata of EPUB Accessibility 1.1.
//!
//! Leaves become XHTML without anything that needs script: both systems of units stand side by side, trees are questions
//! whose answers lead on, workings are open. Conformance to a level of accessibility is not claimed, because it depends on
//! what authors write and nobody has judged that; what can be told for certain is told.

use super::archive::ArchiveError;
use super::copies::{Book, CopyError};
use super::markup::{Piece, Tag, closed_at, element, inside, pieces, target};
use super::page::{escaped, picture_kind};
use crate::setting::{FRONT, OutlineLeaf, WORDS};
use sha2::{Digest, Sha256};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;
use std::io::{Cursor, Write as _};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

const CONTAINER: &str = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
    <container version=\"1.0\" xmlns=\"urn:oasis:names:tc:opendocument:xmlns:container\"><rootfiles>\
    <rootfile full-path=\"book/package.opf\" media-type=\"application/oebps-package+xml\"/></rootfiles></container>\n";

/// Elements that do nothing without script.
const LEFT_OUT: [&str; 7] = ["script", "form", "button", "input", "select", "textarea", "template"];

/// The book as an EPUB file; `style` is what it is dressed in.
pub(super) fn epub(book: &Book<'_>, style: &str) -> Result<Vec<u8>, CopyError> {
    let leaves: Vec<&OutlineLeaf> = book.outline.iter().flat_map(|chapter| &chapter.leaves).collect();
    let copied: BTreeSet<&str> = leaves.iter().map(|leaf| leaf.path.as_str()).collect();
    let mut chapters = Vec::new();
    let mut pictures = BTreeSet::new();
    for leaf in &leaves {
        chapters.push(chapter(book, leaf, &copied, &mut pictures)?);
    }
    let mut files: BTreeMap<String, Vec<u8>> = BTreeMap::new();
    files.insert("book/style.css".to_owned(), style.as_bytes().to_vec());
    files.insert("book/nav.xhtml".to_owned(), navigation(book).into_bytes());
    files.insert("book/package.opf".to_owned(), package(book, &chapters, &pictures)?.into_bytes());
    for chapter in chapters {
        files.insert(format!("book/{}", chapter.path), chapter.text.into_bytes());
    }
    for picture in &pictures {
        let bytes = book.files.get(picture).ok_or_else(|| lacks(picture, "bytes"))?;
        files.insert(format!("book/{picture}"), bytes.clone());
    }
    zipped(&files)
}

fn lacks(path: &str, what: &'static str) -> CopyError {
    CopyError::Lacks { path: path.to_owned(), what }
}

/// The files in an archive whose first entry says what it is, as the format asks.
fn zipped(files: &BTreeMap<String, Vec<u8>>) -> Result<Vec<u8>, CopyError> {
    let plain = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Stored)
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let packed = plain.compression_method(CompressionMethod::Deflated);
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let fixed =
        [("mimetype", plain, &b"application/epub+zip"[..]), ("META-INF/container.xml", packed, CONTAINER.as_bytes())];
    let own = files.iter().map(|(path, bytes)| (path.as_str(), packed, bytes.as_slice()));
    for (path, options, bytes) in fixed.into_iter().chain(own) {
        let failed = |source| ArchiveError { path: path.to_owned(), source };
        zip.start_file(path, options).map_err(failed)?;
        zip.write_all(bytes).map_err(|e| failed(zip::result::ZipError::Io(e)))?;
    }
    let done = zip.finish().map_err(|source| ArchiveError { path: "mimetype".to_owned(), source })?;
    Ok(done.into_inner())
}

/// A leaf as it goes into the book.
struct Made {
    path: String,
    text: String,
    mathml: bool,
    svg: bool,
    index: bool,
}

/// A leaf's path in the book.
fn within(path: &str) -> String {
    format!("{}.xhtml", path.strip_suffix(".html").unwrap_or(path))
}

fn chapter(
    book: &Book<'_>,
    leaf: &OutlineLeaf,
    copied: &BTreeSet<&str>,
    pictures: &mut BTreeSet<String>,
) -> Result<Made, CopyError> {
    let all = pieces(book.text(&leaf.path)?).map_err(|source| CopyError::Markup { path: leaf.path.clone(), source })?;
    let main = inside(&all, |tag| tag.name == "main").ok_or_else(|| lacks(&leaf.path, "main"))?;
    let ties = element(&all, |tag| tag.has_class("ties")).unwrap_or(&[]);
    let mut writing = Writing { from: &leaf.path, copied, pictures, out: String::new(), mathml: false, svg: false };
    writing.write(main)?;
    writing.write(ties)?;
    let Writing { out, mathml, svg, .. } = writing;
    let kind = match leaf.path.as_str() {
        FRONT => "frontmatter titlepage",
        WORDS => "backmatter index",
        _ if leaf.path.contains('/') => "bodymatter chapter",
        _ => "backmatter appendix",
    };
    let up = "../".repeat(leaf.path.matches('/').count());
    let text = format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" \
         xmlns:epub=\"http://www.idpf.org/2007/ops\" lang=\"{language}\" xml:lang=\"{language}\">\n<head>\n\
         <title>{title}</title>\n<link rel=\"stylesheet\" type=\"text/css\" href=\"{up}style.css\"/>\n</head>\n\
         <body epub:type=\"{matter}\">\n<section epub:type=\"{kind}\">\n{out}\n</section>\n</body>\n</html>\n",
        language = escaped(book.language),
        title = escaped(&titled(leaf)),
        matter = kind.split(' ').next().unwrap_or("bodymatter"),
        kind = kind.split(' ').nth(1).unwrap_or("chapter"),
    );
    Ok(Made { path: within(&leaf.path), text, mathml, svg, index: leaf.path == WORDS })
}

/// A leaf's title with its number before it.
fn titled(leaf: &OutlineLeaf) -> String {
    if leaf.label.is_empty() { leaf.title.clone() } else { format!("{} {}", leaf.label, leaf.title) }
}

/// Pieces of the page `from` written as XHTML.
struct Writing<'a> {
    from: &'a str,
    copied: &'a BTreeSet<&'a str>,
    pictures: &'a mut BTreeSet<String>,
    out: String,
    mathml: bool,
    svg: bool,
}

impl Writing<'_> {
    fn write(&mut self, pieces: &[Piece<'_>]) -> Result<(), CopyError> {
        let mut at = 0;
        // Elements opened and not yet closed: what they are closed as, and what goes before that.
        let mut open: Vec<(&str, &str)> = Vec::new();
        while let Some(piece) = pieces.get(at) {
            match piece {
                Piece::Open(tag) if LEFT_OUT.contains(&tag.name) || tag.has_class("js-only") => {
                    at = closed_at(pieces, at).unwrap_or(at);
                }
                Piece::Open(tag) => {
                    let name = xhtml_name(tag.name);
                    let beside = in_line_after_us(pieces, at);
                    if beside {
                        self.out.push_str(" (");
                    }
                    self.open(name, tag)?;
                    if !tag.alone {
                        open.push((name, if beside { ")" } else { "" }));
                    }
                }
                Piece::Text(text) => self.text(text),
                Piece::Close(_) => {
                    if let Some((name, after)) = open.pop() {
                        let _ = write!(self.out, "</{name}>{after}");
                    }
                }
            }
            at += 1;
        }
        Ok(())
    }

    /// Text with the one escape that XML does not know.
    fn text(&mut self, text: &str) {
        self.out.push_str(&text.replace("&nbsp;", "\u{a0}").replace("&shy;", "\u{ad}"));
    }

    fn open(&mut self, name: &str, tag: &Tag<'_>) -> Result<(), CopyError> {
        let _ = write!(self.out, "<{name}");
        match tag.name {
            "svg" => {
                self.svg = true;
                if tag.attribute("xmlns").is_none() {
                    self.out.push_str(" xmlns=\"http://www.w3.org/2000/svg\"");
                }
            }
            "math" => {
                self.mathml = true;
                if tag.attribute("xmlns").is_none() {
                    self.out.push_str(" xmlns=\"http://www.w3.org/1998/Math/MathML\"");
                }
            }
            "details" => self.out.push_str(" role=\"group\""),
            _ => {}
        }
        for (key, value) in &tag.attributes {
            // What only a script or a browser's own windows have a use for.
            if key.starts_with("data-") || matches!(*key, "tabindex" | "focusable" | "open" | "download" | "hidden") {
                continue;
            }
            let value = value.unwrap_or(key);
            let value = match *key {
                "href" if tag.name == "a" => match self.link(value) {
                    Some(link) => link,
                    None => continue,
                },
                "src" => self.picture(value)?,
                // A drawing with links in it; readers of books know a drawing as a picture or as a document.
                "role" if tag.name == "svg" && value == "group" => "document".to_owned(),
                _ => value.to_owned(),
            };
            let value = value.replace("&nbsp;", "\u{a0}").replace('<', "&lt;").replace('"', "&quot;");
            let _ = write!(self.out, " {key}=\"{value}\"");
        }
        self.out.push_str(if tag.alone { "/>" } else { ">" });
        Ok(())
    }

    /// A link as it must be in the book. None where its leaf is not in it.
    fn link(&self, href: &str) -> Option<String> {
        let Some((path, _)) = target(self.from, href) else { return Some(href.to_owned()) };
        if href.starts_with('#') {
            return Some(href.to_owned());
        }
        let (file, anchor) = href.split_once('#').map_or((href, ""), |(file, _)| (file, &href[file.len()..]));
        self.copied.contains(path.as_str()).then(|| format!("{}{anchor}", within(file)))
    }

    fn picture(&mut self, src: &str) -> Result<String, CopyError> {
        if let Some((path, _)) = target(self.from, src) {
            picture_kind(&path).ok_or_else(|| lacks(&path, "kind of picture that is known"))?;
            self.pictures.insert(path);
        }
        Ok(src.to_owned())
    }
}

/// What an element is called in the book: readers of books know little of what can be folded up.
fn xhtml_name(name: &str) -> &str {
    match name {
        "details" => "div",
        "summary" => "p",
        other => other,
    }
}

/// Whether the element at `at` says in SI what the one just before it said in US units, both in the run of a line.
fn in_line_after_us(pieces: &[Piece<'_>], at: usize) -> bool {
    let Some(Piece::Open(tag)) = pieces.get(at) else { return false };
    let in_line = |tag: &Tag<'_>| matches!(tag.name, "span" | "b" | "em" | "strong");
    if !in_line(tag) || !tag.has_class("si") || !matches!(pieces.get(at.wrapping_sub(1)), Some(Piece::Close(_))) {
        return false;
    }
    // A formula stands on lines of its own and needs no brackets round it.
    !matches!(pieces.get(at + 1), Some(Piece::Open(inner)) if inner.has_class("line") || inner.name == "math")
}

fn navigation(book: &Book<'_>) -> String {
    let mut list = String::new();
    for chapter in book.outline {
        let link = |leaf: &OutlineLeaf| {
            format!("<li><a href=\"{}\">{}</a></li>", escaped(&encoded(&within(&leaf.path))), escaped(&titled(leaf)))
        };
        let leaves: String = chapter.leaves.iter().map(link).collect();
        if chapter.title.is_empty() {
            list.push_str(&leaves);
        } else {
            let _ = write!(list, "<li><span>{}</span><ol>{leaves}</ol></li>", escaped(&chapter.title));
        }
    }
    let language = escaped(book.language);
    let title = escaped(&book.front.title);
    let first = book.outline.iter().flat_map(|chapter| &chapter.leaves).find(|leaf| leaf.path.contains('/'));
    let body = first.map_or_else(String::new, |leaf| {
        format!(
            "<li><a epub:type=\"bodymatter\" href=\"{}\">{}</a></li>",
            escaped(&encoded(&within(&leaf.path))),
            escaped(&titled(leaf))
        )
    });
    let index = book.outline.iter().flat_map(|chapter| &chapter.leaves).find(|leaf| leaf.path == WORDS);
    let index = index.map_or_else(String::new, |leaf| {
        format!("<li><a epub:type=\"index\" href=\"{}\">{}</a></li>", within(WORDS), escaped(&leaf.title))
    });
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<!DOCTYPE html>\n<html xmlns=\"http://www.w3.org/1999/xhtml\" \
         xmlns:epub=\"http://www.idpf.org/2007/ops\" lang=\"{language}\" xml:lang=\"{language}\">\n<head><title>{title}</title>\
         <link rel=\"stylesheet\" type=\"text/css\" href=\"style.css\"/></head>\n<body>\n\
         <nav epub:type=\"toc\" id=\"toc\"><h1>{title}</h1><ol>{list}</ol></nav>\n\
         <nav epub:type=\"landmarks\" id=\"landmarks\" hidden=\"\"><ol><li><a epub:type=\"toc\" href=\"#toc\">{title}</a></li>\
         {body}{index}</ol></nav>\n</body>\n</html>\n"
    )
}

fn package(book: &Book<'_>, chapters: &[Made], pictures: &BTreeSet<String>) -> Result<String, CopyError> {
    let front = book.front;
    let uses = |part: fn(&Made) -> bool| chapters.iter().any(part);
    let mut features =
        vec!["structuralNavigation", "tableOfContents", "readingOrder", "alternativeText", "displayTransformability"];
    if uses(|made| made.mathml) {
        features.push("MathML");
    }
    if uses(|made| made.index) {
        features.push("index");
    }
    let visual = uses(|made| made.svg) || !pictures.is_empty();
    let mut metadata = String::new();
    let mut say = |property: &str, value: &str| {
        let _ = writeln!(metadata, "<meta property=\"{property}\">{}</meta>", escaped(value));
    };
    say("dcterms:modified", &modified(&front.edition));
    say("schema:accessMode", "textual");
    if visual {
        say("schema:accessMode", "visual");
    }
    say("schema:accessModeSufficient", if visual { "textual,visual" } else { "textual" });
    for feature in features {
        say("schema:accessibilityFeature", feature);
    }
    say("schema:accessibilityHazard", "none");
    say(
        "schema:accessibilitySummary",
        "Text, tables and formulas are marked up as such and read in order; formulas are MathML; drawings have titles and \
         descriptions; diagnostic trees are questions with links. No sound, motion or flashing.",
    );
    let mut manifest = String::new();
    let mut spine = String::new();
    for (i, made) in chapters.iter().enumerate() {
        let mut properties = Vec::new();
        if made.mathml {
            properties.push("mathml");
        }
        if made.svg {
            properties.push("svg");
        }
        let properties =
            if properties.is_empty() { String::new() } else { format!(" properties=\"{}\"", properties.join(" ")) };
        let href = escaped(&encoded(&made.path));
        let _ = writeln!(
            manifest,
            "<item id=\"leaf-{i}\" href=\"{href}\" media-type=\"application/xhtml+xml\"{properties}/>"
        );
        let _ = writeln!(spine, "<itemref idref=\"leaf-{i}\"/>");
        if i == 0 {
            // The contents come after the board, as in any book.
            spine.push_str("<itemref idref=\"nav\"/>\n");
        }
    }
    for (i, picture) in pictures.iter().enumerate() {
        let kind = picture_kind(picture).ok_or_else(|| lacks(picture, "kind of picture that is known"))?;
        let href = escaped(&encoded(picture));
        let _ = writeln!(manifest, "<item id=\"picture-{i}\" href=\"{href}\" media-type=\"{kind}\"/>");
    }
    Ok(format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n<package xmlns=\"http://www.idpf.org/2007/opf\" version=\"3.0\" \
         unique-identifier=\"book-id\" xml:lang=\"{language}\">\n<metadata xmlns:dc=\"http://purl.org/dc/elements/1.1/\">\n\
         <dc:identifier id=\"book-id\">urn:uuid:{uuid}</dc:identifier>\n<dc:title>{title}, {edition}</dc:title>\n\
         <dc:language>{language}</dc:language>\n<dc:creator>{house}</dc:creator>\n<dc:publisher>{house}</dc:publisher>\n\
         {metadata}</metadata>\n<manifest>\n\
         <item id=\"nav\" href=\"nav.xhtml\" media-type=\"application/xhtml+xml\" properties=\"nav\"/>\n\
         <item id=\"style\" href=\"style.css\" media-type=\"text/css\"/>\n{manifest}</manifest>\n<spine>\n{spine}</spine>\n</package>\n",
        language = escaped(book.language),
        uuid = identifier(&front.title, &front.house, &front.edition),
        title = escaped(&front.title),
        edition = escaped(&front.edition),
        house = escaped(&front.house),
    ))
}

/// An identifier that is the same whenever this edition is made and another for every other edition (RFC 9562, version 8).
fn identifier(title: &str, house: &str, edition: &str) -> String {
    let digest = Sha256::digest([title, house, edition].join("\0"));
    let mut hex = String::new();
    for (i, byte) in digest.iter().take(16).enumerate() {
        let byte = match i {
            6 => (byte & 0x0f) | 0x80,
            8 => (byte & 0x3f) | 0x80,
            _ => *byte,
        };
        if matches!(i, 4 | 6 | 8 | 10) {
            hex.push('-');
        }
        let _ = write!(hex, "{byte:02x}");
    }
    hex
}

/// When the book was last changed, which the format asks for: the first moment of the month or day that the edition is
/// named after, and where it is named otherwise the first that zip archives know. Never the time at which it was made,
/// which would make two books of one edition.
fn modified(edition: &str) -> String {
    let mut parts = edition.split('-');
    let mut number = |digits: usize, most: u32| -> Option<u32> {
        let part = parts.next()?;
        let all = part.len() == digits && part.bytes().all(|b| b.is_ascii_digit());
        part.parse().ok().filter(|n| all && (1..=most).contains(n))
    };
    let (year, month, day) = (number(4, 9999), number(2, 12), number(2, 28));
    match year {
        Some(year) => format!("{year:04}-{:02}-{:02}T00:00:00Z", month.unwrap_or(1), day.unwrap_or(1)),
        None => "1980-01-01T00:00:00Z".to_owned(),
    }
}

/// A path as it may stand in a link.
fn encoded(path: &str) -> String {
    use percent_encoding::{AsciiSet, NON_ALPHANUMERIC, utf8_percent_encode};
    const KEPT: &AsciiSet =
        &NON_ALPHANUMERIC.remove(b'-').remove(b'.').remove(b'_').remove(b'~').remove(b'/').remove(b'(').remove(b')');
    utf8_percent_encode(path, KEPT).to_string()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn written(html: &str) -> String {
        let copied = BTreeSet::from(["lesson/a.html", "tree/b.html"]);
        let mut pictures = BTreeSet::new();
        let mut writing = Writing {
            from: "lesson/a.html",
            copied: &copied,
            pictures: &mut pictures,
            out: String::new(),
            mathml: false,
            svg: false,
        };
        writing.write(&pieces(html).unwrap()).unwrap();
        writing.out
    }

    #[test]
    fn a_leaf_becomes_xhtml_that_needs_no_script() {
        for (html, xhtml) in [
            ("<p>a<br>b<input checked><button>x</button></p>", "<p>a<br/>b</p>"),
            ("<a href=\"../tree/b.html#q-1\">q</a>", "<a href=\"../tree/b.xhtml#q-1\">q</a>"),
            ("<a href=\"#s\">s</a><a href=\"../find.html\">find</a>", "<a href=\"#s\">s</a><a>find</a>"),
            ("<details open><summary>S</summary><p>t</p></details>", "<div role=\"group\"><p>S</p><p>t</p></div>"),
            (
                "<span class=\"us\">8 °F</span><span class=\"si\">4.4 K</span>, then",
                "<span class=\"us\">8 °F</span> (<span class=\"si\">4.4 K</span>), then",
            ),
            (
                "<table class=\"us\"></table><table class=\"si\"></table>",
                "<table class=\"us\"></table><table class=\"si\"></table>",
            ),
            (
                "<svg viewBox=\"0 0 1 1\" focusable=\"false\"></svg>",
                "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 1 1\"></svg>",
            ),
            ("<svg role=\"group\"></svg>", "<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"document\"></svg>"),
            ("<p data-x=\"1\" class=\"no-js\">a</p><p class=\"js-only\">b</p>", "<p class=\"no-js\">a</p>"),
        ] {
            assert_eq!(written(html), xhtml);
        }
    }

    #[test]
    fn an_edition_dates_itself() {
        assert_eq!(modified("2026-11"), "2026-11-01T00:00:00Z");
        assert_eq!(modified("2026-11-09"), "2026-11-09T00:00:00Z");
        assert_eq!(modified("2026"), "2026-01-01T00:00:00Z");
        assert_eq!(modified("2026-13"), "2026-01-01T00:00:00Z");
        assert_eq!(modified("third"), "1980-01-01T00:00:00Z");
        assert_eq!(identifier("a", "b", "c").len(), 36);
        assert_ne!(identifier("a", "b", "c"), identifier("a", "b", "d"));
        assert_eq!(&identifier("a", "b", "c")[14..15], "8");
    }
}
