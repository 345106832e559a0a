//! The printed index, A–Z, and the leaf of carry copies.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::leaf::{Frame, Heading};
use super::letters::{Letter, by_letter, filed_as};
use super::outline::Chapter;
use super::press::Press;
use super::print::anchor;
use super::register::{PageRef, Target, term_address};
use super::words::fill;
use serde::Serialize;
use std::collections::BTreeMap;
use tera::Context;

#[derive(Serialize)]
struct Entry {
    word: String,
    pages: Vec<PageLink>,
}

/// The index while it is gathered: entries by how they are filed, so that a term and a lesson of one name are one entry.
#[derive(Default)]
struct Gathered(BTreeMap<String, (String, Vec<PageLink>)>);

impl Gathered {
    fn enter(&mut self, word: &str, page: PageLink) {
        let (_, pages) = self.0.entry(filed_as(word)).or_insert_with(|| (word.to_owned(), Vec::new()));
        if !pages.iter().any(|known| known.href == page.href) {
            pages.push(page);
        }
    }

    fn enter_pages<'a>(&mut self, word: &str, pages: impl Iterator<Item = &'a PageRef>) {
        for page in pages.filter(|page| !page.label.is_empty()) {
            self.enter(word, PageLink::of(page, address::WORDS));
        }
    }
}

/// Sets the printed index.
pub(super) fn index(press: &Press<'_>) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let here = address::WORDS;
    let own = |address: &str, label: &str, title: &str| PageLink {
        href: address::href(here, address),
        label: label.to_owned(),
        title: title.to_owned(),
    };
    let mut gathered = Gathered::default();
    for (name, lesson) in &press.book.lessons {
        let Some(place) = press.register.lessons.get(name) else { continue };
        gathered.enter(&lesson.title.value, PageLink::of(&place.page, here));
        for word in &lesson.index {
            gathered.enter(word, PageLink::of(&place.page, here));
        }
    }
    for (key, term) in &press.book.terms {
        let name = &term.called;
        let taught = term.taught.as_ref().and_then(|lesson| press.register.lessons.get(&lesson.value));
        gathered.enter(name, own(&term_address(key), &words.index_meaning, &words.terms));
        gathered.enter_pages(name, taught.map(|place| &place.page).into_iter());
        gathered.enter_pages(name, press.register.used_in(&Target::Term(key.clone()), here));
        for also in &term.also {
            // Spellings that are filed at the same place need no pointer to their neighbor.
            if filed_as(also) != filed_as(name) {
                let see = format!("{} {name}", words.index_see);
                gathered.enter(also, own(&term_address(key), &see, name));
            }
        }
    }
    for (designation, page) in &press.register.refrigerants {
        gathered.enter(designation, own(&page.path, &words.index_own_leaf, designation));
        gathered.enter_pages(designation, press.register.used_in(&Target::Refrigerant(designation.clone()), here));
    }
    for page in press.register.trees.values() {
        gathered.enter(&page.title, own(&page.path, &words.index_own_leaf, &page.title));
    }
    let entries = gathered.0.into_values().map(|(word, mut pages)| {
        // Its own leaf or meaning first, then leaves in the order of the book.
        pages.sort_by_key(|page| place(&page.label));
        (word.clone(), Entry { word, pages })
    });
    let entries = entries.collect();
    let letters: Vec<Letter<Entry>> = by_letter(entries);
    let guide = match (letters.first(), letters.last()) {
        (Some(first), Some(last)) => fill(&fill(&words.guide_to, "first", &first.letter), "last", &last.letter),
        _ => String::new(),
    };
    let frame =
        Frame::of(press, Heading { path: here, title: &words.index, label: "", guide, home: None, kind: "back" });
    let mut context = Context::new();
    context.insert("letters", &letters);
    context.insert("terms", &frame.to(address::TERMS));
    context.insert("values", &frame.to(address::VALUES));
    context.insert("sources", &frame.to(address::SOURCES));
    frame.fill(press, "words.html", context)
}

/// Where a leaf's number stands in the book; what is no number comes before all.
fn place(label: &str) -> Option<(usize, usize)> {
    let (part, leaf) = label.split_once('·')?;
    Some((part.parse().ok()?, leaf.parse().ok()?))
}

/// A copy that was made.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CopyMade {
    /// Its path below the bound folder: one of `CARRY_FOLDER`, `CARRY_PAGE`, `CARRY_EPUB`.
    pub path: &'static str,
    /// Its size in bytes.
    pub bytes: usize,
}

/// What the leaf of carry copies has to say.
pub(super) enum Copies<'a> {
    /// That it lies in one.
    Inside,
    /// Which there are.
    Offered(&'a [CopyMade]),
}

#[derive(Serialize)]
struct Copy {
    href: String,
    /// What the file is called once it is kept.
    name: String,
    title: String,
    is: String,
    size: String,
}

/// Sets the leaf of carry copies.
pub(super) fn carry(press: &Press<'_>, copies: &Copies<'_>) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let front = &press.book.front;
    let name = anchor(&format!("{} {}", front.title, front.edition));
    let kinds = [
        (address::CARRY_FOLDER, &words.carry_folder, &words.carry_folder_is),
        (address::CARRY_PAGE, &words.carry_page, &words.carry_page_is),
        (address::CARRY_EPUB, &words.carry_epub, &words.carry_epub_is),
    ];
    let (inside, made) = match copies {
        Copies::Inside => (true, &[][..]),
        Copies::Offered(made) => (false, *made),
    };
    let offered = kinds.into_iter().filter_map(|(path, title, is)| {
        let bytes = made.iter().find(|copy| copy.path == path)?.bytes;
        Some(Copy {
            href: address::href(address::CARRY, path),
            name: path.rsplit_once('.').map_or_else(|| name.clone(), |(_, ending)| format!("{name}.{ending}")),
            title: title.clone(),
            is: is.clone(),
            size: size_text(bytes),
        })
    });
    let offered: Vec<Copy> = offered.collect();
    let heading = Heading {
        path: address::CARRY,
        title: &words.carry,
        label: "",
        guide: String::new(),
        home: None,
        kind: "back",
    };
    let mut context = Context::new();
    context.insert("copies", &offered);
    context.insert("inside", &inside);
    Frame::of(press, heading).fill(press, "carry.html", context)
}

/// A size as file managers print it: `412 KB`, `3.4 MB`; of thousands, as disks are sold.
fn size_text(bytes: usize) -> String {
    let kilobytes = bytes.div_ceil(1000);
    if kilobytes < 1000 { format!("{kilobytes} KB") } else { format!("{:.1} MB", bytes as f64 / 1e6) }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sizes_are_in_thousands() {
        let sizes = [1, 1000, 412_345, 999_000, 3_449_999].map(size_text);
        assert_eq!(sizes, ["1 KB", "1 KB", "413 KB", "999 KB", "3.4 MB"]);
    }
}

/// A chapter on the page to be printed.
#[derive(Serialize)]
struct PrintPart<'a> {
    anchor: String,
    number: Option<usize>,
    title: &'a str,
}

fn print_parts(outline: &[Chapter]) -> Vec<PrintPart<'_>> {
    let chapters = outline.iter().enumerate().filter(|(_, chapter)| !chapter.title.is_empty());
    chapters
        .map(|(place, chapter)| PrintPart {
            anchor: chapter.anchor(place),
            number: chapter.number,
            title: &chapter.title,
        })
        .collect()
}

/// The style that the page to be printed has beside the rest.
pub(super) fn print_style(press: &Press<'_>, outline: &[Chapter]) -> Result<String, SettingError> {
    let mut context = Context::new();
    context.insert("parts", &print_parts(outline));
    press.fill("print.css", context)
}

/// Sets the page to be printed: what it is, and its chapters. `binding` puts the leaves in.
pub(super) fn printing(press: &Press<'_>, outline: &[Chapter]) -> Result<String, SettingError> {
    let heading = Heading {
        path: address::PRINT,
        title: &press.theme.words.printing,
        label: "",
        guide: String::new(),
        home: None,
        kind: "printing",
    };
    let mut context = Context::new();
    context.insert("parts", &print_parts(outline));
    context.insert("print_style", &address::href(address::PRINT, address::PRINT_STYLE));
    Frame::of(press, heading).fill(press, "print.html", context)
}
