use super::told::row;
use super::ways::{Step, StepId, Ways};
use crate::handbook::{Finding, Tree};
use std::collections::BTreeSet;

/// `not-reached`: a question or an outcome to which no answer leads, on any way from the tree's start.
///
/// **At the bench** it is never seen. What its author thought is asked or advised is not: where it is a check that the
/// condemning of a part rests on, the part goes in the bin unchecked.
///
/// ```yaml
/// start: airflow
/// questions:
///   airflow: {answers: [{when: below 350 cfm/ton, go: restore-air}, {when: above 350 cfm/ton, go: screen}], …}
///   load: …      # nothing leads here
///   screen: …
/// ```
/// Mended: air in order leads to `load`, and a load in order to `screen`.
///
/// What lies behind a step out of reach, and nowhere else, is named with it and not reported again. Nothing is said of
/// a tree with an answer that leads nowhere, for what is missing may lie behind that.
pub(super) fn look(ways: &Ways, tree: &Tree, findings: &mut Vec<Finding>) {
    let Some(start) = ways.start(tree) else { return };
    if ways.has_open_end(tree) {
        return;
    }
    let reached = ways.reached_from(start);
    let steps = tree.questions.iter().map(|question| &question.name).chain(tree.outcomes.iter().map(|o| &o.name));
    let missed: Vec<StepId> = steps
        .filter_map(|name| ways.step(tree, &name.value))
        .filter(|step| !reached.contains(step))
        .collect::<Vec<_>>();
    let mut told: BTreeSet<StepId> = BTreeSet::new();
    // First those that nothing out of reach leads to, then circles of them, each at its first step.
    let (first, rest): (Vec<_>, Vec<_>) = missed
        .iter()
        .copied()
        .partition(|step| !missed.iter().any(|other| other != step && ways.before(*step).contains(other)));
    for step in first.into_iter().chain(rest) {
        if !told.insert(step) {
            continue;
        }
        let behind: Vec<StepId> = missed
            .iter()
            .copied()
            .filter(|other| ways.reached_from(step).contains(other) && told.insert(*other))
            .collect();
        let (name, what) = match ways.at(step) {
            Step::Question(_, question) => (&question.name, "question"),
            Step::Outcome(_, outcome) => (&outcome.name, "outcome"),
            Step::Outside => continue,
        };
        let mut finding = Finding::error("not-reached", name.at, format!("no answer leads to `{}`", name.value))
            .label(format!("this {what} is never reached"))
            .instead("lead an answer to it, or take it out");
        if !behind.is_empty() {
            let names: Vec<&str> = behind.iter().map(|step| ways.at(*step).name()).collect();
            finding = finding.found(format!("out of reach with it: {}", row(&names)));
        }
        findings.push(finding);
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn what_lies_behind_a_step_out_of_reach_is_named_with_it() {
        check(
            r#"
title: Superheat reads high
start: screen
questions:
  screen:
    ask: Is the inlet screen clean?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: look-elsewhere
      - when: "no"
        go: clean-screen
  bulb:
# ^^^^ not-reached: no answer leads to `bulb`
# = here: this question is never reached
# = found: out of reach with it: `remount`
# = instead: lead an answer to it, or take it out
    ask: Is the bulb tight?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: look-elsewhere
      - when: "no"
        go: remount
outcomes:
  look-elsewhere:
    say: Look elsewhere.
  clean-screen:
    say: Clean the screen.
  remount:
    say: Remount the bulb.
  replace:
# ^^^^^^^ not-reached: no answer leads to `replace`
# = here: this outcome is never reached
# = instead: lead an answer to it, or take it out
    say: Replace the valve.
"#,
        );
    }

    #[test]
    fn a_circle_out_of_reach_is_reported_at_its_first_step() {
        check(
            r#"
title: Superheat reads high
start: screen
questions:
  screen:
    ask: Is the inlet screen clean?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: look-elsewhere
      - when: "no"
        go: clean-screen
  bulb:
# ^^^^ not-reached: no answer leads to `bulb`
# = here: this question is never reached
# = found: out of reach with it: `load`
# = instead: lead an answer to it, or take it out
    ask: Is the bulb tight?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: look-elsewhere
      - when: "no"
        go: load
  load:
    ask: Is the load steady?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: bulb
      - when: "no"
        go: look-elsewhere
outcomes:
  look-elsewhere:
    say: Look elsewhere.
  clean-screen:
    say: Clean the screen.
"#,
        );
    }
}
