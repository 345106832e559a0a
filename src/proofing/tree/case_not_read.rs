use super::walk::{End, Walk};
use crate::handbook::{Case, Finding, Tree};
use crate::quantity::nearest;

/// `case-not-read`: something in a case is not an answer to its question, or names a question, a reading or a case that
/// there is not.
///
/// **At the bench** it is a slip of the pen in the service report.
///
/// ```yaml
/// answers: {airflow: 300 cfm}
/// ```
/// Mended: `airflow: 300 cfm/ton`.
pub(super) fn look(tree: &Tree, case: &Case, walk: Option<&Walk>, known: &[&str], findings: &mut Vec<Finding>) {
    if let Some(End::NotRead(at, says, instead)) = walk.map(|walk| &walk.end) {
        findings.push(
            Finding::error("case-not-read", *at, says.clone())
                .label(format!("in the case `{}`", case.name.value))
                .perhaps(instead.clone()),
        );
    }
    for (question, _) in &case.answers {
        let name = question.value.as_str();
        if is_known(name, known) {
            continue;
        }
        findings.push(
            Finding::error(
                "case-not-read",
                question.at,
                format!("`{name}` is no question of this tree, nor of one it leads into"),
            )
            .label("no such question")
            .perhaps(nearest(name, known.iter().copied()).map(|name| format!("`{name}`"))),
        );
    }
    for (reading, _) in &case.readings {
        if tree.reading(&reading.value).is_some() {
            continue;
        }
        let listed = tree.readings.iter().map(|reading| reading.name.value.as_str());
        findings.push(
            Finding::error(
                "case-not-read",
                reading.at,
                format!("`{}` is not among the tree's readings", reading.value),
            )
            .label("no such reading")
            .perhaps(nearest(&reading.value, listed).map(|name| format!("`{name}`"))),
        );
    }
    if let Some(like) = &case.like {
        let mut chain = vec![case.name.value.as_str()];
        let mut next = Some(like);
        while let Some(name) = next.map(|like| like.value.as_str()) {
            if chain.contains(&name) {
                // Told once, at the case that closes the circle first.
                if chain.first() == Some(&name) {
                    findings.push(
                        Finding::error("case-not-read", like.at, format!("`{name}` is like itself"))
                            .label("leads round in a circle")
                            .instead("let one of the cases stand without `like:`"),
                    );
                }
                break;
            }
            chain.push(name);
            next = tree.case(name).and_then(|case| case.like.as_ref());
        }
        if tree.case(&like.value).is_none() {
            let others = tree.cases.iter().map(|case| case.name.value.as_str());
            findings.push(
                Finding::error("case-not-read", like.at, format!("there is no case `{}` in this tree", like.value))
                    .label("like what?")
                    .perhaps(nearest(&like.value, others).map(|name| format!("`{name}`"))),
            );
        }
    }
}

/// Whether an answer's name, `question` or `tree/question`, is that of one of the questions there are.
pub(super) fn is_known(name: &str, known: &[&str]) -> bool {
    known.contains(&name) || name.rsplit_once('/').is_some_and(|(_, short)| known.contains(&short))
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn what_is_in_a_case_must_be_in_its_tree() {
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
    readings: {airflow per tn: 400 cfm/ton}
#              ^^^^^^^^^^^^^^ case-not-read: `airflow per tn` is not among the tree's readings
#              = here: no such reading
#              = instead: `airflow per ton`
    answers: {air-path: "yes", airflow: 400 cfm/ton, setle: steady, settle: steady}
#                                                    ^^^^^ case-not-read: `setle` is no question of this tree, nor of one it leads into
#                                                    = here: no such question
#                                                    = instead: `settle`
    ends: set-the-stem
  short-of-air:
    answers: {air-path: "yes", airflow: 300 cfm}
#                                       ^^^^^^^ case-not-read: `300 cfm` is a volume flow, and an airflow per capacity is wanted here: write it as `400 cfm/ton`
#                                       = here: in the case `short-of-air`
    ends: restore-air
  fan-off:
    answers: {air-path: nope}
#                       ^^^^ case-not-read: `nope` is no answer to `air-path`
#                       = here: in the case `fan-off`
#                       = instead: one of `yes` and `no`
    ends: restore-air
  lost:
    like: in-ordr
#         ^^^^^^^ case-not-read: there is no case `in-ordr` in this tree
#         = here: like what?
#         = instead: `in-order`
    answers: {air-path: "no"}
    ends: restore-air
  chicken:
    like: egg
#         ^^^ case-not-read: `chicken` is like itself
#         = here: leads round in a circle
#         = instead: let one of the cases stand without `like:`
    answers: {air-path: "yes", settle: falling}
    ends: restore-air
  egg:
    like: chicken
#         ^^^^^^^ case-not-read: `egg` is like itself
#         = here: leads round in a circle
#         = instead: let one of the cases stand without `like:`
    answers: {airflow: [500 cfm/ton, 300 cfm/ton]}
    ends: restore-air
"#,
        );
    }
}
