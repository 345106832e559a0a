use super::asked::{Asked, asked};
use super::interval::{Figures, Interval, NotRead};
use super::scale::join;
use crate::handbook::{Finding, Question, Tree};

/// `answer-not-read`: a `when:` of a measured question is no run of figures of what is measured.
///
/// **At the bench** the reading can't be held against it.
///
/// ```yaml
/// measure: airflow per ton
/// answers:
///   - when: under 350 cfm
/// ```
/// Mended: `when: below 350 cfm/ton`. A run of figures is `below` one, from one `to` another, or `above` one; a bound may
/// be a standing value: `below value:superheat-range`, `within value:superheat-range`, `above value:superheat-range`.
pub(super) fn look(tree: &Tree, figures: Figures, findings: &mut Vec<Finding>) {
    for question in &tree.questions {
        let Asked::Figure(kind) = asked(tree, question) else { continue };
        for when in question.answers.iter().map(|answer| &answer.when) {
            if let Err(NotRead::Because(says, instead)) = figures.interval(&when.value, kind) {
                let label = format!("not a run of {kind}");
                findings.push(Finding::error("answer-not-read", when.at, says).label(label).perhaps(instead));
            }
        }
    }
}

/// The intervals of a question's answers by number, where it is measured and all of them can be read. Bounds that meet
/// are one place.
pub(super) fn intervals(tree: &Tree, question: &Question, figures: Figures) -> Option<Vec<(usize, Interval)>> {
    let Asked::Figure(kind) = asked(tree, question) else { return None };
    let read = question
        .answers
        .iter()
        .enumerate()
        .map(|(number, answer)| figures.interval(&answer.when.value, kind).ok().map(|interval| (number, interval)));
    let mut read: Vec<_> = read.collect::<Option<_>>()?;
    join(&mut read, figures.air);
    Some(read)
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn what_is_no_run_of_figures_is_told_what_would_be() {
        check(
            r#"
title: Superheat reads high
start: superheat
questions:
  superheat:
    ask: How much superheat?
    measure: superheat
    answers:
      - when: under 8 °F
#             ^^^^^^^^^^ answer-not-read: `under 8 °F` is no run of figures
#             = here: not a run of temperature difference
#             = instead: `below 8 °F`
        go: leave-it
      - when: about right
#             ^^^^^^^^^^^ answer-not-read: `about right` is no run of figures
#             = here: not a run of temperature difference
#             = instead: `below 12 °F` or `above 12 °F`, or two figures with `to` between
        go: leave-it
      - when: above 18 psig
#             ^^^^^^^^^^^^^ answer-not-read: `18 psig` is a pressure, and a temperature difference is wanted here: write it as `12 °F`
#             = here: not a run of temperature difference
        go: look-further
      - when: within 8 to 18 °F
#             ^^^^^^^^^^^^^^^^^ answer-not-read: `within 8 to 18 °F` goes by no standing value
#             = here: not a run of temperature difference
#             = instead: `8 to 18 °F`, or `within value:` and the name of a standing value
        go: look-further
outcomes:
  leave-it:
    say: Leave it alone.
  look-further:
    say: Look further.
"#,
        );
    }

    #[test]
    fn standing_values_serve_as_bounds_where_they_can() {
        check(
            r#"
title: Superheat reads high
start: superheat
questions:
  superheat:
    ask: How much superheat?
    measure: superheat
    answers:
      - when: below value:superheat-range
        go: leave-it
      - when: within value:superheat-rang
#             ^^^^^^^^^^^^^^^^^^^^^^^^^^^ answer-not-read: there is no standing value `superheat-rang`
#             = here: not a run of temperature difference
#             = instead: `value:superheat-range`
        go: leave-it
      - when: within value:drier-drop
#             ^^^^^^^^^^^^^^^^^^^^^^^ answer-not-read: `drier-drop` is one figure, and nothing lies within it
#             = here: not a run of temperature difference
#             = instead: `below value:drier-drop` and `above value:drier-drop`
        go: leave-it
      - when: value:superheat-range to 25 °F
#             ^^^^^^^^^^^^^^^^^^^^^^^^^^^^^^ answer-not-read: `superheat-range` is a range, and one figure is wanted here
#             = here: not a run of temperature difference
#             = instead: `within value:superheat-range`, or the figure itself
        go: leave-it
      - when: above value:bulb-clock
#             ^^^^^^^^^^^^^^^^^^^^^^ answer-not-read: `bulb-clock` is no figure: `10 or 2 o'clock`
#             = here: not a run of temperature difference
        go: look-further
      - when: above value:airflow-comfort
#             ^^^^^^^^^^^^^^^^^^^^^^^^^^^ answer-not-read: `airflow-comfort` is of another quantity, airflow per capacity; temperature difference is wanted here
#             = here: not a run of temperature difference
        go: look-further
outcomes:
  leave-it:
    say: Leave it alone.
  look-further:
    say: Look further.
"#,
        );
    }
}
