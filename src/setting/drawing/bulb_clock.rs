//! The bulb's place on the clock: lines of several sizes seen along the tube, with their bulbs, true to one scale.

use super::canvas::{Canvas, Ink, WIDTH};
use super::geometry::{Path, Point, on_clock};
use super::hatching::Hatch;
use super::lettering::{Anchor, Style};
use super::{Pen, SetColumn, SetData, Sheet, same, told};
use crate::proofing::drawing::{BulbClock, BulbLine, Hours};
use crate::quantity::{Pressure, System};
use crate::setting::print::Both;

/// Room for the hours around a line and its bulbs, and for its size below it.
const HOURS: f64 = 30.0;
const SIZE: f64 = 14.0;
/// Least radius of a face: on a smaller one two neighboring hours would be lettered over one another.
const LEAST_FACE: f64 = 26.0;
/// From the outermost of the bulbs to the face.
const TO_FACE: f64 = 4.0;
const GAP: f64 = 10.0;
/// What a drawing may well be high, and the most it may.
const LOW: f64 = 250.0;
const HIGHEST: f64 = 430.0;
/// Radii in units of the sheet that no drawing needs to go past.
const LARGEST: f64 = 5200.0;

/// Where each line stands, on which scale, and how high it all is.
struct Layout {
    scale: f64,
    centers: Vec<Point>,
    height: f64,
}

/// Draws it.
pub(super) fn draw(clock: &BulbClock, pen: &Pen<'_>) -> Sheet {
    let words = &pen.words.drawing;
    let bulb = clock.bulb.unit.to_si(clock.bulb.number, Pressure::STANDARD_ATMOSPHERE);
    let layout = layout(clock, bulb);
    let mut canvas = Canvas::new(layout.height);
    for (line, center) in clock.lines.iter().zip(&layout.centers) {
        draw_line(&mut canvas, line, *center, layout.scale, bulb, pen);
    }
    let size = |line: &BulbLine| in_both(&line.size, pen.air);
    let places = |hours: &Option<Hours>| hours.as_ref().map_or_else(String::new, |hours| hours.words.clone());
    let rows: Vec<(Both, Vec<Both>)> = clock
        .lines
        .iter()
        .map(|line| (size(line), vec![same(&line.usual.words), same(&places(&line.some_makers))]))
        .collect();
    let each = clock.lines.iter().map(|line| {
        let sentence = if line.some_makers.is_some() { &words.bulb_line_or } else { &words.bulb_line };
        told(
            sentence,
            &[("size", size(line)), ("usual", same(&line.usual.words)), ("some", same(&places(&line.some_makers)))],
        )
    });
    let mut say = told(&words.bulb_say, &[("bulb", in_both(&clock.bulb, pen.air))]);
    for sentence in each {
        say = super::then(say, &sentence);
    }
    let mut columns = vec![&words.line_outside, &words.bulb_at];
    let some = clock.lines.iter().any(|line| line.some_makers.is_some());
    if some {
        columns.push(&words.some_makers);
    }
    let rows = rows.into_iter().map(|(head, mut cells)| {
        cells.truncate(columns.len() - 1);
        (head, cells)
    });
    let rows = rows.collect();
    Sheet {
        canvas,
        key: Vec::new(),
        say,
        table: SetData {
            columns: columns.into_iter().map(|name| SetColumn { name: name.clone(), unit: Both::default() }).collect(),
            rows,
        },
    }
}

fn in_both(written: &crate::quantity::Written, air: Pressure) -> Both {
    Both { us: written.shown_in(System::Us, air), si: written.shown_in(System::Si, air) }
}

/// The largest scale on which all lines find room, one after another in rows.
fn layout(clock: &BulbClock, bulb: f64) -> Layout {
    // A lower drawing is the better one where it need not be much smaller for that.
    let (low, high) = (layout_within(clock, bulb, LOW), layout_within(clock, bulb, HIGHEST));
    if low.scale > 0.75 * high.scale { low } else { high }
}

fn layout_within(clock: &BulbClock, bulb: f64, highest: f64) -> Layout {
    let mut scale = LARGEST;
    loop {
        let least = LEAST_FACE - TO_FACE;
        let bulbs = |line: &BulbLine| ((line.outside.si / 2.0 + bulb) * scale).max(least);
        let reach: Vec<f64> = clock.lines.iter().map(|line| bulbs(line) + HOURS).collect();
        let mut rows: Vec<Vec<usize>> = vec![Vec::new()];
        let mut used = 0.0;
        for (i, half) in reach.iter().enumerate() {
            let wide = 2.0 * half + GAP;
            if used + wide > WIDTH && used > 0.0 {
                rows.push(Vec::new());
                used = 0.0;
            }
            used += wide;
            if let Some(row) = rows.last_mut() {
                row.push(i);
            }
        }
        let tallest = |row: &[usize]| row.iter().map(|i| reach[*i]).fold(0.0, f64::max);
        let height: f64 = rows.iter().map(|row| 2.0 * tallest(row) + SIZE).sum();
        let widest = reach.iter().map(|half| 2.0 * half + GAP).fold(0.0, f64::max);
        if (height > highest || widest > WIDTH) && scale > 60.0 {
            scale *= 0.97;
            continue;
        }
        let mut centers = vec![(0.0, 0.0); reach.len()];
        let mut top = 0.0;
        for row in &rows {
            let half = tallest(row);
            let wide: f64 = row.iter().map(|i| 2.0 * reach[*i] + GAP).sum();
            // What is left over is shared out between them.
            let spare = (WIDTH - wide) / (row.len() as f64 + 1.0);
            let mut x = spare;
            for i in row {
                x += reach[*i] + GAP / 2.0;
                centers[*i] = (x, top + half);
                x += reach[*i] + GAP / 2.0 + spare;
            }
            top += 2.0 * half + SIZE;
        }
        return Layout { scale, centers, height: height.ceil() };
    }
}

fn draw_line(canvas: &mut Canvas, line: &BulbLine, center: Point, scale: f64, bulb: f64, pen: &Pen<'_>) {
    let outer = line.outside.si / 2.0 * scale;
    let bore = outer - (line.wall.si * scale).max(2.5);
    let round = bulb / 2.0 * scale;
    let hour = |hour: f64| hour / 12.0;
    // Wall, vapor and the oil that lies along the bottom.
    let mut wall = Path::circle(center, outer);
    wall.hole(Path::circle(center, bore));
    canvas.area(Hatch::Copper, wall);
    let spread = 0.12;
    canvas.area(Hatch::Liquid, Path::arc(center, bore, 0.5 - spread, 0.5 + spread).shut());
    let (left, right) = (on_clock(center, bore, 0.5 - spread), on_clock(center, bore, 0.5 + spread));
    canvas.line(Ink::Edge, [left, right]);
    canvas.line(Ink::Outline, Path::circle(center, outer));
    canvas.line(Ink::Edge, Path::circle(center, bore));
    // The face: ticks outside the bulbs.
    let face = (outer + 2.0 * round + TO_FACE).max(LEAST_FACE);
    canvas.grid(Ink::Fine, Path::circle(center, face));
    for i in 0..12 {
        let turn = f64::from(i) / 12.0;
        let long = if i % 3 == 0 { 7.0 } else { 4.0 };
        canvas.grid(Ink::Edge, [on_clock(center, face, turn), on_clock(center, face + long, turn)]);
    }
    canvas.grid(Ink::Axis, [(center.0, center.1 - outer - 4.0), (center.0, center.1 + outer + 4.0)]);
    canvas.grid(Ink::Axis, [(center.0 - outer - 4.0, center.1), (center.0 + outer + 4.0, center.1)]);
    let seat = outer + round + 0.9;
    // Never at six.
    let six = on_clock(center, seat, 0.5);
    let arm = (round * 0.7).max(5.0);
    canvas.line(Ink::Edge, [(six.0 - arm, six.1 - arm), (six.0 + arm, six.1 + arm)]);
    canvas.line(Ink::Edge, [(six.0 + arm, six.1 - arm), (six.0 - arm, six.1 + arm)]);
    for (from, to) in line.some_makers.iter().flat_map(|hours| &hours.places) {
        let at = on_clock(center, seat, hour((from + to) / 2.0));
        canvas.bare(Path::circle(at, round));
        canvas.line(Ink::Hidden, Path::circle(at, round));
    }
    for (from, to) in &line.usual.places {
        let at = on_clock(center, seat, hour((from + to) / 2.0));
        strap(canvas, center, outer, at, round);
        canvas.bare(Path::circle(at, round));
        canvas.area(Hatch::Liquid, Path::circle(at, round));
        canvas.line(Ink::Outline, Path::circle(at, round));
    }
    // The hours that are spoken of, and the quarters, each lettered once; not six, which is crossed out.
    let places = line.usual.places.iter().chain(line.some_makers.iter().flat_map(|hours| &hours.places));
    let mut hours: Vec<f64> = places.flat_map(|(from, to)| [*from, *to]).chain([12.0, 3.0, 9.0]).collect();
    hours.sort_by(f64::total_cmp);
    hours.dedup();
    for at in hours {
        let text = crate::quantity::number_text(at, 0);
        let place = on_clock(center, face + 17.0, hour(at));
        canvas.letter(same(&text), Style::Plain, Anchor::Middle, (place.0, place.1 + 5.2));
    }
    let size = in_both(&line.size, pen.air);
    canvas.letter(size, Style::Italic, Anchor::Middle, (center.0, center.1 + face + 35.0));
}

/// The strap: around the bulb and, along tangents, to the line.
fn strap(canvas: &mut Canvas, center: Point, outer: f64, at: Point, round: f64) {
    let (dx, dy) = (at.0 - center.0, at.1 - center.1);
    let away = dx.hypot(dy);
    let turn = dx.atan2(-dy) / std::f64::consts::TAU;
    // Outer tangents of two circles touch both at the same angle off the line between their centers.
    let lean = ((outer - round) / away).clamp(-1.0, 1.0).acos() / std::f64::consts::TAU;
    for side in [-1.0, 1.0] {
        let touch = turn + side * lean;
        canvas.line(Ink::Copper, [on_clock(center, outer + 1.6, touch), on_clock(at, round + 1.6, touch)]);
    }
    canvas.line(Ink::Copper, Path::arc(at, round + 1.6, turn - lean, turn + lean));
}
