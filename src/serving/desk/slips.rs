//! Findings as an author sees them on a page: at their place where they have one on it, at its head where not, and all of
//! them in a list on every page.

use crate::handbook::{Files, Finding, Handbook, Span, Weight};
use crate::setting;
use std::fmt::Write;

/// So many are listed; with more than these an author begins at the first.
const MOST_LISTED: usize = 100;

/// What is wrong, ready for pages.
#[derive(Clone, Debug, Default)]
pub(super) struct Slips {
    /// For `setting`: places and what stands beside them.
    pub(super) beside: Vec<(Span, String)>,
    all: Vec<Slip>,
    /// Why the files could not be read.
    pub(super) unread: Option<String>,
}

#[derive(Clone, Debug)]
struct Slip {
    anchor: String,
    page: String,
    says: String,
    place: String,
    weight: Weight,
    html: String,
}

impl Slips {
    pub(super) fn of(book: &Handbook, findings: &[Finding]) -> Self {
        let mut slips = Self::default();
        for (number, finding) in findings.iter().enumerate().take(MOST_LISTED) {
            let anchor = format!("slip-{}", number + 1);
            let html = html(&book.files, finding, &anchor);
            slips.beside.push((finding.at, html.clone()));
            slips.all.push(Slip {
                anchor,
                page: setting::page_of(book, finding.at.file),
                says: finding.says.clone(),
                place: place(&book.files, finding.at),
                weight: finding.weight,
                html,
            });
        }
        slips
    }

    /// Those that belong on `page` and do not stand on it yet.
    pub(super) fn at_head_of(&self, page: &str, html: &str) -> String {
        let missing = self.all.iter().filter(|slip| slip.page == page);
        missing
            .filter(|slip| !html.contains(&format!("id=\"{}\"", slip.anchor)))
            .map(|slip| slip.html.as_str())
            .collect()
    }

    /// The list that every page has; `pages` tells whether there is such a page, and `up` leads from the page to the first.
    pub(super) fn list(&self, up: &str, is_page: impl Fn(&str) -> bool) -> String {
        let mut out = String::from("<aside class=\"desk-list\" aria-label=\"Desk\"><details>");
        let errors = self.all.iter().filter(|slip| slip.weight == Weight::Error).count();
        let warnings = self.all.len() - errors;
        let count = |n: usize, word: &str| format!("{n} {word}{}", if n == 1 { "" } else { "s" });
        let mut parts = Vec::new();
        if self.unread.is_some() {
            parts.push("Not read".to_owned());
        }
        if errors > 0 {
            parts.push(count(errors, "error"));
        }
        if warnings > 0 {
            parts.push(count(warnings, "warning"));
        }
        let class = if errors > 0 || self.unread.is_some() { " class=\"desk-error\"" } else { "" };
        let text = if parts.is_empty() { "No findings".to_owned() } else { parts.join(", ") };
        // Writing into a string cannot fail.
        let _ = write!(out, "<summary{class}>{text}</summary>");
        if let Some(unread) = &self.unread {
            let _ = write!(out, "<p class=\"desk-unread\">{} The pages are as they were before.</p>", escaped(unread));
        }
        out.push_str("<ol>");
        for slip in &self.all {
            let page = if is_page(&slip.page) { slip.page.as_str() } else { "index.html" };
            let _ = write!(
                out,
                "<li><a href=\"{up}{}#{}\">{}</a> <span>{}</span></li>",
                escaped(page),
                slip.anchor,
                escaped(&slip.says),
                escaped(&slip.place)
            );
        }
        out.push_str("</ol></details></aside>");
        out
    }
}

/// File, line and column.
fn place(files: &Files, at: Span) -> String {
    let Some(file) = files.get(at.file) else { return String::new() };
    let (line, column) = files.line_and_column(at);
    format!("{}:{line}:{column}", file.shown())
}

/// A finding with its place, the author's own line, how it was found and what would be right.
fn html(files: &Files, finding: &Finding, anchor: &str) -> String {
    let (class, word) = match finding.weight {
        Weight::Error => ("desk-error", "Error"),
        Weight::Warning => ("desk-warning", "Warning"),
    };
    let mut out =
        format!("<div class=\"desk-slip {class}\" id=\"{anchor}\"><p><b>{word}</b> {}</p>", escaped(&finding.says));
    excerpt(files, finding.at, &finding.label, &mut out);
    for seen in &finding.seen {
        excerpt(files, seen.at, &seen.says, &mut out);
    }
    for found in &finding.found {
        let _ = write!(out, "<p>Found: {}</p>", escaped(found));
    }
    if let Some(instead) = &finding.instead {
        let _ = write!(out, "<p>Instead: {}</p>", escaped(instead));
    }
    out.push_str("</div>\n");
    out
}

/// The line of a place, the place marked.
fn excerpt(files: &Files, at: Span, says: &str, out: &mut String) {
    let Some(file) = files.get(at.file) else { return };
    let text = file.text.as_str();
    let fits = |at: usize| (0..=at.min(text.len())).rev().find(|at| text.is_char_boundary(*at)).unwrap_or(0);
    let start = fits(at.start);
    let line_start = text[..start].rfind('\n').map_or(0, |at| at + 1);
    let line_end = text[start..].find('\n').map_or(text.len(), |at| start + at);
    let end = fits(at.end).clamp(start, line_end);
    let _ = write!(
        out,
        "<p class=\"desk-place\">{}</p><pre>{}<mark>{}</mark>{}</pre>",
        escaped(&place(files, at)),
        escaped(&text[line_start..start]),
        escaped(&text[start..end]),
        escaped(&text[end..line_end])
    );
    if !says.is_empty() {
        let _ = write!(out, "<p>{}</p>", escaped(says));
    }
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_shows_its_line_and_lists_its_page() {
        let mut book = Handbook::default();
        let text = "---\ntitle: A\n---\nBoils at [28.9 °F](x) & <more>.\n";
        let file = book.files.add("lessons/coil/a.md", text);
        let start = text.find("28.9").unwrap();
        let at = Span { file, start, end: start + "28.9 °F".len() };
        let finding = Finding::error("figure-disagrees", at, "this comes to 29.8 °F")
            .found("70 - 40.2")
            .instead("write `29.8 °F`");
        let slips = Slips::of(&book, &[finding]);
        let html = slips.at_head_of("lesson/a.html", "<main>");
        assert!(html.contains("<p class=\"desk-place\">lessons/coil/a.md:4:11</p><pre>Boils at [<mark>28.9 °F</mark>](x) &amp; &lt;more&gt;.</pre>"), "{html}");
        assert!(html.contains("<p>Found: 70 - 40.2</p><p>Instead: write `29.8 °F`</p>"), "{html}");
        assert_eq!(slips.at_head_of("lesson/a.html", "<div id=\"slip-1\">"), "");
        assert_eq!(slips.at_head_of("lesson/b.html", ""), "");
        let list = slips.list("../", |_| true);
        assert!(list.contains("<summary class=\"desk-error\">1 error</summary>"), "{list}");
        assert!(list.contains("<a href=\"../lesson/a.html#slip-1\">this comes to 29.8 °F</a>"), "{list}");
        assert!(Slips::default().list("", |_| true).contains("No findings"));
    }
}
