//! Problems: numbers drawn from ranges, each draw worked through to its key. `problem-without-draw`: no draw gives an
//! answer worth asking for; `problem-asks-for-nothing`: the question leaves a hole where a number should stand.
//!
//! A problem that can't be solved, or whose answer is absurd, teaches the wrong thing. So every draw is worked when the
//! handbook is made, and only draws with a sound answer reach the page.
//!
//! Trips: `keep: 4 to 25 °F` where every draw comes out below zero. Mended: ranges that belong together.

use super::figure::{computation, reckon, wanted};
use super::inputs::{Bench, Ready, Several};
use super::step::{Gathered, Known, gather, lacking};
use super::{Draw, GivenProof, ProblemProof, StepProof};
use crate::fluid::Refrigerant;
use crate::handbook::{Finding, Handbook, Problem, Spot, Supplied};
use crate::quantity::{Written, plain_words, read, read_range};
use crate::trade::{Computation, Given, Slip, Surroundings, Worked};
use rand_chacha::ChaCha8Rng;
use rand_chacha::rand_core::{RngCore, SeedableRng};
use std::collections::BTreeMap;

/// Draws of one problem that reach the page: one an edition prints, and others like it.
const DRAWS: usize = 6;
/// Tries after which a problem has no more draws.
const TRIES: usize = 400;

/// Draws every problem of the handbook, by name.
pub(super) fn examine(
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    findings: &mut Vec<Finding>,
) -> BTreeMap<String, ProblemProof> {
    let mut problems = BTreeMap::new();
    for problem in book.problems() {
        match draw(problem, Bench { book, roster }, around) {
            Ok(Some(proof)) => {
                problems.insert(problem.name.value.clone(), proof);
            }
            Ok(None) => {}
            Err(finding) => findings.push(*finding),
        }
    }
    problems
}

fn draw(problem: &Problem, bench: Bench<'_>, around: &Surroundings) -> Result<Option<ProblemProof>, Box<Finding>> {
    let mut supplies = Vec::with_capacity(problem.from.len());
    for supplied in &problem.from {
        let c = user(problem, supplied)?;
        let named = renamed(problem, c, supplied);
        match bench.several(c, &named)? {
            Some(several) => supplies.push((plain_words(&supplied.name.value), several)),
            None => return Ok(None),
        }
    }
    check_question(problem)?;
    let seed = seed(&bench.book.front.edition, &problem.name.value);
    let mut dice = ChaCha8Rng::from_seed(seed);
    let mut draws: Vec<Draw> = Vec::new();
    let mut last_refusal = None;
    for _ in 0..TRIES {
        if draws.len() == DRAWS {
            break;
        }
        let drawn: Vec<(String, Ready)> =
            supplies.iter().map(|(name, several)| (name.clone(), pick(several, &mut dice))).collect();
        let figures: Vec<(String, GivenProof)> =
            drawn.iter().map(|(name, ready)| (name.clone(), ready.shown.clone())).collect();
        if draws.iter().any(|known| known.figures == figures) {
            continue;
        }
        match work(problem, &drawn, bench, around) {
            Ok(Worth::Asking(steps, within, slips)) => draws.push(Draw { figures, steps, within, slips }),
            Ok(Worth::Nothing(why)) => last_refusal = Some(why),
            Err(finding) if finding.name == "figure-not-worked" => last_refusal = Some(finding.says.clone()),
            Err(finding) => return Err(finding),
        }
    }
    if draws.is_empty() {
        let finding = Finding::error(
            "problem-without-draw",
            problem.name.at,
            format!("no draw of `{}` gives an answer worth asking for", problem.name.value),
        )
        .instead("widen `keep:`, or draw from ranges that belong together");
        return Err(Box::new(match last_refusal {
            Some(why) => finding.found(why),
            None => finding,
        }));
    }
    Ok(Some(ProblemProof { draws }))
}

/// Whether a draw is worth asking, and what it came to.
enum Worth {
    Asking(Vec<StepProof>, f64, Vec<(Slip, crate::quantity::Value)>),
    Nothing(String),
}

fn work(
    problem: &Problem,
    drawn: &[(String, Ready)],
    bench: Bench<'_>,
    around: &Surroundings,
) -> Result<Worth, Box<Finding>> {
    let mut known: Known = drawn.iter().map(|(name, ready)| (name.clone(), ready.given.clone())).collect();
    let mut steps: Vec<StepProof> = Vec::new();
    for step in &problem.steps {
        let c = computation(&step.find)?;
        let inputs = match gather(bench, c, &step.find, &step.of, &known)? {
            Gathered::Ready(inputs) => inputs,
            Gathered::Told => return Ok(Worth::Nothing("a refrigerant could not be built".to_owned())),
            Gathered::Lacks { input, from } => return Err(Box::new(lacking(&step.find, &input, &from, &known))),
        };
        let worked = reckon(c, &inputs, around, step.find.at)?;
        let name = step.named.as_ref().map_or_else(|| c.answer_name().to_owned(), |name| name.value.clone());
        known.insert(plain_words(&name), Given::Value(worked.answer));
        steps.push(StepProof { name, written: worked.answer_written(), worked });
    }
    let Some(last) = steps.last().map(|step| step.worked.clone()) else {
        return Ok(Worth::Nothing("there is no step".to_owned()));
    };
    if let Some(keep) = &problem.keep
        && !kept(keep, &last)?
    {
        return Ok(Worth::Nothing(format!("{} comes to {}", last.computation.answer_name(), last.answer_written())));
    }
    let within = match &problem.within {
        Some(within) => {
            let kind = last.answer.kind.difference();
            let read = read(&within.value, Some(kind)).and_then(|written| written.value(last.air));
            read.map_err(|error| Box::new(Finding::error("figure-not-read", within.at, error.to_string())))?.si
        }
        // One digit coarser than the answer is shown: a reader works with the rounded figures of a table.
        None => last.answer_written().last_digit().si * 10.0,
    };
    let slips = Slip::ALL.into_iter().filter_map(|slip| Some((slip, last.slipped(slip)?)));
    // A slip that comes out right can't be told from the answer.
    let slips = slips.filter(|(_, value)| (value.si - last.answer.si).abs() > within).collect();
    Ok(Worth::Asking(steps, within, slips))
}

fn kept(keep: &Spot<String>, worked: &Worked) -> Result<bool, Box<Finding>> {
    let slip = |says: String| Box::new(Finding::error("figure-not-read", keep.at, says));
    let range = read_range(&keep.value, Some(worked.answer.kind)).map_err(|error| slip(error.to_string()))?;
    range.holds(worked.answer, worked.air).map_err(|error| slip(error.to_string()))
}

/// The computation that first uses what is supplied.
fn user(problem: &Problem, supplied: &Supplied) -> Result<&'static Computation, Box<Finding>> {
    let name = plain_words(&supplied.name.value);
    let mut first = None;
    for step in &problem.steps {
        let c = computation(&step.find)?;
        first = first.or(Some(c));
        let through_of = step.of.iter().any(|(_, from)| plain_words(&from.value) == name);
        if through_of || wanted(c, &name).is_some() {
            return Ok(c);
        }
    }
    let finding = Finding::error(
        "step-lacks-input",
        supplied.name.at,
        format!("`{}` is drawn and no step uses it", supplied.name.value),
    );
    Err(Box::new(finding.instead("name it as the step's input is named, or put it under the step's `of:`")))
}

/// What is supplied, under the name of the input it goes into.
fn renamed(problem: &Problem, c: &'static Computation, supplied: &Supplied) -> Supplied {
    let name = plain_words(&supplied.name.value);
    let steps = problem.steps.iter().filter(|step| step.find.value == c.name);
    let input = steps.flat_map(|step| &step.of).find(|(_, from)| plain_words(&from.value) == name);
    match input {
        Some((input, _)) => {
            Supplied { name: Spot::new(input.value.clone(), supplied.name.at), supply: supplied.supply.clone() }
        }
        None => supplied.clone(),
    }
}

/// Every `{name}` of the question must be something that is drawn.
fn check_question(problem: &Problem) -> Result<(), Box<Finding>> {
    for hole in holes(&problem.ask.value) {
        let drawn = |supplied: &Supplied| plain_words(&supplied.name.value) == plain_words(hole);
        if !problem.from.iter().any(drawn) {
            let names: Vec<&str> = problem.from.iter().map(|supplied| supplied.name.value.as_str()).collect();
            let finding = Finding::error(
                "problem-asks-for-nothing",
                problem.ask.at,
                format!("the question has a place for `{hole}`, which is not drawn"),
            );
            return Err(Box::new(finding.instead(format!("what is drawn is `{}`", names.join("`, `")))));
        }
    }
    Ok(())
}

/// The names between braces.
fn holes(ask: &str) -> impl Iterator<Item = &str> {
    ask.split('{').skip(1).filter_map(|rest| rest.split_once('}').map(|(name, _)| name))
}

fn pick(several: &Several, dice: &mut ChaCha8Rng) -> Ready {
    // The ranges are so much smaller than 2^64 that no figure is noticeably favored.
    let below = |dice: &mut ChaCha8Rng, n: u64| dice.next_u64() % n.max(1);
    match several {
        Several::Each(each) => {
            let i = below(dice, each.len() as u64) as usize;
            each[i.min(each.len() - 1)].clone()
        }
        Several::Steps(ladder) => {
            let written: Written = ladder.written(below(dice, u64::from(ladder.count())) as u32);
            Ready { given: Given::Written(written.clone()), shown: GivenProof::Figure(written) }
        }
    }
}

/// The same edition draws the same numbers on any machine; another edition draws others.
fn seed(edition: &str, name: &str) -> [u8; 32] {
    let mut seed = [0u8; 32];
    for (i, byte) in edition.bytes().chain([0]).chain(name.bytes()).enumerate() {
        let at = i % seed.len();
        seed[at] = seed[at].rotate_left(3) ^ byte;
    }
    seed
}
