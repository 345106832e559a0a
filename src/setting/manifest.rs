//! The manifest by which a phone or tablet puts a handbook among its programs.

use super::address;
use super::press::Press;
use super::words::fill;
use tera::{Map, Value};

/// Colors of the board and of paper, which the screen has while the first page is opened.
const CLOTH: &str = "#1f322c";
const PAPER: &str = "#f2f0e6";

const ICON_SMALL: &str = "kit/icon-192.png";
const ICON_LARGE: &str = "kit/icon-512.png";
/// Files that a theme must have for it.
pub(super) const ICONS: [&str; 3] = [address::ICON, ICON_SMALL, ICON_LARGE];

/// The manifest, JSON.
pub(super) fn of(press: &Press<'_>) -> String {
    let front = &press.book.front;
    let edition = fill(&press.theme.words.edition_of, "edition", &front.edition);
    let icon = |path: &str, sizes: &str, kind: &str| {
        object([
            ("src", path.into()),
            ("sizes", sizes.into()),
            ("type", kind.into()),
            ("purpose", "any maskable".into()),
        ])
    };
    object([
        ("name", format!("{}, {edition}", front.title).into()),
        ("short_name", front.title.as_str().into()),
        ("description", front.house.as_str().into()),
        ("lang", press.theme.words.language.as_str().into()),
        ("id", address::FRONT.into()),
        ("start_url", address::FRONT.into()),
        ("scope", "./".into()),
        // With the browser's own way back, which is how one takes a step back in a diagnosis.
        ("display", "minimal-ui".into()),
        ("background_color", PAPER.into()),
        ("theme_color", CLOTH.into()),
        (
            "icons",
            Value::Array(vec![
                icon(address::ICON, "any", "image/svg+xml"),
                icon(ICON_SMALL, "192x192", "image/png"),
                icon(ICON_LARGE, "512x512", "image/png"),
            ]),
        ),
    ])
    .to_string()
        + "\n"
}

fn object<const N: usize>(entries: [(&str, Value); N]) -> Value {
    Value::Object(entries.into_iter().map(|(name, value)| (name.to_owned(), value)).collect::<Map<String, Value>>())
}
