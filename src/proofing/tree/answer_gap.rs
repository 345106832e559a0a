use super::answer_not_read::intervals;
use super::asked::{Asked, asked};
use super::interval::Figures;
use super::scale::Scale;
use crate::handbook::{Finding, Tree};

/// `answer-gap`: some figures of what is measured have no answer.
///
/// **At the bench** the gauge shows 375 and the page stops at 350 and begins again at 400.
///
/// ```yaml
/// - when: below 350 cfm/ton
///   go: restore-air
/// - when: above 400 cfm/ton
///   go: load
/// ```
/// Mended: `above 350 cfm/ton`, or a third answer for `350 to 400 cfm/ton`. A lower bound belongs to its answer and an
/// upper one does not, so `350 cfm/ton` ends one and begins the next.
pub(super) fn look(tree: &Tree, figures: Figures, findings: &mut Vec<Finding>) {
    for question in &tree.questions {
        let Asked::Figure(kind) = asked(tree, question) else { continue };
        let Some(intervals) = intervals(tree, question, figures) else { continue };
        let scale = Scale::lay(&intervals, kind, figures.air);
        // No answer at all, or one for nothing, is a finding of its own.
        if intervals.is_empty() || !scale.empty().is_empty() {
            continue;
        }
        let stretches = scale.stretches();
        for (at, gap) in stretches.iter().enumerate().filter(|(_, stretch)| stretch.answers.is_empty()) {
            let neighbor = |at: Option<usize>| {
                let number = *at.and_then(|at| stretches.get(at))?.answers.first()?;
                question.answers.get(number)
            };
            let (below, above) = (neighbor(at.checked_sub(1)), neighbor(at.checked_add(1)));
            let place = below.or(above).map_or(question.name.at, |answer| answer.when.at);
            let mut finding = Finding::error("answer-gap", place, format!("{} has no answer", gap.told())).label(
                if below.is_some() { "the figures above this have none" } else { "the figures below this have none" },
            );
            if let (Some(_), Some(above)) = (below, above) {
                finding = finding.seen(above.when.at, "they begin again here");
            }
            findings.push(finding.instead("move one of the bounds, or add an answer between"));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn the_figures_between_two_answers() {
        check(
            r#"
title: Superheat reads high
start: airflow
questions:
  airflow:
    ask: How much air crosses the coil?
    measure: airflow per ton
    answers:
      - when: below 350 cfm/ton
#             ^^^^^^^^^^^^^^^^^ answer-gap: 350 to 400 cfm/ton has no answer
#             = here: the figures above this have none
#             = seen `400 to 450 cfm/ton`: they begin again here
#             = instead: move one of the bounds, or add an answer between
        go: restore-air
      - when: 400 to 450 cfm/ton
#             ^^^^^^^^^^^^^^^^^^ answer-gap: 450 cfm/ton and above has no answer
#             = here: the figures above this have none
#             = instead: move one of the bounds, or add an answer between
        go: look-elsewhere
outcomes:
  restore-air:
    say: Restore the air.
  look-elsewhere:
    say: Look elsewhere.
"#,
        );
    }

    #[test]
    fn a_difference_goes_below_zero_and_a_flow_does_not() {
        check(
            r#"
title: Superheat reads low
start: superheat
questions:
  superheat:
    ask: How much superheat?
    measure: superheat
    answers:
      - when: 0 to 8 °F
#             ^^^^^^^^^ answer-gap: below 0 °F has no answer
#             = here: the figures below this have none
#             = instead: move one of the bounds, or add an answer between
        go: airflow
      - when: above 8 °F
        go: look-elsewhere
  airflow:
    ask: How much air crosses the coil?
    measure: airflow per ton
    answers:
      - when: 0 to 47 L/(s·kW)
        go: restore-air
      - when: above 350 cfm/ton
        go: look-elsewhere
outcomes:
  restore-air:
    say: Restore the air.
  look-elsewhere:
    say: Look elsewhere.
"#,
        );
    }

    #[test]
    fn standing_values_close_without_a_gap() {
        check(
            r#"
title: Superheat reads low
start: superheat
questions:
  superheat:
    ask: How much superheat?
    measure: superheat
    answers:
      - when: below value:superheat-range
        go: restore-air
      - when: within value:superheat-range
        go: look-elsewhere
      - when: value:high-end to 25 °F
        go: restore-air
      - when: above 13 K
#             ^^^^^^^^^^ answer-overlap: 13 K to 25 °F has two answers
#             = here: given for them too
#             = seen `value:high-end to 25 °F`: given for them already
#             = instead: let one end where the other begins
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
