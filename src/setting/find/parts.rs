//! The index in parts, so that a reader's machine takes up only those that a search asks for, however large the handbook.
//!
//! Every part is a script that puts its content under its name, because a page opened from a folder may not read a file.
//! A slow machine takes about as long for a script whatever its size, so what is first shown for a word comes with the word.
//! - `kit/find.js`: what there is: kinds, how many entries of each, where each part of the words begins, how the usual words
//!   are spelled and which further lists of spellings there are, forms for a reading.
//! - `kit/find/w*.js`: `of`, words without their endings and (marked by a star) beginnings of many words, each with the entries
//!   it stands in; `also`, what other names stand for; `best`, the entries that are shown first for any of these and for the
//!   terms' names of several words; `like`, how they are spelled, for slips.
//! - `kit/find/wu.js`: the same, but for spellings, of the words that are asked for most, taken up before anything is typed.
//! - `kit/find/l*.js`: how words that begin with a letter are spelled, for slips; `m*.js`: the same by second letter, for
//!   slips in the first.
//! - `kit/find/e*.js`: the entries themselves.
//! - `kit/find/t*.js`: rows of a table of pressure against temperature, for a reading that is typed.

use super::spelling::{split, stem};
use super::words::{LIGHT, NAMED, Places, Words};
use super::{Entry, Form, Rows};
use serde_json::{Value, json};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

/// Entries in a part. Few, since those found lie far apart.
const BLOCK: usize = 12;
/// Bytes of words in a part, from which on the next begins.
const PART: usize = 17_000;
/// Bytes of the words that are asked for most.
const USUAL: usize = 80_000;
/// Entries that are whole on a phone's screen above its keyboard; so many come with a word.
const SCREEN: usize = 3;
/// What is found by another road than the words typed weighs so many tenths of what they find.
const LESS: usize = 7;
/// Entries of a word that are as quickly taken up from their own parts.
const FEW: usize = 1;
/// Letters that a word is said to begin with like another, at the most: each may be two to a script.
const MOST_ALIKE: usize = 31;
/// Digits of numbers in base 64, the first half of them those a number ends with.
const DIGITS: &[u8; 64] = b"0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_-";

/// The parts by name, each the text of its script. `entries` stand by kind; `kinds` names them. `common` are the words that
/// stand everywhere.
pub(super) fn parts(
    kinds: &[&str],
    terms: u8,
    common: BTreeSet<String>,
    entries: &[Entry],
    tables: &[Rows],
    forms: &[Form],
) -> BTreeMap<String, String> {
    let mut parts: BTreeMap<String, String> = BTreeMap::new();
    let mut put = |name: String, content: &Value| {
        let script = format!("(window.handbook=window.handbook||{{}})[\"{name}\"]={content};\n");
        parts.insert(name, script);
    };
    for (number, block) in entries.chunks(BLOCK).enumerate() {
        put(format!("e{number}"), &Value::Array(block.iter().map(Entry::shown).collect()));
    }
    let words = Words::of(entries, terms, common);
    let shelf = Shelf::of(&words, entries);
    let mut begins = Vec::new();
    for (number, part) in shelf.in_parts().into_iter().enumerate() {
        put(format!("w{number}"), &part.content());
        begins.push(part.begins);
    }
    put("wu".to_owned(), &shelf.usual().content());
    let mut lists = Vec::new();
    for (list, place) in [("l", 0), ("m", 1)] {
        for (letter, words) in words.spellings(place) {
            let name = format!("{list}{letter}");
            put(name.clone(), &Value::String(spelled(&words)));
            lists.push(name);
        }
    }
    for (number, table) in tables.iter().enumerate() {
        put(format!("t{number}"), &table.shown);
    }
    let mut counts = vec![0_usize; kinds.len()];
    for entry in entries {
        if let Some(count) = counts.get_mut(usize::from(entry.kind)) {
            *count += 1;
        }
    }
    let tables: BTreeMap<String, usize> =
        tables.iter().enumerate().map(|(number, table)| (split(&table.refrigerant).join(""), number)).collect();
    let forms: Vec<[&str; 4]> =
        forms.iter().map(|form| [form.title.as_str(), &form.href, &form.pressure, &form.temperature]).collect();
    let root = json!({
        "kinds": kinds, "counts": counts, "block": BLOCK, "screen": SCREEN, "less": LESS, "light": LIGHT, "named": NAMED * 10,
        "words": begins, "spelled": lists, "like": spelled(&words.usual_spellings()), "tables": tables, "forms": forms,
    });
    put("root".to_owned(), &root);
    parts
}

/// Words as they are spelled: of each a digit for how many letters it begins with like the one before, the rest of it, and a
/// digit for what it is worth.
fn spelled(words: &[(&str, usize)]) -> String {
    let mut last = "";
    let pieces = words.iter().map(|(word, worth)| {
        let alike: Vec<char> =
            word.chars().zip(last.chars()).take(MOST_ALIKE).take_while(|(a, b)| a == b).map(|(a, _)| a).collect();
        last = word;
        let rest: String = word.chars().skip(alike.len()).collect();
        // As a script counts letters.
        let units: usize = alike.iter().map(|letter| letter.len_utf16()).sum();
        format!("{}{rest}{}", char::from(DIGITS[units]), char::from(DIGITS[*worth]))
    });
    pieces.collect::<Vec<_>>().join(" ")
}

/// What is known of some words.
#[derive(Default)]
struct Part<'a> {
    begins: String,
    of: BTreeMap<String, String>,
    also: BTreeMap<String, Vec<(String, String)>>,
    best: BTreeMap<usize, Value>,
    like: Vec<(&'a str, usize)>,
}

impl Part<'_> {
    fn content(&self) -> Value {
        json!({ "of": self.of, "also": self.also, "best": self.best, "like": spelled(&self.like) })
    }

    /// Puts the entries here that are shown first for `places`; gives how much longer that makes it.
    fn show(&mut self, places: &Places, entries: &[Entry]) -> usize {
        let mut longer = 0;
        for at in first_shown(places, entries) {
            self.best.entry(at).or_insert_with(|| {
                let shown = entries[at].shown();
                longer += shown.to_string().len() + 8;
                shown
            });
        }
        longer
    }
}

/// What parts are filled from.
struct Shelf<'a> {
    words: &'a Words,
    entries: &'a [Entry],
    /// Names of terms under the word they begin with, each with what it stands for besides.
    other_names: BTreeMap<String, Vec<OtherName<'a>>>,
    /// By word, how it is spelled, where slips are looked for.
    spelled: BTreeMap<String, (&'a str, usize)>,
}

type OtherName<'a> = (&'a str, Vec<(&'a str, Places)>);

impl<'a> Shelf<'a> {
    fn of(words: &'a Words, entries: &'a [Entry]) -> Self {
        let mut other_names: BTreeMap<String, Vec<_>> = BTreeMap::new();
        for (phrase, meant) in words.other_names() {
            let first = phrase.split(' ').next().unwrap_or_default();
            other_names.entry(stem(first)).or_default().push((phrase, meant));
        }
        let listed = words.spellings(0).into_values().flatten();
        let spelled = listed.map(|(word, worth)| (stem(word), (word, worth))).collect();
        Self { words, entries, other_names, spelled }
    }

    /// The words with their places, in parts of about [`PART`] bytes.
    fn in_parts(&self) -> Vec<Part<'a>> {
        let half_typed = self.words.half_typed();
        let mut known: BTreeMap<String, &Places> =
            self.words.places.iter().map(|(word, places)| (word.clone(), places)).collect();
        known.extend(half_typed.iter().map(|(beginning, places)| (format!("{beginning}*"), places)));
        let mut parts: Vec<Part<'a>> = Vec::new();
        let mut size = PART;
        for (word, places) in known {
            if size >= PART {
                parts.push(Part { begins: word.clone(), ..Part::default() });
                size = 0;
            }
            let Some(part) = parts.last_mut() else { continue };
            size += self.fill(part, &word, places);
            if let Some(spelled) = self.spelled.get(&word) {
                size += spelled.0.len() + 3;
                part.like.push(*spelled);
            }
        }
        parts
    }

    /// The words that are asked for most, as many as [`USUAL`] bytes hold.
    fn usual(&self) -> Part<'a> {
        let (mut part, mut size) = (Part::default(), 0);
        for (word, places) in self.words.usual() {
            if size >= USUAL {
                break;
            }
            size += self.fill(&mut part, word, places);
        }
        part
    }

    /// Puts all that is known of `word` into `part`; gives how much longer that makes it.
    fn fill(&self, part: &mut Part<'_>, word: &str, places: &Places) -> usize {
        let mut longer = 0;
        if places.len() > FEW {
            longer += part.show(places, self.entries);
        }
        for (phrase, meant) in self.other_names.get(word).into_iter().flatten() {
            let mut stands_for = Vec::new();
            let mut found = self.words.searched(phrase);
            for (name, places) in meant {
                let text = places_text(places);
                longer += phrase.len() + name.len() + text.len() + 10;
                stands_for.push(((*name).to_owned(), text));
                for (at, weight) in places {
                    found.entry(*at).or_insert(weight * LESS);
                }
            }
            longer += part.show(&found, self.entries);
            if !stands_for.is_empty() {
                part.also.insert((*phrase).to_owned(), stands_for);
            }
        }
        let text = places_text(places);
        longer += word.len() + text.len() + 6;
        part.of.insert(word.to_owned(), text);
        longer
    }
}

/// The entries that fill the screen where a search finds `places`: kinds by the best of each, in each the best first.
fn first_shown(places: &Places, entries: &[Entry]) -> Vec<usize> {
    let mut kinds: BTreeMap<u8, Vec<(Reverse<usize>, usize)>> = BTreeMap::new();
    for (at, weight) in places {
        kinds.entry(entries[*at].kind).or_default().push((Reverse(*weight), *at));
    }
    let mut kinds: Vec<_> = kinds.into_iter().collect();
    kinds.iter_mut().for_each(|(_, found)| found.sort_unstable());
    kinds.sort_by_key(|(kind, found)| (found[0].0, *kind));
    kinds.into_iter().flat_map(|(_, found)| found).take(SCREEN).map(|(_, at)| at).collect()
}

/// The entries a word stands in: for each weight its digit, then how far each entry is from the one before.
fn places_text(places: &BTreeMap<usize, usize>) -> String {
    let mut by_weight: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (entry, weight) in places {
        by_weight.entry(*weight).or_default().push(*entry);
    }
    let groups = by_weight.iter().rev().map(|(weight, entries)| {
        let mut group = String::from(char::from(DIGITS[(*weight).min(DIGITS.len() - 1)]));
        let mut last = 0;
        for entry in entries {
            number(entry - last, &mut group);
            last = *entry;
        }
        group
    });
    groups.collect::<Vec<_>>().join(" ")
}

/// A number in digits of which only the last is of the first half.
fn number(mut n: usize, out: &mut String) {
    while n >= 32 {
        out.push(char::from(DIGITS[32 + n % 32]));
        n /= 32;
    }
    out.push(char::from(DIGITS[n]));
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn places_are_written_short() {
        let places = BTreeMap::from([(3, 10), (40, 10), (5, 2)]);
        assert_eq!(places_text(&places), "a3B1 25");
        let mut out = String::new();
        number(32 * 32 + 1, &mut out);
        assert_eq!(out, "xw1");
    }

    #[test]
    fn spellings_are_written_by_what_differs() {
        assert_eq!(spelled(&[("charge", 3), ("charging", 1), ("évaporateur", 0)]), "0charge3 5ing1 0évaporateur0");
        assert_eq!(spelled(&[]), "");
    }

    #[test]
    fn a_first_search_takes_up_little_however_many_entries_there_are() {
        let entries: Vec<Entry> = (0..5_000)
            .map(|i| Entry {
                // One in ten is a term.
                kind: if i % 10 == 0 { 4 } else { 0 },
                title: format!("W{i} valve at bench x{}", i % 977),
                href: format!("lesson/a{i}.html"),
                text: (0..40).map(|n| format!("word{}", i * n % 6_007)).collect(),
                ..Entry::default()
            })
            .collect();
        let parts = parts(&["Leaves"], 4, BTreeSet::new(), &entries, &[], &[]);
        let largest = |start: &str| {
            let some = parts.iter().filter(|(name, _)| name.starts_with(start) && *name != "wu");
            some.map(|(_, part)| part.len()).max().unwrap_or(0)
        };
        assert!(largest("w") < 2 * PART, "words: {}", largest("w"));
        assert!(largest("e") < 4_000, "entries: {}", largest("e"));
        assert!(parts["wu"].len() < USUAL + PART, "usual words: {}", parts["wu"].len());
        assert!(largest("l") < 40_000 && largest("m") < 40_000, "{} {}", largest("l"), largest("m"));
        let like = spelled(&Words::of(&entries, 4, BTreeSet::new()).usual_spellings()).len();
        assert!((1_000..10_000).contains(&like), "usual spellings: {like}");
        assert!(parts["root"].len() - like < 8_000, "root: {}", parts["root"].len());
        // The most that one word takes up: looked for as it is, by its first two letters for slips, and as what was meant.
        let slip = 2 * (largest("w") + largest("l") + largest("m")) + SCREEN * largest("e");
        let most = parts["root"].len() + parts["wu"].len() + slip;
        assert!(most < 200_000, "a first find: {most}");
    }
}
