//! Where a refrigerant boils and condenses.

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::step;
use crate::trade::input::{Input, given, refrigerant};
use crate::trade::property;

const SOURCE: &str = "equilibrium of liquid and vapor, by the refrigerant's equation of state or its typed points";

fn temperature() -> Input {
    given("temperature", "T", Kind::Temperature)
}

fn pressure() -> Input {
    given("pressure", "p", Kind::Pressure)
}

pub(super) fn bubble_pressure() -> Computation {
    let (fluid, temperature) = (refrigerant(), temperature());
    entry("bubble-pressure", "Bubble pressure", Group::Saturation)
        .purpose(
            "The pressure at which liquid of this temperature forms its first bubble of vapor: what a liquid line or a condenser's \
             outlet stands at. For a pure refrigerant it is also the dew pressure.",
        )
        .inputs([&fluid, &temperature])
        .source(Mark::Physics, SOURCE)
        .worked(&[("refrigerant", "R-454B"), ("temperature", "100 °F")], "303 psig")
        .answer("bubble pressure", "p_bubble", Kind::Pressure, property::bubble_pressure(&fluid, &temperature))
}

pub(super) fn dew_pressure() -> Computation {
    let (fluid, temperature) = (refrigerant(), temperature());
    entry("dew-pressure", "Dew pressure", Group::Saturation)
        .purpose(
            "The pressure at which vapor of this temperature forms its first drop of liquid: what an evaporator's outlet stands at \
             when its superheat is nothing. For a pure refrigerant it is also the bubble pressure.",
        )
        .inputs([&fluid, &temperature])
        .source(Mark::Physics, SOURCE)
        .worked(&[("refrigerant", "R-454B"), ("temperature", "40 °F")], "107 psig")
        .answer("dew pressure", "p_sat", Kind::Pressure, property::dew_pressure(&fluid, &temperature))
}

pub(super) fn bubble_temperature() -> Computation {
    let (fluid, pressure) = (refrigerant(), pressure());
    entry("bubble-temperature", "Bubble temperature", Group::Saturation)
        .purpose(
            "The temperature at which liquid at this pressure forms its first bubble of vapor. Subcooling is counted down from it.",
        )
        .inputs([&fluid, &pressure])
        .source(Mark::Physics, SOURCE)
        .worked(&[("refrigerant", "R-290"), ("pressure", "12 barg")], "37.8 °C")
        .answer("bubble temperature", "T_bubble", Kind::Temperature, property::bubble_temperature(&fluid, &pressure))
}

pub(super) fn dew_temperature() -> Computation {
    let (fluid, pressure) = (refrigerant(), pressure());
    entry("dew-temperature", "Dew temperature", Group::Saturation)
        .purpose(
            "The temperature at which vapor at this pressure forms its first drop of liquid, and at which a blend's last drop boils \
             away. Superheat is counted up from it.",
        )
        .inputs([&fluid, &pressure])
        .source(Mark::Physics, SOURCE)
        .worked(&[("refrigerant", "R-1234yf"), ("pressure", "250 kPag")], "3.2 °C")
        .answer("dew temperature", "T_sat", Kind::Temperature, property::dew_temperature(&fluid, &pressure))
}

pub(super) fn glide() -> Computation {
    let (fluid, pressure) = (refrigerant(), pressure());
    let dew = step("dew temperature", "T_2", Kind::Temperature, property::dew_temperature(&fluid, &pressure));
    let bubble = step("bubble temperature", "T_1", Kind::Temperature, property::bubble_temperature(&fluid, &pressure));
    entry("glide", "Temperature glide", Group::Saturation)
        .purpose(
            "How far a blend's temperature rises while it boils at one pressure, from the first bubble to the last drop. Nothing for a \
             pure refrigerant; a blend with much of it must not be charged or checked by the wrong curve.",
        )
        .inputs([&fluid, &pressure])
        .source(Mark::Physics, "difference of dew and bubble temperature at one pressure, by the refrigerant's saturation lines")
        .worked(&[("refrigerant", "R-448A"), ("pressure", "55 psig")], "11.0 °F")
        .answer_in(
            "glide",
            "ΔT_glide",
            Kind::TemperatureDifference,
            (&unit::FAHRENHEIT_OF_DIFFERENCE, 1),
            (&unit::KELVIN_OF_DIFFERENCE, 1),
            dew - bubble,
        )
}
