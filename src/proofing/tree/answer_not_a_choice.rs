use super::choice_not_answered::{choices_row, in_words, open_choice};
use crate::handbook::{Finding, Tree};

/// `answer-not-a-choice`: a `when:` that is none of its question's `choices:`, or one of them a second time.
///
/// **At the bench** the answer can't be given, so what lies behind it is not reached; or it can be given in two ways.
///
/// ```yaml
/// choices: [clear, bubbles]
/// answers:
///   - {when: clear, go: bulb}
///   - {when: bubles, go: charge}
/// ```
/// Mended: `when: bubbles`.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    for question in in_words(tree) {
        for (number, answer) in question.answers.iter().enumerate() {
            let when = &answer.when;
            if !question.choices.iter().any(|choice| choice.value == when.value) {
                let instead = open_choice(question, &when.value).map_or_else(
                    || format!("one of {}, or add it to `choices:`", choices_row(question)),
                    |choice| format!("`{choice}`"),
                );
                let says = format!("`{}` is none of the choices", when.value);
                findings.push(
                    Finding::error("answer-not-a-choice", when.at, says).label("can't be chosen").instead(instead),
                );
            } else if let Some(first) = question.answers[..number].iter().find(|other| other.when.value == when.value) {
                findings.push(
                    Finding::error("answer-not-a-choice", when.at, format!("`{}` is answered twice", when.value))
                        .label("the second time")
                        .seen(first.when.at, "the first time")
                        .instead("leave one of the two out"),
                );
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_slip_is_told_from_a_choice_left_out_and_from_one_given_twice() {
        check(
            r#"
title: Superheat reads high
start: glass
questions:
  glass:
    ask: What does the sight glass show?
    choices: [clear, bubbles]
    answers:
      - when: clear
        go: look-elsewhere
      - when: bubles
#             ^^^^^^ answer-not-a-choice: `bubles` is none of the choices
#             = here: can't be chosen
#             = instead: `bubbles`
        go: find-leak
      - when: rust
#             ^^^^ answer-not-a-choice: `rust` is none of the choices
#             = here: can't be chosen
#             = instead: one of `clear` and `bubbles`, or add it to `choices:`
        go: find-leak
      - when: clear
#             ^^^^^ answer-not-a-choice: `clear` is answered twice
#             = here: the second time
#             = seen `clear`: the first time
#             = instead: leave one of the two out
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
