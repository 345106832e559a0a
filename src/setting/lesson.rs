//! A lesson's page.

use super::SettingError;
use super::address;
use super::block::{self, PageLink};
use super::leaf::{Frame, Heading};
use super::markdown::{self, Section};
use super::press::Press;
use super::register::Target;
use super::words::fill;
use crate::handbook::{Leaf, Lesson, Scheme};
use std::collections::BTreeSet;
use tera::Context;

/// A lesson's page, and the words of it that Find looks in.
pub(super) struct LessonPage {
    pub(super) html: String,
    pub(super) opening: String,
    pub(super) sections: Vec<Section>,
}

/// Sets the page of `leaf`; `next` is the leaf after it.
pub(super) fn page(press: &Press<'_>, leaf: &Leaf<'_>, next: Option<&Leaf<'_>>) -> Result<LessonPage, SettingError> {
    let lesson = leaf.lesson;
    let path = address::lesson(&lesson.name);
    let target = Target::Lesson(lesson.name.clone());
    let text = markdown::set_lesson(press, lesson)?;
    let mut hazards = String::new();
    for name in &lesson.hazards {
        if let Some(hazard) = press.book.hazards.get(&name.value) {
            hazards.push_str(&block::hazard(press, hazard)?);
        }
    }
    let label = leaf.label();
    let frame = Frame::of(
        press,
        Heading {
            path: &path,
            title: &lesson.title.value,
            label: &label,
            guide: guide(press, lesson),
            home: Some(leaf.part_number),
            kind: "",
        },
    );
    let page_link = |name: &String| press.register.lessons.get(name).map(|place| PageLink::of(&place.page, &path));
    let needs: Vec<String> = lesson.needs.iter().map(|need| need.value.clone()).collect();
    let mut context = Context::new();
    context.insert("part", &leaf.part.title);
    context.insert("purpose", &lesson.purpose.as_ref().map(|purpose| &purpose.value));
    context.insert("needs", &needs.iter().filter_map(page_link).collect::<Vec<_>>());
    context.insert("maker_first", &lesson.maker_first);
    context.insert("hazards", &hazards);
    context.insert("own_leaf", &(press.book.front.base.is_some() && press.book.files.depth(lesson.body.file) == 0));
    context.insert("body", &text.html);
    context.insert("next", &next.and_then(|leaf| page_link(&leaf.lesson.name)));
    frame.tie(press, &mut context, &target, &stands_on(press, lesson));
    let html = frame.fill(press, "lesson.html", context)?;
    Ok(LessonPage { html, opening: text.opening, sections: text.sections })
}

/// The lessons this one is built on: those it needs, then those its text sends to, in reading order.
fn stands_on(press: &Press<'_>, lesson: &Lesson) -> Vec<String> {
    let mut names: Vec<String> = lesson.needs.iter().map(|need| need.value.clone()).collect();
    let linked: BTreeSet<(usize, &String)> = lesson
        .links
        .iter()
        .filter(|link| link.scheme == Scheme::Lesson)
        .filter_map(|link| {
            let place = press.register.lessons.get(&link.to.value)?;
            Some((place.page.order, &link.to.value))
        })
        .collect();
    let own = press.register.lessons.get(&lesson.name).map_or(0, |place| place.page.order);
    // What comes later in the book is no ground to stand on; it is tied from its own side.
    for (order, name) in linked {
        if order < own && !names.contains(name) {
            names.push(name.clone());
        }
    }
    names
}

/// Guide words: the first and the last of the terms the lesson speaks of, as a dictionary's page has them.
fn guide(press: &Press<'_>, lesson: &Lesson) -> String {
    let terms: BTreeSet<&str> = lesson
        .links
        .iter()
        .filter(|link| link.scheme == Scheme::Term)
        .filter_map(|link| press.book.terms.get(&link.to.value))
        .map(|term| term.called.as_str())
        .collect();
    let words = &press.theme.words;
    match (terms.first(), terms.last()) {
        (Some(first), Some(last)) if first != last => fill(&fill(&words.guide_to, "first", first), "last", last),
        (Some(only), _) => (*only).to_owned(),
        _ => String::new(),
    }
}
