//! The working under a block: how each of its figures came, and the standing values it speaks of.
//!
//! A formula is set where it is first needed. Further figures of the same block that follow from it say so; a long line
//! that stands in an earlier working of the page is pointed at and not set again, so that a lesson on moist air does not
//! carry the same three lines of mathematics a dozen times onto a phone.

use super::SettingError;
use super::block::PageLink;
use super::figure::{SetFigure, SetInput};
use super::press::Press;
use super::print::Both;
use super::shared_math::shared;
use serde::Serialize;
use std::collections::{BTreeMap, BTreeSet};
use tera::Context;

/// Bytes of MathML from which a line of a formula is long: two fractions and what goes with them.
const LONG: usize = 600;

/// A standing value named in a block.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub(super) struct StandingLine {
    pub(super) value: Both,
    pub(super) is: String,
    pub(super) source: String,
    pub(super) href: String,
    /// Who set it in place of the handbook below's, where it was.
    pub(super) own: Option<Both>,
}

/// What the working under a block shows.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub(super) struct Working {
    pub(super) figures: Vec<SetFigure>,
    pub(super) standing: Vec<StandingLine>,
}

impl Working {
    /// Adds a figure, once.
    pub(super) fn figure(&mut self, figure: &SetFigure) {
        if !self.figures.contains(figure) {
            self.figures.push(figure.clone());
        }
    }

    /// Adds a standing value, once.
    pub(super) fn standing(&mut self, line: StandingLine) {
        if !self.standing.contains(&line) {
            self.standing.push(line);
        }
    }
}

/// The workings of one page so far.
#[derive(Debug)]
pub(super) struct Workings<'a> {
    page: &'a str,
    /// Long lines and the sheet each was first set on.
    long: BTreeMap<Both, usize>,
    sheets: usize,
}

/// One figure's sheet, for the template.
#[derive(Serialize)]
struct Sheet<'a> {
    anchor: String,
    name: &'a str,
    answer: &'a Both,
    inputs: &'a [SetInput],
    /// HTML of the formula's lines that are set here.
    equation: String,
    /// Anchor of the sheet above, of the same working, whose formula is this one's too.
    as_above: Option<String>,
    /// Anchor of the sheet that has the lines left out here.
    further_up: Option<String>,
    numbers: String,
    notes: &'a [String],
    sources: &'a [String],
}

impl<'a> Workings<'a> {
    /// Of the page `page`, on which nothing has been worked yet.
    pub(super) fn on(page: &'a str) -> Self {
        Self { page, long: BTreeMap::new(), sheets: 0 }
    }

    /// The page's path.
    pub(super) fn page(&self) -> &'a str {
        self.page
    }

    /// Sets a working; nothing where there are no figures.
    pub(super) fn set(&mut self, press: &Press<'_>, working: &Working) -> Result<String, SettingError> {
        let Some(first) = working.figures.first() else { return Ok(String::new()) };
        let mut sheets = Vec::with_capacity(working.figures.len());
        let begun = self.sheets;
        for (i, figure) in working.figures.iter().enumerate() {
            let alike = |before: &SetFigure| !figure.equation.is_empty() && before.equation == figure.equation;
            let same = working.figures[..i].iter().position(alike);
            sheets.push(self.sheet(figure, same.map(|before| begun + before + 1)));
        }
        // Sources that all figures share are named once, below them.
        let shared = working.figures.len() > 1 && working.figures.iter().all(|figure| figure.sources == first.sources);
        let fluids: BTreeSet<&String> = working.figures.iter().flat_map(|figure| &figure.fluids).collect();
        let fluids: Vec<PageLink> = fluids
            .into_iter()
            .filter_map(|name| press.register.refrigerants.get(name))
            .map(|refrigerant| PageLink::of(refrigerant, self.page))
            .collect();
        let mut context = Context::new();
        context.insert("sheets", &sheets);
        context.insert("fluids", &fluids);
        context.insert("standing", &working.standing);
        context.insert("common_sources", if shared { first.sources.as_slice() } else { &[] });
        press.fill("block/working.html", context)
    }

    /// The sheet of one figure, whose formula stands on the sheet `same` of this working where one is given.
    fn sheet<'f>(&mut self, figure: &'f SetFigure, same: Option<usize>) -> Sheet<'f> {
        self.sheets += 1;
        let mut equation = String::new();
        let mut further_up = None;
        for line in figure.equation.iter().filter(|_| same.is_none()) {
            let known = self.long.get(line).copied();
            if let Some(sheet) = known {
                further_up.get_or_insert_with(|| anchor(sheet));
            } else {
                equation.push_str(&mathematics(line));
                if line.us.len() > LONG {
                    self.long.insert(line.clone(), self.sheets);
                }
            }
        }
        Sheet {
            anchor: anchor(self.sheets),
            name: &figure.name,
            answer: &figure.answer,
            inputs: &figure.inputs,
            equation,
            as_above: same.map(anchor),
            further_up,
            numbers: figure.numbers.iter().map(mathematics).collect(),
            notes: &figure.notes,
            sources: &figure.sources,
        }
    }
}

fn anchor(sheet: usize) -> String {
    format!("sum-{sheet}")
}

/// A line of mathematics in both systems of units. A block and not a span, so that the style that hides one system says
/// nothing of how the other is laid out.
pub(super) fn mathematics(line: &Both) -> String {
    if line.us == line.si {
        return format!("<div>{}</div>", line.us);
    }
    if let Some(math) = shared(&line.us, &line.si) {
        return format!("<div>{math}</div>");
    }
    // A reading against the air is made absolute on a line of its own, which the other system may have no need of; its
    // place stays, so that each system has as many.
    let side = |class: &str, math: &str| format!("<div class=\"{class}\">{math}</div>");
    side("us", &line.us) + &side("si", &line.si)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn figure(lines: &[&str]) -> SetFigure {
        SetFigure { equation: lines.iter().map(|line| Both::alike(line)).collect(), ..SetFigure::default() }
    }

    #[test]
    fn a_long_line_is_set_once_on_a_page_and_a_short_one_each_time() {
        let long = "x".repeat(LONG + 1);
        let (long_first, long_last) = (figure(&[&long, "short"]), figure(&["short", &long]));
        let mut workings = Workings::on("lesson/a.html");
        let first = workings.sheet(&long_first, None);
        assert!(first.equation.contains(&long) && first.further_up.is_none());
        let second = workings.sheet(&long_last, None);
        assert_eq!(second.equation, "<div>short</div>");
        assert_eq!(second.further_up.as_deref(), Some("sum-1"));
        let third = workings.sheet(&long_last, Some(2));
        assert!(third.equation.is_empty() && third.further_up.is_none());
        assert_eq!(third.as_above.as_deref(), Some("sum-2"));
    }

    #[test]
    fn a_line_that_differs_by_system_is_set_in_both() {
        let line = Both { us: "1".into(), si: "2".into() };
        assert_eq!(mathematics(&line), "<div class=\"us\">1</div><div class=\"si\">2</div>");
    }
}
