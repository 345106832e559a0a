//! `coldpress reckon NAME,NAME --each FILE.csv`: the same computations for every row of a table.
//!
//! The first row names the inputs, each with its unit in brackets; where none is named, the SI unit is meant. Every row
//! comes out again with the answers behind it, each headed by its name and unit. A row that has no answer has the reason
//! in its place, and the status tells that there is one.

use super::arguments::Sum;
use super::reckon::{at_a_shell, input, known};
use super::roster::roster;
use super::{Failure, Outcome, complain};
use crate::fluid::Refrigerant;
use crate::quantity::{Kind, ReadingError, Reference, System, Unit, Written, nearest, plain_words, read};
use crate::trade::{self, Computation, Given, InputKind, Surroundings};
use std::collections::BTreeMap;
use std::io::{self, Read};
use std::path::Path;

/// A computation to do for every row, and the unit of its answer.
struct Asked {
    computation: &'static Computation,
    unit: &'static Unit,
}

/// An input by its heading.
struct Column {
    /// In plain words.
    name: String,
    reads: Reads,
}

enum Reads {
    Refrigerant,
    Figure(Kind, &'static Unit),
}

/// Does what was asked for every row of `file`, to standard output.
///
/// # Errors
/// Wrong usage where a name or a heading can't be read; the machine, where the file can't.
pub(super) fn each(sum: &Sum, file: &Path) -> Result<Outcome, Failure> {
    let asked = asked(sum.name.as_deref().unwrap_or_default())?;
    let mut roster = roster(sum.handbook.as_deref(), sum.counted_from)?;
    let fixed = fixed(sum, &asked, &roster)?;
    let text = text(file)?;
    let shown = file.display().to_string();

    let mut records = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.trim_start_matches('\u{feff}').as_bytes())
        .into_records();
    let broken = |error: csv::Error| Failure::usage(format!("`{shown}` is not a table of commas: {error}"));
    let heading = records.next().transpose().map_err(broken)?.ok_or_else(|| {
        Failure::usage(format!("`{shown}` is empty; its first row names the inputs, as `refrigerant,temperature [K]`"))
    })?;
    let columns = columns(&heading, &asked, &fixed, &shown)?;

    // Rows go out as they are worked out: a table may be longer than anybody waits for.
    let mut out = csv::Writer::from_writer(io::BufWriter::new(io::stdout().lock()));
    let answers = asked.iter().map(Asked::heading);
    let mut going = written(out.write_record(heading.iter().map(str::to_owned).chain(answers)))?;
    if let Some(zero) = asked.iter().find_map(|asked| asked.computation.zero(sum.counted_from)) {
        complain(&at_a_shell(&zero));
    }
    let mut ended = Outcome::Fine;
    for record in records {
        if !going {
            break;
        }
        let record = record.map_err(broken)?;
        let line = record.position().map_or(0, csv::Position::line);
        let given = row(&record, &columns, &fixed, &mut roster);
        let mut cells: Vec<String> = (0..columns.len()).map(|i| record.get(i).unwrap_or("").to_owned()).collect();
        for asked in &asked {
            let (cell, notes) =
                given.as_ref().map_or_else(|says| (Err(says.clone()), Vec::new()), |given| asked.of(given));
            for note in notes {
                complain(&format!("{shown}:{line}: {}: {note}", asked.computation.name));
            }
            cells.push(cell.unwrap_or_else(|says| {
                ended = Outcome::Findings;
                at_a_shell(&says).replace('\n', "; ")
            }));
        }
        going = written(out.write_record(&cells))?;
    }
    if going {
        written(out.flush().map_err(csv::Error::from))?;
    }
    Ok(ended)
}

/// Whether there is still somebody to write to: a reader that has gone away (`| head`) is no failure.
fn written(result: csv::Result<()>) -> Result<bool, Failure> {
    match result {
        Ok(()) => Ok(true),
        Err(error) if matches!(error.kind(), csv::ErrorKind::Io(e) if e.kind() == io::ErrorKind::BrokenPipe) => {
            Ok(false)
        }
        Err(error) => Err(Failure::Machine(format!("could not write the answers: {error}"))),
    }
}

fn text(file: &Path) -> Result<String, Failure> {
    let mut bytes = Vec::new();
    if file == Path::new("-") {
        io::stdin().lock().read_to_end(&mut bytes).map_err(|e| Failure::machine("read", file, &e))?;
    } else {
        bytes = std::fs::read(file).map_err(|error| match error.kind() {
            io::ErrorKind::NotFound => Failure::usage(format!("there is no file `{}`", file.display())),
            _ => Failure::machine("read", file, &error),
        })?;
    }
    String::from_utf8(bytes).map_err(|error| {
        let before = &error.as_bytes()[..error.utf8_error().valid_up_to()];
        let line = 1 + before.iter().filter(|byte| **byte == b'\n').count();
        Failure::usage(format!("{}:{line}: this is not text in UTF-8; save the table as CSV in UTF-8", file.display()))
    })
}

/// Reads `bubble-pressure,dew-pressure [psia]`.
fn asked(names: &str) -> Result<Vec<Asked>, Failure> {
    let mut all: Vec<Asked> = Vec::new();
    for text in names.split(',').map(str::trim) {
        let (name, unit) = with_unit(text);
        let computation = trade::require(name)
            .map_err(|error| Failure::usage(format!("{error}\n`coldpress reckon --list` names all there are")))?;
        if all.iter().any(|other| other.computation.name == computation.name) {
            return Err(Failure::usage(format!("{} is asked for twice", computation.name)));
        }
        let unit = unit_of(computation.answer.kind, unit)
            .map_err(|error| Failure::usage(at_a_shell(&format!("{}: {error}", computation.name))))?;
        all.push(Asked { computation, unit });
    }
    Ok(all)
}

/// Inputs given at the shell, the same for every row.
fn fixed(
    sum: &Sum,
    asked: &[Asked],
    roster: &BTreeMap<String, Refrigerant>,
) -> Result<BTreeMap<String, Given>, Failure> {
    let mut given = BTreeMap::new();
    for pair in &sum.given {
        let name = pair.split_once('=').map_or("", |(name, _)| name);
        let taker = asked.iter().find(|asked| asked.computation.input(name).is_some()).or(asked.first());
        let Some(taker) = taker else { continue };
        let (name, value) = input(taker.computation, pair, roster)?;
        given.insert(name, value);
    }
    Ok(given)
}

/// `temperature [K]` as a name and the unit behind it.
fn with_unit(heading: &str) -> (&str, Option<&str>) {
    match heading.strip_suffix(']').and_then(|rest| rest.rsplit_once('[')) {
        Some((name, unit)) => (name.trim(), Some(unit.trim())),
        None => (heading.trim(), None),
    }
}

/// The unit of this spelling; the SI unit of `kind` where there is none.
fn unit_of(kind: Kind, spelling: Option<&str>) -> Result<&'static Unit, ReadingError> {
    match spelling {
        Some(spelling) => read(&format!("1 {spelling}"), Some(kind)).map(|written| written.unit),
        None => Ok(si_unit(kind)),
    }
}

/// The coherent unit of the SI, where the trade writes one; otherwise the unit `kind` is shown in to its readers.
fn si_unit(kind: Kind) -> &'static Unit {
    let coherent =
        |unit: &&'static Unit| unit.factor == 1.0 && unit.offset == 0.0 && unit.reference == Reference::Fixed;
    let of =
        |system: Option<System>| kind.units().filter(coherent).find(|unit| system.is_none_or(|s| unit.system == s));
    of(Some(System::Si)).or_else(|| of(None)).unwrap_or_else(|| kind.unit_in(System::Si))
}

fn columns(
    heading: &csv::StringRecord,
    asked: &[Asked],
    fixed: &BTreeMap<String, Given>,
    file: &str,
) -> Result<Vec<Column>, Failure> {
    let mut columns: Vec<Column> = Vec::new();
    for (i, text) in heading.iter().enumerate() {
        let wrong = |says: String| Failure::usage(at_a_shell(&format!("{file}:1: column {}, `{text}`: {says}", i + 1)));
        let (name, unit) = with_unit(text);
        let name = plain_words(name);
        let takes = asked.iter().find_map(|asked| asked.computation.input(&name)).map(|input| input.kind);
        let reads = match (takes, unit) {
            (Some(InputKind::Refrigerant), None) => Reads::Refrigerant,
            (Some(InputKind::Refrigerant), Some(_)) => return Err(wrong("a refrigerant has no unit".to_owned())),
            (Some(InputKind::Quantity(kind)), unit) => {
                Reads::Figure(kind, unit_of(kind, unit).map_err(|error| wrong(error.to_string()))?)
            }
            (None, unit) if name == "altitude" => {
                Reads::Figure(Kind::Length, unit_of(Kind::Length, unit).map_err(|error| wrong(error.to_string()))?)
            }
            (None, _) => {
                let mut names: Vec<&str> =
                    asked.iter().flat_map(|a| a.computation.inputs()).map(|input| input.name).collect();
                names.sort_unstable();
                names.dedup();
                let near = nearest(&name, names.iter().copied())
                    .map_or_else(String::new, |near| format!("; the nearest is `{near}`"));
                let whose = asked.iter().map(|a| a.computation.name).collect::<Vec<_>>().join(", ");
                return Err(wrong(format!("{whose} takes no `{name}`{near}; it takes {}", names.join(", "))));
            }
        };
        if columns.iter().any(|column| column.name == name) || fixed.contains_key(&name) {
            return Err(wrong(format!("`{name}` is given twice")));
        }
        columns.push(Column { name, reads });
    }
    Ok(columns)
}

/// What a row gives, by the names of the inputs.
fn row(
    record: &csv::StringRecord,
    columns: &[Column],
    fixed: &BTreeMap<String, Given>,
    roster: &mut BTreeMap<String, Refrigerant>,
) -> Result<BTreeMap<String, Given>, String> {
    if record.len() != columns.len() {
        return Err(format!("this row has {} fields, and the first row names {}", record.len(), columns.len()));
    }
    let mut given = fixed.clone();
    for (column, cell) in columns.iter().zip(record) {
        if cell.is_empty() {
            continue; // What may be left out, is; what may not, the computation asks for by name.
        }
        let value = match column.reads {
            Reads::Refrigerant => {
                let refrigerant = known(cell, roster)?;
                // Its lines are walked once and not once a row.
                roster.entry(cell.to_owned()).or_insert_with(|| refrigerant.clone());
                Given::Refrigerant(refrigerant)
            }
            Reads::Figure(kind, unit) => {
                Given::Written(figure(cell, kind, unit).map_err(|error| format!("{}: {error}", column.name))?)
            }
        };
        given.insert(column.name.clone(), value);
    }
    Ok(given)
}

/// A figure of `unit`, or of the unit that stands beside it.
fn figure(cell: &str, kind: Kind, unit: &'static Unit) -> Result<Written, ReadingError> {
    match cell.parse::<f64>() {
        Ok(number) if number.is_finite() => {
            let decimals =
                cell.split_once('.').map_or(0, |(_, after)| after.bytes().take_while(u8::is_ascii_digit).count());
            Ok(Written::of(number, decimals.min(15) as u8, unit))
        }
        _ => match read(cell, Some(kind)) {
            Err(ReadingError::NoUnit { .. }) => read(&format!("{cell} {}", unit.symbol), Some(kind)),
            other => other,
        },
    }
}

impl Asked {
    /// `bubble-pressure [Pa]`.
    fn heading(&self) -> String {
        match self.unit.symbol {
            "" => self.computation.name.to_owned(),
            unit => format!("{} [{unit}]", self.computation.name),
        }
    }

    /// The answer to what is given, to all its digits, or why there is none; and what is to be said beside it.
    fn of(&self, given: &BTreeMap<String, Given>) -> (Result<String, String>, Vec<&'static str>) {
        let own = |name: &str| self.computation.input(name).is_some() || name == "altitude";
        let given = given.iter().filter(|(name, _)| own(name)).map(|(name, given)| (name.clone(), given.clone()));
        match trade::reckon(self.computation, &given.collect(), &Surroundings::default()) {
            Ok(worked) => (Ok(format!("{}", worked.answer.number_of(self.unit, worked.air))), worked.notes),
            Err(error) => (Err(error.to_string()), Vec::new()),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_has_a_unit_to_answer_in_and_most_the_coherent_one() {
        for kind in Kind::ALL.iter().copied() {
            assert_eq!(si_unit(kind).kind, kind);
        }
        let symbols =
            [Kind::Pressure, Kind::Temperature, Kind::TemperatureDifference, Kind::Density, Kind::SpecificEnthalpy]
                .map(|kind| si_unit(kind).symbol);
        assert_eq!(symbols, ["Pa", "K", "K", "kg/m³", "J/kg"]);
        assert_eq!([Kind::SpecificEntropy, Kind::Ratio].map(|kind| si_unit(kind).symbol), ["J/(kg·K)", ""]);
    }

    #[test]
    fn a_figure_may_be_of_its_heading_or_carry_its_own_unit() {
        let psig = unit_of(Kind::Pressure, Some("psig")).unwrap();
        let read = |cell: &str| figure(cell, Kind::Pressure, psig).map(|w| (w.number, w.unit.symbol));
        assert_eq!(read("118"), Ok((118.0, "psig")));
        assert_eq!(read("1.18e2"), Ok((118.0, "psig")));
        assert_eq!(read("\u{2212}5"), Ok((-5.0, "psig")));
        assert_eq!(read("9 bara"), Ok((9.0, "bara")));
        assert!(read("NaN").is_err() && read("inf").is_err() && read("52 °F").is_err());
    }
}
