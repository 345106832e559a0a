//! What the compressor does to the vapor.

use super::asked::{evaporating_temperature, superheat};
use super::cycle::Feed;
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, quantity, step};
use crate::trade::input::{Input, given, refrigerant};
use crate::trade::property;

fn discharge_pressure() -> Input {
    given("discharge pressure", "p_d", Kind::Pressure)
}

fn isentropic_efficiency() -> Input {
    given("isentropic efficiency", "η", Kind::Ratio)
        .about("of the compressor; 0.7 is a fair guess, without the motor's heat")
        .between(0.3, 1.0, &unit::NUMBER)
}

/// Enthalpy behind the compressor, from the state of the superheated vapor in front of it.
fn discharge_enthalpy(
    fluid: &Input,
    (pressure, temperature, enthalpy): (&Expr, Expr, &Expr),
    discharge: &Input,
    efficiency: &Input,
) -> Expr {
    let entropy = step(
        "entropy of the suction vapor",
        "s_1",
        Kind::SpecificEntropy,
        property::entropy(fluid, pressure, temperature),
    );
    let ideal = step(
        "enthalpy after ideal compression",
        "h_2s",
        Kind::SpecificEnthalpy,
        property::enthalpy_at_entropy(fluid, discharge, entropy),
    );
    step("enthalpy after compression", "h_2", Kind::SpecificEnthalpy, enthalpy + (ideal - enthalpy) / efficiency)
}

const SUPERHEATED: &str =
    "without superheat pressure and temperature don't tell what the compressor takes in: give some";

fn too_little() -> Expr {
    quantity(0.1, 1, &unit::FAHRENHEIT_OF_DIFFERENCE, "")
}

pub(super) fn discharge_temperature() -> Computation {
    let (fluid, evaporating) = (refrigerant(), evaporating_temperature());
    let superheat = superheat().about("where the vapor comes into the compressor");
    let (discharge, efficiency) = (discharge_pressure(), isentropic_efficiency());
    let pressure = step("suction pressure", "p_s", Kind::Pressure, property::dew_pressure(&fluid, &evaporating));
    let suction = step(
        "enthalpy of the suction vapor",
        "h_1",
        Kind::SpecificEnthalpy,
        property::enthalpy(&fluid, &pressure, &evaporating + &superheat),
    );
    let after = discharge_enthalpy(&fluid, (&pressure, &evaporating + &superheat, &suction), &discharge, &efficiency);
    let hot = property::temperature_at_enthalpy(&fluid, &discharge, after);
    entry("discharge-temperature", "Discharge temperature", Group::System)
        .purpose(
            "How hot the vapor leaves the compressor, by the pressures and the superheat, without the heat of a motor in the suction gas. \
             The discharge line, 6 in from the compressor, is commonly kept below 225 °F.",
        )
        .inputs([&fluid, &evaporating, &superheat, &discharge, &efficiency])
        .refuse(superheat.expr().below(too_little()), SUPERHEATED)
        .flag(
            hot.above(quantity(225.0, 0, &unit::FAHRENHEIT, "")),
            "above 225 °F, the usual limit at the discharge line: oil and valves suffer",
        )
        .source(
            Mark::Physics,
            "isentropic compression made worse by the efficiency; enthalpy and entropy from the equation of state",
        )
        .worked(
            &[
                ("refrigerant", "R-22"),
                ("evaporating temperature", "40 °F"),
                ("superheat", "20 °F"),
                ("discharge pressure", "226 psig"),
                ("isentropic efficiency", "0.7"),
            ],
            "185 °F",
        )
        .answer("discharge temperature", "T_d", Kind::Temperature, hot)
}

pub(super) fn ideal_cop() -> Computation {
    let feed = Feed::new();
    let (discharge, efficiency) = (discharge_pressure(), isentropic_efficiency());
    let after = discharge_enthalpy(
        &feed.fluid,
        (&feed.pressure, &feed.evaporating + &feed.superheat, &feed.vapor),
        &discharge,
        &efficiency,
    );
    let [fluid, liquid, evaporating, superheat] = feed.inputs();
    entry("ideal-cop", "Coefficient of performance of the cycle", Group::System)
        .purpose(
            "The cold for each unit of work on the vapor, by pressures and temperatures alone: a mark to hold a measured one against. Fans, \
             motor losses and pressure drops are not in it.",
        )
        .inputs([fluid, liquid, evaporating, superheat, &discharge, &efficiency])
        .refuse(superheat.expr().below(too_little()), SUPERHEATED)
        .source(Mark::Physics, "refrigerating effect over the work of compression; enthalpies from the equation of state")
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("liquid temperature", "95 °F"),
                ("evaporating temperature", "45 °F"),
                ("superheat", "10 °F"),
                ("discharge pressure", "365 psig"),
                ("isentropic efficiency", "0.7"),
            ],
            "4.47 W/W",
        )
        .answer_in(
            "coefficient of performance",
            "COP",
            Kind::Efficiency,
            (&unit::WATT_PER_WATT, 2),
            (&unit::WATT_PER_WATT, 2),
            feed.effect() / (after - &feed.vapor),
        )
}
