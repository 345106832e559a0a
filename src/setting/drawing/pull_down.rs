//! Pull-down: readings against time, joined, with the level to be reached. Pressures that fall through decades are drawn
//! by their logarithm.

use super::canvas::{Canvas, Ink};
use super::chart::{Axis, Chart};
use super::geometry::Point;
use super::lettering::Style;
use super::scale::Law;
use super::{Pen, SetColumn, SetData, Sheet, Shown, same, then, told};
use crate::proofing::drawing::{PullDown, PullDownReading};
use crate::quantity::{Kind, Reference, System, Value, unit};
use crate::setting::print::Both;

const HEIGHT: f64 = 340.0;
/// A pressure that spans more than this is drawn by its logarithm.
const DECADES: f64 = 15.0;
const INKS: [Ink; 4] = [Ink::Copper, Ink::Suction, Ink::Liquid, Ink::Verdigris];
const LETTERS: [&str; 4] = ["A", "B", "C", "D"];
const BOILING: Shown = ((&unit::FAHRENHEIT, 1), (&unit::CELSIUS, 1));

/// Draws it.
pub(super) fn draw(down: &PullDown, pen: &Pen<'_>) -> Sheet {
    let words = &pen.words.drawing;
    let (us, si) = (down.unit.in_system(System::Us), down.unit.in_system(System::Si));
    let decimals = |unit: &crate::quantity::Unit| unit.least_decimals.min(1);
    let shown: Shown = ((us, decimals(us)), (si, decimals(si)));
    let time: Shown = ((down.time, 0), (down.time, 0));
    let mut canvas = Canvas::new(HEIGHT);
    let readings = || down.series.iter().flat_map(|series| &series.readings);
    let over =
        |of: fn(&PullDownReading) -> f64, pick: fn(f64, f64) -> f64, start: f64| readings().map(of).fold(start, pick);
    let last = over(|reading| reading.time.si, f64::max, 0.0);
    let first = over(|reading| reading.time.si, f64::min, f64::INFINITY);
    let level = down.level.map(|level| level.si);
    let low = over(|reading| reading.value.si, f64::min, level.unwrap_or(f64::INFINITY));
    let high = over(|reading| reading.value.si, f64::max, level.unwrap_or(f64::NEG_INFINITY));
    let log = down.unit.kind == Kind::Pressure && low > 0.0 && high / low > DECADES;
    let spread = (high - low).max(1e-6 * high.abs()).max(1e-9);
    let (from, to) = if log { (low * 0.6, high * 1.5) } else { (low - 0.1 * spread, high + 0.12 * spread) };
    // What has a natural nothing, as a difference and a vacuum do, is drawn evenly from there where it is near.
    let natural = down.unit.kind != Kind::Temperature && down.unit.reference == Reference::Fixed;
    let from = if !log && natural && from < 0.5 * to { 0.0 } else { from };
    let across = Axis {
        name: words.time.clone(),
        law: Law::Even,
        from: first.min(0.0),
        to: last + 0.04 * (last - first.min(0.0)),
        us: down.time,
        si: down.time,
    };
    let up = Axis { name: String::new(), law: if log { Law::Log } else { Law::Even }, from, to, us, si };
    let chart = Chart::draw(&mut canvas, HEIGHT, &across, &up, pen.air);
    let inside = chart.inside();
    if let Some(level) = down.level {
        let at = chart.y.at(level.si);
        canvas.level(Ink::Hidden, (chart.frame.left, at), (chart.frame.right, at));
    }
    let lines: Vec<Vec<Point>> = down
        .series
        .iter()
        .map(|series| series.readings.iter().map(|read| chart.at(read.time.si, read.value.si)).collect())
        .collect();
    for (line, ink) in lines.iter().zip(INKS) {
        canvas.line(ink, line.clone());
    }
    for place in lines.iter().flatten() {
        canvas.dot(*place, 2.8, false);
    }
    let lettered = down.series.len() > 1;
    let mut key = Vec::new();
    if lettered {
        for ((line, series), letter) in lines.iter().zip(&down.series).zip(LETTERS) {
            if let Some(end) = line.last() {
                canvas.place(same(letter), Style::Key, *end, inside);
            }
            key.push((letter, series.name.clone()));
        }
    }
    if let Some(level) = down.level {
        canvas.set_in(pen.show_in(level, shown), Style::Plain, &chart.along_level(level.si, 0.5), inside);
    }
    let show = |value: Value| pen.show_in(value, shown);
    let mut say = Both::default();
    for (series, letter) in down.series.iter().zip(LETTERS) {
        let Some((start, end)) = series.readings.first().zip(series.readings.last()) else { continue };
        let figures = [
            ("line", same(&format!("{letter}, {}", series.name))),
            ("from", show(start.value)),
            ("to", show(end.value)),
            ("start", pen.show_in(start.time, time)),
            ("end", pen.show_in(end.time, time)),
        ];
        let sentence = told(if lettered { &words.down_say_of } else { &words.down_say }, &figures);
        say = if say.us.is_empty() { sentence } else { then(say, &sentence) };
        // What lies beyond both ends would be missed by who hears of the ends only.
        let beyond = |low: bool| {
            let sign = if low { 1.0 } else { -1.0 };
            let far = series.readings.iter().min_by(|a, b| (sign * a.value.si).total_cmp(&(sign * b.value.si)))?;
            let ends = (sign * start.value.si).min(sign * end.value.si);
            (sign * far.value.si < ends - 1e-9 * ends.abs()).then_some(far)
        };
        for (far, sentence) in [(beyond(true), &words.down_low), (beyond(false), &words.down_high)] {
            if let Some(far) = far {
                let figures = [("value", show(far.value)), ("time", pen.show_in(far.time, time))];
                say = then(say, &told(sentence, &figures));
            }
        }
    }
    if let Some(level) = down.level {
        say = then(say, &told(&words.down_level, &[("level", show(level))]));
    }
    let water = readings().any(|read| read.water.is_some());
    let mut columns = vec![pen.column(&words.time, time)];
    if lettered {
        columns.insert(0, SetColumn { name: words.series.clone(), unit: Both::default() });
    }
    let read = match down.unit.kind {
        Kind::Pressure => &words.pressure,
        Kind::TemperatureDifference => &words.superheat_at_bulb,
        _ => &words.temperature,
    };
    columns.push(pen.column(read, shown));
    if water {
        columns.push(pen.column(&words.water_boils, BOILING));
    }
    let mut rows = Vec::new();
    for (series, letter) in down.series.iter().zip(LETTERS) {
        for read in &series.readings {
            let mut cells = vec![pen.number(read.time, time), pen.number(read.value, shown)];
            if water {
                cells.push(read.water.map_or_else(|| same("—"), |water| pen.number(water, BOILING)));
            }
            let head = if lettered { same(letter) } else { cells.remove(0) };
            rows.push((head, cells));
        }
    }
    Sheet { canvas, key, say, table: SetData { columns, rows } }
}
