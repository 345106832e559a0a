//! Forms and the catalogue as proofing worked them, made ready to be set. Computes nothing; asks for each figure in both
//! systems of units.

use super::figure::{SetBlank, SetComputation, SetForm, SetInput, SetLookedFor, SetTake};
use super::from_proof::{both, in_both, range, value, worked};
use super::print::Both;
use super::words::{Words, fill};
use crate::proofing::{LookedFor, Proof, Verdict};
use crate::quantity::{Kind, Pressure, System, Unit, Value, number_text};
use crate::trade::{self, Computation, Given, Input, InputKind, Need, Worked, WorkedInput, WorkedStep};

/// The form for what was worked.
pub(super) fn form(of: &Worked, looked_for: Option<&LookedFor>, words: &Words, air: Pressure) -> SetForm {
    let c = of.computation;
    // What no page can do is shown worked, with nothing to fill in.
    let blanks = c
        .inputs()
        .iter()
        .filter(|_| c.reckons_in_page())
        .map(|input| {
            let given = of.inputs.iter().find(|worked| worked.name == input.name);
            blank(input, given, words, of.air)
        })
        .collect();
    // The last step may be the answer itself.
    let told = |step: &&WorkedStep| step.value != of.answer && speaks(step.value, of.air);
    let steps = of.steps.iter().filter(told).map(|step| on_the_way(step, of.air)).collect();
    SetForm {
        sum: c.name.to_owned(),
        title: c.title.to_owned(),
        blanks,
        steps,
        figure: worked(of, of.air),
        looked_for: looked_for.map(|looked_for| held(looked_for, words, air)),
    }
}

/// Whether a figure says something in the units of its kind: not zero where it isn't, nor a row of digits that nobody
/// reads, as the terms of a correlation are. The working has those, with powers of ten. `script/5-forms.js` leaves out the
/// same when it reckons again.
fn speaks(value: Value, air: Pressure) -> bool {
    [System::Us, System::Si].into_iter().all(|system| {
        let size = value.kind.unit_in(system).from_si(value.si, air).abs();
        let least = 0.5 * 10f64.powi(-i32::from(value.kind.decimals_in(system)));
        size == 0.0 || (least..1e7).contains(&size)
    })
}

fn on_the_way(step: &WorkedStep, air: Pressure) -> SetInput {
    SetInput { name: step.name.to_owned(), value: value(step.value, air) }
}

/// The unit beside the blank of an input.
fn beside(input: &Input, kind: Kind, system: System) -> (&'static Unit, u8) {
    match (input.showing, system) {
        (Some(shown), System::Us) => shown.us,
        (Some(shown), System::Si) => shown.si,
        (None, system) => (kind.unit_in(system), kind.decimals_in(system)),
    }
}

fn blank(input: &Input, given: Option<&WorkedInput>, words: &Words, air: Pressure) -> SetBlank {
    let name = input.name.to_owned();
    let InputKind::Quantity(kind) = input.kind else {
        let value = match given.map(|given| &given.given) {
            Some(Given::Refrigerant(fluid)) => both(|_| fluid.designation().to_owned()),
            _ => Both::default(),
        };
        return SetBlank { name, fluid: true, value, ..SetBlank::default() };
    };
    let leave = match &input.need {
        Need::Required | Need::FromSurroundings => String::new(),
        Need::Optional | Need::Default(_) => words.may_be_left_out.clone(),
        Need::OneOf(group) => fill(&words.one_of, "group", group),
    };
    let number = |system| {
        let (unit, decimals) = beside(input, kind, system);
        match given.map(|given| &given.given) {
            Some(Given::Written(written)) if *written.unit == *unit => written.number_text(),
            // In another unit than stands beside the blank: it says so, as a reader may.
            Some(Given::Written(written)) if written.unit.system == system => {
                written.to_string().replace("\u{a0}", " ")
            }
            // A digit finer than it would be set, so that the answer comes out near the printed one.
            Some(Given::Written(written)) => written.number_to(unit, written.decimals_in(unit) + 1, air),
            Some(Given::Value(value)) => number_text(value.number_of(unit, air), decimals),
            Some(Given::Refrigerant(_)) | None => String::new(),
        }
    };
    SetBlank {
        name,
        fluid: false,
        value: both(number),
        unit: both(|system| beside(input, kind, system).0.symbol.to_owned()),
        leave,
        letters: matches!(kind, Kind::Pressure | Kind::Temperature | Kind::TemperatureDifference | Kind::Length),
    }
}

fn held(looked_for: &LookedFor, words: &Words, air: Pressure) -> SetLookedFor {
    let (low, high) = (&looked_for.low, &looked_for.high);
    let one = low == high;
    let shown = if one { both(|system| low.shown_in(system, air)) } else { range(low, high, words, air) };
    let said =
        |says: &str| both(|system| fill(says, "figure", if system == System::Us { &shown.us } else { &shown.si }));
    let (below, within, above) = (said(&words.verdict_below), said(&words.verdict_within), said(&words.verdict_above));
    let verdict = match looked_for.verdict {
        Verdict::Below => &below,
        Verdict::Within => &within,
        Verdict::Above => &above,
    };
    SetLookedFor {
        low: low.unit.to_si(low.number, air),
        high: high.unit.to_si(high.number, air),
        verdict: verdict.clone(),
        below,
        within,
        above,
        value: looked_for.value.clone(),
    }
}

/// Every computation in the order of the reference.
pub(super) fn catalogue(proof: &Proof, words: &Words, air: Pressure) -> Vec<SetComputation> {
    trade::catalogue().iter().map(|c| computation(c, proof, words, air)).collect()
}

fn computation(c: &'static Computation, proof: &Proof, words: &Words, air: Pressure) -> SetComputation {
    let (us, si) = (c.legend(System::Us), c.legend(System::Si));
    let legend =
        us.iter().zip(&si).map(|(us, si)| (us.mathml.clone(), Both { us: us.name.clone(), si: si.name.clone() }));
    let said = |refuses: bool| {
        c.cautions.iter().filter(|caution| caution.refuses == refuses).map(|caution| caution.says.to_owned()).collect()
    };
    SetComputation {
        name: c.name.to_owned(),
        title: c.title.to_owned(),
        purpose: c.purpose.to_owned(),
        group: c.group.title().to_owned(),
        takes: c.inputs().iter().map(|input| take(c, input, words, air)).collect(),
        equation: in_both(&c.formula(System::Us), &c.formula(System::Si)),
        legend: legend.collect(),
        refuses: said(true),
        minds: said(false),
        source: format!("{}: {}", c.source.mark.text(), c.source.text),
        shell: c.shell_example(),
        form: proof.catalogue.get(c.name).map(|worked| form(worked, None, words, air)),
    }
}

fn take(c: &Computation, input: &Input, words: &Words, air: Pressure) -> SetTake {
    let leave = match &input.need {
        Need::Required => Both::default(),
        Need::Optional => both(|_| words.may_be_left_out.clone()),
        Need::Default(written) => both(|system| fill(&words.taken_otherwise, "figure", &written.shown_in(system, air))),
        Need::OneOf(group) => both(|_| fill(&words.one_of, "group", group)),
        Need::FromSurroundings => both(|_| words.handbooks_otherwise.clone()),
    };
    SetTake {
        name: input.name.to_owned(),
        letter: input.letter(),
        is: match input.kind {
            InputKind::Refrigerant => words.refrigerant.to_lowercase(),
            InputKind::Quantity(kind) => kind.name().to_owned(),
        },
        about: input.about.to_owned(),
        range: match &input.range {
            Some((low, high)) => Some(range(low, high, words, air)),
            None => c.bounded_by_refrigerant(input).then(|| both(|_| words.refrigerants_range.clone())),
        },
        leave,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_figure_that_its_units_cannot_tell_is_left_to_the_working() {
        let air = Pressure::STANDARD_ATMOSPHERE;
        let told = |kind, si| speaks(Value { kind, si }, air);
        assert!(told(Kind::Velocity, 4.7) && told(Kind::Ratio, 275_856.0) && told(Kind::Ratio, 0.0));
        assert!(!told(Kind::Ratio, 5.3e21) && !told(Kind::Ratio, 1.4e-14) && !told(Kind::Area, 3.1e-4));
    }
}
