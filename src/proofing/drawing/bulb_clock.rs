//! `bulb-clock`: where the bulb sits around suction lines of several sizes, seen along the tube.

use super::Scene;
use super::desk::{Desk, Lines, Stop};
use crate::handbook::{Finding, Spot};
use crate::quantity::{Kind, Value, Written};
use crate::trade::{Cell, table};

/// Lines with their bulbs, true to scale.
#[derive(Clone, Debug)]
pub struct BulbClock {
    /// Diameter of the bulb.
    pub bulb: Written,
    /// Lines in the author's order.
    pub lines: Vec<BulbLine>,
}

/// One suction line.
#[derive(Clone, Debug)]
pub struct BulbLine {
    /// Outside diameter.
    pub size: Written,
    /// Outside diameter, as a value.
    pub outside: Value,
    /// Thickness of the wall, from the table of copper tube.
    pub wall: Value,
    /// Where the bulb belongs.
    pub usual: Hours,
    /// Where some makers ask for it.
    pub some_makers: Option<Hours>,
}

/// Places on a clock face.
#[derive(Clone, Debug, PartialEq)]
pub struct Hours {
    /// As written: `10 or 2 o'clock`.
    pub words: String,
    /// Each from one hour to another, which may be the same.
    pub places: Vec<(f64, f64)>,
}

/// Diameters between which bulbs are made, in meters, with much to spare.
const THIN: f64 = 0.003;
const THICK: f64 = 0.08;
/// The table of walls.
const TUBES: &str = "copper-tube";
/// The list it takes, and how many lines can stand on one plate.
const LINES: &str = "lines";
const MOST: usize = 3;

/// Reads and reckons one.
pub(super) fn examine(desk: &Desk<'_>) -> Result<Scene, Stop> {
    let given = desk.given();
    given.only(&["bulb"])?;
    let bulb = given.need("bulb", Kind::Length)?;
    if !(THIN..=THICK).contains(&bulb.value.si) {
        let says = format!("no bulb is {} thick", bulb.written);
        return Err(Finding::error("drawing-not-read", bulb.at, says)
            .instead("write `bulb: 1/2 in` or the like")
            .into());
    }
    let lines = desk.list(LINES, 1, MOST)?;
    if let Ok(Some(tubes)) = table(TUBES) {
        desk.cite(tubes.source.clone());
    }
    let lines = lines.iter().map(line).collect::<Result<_, Stop>>()?;
    Ok(Scene::BulbClock(BulbClock { bulb: bulb.written, lines }))
}

fn line(lines: &Lines<'_>) -> Result<BulbLine, Stop> {
    lines.only(&["size", "bulb at", "or at"])?;
    let size = lines.need("size", Kind::Length)?;
    let hours = |text: &Spot<String>| {
        let words = lines.quoted(text)?;
        let slip = |says: String| {
            Stop::from(Finding::error("drawing-not-read", text.at, says).instead("write `10 or 2 o'clock`"))
        };
        let hours = read_hours(&words).ok_or_else(|| slip(format!("`{words}` is no place on a clock")))?;
        if hours.places.iter().any(|(from, to)| (*from..=*to).contains(&6.0)) {
            return Err(slip("at 6 o'clock lies oil, and no bulb belongs there".to_owned()));
        }
        Ok(hours)
    };
    let Some(usual) = lines.text("bulb at")? else {
        let finding = Finding::error("drawing-lacks", lines.at, "a line also needs `bulb at`");
        return Err(finding.instead("write `bulb at: value:bulb-clock` or `bulb at: 10 or 2 o'clock`").into());
    };
    Ok(BulbLine {
        wall: wall(size.value).ok_or_else(|| {
            let says = format!("no copper tube of {} outside is in the table of tubes", size.written);
            Finding::error("drawing-not-read", size.at, says).instead("sizes are 3/8 in, 7/8 in, 1-1/8 in and the like")
        })?,
        outside: size.value,
        size: size.written,
        usual: hours(usual)?,
        some_makers: lines.text("or at")?.map(hours).transpose()?,
    })
}

/// The wall of a tube of that outside diameter: drawn, or annealed where it is not made drawn.
fn wall(outside: Value) -> Option<Value> {
    let tubes = table(TUBES).ok()??;
    let figure = |cell: &Cell| match cell {
        Cell::Figure(written) => {
            Some(written.unit.to_si(written.number, crate::quantity::Pressure::STANDARD_ATMOSPHERE))
        }
        _ => None,
    };
    let same = |cell: &Cell| figure(cell).is_some_and(|size| (size / outside.si - 1.0).abs() < 0.01);
    let row = tubes.rows.iter().find(|row| row.first().is_some_and(same))?;
    row.iter().skip(1).rev().find_map(figure).map(|si| Value::of(Kind::Length, si))
}

/// Reads `4 to 5 or 7 to 8 o'clock`. None where it is no such thing.
fn read_hours(words: &str) -> Option<Hours> {
    let plain = words.replace(['\u{2019}', '\''], "'");
    let plain = plain.trim().trim_end_matches("o'clock").trim();
    let hour = |text: &str| text.trim().parse::<f64>().ok().filter(|hour| (1.0..=12.0).contains(hour));
    let places: Option<Vec<(f64, f64)>> = plain
        .split(" or ")
        .map(|place| match place.split_once(" to ") {
            Some((from, to)) => Some((hour(from)?, hour(to)?)).filter(|(from, to)| from < to),
            None => hour(place).map(|hour| (hour, hour)),
        })
        .collect();
    Some(Hours { words: words.to_owned(), places: places? })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn hours_are_read_as_they_are_spoken() {
        let places = |words| read_hours(words).map(|hours| hours.places);
        assert_eq!(places("10 or 2 o'clock"), Some(vec![(10.0, 10.0), (2.0, 2.0)]));
        assert_eq!(places("4 to 5 or 7 to 8 o\u{2019}clock"), Some(vec![(4.0, 5.0), (7.0, 8.0)]));
        assert_eq!(places("12"), Some(vec![(12.0, 12.0)]));
        for wrong in ["13 o'clock", "on top", "5 to 4 o'clock", ""] {
            assert_eq!(places(wrong), None, "{wrong}");
        }
    }

    #[test]
    fn walls_are_those_of_the_table() {
        let of = |inches: f64| wall(Value::of(Kind::Length, inches * 0.0254)).map(|wall| wall.si / 0.0254);
        assert!((of(1.125).unwrap() - 0.050).abs() < 1e-9);
        assert!((of(0.1875).unwrap() - 0.030).abs() < 1e-9, "made annealed only");
        assert_eq!(of(1.0), None);
    }
}
