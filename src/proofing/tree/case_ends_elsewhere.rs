use super::lead;
use super::told::told;
use super::walk::{End, Walk};
use super::ways::{Step, Ways};
use crate::handbook::{Case, Finding, Handbook, Tree};
use crate::quantity::nearest;

/// `case-ends-elsewhere`: a case walked through its tree does not end at the outcome it must end at.
///
/// **At the bench** a machine like this one has stood in the shop, and the tree would have sent it the wrong way. The
/// tree is wrong, or the case is; the way walked is written out.
///
/// ```yaml
/// cases:
///   short-of-air:
///     answers: {airflow: 300 cfm/ton}
///     ends: set-the-stem
/// ```
/// Mended: `ends: restore-air`.
pub(super) fn look(
    book: &Handbook,
    ways: &Ways,
    tree: &Tree,
    case: &Case,
    walk: Option<&Walk>,
    findings: &mut Vec<Finding>,
) {
    let ends = &case.ends;
    if !is_an_end(book, tree, &ends.value, walk, ways) {
        let says = match ends.value.strip_prefix("tree:") {
            Some(name) => format!("there is no tree `{}`", name.trim()),
            None => format!("`{}` is no outcome of this tree", ends.value),
        };
        let outcomes = tree.outcomes.iter().map(|outcome| outcome.name.value.as_str());
        let meant = match ends.value.strip_prefix("tree:") {
            Some(_) => lead::meant(book, tree, &ends.value),
            None => nearest(&ends.value, outcomes).map(str::to_owned),
        };
        let meant = meant.map(|name| format!("`{name}`"));
        findings.push(Finding::error("case-ends-elsewhere", ends.at, says).label("no such end").perhaps(meant));
        return;
    }
    let Some(walk) = walk else { return };
    let found = match &walk.end {
        End::Outcome(step) => match ways.at(*step) {
            Step::Outcome(other, outcome) if other.name == tree.name => outcome.name.value.clone(),
            Step::Outcome(other, outcome) => format!("{}/{}", other.name, outcome.name.value),
            _ => return,
        },
        // The walk stops at another tree only where the case says so; whatever else stops it is told elsewhere.
        _ => return,
    };
    if found == ends.value || found.rsplit_once('/').is_some_and(|(_, name)| name == ends.value) {
        return;
    }
    let says = format!("`{}` ends at `{found}`, not at `{}`", case.name.value, ends.value);
    let mut finding = Finding::error("case-ends-elsewhere", ends.at, says).label("must end here");
    for line in told(ways, &walk.way) {
        finding = finding.found(line);
    }
    findings.push(finding.instead(format!("`{found}`, if the tree is right and the case is not")));
}

/// Whether `ends` names something a case can end at.
fn is_an_end(book: &Handbook, tree: &Tree, ends: &str, walk: Option<&Walk>, ways: &Ways) -> bool {
    if let Some(name) = ends.strip_prefix("tree:") {
        return book.trees.contains_key(name.trim());
    }
    let crossed = walk.into_iter().flat_map(|walk| &walk.way).filter_map(|(step, _)| ways.at(*step).tree());
    tree.outcome(ends).is_some()
        || crossed.into_iter().any(|other| {
            let short = ends.strip_prefix(other.name.as_str()).and_then(|rest| rest.strip_prefix('/')).unwrap_or(ends);
            other.outcome(short).is_some()
        })
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::{check, check_among};

    #[test]
    fn the_way_walked_is_written_out() {
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
    readings: {airflow per ton: 300 cfm/ton}
    answers: {air-path: "yes"}
    ends: set-the-stem
#         ^^^^^^^^^^^^ case-ends-elsewhere: `short-of-air` ends at `restore-air`, not at `set-the-stem`
#         = here: must end here
#         = found: Does air go over the whole coil? yes
#         = found: How much air crosses the coil? below 350 cfm/ton
#         = found: Restore the air.
#         = instead: `restore-air`, if the tree is right and the case is not
  fan-off:
    answers: {air-path: "no"}
    ends: restore-air
  airy:
    like: short-of-air
    answers: {airflow: 60 L/(s·kW), settle: steady}
    ends: set-the-stm
#         ^^^^^^^^^^^ case-ends-elsewhere: `set-the-stm` is no outcome of this tree
#         = here: no such end
#         = instead: `set-the-stem`
  settling:
    like: airy
    answers: {settle: [falling, steady], airflow: [350 cfm/ton, 400 cfm/ton]}
    ends: set-the-stem
"#,
        );
    }

    #[test]
    fn a_case_may_go_on_in_another_tree_or_end_at_its_beginning() {
        let other = r#"
title: Does the valve answer?
stands-alone: false
start: element
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
"#;
        check_among(
            &[("bulb-test", other)],
            r#"
title: Superheat reads high
start: airflow
questions:
  airflow:
    ask: How much air crosses the coil?
    measure: airflow per ton
    answers:
      - when: below 350 cfm/ton
        go: restore-air
      - when: above 350 cfm/ton
        go: tree:bulb-test
outcomes:
  restore-air:
    say: Restore the air.
cases:
  short-of-air:
    answers: {airflow: 300 cfm/ton}
    ends: restore-air
  in-order:
    answers: {airflow: 400 cfm/ton}
    ends: tree:bulb-test
  dead:
    like: in-order
    answers: {bulb-test/element: dead}
    ends: bulb-test/look-at-screen
  alive:
    like: in-order
    answers: {element: answers}
    ends: look-at-screen
#         ^^^^^^^^^^^^^^ case-ends-elsewhere: `alive` ends at `bulb-test/leave-it`, not at `look-at-screen`
#         = here: must end here
#         = found: How much air crosses the coil? above 350 cfm/ton
#         = found: Does the valve answer the warm bulb? answers
#         = found: Leave it alone.
#         = instead: `bulb-test/leave-it`, if the tree is right and the case is not
"#,
        );
    }
}
