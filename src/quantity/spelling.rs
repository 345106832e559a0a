//! What an author meant by a word that is not in a list: names made alike, and the nearest of them.
//!
//! Takes and gives text. Knows nothing of units or of anything else that has names.

/// A name with case, hyphens, underscores and runs of spaces made alike: `Suction-Pressure` and `suction pressure`
/// give the same.
pub fn plain_words(name: &str) -> String {
    let spaced: String =
        name.chars().map(|c| if c == '-' || c == '_' || c.is_whitespace() { ' ' } else { c }).collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ").to_lowercase()
}

/// The name among `names` that `typed` most likely stands for, or none where nothing is near: at most a third of the
/// letters may differ. Swapped neighbors count as one slip. The first of several equally near is given.
///
/// # Source
/// The optimal string alignment distance (R. A. Wagner and R. Lowrance, J. ACM 22 (1975) 177).
pub fn nearest<'a>(typed: &str, names: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let typed: Vec<char> = plain_words(typed).chars().collect();
    names
        .into_iter()
        .filter_map(|name| {
            let plain: Vec<char> = plain_words(name).chars().collect();
            let slips = distance(&typed, &plain);
            let allowed = typed.len().max(plain.len()).div_ceil(3);
            (slips <= allowed && slips < plain.len().max(2)).then_some((slips, name))
        })
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, name)| name)
}

fn distance(a: &[char], b: &[char]) -> usize {
    let mut before_last: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=b.len()).collect();
    for (i, from) in a.iter().enumerate() {
        let mut row = vec![i + 1];
        for (j, to) in b.iter().enumerate() {
            let mut least = (last[j] + usize::from(from != to)).min(last[j + 1] + 1).min(row[j] + 1);
            if i > 0 && j > 0 && *from == b[j - 1] && a[i - 1] == *to {
                least = least.min(before_last[j - 1] + 1);
            }
            row.push(least);
        }
        before_last = std::mem::replace(&mut last, row);
    }
    last[b.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_name_forgives_a_slip_and_not_a_guess() {
        let names = ["suction pressure", "liquid pressure", "altitude"];
        assert_eq!(nearest("sucton pressure", names), Some("suction pressure"));
        assert_eq!(nearest("Liquid-Presure", names), Some("liquid pressure"));
        assert_eq!(nearest("altitdue", names), Some("altitude"));
        assert_eq!(nearest("refrigerant", names), None);
        assert_eq!(nearest("", names), None);
    }

    #[test]
    fn swapped_neighbors_are_one_slip() {
        let count = |a: &str, b: &str| distance(&a.chars().collect::<Vec<_>>(), &b.chars().collect::<Vec<_>>());
        assert_eq!(count("psgi", "psig"), 1);
        assert_eq!(count("kitten", "sitting"), 3);
        assert_eq!(count("", "psi"), 3);
    }
}
