//! Flares, brazing, and metals side by side.

use super::asked::tube_bore;
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{quantity, step};
use crate::trade::input::{Input, given};
use std::f64::consts::PI;

pub(super) fn torque_conversion() -> Computation {
    let torque = given("torque", "M", Kind::Torque).between(0.0, 2000.0, &unit::NEWTON_METER);
    entry("torque-conversion", "Torque in other units", Group::Joints)
        .purpose("The torque of a flare nut in the unit on the wrench at hand.")
        .inputs([&torque])
        .source(Mark::Physics, "exact conversion; pound, foot and standard gravity by definition")
        .worked(&[("torque", "42 N·m")], "31.0 lbf·ft")
        .answer("torque", "M_nut", Kind::Torque, torque.expr())
}

pub(super) fn purge_time() -> Computation {
    let changes = given("volume changes", "n", Kind::Ratio)
        .about("how many times the line's volume goes through")
        .between(1.0, 100.0, &unit::NUMBER)
        .shown((&unit::NUMBER, 0), (&unit::NUMBER, 0));
    let bore = tube_bore();
    let length = given("length", "L", Kind::Length).between(0.1, 5000.0, &unit::FOOT);
    let flow = given("flow", "V_N2", Kind::VolumeFlow)
        .about("of nitrogen, as the flowmeter shows it")
        .between(0.1, 1000.0, &unit::CUBIC_FOOT_PER_HOUR)
        .shown((&unit::CUBIC_FOOT_PER_HOUR, 0), (&unit::LITER_PER_MINUTE, 1));
    let volume = step("volume of the line", "V", Kind::Volume, PI * bore.expr().to_the(2.0) / 4.0 * &length);
    entry("purge-time", "Time to purge a line with nitrogen", Group::Joints)
        .purpose(
            "How long nitrogen must flow before brazing, until the line has been filled so many times over. Then turn it down to a trickle, \
             the far end open.",
        )
        .inputs([&changes, &bore, &length, &flow])
        .source(Mark::Physics, "volume over flow, the gas moving as a plug at the pressure of the air")
        .worked(
            &[("volume changes", "5"), ("tube bore", "0.785 in"), ("length", "50 ft"), ("flow", "20 cfh")],
            "2.5 min",
        )
        .answer("time", "t", Kind::Time, &changes * volume / &flow)
}

pub(super) fn galvanic_gap() -> Computation {
    let index = |name, symbol| -> Input {
        given(name, symbol, Kind::Voltage)
            .about("anodic index of the metal: copper -0.35 V, brass -0.40 to -0.45 V, steel -0.85 V, aluminum -0.75 to -0.95 V, zinc -1.25 V")
            .between(-3.0, 0.5, &unit::VOLT)
            .shown((&unit::VOLT, 2), (&unit::VOLT, 2))
    };
    let (first, second) = (index("first index", "E_1"), index("second index", "E_2"));
    let gap = (&first - &second).magnitude();
    let volts = |number: f64| quantity(number, 2, &unit::VOLT, "");
    entry("galvanic-gap", "Galvanic gap of two metals", Group::Joints)
        .purpose(
            "How far two metals stand apart, and so how fast the baser one is eaten where they touch and are wet: up to 0.15 V is held safe \
             outdoors, 0.25 V indoors, 0.50 V in controlled air.",
        )
        .inputs([&first, &second])
        .flag(gap.above(volts(0.5)), "more than 0.50 V: keep the two apart, dry and coated")
        .source(Mark::CommonPractice, "tables of anodic index")
        .worked(&[("first index", "-0.35 V"), ("second index", "-0.9 V")], "0.55 V")
        .answer_in("gap", "ΔE", Kind::Voltage, (&unit::VOLT, 2), (&unit::VOLT, 2), gap)
}
