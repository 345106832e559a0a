//! Pictures: `picture-not-safe`, a drawing that brings more than lines; `picture-key-missing`, a letter of the key that
//! the drawing does not show; `picture-not-shown`, a picture made of dots that no page could show; `picture-heavy`, one that
//! weighs more than the rest of its lesson many times over.
//!
//! A drawing goes into the page as it is. A script in it would run there, and an address in it would be asked for over
//! the network.
//!
//! Trips: `<svg><script>…`. Mended: lines, shapes and letters only. Trips: `picture: pictures/valve.heic`. Mended:
//! `picture: pictures/valve.jpg`, saved as such.

use crate::handbook::{BlockKind, Finding, Handbook, Plate, Raster, Span};

/// Bytes of a picture above which an author is told: a handbook is carried on phones, all of it at once.
const HEAVY: usize = 600_000;

/// What a drawing may not bring: beginnings of elements and attributes, in lower case.
const NOT_ALLOWED: [&str; 9] =
    ["<script", "<style", "<foreignobject", "<image", "<iframe", "javascript:", "href=\"http", "url(http", "<!entity"];

/// Examines every picture and every plate's key.
pub(super) fn examine(book: &Handbook, findings: &mut Vec<Finding>) {
    for (_, id) in book.pictures.iter().filter(|(path, _)| !book.rasters.contains_key(*path)) {
        let Some(file) = book.files.get(*id) else { continue };
        let lower = file.text.to_ascii_lowercase();
        if !lower
            .trim_start()
            .trim_start_matches("<?xml version=\"1.0\" encoding=\"utf-8\"?>")
            .trim_start()
            .starts_with("<svg")
        {
            findings.push(
                Finding::error(
                    "picture-not-safe",
                    Span { file: *id, start: 0, end: 0 },
                    "this picture does not begin with `<svg`",
                )
                .instead("keep only the drawing itself, from `<svg` to `</svg>`"),
            );
        }
        let handler = event_handler(&lower);
        let found = NOT_ALLOWED.iter().filter_map(|bad| Some((lower.find(bad)?, bad.len()))).chain(handler).min();
        if let Some((start, length)) = found {
            let at = Span { file: *id, start, end: start + length };
            findings.push(
                Finding::error(
                    "picture-not-safe",
                    at,
                    format!("a picture may not bring `{}`", &file.text[start..start + length]),
                )
                .instead("keep to lines, shapes and letters; the theme's classes give them their look"),
            );
        }
    }
    for block in book.lessons.values().flat_map(|lesson| &lesson.blocks) {
        let BlockKind::Plate(plate) = &block.kind else { continue };
        if let Some(raster) = book.rasters.get(&plate.picture.value) {
            findings.extend(examine_raster(plate, raster));
            continue;
        }
        let drawing = book.pictures.get(&plate.picture.value).and_then(|id| book.files.get(*id));
        let Some(drawing) = drawing else { continue };
        for (letter, part) in &plate.key {
            if !drawing.text.contains(&format!(">{}</text>", letter.value)) {
                findings.push(
                    Finding::error(
                        "picture-key-missing",
                        letter.at,
                        format!("the drawing shows no `{}` for the {}", letter.value, part.value),
                    )
                    .instead(format!("letter it in `{}`, or take it out of the key", plate.picture.value)),
                );
            }
        }
    }
}

/// A picture made of dots, where a plate shows it. Which letters stand in it nobody but its author can tell.
fn examine_raster(plate: &Plate, raster: &Raster) -> Option<Finding> {
    let (name, at) = (&plate.picture.value, plate.picture.at);
    match &raster.size {
        Err(fault) => Some(
            Finding::error("picture-not-shown", at, format!("`{name}` {}", fault.says)).instead(fault.instead.clone()),
        ),
        Ok(dots) if raster.bytes.len() > HEAVY => {
            let (kilobytes, most) = (raster.bytes.len() / 1000, HEAVY / 1000);
            let (width, height) = (dots.width, dots.height);
            Some(
                Finding::warning(
                    "picture-heavy",
                    at,
                    format!("`{name}` weighs {kilobytes} KB, with {width} dots by {height}"),
                )
                .instead(format!("save it smaller, below {most} KB: a plate is at most 528 points wide")),
            )
        }
        Ok(_) => None,
    }
}

/// An attribute like `onclick=`: its place and length.
fn event_handler(lower: &str) -> Option<(usize, usize)> {
    lower.match_indices(" on").find_map(|(i, _)| {
        let name = lower[i + 3..].bytes().take_while(u8::is_ascii_lowercase).count();
        let is_attribute = name > 1 && lower[i + 3 + name..].starts_with('=');
        is_attribute.then_some((i + 1, name + 2))
    })
}
