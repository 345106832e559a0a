//! `three-forces`: the bulb's pressure on a valve's diaphragm, and the evaporator's and the spring's against it.

use super::Scene;
use super::desk::{Desk, Stop};
use crate::handbook::Finding;
use crate::quantity::{Kind, Value};
use crate::trade::Given;

/// The forces on a diaphragm, as pressures: they act on one area.
#[derive(Clone, Debug)]
pub struct ThreeForces {
    /// Designation of the refrigerant, in the system and in the bulb.
    pub refrigerant: String,
    /// Temperature of the line at the bulb.
    pub line: Value,
    /// Pressure in the bulb.
    pub bulb: Value,
    /// Pressure under the diaphragm.
    pub evaporator: Value,
    /// Dew temperature at that pressure.
    pub boiling: Value,
    /// Superheat at the bulb.
    pub superheat: Value,
    /// What the coil loses on the way to the bulb, where the diaphragm feels the pressure ahead of it.
    pub lost: Option<Value>,
    /// What the spring adds from below.
    pub spring: Value,
    /// What balance leaves for the spring, and for the loss where there is one.
    pub left: Value,
    /// Whether the spring is what balance leaves for it, and not given.
    pub in_balance: bool,
}

/// What may be given beside the readings.
const LOST: &str = "evaporator pressure drop";
const SPRING: &str = "spring pressure";

/// Reads and reckons one.
pub(super) fn examine(desk: &Desk<'_>) -> Result<Scene, Stop> {
    desk.no_list()?;
    let given = desk.given();
    given.only(&["refrigerant", "suction pressure", "suction line temperature", LOST, SPRING])?;
    let (fluid, name) = given.refrigerant()?;
    let suction = given.need("suction pressure", Kind::Pressure)?;
    let line = given.need("suction line temperature", Kind::Temperature)?;
    let lost = given.maybe(LOST, Kind::PressureDifference)?;
    // What balance leaves is the spring's and the loss's together, so the spring's own share must be known.
    let own_spring = match lost {
        Some(_) => Some(given.need(SPRING, Kind::PressureDifference)?),
        None => given.maybe(SPRING, Kind::PressureDifference)?,
    };
    if let Some(share) = lost.iter().chain(&own_spring).find(|share| share.value.si < 0.0) {
        let says = format!("{} pulls where it should press", share.written);
        return Err(Finding::error("drawing-not-read", share.at, says).into());
    }
    let refrigerant = ("refrigerant", fluid);
    let pressure = || Given::Written(suction.written.clone());
    let boiling = desk.answer("dew-temperature", &[refrigerant.clone(), ("pressure", pressure())], suction.at)?;
    let inputs = [
        refrigerant.clone(),
        ("suction pressure", pressure()),
        ("suction line temperature", Given::Written(line.written.clone())),
    ];
    let superheat = desk.answer("superheat", &inputs, line.at)?;
    let temperature = ("temperature", Given::Written(line.written.clone()));
    let bulb = desk.answer("dew-pressure", &[refrigerant.clone(), temperature], line.at)?;
    let inputs =
        [refrigerant, ("evaporating temperature", Given::Value(boiling)), ("superheat", Given::Value(superheat))];
    let left = desk.answer("txv-spring-pressure", &inputs, line.at)?;
    let spring = own_spring.as_ref().map_or(left, |own| own.value);
    Ok(Scene::ThreeForces(ThreeForces {
        refrigerant: name.value.clone(),
        line: line.value,
        bulb,
        evaporator: suction.value,
        boiling,
        superheat,
        lost: lost.map(|lost| lost.value),
        spring,
        left,
        in_balance: own_spring.is_none(),
    }))
}
