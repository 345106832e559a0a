//! `coldpress reckon --rows FILE.csv`: a file of worked examples, each row done again, and which of them hold.
//!
//! The file has a head that names its columns: `topic` (a computation), `inputs` (`name=value; name=value`), `answer`,
//! `unit` (`-` for a pure number) and `tolerance` (in that unit); `id` names a row where there is such a column. Lines
//! that begin with `#` are remarks. Fields with commas stand between quotes (RFC 4180).

use super::reckon::input;
use super::roster::roster;
use super::{Failure, Outcome, say};
use crate::fluid::{Reference, Refrigerant};
use crate::quantity::{plain_words, read};
use crate::trade::{self, Surroundings};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::Path;

/// Columns a file must have, in the order in which they are asked for.
const COLUMNS: [&str; 5] = ["topic", "inputs", "answer", "unit", "tolerance"];

/// A row as it stands in the file.
struct Row {
    line: usize,
    fields: Vec<String>,
}

/// Does every row of the file again and says which hold.
///
/// # Errors
/// The machine, where the file can't be read; wrong usage, where it is no file of rows.
pub(super) fn rows(file: &Path, handbook: Option<&Path>) -> Result<Outcome, Failure> {
    let text = std::fs::read_to_string(file).map_err(|error| Failure::machine("read", file, &error))?;
    let name = file.display();
    let mut rows = split(&text).into_iter();
    let head = rows.next().ok_or_else(|| Failure::usage(format!("{name}: there is no row in it")))?;
    let place = |column: &str| head.fields.iter().position(|field| plain_words(field) == column);
    let mut places = [0; COLUMNS.len()];
    for (at, column) in places.iter_mut().zip(COLUMNS) {
        *at = place(column).ok_or_else(|| {
            let head = format!("{name}:{}: the head has no column `{column}`", head.line);
            Failure::usage(format!("{head}\nit needs {}, and may have `id`", COLUMNS.join(", ")))
        })?;
    }
    let id = place("id");
    let roster = roster(handbook, Reference::default())?;
    let mut told = String::new();
    let (mut all, mut holding) = (0, 0);
    for row in rows {
        let field = |at: usize| row.fields.get(at).map_or("", |text| text.trim());
        let called = id.map_or_else(|| format!("line {}", row.line), |id| field(id).to_owned());
        all += 1;
        match check(places.map(field), &roster) {
            Ok(found) => {
                holding += 1;
                let _ = writeln!(told, "{called}  holds  {found}");
            }
            Err(says) => {
                let _ = writeln!(told, "{called}  does not hold  ({name}:{}) {says}", row.line);
            }
        }
    }
    let _ = write!(told, "{holding} of {all} rows hold");
    say(&told.replace('\u{a0}', " "));
    Ok(if holding == all { Outcome::Fine } else { Outcome::Findings })
}

/// Does one row; the figure that was found, or why it does not hold.
fn check(fields: [&str; COLUMNS.len()], roster: &BTreeMap<String, Refrigerant>) -> Result<String, String> {
    let [topic, inputs, answer, unit, tolerance] = fields;
    let c = trade::require(topic).map_err(|error| error.to_string())?;
    let mut given = BTreeMap::new();
    for pair in inputs.split(';').map(str::trim).filter(|pair| !pair.is_empty()) {
        let (name, value) = input(c, pair, roster).map_err(said)?;
        given.insert(name, value);
    }
    let worked = trade::reckon(c, &given, &Surroundings::default()).map_err(|error| error.to_string())?;
    let unit = if unit == "-" { "" } else { unit };
    let wanted = format!("{answer} {unit}");
    let wanted = read(wanted.trim(), Some(c.answer.kind)).map_err(|error| error.to_string())?;
    let value = wanted.value(worked.air).map_err(|error| error.to_string())?;
    let borne: f64 = tolerance.parse().map_err(|_| format!("its tolerance `{tolerance}` is no number"))?;
    let off = ((worked.answer.si - value.si) / wanted.unit.factor).abs();
    let found = worked.answer_as(&wanted);
    // What lies on the edge is within it, however it was converted.
    if off <= borne * (1.0 + 1e-9) {
        return Ok(format!("{topic}: {found}"));
    }
    Err(format!("{topic}: {wanted} is wanted within {tolerance}, and {found} was found"))
}

fn said(failure: Failure) -> String {
    match failure {
        Failure::Usage(says) | Failure::Machine(says) => says.replace('\n', "; "),
    }
}

/// The rows of a file of fields between commas, without remarks and empty lines.
fn split(text: &str) -> Vec<Row> {
    let mut rows = Vec::new();
    let mut row = Row { line: 1, fields: Vec::new() };
    let (mut field, mut quoted, mut line) = (String::new(), false, 1);
    let mut letters = text.trim_start_matches('\u{feff}').chars().peekable();
    let mut remark = false;
    while let Some(letter) = letters.next() {
        match letter {
            '\n' => {
                line += 1;
                if quoted {
                    field.push('\n');
                    continue;
                }
                row.fields.push(std::mem::take(&mut field));
                let done = std::mem::replace(&mut row, Row { line, fields: Vec::new() });
                if !remark && done.fields.iter().any(|field| !field.trim().is_empty()) {
                    rows.push(done);
                }
                remark = false;
            }
            _ if remark || (letter == '\r' && !quoted) => {}
            '#' if row.fields.is_empty() && field.is_empty() => remark = true,
            '"' if quoted && letters.peek() == Some(&'"') => {
                letters.next();
                field.push('"');
            }
            // Within a field that does not begin with one, a quote is an inch.
            '"' if quoted || field.is_empty() => quoted = !quoted,
            ',' if !quoted => row.fields.push(std::mem::take(&mut field)),
            other => field.push(other),
        }
    }
    row.fields.push(field);
    if !remark && row.fields.iter().any(|field| !field.trim().is_empty()) {
        rows.push(row);
    }
    rows
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn fields_are_told_apart_as_the_standard_has_it() {
        let rows = split("# a remark, with a comma\nid,topic\r\n\nA1,\"one, two\"\nA2,\"7/8\"\" tube\",3\nA3,7/8\"");
        let fields: Vec<(usize, Vec<&str>)> =
            rows.iter().map(|row| (row.line, row.fields.iter().map(String::as_str).collect())).collect();
        assert_eq!(
            fields,
            [
                (2, vec!["id", "topic"]),
                (4, vec!["A1", "one, two"]),
                (5, vec!["A2", "7/8\" tube", "3"]),
                (6, vec!["A3", "7/8\""]),
            ]
        );
    }
}
