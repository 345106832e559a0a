//! Plates: a drawing or a photograph in a double neat line, with a key to its letters and what it shows in words.

use super::SettingError;
use super::address;
use super::press::Press;
use super::print::{anchor, escape};
use crate::handbook::{BlockKind, Handbook, Plate, Raster, Span};
use std::collections::BTreeMap;
use tera::Context;

/// Sets a `plate` that stands on `page`.
pub(super) fn set(press: &Press<'_>, page: &str, at: Span, plate: &Plate) -> Result<String, SettingError> {
    let number = press.register.plates.get(&at).map_or("", String::as_str);
    let drawing = press.book.pictures.get(&plate.picture.value).and_then(|id| press.book.files.get(*id));
    let Some(drawing) = drawing else { return Ok(String::new()) };
    let name = format!("plate-{}", anchor(&plate.picture.value));
    let key: Vec<(&str, &str)> = plate.key.iter().map(|(l, part)| (l.value.as_str(), part.value.as_str())).collect();
    let mut context = Context::new();
    context.insert("anchor", &name);
    context.insert("number", number);
    context.insert("title", &plate.title.value);
    context.insert("key", &key);
    context.insert("say", &plate.say.value);
    match press.book.rasters.get(&plate.picture.value) {
        None => context.insert("drawing", &named(&drawing.text, &name, &plate.title.value, &plate.say.value)),
        Some(Raster { size: Ok(dots), .. }) => {
            context.insert("address", &address::href(page, &plate.picture.value));
            context.insert("width", &dots.width);
            context.insert("height", &dots.height);
        }
        // A handbook with such a picture is not bound; on the author's desk its plate stands empty.
        Some(Raster { size: Err(_), .. }) => {}
    }
    press.fill("block/plate.html", context)
}

/// The pictures made of dots that plates of `book` show, by their paths in the bound folder.
pub(super) fn files(book: &Handbook) -> BTreeMap<String, Vec<u8>> {
    let blocks = book.lessons.values().flat_map(|lesson| &lesson.blocks);
    let shown = blocks.filter_map(|block| match &block.kind {
        BlockKind::Plate(plate) => book.rasters.get_key_value(&plate.picture.value),
        _ => None,
    });
    let whole = shown.filter(|(_, raster)| raster.size.is_ok());
    whole.map(|(path, raster)| (path.clone(), raster.bytes.to_vec())).collect()
}

/// The drawing with its title and description, and with names of its own for what it defines, so that two drawings on one
/// page do not take each other's hatching.
pub(super) fn named(svg: &str, name: &str, title: &str, say: &str) -> String {
    let body = svg.find("<svg").map_or(svg, |i| &svg[i..]).trim_end();
    let own = body
        .replace("id=\"", &format!("id=\"{name}-"))
        .replace("url(#", &format!("url(#{name}-"))
        .replace("href=\"#", &format!("href=\"#{name}-"));
    let Some(open) = own.find('>') else { return own };
    let (head, rest) = own.split_at(open);
    let head = head.replace(" xmlns=\"http://www.w3.org/2000/svg\"", "");
    format!(
        "{head} role=\"img\" aria-labelledby=\"{name}-name {name}-says\"><title id=\"{name}-name\">{}</title><desc id=\"{name}-says\">{}</desc>{}",
        escape(title),
        escape(say),
        &rest[1..],
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_keeps_its_hatching_to_itself() {
        let svg = "<svg viewBox=\"0 0 9 9\" xmlns=\"http://www.w3.org/2000/svg\"><pattern id=\"brass\"/><path fill=\"url(#brass)\"/></svg>\n";
        let set = named(svg, "plate-x", "A & B", "Says.");
        assert!(set.contains("<pattern id=\"plate-x-brass\"/><path fill=\"url(#plate-x-brass)\"/>"), "{set}");
        assert!(set.contains("<title id=\"plate-x-name\">A &amp; B</title>"), "{set}");
        assert!(!set.contains("xmlns"), "{set}");
    }
}
