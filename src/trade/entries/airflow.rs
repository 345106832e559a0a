//! Air over the coil: what it carries, and how much of it there is.

use super::asked::capacity;
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, constant, step};
use crate::trade::input::{Input, given};

/// Density of standard air at the local pressure.
fn air_density() -> Expr {
    let standard = constant("ρ_0", 0.075, 3, &unit::POUND_PER_CUBIC_FOOT, "density of standard air");
    let sea_level = constant("p_0", 101.325, 3, &unit::KILOPASCAL, "pressure of the air at the sea");
    standard * (Expr::air() / sea_level)
}

fn air_heat() -> Expr {
    constant("c_p", 0.24, 2, &unit::BTU_PER_POUND_FAHRENHEIT, "specific heat of dry air")
}

fn sensible() -> Expr {
    step("sensible heat factor", "k_s", Kind::SensibleFactor, air_density() * air_heat())
}

const STANDARD_AIR: &str =
    "dry air of 0.075 lb/ft³ and 0.240 Btu/(lb·°F) at the sea, its density falling with the pressure of the air";

pub(super) fn sensible_factor() -> Computation {
    let altitude = crate::trade::input::altitude();
    entry("sensible-factor", "Sensible heat factor of air", Group::Air)
        .purpose(
            "What each unit of airflow carries for each degree of temperature difference: the 1.08 of the trade, at the local altitude. \
             Moist air carries about 2 % more.",
        )
        .inputs([&altitude])
        .source(Mark::Physics, STANDARD_AIR)
        .worked(&[("altitude", "5000 ft")], "0.899 Btu/(h·cfm·°F)")
        .answer("sensible heat factor", "k_s", Kind::SensibleFactor, air_density() * air_heat())
}

pub(super) fn total_factor() -> Computation {
    let altitude = crate::trade::input::altitude();
    entry("total-factor", "Total heat factor of air", Group::Air)
        .purpose(
            "What each unit of airflow carries for each Btu/lb (kJ/kg) of enthalpy difference: the 4.5 of the trade, at the local altitude.",
        )
        .inputs([&altitude])
        .source(Mark::Physics, STANDARD_AIR)
        .worked(&[("altitude", "7000 ft")], "3.472 lb/(h·cfm)")
        .answer("total heat factor", "k_t", Kind::TotalFactor, air_density())
}

fn moved() -> Input {
    given("airflow", "V_air", Kind::VolumeFlow).between(1.0, 1_000_000.0, &unit::CUBIC_FOOT_PER_MINUTE)
}

pub(super) fn sensible_heat() -> Computation {
    let airflow = moved();
    let change = given("temperature difference", "ΔT", Kind::TemperatureDifference)
        .about("of the air in front of the coil and behind it, by dry bulb")
        .between(0.1, 200.0, &unit::FAHRENHEIT_OF_DIFFERENCE);
    let heat = sensible() * &airflow * &change;
    entry("sensible-heat", "Sensible heat of moving air", Group::Air)
        .purpose(
            "What the air gives up or takes on by its temperature alone. At altitude the same fan moves fewer pounds of air, and so less heat.",
        )
        .inputs([&airflow, &change])
        .source(Mark::Physics, STANDARD_AIR)
        .worked(&[("airflow", "1200 cfm"), ("temperature difference", "20 °F"), ("altitude", "5000 ft")], "21,567 Btu/h")
        .answer("sensible heat", "Q_s", Kind::Power, heat)
}

pub(super) fn total_heat() -> Computation {
    let airflow = moved();
    let change = given("enthalpy difference", "Δh", Kind::SpecificEnthalpy)
        .about("of the air in front of the coil and behind it, by wet bulb")
        .between(0.1, 100.0, &unit::BTU_PER_POUND);
    let factor = step("total heat factor", "k_t", Kind::TotalFactor, air_density());
    entry("total-heat", "Total heat of moving air", Group::Air)
        .purpose(
            "What the air gives up or takes on, its moisture counted: airflow times the difference of enthalpies, at the local altitude. \
             A coil's capacity by moist air's own density is the finer sum.",
        )
        .inputs([&airflow, &change])
        .source(Mark::Physics, STANDARD_AIR)
        .worked(&[("airflow", "1200 cfm"), ("enthalpy difference", "7 Btu/lb"), ("altitude", "5000 ft")], "31,451 Btu/h")
        .answer("total heat", "Q_t", Kind::Power, factor * &airflow * &change)
}

fn rise() -> Input {
    given("temperature rise", "ΔT", Kind::TemperatureDifference)
        .about("of the air, both thermometers out of sight of the heater")
        .between(1.0, 200.0, &unit::FAHRENHEIT_OF_DIFFERENCE)
}

pub(super) fn airflow_electric() -> Computation {
    let volts = given("volts", "V", Kind::Voltage).between(1.0, 1000.0, &unit::VOLT);
    let amps = given("amps", "I", Kind::Current).between(0.1, 1000.0, &unit::AMPERE);
    let rise = rise();
    let heat = step("heat", "Q", Kind::Power, &volts * &amps);
    entry("airflow-electric", "Airflow by electric heat", Group::Air)
        .purpose(
            "How much air moves, from how far electric heaters warm it. For single-phase resistance heat; add the blower's power where \
             it is measured along with them.",
        )
        .inputs([&volts, &amps, &rise])
        .source(Mark::Physics, STANDARD_AIR)
        .worked(&[("volts", "238 V"), ("amps", "40.5 A"), ("temperature rise", "26 °F")], "1171 cfm")
        .answer("airflow", "V_air", Kind::VolumeFlow, heat / (sensible() * &rise))
}

pub(super) fn airflow_furnace() -> Computation {
    let rate = given("input rate", "Q_in", Kind::Power).about("of fuel, as clocked at the meter").between(
        1000.0,
        10_000_000.0,
        &unit::BTU_PER_HOUR,
    );
    let efficiency = given("efficiency", "η", Kind::Ratio).between(0.3, 1.0, &unit::NUMBER);
    let rise = rise();
    entry("airflow-furnace", "Airflow by a furnace", Group::Air)
        .purpose("How much air moves, from how far a fuel-fired furnace warms it.")
        .inputs([&rate, &efficiency, &rise])
        .source(Mark::Physics, STANDARD_AIR)
        .worked(&[("input rate", "80000 Btu/h"), ("efficiency", "0.8"), ("temperature rise", "55 °F")], "1077 cfm")
        .answer("airflow", "V_air", Kind::VolumeFlow, &rate * &efficiency / (sensible() * &rise))
}

pub(super) fn airflow_per_ton() -> Computation {
    let airflow = moved();
    let capacity = capacity();
    let per_ton = &airflow / &capacity;
    entry("airflow-per-ton", "Airflow for each ton", Group::Air)
        .purpose(
            "Air over the coil for each ton (or kilowatt) of cold. Commonly 350 to 450 cfm/ton: less where it is humid, more where it is dry.",
        )
        .inputs([&airflow, &capacity])
        .source(Mark::Physics, "definition; the usual range is common practice")
        .worked(&[("airflow", "1140 cfm"), ("capacity", "36000 Btu/h")], "380 cfm/ton")
        .answer("airflow per ton", "V/Q", Kind::FlowPerCapacity, per_ton)
}

pub(super) fn temperature_split() -> Computation {
    let share = given("sensible heat ratio", "SHR", Kind::Ratio)
        .about("share of the coil's work that cools the air; the rest takes water out of it")
        .between(0.4, 1.0, &unit::NUMBER);
    let per_ton = given("airflow per ton", "V/Q", Kind::FlowPerCapacity).between(100.0, 1000.0, &unit::CFM_PER_TON);
    entry("temperature-split", "Temperature split over a coil", Group::Air)
        .purpose(
            "How much colder the air leaves the coil than it came, when the coil gives what its airflow was counted on. It grows as the \
             air gets drier and as there is less of it.",
        )
        .inputs([&share, &per_ton])
        .source(Mark::Physics, STANDARD_AIR)
        .worked(
            &[("sensible heat ratio", "75 %"), ("airflow per ton", "400 cfm/ton"), ("altitude", "0 ft")],
            "20.8 °F",
        )
        .answer("temperature split", "ΔT_split", Kind::TemperatureDifference, &share / (sensible() * &per_ton))
}
