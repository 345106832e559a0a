//! The pages in the order in which the book is read, chapter by chapter: what a copy in one piece is put together by.

use super::address;
use super::press::Press;
use super::register::{PageRef, Target};

/// A chapter of the book: a part, or what stands before or behind the parts.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Chapter {
    /// Its title, plain. Empty for the front.
    pub title: String,
    /// Its number, where it is a part.
    pub number: Option<usize>,
    /// Its pages in order.
    pub leaves: Vec<OutlineLeaf>,
}

impl Chapter {
    /// The anchor of the `place`th chapter, from 0, on the page to be printed.
    pub fn anchor(&self, place: usize) -> String {
        self.number.map_or_else(|| format!("chapter-{place}"), |number| format!("part-{number}"))
    }
}

/// A page in its chapter.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct OutlineLeaf {
    /// Its path below the handbook's folder.
    pub path: String,
    /// Its number, `3·2`; empty where it has none.
    pub label: String,
    /// Its title, plain.
    pub title: String,
}

/// Every page but Find and the leaf of carry copies.
pub(super) fn of(press: &Press<'_>) -> Vec<Chapter> {
    let words = &press.theme.words;
    let register = &press.register;
    let plain =
        |path: &str, title: &str| OutlineLeaf { path: path.to_owned(), title: title.to_owned(), ..Default::default() };
    let page = |page: &PageRef| plain(&page.path, &page.title);
    let trees = |number: Option<usize>| -> Vec<OutlineLeaf> {
        let all = register.trees.iter();
        all.filter(|(name, _)| register.home(&Target::Tree((*name).clone())) == number)
            .map(|(_, tree)| page(tree))
            .collect()
    };
    let mut chapters =
        vec![Chapter { leaves: vec![plain(address::FRONT, &press.book.front.title)], ..Chapter::default() }];
    let in_order = press.book.in_order();
    for (i, part) in press.book.front.parts.iter().enumerate() {
        let lessons = in_order.iter().filter(|leaf| leaf.part_number == i + 1).map(|leaf| OutlineLeaf {
            path: address::lesson(&leaf.lesson.name),
            label: leaf.label(),
            title: leaf.lesson.title.value.clone(),
        });
        chapters.push(Chapter {
            title: part.title.clone(),
            number: Some(i + 1),
            leaves: lessons.chain(trees(Some(i + 1))).collect(),
        });
    }
    chapters.push(Chapter { title: words.symptoms.clone(), leaves: trees(None), number: None });
    for (title, pages) in [(&words.sheets, &register.sheets), (&words.problem_sets, &register.problem_sets)] {
        chapters.push(Chapter { title: title.clone(), leaves: pages.values().map(page).collect(), number: None });
    }
    chapters.push(Chapter {
        title: words.refrigerants.clone(),
        number: None,
        leaves: register.refrigerants.values().map(page).collect(),
    });
    let sums = press.figures.catalogue.iter().map(|sum| plain(&address::computation(&sum.name), &sum.title));
    let list = plain(address::COMPUTATIONS, &words.computations);
    chapters.push(Chapter {
        title: words.computations.clone(),
        number: None,
        leaves: std::iter::once(list).chain(sums).collect(),
    });
    let back = [
        (address::TERMS, &words.terms),
        (address::VALUES, &words.standing_values),
        (address::SOURCES, &words.sources),
        (address::WORDS, &words.index),
    ];
    let leaves = back.into_iter().map(|(path, title)| plain(path, title)).collect();
    chapters.push(Chapter { title: words.at_the_back.clone(), leaves, number: None });
    chapters.retain(|chapter| !chapter.leaves.is_empty());
    chapters
}
