//! Moist air: dry bulb across, moisture up, curves of equal relative humidity, and the air's states with the way from one
//! to the next.

use super::arrow;
use super::canvas::{Canvas, Ink};
use super::chart::{Axis, Chart};
use super::geometry::Point;
use super::lettering::Style;
use super::scale::Law;
use super::{Pen, SetColumn, SetData, Sheet, Shown, same, then, told};
use crate::proofing::drawing::Psychrometric;
use crate::quantity::{Value, unit};
use crate::setting::print::Both;

const HEIGHT: f64 = 360.0;
const LETTERS: [&str; 5] = ["A", "B", "C", "D", "E"];
const TEMPERATURE: Shown = ((&unit::FAHRENHEIT, 1), (&unit::CELSIUS, 1));
const MOISTURE: Shown = ((&unit::GRAIN_PER_POUND, 1), (&unit::GRAM_PER_KILOGRAM, 1));
const HEAT: Shown = ((&unit::BTU_PER_POUND_OF_DRY_AIR, 1), (&unit::KILOJOULE_PER_KILOGRAM_OF_DRY_AIR, 1));
const HUMIDITY: Shown = ((&unit::PERCENT, 0), (&unit::PERCENT, 0));
/// How much moister than the moistest point the chart goes.
const HEADROOM: f64 = 1.45;

/// Draws it.
pub(super) fn draw(air: &Psychrometric, pen: &Pen<'_>) -> Sheet {
    let words = &pen.words.drawing;
    let mut canvas = Canvas::new(HEIGHT);
    let dry = || air.curves.iter().flat_map(|curve| &curve.points).map(|point| point.0.si);
    let most = air.points.iter().map(|point| point.ratio.si.max(point.saturated.si * 0.8)).fold(0.0, f64::max);
    let across = Axis {
        name: words.dry_bulb.clone(),
        law: Law::Even,
        from: dry().fold(f64::INFINITY, f64::min),
        to: dry().fold(0.0, f64::max),
        us: &unit::FAHRENHEIT,
        si: &unit::CELSIUS,
    };
    let up = Axis {
        name: String::new(),
        law: Law::Even,
        from: 0.0,
        to: (most * HEADROOM).max(0.002),
        us: &unit::GRAIN_PER_POUND,
        si: &unit::GRAM_PER_KILOGRAM,
    };
    let chart = Chart::draw(&mut canvas, HEIGHT, &across, &up, pen.air);
    let mut ends: Vec<(Vec<Point>, &Value)> = Vec::new();
    for curve in &air.curves {
        let whole: Vec<Point> = curve.points.iter().map(|point| chart.at(point.0.si, point.1.si)).collect();
        let seen = chart.clipped(&whole);
        let full = std::ptr::eq(curve, air.curves.last().unwrap_or(curve));
        canvas.grid(if full { Ink::Outline } else { Ink::Edge }, seen.clone());
        ends.push((seen.into_iter().rev().collect(), &curve.humidity));
    }
    let places: Vec<Point> = air.points.iter().map(|point| chart.at(point.dry.si, point.ratio.si)).collect();
    for (point, place) in air.points.iter().zip(&places) {
        let wet = chart.at(point.wet.si, point.saturated.si);
        canvas.grid(Ink::Hidden, chart.clipped(&[*place, wet]));
    }
    if air.joined {
        for pair in places.windows(2) {
            canvas.line(Ink::Copper, [pair[0], pair[1]]);
            let middle = (pair[0].0 + 0.55 * (pair[1].0 - pair[0].0), pair[0].1 + 0.55 * (pair[1].1 - pair[0].1));
            if (pair[1].0 - pair[0].0).hypot(pair[1].1 - pair[0].1) > 20.0 {
                arrow::head(&mut canvas, Ink::Copper, pair[0], middle);
            }
        }
    }
    let inside = chart.inside();
    places.iter().for_each(|place| canvas.dot(*place, 3.2, true));
    for (place, letter) in places.iter().zip(LETTERS) {
        canvas.place(same(letter), Style::Key, *place, inside);
    }
    for (curve, humidity) in ends {
        canvas.set_in(pen.show_in(*humidity, HUMIDITY), Style::Small, &curve, inside);
    }
    let mut say = told(&words.air_say, &[]);
    let mut rows = Vec::new();
    for (point, letter) in air.points.iter().zip(LETTERS) {
        let name = if point.name.is_empty() { letter.to_owned() } else { format!("{letter}, {}", point.name) };
        let figures = [
            ("point", same(&name)),
            ("dry", pen.show(point.dry)),
            ("humidity", pen.show_in(point.humidity, HUMIDITY)),
            ("dew", pen.show(point.dew_point)),
        ];
        say = then(say, &told(&words.air_point, &figures));
        let cells = vec![
            pen.number(point.dry, TEMPERATURE),
            pen.number(point.wet, TEMPERATURE),
            pen.number(point.humidity, HUMIDITY),
            pen.number(point.dew_point, TEMPERATURE),
            pen.number(point.ratio, MOISTURE),
            pen.number(point.enthalpy, HEAT),
        ];
        rows.push((same(letter), cells));
    }
    let heads = [
        (&words.dry_bulb, TEMPERATURE),
        (&words.wet_bulb, TEMPERATURE),
        (&words.humidity, HUMIDITY),
        (&words.dew_point, TEMPERATURE),
        (&words.moisture, MOISTURE),
        (&words.enthalpy, HEAT),
    ];
    let first = SetColumn { name: words.point.clone(), unit: Both::default() };
    let named = air.points.iter().zip(LETTERS).filter(|(point, _)| !point.name.is_empty());
    let key = named.map(|(point, letter)| (letter, point.name.clone())).collect();
    let columns = std::iter::once(first).chain(heads.iter().map(|(name, shown)| pen.column(name, *shown))).collect();
    Sheet { canvas, key, say, table: SetData { columns, rows } }
}
