//! Saturation tables. `table-not-read`: from, to and step make no table, or what is to be shown beside pressures isn't known.
//!
//! Trips: `from: 150 °F`, `to: -40 °F`. Mended: the lower temperature first.

use super::ladder::Ladder;
use super::roster::zero;
use super::{TableColumn, TableProof, TableRow, TableRows};
use crate::fluid::Refrigerant;
use crate::handbook::{BlockKind, Finding, Handbook, SaturationTable, Span, Spot};
use crate::quantity::{Kind, Pressure, System, Value, read};
use crate::trade::{self, Computation, Given, Surroundings, Worked};
use std::collections::BTreeMap;

/// Reckons every saturation table of the handbook.
pub(super) fn examine(
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    findings: &mut Vec<Finding>,
) -> BTreeMap<Span, TableProof> {
    let mut tables = BTreeMap::new();
    for block in book.lessons.values().flat_map(|lesson| &lesson.blocks) {
        let BlockKind::SaturationTable(table) = &block.kind else { continue };
        // A refrigerant that is not there, or could not be built, has been told.
        let Some(refrigerant) = roster.get(&table.refrigerant.value) else { continue };
        let proof = ladder(table).and_then(|own| {
            let (more, refrigerant) = (more(table)?, counted(table, refrigerant)?);
            Ok(reckon(&own, &more, &refrigerant, around))
        });
        match proof {
            Ok(proof) => {
                tables.insert(block.at, proof);
            }
            Err(finding) => findings.push(*finding),
        }
    }
    tables
}

/// What `also:` may name, and the computations that give it.
const ALSO: &[(&str, &[&str])] = &[
    ("density", &["liquid-density", "vapor-density"]),
    ("volume", &["vapor-volume"]),
    ("enthalpy", &["liquid-enthalpy", "vapor-enthalpy"]),
    ("entropy", &["liquid-entropy", "vapor-entropy"]),
];

/// The computations of the columns beside pressures.
fn more(table: &SaturationTable) -> Result<Vec<&'static Computation>, Box<Finding>> {
    let mut all = Vec::new();
    for also in &table.also {
        let Some((_, names)) = ALSO.iter().find(|(name, _)| *name == also.value) else {
            let known: Vec<String> = ALSO.iter().map(|(name, _)| format!("`{name}`")).collect();
            let says = format!("`{}` is nothing a saturation table can show", also.value);
            let finding = Finding::error("table-not-read", also.at, says);
            return Err(Box::new(finding.instead(format!("it can show {}", known.join(", ")))));
        };
        all.extend(names.iter().filter_map(|name| trade::find(name)));
    }
    Ok(all)
}

/// The refrigerant with its enthalpy counted from what the table says.
fn counted(table: &SaturationTable, refrigerant: &Refrigerant) -> Result<Refrigerant, Box<Finding>> {
    let Some(written) = &table.counted_from else { return Ok(refrigerant.clone()) };
    let zero = zero(written)?;
    refrigerant
        .with_reference(zero)
        .map_err(|error| Box::new(Finding::error("table-not-read", written.at, error.to_string())))
}

fn ladder(table: &SaturationTable) -> Result<Ladder, Box<Finding>> {
    let slip = |at: Span, says: String| Box::new(Finding::error("table-not-read", at, says));
    let number = |spot: &Spot<String>, kind: Kind| {
        read(&spot.value, Some(kind)).map_err(|error| slip(spot.at, error.to_string()))
    };
    let (from, to) = (number(&table.from, Kind::Temperature)?, number(&table.to, Kind::Temperature)?);
    let step = number(&table.step, Kind::TemperatureDifference)?;
    let at = if step.number <= 0.0 { table.step.at } else { table.to.at };
    Ladder::of(&from, &to, &step).map_err(|says| slip(at, says))
}

fn reckon(own: &Ladder, more: &[&'static Computation], refrigerant: &Refrigerant, around: &Surroundings) -> TableProof {
    let (us, si) = (own.in_system(System::Us), own.in_system(System::Si));
    let sample =
        us.rungs().nth(us.rungs().count() / 2).map(|t| Value::from_unit(t, us.unit, Pressure::STANDARD_ATMOSPHERE));
    let sample = sample.map_or_else(Vec::new, |t| row(t, more, refrigerant, around).into_iter().flatten().collect());
    TableProof { us: rows(&us, more, refrigerant, around), si: rows(&si, more, refrigerant, around), sample }
}

fn rows(ladder: &Ladder, more: &[&'static Computation], refrigerant: &Refrigerant, around: &Surroundings) -> TableRows {
    let system = ladder.unit.system;
    let rows = ladder
        .rungs()
        .map(|number| {
            let temperature = Value::from_unit(number, ladder.unit, Pressure::STANDARD_ATMOSPHERE);
            let mut cells =
                row(temperature, more, refrigerant, around).into_iter().map(|cell| cell.map(|worked| worked.answer));
            let mut next = || cells.next().unwrap_or_else(|| Err(String::new()));
            let (bubble, dew, glide) = (next(), next(), next());
            TableRow { temperature, bubble, dew, glide, more: cells.collect() }
        })
        .collect();
    TableRows {
        temperature: ladder.unit,
        temperature_decimals: ladder.decimals,
        step: ladder.step,
        pressure: Kind::Pressure.unit_in(system),
        difference: Kind::TemperatureDifference.unit_in(system),
        more: more
            .iter()
            .map(|computation| {
                let answer = &computation.answer;
                let (unit, decimals) = match system {
                    System::Us => answer.showing.us,
                    System::Si => answer.showing.si,
                };
                TableColumn { name: answer.name, unit, decimals }
            })
            .collect(),
        rows,
    }
}

/// Bubble pressure, dew pressure and glide at one temperature, and what else is shown, each through the catalogue.
fn row(
    temperature: Value,
    more: &[&'static Computation],
    refrigerant: &Refrigerant,
    around: &Surroundings,
) -> Vec<Result<Worked, String>> {
    let do_one = |computation: &'static Computation, input: &str, value: Value| {
        let given = BTreeMap::from([
            ("refrigerant".to_owned(), Given::Refrigerant(refrigerant.clone())),
            (input.to_owned(), Given::Value(value)),
        ]);
        trade::reckon(computation, &given, around).map_err(|error| error.to_string())
    };
    let reckon = |name: &str, input: &str, value: Value| {
        let computation = trade::find(name).ok_or_else(|| format!("the catalogue has no `{name}`"))?;
        do_one(computation, input, value)
    };
    let bubble = reckon("bubble-pressure", "temperature", temperature);
    let dew = reckon("dew-pressure", "temperature", temperature);
    let glide = match &dew {
        Ok(dew) => reckon("glide", "pressure", dew.answer),
        Err(why) => Err(why.clone()),
    };
    let more = more.iter().map(|computation| do_one(computation, "temperature", temperature));
    [bubble, dew, glide].into_iter().chain(more).collect()
}
