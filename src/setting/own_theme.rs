//! A handbook's own theme: what lies in its `theme/` folder, laid over the theme inside the program.
//!
//! A file of the same name takes the place of ours, so one template can be replaced and the rest kept; an empty file takes
//! ours away. Of `words.yaml` single words can be given. Everything is looked at before it is used: a fault names its file,
//! line and column.

use super::theme::causes;
use serde_yaml::{Mapping, Value};
use std::collections::BTreeMap;
use tera::Tera;
use thiserror::Error;

/// What is wrong with a handbook's own theme, and where.
#[derive(Clone, Debug, PartialEq, Eq, Error)]
#[error("{path}:{line}:{column}: {says}")]
pub struct ThemeFault {
    /// The file, as seen from the handbook's folder.
    pub path: String,
    /// Line, from 1.
    pub line: usize,
    /// Column, from 1.
    pub column: usize,
    /// What is wrong.
    pub says: String,
    /// What would be right, where that is known.
    pub instead: Option<String>,
}

/// Folders and files that a theme has. The last four belong to whoever keeps it, and are left alone.
const KNOWN: [&str; 10] = [
    "templates/",
    "style/",
    "script/",
    "kit/",
    "copies/",
    "words.yaml",
    "package.json",
    "package-lock.json",
    "README.md",
    "LICENSE",
];

/// `own` laid over `ours`; both by path below a theme's folder.
pub(super) fn lay_over(
    ours: &mut BTreeMap<String, Vec<u8>>,
    own: &BTreeMap<String, Vec<u8>>,
) -> Result<(), ThemeFault> {
    for (path, bytes) in own {
        if !KNOWN.iter().any(|known| path.starts_with(known)) {
            return Err(ThemeFault {
                path: path.clone(),
                line: 1,
                column: 1,
                says: "no file of a theme".to_owned(),
                instead: Some("a theme has templates/, style/, script/, kit/, copies/ and words.yaml".to_owned()),
            });
        }
        if path == "words.yaml" {
            let base = ours.get(path).map_or(&[][..], Vec::as_slice);
            let words = words(text(path, base)?, text(path, bytes)?)?;
            ours.insert(path.clone(), words.into_bytes());
        } else if bytes.is_empty() && !path.starts_with("templates/") {
            ours.remove(path);
        } else {
            if let Some(name) = path.strip_prefix("templates/") {
                template(path, name, text(path, bytes)?)?;
            }
            ours.insert(path.clone(), bytes.clone());
        }
    }
    Ok(())
}

fn text<'a>(path: &str, bytes: &'a [u8]) -> Result<&'a str, ThemeFault> {
    std::str::from_utf8(bytes).map_err(|error| {
        let before = &bytes[..error.valid_up_to()];
        let line = before.iter().filter(|byte| **byte == b'\n').count() + 1;
        let column = before.iter().rev().take_while(|byte| **byte != b'\n').count() + 1;
        fault(path, line, column, "not UTF-8 text")
    })
}

fn fault(path: &str, line: usize, column: usize, says: &str) -> ThemeFault {
    ThemeFault { path: path.to_owned(), line, column, says: says.to_owned(), instead: None }
}

/// Whether a template can be read by itself. What it extends or includes is looked for later.
fn template(path: &str, name: &str, text: &str) -> Result<(), ThemeFault> {
    let Err(error) = Tera::default().add_raw_template(name, text) else { return Ok(()) };
    let says = causes(&error);
    // Tera names a place as its parser does: ` --> 3:5`.
    let place = says.split_once("--> ").and_then(|(_, rest)| rest.split_once(':'));
    let number = |text: &str| text.chars().take_while(char::is_ascii_digit).collect::<String>().parse().ok();
    let Some((line, column)) = place.and_then(|(line, rest)| Some((number(line)?, number(rest)?))) else {
        // It stands by itself and only what it extends is not here; the whole theme is put together later.
        return Ok(());
    };
    let why = says.lines().rev().find_map(|line| line.trim().strip_prefix("= "));
    Err(fault(path, line, column, &format!("this template can't be read: {}", why.unwrap_or("not understood"))))
}

/// The words of the interface: ours, with those of `own` in their places.
fn words(ours: &str, own: &str) -> Result<String, ThemeFault> {
    let path = "words.yaml";
    let read = |text: &str| {
        serde_yaml::from_str::<Option<Mapping>>(text).map(Option::unwrap_or_default).map_err(|error| {
            let (line, column) = error.location().map_or((1, 1), |at| (at.line(), at.column()));
            fault(path, line, column, &error.to_string())
        })
    };
    let mut words = read(ours)?;
    let known: Vec<String> = words.keys().filter_map(Value::as_str).map(str::to_owned).collect();
    for (key, value) in read(own)? {
        let name = key.as_str().unwrap_or_default().to_owned();
        let line = own.lines().position(|line| line.starts_with(&format!("{name}:"))).map_or(1, |line| line + 1);
        let Some(base) = words.get_mut(&key) else {
            let near = known.iter().max_by(|a, b| {
                strsim::jaro_winkler(a, &name).total_cmp(&strsim::jaro_winkler(b, &name)).then_with(|| b.cmp(a))
            });
            return Err(ThemeFault {
                instead: near.map(|near| format!("the nearest is `{near}`")),
                ..fault(path, line, 1, &format!("the interface has no words called `{name}`"))
            });
        };
        match (base, value) {
            (Value::Mapping(base), Value::Mapping(own)) => base.extend(own),
            (base @ Value::String(_), Value::String(own)) => {
                slots(base.as_str().unwrap_or_default(), &own).map_err(|says| fault(path, line, 1, &says))?;
                *base = Value::String(own);
            }
            _ => {
                return Err(ThemeFault {
                    instead: Some("put the words in quotes".to_owned()),
                    ..fault(path, line, 1, &format!("`{name}` is not given in words"))
                });
            }
        }
    }
    serde_yaml::to_string(&words).map_err(|error| fault(path, 1, 1, &error.to_string()))
}

/// Every slot of ours, `{leaf}`, stands in `own` too, and no other.
fn slots(ours: &str, own: &str) -> Result<(), String> {
    let of = |text: &str| -> Vec<String> {
        let mut slots: Vec<String> =
            text.split('{').skip(1).filter_map(|rest| rest.split_once('}')).map(|(name, _)| name.to_owned()).collect();
        slots.sort();
        slots
    };
    let (want, have) = (of(ours), of(own));
    if let Some(missing) = want.iter().find(|slot| !have.contains(slot)) {
        return Err(format!("the slot `{{{missing}}}` is missing"));
    }
    match have.iter().find(|slot| !want.contains(slot)) {
        Some(extra) => Err(format!("nothing fills the slot `{{{extra}}}`")),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn laid(path: &str, text: &str) -> Result<BTreeMap<String, Vec<u8>>, String> {
        let mut ours: BTreeMap<String, Vec<u8>> = [
            (
                "words.yaml",
                "language: en-US\nfind: Find\nedition-of: \"edition {edition}\"\nsafety-groups:\n  A1: low\n",
            ),
            ("style/09-forms.css", "a{}"),
        ]
        .into_iter()
        .map(|(path, text)| (path.to_owned(), text.as_bytes().to_vec()))
        .collect();
        let own = BTreeMap::from([(path.to_owned(), text.as_bytes().to_vec())]);
        lay_over(&mut ours, &own).map_err(|fault| match &fault.instead {
            Some(instead) => format!("{fault}; {instead}"),
            None => fault.to_string(),
        })?;
        Ok(ours)
    }

    #[test]
    fn single_words_take_the_place_of_ours() {
        let words = laid("words.yaml", "language: de\nfind: Suchen\nsafety-groups: {A3: hoch}\n").unwrap();
        let words = String::from_utf8(words["words.yaml"].clone()).unwrap();
        assert_eq!(
            words,
            "language: de\nfind: Suchen\nedition-of: edition {edition}\nsafety-groups:\n  A1: low\n  A3: hoch\n"
        );
    }

    #[test]
    fn a_slip_in_the_words_is_shown_where_it_is() {
        for (text, says) in [
            (
                "find: Suchen\nfnid: x\n",
                "words.yaml:2:1: the interface has no words called `fnid`; the nearest is `find`",
            ),
            ("edition-of: Ausgabe\n", "words.yaml:1:1: the slot `{edition}` is missing"),
            ("edition-of: \"{edition} {leaf}\"\n", "words.yaml:1:1: nothing fills the slot `{leaf}`"),
            ("find: 3\n", "words.yaml:1:1: `find` is not given in words; put the words in quotes"),
        ] {
            assert_eq!(laid("words.yaml", text).unwrap_err(), says);
        }
        assert!(laid("words.yaml", "find: [\n").unwrap_err().starts_with("words.yaml:2:1: "));
    }

    #[test]
    fn a_template_that_cannot_be_read_is_shown_where_it_is() {
        let says = laid("templates/find.html", "{% extends \"leaf.html\" %}\n{% block main %}\n{{ words.find }\n")
            .unwrap_err();
        assert!(says.starts_with("templates/find.html:3:"), "{says}");
        assert!(laid("templates/find.html", "{% extends \"leaf.html\" %}{% block main %}{% endblock main %}").is_ok());
    }

    #[test]
    fn what_is_no_file_of_a_theme_is_refused_and_an_empty_file_takes_ours_away() {
        assert!(laid("template/find.html", "").unwrap_err().starts_with("template/find.html:1:1: no file of a theme"));
        assert!(!laid("style/09-forms.css", "").unwrap().contains_key("style/09-forms.css"));
    }
}
