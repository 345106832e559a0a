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
        let measured = question.measure.as_ref().map(|measure| (measure.at, "measured"));
        let worked_out = question.work_out.as_ref().map(|work_out| (work_out.computation.at, "worked out"));
        let chosen = question.choices.first().map(|choice| (choice.at, "chosen from a list"));
        let ways: Vec<_> = [measured, worked_out, chosen].into_iter().flatten().collect();
        let finding = match ways.as_slice() {
            [] => Finding::error(
                "kind-of-answer-open",
                name.at,
                format!("`{}` says neither what is measured nor what can be chosen", name.value),
            )
            .label("answered how?")
            .instead("add `measure:` with a quantity, `work-out:` with a computation, or `choices:` with the answers there can be"),
            [_] => continue,
            [(at, one), (other_at, other), ..] => Finding::error(
                "kind-of-answer-open",
                *at,
                format!("`{}` is {one} and {other} at once", name.value),
            )
            .label(*one)
            .seen(*other_at, *other)
            .instead("ask two questions, or leave one of the two out"),
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
# = instead: add `measure:` with a quantity, `work-out:` with a computation, or `choices:` with the answers there can be
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
#            = seen `warm`: chosen from a list
#            = instead: ask two questions, or leave one of the two out
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
