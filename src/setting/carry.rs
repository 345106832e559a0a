//! The leaf of carry copies.

use super::SettingError;
use super::address;
use super::leaf::{Frame, Heading};
use super::press::Press;
use super::print::anchor;
use serde::Serialize;
use tera::Context;

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
pub(super) fn page(press: &Press<'_>, copies: &Copies<'_>) -> Result<String, SettingError> {
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
