use super::asked::{Measured, measured, quantity_of};
use crate::handbook::{Finding, Tree};
use crate::quantity::{Kind, nearest};
use std::collections::BTreeSet;

/// `reading-quantity-not-known`: a reading's quantity can be told neither from its name nor from what stands beside it.
///
/// **At the bench** the unit of a figure is what keeps 4 psi from being taken for 4 °F.
///
/// ```yaml
/// readings: [condensing over ambient]
/// ```
/// Mended: `readings: [condensing over ambient: temperature difference]`. A name that holds its quantity, `suction
/// pressure`, tells enough; and a reading that no question measures (the refrigerant's name) need tell nothing.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    let mut told = BTreeSet::new();
    for reading in &tree.readings {
        let Some(quantity) = &reading.quantity else { continue };
        if Kind::from_name(&quantity.value).is_some() {
            continue;
        }
        told.insert(reading.name.at);
        let names = Kind::ALL.iter().flat_map(|kind| std::iter::once(kind.name()).chain(kind.also().iter().copied()));
        let instead = nearest(&quantity.value, names)
            .map_or_else(|| "a quantity, as `temperature difference`".to_owned(), |name| format!("`{name}`"));
        findings.push(
            Finding::error("reading-quantity-not-known", quantity.at, format!("`{}` is no quantity", quantity.value))
                .label("in which unit?")
                .instead(instead),
        );
    }
    for measure in tree.questions.iter().filter_map(|question| question.measure.as_ref()) {
        let Measured::Reading(reading, None) = measured(tree, measure) else { continue };
        if quantity_of(reading).is_some() || !told.insert(reading.name.at) {
            continue;
        }
        let name = &reading.name;
        findings.push(
            Finding::error(
                "reading-quantity-not-known",
                name.at,
                format!("`{}` does not tell what quantity it is", name.value),
            )
            .label("in which unit?")
            .seen(measure.at, "measured here")
            .instead(format!("`{}: temperature difference`, or whatever it is", name.value)),
        );
    }
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn a_quantity_is_told_by_the_name_or_beside_it() {
        check(
            r#"
title: Head pressure is high
readings:
  - refrigerant
  - liquid pressure
  - condensing over ambient
#   ^^^^^^^^^^^^^^^^^^^^^^^ reading-quantity-not-known: `condensing over ambient` does not tell what quantity it is
#   = here: in which unit?
#   = seen `condensing over ambient`: measured here
#   = instead: `condensing over ambient: temperature difference`, or whatever it is
  - approach: temprature difference
#             ^^^^^^^^^^^^^^^^^^^^^ reading-quantity-not-known: `temprature difference` is no quantity
#             = here: in which unit?
#             = instead: `temperature difference`
start: over
questions:
  over:
    ask: How far above the air does it condense?
    measure: condensing over ambient
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
