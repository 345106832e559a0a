//! A layout as one line of plain text, for a terminal.

use super::layout::{Hole, Layout, When};

impl Layout {
    /// Whether it needs a sign of multiplication after `before`, so that the two don't run together.
    pub(super) fn stands_apart(&self, before: &Layout) -> bool {
        match before {
            Layout::Quantity(..) | Layout::Hole(Hole { pure: false, .. }) => true,
            Layout::Number(_) | Layout::Scientific(..) | Layout::Hole(_) => {
                !matches!(self, Layout::Symbol(_) | Layout::Count(..) | Layout::Unit(_)) || self.begins_with_number()
            }
            _ => self.begins_with_number(),
        }
    }

    fn begins_with_number(&self) -> bool {
        match self {
            Layout::Number(_) | Layout::Scientific(..) | Layout::Quantity(..) | Layout::Hole(_) => true,
            Layout::Power(base, _) => base.begins_with_number(),
            Layout::Fraction(top, _) => top.begins_with_number(),
            _ => false,
        }
    }

    /// The figure it begins with, where that is known in the page only.
    pub(super) fn begins_with_hole(&self) -> Option<&Hole> {
        match self {
            Layout::Hole(hole) => Some(hole),
            Layout::Product(factors) => factors.first().and_then(Layout::begins_with_hole),
            Layout::Fraction(top, _) => top.begins_with_hole(),
            _ => None,
        }
    }

    /// Whether it begins with a minus sign.
    pub(super) fn begins_negative(&self) -> bool {
        match self {
            Layout::Number(text) | Layout::Scientific(text, _) | Layout::Quantity(text, _) => text.starts_with('−'),
            Layout::Negative(_) => true,
            Layout::Product(factors) => factors.first().is_some_and(Layout::begins_negative),
            Layout::Fraction(top, _) => top.begins_negative(),
            _ => false,
        }
    }
}

/// How tightly a layout holds together.
#[derive(PartialEq, PartialOrd)]
enum Hold {
    Sum,
    Product,
    Power,
    Atom,
}

fn hold(layout: &Layout) -> Hold {
    match layout {
        Layout::Sum(_) | Layout::Cases(_) | Layout::Equation(_) => Hold::Sum,
        Layout::Product(_) | Layout::Fraction(..) | Layout::Negative(_) | Layout::Scientific(..) => Hold::Product,
        Layout::Power(..) | Layout::Quantity(..) => Hold::Power,
        Layout::Number(text) if text.starts_with('−') => Hold::Product,
        _ => Hold::Atom,
    }
}

/// The whole line.
pub(super) fn line(layout: &Layout) -> String {
    match layout {
        Layout::Symbol(symbol) => (*symbol).to_owned(),
        Layout::Number(number) => number.clone(),
        Layout::Scientific(digits, exponent) => format!("{digits} × 10{}", superscript(&exponent.to_string())),
        Layout::Quantity(number, unit) => format!("{number}\u{a0}{unit}"),
        Layout::Unit(unit) => (*unit).to_owned(),
        Layout::Hole(hole) => format!("{{{}}}", hole.script),
        Layout::Count(of, unit) => format!("({} in {unit})", at_least(of, Hold::Power)),
        Layout::Word(word) => word.clone(),
        Layout::Sum(terms) => {
            let mut text = String::new();
            for (place, (taken_away, term)) in terms.iter().enumerate() {
                text.push_str(match (place, taken_away) {
                    (0, false) => "",
                    (0, true) => "−",
                    (_, false) => " + ",
                    (_, true) => " − ",
                });
                let fence = place > 0 && term.begins_negative();
                text.push_str(&if fence { format!("({})", line(term)) } else { at_least(term, Hold::Product) });
            }
            text
        }
        Layout::Product(factors) => {
            let mut text = String::new();
            for (place, factor) in factors.iter().enumerate() {
                if place > 0 {
                    text.push_str(if factor.stands_apart(&factors[place - 1]) { " × " } else { " " });
                }
                let fence = matches!(factor, Layout::Fraction(..)) || (place > 0 && factor.begins_negative());
                text.push_str(&if fence { format!("({})", line(factor)) } else { at_least(factor, Hold::Product) });
            }
            text
        }
        Layout::Fraction(top, bottom) => {
            format!("{} / {}", at_least(top, Hold::Product), at_least(bottom, Hold::Power))
        }
        Layout::Negative(inner) => format!("−{}", at_least(inner, Hold::Product)),
        Layout::Power(base, exponent) => {
            let exponent = line(exponent);
            let base = at_least(base, Hold::Atom);
            if exponent.strip_prefix('−').unwrap_or(&exponent).bytes().all(|byte| byte.is_ascii_digit()) {
                format!("{base}{}", superscript(&exponent))
            } else if exponent.contains(' ') {
                format!("{base}^({exponent})")
            } else {
                format!("{base}^{exponent}")
            }
        }
        Layout::Root(inner) => format!("√({})", line(inner)),
        Layout::Magnitude(inner) => format!("|{}|", line(inner)),
        Layout::Call(name, at) => {
            // A count brings parentheses of its own.
            if let [count @ Layout::Count(..)] = at.as_slice() {
                return format!("{name}{}", line(count));
            }
            let at: Vec<String> = at.iter().map(line).collect();
            format!("{name}({})", at.join(", "))
        }
        Layout::Cases(cases) => {
            let cases: Vec<String> = cases
                .iter()
                .map(|(value, when)| {
                    let value = single(value);
                    match when {
                        When::Compared(left, sign, right) => {
                            format!("{value} if {} {sign} {}", line(left), line(right))
                        }
                        When::Given(name) => format!("{value} if the {name} is given"),
                        When::Otherwise => format!("{value} otherwise"),
                    }
                })
                .collect();
            cases.join("; ")
        }
        Layout::Equation(sides) => {
            // The last side may run on to the end of the line.
            let last = sides.len().saturating_sub(1);
            let sides =
                sides.iter().enumerate().map(|(place, side)| if place == last { line(side) } else { single(side) });
            sides.collect::<Vec<_>>().join(" = ")
        }
    }
}

/// Alternatives in parentheses, anything else as it is.
fn single(layout: &Layout) -> String {
    if matches!(layout, Layout::Cases(_)) { format!("({})", line(layout)) } else { line(layout) }
}

fn at_least(layout: &Layout, wanted: Hold) -> String {
    if hold(layout) < wanted { format!("({})", line(layout)) } else { line(layout) }
}

fn superscript(number: &str) -> String {
    number
        .chars()
        .map(|c| match c {
            '-' | '−' => '⁻',
            '1' => '¹',
            '2' => '²',
            '3' => '³',
            '0' | '4'..='9' => char::from_u32(0x2070 + c as u32 - '0' as u32).unwrap_or(c),
            other => other,
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_of_plain_text_keeps_the_order_of_the_operations() {
        let letter = |name| Layout::Symbol(name);
        let sum = Layout::Sum(vec![(false, letter("a")), (true, letter("b"))]);
        let fraction =
            Layout::Fraction(Box::new(sum.clone()), Box::new(Layout::Product(vec![letter("c"), letter("d")])));
        assert_eq!(line(&fraction), "(a − b) / (c d)");
        assert_eq!(line(&Layout::Power(Box::new(sum), Box::new(Layout::Number("2".into())))), "(a − b)²");
        let numbers = Layout::Product(vec![Layout::Quantity("3".into(), "ft"), Layout::Quantity("4".into(), "lb/ft³")]);
        assert_eq!(line(&numbers), "3\u{a0}ft × 4\u{a0}lb/ft³");
        assert_eq!(line(&Layout::Scientific("1.5".into(), -8)), "1.5 × 10⁻⁸");
    }
}
