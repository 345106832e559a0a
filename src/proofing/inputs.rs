//! What an author gives a computation, line by line: figures and refrigerants by the names of the inputs.

use super::GivenProof;
use super::figure::{input, not_an_input, wanted};
use super::ladder::Ladder;
use crate::fluid::Refrigerant;
use crate::handbook::{Finding, GivenLine, Handbook, Spot, Supplied, Supply};
use crate::quantity::plain_words;
use crate::trade::{Computation, Given, InputKind};
use std::collections::BTreeMap;

/// What is needed to read inputs.
#[derive(Clone, Copy)]
pub(super) struct Bench<'a> {
    pub(super) book: &'a Handbook,
    pub(super) roster: &'a BTreeMap<String, Refrigerant>,
}

/// An input with one figure or name, ready to be reckoned with and to be shown.
#[derive(Clone, Debug)]
pub(super) struct Ready {
    pub(super) given: Given,
    pub(super) shown: GivenProof,
}

/// An input with all it may be.
#[derive(Clone, Debug)]
pub(super) enum Several {
    /// Each of these.
    Each(Vec<Ready>),
    /// Each of the steps.
    Steps(Ladder),
}

impl Bench<'_> {
    /// One line. None where it names a refrigerant that could not be built, which has been told.
    pub(super) fn one(
        self,
        c: &'static Computation,
        name: &Spot<String>,
        text: &Spot<String>,
    ) -> Result<Option<Ready>, Box<Finding>> {
        let given = input(c, name, text, self.book, self.roster)?;
        Ok(given.map(|given| {
            let shown = match &given {
                Given::Written(written) => GivenProof::Figure(written.clone()),
                Given::Refrigerant(_) | Given::Value(_) => GivenProof::Refrigerant(text.value.clone()),
            };
            Ready { given, shown }
        }))
    }

    /// Every line of a mapping, by plain name. None where one of them could not be had, which has been told.
    pub(super) fn lines(
        self,
        c: &'static Computation,
        lines: &[GivenLine],
    ) -> Result<Option<Vec<(String, Ready)>>, Box<Finding>> {
        let mut ready = Vec::with_capacity(lines.len());
        for line in lines {
            match self.one(c, &line.name, &line.value)? {
                Some(one) => ready.push((plain_words(&line.name.value), one)),
                None => return Ok(None),
            }
        }
        Ok(Some(ready))
    }

    /// All that an input may be, as one of `c`. None where a refrigerant could not be built, which has been told.
    pub(super) fn several(self, c: &'static Computation, supplied: &Supplied) -> Result<Option<Several>, Box<Finding>> {
        match &supplied.supply {
            Supply::One(text) => Ok(self.one(c, &supplied.name, text)?.map(|one| Several::Each(vec![one]))),
            Supply::Choice(texts) => {
                let mut each = Vec::with_capacity(texts.len());
                for text in texts {
                    match self.one(c, &supplied.name, text)? {
                        Some(one) => each.push(one),
                        None => return Ok(None),
                    }
                }
                if each.is_empty() {
                    let finding = Finding::error(
                        "figure-not-read",
                        supplied.name.at,
                        format!("`{}` has nothing to choose from", supplied.name.value),
                    );
                    return Err(Box::new(finding));
                }
                Ok(Some(Several::Each(each)))
            }
            Supply::Stretch(text) => match wanted(c, &supplied.name.value) {
                Some(InputKind::Quantity(kind)) => Ladder::read(text, kind).map(|steps| Some(Several::Steps(steps))),
                Some(InputKind::Refrigerant) => {
                    Ok(self.one(c, &supplied.name, text)?.map(|one| Several::Each(vec![one])))
                }
                None => Err(Box::new(not_an_input(c, &supplied.name))),
            },
        }
    }
}
