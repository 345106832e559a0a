//! How a formula is laid out on paper, before it is decided whether that is MathML or plain text: in letters, or with
//! numbers put in.
//!
//! Takes an expression and what stands for each of its quantities; gives a [`Layout`]. [`super::mathml`],
//! [`super::inline`] and [`super::plain`] write it out; each puts in the parentheses that it needs.

use super::dimensions::scale_of;
use super::expression::{Condition, Constant, Expr, Node, Relation, Solve, Step};
use super::input::Input;
use crate::quantity::{Kind, Pressure, Scale, System, Unit, number_text, unit};

/// A formula as it is set.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Layout {
    /// A letter with its subscript: `T_line`.
    Symbol(&'static str),
    /// A pure number.
    Number(String),
    /// A number with a power of ten: digits and exponent.
    Scientific(String, i32),
    /// A number and its unit.
    Quantity(String, &'static str),
    /// A unit alone.
    Unit(&'static str),
    /// The number of a unit that a quantity is.
    Count(Box<Layout>, &'static str),
    /// A name in words.
    Word(String),
    /// Terms; true for one that is taken away.
    Sum(Vec<(bool, Layout)>),
    Product(Vec<Layout>),
    Fraction(Box<Layout>, Box<Layout>),
    Negative(Box<Layout>),
    Power(Box<Layout>, Box<Layout>),
    Root(Box<Layout>),
    Magnitude(Box<Layout>),
    /// A function or look-up, by its letter, and what it is asked at.
    Call(&'static str, Vec<Layout>),
    /// Alternatives, each with when it is taken.
    Cases(Vec<(Layout, When)>),
    /// Things set equal, one after the other.
    Equation(Vec<Layout>),
    /// A figure that is known in the page only.
    Hole(Hole),
}

/// A figure that is known in the page only: the script that gives it, and whether it is a pure number.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Hole {
    pub(super) script: String,
    pub(super) pure: bool,
}

/// When an alternative is taken.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum When {
    Compared(Layout, &'static str, Layout),
    Given(&'static str),
    Otherwise,
}

/// What stands for each quantity of a formula.
pub(super) trait Figures {
    /// A given quantity; `absolute` where a temperature must stand on its absolute scale.
    fn input(&self, input: &Input, absolute: bool) -> Layout;
    /// The pressure of the air.
    fn air(&self) -> Layout;
    /// A named step.
    fn step(&self, step: &Step, absolute: bool) -> Layout;
    /// The unknown that a search found.
    fn found(&self, expr: &Expr, solve: &Solve, absolute: bool) -> Layout;
    /// A quantity of the formula itself.
    fn constant(&self, constant: &Constant, absolute: bool) -> Layout;
    /// How many of a unit a quantity is.
    fn count(&self, of: &Expr, unit: &'static Unit) -> Layout;
    /// The refrigerant a look-up asks, where it is named.
    fn fluid(&self, input: &Input) -> Option<Layout>;
    /// Whether a condition holds, where that is known.
    fn holds(&self, condition: &Condition) -> Option<bool>;
    /// Whether an optional input was given, where that is known.
    fn given(&self, input: &Input) -> Option<bool>;
}

/// Lays out `expr`. `absolute` where it is multiplied, divided or raised to a power, so that a temperature in it must
/// be counted from absolute zero.
pub(super) fn lay(expr: &Expr, figures: &dyn Figures, absolute: bool) -> Layout {
    let as_it_is = |expr: &Expr| lay(expr, figures, absolute);
    let factor = |expr: &Expr| lay(expr, figures, true);
    match expr.node() {
        Node::Input(input) => figures.input(input, absolute),
        Node::Air => figures.air(),
        Node::Step(step) => figures.step(step, absolute),
        Node::Bound(variable) => Layout::Symbol(variable.symbol),
        Node::Number(number) => number_layout(*number),
        Node::Constant(constant) => figures.constant(constant, absolute),
        Node::Sum(a, b) => {
            let mut terms = terms(as_it_is(a));
            terms.extend(terms_of(as_it_is(b), false));
            Layout::Sum(terms)
        }
        Node::Difference(a, b) => {
            // The difference of two readings is the same on either scale: they stand as they were read.
            let read = scale_of(a) == Some(Scale::Point) && scale_of(b) == Some(Scale::Point);
            let side = |expr: &Expr| lay(expr, figures, absolute && !read);
            let mut terms = terms(side(a));
            terms.push((true, side(b)));
            Layout::Sum(terms)
        }
        Node::Product(a, b) => {
            let mut factors = factors(factor(a));
            factors.extend(self::factors(factor(b)));
            Layout::Product(factors)
        }
        Node::Quotient(a, b) => Layout::Fraction(Box::new(factor(a)), Box::new(factor(b))),
        Node::Negative(a) => Layout::Negative(Box::new(as_it_is(a))),
        Node::Power(a, exponent) => Layout::Power(Box::new(factor(a)), Box::new(number_layout(*exponent))),
        Node::RaisedTo(a, b) => Layout::Power(Box::new(factor(a)), Box::new(factor(b))),
        Node::Root(a) => Layout::Root(Box::new(factor(a))),
        Node::Log(a) => Layout::Call("ln", vec![factor(a)]),
        Node::Exponential(a) => Layout::Call("exp", vec![factor(a)]),
        Node::Magnitude(a) => Layout::Magnitude(Box::new(as_it_is(a))),
        Node::Least(a, b) => Layout::Call("min", vec![as_it_is(a), as_it_is(b)]),
        Node::Choice(condition, then, otherwise) => match figures.holds(condition) {
            Some(true) => as_it_is(then),
            Some(false) => as_it_is(otherwise),
            None => cases(as_it_is(then), compared(condition, figures), as_it_is(otherwise)),
        },
        Node::IfGiven(input, then, otherwise) => match figures.given(input) {
            Some(true) => as_it_is(then),
            Some(false) => as_it_is(otherwise),
            None => cases(as_it_is(then), When::Given(input.name), as_it_is(otherwise)),
        },
        Node::NumberOf(a, unit) => figures.count(a, unit),
        Node::OfUnit(a, unit) => {
            let mut factors = factors(factor(a));
            factors.push(Layout::Unit(unit.symbol));
            Layout::Product(factors)
        }
        Node::Property(property, fluid, at) => {
            let asked = at.iter().map(|at| lay(at, figures, false));
            Layout::Call(property.signature().symbol, figures.fluid(fluid).into_iter().chain(asked).collect())
        }
        Node::Apply(function, at) => Layout::Call(function.symbol, vec![lay(at, figures, false)]),
        Node::Solve(solve) => figures.found(expr, solve, absolute),
    }
}

pub(super) fn compared(condition: &Condition, figures: &dyn Figures) -> When {
    let sign = match condition.relation {
        Relation::Below => "<",
        Relation::AtLeast => "≥",
        Relation::Above => ">",
    };
    When::Compared(lay(&condition.left, figures, false), sign, lay(&condition.right, figures, false))
}

/// Alternatives within alternatives stand in one list.
fn cases(then: Layout, when: When, otherwise: Layout) -> Layout {
    let mut all = vec![(then, when)];
    match otherwise {
        Layout::Cases(more) => all.extend(more),
        other => all.push((other, When::Otherwise)),
    }
    Layout::Cases(all)
}

fn terms(layout: Layout) -> Vec<(bool, Layout)> {
    match layout {
        Layout::Sum(terms) => terms,
        other => terms_of(other, false),
    }
}

fn terms_of(layout: Layout, taken_away: bool) -> Vec<(bool, Layout)> {
    match layout {
        // A difference that is added keeps its parentheses: 1 °F + (40 °F − 39 °F).
        Layout::Sum(terms) if !taken_away && terms.iter().all(|(taken_away, _)| !taken_away) => terms,
        Layout::Negative(inner) => vec![(!taken_away, *inner)],
        other => vec![(taken_away, other)],
    }
}

fn factors(layout: Layout) -> Vec<Layout> {
    match layout {
        Layout::Product(factors) => factors,
        other => vec![other],
    }
}

/// A pure number with all the digits it was written with; very large and very small ones with a power of ten.
pub(super) fn number_layout(number: f64) -> Layout {
    if number == std::f64::consts::PI {
        return Layout::Symbol("π");
    }
    let size = number.abs();
    let digits = format!("{number:e}");
    match digits.split_once('e') {
        Some((digits, exponent)) if size != 0.0 && !(1e-3..1e6).contains(&size) => power_of_ten(digits, exponent),
        _ => Layout::Number(format!("{number}").replace('-', "−")),
    }
}

/// A number to five digits, with a power of ten.
pub(super) fn scientific(number: f64) -> Layout {
    let text = format!("{number:.4e}");
    match text.split_once('e') {
        Some((digits, exponent)) => power_of_ten(digits.trim_end_matches('0').trim_end_matches('.'), exponent),
        None => Layout::Number(text),
    }
}

fn power_of_ten(digits: &str, exponent: &str) -> Layout {
    Layout::Scientific(digits.replace('-', "−"), exponent.parse().unwrap_or_default())
}

/// Letters for every quantity: the formula itself. Quantities that belong to it stand in the units of one system.
pub(super) struct Letters(pub(super) System);

impl Figures for Letters {
    fn input(&self, input: &Input, _: bool) -> Layout {
        Layout::Symbol(input.symbol)
    }
    fn air(&self) -> Layout {
        Layout::Symbol("p_air")
    }
    fn step(&self, step: &Step, _: bool) -> Layout {
        Layout::Symbol(step.symbol)
    }
    fn found(&self, _: &Expr, solve: &Solve, _: bool) -> Layout {
        Layout::Symbol(solve.unknown.symbol)
    }
    fn constant(&self, constant: &Constant, absolute: bool) -> Layout {
        match constant.symbol {
            Some(symbol) => Layout::Symbol(symbol),
            None => constant_quantity(constant, self.0, absolute),
        }
    }
    fn count(&self, of: &Expr, unit: &'static Unit) -> Layout {
        Layout::Count(Box::new(lay(of, self, false)), unit.symbol)
    }
    fn fluid(&self, input: &Input) -> Option<Layout> {
        (input.name != "refrigerant").then(|| Layout::Word(input.name.to_owned()))
    }
    fn holds(&self, _: &Condition) -> Option<bool> {
        None
    }
    fn given(&self, _: &Input) -> Option<bool> {
        None
    }
}

/// A quantity of the formula as a number and a unit of `system`.
pub(super) fn constant_quantity(constant: &Constant, system: System, absolute: bool) -> Layout {
    let (written, air) = (&constant.written, Pressure::STANDARD_ATMOSPHERE);
    if absolute && written.unit.kind == Kind::Temperature {
        let unit = absolute_temperature(system);
        let number = unit.from_si(written.unit.to_si(written.number, air), air);
        return Layout::Quantity(number_text(number, 2), unit.symbol);
    }
    Layout::quantity(written.number_in(system, air), written.unit.in_system(system))
}

impl Layout {
    /// A number and its unit; a pure number alone.
    pub(super) fn quantity(number: String, unit: &'static Unit) -> Self {
        if unit.symbol.is_empty() { Self::Number(number) } else { Self::Quantity(number, unit.symbol) }
    }
}

/// The unit in which a temperature stands where it is multiplied or divided.
pub(super) fn absolute_temperature(system: System) -> &'static Unit {
    match system {
        System::Us => &unit::RANKINE,
        System::Si => &unit::KELVIN,
    }
}
