//! Saturation tables. `table-not-read`: from, to and step make no table; `table-twice`: two tables of one name.
//!
//! Trips: `from: 150 °F`, `to: -40 °F`. Mended: the lower temperature first.

use super::{TableProof, TableRow, TableRows};
use crate::fluid::Refrigerant;
use crate::handbook::{BlockKind, Finding, Handbook, SaturationTable, Span, Spot};
use crate::quantity::{Kind, Pressure, System, Unit, Value, read};
use crate::trade::{self, Given, Surroundings, Worked};
use std::collections::BTreeMap;

/// More rows than this are not a table but a slip in its step.
const MOST_ROWS: f64 = 1000.0;
/// Steps that a table in the author's other system of units may have, in its degrees.
const ROUND_STEPS: [f64; 9] = [0.1, 0.2, 0.5, 1.0, 2.0, 2.5, 5.0, 10.0, 20.0];

/// Reckons every saturation table of the handbook.
pub(super) fn examine(
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    findings: &mut Vec<Finding>,
) -> BTreeMap<Span, TableProof> {
    let mut tables = BTreeMap::new();
    let mut names: BTreeMap<&str, Span> = BTreeMap::new();
    for block in book.lessons.values().flat_map(|lesson| &lesson.blocks) {
        let BlockKind::SaturationTable(table) = &block.kind else { continue };
        if let Some(other) = names.insert(&table.name, table.refrigerant.at) {
            findings.push(
                Finding::error("table-twice", table.refrigerant.at, format!("there are two tables `{}`", table.name))
                    .seen(other, "the other one")
                    .instead("give one of them a `name:` of its own; links go by it"),
            );
        }
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

/// Temperatures in even steps, in one unit.
struct Ladder {
    unit: &'static Unit,
    from: f64,
    to: f64,
    step: f64,
    decimals: u8,
}

impl Ladder {
    fn rungs(&self) -> impl Iterator<Item = f64> {
        let count = ((self.to - self.from) / self.step + 1e-6).floor() as u32;
        (0..=count).map(|i| self.from + f64::from(i) * self.step)
    }

    /// The same stretch in round steps of the other system's degrees.
    fn in_other_system(&self) -> Ladder {
        let unit = Kind::Temperature.unit_in(self.unit.system.other());
        let air = Pressure::STANDARD_ATMOSPHERE;
        let over = |number: f64| Value::from_unit(number, self.unit, air).number_of(unit, air);
        let (from, to) = (over(self.from), over(self.to));
        let wanted = (over(self.step) - over(0.0)).abs();
        let nearest =
            |best: f64, step: f64| if (step / wanted).ln().abs() < (best / wanted).ln().abs() { step } else { best };
        let step = ROUND_STEPS.into_iter().fold(ROUND_STEPS[0], nearest);
        let from = (from / step - 1e-9).ceil() * step;
        let to = (to / step + 1e-9).floor() * step;
        Ladder { unit, from, to, step, decimals: u8::from(step.fract() != 0.0) }
    }
}

fn ladder(table: &SaturationTable) -> Result<Ladder, Box<Finding>> {
    let slip = |at: Span, says: String| Box::new(Finding::error("table-not-read", at, says));
    let number = |spot: &Spot<String>, kind: Kind| {
        read(&spot.value, Some(kind)).map_err(|error| slip(spot.at, error.to_string()))
    };
    let (from, to) = (number(&table.from, Kind::Temperature)?, number(&table.to, Kind::Temperature)?);
    let step = number(&table.step, Kind::TemperatureDifference)?;
    if from.unit != to.unit || step.unit.system != from.unit.system {
        return Err(slip(table.to.at, "a table's temperatures and its step are written in one unit".to_owned()));
    }
    if step.number <= 0.0 {
        return Err(slip(table.step.at, "a table's step is greater than nothing".to_owned()));
    }
    if to.number <= from.number {
        return Err(slip(table.to.at, format!("this table ends at `{}`, below where it begins", table.to.value)));
    }
    if (to.number - from.number) / step.number > MOST_ROWS {
        return Err(slip(
            table.step.at,
            format!("in steps of `{}` this table has more than {MOST_ROWS} rows", table.step.value),
        ));
    }
    Ok(Ladder {
        unit: from.unit,
        from: from.number,
        to: to.number,
        step: step.number,
        decimals: from.decimals.max(step.decimals),
    })
}

fn reckon(own: &Ladder, refrigerant: &Refrigerant, around: &Surroundings) -> TableProof {
    let other = own.in_other_system();
    let (us, si) = if own.unit.system == System::Us { (own, &other) } else { (&other, own) };
    let middle = us.rungs().count() / 2;
    let sample = us.rungs().nth(middle).map(|t| Value::from_unit(t, us.unit, Pressure::STANDARD_ATMOSPHERE));
    let sample = sample.map_or_else(Vec::new, |t| row(t, refrigerant, around).into_iter().flatten().collect());
    TableProof { us: rows(us, refrigerant, around), si: rows(si, refrigerant, around), sample }
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
