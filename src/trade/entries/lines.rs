//! Tubes that carry refrigerant: how fast, at what loss, with how much in them.

use super::asked::{capacity, gravity, liquid_temperature, tube_bore};
use super::cycle::Feed;
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, step};
use crate::trade::input::{Input, given, refrigerant};
use crate::trade::property;
use std::f64::consts::PI;

fn bore_area(bore: &Input) -> Expr {
    step("area of the bore", "A", Kind::Area, PI * bore.expr().to_the(2.0) / 4.0)
}

fn length() -> Input {
    given("length", "L", Kind::Length).about("of straight tube, fittings counted as so much more of it").between(
        0.1,
        5000.0,
        &unit::FOOT,
    )
}

pub(super) fn line_velocity() -> Computation {
    let (feed, capacity, bore) = (Feed::new(), capacity(), tube_bore());
    let [fluid, liquid, evaporating, superheat] = feed.inputs();
    let flow = step("mass flow", "m", Kind::MassFlow, &capacity / feed.effect_step());
    let velocity = flow / (feed.density() * bore_area(&bore));
    let limit = |fpm: f64| crate::trade::expression::quantity(fpm, 0, &unit::FOOT_PER_MINUTE, "");
    entry("line-velocity", "Velocity in a suction line", Group::Lines)
        .purpose(
            "How fast the vapor moves in a suction line. Too slow leaves the oil behind, commonly below 700 fpm on the level and 1500 fpm \
             in a riser; too fast costs pressure and makes noise.",
        )
        .inputs([fluid, &capacity, liquid, evaporating, superheat, &bore])
        .flag(velocity.below(limit(700.0)), "below 700 fpm, the usual least in a level line: oil may stay behind")
        .flag(velocity.above(limit(4000.0)), "above 4000 fpm, the usual most in a suction line")
        .source(
            Mark::Physics,
            "mass flow over density and area; the usual limits from ASHRAE Handbook, Refrigeration (2010), chapter 1, and common practice",
        )
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("capacity", "3 ton"),
                ("liquid temperature", "100 °F"),
                ("evaporating temperature", "45 °F"),
                ("superheat", "10 °F"),
                ("tube bore", "0.785 in"),
            ],
            "1076 fpm",
        )
        .answer("velocity", "v", Kind::Velocity, velocity)
}

pub(super) fn line_pressure_drop() -> Computation {
    let flow = given("mass flow", "m", Kind::MassFlow).between(0.001, 10_000.0, &unit::POUND_PER_MINUTE);
    let dense = given("density", "ρ", Kind::Density).between(0.01, 120.0, &unit::POUND_PER_CUBIC_FOOT);
    let viscosity = given("viscosity", "μ", Kind::Viscosity)
        .about("of the refrigerant as it flows there; of pure ones, see viscosity")
        .between(1.0, 5000.0, &unit::MICROPASCAL_SECOND);
    let (bore, length) = (tube_bore(), length());
    let rough = given("roughness", "ε", Kind::Length)
        .about("of the tube's wall; 1.5 µm is usual for drawn tube")
        .between(0.0, 1000.0, &unit::MICROMETER)
        .shown((&unit::INCH, 6), (&unit::MICROMETER, 1))
        .default_to(1.5, 1, &unit::MICROMETER);
    let velocity = step("velocity", "v", Kind::Velocity, &flow / (&dense * bore_area(&bore)));
    let reynolds = step("Reynolds number", "Re", Kind::Ratio, &dense * &velocity * &bore / &viscosity);
    let first = step(
        "first term",
        "a",
        Kind::Ratio,
        (2.457 * (1.0 / ((7.0 / &reynolds).to_the(0.9) + 0.27 * (&rough / &bore))).ln()).to_the(16.0),
    );
    let second = step("second term", "b", Kind::Ratio, (37_530.0 / &reynolds).to_the(16.0));
    let friction = step(
        "friction factor",
        "f",
        Kind::Ratio,
        8.0 * ((8.0 / &reynolds).to_the(12.0) + 1.0 / (first + second).to_the(1.5)).raised_to(Expr::from(1.0) / 12.0),
    );
    entry("line-pressure-drop", "Pressure drop in a line", Group::Lines)
        .purpose("What a straight line costs in pressure, for vapor or for liquid, not for both at once.")
        .inputs([&flow, &dense, &viscosity, &bore, &length, &rough])
        .source(
            Mark::Physics,
            "Darcy and Weisbach; friction factor by S. W. Churchill, Chemical Engineering 84 (1977), 7 November, 91",
        )
        .worked(
            &[
                ("mass flow", "7.2 lb/min"),
                ("density", "2.3 lb/ft³"),
                ("viscosity", "12.6 µPa·s"),
                ("tube bore", "0.785 in"),
                ("length", "100 ft"),
            ],
            "1.41 psi",
        )
        .answer_in(
            "pressure drop",
            "Δp",
            Kind::PressureDifference,
            (&unit::PSI, 2),
            (&unit::KILOPASCAL_OF_DIFFERENCE, 2),
            friction * (&length / &bore) * (&dense * velocity.to_the(2.0) / 2.0),
        )
}

pub(super) fn liquid_head() -> Computation {
    let (fluid, liquid) = (refrigerant(), liquid_temperature().about("of the liquid in the line"));
    let height = given("height", "H", Kind::Length).about("that the liquid rises").between(0.0, 1000.0, &unit::FOOT);
    let dense = step("density of the liquid", "ρ_l", Kind::Density, property::liquid_density(&fluid, &liquid));
    entry("liquid-head", "Weight of a rising liquid line", Group::Lines)
        .purpose("The pressure that liquid loses on its way up, and gains on its way down.")
        .inputs([&fluid, &liquid, &height])
        .source(Mark::Physics, "hydrostatics; density of saturated liquid from the equation of state")
        .worked(&[("refrigerant", "R-410A"), ("liquid temperature", "95 °F"), ("height", "1 ft")], "0.436 psi")
        .answer_in(
            "pressure",
            "Δp",
            Kind::PressureDifference,
            (&unit::PSI, 2),
            (&unit::KILOPASCAL_OF_DIFFERENCE, 2),
            dense * gravity() * &height,
        )
}

pub(super) fn line_charge() -> Computation {
    let (fluid, liquid) = (refrigerant(), liquid_temperature().about("of the liquid in the line"));
    let bore = tube_bore();
    let length = given("length", "L", Kind::Length).between(0.1, 5000.0, &unit::FOOT);
    let dense = step("density of the liquid", "ρ_l", Kind::Density, property::liquid_density(&fluid, &liquid));
    entry("line-charge", "Refrigerant in a liquid line", Group::Lines)
        .purpose(
            "What a liquid line holds: what a longer line needs added. The maker's figure for his unit goes first.",
        )
        .inputs([&fluid, &liquid, &bore, &length])
        .source(Mark::Physics, "volume of the bore times the density of saturated liquid")
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("liquid temperature", "95 °F"),
                ("tube bore", "0.311 in"),
                ("length", "1 ft"),
            ],
            "0.53 oz",
        )
        .answer_in("charge", "m", Kind::Mass, (&unit::OUNCE, 2), (&unit::GRAM, 1), dense * bore_area(&bore) * &length)
}

pub(super) fn oil_return_velocity() -> Computation {
    let gas = given("gas density", "ρ_g", Kind::Density).between(0.01, 30.0, &unit::POUND_PER_CUBIC_FOOT);
    let oil = given("oil density", "ρ_o", Kind::Density).about("with what refrigerant is dissolved in it").between(
        30.0,
        90.0,
        &unit::POUND_PER_CUBIC_FOOT,
    );
    let bore = tube_bore();
    let least = 0.7225 * (gravity() * &bore * ((&oil - &gas) / &gas)).root();
    entry("oil-return-velocity", "Least velocity that lifts oil", Group::Lines)
        .purpose(
            "The vapor velocity below which the oil film in a riser falls back. It is a limit, not a figure to size by: keep well above it \
             at the least load.",
        )
        .inputs([&gas, &oil, &bore])
        .source(
            Mark::FromMemory,
            "flooding criterion, square root of the dimensionless gas velocity 0.85, after Jacobs, Scheideman and Hays (1976)",
        )
        .worked(
            &[("gas density", "2.3 lb/ft³"), ("oil density", "58 lb/ft³"), ("tube bore", "0.785 in")],
            "309 fpm",
        )
        .answer("least velocity", "v_min", Kind::Velocity, least)
}
