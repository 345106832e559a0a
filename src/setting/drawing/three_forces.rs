//! The three forces: a valve's head in section, and beside it the forces to scale, laid end to end. Where the upward
//! ones come back to where the downward one began, the valve is in balance.

use super::arrow::force;
use super::canvas::{Canvas, Ink};
use super::geometry::{Path, Point};
use super::hatching::Hatch;
use super::lettering::{Anchor, Style};
use super::{Pen, SetColumn, SetData, Sheet, Shown, same, told};
use crate::proofing::drawing::ThreeForces;
use crate::quantity::{Value, unit};
use crate::setting::print::Both;

const HEIGHT: f64 = 350.0;
/// Between these the longest forces reach.
const TOP: f64 = 30.0;
const FOOT: f64 = 330.0;
/// Where the downward and the upward forces stand.
const DOWN: f64 = 216.0;
const UP: f64 = 268.0;
/// A gauge pressure below this shows no force to look at; the forces are then drawn above a vacuum.
const LEAST_GAUGE: f64 = 30e3;
/// Least distance of the letterings beside the upward forces.
const APART: f64 = 24.0;
/// Where the topmost of them may stand.
const HIGHEST: f64 = 11.0;
/// How far bulb and closing forces may be apart and still be called even.
const EVEN: f64 = 0.005;

/// Draws it.
pub(super) fn draw(forces: &ThreeForces, pen: &Pen<'_>) -> Sheet {
    let gauge = forces.evaporator.si - pen.air.as_pascal() >= LEAST_GAUGE;
    let against = if gauge { pen.air.as_pascal() } else { 0.0 };
    let pressure: Shown =
        if gauge { ((&unit::PSIG, 1), (&unit::BARG, 2)) } else { ((&unit::PSIA, 1), (&unit::BARA, 2)) };
    let share: Shown = ((&unit::PSI, 1), (&unit::BAR_OF_DIFFERENCE, 2));
    let (bulb, evaporator, spring) =
        (forces.bulb.si - against, forces.evaporator.si - against, forces.spring.si.max(0.0));
    let lost = forces.lost.map_or(0.0, |lost| lost.si.max(0.0));
    let closing = evaporator + lost + spring;
    let per_pascal = (FOOT - TOP) / bulb.max(closing);

    let mut canvas = Canvas::new(HEIGHT);
    section(&mut canvas);
    let (fall, lift, push) = (bulb * per_pascal, evaporator * per_pascal, spring * per_pascal);
    let loss = lost * per_pascal;
    let from = FOOT - fall;
    canvas.grid(Ink::Axis, [(DOWN - 26.0, from), (UP + 26.0, from)]);
    canvas.grid(Ink::Axis, [(DOWN - 26.0, FOOT), (UP + 26.0, FOOT)]);
    force(&mut canvas, (DOWN, from), fall, false, Hatch::BulbForce, Ink::Copper);
    force(&mut canvas, (UP, FOOT), lift, true, Hatch::EvaporatorForce, Ink::Suction);
    if forces.lost.is_some() {
        force(&mut canvas, (UP, FOOT - lift), loss, true, Hatch::Steel, Ink::Outline);
    }
    force(&mut canvas, (UP, FOOT - lift - loss), push, true, Hatch::SpringForce, Ink::Verdigris);

    let bulb_shown = pen.show_in(forces.bulb, pressure);
    let evaporator_shown = pen.show_in(forces.evaporator, pressure);
    let spring_shown = pen.show_in(forces.spring, share);
    let mut beside = |key: &'static str, figure: &Both, x: f64, y: f64| {
        canvas.letter(same(key), Style::Key, Anchor::Start, (x, y + 6.0));
        canvas.letter(figure.clone(), Style::Plain, Anchor::Start, (x + 19.0, y + 5.0));
    };
    // The letterings keep off each other, however short an arrow is, and the topmost keeps on the sheet.
    let evaporator_at = FOOT - lift / 2.0;
    let lost_at = forces.lost.map(|_| (FOOT - lift - loss / 2.0).min(evaporator_at - APART));
    let spring_at = (FOOT - lift - loss - push / 2.0).min(lost_at.unwrap_or(evaporator_at) - APART).max(HIGHEST);
    if let (Some(lost), Some(lost_at)) = (forces.lost, lost_at) {
        beside("D", &pen.show_in(lost, share), UP + 24.0, lost_at.max(spring_at + APART));
    }
    beside("B", &evaporator_shown, UP + 24.0, evaporator_at);
    beside("C", &spring_shown, UP + 24.0, spring_at);
    // Between the letters of the section, which reach out toward it.
    let bulb_at = (from + fall / 2.0).clamp(150.0, 236.0);
    canvas.letter(same("A"), Style::Key, Anchor::End, (DOWN - 22.0, bulb_at - 8.0));
    canvas.letter(bulb_shown.clone(), Style::Plain, Anchor::End, (DOWN - 22.0, bulb_at + 14.0));

    let words = &pen.words.drawing;
    let off = (bulb - closing) / bulb.max(closing);
    let even = forces.in_balance || off.abs() < EVEN;
    let verdict = match (even, off > 0.0) {
        (true, _) => &words.forces_balance,
        (false, true) => &words.forces_open,
        (false, false) => &words.forces_close,
    };
    if !even {
        let word = if off > 0.0 { &words.opens } else { &words.closes };
        let stack = FOOT - lift - loss - push;
        canvas.line(Ink::Hidden, [(UP, stack), (UP, from)]);
        canvas.place(same(word), Style::Italic, (UP, (stack + from) / 2.0), canvas.sheet());
    }
    let sentence = if forces.lost.is_some() { &words.forces_say_lost } else { &words.forces_say };
    let say = told(
        sentence,
        &[
            ("refrigerant", same(&forces.refrigerant)),
            ("bulb", bulb_shown),
            ("evaporator", evaporator_shown),
            ("spring", spring_shown),
            ("lost", forces.lost.map_or_else(Both::default, |lost| pen.show_in(lost, share))),
            ("superheat", pen.show(forces.superheat)),
            ("verdict", same(verdict)),
        ],
    );
    let row = |name: &str, direction: &str, value: Value, shown: Shown| {
        (same(name), vec![same(direction), pen.show_in(value, shown)])
    };
    let mut rows = vec![
        row(&words.bulb, &words.opens, forces.bulb, pressure),
        row(&words.evaporator, &words.closes, forces.evaporator, pressure),
        row(&words.spring, &words.closes, forces.spring, share),
    ];
    if let Some(lost) = forces.lost {
        rows.insert(2, row(&words.lost_in_coil, &words.closes, lost, share));
    } else if !forces.in_balance {
        rows.push(row(&words.spring_for_balance, "", forces.left, share));
    }
    let heads = [&words.force, &words.pushes, &words.strength];
    let mut key = vec![("A", words.bulb.clone()), ("B", words.evaporator.clone()), ("C", words.spring.clone())];
    if forces.lost.is_some() {
        key.push(("D", words.lost_in_coil.clone()));
    }
    Sheet {
        canvas,
        key,
        say,
        table: SetData {
            columns: heads.into_iter().map(|name| SetColumn { name: name.clone(), unit: Both::default() }).collect(),
            rows,
        },
    }
}

/// The head of a valve, cut open, down to the spring.
fn section(canvas: &mut Canvas) {
    const MID: f64 = 70.0;
    let mirrored = |points: &[Point]| -> Vec<Point> { points.iter().map(|(x, y)| (2.0 * MID - x, *y)).collect() };
    let both = |canvas: &mut Canvas, ink: Ink, points: Vec<Point>| {
        canvas.line(ink, mirrored(&points));
        canvas.line(ink, points);
    };
    // The body's walls, in brass, down to the spring's foot.
    let wall = vec![
        (36.0, 118.0),
        (36.0, 150.0),
        (22.0, 158.0),
        (22.0, 196.0),
        (36.0, 204.0),
        (36.0, 308.0),
        (48.0, 308.0),
        (48.0, 206.0),
        (62.0, 206.0),
        (62.0, 196.0),
        (56.0, 190.0),
        (56.0, 118.0),
    ];
    canvas.area(Hatch::Brass, Path::closed(wall.clone()));
    canvas.area(Hatch::Brass, Path::closed(mirrored(&wall)));
    both(canvas, Ink::Outline, wall[..6].to_vec());
    both(canvas, Ink::Edge, wall[5..].to_vec());
    // Power element: a dome, the diaphragm clamped in its rim, the space below.
    let dome = Path::bend((20.0, 92.0), (24.0, 60.0), (MID - 4.0, 56.0));
    let bowl = Path::bend((20.0, 98.0), (26.0, 118.0), (56.0, 118.0));
    let mut space = dome.clone();
    space.extend(mirrored(&dome).into_iter().rev());
    canvas.area(Hatch::Vapor, Path::closed(space));
    both(canvas, Ink::Outline, dome);
    both(canvas, Ink::Outline, bowl);
    both(canvas, Ink::Outline, vec![(20.0, 92.0), (8.0, 92.0), (8.0, 98.0), (20.0, 98.0)]);
    let mut sheet = vec![(10.0, 95.0), (22.0, 95.0)];
    for i in 0..6 {
        let x = 22.0 + f64::from(i) * 16.0;
        let crest = if i % 2 == 0 { 90.0 } else { 100.0 };
        sheet.extend(Path::bend((x, 95.0), (x + 8.0, crest), (x + 16.0, 95.0)).into_iter().skip(1));
    }
    sheet.push((2.0 * MID - 10.0, 95.0));
    canvas.line(Ink::Outline, sheet);
    // Capillary to the bulb.
    for side in [-1.0, 1.0] {
        let tube = [(MID + side * 4.0, 56.0), (MID + side * 4.0, 34.0)];
        let over = Path::bend(tube[1], (MID + side * 4.0, 22.0 + side * 4.0), (MID + 18.0, 22.0 + side * 4.0));
        canvas.line(Ink::Edge, tube);
        canvas.line(Ink::Edge, over);
    }
    let case = Path::closed(vec![(MID + 18.0, 12.0), (128.0, 12.0), (128.0, 32.0), (MID + 18.0, 32.0)]);
    canvas.area(Hatch::Liquid, case.clone());
    canvas.line(Ink::Outline, case);
    // Push rod, pin and seat, spring and its foot.
    let rod = vec![(67.0, 98.0), (73.0, 98.0), (73.0, 208.0), (67.0, 208.0)];
    canvas.area(Hatch::Steel, Path::closed(rod.clone()));
    canvas.line(Ink::Edge, Path::closed(rod));
    let pin = vec![(67.0, 206.0), (73.0, 206.0), (82.0, 226.0), (58.0, 226.0)];
    canvas.area(Hatch::Steel, Path::closed(pin.clone()));
    canvas.line(Ink::Outline, Path::closed(pin));
    let cup = vec![(54.0, 226.0), (86.0, 226.0), (86.0, 232.0), (54.0, 232.0)];
    canvas.line(Ink::Edge, Path::closed(cup));
    let coils: Vec<Point> =
        (0..=10).map(|i| (if i % 2 == 0 { 55.0 } else { 85.0 }, 233.0 + f64::from(i) * 5.8)).collect();
    canvas.line(Ink::Verdigris, coils);
    canvas.line(Ink::Edge, Path::closed(vec![(52.0, 292.0), (88.0, 292.0), (88.0, 299.0), (52.0, 299.0)]));
    canvas.line(Ink::Edge, vec![(64.0, 299.0), (64.0, 326.0), (76.0, 326.0), (76.0, 299.0)]);
    canvas.line(Ink::Outline, [(48.0, 308.0), (64.0, 308.0)]);
    canvas.line(Ink::Outline, [(76.0, 308.0), (92.0, 308.0)]);
    // Which way each pushes.
    for x in [36.0, 104.0] {
        for (ink, tail, tip) in [(Ink::Copper, (x, 68.0), (x, 86.0)), (Ink::Suction, (x, 116.0), (x, 102.0))] {
            canvas.line(ink, [tail, tip]);
            super::arrow::head(canvas, ink, tail, tip);
        }
    }
    canvas.letter(same("A"), Style::Key, Anchor::Middle, (MID, 81.0));
    canvas.letter(same("B"), Style::Key, Anchor::Start, (124.0, 122.0));
    canvas.grid(Ink::Leader, [(122.0, 117.0), (92.0, 111.0)]);
    canvas.letter(same("C"), Style::Key, Anchor::Start, (124.0, 270.0));
    canvas.grid(Ink::Leader, [(122.0, 264.0), (82.0, 262.0)]);
}
