//! One entry of the catalogue: what it is called, what it is for, what it is given, its formula, where that comes from,
//! and one figure worked with it.

use std::sync::Arc;

use super::expression::{Condition, Constant, Expr, Function, Node, Showing, Step};
use super::input::{Input, altitude};
use crate::fluid;
use crate::quantity::{Kind, Reference, System, Unit};

/// An entry of the catalogue.
#[derive(Debug)]
pub struct Computation {
    /// The name by which it is called: `dew-temperature`.
    pub name: &'static str,
    /// Its heading: `Dew temperature`.
    pub title: &'static str,
    /// What it is for, in a sentence or two.
    pub purpose: &'static str,
    /// Under what it stands in the reference.
    pub group: Group,
    /// What it is given.
    pub(super) inputs: Vec<Input>,
    /// What it gives.
    pub answer: Answer,
    /// What is refused, and what is said beside the answer.
    pub cautions: Vec<Caution>,
    /// Where the formula comes from.
    pub source: Source,
    /// A figure worked with it, checked by a test.
    pub worked: WorkedFigure,
}

/// What a computation gives.
#[derive(Debug)]
pub struct Answer {
    /// In plain words.
    pub name: &'static str,
    /// As it stands in the formula.
    pub symbol: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// The units and decimals it is shown in where nothing else is asked.
    pub showing: Showing,
    pub(super) formula: Expr,
}

/// Something to refuse, or to say beside the answer.
#[derive(Debug)]
pub struct Caution {
    /// When it applies.
    pub(super) when: Condition,
    /// Whether the answer is refused, or given with this said.
    pub refuses: bool,
    /// What is said.
    pub says: &'static str,
}

/// Where a formula comes from.
#[derive(Clone, Copy, Debug)]
pub struct Source {
    /// How firm it is.
    pub mark: Mark,
    /// The document, edition and place, or the law.
    pub text: &'static str,
}

/// How firm a source is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Deserialize)]
pub enum Mark {
    /// A document that was read.
    #[serde(rename = "standard")]
    Standard,
    /// A law of physics.
    #[serde(rename = "physics")]
    Physics,
    /// Used in the trade; no primary source was found.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Not checked against a document.
    #[serde(rename = "from memory")]
    FromMemory,
}

impl Mark {
    /// As it is printed.
    pub const fn text(self) -> &'static str {
        match self {
            Self::Standard => "Standard",
            Self::Physics => "Physics",
            Self::CommonPractice => "Common practice, no source",
            Self::FromMemory => "From memory, not checked against a document",
        }
    }
}

/// Inputs and the figure they give.
#[derive(Clone, Copy, Debug)]
pub struct WorkedFigure {
    /// Names and figures as an author would write them.
    pub given: &'static [(&'static str, &'static str)],
    /// The answer, to the digits that are checked.
    pub answer: &'static str,
}

/// Where a computation stands in the reference.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Group {
    /// Pressures, and the air.
    Pressure,
    /// Boiling and condensing, superheat and subcooling.
    Saturation,
    /// Density, enthalpy, entropy and heat capacity of refrigerants.
    Properties,
    /// The forces on the valve.
    ValveBalance,
    /// What the valve passes, and the cycle it feeds.
    Capacity,
    /// Charging.
    Charging,
    /// Air over the coil, and its moisture.
    Air,
    /// Tightness, and drawing a vacuum.
    Tightness,
    /// Tubes.
    Lines,
    /// What the law and the safety standards limit.
    Limits,
    /// Joints.
    Joints,
    /// Sensors.
    Sensors,
    /// The system as a whole.
    System,
}

impl Group {
    /// As a heading.
    pub const fn title(self) -> &'static str {
        match self {
            Self::Pressure => "Pressure and the air",
            Self::Saturation => "Boiling and condensing",
            Self::Properties => "Properties of refrigerants",
            Self::ValveBalance => "Forces on the valve",
            Self::Capacity => "Valve capacity and the cycle",
            Self::Charging => "Charging",
            Self::Air => "Air over the coil",
            Self::Tightness => "Tightness and vacuum",
            Self::Lines => "Lines",
            Self::Limits => "Charge limits, cylinders and leaks",
            Self::Joints => "Joints",
            Self::Sensors => "Sensors",
            Self::System => "The whole system",
        }
    }
}

/// A computation in the making; each entry of the catalogue is written as one chain of these.
pub(super) struct Draft {
    name: &'static str,
    title: &'static str,
    group: Group,
    purpose: &'static str,
    inputs: Vec<Input>,
    cautions: Vec<Caution>,
    source: Source,
    worked: WorkedFigure,
}

/// Begins an entry.
pub(super) fn entry(name: &'static str, title: &'static str, group: Group) -> Draft {
    Draft {
        name,
        title,
        group,
        purpose: "",
        inputs: Vec::new(),
        cautions: Vec::new(),
        source: Source { mark: Mark::Physics, text: "" },
        worked: WorkedFigure { given: &[], answer: "" },
    }
}

impl Draft {
    /// What it is for.
    pub(super) fn purpose(self, purpose: &'static str) -> Self {
        Self { purpose, ..self }
    }

    /// What it is given, in the order it is asked for.
    pub(super) fn inputs<'a>(self, inputs: impl IntoIterator<Item = &'a Input>) -> Self {
        Self { inputs: inputs.into_iter().cloned().collect(), ..self }
    }

    /// Says `says` beside the answer where `when` holds.
    pub(super) fn flag(mut self, when: Condition, says: &'static str) -> Self {
        self.cautions.push(Caution { when, refuses: false, says });
        self
    }

    /// Refuses, with `says`, where `when` holds.
    pub(super) fn refuse(mut self, when: Condition, says: &'static str) -> Self {
        self.cautions.push(Caution { when, refuses: true, says });
        self
    }

    /// Where the formula comes from.
    pub(super) fn source(self, mark: Mark, text: &'static str) -> Self {
        Self { source: Source { mark, text }, ..self }
    }

    /// A figure worked with it.
    pub(super) fn worked(self, given: &'static [(&'static str, &'static str)], answer: &'static str) -> Self {
        Self { worked: WorkedFigure { given, answer }, ..self }
    }

    /// What it gives, shown in the usual units of its kind.
    pub(super) fn answer(self, name: &'static str, symbol: &'static str, kind: Kind, formula: Expr) -> Computation {
        let shown = |system| (kind.unit_in(system), kind.decimals_in(system));
        self.answer_in(name, symbol, kind, shown(System::Us), shown(System::Si), formula)
    }

    /// What it gives, shown in units of its own.
    pub(super) fn answer_in(
        self,
        name: &'static str,
        symbol: &'static str,
        kind: Kind,
        us: (&'static Unit, u8),
        si: (&'static Unit, u8),
        formula: Expr,
    ) -> Computation {
        let mut computation = Computation {
            name: self.name,
            title: self.title,
            purpose: self.purpose,
            group: self.group,
            inputs: self.inputs,
            answer: Answer { name, symbol, kind, showing: Showing { us, si }, formula },
            cautions: self.cautions,
            source: self.source,
            worked: self.worked,
        };
        if computation.depends_on_air() && !computation.inputs.iter().any(|input| input.name == "altitude") {
            computation.inputs.push(altitude());
        }
        computation
    }
}

impl Computation {
    /// Whether the air around the instruments can change the answer: a gauge is read or shown, or the formula asks
    /// for the air itself.
    pub fn depends_on_air(&self) -> bool {
        let gauge_shown =
            [self.answer.showing.us.0, self.answer.showing.si.0].iter().any(|unit| unit.reference != Reference::Fixed);
        gauge_shown
            || self.inputs.iter().any(|input| input.quantity_kind() == Some(Kind::Pressure))
            || self.uses(&|expr| matches!(expr.node(), Node::Air))
    }

    /// What the answer is counted from, as a sentence without its stop, where that is a matter of agreement: an enthalpy or
    /// entropy itself, not a difference of two.
    pub fn zero(&self, reference: fluid::Reference) -> Option<String> {
        let Node::Property(property, ..) = self.answer.formula.node() else { return None };
        property.has_zero().then(|| format!("Enthalpy and entropy are counted from {}", reference.told()))
    }

    /// Whether any part of the formula or of the cautions answers to `is`.
    pub(super) fn uses(&self, is: &dyn Fn(&Expr) -> bool) -> bool {
        let mut found = false;
        self.walk(&mut |expr| found |= is(expr));
        found
    }

    /// Walks the formula and the cautions, parts before wholes.
    pub(super) fn walk<'a>(&'a self, visit: &mut dyn FnMut(&'a Expr)) {
        self.answer.formula.walk(visit);
        for caution in &self.cautions {
            caution.when.left.walk(visit);
            caution.when.right.walk(visit);
        }
    }

    /// The named intermediate quantities of the formula, each after those it needs.
    pub fn steps(&self) -> Vec<&Step> {
        let mut steps: Vec<&Step> = Vec::new();
        self.answer.formula.walk(&mut |expr| {
            if let Node::Step(step) = expr.node()
                && !steps.iter().any(|known| std::ptr::eq(*known, Arc::as_ptr(step)))
            {
                steps.push(step);
            }
        });
        steps
    }

    /// The functions the formula makes use of, each after those it needs.
    pub fn functions(&self) -> Vec<&Function> {
        let mut functions: Vec<&Function> = Vec::new();
        self.answer.formula.walk(&mut |expr| {
            if let Node::Apply(function, _) = expr.node()
                && !functions.iter().any(|known| std::ptr::eq(*known, Arc::as_ptr(function)))
            {
                functions.push(function);
            }
        });
        functions
    }

    /// The quantities that belong to the formula and are shown by a letter, or whose origin is told.
    pub fn constants(&self) -> Vec<&Constant> {
        let mut constants: Vec<&Constant> = Vec::new();
        self.answer.formula.walk(&mut |expr| {
            if let Node::Constant(constant) = expr.node()
                && !constant.about.is_empty()
                && !constants.iter().any(|known| known.about == constant.about && known.written == constant.written)
            {
                constants.push(constant);
            }
        });
        constants
    }

    /// The input that answers to `name`; case, hyphens, underscores and spaces are all alike.
    pub fn input(&self, name: &str) -> Option<&Input> {
        self.inputs.iter().find(|input| input.answers_to(name))
    }

    /// What it is given, in the order it is asked for.
    pub fn inputs(&self) -> &[Input] {
        &self.inputs
    }

    /// Whether the refrigerant it is given, and no range of its own, bounds `input`: a pressure or a temperature at which
    /// properties are looked up.
    pub fn bounded_by_refrigerant(&self, input: &Input) -> bool {
        input.range.is_none() && input.quantity_kind().is_some()
    }

    /// Its worked figure as it is asked for at a shell: `coldpress reckon superheat refrigerant=R-410A …`.
    pub fn shell_example(&self) -> String {
        let given = self.worked.given.iter().map(|(name, value)| {
            let pair = format!("{name}={value}");
            // A quote is at home in an inch: 7/8".
            if pair.contains(' ') || pair.contains('"') { format!("\"{}\"", pair.replace('"', "\\\"")) } else { pair }
        });
        std::iter::once(format!("coldpress reckon {}", self.name)).chain(given).collect::<Vec<_>>().join(" ")
    }

    /// What it gives, in plain words: `superheat`.
    pub fn answer_name(&self) -> &'static str {
        self.answer.name
    }
}
