//! Links: what their scheme is, what they lead to, and what their query gives.

use super::markdown;
use super::yaml::{Places, Text};
use crate::handbook::{Link, Query, Scheme, Span, Spot};
use percent_encoding::percent_decode_str;

/// The schemes of ours, as authors write them.
const SCHEMES: [(&str, Scheme); 12] = [
    ("lesson", Scheme::Lesson),
    ("term", Scheme::Term),
    ("table", Scheme::Table),
    ("tree", Scheme::Tree),
    ("refrigerant", Scheme::Refrigerant),
    ("source", Scheme::Source),
    ("sheet", Scheme::Sheet),
    ("practice", Scheme::Practice),
    ("computation", Scheme::Computation),
    ("value", Scheme::Value),
    ("figure", Scheme::Figure),
    ("as", Scheme::As),
];

/// Where in `text` a bracket's end is followed by what was meant for a destination and is none, since it holds a space: from
/// behind its parenthesis. `None` where none of our schemes stands there.
pub(super) fn torn(text: &str, from: usize) -> Option<std::ops::Range<usize>> {
    let inside = text.get(from..)?.strip_prefix('(')?;
    let inside = &inside[..inside.find(')')?];
    let (scheme, _) = inside.split_once(':')?;
    let ours = SCHEMES.iter().any(|(known, _)| *known == scheme.trim());
    (ours && text[..from].ends_with(']')).then_some(from + 1..from + 1 + inside.len())
}

/// A link that is [`torn`], at `at`: it leads nowhere, as it stands.
pub(super) fn torn_link(destination: &str, at: Span) -> Link {
    let to = Spot::new(destination.to_owned(), at);
    Link { at, scheme: Scheme::Outside, to, query: Query::new(), text: Spot::new(String::new(), at) }
}

/// A link whose whole is at `at`, its text at `text`, its destination `destination` written at `to`.
pub(super) fn link(at: Span, text: Spot<String>, destination: &str, to: Span) -> Link {
    let decode = |s: &str| percent_decode_str(s).decode_utf8_lossy().into_owned();
    let (scheme, rest) = match destination.split_once(':') {
        Some((name, rest)) => match SCHEMES.iter().find(|(known, _)| *known == name) {
            Some((_, scheme)) => (*scheme, rest),
            None => (Scheme::Outside, destination),
        },
        None => (Scheme::Outside, destination),
    };
    if scheme == Scheme::Outside {
        return Link { at, scheme, to: Spot::new(rest.to_owned(), to), query: Query::new(), text };
    }
    // Where the destination stands in the file as it was decoded, the parts of the query can be marked one by one.
    let exact = to.end - to.start == destination.len();
    let part = |slice: &str| {
        let offset = slice.as_ptr() as usize - destination.as_ptr() as usize;
        if exact { to.within(offset, offset + slice.len()) } else { to }
    };
    let (name, query) = rest.split_once('?').unwrap_or((rest, ""));
    let query = query
        .split('&')
        .filter(|pair| !pair.is_empty())
        .map(|pair| {
            let (key, value) = pair.split_once('=').unwrap_or((pair, ""));
            (Spot::new(decode(key), part(key)), Spot::new(decode(value), part(value)))
        })
        .collect();
    Link { at, scheme, to: Spot::new(decode(name), part(name)), query, text }
}

/// Links in a scalar of a YAML file: Markdown `value`, written as `source` at `at`.
///
/// A scalar that was folded or quoted is not in the file as it is in memory; its links are then found by their
/// destinations. A space in one is told of, not followed.
pub(super) fn links_of_scalar(value: &str, source: &str, at: Span) -> Vec<Link> {
    let mut links = markdown::scan(value, Span { file: at.file, start: 0, end: value.len() }).links;
    let exact = source == value;
    let mut from = 0;
    for link in &mut links {
        if exact {
            shift(link, at.start);
            continue;
        }
        let whole = &value[link.at.start..link.at.end];
        let destination = whole.rfind("](").map_or(whole, |i| &whole[i..]);
        let Some(found) = source[from..].find(destination).map(|i| from + i) else {
            (link.at, link.text.at, link.to.at) = (at, at, at);
            link.query.iter_mut().for_each(|(key, value)| (key.at, value.at) = (at, at));
            continue;
        };
        if !destination.starts_with("](") {
            from = found + destination.len();
            let torn = at.within(found, from);
            (link.at, link.text.at, link.to.at) = (torn, torn, torn);
            continue;
        }
        let start = source[..found].rfind('[').unwrap_or(found);
        from = found + destination.len();
        link.at = at.within(start, from);
        link.text.at = at.within((start + 1).min(found), found);
        let to = at.within(found + 2, from.saturating_sub(1));
        link.to.at = to;
        for (key, value) in &mut link.query {
            key.at = to;
            value.at = to;
        }
    }
    links
}

/// The optional Markdown scalar at `path` of a YAML text `inner`, which stands at `base`, and the links in it.
pub(super) fn linked(
    text: Option<&Text>,
    path: &[&str],
    places: &Places,
    inner: &str,
    base: Span,
) -> (Option<Spot<String>>, Vec<Link>) {
    let Some(text) = text else { return (None, Vec::new()) };
    let at = places.at(path);
    let source = &inner[at.start - base.start..at.end - base.start];
    (Some(Spot::new(text.0.clone(), at)), links_of_scalar(&text.0, source, at))
}

fn shift(link: &mut Link, by: usize) {
    let move_span = |span: &mut Span| {
        span.start += by;
        span.end += by;
    };
    move_span(&mut link.at);
    move_span(&mut link.text.at);
    move_span(&mut link.to.at);
    for (key, value) in &mut link.query {
        move_span(&mut key.at);
        move_span(&mut value.at);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_query_is_marked_part_by_part() {
        let text = "see [39.8 °F](figure:dew-temperature?refrigerant=R-410A&pressure=118%20psig) there";
        let links = links_of_scalar(text, text, Span { end: text.len(), ..Span::default() });
        let link = &links[0];
        assert_eq!(link.scheme, Scheme::Figure);
        assert_eq!(link.to.value, "dew-temperature");
        assert_eq!(link.query[1].1.value, "118 psig");
        assert_eq!(&text[link.query[1].1.at.start..link.query[1].1.at.end], "118%20psig");
        assert_eq!(&text[link.text.at.start..link.text.at.end], "39.8 °F");
    }

    #[test]
    fn a_destination_with_a_space_is_a_link_that_leads_nowhere() {
        let text = "see [Head](tree: head-high) and [39.8 °F](figure:dew-temperature?refrigerant=R-410A&pressure=118 psig), [x] (so: it is)";
        let links = links_of_scalar(text, text, Span { end: text.len(), ..Span::default() });
        let torn: Vec<&str> = links.iter().map(|link| &text[link.to.at.start..link.to.at.end]).collect();
        assert_eq!(torn, ["tree: head-high", "figure:dew-temperature?refrigerant=R-410A&pressure=118 psig"]);
        assert!(links.iter().all(|link| link.scheme == Scheme::Outside));
    }

    #[test]
    fn a_torn_link_of_a_folded_scalar_is_found_or_lies_in_its_scalar() {
        for (source, at) in
            [(">\n  see\n  [the bulb](lesson: bulb)\n", 21..33), (">\n  [the bulb](lesson:\n  bulb)\n", 0..30)]
        {
            let whole = Span { end: 30, ..Span::default() };
            let to = links_of_scalar("see [the bulb](lesson: bulb)\n", source, whole)[0].to.at;
            assert_eq!(to.start..to.end, at, "{source}");
        }
    }

    #[test]
    fn links_of_a_folded_scalar_are_found_one_by_one() {
        let source = ">\n  look at [the\n  bulb](lesson:bulb) and [the bulb](lesson:bulb)\n";
        let value = "look at [the bulb](lesson:bulb) and [the bulb](lesson:bulb)\n";
        let links = links_of_scalar(value, source, Span { end: source.len(), ..Span::default() });
        assert_eq!(&source[links[0].at.start..links[0].at.end], "[the\n  bulb](lesson:bulb)");
        assert_eq!(&source[links[1].at.start..links[1].at.end], "[the bulb](lesson:bulb)");
    }
}
