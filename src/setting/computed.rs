//! Tables worked from the catalogue: one computation over one or two inputs, in both systems of units.

use super::SettingError;
use super::figure::SetGrid;
use super::markdown::set_line;
use super::press::Press;
use super::register::table_anchor;
use super::working::{Working, Workings};
use crate::handbook::{ComputedTable, Span};
use serde::Serialize;
use tera::Context;

#[derive(Serialize)]
struct SystemGrid<'a> {
    class: &'a str,
    grid: &'a SetGrid,
}

/// Sets a `computed-table` on the page `page`.
pub(super) fn set(
    press: &Press<'_>,
    page: &str,
    workings: &mut Workings<'_>,
    level: u8,
    at: Span,
    table: &ComputedTable,
) -> Result<String, SettingError> {
    let Some(set) = press.figures.computed.get(&at) else { return Ok(String::new()) };
    let number = press.register.tables.get(&table.name.value).map_or("", |numbered| numbered.number.as_str());
    let mut working = Working::default();
    working.figure(&set.working);
    let note = match &table.note {
        Some(note) => set_line(press, page, &note.value, &table.note_links, &mut working)?,
        None => String::new(),
    };
    let mut context = Context::new();
    context.insert("level", &level);
    context.insert("anchor", &table_anchor(&table.name.value));
    context.insert("number", number);
    context.insert("title", &table.title.value);
    context.insert("answer", &set.answer);
    context.insert("given", &set.given);
    context.insert("systems", &[SystemGrid { class: "us", grid: &set.us }, SystemGrid { class: "si", grid: &set.si }]);
    context.insert("altitude", &press.figures.altitude);
    context.insert("air", &press.figures.air);
    context.insert("sources", &set.working.sources);
    context.insert("dashes", &set.dashes);
    context.insert("edition", &press.book.front.edition);
    context.insert("note", &note);
    context.insert("working", &workings.set(press, &working)?);
    press.fill("block/computed.html", context)
}
