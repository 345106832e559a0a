//! A table of saturation pressures as it was typed: its figures as text, each column with its unit.
//!
//! Gives the figures as numbers in SI units, and the points for a refrigerant. Whether a figure can be trusted,
//! [`super::examine`] says.

use crate::quantity::{Pressure, Temperature, Unit, Value};

use super::{Column, FluidError, TypedPoint, typing};

/// A table as it was typed: each column with its unit, each figure as text.
#[derive(Clone, Debug)]
pub struct TypedTable {
    /// Unit of the column of temperatures.
    pub temperature: &'static Unit,
    /// Unit of the column of bubble pressures.
    pub bubble: &'static Unit,
    /// Unit of the column of dew pressures.
    pub dew: &'static Unit,
    /// The air around the gauge that gauge pressures are counted from.
    pub air: Pressure,
    /// The rows, in the order of the table.
    pub rows: Vec<TypedRow>,
}

/// A row as it was typed. A table of a pure refrigerant has one pressure: the same text twice.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TypedRow {
    /// Temperature.
    pub temperature: String,
    /// Bubble pressure.
    pub bubble: String,
    /// Dew pressure.
    pub dew: String,
}

impl TypedTable {
    /// The points of the table, for [`super::Refrigerant::typed`].
    ///
    /// # Errors
    /// [`FluidError::Points`] naming the first figure that is no number.
    pub fn points(&self, designation: &str) -> Result<Vec<TypedPoint>, FluidError> {
        let number = |i: usize, text: &str, unit: &Unit| {
            let read = typing::number(text).map(|n| Value::from_unit(n, unit, self.air).si);
            read.ok_or_else(|| FluidError::Points {
                refrigerant: designation.to_owned(),
                says: format!("`{text}` in row {} is no number", i + 1),
            })
        };
        let point = |(i, row): (usize, &TypedRow)| {
            Ok(TypedPoint {
                temperature: Temperature::from_kelvin(number(i, &row.temperature, self.temperature)?),
                bubble: Pressure::from_pascal(number(i, &row.bubble, self.bubble)?),
                dew: Pressure::from_pascal(number(i, &row.dew, self.dew)?),
            })
        };
        self.rows.iter().enumerate().map(point).collect()
    }

    pub(super) fn text(&self, column: Column, row: usize) -> &str {
        let row = &self.rows[row];
        match column {
            Column::Temperature => &row.temperature,
            Column::Bubble => &row.bubble,
            Column::Dew => &row.dew,
        }
    }

    pub(super) fn unit(&self, column: Column) -> &'static Unit {
        match column {
            Column::Temperature => self.temperature,
            Column::Bubble => self.bubble,
            Column::Dew => self.dew,
        }
    }

    /// A figure in kelvins or pascals, where it is a number above zero.
    pub(super) fn si(&self, column: Column, row: usize) -> Option<f64> {
        let number = typing::number(self.text(column, row))?;
        Some(Value::from_unit(number, self.unit(column), self.air).si).filter(|x| x.is_finite() && *x > 0.0)
    }
}
