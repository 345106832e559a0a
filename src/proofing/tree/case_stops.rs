use super::told::told;
use super::walk::{End, Walk};
use super::ways::Ways;
use crate::handbook::{Case, Finding, Tree};

/// `case-stops`: a case comes to a question it has no answer to, or to the same question with the same answer again.
///
/// **At the bench** it is the question whose answer nobody wrote down. A case that stops half way proves nothing about
/// the rest of its tree.
///
/// ```yaml
/// cases:
///   short-of-air:
///     answers: {air-path: "yes"}
///     ends: restore-air
/// ```
/// Mended: `answers: {air-path: "yes", airflow: 300 cfm/ton}`. Where a question is come to a second time (wait, then
/// measure again), its answers are listed one after the other: `load: [9 °F, 3 °F]`.
pub(super) fn look(ways: &Ways, tree: &Tree, case: &Case, walk: Option<&Walk>, findings: &mut Vec<Finding>) {
    let Some(walk) = walk else { return };
    let name = &case.name;
    let (says, instead) = match &walk.end {
        End::Unanswered(question) => {
            let asked = long_name(ways, tree, walk, &question.name.value);
            (
                format!("`{asked}` is asked, and `{}` has no answer to it", name.value),
                match &question.measure {
                    Some(measure) => {
                        format!("add `{asked}:` to its `answers:`, or `{}:` to its `readings:`", measure.value)
                    }
                    None => format!("add `{asked}:` to its `answers:`"),
                },
            )
        }
        End::Lacking(question, reading) => {
            let asked = long_name(ways, tree, walk, &question.name.value);
            (
                format!("`{asked}` is asked, and `{}` has no `{reading}` to work it out of", name.value),
                format!("add `{reading}:` to its `readings:`"),
            )
        }
        End::Round(question) => {
            let asked = long_name(ways, tree, walk, &question.name.value);
            (
                format!("`{}` comes to `{asked}` again and has no other answer", name.value),
                format!("list its answers one after the other: `{asked}: [first, second]`"),
            )
        }
        _ => return,
    };
    let mut finding = Finding::error("case-stops", name.at, says).label("stops on the way");
    for line in told(ways, &walk.way) {
        finding = finding.found(line);
    }
    findings.push(finding.instead(instead));
}

/// The question at which the walk stopped, by its name, or by its tree's and its own where it is another tree's.
fn long_name(ways: &Ways, tree: &Tree, walk: &Walk, question: &str) -> String {
    let there = walk.way.last().and_then(|(step, _)| ways.at(*step).tree());
    match there.filter(|there| there.name != tree.name) {
        Some(there) => format!("{}/{question}", there.name),
        None => question.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_case_must_answer_what_it_is_asked() {
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
  short-of-air:
# ^^^^^^^^^^^^ case-stops: `airflow` is asked, and `short-of-air` has no answer to it
# = here: stops on the way
# = found: Does air go over the whole coil? yes
# = found: How much air crosses the coil?
# = instead: add `airflow:` to its `answers:`, or `airflow per ton:` to its `readings:`
    answers: {air-path: "yes"}
    ends: restore-air
  settled:
    answers: {air-path: "yes", airflow: [360 cfm/ton, 300 cfm/ton], settle: falling}
    ends: restore-air
  never-settled:
# ^^^^^^^^^^^^^ case-stops: `never-settled` comes to `settle` again and has no other answer
# = here: stops on the way
# = found: Does air go over the whole coil? yes
# = found: How much air crosses the coil? above 350 cfm/ton
# = found: Is the superheat steady? falling
# = found: How much air crosses the coil? above 350 cfm/ton
# = found: Is the superheat steady?
# = instead: list its answers one after the other: `settle: [first, second]`
    like: settled
    answers: {airflow: [360 cfm/ton, 370 cfm/ton]}
    ends: set-the-stem
  fan-off:
    answers: {air-path: "no"}
    ends: restore-air
  in-order:
    like: settled
    answers: {settle: steady}
    ends: set-the-stem
"#,
        );
    }
}
