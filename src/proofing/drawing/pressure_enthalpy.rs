//! `pressure-enthalpy`: the cycle of given readings on the chart of its refrigerant.

use super::Scene;
use super::desk::{Desk, Stop, step};
use crate::handbook::Span;
use crate::quantity::{Kind, Value, Written, unit};
use crate::trade::Given;

/// The dome and the cycle.
#[derive(Clone, Debug)]
pub struct PressureEnthalpy {
    /// Designation.
    pub refrigerant: String,
    /// Enthalpy and pressure of boiling liquid, from cold to hot.
    pub bubble: Vec<(Value, Value)>,
    /// Enthalpy and pressure of saturated vapor, from cold to hot.
    pub dew: Vec<(Value, Value)>,
    /// Leaving the coil, the compressor, the condenser, the metering device.
    pub corners: [Corner; 4],
    /// Heat that each pound takes up.
    pub effect: Value,
    /// Share that has flashed behind the metering device.
    pub flashed: Value,
    /// Evaporating temperature.
    pub evaporating: Value,
    /// Condensing temperature.
    pub condensing: Value,
}

/// A state of the cycle.
#[derive(Clone, Copy, Debug)]
pub struct Corner {
    /// Enthalpy.
    pub enthalpy: Value,
    /// Pressure.
    pub pressure: Value,
    /// Temperature.
    pub temperature: Value,
}

/// Points on each side of the dome.
const POINTS: u32 = 24;
/// How far below the evaporating temperature the dome is begun, in kelvins.
const BELOW: f64 = 25.0;
/// What the compressor is taken for where nothing is given.
const EFFICIENCY: f64 = 0.7;

/// Reads and reckons one.
pub(super) fn examine(desk: &Desk<'_>) -> Result<Scene, Stop> {
    desk.no_list()?;
    let given = desk.given();
    given.only(&[
        "refrigerant",
        "evaporating temperature",
        "superheat",
        "condensing temperature",
        "liquid temperature",
        "isentropic efficiency",
    ])?;
    let (fluid, name) = given.refrigerant()?;
    let evaporating = given.need("evaporating temperature", Kind::Temperature)?;
    let superheat = given.need("superheat", Kind::TemperatureDifference)?;
    let condensing = given.need("condensing temperature", Kind::Temperature)?;
    let liquid = given.need("liquid temperature", Kind::Temperature)?;
    let efficiency = given.maybe("isentropic efficiency", Kind::Ratio)?;
    let efficiency = efficiency.map_or_else(|| Written::of(EFFICIENCY, 1, &unit::NUMBER), |given| given.written);
    let refrigerant = ("refrigerant", fluid.clone());
    let written = |written: &Written| Given::Written(written.clone());

    let hot = ("temperature", written(&condensing.written));
    let high = desk.answer("bubble-pressure", &[refrigerant.clone(), hot], condensing.at)?;
    let shared = [
        refrigerant.clone(),
        ("evaporating temperature", written(&evaporating.written)),
        ("superheat", written(&superheat.written)),
    ];
    let fed = [&shared[..], &[("liquid temperature", written(&liquid.written))]].concat();
    let pressed = [("discharge pressure", Given::Value(high)), ("isentropic efficiency", written(&efficiency))];
    let effect = desk.reckon("net-refrigerating-effect", &fed, liquid.at)?;
    let flashed = [refrigerant.clone(), fed[1].clone(), fed[3].clone()];
    let flashed = desk.answer("flash-fraction", &flashed, liquid.at)?;
    let discharge = desk.answer("discharge-temperature", &[&shared[..], &pressed].concat(), superheat.at)?;
    let compressed = desk.reckon("ideal-cop", &[&fed[..], &pressed].concat(), condensing.at)?;
    let inlet = [refrigerant.clone(), fed[3].clone(), fed[1].clone()];
    let inlet = desk.answer("coil-inlet-temperature", &inlet, liquid.at)?;

    let at = evaporating.at;
    let (low, after) = (step(&compressed, "p_e", at)?, step(&compressed, "h_2", at)?);
    let (vapor, entering) = (step(&effect, "h_1", at)?, step(&effect, "h_4", at)?);
    let warm = Value::of(Kind::Temperature, evaporating.value.si + superheat.value.si);
    let corner = |enthalpy, pressure, temperature| Corner { enthalpy, pressure, temperature };
    let (bubble, dew) = dome(desk, &fluid, evaporating.value, at)?;
    Ok(Scene::PressureEnthalpy(PressureEnthalpy {
        refrigerant: name.value.clone(),
        bubble,
        dew,
        corners: [
            corner(vapor, low, warm),
            corner(after, high, discharge),
            corner(entering, high, liquid.value),
            corner(entering, low, inlet),
        ],
        effect: effect.answer,
        flashed,
        evaporating: evaporating.value,
        condensing: condensing.value,
    }))
}

/// One side of a dome: enthalpy and pressure.
type Side = Vec<(Value, Value)>;

/// Both sides of the dome, from somewhat below the evaporating temperature to where liquid and vapor become one.
fn dome(desk: &Desk<'_>, fluid: &Given, evaporating: Value, at: Span) -> Result<(Side, Side), Stop> {
    let Given::Refrigerant(refrigerant) = fluid else { return Err(Stop::Told) };
    let (lowest, highest) = refrigerant.valid_temperature();
    let from = (evaporating.si - BELOW).max(lowest.as_kelvin());
    let to = highest.as_kelvin();
    let none = Given::Value(Value::of(Kind::TemperatureDifference, 0.0));
    let (mut bubble, mut dew) = (Vec::new(), Vec::new());
    for i in 0..=POINTS {
        // Closer together toward the top, where the dome bends.
        let share = 1.0 - (1.0 - f64::from(i) / f64::from(POINTS)).powf(1.6);
        let temperature = Given::Value(Value::of(Kind::Temperature, from + (to - from) * share));
        let inputs = [
            ("refrigerant", fluid.clone()),
            ("evaporating temperature", temperature.clone()),
            ("liquid temperature", temperature.clone()),
            ("superheat", none.clone()),
        ];
        let both = desk.reckon("net-refrigerating-effect", &inputs, at)?;
        let boiling = desk.answer("bubble-pressure", &[inputs[0].clone(), ("temperature", temperature.clone())], at)?;
        let dry = desk.answer("dew-pressure", &[inputs[0].clone(), ("temperature", temperature)], at)?;
        bubble.push((step(&both, "h_4", at)?, boiling));
        dew.push((step(&both, "h_1", at)?, dry));
    }
    Ok((bubble, dew))
}
