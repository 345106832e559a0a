use super::told::{row, told};
use super::ways::{StepId, Ways};
use crate::handbook::Finding;
use std::collections::BTreeSet;

/// `circle-without-way-out`: questions that lead to one another and never to an outcome.
///
/// **At the bench** the technician goes round and round, and at last does what the tree was to keep him from.
///
/// ```yaml
/// load:
///   answers: [{when: steady, go: bulb}, {when: swinging, go: load}]
/// bulb:
///   answers: [{when: tight, go: load}, {when: loose, go: load}]
/// ```
/// Mended: a loose bulb leads to the outcome `remount-bulb`. A circle from which some answer leads to an outcome (wait,
/// then measure again) is in order.
pub(super) fn look(ways: &Ways, findings: &mut Vec<Finding>) {
    let ending = ways.with_an_end();
    let reached: BTreeSet<StepId> = ways.reached_from_outside();
    for circle in ways.circles() {
        let leaves = |step: &StepId| ways.leads(*step).iter().any(|(_, next)| !circle.contains(next));
        let trapped = |step: &StepId| reached.contains(step) && !ending.contains(step);
        // A circle that another circle can be left for is not where the fault lies.
        if !circle.iter().all(trapped) || circle.iter().any(leaves) {
            continue;
        }
        let mut questions: Vec<_> = circle
            .iter()
            .filter_map(|step| ways.at(*step).question().map(|question| (question.name.at, question, *step)))
            .collect();
        questions.sort_by_key(|(at, ..)| *at);
        let Some((at, _, first)) = questions.first().copied() else { continue };
        let names: Vec<&str> = questions.iter().map(|(_, question, _)| question.name.value.as_str()).collect();
        let says = match names.as_slice() {
            [one] => format!("every answer to `{one}` leads back to it"),
            several => format!("{} lead round in a circle and never to an outcome", row(several)),
        };
        let mut finding = Finding::error("circle-without-way-out", at, says).label("the circle begins here");
        for line in ways.round(first).map(|way| told(ways, &way)).unwrap_or_default() {
            finding = finding.found(line);
        }
        for (at, ..) in questions.iter().skip(1) {
            finding = finding.seen(*at, "in the circle too");
        }
        findings.push(finding.instead("lead at least one of their answers to an outcome"));
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_circle_is_walked_once_round() {
        check(
            r#"
title: Superheat swings
start: load
questions:
  load:
# ^^^^ circle-without-way-out: `load` and `bulb` lead round in a circle and never to an outcome
# = here: the circle begins here
# = found: Is the load steady? steady
# = found: Is the bulb tight? tight
# = found: Is the load steady?
# = seen `bulb`: in the circle too
# = instead: lead at least one of their answers to an outcome
    ask: Is the load steady?
    choices: [steady, swinging]
    answers:
      - when: steady
        go: bulb
      - when: swinging
        go: load
  bulb:
    ask: Is the bulb tight?
    choices: [tight, loose]
    answers:
      - when: tight
        go: load
      - when: loose
        go: bulb
outcomes: {}
"#,
        );
    }

    #[test]
    fn a_circle_with_a_way_out_is_in_order() {
        check(
            r#"
title: Superheat swings
start: load
questions:
  load:
    ask: Is the load steady?
    choices: [steady, swinging]
    answers:
      - when: steady
        go: look-elsewhere
      - when: swinging
        go: load
outcomes:
  look-elsewhere:
    say: Look elsewhere.
"#,
        );
    }

    #[test]
    fn a_question_that_leads_only_to_itself() {
        check(
            r#"
title: Superheat swings
start: load
questions:
  load:
# ^^^^ circle-without-way-out: every answer to `load` leads back to it
# = here: the circle begins here
# = found: Is the load steady? steady
# = found: Is the load steady?
# = instead: lead at least one of their answers to an outcome
    ask: Is the load steady?
    choices: [steady, swinging]
    answers:
      - when: steady
        go: load
      - when: swinging
        go: load
outcomes: {}
"#,
        );
    }
}
