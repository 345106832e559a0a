//! Block arrows, as long as what they stand for, and the small heads of flow.

use super::canvas::{Canvas, Ink};
use super::geometry::{Path, Point};
use super::hatching::Hatch;

/// A force: an upright block arrow `length` long from `tail`, up where `up`, in hatching and outline.
pub(super) fn force(canvas: &mut Canvas, tail: Point, length: f64, up: bool, hatch: Hatch, ink: Ink) {
    const SHAFT: f64 = 11.0;
    const HEAD: f64 = 19.0;
    let toward = if up { -1.0 } else { 1.0 };
    let head = 20f64.min(length * 0.5);
    let (x, y) = tail;
    let (neck, tip) = (y + toward * (length - head), y + toward * length);
    let outline = vec![
        (x - SHAFT, y),
        (x - SHAFT, neck),
        (x - HEAD, neck),
        (x, tip),
        (x + HEAD, neck),
        (x + SHAFT, neck),
        (x + SHAFT, y),
    ];
    canvas.area(hatch, Path::closed(outline.clone()));
    canvas.line(ink, Path::closed(outline));
}

/// A small open head at `tip`, coming from `from`.
pub(super) fn head(canvas: &mut Canvas, ink: Ink, from: Point, tip: Point) {
    const LONG: f64 = 7.0;
    const HALF: f64 = 3.6;
    let (dx, dy) = (tip.0 - from.0, tip.1 - from.1);
    let run = dx.hypot(dy);
    if run < 1e-6 {
        return;
    }
    let (ux, uy) = (dx / run, dy / run);
    let back = (tip.0 - ux * LONG, tip.1 - uy * LONG);
    canvas.line(ink, [(back.0 - uy * HALF, back.1 + ux * HALF), tip, (back.0 + uy * HALF, back.1 - ux * HALF)]);
}
