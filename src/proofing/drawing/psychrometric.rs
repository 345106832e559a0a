//! `psychrometric`: states of moist air between curves of equal relative humidity, at the altitude of the handbook or
//! one of the drawing's own.

use super::Scene;
use super::desk::{Desk, Lines, Stop};
use crate::quantity::{Kind, Value, unit};
use crate::trade::Given;

/// The chart and the points on it.
#[derive(Clone, Debug)]
pub struct Psychrometric {
    /// Curves of equal relative humidity, from dry to saturated.
    pub curves: Vec<HumidityCurve>,
    /// Points, in the author's order.
    pub points: Vec<AirPoint>,
    /// Whether air goes from each point to the next.
    pub joined: bool,
}

/// A curve of equal relative humidity.
#[derive(Clone, Debug)]
pub struct HumidityCurve {
    /// The relative humidity.
    pub humidity: Value,
    /// Dry bulb and humidity ratio, from cold to warm.
    pub points: Vec<(Value, Value)>,
}

/// A state of air.
#[derive(Clone, Debug)]
pub struct AirPoint {
    /// What air it is: `return air`.
    pub name: String,
    /// Dry bulb.
    pub dry: Value,
    /// Wet bulb.
    pub wet: Value,
    /// Relative humidity.
    pub humidity: Value,
    /// Dew point.
    pub dew_point: Value,
    /// Humidity ratio.
    pub ratio: Value,
    /// Enthalpy.
    pub enthalpy: Value,
    /// Humidity ratio of air saturated at the wet bulb, where the line of equal wet bulb ends.
    pub saturated: Value,
}

/// Relative humidities that have a curve, in percent.
const CURVES: [f64; 5] = [20.0, 40.0, 60.0, 80.0, 100.0];
/// Points of a curve.
const POINTS: u32 = 20;
/// The list it takes, and the most points that can be told apart on one chart.
const LIST: &str = "points";
const MOST: usize = 5;

/// Reads and reckons one.
pub(super) fn examine(desk: &Desk<'_>) -> Result<Scene, Stop> {
    let given = desk.given();
    given.only(&["joined"])?;
    let joined = given.asked("joined")?;
    let items = desk.list(LIST, 1, MOST)?;
    let points = items.iter().map(|item| point(desk, item)).collect::<Result<Vec<_>, Stop>>()?;
    // From under the coldest temperature in play to past the warmest, in whole steps of 10 °F.
    let tens = |value: Value| value.number_of(&unit::FAHRENHEIT, desk.air()) / 10.0;
    let least = |of: fn(&AirPoint) -> Value| points.iter().map(|point| tens(of(point))).fold(f64::INFINITY, f64::min);
    let low = least(|point| point.dew_point).clamp(1.0, 4.0).min(least(|point| point.dry));
    let high = points.iter().map(|point| tens(point.dry)).fold(f64::NEG_INFINITY, f64::max);
    let (low, high) = (low.floor(), (high + 0.6).ceil().max(low.floor() + 3.0));
    let at = desk.drawing.kind.at;
    let mut curves = Vec::with_capacity(CURVES.len());
    for percent in CURVES {
        let humidity = Value::from_unit(percent, &unit::PERCENT, desk.air());
        let mut curve = Vec::new();
        for i in 0..=POINTS {
            let tens = low + (high - low) * f64::from(i) / f64::from(POINTS);
            let dry = Value::from_unit(tens * 10.0, &unit::FAHRENHEIT, desk.air());
            let inputs = [("dry bulb", Given::Value(dry)), ("relative humidity", Given::Value(humidity))];
            curve.push((dry, desk.answer("humidity-ratio", &inputs, at)?));
        }
        curves.push(HumidityCurve { humidity, points: curve });
    }
    Ok(Scene::Psychrometric(Psychrometric { curves, points, joined }))
}

fn point(desk: &Desk<'_>, item: &Lines<'_>) -> Result<AirPoint, Stop> {
    item.only(&["is", "dry bulb", "wet bulb", "relative humidity", "dew point"])?;
    let name = item.text("is")?.map_or_else(String::new, |name| name.value.clone());
    let dry = item.need("dry bulb", Kind::Temperature)?;
    let mut inputs = vec![("dry bulb", Given::Written(dry.written.clone()))];
    let mut at = dry.at;
    for (name, kind) in
        [("wet bulb", Kind::Temperature), ("relative humidity", Kind::Ratio), ("dew point", Kind::Temperature)]
    {
        if let Some(second) = item.maybe(name, kind)? {
            inputs.push((name, Given::Written(second.written)));
            at = second.at;
        }
    }
    let ratio = desk.answer("humidity-ratio", &inputs, at)?;
    // What was given is its own answer, and its computation would rightly refuse it.
    let own = |name: &str| inputs.iter().find(|(given, _)| *given == name);
    let read_or = |name: &str, computation: &str| match own(name) {
        Some((_, Given::Written(written))) => Ok(Value::from_unit(written.number, written.unit, desk.air())),
        _ => desk.answer(computation, &inputs, at),
    };
    let wet = read_or("wet bulb", "wet-bulb")?;
    let full = Value::from_unit(100.0, &unit::PERCENT, desk.air());
    let saturated = [("dry bulb", Given::Value(wet)), ("relative humidity", Given::Value(full))];
    Ok(AirPoint {
        name,
        dry: dry.value,
        humidity: read_or("relative humidity", "relative-humidity")?,
        dew_point: read_or("dew point", "dew-point")?,
        ratio,
        enthalpy: desk.answer("moist-enthalpy", &inputs, at)?,
        saturated: desk.answer("humidity-ratio", &saturated, at)?,
        wet,
    })
}
