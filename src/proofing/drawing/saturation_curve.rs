//! `saturation-curve`: pressure against temperature, of boiling liquid and of condensing vapor.

use super::Scene;
use super::desk::{Desk, Stop};
use crate::handbook::Finding;
use crate::quantity::{Kind, Value};
use crate::trade::Given;

/// Bubble and dew curve of a refrigerant.
#[derive(Clone, Debug)]
pub struct SaturationCurve {
    /// Designation.
    pub refrigerant: String,
    /// Points of both curves, in order of temperature.
    pub points: Vec<CurvePoint>,
    /// A pressure looked at.
    pub mark: Option<CurveMark>,
}

/// Both pressures at one temperature.
#[derive(Clone, Debug)]
pub struct CurvePoint {
    /// Temperature.
    pub temperature: Value,
    /// Where the first bubble forms.
    pub bubble: Value,
    /// Where the last drop dries.
    pub dew: Value,
    /// Whether it is one of the author's steps, and so has a row in the table.
    pub step: bool,
}

/// Both temperatures at one pressure.
#[derive(Clone, Debug)]
pub struct CurveMark {
    /// Pressure.
    pub pressure: Value,
    /// Where the first bubble forms.
    pub bubble: Value,
    /// Where the last drop dries.
    pub dew: Value,
    /// What lies between.
    pub glide: Value,
}

/// Points a curve has at least; more look no smoother.
const POINTS: u32 = 24;
/// Steps a table beside a drawing can well have.
const MOST: u32 = 40;

/// Reads and reckons one.
pub(super) fn examine(desk: &Desk<'_>) -> Result<Scene, Stop> {
    desk.no_list()?;
    let given = desk.given();
    given.only(&["refrigerant", "temperature", "pressure"])?;
    let (fluid, name) = given.refrigerant()?;
    let (ladder, at) = given.stretch("temperature", Kind::Temperature, "-20 to 60 °F by 10 °F")?;
    if !(2..=MOST).contains(&ladder.count()) {
        let says = format!("a curve is drawn through 2 to {MOST} steps, and this has {}", ladder.count());
        return Err(Finding::error("drawing-not-read", at, says).into());
    }
    let pressure = given.maybe("pressure", Kind::Pressure)?;
    let refrigerant = ("refrigerant", fluid);
    let between = POINTS.div_ceil(ladder.count() - 1).max(1);
    let last = (ladder.count() - 1) * between;
    let mut points = Vec::new();
    for i in 0..=last {
        let number = ladder.from + ladder.step * f64::from(i) / f64::from(between);
        let temperature = Value::from_unit(number, ladder.unit, desk.air());
        let inputs = [refrigerant.clone(), ("temperature", Given::Value(temperature))];
        points.push(CurvePoint {
            temperature,
            bubble: desk.answer("bubble-pressure", &inputs, at)?,
            dew: desk.answer("dew-pressure", &inputs, at)?,
            step: i % between == 0,
        });
    }
    let mark = match pressure {
        None => None,
        Some(pressure) => {
            let inputs = [refrigerant, ("pressure", Given::Written(pressure.written.clone()))];
            let answer = |name| desk.answer(name, &inputs, pressure.at);
            Some(CurveMark {
                pressure: pressure.value,
                bubble: answer("bubble-temperature")?,
                dew: answer("dew-temperature")?,
                glide: answer("glide")?,
            })
        }
    };
    Ok(Scene::SaturationCurve(SaturationCurve { refrigerant: name.value.clone(), points, mark }))
}
