//! A handbook into findings: every figure reckoned again, every tree walked, every link followed.
//!
//! Pure: the same handbook gives the same findings in the same order, and nothing here touches a disk. Beside the
//! findings, [`Proof`] hands `setting` everything that was reckoned on the way, so that nothing is reckoned twice and no
//! figure reaches a page by any way but the catalogue.

#![deny(clippy::disallowed_methods)]

mod proof;
mod value;

mod catalogue;
mod computed;
mod example;
mod figure;
mod file_name;
mod given;
mod inputs;
mod ladder;
mod name_twice;
mod own_value;
mod page_table;
mod picture;
mod points;
mod problem;
mod roster;
mod saturation;
mod sheet;
mod step;
mod witness;

pub mod drawing;
pub mod tree;

mod dead_link;
mod lesson_form;
mod lesson_order;

pub use proof::{
    AxisProof, ComputedProof, Draw, ExampleProof, FormProof, GivenProof, Grid, Limit, LookedFor, ProblemProof, Proof,
    ReadingProof, StepProof, TableColumn, TableProof, TableRow, TableRows, Verdict,
};
pub use roster::examine as build_roster;
pub use value::ValueFigure;

use crate::handbook::{Finding, Handbook, Weight};
use crate::quantity::{Kind, Pressure, Value, air_at, read};
use crate::trade::Surroundings;

/// Examines a handbook. `read_findings` are those that reading it made; they are put in order among the others.
pub fn proof(book: &Handbook, read_findings: Vec<Finding>) -> Proof {
    let mut findings = read_findings;
    let (altitude, air) = surroundings(book, &mut findings);
    let around = Surroundings { altitude };
    let roster = roster::examine(book, &mut findings);
    let values = value::examine(book, &mut findings);
    let proved = tree::examine(book, &values, &roster, &around, air);
    findings.extend(proved.findings);
    let mut proof = Proof {
        altitude,
        air,
        figures: figure::examine(book, &roster, &around, &mut findings),
        given: given::examine(book, &mut findings),
        examples: example::examine(book, &roster, &around, &mut findings),
        tables: saturation::examine(book, &roster, &around, &mut findings),
        computed: computed::examine_tables(book, &roster, &around, &mut findings),
        forms: computed::examine_forms(book, &values, &roster, &around, &mut findings),
        catalogue: catalogue::examine(&roster, &around),
        drawings: drawing::examine(book, &values, &roster, &around, &mut findings),
        problems: problem::examine(book, &roster, &around, &mut findings),
        readings: sheet::examine(book, &values, &mut findings),
        trees: proved.trees,
        page_tables: page_table::examine(book, &roster, &mut findings),
        replaced_values: value::replaced(book),
        values,
        roster,
        findings: Vec::new(),
    };
    value::examine_links(book, air, &mut findings);
    own_value::examine(book, &mut findings);
    dead_link::examine(book, &mut findings);
    lesson_order::examine(book, &mut findings);
    lesson_form::examine(book, &mut findings);
    file_name::examine(book, &mut findings);
    name_twice::examine(book, &mut findings);
    picture::examine(book, &mut findings);
    if !altitude_known(book, &findings) {
        // Against the air of another altitude all figures would be told to be wrong, and they may all be right.
        findings.retain(|finding| finding.name != "figure-disagrees");
    }
    findings.sort();
    findings.dedup();
    proof.findings = findings;
    proof
}

/// Examines the lesson `name` again, everything beside it being as it was for `before`.
///
/// Gives a proof of this lesson alone: its figures, blocks and findings, with the values of `before`. What its change does to other lessons is for [`proof`] to find. None where there is no such lesson.
pub fn proof_lesson(book: &Handbook, before: &Proof, name: &str, read_findings: Vec<Finding>) -> Option<Proof> {
    let lesson = book.lessons.get(name)?;
    let file = lesson.body.file;
    let alone = Handbook {
        files: book.files.clone(),
        front: book.front.clone(),
        lessons: [(name.to_owned(), lesson.clone())].into(),
        refrigerants: book.refrigerants.clone(),
        values: book.values.clone(),
        pictures: book.pictures.clone(),
        rasters: book.rasters.clone(),
        ..Handbook::default()
    };
    let around = Surroundings { altitude: before.altitude };
    let roster = &before.roster;
    let mut findings = read_findings;
    let figures = figure::examine(&alone, roster, &around, &mut findings);
    let given = given::examine(&alone, &mut findings);
    let examples = example::examine(&alone, roster, &around, &mut findings);
    let tables = saturation::examine(&alone, roster, &around, &mut findings);
    let computed = computed::examine_tables(&alone, roster, &around, &mut findings);
    let forms = computed::examine_forms(&alone, &before.values, roster, &around, &mut findings);
    let drawings = drawing::examine(&alone, &before.values, roster, &around, &mut findings);
    let problems = problem::examine(&alone, roster, &around, &mut findings);
    picture::examine(&alone, &mut findings);
    lesson_form::examine(&alone, &mut findings);
    value::examine_links(book, before.air, &mut findings);
    dead_link::examine(book, &mut findings);
    lesson_order::examine(book, &mut findings);
    name_twice::examine(book, &mut findings);
    if !altitude_known(book, &before.findings) {
        findings.retain(|finding| finding.name != "figure-disagrees");
    }
    findings.retain(|finding| finding.at.file == file);
    findings.sort();
    findings.dedup();
    Some(Proof {
        findings,
        altitude: before.altitude,
        air: before.air,
        figures,
        given,
        examples,
        tables,
        computed,
        forms,
        drawings,
        problems,
        readings: Default::default(),
        trees: Default::default(),
        values: before.values.clone(),
        replaced_values: before.replaced_values.clone(),
        roster: Default::default(),
        catalogue: Default::default(),
        page_tables: Default::default(),
    })
}

impl Proof {
    /// Whether nothing found stands in the way of making the handbook.
    pub fn holds(&self) -> bool {
        self.findings.iter().all(|f| f.weight != Weight::Error)
    }

    /// How many figures the author wrote were reckoned again: links and steps of examples.
    pub fn figures_witnessed(&self) -> usize {
        self.figures.len() + self.examples.values().map(|e| e.steps.len()).sum::<usize>()
    }
}

/// Whether the altitude could be read, so that gauges have the air they read against.
fn altitude_known(book: &Handbook, findings: &[Finding]) -> bool {
    !book.front.altitude.value.is_empty() && findings.iter().all(|finding| finding.name != "altitude-not-read")
}

/// The altitude the handbook is read at, and the pressure of the air there. Sea level where it can't be read.
fn surroundings(book: &Handbook, findings: &mut Vec<Finding>) -> (Value, Pressure) {
    let sea_level = (Value::of(Kind::Length, 0.0), Pressure::STANDARD_ATMOSPHERE);
    let written = &book.front.altitude;
    if written.value.is_empty() {
        return sea_level; // No front was read; that is a finding of its own.
    }
    let mut fail = |says: String| {
        findings.push(
            Finding::error("altitude-not-read", written.at, says)
                .instead("write the altitude with its unit: `890 ft` or `270 m`; a gauge reads against the air there"),
        );
        sea_level
    };
    let altitude = match read(&written.value, Some(Kind::Length)) {
        Ok(read) => match read.value(Pressure::STANDARD_ATMOSPHERE) {
            Ok(value) => value,
            Err(error) => return fail(error.to_string()),
        },
        Err(error) => return fail(error.to_string()),
    };
    match air_at(altitude) {
        Ok(air) => (altitude, air),
        Err(error) => fail(error.to_string()),
    }
}
