//! What a computation is given.

use super::expression::{Expr, Showing};
use crate::quantity::{Kind, Pressure, System, Unit, Written, plain_words, unit};

/// One input of a computation. Cheap to clone.
#[derive(Clone, Debug)]
pub struct Input {
    /// In plain words, as an author writes it: `suction line temperature`.
    pub name: &'static str,
    /// As it stands in the formula: `T_line`. Empty for a refrigerant.
    pub symbol: &'static str,
    /// What is wanted.
    pub kind: InputKind,
    /// The lowest and highest that is sensible, where there is such a bound; the ends included.
    pub range: Option<(Written, Written)>,
    /// Whether it may be left out, and what is taken then.
    pub need: Need,
    /// The formula means the reading against the air, not the pressure above a vacuum.
    pub gauge: bool,
    /// Where or how it is measured; empty where the name says all.
    pub about: &'static str,
    /// Units it is shown in, where not those of its kind.
    pub showing: Option<Showing>,
}

/// What an input is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum InputKind {
    /// A refrigerant, by its designation.
    Refrigerant,
    /// A figure with a unit.
    Quantity(Kind),
}

/// Whether an input may be left out.
#[derive(Clone, Debug)]
pub enum Need {
    /// It must be given.
    Required,
    /// It may be left out.
    Optional,
    /// It may be left out, and this is taken then.
    Default(Written),
    /// Exactly one of the inputs that share this group is given.
    OneOf(&'static str),
    /// The surroundings say it where it is not given: the altitude.
    FromSurroundings,
}

/// The refrigerant in the system.
pub(super) fn refrigerant() -> Input {
    fluid("refrigerant")
}

/// A refrigerant under a name of its own.
pub(super) fn fluid(name: &'static str) -> Input {
    Input {
        name,
        symbol: "",
        kind: InputKind::Refrigerant,
        range: None,
        need: Need::Required,
        gauge: false,
        about: "",
        showing: None,
    }
}

/// A figure of `kind` that must be given.
pub(super) fn given(name: &'static str, symbol: &'static str, kind: Kind) -> Input {
    Input {
        name,
        symbol,
        kind: InputKind::Quantity(kind),
        range: None,
        need: Need::Required,
        gauge: false,
        about: "",
        showing: None,
    }
}

/// How high above the sea the readings are taken.
pub(super) fn altitude() -> Input {
    Input { need: Need::FromSurroundings, ..given("altitude", "z", Kind::Length) }
        .between(-5000.0, 11_000.0, &unit::METER)
        .about("height above the sea where the readings are taken; a gauge reads against the air there")
        .shown((&unit::FOOT, 0), (&unit::METER, 0))
}

impl Input {
    /// The same, with what it is or where it is measured.
    pub fn about(self, about: &'static str) -> Self {
        Self { about, ..self }
    }

    /// The same, refused outside `low` to `high` of `unit`.
    pub fn between(self, low: f64, high: f64, unit: &'static Unit) -> Self {
        let decimals = |number: f64| {
            (0..6).find(|places| (number * 10f64.powi(*places)).fract() == 0.0).map_or(6, |places| places as u8)
        };
        let end = |number: f64| Written::of(number, decimals(number), unit);
        Self { range: Some((end(low), end(high))), ..self }
    }

    /// The same, optional.
    pub fn optional(self) -> Self {
        Self { need: Need::Optional, ..self }
    }

    /// The same, optional, with what is taken where it is left out.
    pub fn default_to(self, number: f64, decimals: u8, unit: &'static Unit) -> Self {
        Self { need: Need::Default(Written::of(number, decimals, unit)), ..self }
    }

    /// The same, as one of those that share `group`, of which exactly one is given.
    pub fn one_of(self, group: &'static str) -> Self {
        Self { need: Need::OneOf(group), ..self }
    }

    /// The same, meaning the reading against the air.
    pub fn as_gauge(self) -> Self {
        Self { gauge: true, ..self }
    }

    /// The same, shown in units of its own.
    pub fn shown(self, us: (&'static Unit, u8), si: (&'static Unit, u8)) -> Self {
        Self { showing: Some(Showing { us, si }), ..self }
    }

    /// Its kind, where it is a quantity.
    pub fn quantity_kind(&self) -> Option<Kind> {
        match self.kind {
            InputKind::Quantity(kind) => Some(kind),
            InputKind::Refrigerant => None,
        }
    }

    /// It as a part of a formula.
    pub fn expr(&self) -> Expr {
        self.into()
    }

    /// Its letter as MathML Core; empty where it has none.
    pub fn letter(&self) -> String {
        if self.symbol.is_empty() { String::new() } else { super::mathml::letter(self.symbol) }
    }

    /// Whether it must be given.
    pub fn required(&self) -> bool {
        matches!(self.need, Need::Required)
    }

    /// Whether `typed` names it; case, hyphens, underscores and spaces are all alike.
    pub fn answers_to(&self, typed: &str) -> bool {
        plain_words(typed) == plain_words(self.name)
    }

    /// The range it must lie in, for readers of `system`; none where there is none.
    pub fn range_text(&self, system: System, air: Pressure) -> Option<String> {
        self.range.as_ref().map(|(low, high)| {
            let range = crate::quantity::WrittenRange { from: low.clone(), to: high.clone() };
            range.shown_in(system, air)
        })
    }
}
