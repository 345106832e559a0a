//! From a value to a place on the sheet, and round numbers along the way.

use crate::quantity::{Pressure, Unit, number_text};

/// How values are spread.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Law {
    /// Evenly.
    Even,
    /// By their logarithms.
    Log,
}

/// Values in SI along a stretch of the sheet.
#[derive(Clone, Copy, Debug)]
pub(super) struct Scale {
    pub(super) law: Law,
    /// Values at both ends.
    pub(super) from: f64,
    pub(super) to: f64,
    /// Places of both ends.
    pub(super) start: f64,
    pub(super) end: f64,
}

/// A round number on a scale.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Tick {
    /// Its place on the sheet.
    pub(super) at: f64,
    /// The number, in its unit.
    pub(super) number: f64,
    /// As it is lettered.
    pub(super) text: String,
}

impl Scale {
    /// The place of a value.
    pub(super) fn at(&self, si: f64) -> f64 {
        let share = match self.law {
            Law::Even => (si - self.from) / (self.to - self.from),
            Law::Log => (si.max(self.from * 1e-3) / self.from).ln() / (self.to / self.from).ln(),
        };
        self.start + (self.end - self.start) * share
    }

    /// Round numbers of `unit`, at least `room` apart, none off the scale.
    pub(super) fn ticks(&self, unit: &Unit, air: Pressure, room: f64) -> Vec<Tick> {
        let ends = (unit.from_si(self.from, air), unit.from_si(self.to, air));
        let (low, high) = (ends.0.min(ends.1), ends.0.max(ends.1));
        let numbers = match self.law {
            Law::Even => even(low, high, room / (self.end - self.start).abs() * (high - low)),
            Law::Log => self.spread(unit, air, room, (low, high)),
        };
        let tick = |(number, decimals): (f64, u8)| Tick {
            at: self.at(unit.to_si(number, air)),
            number,
            text: number_text(number, decimals),
        };
        numbers.into_iter().map(tick).collect()
    }

    /// Numbers whose logarithms are not too near: the roundest first, the others where there is room.
    fn spread(&self, unit: &Unit, air: Pressure, room: f64, (low, high): (f64, f64)) -> Vec<(f64, u8)> {
        const ROUNDEST_FIRST: [&[f64]; 5] = [&[1.0], &[5.0], &[2.0], &[3.0, 7.0], &[1.5, 4.0, 6.0, 8.0]];
        let mut taken: Vec<(f64, u8)> = Vec::new();
        let mut places: Vec<f64> = Vec::new();
        let mut offer = |number: f64, decimals: u8| {
            let hair = (high - low) * 1e-9;
            let at = self.at(unit.to_si(number, air));
            if (low - hair..=high + hair).contains(&number) && places.iter().all(|place| (place - at).abs() >= room) {
                places.push(at);
                taken.push((number, decimals));
            }
        };
        let tens = -3..=7;
        for rank in ROUNDEST_FIRST {
            for ten in tens.clone() {
                for first in rank {
                    let decimals = if first.fract() == 0.0 { -ten } else { 1 - ten };
                    offer(first * 10f64.powi(ten), decimals.max(0) as u8);
                }
            }
            if rank == ROUNDEST_FIRST[0] {
                offer(0.0, 0);
            }
        }
        taken.sort_by(|one, other| one.0.total_cmp(&other.0));
        taken
    }
}

/// Multiples of the smallest round step that is no smaller than `least`, and their decimals.
fn even(low: f64, high: f64, least: f64) -> Vec<(f64, u8)> {
    let step = round_step(least);
    if !step.is_finite() || step <= 0.0 {
        return Vec::new();
    }
    let decimals = (-step.log10()).ceil().clamp(0.0, 6.0) as u8;
    let decimals = if (step * 10f64.powi(i32::from(decimals))).fract().abs() > 1e-6 { decimals + 1 } else { decimals };
    let (first, last) = ((low / step - 1e-9).ceil() as i64, (high / step + 1e-9).floor() as i64);
    (first..=last).map(|i| (i as f64 * step, decimals)).collect()
}

/// The smallest of 1, 2 and 5 times a power of ten that is no smaller than `least`.
pub(super) fn round_step(least: f64) -> f64 {
    let ten = 10f64.powf(least.log10().floor());
    [1.0, 2.0, 5.0, 10.0].into_iter().map(|r| r * ten).find(|step| *step >= least * (1.0 - 1e-9)).unwrap_or(10.0 * ten)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Kind, System, unit};
    use proptest::prelude::*;

    const AIR: Pressure = Pressure::from_kilopascal(98.1);

    /// Whether a number has one digit that counts, or two of which the second is five, or is nothing.
    fn is_round(number: f64, digits: i32) -> bool {
        if number == 0.0 {
            return true;
        }
        let ten = 10f64.powi(number.abs().log10().floor() as i32 - (digits - 1));
        let lead = number.abs() / ten;
        (lead - lead.round()).abs() < 1e-6
    }

    #[test]
    fn steps_are_one_two_or_five() {
        for (least, step) in [(0.7, 1.0), (1.0, 1.0), (1.1, 2.0), (3.0, 5.0), (6.0, 10.0), (0.013, 0.02)] {
            assert!((round_step(least) / step - 1.0).abs() < 1e-9, "{least} gave {}", round_step(least));
        }
    }

    #[test]
    fn gauge_pressures_stand_round_on_a_logarithmic_scale() {
        let scale = Scale {
            law: Law::Log,
            from: Pressure::from_psig(60.0, AIR).as_pascal(),
            to: Pressure::from_psig(600.0, AIR).as_pascal(),
            start: 300.0,
            end: 50.0,
        };
        let texts: Vec<String> = scale.ticks(&unit::PSIG, AIR, 24.0).into_iter().map(|tick| tick.text).collect();
        assert_eq!(texts, ["70", "100", "150", "200", "300", "400", "500"]);
    }

    proptest! {
        #[test]
        fn ticks_are_round_apart_and_on_the_scale(
            kind in prop::sample::select(&[Kind::Pressure, Kind::Temperature, Kind::SpecificEnthalpy, Kind::Power, Kind::Time][..]),
            low in 1.0..500.0f64,
            size in 1.02..60.0f64,
            us in any::<bool>(),
            log in any::<bool>(),
            room in 18.0..60.0f64,
        ) {
            let unit = kind.unit_in(if us { System::Us } else { System::Si });
            let (from, to) = (low * 1e3, low * 1e3 * size);
            let law = if log { Law::Log } else { Law::Even };
            let scale = Scale { law, from, to, start: 340.0, end: 40.0 };
            let ticks = scale.ticks(unit, AIR, room);
            for tick in &ticks {
                prop_assert!((40.0 - 1e-6..=340.0 + 1e-6).contains(&tick.at), "{} at {}", tick.text, tick.at);
                // An even scale counts by a round step; a logarithmic one is lettered with round numbers only.
                if log {
                    prop_assert!(is_round(tick.number, 1) || is_round(tick.number / 1.5, 1), "{}", tick.number);
                }
                let shown: f64 = tick.text.replace(',', "").replace('\u{2212}', "-").parse().unwrap();
                prop_assert!((shown - tick.number).abs() <= 1e-9 * tick.number.abs().max(1.0), "{} is lettered {}", tick.number, tick.text);
            }
            for pair in ticks.windows(2) {
                prop_assert!((pair[0].at - pair[1].at).abs() >= room - 1e-6);
                if !log {
                    prop_assert!(is_round(pair[1].number - pair[0].number, 1));
                }
            }
        }
    }
}
