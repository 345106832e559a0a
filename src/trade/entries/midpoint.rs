//! Mean temperatures of blends that glide.

use crate::quantity::Kind;
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::step;
use crate::trade::input::{given, refrigerant};
use crate::trade::property;

pub(super) fn midpoint_temperature() -> Computation {
    let (fluid, pressure) = (refrigerant(), given("pressure", "p", Kind::Pressure));
    let bubble = step("bubble temperature", "T_1", Kind::Temperature, property::bubble_temperature(&fluid, &pressure));
    let dew = step("dew temperature", "T_2", Kind::Temperature, property::dew_temperature(&fluid, &pressure));
    entry("midpoint-temperature", "Mid-point temperature", Group::Saturation)
        .purpose(
            "The mean of a blend's bubble and dew temperature at one pressure, by which condensers are commonly judged. A rating may go by \
             the mid-point or by the dew point: say which.",
        )
        .inputs([&fluid, &pressure])
        .source(Mark::Physics, "mean of bubble and dew temperature, from the equation of state")
        .worked(&[("refrigerant", "R-407C"), ("pressure", "1700 kPag")], "43.6 °C")
        .answer("mid-point temperature", "T_mid", Kind::Temperature, &bubble + (&dew - &bubble) / 2.0)
}
