use crate::handbook::{Finding, Tree};

/// `question-without-answers`: a question whose `answers:` are empty.
///
/// **At the bench** the measurement is taken and leads to nothing.
///
/// ```yaml
/// airflow:
///   ask: How much air crosses the coil?
///   answers: []
/// ```
/// Mended: an answer for every reading there can be, each with the step it leads to.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    for question in tree.questions.iter().filter(|question| question.answers.is_empty()) {
        let name = &question.name;
        findings.push(
            Finding::error(
                "question-without-answers",
                name.at,
                format!("`{}` is asked and has no answers", name.value),
            )
            .label("a dead end")
            .instead("give it an answer for whatever may be found, or make an outcome of it"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_question_must_have_answers() {
        check(
            r#"
title: Superheat reads high
start: screen
questions:
  screen:
# ^^^^^^ question-without-answers: `screen` is asked and has no answers
# = here: a dead end
# = instead: give it an answer for whatever may be found, or make an outcome of it
    ask: Is the inlet screen clean?
    choices: ["yes", "no"]
    answers: []
outcomes:
  look-elsewhere:
    say: Look elsewhere.
"#,
        );
    }
}
