//! A chart: a frame with round numbers in both systems of units, US at the left and below, SI at the right and above,
//! and a fine grid for the US ones.

use super::canvas::{Canvas, Ink, WIDTH};
use super::geometry::{Point, Rect};
use super::lettering::{Anchor, Style, width};
use super::scale::{Law, Scale, Tick};
use crate::quantity::{Pressure, Unit};
use crate::setting::print::Both;

/// What is laid along one side: its name, its ends in SI, and its units.
#[derive(Clone, Debug)]
pub(super) struct Axis {
    pub(super) name: String,
    pub(super) law: Law,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) us: &'static Unit,
    pub(super) si: &'static Unit,
}

/// A chart's frame, with its scales.
#[derive(Clone, Copy, Debug)]
pub(super) struct Chart {
    pub(super) x: Scale,
    pub(super) y: Scale,
    pub(super) frame: Rect,
}

const TICK: f64 = 4.0;
/// Least distance of numbers up the side.
const APART: f64 = 25.0;
/// From the frame's lower edge to the line its numbers are written on.
const NUMBERS: f64 = 19.5;
const HEAD: f64 = 46.0;
const FOOT: f64 = 44.0;

impl Chart {
    /// Draws the frame of a chart over all of `canvas`, which is `height` high.
    pub(super) fn draw(canvas: &mut Canvas, height: f64, across: &Axis, up: &Axis, air: Pressure) -> Self {
        // Without numbers along the head there is less to leave room for.
        let head = if across.us == across.si { HEAD - 15.0 } else { HEAD };
        let y = Scale { law: up.law, from: up.from, to: up.to, start: height - FOOT, end: head };
        let both_sides = up.us != up.si;
        let left_ticks = y.ticks(up.us, air, APART);
        let right_ticks = if both_sides { y.ticks(up.si, air, APART) } else { Vec::new() };
        let room = |ticks: &[Tick]| ticks.iter().map(|tick| width(&tick.text, Style::Small)).fold(0.0, f64::max);
        let left = room(&left_ticks) + TICK + 5.0;
        let right = WIDTH - if both_sides { room(&right_ticks) + TICK + 5.0 } else { 12.0 };
        let x = Scale { law: across.law, from: across.from, to: across.to, start: left, end: right };
        let chart = Self { x, y, frame: Rect { left, top: head, right, bottom: height - FOOT } };
        chart.rule(canvas, &left_ticks, &right_ticks, across, air);
        chart.name(canvas, across, up);
        chart
    }

    fn rule(&self, canvas: &mut Canvas, left: &[Tick], right: &[Tick], across: &Axis, air: Pressure) {
        let Rect { left: x0, top, right: x1, bottom } = self.frame;
        canvas.grid(Ink::Edge, self.frame.outline());
        let plain = |text: &str| Both { us: text.to_owned(), si: text.to_owned() };
        for tick in left {
            if tick.at > top + 1.0 && tick.at < bottom - 1.0 {
                canvas.grid(Ink::Fine, [(x0, tick.at), (x1, tick.at)]);
            }
            canvas.grid(Ink::Edge, [(x0 - TICK, tick.at), (x0, tick.at)]);
            canvas.letter(plain(&tick.text), Style::Small, Anchor::End, (x0 - TICK - 2.5, tick.at + 4.2));
        }
        for tick in right {
            canvas.grid(Ink::Edge, [(x1, tick.at), (x1 + TICK, tick.at)]);
            canvas.letter(plain(&tick.text), Style::Small, Anchor::Start, (x1 + TICK + 2.5, tick.at + 4.2));
        }
        for tick in self.along(across.us, air) {
            if tick.at > x0 + 1.0 && tick.at < x1 - 1.0 {
                canvas.grid(Ink::Fine, [(tick.at, top), (tick.at, bottom)]);
            }
            canvas.grid(Ink::Edge, [(tick.at, bottom), (tick.at, bottom + TICK)]);
            canvas.letter(plain(&tick.text), Style::Small, Anchor::Middle, (tick.at, bottom + NUMBERS));
        }
        if across.us != across.si {
            for tick in self.along(across.si, air) {
                canvas.grid(Ink::Edge, [(tick.at, top - TICK), (tick.at, top)]);
                canvas.letter(plain(&tick.text), Style::Small, Anchor::Middle, (tick.at, top - TICK - 8.0));
            }
        }
    }

    /// Round numbers along the foot or the head, as near as their lettering lets them.
    fn along(&self, unit: &Unit, air: Pressure) -> Vec<Tick> {
        let mut room = 30.0;
        loop {
            let ticks = self.x.ticks(unit, air, room);
            let widest = ticks.iter().map(|tick| width(&tick.text, Style::Small)).fold(0.0, f64::max);
            if widest + 8.0 <= room || room > 200.0 {
                // A number at the very end may not hang over the sheet.
                let fits = |tick: &Tick| tick.at - widest / 2.0 > 1.0 && tick.at + widest / 2.0 < WIDTH - 1.0;
                return ticks.into_iter().filter(fits).collect();
            }
            room = widest + 8.0;
        }
    }

    /// Units at the ends, and what goes along the foot.
    fn name(&self, canvas: &mut Canvas, across: &Axis, up: &Axis) {
        let plain = |text: String| Both { us: text.clone(), si: text };
        let named = |unit: &Unit| match (across.name.is_empty(), unit.symbol.is_empty()) {
            (true, _) => unit.symbol.to_owned(),
            (_, true) => across.name.clone(),
            _ => format!("{}, {}", across.name, unit.symbol),
        };
        let Rect { left, right, bottom, .. } = self.frame;
        let middle = (left + right) / 2.0;
        let (head, foot) = (HEAD - 27.5, bottom + NUMBERS + 18.0);
        canvas.letter(plain(named(across.us)), Style::Italic, Anchor::Middle, (middle, foot));
        let upper = if up.name.is_empty() { up.us.symbol.to_owned() } else { format!("{}, {}", up.name, up.us.symbol) };
        canvas.letter(plain(upper), Style::Italic, Anchor::Start, (2.0, head));
        if across.us != across.si {
            canvas.letter(plain(across.si.symbol.to_owned()), Style::Italic, Anchor::Middle, (middle.max(200.0), head));
        }
        if up.us != up.si {
            canvas.letter(plain(up.si.symbol.to_owned()), Style::Italic, Anchor::End, (WIDTH - 2.0, head));
        }
    }

    /// Places along a level, from `share` of the way across to the right and then to the left.
    pub(super) fn along_level(&self, si: f64, share: f64) -> Vec<Point> {
        let (left, right) = (self.frame.left, self.frame.right);
        let shares = (0..40).flat_map(|i| [share + f64::from(i) * 0.02, share - f64::from(i) * 0.02]);
        let on = shares.filter(|share| (0.0..=1.0).contains(share));
        on.map(|share| (left + (right - left) * share, self.y.at(si))).collect()
    }

    /// The place of two values.
    pub(super) fn at(&self, x: f64, y: f64) -> Point {
        (self.x.at(x), self.y.at(y))
    }

    /// The first run of `points` that lies in the frame, cut off where it leaves it.
    pub(super) fn clipped(&self, points: &[Point]) -> Vec<Point> {
        let Some((from, to)) = points.windows(2).find_map(|pair| self.seen(pair[0], pair[1])) else {
            return Vec::new();
        };
        let mut run = vec![from, to];
        for pair in points.windows(2) {
            if let Some((from, to)) = self.seen(pair[0], pair[1])
                && run.last() == Some(&from)
            {
                run.push(to);
            }
        }
        run
    }

    /// The part of a straight way that lies in the frame.
    fn seen(&self, a: Point, b: Point) -> Option<(Point, Point)> {
        // A hair wider, since lines along the frame itself are in it.
        let (from, to) = self.frame.grown(1e-6).stretch(a, b)?;
        let at = |t: f64| match t {
            0.0 => a,
            1.0 => b,
            t => (a.0 + (b.0 - a.0) * t, a.1 + (b.1 - a.1) * t),
        };
        Some((at(from), at(to)))
    }

    /// Where lettering inside the frame may stand.
    pub(super) fn inside(&self) -> Rect {
        self.frame.grown(-3.0)
    }
}
