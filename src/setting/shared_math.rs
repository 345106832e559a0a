//! One line of mathematics for both systems of units, where the two differ in little: what they share is written once,
//! and only what differs stands there twice. A formula of moist air differs in one temperature of its two kilobytes.

/// `us` and `si`, each a whole `<math>`, as one, whose `us` and `si` parts the style chooses among as everywhere. None where
/// they can't share, or where that would not be shorter than both.
pub(super) fn shared(us: &str, si: &str) -> Option<String> {
    let (a, b) = (tokens(us), tokens(si));
    let mut head = a.iter().zip(&b).take_while(|(a, b)| a == b).count();
    let most = a.len().min(b.len()) - head;
    let mut tail = a.iter().rev().zip(b.iter().rev()).take(most).take_while(|(a, b)| a == b).count();
    // Outward until both middles are whole elements in a row, and no operator stands at an edge, where it would be set as a sign.
    loop {
        if head < 2 || tail < 2 {
            return None;
        }
        let middles = [&a[head..a.len() - tail], &b[head..b.len() - tail]];
        let faults = middles.map(fault);
        if faults.contains(&Some(Side::Left)) {
            head -= 1;
        } else if faults.contains(&Some(Side::Right)) {
            tail -= 1;
        } else if !in_a_row(&a[..head]) {
            head -= 1;
            tail -= 1;
        } else {
            let [us_part, si_part] = middles.map(<[&str]>::concat);
            let (before, after) = (a[..head].concat(), a[a.len() - tail..].concat());
            let one = format!("{before}<mrow class=\"us\">{us_part}</mrow><mrow class=\"si\">{si_part}</mrow>{after}");
            return (one.len() < us.len() + si.len()).then_some(one);
        }
    }
}

/// Where a middle has to grow to be whole.
#[derive(Clone, Copy, PartialEq)]
enum Side {
    Left,
    Right,
}

/// Tags and the text between them.
fn tokens(math: &str) -> Vec<&str> {
    let mut tokens = Vec::new();
    let mut rest = math;
    while !rest.is_empty() {
        let end = match rest.starts_with('<') {
            true => rest.find('>').map_or(rest.len(), |at| at + 1),
            false => rest.find('<').unwrap_or(rest.len()),
        };
        let (token, more) = rest.split_at(end);
        tokens.push(token);
        rest = more;
    }
    tokens
}

fn fault(middle: &[&str]) -> Option<Side> {
    let (Some(first), Some(last)) = (middle.first(), middle.last()) else { return Some(Side::Left) };
    if !first.starts_with('<') || first.starts_with("</") || first.starts_with("<mo") {
        return Some(Side::Left);
    }
    let mut depth = 0;
    for token in middle {
        match token {
            closing if closing.starts_with("</") => depth -= 1,
            opening if opening.starts_with('<') => depth += 1,
            _ => {}
        }
        if depth < 0 {
            return Some(Side::Left);
        }
    }
    (depth > 0 || *last == "</mo>").then_some(Side::Right)
}

/// Whether what follows `head` stands in a row, and not in an element that has its children counted.
fn in_a_row(head: &[&str]) -> bool {
    let mut depth = 0;
    for token in head.iter().rev() {
        match token {
            closing if closing.starts_with("</") => depth += 1,
            opening if opening.starts_with('<') && depth > 0 => depth -= 1,
            opening if opening.starts_with('<') => {
                return ["<mrow", "<math", "<mtd", "<msqrt"].iter().any(|row| opening.starts_with(row));
            }
            _ => {}
        }
    }
    false
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What one system shows of a shared line.
    fn only(line: &str, system: &str) -> String {
        let (Some(us), Some(si)) = (line.find("<mrow class=\"us\">"), line.find("<mrow class=\"si\">")) else {
            panic!("{line} is not shared")
        };
        let inside = |from: usize| {
            let start = line[from..].find('>').unwrap() + from + 1;
            let mut depth = 1;
            let mut at = start;
            for token in tokens(&line[start..]) {
                depth += match token {
                    closing if closing.starts_with("</mrow") => -1,
                    opening if opening.starts_with("<mrow") => 1,
                    _ => 0,
                };
                if depth == 0 {
                    return (start, at, at + token.len());
                }
                at += token.len();
            }
            panic!("{line} is not closed")
        };
        let ((us_start, us_end, _), (si_start, si_end, after)) = (inside(us), inside(si));
        let (start, end) = if system == "us" { (us_start, us_end) } else { (si_start, si_end) };
        format!("{}{}{}", &line[..us], &line[start..end], &line[after..])
    }

    const BOUND: &str = "<math><mi>p</mi><mo>=</mo><mrow><mo>{</mo><mtable><mtr><mtd><mi>T</mi><mo>&lt;</mo><mn>32</mn><mtext> °F</mtext></mtd></mtr></mtable></mrow></math>";

    #[test]
    fn what_differs_stands_twice_and_the_rest_once() {
        let si = BOUND.replace("32", "0").replace("°F", "°C");
        let one = shared(BOUND, &si).unwrap();
        assert!(
            one.contains(
                "<mo>&lt;</mo><mrow class=\"us\"><mn>32</mn><mtext> °F</mtext></mrow><mrow class=\"si\"><mn>0</mn>"
            ),
            "{one}"
        );
        assert_eq!(only(&one, "us"), BOUND);
        assert_eq!(only(&one, "si"), si);
    }

    #[test]
    fn a_sign_and_a_child_that_is_counted_are_not_torn_off() {
        let us =
            "<math><mi>a</mi><mo>=</mo><mi>b</mi><mo>+</mo><mi>c</mi><mo>−</mo><mn>2</mn><mo>=</mo><mi>d</mi></math>";
        let si = us.replace("<mo>−</mo><mn>2", "<mo>+</mo><mn>3");
        let one = shared(us, &si).unwrap();
        assert!(one.contains("<mrow class=\"us\"><mi>c</mi><mo>−</mo><mn>2</mn></mrow>"), "{one}");
        assert_eq!((only(&one, "us"), only(&one, "si")), (us.to_owned(), si));
        let us = "<math><mi>alpha</mi><mo>=</mo><mi>beta</mi><mo>+</mo><mfrac><mn>1</mn><mn>2</mn></mfrac><mo>+</mo><mi>gamma</mi><mo>=</mo><mi>delta</mi></math>";
        let si = us.replace("<mn>2</mn>", "<mn>3</mn>");
        let one = shared(us, &si).unwrap();
        assert!(one.contains("<mrow class=\"us\"><mfrac>"), "{one}");
        assert_eq!((only(&one, "us"), only(&one, "si")), (us.to_owned(), si));
    }

    #[test]
    fn two_lines_that_have_nothing_in_common_share_nothing() {
        assert_eq!(shared("<math><mi>a</mi></math>", "<math><mn>1</mn></math>"), None);
    }
}
