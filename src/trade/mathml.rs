//! A layout as MathML Core, the mathematics that browsers set by themselves.

use std::fmt::Write as _;

use super::layout::{Layout, When};

/// A whole formula on a line of its own.
pub(super) fn line(layout: &Layout) -> String {
    format!("<math display=\"block\">{}</math>", row(layout))
}

/// A letter with its subscript, in running text.
pub(super) fn letter(symbol: &str) -> String {
    format!("<math>{}</math>", self::symbol(symbol))
}

/// One element, as a fraction or a power wants it.
fn write(layout: &Layout) -> String {
    match layout {
        Layout::Number(_)
        | Layout::Scientific(..)
        | Layout::Quantity(..)
        | Layout::Sum(_)
        | Layout::Product(_)
        | Layout::Negative(_)
        | Layout::Call(..)
        | Layout::Equation(_) => {
            let inside = row(layout);
            // A number alone is one element as it is.
            if inside.starts_with("<mn>") && matches!(layout, Layout::Number(_)) {
                inside
            } else {
                format!("<mrow>{inside}</mrow>")
            }
        }
        other => row(other),
    }
}

/// What stands in a row already: elements side by side need none of their own round them. What has parentheses or bars
/// keeps its own row, for these grow with the tallest thing beside them.
fn row(layout: &Layout) -> String {
    match layout {
        Layout::Symbol(symbol) => self::symbol(symbol),
        Layout::Number(number) => number_element(number),
        Layout::Scientific(digits, exponent) => format!(
            "{}<mo>×</mo><msup><mn>10</mn>{}</msup>",
            number_element(digits),
            write(&Layout::Number(exponent.to_string().replace('-', "−")))
        ),
        Layout::Quantity(number, unit) => {
            format!("{}<mtext>\u{a0}{}</mtext>", number_element(number), escape(unit))
        }
        Layout::Unit(unit) => format!("<mtext>{}</mtext>", escape(unit)),
        Layout::Hole(hole) => code(&format!("F.set({})", hole.script)),
        Layout::Count(of, unit) => {
            let of = if matches!(**of, Layout::Symbol(_)) { write(of) } else { fenced(of) };
            format!("<mrow><mo>(</mo>{of}<mo>/</mo><mtext>{}</mtext><mo>)</mo></mrow>", escape(unit))
        }
        Layout::Word(word) => format!("<mtext>{}</mtext>", escape(word)),
        Layout::Sum(terms) => {
            let mut row = String::new();
            for (place, (taken_away, term)) in terms.iter().enumerate() {
                match (place, taken_away) {
                    (0, false) => {}
                    (0, true) => row.push_str("<mo form=\"prefix\">−</mo>"),
                    (_, false) => row.push_str("<mo>+</mo>"),
                    (_, true) => row.push_str("<mo>−</mo>"),
                }
                row.push_str(&match term {
                    Layout::Sum(_) => fenced(term),
                    _ if place > 0 => unless_positive(term),
                    _ => self::row(term),
                });
            }
            row
        }
        Layout::Product(factors) => {
            let mut row = String::new();
            for (place, factor) in factors.iter().enumerate() {
                if place > 0 {
                    row.push_str(if factor.stands_apart(&factors[place - 1]) {
                        "<mo>×</mo>"
                    } else {
                        "<mo rspace=\".17em\">\u{2062}</mo>"
                    });
                }
                row.push_str(&match factor {
                    Layout::Sum(_) | Layout::Negative(_) => fenced(factor),
                    _ if place > 0 => unless_positive(factor),
                    _ => self::row(factor),
                });
            }
            row
        }
        Layout::Fraction(top, bottom) => format!("<mfrac>{}{}</mfrac>", write(top), write(bottom)),
        Layout::Negative(inner) => {
            let inner = if matches!(**inner, Layout::Sum(_)) { fenced(inner) } else { self::row(inner) };
            format!("<mo form=\"prefix\">−</mo>{inner}")
        }
        Layout::Power(base, exponent) => {
            let atom = matches!(**base, Layout::Symbol(_) | Layout::Number(_) | Layout::Count(..));
            let base = match &**base {
                Layout::Hole(hole) => code(&format!("F.base({})", hole.script)),
                _ if atom => write(base),
                _ => fenced(base),
            };
            format!("<msup>{base}{}</msup>", write(exponent))
        }
        Layout::Root(inner) => format!("<msqrt>{}</msqrt>", row(inner)),
        Layout::Magnitude(inner) => format!("<mrow><mo>|</mo>{}<mo>|</mo></mrow>", row(inner)),
        Layout::Call(name, at) => {
            // A count brings parentheses of its own.
            if let [count @ Layout::Count(..)] = at.as_slice() {
                return format!("{}<mo>\u{2061}</mo>{}", self::symbol(name), write(count));
            }
            let at: Vec<String> = at.iter().map(self::row).collect();
            format!("{}<mo>\u{2061}</mo><mrow><mo>(</mo>{}<mo>)</mo></mrow>", self::symbol(name), at.join("<mo>,</mo>"))
        }
        Layout::Cases(cases) => {
            let mut rows = String::new();
            for (value, when) in cases {
                let when = match when {
                    When::Compared(left, sign, right) => {
                        format!("<mtext>if\u{a0}</mtext>{}<mo>{}</mo>{}", row(left), escape(sign), row(right))
                    }
                    When::Given(name) => format!("<mtext>if the {} is given</mtext>", escape(name)),
                    When::Otherwise => "<mtext>otherwise</mtext>".to_owned(),
                };
                let _ = write!(rows, "<mtr><mtd>{}</mtd><mtd>{when}</mtd></mtr>", row(value));
            }
            format!("<mrow><mo>{{</mo><mtable>{rows}</mtable></mrow>")
        }
        Layout::Equation(sides) => {
            let sides: Vec<String> = sides.iter().map(self::row).collect();
            sides.join("<mo>=</mo>")
        }
    }
}

/// In parentheses where it begins with a minus sign; where only the page knows that, the page puts them.
fn unless_positive(layout: &Layout) -> String {
    match layout.begins_with_hole() {
        Some(hole) => format!(
            "{}{}{}",
            code(&format!("F.open({})", hole.script)),
            row(layout),
            code(&format!("F.shut({})", hole.script))
        ),
        None if layout.begins_negative() => fenced(layout),
        None => row(layout),
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
    for c in write(layout).chars() {
        match c {
            c if c == CODE[0] => template.push_str("${"),
            c if c == CODE[1] => template.push('}'),
            '`' | '\\' => template.extend(['\\', c]),
            other => template.push(other),
        }
    }
    template + "`"
}

fn fenced(layout: &Layout) -> String {
    format!("<mrow><mo>(</mo>{}<mo>)</mo></mrow>", row(layout))
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
    fn parentheses_stand_where_a_reader_needs_them_and_nowhere_else() {
        let letter = |name| Layout::Symbol(name);
        let sum = Layout::Sum(vec![(false, letter("a")), (true, letter("b"))]);
        assert_eq!(
            write(&Layout::Fraction(Box::new(sum.clone()), Box::new(letter("c")))),
            "<mfrac><mrow><mi>a</mi><mo>−</mo><mi>b</mi></mrow><mi>c</mi></mfrac>"
        );
        assert!(write(&Layout::Product(vec![letter("c"), sum])).contains("<mo>(</mo>"));
        assert_eq!(symbol("T_line"), "<msub><mi>T</mi><mtext>line</mtext></msub>");
        assert_eq!(symbol("Δp"), "<mrow><mi mathvariant=\"normal\">Δ</mi><mi>p</mi></mrow>");
    }
}
