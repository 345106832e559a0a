//! What proofing reckoned for computed tables, problems and job sheets, made ready to be set. Computes nothing; asks for
//! each figure in both systems of units.

use super::figure::{SetComputed, SetDraw, SetGrid, SetGridRow, SetInput, SetProblem, SetReading, SetStep};
use super::from_proof::{DASH, answer, both, figure, one, range, worked};
use super::print::Both;
use super::words::{Words, fill};
use crate::handbook::{Handbook, Problem};
use crate::proofing::{AxisProof, ComputedProof, Draw, GivenProof, Grid, Limit, Proof, ReadingProof};
use crate::quantity::{Pressure, System, number_text, plain_words};
use crate::trade::Slip;
use std::collections::{BTreeMap, BTreeSet};

fn given(given: &GivenProof, air: Pressure) -> Both {
    match given {
        GivenProof::Refrigerant(designation) => both(|_| designation.clone()),
        GivenProof::Figure(written) => one(written, air),
    }
}

/// A computed table.
pub(super) fn computed(table: &ComputedProof, air: Pressure) -> SetComputed {
    let mut dashes = BTreeSet::new();
    let us = grid(&table.us, System::Us, air, &mut dashes);
    let si = grid(&table.si, System::Si, air, &mut dashes);
    SetComputed {
        answer: table.sample.computation.answer_name().to_owned(),
        given: table
            .given
            .iter()
            .map(|(name, value)| SetInput { name: name.clone(), value: given(value, air) })
            .collect(),
        us,
        si,
        working: worked(&table.sample, air),
        dashes: dashes.into_iter().collect(),
    }
}

fn grid(grid: &Grid, system: System, air: Pressure, dashes: &mut BTreeSet<String>) -> SetGrid {
    let (heads, down_unit) = marks(&grid.down, system, air);
    let columns = grid.across.as_ref().map_or_else(Vec::new, |across| {
        across.marks.iter().map(|mark| in_system(&given(mark, air), system).to_owned()).collect()
    });
    let rows = heads
        .into_iter()
        .zip(&grid.cells)
        .enumerate()
        .map(|(i, (head, cells))| SetGridRow {
            head,
            cells: cells
                .iter()
                .map(|cell| match cell {
                    Ok(number) => number_text(*number, grid.decimals),
                    Err(why) => {
                        dashes.insert(why.clone());
                        DASH.to_owned()
                    }
                })
                .collect(),
            breath: i % 5 == 4 && i + 1 < grid.cells.len(),
        })
        .collect();
    SetGrid {
        down: grid.down.name.clone(),
        down_unit,
        across: grid.across.as_ref().map_or_else(String::new, |across| across.name.clone()),
        columns,
        unit: grid.unit.symbol.to_owned(),
        rows,
    }
}

/// Heads of an axis, and their unit where all share one and none is a fraction.
fn marks(axis: &AxisProof, system: System, air: Pressure) -> (Vec<String>, String) {
    let mut numbers = Vec::with_capacity(axis.marks.len());
    let mut unit: Option<&str> = None;
    for mark in &axis.marks {
        let GivenProof::Figure(written) = mark else { break };
        let symbol = written.unit.in_system(system).symbol;
        if written.fraction.is_some() || unit.is_some_and(|known| known != symbol) {
            break;
        }
        unit = Some(symbol);
        numbers.push(written.number_in(system, air));
    }
    match unit {
        Some(unit) if numbers.len() == axis.marks.len() => (numbers, unit.to_owned()),
        _ => (axis.marks.iter().map(|mark| in_system(&given(mark, air), system).to_owned()).collect(), String::new()),
    }
}

fn in_system(both: &Both, system: System) -> &str {
    match system {
        System::Us => &both.us,
        System::Si => &both.si,
    }
}

/// Every problem by name.
pub(super) fn problems(book: &Handbook, proof: &Proof, air: Pressure) -> BTreeMap<String, SetProblem> {
    let set = book.problems().filter_map(|problem| {
        let proved = proof.problems.get(&problem.name.value)?;
        let draws: Vec<SetDraw> = proved.draws.iter().filter_map(|one| draw(problem, one, air)).collect();
        let last = proved.draws.first().and_then(|draw| draw.steps.last());
        let unit = both(|system| last.map_or("", |step| step.worked.answer_unit(system).0.symbol).to_owned());
        let kind = last.map_or("", |step| step.worked.answer.kind.name()).to_owned();
        Some((problem.name.value.clone(), SetProblem { draws, kind, unit }))
    });
    set.collect()
}

fn draw(problem: &Problem, draw: &Draw, air: Pressure) -> Option<SetDraw> {
    let last = draw.steps.last()?;
    let ask = both(|system| {
        let mut text = problem.ask.value.clone();
        for (name, value) in &draw.figures {
            let shown = in_system(&given(value, air), system).to_owned();
            text = put_in(&text, name, &shown);
        }
        text
    });
    Some(SetDraw {
        ask,
        answer: answer(last),
        number: short(last.worked.answer.si),
        within: short(draw.within),
        slips: draw.slips.iter().map(|(slip, value)| (slip_name(*slip), short(value.si))).collect(),
        steps: draw
            .steps
            .iter()
            .map(|step| SetStep { name: step.name.clone(), answer: answer(step), figure: figure(step, air) })
            .collect(),
    })
}

/// A number to eight digits that count: far finer than any answer is held to, and short in the page.
fn short(number: f64) -> f64 {
    format!("{number:.7e}").parse().unwrap_or(number)
}

/// `text` with what stands between braces and is called `name` put in.
fn put_in(text: &str, name: &str, with: &str) -> String {
    let mut out = String::with_capacity(text.len());
    let mut rest = text;
    while let Some((before, after)) = rest.split_once('{') {
        out.push_str(before);
        match after.split_once('}') {
            Some((hole, after)) if plain_words(hole) == name => {
                out.push_str(with);
                rest = after;
            }
            _ => {
                out.push('{');
                rest = after;
            }
        }
    }
    out + rest
}

fn slip_name(slip: Slip) -> &'static str {
    match slip {
        Slip::WrongCurve => "curve",
        Slip::GaugeForAbsolute => "gauge",
        Slip::SwappedSign => "sign",
    }
}

/// A reading of a job sheet, in the unit its limit is told in: a vacuum is written in microns.
pub(super) fn reading(reading: &ReadingProof, words: &Words, air: Pressure) -> SetReading {
    let limit = reading.limit.as_ref().map(|limit| match limit {
        Limit::Below(written) => both(|system| fill(&words.limit_below, "figure", &written.shown_in(system, air))),
        Limit::Above(written) => both(|system| fill(&words.limit_above, "figure", &written.shown_in(system, air))),
        Limit::Within(from, to) => range(from, to, words, air),
    });
    let unit = |system| match &reading.limit {
        Some(Limit::Below(written) | Limit::Above(written) | Limit::Within(written, _)) => {
            written.unit.in_system(system)
        }
        None => reading.kind.unit_in(system),
    };
    SetReading { unit: both(|system| unit(system).symbol.to_owned()), limit }
}
