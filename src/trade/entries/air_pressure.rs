//! The air, and what gauges read against it.

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, constant, step};
use crate::trade::input::{altitude, given, refrigerant};
use crate::trade::property;

pub(super) fn atmospheric_pressure() -> Computation {
    let height = altitude();
    let sea_level = constant("p_0", 101.325, 3, &unit::KILOPASCAL, "pressure of the air at the sea");
    let warmth = constant("T_0", 288.15, 2, &unit::KELVIN, "temperature of the standard air at the sea");
    let cooling = constant("L", 0.0065, 4, &unit::KELVIN_PER_METER, "how fast the standard air cools with altitude");
    let pressure = sea_level * (1.0 - cooling * &height / warmth).to_the(5.255_88);
    entry("atmospheric-pressure", "Pressure of the air", Group::Pressure)
        .purpose(
            "How hard the air presses at an altitude. Every gauge reads against it. The weather moves the true figure by about 3 %; \
             a barometer's own reading, not reduced to sea level, is better where there is one.",
        )
        .inputs([&height])
        .source(Mark::Standard, "ISO 2533:1975, Standard atmosphere; the same as the US Standard Atmosphere, 1976")
        .worked(&[("altitude", "5000 ft")], "12.228 psia")
        .answer_in("pressure of the air", "p_air", Kind::Pressure, (&unit::PSIA, 3), (&unit::KILOPASCAL, 2), pressure)
}

pub(super) fn absolute_pressure() -> Computation {
    let reading = given("pressure", "p_g", Kind::Pressure)
        .as_gauge()
        .between(0.0, 15_000.0, &unit::PSIA)
        .about("what the gauge shows");
    entry("absolute-pressure", "Absolute pressure", Group::Pressure)
        .purpose(
            "The pressure above a perfect vacuum that a gauge reading stands for. Ratios, gas laws and tables of properties ask for it.",
        )
        .inputs([&reading])
        .source(Mark::Physics, "a gauge shows the difference between the pressure and the air around the gauge")
        .worked(&[("pressure", "118 psig"), ("altitude", "5000 ft")], "130.23 psia")
        .answer_in(
            "absolute pressure",
            "p",
            Kind::Pressure,
            (&unit::PSIA, 2),
            (&unit::KILOPASCAL, 1),
            &reading + Expr::air(),
        )
}

pub(super) fn vacuum_conversion() -> Computation {
    let pressure = given("pressure", "p", Kind::Pressure)
        .between(0.0, 15_000.0, &unit::PSIA)
        .about("in any unit: inches of vacuum, microns, psia, kPa");
    entry("vacuum-conversion", "Vacuum in other units", Group::Pressure)
        .purpose(
            "A pressure below that of the air in the unit of another instrument: inches of mercury of vacuum on a compound gauge, \
             microns on a vacuum gauge, absolute pressure. Inches of vacuum are counted down from the local air, so the same number \
             is another pressure at another altitude.",
        )
        .inputs([&pressure])
        .flag(
            pressure.expr().above(Expr::air()),
            "this is more than the pressure of the air: there is no vacuum to speak of",
        )
        .source(
            Mark::Physics,
            "a vacuum reading is counted down from the air around the gauge; conventional inch of mercury, 3386.389 Pa",
        )
        .worked(&[("pressure", "10 inHg vac")], "9.784 psia")
        .answer_in(
            "absolute pressure",
            "p_abs",
            Kind::Pressure,
            (&unit::PSIA, 4),
            (&unit::KILOPASCAL, 3),
            pressure.expr(),
        )
}

pub(super) fn altitude_chart_error() -> Computation {
    let fluid = refrigerant();
    let reading = given("suction pressure", "p_g", Kind::Pressure).as_gauge().about("what the gauge shows");
    let sea_level = constant("p_0", 101.325, 3, &unit::KILOPASCAL, "pressure of the air at the sea");
    let charted = step(
        "boiling point by the chart",
        "T_chart",
        Kind::Temperature,
        property::dew_temperature(&fluid, &reading + sea_level),
    );
    let true_one =
        step("true boiling point", "T_e", Kind::Temperature, property::dew_temperature(&fluid, &reading + Expr::air()));
    entry("altitude-chart-error", "A sea-level chart used at altitude", Group::Pressure)
        .purpose(
            "By how much a pressure-temperature chart printed for the sea reads too warm at this altitude. The refrigerant boils colder \
             than the chart says, so the true superheat is larger than the one read by it, by this much.",
        )
        .inputs([&fluid, &reading])
        .source(
            Mark::Physics,
            "a printed chart adds the sea's air to the gauge reading, and the gauge read against the local air",
        )
        .worked(
            &[("refrigerant", "R-134a"), ("suction pressure", "20 psig"), ("altitude", "5000 ft")],
            "3.5 °F",
        )
        .answer("error of the chart", "ΔT", Kind::TemperatureDifference, charted - true_one)
}
