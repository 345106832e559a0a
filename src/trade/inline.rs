//! A layout as one line of running text in HTML, where it needs no more than letters, subscripts and powers. Most lines of
//! a working do; set so they read like the rest of the page, and weigh a third of what they weigh as MathML.

use super::layout::Layout;

/// The whole line; none where it has a fraction, a root or alternatives, which want more than one line of text.
pub(super) fn line(layout: &Layout) -> Option<String> {
    Some(match layout {
        Layout::Symbol(symbol) => self::symbol(symbol),
        Layout::Number(number) => number.clone(),
        Layout::Scientific(digits, exponent) => {
            format!("{digits} × 10<sup>{}</sup>", exponent.to_string().replace('-', "−"))
        }
        Layout::Quantity(number, unit) => format!("{number}\u{a0}{}", escape(unit)),
        Layout::Unit(unit) => escape(unit),
        Layout::Word(word) => escape(word),
        // Only mathematics that a page completes has holes, and that is set as MathML.
        Layout::Hole(_) => return None,
        Layout::Sum(terms) => {
            let mut row = String::new();
            for (place, (taken_away, term)) in terms.iter().enumerate() {
                row.push_str(match (place, taken_away) {
                    (0, false) => "",
                    (0, true) => "−",
                    (_, false) => " + ",
                    (_, true) => " − ",
                });
                let fenced = matches!(term, Layout::Sum(_)) || (place > 0 && term.begins_negative());
                row.push_str(&self::fenced(term, fenced)?);
            }
            row
        }
        Layout::Product(factors) => {
            let mut row = String::new();
            for (place, factor) in factors.iter().enumerate() {
                if place > 0 {
                    row.push_str(if factor.stands_apart(&factors[place - 1]) { " × " } else { "\u{a0}" });
                }
                let weak =
                    matches!(factor, Layout::Sum(_) | Layout::Negative(_)) || (place > 0 && factor.begins_negative());
                row.push_str(&fenced(factor, weak)?);
            }
            row
        }
        Layout::Negative(inner) => format!("−{}", fenced(inner, matches!(**inner, Layout::Sum(_)))?),
        Layout::Power(base, exponent) => {
            let atom = matches!(**base, Layout::Symbol(_) | Layout::Number(_));
            format!("{}<sup>{}</sup>", fenced(base, !atom)?, line(exponent)?)
        }
        Layout::Magnitude(inner) => format!("|{}|", line(inner)?),
        Layout::Call(name, at) => {
            let at: Option<Vec<String>> = at.iter().map(line).collect();
            format!("{}({})", self::symbol(name), at?.join(", "))
        }
        Layout::Equation(sides) => {
            let sides: Option<Vec<String>> = sides.iter().map(line).collect();
            sides?.join(" = ")
        }
        Layout::Count(..) | Layout::Fraction(..) | Layout::Root(_) | Layout::Cases(_) => return None,
    })
}

fn fenced(layout: &Layout, in_parentheses: bool) -> Option<String> {
    let inside = line(layout)?;
    Some(if in_parentheses { format!("({inside})") } else { inside })
}

/// `Δp_s,1` as a letter and its subscript: slanted where it is one letter, upright where it is an abbreviation.
fn symbol(symbol: &str) -> String {
    let (head, below) = symbol.split_once('_').unwrap_or((symbol, ""));
    let (delta, letter) = head.strip_prefix('Δ').map_or(("", head), |letter| ("Δ", letter));
    let letter = if letter.chars().count() == 1 { format!("<i>{}</i>", escape(letter)) } else { escape(letter) };
    let below = if below.is_empty() { String::new() } else { format!("<sub>{}</sub>", escape(below)) };
    format!("{delta}{letter}{below}")
}

fn escape(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_plain_line_is_text_and_a_fraction_is_not() {
        let read = |n: &str| Layout::Quantity(n.to_owned(), "°F");
        let sum = Layout::Sum(vec![(false, read("70")), (true, read("−11.63"))]);
        let sides = vec![Layout::Symbol("SH"), sum.clone(), read("81.6")];
        assert_eq!(
            line(&Layout::Equation(sides)).as_deref(),
            Some("SH = 70\u{a0}°F − (−11.63\u{a0}°F) = 81.6\u{a0}°F")
        );
        let call = Layout::Call("T_dew", vec![Layout::Word("R-410A".to_owned()), Layout::Symbol("Δp_s")]);
        assert_eq!(line(&call).as_deref(), Some("<i>T</i><sub>dew</sub>(R-410A, Δ<i>p</i><sub>s</sub>)"));
        let product = Layout::Product(vec![Layout::Symbol("c"), sum.clone()]);
        assert_eq!(line(&product).as_deref(), Some("<i>c</i>\u{a0}(70\u{a0}°F − (−11.63\u{a0}°F))"));
        assert_eq!(line(&Layout::Fraction(Box::new(sum.clone()), Box::new(sum))), None);
    }
}
