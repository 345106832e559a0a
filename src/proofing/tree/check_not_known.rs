use super::ways::Ways;
use crate::handbook::{Finding, Tree};
use crate::quantity::nearest;

/// `check-not-known`: an outcome's `only-after:` names something that is no question.
///
/// **At the bench** a check that does not exist is a check that nobody makes.
///
/// ```yaml
/// only-after: [airflow, scren]
/// ```
/// Mended: `only-after: [airflow, screen]`.
pub(super) fn look(ways: &Ways, tree: &Tree, findings: &mut Vec<Finding>) {
    for outcome in &tree.outcomes {
        for check in outcome.only_after.iter().filter(|check| !ways.is_asked_before(tree, &check.value)) {
            let says = if tree.outcome(&check.value).is_some() {
                format!("`{}` is an outcome, and only a question can be asked before another step", check.value)
            } else {
                format!("`{}` is no question of this tree, nor of one that leads into it", check.value)
            };
            let meant = nearest(&check.value, ways.asked_before(tree).iter().copied());
            findings.push(
                Finding::error("check-not-known", check.at, says)
                    .label("no such check")
                    .perhaps(meant.map(|name| format!("`{name}`"))),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn the_nearest_question_is_offered() {
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
    only-after: [airflow, elemnt]
#                         ^^^^^^ check-not-known: `elemnt` is no question of this tree, nor of one that leads into it
#                         = here: no such check
#                         = instead: `element`
"#,
        );
    }

    #[test]
    fn an_outcome_is_no_check() {
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
    only-after: [airflow, clean-screen]
#                         ^^^^^^^^^^^^ check-not-known: `clean-screen` is an outcome, and only a question can be asked before another step
#                         = here: no such check
"#,
        );
    }
}
