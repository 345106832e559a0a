//! Working an expression out, in SI.
//!
//! Takes the inputs as plain numbers in SI; gives a number in SI, and keeps what each named step came to, in the order
//! they were worked out. Only what is needed is worked out: the branch that a choice takes, and no other.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::error::TradeError;
use super::expression::{Condition, Expr, Node, Relation, Step, Variable};
use super::property::{LookUp, Property};
use super::root::{Search, root};
use crate::fluid::Refrigerant;
use crate::quantity::{Kind, Pressure, System, Value, print};

/// What an expression is worked out with.
pub(super) struct Scene<'a> {
    /// For messages.
    pub(super) computation: &'static str,
    /// Inputs by name, in SI.
    pub(super) inputs: &'a BTreeMap<&'static str, f64>,
    /// Refrigerants by the name of their input.
    pub(super) fluids: &'a BTreeMap<&'static str, Refrigerant>,
    /// Pressure of the air.
    pub(super) air: Pressure,
    /// Steps worked out so far, each once, in order.
    pub(super) steps: Vec<(Arc<Step>, f64)>,
    /// What was asked of refrigerants, in order.
    pub(super) look_ups: Vec<LookUp>,
    /// Whether the bubble curve is read for the dew curve, and the other way round: a slip to be recognized.
    pub(super) reads_other_curve: bool,
    bound: Vec<(Arc<Variable>, f64)>,
}

impl<'a> Scene<'a> {
    pub(super) fn new(
        computation: &'static str,
        inputs: &'a BTreeMap<&'static str, f64>,
        fluids: &'a BTreeMap<&'static str, Refrigerant>,
        air: Pressure,
    ) -> Self {
        Self {
            computation,
            inputs,
            fluids,
            air,
            steps: Vec::new(),
            look_ups: Vec::new(),
            reads_other_curve: false,
            bound: Vec::new(),
        }
    }

    /// Whether the condition holds.
    pub(super) fn holds(&mut self, condition: &Condition) -> Result<bool, TradeError> {
        let (left, right) = (self.value(&condition.left)?, self.value(&condition.right)?);
        Ok(match condition.relation {
            Relation::Below => left < right,
            Relation::AtLeast => left >= right,
            Relation::Above => left > right,
        })
    }

    /// The value of `expr`, in SI; always a finite number.
    pub(super) fn value(&mut self, expr: &Expr) -> Result<f64, TradeError> {
        let value = match expr.node() {
            Node::Input(input) => self.known(self.inputs.get(input.name).copied(), input.name)?,
            Node::Air => self.air.as_pascal(),
            Node::Step(step) => return self.step(step),
            Node::Bound(variable) => {
                let known = self.bound.iter().rev().find(|(bound, _)| Arc::ptr_eq(bound, variable));
                self.known(known.map(|(_, value)| *value), variable.symbol)?
            }
            Node::Number(number) => *number,
            Node::Constant(constant) => constant.written.unit.to_si(constant.written.number, self.air),
            Node::Sum(a, b) => self.value(a)? + self.value(b)?,
            Node::Difference(a, b) => self.value(a)? - self.value(b)?,
            Node::Product(a, b) => self.value(a)? * self.value(b)?,
            Node::Quotient(a, b) => self.value(a)? / self.value(b)?,
            Node::Negative(a) => -self.value(a)?,
            Node::Power(a, exponent) => self.value(a)?.powf(*exponent),
            Node::RaisedTo(a, b) => self.value(a)?.powf(self.value(b)?),
            Node::Root(a) => self.value(a)?.sqrt(),
            Node::Log(a) => self.value(a)?.ln(),
            Node::Exponential(a) => self.value(a)?.exp(),
            Node::Magnitude(a) => self.value(a)?.abs(),
            Node::Least(a, b) => self.value(a)?.min(self.value(b)?),
            Node::Choice(condition, then, otherwise) => {
                let taken = if self.holds(condition)? { then } else { otherwise };
                return self.value(taken);
            }
            Node::IfGiven(input, then, otherwise) => {
                let taken = if self.inputs.contains_key(input.name) { then } else { otherwise };
                return self.value(taken);
            }
            Node::NumberOf(a, unit) => unit.from_si(self.value(a)?, self.air),
            Node::OfUnit(a, unit) => unit.to_si(self.value(a)?, self.air),
            Node::Property(property, fluid, at) => self.property(*property, fluid.name, at)?,
            Node::Apply(function, at) => {
                let at = self.value(at)?;
                self.bound.push((function.parameter.clone(), at));
                let value = self.value(&function.body);
                self.bound.pop();
                value?
            }
            Node::Solve(solve) => {
                let (low, high) = (self.value(&solve.low)?, self.value(&solve.high)?);
                let found = root(low, high, |trial| {
                    self.bound.push((solve.unknown.clone(), trial));
                    let gap = self.value(&solve.left).and_then(|left| Ok(left - self.value(&solve.right)?));
                    self.bound.pop();
                    gap
                });
                match found {
                    Search::Found(value) => value,
                    Search::Failed(error) => return Err(error),
                    Search::NotBracketed => {
                        return Err(TradeError::NoSolution {
                            computation: self.computation,
                            sought: solve.unknown.kind.name().to_owned(),
                            low: self.shown(solve.unknown.kind, low),
                            high: self.shown(solve.unknown.kind, high),
                        });
                    }
                }
            }
        };
        if value.is_finite() {
            Ok(value)
        } else {
            Err(TradeError::NoValue { computation: self.computation, quantity: "the formula".to_owned() })
        }
    }

    fn step(&mut self, step: &Arc<Step>) -> Result<f64, TradeError> {
        if let Some((_, value)) = self.steps.iter().find(|(known, _)| Arc::ptr_eq(known, step)) {
            return Ok(*value);
        }
        let value = self.value(&step.formula).map_err(|error| match error {
            // Named after the innermost step that has no value.
            TradeError::NoValue { computation, quantity } if quantity == "the formula" => {
                TradeError::NoValue { computation, quantity: step.name.to_owned() }
            }
            other => other,
        })?;
        self.steps.push((step.clone(), value));
        Ok(value)
    }

    fn property(&mut self, property: Property, name: &'static str, at: &[Expr]) -> Result<f64, TradeError> {
        let at = at.iter().map(|at| self.value(at)).collect::<Result<Vec<_>, _>>()?;
        let Some(fluid) = self.fluids.get(name) else {
            return Err(TradeError::NoValue { computation: self.computation, quantity: name.to_owned() });
        };
        let property = if self.reads_other_curve { property.on_other_curve() } else { property };
        let value = property.of(fluid, &at)?;
        self.look_ups.push(LookUp { fluid: name, property, at, value });
        Ok(value)
    }

    fn known(&self, value: Option<f64>, name: &str) -> Result<f64, TradeError> {
        value.ok_or_else(|| TradeError::NoValue { computation: self.computation, quantity: name.to_owned() })
    }

    fn shown(&self, kind: Kind, si: f64) -> String {
        let system = System::Us;
        print(Value::of(kind, si), kind.unit_in(system), kind.decimals_in(system), self.air)
    }
}
