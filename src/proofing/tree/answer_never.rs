use super::answer_not_read::intervals;
use super::asked::{Asked, asked};
use super::interval::Figures;
use super::scale::Scale;
use crate::handbook::{Finding, Tree};

/// `answer-never`: an answer that no figure can call for, because its bounds leave nothing between them or because its
/// quantity never goes so low.
///
/// **At the bench** what lies behind it is never reached, however sick the system is.
///
/// ```yaml
/// - when: below 0 psia
///   go: lost-charge
/// ```
/// Mended: `below 10 psig`, or whatever low is.
pub(super) fn look(tree: &Tree, figures: Figures, findings: &mut Vec<Finding>) {
    for question in &tree.questions {
        let Asked::Figure(kind) = asked(tree, question) else { continue };
        let Some(intervals) = intervals(tree, question, figures) else { continue };
        for number in Scale::lay(&intervals, kind, figures.air).empty() {
            let Some(answer) = question.answers.get(number) else { continue };
            let when = &answer.when;
            findings.push(
                Finding::error("answer-never", when.at, format!("no {kind} is ever `{}`", when.value))
                    .label("can never be answered")
                    .instead("write the lower bound first and a higher one second, or take the answer out"),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn nothing_lies_below_nothing_nor_between_a_figure_and_itself() {
        check(
            r#"
title: Superheat reads high
start: airflow
questions:
  airflow:
    ask: How much air crosses the coil?
    measure: airflow per ton
    answers:
      - when: below 0 cfm/ton
#             ^^^^^^^^^^^^^^^ answer-never: no airflow per capacity is ever `below 0 cfm/ton`
#             = here: can never be answered
#             = instead: write the lower bound first and a higher one second, or take the answer out
        go: restore-air
      - when: 350 to 350 cfm/ton
#             ^^^^^^^^^^^^^^^^^^ answer-never: no airflow per capacity is ever `350 to 350 cfm/ton`
#             = here: can never be answered
#             = instead: write the lower bound first and a higher one second, or take the answer out
        go: restore-air
      - when: above 0 cfm/ton
        go: look-elsewhere
outcomes:
  restore-air:
    say: Restore the air.
  look-elsewhere:
    say: Look elsewhere.
"#,
        );
    }
}
