//! The cycle around the valve: what each pound of refrigerant carries, and how many of them must go round.

use super::asked::{capacity, evaporating_temperature, liquid_temperature, no_degrees, superheat};
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Draft, Group, Mark, entry};
use crate::trade::expression::{Expr, choose, step};
use crate::trade::input::{Input, given, refrigerant};
use crate::trade::property;

/// The refrigerant from the valve to where the suction vapor is looked at.
pub(super) struct Feed {
    pub(super) fluid: Input,
    pub(super) liquid: Input,
    pub(super) evaporating: Input,
    pub(super) superheat: Input,
    /// Pressure of the suction vapor.
    pub(super) pressure: Expr,
    /// Enthalpy of the suction vapor.
    pub(super) vapor: Expr,
    /// Enthalpy of the liquid, which the valve leaves unchanged.
    pub(super) entering: Expr,
}

impl Feed {
    pub(super) fn new() -> Self {
        let (fluid, liquid, evaporating, superheat) =
            (refrigerant(), liquid_temperature(), evaporating_temperature(), superheat());
        let pressure =
            step("evaporating pressure", "p_e", Kind::Pressure, property::dew_pressure(&fluid, &evaporating));
        // On the dew line itself pressure and temperature don't tell liquid from vapor.
        let vapor = step(
            "enthalpy of the suction vapor",
            "h_1",
            Kind::SpecificEnthalpy,
            choose(
                superheat.expr().above(no_degrees()),
                property::enthalpy(&fluid, &pressure, &evaporating + &superheat),
                property::vapor_enthalpy(&fluid, &evaporating),
            ),
        );
        let entering =
            step("enthalpy of the liquid", "h_4", Kind::SpecificEnthalpy, property::liquid_enthalpy(&fluid, &liquid));
        Self { fluid, liquid, evaporating, superheat, pressure, vapor, entering }
    }

    pub(super) fn inputs(&self) -> [&Input; 4] {
        [&self.fluid, &self.liquid, &self.evaporating, &self.superheat]
    }

    /// Cold made by each pound.
    pub(super) fn effect(&self) -> Expr {
        &self.vapor - &self.entering
    }

    pub(super) fn effect_step(&self) -> Expr {
        step("refrigerating effect", "q", Kind::SpecificEnthalpy, self.effect())
    }

    /// Density of the suction vapor.
    pub(super) fn density(&self) -> Expr {
        step(
            "density of the suction vapor",
            "ρ_1",
            Kind::Density,
            choose(
                self.superheat.expr().above(no_degrees()),
                property::density(&self.fluid, &self.pressure, &self.evaporating + &self.superheat),
                property::vapor_density(&self.fluid, &self.evaporating),
            ),
        )
    }
}

const BALANCE: &str = "heat balance of the evaporator; throttling keeps enthalpy; enthalpies from the equation of state, \
                       the liquid taken as saturated at its temperature";

/// The share of the refrigerant that is vapor at evaporator pressure, on a straight line between bubble and dew.
fn flashed(fluid: &Input, entering: &Expr, evaporating: &Input) -> Expr {
    let pressure = step("evaporating pressure", "p_e", Kind::Pressure, property::dew_pressure(fluid, evaporating));
    let bubble = step(
        "enthalpy at the bubble point",
        "h_f",
        Kind::SpecificEnthalpy,
        property::liquid_enthalpy_at_pressure(fluid, &pressure),
    );
    let dew = step(
        "enthalpy at the dew point",
        "h_g",
        Kind::SpecificEnthalpy,
        property::vapor_enthalpy_at_pressure(fluid, &pressure),
    );
    (entering - &bubble) / (dew - &bubble)
}

pub(super) fn flash_fraction() -> Computation {
    let (fluid, liquid, evaporating) = (refrigerant(), liquid_temperature(), evaporating_temperature());
    let entering =
        step("enthalpy of the liquid", "h_4", Kind::SpecificEnthalpy, property::liquid_enthalpy(&fluid, &liquid));
    let share = flashed(&fluid, &entering, &evaporating);
    entry("flash-fraction", "Flash gas behind the valve", Group::Capacity)
        .purpose(
            "What share of the refrigerant, by mass, is already vapor when it leaves the valve, and so cools nothing in the coil. For a \
             blend with much glide the true share is a little smaller than this straight line.",
        )
        .inputs([&fluid, &liquid, &evaporating])
        .flag(share.below(0.0), "the liquid is colder than the evaporator: nothing flashes")
        .source(Mark::Physics, "throttling keeps enthalpy; enthalpies from the equation of state")
        .worked(
            &[("refrigerant", "R-22"), ("liquid temperature", "100 °F"), ("evaporating temperature", "40 °F")],
            "0.206",
        )
        .answer("flash fraction", "x", Kind::Ratio, share)
}

pub(super) fn flash_fraction_transcritical() -> Computation {
    let fluid = refrigerant();
    let pressure = given("gas cooler pressure", "p_gc", Kind::Pressure);
    let outlet = given("gas cooler outlet temperature", "T_gc", Kind::Temperature);
    let evaporating = evaporating_temperature();
    let entering = step(
        "enthalpy leaving the gas cooler",
        "h_4",
        Kind::SpecificEnthalpy,
        property::enthalpy(&fluid, &pressure, &outlet),
    );
    entry("flash-fraction-transcritical", "Flash gas behind a gas cooler", Group::Capacity)
        .purpose(
            "What share of the refrigerant is vapor behind the valve when the high side stands above the critical pressure, as with R-744 \
             in warm weather. Near the critical point the answer changes fast with pressure and temperature.",
        )
        .inputs([&fluid, &pressure, &outlet, &evaporating])
        .source(Mark::Physics, "throttling keeps enthalpy; enthalpies from the equation of state")
        .worked(
            &[
                ("refrigerant", "R-744"),
                ("gas cooler pressure", "9000 kPa"),
                ("gas cooler outlet temperature", "35 °C"),
                ("evaporating temperature", "-5 °C"),
            ],
            "0.45",
        )
        .answer("flash fraction", "x", Kind::Ratio, flashed(&fluid, &entering, &evaporating))
}

pub(super) fn net_refrigerating_effect() -> Computation {
    let feed = Feed::new();
    let effect = feed.effect();
    entry("net-refrigerating-effect", "Net refrigerating effect", Group::Capacity)
        .purpose(
            "The cold that each pound of refrigerant makes from the valve to where the superheat is taken. Superheat is counted as useful \
             only as far as that place.",
        )
        .inputs(feed.inputs())
        .source(Mark::Physics, BALANCE)
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("liquid temperature", "95 °F"),
                ("evaporating temperature", "45 °F"),
                ("superheat", "10 °F"),
            ],
            "74.2 Btu/lb",
        )
        .answer("net refrigerating effect", "q", Kind::SpecificEnthalpy, effect)
}

pub(super) fn mass_flow() -> Computation {
    let (feed, capacity) = (Feed::new(), capacity());
    let [fluid, liquid, evaporating, superheat] = feed.inputs();
    entry("mass-flow", "Flow of refrigerant", Group::Capacity)
        .purpose("How much refrigerant must go round to make so much cold.")
        .inputs([fluid, &capacity, liquid, evaporating, superheat])
        .source(Mark::Physics, BALANCE)
        .worked(
            &[
                ("refrigerant", "R-454B"),
                ("capacity", "10 kW"),
                ("liquid temperature", "35 °C"),
                ("evaporating temperature", "5 °C"),
                ("superheat", "5 K"),
            ],
            "48 g/s",
        )
        .answer("mass flow", "m", Kind::MassFlow, &capacity / feed.effect_step())
}

fn per_ton(draft: Draft, feed: &Feed) -> Draft {
    draft.inputs(feed.inputs()).source(Mark::Physics, BALANCE)
}

pub(super) fn mass_flow_per_ton() -> Computation {
    let feed = Feed::new();
    let draft = entry("mass-flow-per-ton", "Flow of refrigerant for each ton", Group::Capacity)
        .purpose("How much refrigerant goes round for each ton (or kilowatt) of cold.");
    per_ton(draft, &feed)
        .worked(
            &[
                ("refrigerant", "R-134a"),
                ("liquid temperature", "100 °F"),
                ("evaporating temperature", "20 °F"),
                ("superheat", "10 °F"),
            ],
            "3.18 lb/(min·ton)",
        )
        .answer("mass flow per ton", "m/Q", Kind::MassFlowPerCapacity, 1.0 / feed.effect_step())
}

pub(super) fn volumetric_capacity() -> Computation {
    let feed = Feed::new();
    let draft = entry("volumetric-capacity", "Volumetric capacity", Group::Capacity).purpose(
        "The cold that each volume of suction vapor stands for. It tells how large a compressor one refrigerant needs beside another.",
    );
    per_ton(draft, &feed)
        .worked(
            &[
                ("refrigerant", "R-32"),
                ("liquid temperature", "35 °C"),
                ("evaporating temperature", "5 °C"),
                ("superheat", "5 K"),
            ],
            "6429 kJ/m³",
        )
        .answer("volumetric capacity", "q_v", Kind::VolumetricCapacity, feed.effect_step() * feed.density())
}

pub(super) fn displacement_per_ton() -> Computation {
    let feed = Feed::new();
    let draft = entry("displacement-per-ton", "Displacement for each ton", Group::Capacity).purpose(
        "The volume of suction vapor that a compressor must take in for each ton (or kilowatt) of cold, at 100 % volumetric efficiency.",
    );
    per_ton(draft, &feed)
        .worked(
            &[
                ("refrigerant", "R-404A"),
                ("liquid temperature", "95 °F"),
                ("evaporating temperature", "-20 °F"),
                ("superheat", "10 °F"),
            ],
            "6.78 cfm/ton",
        )
        .answer_in(
            "displacement per ton",
            "V/Q",
            Kind::FlowPerCapacity,
            (&unit::CFM_PER_TON, 2),
            (&unit::LITER_PER_SECOND_KILOWATT, 3),
            1.0 / (feed.effect_step() * feed.density()),
        )
}

pub(super) fn compression_ratio() -> Computation {
    let suction = given("suction pressure", "p_s", Kind::Pressure).between(0.0, 3000.0, &unit::PSIA);
    let discharge = given("discharge pressure", "p_d", Kind::Pressure).between(0.0, 3000.0, &unit::PSIA);
    let ratio = &discharge / &suction;
    entry("compression-ratio", "Compression ratio", Group::Capacity)
        .purpose(
            "Discharge pressure against suction pressure, both above a vacuum. The same gauge readings give a higher ratio at altitude.",
        )
        .inputs([&suction, &discharge])
        .flag(ratio.below(1.0), "the discharge pressure is below the suction pressure: two readings may be swapped")
        .source(Mark::Physics, "definition; absolute pressures")
        .worked(&[("suction pressure", "15 psig"), ("discharge pressure", "220 psig")], "7.90")
        .answer_in("compression ratio", "r", Kind::Ratio, (&unit::NUMBER, 2), (&unit::NUMBER, 2), ratio)
}
