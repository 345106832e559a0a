//! Words and figures into HTML that is set as a printer would set it.
//!
//! Takes plain text, gives escaped HTML: a number never leaves its unit, a minus is a minus, a designation and a tube
//! size stay in one piece. Knows no page.

use serde::Serialize;

/// One figure, range or line in both systems of units, as plain text.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub(super) struct Both {
    /// US customary: psig, °F.
    pub(super) us: String,
    /// SI: bar, °C.
    pub(super) si: String,
}

impl Both {
    /// The same words in both systems.
    #[cfg(test)]
    pub(super) fn alike(text: &str) -> Self {
        Self { us: text.to_owned(), si: text.to_owned() }
    }

    /// Both systems as HTML, each in its own element with `class`; one element where they read the same.
    pub(super) fn html(&self, class: &str) -> String {
        both_html(&print(&self.us), &print(&self.si), class)
    }
}

/// Two pieces of HTML that say one thing in the two systems of units.
pub(super) fn both_html(us: &str, si: &str, class: &str) -> String {
    let gap = if class.is_empty() { "" } else { " " };
    if us != si {
        format!("<span class=\"us{gap}{class}\">{us}</span><span class=\"si{gap}{class}\">{si}</span>")
    } else if class.is_empty() {
        us.to_owned()
    } else {
        format!("<span class=\"{class}\">{us}</span>")
    }
}

/// Escapes the five characters that mean something in HTML.
pub(super) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len() + text.len() / 16);
    for c in text.chars() {
        escape_char(c, &mut out);
    }
    out
}

fn escape_char(c: char, out: &mut String) {
    match c {
        '&' => out.push_str("&amp;"),
        '<' => out.push_str("&lt;"),
        '>' => out.push_str("&gt;"),
        '"' => out.push_str("&quot;"),
        '\'' => out.push_str("&#39;"),
        other => out.push(other),
    }
}

/// Units after which a number's space may not break. Longest first where one begins another.
const UNITS: [&str; 42] = [
    "cfm/ton", "kJ/kg", "Btu/lb", "Btu/h", "microns", "micron", "degrees", "minutes", "seconds", "hours", "tons",
    "inHg", "in wc", "psig", "psia", "psi", "mbar", "bar", "kPa", "MPa", "cfm", "ton", "kW", "rpm", "gal", "min", "°F",
    "°C", "Pa", "in", "ft", "mm", "cm", "lb", "oz", "kg", "Hz", "K", "V", "A", "m", "%",
];

/// Plain text as HTML, set as a printer would.
pub(super) fn print(text: &str) -> String {
    let chars: Vec<char> = text.chars().collect();
    let mut out = String::with_capacity(text.len() + 16);
    let mut at = 0;
    while at < chars.len() {
        let opens = at == 0 || !(chars[at - 1].is_alphanumeric() || matches!(chars[at - 1], '-' | '/' | '.'));
        if opens && let Some(length) = designation(&chars[at..]) {
            out.push_str("<span class=\"nw\">");
            chars[at..at + length].iter().for_each(|&c| escape_char(c, &mut out));
            out.push_str("</span>");
            at += length;
        } else if opens && let Some(length) = fraction(&chars[at..]) {
            out.push_str("<span class=\"frac\">");
            out.extend(&chars[at..at + length]);
            out.push_str("</span>");
            at += length;
            at += joined_unit(&chars[at..], &mut out);
        } else if opens && chars[at] == '-' && chars.get(at + 1).is_some_and(char::is_ascii_digit) {
            out.push('−');
            at += 1;
        } else if chars[at].is_ascii_digit() {
            let length = number(&chars[at..]);
            out.extend(&chars[at..at + length]);
            at += length;
            if chars.get(at) == Some(&'-') && fraction(&chars[at + 1..]).is_some() {
                // 1-1/8: a whole and a fraction, apart even where a type has no fractions of its own.
                out.push('\u{a0}');
                at += 1;
                out.push_str("<span class=\"frac\">");
                let length = fraction(&chars[at..]).unwrap_or(0);
                out.extend(&chars[at..at + length]);
                out.push_str("</span>");
                at += length;
            }
            at += joined_unit(&chars[at..], &mut out);
        } else {
            match chars[at] {
                mark @ ('\'' | '"') => out.push(curled(mark, at.checked_sub(1).map(|before| chars[before]))),
                other => escape_char(other, &mut out),
            }
            at += 1;
        }
    }
    out
}

/// Plain text with its quotation marks and apostrophes curled, still plain.
pub(super) fn curl(text: &str) -> String {
    let mut before = None;
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        out.push(if matches!(c, '\'' | '"') { curled(c, before) } else { c });
        before = Some(c);
    }
    out
}

/// The quotation mark or apostrophe a typed one stands for, after the character before it.
fn curled(mark: char, before: Option<char>) -> char {
    let opens = before.is_none_or(|c| c.is_whitespace() || matches!(c, '(' | '[' | '\u{2013}' | '\u{2014}' | '/'));
    match (mark, opens) {
        ('"', true) => '\u{201c}',
        ('"', false) => '\u{201d}',
        (_, true) => '\u{2018}',
        (_, false) => '\u{2019}',
    }
}

/// Length of a number with its decimals and thousands.
fn number(chars: &[char]) -> usize {
    let mut length = 0;
    while let Some(c) = chars.get(length) {
        let inside = matches!(c, '.' | ',') && chars.get(length + 1).is_some_and(char::is_ascii_digit);
        if !(c.is_ascii_digit() || inside) {
            break;
        }
        length += 1;
    }
    length
}

/// A space that stands between a number and its unit, made one that does not break. Gives how much was taken.
fn joined_unit(chars: &[char], out: &mut String) -> usize {
    if !matches!(chars.first(), Some(' ' | '\u{a0}')) {
        return 0;
    }
    let follows = |unit: &str| {
        let length = unit.chars().count();
        unit.chars().eq(chars[1..].iter().copied().take(length))
            && !chars.get(1 + length).is_some_and(|c| c.is_alphanumeric())
    };
    let fraction_follows = fraction(&chars[1..]).is_some();
    if !fraction_follows && !UNITS.iter().any(|unit| follows(unit)) {
        return 0;
    }
    out.push('\u{a0}');
    1
}

/// Length of a refrigerant's designation at the start, `R-1234ze(E)`.
fn designation(chars: &[char]) -> Option<usize> {
    if chars.len() < 4 || chars[0] != 'R' || chars[1] != '-' || !chars[2].is_ascii_digit() {
        return None;
    }
    let mut length = 2;
    while chars.get(length).is_some_and(char::is_ascii_alphanumeric) {
        length += 1;
    }
    if chars.get(length) == Some(&'(') && chars.get(length + 2) == Some(&')') {
        length += 3;
    }
    Some(length)
}

/// Length of a shop fraction at the start, `7/8` or `13/16`: a power of two below the line.
fn fraction(chars: &[char]) -> Option<usize> {
    let above: String = chars.iter().take_while(|c| c.is_ascii_digit()).collect();
    if chars.get(above.len()) != Some(&'/') {
        return None;
    }
    let below: String = chars[above.len() + 1..].iter().take_while(|c| c.is_ascii_digit()).collect();
    let length = above.len() + 1 + below.len();
    let shop = matches!(below.as_str(), "2" | "4" | "8" | "16" | "32" | "64");
    let proper = above.parse::<u32>().ok()? < below.parse::<u32>().ok()?;
    let ends = !chars.get(length).is_some_and(|c| c.is_alphanumeric() || *c == '/');
    (shop && proper && ends).then_some(length)
}

/// A name that is written with hyphens, as words: `restore-airflow` is `Restore airflow`.
pub(super) fn spoken(name: &str) -> String {
    let words = name.replace('-', " ");
    let mut chars = words.chars();
    chars.next().map_or_else(String::new, |first| first.to_uppercase().chain(chars).collect())
}

/// Words made into the name of an anchor: small letters, digits and hyphens.
pub fn anchor(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars().flat_map(char::to_lowercase) {
        if c.is_alphanumeric() {
            out.push(c);
        } else if !out.is_empty() && !out.ends_with('-') {
            out.push('-');
        }
    }
    out.trim_end_matches('-').to_owned()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_number_never_leaves_its_unit() {
        assert_eq!(
            print("118 psig, 8 to 18 °F and 350 cfm/ton"),
            "118\u{a0}psig, 8 to 18\u{a0}°F and 350\u{a0}cfm/ton"
        );
        assert_eq!(print("5,000 ft up"), "5,000\u{a0}ft up");
        assert_eq!(print("12 kids"), "12 kids", "K is a unit, a word that begins with it is not");
    }

    #[test]
    fn a_minus_is_a_minus_and_a_hyphen_stays() {
        assert_eq!(print("-10 °F to (-5.5)"), "−10\u{a0}°F to (−5.5)");
        assert_eq!(print("pull-down 3-4"), "pull-down 3-4");
    }

    #[test]
    fn designations_and_tube_sizes_stay_whole() {
        assert_eq!(print("R-1234ze(E)!"), "<span class=\"nw\">R-1234ze(E)</span>!");
        assert_eq!(print("1 5/8 in"), "1\u{a0}<span class=\"frac\">5/8</span>\u{a0}in");
        assert_eq!(print("1-1/8 in"), "1\u{a0}<span class=\"frac\">1/8</span>\u{a0}in");
        assert_eq!(print("26/26/21 %"), "26/26/21\u{a0}%", "a blend's shares are no fraction");
    }

    #[test]
    fn quotation_marks_curl() {
        assert_eq!(print("10 or 2 o'clock, \"snug\""), "10 or 2 o’clock, “snug”");
    }

    #[test]
    fn markup_in_words_is_escaped() {
        assert_eq!(print("a<b>&c"), "a&lt;b&gt;&amp;c");
        assert_eq!(escape("<script>"), "&lt;script&gt;");
    }

    #[test]
    fn one_element_where_both_systems_read_alike() {
        assert_eq!(Both::alike("3 %").html(""), "3\u{a0}%");
        let both = Both { us: "39.8 °F".into(), si: "4.3 °C".into() };
        assert_eq!(
            both.html("reckoned"),
            "<span class=\"us reckoned\">39.8\u{a0}°F</span><span class=\"si reckoned\">4.3\u{a0}°C</span>"
        );
    }

    #[test]
    fn names_are_spoken_and_anchors_are_plain() {
        assert_eq!(spoken("restore-airflow"), "Restore airflow");
        assert_eq!(anchor("Three forces, one diaphragm!"), "three-forces-one-diaphragm");
    }
}
