//! The front board and contents, and the imprint that style and print take from the handbook.

use super::SettingError;
use super::address;
use super::block::PageLink;
use super::leaf::{Frame, part_anchor, parts_with_lessons};
use super::press::Press;
use super::print::escape;
use super::register::Target;
use super::words::fill;
use crate::handbook::BlockKind;
use serde::Serialize;
use std::fmt::Write;
use tera::Context;

/// Curves on the board; more would be a tangle.
const MOST_CURVES: usize = 7;

#[derive(Serialize)]
struct Contents<'a> {
    number: usize,
    anchor: String,
    title: &'a str,
    leaves: Vec<PageLink>,
    /// Diagnoses kept with this part.
    trees: Vec<PageLink>,
}

/// Sets the front page.
pub(super) fn page(press: &Press<'_>) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let frame = Frame::of_front(press);
    let in_order = press.book.in_order();
    let parts: Vec<Contents<'_>> = parts_with_lessons(press)
        .map(|(number, part)| Contents {
            number,
            anchor: part_anchor(number),
            title: &part.title,
            leaves: in_order
                .iter()
                .filter(|leaf| leaf.part_number == number)
                .map(|leaf| PageLink {
                    href: frame.to(&address::lesson(&leaf.lesson.name)),
                    label: leaf.label(),
                    title: leaf.lesson.title.value.clone(),
                })
                .collect(),
            trees: press
                .register
                .trees
                .iter()
                .filter(|(name, _)| press.register.home(&Target::Tree((*name).clone())) == Some(number))
                .map(|(_, page)| PageLink::of(page, address::FRONT))
                .collect(),
        })
        .collect();
    let list = |pages: Vec<(&str, &String)>| -> Vec<PageLink> {
        pages
            .into_iter()
            .map(|(path, title)| PageLink { href: frame.to(path), label: String::new(), title: title.clone() })
            .collect()
    };
    let register = &press.register;
    let mut back = vec![
        (address::WORDS, &words.index),
        (address::TERMS, &words.terms),
        (address::VALUES, &words.standing_values),
        (address::SOURCES, &words.sources),
    ];
    if !press.book.front.carry_copies.is_empty() {
        back.push((address::CARRY, &words.carry));
    }
    let mut context = Context::new();
    let pages = |of: &std::collections::BTreeMap<String, super::register::PageRef>| -> Vec<PageLink> {
        of.values().map(|page| PageLink::of(page, address::FRONT)).collect()
    };
    context.insert("sheets", &pages(&register.sheets));
    context.insert("problem_sets", &pages(&register.problem_sets));
    context.insert("parts", &parts);
    context.insert("tables", &tables(press, &frame));
    let symptoms =
        register.trees.iter().filter(|(name, _)| press.book.trees.get(*name).is_some_and(|t| t.stands_alone));
    context.insert("trees", &list(symptoms.map(|(_, page)| (page.path.as_str(), &page.title)).collect()));
    context
        .insert("refrigerants", &list(register.refrigerants.values().map(|p| (p.path.as_str(), &p.title)).collect()));
    context.insert("back", &list(back));
    context.insert("emblem", &emblem(press));
    if let Some(base) = &press.book.front.base {
        let slots = [("title", &base.title), ("house", &base.house), ("edition", &base.edition)];
        let line = slots.iter().fold(words.builds_on.clone(), |line, (slot, with)| fill(&line, slot, with));
        context.insert("builds_on", &line);
    }
    frame.fill(press, "front.html", context)
}

/// The tables of pressure against temperature, in the order of the book, by refrigerant.
fn tables(press: &Press<'_>, frame: &Frame) -> Vec<PageLink> {
    let mut pages = Vec::new();
    for block in press.book.in_order().iter().flat_map(|leaf| &leaf.lesson.blocks) {
        if let BlockKind::SaturationTable(table) = &block.kind
            && let Some(numbered) = press.register.tables.get(&table.name)
        {
            pages.push(PageLink {
                href: frame.to(&numbered.address),
                label: numbered.number.clone(),
                title: table.refrigerant.value.clone(),
            });
        }
    }
    pages
}

/// The board's stamp: the saturation curves of the handbook's own tables, the logarithm of pressure against temperature.
fn emblem(press: &Press<'_>) -> String {
    let mut curves: Vec<(&str, &[(f64, f64)])> = Vec::new();
    for block in press.book.in_order().iter().flat_map(|leaf| &leaf.lesson.blocks) {
        if let BlockKind::SaturationTable(table) = &block.kind
            && let Some(set) = press.figures.tables.get(&block.at)
            && set.curve.len() > 2
            && curves.len() < MOST_CURVES
        {
            curves.push((&table.refrigerant.value, &set.curve));
        }
    }
    let points = || curves.iter().flat_map(|(_, curve)| curve.iter());
    let bound = |pick: fn(&(f64, f64)) -> f64| {
        points().map(pick).fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), x| (low.min(x), high.max(x)))
    };
    let (coldest, warmest) = bound(|(t, _)| *t);
    let (lowest, highest) = bound(|(_, p)| p.ln());
    if curves.is_empty() || warmest <= coldest || highest <= lowest {
        return String::new();
    }
    let x = |t: f64| 24.0 + (t - coldest) / (warmest - coldest) * 286.0;
    let y = |ln_p: f64| 306.0 - (ln_p - lowest) / (highest - lowest) * 282.0;
    let names: Vec<&str> = curves.iter().map(|(name, _)| *name).collect();
    let words = &press.theme.words;
    let title = escape(&words.emblem_title);
    let describes = escape(&fill(&words.emblem_describes, "refrigerants", &names.join(", ")));
    let mut svg = format!(
        "<svg viewBox=\"0 0 400 330\" role=\"img\" aria-labelledby=\"e0t e0d\"><title id=\"e0t\">{title}</title><desc id=\"e0d\">{describes}</desc>\n"
    );
    // A decade's finer lines, as on the paper such curves are drawn on.
    for decade in 4..8_i32 {
        for line in 1..10_i32 {
            let ln_p = (f64::from(line) * 10f64.powi(decade)).ln();
            if (lowest..=highest).contains(&ln_p) {
                let _ = writeln!(svg, "<path class=\"l3\" opacity=\".45\" d=\"M24 {y:.1}H310\"/>", y = y(ln_p));
            }
        }
    }
    let mut t = (coldest / 20.0).ceil() * 20.0;
    while t <= warmest {
        let _ = writeln!(svg, "<path class=\"l3\" opacity=\".45\" d=\"M{x:.1} 24V306\"/>", x = x(t));
        t += 20.0;
    }
    let mut names_at: Vec<(f64, f64, &str)> = Vec::new();
    for (name, curve) in &curves {
        let mut d = String::new();
        for (i, (t, p)) in curve.iter().enumerate() {
            let _ = write!(d, "{}{:.1} {:.1}", if i == 0 { 'M' } else { 'L' }, x(*t), y(p.ln()));
        }
        let _ = writeln!(svg, "<path class=\"l1\" d=\"{d}\"/>");
        if let Some((t, p)) = curve.last() {
            names_at.push((y(p.ln()), x(*t), name));
        }
    }
    // Names stand in a column, each led to from its curve's warm end, moved down where two would touch.
    names_at.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut last = f64::NEG_INFINITY;
    for (end, x, name) in names_at {
        let line = (end + 4.0).max(last + 17.0);
        last = line;
        let _ = writeln!(
            svg,
            "<path class=\"lead\" d=\"M{:.1} {end:.1}L322 {:.1}\"/><text x=\"327\" y=\"{line:.1}\">{}</text>",
            x + 3.0,
            line - 4.0,
            escape(name)
        );
    }
    svg.push_str("<path class=\"l1\" d=\"M24 24V306H310\"/></svg>");
    svg
}

/// What the style takes from the handbook: the line in the print margin, and how high each chapter's edge mark stands.
pub(super) fn imprint(press: &Press<'_>) -> Result<String, SettingError> {
    let front = &press.book.front;
    let mut chapters: Vec<String> = parts_with_lessons(press).map(|(number, _)| number.to_string()).collect();
    chapters.push("a".to_owned());
    let edition = fill(&press.theme.words.edition_of, "edition", &front.edition);
    let line = [front.title.as_str(), &front.house, &edition].join(", ");
    let mut context = Context::new();
    context.insert("imprint", &line);
    context.insert("cuts", &chapters);
    press.fill("imprint.css", context)
}
