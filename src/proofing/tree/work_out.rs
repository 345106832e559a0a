use super::asked::quantity_of;
use super::interval::Figures;
use super::told::row;
use crate::handbook::{Finding, Question, Spot, Tree, WorkOut};
use crate::proofing::figure;
use crate::quantity::{Value, nearest, plain_words};
use crate::trade::{self, Computation, InputKind, Need};
use std::collections::BTreeMap;

/// A question's answer worked out of the tree's readings: by which computation, and which reading is which input.
///
/// `computation-not-known` and `input-not-known` where the author's names are not the catalogue's; `reading-not-listed`
/// where an input is among no readings; `reading-of-another-quantity` where a reading can't be the input it is to be.
///
/// **At the bench** a superheat is asked for, and the list at the head of the tree did not say to bring a thermometer.
///
/// ```yaml
/// readings: [refrigerant, suction pressure]
/// questions:
///   superheat:
///     work-out: superheat
/// ```
/// Mended: `readings: [refrigerant, suction pressure, suction line temperature]`. An input that is called otherwise than
/// its reading is named under `of:`, as in `of: {pressure: liquid pressure}`.
pub(super) fn look(tree: &Tree, findings: &mut Vec<Finding>) {
    for work_out in tree.questions.iter().filter_map(|question| question.work_out.as_ref()) {
        let computation = match figure::computation(&work_out.computation) {
            Ok(computation) => computation,
            Err(finding) => {
                findings.push(*finding);
                continue;
            }
        };
        for (input, reading) in &work_out.of {
            if computation.input(&input.value).is_none() {
                findings.push(figure::not_an_input(computation, input));
            }
            if tree.reading(&reading.value).is_none() {
                let listed = tree.readings.iter().map(|reading| reading.name.value.as_str());
                let meant = nearest(&reading.value, listed);
                findings.push(not_listed(&reading.value, reading).instead(meant.map_or_else(
                    || format!("add `{}` to `readings:`", reading.value),
                    |name| format!("`{name}`, or add `{}` to `readings:`", reading.value),
                )));
            }
        }
        look_for_lacking(tree, work_out, computation, findings);
        look_for_others(tree, work_out, computation, findings);
    }
}

/// Inputs that must be given and are no readings.
fn look_for_lacking(tree: &Tree, work_out: &WorkOut, computation: &Computation, findings: &mut Vec<Finding>) {
    let has = |input: &str| {
        reading_of(work_out, input).is_some_and(|name| tree.reading(name).is_some() || named(work_out, input))
    };
    let mut lacking: Vec<&str> = Vec::new();
    for input in computation.inputs() {
        match input.need {
            Need::Required if !has(input.name) => lacking.push(input.name),
            Need::OneOf(group) => {
                let mut alike =
                    computation.inputs().iter().filter(|other| matches!(other.need, Need::OneOf(g) if g == group));
                let first = alike.clone().next().is_some_and(|first| first.name == input.name);
                if first && !alike.any(|other| has(other.name)) {
                    lacking.push(input.name);
                }
            }
            _ => {}
        }
    }
    if lacking.is_empty() {
        return;
    }
    let names = row(&lacking);
    let says =
        format!("`{}` is worked out of {names}, and the tree does not list that among its readings", computation.name);
    findings.push(
        Finding::error("reading-not-listed", work_out.computation.at, says)
            .label("with what?")
            .instead(format!("add {names} to `readings:`, or say under `of:` which readings they are")),
    );
}

/// Readings that can't be the inputs they are to be.
fn look_for_others(tree: &Tree, work_out: &WorkOut, computation: &Computation, findings: &mut Vec<Finding>) {
    for input in computation.inputs() {
        let InputKind::Quantity(wanted) = input.kind else { continue };
        let Some(reading) = reading_of(work_out, input.name).and_then(|name| tree.reading(name)) else { continue };
        let Some(kind) = quantity_of(reading).filter(|kind| *kind != wanted) else { continue };
        let name = &reading.name;
        findings.push(
            Finding::error(
                "reading-of-another-quantity",
                name.at,
                format!("`{}` is of another quantity than the `{}` of `{}`", name.value, input.name, computation.name),
            )
            .label(format!("{kind}"))
            .seen(work_out.computation.at, format!("{wanted} is wanted here"))
            .instead(format!("a reading of {wanted}")),
        );
    }
}

fn not_listed(name: &str, at: &Spot<String>) -> Finding {
    Finding::error("reading-not-listed", at.at, format!("`{name}` is not among the tree's readings"))
        .label("not listed")
}

/// Whether `of:` says which reading an input is.
fn named(work_out: &WorkOut, input: &str) -> bool {
    work_out.of.iter().any(|(name, _)| plain_words(&name.value) == plain_words(input))
}

/// The name of the reading that an input is: the one under `of:`, or its own.
fn reading_of<'a>(work_out: &'a WorkOut, input: &'a str) -> Option<&'a str> {
    let under_of = work_out.of.iter().find(|(name, _)| plain_words(&name.value) == plain_words(input));
    Some(under_of.map_or(input, |(_, reading)| reading.value.as_str()))
}

/// The inputs of a question's computation, each with the reading of the tree that it is.
pub(super) fn inputs(tree: &Tree, question: &Question) -> Vec<(&'static str, String)> {
    let Some(work_out) = &question.work_out else { return Vec::new() };
    let Ok(computation) = figure::computation(&work_out.computation) else { return Vec::new() };
    let readings = computation.inputs().iter().filter_map(|input| {
        let reading = reading_of(work_out, input.name).and_then(|name| tree.reading(name))?;
        Some((input.name, reading.name.value.clone()))
    });
    readings.collect()
}

/// Why a figure could not be worked out of the readings of a case.
#[derive(Debug)]
pub(super) enum NotWorked {
    /// A reading is wanted, by its name, and the case has none.
    Lacking(String),
    /// A reading of the case can't be read; the finding says why.
    Finding(Box<Finding>),
    /// With what it has it can't be done, and why.
    Impossible(String),
    /// The tree itself is at fault, or a refrigerant could not be built; that is told elsewhere.
    Told,
}

/// The answer to a question, worked out of readings by their plain names; and the readings it was worked out of.
pub(super) fn work_out<'a>(
    tree: &Tree,
    question: &Question,
    readings: &BTreeMap<String, &'a Spot<String>>,
    figures: Figures,
) -> Result<(Value, Vec<&'a Spot<String>>), NotWorked> {
    let work_out = question.work_out.as_ref().ok_or(NotWorked::Told)?;
    let computation = figure::computation(&work_out.computation).map_err(|_| NotWorked::Told)?;
    let (mut given, mut used) = (BTreeMap::new(), Vec::new());
    for (input, reading) in inputs(tree, question) {
        let Some(text) = readings.get(&plain_words(&reading)).copied() else {
            let required = computation.input(input).is_some_and(|input| input.required());
            if required {
                return Err(NotWorked::Lacking(reading));
            }
            continue;
        };
        let name = Spot::new(input.to_owned(), text.at);
        match figure::input(computation, &name, text, figures.book, figures.roster).map_err(NotWorked::Finding)? {
            Some(value) => given.insert(plain_words(input), value),
            None => return Err(NotWorked::Told),
        };
        used.push(text);
    }
    let worked = trade::reckon(computation, &given, figures.around)
        .map_err(|error| NotWorked::Impossible(format!("`{}` can't be worked out: {error}", computation.name)))?;
    Ok((worked.answer, used))
}

#[cfg(test)]
mod tests {
    use crate::proofing::tree::bench::check;

    #[test]
    fn an_answer_worked_out_of_readings_is_walked_by_their_figures() {
        check(
            r#"
title: Superheat or not
readings: [refrigerant, suction pressure, suction line temperature, liquid pressure, liquid line temperature]
start: superheat
questions:
  superheat:
    ask: How much superheat is at the bulb?
    work-out: superheat
    answers:
      - when: below value:superheat-range
        go: flooded
      - when: within value:superheat-range
        go: condensing
      - when: above value:superheat-range
        go: starved
  condensing:
    ask: How hot does it condense?
    work-out: bubble-temperature
    of: {pressure: liquid pressure}
    answers:
      - when: below 130 °F
        go: right
      - when: above 130 °F
        go: hot
outcomes:
  flooded:
    say: The coil is flooded.
  right:
    say: The coil is right.
  hot:
    say: The condenser is dirty.
  starved:
    say: The coil is starved.
cases:
  sound:
    readings: {refrigerant: R-410A, suction pressure: 130 psig, suction line temperature: 55 °F, liquid pressure: 365 psig}
    ends: right
  dirty:
    like: sound
    readings: {liquid pressure: 500 psig}
    ends: hot
  undercharged:
    like: sound
    readings: {suction pressure: 98 psig, suction line temperature: 58 °F}
    ends: starved
  loose-strap:
    like: sound
    readings: {suction pressure: 155 psig}
    ends: right
#         ^^^^^ case-ends-elsewhere: `loose-strap` ends at `flooded`, not at `right`
#         = here: must end here
#         = found: How much superheat is at the bulb? below value:superheat-range
#         = found: The coil is flooded.
#         = instead: `flooded`, if the tree is right and the case is not
  beyond-reckoning:
# ^^^^^^^^^^^^^^^^ case-not-read: `superheat` can't be worked out: R-410A: no dew temperature at 914.7 psia (6306.6 kPa); it is known from 0.5035 psia (3.472 kPa) to 708.2 psia (4882.8 kPa) (from the triple point to just below the critical point)
# = here: in the case `beyond-reckoning`
    like: sound
    readings: {suction pressure: 900 psig}
    ends: flooded
  slip-of-the-pen:
    like: sound
    readings: {suction pressure: 130 psi}
#                                ^^^^^^^ case-not-read: `130 psi` does not say from where it is counted: write `130 psig` or `130 psia`
#                                = here: in the case `slip-of-the-pen`
    ends: flooded
  no-such-gas:
    like: sound
    readings: {refrigerant: R-410}
#                           ^^^^^ case-not-read: there is no refrigerant `R-410`
#                           = here: in the case `no-such-gas`
#                           = instead: describe it in a file of its own under `refrigerants/`
    ends: flooded
  half-read:
# ^^^^^^^^^ case-stops: `superheat` is asked, and `half-read` has no `suction line temperature` to work it out of
# = here: stops on the way
# = found: How much superheat is at the bulb?
# = instead: add `suction line temperature:` to its `readings:`
    readings: {refrigerant: R-410A, suction pressure: 130 psig}
    ends: right
"#,
        );
    }

    #[test]
    fn what_it_is_worked_out_of_must_be_listed() {
        check(
            r#"
title: Superheat or not
readings: [refrigerant, suction pressure, liquid temperature]
#                                         ^^^^^^^^^^^^^^^^^^ reading-of-another-quantity: `liquid temperature` is of another quantity than the `pressure` of `bubble-temperature`
#                                         = here: temperature
#                                         = seen `bubble-temperature`: pressure is wanted here
#                                         = instead: a reading of pressure
start: superheat
questions:
  superheat:
    ask: How much superheat is at the bulb?
    work-out: superheat
#             ^^^^^^^^^ reading-not-listed: `superheat` is worked out of `suction line temperature`, and the tree does not list that among its readings
#             = here: with what?
#             = instead: add `suction line temperature` to `readings:`, or say under `of:` which readings they are
    answers:
      - when: below 8 °F
        go: flooded
      - when: above 8 °F
        go: condensing
  condensing:
    ask: How hot does it condense?
    work-out: bubble-temperature
    of: {pressure: liquid temperature}
    answers:
      - when: below 130 °F
        go: right
      - when: above 130 °F
        go: boiling
  boiling:
    ask: How cold does it boil?
    work-out: dew-temperature
    of: {presure: suction pressure, pressure: suction presure}
#        ^^^^^^^ input-not-known: `dew-temperature` takes no `presure`
#        = instead: the nearest is `pressure`
#                                             ^^^^^^^^^^^^^^^ reading-not-listed: `suction presure` is not among the tree's readings
#                                             = here: not listed
#                                             = instead: `suction pressure`, or add `suction presure` to `readings:`
    answers:
      - when: below 30 °F
        go: right
      - when: above 30 °F
        go: flooded
outcomes:
  flooded:
    say: The coil is flooded.
  right:
    say: The coil is right.
"#,
        );
    }

    #[test]
    fn a_computation_there_is_not() {
        check(
            r#"
title: Superheat or not
readings: [refrigerant, suction pressure, suction line temperature]
start: superheat
questions:
  superheat:
    ask: How much superheat is at the bulb?
    work-out: superhaet
#             ^^^^^^^^^ computation-not-known: there is no computation `superhaet`
#             = instead: the nearest is `superheat`; `coldpress reckon --list` names all there are
    answers:
      - when: below 8 °F
        go: flooded
      - when: above 8 °F
        go: right
outcomes:
  flooded:
    say: The coil is flooded.
  right:
    say: The coil is right.
"#,
        );
    }
}
