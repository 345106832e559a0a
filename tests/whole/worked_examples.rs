//! The rows of `tests/reference/worked-examples.csv`, each through the catalogue.

use std::collections::BTreeMap;

use coldpress::quantity::read;
use coldpress::trade::{Given, InputKind, Surroundings, find, reckon};

use crate::properties::refrigerant;
use crate::reference::{Row, rows};

#[test]
fn every_row_comes_out_within_its_tolerance() {
    let mut wrong = Vec::new();
    for row in rows("worked-examples.csv") {
        if let Err(says) = check(&row) {
            wrong.push(format!("{} {}: {says}", row.place(), row.text("id")));
        }
    }
    assert!(wrong.is_empty(), "{} rows don't come out:\n{}", wrong.len(), wrong.join("\n"));
}

fn check(row: &Row) -> Result<(), String> {
    let c = find(row.text("topic")).ok_or("no such computation")?;
    let mut given = BTreeMap::new();
    for pair in row.text("inputs").split(';') {
        let (name, text) = pair.trim().split_once('=').ok_or_else(|| format!("`{pair}` is no input"))?;
        // Every computation takes an altitude, whether or not it lists it.
        let kind = c
            .input(name)
            .map(|input| input.kind)
            .or_else(|| (name == "altitude").then_some(InputKind::Quantity(coldpress::quantity::Kind::Length)));
        let value = match kind.ok_or_else(|| format!("it has no input `{name}`"))? {
            InputKind::Refrigerant => Given::Refrigerant(refrigerant(text)),
            InputKind::Quantity(kind) => Given::Written(read(text, Some(kind)).map_err(|error| error.to_string())?),
        };
        given.insert(name.to_owned(), value);
    }
    let worked = reckon(c, &given, &Surroundings::default()).map_err(|error| error.to_string())?;
    let unit = if row.text("unit") == "-" { "" } else { row.text("unit") };
    let wanted =
        read(&format!("{} {unit}", row.text("answer")), Some(c.answer.kind)).map_err(|error| error.to_string())?;
    let value = wanted.value(worked.air).map_err(|error| error.to_string())?;
    let off = ((worked.answer.si - value.si) / wanted.unit.factor).abs();
    if off <= row.number("tolerance") {
        Ok(())
    } else {
        Err(format!(
            "{} {unit} is wanted within {}, and {} was found",
            row.text("answer"),
            row.text("tolerance"),
            worked.answer_as(&wanted)
        ))
    }
}
