//! The forces on the diaphragm of a thermostatic expansion valve: bulb against equalizer and spring.

use super::asked::{evaporating_temperature, superheat};
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, step};
use crate::trade::input::{Input, fluid, given, refrigerant};
use crate::trade::property;

const BALANCE: &str = "balance of forces on the diaphragm: the bulb's pressure opens, the pressure under the diaphragm and the \
                       spring close; bulb charged with the system's own refrigerant, liquid always left in it";

fn set_evaporating_temperature() -> Input {
    given("set evaporating temperature", "T_set", Kind::Temperature).about("dew temperature at which the valve was set")
}

fn set_superheat() -> Input {
    given("set superheat", "SH_set", Kind::TemperatureDifference).about("what the valve was set to there").between(
        0.0,
        60.0,
        &unit::FAHRENHEIT_OF_DIFFERENCE,
    )
}

/// The spring's share of the balance at the superheat that is held at an evaporating temperature.
fn spring(fluid: &Input, evaporating: &Input, superheat: &Input) -> Expr {
    property::dew_pressure(fluid, evaporating + superheat) - property::dew_pressure(fluid, evaporating)
}

fn spring_step(fluid: &Input, evaporating: &Input, superheat: &Input) -> Expr {
    step("spring pressure", "p_spring", Kind::PressureDifference, spring(fluid, evaporating, superheat))
}

pub(super) fn txv_spring_pressure() -> Computation {
    let (fluid, evaporating, superheat) = (refrigerant(), evaporating_temperature(), superheat());
    entry("txv-spring-pressure", "Spring pressure of an expansion valve", Group::ValveBalance)
        .purpose(
            "The pressure difference that the spring holds for the superheat at which the valve is in balance: how far apart bulb and \
             evaporator pressure are there.",
        )
        .inputs([&fluid, &evaporating, &superheat])
        .source(Mark::Physics, BALANCE)
        .worked(
            &[("refrigerant", "R-410A"), ("evaporating temperature", "40 °F"), ("superheat", "8 °F")],
            "19.2 psi",
        )
        .answer("spring pressure", "p_spring", Kind::PressureDifference, spring(&fluid, &evaporating, &superheat))
}

pub(super) fn txv_superheat_same_spring() -> Computation {
    let (fluid, set_evaporating, set_superheat) = (refrigerant(), set_evaporating_temperature(), set_superheat());
    let evaporating = evaporating_temperature();
    let spring = spring_step(&fluid, &set_evaporating, &set_superheat);
    let bulb = step("bulb pressure", "p_bulb", Kind::Pressure, property::dew_pressure(&fluid, &evaporating) + spring);
    let warm = step("bulb temperature", "T_bulb", Kind::Temperature, property::dew_temperature(&fluid, bulb));
    entry("txv-superheat-same-spring", "Superheat at another evaporating temperature", Group::ValveBalance)
        .purpose(
            "What superheat the valve holds at another evaporating temperature with its spring left alone. Pressure changes less for \
             each degree when it is cold, so a valve set warm starves a cold coil, and one set cold floods a warm coil.",
        )
        .inputs([&fluid, &set_evaporating, &set_superheat, &evaporating])
        .source(Mark::Physics, BALANCE)
        .worked(
            &[
                ("refrigerant", "R-22"),
                ("set evaporating temperature", "40 °F"),
                ("set superheat", "8 °F"),
                ("evaporating temperature", "0 °F"),
            ],
            "13.5 °F",
        )
        .answer("superheat", "SH", Kind::TemperatureDifference, warm - &evaporating)
}

pub(super) fn txv_superheat_internal_equalizer() -> Computation {
    let (fluid, set_evaporating, set_superheat) = (refrigerant(), set_evaporating_temperature(), set_superheat());
    let evaporating = evaporating_temperature();
    let loss = given("evaporator pressure drop", "Δp_e", Kind::PressureDifference)
        .about("from the valve's outlet to the bulb, distributor and tubes among it")
        .between(0.0, 100.0, &unit::PSI);
    let spring = spring_step(&fluid, &set_evaporating, &set_superheat);
    let bulb =
        step("bulb pressure", "p_bulb", Kind::Pressure, property::dew_pressure(&fluid, &evaporating) + &loss + spring);
    let warm = step("bulb temperature", "T_bulb", Kind::Temperature, property::dew_temperature(&fluid, bulb));
    entry(
        "txv-superheat-internal-equalizer",
        "Superheat with an internal equalizer and a pressure drop",
        Group::ValveBalance,
    )
    .purpose(
        "What superheat the valve holds at the coil's outlet when its diaphragm feels the pressure at the inlet. The coil's pressure \
         drop is added to the spring; an external equalizer takes it out again.",
    )
    .inputs([&fluid, &set_evaporating, &set_superheat, &evaporating, &loss])
    .source(Mark::Physics, BALANCE)
    .worked(
        &[
            ("refrigerant", "R-22"),
            ("set evaporating temperature", "40 °F"),
            ("set superheat", "8 °F"),
            ("evaporating temperature", "40 °F"),
            ("evaporator pressure drop", "5 psi"),
        ],
        "11.0 °F",
    )
    .answer("superheat", "SH", Kind::TemperatureDifference, warm - &evaporating)
}

pub(super) fn txv_cross_charge() -> Computation {
    let (system, bulb_fluid) = (refrigerant(), fluid("bulb fluid").about("what the bulb is charged with"));
    let spring = given("spring pressure", "p_spring", Kind::PressureDifference).between(0.0, 100.0, &unit::PSI);
    let evaporating = evaporating_temperature();
    let bulb = step("bulb pressure", "p_bulb", Kind::Pressure, property::dew_pressure(&system, &evaporating) + &spring);
    let warm = step("bulb temperature", "T_bulb", Kind::Temperature, property::bubble_temperature(&bulb_fluid, bulb));
    entry("txv-cross-charge", "Superheat with a cross charge", Group::ValveBalance)
        .purpose(
            "What superheat a valve holds whose bulb is charged with another fluid than the system's. A flatter pressure curve in the \
             bulb keeps the superheat more nearly level over a range of evaporating temperatures. Makers don't publish their charges: \
             this shows the principle, not a valve on the shelf.",
        )
        .inputs([&system, &bulb_fluid, &spring, &evaporating])
        .source(
            Mark::Physics,
            "balance of forces on the diaphragm, with liquid of the other fluid always left in the bulb",
        )
        .worked(
            &[
                ("refrigerant", "R-22"),
                ("bulb fluid", "R-290"),
                ("spring pressure", "8 psi"),
                ("evaporating temperature", "-20 °F"),
            ],
            "12.3 °F",
        )
        .answer("superheat", "SH", Kind::TemperatureDifference, warm - &evaporating)
}

pub(super) fn bench_outlet_pressure() -> Computation {
    let fluid = refrigerant();
    let bulb = given("bulb temperature", "T_bulb", Kind::Temperature)
        .about("of the bath the bulb stands in; crushed ice and water give 32 °F")
        .between(-60.0, 120.0, &unit::FAHRENHEIT)
        .default_to(32.0, 0, &unit::FAHRENHEIT);
    let still = given("static superheat", "SH_static", Kind::TemperatureDifference)
        .about("the superheat at which the port just opens")
        .between(0.0, 40.0, &unit::FAHRENHEIT_OF_DIFFERENCE);
    entry("bench-outlet-pressure", "Outlet pressure of a valve on the bench", Group::ValveBalance)
        .purpose(
            "What a gauge at the valve's outlet shows on the bench when the valve has just closed: bulb in a bath, inlet fed with dry gas, \
             a little bled from the outlet. For a bulb charged with the system's own refrigerant; for a cross charge go by the maker's figure.",
        )
        .inputs([&fluid, &bulb, &still])
        .source(Mark::Physics, BALANCE)
        .worked(
            &[("refrigerant", "R-134a"), ("bulb temperature", "32 °F"), ("static superheat", "8 °F")],
            "21.3 psig",
        )
        .answer("outlet pressure", "p_out", Kind::Pressure, property::dew_pressure(&fluid, &bulb - &still))
}

pub(super) fn mop_bulb_pressure() -> Computation {
    let dry_pressure = given("dryout pressure", "p_dry", Kind::Pressure)
        .between(0.0, 1500.0, &unit::PSIA)
        .about("in the bulb when the last of its liquid has boiled");
    let dry_temperature = given("dryout temperature", "T_dry", Kind::Temperature)
        .about("of the bulb when the last of its liquid has boiled")
        .between(-60.0, 200.0, &unit::FAHRENHEIT);
    let bulb = given("bulb temperature", "T_bulb", Kind::Temperature).between(-60.0, 250.0, &unit::FAHRENHEIT);
    entry("mop-bulb-pressure", "Bulb pressure of a limited charge", Group::ValveBalance)
        .purpose(
            "The pressure in the bulb of a gas-charged (MOP) valve once its liquid is gone. It hardly rises any more, and so the \
             evaporating pressure is capped. The ideal gas is 1 to 3 % below the real vapor here.",
        )
        .inputs([&dry_pressure, &dry_temperature, &bulb])
        .refuse(
            bulb.expr().below(&dry_temperature),
            "there is still liquid in a bulb colder than the dryout temperature: its pressure is the saturation pressure",
        )
        .source(Mark::Physics, "ideal gas at constant volume, absolute pressure and temperature")
        .worked(
            &[
                ("dryout pressure", "72.1 psia"),
                ("dryout temperature", "60 °F"),
                ("bulb temperature", "95 °F"),
            ],
            "76.96 psia",
        )
        .answer_in(
            "bulb pressure",
            "p_bulb",
            Kind::Pressure,
            (&unit::PSIA, 2),
            (&unit::KILOPASCAL, 1),
            &dry_pressure * &bulb / &dry_temperature,
        )
}
