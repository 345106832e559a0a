//! The frame every leaf stands in: running head, thumb index, tail, ties.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::press::Press;
use super::print;
use super::register::Target;
use crate::handbook::{Part, UnitsFirst};
use serde::Serialize;
use std::collections::BTreeSet;
use tera::Context;

/// Templates a theme must have.
pub(super) const TEMPLATES: [&str; 24] = [
    "leaf.html",
    "front.html",
    "lesson.html",
    "tree.html",
    "refrigerant.html",
    "terms.html",
    "sources.html",
    "values.html",
    "words.html",
    "find.html",
    "carry.html",
    "print.html",
    "imprint.css",
    "print.css",
    "block/working.html",
    "block/notice.html",
    "block/marginal.html",
    "block/sumsheet.html",
    "block/saturation.html",
    "block/form.html",
    "computation.html",
    "computations.html",
    "block/keys.html",
    "keys.html",
];

/// A cut of the thumb index.
#[derive(Clone, Debug, Serialize)]
pub(super) struct Cut {
    number: String,
    title: String,
    href: String,
    here: bool,
}

/// What a page tells the frame about itself.
pub(super) struct Heading<'a> {
    pub(super) path: &'a str,
    /// Plain.
    pub(super) title: &'a str,
    /// The leaf's number; empty where it has none.
    pub(super) label: &'a str,
    /// Guide words of the running head, plain.
    pub(super) guide: String,
    /// The part whose cut is marked; the last cut, A–Z, where there is none.
    pub(super) home: Option<usize>,
    /// A class on the whole page.
    pub(super) kind: &'a str,
}

/// The frame of one page, for templates.
#[derive(Debug, Serialize)]
pub(super) struct Frame {
    #[serde(skip)]
    path: String,
    book: String,
    house: String,
    edition: String,
    units: &'static str,
    title: String,
    label: String,
    /// HTML.
    guide: String,
    /// `3`, `a` for A–Z, `0` for the front.
    chapter: String,
    chapter_title: String,
    /// What the copper cut on the phone's tail says.
    cut: String,
    kind: String,
    cuts: Vec<Cut>,
    front: String,
    find: String,
    find_index: String,
    print: String,
    style: String,
    script: String,
    reckoner: String,
    icon: String,
}

impl Frame {
    /// The frame of an inner page.
    pub(super) fn of(press: &Press<'_>, heading: Heading<'_>) -> Self {
        let Heading { path, title, label, guide, home, kind } = heading;
        let front = &press.book.front;
        let words = &press.theme.words;
        let to = |target: &str| address::href(path, target);
        let parts = &front.parts;
        let mut cuts: Vec<Cut> = parts_with_lessons(press)
            .map(|(number, part)| Cut {
                number: number.to_string(),
                title: part.title.clone(),
                href: to(&format!("{}#{}", address::FRONT, part_anchor(number))),
                here: home == Some(number),
            })
            .collect();
        cuts.push(Cut {
            number: words.index_cut.clone(),
            title: words.index_cut_title.clone(),
            href: to(address::WORDS),
            here: home.is_none(),
        });
        let (chapter, chapter_title, cut) = match home {
            Some(part) => {
                let title = parts.get(part.saturating_sub(1)).map_or("", |part| part.title.as_str());
                (part.to_string(), title.to_owned(), part.to_string())
            }
            None => ("a".to_owned(), words.index_cut_title.clone(), words.index_cut.clone()),
        };
        Self {
            path: path.to_owned(),
            book: front.title.clone(),
            house: front.house.clone(),
            edition: front.edition.clone(),
            units: match front.units {
                UnitsFirst::Us => "us",
                UnitsFirst::Si => "si",
            },
            title: title.to_owned(),
            label: label.to_owned(),
            guide: print::print(&guide),
            chapter,
            chapter_title,
            cut,
            kind: kind.to_owned(),
            cuts,
            front: to(address::FRONT),
            find: to(address::FIND),
            find_index: to(address::FIND_INDEX),
            print: to(address::PRINT),
            style: to(address::STYLE),
            script: to(address::SCRIPT),
            reckoner: to(address::RECKONER),
            icon: to(address::ICON),
        }
    }

    /// The frame of the front board, on which no cut is marked.
    pub(super) fn of_front(press: &Press<'_>) -> Self {
        let heading =
            Heading { path: address::FRONT, title: "", label: "", guide: String::new(), home: None, kind: "" };
        let mut frame = Self::of(press, heading);
        frame.cuts.iter_mut().for_each(|cut| cut.here = false);
        frame.chapter = "0".to_owned();
        frame.chapter_title = press.theme.words.all_chapters.clone();
        frame.cut = match (parts_with_lessons(press).next(), parts_with_lessons(press).last()) {
            (Some((first, _)), Some((last, _))) if first != last => format!("{first}–{last}"),
            _ => press.theme.words.index_cut.clone(),
        };
        frame
    }

    /// Gives `context` the leaves this one stands on, which are `lessons` in that order, and those it is used in.
    pub(super) fn tie(&self, press: &Press<'_>, context: &mut Context, target: &Target, lessons: &[String]) {
        let on: Vec<PageLink> = lessons
            .iter()
            .filter_map(|name| press.register.lessons.get(name))
            .map(|place| PageLink::of(&place.page, &self.path))
            .collect();
        // A lesson that both stands on this one and is stood on is tied in one direction only, the one it was written in.
        let stood_on: BTreeSet<&str> = on.iter().map(|page| page.href.as_str()).collect();
        let used: Vec<PageLink> = press
            .register
            .used_in(target, &self.path)
            .map(|page| PageLink::of(page, &self.path))
            .filter(|page| !stood_on.contains(page.href.as_str()))
            .collect();
        context.insert("stands_on", &on);
        context.insert("used_in", &used);
    }

    /// Fills a page's template.
    pub(super) fn fill(&self, press: &Press<'_>, template: &str, mut context: Context) -> Result<String, SettingError> {
        context.insert("frame", self);
        press.fill(template, context)
    }

    /// A link from this page.
    pub(super) fn to(&self, target: &str) -> String {
        address::href(&self.path, target)
    }
}

/// The parts that have lessons, with their numbers. One that has none yet has no cut and no place in the contents.
pub(super) fn parts_with_lessons<'a>(press: &'a Press<'_>) -> impl Iterator<Item = (usize, &'a Part)> {
    let numbered = press.book.front.parts.iter().enumerate().map(|(i, part)| (i + 1, part));
    numbered.filter(|(number, _)| press.register.lessons.values().any(|place| place.part == *number))
}

/// Anchor of a part in the contents.
pub(super) fn part_anchor(number: usize) -> String {
    format!("part-{number}")
}
