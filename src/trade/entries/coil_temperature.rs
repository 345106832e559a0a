//! Temperatures of a blend on its way through a coil: where it comes in, and what it is in the mean.

use super::asked::{evaporating_temperature, liquid_temperature};
use crate::quantity::Kind;
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, step};
use crate::trade::input::{Input, given, refrigerant};
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
        .source(Mark::Physics, "mean of bubble and dew temperature, by the refrigerant's saturation lines")
        .worked(&[("refrigerant", "R-407C"), ("pressure", "1700 kPag")], "43.6 °C")
        .answer("mid-point temperature", "T_mid", Kind::Temperature, &bubble + (&dew - &bubble) / 2.0)
}

const FLASH: &str = "throttling keeps enthalpy: the temperature at evaporator pressure of both phases together that have the \
                     liquid's enthalpy, from the equation of state";

/// Where a blend comes into the coil, part of it boiled already.
fn coil_inlet(fluid: &Input, liquid: &Input, evaporating: &Input) -> Expr {
    let pressure = step("evaporating pressure", "p_e", Kind::Pressure, property::dew_pressure(fluid, evaporating));
    let entering =
        step("enthalpy of the liquid", "h_4", Kind::SpecificEnthalpy, property::liquid_enthalpy(fluid, liquid));
    property::temperature_at_enthalpy(fluid, pressure, entering)
}

pub(super) fn coil_inlet_temperature() -> Computation {
    let (fluid, liquid, evaporating) = (refrigerant(), liquid_temperature(), evaporating_temperature());
    entry("coil-inlet-temperature", "Temperature at the coil's inlet", Group::Saturation)
        .purpose(
            "How cold a blend is where it comes out of the valve into the coil: between bubble and dew point, for part of it has boiled \
             already. It is the coldest place, where frost begins.",
        )
        .inputs([&fluid, &liquid, &evaporating])
        .source(Mark::Physics, FLASH)
        .worked(
            &[("refrigerant", "R-448A"), ("liquid temperature", "80 °F"), ("evaporating temperature", "20 °F")],
            "11.2 °F",
        )
        .answer("temperature at the inlet", "T_in", Kind::Temperature, coil_inlet(&fluid, &liquid, &evaporating))
}

pub(super) fn coil_mean_temperature() -> Computation {
    let (fluid, liquid, evaporating) = (refrigerant(), liquid_temperature(), evaporating_temperature());
    let inlet = step("temperature at the inlet", "T_in", Kind::Temperature, coil_inlet(&fluid, &liquid, &evaporating));
    entry("coil-mean-temperature", "Mean evaporating temperature", Group::Saturation)
        .purpose(
            "The mean of the temperatures at which a blend comes into the coil and boils dry: what the air sees. Compare refrigerants, and \
             coils, by it.",
        )
        .inputs([&fluid, &liquid, &evaporating])
        .source(Mark::Physics, FLASH)
        .worked(
            &[("refrigerant", "R-407C"), ("liquid temperature", "95 °F"), ("evaporating temperature", "40 °F")],
            "35.8 °F",
        )
        .answer(
            "mean evaporating temperature",
            "T_mean",
            Kind::Temperature,
            &inlet + (&evaporating - &inlet) / 2.0,
        )
}
