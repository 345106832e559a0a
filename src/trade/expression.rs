//! The expression a formula is written in, once: from it come the value, the mathematics shown, the line with numbers
//! put in, and the arithmetic that forms in the page run.
//!
//! An [`Expr`] is built with ordinary operators out of inputs, constants and property look-ups. It computes nothing by
//! itself and knows no number but those of the formula: what works it out is [`super::evaluation`], what checks its
//! dimensions [`super::dimensions`], what shows it [`super::layout`].

use std::collections::HashSet;
use std::ops::{Add, Div, Mul, Neg, Sub};
use std::sync::Arc;

use super::input::Input;
use super::property::Property;
use crate::quantity::{Kind, Unit, Written};

/// A formula, or a part of one. Cheap to clone.
#[derive(Clone, Debug)]
pub struct Expr(pub(super) Arc<Node>);

#[derive(Debug)]
pub(super) enum Node {
    /// A given quantity.
    Input(Input),
    /// Pressure of the air where the readings are taken.
    Air,
    /// An intermediate quantity with a name of its own, shown on a line of its own.
    Step(Arc<Step>),
    /// The unknown of a [`Solve`], or the parameter of a [`Function`].
    Bound(Arc<Variable>),
    /// A pure number.
    Number(f64),
    /// A quantity that belongs to the formula.
    Constant(Constant),
    Sum(Expr, Expr),
    Difference(Expr, Expr),
    Product(Expr, Expr),
    Quotient(Expr, Expr),
    Negative(Expr),
    Power(Expr, f64),
    /// A number to a power that is itself an expression.
    RaisedTo(Expr, Expr),
    Root(Expr),
    Log(Expr),
    Exponential(Expr),
    Magnitude(Expr),
    Least(Expr, Expr),
    Choice(Condition, Expr, Expr),
    /// One thing where an optional input was given, another where it was not.
    IfGiven(Input, Expr, Expr),
    /// How many of a unit a quantity is: what an empirical formula in customary units asks for.
    NumberOf(Expr, &'static Unit),
    /// So many of a unit: what such a formula gives.
    OfUnit(Expr, &'static Unit),
    Property(Property, Input, Vec<Expr>),
    Apply(Arc<Function>, Expr),
    Solve(Arc<Solve>),
}

/// A named intermediate quantity.
#[derive(Debug)]
pub struct Step {
    /// In plain words: `boiling point`.
    pub name: &'static str,
    /// As it stands in the formula: `T_e`.
    pub symbol: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// Units it is shown in, where not those of its kind.
    pub showing: Option<Showing>,
    pub(super) formula: Expr,
}

/// Units and decimals in which a figure is shown, in each system.
#[derive(Clone, Copy, Debug)]
pub struct Showing {
    /// Unit and decimals for US readers.
    pub us: (&'static Unit, u8),
    /// Unit and decimals for SI readers.
    pub si: (&'static Unit, u8),
}

/// A letter that stands for no given quantity.
#[derive(Debug)]
pub(super) struct Variable {
    pub(super) symbol: &'static str,
    pub(super) kind: Kind,
}

/// A quantity that belongs to the formula itself.
#[derive(Clone, Debug)]
pub struct Constant {
    /// The letter it is shown by; where there is none, its number is shown.
    pub symbol: Option<&'static str>,
    /// How much it is.
    pub written: Written,
    /// What it is and where it comes from.
    pub about: &'static str,
}

/// A formula of one variable, used in more than one place.
#[derive(Debug)]
pub struct Function {
    /// In plain words: `saturation pressure of water`.
    pub name: &'static str,
    /// As it stands in the formula: `p_ws`.
    pub symbol: &'static str,
    /// What it gives.
    pub kind: Kind,
    pub(super) parameter: Arc<Variable>,
    pub(super) body: Expr,
}

/// The value of a letter at which two expressions are equal, sought between two bounds.
#[derive(Debug)]
pub(super) struct Solve {
    pub(super) unknown: Arc<Variable>,
    pub(super) low: Expr,
    pub(super) high: Expr,
    pub(super) left: Expr,
    pub(super) right: Expr,
}

/// A comparison of two quantities.
#[derive(Clone, Debug)]
pub struct Condition {
    pub(super) left: Expr,
    pub(super) relation: Relation,
    pub(super) right: Expr,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Relation {
    Below,
    AtLeast,
    Above,
}

impl Expr {
    pub(super) fn new(node: Node) -> Self {
        Self(Arc::new(node))
    }

    pub(super) fn node(&self) -> &Node {
        &self.0
    }

    /// Pressure of the air where the readings are taken.
    pub fn air() -> Self {
        Self::new(Node::Air)
    }

    /// Raised to a power.
    pub fn to_the(&self, exponent: f64) -> Self {
        Self::new(Node::Power(self.clone(), exponent))
    }

    /// A pure number raised to a pure number.
    pub fn raised_to(&self, exponent: impl Into<Expr>) -> Self {
        Self::new(Node::RaisedTo(self.clone(), exponent.into()))
    }

    /// Square root.
    pub fn root(&self) -> Self {
        Self::new(Node::Root(self.clone()))
    }

    /// Natural logarithm of a pure number.
    pub fn ln(&self) -> Self {
        Self::new(Node::Log(self.clone()))
    }

    /// e to this power.
    pub fn exp(&self) -> Self {
        Self::new(Node::Exponential(self.clone()))
    }

    /// Without its sign.
    pub fn magnitude(&self) -> Self {
        Self::new(Node::Magnitude(self.clone()))
    }

    /// How many of `unit` it is.
    pub fn number_of(&self, unit: &'static Unit) -> Self {
        Self::new(Node::NumberOf(self.clone(), unit))
    }

    /// So many of `unit`.
    pub fn of_unit(&self, unit: &'static Unit) -> Self {
        Self::new(Node::OfUnit(self.clone(), unit))
    }

    /// True where this is less than `other`.
    pub fn below(&self, other: impl Into<Expr>) -> Condition {
        Condition { left: self.clone(), relation: Relation::Below, right: other.into() }
    }

    /// True where this is `other` or more.
    pub fn at_least(&self, other: impl Into<Expr>) -> Condition {
        Condition { left: self.clone(), relation: Relation::AtLeast, right: other.into() }
    }

    /// True where this is more than `other`.
    pub fn above(&self, other: impl Into<Expr>) -> Condition {
        Condition { left: self.clone(), relation: Relation::Above, right: other.into() }
    }

    /// The parts this is directly made of.
    pub(super) fn parts(&self) -> Vec<&Expr> {
        match self.node() {
            Node::Input(_) | Node::Air | Node::Bound(_) | Node::Number(_) | Node::Constant(_) => vec![],
            Node::Step(step) => vec![&step.formula],
            Node::Sum(a, b)
            | Node::Difference(a, b)
            | Node::Product(a, b)
            | Node::Quotient(a, b)
            | Node::RaisedTo(a, b)
            | Node::Least(a, b)
            | Node::IfGiven(_, a, b) => vec![a, b],
            Node::Negative(a)
            | Node::Power(a, _)
            | Node::Root(a)
            | Node::Log(a)
            | Node::Exponential(a)
            | Node::Magnitude(a)
            | Node::NumberOf(a, _)
            | Node::OfUnit(a, _) => vec![a],
            Node::Choice(condition, then, otherwise) => vec![&condition.left, &condition.right, then, otherwise],
            Node::Property(_, _, at) => at.iter().collect(),
            Node::Apply(function, at) => vec![&function.body, at],
            Node::Solve(solve) => vec![&solve.low, &solve.high, &solve.left, &solve.right],
        }
    }

    /// Calls `visit` once for each thing this is made of, parts before wholes, and for itself at the last.
    pub(super) fn walk<'a>(&'a self, visit: &mut dyn FnMut(&'a Expr)) {
        let mut seen = HashSet::new();
        self.walk_unseen(&mut seen, visit);
    }

    fn walk_unseen<'a>(&'a self, seen: &mut HashSet<*const Node>, visit: &mut dyn FnMut(&'a Expr)) {
        if seen.insert(Arc::as_ptr(&self.0)) {
            for part in self.parts() {
                part.walk_unseen(seen, visit);
            }
            visit(self);
        }
    }
}

/// A named intermediate quantity of `kind`.
pub(super) fn step(name: &'static str, symbol: &'static str, kind: Kind, formula: Expr) -> Expr {
    Expr::new(Node::Step(Arc::new(Step { name, symbol, kind, showing: None, formula })))
}

/// A quantity that belongs to the formula, shown by its number.
pub(super) fn quantity(number: f64, decimals: u8, unit: &'static Unit, about: &'static str) -> Expr {
    Expr::new(Node::Constant(Constant { symbol: None, written: Written::of(number, decimals, unit), about }))
}

/// A quantity that belongs to the formula, shown by a letter.
pub(super) fn constant(
    symbol: &'static str,
    number: f64,
    decimals: u8,
    unit: &'static Unit,
    about: &'static str,
) -> Expr {
    Expr::new(Node::Constant(Constant { symbol: Some(symbol), written: Written::of(number, decimals, unit), about }))
}

/// The lesser of two.
pub(super) fn least(a: impl Into<Expr>, b: impl Into<Expr>) -> Expr {
    Expr::new(Node::Least(a.into(), b.into()))
}

/// `then` where the condition holds, `otherwise` where not.
pub(super) fn choose(condition: Condition, then: impl Into<Expr>, otherwise: impl Into<Expr>) -> Expr {
    Expr::new(Node::Choice(condition, then.into(), otherwise.into()))
}

/// `then` where the optional `input` was given, `otherwise` where it was not.
pub(super) fn if_given(input: &Input, then: impl Into<Expr>, otherwise: impl Into<Expr>) -> Expr {
    Expr::new(Node::IfGiven(input.clone(), then.into(), otherwise.into()))
}

/// A formula of one variable, written once and used in several places.
pub(super) fn function(
    name: &'static str,
    symbol: &'static str,
    kind: Kind,
    parameter: (&'static str, Kind),
    body: impl FnOnce(&Expr) -> Expr,
) -> Arc<Function> {
    let parameter = Arc::new(Variable { symbol: parameter.0, kind: parameter.1 });
    let body = body(&Expr::new(Node::Bound(parameter.clone())));
    Arc::new(Function { name, symbol, kind, parameter, body })
}

/// The value of `function` at `at`.
pub(super) fn apply(function: &Arc<Function>, at: impl Into<Expr>) -> Expr {
    Expr::new(Node::Apply(function.clone(), at.into()))
}

/// The value of `symbol` between `low` and `high` at which the two sides that `equation` gives for it are equal.
pub(super) fn solve(
    symbol: &'static str,
    kind: Kind,
    low: impl Into<Expr>,
    high: impl Into<Expr>,
    equation: impl FnOnce(&Expr) -> (Expr, Expr),
) -> Expr {
    let unknown = Arc::new(Variable { symbol, kind });
    let (left, right) = equation(&Expr::new(Node::Bound(unknown.clone())));
    Expr::new(Node::Solve(Arc::new(Solve { unknown, low: low.into(), high: high.into(), left, right })))
}

impl From<&Expr> for Expr {
    fn from(expr: &Expr) -> Self {
        expr.clone()
    }
}

impl From<f64> for Expr {
    fn from(number: f64) -> Self {
        Self::new(Node::Number(number))
    }
}

impl From<&Input> for Expr {
    fn from(input: &Input) -> Self {
        Self::new(Node::Input(input.clone()))
    }
}

macro_rules! operator {
    ($trait:ident, $method:ident, $node:ident) => {
        impl<T: Into<Expr>> $trait<T> for Expr {
            type Output = Expr;
            fn $method(self, other: T) -> Expr {
                Expr::new(Node::$node(self, other.into()))
            }
        }
        impl<T: Into<Expr>> $trait<T> for &Expr {
            type Output = Expr;
            fn $method(self, other: T) -> Expr {
                Expr::new(Node::$node(self.clone(), other.into()))
            }
        }
        impl<T: Into<Expr>> $trait<T> for &Input {
            type Output = Expr;
            fn $method(self, other: T) -> Expr {
                Expr::new(Node::$node(self.into(), other.into()))
            }
        }
        impl $trait<Expr> for f64 {
            type Output = Expr;
            fn $method(self, other: Expr) -> Expr {
                Expr::new(Node::$node(self.into(), other))
            }
        }
        impl $trait<&Expr> for f64 {
            type Output = Expr;
            fn $method(self, other: &Expr) -> Expr {
                Expr::new(Node::$node(self.into(), other.clone()))
            }
        }
        impl $trait<&Input> for f64 {
            type Output = Expr;
            fn $method(self, other: &Input) -> Expr {
                Expr::new(Node::$node(self.into(), other.into()))
            }
        }
    };
}

operator!(Add, add, Sum);
operator!(Sub, sub, Difference);
operator!(Mul, mul, Product);
operator!(Div, div, Quotient);

impl Neg for Expr {
    type Output = Expr;
    fn neg(self) -> Expr {
        Expr::new(Node::Negative(self))
    }
}

impl Neg for &Expr {
    type Output = Expr;
    fn neg(self) -> Expr {
        Expr::new(Node::Negative(self.clone()))
    }
}
