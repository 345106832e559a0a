//! What an expansion valve passes, and whether the liquid reaches it with the pressure it needs.

use super::asked::{
    condensing_temperature, evaporating_temperature, gravity, lift, liquid_temperature, loss, no_degrees, no_pressure,
    superheat,
};
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, choose, quantity, step};
use crate::trade::input::{Input, given, refrigerant};
use crate::trade::property;

fn rated_drop() -> Input {
    given("rated pressure drop", "Δp_rated", Kind::PressureDifference).about("across the valve, at its rating").between(
        1.0,
        600.0,
        &unit::PSI,
    )
}

fn valve_drop() -> Input {
    given("pressure drop", "Δp", Kind::PressureDifference).about("across the valve's port, as it is").between(
        1.0,
        600.0,
        &unit::PSI,
    )
}

fn rated_capacity() -> Input {
    given("capacity", "Q_rated", Kind::Power)
        .about("the valve's, at its rating")
        .between(0.01, 1000.0, &unit::TON_OF_REFRIGERATION)
        .shown((&unit::TON_OF_REFRIGERATION, 2), (&unit::KILOWATT, 2))
}

fn rated_liquid() -> Input {
    given("rated liquid temperature", "T_l,rated", Kind::Temperature)
        .about("of the liquid in front of the valve, at its rating")
}

pub(super) fn txv_capacity_at_pressure_drop() -> Computation {
    let (capacity, rated, actual) = (rated_capacity(), rated_drop(), valve_drop());
    let share = &actual / &rated;
    entry("txv-capacity-at-pressure-drop", "Valve capacity at another pressure drop", Group::Capacity)
        .purpose(
            "What a valve passes at a pressure drop other than the one it is rated at. It counts the port's own drop: take distributor, \
             tubes, line and lift off first.",
        )
        .inputs([&capacity, &rated, &actual])
        .flag(
            share.below(0.4),
            "this is less than 40 % of the rated drop, where the rule is commonly no longer trusted: flash gas is likely in front of the port",
        )
        .flag(share.above(2.0), "this is more than twice the rated drop, where the rule is commonly no longer trusted")
        .source(Mark::Physics, "flow of a liquid through an orifice goes with the square root of the pressure drop")
        .worked(
            &[("capacity", "3 ton"), ("rated pressure drop", "160 psi"), ("pressure drop", "110 psi")],
            "2.49 ton",
        )
        .answer_in(
            "capacity",
            "Q",
            Kind::Power,
            (&unit::TON_OF_REFRIGERATION, 2),
            (&unit::KILOWATT, 2),
            &capacity * share.root(),
        )
}

pub(super) fn txv_capacity_at_superheat() -> Computation {
    let capacity = given("capacity", "Q_full", Kind::Power)
        .about("the valve's at its rated opening, at the pressure drop it has")
        .between(0.01, 1000.0, &unit::TON_OF_REFRIGERATION)
        .shown((&unit::TON_OF_REFRIGERATION, 2), (&unit::KILOWATT, 2));
    let degrees = |name, symbol| {
        given(name, symbol, Kind::TemperatureDifference).between(0.0, 60.0, &unit::FAHRENHEIT_OF_DIFFERENCE)
    };
    let still = degrees("static superheat", "SH_static").about("the superheat at which the port just opens");
    let opening = degrees("opening superheat", "SH_open").about("what more it takes to the rated opening");
    let superheat = superheat();
    let beyond = step("superheat beyond the static", "SH_beyond", Kind::TemperatureDifference, &superheat - &still);
    entry("txv-capacity-at-superheat", "Valve capacity as it opens", Group::Capacity)
        .purpose(
            "What a valve passes when it is open part of the way: in proportion to the superheat beyond the static superheat. Past its \
             rated opening a valve has some reserve, which only the maker knows.",
        )
        .inputs([&capacity, &still, &opening, &superheat])
        .refuse(opening.expr().below(quantity(0.1, 1, &unit::FAHRENHEIT_OF_DIFFERENCE, "")), "a valve takes some superheat to open")
        .flag(beyond.above(&opening), "this is past the rated opening: the valve is on its reserve, and passes less than this straight line")
        .source(Mark::CommonPractice, "the pin's stroke taken as even in superheat, and the port as even in stroke")
        .worked(
            &[
                ("capacity", "3 ton"),
                ("static superheat", "6 °F"),
                ("opening superheat", "4 °F"),
                ("superheat", "8 °F"),
            ],
            "1.50 ton",
        )
        .answer_in(
            "capacity",
            "Q",
            Kind::Power,
            (&unit::TON_OF_REFRIGERATION, 2),
            (&unit::KILOWATT, 2),
            choose(beyond.below(no_degrees()), &capacity * 0.0, &capacity * (&beyond / &opening)),
        )
}

pub(super) fn liquid_temperature_correction() -> Computation {
    let (fluid, evaporating, rated, liquid) =
        (refrigerant(), evaporating_temperature(), rated_liquid(), liquid_temperature());
    let vapor =
        step("enthalpy of the vapor", "h_1", Kind::SpecificEnthalpy, property::vapor_enthalpy(&fluid, &evaporating));
    let warm = step(
        "enthalpy of the liquid at the rating",
        "h_l,rated",
        Kind::SpecificEnthalpy,
        property::liquid_enthalpy(&fluid, &rated),
    );
    let actual =
        step("enthalpy of the liquid", "h_l", Kind::SpecificEnthalpy, property::liquid_enthalpy(&fluid, &liquid));
    entry("liquid-temperature-correction", "Correction for the temperature of the liquid", Group::Capacity)
        .purpose(
            "By what a valve's rated capacity is multiplied when the liquid comes colder or warmer than at the rating. Colder liquid \
             carries more cold in each pound. Where the maker prints a table, take his.",
        )
        .inputs([&fluid, &evaporating, &rated, &liquid])
        .source(Mark::Physics, "ratio of the refrigerating effects of each pound, saturated suction vapor; the port's flow taken as unchanged")
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("evaporating temperature", "40 °F"),
                ("rated liquid temperature", "100 °F"),
                ("liquid temperature", "80 °F"),
            ],
            "1.12",
        )
        .answer("correction", "CF", Kind::Ratio, (&vapor - actual) / (&vapor - warm))
}

pub(super) fn txv_capacity() -> Computation {
    let (fluid, capacity, rated, actual) = (refrigerant(), rated_capacity(), rated_drop(), valve_drop());
    let (rated_liquid, liquid, evaporating) = (rated_liquid(), liquid_temperature(), evaporating_temperature());
    let rated_evaporating = given("rated evaporating temperature", "T_e,rated", Kind::Temperature)
        .about("dew temperature in the evaporator, at the valve's rating");
    let effect = |evaporating: &Input, liquid: &Input| {
        property::vapor_enthalpy(&fluid, evaporating) - property::liquid_enthalpy(&fluid, liquid)
    };
    let at_rating = step(
        "refrigerating effect at the rating",
        "q_rated",
        Kind::SpecificEnthalpy,
        effect(&rated_evaporating, &rated_liquid),
    );
    let here = step("refrigerating effect", "q", Kind::SpecificEnthalpy, effect(&evaporating, &liquid));
    let dense = step(
        "density of the liquid at the rating",
        "ρ_rated",
        Kind::Density,
        property::liquid_density(&fluid, &rated_liquid),
    );
    let now = step("density of the liquid", "ρ_l", Kind::Density, property::liquid_density(&fluid, &liquid));
    let flow = step("flow against the rated flow", "m_rel", Kind::Ratio, ((now / dense) * (&actual / &rated)).root());
    entry("txv-capacity", "Valve capacity away from its rating", Group::Capacity)
        .purpose(
            "What a valve makes of its rated capacity at another pressure drop, liquid temperature and evaporating temperature. The port \
             must be full of liquid. Where the maker prints tables, take his and say so.",
        )
        .inputs([&fluid, &capacity, &rated, &rated_liquid, &rated_evaporating, &actual, &liquid, &evaporating])
        .source(Mark::Physics, "flow through an orifice goes with the square root of density times pressure drop; capacity is flow times refrigerating effect")
        .worked(
            &[
                ("refrigerant", "R-404A"),
                ("capacity", "2 ton"),
                ("rated pressure drop", "100 psi"),
                ("rated liquid temperature", "100 °F"),
                ("rated evaporating temperature", "20 °F"),
                ("pressure drop", "75 psi"),
                ("liquid temperature", "110 °F"),
                ("evaporating temperature", "20 °F"),
            ],
            "1.55 ton",
        )
        .answer_in(
            "capacity",
            "Q",
            Kind::Power,
            (&unit::TON_OF_REFRIGERATION, 2),
            (&unit::KILOWATT, 2),
            &capacity * flow * (here / at_rating),
        )
}

/// The weight of a column of liquid at the temperature of the liquid line.
fn head(fluid: &Input, liquid: &Input, height: &Input) -> Expr {
    let dense = step("density of the liquid", "ρ_l", Kind::Density, property::liquid_density(fluid, liquid));
    step("weight of the liquid column", "Δp_head", Kind::PressureDifference, dense * gravity() * height)
}

pub(super) fn valve_pressure_available() -> Computation {
    let (fluid, condensing, evaporating) = (refrigerant(), condensing_temperature(), evaporating_temperature());
    let (liquid, lift) = (liquid_temperature(), lift());
    let line = loss("liquid line drop", "Δp_line");
    let drier = loss("drier drop", "Δp_drier").about("drier, solenoid valve and sight glass together");
    let distributor = loss("distributor drop", "Δp_dist").about("distributor and its tubes; commonly 10 to 35 psi");
    let high = step("condensing pressure", "p_c", Kind::Pressure, property::bubble_pressure(&fluid, &condensing));
    let low = step("evaporating pressure", "p_e", Kind::Pressure, property::dew_pressure(&fluid, &evaporating));
    let left = high - low - &line - head(&fluid, &liquid, &lift) - &drier - &distributor;
    entry("valve-pressure-available", "Pressure drop left for the valve", Group::Capacity)
        .purpose(
            "What is left across the valve's port of the difference between condensing and evaporating pressure, when line, lift, drier \
             and distributor have had theirs. A falling liquid line gives pressure back.",
        )
        .inputs([&fluid, &condensing, &evaporating, &liquid, &lift, &line, &drier, &distributor])
        .refuse(no_pressure().at_least(&left), "nothing is left for the valve: the liquid cannot reach the coil")
        .source(Mark::Physics, "sum of pressure drops; weight of the liquid column from its density")
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("condensing temperature", "105 °F"),
                ("evaporating temperature", "40 °F"),
                ("liquid temperature", "95 °F"),
                ("lift", "30 ft"),
                ("liquid line drop", "6 psi"),
                ("drier drop", "2 psi"),
                ("distributor drop", "35 psi"),
            ],
            "167 psi",
        )
        .answer("pressure drop left for the valve", "Δp_valve", Kind::PressureDifference, left)
}

pub(super) fn subcooling_needed() -> Computation {
    let (fluid, condensing, liquid, lift) = (refrigerant(), condensing_temperature(), liquid_temperature(), lift());
    let line = loss("liquid line drop", "Δp_line");
    let drier = loss("drier drop", "Δp_drier").about("drier, solenoid valve and sight glass together");
    let high = step("condensing pressure", "p_c", Kind::Pressure, property::bubble_pressure(&fluid, &condensing));
    let left = step(
        "pressure in front of the valve",
        "p_valve",
        Kind::Pressure,
        high - &line - &drier - head(&fluid, &liquid, &lift),
    );
    let boils = step(
        "bubble temperature in front of the valve",
        "T_valve",
        Kind::Temperature,
        property::bubble_temperature(&fluid, left),
    );
    entry("subcooling-needed", "Subcooling that keeps the liquid line free of gas", Group::Capacity)
        .purpose(
            "How much subcooling must leave the condenser so that no gas forms before the valve. Add what the line gains in heat, and \
             keep 2 to 3 °F in hand.",
        )
        .inputs([&fluid, &condensing, &liquid, &lift, &line, &drier])
        .source(Mark::Physics, "bubble temperature at the condenser less that at the valve, by the refrigerant's saturation lines")
        .worked(
            &[
                ("refrigerant", "R-134a"),
                ("condensing temperature", "105 °F"),
                ("liquid temperature", "95 °F"),
                ("lift", "25 ft"),
                ("liquid line drop", "3 psi"),
                ("drier drop", "2 psi"),
            ],
            "8.3 °F",
        )
        .answer("subcooling needed", "SC_need", Kind::TemperatureDifference, &condensing - boils)
}
