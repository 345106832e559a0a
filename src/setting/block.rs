//! Blocks of a leaf through the theme's templates: notices, margin notes, worked examples, tables, and a
//! diagnosis set in a lesson. `level` is that of the heading a block is to have where it stands.

use super::SettingError;
use super::address;
use super::key;
use super::markdown::set_line;
use super::notice;
use super::press::Press;
use super::print::{self, Both};
use super::register::{PageRef, Target, example_anchor, table_anchor};
use super::words::fill;
use super::working::{Working, Workings};
use crate::handbook::{Example, Hazard, SaturationTable, Signal, Span};
use serde::Serialize;
use tera::Context;

/// A page another page points at, for templates.
#[derive(Clone, Debug, Serialize)]
pub(super) struct PageLink {
    pub(super) href: String,
    pub(super) label: String,
    pub(super) title: String,
}

impl PageLink {
    /// The link from the page `from`.
    pub(super) fn of(page: &PageRef, from: &str) -> Self {
        Self { href: address::href(from, &page.path), label: page.label.clone(), title: page.title.clone() }
    }
}

/// A notice under its signal panel, `html` being what it says.
pub(super) fn notice(press: &Press<'_>, signal: Signal, html: &str, standing: bool) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let label = match signal {
        Signal::Danger => &words.danger,
        Signal::Warning => &words.warning,
        Signal::Caution => &words.caution,
        Signal::Notice => &words.notice,
    };
    let mut context = Context::new();
    context.insert("signal", notice::class(signal));
    context.insert("label", label);
    context.insert("word", &label.to_uppercase());
    // ANSI Z535.6: the alert symbol stands for injury, so NOTICE goes without.
    context.insert("triangle", &(signal != Signal::Notice));
    context.insert("standing", &standing);
    context.insert("html", html);
    press.fill("block/notice.html", context)
}

/// A standing notice, set under the head of every lesson that names its hazard.
pub(super) fn hazard(press: &Press<'_>, hazard: &Hazard) -> Result<String, SettingError> {
    let html = format!("<p><b>{}</b> {}</p>\n", print::print(&hazard.hazard), print::print(&hazard.avoid));
    notice(press, hazard.signal, &html, true)
}

/// A margin note.
pub(super) fn marginal(press: &Press<'_>, html: &str, working: &str) -> Result<String, SettingError> {
    let mut context = Context::new();
    context.insert("html", html);
    context.insert("working", working);
    press.fill("block/marginal.html", context)
}

#[derive(Serialize)]
struct StepRow<'a> {
    name: &'a str,
    /// How it is found, where the name does not say it.
    by: &'a str,
    answer: &'a Both,
}

/// A worked example as a calculation sheet.
pub(super) fn example(
    press: &Press<'_>,
    workings: &mut Workings<'_>,
    level: u8,
    at: Span,
    example: &Example,
) -> Result<String, SettingError> {
    let number = press.register.examples.get(&at).map_or("", |numbered| numbered.number.as_str());
    let mut shown = Working::default();
    let page = workings.page();
    let so = match &example.so {
        Some(so) => set_line(press, page, &so.value, &example.so_links, &mut shown)?,
        None => String::new(),
    };
    // The steps come first in the working, the figures of the conclusion after them.
    let mut all = Working::default();
    let empty = super::figure::SetExample::default();
    let set = press.figures.examples.get(&at).unwrap_or(&empty);
    set.steps.iter().for_each(|step| all.figure(&step.figure));
    shown.figures.iter().for_each(|figure| all.figure(figure));
    all.standing = shown.standing;
    let steps: Vec<StepRow<'_>> = set
        .steps
        .iter()
        .map(|step| StepRow {
            name: &step.name,
            by: if step.figure.name == step.name { "" } else { &step.figure.name },
            answer: &step.answer,
        })
        .collect();
    let mut context = Context::new();
    context.insert("number", number);
    context.insert("level", &level);
    context.insert("anchor", &example_anchor(number));
    context.insert("title", &example.title.value);
    context.insert("given", &set.given);
    context.insert("steps", &steps);
    context.insert("so", &so);
    context.insert("working", &workings.set(press, &all)?);
    press.fill("block/sumsheet.html", context)
}

#[derive(Serialize)]
struct SystemRows<'a> {
    class: &'a str,
    rows: &'a super::figure::SetRows,
}

/// A saturation table in both systems of units.
pub(super) fn saturation(
    press: &Press<'_>,
    workings: &mut Workings<'_>,
    level: u8,
    at: Span,
    table: &SaturationTable,
) -> Result<String, SettingError> {
    let words = &press.theme.words;
    let Some(set) = press.figures.tables.get(&at) else { return Ok(String::new()) };
    let page = workings.page();
    let number = press.register.tables.get(&table.name).map_or("", |numbered| numbered.number.as_str());
    let designation = &table.refrigerant.value;
    let refrigerant = press.register.address(&Target::Refrigerant(designation.clone()), press.book);
    let refrigerant = PageLink {
        href: refrigerant.map_or_else(String::new, |to| address::href(page, &to)),
        label: String::new(),
        title: designation.clone(),
    };
    let step = |rows: &super::figure::SetRows| fill(&words.every, "step", &rows.step);
    let mut sources: Vec<&String> = set.working.iter().flat_map(|figure| &figure.sources).collect();
    sources.dedup();
    let shown = Working { figures: set.working.clone(), standing: Vec::new() };
    let mut context = Context::new();
    context.insert("level", &level);
    context.insert("anchor", &table_anchor(&table.name));
    context.insert("number", number);
    context.insert("refrigerant", &refrigerant);
    context.insert("step", &Both { us: step(&set.us), si: step(&set.si) });
    context.insert("systems", &[SystemRows { class: "us", rows: &set.us }, SystemRows { class: "si", rows: &set.si }]);
    context.insert("one_curve", &set.one_curve);
    context.insert("altitude", &press.figures.altitude);
    context.insert("air", &press.figures.air);
    context.insert("sources", &sources);
    context.insert("dashes", &set.dashes);
    context.insert("edition", &press.book.front.edition);
    context.insert("working", &workings.set(press, &shown)?);
    context.insert("house", &press.book.front.house);
    context.insert("cards", &[card("us", &set.us), card("si", &set.si)]);
    let burns = press.book.refrigerants.get(designation).and_then(|entry| entry.safety_group.as_ref());
    context.insert("burns", &burns.is_some_and(|group| group.ends_with(['2', '3', 'L'])));
    press.fill("block/saturation.html", context)
}

/// Half a pocket card: one system of units, in two panels.
#[derive(Serialize)]
struct CardHalf<'a> {
    class: &'a str,
    rows: &'a super::figure::SetRows,
    panels: Vec<Vec<CardRow<'a>>>,
}

#[derive(Serialize)]
struct CardRow<'a> {
    row: &'a super::figure::SetRow,
    breath: bool,
}

/// Rows of a panel of the pocket card; more would be too small to read at arm's length.
const CARD_ROWS: usize = 22;

/// As many rows of the table as go on two panels, at round temperatures: every one, every second, fifth or tenth.
fn card<'a>(class: &'a str, rows: &'a super::figure::SetRows) -> CardHalf<'a> {
    let fits = |every: &usize| rows.rows.len().div_ceil(*every) <= 2 * CARD_ROWS;
    let every = [1, 2, 4, 5, 10].into_iter().find(fits).unwrap_or(rows.rows.len().div_ceil(2 * CARD_ROWS).max(1));
    let kept: Vec<&super::figure::SetRow> = rows.rows.iter().step_by(every).collect();
    let in_panel = kept.len().div_ceil(2).max(1);
    let panel = |rows: &[&'a super::figure::SetRow]| -> Vec<CardRow<'a>> {
        rows.iter().enumerate().map(|(i, row)| CardRow { row, breath: i % 5 == 4 && i + 1 < rows.len() }).collect()
    };
    CardHalf { class, rows, panels: kept.chunks(in_panel).map(panel).collect() }
}

/// A diagnosis set in a lesson: its first question, whose answers lead into the tree.
pub(super) fn tree_card(press: &Press<'_>, page: &str, level: u8, name: &str) -> Result<String, SettingError> {
    let Some(tree) = press.book.trees.get(name) else { return Ok(String::new()) };
    let Some(first) = tree.question(&tree.start.value).or(tree.questions.first()) else { return Ok(String::new()) };
    let there = address::tree(name);
    let mut working = Working::default();
    let links = tree.links.get(&first.ask.at).map_or(&[][..], Vec::as_slice);
    let ask = set_line(press, page, &first.ask.value, links, &mut working)?;
    let mut context = Context::new();
    context.insert("level", &level);
    context.insert("anchor", &print::anchor(name));
    context.insert("href", &address::href(page, &there));
    context.insert("title", &tree.title.value);
    context.insert("purpose", &tree.purpose);
    context.insert("ask", &ask);
    context.insert("ways", &key::ways(press, page, tree, first));
    press.fill("block/tree_card.html", context)
}
