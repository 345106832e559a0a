//! How a computation is shown: the formula in letters, and the working with numbers put in, in either system of units,
//! as MathML and as plain text.

use std::sync::Arc;

use super::computation::Computation;
use super::evaluation::Scene;
use super::expression::{Condition, Constant, Expr, Node, Showing, Solve, Step};
use super::input::Input;
use super::layout::{Figures, Layout, Letters, absolute_temperature, constant_quantity, lay, scientific};
use super::reckon::Given;
use super::worked::{Worked, WorkedInput};
use super::{inline, mathml, plain};
use crate::quantity::{Kind, Reference, System, Unit, Value, Written, number_text, print, unit};

/// One line of mathematics.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Line {
    /// What the line is about, in plain words: the step or the answer that it gives.
    pub name: &'static str,
    /// For a terminal.
    pub text: String,
    /// MathML Core.
    pub mathml: String,
    /// HTML of the same line as running text, where it has no fraction, root or alternatives.
    pub inline: Option<String>,
}

/// A letter of the formula and what it stands for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Legend {
    /// The letter as plain text.
    pub symbol: &'static str,
    /// The letter as MathML Core.
    pub mathml: String,
    /// What it stands for.
    pub name: String,
}

impl Line {
    fn new(name: &'static str, layout: &Layout) -> Self {
        Self { name, text: plain::line(layout), mathml: mathml::line(layout), inline: inline::line(layout) }
    }
}

impl Computation {
    /// The formula, one line for each named step and one for the answer, then the functions it makes use of.
    /// Quantities that belong to the formula itself stand in units of `system`.
    pub fn formula(&self, system: System) -> Vec<Line> {
        let letters = Letters(system);
        let mut lines = Vec::new();
        for step in self.steps() {
            lines.push(definition(step.name, step.symbol, &step.formula, &letters));
        }
        lines.push(definition(self.answer.name, self.answer.symbol, &self.answer.formula, &letters));
        for function in self.functions() {
            let call = Layout::Call(function.symbol, vec![Layout::Symbol(function.parameter.symbol)]);
            lines.push(Line::new(function.name, &Layout::Equation(vec![call, lay(&function.body, &letters, false)])));
        }
        lines
    }

    /// What each letter of the formula stands for: inputs, then steps, then constants and the air.
    pub fn legend(&self, system: System) -> Vec<Legend> {
        let of = |symbol, name| Legend { symbol, mathml: mathml::letter(symbol), name };
        let mut legend: Vec<Legend> = Vec::new();
        for input in self.inputs.iter().filter(|input| !input.symbol.is_empty() && self.asks_for(input)) {
            legend.push(of(input.symbol, input.name.to_owned()));
        }
        for step in self.steps() {
            legend.push(of(step.symbol, step.name.to_owned()));
        }
        legend.push(of(self.answer.symbol, self.answer.name.to_owned()));
        for constant in self.constants() {
            if let Some(symbol) = constant.symbol {
                let shown = constant.written.shown_in(system, crate::quantity::Pressure::STANDARD_ATMOSPHERE);
                legend.push(of(symbol, format!("{}, {shown}", constant.about)));
            }
        }
        if self.uses(&|expr| matches!(expr.node(), Node::Air)) {
            legend.push(of("p_air", "pressure of the air there".to_owned()));
        }
        legend
    }

    /// Whether the formula or a caution makes use of `input` itself, and not only of the air at that altitude.
    pub(super) fn asks_for(&self, input: &Input) -> bool {
        self.uses(&|expr| match expr.node() {
            Node::Input(used) | Node::IfGiven(used, _, _) | Node::Property(_, used, _) => used.name == input.name,
            _ => false,
        })
    }
}

/// `symbol = formula`; for what is searched for, the equation it must fulfil.
fn definition(name: &'static str, symbol: &'static str, formula: &Expr, figures: &dyn Figures) -> Line {
    match formula.node() {
        Node::Solve(solve) => Line::new(name, &equation(solve, figures)),
        _ => Line::new(name, &Layout::Equation(vec![Layout::Symbol(symbol), lay(formula, figures, false)])),
    }
}

fn equation(solve: &Solve, figures: &dyn Figures) -> Layout {
    Layout::Equation(vec![lay(&solve.left, figures, false), lay(&solve.right, figures, false)])
}

impl Worked {
    /// The answer in its usual unit of `system`.
    pub fn answer_text(&self, system: System) -> String {
        let (unit, decimals) = self.answer_unit(system);
        self.answer_in(unit, decimals)
    }

    /// The answer in a unit of its kind.
    pub fn answer_in(&self, unit: &Unit, decimals: u8) -> String {
        print(self.answer, unit, decimals, self.air)
    }

    /// The unit and the decimals of [`Worked::answer_text`].
    pub fn answer_unit(&self, system: System) -> (&'static Unit, u8) {
        match system {
            System::Us => self.computation.answer.showing.us,
            System::Si => self.computation.answer.showing.si,
        }
    }

    /// What was given, in one line: `R-410A, suction pressure 118 psig, …`.
    pub fn inputs_text(&self, system: System) -> String {
        let inputs: Vec<String> = self
            .inputs
            .iter()
            .map(|input| match input.value {
                None if input.name == "refrigerant" => input.text(system, self.air),
                _ => format!("{} {}", input.name, input.text(system, self.air)),
            })
            .collect();
        inputs.join(", ")
    }

    /// The answer as a figure in its usual US unit, to the decimals it is shown in.
    pub fn answer_written(&self) -> Written {
        let (unit, decimals) = self.answer_unit(System::Us);
        self.rounded(unit, decimals)
    }

    /// The answer as a figure in the unit of `other`, to as many decimals.
    pub fn answer_as(&self, other: &Written) -> Written {
        self.rounded(other.unit, other.decimals)
    }

    fn rounded(&self, unit: &'static Unit, decimals: u8) -> Written {
        let scale = 10f64.powi(i32::from(decimals));
        let number = (self.answer.number_of(unit, self.air) * scale).round() / scale;
        Written::of(number, decimals, unit)
    }

    /// The system of units that a figure stands in.
    pub fn system_of(&self, figure: &Written) -> System {
        figure.unit.system
    }

    /// The last line of the working, as it can be typed: `70 °F - 40.24 °F = 29.8 °F`.
    pub fn plain_line(&self, system: System) -> String {
        let text = self.lines(system).pop().map(|line| line.text).unwrap_or_default();
        let symbol = format!("{} = ", self.computation.answer.symbol);
        typable(text.strip_prefix(&symbol).unwrap_or(&text))
    }

    /// What was given, in one line as it can be typed; none where nothing was.
    pub fn plain_inputs(&self, system: System) -> Option<String> {
        (!self.inputs.is_empty()).then(|| typable(&self.inputs_text(system)))
    }

    /// Where the formula comes from, in one line; for an enthalpy or entropy, from what it is counted too.
    pub fn source_text(&self) -> String {
        let source = self.computation.source;
        let zero = self.fluids.values().find_map(|fluid| self.computation.zero(fluid.reference()));
        let zero = zero.map_or_else(String::new, |zero| format!(". {zero}"));
        format!("{}: {}{zero}", source.mark.text(), source.text)
    }

    /// The working with numbers put in, one line for each gauge reading made absolute, each step, and the answer.
    pub fn lines(&self, system: System) -> Vec<Line> {
        let numbers = Numbers { worked: self, system };
        let mut lines: Vec<Line> = self.inputs.iter().filter_map(|input| self.made_absolute(input, system)).collect();
        for worked in &self.steps {
            let shown = numbers.shown_step(&worked.step, worked.value.si, false);
            lines.extend(numbers.lines_of(worked.name, worked.symbol, &worked.step.formula, vec![shown]));
        }
        let (unit, decimals) = self.answer_unit(system);
        let mut shown = Vec::new();
        if unit.reference != Reference::Fixed {
            shown.push(numbers.absolute_pressure(self.answer.si));
            let (in_sums, finer) = in_sums(unit, decimals);
            if in_sums != unit {
                shown.push(numbers.quantity(self.answer, in_sums, finer + 1));
            }
        }
        shown.push(numbers.quantity(self.answer, unit, decimals));
        let answer = &self.computation.answer;
        lines.extend(numbers.lines_of(answer.name, answer.symbol, &answer.formula, shown));
        lines
    }

    /// `p_s = 118 psig + 14.23 psi = 132.23 psia`, where the formula asks for the absolute pressure and the reading
    /// for readers of `system` is against the air.
    fn made_absolute(&self, input: &WorkedInput, system: System) -> Option<Line> {
        let wanted = self.computation.input(input.name)?;
        let value = input.value.filter(|value| value.kind == Kind::Pressure)?;
        if wanted.gauge || !self.computation.asks_for(wanted) {
            return None;
        }
        let numbers = Numbers { worked: self, system };
        let (reading, reference) = match &input.given {
            Given::Written(written) => (numbers.written(input, written), input.unit_of(written, system).reference),
            Given::Value(value) => {
                let (unit, decimals) = input.shown_in(*value, system);
                let (unit, decimals) = in_sums(unit, decimals);
                (numbers.quantity(*value, unit, decimals), unit.reference)
            }
            Given::Refrigerant(_) => return None,
        };
        let sum = match reference {
            Reference::Fixed => return None,
            Reference::Gauge => Layout::Sum(vec![(false, reading), (false, numbers.air())]),
            Reference::Vacuum => Layout::Sum(vec![(false, numbers.air()), (true, reading)]),
        };
        let sides = vec![Layout::Symbol(input.symbol), sum, numbers.absolute_pressure(value.si)];
        Some(Line::new(input.name, &Layout::Equation(sides)))
    }
}

/// The numbers of a computation that was done, in the units of one system.
struct Numbers<'a> {
    worked: &'a Worked,
    system: System,
}

impl Numbers<'_> {
    fn quantity(&self, value: Value, unit: &'static Unit, decimals: u8) -> Layout {
        Layout::quantity(number_text(unit.from_si(value.si, self.worked.air), decimals), unit)
    }

    /// To five digits that count; with a power of ten where it is very large or very small.
    fn significant(&self, value: Value, unit: &'static Unit) -> Layout {
        let number = unit.from_si(value.si, self.worked.air);
        let size = number.abs();
        if unit.symbol.is_empty() && size != 0.0 && !(1e-4..1e9).contains(&size) {
            return scientific(number);
        }
        Layout::quantity(significant(number), unit)
    }

    /// A pressure above a vacuum: deep ones as a vacuum gauge shows them.
    fn absolute_pressure(&self, si: f64) -> Layout {
        let value = Value::of(Kind::Pressure, si);
        match self.system {
            System::Us if si < 1e3 => self.significant(value, &unit::MICRON_OF_MERCURY),
            System::Us if si < 1e4 => self.significant(value, &unit::PSIA),
            System::Us => self.quantity(value, &unit::PSIA, 2),
            System::Si if si < 1e3 => self.significant(value, &unit::PASCAL),
            System::Si if si < 1e4 => self.significant(value, &unit::KILOPASCAL),
            System::Si => self.quantity(value, &unit::KILOPASCAL, 1),
        }
    }

    /// A value on the way to the answer, finer than an answer is shown, so that what is made of it comes out as
    /// printed; pressures above a vacuum, temperatures from absolute zero where asked.
    fn usual(&self, value: Value, showing: Option<Showing>, absolute: bool) -> Layout {
        let unit = match (showing, self.system) {
            (Some(showing), System::Us) => showing.us.0,
            (Some(showing), System::Si) => showing.si.0,
            (None, system) => value.kind.unit_in(system),
        };
        match value.kind {
            Kind::Pressure => self.absolute_pressure(value.si),
            Kind::Temperature if absolute => self.quantity(value, absolute_temperature(self.system), 2),
            Kind::Temperature | Kind::TemperatureDifference => self.quantity(value, unit, 2),
            _ => self.significant(value, unit),
        }
    }

    fn shown_step(&self, step: &Step, si: f64, absolute: bool) -> Layout {
        self.usual(Value::of(step.kind, si), step.showing, absolute)
    }

    /// A figure as it was written; converted, one digit finer than it would stand by itself, for the same reason.
    fn written(&self, input: &WorkedInput, written: &Written) -> Layout {
        let (unit, _) = in_sums(input.unit_of(written, self.system), 0);
        Layout::quantity(written.number_to(unit, written.decimals_in(unit) + 1, self.worked.air), unit)
    }

    fn lines_of(&self, name: &'static str, symbol: &'static str, formula: &Expr, shown: Vec<Layout>) -> Vec<Line> {
        let mut lines = Vec::new();
        let mut sides = vec![Layout::Symbol(symbol)];
        match formula.node() {
            Node::Solve(solve) => lines.push(Line::new(name, &equation(solve, self))),
            // What is only shown in another unit has its one line.
            Node::Input(_) => {}
            _ => sides.push(lay(formula, self, false)),
        }
        for side in shown {
            if sides.last() != Some(&side) {
                sides.push(side);
            }
        }
        lines.push(Line::new(name, &Layout::Equation(sides)));
        lines
    }

    fn scene(&self) -> Scene<'_> {
        let worked = self.worked;
        Scene::new(worked.computation.name, &worked.known, &worked.fluids, worked.air)
    }
}

impl Figures for Numbers<'_> {
    fn input(&self, input: &Input, absolute: bool) -> Layout {
        let Some(worked) = self.worked.inputs.iter().find(|worked| worked.name == input.name) else {
            return Layout::Symbol(input.symbol);
        };
        let Some(value) = worked.value else {
            return Layout::Word(worked.text(self.system, self.worked.air));
        };
        if value.kind == Kind::Pressure && input.gauge {
            return match &worked.given {
                Given::Written(written) if written.unit.reference == Reference::Gauge => self.written(worked, written),
                _ => {
                    let (unit, decimals) = worked.shown_in(value, self.system);
                    let (unit, decimals) = in_sums(unit, decimals);
                    self.quantity(value, unit, decimals + 1)
                }
            };
        }
        match (&worked.given, value.kind) {
            (_, Kind::Pressure) => self.absolute_pressure(value.si),
            (_, Kind::Temperature) if absolute => self.usual(value, None, true),
            (Given::Written(written), _) => self.written(worked, written),
            _ => self.usual(value, input.showing, absolute),
        }
    }

    fn air(&self) -> Layout {
        self.absolute_pressure(self.worked.air.as_pascal())
    }

    fn step(&self, step: &Step, absolute: bool) -> Layout {
        let known = self.worked.steps.iter().find(|worked| std::ptr::eq(Arc::as_ptr(&worked.step), step));
        match known {
            Some(worked) => self.shown_step(step, worked.value.si, absolute),
            None => Layout::Symbol(step.symbol),
        }
    }

    fn found(&self, expr: &Expr, solve: &Solve, absolute: bool) -> Layout {
        match self.scene().value(expr) {
            Ok(si) => self.usual(Value::of(solve.unknown.kind, si), None, absolute),
            Err(_) => Layout::Symbol(solve.unknown.symbol),
        }
    }

    fn constant(&self, constant: &Constant, absolute: bool) -> Layout {
        constant_quantity(constant, self.system, absolute)
    }

    fn count(&self, of: &Expr, unit: &'static Unit) -> Layout {
        match self.scene().value(of) {
            Ok(si) => Layout::Number(significant(unit.from_si(si, self.worked.air))),
            // What depends on an unknown has no number yet.
            Err(_) => Layout::Count(Box::new(lay(of, self, false)), unit.symbol),
        }
    }

    fn fluid(&self, input: &Input) -> Option<Layout> {
        self.worked.fluids.get(input.name).map(|fluid| Layout::Word(fluid.designation().to_owned()))
    }

    fn holds(&self, condition: &Condition) -> Option<bool> {
        self.scene().holds(condition).ok()
    }

    fn given(&self, input: &Input) -> Option<bool> {
        Some(self.worked.known.contains_key(input.name))
    }
}

/// The unit in which a gauge reading stands in a sum, and its decimals: kilopascals for bar, since differences of
/// pressure are in kilopascals and the pressure of the air is, and nobody should have to shift a point to follow it.
fn in_sums(unit: &'static Unit, decimals: u8) -> (&'static Unit, u8) {
    if *unit == unit::BARG { (&unit::KILOPASCAL_GAUGE, decimals.saturating_sub(2)) } else { (unit, decimals) }
}

/// With the minus sign and the spaces of a keyboard.
fn typable(text: &str) -> String {
    text.replace('\u{a0}', " ").replace('−', "-")
}

/// To five digits that count, without zeros at the end.
fn significant(number: f64) -> String {
    let size = number.abs().max(1e-300).log10().floor();
    let decimals = (4.0 - size).clamp(0.0, 9.0) as u8;
    let text = number_text(number, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
