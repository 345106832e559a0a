//! `superheat-along-coil`: how warm the refrigerant is from the coil's inlet to the bulb.

use super::Scene;
use super::desk::{Desk, Stop};
use crate::quantity::{Kind, Value, Written};
use crate::trade::Given;

/// Temperatures along a coil, over the heat taken up so far.
#[derive(Clone, Debug)]
pub struct SuperheatAlongCoil {
    /// Designation.
    pub refrigerant: String,
    /// Pressure in the coil.
    pub pressure: Value,
    /// Temperature where it comes in.
    pub inlet: Value,
    /// Dew temperature, where the last drop dries.
    pub boiling: Value,
    /// Temperature of the line at the bulb.
    pub line: Value,
    /// Superheat there.
    pub superheat: Value,
    /// Heat each pound has taken up when the last drop dries.
    pub to_dry: Value,
    /// Heat each pound has taken up at the bulb.
    pub to_bulb: Value,
    /// Temperature of the air onto the coil.
    pub air: Option<Value>,
}

/// Reads and reckons one.
pub(super) fn examine(desk: &Desk<'_>) -> Result<Scene, Stop> {
    desk.no_list()?;
    let given = desk.given();
    given.only(&[
        "refrigerant",
        "suction pressure",
        "suction line temperature",
        "liquid temperature",
        "air temperature",
    ])?;
    let (fluid, name) = given.refrigerant()?;
    let suction = given.need("suction pressure", Kind::Pressure)?;
    let line = given.need("suction line temperature", Kind::Temperature)?;
    let liquid = given.need("liquid temperature", Kind::Temperature)?;
    let air = given.maybe("air temperature", Kind::Temperature)?;
    let refrigerant = ("refrigerant", fluid);
    let written = |written: &Written| Given::Written(written.clone());
    let pressure = [refrigerant.clone(), ("pressure", written(&suction.written))];
    let boiling = desk.answer("dew-temperature", &pressure, suction.at)?;
    let readings = [
        refrigerant.clone(),
        ("suction pressure", written(&suction.written)),
        ("suction line temperature", written(&line.written)),
    ];
    let superheat = desk.answer("superheat", &readings, line.at)?;
    let fed = [
        refrigerant,
        ("liquid temperature", written(&liquid.written)),
        ("evaporating temperature", Given::Value(boiling)),
    ];
    let inlet = desk.answer("coil-inlet-temperature", &fed, liquid.at)?;
    let taken_up = |superheat: Value| {
        let inputs = [&fed[..], &[("superheat", Given::Value(superheat))]].concat();
        desk.answer("net-refrigerating-effect", &inputs, line.at)
    };
    Ok(Scene::SuperheatAlongCoil(SuperheatAlongCoil {
        refrigerant: name.value.clone(),
        pressure: suction.value,
        inlet,
        boiling,
        line: line.value,
        superheat,
        to_dry: taken_up(Value::of(Kind::TemperatureDifference, 0.0))?,
        to_bulb: taken_up(superheat)?,
        air: air.map(|air| air.value),
    }))
}
