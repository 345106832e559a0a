//! Plates: a drawing in a double neat line, with a key to its letters and what it shows in words.

use super::SettingError;
use super::press::Press;
use super::print::{anchor, escape};
use crate::handbook::{Plate, Span};
use tera::Context;

/// Sets a `plate`.
pub(super) fn set(press: &Press<'_>, at: Span, plate: &Plate) -> Result<String, SettingError> {
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
    context.insert("drawing", &named(&drawing.text, &name, &plate.title.value, &plate.say.value));
    press.fill("block/plate.html", context)
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
