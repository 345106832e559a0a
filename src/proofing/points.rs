//! Points typed from a published table. `points-not-read`: a heading or a row that can't be made out; `point-off-curve`: a
//! figure that breaks the curve of its neighbors; `points-disagree`: the points and the equation of the same refrigerant
//! are further apart than two sources should be.
//!
//! Trips: a row `[40, 131.2, 107.5]` among `[35, 103.0, 97.6]` and `[45, 123.9, 118.1]`. Mended: `[40, 113.2, 107.5]`.
//!
//! Gauge pressures of a published table are against the standard atmosphere, wherever the handbook is read.

use crate::fluid::{Column, Refrigerant, Slip, TypedRow, TypedTable};
use crate::handbook::{Finding, PointTable, RefrigerantEntry, Span, Spot};
use crate::quantity::{Kind, Pressure, Unit, Value, number_text, read};

/// How far points and equation of one refrigerant may be apart, as a part of the pressure: older property data differ from
/// today's by about as much.
const APART: f64 = 0.01;

/// The refrigerant these points make, or none where they don't; then that is a finding.
pub(super) fn build(entry: &RefrigerantEntry, findings: &mut Vec<Finding>) -> Option<Refrigerant> {
    let points = entry.points.as_ref()?;
    let table = sound(points, findings)?;
    let designation = &entry.designation.value;
    let made = table.typed.points(designation).and_then(|points| Refrigerant::typed(designation, &points));
    made.map_err(|error| findings.push(Finding::error("points-not-read", points.at, error.to_string()))).ok()
}

/// Holds the points of a refrigerant that has an equation against it.
pub(super) fn compare(entry: &RefrigerantEntry, refrigerant: &Refrigerant, findings: &mut Vec<Finding>) {
    let Some(points) = &entry.points else { return };
    let Some(table) = sound(points, findings) else { return };
    let Ok(typed) = table.typed.points(&entry.designation.value) else { return };
    let mut worst: Option<(f64, usize, Column, Pressure)> = None;
    for (row, point) in typed.iter().enumerate() {
        let both = [
            (Column::Bubble, point.bubble, refrigerant.bubble_pressure(point.temperature)),
            (Column::Dew, point.dew, refrigerant.dew_pressure(point.temperature)),
        ];
        for (column, written, found) in both {
            // Outside of what the equation knows there is nothing to hold it against.
            let Ok(found) = found else { continue };
            let (unit, text) = match column {
                Column::Dew => (table.typed.dew, &table.typed.rows[row].dew),
                _ => (table.typed.bubble, &table.typed.rows[row].bubble),
            };
            let half = 0.5 * unit.factor * 10f64.powi(-i32::from(decimals(text)));
            let gap = ((written.as_pascal() - found.as_pascal()).abs() - half).max(0.0) / found.as_pascal();
            if gap > worst.as_ref().map_or(APART, |worst| worst.0) {
                worst = Some((gap, row, column, found));
            }
        }
    }
    let Some((gap, row, column, found)) = worst else { return };
    let unit = if column == Column::Dew { table.typed.dew } else { table.typed.bubble };
    let number = Value::from(found).number_of(unit, table.typed.air);
    findings.push(
        Finding::warning(
            "points-disagree",
            table.place(points, row, column),
            format!("the typed points of `{}` are up to {:.1} % from its equation", entry.designation.value, gap * 100.0),
        )
        .label(format!("furthest here, in row {}", row + 1))
        .found(format!("the equation has {} {}", number_text(number, 1), unit.symbol))
        .instead("figures are worked from the equation; keep the points only if their source is the better one, and then without it"),
    );
}

/// A table read, with the columns of its figures.
struct Read {
    typed: TypedTable,
    temperature: usize,
    bubble: usize,
    dew: usize,
}

impl Read {
    /// Where a figure stands.
    fn place(&self, points: &PointTable, row: usize, column: Column) -> Span {
        let column = match column {
            Column::Temperature => self.temperature,
            Column::Bubble => self.bubble,
            Column::Dew => self.dew,
        };
        points.rows.get(row).and_then(|row| row.get(column)).map_or(points.at, |cell| cell.at)
    }
}

/// The table, where it can be read and no figure breaks its curve.
fn sound(points: &PointTable, findings: &mut Vec<Finding>) -> Option<Read> {
    let table = match read_table(points) {
        Ok(table) => table,
        Err(finding) => {
            findings.push(*finding);
            return None;
        }
    };
    let slips = table.typed.slips();
    findings.extend(slips.iter().map(|slip| off_curve(&table, points, slip)));
    slips.is_empty().then_some(table)
}

fn off_curve(table: &Read, points: &PointTable, slip: &Slip) -> Finding {
    let unit = match slip.column {
        Column::Temperature => table.typed.temperature,
        Column::Bubble => table.typed.bubble,
        Column::Dew => table.typed.dew,
    };
    let mut finding = Finding::error("point-off-curve", table.place(points, slip.row, slip.column), slip.says())
        .label(format!("row {}", slip.row + 1));
    if let Some(expected) = slip.expected {
        finding = finding.found(format!(
            "its neighbors put it at {} {}, on the logarithm of pressure against 1/T",
            number_text(expected, decimals(&slip.written).max(1)),
            unit.symbol
        ));
    }
    match (slip.explanation(), &slip.likely) {
        (Some(explanation), Some(likely)) => {
            finding.instead(format!("{explanation}: look whether the source has `{likely}`"))
        }
        (None, Some(likely)) => finding.instead(format!("look whether the source has `{likely}`")),
        _ => finding.instead("look the row up in the source"),
    }
}

fn read_table(points: &PointTable) -> Result<Read, Box<Finding>> {
    let wrong = |at: Span, says: String| Box::new(Finding::error("points-not-read", at, says));
    let (mut temperature, mut bubble, mut dew) = (None, None, None);
    for (i, heading) in points.columns.iter().enumerate() {
        let (name, unit) = column(heading)?;
        let places = match name {
            "temperature" => vec![&mut temperature],
            "bubble" => vec![&mut bubble],
            "dew" => vec![&mut dew],
            _ => vec![&mut bubble, &mut dew],
        };
        for place in places {
            if place.replace((i, unit)).is_some() {
                return Err(wrong(
                    heading.at,
                    format!("`{}` stands for a column that is there already", heading.value),
                ));
            }
        }
    }
    let (Some(temperature), Some(bubble), Some(dew)) = (temperature, bubble, dew) else {
        let at = points.columns.first().map_or(points.at, |first| first.at);
        return Err(Box::new(
            Finding::error("points-not-read", at, "a table of points has temperature, and bubble and dew pressure".to_owned())
                .instead("write `columns: [temperature °F, bubble psig, dew psig]`, or `[temperature °F, pressure psig]` of a pure refrigerant"),
        ));
    };
    let mut rows = Vec::with_capacity(points.rows.len());
    for (i, row) in points.rows.iter().enumerate() {
        let [t, b, d] = [temperature.0, bubble.0, dew.0].map(|at| row.get(at).map(|cell| cell.value.clone()));
        let (Some(temperature), Some(bubble), Some(dew), true) = (t, b, d, row.len() == points.columns.len()) else {
            let at = row.first().map_or(points.at, |cell| cell.at);
            let says =
                format!("row {} has {} figures, and there are {} columns", i + 1, row.len(), points.columns.len());
            return Err(wrong(at, says));
        };
        rows.push(TypedRow { temperature, bubble, dew });
    }
    let typed = TypedTable {
        temperature: temperature.1,
        bubble: bubble.1,
        dew: dew.1,
        air: Pressure::STANDARD_ATMOSPHERE,
        rows,
    };
    Ok(Read { typed, temperature: temperature.0, bubble: bubble.0, dew: dew.0 })
}

/// What a column holds and its unit: `bubble psig`, `dew pressure kPa`, `temperature °F`.
fn column(heading: &Spot<String>) -> Result<(&'static str, &'static Unit), Box<Finding>> {
    let text = heading.value.trim();
    for (name, kind) in [
        ("temperature", Kind::Temperature),
        ("bubble", Kind::Pressure),
        ("dew", Kind::Pressure),
        ("pressure", Kind::Pressure),
    ] {
        let Some(rest) = text.strip_prefix(name) else { continue };
        let unit = rest.trim().trim_start_matches("pressure").trim();
        return read(&format!("1 {unit}"), Some(kind))
            .map(|written| (name, written.unit))
            .map_err(|error| Box::new(Finding::error("points-not-read", heading.at, error.to_string())));
    }
    Err(Box::new(
        Finding::error("points-not-read", heading.at, format!("`{text}` is no column of a table of points")).instead(
            "columns are `temperature`, `bubble` and `dew`, or `pressure` for both, each with its unit: `bubble psig`",
        ),
    ))
}

/// Digits after the decimal point.
fn decimals(text: &str) -> u8 {
    text.trim().split_once('.').map_or(0, |(_, rest)| rest.len().min(15) as u8)
}
