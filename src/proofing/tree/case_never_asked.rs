use super::case_not_read::is_known;
use super::walk::{End, Walk};
use crate::handbook::{Case, Finding, Span, Tree};
use std::collections::BTreeSet;

/// `case-never-asked`: a case has an answer or a reading that its walk never asks for. A warning.
///
/// **At the bench** something was measured that the tree did not want: either the case belongs on another way, or the
/// tree leaves out a question it was to ask.
///
/// ```yaml
/// answers: {air-path: "no", airflow: 300 cfm/ton}
/// ```
/// Mended: `answers: {air-path: "no"}`. What a case says for the cases that are `like` it is asked for there.
///
/// A name that there is not is a finding of its own, and so is a walk that stops on the way.
pub(super) fn look(
    tree: &Tree,
    case: &Case,
    walk: Option<&Walk>,
    used: &BTreeSet<Span>,
    known: &[&str],
    findings: &mut Vec<Finding>,
) {
    if !walk.is_some_and(|walk| matches!(walk.end, End::Outcome(_) | End::Into)) {
        return;
    }
    let answers = case.answers.iter().filter(|(question, _)| is_known(&question.value, known));
    let answers = answers.map(|(question, given)| (question, given.last()));
    let readings = case.readings.iter().filter(|(reading, _)| tree.reading(&reading.value).is_some());
    let readings = readings.map(|(reading, given)| (reading, Some(given)));
    for (name, last) in answers.chain(readings) {
        let Some(last) = last.filter(|last| !used.contains(&last.at)) else { continue };
        findings.push(
            Finding::warning(
                "case-never-asked",
                name.at,
                format!("`{}` never comes to ask for `{}` of `{}`", case.name.value, last.value, name.value),
            )
            .label("never asked for")
            .instead("take it out, or see whether the tree should ask for it"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn an_answer_that_is_not_asked_for() {
        check(
            r#"
title: Superheat reads high
start: air-path
readings: [airflow per ton]
questions:
  air-path:
    ask: Does air go over the whole coil?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: airflow
      - when: "no"
        go: restore-air
  airflow:
    ask: How much air crosses the coil?
    measure: airflow per ton
    answers:
      - when: below 350 cfm/ton
        go: restore-air
      - when: above 350 cfm/ton
        go: settle
  settle:
    ask: Is the superheat steady?
    choices: [steady, falling]
    answers:
      - when: steady
        go: set-the-stem
      - when: falling
        go: airflow
outcomes:
  restore-air:
    say: Restore the air.
  set-the-stem:
    say: Set the stem.
cases:
  in-order:
    answers: {air-path: "yes", airflow: [300 cfm/ton, 400 cfm/ton], settle: steady}
#                              ^^^^^^^ warning case-never-asked: `in-order` never comes to ask for `400 cfm/ton` of `airflow`
#                              = here: never asked for
#                              = instead: take it out, or see whether the tree should ask for it
    ends: restore-air
  fan-off:
    like: in-order
    readings: {airflow per ton: 400 cfm/ton}
#              ^^^^^^^^^^^^^^^ warning case-never-asked: `fan-off` never comes to ask for `400 cfm/ton` of `airflow per ton`
#              = here: never asked for
#              = instead: take it out, or see whether the tree should ask for it
    answers: {air-path: "no"}
    ends: restore-air
  stem:
    like: in-order
    answers: {airflow: 400 cfm/ton}
    ends: set-the-stem
  falls:
    like: in-order
    answers: {airflow: [400 cfm/ton, 300 cfm/ton], settle: falling}
    ends: restore-air
"#,
        );
    }
}
