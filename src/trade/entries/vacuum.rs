//! Drawing a vacuum: water, pumps, hoses, and what a rise betrays.

use std::sync::Arc;

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, Function, apply, choose, constant, function, quantity, solve};
use crate::trade::input::{Input, given};

/// Shown in microns and pascals, as a vacuum gauge shows it.
fn deep(name: &'static str, symbol: &'static str) -> Input {
    given(name, symbol, Kind::Pressure)
        .between(0.0, 800_000.0, &unit::MICRON_OF_MERCURY)
        .shown((&unit::MICRON_OF_MERCURY, 0), (&unit::PASCAL, 1))
}

/// Pressure at which water boils, or ice sublimes, at a temperature.
fn water_pressure() -> Arc<Function> {
    function("pressure at which water boils, or ice sublimes", "p_w", Kind::Pressure, ("T", Kind::Temperature), |t| {
        let triple = quantity(273.16, 2, &unit::KELVIN, "");
        let theta = t / &triple;
        let triple_pressure = quantity(611.657, 3, &unit::PASCAL, "");
        let sum = -21.214_400_6 * theta.to_the(0.003_333_333_33) + 27.320_381_9 * theta.to_the(1.206_666_67)
            - 6.105_981_30 * theta.to_the(1.703_333_33);
        let ice = triple_pressure * (sum / &theta).exp();
        let critical = quantity(647.096, 3, &unit::KELVIN, "");
        let tau = 1.0 - t / &critical;
        let sum = -7.859_517_83 * &tau + 1.844_082_59 * tau.to_the(1.5) - 11.786_649_7 * tau.to_the(3.0)
            + 22.680_741_1 * tau.to_the(3.5)
            - 15.961_871_9 * tau.to_the(4.0)
            + 1.801_225_02 * tau.to_the(7.5);
        let water = quantity(22.064, 3, &unit::MEGAPASCAL, "") * (critical / t * sum).exp();
        choose(t.below(triple), ice, water)
    })
}

pub(super) fn water_boiling_temperature() -> Computation {
    let pressure = deep("pressure", "p").between(0.1, 7_600_000.0, &unit::MICRON_OF_MERCURY);
    let water = water_pressure();
    let (lowest, highest) = (quantity(-110.0, 0, &unit::CELSIUS, ""), quantity(350.0, 0, &unit::CELSIUS, ""));
    let boils = solve("T_w", Kind::Temperature, lowest, highest, |trial| {
        // By the logarithm, so that a thousandth of a pressure counts alike at every depth.
        let pascals = |expr: Expr| expr.number_of(&unit::PASCAL).ln();
        (pascals(apply(&water, trial)), pascals(pressure.expr()))
    });
    entry("water-boiling-temperature", "Where water boils under vacuum", Group::Tightness)
        .purpose(
            "The temperature at which water in the system boils at this pressure. An isolated system that settles where its own temperature \
             stands in this list holds water.",
        )
        .inputs([&pressure])
        .flag(
            pressure.expr().below(quantity(611.657, 3, &unit::PASCAL, "")),
            "below 4588 microns (611.657 Pa) there is no liquid water: what is left is ice, and it sublimes, slowly",
        )
        .source(
            Mark::Standard,
            "boiling: Wagner and Pruss, J. Phys. Chem. Ref. Data 22 (1993) 783 (IAPWS SR1-86); ice: IAPWS R14-08(2011), equation (6)",
        )
        .worked(&[("pressure", "5000 microns")], "34.2 °F")
        .answer("boiling point of water", "T_w", Kind::Temperature, boils)
}

pub(super) fn evacuation_residual() -> Computation {
    let vacuum = deep("vacuum", "p_vac").about("the depth of each evacuation");
    let broken = given("break pressure", "p_break", Kind::Pressure)
        .between(0.0, 100.0, &unit::PSIA)
        .about("up to which each is broken with dry nitrogen");
    let cycles = given("cycles", "n", Kind::Ratio)
        .between(1.0, 20.0, &unit::NUMBER)
        .shown((&unit::NUMBER, 0), (&unit::NUMBER, 0));
    let left = (&vacuum / &broken).raised_to(&cycles);
    entry("evacuation-residual", "What repeated evacuation leaves behind", Group::Tightness)
        .purpose(
            "The share of the first gas that is left after so many evacuations, each broken with dry nitrogen. Water and oil give more off \
             than this counts.",
        )
        .inputs([&vacuum, &broken, &cycles])
        .refuse(vacuum.expr().at_least(&broken), "the break pressure is not above the vacuum")
        .source(Mark::Physics, "dilution, gas and nitrogen mixing fully each time; absolute pressures")
        .worked(&[("vacuum", "1500 microns"), ("break pressure", "16.7 psia"), ("cycles", "3")], "0.00524 ppm")
        .answer_in("gas left", "x", Kind::Ratio, (&unit::PART_PER_MILLION, 4), (&unit::PART_PER_MILLION, 4), left)
}

pub(super) fn effective_pump_speed() -> Computation {
    let pump = given("pump speed", "S_pump", Kind::VolumeFlow).between(0.1, 1000.0, &unit::CUBIC_FOOT_PER_MINUTE);
    let bore = given("hose bore", "d", Kind::Length)
        .about("inside diameter of hose and fittings")
        .between(0.05, 4.0, &unit::INCH)
        .shown((&unit::INCH, 4), (&unit::MILLIMETER, 2));
    let length = given("hose length", "L", Kind::Length).between(0.1, 100.0, &unit::FOOT);
    let pressure = deep("pressure", "p").about("at the system").between(1.0, 760_000.0, &unit::MICRON_OF_MERCURY);
    let (d, l) = (bore.expr().number_of(&unit::CENTIMETER), length.expr().number_of(&unit::CENTIMETER));
    let p = pressure.expr().number_of(&unit::HECTOPASCAL);
    let conductance = (135.0 * d.to_the(4.0) * &p / &l
        + 12.1 * (d.to_the(3.0) / &l) * ((1.0 + 192.0 * &d * &p) / (1.0 + 237.0 * &d * &p)))
        .of_unit(&unit::LITER_PER_SECOND);
    let conductance = crate::trade::expression::step("conductance of the hose", "C", Kind::VolumeFlow, conductance);
    entry("effective-pump-speed", "Speed of a vacuum pump through its hose", Group::Tightness)
        .purpose(
            "What is left of a vacuum pump's speed at the far end of its hose. Wide, short hoses and drawn cores do more than a larger pump.",
        )
        .inputs([&pump, &bore, &length, &pressure])
        .source(
            Mark::Physics,
            "Knudsen's formula for a long tube, air at 20 °C, with d and l in cm and p in mbar; the pressure taken at the system (from memory)",
        )
        .worked(
            &[("pump speed", "6 cfm"), ("hose bore", "0.1875 in"), ("hose length", "5 ft"), ("pressure", "500 microns")],
            "0.078 cfm",
        )
        .answer_in(
            "speed at the system",
            "S",
            Kind::VolumeFlow,
            (&unit::CUBIC_FOOT_PER_MINUTE, 3),
            (&unit::LITER_PER_SECOND, 4),
            1.0 / (1.0 / &pump + 1.0 / conductance),
        )
}

pub(super) fn pump_down_time() -> Computation {
    let volume = given("volume", "V", Kind::Volume).between(0.001, 10_000.0, &unit::CUBIC_FOOT);
    let speed = given("speed", "S", Kind::VolumeFlow)
        .about("of the pump at the system, hose among it")
        .between(0.001, 1000.0, &unit::CUBIC_FOOT_PER_MINUTE)
        .shown((&unit::CUBIC_FOOT_PER_MINUTE, 3), (&unit::LITER_PER_SECOND, 3));
    let (start, end) = (deep("start pressure", "p_1"), deep("end pressure", "p_2"));
    entry("pump-down-time", "Time to pump down", Group::Tightness)
        .purpose(
            "The least time a pump needs to draw a dry, clean system down. Water, oil and the hose's falling speed make a real one longer.",
        )
        .inputs([&volume, &speed, &start, &end])
        .refuse(end.expr().at_least(&start), "the end pressure is not below the start pressure")
        .source(Mark::Physics, "constant speed, no gas given off")
        .worked(
            &[("volume", "1.2 ft³"), ("speed", "0.5 cfm"), ("start pressure", "760,000 microns"), ("end pressure", "1000 microns")],
            "15.9 min",
        )
        .answer("time", "t", Kind::Time, &volume / &speed * (&start / &end).ln())
}

pub(super) fn rise_throughput() -> Computation {
    let (start, end) = (deep("start pressure", "p_1"), deep("end pressure", "p_2"));
    let volume = given("volume", "V", Kind::Volume)
        .between(0.001, 10_000.0, &unit::CUBIC_FOOT)
        .shown((&unit::CUBIC_FOOT, 2), (&unit::LITER, 1));
    let time = given("time", "t", Kind::Time).between(1.0, 100_000.0, &unit::SECOND);
    entry("rise-throughput", "Leak that a rise of the vacuum stands for", Group::Tightness)
        .purpose(
            "How much gas comes into an isolated vacuum, by its rise. The same rise in twice the volume is twice the leak. A rise that \
             levels off is moisture, one that goes on is a leak.",
        )
        .inputs([&start, &end, &volume, &time])
        .flag(end.expr().below(&start), "the pressure fell: the system was still being pumped, or it grew colder")
        .source(Mark::Physics, "gas balance of the volume at constant temperature")
        .worked(
            &[("start pressure", "400 microns"), ("end pressure", "900 microns"), ("volume", "40 L"), ("time", "10 min")],
            "0.0044 Pa·m³/s",
        )
        .answer("throughput", "q", Kind::Throughput, &volume * ((&end - &start) / &time))
}

pub(super) fn moisture_vapor_volume() -> Computation {
    let mass = given("water mass", "m", Kind::Mass)
        .between(0.001, 100_000.0, &unit::GRAM)
        .shown((&unit::OUNCE, 2), (&unit::GRAM, 1));
    let temperature = given("temperature", "T", Kind::Temperature).between(-60.0, 200.0, &unit::FAHRENHEIT);
    let pressure = deep("pressure", "p").between(1.0, 20_000.0, &unit::MICRON_OF_MERCURY);
    let gas = constant("R", 461.52, 2, &unit::JOULE_PER_KILOGRAM_KELVIN, "gas constant of water vapor");
    entry("moisture-vapor-volume", "Volume of water as vapor in a vacuum", Group::Tightness)
        .purpose(
            "The volume that a little water fills as vapor at a deep vacuum, all of which the pump must carry out.",
        )
        .inputs([&mass, &temperature, &pressure])
        .source(Mark::Physics, "ideal gas")
        .worked(&[("water mass", "1 g"), ("temperature", "70 °F"), ("pressure", "500 microns")], "71.9 ft³")
        .answer_in(
            "volume of vapor",
            "V",
            Kind::Volume,
            (&unit::CUBIC_FOOT, 1),
            (&unit::CUBIC_METER, 2),
            &mass * gas * &temperature / &pressure,
        )
}
