use super::told::told;
use super::ways::Ways;
use crate::handbook::{Finding, Tree};

/// `check-skipped`: an outcome's `only-after:` names a question that some way to the outcome does not ask.
///
/// **At the bench** this is the valve changed while the screen before it was blocked. The shortest way that leaves the
/// check out is written out, question by question.
///
/// ```yaml
/// replace-valve:
///   only-after: [airflow, screen]      # but `element: dead` leads here before the screen is looked at
/// ```
/// Mended: the answer leads to `screen`, and a clean screen to `replace-valve`.
///
/// A check counts under its name in whatever tree it is asked, from wherever the technician may have begun.
pub(super) fn look(ways: &Ways, tree: &Tree, findings: &mut Vec<Finding>) {
    for outcome in &tree.outcomes {
        let Some(step) = ways.step(tree, &outcome.name.value) else { continue };
        // No way leads here at all: that is a finding of its own.
        let Some(asked) = ways.always_asked(step) else { continue };
        for check in &outcome.only_after {
            if asked.iter().any(|step| ways.at(*step).name() == check.value)
                || !ways.is_asked_before(tree, &check.value)
            {
                continue;
            }
            let Some(way) = ways.way_without(&check.value, step) else { continue };
            let mut finding = Finding::error(
                "check-skipped",
                check.at,
                format!("`{}` is reached without `{}` being asked", outcome.name.value, check.value),
            )
            .label("not asked on every way");
            for line in told(ways, &way) {
                finding = finding.found(line);
            }
            findings.push(finding.instead(format!("ask `{}` on this way too", check.value)));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::{check, check_among};

    #[test]
    fn the_shortest_way_round_the_check_is_written_out() {
        check(
            r#"
title: Superheat reads high
start: airflow
questions:
  airflow:
    ask: Is the [air](lesson:air) in order?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: element
      - when: "no"
        go: restore-air
  element:
    ask: Does the valve answer the warm bulb?
    choices: [answers, dead]
    answers:
      - when: answers
        go: screen
      - when: dead
        go: replace-valve
  screen:
    ask: Is the inlet screen clean?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: replace-valve
      - when: "no"
        go: clean-screen
outcomes:
  restore-air:
    say: Restore the air.
  clean-screen:
    say: Clean the screen.
  replace-valve:
    say: Replace the valve.
    condemns: the valve
    only-after: [airflow, element, screen]
#                                  ^^^^^^ check-skipped: `replace-valve` is reached without `screen` being asked
#                                  = here: not asked on every way
#                                  = found: Is the air in order? yes
#                                  = found: Does the valve answer the warm bulb? dead
#                                  = found: Replace the valve.
#                                  = instead: ask `screen` on this way too
"#,
        );
    }

    #[test]
    fn a_check_asked_on_each_of_two_ways_holds_though_no_one_question_lies_on_both() {
        let hub = r#"
title: Which tree
start: symptom
questions:
  symptom:
    ask: What is seen?
    choices: [high, hunting]
    answers:
      - when: high
        go: tree:high
      - when: hunting
        go: tree:hunting
outcomes: {}
"#;
        let way_in = r#"
title: A way in
start: airflow
stands-alone: false
questions:
  airflow:
    ask: Is the air in order?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: tree:sample
      - when: "no"
        go: restore-air
outcomes:
  restore-air:
    say: Restore the air.
"#;
        check_among(
            &[("hub", hub), ("high", way_in), ("hunting", way_in)],
            r#"
title: The bulb test
start: element
stands-alone: false
questions:
  element:
    ask: Does the valve answer the warm bulb?
    choices: [answers, dead]
    answers:
      - when: answers
        go: leave-it
      - when: dead
        go: replace-valve
outcomes:
  leave-it:
    say: Leave it alone.
  replace-valve:
    say: Replace the valve.
    condemns: the valve
    only-after: [airflow, element]
"#,
        );
    }
}
