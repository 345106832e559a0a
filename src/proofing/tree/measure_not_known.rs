use super::asked::{Measured, measured};
use crate::handbook::{Finding, Tree};
use crate::quantity::{Kind, nearest};

/// `measure-not-known`: a `measure:` that is none of the tree's readings and no quantity.
///
/// **At the bench** a figure is asked for and no one can tell in which unit.
///
/// ```yaml
/// measure: temprature difference
/// ```
/// Mended: `measure: temperature difference`.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    for measure in tree.questions.iter().filter_map(|question| question.measure.as_ref()) {
        if !matches!(measured(tree, measure), Measured::Unknown) {
            continue;
        }
        let readings = tree.readings.iter().map(|reading| reading.name.value.as_str());
        let quantities =
            Kind::ALL.iter().flat_map(|kind| std::iter::once(kind.name()).chain(kind.also().iter().copied()));
        let instead = nearest(&measure.value, readings.chain(quantities)).map_or_else(
            || "name a quantity, as `temperature difference`, or one of the tree's readings".to_owned(),
            |name| format!("`{name}`"),
        );
        findings.push(
            Finding::error(
                "measure-not-known",
                measure.at,
                format!("`{}` is no quantity and none of the tree's readings", measure.value),
            )
            .label("measured in what?")
            .instead(instead),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn the_nearest_reading_or_quantity_is_offered() {
        check(
            r#"
title: Superheat reads high
readings: [condensing over ambient: temperature difference]
start: superheat
questions:
  superheat:
    ask: How much superheat?
    measure: temprature difference
#            ^^^^^^^^^^^^^^^^^^^^^ measure-not-known: `temprature difference` is no quantity and none of the tree's readings
#            = here: measured in what?
#            = instead: `temperature difference`
    answers:
      - when: below 8 °F
        go: over
      - when: above 8 °F
        go: done
  over:
    ask: How far above the air does it condense?
    measure: condensing over ambiant
#            ^^^^^^^^^^^^^^^^^^^^^^^ measure-not-known: `condensing over ambiant` is no quantity and none of the tree's readings
#            = here: measured in what?
#            = instead: `condensing over ambient`
    answers:
      - when: below 30 °F
        go: done
      - when: above 30 °F
        go: feel
  feel:
    ask: How does it feel?
    measure: warmth
#            ^^^^^^ measure-not-known: `warmth` is no quantity and none of the tree's readings
#            = here: measured in what?
#            = instead: name a quantity, as `temperature difference`, or one of the tree's readings
    answers:
      - when: below 30 °F
        go: done
      - when: above 30 °F
        go: clean
outcomes:
  done:
    say: Leave it alone.
  clean:
    say: Clean the coil.
"#,
        );
    }
}
