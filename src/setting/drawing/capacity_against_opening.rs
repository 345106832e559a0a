//! Capacity against opening: what a valve passes as superheat opens it, a line for each pressure drop; a fixed orifice's
//! level beside it, where one is given.

use super::canvas::{Canvas, Ink};
use super::chart::{Axis, Chart};
use super::geometry::Point;
use super::lettering::Style;
use super::scale::Law;
use super::{Pen, SetData, Sheet, Shown, same, then, told};
use crate::proofing::drawing::CapacityAgainstOpening;
use crate::quantity::{Value, unit};

const HEIGHT: f64 = 330.0;
const SUPERHEAT: Shown = ((&unit::FAHRENHEIT_OF_DIFFERENCE, 1), (&unit::KELVIN_OF_DIFFERENCE, 1));
const CAPACITY: Shown = ((&unit::TON_OF_REFRIGERATION, 2), (&unit::KILOWATT, 2));
const DROP: Shown = ((&unit::PSI, 0), (&unit::KILOPASCAL_OF_DIFFERENCE, 0));

/// Draws it.
pub(super) fn draw(valve: &CapacityAgainstOpening, pen: &Pen<'_>) -> Sheet {
    let words = &pen.words.drawing;
    let mut canvas = Canvas::new(HEIGHT);
    let rated = valve.fixed.si + valve.opening.si;
    let full = |points: &[(Value, Value)]| points.last().map_or(0.0, |point| point.1.si);
    let most = valve.curves.iter().map(|curve| full(&curve.points)).fold(0.0, f64::max);
    let most = valve.orifice.map_or(most, |orifice| orifice.si.max(most));
    let across = Axis {
        name: words.superheat_at_bulb.clone(),
        law: Law::Even,
        from: 0.0,
        to: rated * 1.3,
        us: &unit::FAHRENHEIT_OF_DIFFERENCE,
        si: &unit::KELVIN_OF_DIFFERENCE,
    };
    let up = Axis {
        name: String::new(),
        law: Law::Even,
        from: 0.0,
        to: most * 1.15,
        us: &unit::TON_OF_REFRIGERATION,
        si: &unit::KILOWATT,
    };
    let chart = Chart::draw(&mut canvas, HEIGHT, &across, &up, pen.air);
    let (foot, inside) = (chart.frame.bottom, chart.inside());
    let shut = chart.at(valve.fixed.si, 0.0);
    canvas.line(Ink::Copper, [(chart.frame.left, foot), shut]);
    let mut ends: Vec<(Point, Value)> = Vec::new();
    for curve in &valve.curves {
        let points: Vec<Point> = curve.points.iter().map(|point| chart.at(point.0.si, point.1.si)).collect();
        if let Some(end) = points.last() {
            ends.push((*end, curve.drop));
        }
        canvas.line(Ink::Copper, points);
    }
    for (end, _) in &ends {
        canvas.dot(*end, 3.2, true);
    }
    canvas.dot(shut, 3.2, true);
    let wide = chart.x.at(rated);
    canvas.level(Ink::Axis, (wide, chart.frame.top), (wide, foot));
    if let Some(orifice) = valve.orifice {
        let level = chart.y.at(orifice.si);
        canvas.level(Ink::Hidden, (chart.frame.left, level), (chart.frame.right, level));
    }
    for (end, drop) in &ends {
        canvas.place(pen.show_in(*drop, DROP), Style::Plain, *end, inside);
    }
    canvas.place(same(&words.just_opens), Style::Italic, shut, inside);
    canvas.place(same(&words.rated_opening), Style::Italic, (wide, chart.frame.top + 12.0), inside);
    if let Some(orifice) = valve.orifice {
        let along = chart.along_level(orifice.si, 0.25);
        canvas.set_in(same(&words.fixed_orifice), Style::Italic, &along, inside);
    }
    let mut say = told(&words.opening_say, &[("static", pen.show(valve.fixed)), ("opening", pen.show(valve.opening))]);
    for curve in &valve.curves {
        let capacity = Value::of(unit::KILOWATT.kind, full(&curve.points));
        let figures = [("drop", pen.show_in(curve.drop, DROP)), ("capacity", pen.show_in(capacity, CAPACITY))];
        say = then(say, &told(&words.opening_curve, &figures));
    }
    if let Some(orifice) = valve.orifice {
        say = then(say, &told(&words.opening_orifice, &[("capacity", pen.show_in(orifice, CAPACITY))]));
    }
    let mut columns = vec![pen.column(&words.superheat_at_bulb, SUPERHEAT)];
    for curve in &valve.curves {
        let drop = pen.show_in(curve.drop, DROP);
        let mut column = pen.column(&words.capacity, CAPACITY);
        column.unit = told("{unit} · {drop}", &[("unit", column.unit.clone()), ("drop", drop)]);
        columns.push(column);
    }
    let parts = valve.curves.first().map_or(0, |curve| curve.points.len());
    let rows = (0..parts).map(|i| {
        let cells = valve.curves.iter().map(|curve| pen.number(curve.points[i].1, CAPACITY)).collect();
        (pen.number(valve.curves[0].points[i].0, SUPERHEAT), cells)
    });
    let rows = rows.collect();
    Sheet { canvas, key: Vec::new(), say, table: SetData { columns, rows } }
}
