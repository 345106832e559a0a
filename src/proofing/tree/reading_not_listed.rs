use super::asked::{Measured, measured};
use crate::handbook::{Finding, Tree};
use crate::quantity::nearest;

/// `reading-not-listed`: a question measures something that the tree's `readings:` do not list.
///
/// **At the bench** the list at the head of a tree is what is taken out of the van. What is missing there is missing on
/// the roof.
///
/// ```yaml
/// readings: [suction pressure]
/// questions:
///   line:
///     measure: suction line temperature
/// ```
/// Mended: `readings: [suction pressure, suction line temperature]`.
///
/// A bare quantity (`temperature difference`, `superheat`) is measured where it is asked and need not be listed.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    for measure in tree.questions.iter().filter_map(|question| question.measure.as_ref()) {
        if !matches!(measured(tree, measure), Measured::Unlisted(_)) {
            continue;
        }
        let meant = nearest(&measure.value, tree.readings.iter().map(|reading| reading.name.value.as_str()));
        findings.push(
            Finding::error(
                "reading-not-listed",
                measure.at,
                format!("`{}` is not among the tree's readings", measure.value),
            )
            .label("not listed")
            .instead(meant.map_or_else(
                || format!("add `{}` to `readings:`", measure.value),
                |name| format!("`{name}`, or add `{}` to `readings:`", measure.value),
            )),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_reading_must_be_listed_and_a_quantity_need_not() {
        check(
            r#"
title: Superheat reads high
readings: [suction pressure, liquid line temperature]
start: superheat
questions:
  superheat:
    ask: How much superheat?
    measure: superheat
    answers:
      - when: below 8 °F
        go: line
      - when: above 8 °F
        go: done
  line:
    ask: How warm is the line?
    measure: liquid-line temperatur
#            ^^^^^^^^^^^^^^^^^^^^^^ measure-not-known: `liquid-line temperatur` is no quantity and none of the tree's readings
#            = here: measured in what?
#            = instead: `liquid line temperature`
    answers:
      - when: below 50 °F
        go: done
      - when: above 50 °F
        go: drier
  drier:
    ask: How much does the drier take?
    measure: temperature drop across the drier
#            ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ reading-not-listed: `temperature drop across the drier` is not among the tree's readings
#            = here: not listed
#            = instead: add `temperature drop across the drier` to `readings:`
    answers:
      - when: below 3 °F
        go: done
      - when: above 3 °F
        go: change-drier
outcomes:
  done:
    say: Leave it alone.
  change-drier:
    say: Change the drier.
"#,
        );
    }

    #[test]
    fn a_reading_much_like_a_listed_one_is_offered_that_one() {
        check(
            r#"
title: Superheat reads high
readings: [suction line temperature]
start: line
questions:
  line:
    ask: How warm is the line?
    measure: suction pipe temperature
#            ^^^^^^^^^^^^^^^^^^^^^^^^ reading-not-listed: `suction pipe temperature` is not among the tree's readings
#            = here: not listed
#            = instead: `suction line temperature`, or add `suction pipe temperature` to `readings:`
    answers:
      - when: below 50 °F
        go: done
      - when: above 50 °F
        go: look-elsewhere
outcomes:
  done:
    say: Leave it alone.
  look-elsewhere:
    say: Look elsewhere.
"#,
        );
    }
}
