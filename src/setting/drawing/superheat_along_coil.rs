//! Superheat along a coil: the refrigerant's temperature over the heat it has taken up, from the valve to the bulb.

use super::arrow;
use super::canvas::{Canvas, Ink};
use super::chart::{Axis, Chart};
use super::geometry::Path;
use super::hatching::Hatch;
use super::lettering::Style;
use super::scale::Law;
use super::{Pen, SetColumn, SetData, Sheet, Shown, same, told};
use crate::proofing::drawing::SuperheatAlongCoil;
use crate::quantity::{Value, unit};
use crate::setting::print::Both;

const HEIGHT: f64 = 330.0;
const TEMPERATURE: Shown = ((&unit::FAHRENHEIT, 1), (&unit::CELSIUS, 1));
const HEAT: Shown = ((&unit::BTU_PER_POUND, 1), (&unit::KILOJOULE_PER_KILOGRAM, 1));

/// Draws it.
pub(super) fn draw(coil: &SuperheatAlongCoil, pen: &Pen<'_>) -> Sheet {
    let words = &pen.words.drawing;
    let mut canvas = Canvas::new(HEIGHT);
    let warmest = coil.air.map_or(coil.line.si, |air| air.si.max(coil.line.si));
    // A coil that ends where it boils still has a chart of some height.
    let range = (warmest - coil.inlet.si.min(coil.boiling.si)).max(2.0);
    let across = Axis {
        name: words.heat_taken_up.clone(),
        law: Law::Even,
        from: 0.0,
        to: coil.to_bulb.si * 1.12,
        us: &unit::BTU_PER_POUND,
        si: &unit::KILOJOULE_PER_KILOGRAM,
    };
    let up = Axis {
        name: String::new(),
        law: Law::Even,
        from: coil.inlet.si.min(coil.boiling.si) - 0.22 * range,
        to: warmest + 0.14 * range,
        us: &unit::FAHRENHEIT,
        si: &unit::CELSIUS,
    };
    let chart = Chart::draw(&mut canvas, HEIGHT, &across, &up, pen.air);
    let inlet = chart.at(0.0, coil.inlet.si);
    let dry = chart.at(coil.to_dry.si, coil.boiling.si);
    let bulb = chart.at(coil.to_bulb.si, coil.line.si);
    let foot = chart.frame.bottom;
    canvas.area(Hatch::Liquid, Path::closed(vec![inlet, dry, (dry.0, foot), (inlet.0, foot)]));
    canvas.area(Hatch::Vapor, Path::closed(vec![dry, bulb, (bulb.0, foot), (dry.0, foot)]));
    if let Some(air) = coil.air {
        let level = chart.y.at(air.si);
        canvas.level(Ink::Axis, (chart.frame.left, level), (chart.frame.right, level));
    }
    canvas.line(Ink::Suction, [inlet, dry]);
    canvas.line(Ink::Copper, [dry, bulb]);
    canvas.grid(Ink::Hidden, [dry, (dry.0, foot)]);
    let rule = bulb.0 + 12.0;
    canvas.line(Ink::Hidden, [dry, (rule + 4.0, dry.1)]);
    // Superheat: from the line of boiling up to the bulb.
    if (dry.1 - bulb.1).abs() > 18.0 {
        let (low, high) = ((rule, dry.1), (rule, bulb.1));
        canvas.line(Ink::Edge, [(bulb.0 + 5.0, bulb.1), (rule + 4.0, bulb.1)]);
        canvas.line(Ink::Edge, [low, high]);
        arrow::head(&mut canvas, Ink::Edge, high, low);
        arrow::head(&mut canvas, Ink::Edge, low, high);
    }
    let inside = chart.inside();
    for place in [inlet, dry, bulb] {
        canvas.dot(place, 3.2, true);
    }
    for (place, letter) in [(inlet, "A"), (dry, "B"), (bulb, "C")] {
        canvas.place(same(letter), Style::Key, place, inside);
    }
    canvas.place(pen.show(coil.superheat), Style::Plain, ((dry.0 + bulb.0) / 2.0, (dry.1 + bulb.1) / 2.0), inside);
    canvas.place(
        pen.show_in(coil.boiling, TEMPERATURE),
        Style::Plain,
        ((inlet.0 * 0.4 + dry.0 * 0.6), (inlet.1 * 0.4 + dry.1 * 0.6)),
        inside,
    );
    if let Some(air) = coil.air {
        let text = told("{air} {figure}", &[("air", same(&words.air_onto_coil)), ("figure", pen.show(air))]);
        canvas.set_in(text, Style::Plain, &chart.along_level(air.si, 0.3), inside);
    }
    let row = |letter: &str, temperature: Value, taken: Value| {
        (same(letter), vec![pen.number(temperature, TEMPERATURE), pen.number(taken, HEAT)])
    };
    let nothing = Value::of(coil.to_dry.kind, 0.0);
    let places = [&words.coil_inlet, &words.last_drop, &words.at_bulb];
    let rows =
        vec![row("A", coil.inlet, nothing), row("B", coil.boiling, coil.to_dry), row("C", coil.line, coil.to_bulb)];
    let share = Value::from_unit(100.0 * (1.0 - coil.to_dry.si / coil.to_bulb.si), &unit::PERCENT, pen.air);
    let percent: Shown = ((&unit::PERCENT, 0), (&unit::PERCENT, 0));
    let say = told(
        &words.coil_say,
        &[
            ("refrigerant", same(&coil.refrigerant)),
            ("pressure", pen.show(coil.pressure)),
            ("inlet", pen.show(coil.inlet)),
            ("dew", pen.show(coil.boiling)),
            ("line", pen.show(coil.line)),
            ("superheat", pen.show(coil.superheat)),
            ("share", pen.show_in(share, percent)),
        ],
    );
    Sheet {
        canvas,
        key: ["A", "B", "C"].into_iter().zip(places.into_iter().cloned()).collect(),
        say,
        table: SetData {
            columns: vec![
                SetColumn { name: words.place.clone(), unit: Both::default() },
                pen.column(&words.temperature, TEMPERATURE),
                pen.column(&words.heat_taken_up, HEAT),
            ],
            rows,
        },
    }
}
