//! The saturation curve: bubble pressure in red over dew pressure in blue, both phases between them, and at the pressure
//! looked at the two temperatures with the glide between.

use super::arrow;
use super::canvas::{Canvas, Ink};
use super::chart::{Axis, Chart};
use super::geometry::{Path, Point};
use super::hatching::Hatch;
use super::lettering::Style;
use super::scale::Law;
use super::{Pen, SetData, Sheet, Shown, same, then, told};
use crate::proofing::drawing::SaturationCurve;
use crate::quantity::unit;

const HEIGHT: f64 = 350.0;
const TEMPERATURE: Shown = ((&unit::FAHRENHEIT, 1), (&unit::CELSIUS, 1));
const PRESSURE: Shown = ((&unit::PSIG, 1), (&unit::BARG, 2));
/// A glide no wider than this, in kelvins, shows as one line.
const ONE_LINE: f64 = 0.3;

/// Draws it.
pub(super) fn draw(curve: &SaturationCurve, pen: &Pen<'_>) -> Sheet {
    let words = &pen.words.drawing;
    let mut canvas = Canvas::new(HEIGHT);
    let ends = (curve.points.first(), curve.points.last());
    let (from, to) = ends.0.zip(ends.1).map_or((0.0, 1.0), |(a, b)| (a.temperature.si, b.temperature.si));
    let least = curve.points.iter().map(|point| point.dew.si).fold(f64::INFINITY, f64::min);
    let most = curve.points.iter().map(|point| point.bubble.si).fold(0.0, f64::max);
    let across =
        Axis { name: words.temperature.clone(), law: Law::Even, from, to, us: &unit::FAHRENHEIT, si: &unit::CELSIUS };
    let up = Axis {
        name: String::new(),
        law: Law::Even,
        from: least.min(pen.air.as_pascal()),
        to: most + 0.04 * (most - least),
        us: &unit::PSIG,
        si: &unit::BARG,
    };
    let chart = Chart::draw(&mut canvas, HEIGHT, &across, &up, pen.air);
    let at = |of: fn(&crate::proofing::drawing::CurvePoint) -> f64| -> Vec<Point> {
        curve.points.iter().map(|point| chart.at(point.temperature.si, of(point))).collect()
    };
    let (bubble, dew) = (at(|point| point.bubble.si), at(|point| point.dew.si));
    // How far apart the curves lie along the page, where they are widest.
    let apart = bubble.iter().zip(&dew).map(|(b, d)| d.1 - b.1).fold(0.0, f64::max);
    let one_line = curve.mark.as_ref().map_or(apart < 1.5, |mark| mark.glide.si.abs() < ONE_LINE);
    if one_line {
        canvas.line(Ink::Outline, bubble.clone());
    } else {
        let mut between = bubble.clone();
        between.extend(dew.iter().rev());
        canvas.area(Hatch::Vapor, Path::closed(between));
        canvas.line(Ink::Liquid, bubble.clone());
        canvas.line(Ink::Suction, dew.clone());
    }
    let mut say = told(
        if one_line { &words.curve_one_say } else { &words.curve_two_say },
        &[("refrigerant", same(&curve.refrigerant))],
    );
    if let Some(mark) = &curve.mark {
        let level = chart.y.at(mark.pressure.si);
        let foot = chart.frame.bottom;
        let (left, right) = (chart.x.at(mark.bubble.si), chart.x.at(mark.dew.si));
        canvas.line(Ink::Hidden, [(chart.frame.left, level), (right, level)]);
        canvas.line(Ink::Hidden, [(right, level), (right, foot)]);
        canvas.dot((right, level), 3.2, true);
        if !one_line {
            canvas.line(Ink::Hidden, [(left, level), (left, foot)]);
            canvas.dot((left, level), 3.2, true);
        }
        let inside = chart.inside();
        canvas.place(pen.show_in(mark.pressure, PRESSURE), Style::Plain, (chart.frame.left + 24.0, level), inside);
        let low = foot - 0.28 * (foot - level).max(30.0);
        canvas.place(pen.show_in(mark.dew, TEMPERATURE), Style::Plain, (right, low), inside);
        if !one_line {
            canvas.place(pen.show_in(mark.bubble, TEMPERATURE), Style::Plain, (left, low), inside);
            if right - left > 16.0 {
                let rule = (level + foot) / 2.0;
                canvas.line(Ink::Edge, [(left, rule), (right, rule)]);
                arrow::head(&mut canvas, Ink::Edge, (right, rule), (left, rule));
                arrow::head(&mut canvas, Ink::Edge, (left, rule), (right, rule));
                canvas.place(pen.show(mark.glide), Style::Plain, ((left + right) / 2.0, rule), inside);
            }
        }
        let figures = [
            ("pressure", pen.show_in(mark.pressure, PRESSURE)),
            ("bubble", pen.show_in(mark.bubble, TEMPERATURE)),
            ("dew", pen.show_in(mark.dew, TEMPERATURE)),
            ("glide", pen.show(mark.glide)),
        ];
        let sentence = if one_line { &words.curve_one_mark } else { &words.curve_two_mark };
        say = then(say, &told(sentence, &figures));
    }
    let inside = chart.inside();
    let middle = |points: &[Point], share: f64| points[((points.len() - 1) as f64 * share) as usize];
    if !curve.points.is_empty() {
        if one_line {
            canvas.place(same(&words.boils), Style::Italic, middle(&bubble, 0.7), inside);
        } else {
            canvas.place(same(&words.bubble), Style::Italic, middle(&bubble, 0.78), inside);
            canvas.place(same(&words.dew), Style::Italic, middle(&dew, 0.78), inside);
        }
        let (x0, x1) = (chart.frame.left, chart.frame.right);
        let (y0, y1) = (chart.frame.top, chart.frame.bottom);
        canvas.name(&words.liquid, (x0 + 0.22 * (x1 - x0), y0 + 0.22 * (y1 - y0)), inside);
        canvas.name(&words.vapor, (x0 + 0.84 * (x1 - x0), y0 + 0.84 * (y1 - y0)), inside);
    }
    let rows = curve.points.iter().filter(|point| point.step).map(|point| {
        let mut cells = vec![pen.number(point.bubble, PRESSURE)];
        if !one_line {
            cells.push(pen.number(point.dew, PRESSURE));
        }
        (pen.number(point.temperature, TEMPERATURE), cells)
    });
    let rows = rows.collect();
    let mut columns = vec![pen.column(&words.temperature, TEMPERATURE)];
    if one_line {
        columns.push(pen.column(&words.pressure, PRESSURE));
    } else {
        columns.push(pen.column(&words.bubble, PRESSURE));
        columns.push(pen.column(&words.dew, PRESSURE));
    }
    Sheet { canvas, key: Vec::new(), say, table: SetData { columns, rows } }
}
