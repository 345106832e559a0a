use super::ways::Ways;
use crate::handbook::{Finding, Tree};

/// `question-idle`: whatever is answered, the next step is the same. A warning.
///
/// **At the bench** a reading is taken and changes nothing: either it is not worth its time, or one of its answers was
/// meant to lead elsewhere.
///
/// ```yaml
/// load:
///   choices: [steady, swinging]
///   answers: [{when: steady, go: bulb}, {when: swinging, go: bulb}]
/// ```
/// Mended: a swinging load leads to the outcome `wait-for-load`.
pub(super) fn look(ways: &Ways, tree: &Tree, findings: &mut Vec<Finding>) {
    for question in &tree.questions {
        let Some(step) = ways.step(tree, &question.name.value) else { continue };
        let leads = ways.leads(step);
        let Some((_, next)) = leads.first().copied() else { continue };
        // An answer that leads nowhere, or a question that leads only to itself, is a finding of its own.
        let all_alike =
            leads.len() == question.answers.len() && leads.iter().all(|(_, to)| *to == next) && next != step;
        if !all_alike {
            continue;
        }
        let name = ways.at(next).name();
        findings.push(
            Finding::warning(
                "question-idle",
                question.name.at,
                format!("whatever is answered to `{}`, `{name}` comes next", question.name.value),
            )
            .label("the answer makes no difference")
            .instead("lead one of the answers elsewhere, or leave the question out"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_question_whose_answers_make_no_difference() {
        check(
            r#"
title: Superheat swings
start: load
questions:
  load:
# ^^^^ warning question-idle: whatever is answered to `load`, `look-elsewhere` comes next
# = here: the answer makes no difference
# = instead: lead one of the answers elsewhere, or leave the question out
    ask: Is the load steady?
    choices: [steady, swinging]
    answers:
      - when: steady
        go: look-elsewhere
      - when: swinging
        go: look-elsewhere
outcomes:
  look-elsewhere:
    say: Look elsewhere.
"#,
        );
    }
}
