//! `lessons/<part>/<lesson>.md`: a YAML head between two lines of dashes, then Markdown.

use super::yaml::{self, Places, Text};
use super::{block, markdown};
use crate::handbook::{FileId, Finding, Handbook, Lesson, Span, Spot};
use serde::Deserialize;

#[derive(Deserialize)]
#[serde(deny_unknown_fields, rename_all = "kebab-case")]
struct RawHead {
    title: Text,
    #[serde(default)]
    purpose: Option<Text>,
    #[serde(default)]
    needs: Vec<Text>,
    #[serde(default)]
    maker_first: bool,
    #[serde(default)]
    hazards: Vec<Text>,
    #[serde(default)]
    index: Vec<Text>,
}

pub(super) fn read(id: FileId, path: &str, text: &str, book: &mut Handbook, findings: &mut Vec<Finding>) {
    let top = Span { file: id, start: 0, end: 0 };
    let Some((part, file)) = path.split_once('/').filter(|(_, file)| !file.contains('/')) else {
        findings.push(
            Finding::error("lesson-without-part", top, "this lesson lies in no part")
                .instead("put it in the folder of its part: `lessons/<part>/<lesson>.md`"),
        );
        return;
    };
    let Some(name) = file.strip_suffix(".md") else {
        findings.push(
            Finding::error("lesson-not-markdown", top, format!("`{file}` is not a lesson"))
                .instead("lessons are Markdown and end in `.md`"),
        );
        return;
    };
    let Some((head, body_start)) = split_head(text) else {
        findings.push(
            Finding::error("lesson-without-head", top, "this lesson has no head")
                .instead("begin it with a line `---`, its `title:`, and another line `---`"),
        );
        return;
    };
    let head_at = Span { file: id, start: head.start, end: head.end };
    let (raw, places) = match yaml::read::<RawHead>(&text[head.clone()], head_at) {
        Ok(read) => read,
        Err(finding) => {
            findings.push(*finding);
            // The lesson is still known by name, so that links to it are not reported as well.
            let title = Spot::new(name.to_owned(), head_at);
            let lesson = Lesson { name: name.into(), part: part.into(), title, body: top, ..Lesson::default() };
            book.lessons.insert(name.to_owned(), lesson);
            return;
        }
    };
    let body = Span { file: id, start: body_start, end: text.len() };
    let scanned = markdown::scan(&text[body_start..], body);
    for (at, address) in scanned.pictures {
        findings.push(
            Finding::error("picture-not-set", at, format!("the picture `{address}` stands in running text")).instead(
                "set it in a `plate` block, where it has a number, a title and words for those who don't see it",
            ),
        );
    }
    let blocks = scanned.fences.iter().map(|fence| block::read(fence, text, findings)).collect();
    let lesson = Lesson {
        name: name.to_owned(),
        part: part.to_owned(),
        title: places.spot(&["title"], &raw.title),
        purpose: raw.purpose.as_ref().map(|p| Spot::new(p.0.clone(), places.at(&["purpose"]))),
        needs: list(&places, "needs", &raw.needs),
        maker_first: raw.maker_first,
        hazards: list(&places, "hazards", &raw.hazards),
        index: raw.index.into_iter().map(|t| t.0).collect(),
        body,
        links: scanned.links,
        blocks,
        notices: scanned.notices,
        headings: scanned.headings,
    };
    if let Some(other) = book.lessons.get(name) {
        findings.push(
            Finding::error("lesson-twice", lesson.title.at, format!("there are two lessons named `{name}`"))
                .seen(other.title.at, "the other one")
                .instead("give one of the two files another name: links go by it"),
        );
        return;
    }
    book.lessons.insert(name.to_owned(), lesson);
}

fn list(places: &Places, key: &str, entries: &[Text]) -> Vec<Spot<String>> {
    entries.iter().enumerate().map(|(i, entry)| places.spot(&[key, &i.to_string()], entry)).collect()
}

/// The bytes of the head between its two lines of dashes, and where the body begins.
fn split_head(text: &str) -> Option<(std::ops::Range<usize>, usize)> {
    let start = text.strip_prefix("---\n").map(|_| 4).or_else(|| text.strip_prefix("---\r\n").map(|_| 5))?;
    let mut at = start;
    for line in text[start..].split_inclusive('\n') {
        if line.trim_end() == "---" {
            return Some((start..at, at + line.len()));
        }
        at += line.len();
    }
    None
}
