use super::told::words;
use crate::handbook::{Finding, Tree};

/// `not-walked`: answers of a tree that no case walks. A warning, one for a tree.
///
/// **At the bench** what no case has tried is tried first on a customer's machine.
///
/// ```yaml
/// cases: {}
/// ```
/// Mended: cases that between them give every answer; one that is `like` another need only say what differs.
pub(super) fn look(tree: &Tree, not_walked: &[(String, String)], findings: &mut Vec<Finding>) {
    if not_walked.is_empty() {
        return;
    }
    let all: usize = tree.questions.iter().map(|question| question.answers.len()).sum();
    let says = match (tree.cases.len(), not_walked.len()) {
        (0, _) => format!("this tree has no cases, and so none of its {all} answers is tried"),
        (_, 1) => format!("no case walks one of the {all} answers of this tree"),
        (_, some) => format!("no case walks {some} of the {all} answers of this tree"),
    };
    let mut finding = Finding::warning("not-walked", tree.title.at, says).label("not tried throughout");
    // Without any case the list would only be the tree again.
    if !tree.cases.is_empty() {
        for (question, when) in not_walked {
            finding = finding.found(format!("`{question}`: {}", words(when)));
        }
    }
    findings.push(finding.instead("add cases for them under `cases:`"));
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::{check, says};

    #[test]
    fn answers_that_no_case_walks_are_listed() {
        check(
            r#"
title: Superheat reads high
#      ^^^^^^^^^^^^^^^^^^^^ warning not-walked: no case walks 3 of the 6 answers of this tree
#      = here: not tried throughout
#      = found: `air-path`: no
#      = found: `airflow`: below 350 cfm/ton
#      = found: `settle`: falling
#      = instead: add cases for them under `cases:`
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
    answers: {air-path: "yes", airflow: 400 cfm/ton, settle: steady}
    ends: set-the-stem
"#,
        );
    }

    #[test]
    fn a_tree_without_cases_is_untried() {
        let found = says(
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
"#,
        );
        assert_eq!(found, ["this tree has no cases, and so none of its 6 answers is tried"]);
    }
}
