//! A table of coefficients in a data file: the names of its columns, and its rows.

use serde::Deserialize;

/// `columns:` and `rows:` as they stand in the file.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Table {
    columns: Vec<String>,
    rows: Vec<Vec<f64>>,
}

impl Table {
    /// The rows, once the columns are found to be these and every row to be as long.
    ///
    /// # Errors
    /// Which column or row is not as it should be, in words.
    pub(super) fn rows<const N: usize>(&self, columns: [&str; N]) -> Result<Vec<[f64; N]>, String> {
        if self.columns != columns {
            return Err(format!(
                "the columns are [{}]; they should be [{}]",
                self.columns.join(", "),
                columns.join(", ")
            ));
        }
        self.rows
            .iter()
            .enumerate()
            .map(|(i, row)| match <[f64; N]>::try_from(row.as_slice()) {
                Ok(row) if row.iter().all(|x| x.is_finite()) => Ok(row),
                _ => Err(format!("row {} should have {N} numbers", i + 1)),
            })
            .collect()
    }
}

/// Σ c x^t: two columns under any names, the coefficient first.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TemperatureSum {
    #[serde(rename = "columns")]
    _columns: [String; 2],
    rows: Vec<[f64; 2]>,
}

impl TemperatureSum {
    pub(super) fn at(&self, x: f64) -> f64 {
        self.rows.iter().map(|[c, t]| c * x.powf(*t)).sum()
    }
}

/// Σ c δ^d τ^t: three columns, the coefficient first, then the exponents of δ and of τ.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Sum {
    #[serde(rename = "columns")]
    _columns: [String; 3],
    rows: Vec<[f64; 3]>,
}

impl Sum {
    pub(super) fn at(&self, delta: f64, tau: f64) -> f64 {
        self.rows.iter().map(|[c, d, t]| c * delta.powf(*d) * tau.powf(*t)).sum()
    }
}

#[cfg(test)]
mod tests {
    use super::Table;

    #[test]
    fn columns_and_rows_are_checked() {
        let table: Table = serde_yaml::from_str("columns: [n, t]\nrows: [[1, 2], [3]]").unwrap();
        assert_eq!(table.rows(["n", "d"]).unwrap_err(), "the columns are [n, t]; they should be [n, d]");
        assert_eq!(table.rows(["n", "t"]).unwrap_err(), "row 2 should have 2 numbers");
        assert!(serde_yaml::from_str::<Table>("columns: [n]\nrows: [[1]]\nextra: 1").is_err());
    }
}
