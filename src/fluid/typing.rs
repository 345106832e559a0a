//! Figures as people type them, and the ways in which a hand goes wrong: digits changed places, left out, doubled,
//! another key hit, the point misplaced.

use super::slip::SlipKind;

/// The number of a figure; a true minus sign and commas between thousands are read too.
pub(super) fn number(text: &str) -> Option<f64> {
    let plain: String = text.trim().chars().filter(|c| *c != ',').map(|c| if c == '−' { '-' } else { c }).collect();
    plain.parse().ok().filter(|x: &f64| x.is_finite())
}

/// Digits after the decimal point.
pub(super) fn decimals(text: &str) -> i32 {
    text.trim().split_once('.').map_or(0, |(_, rest)| rest.len() as i32)
}

/// `number` typed with as many decimals as `text` has.
pub(super) fn like(number: f64, text: &str) -> String {
    format!("{number:.*}", decimals(text).max(0) as usize)
}

/// What went wrong where `written` should be within `tolerance` of `expected`, and the figure likely meant.
///
/// The least a hand can do is looked for first.
pub(super) fn explain(written: &str, expected: f64, tolerance: f64) -> (SlipKind, String) {
    let fits = |text: &String| number(text).is_some_and(|n| (n - expected).abs() <= tolerance);
    let nearest = |candidates: Vec<String>| {
        let gap = |text: &String| number(text).map_or(f64::INFINITY, |n| (n - expected).abs());
        candidates.into_iter().filter(fits).min_by(|a, b| gap(a).total_cmp(&gap(b)))
    };
    let chars: Vec<char> = written.trim().chars().collect();
    for (kind, candidates) in [
        (SlipKind::SwappedDigits, swapped(&chars)),
        (SlipKind::DecimalPoint, repointed(&chars)),
        (SlipKind::WrongDigit, changed(&chars)),
        (SlipKind::DroppedDigit, lengthened(&chars)),
        (SlipKind::ExtraDigit, shortened(&chars)),
    ] {
        if let Some(likely) = nearest(candidates) {
            return (kind, likely);
        }
    }
    (SlipKind::OffTheCurve, like(expected, written))
}

fn swapped(chars: &[char]) -> Vec<String> {
    let mut all = Vec::new();
    for i in 0..chars.len() {
        for j in i + 1..chars.len() {
            if chars[i].is_ascii_digit() && chars[j].is_ascii_digit() && chars[i] != chars[j] {
                let mut other = chars.to_vec();
                other.swap(i, j);
                all.push(other.into_iter().collect());
            }
        }
    }
    all
}

fn repointed(chars: &[char]) -> Vec<String> {
    let bare: Vec<char> = chars.iter().copied().filter(|c| *c != '.').collect();
    (1..bare.len())
        .map(|at| {
            let mut other = bare.clone();
            other.insert(at, '.');
            other.into_iter().collect()
        })
        .chain([bare.iter().collect()])
        .filter(|text: &String| *text != chars.iter().collect::<String>())
        .collect()
}

fn changed(chars: &[char]) -> Vec<String> {
    let mut all = Vec::new();
    for i in 0..chars.len() {
        if chars[i].is_ascii_digit() {
            for digit in ('0'..='9').filter(|d| *d != chars[i]) {
                let mut other = chars.to_vec();
                other[i] = digit;
                all.push(other.into_iter().collect());
            }
        } else if chars[i] == '-' || chars[i] == '−' {
            all.push(chars[i + 1..].iter().collect());
        }
    }
    all.push(std::iter::once('-').chain(chars.iter().copied()).collect());
    all
}

fn lengthened(chars: &[char]) -> Vec<String> {
    let mut all = Vec::new();
    for at in 0..=chars.len() {
        for digit in '0'..='9' {
            let mut other = chars.to_vec();
            other.insert(at, digit);
            all.push(other.into_iter().collect());
        }
    }
    all
}

fn shortened(chars: &[char]) -> Vec<String> {
    let digits = (0..chars.len()).filter(|&i| chars[i].is_ascii_digit());
    digits.map(|i| chars.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, c)| *c).collect()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_way_of_going_wrong_is_told_from_the_others() {
        let check = |written: &str, expected: f64, kind: SlipKind, likely: &str| {
            assert_eq!(explain(written, expected, 0.2), (kind, likely.to_owned()), "{written}");
        };
        check("181.4", 118.4, SlipKind::SwappedDigits, "118.4");
        check("18.4", 118.5, SlipKind::DroppedDigit, "118.4");
        check("1184", 118.4, SlipKind::DecimalPoint, "118.4");
        check("1188.4", 118.4, SlipKind::ExtraDigit, "118.4");
        check("128.4", 118.4, SlipKind::WrongDigit, "118.4");
        check("97.3", 118.44, SlipKind::OffTheCurve, "118.4");
        check("-12.3", 12.3, SlipKind::WrongDigit, "12.3");
    }

    #[test]
    fn figures_are_read_as_people_type_them() {
        assert_eq!(number(" −12.50 "), Some(-12.5));
        assert_eq!(number("1,234.5"), Some(1234.5));
        assert_eq!((number("12.5.1"), number("nan"), decimals("118.40")), (None, None, 2));
    }
}
