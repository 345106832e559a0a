//! The printed index, A–Z.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::leaf::{Frame, Heading};
use super::letters::{Letter, by_letter, filed_as};
use super::press::Press;
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
pub(super) fn page(press: &Press<'_>) -> Result<String, SettingError> {
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
