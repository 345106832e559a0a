use crate::handbook::{Finding, Tree};

/// `kind-of-answer-open`: a question says neither what is measured nor what can be chosen, or says both.
///
/// **At the bench** a reading is written down without anyone knowing of what, or a word where a figure is wanted.
///
/// ```yaml
/// airflow:
///   ask: How much air crosses the coil?
///   answers: [{when: below 350 cfm/ton, go: restore-air}, …]
/// ```
/// Mended: `measure: airflow per ton`.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    for question in &tree.questions {
        let name = &question.name;
        let finding = match (&question.measure, question.choices.first()) {
            (None, None) => Finding::error(
                "kind-of-answer-open",
                name.at,
                format!("`{}` says neither what is measured nor what can be chosen", name.value),
            )
            .label("answered how?")
            .instead("add `measure:` with a quantity, or `choices:` with the answers there can be"),
            (Some(measure), Some(choice)) => Finding::error(
                "kind-of-answer-open",
                measure.at,
                format!("`{}` is measured and chosen from a list at once", name.value),
            )
            .label("measured")
            .seen(choice.at, "chosen")
            .instead("ask two questions, or take out one of `measure:` and `choices:`"),
            _ => continue,
        };
        findings.push(finding);
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_question_says_how_it_is_answered() {
        check(
            r#"
title: Superheat reads high
start: airflow
questions:
  airflow:
# ^^^^^^^ kind-of-answer-open: `airflow` says neither what is measured nor what can be chosen
# = here: answered how?
# = instead: add `measure:` with a quantity, or `choices:` with the answers there can be
    ask: How much air crosses the coil?
    answers:
      - when: below 350 cfm/ton
        go: restore-air
      - when: above 350 cfm/ton
        go: load
  load:
    ask: How warm is the return air?
    measure: temperature
#            ^^^^^^^^^^^ kind-of-answer-open: `load` is measured and chosen from a list at once
#            = here: measured
#            = seen `warm`: chosen
#            = instead: ask two questions, or take out one of `measure:` and `choices:`
    choices: [warm, cold]
    answers:
      - when: warm
        go: wait
      - when: cold
        go: look-elsewhere
outcomes:
  restore-air:
    say: Restore the air.
  wait:
    say: Wait.
  look-elsewhere:
    say: Look elsewhere.
"#,
        );
    }
}
