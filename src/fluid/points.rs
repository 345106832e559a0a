//! A refrigerant known by points typed from a published table: temperature, bubble and dew pressure.
//!
//! Between the points ln p goes against 1/T along a cubic with continuous slope (Hermite's, slopes from the parabola
//! through three points, held back where they would make it turn: Fritsch and Carlson, SIAM Journal on Numerical
//! Analysis 17 (1980) 238). Over the boiling range of a refrigerant that line is all but straight, so that a table every
//! 5 °F loses nothing. Nothing is told outside of the points. Whether a point is a slip of the pen, [`super::slip`] says.

use crate::quantity::{Pressure, Temperature};

use super::{FluidError, error};

/// A row of a table: at `temperature` the first bubble forms at `bubble`, the first drop at `dew`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TypedPoint {
    /// Of both.
    pub temperature: Temperature,
    /// Bubble pressure.
    pub bubble: Pressure,
    /// Dew pressure; the same for a pure refrigerant.
    pub dew: Pressure,
}

/// The points of one refrigerant, ready to be asked.
#[derive(Debug)]
pub(super) struct Points {
    pub(super) designation: String,
    pub(super) is_blend: bool,
    pub(super) bubble: Line,
    pub(super) dew: Line,
}

impl Points {
    pub(super) fn of(designation: &str, rows: &[TypedPoint]) -> Result<Self, FluidError> {
        let wrong = |says: String| FluidError::Points { refrigerant: designation.to_owned(), says };
        if rows.len() < 3 {
            return Err(wrong(format!("there are {}; three or more make a curve", rows.len())));
        }
        let mut rows: Vec<TypedPoint> = rows.to_vec();
        for row in &rows {
            let numbers = [row.temperature.as_kelvin(), row.bubble.as_pascal(), row.dew.as_pascal()];
            if !numbers.iter().all(|x| x.is_finite() && *x > 0.0) {
                return Err(wrong(format!(
                    "at {} a pressure is at or below zero absolute, or no number",
                    error::temperature(row.temperature)
                )));
            }
            if row.bubble < row.dew {
                return Err(wrong(format!(
                    "at {} the bubble pressure {} is below the dew pressure {}",
                    error::temperature(row.temperature),
                    error::pressure(row.bubble),
                    error::pressure(row.dew)
                )));
            }
        }
        rows.sort_by(|a, b| a.temperature.as_kelvin().total_cmp(&b.temperature.as_kelvin()));
        for pair in rows.windows(2) {
            let (a, b) = (&pair[0], &pair[1]);
            let says = |what: &str| {
                format!("from {} to {} {what}", error::temperature(a.temperature), error::temperature(b.temperature))
            };
            if a.temperature == b.temperature {
                return Err(wrong(format!("{} stands there twice", error::temperature(a.temperature))));
            }
            if a.bubble >= b.bubble {
                return Err(wrong(says("the bubble pressure does not rise")));
            }
            if a.dew >= b.dew {
                return Err(wrong(says("the dew pressure does not rise")));
            }
        }
        Ok(Self {
            designation: designation.to_owned(),
            is_blend: rows.iter().any(|row| row.bubble != row.dew),
            bubble: Line::through(rows.iter().map(|row| (row.temperature, row.bubble))),
            dew: Line::through(rows.iter().map(|row| (row.temperature, row.dew))),
        })
    }
}

/// ln p against 1/T through the points of one column.
#[derive(Debug)]
pub(super) struct Line {
    /// 1/T falling, ln p rising, and the slope there.
    nodes: Vec<Node>,
    ends: [(Temperature, Pressure); 2],
}

#[derive(Clone, Copy, Debug)]
struct Node {
    x: f64,
    y: f64,
    slope: f64,
}

impl Line {
    fn through(points: impl Iterator<Item = (Temperature, Pressure)>) -> Self {
        let points: Vec<_> = points.collect();
        let mut nodes: Vec<Node> =
            points.iter().map(|(t, p)| Node { x: -1.0 / t.as_kelvin(), y: p.as_pascal().ln(), slope: 0.0 }).collect();
        let last = nodes.len() - 1;
        let chord: Vec<f64> = nodes.windows(2).map(|w| (w[1].y - w[0].y) / (w[1].x - w[0].x)).collect();
        for i in 0..=last {
            // The slope at i of the parabola through i and two neighbors
            let middle = i.clamp(1, last - 1);
            let (a, b) = (chord[middle - 1], chord[middle]);
            let (ha, hb) = (nodes[middle].x - nodes[middle - 1].x, nodes[middle + 1].x - nodes[middle].x);
            let bend = (b - a) / (ha + hb);
            let slope = a + bend * (2.0 * nodes[i].x - nodes[middle - 1].x - nodes[middle].x);
            // Three times the lesser chord is the most that keeps the cubic from turning.
            let (before, after) = (chord[i.saturating_sub(1)], chord[i.min(last - 1)]);
            nodes[i].slope = slope.clamp(0.0, 3.0 * before.min(after));
        }
        Self { nodes, ends: [points[0], points[last]] }
    }

    pub(super) fn temperatures(&self) -> (Temperature, Temperature) {
        (self.ends[0].0, self.ends[1].0)
    }

    pub(super) fn pressures(&self) -> (Pressure, Pressure) {
        (self.ends[0].1, self.ends[1].1)
    }

    /// The pressure at a temperature between the ends.
    pub(super) fn pressure(&self, t: Temperature) -> Pressure {
        let x = -1.0 / t.as_kelvin();
        let i = self.nodes.partition_point(|n| n.x < x).clamp(1, self.nodes.len() - 1);
        let (a, b) = (&self.nodes[i - 1], &self.nodes[i]);
        Pressure::from_pascal(cubic(a, b, (x - a.x) / (b.x - a.x)).0.exp())
    }

    /// The temperature at a pressure between the ends.
    pub(super) fn temperature(&self, p: Pressure) -> Temperature {
        let y = p.as_pascal().ln();
        let i = self.nodes.partition_point(|n| n.y < y).clamp(1, self.nodes.len() - 1);
        let (a, b) = (&self.nodes[i - 1], &self.nodes[i]);
        // Newton, kept inside by bisection: the cubic rises throughout.
        let (mut low, mut high) = (0.0, 1.0);
        let mut s = (y - a.y) / (b.y - a.y);
        for _ in 0..100 {
            let (value, slope) = cubic(a, b, s);
            if value < y {
                low = s;
            } else {
                high = s;
            }
            let newton = s + (y - value) / slope;
            let next = if newton > low && newton < high { newton } else { 0.5 * (low + high) };
            if (next - s).abs() < 1e-15 {
                break;
            }
            s = next;
        }
        Temperature::from_kelvin(-1.0 / (a.x + s * (b.x - a.x)))
    }
}

/// Hermite's cubic between two nodes at the part `s` of the way: value, and derivative by `s`.
fn cubic(a: &Node, b: &Node, s: f64) -> (f64, f64) {
    let h = b.x - a.x;
    let rise = b.y - a.y;
    let (da, db) = (a.slope * h, b.slope * h);
    let c2 = 3.0 * rise - 2.0 * da - db;
    let c3 = da + db - 2.0 * rise;
    (a.y + s * (da + s * (c2 + s * c3)), da + s * (2.0 * c2 + s * 3.0 * c3))
}
