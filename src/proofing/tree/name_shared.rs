use crate::handbook::{Finding, Tree};

/// `name-shared`: a question and an outcome of one tree have the same name.
///
/// **At the bench** an answer that leads to that name leads to one of the two, and no one can tell to which.
///
/// ```yaml
/// questions:
///   screen: …
/// outcomes:
///   screen: …
/// ```
/// Mended: the outcome is called `clean-screen`.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    for outcome in &tree.outcomes {
        let name = &outcome.name;
        let Some(question) = tree.question(&name.value) else { continue };
        findings.push(
            Finding::error("name-shared", name.at, format!("`{}` is the name of a question too", name.value))
                .label("an outcome")
                .seen(question.name.at, "a question")
                .instead("give one of the two another name"),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_question_and_an_outcome_may_not_share_a_name() {
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
outcomes:
  look-elsewhere:
    say: Look elsewhere.
  clean-screen:
    say: Clean the screen.
  screen:
# ^^^^^^ name-shared: `screen` is the name of a question too
# = here: an outcome
# = seen `screen`: a question
# = instead: give one of the two another name
    say: Clean it.
"#,
        );
    }
}
