//! The tables of `tests/reference/`: comment lines, a line of column names, and rows.

use std::{collections::BTreeMap, path::Path};

/// A row, by the names of its columns, and the number of its line.
pub(crate) struct Row {
    values: BTreeMap<String, String>,
    line: usize,
    file: String,
}

impl Row {
    pub(crate) fn text(&self, column: &str) -> &str {
        self.values.get(column).unwrap_or_else(|| panic!("{} has no column `{column}`", self.file))
    }

    pub(crate) fn has(&self, column: &str) -> bool {
        self.values.contains_key(column)
    }

    pub(crate) fn number(&self, column: &str) -> f64 {
        let text = self.text(column);
        text.parse().unwrap_or_else(|_| panic!("{}: `{text}` in `{column}` is no number", self.place()))
    }

    /// The file and line, for a failing test to name.
    pub(crate) fn place(&self) -> String {
        format!("tests/reference/{}:{}", self.file, self.line)
    }
}

pub(crate) fn rows(file: &str) -> Vec<Row> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference").join(file);
    let text = std::fs::read_to_string(&path).unwrap_or_else(|e| panic!("{}: {e}", path.display()));
    assert!(text.starts_with("# source: "), "{file} does not say in its first line where its figures come from");
    let mut lines = text.lines().enumerate().filter(|(_, line)| !line.starts_with('#'));
    let names: Vec<&str> = lines.next().unwrap_or_else(|| panic!("{file} is empty")).1.split(',').collect();
    lines
        .map(|(i, line)| {
            let values = names.iter().map(|n| n.to_string()).zip(line.split(',').map(str::to_owned)).collect();
            Row { values, line: i + 1, file: file.to_owned() }
        })
        .collect()
}
