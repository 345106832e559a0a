//! A computation as a page carries it: what it takes and gives, its arithmetic, and the working with the reader's own
//! numbers put in.
//!
//! All of it is written from the catalogue's own expression. The mathematics is laid out once, by [`super::layout`],
//! with a hole for every figure that only the page knows; the page fills the holes with the figures of its run.

use std::cell::RefCell;
use std::fmt::Write as _;

use super::computation::Computation;
use super::expression::{Condition, Constant, Expr, Node, Showing, Solve, Step};
use super::input::{Input, InputKind, Need};
use super::layout::{Figures, Hole, Layout, lay};
use super::mathml;
use super::property::Property;
use super::script::{condition, given, number, quoted, step_name, write};
use crate::quantity::{Kind, System, Unit, Written};

/// A JavaScript expression that gives what computations, their figures and refrigerants' tables are worked with in a
/// page. It takes what [`crate::quantity::page_script`] and [`super::RUNTIME`] give.
pub const RECKONER: &str = include_str!("reckoner.js");

impl Computation {
    /// Whether a page can do it: whether every property it asks for is in the tables that pages carry.
    pub fn reckons_in_page(&self) -> bool {
        // A heat capacity is the slope of such a table, and no slope is as near as its table; viscosities have
        // correlations for few refrigerants.
        let missing = [Property::HeatCapacity, Property::Viscosity];
        !self.uses(&|expr| matches!(expr.node(), Node::Property(property, ..) if missing.contains(property)))
    }

    /// The computation as a JavaScript object for [`RECKONER`].
    pub fn page_script(&self) -> String {
        let mut text = format!(
            "{{name:{},title:{},source:{},\nanswer:{{name:{},symbol:{},kind:{},show:{}}},\ninputs:[",
            quoted(self.name),
            quoted(self.title),
            quoted(&format!("{}: {}", self.source.mark.text(), self.source.text)),
            quoted(self.answer.name),
            quoted(self.answer.symbol),
            quoted(self.answer.kind.name()),
            showing(&self.answer.showing)
        );
        for input in &self.inputs {
            let _ = writeln!(text, "{},", self.page_input(input));
        }
        text.push_str("],\nsteps:{");
        for step in self.steps() {
            let shown = step.showing.as_ref().map_or_else(|| "0".to_owned(), showing);
            let _ = write!(text, "{}:[{},{shown}],", quoted(step.name), quoted(step.kind.name()));
        }
        let _ = write!(text, "}},\nwork:{}}}", self.function(&format!(",\n  lines: F => {}", self.page_lines())));
        text
    }

    fn page_input(&self, input: &Input) -> String {
        let kind = match input.kind {
            InputKind::Refrigerant => "0".to_owned(),
            InputKind::Quantity(kind) => quoted(kind.name()),
        };
        let mut text = format!("{{name:{},symbol:{},kind:{kind}", quoted(input.name), quoted(&input.letter()));
        let _ = match &input.need {
            Need::Required => Ok(()),
            Need::Optional => write!(text, ",optional:1"),
            Need::Default(written) => write!(text, ",usual:{}", quoted(&plain(written))),
            Need::OneOf(group) => write!(text, ",group:{}", quoted(group)),
            Need::FromSurroundings => write!(text, ",around:1"),
        };
        if let Some((low, high)) = &input.range {
            let _ = write!(text, ",range:[{},{}]", quoted(&plain(low)), quoted(&plain(high)));
        }
        if let Some(shown) = &input.showing {
            let _ = write!(text, ",show:{}", showing(shown));
        }
        if input.gauge {
            text.push_str(",gauge:1");
        }
        if !self.asks_for(input) {
            text.push_str(",unasked:1");
        }
        text + "}"
    }

    /// An array of lines, each `[name, [sides]]`, as [`super::Worked::lines`] gives them.
    fn page_lines(&self) -> String {
        let mut text = String::from("[...F.absolutes()");
        for step in self.steps() {
            let shown = format!("F.step({},{}(),0)", quoted(step.name), step_name(step));
            let lines = lines_of(self, step.name, step.symbol, &step.formula, &format!("F.set({shown})"));
            let _ = write!(text, ",\n    ...F.if({},()=>{lines})", quoted(step.name));
        }
        let answer = &self.answer;
        let lines = lines_of(self, answer.name, answer.symbol, &answer.formula, "...F.answer(answer)");
        text + ",\n    ..." + &lines + "]"
    }
}

/// A figure as it can be typed.
fn plain(written: &Written) -> String {
    written.to_string().replace('\u{a0}', " ").replace('−', "-")
}

fn showing(shown: &Showing) -> String {
    let one = |(unit, decimals): (&'static Unit, u8)| format!("[{},{decimals}]", quoted(unit.symbol));
    format!("{{us:{},si:{}}}", one(shown.us), one(shown.si))
}

/// The lines of one formula: what is looked for where it is searched, then letter, formula and figures. Which branch of
/// the formula is shown, the page decides as the sum itself did.
fn lines_of(c: &Computation, name: &str, symbol: &'static str, formula: &Expr, shown: &str) -> String {
    let letter = mathml::template(&Layout::Symbol(symbol));
    let line = |sides: &str| format!("[{},[{sides}]]", quoted(name));
    match formula.node() {
        Node::Solve(solve) => {
            let sides = branches(&mut Vec::new(), &|holes| {
                let side = |expr| mathml::template(&lay(expr, holes, false));
                format!("[{},{}]", side(&solve.left), side(&solve.right))
            });
            format!("[[{},{sides}],{}]", quoted(name), line(&format!("{letter},{shown}")))
        }
        Node::Input(_) => format!("[{}]", line(&format!("{letter},{shown}"))),
        _ => {
            let side = branches(&mut Vec::new(), &|holes| mathml::template(&lay(formula, holes, false)));
            let _ = c;
            format!("[{}]", line(&format!("{letter},{side},{shown}")))
        }
    }
}

/// `set` for every way that the conditions in it can fall, chosen among by the page.
fn branches(taken: &mut Vec<bool>, set: &dyn Fn(&Holes) -> String) -> String {
    let holes = Holes { taken: taken.clone(), met: RefCell::default() };
    let text = set(&holes);
    let met = holes.met.into_inner();
    let Some(next) = met.get(taken.len()) else { return text };
    taken.push(true);
    let then = branches(taken, set);
    taken.pop();
    taken.push(false);
    let otherwise = branches(taken, set);
    taken.pop();
    format!("({next}?{then}:{otherwise})")
}

/// Holes for every figure, and a way through the conditions that are met.
struct Holes {
    /// How the first conditions are taken to fall.
    taken: Vec<bool>,
    /// The conditions met so far, as script.
    met: RefCell<Vec<String>>,
}

impl Holes {
    fn falls(&self, script: String) -> Option<bool> {
        let mut met = self.met.borrow_mut();
        let place = met.iter().position(|known| *known == script).unwrap_or_else(|| {
            met.push(script);
            met.len() - 1
        });
        Some(self.taken.get(place).copied().unwrap_or(true))
    }
}

fn hole(script: String, pure: bool) -> Layout {
    Layout::Hole(Hole { script, pure })
}

fn pure(unit: &Unit) -> bool {
    unit.symbol.is_empty()
}

fn flag(absolute: bool) -> u8 {
    u8::from(absolute)
}

impl Figures for Holes {
    fn input(&self, input: &Input, absolute: bool) -> Layout {
        let is_pure = input.quantity_kind() == Some(Kind::Ratio);
        hole(format!("F.input({},{})", quoted(input.name), flag(absolute)), is_pure)
    }
    fn air(&self) -> Layout {
        hole("F.air()".to_owned(), false)
    }
    fn step(&self, step: &Step, absolute: bool) -> Layout {
        let unit = step.showing.map_or_else(|| step.kind.unit_in(System::Us), |shown| shown.us.0);
        hole(format!("F.step({},{}(),{})", quoted(step.name), step_name(step), flag(absolute)), pure(unit))
    }
    fn found(&self, expr: &Expr, solve: &Solve, absolute: bool) -> Layout {
        let kind = solve.unknown.kind;
        hole(
            format!("F.usual({},{},{})", quoted(kind.name()), write(expr), flag(absolute)),
            pure(kind.unit_in(System::Us)),
        )
    }
    fn constant(&self, constant: &Constant, absolute: bool) -> Layout {
        let written = &constant.written;
        if pure(written.unit) {
            return Layout::Number(written.number_text());
        }
        let script = format!(
            "F.constant({},{},{},{},{})",
            number(written.number),
            written.decimals,
            quoted(written.unit.kind.name()),
            quoted(written.unit.symbol),
            flag(absolute)
        );
        hole(script, false)
    }
    fn count(&self, of: &Expr, unit: &'static Unit) -> Layout {
        if depends_on_unknown(of) {
            return Layout::Count(Box::new(lay(of, self, false)), unit.symbol);
        }
        let script = format!("F.count({},{},{})", write(of), quoted(unit.kind.name()), quoted(unit.symbol));
        hole(script, true)
    }
    fn fluid(&self, input: &Input) -> Option<Layout> {
        Some(hole(format!("F.fluid({})", quoted(input.name)), true))
    }
    fn holds(&self, asked: &Condition) -> Option<bool> {
        if depends_on_unknown(&asked.left) || depends_on_unknown(&asked.right) {
            return None;
        }
        self.falls(condition(asked))
    }
    fn given(&self, input: &Input) -> Option<bool> {
        self.falls(format!("{} !== undefined", given(input)))
    }
}

/// Whether a letter that a search seeks stands in it, outside of that search.
fn depends_on_unknown(expr: &Expr) -> bool {
    fn visit(expr: &Expr, bound: &mut Vec<*const ()>) -> bool {
        match expr.node() {
            Node::Bound(variable) => !bound.contains(&std::sync::Arc::as_ptr(variable).cast()),
            Node::Solve(solve) => {
                bound.push(std::sync::Arc::as_ptr(&solve.unknown).cast());
                let found = expr.parts().iter().any(|part| visit(part, bound));
                bound.pop();
                found
            }
            Node::Apply(function, at) => {
                if visit(at, bound) {
                    return true;
                }
                bound.push(std::sync::Arc::as_ptr(&function.parameter).cast());
                let found = visit(&function.body, bound);
                bound.pop();
                found
            }
            _ => expr.parts().iter().any(|part| visit(part, bound)),
        }
    }
    visit(expr, &mut Vec::new())
}
