//! The index in parts, so that a reader's machine takes up only those that a search asks for, however large the handbook.
//!
//! Every part is a script that puts its content under its name, because a page opened from a folder may not read a file.
//! - `kit/find.js`: what there is: kinds, how many entries of each, where each part of the words begins, forms for a reading.
//! - `kit/find/w*.js`: words without their endings, each with the entries it stands in; and what other names stand for.
//! - `kit/find/l*.js`: how words that begin with a letter are spelled, for those half typed and for slips; `m*.js`: the same
//!   by second letter, for slips in the first.
//! - `kit/find/e*.js`: the entries themselves.
//! - `kit/find/t*.js`: rows of a table of pressure against temperature, for a reading that is typed.

use super::spelling::{split, stem};
use super::{Entry, Form, Rows};
use serde_json::{Value, json};
use std::collections::{BTreeMap, BTreeSet};

/// Entries in a part. Few, since those found lie far apart.
const BLOCK: usize = 12;
/// Bytes of words in a part, from which on the next begins.
const PART: usize = 14_000;
/// Entries kept for a word; those it weighs most in. A word that stands in more finds too much to be of use.
const MOST_PLACES: usize = 4_000;
/// Words kept in a list of spellings; those that stand in most places.
const MOST_SPELLED: usize = 2_000;
/// Digits of numbers in base 64, the first half of them those a number ends with.
const DIGITS: &[u8; 64] = b"0123456789abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ_-";

/// What weighs how much: a word of a title, of another name, of the line below, of the text. Titles and names of few words
/// weigh more: who types the whole of one wants it.
const IN_TITLE: usize = 10;
const WHOLE_TITLE: usize = 12;
const IN_NAME: usize = 8;
const WHOLE_NAME: usize = 10;
const IN_LINE: usize = 3;
const IN_TEXT: usize = 2;

/// The words and where they stand.
#[derive(Default)]
struct Words {
    /// By stem: weight by entry.
    places: BTreeMap<String, BTreeMap<usize, usize>>,
    /// By stem: how often each spelling was met.
    spelled: BTreeMap<String, BTreeMap<String, usize>>,
    /// By phrase: what it stands for.
    stands_for: BTreeMap<String, BTreeSet<String>>,
}

impl Words {
    fn know(&mut self, word: &str, entry: usize, weight: usize) {
        let key = stem(word);
        let known = self.places.entry(key.clone()).or_default().entry(entry).or_default();
        *known = (*known).max(weight);
        *self.spelled.entry(key).or_default().entry(word.to_owned()).or_default() += 1;
    }

    fn enter(&mut self, at: usize, entry: &Entry, terms: u8) {
        let title = split(&entry.title);
        for word in &title {
            self.know(word, at, IN_TITLE + WHOLE_TITLE / title.len());
            // Typed without its R.
            if let Some(number) = word.strip_prefix('r')
                && number.starts_with(|c: char| c.is_ascii_digit())
            {
                self.know(number, at, IN_TITLE - 1 + WHOLE_TITLE / title.len());
            }
        }
        for name in &entry.names {
            let name = split(name);
            for word in &name {
                self.know(word, at, IN_NAME + WHOLE_NAME / name.len());
            }
            // A search for another name searches for what it stands for too.
            if entry.kind == terms && name != title {
                self.stands_for.entry(name.join(" ")).or_default().insert(title.join(" "));
            }
        }
        split(&entry.line).iter().for_each(|word| self.know(word, at, IN_LINE));
        entry.text.iter().for_each(|word| self.know(word, at, IN_TEXT));
    }
}

/// The parts by name, each the text of its script. `entries` stand by kind; `kinds` names them.
pub(super) fn parts(
    kinds: &[&str],
    terms: u8,
    entries: &[Entry],
    tables: &[Rows],
    forms: &[Form],
) -> BTreeMap<String, String> {
    let mut words = Words::default();
    for (at, entry) in entries.iter().enumerate() {
        words.enter(at, entry, terms);
    }
    let mut parts: BTreeMap<String, String> = BTreeMap::new();
    let mut put = |name: String, content: &Value| {
        let script = format!("(window.handbook=window.handbook||{{}})[\"{name}\"]={content};\n");
        parts.insert(name, script);
    };
    for (number, block) in entries.chunks(BLOCK).enumerate() {
        put(format!("e{number}"), &Value::Array(block.iter().map(Entry::shown).collect()));
    }
    let mut synonyms: BTreeMap<String, BTreeMap<&String, &BTreeSet<String>>> = BTreeMap::new();
    for (phrase, meant) in &words.stands_for {
        let first = phrase.split(' ').next().unwrap_or_default();
        synonyms.entry(stem(first)).or_default().insert(phrase, meant);
    }
    let in_parts = in_parts(&words);
    for (number, part) in in_parts.iter().enumerate() {
        let also: BTreeMap<_, _> = part.keys().filter_map(|word| synonyms.get(*word)).flatten().collect();
        put(format!("w{number}"), &json!({ "of": part, "also": also }));
    }
    let begins: Vec<&str> = in_parts.iter().filter_map(|part| part.keys().next().copied()).collect();
    for (list, place) in [("l", 0), ("m", 1)] {
        for (letter, words) in spellings(&words, place) {
            put(format!("{list}{letter}"), &Value::String(words));
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
        "kinds": kinds, "counts": counts, "block": BLOCK, "words": begins, "tables": tables, "forms": forms,
    });
    put("root".to_owned(), &root);
    parts
}

/// The words with their places, in parts of about [`PART`] bytes.
fn in_parts(words: &Words) -> Vec<BTreeMap<&str, String>> {
    let mut parts: Vec<BTreeMap<&str, String>> = Vec::new();
    let mut size = PART;
    for (word, places) in &words.places {
        let places = places_text(places);
        let longer = word.len() + places.len() + 6;
        if size + longer > PART {
            parts.push(BTreeMap::new());
            size = 0;
        }
        size += longer;
        if let Some(part) = parts.last_mut() {
            part.insert(word, places);
        }
    }
    parts
}

/// The entries a word stands in: for each weight its digit, then how far each entry is from the one before.
fn places_text(places: &BTreeMap<usize, usize>) -> String {
    let mut by_weight: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (entry, weight) in places {
        by_weight.entry(*weight).or_default().push(*entry);
    }
    let mut left = MOST_PLACES;
    let mut groups = Vec::new();
    for (weight, entries) in by_weight.iter().rev() {
        let mut group = String::from(char::from(DIGITS[(*weight).min(DIGITS.len() - 1)]));
        let mut last = 0;
        for entry in entries.iter().take(left) {
            number(entry - last, &mut group);
            last = *entry;
        }
        left -= entries.len().min(left);
        groups.push(group);
        if left == 0 {
            break;
        }
    }
    groups.join(" ")
}

/// A number in digits of which only the last is of the first half.
fn number(mut n: usize, out: &mut String) {
    while n >= 32 {
        out.push(char::from(DIGITS[32 + n % 32]));
        n /= 32;
    }
    out.push(char::from(DIGITS[n]));
}

/// How words are spelled, by the letter at `place`, each with how much it is worth; sorted, with a blank between.
fn spellings(words: &Words, place: usize) -> BTreeMap<char, String> {
    let mut lists: BTreeMap<char, Vec<(usize, &str, &str)>> = BTreeMap::new();
    for (key, spelled) in &words.spelled {
        let Some(letter) = key.chars().nth(place) else { continue };
        // A slip in the first letter of a short word makes another word of it.
        let too_short = place == 1 && key.chars().count() < 5;
        if too_short || key.chars().all(|c| c.is_ascii_digit()) || !letter.is_alphanumeric() {
            continue;
        }
        let most = spelled.iter().max_by_key(|(word, met)| (**met, std::cmp::Reverse(word.len())));
        let Some((word, _)) = most else { continue };
        let worth = words.places.get(key).map_or(0, |places| places.values().sum());
        lists.entry(letter).or_default().push((worth, key, word));
    }
    let listed = lists.into_iter().map(|(letter, mut words)| {
        words.sort_by(|a, b| b.0.cmp(&a.0).then(a.1.cmp(b.1)));
        words.truncate(MOST_SPELLED);
        words.sort_by_key(|(_, key, _)| *key);
        let words: Vec<String> = words
            .iter()
            .map(|(worth, _, word)| {
                // Worth in steps of two, which is all that a choice between spellings needs.
                format!("{word}{}", char::from(DIGITS[(worth + 1).ilog2() as usize]))
            })
            .collect();
        (letter, words.join(" "))
    });
    listed.collect()
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
    fn a_first_search_takes_up_little_however_many_entries_there_are() {
        let entries: Vec<Entry> = (0..5_000)
            .map(|i| Entry {
                title: format!("Valve w{i} at bench x{}", i % 977),
                href: format!("lesson/a{i}.html"),
                text: (0..40).map(|n| format!("word{}", i * n % 6_007)).collect(),
                ..Entry::default()
            })
            .collect();
        let parts = parts(&["Leaves"], 4, &entries, &[], &[]);
        let largest = |start: &str| {
            parts.iter().filter(|(name, _)| name.starts_with(start)).map(|(_, part)| part.len()).max().unwrap_or(0)
        };
        assert!(largest("w") < 2 * PART, "words: {}", largest("w"));
        assert!(largest("e") < 4_000, "entries: {}", largest("e"));
        assert!(largest("l") < 40_000 && largest("m") < 40_000, "{} {}", largest("l"), largest("m"));
        assert!(parts["root"].len() < 8_000, "root: {}", parts["root"].len());
    }
}
