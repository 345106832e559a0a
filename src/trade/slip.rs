//! What an answer would have been with one of the slips that people make: so that a wrong answer can be told apart from
//! a wrong guess, and its cause named.
//!
//! The formula is worked a second time with the slip put in; it is not written a second time.

use super::evaluation::Scene;
use super::property::Property;
use super::reckon::Given;
use super::worked::Worked;
use crate::quantity::{Kind, Reference, Value};

/// A slip in the use of a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Slip {
    /// The bubble curve was read where the dew curve belongs, or the other way round.
    WrongCurve,
    /// A gauge reading was taken as a pressure above a vacuum.
    GaugeForAbsolute,
    /// A difference was taken the wrong way round.
    SwappedSign,
}

impl Slip {
    /// All of them.
    pub const ALL: [Slip; 3] = [Slip::WrongCurve, Slip::GaugeForAbsolute, Slip::SwappedSign];
}

impl Worked {
    /// The answer that `slip` would have given with the same figures; none where the slip can't be made here, has no
    /// answer, or changes nothing.
    pub fn slipped(&self, slip: Slip) -> Option<Value> {
        let kind = self.answer.kind;
        let si = match slip {
            Slip::SwappedSign => {
                let difference = matches!(kind, Kind::TemperatureDifference | Kind::PressureDifference);
                difference.then_some(-self.answer.si)?
            }
            Slip::WrongCurve => {
                let mut scene = Scene::new(self.computation.name, &self.known, &self.fluids, self.air);
                scene.reads_other_curve = true;
                scene.value(&self.computation.answer.formula).ok()?
            }
            Slip::GaugeForAbsolute => {
                let mut known = self.known.clone();
                for input in &self.inputs {
                    let Given::Written(written) = &input.given else { continue };
                    if written.unit.reference == Reference::Gauge && written.unit.kind == Kind::Pressure {
                        known.entry(input.name).and_modify(|si| *si -= self.air.as_pascal());
                    }
                }
                let mut scene = Scene::new(self.computation.name, &known, &self.fluids, self.air);
                scene.value(&self.computation.answer.formula).ok()?
            }
        };
        let changed = (si - self.answer.si).abs() > 1e-9 * self.answer.si.abs();
        changed.then_some(Value::of(kind, si))
    }
}

impl Property {
    /// The same property on the other of the two saturation curves; itself where there is no other.
    pub(super) fn on_other_curve(self) -> Self {
        match self {
            Self::BubblePressure => Self::DewPressure,
            Self::DewPressure => Self::BubblePressure,
            Self::BubbleTemperature => Self::DewTemperature,
            Self::DewTemperature => Self::BubbleTemperature,
            other => other,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::fluid::Refrigerant;
    use crate::quantity::read;
    use crate::trade::{Surroundings, find, reckon};
    use std::collections::BTreeMap;

    fn worked(refrigerant: Refrigerant) -> Worked {
        let figure = |text, kind| Given::Written(read(text, Some(kind)).unwrap());
        let given = BTreeMap::from([
            ("refrigerant".to_owned(), Given::Refrigerant(refrigerant)),
            ("suction pressure".to_owned(), figure("63.15 psig", Kind::Pressure)),
            ("suction line temperature".to_owned(), figure("50 °F", Kind::Temperature)),
        ]);
        reckon(find("superheat").unwrap(), &given, &Surroundings::default()).unwrap()
    }

    #[test]
    fn the_wrong_curve_gives_what_the_entry_for_it_gives() {
        let parts = [("R-32", 23.0), ("R-125", 25.0), ("R-134a", 52.0)];
        let blend = worked(Refrigerant::blend("R-407C", &parts).unwrap());
        let slipped = blend.slipped(Slip::WrongCurve).unwrap();
        let entry = find("superheat-wrong-curve").unwrap();
        let given = blend.inputs.iter().map(|input| (input.name.to_owned(), input.given.clone())).collect();
        let told = reckon(entry, &given, &Surroundings::default()).unwrap();
        assert!((slipped.si - told.answer.si).abs() < 1e-9, "{} and {}", slipped.si, told.answer.si);
    }

    #[test]
    fn a_pure_refrigerant_has_no_wrong_curve() {
        let pure = worked(Refrigerant::pure("R-134a").unwrap());
        assert_eq!(pure.slipped(Slip::WrongCurve), None);
        assert_eq!(pure.slipped(Slip::SwappedSign).unwrap().si, -pure.answer.si);
        // 63.15 psia boils far lower than 63.15 psig, so the superheat looks far larger.
        assert!(pure.slipped(Slip::GaugeForAbsolute).unwrap().si > pure.answer.si + 5.0);
    }
}
