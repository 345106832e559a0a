//! A layout as MathML Core, the mathematics that browsers set by themselves.

use std::fmt::Write as _;

use super::layout::{Layout, When};

/// How wide a side of an equation may become before its sums are broken into lines, in widths of the letter m, roughly:
/// what a sheet of paper has beside the names of the lines.
const ROOM: f64 = 36.0;

/// What is left of the room for a sum, however much stands beside it.
const LEAST_ROOM: f64 = 20.0;

/// A whole formula on a line of its own.
pub(super) fn line(layout: &Layout) -> String {
    format!("<math display=\"block\">{}</math>", row(layout, ROOM))
}

/// A letter with its subscript, in running text.
pub(super) fn letter(symbol: &str) -> String {
    format!("<math>{}</math>", self::symbol(symbol))
}

/// One element, as a fraction or a power wants it.
fn write(layout: &Layout, room: f64) -> String {
    match layout {
        Layout::Number(_)
        | Layout::Scientific(..)
        | Layout::Quantity(..)
        | Layout::Sum(_)
        | Layout::Product(_)
        | Layout::Negative(_)
        | Layout::Call(..)
        | Layout::Equation(_) => {
            let inside = row(layout, room);
            // A number alone is one element as it is.
            if inside.starts_with("<mn>") && matches!(layout, Layout::Number(_)) {
                inside
            } else {
                format!("<mrow>{inside}</mrow>")
            }
        }
        other => row(other, room),
    }
}

/// What stands in a row already: elements side by side need none of their own round them. What has parentheses or bars
/// keeps its own row, for these grow with the tallest thing beside them.
fn row(layout: &Layout, room: f64) -> String {
    match layout {
        Layout::Symbol(symbol) => self::symbol(symbol),
        Layout::Number(number) => number_element(number),
        Layout::Scientific(digits, exponent) => format!(
            "{}<mo>×</mo><msup><mn>10</mn>{}</msup>",
            number_element(digits),
            write(&Layout::Number(exponent.to_string().replace('-', "−")), room)
        ),
        Layout::Quantity(number, unit) => {
            format!("{}<mtext>\u{a0}{}</mtext>", number_element(number), escape(unit))
        }
        Layout::Unit(unit) => format!("<mtext>{}</mtext>", escape(unit)),
        Layout::Hole(hole) => code(&format!("F.set({})", hole.script)),
        Layout::Count(of, unit) => {
            let of = if matches!(**of, Layout::Symbol(_)) { write(of, room) } else { fenced(of, room) };
            format!("<mrow><mo>(</mo>{of}<mo>/</mo><mtext>{}</mtext><mo>)</mo></mrow>", escape(unit))
        }
        Layout::Word(word) => format!("<mtext>{}</mtext>", escape(word)),
        Layout::Sum(terms) => {
            let mut lines = Vec::new();
            let mut line = String::new();
            let mut so_far = 0.0;
            for (place, (taken_away, term)) in terms.iter().enumerate() {
                let width = width(term) + SIGN;
                if place > 0 && so_far + width > room {
                    lines.push(std::mem::take(&mut line));
                    so_far = 0.0;
                }
                so_far += width;
                match (place, taken_away) {
                    (0, false) => {}
                    (0, true) => line.push_str("<mo form=\"prefix\">−</mo>"),
                    (_, false) => line.push_str("<mo>+</mo>"),
                    (_, true) => line.push_str("<mo>−</mo>"),
                }
                line.push_str(&match term {
                    Layout::Sum(_) => fenced(term, room),
                    _ if place > 0 => unless_positive(term, room),
                    _ => self::row(term, room),
                });
            }
            if lines.is_empty() {
                return line;
            }
            lines.push(line);
            format!("<mtable><mtr><mtd>{}</mtd></mtr></mtable>", lines.join("</mtd></mtr><mtr><mtd>"))
        }
        Layout::Product(factors) => {
            let mut row = String::new();
            let all = width(layout);
            for (place, factor) in factors.iter().enumerate() {
                let room = (room - (all - width(factor))).max(LEAST_ROOM);
                if place > 0 {
                    row.push_str(if factor.stands_apart(&factors[place - 1]) {
                        "<mo>×</mo>"
                    } else {
                        "<mo rspace=\".17em\">\u{2062}</mo>"
                    });
                }
                row.push_str(&match factor {
                    Layout::Sum(_) | Layout::Negative(_) => fenced(factor, room),
                    _ if place > 0 => unless_positive(factor, room),
                    _ => self::row(factor, room),
                });
            }
            row
        }
        Layout::Fraction(top, bottom) => format!("<mfrac>{}{}</mfrac>", write(top, room), write(bottom, room)),
        Layout::Negative(inner) => {
            let inner = if matches!(**inner, Layout::Sum(_)) { fenced(inner, room) } else { self::row(inner, room) };
            format!("<mo form=\"prefix\">−</mo>{inner}")
        }
        Layout::Power(base, exponent) => {
            let atom = matches!(**base, Layout::Symbol(_) | Layout::Number(_) | Layout::Count(..));
            let base = match &**base {
                Layout::Hole(hole) => code(&format!("F.base({})", hole.script)),
                _ if atom => write(base, room),
                _ => fenced(base, room),
            };
            format!("<msup>{base}{}</msup>", write(exponent, room))
        }
        Layout::Root(inner) => format!("<msqrt>{}</msqrt>", row(inner, room)),
        Layout::Magnitude(inner) => format!("<mrow><mo>|</mo>{}<mo>|</mo></mrow>", row(inner, room)),
        Layout::Call(name, at) => {
            // A count brings parentheses of its own.
            if let [count @ Layout::Count(..)] = at.as_slice() {
                return format!("{}<mo>\u{2061}</mo>{}", self::symbol(name), write(count, room));
            }
            let at: Vec<String> = at.iter().map(|at| self::row(at, room - 2.0)).collect();
            format!("{}<mo>\u{2061}</mo><mrow><mo>(</mo>{}<mo>)</mo></mrow>", self::symbol(name), at.join("<mo>,</mo>"))
        }
        Layout::Cases(cases) => {
            let mut rows = String::new();
            let room = room - WHEN;
            for (value, when) in cases {
                let when = match when {
                    When::Compared(left, sign, right) => {
                        format!(
                            "<mtext>if\u{a0}</mtext>{}<mo>{}</mo>{}",
                            row(left, room),
                            escape(sign),
                            row(right, room)
                        )
                    }
                    When::Given(name) => format!("<mtext>if the {} is given</mtext>", escape(name)),
                    When::Otherwise => "<mtext>otherwise</mtext>".to_owned(),
                };
                let _ = write!(rows, "<mtr><mtd>{}</mtd><mtd>{when}</mtd></mtr>", row(value, room));
            }
            format!("<mrow><mo>{{</mo><mtable>{rows}</mtable></mrow>")
        }
        Layout::Equation(sides) => {
            let sides: Vec<String> = sides.iter().map(|side| self::row(side, room)).collect();
            sides.join("<mo>=</mo>")
        }
    }
}

/// In parentheses where it begins with a minus sign; where only the page knows that, the page puts them.
fn unless_positive(layout: &Layout, room: f64) -> String {
    match layout.begins_with_hole() {
        Some(hole) => format!(
            "{}{}{}",
            code(&format!("F.open({})", hole.script)),
            row(layout, room),
            code(&format!("F.shut({})", hole.script))
        ),
        None if layout.begins_negative() => fenced(layout, room),
        None => row(layout, room),
    }
}

/// The room of a sign between two terms, of a unit's or a word's letter, of a pair of parentheses, and of what says when a
/// case is taken.
const SIGN: f64 = 1.3;
const SMALL_LETTER: f64 = 0.45;
const PARENTHESES: f64 = 0.8;
const WHEN: f64 = 8.0;

/// How wide a layout is in one line, roughly. Each figure counts alike, so that a line breaks at the same places with
/// figures and in a page that only has holes for them.
fn width(layout: &Layout) -> f64 {
    let words = |text: &str| SMALL_LETTER * text.chars().count() as f64;
    let widest = |all: &[&Layout]| all.iter().map(|one| width(one)).fold(0.0, f64::max);
    match layout {
        Layout::Symbol(symbol) => 0.8 + words(symbol.split_once('_').map_or("", |(_, below)| below)),
        Layout::Number(_) | Layout::Scientific(..) | Layout::Quantity(..) | Layout::Hole(_) => 4.0,
        Layout::Unit(text) => words(text),
        Layout::Word(text) => words(text),
        Layout::Count(of, unit) => width(of) + words(unit) + PARENTHESES,
        Layout::Sum(terms) => terms.iter().map(|(_, term)| width(term) + SIGN).sum(),
        Layout::Product(factors) => factors.iter().map(|factor| width(factor) + SIGN).sum(),
        Layout::Fraction(top, bottom) => widest(&[top, bottom]),
        Layout::Negative(inner) | Layout::Root(inner) | Layout::Magnitude(inner) => width(inner) + SIGN,
        Layout::Power(base, exponent) => width(base) + PARENTHESES + 0.7 * width(exponent),
        Layout::Call(_, at) => 2.0 + at.iter().map(width).sum::<f64>(),
        Layout::Cases(cases) => WHEN + cases.iter().map(|(value, _)| width(value)).fold(0.0, f64::max),
        Layout::Equation(sides) => sides.iter().map(|side| width(side) + SIGN).sum(),
    }
}

/// What stands around a piece of script in mathematics that a page completes. Neither may stand in a page.
const CODE: [char; 2] = ['\u{e000}', '\u{e001}'];

fn code(script: &str) -> String {
    format!("{}{script}{}", CODE[0], CODE[1])
}

/// A side of an equation as a JavaScript template, its holes filled by the functions of `F`.
pub(super) fn template(layout: &Layout) -> String {
    let mut template = String::from("`");
    for c in write(layout, ROOM).chars() {
        match c {
            c if c == CODE[0] => template.push_str("${"),
            c if c == CODE[1] => template.push('}'),
            '`' | '\\' => template.extend(['\\', c]),
            other => template.push(other),
        }
    }
    template + "`"
}

fn fenced(layout: &Layout, room: f64) -> String {
    format!("<mrow><mo>(</mo>{}<mo>)</mo></mrow>", row(layout, room))
}

fn number_element(number: &str) -> String {
    match number.strip_prefix('−') {
        Some(size) => format!("<mo form=\"prefix\">−</mo><mn>{size}</mn>"),
        None => format!("<mn>{number}</mn>"),
    }
}

/// `Δp_s,1` as a letter, upright where it has more than one, and its subscript.
fn symbol(symbol: &str) -> String {
    let (head, below) = match symbol.split_once('_') {
        Some((head, below)) => (head, Some(below)),
        None => (symbol, None),
    };
    let head = match head.strip_prefix('Δ') {
        Some(rest) if !rest.is_empty() => {
            format!("<mrow><mi mathvariant=\"normal\">Δ</mi><mi>{}</mi></mrow>", escape(rest))
        }
        _ => format!("<mi>{}</mi>", escape(head)),
    };
    match below {
        Some(below) if below.bytes().all(|byte| byte.is_ascii_digit()) => {
            format!("<msub>{head}<mn>{below}</mn></msub>")
        }
        Some(below) => format!("<msub>{head}<mtext>{}</mtext></msub>", escape(below)),
        None => head,
    }
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_long_sum_is_broken_before_a_sign_at_the_same_places_whatever_figures_stand_in_it() {
        let broken = |figure: &dyn Fn() -> Layout| {
            let term = || (false, Layout::Product(vec![figure(), Layout::Symbol("x"), figure()]));
            let sum = Layout::Sum(vec![term(), term(), term(), term()]);
            write(&Layout::Call("exp", vec![sum]), ROOM)
                .split("<mtr>")
                .map(|line| line.matches("<mo>+</mo>").count())
                .collect::<Vec<_>>()
        };
        let figures = broken(&|| Layout::Number("−21.2144006".to_owned()));
        // What stands before the table, and its lines.
        assert_eq!(figures, [0, 1, 2]);
        assert_eq!(broken(&|| Layout::Quantity("3".to_owned(), "°F")), figures);
        assert_eq!(
            broken(&|| Layout::Hole(super::super::layout::Hole { script: "n".to_owned(), pure: true })),
            figures
        );
        assert_eq!(broken(&|| Layout::Symbol("k")), [3]);
    }

    #[test]
    fn parentheses_stand_where_a_reader_needs_them_and_nowhere_else() {
        let letter = |name| Layout::Symbol(name);
        let sum = Layout::Sum(vec![(false, letter("a")), (true, letter("b"))]);
        assert_eq!(
            write(&Layout::Fraction(Box::new(sum.clone()), Box::new(letter("c"))), ROOM),
            "<mfrac><mrow><mi>a</mi><mo>−</mo><mi>b</mi></mrow><mi>c</mi></mfrac>"
        );
        assert!(write(&Layout::Product(vec![letter("c"), sum]), ROOM).contains("<mo>(</mo>"));
        assert_eq!(symbol("T_line"), "<msub><mi>T</mi><mtext>line</mtext></msub>");
        assert_eq!(symbol("Δp"), "<mrow><mi mathvariant=\"normal\">Δ</mi><mi>p</mi></mrow>");
    }
}
