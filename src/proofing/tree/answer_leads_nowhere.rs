use super::lead::{self, Lead};
use crate::handbook::{Finding, Handbook, Tree};

/// `answer-leads-nowhere`: a `go:` that names no question and no outcome of its tree, and no other tree.
///
/// **At the bench** the technician has answered and stands before a blank page, with the panels off.
///
/// ```yaml
/// - when: "yes"
///   go: clean-scren
/// ```
/// Mended: `go: clean-screen`.
pub(super) fn look(book: &Handbook, tree: &Tree, findings: &mut Vec<Finding>) {
    for answer in tree.questions.iter().flat_map(|question| &question.answers) {
        let go = &answer.go;
        if !matches!(lead::follow(book, tree, &go.value), Lead::Nowhere) {
            continue;
        }
        let says = match go.value.strip_prefix("tree:") {
            Some(name) => format!("there is no tree `{}`", name.trim()),
            None => format!("`{}` is no question and no outcome of this tree", go.value),
        };
        let meant = lead::meant(book, tree, &go.value);
        let instead = meant.map_or_else(
            || "write a question or an outcome of that name, or lead this answer to one there is".to_owned(),
            |name| format!("`{name}`"),
        );
        findings.push(Finding::error("answer-leads-nowhere", go.at, says).label("leads nowhere").instead(instead));
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_slip_in_a_name_is_reported_once_and_the_nearest_name_offered() {
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
        go: look-elsewere
#           ^^^^^^^^^^^^^ answer-leads-nowhere: `look-elsewere` is no question and no outcome of this tree
#           = here: leads nowhere
#           = instead: `look-elsewhere`
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
    fn a_name_unlike_any_other_gets_no_guess_and_hides_what_may_lie_behind_it() {
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
        go: weigh-the-charge
#           ^^^^^^^^^^^^^^^^ answer-leads-nowhere: `weigh-the-charge` is no question and no outcome of this tree
#           = here: leads nowhere
#           = instead: write a question or an outcome of that name, or lead this answer to one there is
      - when: "no"
        go: clean-screen
outcomes:
  clean-screen:
    say: Clean the screen.
  add-charge:
    say: Find the leak.
"#,
        );
    }

    #[test]
    fn a_tree_that_is_not_there() {
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
        go: tree:sampel
#           ^^^^^^^^^^^ answer-leads-nowhere: there is no tree `sampel`
#           = here: leads nowhere
#           = instead: `tree:sample`
      - when: "no"
        go: clean-screen
outcomes:
  clean-screen:
    say: Clean the screen.
"#,
        );
    }
}
