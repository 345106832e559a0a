//! The answers of a question laid side by side along the scale of what is measured.
//!
//! Takes the intervals of the answers, gives the stretches of the scale that no answer is given for and those that more
//! than one is given for. The scale begins at absolute zero, at no air or at nothing, where its quantity has such a
//! beginning, and is open at both ends otherwise.

use super::interval::{Bound, Interval};
use crate::quantity::{Kind, Pressure, WrittenRange};

/// The answers of one question along its scale.
#[derive(Debug)]
pub(super) struct Scale {
    /// Where answers meet, upward. Stretch 0 lies below the first of them, stretch `n` above the `n`th.
    marks: Vec<Bound>,
    /// The answers, by number: the stretches each is given for, from the first to one past the last.
    answers: Vec<(usize, std::ops::Range<usize>)>,
}

/// A stretch of the scale, and the answers given for it, by number.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Stretch {
    /// Its lower bound; none at the beginning of the scale.
    pub(super) from: Option<Bound>,
    /// Its upper bound; none at the end of the scale.
    pub(super) to: Option<Bound>,
    /// Numbers of the answers.
    pub(super) answers: Vec<usize>,
}

impl Scale {
    /// Lays the intervals of answers, given with their numbers, along the scale of `kind`.
    pub(super) fn lay(intervals: &[(usize, Interval)], kind: Kind, air: Pressure) -> Self {
        let beginning = beginning(kind);
        let before_all = |bound: &Bound| beginning.is_some_and(|zero| bound.si <= zero);
        let marks = marks(intervals.iter().flat_map(|(_, run)| run.bounds()).filter(|bound| !before_all(bound)), air);
        let mark_of = |bound: &Bound| {
            if before_all(bound) {
                return 0;
            }
            // The marks are few; the first that meets is the one its bound was drawn together with.
            marks.iter().position(|mark| mark.meets(bound, air)).map_or(marks.len(), |at| at + 1)
        };
        let answers = intervals
            .iter()
            .map(|(number, interval)| {
                let from = interval.from.as_ref().map_or(0, mark_of);
                let to = interval.to.as_ref().map_or(marks.len() + 1, mark_of);
                (*number, from..to)
            })
            .collect();
        Self { marks, answers }
    }

    /// Numbers of the answers whose interval holds nothing.
    pub(super) fn empty(&self) -> Vec<usize> {
        self.answers.iter().filter(|(_, stretches)| stretches.is_empty()).map(|(number, _)| *number).collect()
    }

    /// The stretches, upward; neighbors with the same answers are one.
    pub(super) fn stretches(&self) -> Vec<Stretch> {
        let mut stretches: Vec<Stretch> = Vec::new();
        for at in 0..=self.marks.len() {
            let given = self.answers.iter().filter(|(_, stretches)| stretches.contains(&at));
            let answers: Vec<usize> = given.map(|(number, _)| *number).collect();
            let to = self.marks.get(at).cloned();
            match stretches.last_mut().filter(|last| last.answers == answers) {
                Some(last) => last.to = to,
                None => {
                    let from = at.checked_sub(1).and_then(|before| self.marks.get(before)).cloned();
                    stretches.push(Stretch { from, to, answers });
                }
            }
        }
        stretches
    }
}

impl Stretch {
    /// The stretch as its bounds were written: `350 to 400 cfm/ton`, `450 cfm/ton and above`.
    pub(super) fn told(&self) -> String {
        let told = match (&self.from, &self.to) {
            (None, None) => "every figure".to_owned(),
            (None, Some(to)) => format!("below {}", to.written),
            (Some(from), None) => format!("{} and above", from.written),
            (Some(from), Some(to)) => WrittenRange { from: from.written.clone(), to: to.written.clone() }.to_string(),
        };
        told.replace('\u{a0}', " ")
    }
}

/// Lets bounds that meet, in whatever units they are written, be one place on the scale. 350 cfm/ton is not quite
/// 47 L/(s·kW), and a figure between the two would else have two answers, or none.
pub(super) fn join(intervals: &mut [(usize, Interval)], air: Pressure) {
    let marks = marks(intervals.iter().flat_map(|(_, run)| run.bounds()), air);
    for bound in intervals.iter_mut().flat_map(|(_, run)| run.from.iter_mut().chain(&mut run.to)) {
        if let Some(mark) = marks.iter().find(|mark| mark.meets(bound, air)) {
            bound.si = mark.si;
        }
    }
}

/// The places of bounds, upward; of those that meet, the lowest.
fn marks<'a>(bounds: impl Iterator<Item = &'a Bound>, air: Pressure) -> Vec<Bound> {
    let mut bounds: Vec<&Bound> = bounds.collect();
    bounds.sort_by(|one, other| one.si.total_cmp(&other.si));
    let mut marks: Vec<Bound> = Vec::new();
    for bound in bounds {
        if !marks.last().is_some_and(|last| last.meets(bound, air)) {
            marks.push(bound.clone());
        }
    }
    marks
}

/// The least that can be measured of a quantity, in SI, where there is such a least: a perfect vacuum, absolute zero,
/// no flow. Altitudes, heats, currents and all differences go below nothing, and so have none.
fn beginning(kind: Kind) -> Option<f64> {
    match kind {
        Kind::TemperatureDifference
        | Kind::PressureDifference
        | Kind::Length
        | Kind::Power
        | Kind::Energy
        | Kind::SpecificEnthalpy
        | Kind::MoistAirEnthalpy
        | Kind::SpecificEntropy
        | Kind::Acceleration
        | Kind::Voltage
        | Kind::Current
        | Kind::Torque => None,
        _ => Some(0.0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Written, read};
    use proptest::prelude::*;

    const AIR: Pressure = Pressure::STANDARD_ATMOSPHERE;

    fn bound(text: &str, kind: Kind) -> Bound {
        let written: Written = read(text, Some(kind)).unwrap();
        let si = written.value(AIR).unwrap().si;
        Bound { written, si, value: None }
    }

    fn interval(kind: Kind, from: &str, to: &str) -> Interval {
        let side = |text: &str| (!text.is_empty()).then(|| bound(text, kind));
        Interval { from: side(from), to: side(to) }
    }

    fn told(kind: Kind, intervals: &[(&str, &str)]) -> Vec<(String, Vec<usize>)> {
        let intervals: Vec<_> =
            intervals.iter().enumerate().map(|(n, (from, to))| (n, interval(kind, from, to))).collect();
        Scale::lay(&intervals, kind, AIR).stretches().into_iter().map(|s| (s.told(), s.answers)).collect()
    }

    #[test]
    fn bounds_in_two_units_meet_where_they_agree_to_the_digits_written() {
        let kind = Kind::FlowPerCapacity;
        assert_eq!(
            told(kind, &[("", "350 cfm/ton"), ("47 L/(s·kW)", "")]),
            [("below 350 cfm/ton".to_owned(), vec![0]), ("350 cfm/ton and above".to_owned(), vec![1])]
        );
        assert_eq!(
            told(kind, &[("", "350 cfm/ton"), ("50 L/(s·kW)", "")])[1],
            ("350 cfm/ton to 50 L/(s·kW)".to_owned(), vec![])
        );
    }

    /// Every figure near where two answers meet has one answer and no more, whichever unit either is written in.
    #[test]
    fn bounds_that_meet_are_one_place() {
        let kind = Kind::FlowPerCapacity;
        for [low, high] in [["350 cfm/ton", "47 L/(s·kW)"], ["47 L/(s·kW)", "350 cfm/ton"]] {
            let mut answers = [(0, interval(kind, "", low)), (1, interval(kind, high, ""))];
            let ends = [low, high].map(|text| bound(text, kind).si);
            let between = ends[0].midpoint(ends[1]);
            assert!(ends[0] != ends[1]);
            assert_ne!(answers.iter().filter(|(_, run)| run.holds(between)).count(), 1);
            join(&mut answers, AIR);
            for si in [ends[0], between, ends[1]] {
                assert_eq!(answers.iter().filter(|(_, run)| run.holds(si)).count(), 1, "{si}");
            }
        }
    }

    #[test]
    fn bounds_in_one_unit_meet_only_where_they_are_equal() {
        let stretches = told(Kind::TemperatureDifference, &[("", "8.4 °F"), ("8 °F", "")]);
        assert_eq!(stretches[1], ("8 to 8.4 °F".to_owned(), vec![0, 1]));
    }

    #[test]
    fn a_scale_begins_where_its_quantity_does() {
        assert_eq!(
            told(Kind::VolumeFlow, &[("0 cfm", "400 cfm"), ("400 cfm", "")]),
            [("below 400 cfm".to_owned(), vec![0]), ("400 cfm and above".to_owned(), vec![1])]
        );
        assert_eq!(told(Kind::Pressure, &[("0 psia", "")]), [("every figure".to_owned(), vec![0])]);
        assert_eq!(
            told(Kind::TemperatureDifference, &[("0 °F", "")]),
            [("below 0 °F".to_owned(), vec![]), ("0 °F and above".to_owned(), vec![0])]
        );
    }

    #[test]
    fn a_vacuum_lies_below_a_gauge_reading() {
        assert_eq!(
            told(Kind::Pressure, &[("", "10 inHg vac"), ("10 inHg vac", "0 psig"), ("0 psig", "")])
                .into_iter()
                .map(|(_, answers)| answers)
                .collect::<Vec<_>>(),
            [[0], [1], [2]]
        );
    }

    proptest! {
        /// Every figure lies in exactly the answers that its stretch names.
        #[test]
        fn a_stretch_names_the_answers_whose_intervals_hold_it(
            ends in proptest::collection::vec((0..20i32, 0..20i32), 1..6),
            probe in 0..200i32,
        ) {
            let kind = Kind::TemperatureDifference;
            let intervals: Vec<_> = ends
                .iter()
                .enumerate()
                .map(|(n, (low, high))| {
                    // 0 stands for an open end.
                    let side = |at: i32| if at == 0 { String::new() } else { format!("{at} °F") };
                    (n, interval(kind, &side(*low), &side(*high)))
                })
                .collect();
            let si = f64::from(probe) / 10.0 / 1.8 + 1e-7;
            let within: Vec<usize> = intervals.iter().filter(|(_, i)| i.holds(si)).map(|(n, _)| *n).collect();
            let stretches = Scale::lay(&intervals, kind, AIR).stretches();
            let found = stretches.iter().find(|stretch| {
                stretch.from.as_ref().is_none_or(|from| from.si <= si) && stretch.to.as_ref().is_none_or(|to| si < to.si)
            });
            prop_assert_eq!(found.map(|stretch| stretch.answers.clone()), Some(within));
        }
    }
}
