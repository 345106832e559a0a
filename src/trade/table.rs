//! Tables that the trade looks figures up in: tubes, legal limits, torques. Typed from their sources, not computed.
//!
//! Each stands in a YAML file of `tables/` with where it comes from; its figures keep the digits they were typed with.
//! What follows from them (a bore from a diameter and a wall) is left to the catalogue.

use std::sync::OnceLock;

use super::computation::Mark;
use crate::quantity::{Kind, ReadingError, Unit, Written, read};

/// A table of figures from outside.
#[derive(Clone, Debug)]
pub struct Table {
    /// The name by which it is asked for: `copper-tube`.
    pub name: &'static str,
    /// Its heading.
    pub title: String,
    /// What it is for, and what to mind.
    pub purpose: String,
    /// Where it comes from.
    pub source: String,
    /// How firm that is; none where each row says so itself.
    pub mark: Option<Mark>,
    /// Its columns.
    pub columns: Vec<Column>,
    /// Its rows, each with one cell to a column.
    pub rows: Vec<Vec<Cell>>,
}

/// A column of a table.
#[derive(Clone, Debug)]
pub struct Column {
    /// Its heading.
    pub name: String,
    /// What it measures, and in which unit; none for a column of words.
    pub figures: Option<(Kind, &'static Unit)>,
}

/// One place in a table.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Words.
    Words(String),
    /// A figure with the digits it was typed with.
    Figure(Written),
    /// Nothing there.
    Empty,
}

/// Why a table can't be read.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TableError {
    /// Not as a table is written.
    #[error("tables/{name}.yaml: {says}")]
    Form {
        /// The table.
        name: &'static str,
        /// What is wrong.
        says: String,
    },
    /// A figure that can't be read.
    #[error("tables/{name}.yaml, row {row}, {column}: {error}")]
    Figure {
        /// The table.
        name: &'static str,
        /// Counted from one.
        row: usize,
        /// The heading of the column.
        column: String,
        /// What is wrong with it.
        error: ReadingError,
    },
}

macro_rules! files {
    ($($name:literal),* $(,)?) => {
        const FILES: &[(&str, &str)] = &[$(($name, include_str!(concat!("tables/", $name, ".yaml")))),*];
    };
}

files![
    "copper-tube",
    "copper-stress",
    "flare-torque",
    "brazing-alloys",
    "anodic-index",
    "valve-rating-points",
    "equalizer-limits",
    "standing-vacuum",
    "evacuation-levels",
    "leak-rate-limits",
    "flammability-limits",
    "concentration-limits",
    "release-heights",
    "warming-potentials",
];

/// Every table, in the order of the reference.
///
/// # Errors
/// [`TableError`], where a file of the program's own is not as a table is written.
/// ```
/// # use coldpress::trade::{table, Cell};
/// let tube = table("copper-tube").unwrap().unwrap();
/// let Cell::Figure(outside) = &tube.rows[4][0] else { panic!() };
/// assert_eq!(outside.to_string(), "3/8\u{a0}in");
/// ```
pub fn tables() -> Result<&'static [Table], TableError> {
    static READ: OnceLock<Result<Vec<Table>, TableError>> = OnceLock::new();
    let read = READ.get_or_init(|| FILES.iter().map(|(name, text)| read_table(name, text)).collect());
    read.as_deref().map_err(Clone::clone)
}

/// The table of this name, or none.
///
/// # Errors
/// As [`tables`].
pub fn table(name: &str) -> Result<Option<&'static Table>, TableError> {
    let asked = crate::quantity::plain_words(name);
    Ok(tables()?.iter().find(|table| crate::quantity::plain_words(table.name) == asked))
}

/// As the file has it.
#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct Typed {
    title: String,
    r#for: String,
    source: TypedSource,
    columns: Vec<TypedColumn>,
    // As text, so that 0.030 keeps its last zero.
    rows: Vec<Vec<Option<String>>>,
}

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct TypedSource {
    mark: Option<Mark>,
    text: String,
}

#[derive(serde::Deserialize)]
#[serde(deny_unknown_fields)]
struct TypedColumn {
    name: String,
    quantity: Option<String>,
    unit: Option<String>,
}

fn read_table(name: &'static str, text: &str) -> Result<Table, TableError> {
    let wrong = |says: String| TableError::Form { name, says };
    let typed: Typed = serde_yaml::from_str(text).map_err(|error| wrong(error.to_string()))?;
    let mut columns = Vec::new();
    for column in typed.columns {
        let figures = match (column.quantity, column.unit) {
            (None, None) => None,
            (Some(quantity), Some(unit)) => {
                let kind = Kind::from_name(&quantity).ok_or_else(|| wrong(format!("no quantity `{quantity}`")))?;
                let unit = kind
                    .units()
                    .find(|known| known.symbol == unit)
                    .ok_or_else(|| wrong(format!("no unit `{unit}` of {kind}")))?;
                Some((kind, unit))
            }
            _ => return Err(wrong(format!("{} has a quantity or a unit, and needs both", column.name))),
        };
        columns.push(Column { name: column.name, figures });
    }
    let mut rows = Vec::new();
    for (place, typed) in typed.rows.into_iter().enumerate() {
        if typed.len() != columns.len() {
            return Err(wrong(format!("row {} has {} cells for {} columns", place + 1, typed.len(), columns.len())));
        }
        let cells = typed.into_iter().zip(&columns).map(|(cell, column)| match (cell, column.figures) {
            (None, _) => Ok(Cell::Empty),
            (Some(words), None) => Ok(Cell::Words(words)),
            (Some(number), Some((kind, unit))) => read(&format!("{number} {}", unit.symbol), Some(kind))
                .map(Cell::Figure)
                .map_err(|error| TableError::Figure { name, row: place + 1, column: column.name.clone(), error }),
        });
        rows.push(cells.collect::<Result<Vec<_>, _>>()?);
    }
    let (mark, source) = (typed.source.mark, typed.source.text);
    Ok(Table { name, title: typed.title, purpose: typed.r#for, source, mark, columns, rows })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Pressure;

    fn figure(table: &Table, row: usize, column: &str) -> f64 {
        let at = table.columns.iter().position(|known| known.name == column).unwrap();
        match &table.rows[row][at] {
            Cell::Figure(written) => written.value(Pressure::STANDARD_ATMOSPHERE).unwrap().si,
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn every_file_is_a_table_and_says_where_it_comes_from() {
        let here = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("src/trade/tables");
        assert_eq!(std::fs::read_dir(here).unwrap().count(), FILES.len(), "a file is not in the list");
        for table in tables().unwrap() {
            assert!(!table.rows.is_empty() && !table.source.is_empty() && !table.purpose.is_empty(), "{}", table.name);
        }
        assert_eq!(table("Copper Tube").unwrap().unwrap().rows.len(), 17);
        assert!(table("lead-pipe").unwrap().is_none());
    }

    #[test]
    fn a_digit_typed_is_a_digit_kept() {
        let tube = table("copper-tube").unwrap().unwrap();
        let Cell::Figure(wall) = &tube.rows[0][1] else { panic!("no wall") };
        assert_eq!(wall.to_string(), "0.030\u{a0}in");
        assert_eq!(tube.rows[0][2], Cell::Empty);
    }

    #[test]
    fn walls_are_thinner_than_the_tube_and_torques_rise_with_it() {
        let tube = table("copper-tube").unwrap().unwrap();
        for (row, cells) in tube.rows.iter().enumerate() {
            let outside = figure(tube, row, "outside diameter");
            for cell in &cells[1..] {
                if let Cell::Figure(wall) = cell {
                    let bore = outside - 2.0 * wall.value(Pressure::STANDARD_ATMOSPHERE).unwrap().si;
                    assert!(bore > 0.3 * outside, "row {row}");
                }
            }
        }
        let flare = table("flare-torque").unwrap().unwrap();
        for row in 0..flare.rows.len() {
            assert!(figure(flare, row, "least torque") < figure(flare, row, "largest torque"), "row {row}");
        }
    }

    #[test]
    fn what_is_no_table_says_where() {
        let read = |text: &str| read_table("trial", text).unwrap_err().to_string();
        assert!(read("title: x").starts_with("tables/trial.yaml: missing field"));
        let head = "title: x\nfor: y\nsource: {text: z}\ncolumns: [{name: bore, quantity: length, unit: in}]\n";
        assert_eq!(read(&format!("{head}rows: [[1, 2]]")), "tables/trial.yaml: row 1 has 2 cells for 1 columns");
        assert!(
            read(&format!("{head}rows: [[wide]]"))
                .starts_with("tables/trial.yaml, row 1, bore: `wide in` does not begin")
        );
    }
}
