//! What a pressure drop is worth in degrees of saturation, and the other way round.

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::step;
use crate::trade::input::{given, refrigerant};
use crate::trade::property;

pub(super) fn pressure_for_saturation_change() -> Computation {
    let fluid = refrigerant();
    let temperature = given("temperature", "T", Kind::Temperature).about("dew temperature before the drop");
    let change = given("saturation change", "ΔT", Kind::TemperatureDifference)
        .about("how far the dew temperature falls")
        .between(0.0, 40.0, &unit::FAHRENHEIT_OF_DIFFERENCE);
    let before = step("dew pressure before", "p_1", Kind::Pressure, property::dew_pressure(&fluid, &temperature));
    let after =
        step("dew pressure after", "p_2", Kind::Pressure, property::dew_pressure(&fluid, &temperature - &change));
    entry("pressure-for-saturation-change", "Pressure drop worth so many degrees", Group::Lines)
        .purpose(
            "The pressure drop that lowers the dew temperature by so many degrees. The drop worth 2 °F is close to the trade's limits \
             for an internal equalizer, and serves as one for a refrigerant that has no printed limit.",
        )
        .inputs([&fluid, &temperature, &change])
        .source(Mark::Physics, "difference of two dew pressures, by the refrigerant's saturation lines")
        .worked(
            &[("refrigerant", "R-22"), ("temperature", "40 °F"), ("saturation change", "2 °F")],
            "2.87 psi",
        )
        .answer_in(
            "pressure drop",
            "Δp",
            Kind::PressureDifference,
            (&unit::PSI, 2),
            (&unit::KILOPASCAL_OF_DIFFERENCE, 1),
            before - after,
        )
}

pub(super) fn saturation_change_for_pressure_drop() -> Computation {
    let fluid = refrigerant();
    let temperature = given("temperature", "T", Kind::Temperature).about("dew temperature before the drop");
    let loss = given("pressure drop", "Δp", Kind::PressureDifference).between(0.0, 200.0, &unit::PSI);
    let before = step("dew pressure before", "p_1", Kind::Pressure, property::dew_pressure(&fluid, &temperature));
    let after =
        step("dew temperature after", "T_2", Kind::Temperature, property::dew_temperature(&fluid, &before - &loss));
    entry("saturation-change-for-pressure-drop", "Degrees lost to a pressure drop", Group::Lines)
        .purpose(
            "How many degrees of evaporating temperature a pressure drop in the suction line costs. Suction and discharge lines are \
             commonly sized to about 2 °F (1 K) in all.",
        )
        .inputs([&fluid, &temperature, &loss])
        .source(Mark::Physics, "difference of two dew temperatures, by the refrigerant's saturation lines")
        .worked(&[("refrigerant", "R-410A"), ("temperature", "45 °F"), ("pressure drop", "3 psi")], "1.2 °F")
        .answer_in(
            "saturation change",
            "ΔT",
            Kind::TemperatureDifference,
            (&unit::FAHRENHEIT_OF_DIFFERENCE, 2),
            (&unit::KELVIN_OF_DIFFERENCE, 2),
            &temperature - after,
        )
}
