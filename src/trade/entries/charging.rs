//! Whether the charge is right.

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::quantity;
use crate::trade::input::given;

pub(super) fn target_superheat() -> Computation {
    let wet_bulb = given("return wet bulb", "T_wb", Kind::Temperature)
        .about("wet bulb of the air returning to the coil")
        .between(50.0, 76.0, &unit::FAHRENHEIT);
    let outdoor = given("outdoor dry bulb", "T_out", Kind::Temperature)
        .about("dry bulb of the air entering the condenser")
        .between(55.0, 115.0, &unit::FAHRENHEIT);
    let fahrenheit = |input: &crate::trade::input::Input| input.expr().number_of(&unit::FAHRENHEIT);
    let target =
        ((3.0 * fahrenheit(&wet_bulb) - 80.0 - fahrenheit(&outdoor)) / 2.0).of_unit(&unit::FAHRENHEIT_OF_DIFFERENCE);
    let degrees = |number: f64| quantity(number, 0, &unit::FAHRENHEIT, "");
    entry("target-superheat", "Target superheat of a fixed orifice", Group::Charging)
        .purpose(
            "The suction superheat to look for when charging a system with a fixed orifice. It is a straight line through a chart that \
             several makers print: where the unit carries its own chart, go by that. Not for expansion valves.",
        )
        .inputs([&wet_bulb, &outdoor])
        .refuse(
            target.below(quantity(5.0, 0, &unit::FAHRENHEIT_OF_DIFFERENCE, "")),
            "the target is below 5 °F: don't charge by superheat in these conditions",
        )
        .flag(
            outdoor.expr().below(degrees(70.0)),
            "outdoors is below 70 °F, where this line is up to 3 °F off the printed chart: go by the chart",
        )
        .flag(
            outdoor.expr().above(degrees(105.0)),
            "outdoors is above 105 °F, where this line is up to 6.5 °F below the printed chart: go by the chart",
        )
        .source(Mark::CommonPractice, "straight-line fit of a chart printed by several makers")
        .worked(&[("return wet bulb", "67 °F"), ("outdoor dry bulb", "95 °F")], "13 °F")
        .answer("target superheat", "SH_target", Kind::TemperatureDifference, target)
}

const CHARGE_TEST: &str =
    "limits of the charge test: California Energy Commission, 2008 Residential Appendices (CEC-400-2008-004), RA3.2.2";

pub(super) fn charge_deviation() -> Computation {
    let measured = given("measured", "SH", Kind::TemperatureDifference).about("superheat as measured").between(
        -50.0,
        100.0,
        &unit::FAHRENHEIT_OF_DIFFERENCE,
    );
    let target = given("target", "SH_target", Kind::TemperatureDifference).about("superheat looked for").between(
        0.0,
        60.0,
        &unit::FAHRENHEIT_OF_DIFFERENCE,
    );
    let deviation = &measured - &target;
    let limit = |number: f64| quantity(number, 0, &unit::FAHRENHEIT_OF_DIFFERENCE, "");
    entry("charge-deviation", "Superheat against its target", Group::Charging)
        .purpose(
            "How far the superheat of a fixed-orifice system is from its target. Within 5 °F the charge passes; only with enough airflow, \
             15 minutes of running, and 55 °F or more outdoors.",
        )
        .inputs([&measured, &target])
        .flag(target.expr().below(limit(5.0)), "a target below 5 °F is no valid test")
        .flag(deviation.above(limit(5.0)), "more than 5 °F above the target: short of charge if the air is right and nothing is plugged")
        .flag(deviation.below(limit(-5.0)), "more than 5 °F below the target: overcharged if the air is right and nothing is plugged")
        .source(Mark::Standard, CHARGE_TEST)
        .worked(&[("measured", "17 °F"), ("target", "12 °F")], "5.0 °F")
        .answer("deviation", "ΔSH", Kind::TemperatureDifference, deviation)
}

pub(super) fn subcooling_deviation() -> Computation {
    let measured = given("measured", "SC", Kind::TemperatureDifference).about("subcooling as measured").between(
        -50.0,
        100.0,
        &unit::FAHRENHEIT_OF_DIFFERENCE,
    );
    let target = given("target", "SC_target", Kind::TemperatureDifference)
        .about("subcooling on the name plate")
        .between(0.0, 60.0, &unit::FAHRENHEIT_OF_DIFFERENCE);
    let deviation = &measured - &target;
    let limit = |number: f64| quantity(number, 0, &unit::FAHRENHEIT_OF_DIFFERENCE, "");
    entry("subcooling-deviation", "Subcooling against its target", Group::Charging)
        .purpose(
            "How far the subcooling of a system with an expansion valve is from the figure on its name plate. Within 3 °F the charge \
             passes; only with enough airflow and 15 minutes of running.",
        )
        .inputs([&measured, &target])
        .flag(deviation.above(limit(3.0)), "more than 3 °F above the target: overcharged if the air is right and nothing is plugged")
        .flag(deviation.below(limit(-3.0)), "more than 3 °F below the target: short of charge if the air is right and nothing is plugged")
        .source(Mark::Standard, CHARGE_TEST)
        .worked(&[("measured", "9.6 °F"), ("target", "12 °F")], "-2.4 °F")
        .answer("deviation", "ΔSC", Kind::TemperatureDifference, deviation)
}
