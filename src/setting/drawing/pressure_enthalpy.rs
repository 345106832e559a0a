//! Pressure against enthalpy: the dome of the refrigerant, and the cycle of given readings around it.

use super::arrow;
use super::canvas::{Canvas, Ink};
use super::chart::{Axis, Chart};
use super::geometry::Point;
use super::lettering::Style;
use super::scale::Law;
use super::{Pen, SetColumn, SetData, Sheet, Shown, same, told};
use crate::proofing::drawing::PressureEnthalpy;
use crate::quantity::{Value, unit};
use crate::setting::print::Both;

const HEIGHT: f64 = 360.0;
const ENTHALPY: Shown = ((&unit::BTU_PER_POUND, 1), (&unit::KILOJOULE_PER_KILOGRAM, 1));
const PRESSURE: Shown = ((&unit::PSIG, 1), (&unit::BARG, 2));
const TEMPERATURE: Shown = ((&unit::FAHRENHEIT, 1), (&unit::CELSIUS, 1));
const PERCENT: Shown = ((&unit::PERCENT, 0), (&unit::PERCENT, 0));
const NUMBERS: [&str; 4] = ["1", "2", "3", "4"];

/// Draws it.
pub(super) fn draw(cycle: &PressureEnthalpy, pen: &Pen<'_>) -> Sheet {
    let words = &pen.words.drawing;
    let mut canvas = Canvas::new(HEIGHT);
    let dome = || cycle.bubble.iter().chain(&cycle.dew);
    let corners = || cycle.corners.iter().map(|corner| (corner.enthalpy, corner.pressure));
    let all = || dome().copied().chain(corners());
    let least = |of: fn(&(Value, Value)) -> f64| all().map(|pair| of(&pair)).fold(f64::INFINITY, f64::min);
    let most = |of: fn(&(Value, Value)) -> f64| all().map(|pair| of(&pair)).fold(f64::NEG_INFINITY, f64::max);
    let (left, right) = (least(|pair| pair.0.si), most(|pair| pair.0.si));
    let margin = 0.05 * (right - left);
    let across = Axis {
        name: words.enthalpy.clone(),
        law: Law::Even,
        from: left - margin,
        to: right + 1.6 * margin,
        us: &unit::BTU_PER_POUND,
        si: &unit::KILOJOULE_PER_KILOGRAM,
    };
    let up = Axis {
        name: String::new(),
        law: Law::Log,
        from: least(|pair| pair.1.si),
        to: most(|pair| pair.1.si) * 1.25,
        us: &unit::PSIG,
        si: &unit::BARG,
    };
    let chart = Chart::draw(&mut canvas, HEIGHT, &across, &up, pen.air);
    let at = |pair: &(Value, Value)| chart.at(pair.0.si, pair.1.si);
    let bubble: Vec<Point> = cycle.bubble.iter().map(at).collect();
    let dew: Vec<Point> = cycle.dew.iter().map(at).collect();
    canvas.line(Ink::Liquid, bubble.clone());
    canvas.line(Ink::Suction, dew.clone());
    if let Some((from, to)) = bubble.last().zip(dew.last()) {
        // The last hair of the dome, where neither curve is answered any more, comes together at its top.
        let top = from.1.min(to.1) - 0.1 * (to.0 - from.0).abs();
        canvas.line(Ink::Edge, super::geometry::Path::bend(*from, ((from.0 + to.0) / 2.0, top), *to));
    }
    let round: Vec<Point> = corners().map(|pair| at(&pair)).collect();
    let strokes = [(0, 1), (1, 2), (2, 3), (3, 0)];
    for (from, to) in strokes {
        let (a, b) = (round[from], round[to]);
        canvas.line(Ink::Outline, [a, b]);
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        if dx.hypot(dy) > 24.0 {
            let tip = (a.0 + 0.5 * dx, a.1 + 0.5 * dy);
            arrow::head(&mut canvas, Ink::Outline, a, tip);
        }
    }
    let inside = chart.inside();
    round.iter().for_each(|corner| canvas.dot(*corner, 3.2, true));
    for (corner, number) in round.iter().zip(NUMBERS) {
        canvas.place(same(number), Style::Key, *corner, inside);
    }
    let between = |a: Point, b: Point, share: f64| (a.0 + (b.0 - a.0) * share, a.1 + (b.1 - a.1) * share);
    canvas.place(pen.show(cycle.condensing), Style::Plain, between(round[2], round[1], 0.34), inside);
    canvas.place(pen.show(cycle.evaporating), Style::Plain, between(round[3], round[0], 0.34), inside);
    canvas.place(pen.show_in(cycle.effect, ENTHALPY), Style::Plain, between(round[3], round[0], 0.7), inside);
    let frame = chart.frame;
    if let Some((low, high)) = bubble.first().zip(bubble.last()) {
        canvas.name(&words.liquid, (frame.left + 34.0, high.1 + 0.4 * (low.1 - high.1)), inside);
        canvas.name(&words.vapor, (frame.right - 34.0, frame.bottom - 0.12 * (frame.bottom - frame.top)), inside);
        let middle = (bubble[0].0 + dew[0].0) / 2.0;
        canvas.name(&words.both_phases, (middle, high.1 + 0.3 * (low.1 - high.1)), inside);
    }
    let places = [&words.after_coil, &words.after_compressor, &words.after_condenser, &words.after_valve];
    let rows = cycle.corners.iter().zip(NUMBERS).map(|(corner, number)| {
        let cells = vec![
            pen.number(corner.pressure, PRESSURE),
            pen.number(corner.temperature, TEMPERATURE),
            pen.number(corner.enthalpy, ENTHALPY),
        ];
        (same(number), cells)
    });
    let rows = rows.collect();
    let say = told(
        &words.cycle_say,
        &[
            ("refrigerant", same(&cycle.refrigerant)),
            ("evaporating", pen.show(cycle.evaporating)),
            ("condensing", pen.show(cycle.condensing)),
            ("effect", pen.show_in(cycle.effect, ENTHALPY)),
            ("flashed", pen.show_in(cycle.flashed, PERCENT)),
            ("discharge", pen.show_in(cycle.corners[1].temperature, TEMPERATURE)),
        ],
    );
    Sheet {
        canvas,
        key: NUMBERS.into_iter().zip(places.into_iter().cloned()).collect(),
        say,
        table: SetData {
            columns: vec![
                SetColumn { name: words.place.clone(), unit: Both::default() },
                pen.column(&words.pressure, PRESSURE),
                pen.column(&words.temperature, TEMPERATURE),
                pen.column(&words.enthalpy, ENTHALPY),
            ],
            rows,
        },
    }
}
