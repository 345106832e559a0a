//! The words of the index: where each stands and what it weighs there; what a word half typed may become; what another name
//! stands for. Takes entries in their order, gives places by word. Leaves it to `parts` to write them down.

use super::Entry;
use super::spelling::{split, stem};
use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};
use std::iter;

/// Entries a word is met in, each with the word's weight there.
pub(super) type Places = BTreeMap<usize, usize>;

/// Words kept in a list of spellings; those that stand in most places. And of all of these, how many are there beforehand.
const MOST_SPELLED: usize = 2_000;
const USUAL_SPELLED: usize = 1_000;
/// Words that begin alike, from which on the page needn't try them, and bytes that they fill, roughly, from which on it
/// would take up several parts for them: their best are put together beforehand.
const ALIKE: usize = 12;
const ALIKE_BYTES: usize = 3_000;
/// Bytes of a place in the index, and of a word beside its places: the entries that are shown first for it.
const PLACE_BYTES: usize = 2;
const WORD_BYTES: usize = 500;
/// Of those, how many are put together.
const ENDS: usize = 12;
/// Entries kept for a word, and of what is put together beforehand; those that weigh most. What stands in more finds too much
/// to be of use.
const MOST_PLACES: usize = 2_000;
const MOST_PUT_TOGETHER: usize = 200;

/// What weighs how much: a word of a title, of another name, of the line below, of the text. Titles and names of few words
/// weigh more: who types the whole of one wants it.
const IN_TITLE: usize = 10;
const WHOLE_TITLE: usize = 12;
const IN_NAME: usize = 8;
const WHOLE_NAME: usize = 10;
const IN_LINE: usize = 3;
const IN_TEXT: usize = 2;
/// What a common word weighs in a search of several words, in tenths.
pub(super) const LIGHT: usize = 4;
/// From this weight on a word is a name by itself.
pub(super) const NAMED: usize = 18;

/// The words and where they stand.
#[derive(Default)]
pub(super) struct Words {
    /// By stem.
    pub(super) places: BTreeMap<String, Places>,
    /// By stem: how often each spelling was met.
    spelled: BTreeMap<String, BTreeMap<String, usize>>,
    /// By phrase: what it stands for besides itself.
    stands_for: BTreeMap<String, BTreeSet<String>>,
    /// By stem: how many names of terms it is in.
    of_terms: BTreeMap<String, usize>,
    /// The stems that names of terms end with.
    ends: BTreeSet<String>,
    /// The words that stand everywhere, as they are spelled.
    common: BTreeSet<String>,
}

impl Words {
    /// The words of `entries`, which other parts of the index name by their place here. `terms` is the kind that has other
    /// names to be searched for too; `common` are the words that stand everywhere.
    pub(super) fn of(entries: &[Entry], terms: u8, common: BTreeSet<String>) -> Self {
        let mut words = Self { common, ..Self::default() };
        for (at, entry) in entries.iter().enumerate() {
            words.enter(at, entry, terms);
        }
        for places in words.places.values_mut().filter(|places| places.len() > MOST_PLACES) {
            *places = heaviest(std::mem::take(places), MOST_PLACES);
        }
        words
    }

    fn know(&mut self, word: &str, entry: usize, weight: usize) {
        let key = stem(word);
        let known = self.places.entry(key.clone()).or_default().entry(entry).or_default();
        *known = (*known).max(weight);
        *self.spelled.entry(key).or_default().entry(word.to_owned()).or_default() += 1;
    }

    fn enter(&mut self, at: usize, entry: &Entry, terms: u8) {
        let title = split(&entry.title);
        if entry.kind == terms && title.len() > 1 {
            self.stands_for.entry(title.join(" ")).or_default();
        }
        if entry.kind == terms {
            for name in iter::once(title.clone()).chain(entry.names.iter().map(|name| split(name))) {
                self.ends.extend(name.last().map(|word| stem(word)));
                for word in name {
                    *self.of_terms.entry(stem(&word)).or_default() += 1;
                }
            }
        }
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

    /// By beginning: where the best of the many words stand that begin so. Beginnings of few words that stand in few places are
    /// left out; one letter begins too much to be of use.
    pub(super) fn half_typed(&self) -> BTreeMap<String, Places> {
        let mut alike: BTreeMap<&str, Vec<(&str, &Places)>> = BTreeMap::new();
        for (word, places) in &self.places {
            for (end, _) in word.char_indices().skip(2) {
                alike.entry(&word[..end]).or_default().push((word, places));
            }
        }
        let bytes = |words: &[(&str, &Places)]| {
            words.iter().map(|(_, places)| WORD_BYTES + PLACE_BYTES * places.len()).sum::<usize>()
        };
        alike.retain(|_, words| words.len() > ALIKE || (words.len() > 1 && bytes(words) > ALIKE_BYTES));
        let put_together = alike.into_iter().map(|(beginning, mut words)| {
            words.sort_by_key(|(word, places)| (Reverse(worth(places)), *word));
            let mut all = Places::new();
            for (entry, weight) in words.iter().take(ENDS).flat_map(|(_, places)| places.iter()) {
                let known = all.entry(*entry).or_default();
                *known = (*known).max(*weight);
            }
            (beginning.to_owned(), heaviest(all, MOST_PUT_TOGETHER))
        });
        put_together.collect()
    }

    /// The words that terms are named with, which is what is asked for most; those in most names first. Words that end no
    /// name, as `of` and `the`, are not asked for.
    pub(super) fn usual(&self) -> Vec<(&str, &Places)> {
        let named = self.of_terms.iter().filter(|(word, _)| self.ends.contains(*word));
        let mut usual: Vec<_> =
            named.filter_map(|(word, names)| Some((Reverse(*names), word.as_str(), self.places.get(word)?))).collect();
        usual.sort_by_key(|(names, word, places)| (*names, Reverse(worth(places)), *word));
        usual.into_iter().map(|(_, word, places)| (word, places)).collect()
    }

    /// By the names of terms: each name it stands for besides, and where all the words of that stand together.
    pub(super) fn other_names(&self) -> BTreeMap<&str, Vec<(&str, Places)>> {
        let named = self.stands_for.iter().map(|(phrase, meant)| {
            (phrase.as_str(), meant.iter().map(|name| (name.as_str(), self.together(name))).collect())
        });
        named.collect()
    }

    /// What a search for `phrase` finds, as the page weighs it, in tenths: where most of its words stand together, and
    /// beside them what is called by one of them. A common word beside others weighs little, and needn't stand there.
    pub(super) fn searched(&self, phrase: &str) -> Places {
        let mut found: BTreeMap<usize, (usize, usize, bool)> = BTreeMap::new();
        let all_common = phrase.split(' ').all(|word| self.common.contains(word));
        for word in phrase.split(' ') {
            let Some(places) = self.places.get(&stem(word)) else { continue };
            let light = !all_common && self.common.contains(word);
            for (at, weight) in places {
                let (sum, words, named) = found.entry(*at).or_default();
                *sum += weight * if light { LIGHT } else { 10 };
                *words += usize::from(!light);
                *named |= !light && *weight >= NAMED;
            }
        }
        let most = found.values().map(|(_, words, _)| *words).max().unwrap_or(0);
        let shown = found.into_iter().filter(|(_, (_, words, named))| *words > 0 && (*words == most || *named));
        shown.map(|(at, (sum, words, _))| (at, sum * words / most)).collect()
    }

    /// Where all the words of `phrase` stand together, by the sum of what they weigh.
    pub(super) fn together(&self, phrase: &str) -> Places {
        let mut words = phrase.split(' ').map(|word| self.places.get(&stem(word)));
        let Some(Some(first)) = words.next() else { return Places::new() };
        let mut all = first.clone();
        for places in words {
            let Some(places) = places else { return Places::new() };
            all = all.iter().filter_map(|(entry, sum)| Some((*entry, sum + places.get(entry)?))).collect();
        }
        heaviest(all, MOST_PUT_TOGETHER)
    }

    /// How words are spelled, by the letter at `place`, each with how much it is worth in steps of two, which is all that a
    /// choice between spellings needs; sorted.
    pub(super) fn spellings(&self, place: usize) -> BTreeMap<char, Vec<(&str, usize)>> {
        let mut lists: BTreeMap<char, Vec<Spelling<'_>>> = BTreeMap::new();
        for spelling in self.spelled() {
            let Some(letter) = spelling.key.chars().nth(place).filter(|letter| letter.is_alphanumeric()) else {
                continue;
            };
            // A slip in the first letter of a short word makes another word of it.
            if place == 0 || spelling.key.chars().count() > 4 {
                lists.entry(letter).or_default().push(spelling);
            }
        }
        lists.into_iter().map(|(letter, words)| (letter, listed(words, MOST_SPELLED))).collect()
    }

    /// How the words are spelled that are worth most, those that terms are named with before others; as `spellings`.
    pub(super) fn usual_spellings(&self) -> Vec<(&str, usize)> {
        let (named, mut others): (Vec<_>, Vec<_>) =
            self.spelled().partition(|spelling| self.of_terms.contains_key(spelling.key));
        others.sort_by_key(|spelling| (Reverse(spelling.worth), spelling.key));
        let room = USUAL_SPELLED.saturating_sub(named.len());
        listed(named.into_iter().chain(others.into_iter().take(room)).collect(), USUAL_SPELLED)
    }

    /// Every word with letters, as it is spelled most often.
    fn spelled(&self) -> impl Iterator<Item = Spelling<'_>> {
        let lettered = self.spelled.iter().filter(|(key, _)| !key.chars().all(|c| c.is_ascii_digit()));
        lettered.filter_map(|(key, spelled)| {
            let (word, _) = spelled.iter().max_by_key(|(word, met)| (**met, Reverse(word.len())))?;
            Some(Spelling { key, word, worth: self.places.get(key).map_or(0, worth) })
        })
    }
}

/// A word by its stem, as it is spelled, and what it is worth.
struct Spelling<'a> {
    key: &'a str,
    word: &'a str,
    worth: usize,
}

/// The `most` that are worth most, each with the steps of its worth; sorted by stem.
fn listed(mut words: Vec<Spelling<'_>>, most: usize) -> Vec<(&str, usize)> {
    words.sort_by_key(|spelling| (Reverse(spelling.worth), spelling.key));
    words.truncate(most);
    words.sort_by_key(|spelling| spelling.key);
    words.iter().map(|spelling| (spelling.word, (spelling.worth + 1).ilog2() as usize)).collect()
}

fn worth(places: &Places) -> usize {
    places.values().sum()
}

/// The `most` heaviest of `places`; of equals the first.
fn heaviest(places: Places, most: usize) -> Places {
    let mut all: Vec<(usize, usize)> = places.into_iter().collect();
    all.sort_by_key(|(entry, weight)| (Reverse(*weight), *entry));
    all.truncate(most);
    all.into_iter().collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn entry(title: &str) -> Entry {
        Entry { title: title.to_owned(), ..Entry::default() }
    }

    #[test]
    fn what_many_words_begin_with_finds_the_best_of_them() {
        let mut entries: Vec<Entry> = (0..60).map(|i| entry(&format!("suba{i} valve"))).collect();
        entries.extend((0..5).map(|_| entry("subcooling")));
        let words = Words::of(&entries, 4, BTreeSet::new());
        let half = words.half_typed();
        assert_eq!(half["sub"][&60], 22, "the word met in most places is among the best");
        assert_eq!(half["sub"].len(), 5 + ENDS - 1);
        assert!(!half.contains_key("subc"), "few begin so: the page tries them itself");
        let many = (0..9_000).map(|i| entry(if i % 2 == 0 { "liquid" } else { "lift" }));
        let heavy = Words::of(&many.collect::<Vec<_>>(), 4, BTreeSet::new()).half_typed();
        assert!(heavy.contains_key("li"), "two words, in more than a part");
        assert!(!half.contains_key("s"));
    }

    #[test]
    fn a_phrase_finds_what_has_most_of_it_and_what_one_word_names() {
        let titles = ["head pressure", "header", "pressure in a long line of hose", "head of the valve", "valve"];
        let words = Words::of(&titles.map(entry), 4, BTreeSet::new());
        let found = words.searched("head pressure");
        assert_eq!(found[&0], 10 * 2 * (10 + 12 / 2), "both words, in a title of two");
        assert_eq!(found[&1], 10 * (10 + 12) / 2, "called by one of the words, which is half of them");
        assert!(!found.contains_key(&2) && !found.contains_key(&3), "one word among others");
        assert!(words.searched("nowhere").is_empty());
    }

    #[test]
    fn a_common_word_weighs_little_and_need_not_stand_there() {
        let titles =
            ["superheat", "what the gauge is off does to superheat", "off cycle", "cycle of pressure", "what is"];
        let common = ["what", "is", "off", "the", "to"].map(str::to_owned).into();
        let words = Words::of(&titles.map(entry), 4, common);
        let found = words.searched("what is superheat");
        assert_eq!(found.keys().copied().collect::<Vec<_>>(), [0, 1], "what has the word that counts");
        assert!(found[&0] > found[&1], "named by it, before what has the common ones as well: {found:?}");
        let found = words.searched("off cycle");
        assert!(found[&2] > found[&3], "of two that have the word the one with both: {found:?}");
        assert!(words.searched("the nowhere").is_empty());
        let found = words.searched("what is");
        assert_eq!(found[&4], 10 * 2 * (10 + 12 / 2), "nothing but common words: they count as others do");
    }

    #[test]
    fn the_words_of_most_terms_are_asked_for_most() {
        let term = |title: &str| Entry { kind: 4, ..entry(title) };
        let names = ["expansion valve", "check valve", "rate of charge", "valve of an expansion", "pressure check"];
        let mut entries: Vec<Entry> = names.into_iter().map(term).collect();
        entries.push(entry("the long check of a long list"));
        let words = Words::of(&entries, 4, BTreeSet::new());
        let usual: Vec<&str> = words.usual().into_iter().map(|(word, _)| word).collect();
        assert_eq!(usual, ["valv", "check", "expansion", "charg"]);
    }

    #[test]
    fn the_spellings_there_beforehand_are_of_named_words_first() {
        let mut entries: Vec<Entry> = (0..1_500).map(|i| entry(&format!("word{i} often often{}", i % 3))).collect();
        entries.push(Entry { kind: 4, ..entry("bellows") });
        let words = Words::of(&entries, 4, BTreeSet::new());
        let usual: Vec<&str> = words.usual_spellings().into_iter().map(|(word, _)| word).collect();
        assert_eq!(usual.len(), USUAL_SPELLED);
        assert!(usual.contains(&"bellows"), "in a term's name, if in no other place");
        assert!(usual.contains(&"often") && usual.contains(&"often2"), "worth most");
        assert!(!usual.contains(&"word999"));
    }

    #[test]
    fn another_name_finds_where_all_it_stands_for_is_said() {
        let term = Entry { kind: 4, names: vec!["TXV".to_owned()], ..entry("expansion valve") };
        let words = Words::of(&[entry("expansion"), term, entry("A valve after expansion")], 4, BTreeSet::new());
        let named = words.other_names();
        let [(name, places)] = named["txv"].as_slice() else { panic!("one name: {named:?}") };
        assert_eq!(*name, "expansion valve");
        assert_eq!(places.keys().copied().collect::<Vec<_>>(), [1, 2]);
        assert_eq!(places[&1], 32);
    }
}
