use super::told::row;
use super::ways::Ways;
use crate::handbook::{Finding, Outcome, Tree};

/// `condemned-unproved`: an outcome that condemns a part and has no `only-after:`.
///
/// **At the bench** the part is changed on a guess. What was asked before it is what the bill rests on.
///
/// ```yaml
/// replace-valve:
///   say: Replace the valve.
///   condemns: the valve
/// ```
/// Mended: `only-after: [airflow, load, liquid-feed, screen, bulb, element]`. The questions that are asked on every way
/// already are offered.
pub(super) fn look(ways: &Ways, tree: &Tree, findings: &mut Vec<Finding>) {
    for outcome in &tree.outcomes {
        let Some(condemned) = outcome.condemns.as_ref().filter(|_| outcome.only_after.is_empty()) else { continue };
        let says = format!("`{}` condemns {} and rests on no check", outcome.name.value, condemned.value);
        let mut finding =
            Finding::error("condemned-unproved", condemned.at, says).label("condemned with no `only-after:`");
        let asked = asked_names(ways, tree, outcome);
        finding = if asked.is_empty() {
            finding.instead("ask what the part must have failed, and list it in `only-after:`")
        } else {
            let names: Vec<&str> = asked.iter().map(String::as_str).collect();
            finding
                .found(format!("asked on every way here: {}", row(&names)))
                .instead(format!("`only-after: [{}]`, or those of them that prove it", names.join(", ")))
        };
        findings.push(finding);
    }
}

fn asked_names(ways: &Ways, tree: &Tree, outcome: &Outcome) -> Vec<String> {
    let step = ways.step(tree, &outcome.name.value);
    let asked = step.and_then(|step| ways.always_asked(step)).unwrap_or_default();
    asked.iter().map(|step| ways.at(*step).name().to_owned()).collect()
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn what_is_asked_on_every_way_already_is_offered() {
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
#             ^^^^^^^^^ condemned-unproved: `replace-valve` condemns the valve and rests on no check
#             = here: condemned with no `only-after:`
#             = found: asked on every way here: `airflow` and `element`
#             = instead: `only-after: [airflow, element]`, or those of them that prove it
"#,
        );
    }

    #[test]
    fn a_part_condemned_out_of_reach_has_nothing_to_offer() {
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
  replace-element:
# ^^^^^^^^^^^^^^^ not-reached: no answer leads to `replace-element`
# = here: this outcome is never reached
# = instead: lead an answer to it, or take it out
    say: Replace the power element.
    condemns: the power element
#             ^^^^^^^^^^^^^^^^^ condemned-unproved: `replace-element` condemns the power element and rests on no check
#             = here: condemned with no `only-after:`
#             = instead: ask what the part must have failed, and list it in `only-after:`
"#,
        );
    }
}
