use super::told::row;
use super::ways::{Step, Ways};
use crate::handbook::{Finding, Tree};

/// `check-unlisted`: an outcome that condemns a part is reached only after a question that its `only-after:` leaves out.
///
/// **At the bench** the list is what the bill rests on. A check that is asked today and not listed can be lost from the
/// tree tomorrow, and nothing will tell.
///
/// ```yaml
/// replace-valve:
///   condemns: the valve
///   only-after: [airflow, element]     # `screen` is asked on every way here as well
/// ```
/// Mended: `only-after: [airflow, element, screen]`.
pub(super) fn look(ways: &Ways, tree: &Tree, findings: &mut Vec<Finding>) {
    for outcome in tree.outcomes.iter().filter(|outcome| outcome.condemns.is_some()) {
        let Some(last) = outcome.only_after.last() else { continue };
        let step = ways.step(tree, &outcome.name.value);
        let asked = step.and_then(|step| ways.always_asked(step)).unwrap_or_default();
        let listed = |name: &str| outcome.only_after.iter().any(|check| check.value == name);
        // What is asked in another tree before this one is begun is not this tree's to list.
        let own =
            asked.iter().map(|step| ways.at(*step)).filter(|step| step.tree().is_some_and(|t| t.name == tree.name));
        let left_out: Vec<&str> = own.map(Step::name).filter(|name| !listed(name)).collect();
        // A check that is not known may be one of these with a slip in it, and is told.
        let all_known = outcome.only_after.iter().all(|check| ways.is_asked_before(tree, &check.value));
        if left_out.is_empty() || !all_known {
            continue;
        }
        let names = row(&left_out);
        let says = format!("`{}` is reached only after {names} as well, and does not say so", outcome.name.value);
        findings.push(
            Finding::warning("check-unlisted", last.at, says)
                .label("the list ends here")
                .instead(format!("add {names} to `only-after:`")),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_check_that_is_asked_on_every_way_is_missed_in_the_list() {
        check(
            r#"
title: Superheat reads high
start: airflow
questions:
  airflow:
    ask: Is the [air](lesson:air) in order?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: screen
      - when: "no"
        go: restore-air
  screen:
    ask: Is the inlet screen clean?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: glass
      - when: "no"
        go: restore-air
  glass:
    ask: Is the glass clear?
    choices: ["yes", "no"]
    answers:
      - when: "yes"
        go: replace-valve
      - when: "no"
        go: restore-air
outcomes:
  restore-air:
    say: Restore the air.
  replace-valve:
    say: Replace the valve.
    condemns: the valve
    only-after: [glass]
#                ^^^^^ warning check-unlisted: `replace-valve` is reached only after `airflow` and `screen` as well, and does not say so
#                = here: the list ends here
#                = instead: add `airflow` and `screen` to `only-after:`
"#,
        );
    }
}
