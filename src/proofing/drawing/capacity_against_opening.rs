//! `capacity-against-opening`: what a valve passes as its superheat opens it, at several pressure drops.

use super::Scene;
use super::desk::{Desk, Stop};
use crate::handbook::Finding;
use crate::quantity::{Kind, Value, Written};
use crate::trade::Given;

/// Capacities of one valve.
#[derive(Clone, Debug)]
pub struct CapacityAgainstOpening {
    /// Superheat at which the port just opens.
    pub fixed: Value,
    /// What more it takes to the rated opening.
    pub opening: Value,
    /// A curve for each pressure drop, in the author's order.
    pub curves: Vec<CapacityCurve>,
    /// What a fixed orifice passes, whatever the superheat.
    pub orifice: Option<Value>,
}

/// Capacity against superheat at one pressure drop.
#[derive(Clone, Debug)]
pub struct CapacityCurve {
    /// Pressure drop across the port.
    pub drop: Value,
    /// Superheat and capacity, from the port just open to the rated opening.
    pub points: Vec<(Value, Value)>,
}

/// Pressure drops that can be told apart in one drawing.
const MOST: usize = 4;
/// Parts into which the opening is divided.
const PARTS: u32 = 4;

/// Reads and reckons one.
pub(super) fn examine(desk: &Desk<'_>) -> Result<Scene, Stop> {
    desk.no_list()?;
    let given = desk.given();
    given.only(&[
        "capacity",
        "rated pressure drop",
        "pressure drop",
        "static superheat",
        "opening superheat",
        "orifice capacity",
    ])?;
    let capacity = given.need("capacity", Kind::Power)?;
    let rated = given.need("rated pressure drop", Kind::PressureDifference)?;
    let drops = given.several("pressure drop", Kind::PressureDifference, MOST)?;
    let fixed = given.need("static superheat", Kind::TemperatureDifference)?;
    let opening = given.need("opening superheat", Kind::TemperatureDifference)?;
    let orifice = given.maybe("orifice capacity", Kind::Power)?;
    let written = |written: &Written| Given::Written(written.clone());
    if opening.value.si <= 0.0 {
        return Err(Finding::error("drawing-not-read", opening.at, "a valve takes some superheat to open").into());
    }
    let mut curves = Vec::with_capacity(drops.len());
    for drop in &drops {
        let inputs = [
            ("capacity", written(&capacity.written)),
            ("rated pressure drop", written(&rated.written)),
            ("pressure drop", written(&drop.written)),
        ];
        let full = desk.answer("txv-capacity-at-pressure-drop", &inputs, drop.at)?;
        let mut points = Vec::new();
        for part in 0..=PARTS {
            let superheat = fixed.value.si + opening.value.si * f64::from(part) / f64::from(PARTS);
            let superheat = Value::of(Kind::TemperatureDifference, superheat);
            let inputs = [
                ("capacity", Given::Value(full)),
                ("static superheat", written(&fixed.written)),
                ("opening superheat", written(&opening.written)),
                ("superheat", Given::Value(superheat)),
            ];
            points.push((superheat, desk.answer("txv-capacity-at-superheat", &inputs, opening.at)?));
        }
        curves.push(CapacityCurve { drop: drop.value, points });
    }
    Ok(Scene::CapacityAgainstOpening(CapacityAgainstOpening {
        fixed: fixed.value,
        opening: opening.value,
        curves,
        orifice: orifice.map(|orifice| orifice.value),
    }))
}
