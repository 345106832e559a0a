//! Entries under the letters of the alphabet, as an index and a glossary have them.

use serde::Serialize;
use std::collections::BTreeMap;

/// One letter and what stands under it.
#[derive(Debug, Serialize)]
pub(super) struct Letter<T> {
    pub(super) letter: String,
    pub(super) anchor: String,
    pub(super) entries: Vec<T>,
}

/// How a word is filed: letters and digits only, all small, so that `A/C` stands with `ac` and a hyphen parts nothing.
pub(super) fn filed_as(word: &str) -> String {
    word.chars().filter(|c| c.is_alphanumeric()).flat_map(char::to_lowercase).collect()
}

/// Entries, each with its word, in order under their letters. What begins with no letter stands first, under `0–9`.
pub(super) fn by_letter<T>(entries: Vec<(String, T)>) -> Vec<Letter<T>> {
    let mut filed: Vec<(String, String, T)> =
        entries.into_iter().map(|(word, entry)| (filed_as(&word), word, entry)).collect();
    filed.sort_by(|a, b| (&a.0, &a.1).cmp(&(&b.0, &b.1)));
    let mut letters: BTreeMap<Option<char>, Vec<T>> = BTreeMap::new();
    for (key, _, entry) in filed {
        let letter = key.chars().next().filter(|c| c.is_alphabetic()).map(|c| c.to_uppercase().next().unwrap_or(c));
        letters.entry(letter).or_default().push(entry);
    }
    letters
        .into_iter()
        .map(|(letter, entries)| Letter {
            letter: letter.map_or_else(|| "0–9".to_owned(), String::from),
            anchor: letter.map_or_else(|| "letter-0".to_owned(), |c| format!("letter-{}", c.to_lowercase())),
            entries,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_filed_by_their_letters() {
        let letters = by_letter(vec![
            ("R-410A".to_owned(), 3),
            ("404A".to_owned(), 0),
            ("bulb".to_owned(), 2),
            ("Bubble point".to_owned(), 1),
        ]);
        let set: Vec<_> = letters.iter().map(|l| (l.letter.as_str(), l.entries.clone())).collect();
        assert_eq!(set, [("0–9", vec![0]), ("B", vec![1, 2]), ("R", vec![3])]);
    }
}
