//! Trees as text with the findings marked in the text itself.
//!
//! Under a marked line stand comment lines: `^^^^` below the marked words with the finding's name and what it says, then
//! `=` lines with the words at the mark, how it was found, what else was seen, and what would be right. All of them
//! must be there, to the letter; when a test fails, it shows the text as it should be.

use super::{Proved, examine};
use crate::fluid::Refrigerant;
use crate::handbook::{Finding, Handbook, SourceFile, Weight};
use crate::proofing::ValueFigure;
use crate::quantity::{Kind, Pressure, read, read_range};
use crate::reading::read_files;
use crate::trade::Surroundings;
use std::collections::BTreeMap;
use std::fmt::Write;

/// Holds the findings on `text`, the tree `sample`, against those marked in it.
#[track_caller]
pub(super) fn check(text: &str) -> Proved {
    check_among(&[], text)
}

/// The same, the tree standing among others that must be free of findings.
#[track_caller]
pub(super) fn check_among(others: &[(&str, &str)], text: &str) -> Proved {
    let plain: String = text.lines().filter(|line| !line.starts_with('#')).map(|line| format!("{line}\n")).collect();
    let mut texts = vec![("trees/sample.yaml".to_owned(), plain)];
    texts.extend(others.iter().map(|(name, text)| (format!("trees/{name}.yaml"), (*text).to_owned())));
    texts.sort();
    let (book, proved) = proved(texts);
    for (id, file) in book.files.iter().filter(|(_, file)| file.path != "trees/sample.yaml") {
        let found = proved.findings.iter().filter(|finding| finding.at.file == id && finding.name != "not-walked");
        let found: Vec<_> = found.collect();
        assert!(found.is_empty(), "{}: {found:#?}", file.path);
    }
    let Some((_, file)) = book.files.iter().find(|(_, file)| file.path == "trees/sample.yaml") else {
        panic!("the sample is gone");
    };
    let mut findings = proved.findings.clone();
    if !text.contains("\ncases:") {
        // A sample for something else need not be tried by cases as well.
        findings.retain(|finding| finding.name != "not-walked");
    }
    let marked = marked(&book, file, &findings);
    assert!(marked == text, "marked as\n{text}\nand found\n{marked}");
    proved
}

/// What the findings on the tree `sample` say.
pub(super) fn says(text: &str) -> Vec<String> {
    let (_, proved) = proved(vec![("trees/sample.yaml".to_owned(), text.to_owned())]);
    proved.findings.into_iter().map(|finding| finding.says).collect()
}

/// A handbook of these files and what is proved of its trees. Findings of reading are among the others.
pub(super) fn proved(texts: Vec<(String, String)>) -> (Handbook, Proved) {
    let (book, read) = read_files(texts);
    let r_410a = Refrigerant::blend("R-410A", &[("R-32", 0.5), ("R-125", 0.5)]).unwrap();
    let roster = BTreeMap::from([("R-410A".to_owned(), r_410a)]);
    let mut proved = examine(&book, &values(), &roster, &Surroundings::default(), Pressure::STANDARD_ATMOSPHERE);
    proved.findings.extend(read.into_iter().filter(|finding| finding.name != "no-front"));
    proved.findings.sort();
    (book, proved)
}

fn values() -> BTreeMap<String, ValueFigure> {
    let range = |text, kind| {
        let range = read_range(text, Some(kind)).unwrap();
        ValueFigure::Range(range.from, range.to)
    };
    let one = |text, kind| ValueFigure::One(read(text, Some(kind)).unwrap());
    BTreeMap::from([
        ("superheat-range".to_owned(), range("8 to 18 °F", Kind::TemperatureDifference)),
        ("high-end".to_owned(), one("18 °F", Kind::TemperatureDifference)),
        ("drier-drop".to_owned(), one("3 °F", Kind::TemperatureDifference)),
        ("airflow-comfort".to_owned(), range("350 to 450 cfm/ton", Kind::FlowPerCapacity)),
        ("bulb-clock".to_owned(), ValueFigure::Words("10 or 2 o'clock".to_owned())),
    ])
}

fn marked(book: &Handbook, file: &SourceFile, findings: &[Finding]) -> String {
    let mut text = String::new();
    for (number, line) in file.text.lines().enumerate() {
        writeln!(text, "{line}").unwrap();
        for finding in findings.iter().filter(|f| book.files.path(f.at.file) == file.path) {
            let (at, column) = book.files.line_and_column(finding.at);
            if at == number + 1 {
                mark(book, finding, column, line, &mut text);
            }
        }
    }
    text
}

fn mark(book: &Handbook, finding: &Finding, column: usize, line: &str, text: &mut String) {
    // A mark at the line's very beginning would hide the comment sign.
    let indent = column.saturating_sub(1).max(2) - 1;
    let width = book.files.text(finding.at).lines().next().map_or(0, |first| first.chars().count());
    let width = width.min((line.chars().count() + 1).saturating_sub(column)).max(1);
    let weight = if finding.weight == Weight::Warning { "warning " } else { "" };
    let margin = format!("#{}", " ".repeat(indent));
    writeln!(text, "{margin}{} {weight}{}: {}", "^".repeat(width), finding.name, finding.says).unwrap();
    if !finding.label.is_empty() {
        writeln!(text, "{margin}= here: {}", finding.label).unwrap();
    }
    for found in &finding.found {
        writeln!(text, "{margin}= found: {found}").unwrap();
    }
    for seen in &finding.seen {
        writeln!(text, "{margin}= seen `{}`: {}", book.files.text(seen.at), seen.says).unwrap();
    }
    if let Some(instead) = &finding.instead {
        writeln!(text, "{margin}= instead: {instead}").unwrap();
    }
}
