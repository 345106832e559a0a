//! YAML with places: serde_yaml for the values, a second pass with an event parser for where each of them stands.
//!
//! serde_yaml gives a place for an error only, never for a value it accepted. So the text is gone through twice, and
//! [`Places`] tells, for the path to a value, which bytes it was written in.

use crate::handbook::{Finding, Span, Spot};
use saphyr_parser::{Event, Parser};
use serde::de::{self, Deserialize, DeserializeOwned, Deserializer, Visitor};
use std::collections::BTreeMap;
use std::fmt;

/// A scalar kept as text, whether YAML calls it a string, a number or a boolean.
#[derive(Clone, Debug, Default)]
pub(super) struct Text(pub(super) String);

impl<'de> Deserialize<'de> for Text {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct AnyScalar;
        impl Visitor<'_> for AnyScalar {
            type Value = Text;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("a word, a sentence or a figure with its unit")
            }
            fn visit_str<E: de::Error>(self, v: &str) -> Result<Text, E> {
                Ok(Text(v.to_owned()))
            }
            fn visit_bool<E: de::Error>(self, v: bool) -> Result<Text, E> {
                Ok(Text(v.to_string()))
            }
            fn visit_i64<E: de::Error>(self, v: i64) -> Result<Text, E> {
                Ok(Text(v.to_string()))
            }
            fn visit_u64<E: de::Error>(self, v: u64) -> Result<Text, E> {
                Ok(Text(v.to_string()))
            }
            fn visit_f64<E: de::Error>(self, v: f64) -> Result<Text, E> {
                Ok(Text(v.to_string()))
            }
        }
        deserializer.deserialize_any(AnyScalar)
    }
}

/// A mapping whose keys are the author's own names, in the author's order.
#[derive(Clone, Debug)]
pub(super) struct Named<T>(pub(super) Vec<(String, T)>);

impl<T> Default for Named<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Named<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        struct Entries<T>(std::marker::PhantomData<T>);
        impl<'de, T: Deserialize<'de>> Visitor<'de> for Entries<T> {
            type Value = Named<T>;
            fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
                f.write_str("names, each with a colon and what it stands for")
            }
            fn visit_map<A: de::MapAccess<'de>>(self, mut map: A) -> Result<Named<T>, A::Error> {
                let mut entries: Vec<(String, T)> = Vec::new();
                while let Some(Text(key)) = map.next_key()? {
                    if entries.iter().any(|(k, _)| *k == key) {
                        return Err(de::Error::custom(format!("`{key}` stands here twice")));
                    }
                    entries.push((key, map.next_value()?));
                }
                Ok(Named(entries))
            }
        }
        deserializer.deserialize_map(Entries(std::marker::PhantomData))
    }
}

/// Where the values of one YAML text stand.
#[derive(Debug, Default)]
pub(super) struct Places {
    whole: Span,
    values: BTreeMap<Vec<String>, Span>,
    keys: BTreeMap<Vec<String>, Span>,
    raw: BTreeMap<Vec<String>, String>,
}

impl Places {
    /// Where the value at `path` stands: keys and, in lists, numbers from 0. The nearest one above where there is none.
    pub(super) fn at(&self, path: &[&str]) -> Span {
        let mut path: Vec<String> = path.iter().map(|&s| s.to_owned()).collect();
        loop {
            if let Some(span) = self.values.get(&path) {
                return *span;
            }
            if path.pop().is_none() {
                return self.whole;
            }
        }
    }

    /// Where the key at the end of `path` stands.
    pub(super) fn key(&self, path: &[&str]) -> Span {
        let owned: Vec<String> = path.iter().map(|&s| s.to_owned()).collect();
        self.keys.get(&owned).copied().unwrap_or_else(|| self.at(path))
    }

    /// The scalar at `path` with its place. A plain scalar is taken as it was written, so that `4.50` keeps its digits.
    pub(super) fn spot(&self, path: &[&str], text: &Text) -> Spot<String> {
        let owned: Vec<String> = path.iter().map(|&s| s.to_owned()).collect();
        let value = self.raw.get(&owned).unwrap_or(&text.0).clone();
        Spot::new(value, self.at(path))
    }

    /// The key at the end of `path` with its place.
    pub(super) fn key_spot(&self, path: &[&str]) -> Spot<String> {
        Spot::new(path.last().map_or(String::new(), |&s| s.to_owned()), self.key(path))
    }
}

/// Reads `text`, which stands at `at`, as a `T`.
///
/// # Errors
/// The finding says what is wrong and where, in one of the author's own lines.
pub(super) fn read<T: DeserializeOwned>(text: &str, at: Span) -> Result<(T, Places), Box<Finding>> {
    let value = serde_yaml::from_str::<T>(text).map_err(|e| Box::new(not_read(text, at, &e)))?;
    let places = places(text, at).unwrap_or(Places { whole: at, ..Places::default() });
    Ok((value, places))
}

/// What serde_yaml objected to, marked at its line.
fn not_read(text: &str, at: Span, error: &serde_yaml::Error) -> Finding {
    let start = error.location().map_or(0, |l| l.index().min(text.len()));
    let start = (0..=start).rev().find(|&i| text.is_char_boundary(i)).unwrap_or(0);
    // libyaml reports the end of a plain scalar's line as the place of some errors; step back to what was written.
    let line_start = text[..start].rfind('\n').map_or(0, |i| i + 1);
    let line_end = text[start..].find('\n').map_or(text.len(), |i| start + i);
    let line = &text[line_start..line_end];
    let indent = line.len() - line.trim_start().len();
    let from = start.max(line_start + indent).min(line_end);
    let mut says = error.to_string();
    if let Some(cut) = says.rfind(" at line ") {
        says.truncate(cut);
    }
    let says = says
        .replace("unknown field", "no such key:")
        .replace("missing field", "missing key")
        .replace("expected one of", "keys here are")
        .replace("invalid type: sequence, expected", "a list stands here, and wanted is")
        .replace("invalid type: map, expected", "names with colons stand here, and wanted is")
        .replace("invalid type: unit value, expected", "nothing stands here, and wanted is");
    let finding = Finding::error("yaml-not-read", at.within(from, line_end), says);
    if line.trim_end().ends_with(": ?") {
        return finding.instead("put the question mark in quotes: `\"?\"`");
    }
    finding
}

/// A container that the event parser is inside of.
enum Inside {
    Sequence(usize),
    Mapping(Option<String>),
}

fn places(text: &str, at: Span) -> Option<Places> {
    // The event parser counts characters; spans count bytes.
    let mut byte_of: Vec<usize> = text.char_indices().map(|(i, _)| i).collect();
    byte_of.push(text.len());
    let byte = |index: usize| byte_of.get(index).copied().unwrap_or(text.len());
    let mut places = Places { whole: at, ..Places::default() };
    let mut stack: Vec<Inside> = Vec::new();
    let mut path: Vec<String> = Vec::new();
    let mut starts: Vec<(Vec<String>, usize)> = Vec::new();
    for event in Parser::new_from_str(text) {
        let (event, mark) = event.ok()?;
        let (start, end) = (byte(mark.start.index()), byte(mark.end.index()));
        match event {
            Event::Scalar(scalar, style, ..) => {
                if let Some(Inside::Mapping(key @ None)) = stack.last_mut() {
                    *key = Some(scalar.to_string());
                    path.push(scalar.to_string());
                    places.keys.insert(path.clone(), at.within(start, end));
                    continue;
                }
                enter_item(&stack, &mut path);
                let end = start + text[start..end].trim_end().len();
                places.values.insert(path.clone(), at.within(start, end));
                if style == saphyr_parser::ScalarStyle::Plain && !text[start..end].contains('\n') {
                    places.raw.insert(path.clone(), text[start..end].to_owned());
                }
                leave_item(&mut stack, &mut path);
            }
            Event::SequenceStart(..) | Event::MappingStart(..) => {
                enter_item(&stack, &mut path);
                starts.push((path.clone(), start));
                stack.push(match event {
                    Event::SequenceStart(..) => Inside::Sequence(0),
                    _ => Inside::Mapping(None),
                });
            }
            Event::SequenceEnd | Event::MappingEnd => {
                stack.pop();
                if let Some((at_path, from)) = starts.pop() {
                    let end = from + text[from..end.max(from)].trim_end().len();
                    places.values.insert(at_path, at.within(from, end));
                }
                leave_item(&mut stack, &mut path);
            }
            Event::Alias(_) => {
                enter_item(&stack, &mut path);
                places.values.insert(path.clone(), at.within(start, end));
                leave_item(&mut stack, &mut path);
            }
            _ => {}
        }
    }
    Some(places)
}

/// Before a value: in a list, its number joins the path.
fn enter_item(stack: &[Inside], path: &mut Vec<String>) {
    if let Some(Inside::Sequence(n)) = stack.last() {
        path.push(n.to_string());
    }
}

/// After a value: its number or key leaves the path.
fn leave_item(stack: &mut [Inside], path: &mut Vec<String>) {
    match stack.last_mut() {
        Some(Inside::Sequence(n)) => {
            *n += 1;
            path.pop();
        }
        Some(Inside::Mapping(key)) => {
            *key = None;
            path.pop();
        }
        None => {}
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str =
        "title: Überhitzung 4.50\nsteps:\n  - find: superheat\n    of: {a: b, c: 30.20}\n  - find: glide\n";

    fn marked(path: &[&str]) -> &'static str {
        let span = places(TEXT, Span { end: TEXT.len(), ..Span::default() }).unwrap().at(path);
        &TEXT[span.start..span.end]
    }

    #[test]
    fn paths_lead_to_the_bytes_written() {
        assert_eq!(marked(&["title"]), "Überhitzung 4.50");
        assert_eq!(marked(&["steps", "0", "find"]), "superheat");
        assert_eq!(marked(&["steps", "0", "of", "c"]), "30.20");
        assert_eq!(marked(&["steps", "1", "find"]), "glide");
        assert_eq!(marked(&["steps", "1", "no such"]), "find: glide");
    }

    #[test]
    fn a_plain_figure_keeps_its_digits() {
        let places = places(TEXT, Span { end: TEXT.len(), ..Span::default() }).unwrap();
        assert_eq!(places.spot(&["steps", "0", "of", "c"], &Text("30.2".into())).value, "30.20");
    }

    #[test]
    fn a_slip_is_marked_in_its_line() {
        #[derive(serde::Deserialize, Debug)]
        #[serde(deny_unknown_fields)]
        struct Head {
            #[allow(dead_code, reason = "only its being read matters here")]
            title: Text,
        }
        let text = "title: a\ntitel: b\n";
        let finding = read::<Head>(text, Span { end: text.len(), ..Span::default() }).unwrap_err();
        assert_eq!(&text[finding.at.start..finding.at.end], "titel: b");
        assert_eq!(finding.says, "no such key: `titel`, expected `title`");
    }
}
