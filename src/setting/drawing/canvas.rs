//! The sheet a drawing is made on: lines of each weight, hatched areas, lettering, and the SVG they come to.
//!
//! Nothing is drawn through lettering. Lettering that may move is placed where no line runs ([`Canvas::place`]); where a
//! line still meets lettering it is broken there, as an engraver would. So it holds for every drawing, whatever its
//! readings, and [`Canvas::faults`] proves it to the tests.

use super::geometry::{Path, Point, Rect, broken};
use super::hatching::Hatch;
use super::lettering::{Anchor, Letters, Style};
use crate::setting::print::{Both, escape};
use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write as _;

/// Width of every drawing, in its own units.
pub(super) const WIDTH: f64 = 400.0;
/// How far a line keeps from lettering.
const CLEAR: f64 = 1.5;

/// What a line is drawn with, by its class in the theme.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Ink {
    /// Grid and construction.
    Fine,
    /// Edges.
    Edge,
    /// Long and short dashes: an axis of symmetry, a level.
    Axis,
    /// Dashes: what is hidden or may be.
    Hidden,
    /// From lettering to what it means.
    Leader,
    /// Outlines.
    Outline,
    /// Copper: the bulb, or what is reckoned.
    Copper,
    /// Verdigris: the spring.
    Verdigris,
    /// Suction blue.
    Suction,
    /// Liquid red.
    Liquid,
}

impl Ink {
    const fn class(self) -> &'static str {
        match self {
            Self::Fine => "l3",
            Self::Edge => "l2",
            Self::Axis => "axis",
            Self::Hidden => "hid",
            Self::Leader => "lead",
            Self::Outline => "l1",
            Self::Copper => "cu",
            Self::Verdigris => "ve",
            Self::Suction => "su",
            Self::Liquid => "li",
        }
    }
}

/// A drawing as it grows. `y` goes down.
#[derive(Debug)]
pub(super) struct Canvas {
    height: f64,
    areas: Vec<(Option<Hatch>, Path)>,
    /// Lines that are broken for lettering without loss.
    grid: Vec<(Ink, Path)>,
    lines: Vec<(Ink, Path)>,
    dots: Vec<(Point, f64, bool)>,
    letters: Vec<Letters>,
    leaders: Vec<(Point, Point)>,
}

impl Canvas {
    /// A blank one of that height.
    pub(super) fn new(height: f64) -> Self {
        Self {
            height,
            areas: Vec::new(),
            grid: Vec::new(),
            lines: Vec::new(),
            dots: Vec::new(),
            letters: Vec::new(),
            leaders: Vec::new(),
        }
    }

    /// All of it, a hair inside its edge.
    pub(super) fn sheet(&self) -> Rect {
        Rect { left: 1.0, top: 1.0, right: WIDTH - 1.0, bottom: self.height - 1.0 }
    }

    /// A line that must be seen whole.
    pub(super) fn line(&mut self, ink: Ink, path: impl Into<Path>) {
        self.lines.push((ink, path.into()));
    }

    /// A line of a grid or a construction, which may be broken.
    pub(super) fn grid(&mut self, ink: Ink, path: impl Into<Path>) {
        self.grid.push((ink, path.into()));
    }

    /// A level or an upright that may be broken. A line of the grid that lies under it gives way, or its dashes could not be
    /// seen.
    pub(super) fn level(&mut self, ink: Ink, from: Point, to: Point) {
        let path = Path::from([from, to]);
        let own = path.bounds().grown(0.6);
        self.grid.retain(|(other, line)| *other != Ink::Fine || !line.bounds().inside(own));
        self.grid.push((ink, path));
    }

    /// A hatched area, without its outline.
    pub(super) fn area(&mut self, hatch: Hatch, path: impl Into<Path>) {
        self.areas.push((Some(hatch), path.into()));
    }

    /// An area of bare paper, which covers areas drawn before.
    pub(super) fn bare(&mut self, path: impl Into<Path>) {
        self.areas.push((None, path.into()));
    }

    /// A point: black, or a ring of bare paper.
    pub(super) fn dot(&mut self, at: Point, radius: f64, black: bool) {
        self.dots.push((at, radius, black));
    }

    /// Lettering at a fixed place: `at` is where its line of writing begins, is centered or ends.
    pub(super) fn letter(&mut self, text: Both, style: Style, anchor: Anchor, at: Point) {
        if !text.us.is_empty() {
            self.letters.push(Letters::new(text, style, anchor, at));
        }
    }

    /// Lettering beside `at`, inside `within`, where it is clear of everything drawn so far; farther off it gets a leader.
    /// Where there is no room at all it is left out: the table beside the drawing has it. Whether it was put.
    pub(super) fn place(&mut self, text: Both, style: Style, at: Point, within: Rect) -> bool {
        if text.us.is_empty() {
            return false;
        }
        const REACHES: [f64; 9] = [7.0, 11.0, 16.0, 24.0, 34.0, 46.0, 62.0, 84.0, 110.0];
        const WAYS: u32 = 16;
        /// From here on a leader is needed to see what is meant.
        const FAR: f64 = 14.0;
        let mut best: Option<(f64, Letters, f64)> = None;
        for reach in REACHES {
            for way in 0..WAYS {
                let turn = std::f64::consts::TAU * f64::from(way) / f64::from(WAYS) - std::f64::consts::FRAC_PI_4;
                let letters = Letters::beside(text.clone(), style, at, turn, reach);
                if let Some(cost) = self.cost(&letters, at, within, reach > FAR) {
                    let cost = cost + reach / 20.0;
                    if best.as_ref().is_none_or(|(least, ..)| cost < *least) {
                        best = Some((cost, letters, reach));
                    }
                }
            }
        }
        let Some((_, letters, reach)) = best else { return false };
        if reach > FAR {
            self.leaders.push((at, letters.frame().grown(1.0).nearest(at)));
        }
        self.letters.push(letters);
        true
    }

    /// Lettering set into a line that may be broken for it, at the first of `places` where there is room; if there is
    /// none, beside it.
    pub(super) fn set_in(&mut self, text: Both, style: Style, places: &[Point], within: Rect) -> bool {
        for at in places {
            let letters = Letters::new(text.clone(), style, Anchor::Middle, (at.0, at.1 + 4.6));
            let frame = letters.frame();
            let free = frame.inside(within)
                && !self.letters.iter().any(|other| other.frame().meets(frame.grown(3.0)))
                && !self.dots.iter().any(|(dot, radius, _)| Rect::around(*dot, *radius + 1.0).meets(frame))
                && !self.lines.iter().any(|(_, path)| path.meets(frame.grown(2.0)))
                && !self.leaders.iter().any(|(from, to)| frame.crossed(*from, *to));
            if free {
                self.letters.push(letters);
                return true;
            }
        }
        places.first().is_some_and(|at| self.place(text, style, *at, within))
    }

    /// A word over a region, centered on `at` or near it, without a leader; left out where there is no room.
    pub(super) fn name(&mut self, text: &str, at: Point, within: Rect) {
        let mut best: Option<(f64, Letters)> = None;
        for (i, j) in (-8..=8i32).flat_map(|i| (-6..=6i32).map(move |j| (i, j))) {
            let (dx, dy) = (f64::from(i) * 14.0, f64::from(j) * 11.0);
            let text = Both { us: text.to_owned(), si: text.to_owned() };
            let letters = Letters::new(text, Style::Italic, Anchor::Middle, (at.0 + dx, at.1 + dy));
            if let Some(cost) = self.cost(&letters, at, within, false) {
                // Past a line is another region.
                let over = self.lines.iter().filter(|(_, path)| path.crosses(at, (at.0 + dx, at.1 + dy))).count();
                let cost = cost + dx.hypot(dy) / 30.0 + 40.0 * over as f64;
                if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                    best = Some((cost, letters));
                }
            }
        }
        self.letters.extend(best.map(|(_, letters)| letters));
    }

    /// What it costs to put lettering there; none where it can't be.
    fn cost(&self, letters: &Letters, at: Point, within: Rect, far: bool) -> Option<f64> {
        let frame = letters.frame();
        let roomy = frame.grown(3.0);
        if !frame.inside(within) || self.letters.iter().any(|other| other.frame().meets(roomy)) {
            return None;
        }
        if self.dots.iter().any(|(dot, radius, _)| Rect::around(*dot, *radius).meets(frame)) {
            return None;
        }
        let leader = far.then(|| (at, frame.grown(1.0).nearest(at)));
        if let Some((from, to)) = leader
            && self.letters.iter().any(|other| other.frame().grown(CLEAR).crossed(from, to))
        {
            return None;
        }
        if self.leaders.iter().any(|(from, to)| roomy.crossed(*from, *to)) {
            return None;
        }
        let crossed = self.lines.iter().filter(|(_, path)| path.meets(frame.grown(2.0))).count();
        // A break in a fine grid is not missed; one in a curve is.
        let price = |ink: Ink| if ink == Ink::Fine { 0.3 } else { 5.0 };
        let ruled: f64 =
            self.grid.iter().filter(|(_, path)| path.meets(frame.grown(2.0))).map(|(ink, _)| price(*ink)).sum();
        let hatched = self.areas.iter().filter(|(hatch, path)| hatch.is_some() && path.bounds().meets(frame)).count();
        let led = leader.map_or(0, |(from, to)| self.lines.iter().filter(|(_, path)| path.crosses(from, to)).count());
        Some(crossed as f64 * 40.0 + hatched as f64 * 4.0 + ruled + led as f64 * 2.0 + if far { 1.0 } else { 0.0 })
    }

    /// Every line as it is drawn: broken where lettering stands.
    fn drawn(&self) -> Vec<(Ink, Path)> {
        let leaders = self.leaders.iter().map(|(from, to)| (Ink::Leader, Path::from(vec![*from, *to])));
        let frames: Vec<Rect> = self.letters.iter().map(|letters| letters.frame().grown(CLEAR)).collect();
        let all = self.grid.iter().chain(&self.lines).cloned().chain(leaders);
        all.flat_map(|(ink, path)| {
            let hit: Vec<Rect> = frames.iter().copied().filter(|frame| path.meets(*frame)).collect();
            let pieces = if hit.is_empty() { vec![path] } else { broken(&path, &hit) };
            pieces.into_iter().map(move |piece| (ink, piece))
        })
        .collect()
    }

    /// The whole as SVG, without title or description. Names of what it defines are its own only within the drawing.
    pub(super) fn svg(&self) -> String {
        let mut out = format!("<svg viewBox=\"0 0 {} {}\">", short(WIDTH), short(self.height));
        let used: BTreeSet<Hatch> = self.areas.iter().filter_map(|(hatch, _)| *hatch).collect();
        if !used.is_empty() {
            out.push_str("<defs>");
            used.iter().for_each(|hatch| out.push_str(hatch.definition()));
            out.push_str("</defs>");
        }
        for (hatch, path) in &self.areas {
            let _ = match hatch {
                Some(hatch) => write!(out, "<path fill=\"url(#{})\" d=\"{}\"/>", hatch.name(), path.data()),
                None => write!(out, "<path class=\"pap\" d=\"{}\"/>", path.data()),
            };
        }
        let mut by_ink: BTreeMap<Ink, String> = BTreeMap::new();
        for (ink, path) in self.drawn() {
            by_ink.entry(ink).or_default().push_str(&path.data());
        }
        for (ink, data) in by_ink {
            let _ = write!(out, "<path class=\"{}\" d=\"{data}\"/>", ink.class());
        }
        for ((x, y), radius, black) in &self.dots {
            let class = if *black { "blk" } else { "papl" };
            let _ = write!(
                out,
                "<circle class=\"{class}\" cx=\"{}\" cy=\"{}\" r=\"{}\"/>",
                short(*x),
                short(*y),
                short(*radius)
            );
        }
        self.letters.iter().for_each(|letters| letters.write(&mut out, escape));
        out.push_str("</svg>");
        out
    }

    /// What must not be: a line that runs through lettering, lettering over lettering, lettering off the sheet.
    #[cfg(test)]
    pub(super) fn faults(&self) -> Vec<String> {
        let mut faults = Vec::new();
        for letters in &self.letters {
            let frame = letters.frame();
            let text = &letters.text.us;
            if !frame.inside(self.sheet()) {
                faults.push(format!("`{text}` stands off the sheet: {frame:?}"));
            }
            for (ink, path) in self.drawn() {
                if path.meets(frame) {
                    faults.push(format!("{ink:?} runs through `{text}`"));
                }
            }
            for other in self.letters.iter().filter(|other| !std::ptr::eq(*other, letters)) {
                if other.frame().meets(frame) {
                    faults.push(format!("`{text}` and `{}` stand on one another", other.text.us));
                }
            }
            for (dot, radius, _) in &self.dots {
                if Rect::around(*dot, *radius).meets(frame) {
                    faults.push(format!("a point lies under `{text}`"));
                }
            }
        }
        faults
    }

    /// Lettering for which a line that should be seen whole is broken.
    #[cfg(test)]
    pub(super) fn breaking(&self) -> Vec<&str> {
        let breaks = |letters: &&Letters| self.lines.iter().any(|(_, path)| path.meets(letters.frame()));
        self.letters.iter().filter(breaks).map(|letters| letters.text.us.as_str()).collect()
    }

    /// The lettering, in the order in which it was put.
    #[cfg(test)]
    pub(super) fn lettering(&self) -> Vec<String> {
        self.letters.iter().map(|letters| letters.text.us.clone()).collect()
    }
}

/// A number with one decimal at most.
pub(super) fn short(number: f64) -> String {
    let rounded = (number * 10.0).round() / 10.0;
    // Minus zero is zero.
    format!("{}", rounded + 0.0)
}
