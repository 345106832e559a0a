//! Saturation tables. `table-not-read`: from, to and step make no table.
//!
//! Trips: `from: 150 °F`, `to: -40 °F`. Mended: the lower temperature first.

use super::ladder::Ladder;
use super::{TableProof, TableRow, TableRows};
use crate::fluid::Refrigerant;
use crate::handbook::{BlockKind, Finding, Handbook, SaturationTable, Span, Spot};
use crate::quantity::{Kind, Pressure, System, Value, read};
use crate::trade::{self, Given, Surroundings, Worked};
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
        match ladder(table) {
            Ok(own) => {
                tables.insert(block.at, reckon(&own, refrigerant, around));
            }
            Err(finding) => findings.push(*finding),
        }
    }
    tables
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

fn reckon(own: &Ladder, refrigerant: &Refrigerant, around: &Surroundings) -> TableProof {
    let (us, si) = (own.in_system(System::Us), own.in_system(System::Si));
    let sample =
        us.rungs().nth(us.rungs().count() / 2).map(|t| Value::from_unit(t, us.unit, Pressure::STANDARD_ATMOSPHERE));
    let sample = sample.map_or_else(Vec::new, |t| row(t, refrigerant, around).into_iter().flatten().collect());
    TableProof { us: rows(&us, refrigerant, around), si: rows(&si, refrigerant, around), sample }
}

fn rows(ladder: &Ladder, refrigerant: &Refrigerant, around: &Surroundings) -> TableRows {
    let system = ladder.unit.system;
    let rows = ladder
        .rungs()
        .map(|number| {
            let temperature = Value::from_unit(number, ladder.unit, Pressure::STANDARD_ATMOSPHERE);
            let [bubble, dew, glide] =
                row(temperature, refrigerant, around).map(|cell| cell.map(|worked| worked.answer));
            TableRow { temperature, bubble, dew, glide }
        })
        .collect();
    TableRows {
        temperature: ladder.unit,
        temperature_decimals: ladder.decimals,
        step: ladder.step,
        pressure: Kind::Pressure.unit_in(system),
        difference: Kind::TemperatureDifference.unit_in(system),
        rows,
    }
}

/// Bubble pressure, dew pressure and glide at one temperature, each through the catalogue.
fn row(temperature: Value, refrigerant: &Refrigerant, around: &Surroundings) -> [Result<Worked, String>; 3] {
    let reckon = |name: &str, input: &str, value: Value| {
        let computation = trade::find(name).ok_or_else(|| format!("the catalogue has no `{name}`"))?;
        let given = BTreeMap::from([
            ("refrigerant".to_owned(), Given::Refrigerant(refrigerant.clone())),
            (input.to_owned(), Given::Value(value)),
        ]);
        trade::reckon(computation, &given, around).map_err(|error| error.to_string())
    };
    let bubble = reckon("bubble-pressure", "temperature", temperature);
    let dew = reckon("dew-pressure", "temperature", temperature);
    let glide = match &dew {
        Ok(dew) => reckon("glide", "pressure", dew.answer),
        Err(why) => Err(why.clone()),
    };
    [bubble, dew, glide]
}
