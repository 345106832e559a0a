//! A computation done: the answer, what it was given and the quantities on the way, as a working is set from.

use std::collections::BTreeMap;
use std::sync::Arc;

use super::computation::Computation;
use super::expression::{Showing, Step};
use super::property::LookUp;
use super::reckon::Given;
use crate::fluid::Refrigerant;
use crate::quantity::{Pressure, System, Unit, Value, Written, print};

/// A computation done: the answer and everything it came from.
#[derive(Clone, Debug)]
pub struct Worked {
    /// What was done.
    pub computation: &'static Computation,
    /// What it was given, defaults among them, in the order of the computation.
    pub inputs: Vec<WorkedInput>,
    /// The named quantities on the way, in the order they were worked out.
    pub steps: Vec<WorkedStep>,
    /// The answer.
    pub answer: Value,
    /// The pressure of the air that gauges were read against.
    pub air: Pressure,
    /// What is to be said beside the answer: readings that can't be right, and the like.
    pub notes: Vec<&'static str>,
    /// What was asked of refrigerants on the way, cautions and trials of a search among it.
    pub look_ups: Vec<LookUp>,
    pub(super) known: BTreeMap<&'static str, f64>,
    pub(super) fluids: BTreeMap<&'static str, Refrigerant>,
}

/// One input of a computation that was done.
#[derive(Clone, Debug)]
pub struct WorkedInput {
    /// In plain words.
    pub name: &'static str,
    /// As it stands in the formula.
    pub symbol: &'static str,
    /// As it was given.
    pub given: Given,
    /// Its value; none for a refrigerant. A gauge reading stands here as the pressure above a vacuum.
    pub value: Option<Value>,
    pub(super) showing: Option<Showing>,
}

/// One named quantity on the way to the answer.
#[derive(Clone, Debug)]
pub struct WorkedStep {
    /// In plain words.
    pub name: &'static str,
    /// As it stands in the formula.
    pub symbol: &'static str,
    /// What it came to.
    pub value: Value,
    pub(super) step: Arc<Step>,
}

impl WorkedInput {
    /// What was given, for readers of `system`.
    pub fn text(&self, system: System, air: Pressure) -> String {
        match (&self.given, self.value) {
            (Given::Refrigerant(fluid), _) => fluid.designation().to_owned(),
            (Given::Written(written), _) => {
                let unit = self.unit_of(written, system);
                let number = written.number_to(unit, written.decimals_in(unit), air);
                if unit.symbol.is_empty() { number } else { format!("{number}\u{a0}{}", unit.symbol) }
            }
            (Given::Value(value), _) => {
                let (unit, decimals) = self.shown_in(*value, system);
                print(*value, unit, decimals, air)
            }
        }
    }

    /// The unit in which a figure given for it is shown: its own where that is at home in `system`, otherwise that of
    /// the input or, where the input has none, its counterpart.
    pub(super) fn unit_of(&self, written: &Written, system: System) -> &'static Unit {
        match (self.showing, system) {
            _ if written.unit.system == system => written.unit,
            (Some(showing), System::Us) => showing.us.0,
            (Some(showing), System::Si) => showing.si.0,
            (None, _) => written.unit.in_system(system),
        }
    }

    /// The unit and decimals in which a computed value of it is shown.
    pub(super) fn shown_in(&self, value: Value, system: System) -> (&'static Unit, u8) {
        match (self.showing, system) {
            (Some(showing), System::Us) => showing.us,
            (Some(showing), System::Si) => showing.si,
            (None, _) => (value.kind.unit_in(system), value.kind.decimals_in(system)),
        }
    }
}
