//! Numbers that judge a whole system.

use super::asked::{capacity, no_degrees};
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::step;
use crate::trade::input::{Input, given, refrigerant};
use crate::trade::property;

fn outdoor() -> Input {
    given("outdoor temperature", "T_out", Kind::Temperature).about("of the air entering the condenser").between(
        -40.0,
        150.0,
        &unit::FAHRENHEIT,
    )
}

fn power() -> Input {
    given("power", "P", Kind::Power)
        .about("taken from the mains")
        .between(0.01, 10_000.0, &unit::KILOWATT)
        .shown((&unit::KILOWATT, 2), (&unit::KILOWATT, 2))
}

pub(super) fn discharge_superheat() -> Computation {
    let fluid = refrigerant();
    let pressure = given("discharge pressure", "p_d", Kind::Pressure);
    let temperature = given("discharge temperature", "T_d", Kind::Temperature)
        .between(-100.0, 500.0, &unit::FAHRENHEIT)
        .about("of the discharge line, about 6 in from the compressor");
    let dew = step("dew temperature", "T_c", Kind::Temperature, property::dew_temperature(&fluid, &pressure));
    let superheat = &temperature - dew;
    entry("discharge-superheat", "Discharge superheat", Group::System)
        .purpose(
            "How much warmer the discharge line is than the vapor would condense. Little of it means that liquid comes back to the compressor.",
        )
        .inputs([&fluid, &pressure, &temperature])
        .flag(
            superheat.below(crate::trade::expression::quantity(20.0, 0, &unit::FAHRENHEIT_OF_DIFFERENCE, "")),
            "below about 20 °F: with a scroll compressor this commonly means flooding",
        )
        .source(Mark::Physics, "temperature of the line less the dew temperature at its pressure")
        .worked(
            &[("refrigerant", "R-410A"), ("discharge pressure", "380 psig"), ("discharge temperature", "170 °F")],
            "57.1 °F",
        )
        .answer("discharge superheat", "DSH", Kind::TemperatureDifference, superheat)
}

pub(super) fn condensing_over_ambient() -> Computation {
    let (fluid, outdoor) = (refrigerant(), outdoor());
    let pressure = given("liquid pressure", "p_l", Kind::Pressure);
    let dew = step("condensing temperature", "T_c", Kind::Temperature, property::dew_temperature(&fluid, &pressure));
    entry("condensing-over-ambient", "Condensing over ambient", Group::System)
        .purpose(
            "How much warmer the refrigerant condenses (dew temperature) than the outdoor air. Commonly 15 to 20 °F for present comfort \
             equipment, 25 to 30 °F for older; more means a dirty condenser, too little air, too much charge, or air in the system.",
        )
        .inputs([&fluid, &pressure, &outdoor])
        .source(Mark::Physics, "dew temperature less that of the air; the usual figures are common practice")
        .worked(
            &[("refrigerant", "R-410A"), ("liquid pressure", "365 psig"), ("outdoor temperature", "90 °F")],
            "19.9 °F",
        )
        .answer("condensing over ambient", "COA", Kind::TemperatureDifference, dew - &outdoor)
}

pub(super) fn approach() -> Computation {
    let line = given("liquid line temperature", "T_line", Kind::Temperature)
        .about("where it leaves the condenser")
        .between(-40.0, 200.0, &unit::FAHRENHEIT);
    let outdoor = outdoor();
    let approach = &line - &outdoor;
    entry("approach", "Approach", Group::System)
        .purpose(
            "How near the liquid leaving the condenser comes to the outdoor air. The maker says what it should be.",
        )
        .inputs([&line, &outdoor])
        .flag(
            approach.below(no_degrees()),
            "the liquid is colder than the air that cools it, which cannot be: a reading is wrong",
        )
        .source(Mark::Physics, "definition")
        .worked(&[("liquid line temperature", "101 °F"), ("outdoor temperature", "92 °F")], "9.0 °F")
        .answer("approach", "ΔT", Kind::TemperatureDifference, approach)
}

pub(super) fn coil_temperature_difference() -> Computation {
    let fluid = refrigerant();
    let pressure = given("suction pressure", "p_s", Kind::Pressure);
    let air = given("return air temperature", "T_return", Kind::Temperature).between(-60.0, 150.0, &unit::FAHRENHEIT);
    let dew = step("evaporating temperature", "T_e", Kind::Temperature, property::dew_temperature(&fluid, &pressure));
    entry("coil-temperature-difference", "Temperature difference of the coil", Group::System)
        .purpose(
            "How much colder the refrigerant boils (dew temperature) than the air coming to the coil. About 35 °F is usual in comfort \
             cooling at 400 cfm/ton.",
        )
        .inputs([&fluid, &pressure, &air])
        .source(Mark::Physics, "temperature of the air less the dew temperature; the usual figure is common practice")
        .worked(
            &[("refrigerant", "R-410A"), ("suction pressure", "130 psig"), ("return air temperature", "78 °F")],
            "33.0 °F",
        )
        .answer("temperature difference", "TD", Kind::TemperatureDifference, &air - dew)
}

pub(super) fn cop() -> Computation {
    let (capacity, power) = (capacity(), power());
    entry("cop", "Coefficient of performance", Group::System)
        .purpose("The cold made for the electricity taken: EER in Btu/(W·h), coefficient of performance in W/W.")
        .inputs([&capacity, &power])
        .source(Mark::Physics, "definition")
        .worked(&[("capacity", "36000 Btu/h"), ("power", "3.2 kW")], "11.25 Btu/(W·h)")
        .answer("coefficient of performance", "COP", Kind::Efficiency, &capacity / &power)
}

pub(super) fn heat_rejection() -> Computation {
    let (capacity, power) = (capacity(), power());
    entry("heat-rejection", "Heat of rejection", Group::System)
        .purpose("The heat that the condenser must give off: what the coil took in, and the electricity that turned to heat on the way.")
        .inputs([&capacity, &power])
        .source(Mark::Physics, "energy balance")
        .worked(&[("capacity", "36000 Btu/h"), ("power", "3.2 kW")], "46,919 Btu/h")
        .answer("heat of rejection", "Q_c", Kind::Power, &capacity + &power)
}
