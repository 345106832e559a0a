//! Points, boxes and broken lines: the little geometry that drawings need.

use super::canvas::short;

/// A place on the sheet.
pub(super) type Point = (f64, f64);

/// A box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Rect {
    pub(super) left: f64,
    pub(super) top: f64,
    pub(super) right: f64,
    pub(super) bottom: f64,
}

impl Rect {
    /// About a circle.
    pub(super) fn around((x, y): Point, radius: f64) -> Self {
        Self { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius }
    }

    /// Larger by `margin` on every side.
    pub(super) fn grown(self, margin: f64) -> Self {
        Self {
            left: self.left - margin,
            top: self.top - margin,
            right: self.right + margin,
            bottom: self.bottom + margin,
        }
    }

    /// Whether it lies in `other`.
    pub(super) fn inside(self, other: Self) -> bool {
        self.left >= other.left && self.right <= other.right && self.top >= other.top && self.bottom <= other.bottom
    }

    /// Whether the two have anything in common.
    pub(super) fn meets(self, other: Self) -> bool {
        self.left < other.right && other.left < self.right && self.top < other.bottom && other.top < self.bottom
    }

    /// The place of it nearest to `point`.
    pub(super) fn nearest(self, (x, y): Point) -> Point {
        (x.clamp(self.left, self.right), y.clamp(self.top, self.bottom))
    }

    /// The part of the way from `a` to `b` that lies inside, as shares of it (Liang and Barsky).
    pub(super) fn stretch(self, a: Point, b: Point) -> Option<(f64, f64)> {
        let (dx, dy) = (b.0 - a.0, b.1 - a.1);
        let (mut from, mut to) = (0.0f64, 1.0f64);
        for (over, room) in
            [(-dx, a.0 - self.left), (dx, self.right - a.0), (-dy, a.1 - self.top), (dy, self.bottom - a.1)]
        {
            if over == 0.0 {
                if room <= 0.0 {
                    return None;
                }
            } else if over < 0.0 {
                from = from.max(room / over);
            } else {
                to = to.min(room / over);
            }
        }
        (from < to).then_some((from, to))
    }

    /// Whether the way from `a` to `b` goes through.
    pub(super) fn crossed(self, a: Point, b: Point) -> bool {
        self.stretch(a, b).is_some()
    }

    /// Its outline.
    pub(super) fn outline(self) -> Path {
        let corners =
            [(self.left, self.top), (self.right, self.top), (self.right, self.bottom), (self.left, self.bottom)];
        Path::closed(corners.to_vec())
    }
}

/// A line through points.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Path {
    points: Vec<Point>,
    closed: bool,
    /// What is cut out of it.
    hole: Option<Box<Path>>,
    /// Where it is a whole circle: its center and radius, which say it shorter.
    disc: Option<(Point, f64)>,
}

impl From<Vec<Point>> for Path {
    fn from(points: Vec<Point>) -> Self {
        Self { points, closed: false, hole: None, disc: None }
    }
}

impl<const N: usize> From<[Point; N]> for Path {
    fn from(points: [Point; N]) -> Self {
        Self { points: points.to_vec(), closed: false, hole: None, disc: None }
    }
}

impl Path {
    /// One that comes back to where it began.
    pub(super) fn closed(points: Vec<Point>) -> Self {
        Self { points, closed: true, hole: None, disc: None }
    }

    /// A circle, or an arc of one from `from` to `to` in turns clockwise from twelve o'clock.
    pub(super) fn arc(center: Point, radius: f64, from: f64, to: f64) -> Self {
        let steps = ((to - from).abs() * (12.0 + radius * 0.6)).ceil().max(6.0);
        let at = |i: f64| on_clock(center, radius, from + (to - from) * i / steps);
        let whole = (to - from).abs() >= 1.0;
        let count = if whole { steps as u32 } else { steps as u32 + 1 };
        Self {
            points: (0..count).map(|i| at(f64::from(i))).collect(),
            closed: whole,
            hole: None,
            disc: whole.then_some((center, radius)),
        }
    }

    /// A whole circle.
    pub(super) fn circle(center: Point, radius: f64) -> Self {
        Self::arc(center, radius, 0.0, 1.0)
    }

    /// A smooth curve from `a` to `b`, drawn toward `bend`.
    pub(super) fn bend(a: Point, bend: Point, b: Point) -> Vec<Point> {
        const STEPS: u32 = 8;
        let at = |i: u32| {
            let t = f64::from(i) / f64::from(STEPS);
            let mix = |p: f64, q: f64, r: f64| (1.0 - t) * ((1.0 - t) * p + t * q) + t * ((1.0 - t) * q + t * r);
            (mix(a.0, bend.0, b.0), mix(a.1, bend.1, b.1))
        };
        (0..=STEPS).map(at).collect()
    }

    /// The same, closed by a straight way back.
    pub(super) fn shut(mut self) -> Self {
        self.closed = true;
        self
    }

    /// Cuts a hole into it.
    pub(super) fn hole(&mut self, inner: Self) {
        self.hole = Some(Box::new(inner));
    }

    fn ways(&self) -> impl Iterator<Item = (Point, Point)> + '_ {
        let last = self.closed.then(|| self.points.last().copied().zip(self.points.first().copied())).flatten();
        self.points.windows(2).map(|pair| (pair[0], pair[1])).chain(last)
    }

    /// Whether any of it runs through `frame`.
    pub(super) fn meets(&self, frame: Rect) -> bool {
        self.ways().any(|(a, b)| frame.crossed(a, b))
    }

    /// Whether it crosses the way from `a` to `b`.
    pub(super) fn crosses(&self, a: Point, b: Point) -> bool {
        let side = |p: Point, q: Point, r: Point| (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0);
        self.ways().any(|(c, d)| side(a, b, c) * side(a, b, d) < 0.0 && side(c, d, a) * side(c, d, b) < 0.0)
    }

    /// The box around it.
    pub(super) fn bounds(&self) -> Rect {
        let fold =
            |start: f64, pick: fn(f64, f64) -> f64, of: fn(&Point) -> f64| self.points.iter().map(of).fold(start, pick);
        Rect {
            left: fold(f64::INFINITY, f64::min, |p| p.0),
            top: fold(f64::INFINITY, f64::min, |p| p.1),
            right: fold(f64::NEG_INFINITY, f64::max, |p| p.0),
            bottom: fold(f64::NEG_INFINITY, f64::max, |p| p.1),
        }
    }

    /// As an SVG path, without points that lie on the way of their neighbors.
    pub(super) fn data(&self) -> String {
        // A hole runs the other way round, so that it is one by either rule of filling.
        let hole = self.hole.as_ref().map_or_else(String::new, |hole| hole.run(true));
        self.run(false) + &hole
    }

    fn run(&self, backward: bool) -> String {
        if let Some(((x, y), radius)) = self.disc {
            let (r, d, sweep) = (short(radius), short(2.0 * radius), u8::from(backward));
            return format!("M{} {}a{r} {r} 0 1 {sweep} {d} 0 {r} {r} 0 1 {sweep}-{d} 0Z", short(x - radius), short(y));
        }
        let mut points = thinned(&self.points);
        if backward {
            points.reverse();
        }
        let mut out = String::new();
        for (i, (x, y)) in points.into_iter().enumerate() {
            out.push_str(match i {
                0 => "M",
                1 => "L",
                _ => " ",
            });
            out.push_str(&short(x));
            out.push(' ');
            out.push_str(&short(y));
        }
        if self.closed {
            out.push('Z');
        }
        out
    }
}

/// The place on a circle, in turns clockwise from twelve o'clock.
pub(super) fn on_clock(center: Point, radius: f64, turns: f64) -> Point {
    let angle = turns * std::f64::consts::TAU;
    (center.0 + radius * angle.sin(), center.1 - radius * angle.cos())
}

/// `path` without what lies inside `frames`.
pub(super) fn broken(path: &Path, frames: &[Rect]) -> Vec<Path> {
    let mut pieces: Vec<Vec<Point>> = vec![Vec::new()];
    for (a, b) in path.ways() {
        // What lies inside, merged, in order along the way.
        let mut inside: Vec<(f64, f64)> = frames.iter().filter_map(|frame| frame.stretch(a, b)).collect();
        inside.sort_by(|one, other| one.0.total_cmp(&other.0));
        let at = |t: f64| (a.0 + (b.0 - a.0) * t, a.1 + (b.1 - a.1) * t);
        let draw = |from: f64, to: f64, pieces: &mut Vec<Vec<Point>>| {
            if to - from < 1e-9 {
                return;
            }
            let (from, to) = (at(from), at(to));
            match pieces.last_mut() {
                Some(piece) if piece.last() == Some(&from) => piece.push(to),
                _ => pieces.push(vec![from, to]),
            }
        };
        let mut done = 0.0;
        for (from, to) in inside {
            draw(done, from, &mut pieces);
            done = f64::max(done, to);
        }
        draw(done, 1.0, &mut pieces);
    }
    let long = |piece: &Vec<Point>| {
        let run: f64 = piece.windows(2).map(|p| (p[1].0 - p[0].0).hypot(p[1].1 - p[0].1)).sum();
        run > 2.5
    };
    pieces.into_iter().filter(long).map(Path::from).collect()
}

/// Without points that lie within a hair of the straight way between those kept (Douglas and Peucker).
fn thinned(points: &[Point]) -> Vec<Point> {
    const HAIR: f64 = 0.12;
    let [first, .., last] = points else { return points.to_vec() };
    let (dx, dy) = (last.0 - first.0, last.1 - first.1);
    let length = dx.hypot(dy);
    let off = |p: &Point| {
        if length < 1e-9 {
            (p.0 - first.0).hypot(p.1 - first.1)
        } else {
            ((p.0 - first.0) * dy - (p.1 - first.1) * dx).abs() / length
        }
    };
    let inner = &points[1..points.len() - 1];
    let farthest = inner.iter().enumerate().max_by(|a, b| off(a.1).total_cmp(&off(b.1)));
    match farthest {
        Some((i, point)) if off(point) > HAIR => {
            let mut kept = thinned(&points[..=i + 1]);
            kept.pop();
            kept.extend(thinned(&points[i + 1..]));
            kept
        }
        _ => vec![*first, *last],
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_line_is_broken_where_a_box_stands_and_nowhere_else() {
        let line = Path::from([(0.0, 5.0), (100.0, 5.0)]);
        let frame = Rect { left: 40.0, top: 0.0, right: 60.0, bottom: 10.0 };
        let pieces = broken(&line, &[frame]);
        assert_eq!(pieces, [Path::from([(0.0, 5.0), (40.0, 5.0)]), Path::from([(60.0, 5.0), (100.0, 5.0)])]);
        assert_eq!(broken(&line, &[]), [line]);
    }

    #[test]
    fn a_line_along_an_edge_does_not_meet_the_box() {
        let frame = Rect { left: 0.0, top: 0.0, right: 10.0, bottom: 10.0 };
        assert!(!Path::from([(0.0, 10.0), (10.0, 10.0)]).meets(frame));
        assert!(Path::from([(0.0, 9.9), (10.0, 9.9)]).meets(frame));
    }

    #[test]
    fn what_lies_straight_is_written_once() {
        let path = Path::from((0..=10).map(|i| (f64::from(i), 2.0)).collect::<Vec<_>>());
        assert_eq!(path.data(), "M0 2L10 2");
        assert_eq!(Path::closed(vec![(0.0, 0.0), (4.0, 0.0), (4.04, -3.0)]).data(), "M0 0L4 0 4 -3Z");
    }

    proptest! {
        #[test]
        fn no_piece_of_a_broken_line_is_in_a_box(
            points in prop::collection::vec((0.0..400.0f64, 0.0..300.0f64), 2..12),
            boxes in prop::collection::vec((0.0..400.0f64, 0.0..300.0f64, 1.0..90.0f64, 1.0..30.0f64), 1..6),
            closed in any::<bool>(),
        ) {
            let path = if closed { Path::closed(points) } else { Path::from(points) };
            let frames: Vec<Rect> = boxes.into_iter().map(|(x, y, w, h)| Rect { left: x, top: y, right: x + w, bottom: y + h }).collect();
            for piece in broken(&path, &frames) {
                for frame in &frames {
                    prop_assert!(!piece.meets(frame.grown(-1e-6)), "{:?} in {:?}", piece, frame);
                }
            }
        }
    }
}
