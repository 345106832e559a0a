//! Figures in even steps, `15 to 30 psig by 1 psig`: read, climbed, and turned into round steps of the other system.
//! `steps-not-read`: the text makes no such steps.
//!
//! Trips: `30 to 15 psig by 1 psig`. Mended: the lower figure first.

use crate::handbook::{Finding, Spot};
use crate::quantity::{Kind, Pressure, ReadingError, System, Unit, Value, Written, read, read_range};

/// More rungs than this are not a table but a slip in its step.
const MOST: f64 = 1000.0;
/// Round steps, to be multiplied by powers of ten.
const ROUND: [f64; 4] = [1.0, 2.0, 2.5, 5.0];
/// Gauges differ by factors only, so any air serves to turn one unit into another; a vacuum reading is not stepped.
const AIR: Pressure = Pressure::STANDARD_ATMOSPHERE;

/// Figures in even steps, in one unit.
#[derive(Clone, Debug)]
pub(super) struct Ladder {
    pub(super) unit: &'static Unit,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) step: f64,
    pub(super) decimals: u8,
}

impl Ladder {
    /// Reads `low to high unit by step unit` as figures of `kind`.
    pub(super) fn read(text: &Spot<String>, kind: Kind) -> Result<Self, Box<Finding>> {
        let slip = |says: String| {
            let finding = Finding::error("steps-not-read", text.at, says);
            Box::new(finding.instead("write both ends, the lower first, and the step: `15 to 30 psig by 1 psig`"))
        };
        let no_step = || slip(format!("`{}` has no step", text.value));
        let (stretch, step) = text.value.rsplit_once(" by ").ok_or_else(no_step)?;
        let range = read_range(stretch, Some(kind)).map_err(|error| slip(error.to_string()))?;
        let step = read_step(step, kind).map_err(|error| slip(error.to_string()))?;
        Self::of(&range.from, &range.to, &step).map_err(slip)
    }

    /// From three figures as written.
    pub(super) fn of(from: &Written, to: &Written, step: &Written) -> Result<Self, String> {
        if from.unit != to.unit || step.unit.system != from.unit.system {
            return Err("both ends and the step are written in one unit".to_owned());
        }
        if step.number <= 0.0 {
            return Err("the step is greater than nothing".to_owned());
        }
        if to.number <= from.number {
            return Err(format!("this ends at {to}, which is not above {from}, where it begins"));
        }
        // A gauge steps in psi, a temperature in degrees of difference: the same size as its own unit.
        let step_number = step.number * step.unit.factor / from.unit.factor;
        if (to.number - from.number) / step_number > MOST {
            return Err(format!("in steps of {step} this has more than {MOST} figures"));
        }
        let decimals = from.decimals.max(step.decimals);
        Ok(Self { unit: from.unit, from: from.number, to: to.number, step: step_number, decimals })
    }

    /// The figures, from the lowest.
    pub(super) fn rungs(&self) -> impl Iterator<Item = f64> + '_ {
        (0..self.count()).map(|i| self.rung(i))
    }

    /// How many figures there are.
    pub(super) fn count(&self) -> u32 {
        ((self.to - self.from) / self.step + 1e-6).floor() as u32 + 1
    }

    fn rung(&self, i: u32) -> f64 {
        self.from + f64::from(i) * self.step
    }

    /// Figure number `i`, from 0, as it is written.
    pub(super) fn written(&self, i: u32) -> Written {
        Written::of(self.rung(i), self.decimals, self.unit)
    }

    /// The same stretch in round steps of the unit of `system`; itself where it stands in that system.
    pub(super) fn in_system(&self, system: System) -> Ladder {
        if self.unit.system == system {
            return self.clone();
        }
        let unit = self.unit.in_system(system);
        let over = |number: f64| Value::from_unit(number, self.unit, AIR).number_of(unit, AIR);
        let step = nearest_round((over(self.step) - over(0.0)).abs());
        let from = (over(self.from) / step - 1e-9).ceil() * step;
        let to = (over(self.to) / step + 1e-9).floor() * step;
        Ladder { unit, from, to: to.max(from), step, decimals: decimals_of(step) }
    }
}

/// The round step nearest to `wanted` in proportion.
fn nearest_round(wanted: f64) -> f64 {
    let ten = 10f64.powf(wanted.log10().floor());
    let steps = ROUND.iter().map(|r| r * ten).chain(std::iter::once(10.0 * ten));
    let off = |step: f64| (step / wanted).ln().abs();
    steps.fold(ten, |best, step| if off(step) < off(best) { step } else { best })
}

/// Digits after the point that a step needs.
fn decimals_of(step: f64) -> u8 {
    let whole = |places: &u8| {
        let scaled = step * 10f64.powi(i32::from(*places));
        (scaled - scaled.round()).abs() < 1e-9
    };
    (0..6).find(whole).unwrap_or(6)
}

/// A step of figures of `kind`: of a temperature or a pressure it is a difference, and it may be written as either
/// (`by 1 psig`, `by 1 psi`).
fn read_step(text: &str, kind: Kind) -> Result<Written, ReadingError> {
    let difference = match kind {
        Kind::Temperature => Kind::TemperatureDifference,
        Kind::Pressure => Kind::PressureDifference,
        kind => return read(text, Some(kind)),
    };
    read(text, Some(difference)).or_else(|error| read(text, Some(kind)).map_err(|_| error))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::handbook::Span;

    fn ladder(text: &str, kind: Kind) -> Result<Ladder, String> {
        Ladder::read(&Spot::new(text.to_owned(), Span::default()), kind).map_err(|finding| finding.says)
    }

    #[test]
    fn a_stretch_is_climbed_and_turned_into_round_steps() {
        let us = ladder("-40 to 50 °F by 5 °F", Kind::Temperature).unwrap();
        assert_eq!(us.rungs().count(), 19);
        let si = us.in_system(System::Si);
        assert_eq!((si.from, si.to, si.step, si.decimals), (-40.0, 10.0, 2.5, 1));
        let gauge = ladder("15 to 30 psig by 1 psig", Kind::Pressure).unwrap().in_system(System::Si);
        assert_eq!((gauge.unit.symbol, gauge.decimals), ("barg", 2));
        assert!((gauge.step - 0.05).abs() < 1e-12);
    }

    #[test]
    fn what_makes_no_steps_is_refused() {
        assert_eq!(ladder("15 to 30 psig", Kind::Pressure).unwrap_err(), "`15 to 30 psig` has no step");
        assert_eq!(ladder("15 to 30 psig by 0 psi", Kind::Pressure).unwrap_err(), "the step is greater than nothing");
        let many = ladder("0 to 900 psig by 0.1 psi", Kind::Pressure).unwrap_err();
        assert_eq!(many.replace('\u{a0}', " "), "in steps of 0.1 psi this has more than 1000 figures");
    }

    #[test]
    fn round_steps_are_near_what_was_asked() {
        for wanted in [0.0069, 0.013, 0.07, 0.34, 1.1, 2.78, 5.56, 27.0] {
            let step = nearest_round(wanted);
            assert!(step / wanted < 1.6 && wanted / step < 1.6, "{wanted} gave {step}");
        }
    }
}
