//! Where the boxes of a tree's drawing stand and how the lines between them run: columns from left to right.
//!
//! Takes boxes with their heights and doors (where lines leave them), gives places and lines. Knows neither questions
//! nor SVG. Boxes come in an order in which lines lead forward; a line that leads back is left to the caller, who says
//! it in words.
//!
//! # Source
//! K. Sugiyama, S. Tagawa and M. Toda, "Methods for Visual Understanding of Hierarchical System Structures", IEEE Trans.
//! Syst. Man Cybern. 11 (1981) 109, with each column placed by least squares under its order (pool adjacent violators:
//! R. E. Barlow et al., "Statistical Inference under Order Restrictions", 1972). A crate of general graph layout was
//! considered; those there are know no doors, and the lines of a question leave it at its answers.

/// A box to be placed. All boxes are as wide as [`Spacing::width`].
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Shape {
    pub(super) height: f64,
    /// How far below its top lines come in.
    pub(super) entry: f64,
    pub(super) doors: Vec<Door>,
}

/// Where a line leaves a box.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Door {
    /// How far below the top of its box.
    pub(super) at: f64,
    /// The box it leads to, by number.
    pub(super) to: usize,
}

/// How far things stand apart.
#[derive(Clone, Copy, Debug)]
pub(super) struct Spacing {
    /// Width of a box.
    pub(super) width: f64,
    /// Between columns, where lines run.
    pub(super) between_columns: f64,
    /// Between boxes of a column.
    pub(super) between_boxes: f64,
    /// What a line that passes a column takes there.
    pub(super) passing: f64,
    /// Between two lines that pass a column. A line and a box stand halfway between this and what two boxes do.
    pub(super) between_lines: f64,
}

/// Boxes placed and lines drawn.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Layout {
    pub(super) width: f64,
    pub(super) height: f64,
    /// The upper left corner of each box.
    pub(super) places: Vec<(f64, f64)>,
    pub(super) lines: Vec<Line>,
}

/// A line from a door to a box.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Line {
    pub(super) from: usize,
    pub(super) door: usize,
    pub(super) to: usize,
    /// Where it leaves, then in pairs where it enters and leaves the columns it passes, last where it comes in.
    pub(super) points: Vec<(f64, f64)>,
}

/// What stands in a column: a box, or a line that passes.
#[derive(Clone, Copy, Debug)]
struct Item {
    height: f64,
    column: usize,
    /// How far it stands from its like.
    clear: f64,
    /// How strongly it is drawn to where its lines would be straight.
    pull: f64,
}

/// A piece of a line between neighboring columns.
#[derive(Clone, Copy, Debug)]
struct Piece {
    from: usize,
    out: f64,
    to: usize,
    into: f64,
}

#[derive(Debug, Default)]
struct Columns {
    items: Vec<Item>,
    pieces: Vec<Piece>,
    /// By column, the items from the top.
    order: Vec<Vec<usize>>,
    /// By line, the items it goes through, its boxes among them.
    routes: Vec<(usize, usize, Vec<usize>)>,
}

const ORDER_SWEEPS: usize = 24;
const PLACE_SWEEPS: usize = 16;

/// Lays boxes out. Lines to a box of the same or a lower number are left out.
pub(super) fn lay(shapes: &[Shape], spacing: Spacing) -> Layout {
    let mut columns = Columns::of(shapes, spacing);
    columns.untangle();
    let tops = columns.place();
    let left = |column: usize| column as f64 * (spacing.width + spacing.between_columns);
    let place = |item: usize| (left(columns.items[item].column), tops[item]);
    let lines = columns.routes.iter().map(|(from, door, route)| {
        let mut points = vec![(place(*from).0 + spacing.width, tops[*from] + shapes[*from].doors[*door].at)];
        for passed in &route[1..route.len() - 1] {
            let (x, y) = (place(*passed).0, tops[*passed] + spacing.passing / 2.0);
            points.extend([(x, y), (x + spacing.width, y)]);
        }
        let to = route[route.len() - 1];
        points.push((place(to).0, tops[to] + shapes[to].entry));
        Line { from: *from, door: *door, to, points }
    });
    let bottoms = columns.items.iter().zip(&tops).map(|(item, top)| top + item.height);
    Layout {
        width: left(columns.order.len()) - if shapes.is_empty() { 0.0 } else { spacing.between_columns },
        height: bottoms.fold(0.0, f64::max),
        places: (0..shapes.len()).map(place).collect(),
        lines: lines.collect(),
    }
}

impl Columns {
    /// A box stands one column right of the last of those that lead to it; a line that has farther to go passes the
    /// columns between.
    fn of(shapes: &[Shape], spacing: Spacing) -> Self {
        let mut column = vec![0; shapes.len()];
        for (number, shape) in shapes.iter().enumerate() {
            for to in shape.doors.iter().map(|door| door.to).filter(|to| *to > number && *to < shapes.len()) {
                column[to] = column[to].max(column[number] + 1);
            }
        }
        let boxes = shapes.iter().zip(&column);
        let item = |(shape, column): (&Shape, &usize)| Item {
            height: shape.height,
            column: *column,
            clear: spacing.between_boxes,
            pull: 1.0,
        };
        let mut columns = Self { items: boxes.map(item).collect(), ..Self::default() };
        for (number, shape) in shapes.iter().enumerate() {
            for (door, Door { at, to }) in shape.doors.iter().enumerate() {
                if *to <= number || *to >= shapes.len() {
                    continue;
                }
                let (mut from, mut out, mut route) = (number, *at, vec![number]);
                for passed in column[number] + 1..column[*to] {
                    columns.items.push(Item {
                        height: spacing.passing,
                        column: passed,
                        clear: spacing.between_lines,
                        pull: 8.0,
                    });
                    let here = columns.items.len() - 1;
                    let middle = spacing.passing / 2.0;
                    columns.pieces.push(Piece { from, out, to: here, into: middle });
                    (from, out) = (here, middle);
                    route.push(here);
                }
                columns.pieces.push(Piece { from, out, to: *to, into: shapes[*to].entry });
                route.push(*to);
                columns.routes.push((number, door, route));
            }
        }
        columns.order = vec![Vec::new(); column.iter().max().map_or(0, |last| last + 1)];
        for (number, item) in columns.items.iter().enumerate() {
            columns.order[item.column].push(number);
        }
        columns
    }

    /// Orders every column so that few lines cross: by the mean of the places its lines come from and, sweeping back, go
    /// to; then by swapping neighbors while that helps. The best order met is kept.
    fn untangle(&mut self) {
        let mut best = (self.crossings(), self.order.clone());
        for sweep in 0..ORDER_SWEEPS {
            let forward = sweep % 2 == 0;
            let last = self.order.len();
            for step in 1..last {
                self.sort(if forward { step } else { last - 1 - step }, forward);
            }
            self.swap_neighbors();
            let crossings = self.crossings();
            if crossings < best.0 {
                best = (crossings, self.order.clone());
            }
            if best.0 == 0 {
                break;
            }
        }
        self.order = best.1;
    }

    fn sort(&mut self, column: usize, forward: bool) {
        let rank = self.ranks();
        let mean = |item: usize| {
            let ends: Vec<f64> = self
                .pieces
                .iter()
                .filter_map(|piece| match forward {
                    true if piece.to == item => Some(self.leaving(piece, &rank)),
                    false if piece.from == item => Some(rank[piece.to] as f64),
                    _ => None,
                })
                .collect();
            if ends.is_empty() { rank[item] as f64 } else { ends.iter().sum::<f64>() / ends.len() as f64 }
        };
        let mut keyed: Vec<(f64, usize)> = self.order[column].iter().map(|item| (mean(*item), *item)).collect();
        keyed.sort_by(|one, other| one.0.total_cmp(&other.0));
        self.order[column] = keyed.into_iter().map(|(_, item)| item).collect();
    }

    fn swap_neighbors(&mut self) {
        for column in 0..self.order.len() {
            for at in 1..self.order[column].len() {
                let before = self.crossings_beside(column);
                self.order[column].swap(at - 1, at);
                if self.crossings_beside(column) >= before {
                    self.order[column].swap(at - 1, at);
                }
            }
        }
    }

    /// By item, its number from the top of its column.
    fn ranks(&self) -> Vec<usize> {
        let mut rank = vec![0; self.items.len()];
        for column in &self.order {
            for (at, item) in column.iter().enumerate() {
                rank[*item] = at;
            }
        }
        rank
    }

    /// Where a piece leaves its column, in ranks: doors of one box come one after another.
    fn leaving(&self, piece: &Piece, rank: &[usize]) -> f64 {
        rank[piece.from] as f64 + piece.out / (self.items[piece.from].height + 1.0)
    }

    fn crossings(&self) -> usize {
        (0..self.order.len()).map(|column| self.crossings_right_of(column)).sum()
    }

    fn crossings_beside(&self, column: usize) -> usize {
        self.crossings_right_of(column) + column.checked_sub(1).map_or(0, |left| self.crossings_right_of(left))
    }

    fn crossings_right_of(&self, column: usize) -> usize {
        let rank = self.ranks();
        let here = self.pieces.iter().filter(|piece| self.items[piece.from].column == column);
        let ends: Vec<(f64, usize)> = here.map(|piece| (self.leaving(piece, &rank), rank[piece.to])).collect();
        let crossed = |(i, one): (usize, &(f64, usize))| {
            let later = ends[i + 1..].iter();
            later.filter(|other| (one.0 < other.0 && one.1 > other.1) || (one.0 > other.0 && one.1 < other.1)).count()
        };
        ends.iter().enumerate().map(crossed).sum()
    }

    /// The top of every item: each column in turn is moved to where its lines run straightest, its order kept.
    fn place(&self) -> Vec<f64> {
        let mut tops = vec![0.0; self.items.len()];
        for column in 0..self.order.len() {
            for (item, packed) in self.order[column].iter().zip(self.packed(column)) {
                tops[*item] = packed;
            }
        }
        for sweep in 0..PLACE_SWEEPS {
            for step in 0..self.order.len() {
                let column = if sweep % 2 == 0 { step } else { self.order.len() - 1 - step };
                let wanted: Vec<(f64, f64)> = self.order[column].iter().map(|item| self.wanted(*item, &tops)).collect();
                self.settle(column, &wanted, &mut tops);
            }
        }
        let highest = tops.iter().copied().fold(f64::INFINITY, f64::min);
        tops.iter().map(|top| top - highest).collect()
    }

    /// Where an item would stand by its lines alone, and how strongly.
    fn wanted(&self, item: usize, tops: &[f64]) -> (f64, f64) {
        let mut ends = Vec::new();
        for piece in &self.pieces {
            if piece.to == item {
                ends.push(tops[piece.from] + piece.out - piece.into);
            } else if piece.from == item {
                ends.push(tops[piece.to] + piece.into - piece.out);
            }
        }
        if ends.is_empty() {
            return (tops[item], 0.1);
        }
        (ends.iter().sum::<f64>() / ends.len() as f64, ends.len() as f64 * self.items[item].pull)
    }

    /// The tops of a column's items when they stand as near to one another as they may.
    fn packed(&self, column: usize) -> Vec<f64> {
        let mut tops = Vec::new();
        for item in self.order[column].iter().map(|item| self.items[*item]) {
            let below = |(top, last): (f64, Item)| top + last.height + f64::midpoint(last.clear, item.clear);
            let top = tops.last().copied().map_or(0.0, below);
            tops.push((top, item));
        }
        tops.into_iter().map(|(top, _)| top).collect()
    }

    /// Places a column by least squares, no two of its items nearer than they may.
    fn settle(&self, column: usize, wanted: &[(f64, f64)], tops: &mut [f64]) {
        /// Items that lie against one another: the sum of what they want, their weights, and how many they are.
        struct Pool {
            sum: f64,
            weight: f64,
            count: usize,
        }
        let offsets = self.packed(column);
        let mut pools: Vec<Pool> = Vec::new();
        for (above, (top, weight)) in offsets.iter().zip(wanted) {
            let mut pool = Pool { sum: (top - above) * weight, weight: *weight, count: 1 };
            while let Some(last) = pools.pop_if(|last| last.sum / last.weight > pool.sum / pool.weight) {
                pool.sum += last.sum;
                pool.weight += last.weight;
                pool.count += last.count;
            }
            pools.push(pool);
        }
        let settled = pools.iter().flat_map(|pool| std::iter::repeat_n(pool.sum / pool.weight, pool.count));
        for ((item, offset), top) in self.order[column].iter().zip(offsets).zip(settled) {
            tops[*item] = top + offset;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::collection::vec;
    use proptest::prelude::*;

    const SPACING: Spacing =
        Spacing { width: 200.0, between_columns: 60.0, between_boxes: 20.0, passing: 10.0, between_lines: 6.0 };

    fn shape(to: &[usize]) -> Shape {
        let doors = to.iter().enumerate().map(|(n, to)| Door { at: 30.0 + 20.0 * n as f64, to: *to }).collect();
        Shape { height: 40.0 + 20.0 * to.len() as f64, entry: 15.0, doors }
    }

    #[test]
    fn a_chain_runs_straight_to_the_right() {
        let layout = lay(&[shape(&[1]), shape(&[2]), shape(&[])], SPACING);
        assert_eq!(layout.places.iter().map(|place| place.0).collect::<Vec<_>>(), [0.0, 260.0, 520.0]);
        assert_eq!(layout.width, 720.0);
        for line in &layout.lines {
            // Less than is drawn.
            assert!((line.points[0].1 - line.points[1].1).abs() < 0.05, "{line:?}");
        }
    }

    #[test]
    fn doors_in_order_lead_to_boxes_in_order() {
        // 0 leads to 2 and 1, in this order; 1 and 2 stand in one column.
        let layout = lay(&[shape(&[2, 1]), shape(&[]), shape(&[])], SPACING);
        assert!(layout.places[2].1 < layout.places[1].1);
    }

    #[test]
    fn a_long_line_passes_what_is_between() {
        let layout = lay(&[shape(&[1, 2]), shape(&[2]), shape(&[])], SPACING);
        let long = layout.lines.iter().find(|line| line.from == 0 && line.to == 2).unwrap();
        assert_eq!(long.points.len(), 4);
        let (top, bottom) = (layout.places[1].1, layout.places[1].1 + 60.0);
        assert!(long.points[1].1 < top || long.points[1].1 > bottom, "{long:?} runs through box 1");
    }

    #[test]
    fn nothing_is_laid_out_as_nothing() {
        assert_eq!(lay(&[], SPACING), Layout { width: 0.0, height: 0.0, places: vec![], lines: vec![] });
    }

    proptest! {
        #[test]
        fn boxes_never_touch_and_lines_go_from_door_to_box_past_all_others(leads in vec(vec(0..40usize, 0..4), 1..40)) {
            let shapes: Vec<Shape> = leads.iter().map(|to| shape(to)).collect();
            let layout = lay(&shapes, SPACING);
            prop_assert_eq!(&layout, &lay(&shapes, SPACING));
            let boxes: Vec<_> = layout.places.iter().zip(&shapes).map(|((x, y), s)| (*x, *y, y + s.height)).collect();
            for (i, one) in boxes.iter().enumerate() {
                prop_assert!(one.1 >= -1e-6 && one.2 <= layout.height + 1e-6 && one.0 + 200.0 <= layout.width + 1e-6);
                for other in boxes[i + 1..].iter().filter(|other| other.0 == one.0) {
                    prop_assert!(one.2 + 20.0 <= other.1 + 1e-6 || other.2 + 20.0 <= one.1 + 1e-6);
                }
            }
            let forward: usize = shapes.iter().enumerate().map(|(n, s)| s.doors.iter().filter(|d| d.to > n && d.to < shapes.len()).count()).sum();
            prop_assert_eq!(layout.lines.len(), forward);
            for line in &layout.lines {
                let (first, last) = (line.points[0], line.points[line.points.len() - 1]);
                prop_assert_eq!(first, (boxes[line.from].0 + 200.0, layout.places[line.from].1 + shapes[line.from].doors[line.door].at));
                prop_assert_eq!(last, (boxes[line.to].0, layout.places[line.to].1 + 15.0));
                for pair in line.points[1..line.points.len() - 1].chunks(2) {
                    for (x, top, bottom) in boxes.iter().filter(|b| b.0 == pair[0].0) {
                        prop_assert!(pair[0].1 < *top || pair[0].1 > *bottom, "runs through the box at {} {}", x, top);
                    }
                }
            }
        }
    }
}
