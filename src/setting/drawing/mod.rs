//! Drawings made from readings, engraved: what proofing reckoned, on a sheet 400 wide, with what it shows in words and
//! its figures as a table.
//!
//! [`canvas`] is the sheet and keeps lines out of lettering; [`scale`] and [`chart`] rule axes in round numbers of both
//! systems; a file each for the kinds. To add a kind: its proof in `proofing/drawing/`, its file here, its line in
//! [`draw`], its words in the theme.

mod arrow;
mod canvas;
mod chart;
mod geometry;
mod hatching;
mod lettering;
mod scale;

mod bulb_clock;
mod capacity_against_opening;
mod pressure_enthalpy;
mod psychrometric;
mod pull_down;
mod saturation_curve;
mod superheat_along_coil;
mod three_forces;

#[cfg(test)]
mod tests;

use super::SettingError;
use super::plate::named;
use super::press::Press;
use super::print::{Both, anchor, both_html, print};
use super::words::{Words, fill};
use crate::handbook::{Drawing, Span, UnitsFirst};
use crate::proofing::drawing::{DrawingProof, Scene};
use crate::quantity::{Pressure, System, Unit, Value, print as figure};
use canvas::Canvas;
use serde::Serialize;
use tera::Context;

/// A drawing ready to be put on a page.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct SetDrawing {
    pub(super) svg: String,
    /// What its letters stand for.
    pub(super) key: Vec<(&'static str, String)>,
    /// What it shows.
    pub(super) say: Both,
    pub(super) table: SetData,
    /// Where its figures come from, each once.
    pub(super) sources: Vec<String>,
}

/// The figures of a drawing as a table.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetData {
    pub(super) columns: Vec<SetColumn>,
    pub(super) rows: Vec<(Both, Vec<Both>)>,
}

/// The head of a column: what it is, and its unit.
#[derive(Clone, Debug, Default, PartialEq, Eq, Serialize)]
pub(super) struct SetColumn {
    pub(super) name: String,
    pub(super) unit: Both,
}

/// A drawing before it is SVG.
struct Sheet {
    canvas: Canvas,
    key: Vec<(&'static str, String)>,
    say: Both,
    table: SetData,
}

/// What every kind is drawn with: the words of the theme, and the air that gauges read against.
struct Pen<'a> {
    words: &'a Words,
    air: Pressure,
}

/// Units and decimals in which a figure is shown, US and SI.
type Shown = ((&'static Unit, u8), (&'static Unit, u8));

/// Draws what proofing reckoned.
pub(super) fn draw(proof: &DrawingProof, words: &Words) -> SetDrawing {
    let sheet = sheet(proof, words);
    let sources = proof.sources.clone();
    SetDrawing { svg: sheet.canvas.svg(), key: sheet.key, say: sheet.say, table: sheet.table, sources }
}

fn sheet(proof: &DrawingProof, words: &Words) -> Sheet {
    let pen = Pen { words, air: proof.air };
    match &proof.scene {
        Scene::ThreeForces(forces) => three_forces::draw(forces, &pen),
        Scene::BulbClock(clock) => bulb_clock::draw(clock, &pen),
        Scene::SaturationCurve(curve) => saturation_curve::draw(curve, &pen),
        Scene::PressureEnthalpy(cycle) => pressure_enthalpy::draw(cycle, &pen),
        Scene::Psychrometric(air) => psychrometric::draw(air, &pen),
        Scene::SuperheatAlongCoil(coil) => superheat_along_coil::draw(coil, &pen),
        Scene::CapacityAgainstOpening(valve) => capacity_against_opening::draw(valve, &pen),
        Scene::PullDown(down) => pull_down::draw(down, &pen),
    }
}

/// Rows and sources that may stand under a drawing before they are folded away.
const ROWS_OPEN: usize = 4;
const SOURCES_OPEN: usize = 2;

/// Sets a `drawing`.
pub(super) fn set(press: &Press<'_>, at: Span, drawing: &Drawing) -> Result<String, SettingError> {
    let Some(set) = press.figures.drawings.get(&at) else { return Ok(String::new()) };
    let number = press.register.plates.get(&at).map_or("", String::as_str);
    let name = format!("plate-{}", anchor(number));
    let title = &drawing.title.value;
    let say = match &drawing.say {
        Some(say) => Both { us: say.value.clone(), si: say.value.clone() },
        None => set.say.clone(),
    };
    // A description is read out as it stands and knows no switch.
    let read_out = match press.book.front.units {
        UnitsFirst::Us => &say.us,
        UnitsFirst::Si => &say.si,
    };
    let mut context = Context::new();
    context.insert("anchor", &name);
    context.insert("number", number);
    context.insert("title", title);
    context.insert("key", &set.key);
    context.insert("say", &both_html(&print(&say.us), &print(&say.si), ""));
    context.insert("table", &set.table);
    context.insert("folded", &(set.table.rows.len() > ROWS_OPEN || set.sources.len() > SOURCES_OPEN));
    context.insert("sources", &set.sources);
    context.insert("edition", &press.book.front.edition);
    context.insert("drawing", &named(&set.svg, &name, title, read_out));
    press.fill("block/drawing.html", context)
}

impl Pen<'_> {
    /// A value in the usual units of its kind.
    fn show(&self, value: Value) -> Both {
        let usual = |system| (value.kind.unit_in(system), value.kind.decimals_in(system));
        self.show_in(value, (usual(System::Us), usual(System::Si)))
    }

    fn show_in(&self, value: Value, (us, si): Shown) -> Both {
        let of = |(unit, decimals): (&Unit, u8)| {
            // What comes out whole, as most of what is given does, is lettered without a zero behind the point.
            let number = value.number_of(unit, self.air);
            let whole = (number - number.round()).abs() < 1e-9 * number.abs().max(1.0);
            figure(value, unit, if whole { 0 } else { decimals }, self.air)
        };
        Both { us: of(us), si: of(si) }
    }

    /// The number alone, for a table whose head has the unit.
    fn number(&self, value: Value, shown: Shown) -> Both {
        let of =
            |(unit, decimals): (&Unit, u8)| crate::quantity::number_text(value.number_of(unit, self.air), decimals);
        Both { us: of(shown.0), si: of(shown.1) }
    }

    /// A head with its units.
    fn column(&self, name: &str, shown: Shown) -> SetColumn {
        SetColumn {
            name: name.to_owned(),
            unit: Both { us: shown.0.0.symbol.to_owned(), si: shown.1.0.symbol.to_owned() },
        }
    }
}

/// The same words in both systems.
fn same(text: &str) -> Both {
    Both { us: text.to_owned(), si: text.to_owned() }
}

/// `sentence` with what it names put in, in both systems.
fn told(sentence: &str, named: &[(&str, Both)]) -> Both {
    let fill_all = |of: fn(&Both) -> &String| {
        named.iter().fold(sentence.to_owned(), |text, (name, value)| fill(&text, name, of(value)))
    };
    Both { us: fill_all(|both| &both.us), si: fill_all(|both| &both.si) }
}

/// Both sentences, one after the other.
fn then(first: Both, second: &Both) -> Both {
    let joined = |a: String, b: &str| if b.is_empty() { a } else { format!("{a} {b}") };
    Both { us: joined(first.us, &second.us), si: joined(first.si, &second.si) }
}
