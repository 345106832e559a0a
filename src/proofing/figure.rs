//! `figure:` links: each is reckoned from its query and witnessed by its text. `computation-not-known`: no computation
//! of that name; `figure-not-worked`: the sum can't be done with what is given.
//!
//! Trips: `[38.9 °F](figure:dew-temperature?refrigerant=R-410A&pressure=118psig)`. Mended: `[39.8 °F](figure:…)`.

use super::StepProof;
use super::witness::witness;
use crate::fluid::Refrigerant;
use crate::handbook::{Finding, Handbook, Link, Scheme, Span, Spot};
use crate::quantity::{Kind, nearest, plain_words, read};
use crate::trade::{self, Computation, Given, InputKind, Surroundings, Worked};
use std::collections::BTreeMap;

/// The input that says where gauges are read; every computation takes it.
pub(super) const ALTITUDE: &str = "altitude";

/// Reckons every `figure:` link of the handbook.
pub(super) fn examine(
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    findings: &mut Vec<Finding>,
) -> BTreeMap<Span, StepProof> {
    let mut figures = BTreeMap::new();
    for link in book.links().filter(|link| link.scheme == Scheme::Figure) {
        match figure(link, book, roster, around) {
            Ok(Some(step)) => {
                figures.insert(link.at, step);
            }
            Ok(None) => {}
            Err(finding) => findings.push(*finding),
        }
    }
    figures
}

fn figure(
    link: &Link,
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
) -> Result<Option<StepProof>, Box<Finding>> {
    let computation = computation(&link.to)?;
    let mut given = BTreeMap::new();
    for (name, text) in &link.query {
        match input(computation, name, text, book, roster)? {
            Some(value) => given.insert(plain_words(&name.value), value),
            // The refrigerant could not be built; that has been told where it is described.
            None => return Ok(None),
        };
    }
    let worked = reckon(computation, &given, around, link.at)?;
    let written = witness(&link.text, &worked, None)?;
    Ok(Some(StepProof { name: computation.answer_name().to_owned(), worked, written }))
}

/// The computation an author names.
pub(super) fn computation(name: &Spot<String>) -> Result<&'static Computation, Box<Finding>> {
    trade::find(&name.value).ok_or_else(|| {
        Box::new(
            Finding::error("computation-not-known", name.at, format!("there is no computation `{}`", name.value))
                .instead(trade::nearest(&name.value).map_or_else(
                    || "`coldpress reckon --list` names all there are".to_owned(),
                    |near| format!("the nearest is `{near}`; `coldpress reckon --list` names all there are"),
                )),
        )
    })
}

/// What the author gives for the input `name` of `computation`. None where it is a refrigerant that is described in the
/// handbook and could not be built.
pub(super) fn input(
    computation: &'static Computation,
    name: &Spot<String>,
    text: &Spot<String>,
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
) -> Result<Option<Given>, Box<Finding>> {
    match wanted(computation, &name.value).ok_or_else(|| Box::new(not_an_input(computation, name)))? {
        InputKind::Refrigerant => refrigerant(text, book, roster).map(|found| found.cloned().map(Given::Refrigerant)),
        InputKind::Quantity(kind) => {
            let written = read(&text.value, Some(kind))
                .map_err(|error| Box::new(Finding::error("figure-not-read", text.at, error.to_string())))?;
            Ok(Some(Given::Written(written)))
        }
    }
}

/// What `computation` wants of the input `name`. None where it has no such input.
pub(super) fn wanted(computation: &Computation, name: &str) -> Option<InputKind> {
    // Every computation reads its gauges against the air, whether or not it lists the altitude.
    let altitude = || (plain_words(name) == ALTITUDE).then_some(InputKind::Quantity(Kind::Length));
    computation.input(name).map(|input| input.kind).or_else(altitude)
}

/// `input-not-known`: an input that the computation does not take.
pub(super) fn not_an_input(computation: &Computation, name: &Spot<String>) -> Finding {
    let names: Vec<&str> = computation.inputs().iter().map(|input| input.name).collect();
    let typed = plain_words(&name.value);
    let finding = Finding::error("input-not-known", name.at, format!("`{}` takes no `{typed}`", computation.name));
    match nearest(&name.value, names.iter().copied()) {
        Some(near) => finding.instead(format!("the nearest is `{near}`")),
        None => finding.instead(format!("it takes `{}`", names.join("`, `"))),
    }
}

/// The refrigerant an author names. None where it is described in the handbook and could not be built.
pub(super) fn refrigerant<'a>(
    name: &Spot<String>,
    book: &Handbook,
    roster: &'a BTreeMap<String, Refrigerant>,
) -> Result<Option<&'a Refrigerant>, Box<Finding>> {
    match roster.get(&name.value) {
        Some(found) => Ok(Some(found)),
        None if book.refrigerants.contains_key(&name.value) => Ok(None),
        None => {
            let known = book.refrigerants.keys().map(String::as_str);
            let finding = Finding::error("dead-link", name.at, format!("there is no refrigerant `{}`", name.value));
            Err(Box::new(finding.instead(nearest(&name.value, known).map_or_else(
                || "describe it in a file of its own under `refrigerants/`".to_owned(),
                |near| format!("the nearest is `{near}`"),
            ))))
        }
    }
}

/// Does the sum, or says at `at` why it can't be done.
pub(super) fn reckon(
    computation: &'static Computation,
    given: &BTreeMap<String, Given>,
    around: &Surroundings,
    at: Span,
) -> Result<Worked, Box<Finding>> {
    trade::reckon(computation, given, around)
        .map_err(|error| Box::new(Finding::error("figure-not-worked", at, error.to_string())))
}
