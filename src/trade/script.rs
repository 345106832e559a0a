//! The same formula as JavaScript, for the forms in a page.
//!
//! Every quantity in the script is in SI, as here. The page brings the properties of refrigerants as functions of the
//! names in [`super::property`], and the inputs by their names.

use std::fmt::Write as _;

use super::computation::Computation;
use super::expression::{Condition, Expr, Function, Node, Relation, Step};
use super::input::{Input, Need};
use crate::quantity::{Pressure, Reference, Unit};

/// What the script of every computation makes use of: the solver, and values worked out once and only where needed.
///
/// `air(altitude)` gives the pressure of the air in pascals from the altitude in meters, as
/// [`air_at`](crate::quantity::air_at) does.
pub const RUNTIME: &str = include_str!("runtime.js");

impl Computation {
    /// A JavaScript function `(given, air, props, runtime) => ({answer, steps, refused, notes})`.
    ///
    /// `given` holds the inputs by name, in SI, pressures above a vacuum; `air` is the pressure of the air in pascals;
    /// `props` the properties of the input `refrigerant` (`props.dewTemperature(p)`), and those of any other fluid by
    /// its name (`props["bulb fluid"].dewTemperature(p)`); `runtime` is what [`RUNTIME`] gives. An answer that is no
    /// finite number is none. `steps` are names and values of the steps that were worked out, in order.
    pub fn script(&self) -> String {
        self.function("")
    }

    /// The function of [`Computation::script`], giving `more` too: further members of the object it gives, each with a
    /// comma before it, which may speak of its steps and inputs by [`write`].
    pub(super) fn function(&self, more: &str) -> String {
        let mut script = String::from("(given, air, props, runtime) => {\n");
        for input in &self.inputs {
            if let Need::Default(written) = &input.need {
                let si = number(written.unit.to_si(written.number, Pressure::STANDARD_ATMOSPHERE));
                let _ = writeln!(script, "  given = {{{}: {si}, ...given}};", quoted(input.name));
            }
        }
        let _ = writeln!(script, "  const steps = runtime.steps(), refused = [], notes = [];");
        for function in self.functions() {
            let body = write(&function.body);
            let _ = writeln!(
                script,
                "  const {} = {} => {body};",
                function_name(function),
                variable(function.parameter.symbol)
            );
        }
        for step in self.steps() {
            let _ = writeln!(
                script,
                "  const {} = steps.once({}, () => {});",
                step_name(step),
                quoted(step.name),
                write(&step.formula)
            );
        }
        for caution in self.cautions.iter().filter(|caution| caution.refuses) {
            let _ = writeln!(script, "  if ({}) refused.push({});", condition(&caution.when), quoted(caution.says));
        }
        let _ = writeln!(script, "  if (refused.length) return {{refused, notes, steps: []}};\n  steps.clear();");
        let _ = writeln!(script, "  const answer = {}, worked = steps.done();", write(&self.answer.formula));
        for caution in self.cautions.iter().filter(|caution| !caution.refuses) {
            let _ = writeln!(script, "  if ({}) notes.push({});", condition(&caution.when), quoted(caution.says));
        }
        let _ = writeln!(script, "  return {{answer, refused, notes, steps: worked{more}}};");
        script + "}"
    }
}

/// An expression as JavaScript, where the names of [`Computation::function`] are known.
pub(super) fn write(expr: &Expr) -> String {
    match expr.node() {
        Node::Input(input) if input.gauge => format!("({} - air)", given(input)),
        Node::Input(input) => given(input),
        Node::Air => "air".to_owned(),
        Node::Step(step) => format!("{}()", step_name(step)),
        Node::Bound(bound) => variable(bound.symbol),
        Node::Number(value) => number(*value),
        Node::Constant(constant) => {
            number(constant.written.unit.to_si(constant.written.number, Pressure::STANDARD_ATMOSPHERE))
        }
        Node::Sum(a, b) => format!("({} + {})", write(a), write(b)),
        Node::Difference(a, b) => format!("({} - {})", write(a), write(b)),
        Node::Product(a, b) => format!("({} * {})", write(a), write(b)),
        Node::Quotient(a, b) => format!("({} / {})", write(a), write(b)),
        Node::Negative(a) => format!("(-{})", write(a)),
        Node::Power(a, exponent) => format!("Math.pow({}, {})", write(a), number(*exponent)),
        Node::RaisedTo(a, b) => format!("Math.pow({}, {})", write(a), write(b)),
        Node::Root(a) => format!("Math.sqrt({})", write(a)),
        Node::Log(a) => format!("Math.log({})", write(a)),
        Node::Exponential(a) => format!("Math.exp({})", write(a)),
        Node::Magnitude(a) => format!("Math.abs({})", write(a)),
        Node::Least(a, b) => format!("Math.min({}, {})", write(a), write(b)),
        Node::Choice(when, then, otherwise) => {
            format!("({} ? {} : {})", condition(when), write(then), write(otherwise))
        }
        Node::IfGiven(input, then, otherwise) => {
            format!("({} !== undefined ? {} : {})", given(input), write(then), write(otherwise))
        }
        Node::NumberOf(a, unit) => counted(&write(a), unit, true),
        Node::OfUnit(a, unit) => counted(&write(a), unit, false),
        Node::Property(property, fluid, at) => {
            let at: Vec<String> = at.iter().map(write).collect();
            let fluid = match fluid.name {
                "refrigerant" => "props".to_owned(),
                other => format!("props[{}]", quoted(other)),
            };
            format!("{fluid}.{}({})", property.signature().script, at.join(", "))
        }
        Node::Apply(function, at) => format!("{}({})", function_name(function), write(at)),
        Node::Solve(solve) => format!(
            "runtime.root({}, {}, {} => {} - {})",
            write(&solve.low),
            write(&solve.high),
            variable(solve.unknown.symbol),
            write(&solve.left),
            write(&solve.right)
        ),
    }
}

pub(super) fn condition(condition: &Condition) -> String {
    let sign = match condition.relation {
        Relation::Below => "<",
        Relation::AtLeast => ">=",
        Relation::Above => ">",
    };
    format!("{} {sign} {}", write(&condition.left), write(&condition.right))
}

/// How many of a unit a quantity in SI is, or what so many of a unit are in SI.
fn counted(value: &str, unit: &Unit, of: bool) -> String {
    let factor = number(unit.factor);
    match (unit.reference, of) {
        (Reference::Fixed, true) => format!("(({value} - {}) / {factor})", number(unit.offset)),
        (Reference::Fixed, false) => format!("({value} * {factor} + {})", number(unit.offset)),
        (Reference::Gauge, true) => format!("(({value} - air) / {factor})"),
        (Reference::Gauge, false) => format!("({value} * {factor} + air)"),
        (Reference::Vacuum, true) => format!("((air - {value}) / {factor})"),
        (Reference::Vacuum, false) => format!("(air - {value} * {factor})"),
    }
}

pub(super) fn given(input: &Input) -> String {
    format!("given[{}]", quoted(input.name))
}

pub(super) fn step_name(step: &Step) -> String {
    format!("step_{}", identifier(step.name))
}

fn function_name(function: &Function) -> String {
    format!("function_{}", identifier(function.name))
}

/// The letter of an unknown or of a parameter; one inside the other may not hide it, which a test holds.
fn variable(symbol: &str) -> String {
    format!("x_{}", identifier(symbol))
}

fn identifier(name: &str) -> String {
    name.chars().map(|c| if c.is_alphanumeric() { c } else { '_' }).collect()
}

/// The shortest text that reads back as the same number; negative ones in parentheses.
pub(super) fn number(value: f64) -> String {
    if value < 0.0 { format!("({value:?})") } else { format!("{value:?}") }
}

pub(super) fn quoted(text: &str) -> String {
    let mut quoted = String::from("\"");
    for c in text.chars() {
        match c {
            '"' | '\\' => {
                quoted.push('\\');
                quoted.push(c);
            }
            // So that the script can stand inside a page's script element.
            '<' => quoted.push_str("\\u003c"),
            '\n' => quoted.push_str("\\n"),
            other => quoted.push(other),
        }
    }
    quoted.push('"');
    quoted
}
