//! A style sheet without what only its author reads: comments, indents, blanks, long names of custom properties. A phone
//! carries it and a slow one reads it before anything is painted.

use std::collections::BTreeMap;

/// Custom properties that keep their names, since drawings, authors' pictures, the handbook's imprint and the desk use them.
const KEPT: [&str; 11] =
    ["paper", "ink", "copper", "verdigris", "suction", "liquid", "gothic", "measure", "imprint", "at", "cuts"];

/// `style`, meaning the same.
pub(super) fn lean(style: &str) -> String {
    short_names(&close(&without_comments(style)))
}

/// The pieces of `style` in order: true for one that is a string, which is left alone.
fn pieces(style: &str) -> Vec<(bool, String)> {
    let mut pieces = vec![(false, String::new())];
    let mut quote = None;
    let mut chars = style.chars();
    while let Some(c) = chars.next() {
        if quote.is_none() && matches!(c, '"' | '\'') {
            pieces.push((true, String::new()));
            quote = Some(c);
            if let Some((_, piece)) = pieces.last_mut() {
                piece.push(c);
            }
            continue;
        }
        if let Some((_, piece)) = pieces.last_mut() {
            piece.push(c);
            if c == '\\' && quote.is_some() {
                piece.extend(chars.next());
            }
        }
        if quote == Some(c) {
            quote = None;
            pieces.push((false, String::new()));
        }
    }
    pieces
}

fn without_comments(style: &str) -> String {
    // An apostrophe in a comment opens no string, so comments go first; a string that holds `/*` would be its own fault.
    let mut out = String::with_capacity(style.len());
    let mut rest = style;
    let mut quote: Option<char> = None;
    while let Some(c) = rest.chars().next() {
        if quote.is_none() && rest.starts_with("/*") {
            rest = rest[2..].split_once("*/").map_or("", |(_, after)| after);
            continue;
        }
        match quote {
            Some(open) if c == open => quote = None,
            None if matches!(c, '"' | '\'') => quote = Some(c),
            _ => {}
        }
        out.push(c);
        rest = &rest[c.len_utf8()..];
        if c == '\\'
            && let Some(next) = rest.chars().next()
        {
            out.push(next);
            rest = &rest[next.len_utf8()..];
        }
    }
    out
}

/// Without the blanks that mean nothing. One after a colon stays: it is the whole value of some custom properties.
fn close(style: &str) -> String {
    let mut out = String::with_capacity(style.len());
    for (string, piece) in pieces(style) {
        if string {
            out.push_str(&piece);
            continue;
        }
        for c in piece.chars() {
            let c = if c.is_whitespace() { ' ' } else { c };
            let last = out.chars().next_back().unwrap_or('{');
            match c {
                ' ' if matches!(last, ' ' | '{' | '}' | ';' | ',' | '>' | '~') => {}
                '{' | '}' | ';' | ',' | '>' | '~' => {
                    let value_is_blank = out.ends_with(": ");
                    if last == ' ' && !value_is_blank {
                        out.pop();
                    }
                    if c == '}' && out.ends_with(';') {
                        out.pop();
                    }
                    out.push(c);
                }
                other => out.push(other),
            }
        }
    }
    out.trim_end().to_owned() + "\n"
}

/// Custom properties that only the style uses, under short names: those met most often under the shortest.
fn short_names(style: &str) -> String {
    let mut met: BTreeMap<&str, usize> = BTreeMap::new();
    for name in names(style).map(|(_, name)| name).filter(|name| !KEPT.contains(name)) {
        *met.entry(name).or_default() += 1;
    }
    let mut order: Vec<(&str, usize)> = met.into_iter().collect();
    order.sort_by(|a, b| (b.0.len() * b.1).cmp(&(a.0.len() * a.1)).then(a.0.cmp(b.0)));
    let letters = ('a'..='z').chain('A'..='Z').map(String::from);
    let short: BTreeMap<&str, String> = order.iter().map(|(name, _)| *name).zip(letters).collect();
    let mut out = String::with_capacity(style.len());
    let mut from = 0;
    for (at, name) in names(style) {
        if let Some(short) = short.get(name) {
            out.push_str(&style[from..at]);
            out.push_str(short);
            from = at + name.len();
        }
    }
    out + &style[from..]
}

/// Names of custom properties, without their two hyphens, and where each stands.
fn names(style: &str) -> impl Iterator<Item = (usize, &str)> {
    style.match_indices("--").filter_map(|(at, _)| {
        let opens = style[..at].ends_with(['{', ';', '(', ',', ' ', ')']);
        let start = at + 2;
        let end =
            style[start..].find(|c: char| !(c.is_ascii_alphanumeric() || c == '-')).map_or(style.len(), |n| start + n);
        (opens && end > start).then_some((start, &style[start..end]))
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_and_blanks_go_and_strings_stay() {
        assert_eq!(
            lean(
                "a{b:c} /* it's x */\n  d > e::after {\n content:\"/* y  */ {\";\n}\n@media (a) and (b:c){ f , g{h:i j} }\n"
            ),
            "a{b:c}d>e::after{content:\"/* y  */ {\"}@media (a) and (b:c){f,g{h:i j}}\n"
        );
    }

    #[test]
    fn names_that_only_the_style_uses_get_short_and_blank_values_stay() {
        assert_eq!(
            lean(":root{--ink:#000; --cloth2:#111; --cloth:var(--cloth2,var(--ink)); --n: ; --s: }"),
            ":root{--ink:#000;--a:#111;--b:var(--a,var(--ink));--c: ;--d: }\n"
        );
    }

    #[test]
    fn a_sum_keeps_its_blanks() {
        assert_eq!(
            lean("a{b:calc(1px + 2px) !important;margin:-1px auto}"),
            "a{b:calc(1px + 2px) !important;margin:-1px auto}\n"
        );
    }
}
