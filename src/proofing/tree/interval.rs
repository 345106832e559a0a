//! The run of figures that an answer is given for: `below 350 cfm/ton`, `350 to 450 cfm/ton`, `within
//! value:superheat-range`.
//!
//! Takes the text of a `when:`, the quantity wanted and the standing values; gives the interval. The lower bound belongs
//! to it and the upper one does not, so that neighbors meet without a gap and without an overlap.

use crate::fluid::Refrigerant;
use crate::handbook::Handbook;
use crate::proofing::ValueFigure;
use crate::quantity::{Kind, Pressure, System, Written, WrittenRange, nearest, read, read_range};
use crate::trade::Surroundings;
use std::collections::BTreeMap;

/// A bound of an interval.
#[derive(Clone, Debug, PartialEq)]
pub struct Bound {
    /// As written, in an answer or as a standing value.
    pub written: Written,
    /// Its value in the SI unit of its quantity; that of the lowest where bounds of one question meet.
    pub si: f64,
    /// The standing value it was taken from.
    pub value: Option<String>,
}

/// What an answer is given for: from its lower bound, which is included, to its upper one, which is not.
#[derive(Clone, Debug, PartialEq)]
pub struct Interval {
    /// The lower bound; none where it is open downward.
    pub from: Option<Bound>,
    /// The upper bound; none where it is open upward.
    pub to: Option<Bound>,
}

/// What figures are read and worked out with.
#[derive(Clone, Copy, Debug)]
pub(super) struct Figures<'a> {
    pub(super) book: &'a Handbook,
    pub(super) values: &'a BTreeMap<String, ValueFigure>,
    pub(super) air: Pressure,
    /// Refrigerants by designation.
    pub(super) roster: &'a BTreeMap<String, Refrigerant>,
    pub(super) around: &'a Surroundings,
}

/// Why a `when:` is not an interval.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum NotRead {
    /// What is wrong and, where that is known, what would be right.
    Because(String, Option<String>),
    /// It goes by a standing value that could not be read itself; that is a finding of its own.
    ValueNotRead,
}

/// Other ways people begin a bound, and ours.
const SAID_OTHERWISE: [(&str, &str); 14] = [
    ("under ", "below"),
    ("less than ", "below"),
    ("lower than ", "below"),
    ("up to ", "below"),
    ("at most ", "below"),
    ("< ", "below"),
    ("<", "below"),
    ("over ", "above"),
    ("more than ", "above"),
    ("higher than ", "above"),
    ("at least ", "above"),
    ("from ", "above"),
    ("> ", "above"),
    (">", "above"),
];

const VALUE: &str = "value:";

impl Interval {
    /// The interval in words for readers of `system`, a gauge reading being taken where the air stands at `air`:
    /// `below 8 °F`, `8 to 18 °F`, `above 18 °F`.
    pub fn shown_in(&self, system: System, air: Pressure) -> String {
        match (&self.from, &self.to) {
            (None, None) => "any".to_owned(),
            (None, Some(to)) => format!("below {}", to.written.shown_in(system, air)),
            (Some(from), None) => format!("above {}", from.written.shown_in(system, air)),
            (Some(from), Some(to)) => {
                WrittenRange { from: from.written.clone(), to: to.written.clone() }.shown_in(system, air)
            }
        }
    }

    /// Its bounds, the lower one first.
    pub(super) fn bounds(&self) -> impl Iterator<Item = &Bound> {
        self.from.iter().chain(&self.to)
    }

    /// Whether an SI value lies in it.
    pub fn holds(&self, si: f64) -> bool {
        self.from.as_ref().is_none_or(|from| from.si <= si) && self.to.as_ref().is_none_or(|to| si < to.si)
    }
}

impl Bound {
    /// Whether the two are the same place: equal in one unit; in two units, equal to the digits one of them is written
    /// with, as 350 cfm/ton and 47 L/(s·kW) are.
    pub(super) fn meets(&self, other: &Bound, air: Pressure) -> bool {
        let near = |a: f64, b: f64, by: f64| (a - b).abs() <= by;
        if self.written.unit == other.written.unit {
            return near(self.written.number, other.written.number, 1e-9 * self.written.number.abs());
        }
        let reads_as = |one: &Bound, as_written: &Written| {
            let number = as_written.unit.from_si(one.si, air);
            let step = as_written.last_digit().si / as_written.unit.factor;
            near(number, as_written.number, step * (1.0 + 1e-9))
        };
        reads_as(self, &other.written) || reads_as(other, &self.written)
    }
}

impl Figures<'_> {
    /// Reads a `when:` as an interval of `kind`.
    pub(super) fn interval(self, when: &str, kind: Kind) -> Result<Interval, NotRead> {
        let when = when.trim();
        if let Some(bound) = when.strip_prefix("below ") {
            return Ok(Interval { from: None, to: Some(self.bound(bound, kind, Side::Low)?) });
        }
        if let Some(bound) = when.strip_prefix("above ") {
            return Ok(Interval { from: Some(self.bound(bound, kind, Side::High)?), to: None });
        }
        if let Some(range) = when.strip_prefix("within ") {
            let Some(name) = range.trim().strip_prefix(VALUE) else {
                return Err(NotRead::Because(
                    format!("`{when}` goes by no standing value"),
                    Some(format!("`{}`, or `within value:` and the name of a standing value", range.trim())),
                ));
            };
            let from = self.standing(name, kind, Side::Low)?;
            let to = self.standing(name, kind, Side::High)?;
            return match self.values.get(name.trim()) {
                Some(ValueFigure::Range(..)) => Ok(Interval { from: Some(from), to: Some(to) }),
                _ => Err(NotRead::Because(
                    format!("`{}` is one figure, and nothing lies within it", name.trim()),
                    Some(format!("`below value:{0}` and `above value:{0}`", name.trim())),
                )),
            };
        }
        if let Some((low, high)) = when.split_once(" to ").filter(|_| when.contains(VALUE)) {
            let to = self.bound(high, kind, Side::Only)?;
            let from = self.bound(&with_unit_of(low, &to), kind, Side::Only)?;
            return Ok(Interval { from: Some(from), to: Some(to) });
        }
        if when.contains(" to ") || when.contains('–') {
            let range = read_range(when, Some(kind)).map_err(because)?;
            return Ok(Interval { from: Some(self.made(range.from, None)?), to: Some(self.made(range.to, None)?) });
        }
        let lower = when.to_lowercase();
        let otherwise = SAID_OTHERWISE.iter().find_map(|(begins, ours)| {
            lower.strip_prefix(begins).map(|_| format!("`{ours} {}`", when.get(begins.len()..).unwrap_or("").trim()))
        });
        Err(NotRead::Because(
            format!("`{when}` is no run of figures"),
            Some(otherwise.unwrap_or_else(|| {
                let sample = kind.sample();
                format!("`below {sample}` or `above {sample}`, or two figures with `to` between")
            })),
        ))
    }

    fn bound(self, text: &str, kind: Kind, side: Side) -> Result<Bound, NotRead> {
        let text = text.trim();
        match text.strip_prefix(VALUE) {
            Some(name) => self.standing(name, kind, side),
            None => self.made(read(text, Some(kind)).map_err(because)?, None),
        }
    }

    /// The standing value `name`, or that side of it where it is a range.
    fn standing(self, name: &str, kind: Kind, side: Side) -> Result<Bound, NotRead> {
        let name = name.trim();
        let Some(figure) = self.values.get(name) else {
            if self.book.values.contains_key(name) {
                return Err(NotRead::ValueNotRead);
            }
            let meant = nearest(name, self.values.keys().map(String::as_str));
            return Err(NotRead::Because(
                format!("there is no standing value `{name}`"),
                meant.map(|name| format!("`{VALUE}{name}`")),
            ));
        };
        let written = match (figure, side) {
            (ValueFigure::One(written), _) => written,
            (ValueFigure::Range(low, _), Side::Low) => low,
            (ValueFigure::Range(_, high), Side::High) => high,
            (ValueFigure::Range(..), Side::Only) => {
                return Err(NotRead::Because(
                    format!("`{name}` is a range, and one figure is wanted here"),
                    Some(format!("`within {VALUE}{name}`, or the figure itself")),
                ));
            }
            (ValueFigure::Words(words), _) => {
                return Err(NotRead::Because(format!("`{name}` is no figure: `{words}`"), None));
            }
        };
        if written.unit.kind != kind {
            return Err(NotRead::Because(
                format!("`{name}` is of another quantity, {}; {kind} is wanted here", written.unit.kind),
                None,
            ));
        }
        self.made(written.clone(), Some(name.to_owned()))
    }

    fn made(self, written: Written, value: Option<String>) -> Result<Bound, NotRead> {
        let si = written.value(self.air).map_err(because)?.si;
        Ok(Bound { written, si, value })
    }
}

/// Which bound of a range is meant where a range stands for one.
#[derive(Clone, Copy, Debug)]
enum Side {
    Low,
    High,
    /// Neither: it has to be one figure.
    Only,
}

fn because(error: crate::quantity::ReadingError) -> NotRead {
    NotRead::Because(error.to_string().replace('\u{a0}', " "), None)
}

/// A bare number before `to` has the unit of the bound after it.
fn with_unit_of(low: &str, high: &Bound) -> String {
    let bare = low.trim().chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | ',' | '-' | '−'));
    if bare { format!("{low} {}", high.written.unit.symbol) } else { low.to_owned() }
}
