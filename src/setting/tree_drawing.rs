//! The whole tree as one drawing: questions with their answers from left to right, each answer's line to what comes next.
//!
//! Takes a tree as the key numbers it, gives SVG in the classes of the plates. Everything in it stands in the key as
//! well; a box leads to its place there. Places and lines come from [`super::tree_layout`]; here is what stands in the
//! boxes. Drawn at full size, it is wider than a leaf and is moved sideways. It is cut between columns into strips, which
//! stand side by side on a screen and one below the other on a sheet of paper. There each is only as high as what it
//! holds, so that letters are as large as the sheet lets them, and its lines go on in the same order as they were cut.

use super::key;
use super::press::Press;
use super::print::{curl, escape, spoken};
use super::tree_layout::{Door, Layout, Line, Shape, Spacing, lay};
use super::words::fill;
use crate::handbook::Tree;

const SPACING: Spacing =
    Spacing { width: 204.0, between_columns: 56.0, between_boxes: 18.0, passing: 10.0, between_lines: 4.0 };
/// From one column to the next.
const COLUMN: f64 = SPACING.width + SPACING.between_columns;
/// From the edge of a box to its words.
const INSET: f64 = 10.0;
/// From one line of words to the next.
const LINE: f64 = 16.0;
/// Above and below the words of a row.
const BREATH: f64 = 5.0;
/// Letters that a line of a box holds, of a narrow gothic of 13 units.
const LETTERS: usize = 29;
/// Letters that stand beside a question's number.
const LETTERS_BESIDE_NUMBER: usize = 25;
/// Room for a question's number.
const NUMBER: f64 = 26.0;
/// Above and below the whole.
const MARGIN: f64 = 4.0;
/// Between strips on a sheet.
const BETWEEN_STRIPS: f64 = 20.0;
/// Room for the whole on a sheet, A4 or Letter, upright, below a title of two lines: what both have, in millimeters.
const SHEET: (f64, f64) = (190.0, 221.0);

/// A box of the drawing.
#[derive(Debug)]
struct Leaf {
    href: String,
    /// What it is when one rests on it: the whole question.
    says: String,
    kind: Kind,
    head: Vec<String>,
    rows: Vec<Row>,
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    Question(usize),
    Outcome { condemns: bool },
    OtherTree,
}

/// An answer in a question's box.
#[derive(Debug)]
struct Row {
    us: Vec<String>,
    si: Vec<String>,
    /// The box it leads to; none where it leads back, which is said in words.
    to: Option<usize>,
}

impl Row {
    fn height(&self) -> f64 {
        self.us.len().max(self.si.len()).max(1) as f64 * LINE + 2.0 * BREATH
    }
}

impl Leaf {
    /// What marks the line and the words of an answer, so that the way taken can be told.
    fn way(&self, number: usize) -> String {
        format!(" data-way=\"{}.{number}\"", escape(self.href.trim_start_matches('#')))
    }

    fn head_height(&self) -> f64 {
        self.head.len().max(1) as f64 * LINE + 2.0 * BREATH + 2.0
    }

    fn shape(&self) -> Shape {
        let mut below = self.head_height();
        let mut doors = Vec::new();
        for row in &self.rows {
            doors.extend(row.to.map(|to| Door { at: below + row.height() / 2.0, to }));
            below += row.height();
        }
        Shape { height: below, entry: (self.head_height() / 2.0).min(BREATH + LINE), doors }
    }
}

/// Draws `tree` for the page at `page`.
pub(super) fn draw(press: &Press<'_>, page: &str, tree: &Tree) -> String {
    drawing(press, tree, &leaves(press, page, tree))
}

/// The boxes: questions as they are numbered, then outcomes, then other trees, one for each question that leads there.
fn leaves(press: &Press<'_>, page: &str, tree: &Tree) -> Vec<Leaf> {
    let questions = key::in_order(press, tree);
    let outcomes_from = questions.len();
    let mut others: Vec<(usize, String, String)> = Vec::new();
    let mut leaves = Vec::new();
    for (number, question) in questions.iter().enumerate() {
        let ways = key::ways(press, page, tree, question);
        let rows = ways.iter().zip(&question.answers).map(|(way, answer)| {
            let go = answer.go.value.as_str();
            let to = if go.starts_with("tree:") {
                let known = others.iter().position(|(from, href, _)| *from == number && *href == way.href);
                let other = known.unwrap_or_else(|| {
                    others.push((number, way.href.clone(), way.to.clone()));
                    others.len() - 1
                });
                Some(outcomes_from + tree.outcomes.len() + other)
            } else {
                let ahead = questions.iter().position(|next| next.name.value == go).filter(|next| *next > number);
                let outcome = || tree.outcomes.iter().position(|outcome| outcome.name.value == go);
                ahead.or_else(|| outcome().map(|at| outcomes_from + at))
            };
            let words = |text: &str| match to {
                Some(_) => wrap(text, LETTERS),
                None => wrap(&format!("{text}: {}", way.to), LETTERS),
            };
            Row { us: words(&way.when.us), si: words(&way.when.si), to }
        });
        let rows: Vec<Row> = rows.collect();
        leaves.push(Leaf {
            href: format!("#{}", key::question_anchor(&question.name.value)),
            says: question.ask.value.clone(),
            kind: Kind::Question(number + 1),
            head: wrap(&spoken(&question.name.value), LETTERS_BESIDE_NUMBER),
            rows,
        });
    }
    leaves.extend(tree.outcomes.iter().map(|outcome| Leaf {
        href: format!("#{}", key::end_anchor(&outcome.name.value)),
        says: spoken(&outcome.name.value),
        kind: Kind::Outcome { condemns: outcome.condemns.is_some() },
        head: wrap(&spoken(&outcome.name.value), LETTERS),
        rows: Vec::new(),
    }));
    leaves.extend(others.into_iter().map(|(_, href, title)| Leaf {
        href,
        head: wrap(&title, LETTERS),
        says: title,
        kind: Kind::OtherTree,
        rows: Vec::new(),
    }));
    leaves
}

/// A part of the drawing between two cuts.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Strip {
    left: f64,
    width: f64,
    /// Where what it holds begins and ends.
    top: f64,
    bottom: f64,
}

impl Strip {
    /// The strip of that width from `left`.
    fn of(layout: &Layout, shapes: &[Shape], left: f64, width: f64) -> Self {
        let holds = |x: f64| (left..left + width).contains(&x);
        let boxes = shapes.iter().zip(&layout.places).filter(|(_, (x, _))| holds(*x));
        let boxes = boxes.flat_map(|(shape, (_, y))| [*y, *y + shape.height]);
        // A line is cut halfway between columns, where its bow is halfway between the heights of its ends.
        let cuts = layout.lines.iter().flat_map(|line| line.points.windows(2)).flat_map(|ends| {
            let [(x, y), (to_x, to_y)] = [ends[0], ends[1]];
            let inside = [(x, y), (x.midpoint(to_x), y.midpoint(to_y)), (to_x, to_y)];
            inside.into_iter().filter(|(x, _)| (left..=left + width).contains(x)).map(|(_, y)| y)
        });
        let (top, bottom) =
            boxes.chain(cuts).fold((f64::INFINITY, f64::NEG_INFINITY), |(top, bottom), y| (top.min(y), bottom.max(y)));
        if top > bottom { Self { left, width, top: 0.0, bottom: 0.0 } } else { Self { left, width, top, bottom } }
    }

    fn height(self) -> f64 {
        self.bottom - self.top + 2.0 * MARGIN
    }
}

/// The strips of a drawing, of at most so many columns each, that stand lowest together.
fn strips(layout: &Layout, shapes: &[Shape], columns: usize, at_most: usize) -> Vec<Strip> {
    let of = |from: usize, to: usize| {
        let left = from as f64 * COLUMN - SPACING.between_columns / 2.0;
        Strip::of(layout, shapes, left, (to - from) as f64 * COLUMN)
    };
    // By column, the best strips of all columns before it.
    let mut best: Vec<Vec<Strip>> = vec![Vec::new()];
    for to in 1..=columns {
        // Of several alike, the one whose last strip is narrowest.
        let ways = (to.saturating_sub(at_most)..to).rev().map(|from| [best[from].as_slice(), &[of(from, to)]].concat());
        best.extend(ways.min_by(|one, other| height_on_a_sheet(one).total_cmp(&height_on_a_sheet(other))));
    }
    best.pop().unwrap_or_default()
}

/// How high strips stand together on a sheet.
fn height_on_a_sheet(strips: &[Strip]) -> f64 {
    strips.iter().map(|strip| strip.height() + BETWEEN_STRIPS).sum::<f64>() - BETWEEN_STRIPS
}

/// How wide strips are together on a sheet.
fn widest(strips: &[Strip]) -> f64 {
    strips.iter().map(|strip| strip.width).fold(COLUMN, f64::max)
}

/// The strips in which a drawing is largest on a sheet; of several alike, the fewest.
fn largest_strips(layout: &Layout, shapes: &[Shape]) -> Vec<Strip> {
    let columns = (((layout.width + SPACING.between_columns) / COLUMN).round() as usize).max(1);
    let scale = |strips: &[Strip]| (SHEET.0 / widest(strips)).min(SHEET.1 / height_on_a_sheet(strips));
    (1..columns).rev().map(|to_a_strip| strips(layout, shapes, columns, to_a_strip)).fold(
        strips(layout, shapes, columns, columns),
        |best, next| if scale(&next) > scale(&best) { next } else { best },
    )
}

fn drawing(press: &Press<'_>, tree: &Tree, leaves: &[Leaf]) -> String {
    let shapes: Vec<Shape> = leaves.iter().map(Leaf::shape).collect();
    let layout = lay(&shapes, SPACING);
    let words = &press.theme.words;
    let height = layout.height + 2.0 * MARGIN;
    let strips = largest_strips(&layout, &shapes);
    let title = fill(&words.whole_tree_of, "title", &tree.title.value);
    let mut out = String::new();
    for (at, Strip { left, width, .. }) in strips.iter().copied().enumerate() {
        // Said once, and pointed at from every strip.
        let title = match at {
            0 => format!(
                "<title id=\"wt\">{}</title><desc id=\"wd\">{}</desc>",
                escape(&curl(&title)),
                escape(&curl(&words.whole_tree_describes))
            ),
            _ => String::new(),
        };
        out.push_str(&format!(
            "<svg viewBox=\"{} {} {} {}\" width=\"{}\" height=\"{}\" role=\"group\" aria-labelledby=\"wt\" aria-describedby=\"wd\" id=\"strip-{at}\">{title}\n",
            number(left),
            number(-MARGIN),
            number(width),
            number(height),
            number(width),
            number(height),
        ));
        for line in &layout.lines {
            let points = &line.points;
            if points[0].0 < left + width && points[points.len() - 1].0 > left {
                draw_line(&leaves[line.from], line, &mut out);
            }
        }
        for ((leaf, shape), (x, y)) in leaves.iter().zip(&shapes).zip(&layout.places) {
            if (left..left + width).contains(x) {
                draw_leaf(leaf, shape.height, *x, *y, &mut out);
            }
        }
        out.push_str("</svg>");
    }
    out.push_str(&on_a_sheet(&strips));
    out
}

/// The strips one below the other, for paper. A strip is used whole: what is used keeps the rules that begin at an SVG,
/// and none that begin above it. Its own margin is above what it holds.
fn on_a_sheet(strips: &[Strip]) -> String {
    let mut out = format!(
        "<svg class=\"on-sheet\" viewBox=\"0 0 {} {}\" aria-hidden=\"true\">",
        number(widest(strips)),
        number(height_on_a_sheet(strips))
    );
    let mut below = 0.0;
    for (at, strip) in strips.iter().enumerate() {
        out.push_str(&format!(
            "<svg y=\"{}\" width=\"{1}\" height=\"{2}\" viewBox=\"0 {3} {1} {2}\"><use href=\"#strip-{at}\"/></svg>",
            number(below),
            number(strip.width),
            number(strip.height()),
            number(strip.top)
        ));
        below += strip.height() + BETWEEN_STRIPS;
    }
    out + "</svg>"
}

fn draw_line(from: &Leaf, line: &Line, out: &mut String) {
    let points = &line.points;
    let mut path = format!("M{} {}", number(points[0].0), number(points[0].1));
    for (at, pair) in points.windows(2).enumerate() {
        let ((x, y), (to_x, to_y)) = (pair[0], pair[1]);
        let middle = number((x + to_x) / 2.0);
        match at % 2 {
            // Between columns, a bow; past a column, straight on.
            0 => path.push_str(&format!(
                "C{middle} {} {middle} {} {} {}",
                number(y),
                number(to_y),
                number(to_x),
                number(to_y)
            )),
            _ => path.push_str(&format!("H{}", number(to_x))),
        }
    }
    let (x, y) = points[points.len() - 1];
    let (back, over, under) = (number(x - 7.0), number(y - 3.5), number(y + 3.5));
    let answer = from.rows.iter().enumerate().filter(|(_, row)| row.to.is_some()).nth(line.door);
    out.push_str(&format!(
        "<g{}><path class=\"l2\" d=\"{path}\"/><path class=\"blk\" d=\"M{back} {over}L{} {}L{back} {under}z\"/></g>\n",
        answer.map_or_else(String::new, |(number, _)| from.way(number)),
        number(x),
        number(y)
    ));
}

fn draw_leaf(leaf: &Leaf, height: f64, x: f64, y: f64, out: &mut String) {
    let frame = |class: &str, inset: f64| {
        format!(
            "<rect class=\"{class}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>",
            number(x + inset),
            number(y + inset),
            number(SPACING.width - 2.0 * inset),
            number(height - 2.0 * inset)
        )
    };
    out.push_str(&format!("<a href=\"{}\"><title>{}</title>", escape(&leaf.href), escape(&curl(&leaf.says))));
    out.push_str(&frame("papl", 0.0));
    match leaf.kind {
        Kind::Question(_) => {}
        Kind::Outcome { condemns: false } => out.push_str(&frame("l3", 3.0)),
        Kind::Outcome { condemns: true } => out.push_str(&frame("cu", 3.0)),
        Kind::OtherTree => out.push_str(&frame("ve", 3.0)),
    }
    let mut left = x + INSET;
    if let Kind::Question(n) = leaf.kind {
        out.push_str(&format!(
            "<text class=\"no\" x=\"{}\" y=\"{}\">{n}</text>",
            number(left),
            number(y + BREATH + 14.0)
        ));
        left += NUMBER;
    }
    lines(&leaf.head, "", left, y + BREATH, out);
    let mut below = y + leaf.head_height();
    for (answer, row) in leaf.rows.iter().enumerate() {
        let (from, to) = (number(x), number(x + SPACING.width));
        out.push_str(&format!("<path class=\"l3\" d=\"M{from} {}H{to}\"/><g{}>", number(below), leaf.way(answer)));
        if row.us == row.si {
            lines(&row.us, "small", x + INSET, below + BREATH, out);
        } else {
            lines(&row.us, "small us", x + INSET, below + BREATH, out);
            lines(&row.si, "small si", x + INSET, below + BREATH, out);
        }
        out.push_str("</g>");
        below += row.height();
    }
    out.push_str("</a>\n");
}

fn lines(lines: &[String], class: &str, x: f64, top: f64, out: &mut String) {
    let class = if class.is_empty() { String::new() } else { format!(" class=\"{class}\"") };
    for (at, line) in lines.iter().enumerate() {
        let base = top + LINE * (at as f64 + 1.0) - 4.0;
        out.push_str(&format!("<text{class} x=\"{}\" y=\"{}\">{}</text>", number(x), number(base), escape(line)));
    }
}

/// Words on lines of at most so many letters, where a word is not longer by itself. A no-break space does not break.
fn wrap(text: &str, letters: usize) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in curl(text).split([' ', '\n']).filter(|word| !word.is_empty()) {
        match lines.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= letters => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}

/// A coordinate to a tenth, without needless noughts.
fn number(value: f64) -> String {
    let text = format!("{value:.1}");
    let text = text.strip_suffix(".0").unwrap_or(&text);
    if text == "-0" { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_wrapped_between_words_and_never_inside_a_figure() {
        assert_eq!(wrap("below 350\u{a0}cfm/ton", 12), ["below", "350\u{a0}cfm/ton"]);
        assert_eq!(wrap("the valve's outlet", 11), ["the valve’s", "outlet"]);
        assert_eq!(wrap("", 10), Vec::<String>::new());
    }

    /// So many columns of one box of that height, each led to by the one before.
    fn row(columns: usize, height: f64) -> Vec<Shape> {
        let doors = |at: usize| (at + 1 < columns).then_some(Door { at: 10.0, to: at + 1 });
        (0..columns).map(|at| Shape { height, entry: 10.0, doors: doors(at).into_iter().collect() }).collect()
    }

    #[test]
    fn a_long_tree_is_cut_so_that_it_is_largest_on_a_sheet() {
        // Strips of three columns are 780 wide, and 944 high is what a sheet then has: room for seven of 100, not of 200.
        let cut = |shapes: &[Shape]| {
            let strips = largest_strips(&lay(shapes, SPACING), shapes);
            (strips.len(), (strips[0].width / COLUMN).round())
        };
        assert_eq!(cut(&row(1, 400.0)), (1, 1.0));
        assert_eq!(cut(&row(3, 900.0)), (1, 3.0));
        assert_eq!(cut(&row(19, 100.0)), (7, 3.0));
        assert_eq!(cut(&row(19, 200.0)), (5, 4.0));
        // A cut stands where it leaves the least height: what is high is kept together.
        let mut shapes = row(5, 100.0);
        shapes[1].height = 600.0;
        shapes[2].height = 600.0;
        let strips = largest_strips(&lay(&shapes, SPACING), &shapes);
        let high = strips.iter().filter(|strip| strip.height() > 600.0);
        assert_eq!(high.count(), 1, "{strips:?}");
    }

    #[test]
    fn a_strip_is_as_high_as_what_it_holds() {
        let mut shapes = row(4, 50.0);
        shapes[3].height = 300.0;
        let layout = lay(&shapes, SPACING);
        let heights: Vec<f64> = strips(&layout, &shapes, 4, 2).iter().map(|strip| strip.height()).collect();
        assert_eq!(heights[0], 50.0 + 2.0 * MARGIN);
        assert!(heights[1] >= 300.0 && heights[1] <= layout.height + 2.0 * MARGIN);
    }

    #[test]
    fn coordinates_are_short_and_there_is_no_minus_nought() {
        assert_eq!([number(-0.04), number(2.0), number(-3.26)], ["0", "2", "-3.3"]);
    }
}
