use super::lead;
use crate::handbook::{Finding, Handbook, Tree};

/// `start-not-found`: a tree's `start:` names no question of it.
///
/// **At the bench** there is no first thing to do.
///
/// ```yaml
/// start: air-flow
/// questions:
///   airflow: …
/// ```
/// Mended: `start: airflow`.
pub(super) fn look(book: &Handbook, tree: &Tree, findings: &mut Vec<Finding>) {
    let start = &tree.start;
    if tree.question(&start.value).is_some() {
        return;
    }
    let finding = if tree.outcome(&start.value).is_some() {
        Finding::error(
            "start-not-found",
            start.at,
            format!("`{}` is an outcome, and nothing has been asked yet", start.value),
        )
        .instead("begin with a question")
    } else {
        let meant = lead::meant(book, tree, &start.value).filter(|name| tree.question(name).is_some());
        Finding::error("start-not-found", start.at, format!("`{}` is no question of this tree", start.value)).instead(
            meant.map_or_else(|| "name the question that is asked first".to_owned(), |name| format!("`{name}`")),
        )
    };
    findings.push(finding.label("nothing to begin with"));
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn the_nearest_question_is_offered_and_begun_with() {
        check(
            r#"
title: Superheat reads high
start: scren
#      ^^^^^ start-not-found: `scren` is no question of this tree
#      = here: nothing to begin with
#      = instead: `screen`
questions:
  screen:
    ask: Is the inlet screen clean?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: look-elsewhere
      - when: "no"
        go: clean-screen
outcomes:
  look-elsewhere:
    say: Look elsewhere.
  clean-screen:
    say: Clean the screen.
"#,
        );
    }

    #[test]
    fn an_outcome_is_no_beginning() {
        check(
            r#"
title: Superheat reads high
start: clean-screen
#      ^^^^^^^^^^^^ start-not-found: `clean-screen` is an outcome, and nothing has been asked yet
#      = here: nothing to begin with
#      = instead: begin with a question
questions: {}
outcomes:
  clean-screen:
    say: Clean the screen.
"#,
        );
    }
}
