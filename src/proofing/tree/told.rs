//! A way through a tree in the words of its questions, as findings show it.

use super::ways::{Step, Way, Ways};
use pulldown_cmark::{Event, Parser, TagEnd};

/// One line a step: the question and the answer given, at last the outcome.
pub(super) fn told(ways: &Ways, way: &Way) -> Vec<String> {
    way.iter()
        .map(|(step, answer)| match ways.at(*step) {
            Step::Outside => String::new(),
            Step::Question(_, question) => {
                let answer = answer.and_then(|number| question.answers.get(number));
                let answer = answer.map_or(String::new(), |answer| format!(" {}", words(&answer.when.value)));
                format!("{}{answer}", words(&question.ask.value))
            }
            Step::Outcome(_, outcome) => words(&outcome.say.value),
        })
        .collect()
}

/// Markdown without its marks, on one line.
pub(super) fn words(markdown: &str) -> String {
    let mut words = String::new();
    for event in Parser::new(markdown) {
        match event {
            Event::Text(text) | Event::Code(text) => words.push_str(&text),
            Event::SoftBreak | Event::HardBreak | Event::End(TagEnd::Paragraph | TagEnd::Item) => words.push(' '),
            _ => {}
        }
    }
    words.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Names in a row, each in backticks: `a`, `b` and `c`.
pub(super) fn row(names: &[&str]) -> String {
    let quoted: Vec<String> = names.iter().map(|name| format!("`{name}`")).collect();
    match quoted.as_slice() {
        [] => String::new(),
        [one] => one.clone(),
        [all @ .., last] => format!("{} and {last}", all.join(", ")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_link_is_told_by_its_words() {
        assert_eq!(
            words("Is [the bulb](lesson:bulb) **tight**\nand [clean](term:clean)?\n"),
            "Is the bulb tight and clean?"
        );
        assert_eq!(words("below value:superheat-range"), "below value:superheat-range");
    }

    #[test]
    fn names_stand_in_a_row() {
        assert_eq!(row(&["a", "b", "c"]), "`a`, `b` and `c`");
        assert_eq!(row(&["a"]), "`a`");
        assert_eq!(row(&[]), "");
    }
}
