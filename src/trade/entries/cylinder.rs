//! Recovery cylinders: how much goes in, and when one is full of liquid.

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{constant, quantity, solve, step};
use crate::trade::input::{given, refrigerant};
use crate::trade::property;

pub(super) fn cylinder_fill() -> Computation {
    let fluid = refrigerant();
    let capacity =
        given("water capacity", "WC", Kind::Mass).about("stamped on the cylinder").between(0.1, 10_000.0, &unit::POUND);
    let fill = given("fill fraction", "f", Kind::Ratio)
        .about("of the volume that liquid may take")
        .between(0.1, 0.9, &unit::NUMBER)
        .default_to(0.8, 1, &unit::NUMBER);
    let temperature = given("temperature", "T", Kind::Temperature)
        .about("at which the fill is counted")
        .between(32.0, 140.0, &unit::FAHRENHEIT)
        .default_to(77.0, 0, &unit::FAHRENHEIT);
    let water = constant("ρ_w", 997.05, 2, &unit::KILOGRAM_PER_CUBIC_METER, "density of water at 77 °F");
    let dense = step("density of the liquid", "ρ_l", Kind::Density, property::liquid_density(&fluid, &temperature));
    let gravity = step("specific gravity of the liquid", "SG", Kind::Ratio, dense / water);
    entry("cylinder-fill", "Most that a recovery cylinder may hold", Group::Limits)
        .purpose(
            "The mass of refrigerant at which a recovery cylinder is full by rule; its tare comes on top on the scale. Four fifths of the \
             water capacity alone overfills it with a liquid lighter than water.",
        )
        .inputs([&fluid, &capacity, &fill, &temperature])
        .source(Mark::Standard, "AHRI Guideline K; density from the equation of state")
        .worked(&[("refrigerant", "R-410A"), ("water capacity", "26.2 lb")], "22.3 lb")
        .answer_in(
            "most refrigerant",
            "m_max",
            Kind::Mass,
            (&unit::POUND, 1),
            (&unit::KILOGRAM, 2),
            &fill * &capacity * gravity,
        )
}

pub(super) fn cylinder_liquid_full_temperature() -> Computation {
    let fluid = refrigerant();
    let mass = given("mass", "m", Kind::Mass).between(0.01, 10_000.0, &unit::POUND);
    let volume = given("volume", "V", Kind::Volume).between(0.001, 1000.0, &unit::CUBIC_FOOT);
    let dense = step("density of a full cylinder", "ρ_full", Kind::Density, &mass / &volume);
    let full = solve(
        "T_full",
        Kind::Temperature,
        property::lowest_temperature(&fluid),
        property::highest_temperature(&fluid),
        |trial| (property::liquid_density(&fluid, trial), dense),
    );
    entry("cylinder-liquid-full-temperature", "When an overfilled cylinder is full of liquid", Group::Limits)
        .purpose(
            "The temperature at which the liquid in a cylinder has swollen to fill it. Beyond it the pressure climbs by hundreds of psi for \
             a few degrees. It must lie above 131 °F (55 °C).",
        )
        .inputs([&fluid, &mass, &volume])
        .flag(
            quantity(131.0, 0, &unit::FAHRENHEIT, "").above(&full),
            "below 131 °F: this cylinder is overfilled and dangerous; 49 CFR 173.304(b) forbids it",
        )
        .source(
            Mark::Physics,
            "density of saturated liquid equal to mass over volume, from the equation of state; limit from 49 CFR 173.304(b)",
        )
        .worked(&[("refrigerant", "R-22"), ("mass", "52 lb"), ("volume", "0.764 ft³")], "119 °F")
        .answer("temperature at which it is full", "T_full", Kind::Temperature, full)
}
