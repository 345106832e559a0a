//! The list of computations, and finding one by its name.

use std::sync::LazyLock;

use super::computation::Computation;
use super::entries;
use super::error::TradeError;
use crate::quantity;

static CATALOGUE: LazyLock<Vec<Computation>> = LazyLock::new(entries::all);

/// Every computation there is, in the order of the reference.
pub fn catalogue() -> &'static [Computation] {
    &CATALOGUE
}

/// The computation of this name; case, hyphens, underscores and spaces are all alike.
pub fn find(name: &str) -> Option<&'static Computation> {
    let asked = quantity::plain_words(name);
    catalogue().iter().find(|computation| quantity::plain_words(computation.name) == asked)
}

/// The name most like `name`, or none where nothing is near.
pub fn nearest(name: &str) -> Option<&'static str> {
    quantity::nearest(name, catalogue().iter().map(|computation| computation.name))
}

/// As [`find`], with an error that names the nearest.
///
/// # Errors
/// [`TradeError::UnknownComputation`].
pub fn require(name: &str) -> Result<&'static Computation, TradeError> {
    find(name).ok_or_else(|| TradeError::UnknownComputation { typed: name.to_owned(), nearest: nearest(name) })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Kind, Pressure, System, Value, Written, read};
    use crate::trade::expression::{Expr, Node};
    use crate::trade::roster::refrigerant;
    use crate::trade::{Given, InputKind, Surroundings, reckon};
    use std::collections::BTreeSet;

    #[test]
    fn names_are_single_and_can_be_typed() {
        let mut names = BTreeSet::new();
        for c in catalogue() {
            assert!(names.insert(c.name), "two computations are called {}", c.name);
            assert!(c.name.bytes().all(|b| b.is_ascii_lowercase() || b.is_ascii_digit() || b == b'-'), "{}", c.name);
            assert!(std::ptr::eq(find(&c.name.to_uppercase().replace('-', " ")).unwrap(), c));
            let inputs: BTreeSet<&str> = c.inputs().iter().map(|input| input.name).collect();
            assert_eq!(inputs.len(), c.inputs().len(), "{} names an input twice", c.name);
        }
        assert_eq!(nearest("super-heat"), Some("superheat"));
        assert_eq!(
            require("dew-temprature").unwrap_err().to_string(),
            "there is no computation `dew-temprature`; the nearest is `dew-temperature`"
        );
    }

    #[test]
    fn every_entry_says_what_it_is_for_and_where_it_comes_from() {
        for c in catalogue() {
            assert!(c.purpose.ends_with('.'), "{} lacks a purpose", c.name);
            assert!(!c.source.text.is_empty(), "{} lacks a source", c.name);
            assert!(!c.title.is_empty() && !c.answer.name.is_empty() && !c.answer.symbol.is_empty(), "{}", c.name);
            for (unit, _) in [c.answer.showing.us, c.answer.showing.si] {
                assert_eq!(unit.kind, c.answer.kind, "{} shows its answer in {}", c.name, unit.symbol);
            }
        }
    }

    #[test]
    fn dimensions_agree_in_every_formula() {
        for c in catalogue() {
            assert_eq!(c.check_dimensions(), Ok(()), "{}", c.name);
        }
    }

    #[test]
    fn every_letter_of_a_formula_stands_for_one_thing() {
        for c in catalogue() {
            let mut letters: BTreeSet<&str> = BTreeSet::new();
            for letter in c.legend(System::Us) {
                assert!(letters.insert(letter.symbol), "{} uses `{}` for two things", c.name, letter.symbol);
            }
            for function in c.functions() {
                assert!(letters.insert(function.symbol), "{} uses `{}` for two things", c.name, function.symbol);
            }
        }
    }

    #[test]
    fn every_input_is_asked_for_and_everything_asked_for_is_an_input() {
        for c in catalogue() {
            for input in c.inputs() {
                assert!(c.asks_for(input) || input.name == "altitude", "{} never uses {}", c.name, input.name);
                if let InputKind::Quantity(kind) = input.kind {
                    for written in input.range.iter().flat_map(|(low, high)| [low, high]) {
                        assert_eq!(written.unit.kind, kind, "{}: range of {}", c.name, input.name);
                    }
                }
            }
            c.walk(&mut |expr| {
                let used = match expr.node() {
                    Node::Input(input) | Node::IfGiven(input, _, _) | Node::Property(_, input, _) => input.name,
                    _ => return,
                };
                assert!(c.input(used).is_some(), "{} asks for {used}, which is no input", c.name);
            });
        }
    }

    /// Pressures and temperatures of a refrigerant are bounded by its own equation, which says so; everything else by
    /// the entry.
    #[test]
    fn every_input_has_a_range_or_a_refrigerant_that_has_one() {
        for c in catalogue() {
            let has_fluid = c.inputs().iter().any(|input| input.kind == InputKind::Refrigerant);
            for input in c.inputs().iter().filter(|input| input.range.is_none()) {
                let bounded = match input.kind {
                    InputKind::Refrigerant => true,
                    InputKind::Quantity(Kind::Pressure | Kind::Temperature) => has_fluid,
                    InputKind::Quantity(_) => false,
                };
                assert!(bounded, "{}: {} has no range", c.name, input.name);
            }
        }
    }

    /// What `c` says of its worked figures with `si` for one of the inputs; none where it has an answer.
    fn refusal(c: &'static Computation, input: &str, kind: Kind, si: f64) -> Option<TradeError> {
        let mut given = c.worked.given(c, &refrigerant).unwrap();
        given.retain(|name, _| quantity::plain_words(name) != input);
        given.insert(input.to_owned(), Given::Value(Value::of(kind, si)));
        reckon(c, &given, &Surroundings::default()).err()
    }

    #[test]
    fn just_beyond_either_end_of_a_range_is_refused_with_the_range_and_the_end_itself_is_not() {
        let mut tried = 0;
        for c in catalogue() {
            for input in c.inputs() {
                let (Some((low, high)), Some(kind)) = (&input.range, input.quantity_kind()) else { continue };
                let si = |written: &Written| written.unit.to_si(written.number, Pressure::STANDARD_ATMOSPHERE);
                let step = 1e-6 * (si(high) - si(low));
                assert!(step > 0.0, "{}: {} is held from {low} to {high}", c.name, input.name);
                let outside = |error: &TradeError| match error {
                    TradeError::OutsideRange { input: named, .. } => *named == input.name,
                    TradeError::Altitude(_) => input.name == "altitude",
                    _ => false,
                };
                for (end, beyond) in [(low, si(low) - step), (high, si(high) + step)] {
                    let told = refusal(c, input.name, kind, beyond)
                        .unwrap_or_else(|| panic!("{}: {} beyond {end} is taken", c.name, input.name));
                    assert!(outside(&told), "{}: {} beyond {end}: {told}", c.name, input.name);
                    let told = told.to_string().replace('−', "-").replace([',', '\u{a0}', ' '], "");
                    for said in [low, high] {
                        let said = said.to_string().replace('−', "-").replace([',', '\u{a0}', ' '], "");
                        assert!(told.contains(&said), "{}: {} beyond {end} is told `{told}`", c.name, input.name);
                    }
                    let at_the_end = refusal(c, input.name, kind, si(end));
                    assert!(
                        !at_the_end.as_ref().is_some_and(outside),
                        "{}: {} at {end}: {at_the_end:?}",
                        c.name,
                        input.name
                    );
                    tried += 1;
                }
            }
        }
        assert!(tried > 400, "{tried}");
    }

    /// A temperature or a pressure that no refrigerant can have is refused where its entry leaves it to the refrigerant.
    /// However low a pressure is, there is a vapor that has it.
    #[test]
    fn what_a_refrigerant_has_no_answer_for_is_refused() {
        let mut taken = Vec::new();
        for c in catalogue() {
            for input in c.inputs().iter().filter(|input| input.range.is_none()) {
                let beyond: &[f64] = match input.quantity_kind() {
                    Some(Kind::Temperature) => &[20.0, 5000.0],
                    Some(Kind::Pressure) => &[1e12],
                    _ => continue,
                };
                for &si in beyond {
                    if refusal(c, input.name, input.quantity_kind().unwrap(), si).is_none() {
                        taken.push(format!("{}: {} of {si}", c.name, input.name));
                    }
                }
            }
        }
        assert_eq!(taken, Vec::<String>::new());
    }

    /// A step is worked out once and shown on a line of its own, so nothing in it may depend on an unknown; and what
    /// is searched for has a line of its own too.
    #[test]
    fn steps_stand_on_their_own_and_searches_are_steps() {
        fn unknowns(expr: &Expr) -> bool {
            let mut bound = Vec::new();
            let mut free = false;
            fn visit(expr: &Expr, bound: &mut Vec<*const ()>, free: &mut bool) {
                match expr.node() {
                    Node::Bound(variable) => *free |= !bound.contains(&std::sync::Arc::as_ptr(variable).cast()),
                    Node::Solve(solve) => {
                        bound.push(std::sync::Arc::as_ptr(&solve.unknown).cast());
                        expr.parts().iter().for_each(|part| visit(part, bound, free));
                        bound.pop();
                    }
                    Node::Apply(function, at) => {
                        visit(at, bound, free);
                        bound.push(std::sync::Arc::as_ptr(&function.parameter).cast());
                        visit(&function.body, bound, free);
                        bound.pop();
                    }
                    _ => expr.parts().iter().for_each(|part| visit(part, bound, free)),
                }
            }
            visit(expr, &mut bound, &mut free);
            free
        }
        for c in catalogue() {
            let mut tops: Vec<*const Node> = vec![c.answer.formula.node()];
            for step in c.steps() {
                assert!(!unknowns(&step.formula), "{}: {} depends on an unknown", c.name, step.name);
                tops.push(step.formula.node());
            }
            c.walk(&mut |expr| {
                if matches!(expr.node(), Node::Solve(_)) {
                    assert!(tops.contains(&std::ptr::from_ref(expr.node())), "{} searches inside a step", c.name);
                }
            });
        }
    }

    #[test]
    fn every_worked_figure_comes_out() {
        let mut wrong = Vec::new();
        for c in catalogue() {
            let given = c.worked.given(c, &refrigerant).unwrap_or_else(|says| panic!("{}: {says}", c.name));
            let worked =
                reckon(c, &given, &Surroundings::default()).unwrap_or_else(|says| panic!("{}: {says}", c.name));
            let printed =
                read(c.worked.answer, Some(c.answer.kind)).unwrap_or_else(|says| panic!("{}: {says}", c.name));
            let off = (printed.value(worked.air).unwrap().si - worked.answer.si).abs();
            if off > printed.last_digit().si * (1.0 + 1e-9) {
                wrong.push(format!("{}: {} is written, {} found", c.name, printed, worked.answer_as(&printed)));
            }
        }
        assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    }

    /// The first tag that is not closed where it should be, if any.
    fn unclosed(mathml: &str) -> Option<String> {
        let mut open: Vec<&str> = Vec::new();
        for tag in mathml.split('<').skip(1) {
            let (tag, text) = tag.split_once('>')?;
            if text.contains('&') && !["&amp;", "&lt;", "&gt;"].iter().any(|entity| text.contains(entity)) {
                return Some(text.to_owned());
            }
            match tag.strip_prefix('/') {
                Some(name) if open.pop() != Some(name) => return Some(tag.to_owned()),
                Some(_) => {}
                None if tag.ends_with('/') => {}
                None => open.push(tag.split(' ').next().unwrap_or(tag)),
            }
        }
        open.pop().map(str::to_owned)
    }

    #[test]
    fn every_working_can_be_shown_in_both_systems() {
        for c in catalogue() {
            let given = c.worked.given(c, &refrigerant).unwrap();
            let worked = reckon(c, &given, &Surroundings::default()).unwrap();
            for system in [System::Us, System::Si] {
                for line in worked.lines(system).into_iter().chain(c.formula(system)) {
                    assert!(line.text.contains(" = "), "{}: {}", c.name, line.text);
                    assert!(!line.text.contains("NaN") && !line.text.contains("inf"), "{}: {}", c.name, line.text);
                    let inline = line.inline.as_ref().unwrap_or(&line.mathml);
                    assert_eq!(
                        unclosed(&line.mathml).or_else(|| unclosed(inline)),
                        None,
                        "{}: {}",
                        c.name,
                        line.mathml
                    );
                }
                let last = worked.lines(system).pop().unwrap().text;
                assert!(last.ends_with(&worked.answer_text(system)), "{}: {last}", c.name);
            }
        }
    }
}
