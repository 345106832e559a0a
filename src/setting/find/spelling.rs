//! Words as Find compares them: small letters, no accents, no hyphens, endings off. The script in the page does the same to
//! what a reader types (`script/3-find.js`); a test in the browser finds every entry by its own title, so that neither can
//! change alone.

use unicode_normalization::UnicodeNormalization;

/// The words of `text`, as they are compared before their endings come off. `R 410 A` is one word, as `R-410A` is.
pub(super) fn split(text: &str) -> Vec<String> {
    let mut words: Vec<String> = Vec::new();
    let mut word = String::new();
    for c in text.chars().flat_map(char::to_lowercase).nfd() {
        match c {
            '\u{300}'..='\u{36f}' | '\u{ad}' | '-' | '\u{2010}' | '\u{2011}' | '\u{2019}' | '\'' => {}
            '/' => word.push(c),
            c if c.is_alphanumeric() => word.push(c),
            _ if !word.is_empty() => words.push(std::mem::take(&mut word)),
            _ => {}
        }
    }
    if !word.is_empty() {
        words.push(word);
    }
    let mut joined: Vec<String> = Vec::with_capacity(words.len());
    for word in words {
        match joined.last_mut() {
            Some(last) if last == "r" && word.starts_with(|c: char| c.is_ascii_digit()) => last.push_str(&word),
            Some(last) if is_number_of_refrigerant(last) && is_one_letter(&word) => last.push_str(&word),
            _ => joined.push(word),
        }
    }
    joined
}

/// `r410` or `410`.
fn is_number_of_refrigerant(word: &str) -> bool {
    let digits = word.strip_prefix('r').unwrap_or(word);
    (2..=4).contains(&digits.len()) && digits.bytes().all(|byte| byte.is_ascii_digit())
}

fn is_one_letter(word: &str) -> bool {
    word.len() == 1 && word.bytes().all(|byte| byte.is_ascii_lowercase())
}

/// A word without its ending, so that mount, mounts, mounted and mounting are one.
pub(super) fn stem(word: &str) -> String {
    if word.chars().any(|c| c.is_ascii_digit()) || word.chars().count() < 4 {
        return word.to_owned();
    }
    let mut stem = word.to_owned();
    if let Some(start) = stem.strip_suffix("ies") {
        stem = format!("{start}y");
    }
    if ["sses", "shes", "ches", "xes"].iter().any(|end| stem.ends_with(end)) {
        stem.truncate(stem.len() - 2);
    }
    if stem.ends_with('s') && !stem.ends_with("ss") && !stem.ends_with("us") && stem != "s" {
        stem.pop();
    }
    if stem.chars().count() > 5
        && let Some(ending) = ["ation", "ing", "ers", "ed", "er", "or", "ly"].iter().find(|end| stem.ends_with(**end))
    {
        stem.truncate(stem.len() - ending.len());
    }
    if stem.ends_with('e') {
        stem.pop();
    }
    // evaporat-e, -ed, -ing, -or and evapor-ation.
    if stem.chars().count() > 5 && stem.ends_with("at") {
        stem.truncate(stem.len() - 2);
    }
    let mut last = stem.chars().rev();
    if let (Some(a), Some(b)) = (last.next(), last.next())
        && a == b
        && "bdglmnprt".contains(a)
    {
        stem.pop();
    }
    stem
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_compared_without_what_does_not_matter() {
        assert_eq!(split("R 454 B, R-410A; r 22!"), ["r454b", "r410a", "r22"]);
        assert_eq!(split("Pull-down: naïve 7/8 in o’clock"), ["pulldown", "naive", "7/8", "in", "oclock"]);
    }

    #[test]
    fn endings_come_off() {
        for family in [
            &["mount", "mounts", "mounted", "mounting"][..],
            &["valve", "valves"],
            &["press", "presses", "pressing"],
            &["batch", "batches"],
            &["assembly", "assemblies"],
            &["evaporate", "evaporates", "evaporated", "evaporating", "evaporation", "evaporator"],
        ] {
            let stems: Vec<String> = family.iter().map(|word| stem(word)).collect();
            assert!(stems.iter().all(|stem| *stem == stems[0]), "{stems:?}");
        }
        assert_eq!(stem("gas"), "gas");
        assert_eq!(stem("r410as"), "r410as");
    }
}
