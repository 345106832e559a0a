//! What a drawing is given, read name by name, and the sums it asks for.

use super::super::ValueFigure;
use super::super::figure::{ALTITUDE, computation, reckon, refrigerant};
use super::super::inputs::Bench;
use super::super::ladder::Ladder;
use crate::handbook::{Drawing, Finding, Span, Spot, Supplied, Supply};
use crate::quantity::{Kind, Pressure, Value, Written, air_at, nearest, plain_words, read};
use crate::trade::{Given, Surroundings, Worked};
use std::cell::RefCell;
use std::collections::BTreeMap;

/// Why a drawing is not made.
#[derive(Debug)]
pub(super) enum Stop {
    /// For something that has been told elsewhere.
    Told,
    /// For this.
    Found(Box<Finding>),
}

impl From<Box<Finding>> for Stop {
    fn from(finding: Box<Finding>) -> Self {
        Self::Found(finding)
    }
}

impl From<Finding> for Stop {
    fn from(finding: Finding) -> Self {
        Self::Found(Box::new(finding))
    }
}

/// A figure that is given: as written, its value, and where it stands.
#[derive(Clone, Debug)]
pub(super) struct Figure {
    pub(super) written: Written,
    pub(super) value: Value,
    pub(super) at: Span,
}

/// What is at hand to reckon one drawing.
pub(super) struct Desk<'a> {
    pub(super) drawing: &'a Drawing,
    bench: Bench<'a>,
    values: &'a BTreeMap<String, ValueFigure>,
    around: Surroundings,
    air: Pressure,
    sources: RefCell<Vec<String>>,
}

impl<'a> Desk<'a> {
    /// The desk for `drawing`, which may be given an altitude of its own.
    pub(super) fn new(
        drawing: &'a Drawing,
        bench: Bench<'a>,
        values: &'a BTreeMap<String, ValueFigure>,
        around: &Surroundings,
    ) -> Result<Self, Stop> {
        let sea_level = Pressure::STANDARD_ATMOSPHERE;
        let mut desk = Self { drawing, bench, values, around: *around, air: sea_level, sources: RefCell::default() };
        let own = desk.given().maybe(ALTITUDE, Kind::Length)?;
        if let Some(own) = &own {
            desk.around = Surroundings { altitude: own.value };
        }
        let at = own.map_or(drawing.kind.at, |own| own.at);
        desk.air =
            air_at(desk.around.altitude).map_err(|error| Finding::error("figure-not-worked", at, error.to_string()))?;
        Ok(desk)
    }

    /// The air that gauges read against.
    pub(super) fn air(&self) -> Pressure {
        self.air
    }

    /// Where what was reckoned or looked up comes from, each source once.
    pub(super) fn sources(&self) -> Vec<String> {
        self.sources.borrow().clone()
    }

    /// Notes where something comes from.
    pub(super) fn cite(&self, source: String) {
        let mut sources = self.sources.borrow_mut();
        if !sources.contains(&source) {
            sources.push(source);
        }
    }

    /// What is given under `given:`.
    pub(super) fn given(&self) -> Lines<'_> {
        Lines { desk: self, of: &self.drawing.given, at: self.drawing.kind.at }
    }

    /// The items of the list `name`, of which there are at least `least` and at most `most`; of no other list is there any.
    pub(super) fn list(&self, name: &str, least: usize, most: usize) -> Result<Vec<Lines<'_>>, Stop> {
        self.no_list_but(name)?;
        let list = self.drawing.lists.iter().find(|list| list.name.value == name);
        let count = list.map_or(0, |list| list.items.len());
        if count < least || count > most {
            let at = list.map_or(self.drawing.kind.at, |list| list.name.at);
            let says = format!("`{}` is drawn from {least} to {most} `{name}`, and {count} stand here", self.kind());
            return Err(Finding::error("drawing-not-read", at, says).into());
        }
        let items = list.into_iter().flat_map(|list| &list.items);
        Ok(items.map(|(at, of)| Lines { desk: self, of, at: *at }).collect())
    }

    /// That there is no list.
    pub(super) fn no_list(&self) -> Result<(), Stop> {
        self.no_list_but("")
    }

    fn no_list_but(&self, name: &str) -> Result<(), Stop> {
        match self.drawing.lists.iter().find(|list| list.name.value != name) {
            Some(other) => {
                let says = format!("`{}` takes no `{}`", self.kind(), other.name.value);
                let finding = Finding::error("drawing-not-read", other.name.at, says);
                Err(if name.is_empty() { finding } else { finding.instead(format!("it takes `{name}:`")) }.into())
            }
            None => Ok(()),
        }
    }

    /// The kind, as the author wrote it.
    pub(super) fn kind(&self) -> &str {
        &self.drawing.kind.value
    }

    /// Does computation `name`; what can't be reckoned is told at `at`.
    pub(super) fn reckon(&self, name: &str, inputs: &[(&str, Given)], at: Span) -> Result<Worked, Stop> {
        let c = computation(&Spot::new(name.to_owned(), at))?;
        let given = inputs.iter().map(|(name, given)| ((*name).to_owned(), given.clone())).collect();
        let worked = reckon(c, &given, &self.around, at)?;
        self.cite(worked.source_text());
        Ok(worked)
    }

    /// The answer of computation `name`.
    pub(super) fn answer(&self, name: &str, inputs: &[(&str, Given)], at: Span) -> Result<Value, Stop> {
        self.reckon(name, inputs, at).map(|worked| worked.answer)
    }
}

/// What was worked out on the way to an answer, by its letter.
pub(super) fn step(worked: &Worked, symbol: &str, at: Span) -> Result<Value, Stop> {
    let step = worked.steps.iter().find(|step| step.symbol == symbol).map(|step| step.value);
    step.ok_or_else(|| {
        let says = format!("`{}` has no `{symbol}` on the way to its answer", worked.computation.name);
        Finding::error("figure-not-worked", at, says).into()
    })
}

/// Names and what is given for them, of one item of a drawing.
pub(super) struct Lines<'a> {
    desk: &'a Desk<'a>,
    of: &'a [Supplied],
    /// Where the item stands.
    pub(super) at: Span,
}

impl Lines<'_> {
    /// That nothing is given but what is named here, and the altitude.
    pub(super) fn only(&self, names: &[&str]) -> Result<(), Stop> {
        let takes = |typed: &str| typed == ALTITUDE || names.iter().any(|name| plain_words(name) == typed);
        let Some(other) = self.of.iter().find(|line| !takes(&plain_words(&line.name.value))) else { return Ok(()) };
        let says = format!("`{}` takes no `{}` here", self.desk.kind(), other.name.value);
        let finding = Finding::error("input-not-known", other.name.at, says);
        Err(match nearest(&other.name.value, names.iter().copied()) {
            Some(near) => finding.instead(format!("the nearest is `{near}`")),
            None => finding.instead(format!("it takes `{}`", names.join("`, `"))),
        }
        .into())
    }

    fn line(&self, name: &str) -> Option<&Supplied> {
        self.of.iter().find(|line| plain_words(&line.name.value) == plain_words(name))
    }

    fn lacks(&self, name: &str, sample: &str) -> Stop {
        Finding::error("drawing-lacks", self.at, format!("`{}` also needs `{name}`", self.desk.kind()))
            .instead(format!("write `{name}: {sample}`"))
            .into()
    }

    /// A single text; none where it is not given.
    pub(super) fn text(&self, name: &str) -> Result<Option<&Spot<String>>, Stop> {
        match self.line(name).map(|line| &line.supply) {
            Some(Supply::One(text)) => Ok(Some(text)),
            Some(Supply::Stretch(text)) => Err(one_wanted(name, text.at)),
            Some(Supply::Choice(texts)) => Err(one_wanted(name, texts.first().map_or(self.at, |text| text.at))),
            None => Ok(None),
        }
    }

    /// A refrigerant, and its designation.
    pub(super) fn refrigerant(&self) -> Result<(Given, &Spot<String>), Stop> {
        let name = self.text("refrigerant")?.ok_or_else(|| self.lacks("refrigerant", "R-410A"))?;
        let found = refrigerant(name, self.desk.bench.book, self.desk.bench.roster)?;
        found.map(|found| (Given::Refrigerant(found.clone()), name)).ok_or(Stop::Told)
    }

    /// A figure; none where it is not given.
    pub(super) fn maybe(&self, name: &str, kind: Kind) -> Result<Option<Figure>, Stop> {
        self.text(name)?.map(|text| self.figure(text, kind)).transpose()
    }

    /// A figure that must be given.
    pub(super) fn need(&self, name: &str, kind: Kind) -> Result<Figure, Stop> {
        self.maybe(name, kind)?.ok_or_else(|| self.lacks(name, kind.sample()))
    }

    /// One or more figures, at most `most`.
    pub(super) fn several(&self, name: &str, kind: Kind, most: usize) -> Result<Vec<Figure>, Stop> {
        match self.line(name).map(|line| &line.supply) {
            Some(Supply::Choice(texts)) if (1..=most).contains(&texts.len()) => {
                texts.iter().map(|text| self.figure(text, kind)).collect()
            }
            Some(Supply::Choice(texts)) => {
                let at = texts.first().map_or(self.at, |text| text.at);
                let says = format!("`{name}` is one to {most} figures, and {} stand here", texts.len());
                Err(Finding::error("drawing-not-read", at, says).into())
            }
            _ => Ok(vec![self.need(name, kind)?]),
        }
    }

    /// Figures in even steps, and where they stand.
    pub(super) fn stretch(&self, name: &str, kind: Kind, sample: &str) -> Result<(Ladder, Span), Stop> {
        match self.line(name).map(|line| &line.supply) {
            Some(Supply::Stretch(text) | Supply::One(text)) => Ok((Ladder::read(text, kind)?, text.at)),
            Some(Supply::Choice(texts)) => Err(one_wanted(name, texts.first().map_or(self.at, |text| text.at))),
            None => Err(self.lacks(name, sample)),
        }
    }

    /// Whether it is asked for with `yes`.
    pub(super) fn asked(&self, name: &str) -> Result<bool, Stop> {
        match self.text(name)? {
            None => Ok(false),
            Some(text) => match text.value.as_str() {
                "yes" | "true" => Ok(true),
                "no" | "false" => Ok(false),
                other => {
                    let says = format!("`{name}` is `yes` or `no`, not `{other}`");
                    Err(Finding::error("drawing-not-read", text.at, says).into())
                }
            },
        }
    }

    /// A standing value's words, where `text` quotes one, or the words themselves.
    pub(super) fn quoted(&self, text: &Spot<String>) -> Result<String, Stop> {
        let Some(name) = text.value.strip_prefix("value:").map(str::trim) else { return Ok(text.value.clone()) };
        match self.desk.bench.book.values.get(name) {
            Some(value) => Ok(value.value.value.clone()),
            None => {
                let finding = Finding::error("dead-link", text.at, format!("there is no standing value `{name}`"));
                let known = self.desk.bench.book.values.keys().map(String::as_str);
                Err(match nearest(name, known) {
                    Some(near) => finding.instead(format!("the nearest is `{near}`")),
                    None => finding.instead("name it in `values.yaml`"),
                }
                .into())
            }
        }
    }

    /// `text` as a figure of `kind`; it may quote a standing value.
    fn figure(&self, text: &Spot<String>, kind: Kind) -> Result<Figure, Stop> {
        let slip = |says: String| Finding::error("figure-not-read", text.at, says);
        let quoted = text.value.strip_prefix("value:").and_then(|name| self.desk.values.get(name.trim()));
        let written = match quoted {
            Some(ValueFigure::One(written)) => written.as_kind(kind).map_err(|error| slip(error.to_string()))?,
            Some(_) => return Err(slip(format!("`{}` is not a single figure", text.value)).into()),
            None => read(&self.quoted(text)?, Some(kind)).map_err(|error| slip(error.to_string()))?,
        };
        let value = written.value(self.desk.air).map_err(|error| slip(error.to_string()))?;
        Ok(Figure { written, value, at: text.at })
    }
}

fn one_wanted(name: &str, at: Span) -> Stop {
    Finding::error("drawing-not-read", at, format!("`{name}` is one figure or name here")).into()
}
