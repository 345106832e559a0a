//! Worked examples: every step is reckoned from what is given and found above it, and witnessed by its answer.
//! `given-not-used`: something is given that no step uses.
//!
//! Trips: a `subcooling` step where only the suction pressure is given. Mended: `liquid pressure` given too.

use super::figure::{self, computation};
use super::inputs::Bench;
use super::step::{Gathered, Known, gather, lacking};
use super::witness::witness;
use super::{ExampleProof, GivenProof, StepProof};
use crate::fluid::Refrigerant;
use crate::handbook::{BlockKind, Example, ExampleStep, Finding, GivenLine, Handbook, Span, Spot};
use crate::quantity::{plain_words, read};
use crate::trade::{Given, InputKind, Surroundings};
use std::collections::BTreeMap;

/// Reckons every worked example of the handbook.
pub(super) fn examine(
    book: &Handbook,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    findings: &mut Vec<Finding>,
) -> BTreeMap<Span, ExampleProof> {
    let mut examples = BTreeMap::new();
    for block in book.lessons.values().flat_map(|lesson| &lesson.blocks) {
        if let BlockKind::Example(example) = &block.kind {
            let mut sheet = Sheet { book, roster, around, findings, known: Known::new(), complete: true };
            let proof = sheet.work(example);
            if sheet.complete {
                examples.insert(block.at, proof);
            }
        }
    }
    examples
}

/// An example being worked.
struct Sheet<'a> {
    book: &'a Handbook,
    roster: &'a BTreeMap<String, Refrigerant>,
    around: &'a Surroundings,
    findings: &'a mut Vec<Finding>,
    /// What is given or found so far, by plain name.
    known: Known,
    complete: bool,
}

impl Sheet<'_> {
    fn work(&mut self, example: &Example) -> ExampleProof {
        let given = example.given.iter().filter_map(|line| self.given(line, example)).collect();
        let mut steps = Vec::with_capacity(example.steps.len());
        for step in &example.steps {
            match self.step(step, example) {
                Ok(Some(proof)) => {
                    self.known.insert(plain_words(&proof.name), Given::Value(proof.worked.answer));
                    steps.push(proof);
                }
                // Told already; what depends on it would only be told again.
                Ok(None) => self.complete = false,
                Err(finding) => {
                    self.findings.push(*finding);
                    self.complete = false;
                }
            }
        }
        ExampleProof { given, steps }
    }

    /// Reads a line of what is given, as the kind of quantity that the steps want of it.
    fn given(&mut self, line: &GivenLine, example: &Example) -> Option<GivenProof> {
        let name = plain_words(&line.name.value);
        let kind = match wanted(&name, example) {
            Some(InputKind::Refrigerant) => {
                return match figure::refrigerant(&line.value, self.book, self.roster) {
                    Ok(Some(refrigerant)) => {
                        self.known.insert(name, Given::Refrigerant(refrigerant.clone()));
                        Some(GivenProof::Refrigerant(line.value.value.clone()))
                    }
                    Ok(None) => {
                        self.complete = false;
                        None
                    }
                    Err(finding) => self.fail(*finding),
                };
            }
            Some(InputKind::Quantity(kind)) => Some(kind),
            None => {
                self.findings.push(
                    Finding::warning(
                        "given-not-used",
                        line.name.at,
                        format!("`{}` is given and no step uses it", line.name.value),
                    )
                    .instead("name it as the step's input is named, or put it under the step's `of:`"),
                );
                None
            }
        };
        match read(&line.value.value, kind) {
            Ok(written) => {
                self.known.insert(name, Given::Written(written.clone()));
                Some(GivenProof::Figure(written))
            }
            Err(error) => self.fail(Finding::error("figure-not-read", line.value.at, error.to_string())),
        }
    }

    fn fail(&mut self, finding: Finding) -> Option<GivenProof> {
        self.findings.push(finding);
        self.complete = false;
        None
    }

    fn step(&self, step: &ExampleStep, example: &Example) -> Result<Option<StepProof>, Box<Finding>> {
        let computation = computation(&step.find)?;
        let bench = Bench { book: self.book, roster: self.roster };
        let inputs = match gather(bench, computation, &step.find, &step.of, &self.known)? {
            Gathered::Ready(inputs) => inputs,
            Gathered::Told => return Ok(None),
            Gathered::Lacks { from, .. } if self.named_in(example, &from) => return Ok(None),
            Gathered::Lacks { input, from } => return Err(Box::new(lacking(&step.find, &input, &from, &self.known))),
        };
        let worked = figure::reckon(computation, &inputs, self.around, step.find.at)?;
        let written = witness(&step.answer, &worked, step.within.as_ref())?;
        let name = step.named.as_ref().map_or_else(|| computation.answer_name().to_owned(), |n| n.value.clone());
        Ok(Some(StepProof { name, worked, written }))
    }

    /// Whether the example names `name` somewhere, so that its lack has been told already.
    fn named_in(&self, example: &Example, name: &Spot<String>) -> bool {
        let name = plain_words(&name.value);
        let earlier = example.steps.iter().any(|step| result_name(step) == Some(name.clone()));
        earlier || example.given.iter().any(|line| plain_words(&line.name.value) == name)
    }
}

/// What the first step that uses the given `name` wants of it. None where no step uses it.
fn wanted(name: &str, example: &Example) -> Option<InputKind> {
    for step in &example.steps {
        let Some(computation) = crate::trade::find(&step.find.value) else { continue };
        for (input, from) in &step.of {
            if plain_words(&from.value) == name
                && let Some(wanted) = figure::wanted(computation, &input.value)
            {
                return Some(wanted);
            }
        }
        let bound_elsewhere = step.of.iter().any(|(input, _)| plain_words(&input.value) == name);
        if !bound_elsewhere && let Some(wanted) = figure::wanted(computation, name) {
            return Some(wanted);
        }
    }
    None
}

/// The plain name that a step's answer goes by.
fn result_name(step: &ExampleStep) -> Option<String> {
    match &step.named {
        Some(name) => Some(plain_words(&name.value)),
        None => crate::trade::find(&step.find.value).map(|c| plain_words(c.answer_name())),
    }
}
