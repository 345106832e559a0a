//! Properties of a refrigerant as they are tabulated: density, enthalpy, entropy and heat capacity.

use crate::quantity::Kind;
use crate::trade::computation::{Computation, Draft, Group, Mark, entry};
use crate::trade::input::{Input, given, refrigerant};
use crate::trade::property;

const SATURATED: &str = "from the refrigerant's equation of state, at equilibrium of liquid and vapor";
const SINGLE: &str = "from the refrigerant's equation of state";

/// Liquid at its bubble point or vapor at its dew point, at a temperature.
fn saturated(name: &'static str, title: &'static str, purpose: &'static str) -> (Draft, Input, Input) {
    let (fluid, temperature) = (refrigerant(), given("temperature", "T", Kind::Temperature));
    let draft = entry(name, title, Group::Properties)
        .purpose(purpose)
        .inputs([&fluid, &temperature])
        .source(Mark::Physics, SATURATED);
    (draft, fluid, temperature)
}

/// One phase at a pressure and a temperature.
fn single(name: &'static str, title: &'static str, purpose: &'static str) -> (Draft, Input, Input, Input) {
    let fluid = refrigerant();
    let (pressure, temperature) =
        (given("pressure", "p", Kind::Pressure), given("temperature", "T", Kind::Temperature));
    let draft = entry(name, title, Group::Properties)
        .purpose(purpose)
        .inputs([&fluid, &pressure, &temperature])
        .source(Mark::Physics, SINGLE);
    (draft, fluid, pressure, temperature)
}

pub(super) fn liquid_density() -> Computation {
    let (draft, fluid, temperature) = saturated(
        "liquid-density",
        "Density of saturated liquid",
        "What a cubic foot of liquid at its bubble point weighs: what a receiver or a liquid line holds.",
    );
    draft.worked(&[("refrigerant", "R-410A"), ("temperature", "40 °F")], "71.91 lb/ft³").answer(
        "liquid density",
        "ρ_1",
        Kind::Density,
        property::liquid_density(&fluid, &temperature),
    )
}

pub(super) fn vapor_density() -> Computation {
    let (draft, fluid, temperature) = saturated(
        "vapor-density",
        "Density of saturated vapor",
        "What a cubic foot of vapor at its dew point weighs: what a compressor draws in at each turn when it has no superheat.",
    );
    draft.worked(&[("refrigerant", "R-410A"), ("temperature", "40 °F")], "2.20 lb/ft³").answer(
        "vapor density",
        "ρ_2",
        Kind::Density,
        property::vapor_density(&fluid, &temperature),
    )
}

pub(super) fn vapor_volume() -> Computation {
    let (draft, fluid, temperature) = saturated(
        "vapor-volume",
        "Specific volume of saturated vapor",
        "How much room a pound of vapor at its dew point takes: what a compressor's displacement is filled with.",
    );
    draft.worked(&[("refrigerant", "R-410A"), ("temperature", "40 °F")], "0.455 ft³/lb").answer(
        "vapor volume",
        "v_2",
        Kind::SpecificVolume,
        1.0 / property::vapor_density(&fluid, &temperature),
    )
}

pub(super) fn liquid_enthalpy() -> Computation {
    let (draft, fluid, temperature) = saturated(
        "liquid-enthalpy",
        "Enthalpy of saturated liquid",
        "The heat in liquid at its bubble point, counted from an agreed zero. Only differences of enthalpies counted from the \
         same zero mean anything.",
    );
    draft.worked(&[("refrigerant", "R-134a"), ("temperature", "0 °C")], "200.0 kJ/kg").answer(
        "liquid enthalpy",
        "h_1",
        Kind::SpecificEnthalpy,
        property::liquid_enthalpy(&fluid, &temperature),
    )
}

pub(super) fn vapor_enthalpy() -> Computation {
    let (draft, fluid, temperature) = saturated(
        "vapor-enthalpy",
        "Enthalpy of saturated vapor",
        "The heat in vapor at its dew point, counted from the same zero as that of liquid.",
    );
    draft.worked(&[("refrigerant", "R-134a"), ("temperature", "0 °C")], "398.6 kJ/kg").answer(
        "vapor enthalpy",
        "h_2",
        Kind::SpecificEnthalpy,
        property::vapor_enthalpy(&fluid, &temperature),
    )
}

pub(super) fn liquid_entropy() -> Computation {
    let (draft, fluid, temperature) = saturated(
        "liquid-entropy",
        "Entropy of saturated liquid",
        "The entropy of liquid at its bubble point, counted from an agreed zero.",
    );
    draft.worked(&[("refrigerant", "R-134a"), ("temperature", "0 °C")], "1.0000 kJ/(kg·K)").answer(
        "liquid entropy",
        "s_1",
        Kind::SpecificEntropy,
        property::liquid_entropy(&fluid, &temperature),
    )
}

pub(super) fn vapor_entropy() -> Computation {
    let (draft, fluid, temperature) = saturated(
        "vapor-entropy",
        "Entropy of saturated vapor",
        "The entropy of vapor at its dew point: compressed without loss or cooling, it keeps it.",
    );
    draft.worked(&[("refrigerant", "R-134a"), ("temperature", "0 °C")], "1.7271 kJ/(kg·K)").answer(
        "vapor entropy",
        "s_2",
        Kind::SpecificEntropy,
        property::vapor_entropy(&fluid, &temperature),
    )
}

pub(super) fn density() -> Computation {
    let (draft, fluid, pressure, temperature) =
        single("density", "Density", "What a cubic foot of subcooled liquid or superheated vapor weighs.");
    draft
        .worked(&[("refrigerant", "R-410A"), ("pressure", "118 psig"), ("temperature", "52 °F")], "2.09 lb/ft³")
        .answer("density", "ρ_1", Kind::Density, property::density(&fluid, &pressure, &temperature))
}

pub(super) fn enthalpy() -> Computation {
    let (draft, fluid, pressure, temperature) = single(
        "enthalpy",
        "Enthalpy",
        "The heat in subcooled liquid or superheated vapor, counted from an agreed zero. What the evaporator takes up is the \
         difference of two of these.",
    );
    draft
        .worked(&[("refrigerant", "R-410A"), ("pressure", "118 psig"), ("temperature", "52 °F")], "184.9 Btu/lb")
        .answer("enthalpy", "h_1", Kind::SpecificEnthalpy, property::enthalpy(&fluid, &pressure, &temperature))
}

pub(super) fn entropy() -> Computation {
    let (draft, fluid, pressure, temperature) = single(
        "entropy",
        "Entropy",
        "The entropy of subcooled liquid or superheated vapor, counted from an agreed zero.",
    );
    draft
        .worked(&[("refrigerant", "R-410A"), ("pressure", "118 psig"), ("temperature", "52 °F")], "0.4369 Btu/(lb·°F)")
        .answer("entropy", "s_1", Kind::SpecificEntropy, property::entropy(&fluid, &pressure, &temperature))
}

pub(super) fn heat_capacity() -> Computation {
    let (draft, fluid, pressure, temperature) = single(
        "heat-capacity",
        "Specific heat",
        "The heat that a pound of subcooled liquid or superheated vapor takes up for each degree, its pressure held.",
    );
    draft
        .worked(&[("refrigerant", "R-410A"), ("pressure", "118 psig"), ("temperature", "52 °F")], "0.2611 Btu/(lb·°F)")
        .answer("heat capacity", "c_1", Kind::SpecificEntropy, property::heat_capacity(&fluid, &pressure, &temperature))
}

pub(super) fn viscosity() -> Computation {
    let (draft, fluid, pressure, temperature) = single(
        "viscosity",
        "Viscosity",
        "How stiffly subcooled liquid or superheated vapor flows, which with its density settles what a line takes. Only pure \
         refrigerants with a published correlation have one; of blends none is published, and none is guessed.",
    );
    draft
        .source(Mark::Physics, "from the correlation named on the refrigerant's leaf")
        .worked(&[("refrigerant", "R-134a"), ("pressure", "20 psig"), ("temperature", "40 °F")], "10.94 µPa·s")
        .answer("viscosity", "μ_1", Kind::Viscosity, property::viscosity(&fluid, &pressure, &temperature))
}
