//! The page of the whole handbook, to be printed, and the style it has beside the rest.

use super::SettingError;
use super::address;
use super::leaf::{Frame, Heading, parts_with_lessons};
use super::outline::Chapter;
use super::press::Press;
use serde::Serialize;
use tera::Context;

/// A chapter on the page to be printed.
#[derive(Serialize)]
struct PrintPart<'a> {
    anchor: String,
    number: Option<usize>,
    title: &'a str,
    /// The place of its cut in the thumb index, from 0; what is no part stands at the last.
    at: usize,
}

fn print_parts<'a>(press: &Press<'_>, outline: &'a [Chapter]) -> Vec<PrintPart<'a>> {
    let chapters = outline.iter().enumerate().filter(|(_, chapter)| !chapter.title.is_empty());
    let cuts: Vec<usize> = parts_with_lessons(press).map(|(number, _)| number).collect();
    chapters
        .map(|(place, chapter)| PrintPart {
            anchor: chapter.anchor(place),
            number: chapter.number,
            title: &chapter.title,
            at: cuts.iter().position(|cut| Some(*cut) == chapter.number).unwrap_or(cuts.len()),
        })
        .collect()
}

/// The style that the page to be printed has beside the rest: the name of each chapter over its sheets and its tab at their
/// fore edge.
pub(super) fn style(press: &Press<'_>, outline: &[Chapter]) -> Result<String, SettingError> {
    let mut context = Context::new();
    context.insert("parts", &print_parts(press, outline));
    context.insert("cuts", &(parts_with_lessons(press).count() + 1));
    press.fill("print.css", context)
}

/// Sets the page to be printed: what it is, and its chapters. `binding` puts the leaves in.
pub(super) fn page(press: &Press<'_>, outline: &[Chapter]) -> Result<String, SettingError> {
    let heading = Heading {
        path: address::PRINT,
        title: &press.theme.words.printing,
        label: "",
        guide: String::new(),
        home: None,
        kind: "printing",
    };
    let mut context = Context::new();
    context.insert("parts", &print_parts(press, outline));
    context.insert("print_style", &address::href(address::PRINT, address::PRINT_STYLE));
    Frame::of(press, heading).fill(press, "print.html", context)
}
