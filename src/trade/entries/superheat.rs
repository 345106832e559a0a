//! Superheat and subcooling, the two differences a technician reads.

use super::asked::no_degrees;
use crate::quantity::Kind;
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::step;
use crate::trade::input::{given, refrigerant};
use crate::trade::property;

pub(super) fn superheat() -> Computation {
    let fluid = refrigerant();
    let pressure = given("suction pressure", "p_s", Kind::Pressure)
        .about("at the place where the temperature of the line is taken, or corrected to it");
    let line = given("suction line temperature", "T_line", Kind::Temperature)
        .about("of the tube itself, clean, with the probe strapped on and covered");
    let boiling = step("dew temperature", "T_e", Kind::Temperature, property::dew_temperature(&fluid, &pressure));
    let superheat = &line - &boiling;
    entry("superheat", "Superheat", Group::Saturation)
        .purpose(
            "How much warmer the vapor in the suction line is than the temperature at which the last of the refrigerant boiled away. \
             At the bulb it tells how well the coil is fed; at the compressor, whether liquid can come back.",
        )
        .inputs([&fluid, &pressure, &line])
        .flag(
            superheat.below(no_degrees()),
            "the line is colder than the refrigerant boils: liquid is in the suction line, or a reading or the curve is wrong",
        )
        .source(
            Mark::Physics,
            "temperature of the line less the dew temperature at its pressure, by the refrigerant's saturation lines",
        )
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("suction pressure", "118 psig"),
                ("suction line temperature", "52 °F"),
            ],
            "12.2 °F",
        )
        .answer("superheat", "SH", Kind::TemperatureDifference, superheat)
}

pub(super) fn subcooling() -> Computation {
    let fluid = refrigerant();
    let pressure = given("liquid pressure", "p_l", Kind::Pressure)
        .about("at the place where the temperature of the line is taken");
    let line = given("liquid line temperature", "T_line", Kind::Temperature)
        .about("of the tube itself, clean, with the probe strapped on and covered");
    let condensing =
        step("bubble temperature", "T_c", Kind::Temperature, property::bubble_temperature(&fluid, &pressure));
    let subcooling = &condensing - &line;
    entry("subcooling", "Subcooling", Group::Saturation)
        .purpose(
            "How much colder the liquid is than the temperature at which its first bubble would form. It tells how much charge stands \
             in the condenser, and how much pressure the liquid can lose on its way before gas forms.",
        )
        .inputs([&fluid, &pressure, &line])
        .flag(
            subcooling.below(no_degrees()),
            "the line is warmer than the first bubble: gas is in the liquid line, or a reading or the curve is wrong",
        )
        .source(
            Mark::Physics,
            "bubble temperature at the pressure of the line less the temperature of the line, by the refrigerant's saturation lines",
        )
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("liquid pressure", "340 psig"),
                ("liquid line temperature", "95 °F"),
            ],
            "9.6 °F",
        )
        .answer("subcooling", "SC", Kind::TemperatureDifference, subcooling)
}

pub(super) fn superheat_wrong_curve() -> Computation {
    let fluid = refrigerant();
    let pressure = given("suction pressure", "p_s", Kind::Pressure);
    let line = given("suction line temperature", "T_line", Kind::Temperature);
    let bubble = step("bubble temperature", "T_1", Kind::Temperature, property::bubble_temperature(&fluid, &pressure));
    entry("superheat-wrong-curve", "Superheat read on the wrong curve", Group::Saturation)
        .purpose(
            "What a blend's superheat seems to be when it is counted from the bubble column of the table. It is too much by the whole \
             glide, and who trusts it opens the valve until liquid comes back.",
        )
        .inputs([&fluid, &pressure, &line])
        .source(Mark::Physics, "temperature of the line less the bubble temperature, which is the wrong one here")
        .worked(
            &[
                ("refrigerant", "R-407C"),
                ("suction pressure", "63.15 psig"),
                ("suction line temperature", "50 °F"),
            ],
            "21.1 °F",
        )
        .answer("superheat it seems to have", "SH_wrong", Kind::TemperatureDifference, &line - &bubble)
}

pub(super) fn subcooling_wrong_curve() -> Computation {
    let fluid = refrigerant();
    let pressure = given("liquid pressure", "p_l", Kind::Pressure);
    let line = given("liquid line temperature", "T_line", Kind::Temperature);
    let dew = step("dew temperature", "T_2", Kind::Temperature, property::dew_temperature(&fluid, &pressure));
    entry("subcooling-wrong-curve", "Subcooling read on the wrong curve", Group::Saturation)
        .purpose(
            "What a blend's subcooling seems to be when it is counted from the dew column of the table. It is too much by the whole \
             glide: bubbles in the sight glass at a good figure on paper.",
        )
        .inputs([&fluid, &pressure, &line])
        .source(Mark::Physics, "dew temperature, which is the wrong one here, less the temperature of the line")
        .worked(
            &[
                ("refrigerant", "R-448A"),
                ("liquid pressure", "260 psig"),
                ("liquid line temperature", "90 °F"),
            ],
            "23.4 °F",
        )
        .answer("subcooling it seems to have", "SC_wrong", Kind::TemperatureDifference, dew - &line)
}
