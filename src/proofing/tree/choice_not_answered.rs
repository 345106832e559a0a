use super::asked::{Asked, asked};
use super::told::row;
use crate::handbook::{Finding, Question, Tree};
use crate::quantity::nearest;
use std::collections::BTreeSet;

/// `choice-not-answered`: one of a question's `choices:` has no answer.
///
/// **At the bench** what was found is on the list, and the list leads nowhere from there.
///
/// ```yaml
/// choices: [clear, bubbles, empty]
/// answers:
///   - {when: clear, go: bulb}
///   - {when: bubbles, go: charge}
/// ```
/// Mended: `- {when: empty, go: charge}` is added.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    // With no answers at all, none of the choices is worth a finding of its own.
    for question in in_words(tree).filter(|question| !question.answers.is_empty()) {
        let answered: BTreeSet<&str> = question.answers.iter().map(|answer| answer.when.value.as_str()).collect();
        let choices: BTreeSet<&str> = question.choices.iter().map(|choice| choice.value.as_str()).collect();
        // An answer with a slip in it is reported as such; the choice it stands for isn't missing as well.
        let meant: BTreeSet<&str> = question
            .answers
            .iter()
            .filter(|answer| !choices.contains(answer.when.value.as_str()))
            .filter_map(|answer| open_choice(question, &answer.when.value))
            .collect();
        for choice in &question.choices {
            if answered.contains(choice.value.as_str()) || meant.contains(choice.value.as_str()) {
                continue;
            }
            findings.push(
                Finding::error("choice-not-answered", choice.at, format!("`{}` has no answer", choice.value))
                    .label("what then?")
                    .instead(format!("add `- when: {}` with the step it leads to", choice.value)),
            );
        }
    }
}

/// The choice without an answer that a `when:` which is no choice most likely stands for.
pub(super) fn open_choice<'a>(question: &'a Question, when: &str) -> Option<&'a str> {
    let answered: BTreeSet<&str> = question.answers.iter().map(|answer| answer.when.value.as_str()).collect();
    let open = question.choices.iter().map(|choice| choice.value.as_str()).filter(|choice| !answered.contains(choice));
    nearest(when, open)
}

/// Questions that are answered in words.
pub(super) fn in_words(tree: &Tree) -> impl Iterator<Item = &Question> {
    tree.questions.iter().filter(|question| asked(tree, question) == Asked::Words)
}

/// The choices of a question in a row.
pub(super) fn choices_row(question: &Question) -> String {
    row(&question.choices.iter().map(|choice| choice.value.as_str()).collect::<Vec<_>>())
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn every_choice_must_have_an_answer() {
        check(
            r#"
title: Superheat reads high
start: glass
questions:
  glass:
    ask: What does the sight glass show?
    choices: [clear, bubbles, empty]
#                             ^^^^^ choice-not-answered: `empty` has no answer
#                             = here: what then?
#                             = instead: add `- when: empty` with the step it leads to
    answers:
      - when: clear
        go: look-elsewhere
      - when: bubbles
        go: find-leak
outcomes:
  look-elsewhere:
    say: Look elsewhere.
  find-leak:
    say: Find the leak.
"#,
        );
    }
}
