use super::ways::Ways;
use crate::handbook::{Finding, Tree};

/// `tree-never-entered`: a tree with `stands-alone: false` that no other tree leads into.
///
/// **At the bench** there is no way to it: it is not among the symptoms one can begin with, and no answer leads there.
///
/// ```yaml
/// # trees/bulb-test.yaml
/// title: Does the valve answer?
/// stands-alone: false
/// ```
/// Mended: an answer of another tree says `go: tree:bulb-test`, or `stands-alone:` is taken out.
pub(super) fn look(ways: &Ways, tree: &Tree, findings: &mut Vec<Finding>) {
    let Some(start) = ways.start(tree) else { return };
    if tree.stands_alone || ways.reached_from_outside().contains(&start) {
        return;
    }
    findings.push(
        Finding::error("tree-never-entered", tree.title.at, "this tree does not stand alone and no tree leads into it")
            .label("never come to")
            .instead(format!(
                "lead an answer of another tree to `tree:{}`, or take `stands-alone: false` out",
                tree.name
            )),
    );
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_tree_that_nothing_leads_into() {
        check(
            r#"
title: Does the valve answer?
#      ^^^^^^^^^^^^^^^^^^^^^^ tree-never-entered: this tree does not stand alone and no tree leads into it
#      = here: never come to
#      = instead: lead an answer of another tree to `tree:sample`, or take `stands-alone: false` out
start: element
stands-alone: false
questions:
  element:
    ask: Does the valve answer the warm bulb?
    choices: [answers, dead]
    answers:
      - when: answers
        go: leave-it
      - when: dead
        go: look-at-screen
outcomes:
  leave-it:
    say: Leave it alone.
  look-at-screen:
    say: Look at the screen.
"#,
        );
    }
}
