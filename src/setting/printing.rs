//! The page of the whole handbook, to be printed, and the style it has beside the rest.

use super::SettingError;
use super::address;
use super::leaf::{Frame, Heading};
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
pub(super) fn style(press: &Press<'_>, outline: &[Chapter]) -> Result<String, SettingError> {
    let mut context = Context::new();
    context.insert("parts", &print_parts(outline));
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
    context.insert("parts", &print_parts(outline));
    context.insert("print_style", &address::href(address::PRINT, address::PRINT_STYLE));
    Frame::of(press, heading).fill(press, "print.html", context)
}
