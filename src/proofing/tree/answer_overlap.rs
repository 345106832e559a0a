use super::answer_not_read::intervals;
use super::asked::{Asked, asked};
use super::interval::Figures;
use super::scale::Scale;
use crate::handbook::{Finding, Tree};

/// `answer-overlap`: some figures of what is measured have more than one answer.
///
/// **At the bench** two technicians with the same reading go two ways.
///
/// ```yaml
/// - when: below 400 cfm/ton
///   go: restore-air
/// - when: above 350 cfm/ton
///   go: load
/// ```
/// Mended: both bounds at `350 cfm/ton`.
pub(super) fn look(tree: &Tree, figures: Figures, findings: &mut Vec<Finding>) {
    for question in &tree.questions {
        let Asked::Figure(kind) = asked(tree, question) else { continue };
        let Some(intervals) = intervals(tree, question, figures) else { continue };
        for stretch in Scale::lay(&intervals, kind, figures.air).stretches() {
            let mut given = stretch.answers.iter().filter_map(|number| question.answers.get(*number));
            let (Some(first), Some(second)) = (given.next(), given.next()) else { continue };
            let more = match given.count() {
                0 => "two answers".to_owned(),
                others => format!("{} answers", others + 2),
            };
            findings.push(
                Finding::error("answer-overlap", second.when.at, format!("{} has {more}", stretch.told()))
                    .label("given for them too")
                    .seen(first.when.at, "given for them already")
                    .instead("let one end where the other begins"),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn figures_with_two_answers_and_with_three() {
        check(
            r#"
title: Superheat reads high
start: airflow
questions:
  airflow:
    ask: How much air crosses the coil?
    measure: airflow per ton
    answers:
      - when: below 400 cfm/ton
        go: restore-air
      - when: above 350 cfm/ton
#             ^^^^^^^^^^^^^^^^^ answer-overlap: 350 to 380 cfm/ton has two answers
#             = here: given for them too
#             = seen `below 400 cfm/ton`: given for them already
#             = instead: let one end where the other begins
#             ^^^^^^^^^^^^^^^^^ answer-overlap: 380 to 400 cfm/ton has 3 answers
#             = here: given for them too
#             = seen `below 400 cfm/ton`: given for them already
#             = instead: let one end where the other begins
        go: look-elsewhere
      - when: 380 to 400 cfm/ton
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
