//! Computed tables and the worked cases of forms. A cell that can't be reckoned is a dash with its reason; a table
//! without a single figure is `table-empty`.
//!
//! Trips: `down: {altitude: 40,000 to 50,000 ft by 5,000 ft}`, where no computation holds. Mended: heights where there
//! is air.

use super::figure::{computation, reckon};
use super::inputs::{Bench, Ready, Several};
use super::{AxisProof, ComputedProof, FormProof, GivenProof, Grid, LookedFor, ValueFigure, Verdict};
use crate::fluid::Refrigerant;
use crate::handbook::{BlockKind, ComputedTable, Finding, Form, Handbook, Span, Spot, Supplied};
use crate::quantity::{System, Written, plain_words};
use crate::trade::{self, Computation, Given, Surroundings, Worked};
use std::collections::BTreeMap;

/// Reckons every computed table of the handbook.
pub(super) fn examine_tables(
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    findings: &mut Vec<Finding>,
) -> BTreeMap<Span, ComputedProof> {
    let bench = Bench { book, roster };
    let mut tables = BTreeMap::new();
    for block in book.lessons.values().flat_map(|lesson| &lesson.blocks) {
        let BlockKind::ComputedTable(wanted) = &block.kind else { continue };
        match table(wanted, bench, around) {
            Ok(Some(proof)) => {
                tables.insert(block.at, proof);
            }
            Ok(None) => {}
            Err(finding) => findings.push(*finding),
        }
    }
    tables
}

/// Works the case of every form of the handbook.
pub(super) fn examine_forms(
    book: &Handbook,
    values: &BTreeMap<String, ValueFigure>,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    findings: &mut Vec<Finding>,
) -> BTreeMap<Span, FormProof> {
    let bench = Bench { book, roster };
    let mut forms = BTreeMap::new();
    for block in book.lessons.values().flat_map(|lesson| &lesson.blocks) {
        let BlockKind::Form(wanted) = &block.kind else { continue };
        match form(wanted, values, bench, around) {
            Ok(Some(proof)) => {
                forms.insert(block.at, proof);
            }
            Ok(None) => {}
            Err(finding) => findings.push(*finding),
        }
    }
    forms
}

fn form(
    form: &Form,
    values: &BTreeMap<String, ValueFigure>,
    bench: Bench<'_>,
    around: &Surroundings,
) -> Result<Option<FormProof>, Box<Finding>> {
    let c = computation(&form.find)?;
    let Some(given) = bench.lines(c, &form.given)? else { return Ok(None) };
    let given = given.into_iter().map(|(name, ready)| (name, ready.given)).collect();
    let worked = reckon(c, &given, around, form.find.at)?;
    let looked_for = match &form.looked_for {
        // A value that there is not, or that could not be read, is told elsewhere.
        Some(name) => match values.get(&name.value) {
            Some(value) => Some(looked_for(name, value, &worked)?),
            None => None,
        },
        None => None,
    };
    Ok(Some(FormProof { worked, looked_for }))
}

fn looked_for(name: &Spot<String>, value: &ValueFigure, worked: &Worked) -> Result<LookedFor, Box<Finding>> {
    let kind = worked.answer.kind;
    let unfit = |says: String| {
        let says = format!("`{}` can't be held against {}: {says}", name.value, worked.computation.answer_name());
        Box::new(
            Finding::error("form-not-read", name.at, says)
                .instead(format!("name a standing value that is {}, or leave `looked-for:` out", kind.one())),
        )
    };
    let (low, high) = match value {
        ValueFigure::One(one) => (one, one),
        ValueFigure::Range(low, high) => (low, high),
        ValueFigure::Words(_) => return Err(unfit("it is words".to_owned())),
    };
    let fitting = |written: &Written| written.as_kind(kind).map_err(|error| unfit(error.to_string()));
    let (low, high) = (fitting(low)?, fitting(high)?);
    let at = |written: &Written| written.value(worked.air).map_err(|error| unfit(error.to_string()));
    let (least, most) = (at(&low)?.si, at(&high)?.si);
    // What is shown as the end itself is within.
    let hair = 1e-9 * (least.abs() + most.abs());
    let verdict = match worked.answer.si {
        si if si < least - hair => Verdict::Below,
        si if si > most + hair => Verdict::Above,
        _ => Verdict::Within,
    };
    Ok(LookedFor { value: name.value.clone(), low, high, verdict })
}

/// A row or column head: what is shown and what is reckoned with.
struct Axis {
    name: String,
    marks: Vec<Ready>,
}

fn table(
    table: &ComputedTable,
    bench: Bench<'_>,
    around: &Surroundings,
) -> Result<Option<ComputedProof>, Box<Finding>> {
    let c = computation(&table.find)?;
    let Some(given) = bench.lines(c, &table.given)? else { return Ok(None) };
    let Some(down) = bench.several(c, &table.down)? else { return Ok(None) };
    let across = match &table.across {
        Some(across) => match bench.several(c, across)? {
            Some(several) => Some((across, several)),
            None => return Ok(None),
        },
        None => None,
    };
    let own = author_system(&down);
    let mut sample = None;
    let mut grid = |system: System| {
        let down = axis(&table.down, &down, system);
        let across = across.as_ref().map(|(supplied, several)| axis(supplied, several, system));
        let (unit, usual) = match system {
            System::Us => c.answer.showing.us,
            System::Si => c.answer.showing.si,
        };
        // The author's decimals are meant for the units the author wrote in; the other system's differ by as much.
        let own_usual = if own == System::Us { c.answer.showing.us.1 } else { c.answer.showing.si.1 };
        let decimals = table.decimals.map_or(usual, |asked| (asked + usual).saturating_sub(own_usual));
        let cells = cells(c, &given, &down, across.as_ref(), around, &mut sample);
        let cells = cells
            .into_iter()
            .map(|row| row.into_iter().map(|cell| cell.map(|w| w.answer.number_of(unit, w.air))).collect())
            .collect();
        Grid { down: shown(down), across: across.map(shown), unit, decimals, cells }
    };
    let (us, si) = (grid(System::Us), grid(System::Si));
    let Some(sample) = sample else {
        let why = us.cells.iter().flatten().find_map(|cell| cell.as_ref().err());
        let finding =
            Finding::error("table-empty", table.find.at, format!("no cell of `{}` can be reckoned", table.name.value));
        return Err(Box::new(match why {
            Some(why) => finding.found(why.clone()),
            None => finding,
        }));
    };
    let given = given.into_iter().map(|(name, ready)| (name, ready.shown)).collect();
    Ok(Some(ComputedProof { given, us, si, sample }))
}

/// The system of units that the author stepped in.
fn author_system(down: &Several) -> System {
    match down {
        Several::Steps(ladder) => ladder.unit.system,
        Several::Each(each) => match each.first().map(|ready| &ready.shown) {
            Some(GivenProof::Figure(written)) => written.unit.system,
            _ => System::Us,
        },
    }
}

fn axis(supplied: &Supplied, several: &Several, system: System) -> Axis {
    let marks = match several {
        Several::Each(each) => each.clone(),
        Several::Steps(ladder) => {
            let ladder = ladder.in_system(system);
            let written = (0..ladder.count()).map(|i| ladder.written(i));
            written
                .map(|written| Ready { given: Given::Written(written.clone()), shown: GivenProof::Figure(written) })
                .collect()
        }
    };
    Axis { name: plain_words(&supplied.name.value), marks }
}

fn shown(axis: Axis) -> AxisProof {
    AxisProof { name: axis.name, marks: axis.marks.into_iter().map(|ready| ready.shown).collect() }
}

fn cells(
    c: &'static Computation,
    given: &[(String, Ready)],
    down: &Axis,
    across: Option<&Axis>,
    around: &Surroundings,
    sample: &mut Option<Worked>,
) -> Vec<Vec<Result<Worked, String>>> {
    let common: BTreeMap<String, Given> =
        given.iter().map(|(name, ready)| (name.clone(), ready.given.clone())).collect();
    let mut reckon = |row: &Ready, column: Option<(&str, &Ready)>| {
        let mut inputs = common.clone();
        inputs.insert(down.name.clone(), row.given.clone());
        if let Some((name, ready)) = column {
            inputs.insert(name.to_owned(), ready.given.clone());
        }
        let cell = trade::reckon(c, &inputs, around).map_err(|error| error.to_string());
        if let (None, Ok(worked)) = (&sample, &cell) {
            *sample = Some(worked.clone());
        }
        cell
    };
    let mut rows = Vec::with_capacity(down.marks.len());
    for row in &down.marks {
        rows.push(match across {
            Some(across) => across.marks.iter().map(|column| reckon(row, Some((&across.name, column)))).collect(),
            None => vec![reckon(row, None)],
        });
    }
    rows
}
