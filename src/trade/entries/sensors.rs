//! What sensors show, and how far they may be off.

use super::asked::evaporating_temperature;
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, constant, quantity, step};
use crate::trade::input::{Input, given, refrigerant};
use crate::trade::property;

const B_EQUATION: &str = "B equation of a thermistor, good to about 0.5 °C from 0 to 50 °C";

fn at_25() -> Input {
    given("resistance at 25 C", "R_25", Kind::Resistance).about("its nominal resistance, at 25 °C (77 °F)").between(
        0.01,
        10_000.0,
        &unit::KILOHM,
    )
}

fn beta() -> Input {
    given("beta", "B", Kind::ThermistorConstant)
        .about("from its data sheet; two 10 kΩ curves are common, 3435 K and 3977 K")
        .between(1000.0, 6000.0, &unit::KELVIN_OF_THERMISTOR)
}

fn nominal() -> Expr {
    constant("T_25", 298.15, 2, &unit::KELVIN, "25 °C, at which thermistors are rated")
}

pub(super) fn thermistor_resistance() -> Computation {
    let (nominal_resistance, beta) = (at_25(), beta());
    let temperature = given("temperature", "T", Kind::Temperature).between(-60.0, 300.0, &unit::FAHRENHEIT);
    let ratio = (&beta / &temperature - &beta / nominal()).exp();
    entry("thermistor-resistance", "Resistance of a thermistor", Group::Sensors)
        .purpose("What an ohmmeter should show across a good thermistor at this temperature.")
        .inputs([&nominal_resistance, &beta, &temperature])
        .source(Mark::Physics, B_EQUATION)
        .worked(&[("resistance at 25 C", "10 kΩ"), ("beta", "3977 K"), ("temperature", "32 °F")], "33.90 kΩ")
        .answer("resistance", "R", Kind::Resistance, &nominal_resistance * ratio)
}

pub(super) fn thermistor_temperature() -> Computation {
    let (nominal_resistance, beta) = (at_25(), beta());
    let resistance = given("resistance", "R", Kind::Resistance).between(0.001, 100_000.0, &unit::KILOHM);
    let inverse = 1.0 / nominal() + (&resistance / &nominal_resistance).ln() / &beta;
    entry("thermistor-temperature", "Temperature of a thermistor", Group::Sensors)
        .purpose("The temperature that a thermistor of this resistance stands at.")
        .inputs([&nominal_resistance, &beta, &resistance])
        .source(Mark::Physics, B_EQUATION)
        .worked(&[("resistance at 25 C", "10 kΩ"), ("beta", "3977 K"), ("resistance", "20 kΩ")], "10.3 °C")
        .answer("temperature", "T", Kind::Temperature, 1.0 / inverse)
}

fn scale_end(name: &'static str, symbol: &'static str) -> Input {
    given(name, symbol, Kind::Pressure).between(0.0, 15_000.0, &unit::PSIA)
}

/// A pressure transmitter's reading, on a straight line between the two ends of its signal.
fn straight(signal: &Input, low: &Input, high: &Input, scale_low: &Input, scale_high: &Input) -> Expr {
    let share = step("share of the scale", "x", Kind::Ratio, (signal - low) / (high - low));
    scale_low + share * (scale_high - scale_low)
}

const LINEAR: &str = "straight line between the ends of the signal; the fault limits are common practice";

pub(super) fn linear_signal() -> Computation {
    let current = |name, symbol| {
        given(name, symbol, Kind::Current)
            .between(0.0, 30.0, &unit::MILLIAMPERE)
            .shown((&unit::MILLIAMPERE, 2), (&unit::MILLIAMPERE, 2))
    };
    let signal = current("signal", "s");
    let low = current("signal low", "s_lo").default_to(4.0, 0, &unit::MILLIAMPERE);
    let high = current("signal high", "s_hi").default_to(20.0, 0, &unit::MILLIAMPERE);
    let (bottom, top) = (scale_end("scale low", "p_lo"), scale_end("scale high", "p_hi"));
    let milliamperes = |number: f64| quantity(number, 1, &unit::MILLIAMPERE, "");
    entry("linear-signal", "Pressure from a transmitter's current", Group::Sensors)
        .purpose("The pressure that a 4 to 20 mA transmitter means by its current.")
        .inputs([&signal, &low, &high, &bottom, &top])
        .flag(
            signal.expr().below(milliamperes(3.6)),
            "below 3.6 mA a transmitter reports a fault, or its wire is broken",
        )
        .flag(signal.expr().above(milliamperes(21.0)), "above 21 mA a transmitter reports a fault, or its wires touch")
        .source(Mark::Physics, LINEAR)
        .worked(&[("signal", "7.2 mA"), ("scale low", "0 psig"), ("scale high", "500 psig")], "100 psig")
        .answer("pressure", "p", Kind::Pressure, straight(&signal, &low, &high, &bottom, &top))
}

pub(super) fn linear_signal_voltage() -> Computation {
    let volts = |name, symbol| {
        given(name, symbol, Kind::Voltage).between(0.0, 12.0, &unit::VOLT).shown((&unit::VOLT, 2), (&unit::VOLT, 2))
    };
    let signal = volts("signal", "s");
    let low = volts("signal low", "s_lo").default_to(0.5, 1, &unit::VOLT);
    let high = volts("signal high", "s_hi").default_to(4.5, 1, &unit::VOLT);
    let (bottom, top) = (scale_end("scale low", "p_lo"), scale_end("scale high", "p_hi"));
    entry("linear-signal-voltage", "Pressure from a transmitter's voltage", Group::Sensors)
        .purpose(
            "The pressure that a transmitter means by its voltage. For a ratiometric one of 0.5 to 4.5 V, take both ends in the measure of \
             the supply: with 4.9 V instead of 5 V they are 0.49 V and 4.41 V.",
        )
        .inputs([&signal, &low, &high, &bottom, &top])
        .source(Mark::Physics, LINEAR)
        .worked(&[("signal", "1.3 V"), ("scale low", "0 psig"), ("scale high", "500 psig")], "100 psig")
        .answer("pressure", "p", Kind::Pressure, straight(&signal, &low, &high, &bottom, &top))
}

pub(super) fn superheat_error() -> Computation {
    let (fluid, evaporating) = (refrigerant(), evaporating_temperature());
    let thermometer = given("temperature error", "δT", Kind::TemperatureDifference)
        .about("by which the thermometer may be off")
        .between(0.0, 20.0, &unit::FAHRENHEIT_OF_DIFFERENCE);
    let gauge = given("pressure error", "δp", Kind::PressureDifference).about("by which the gauge may be off").between(
        0.0,
        50.0,
        &unit::PSI,
    );
    let true_pressure =
        step("evaporating pressure", "p_e", Kind::Pressure, property::dew_pressure(&fluid, &evaporating));
    let low = step(
        "boiling point by a gauge that reads low",
        "T_low",
        Kind::Temperature,
        property::dew_temperature(&fluid, true_pressure - &gauge),
    );
    entry("superheat-error", "How far a superheat can be off", Group::Sensors)
        .purpose(
            "The worst that the errors of thermometer and gauge together do to a superheat. Low-pressure refrigerants, and cold coils, ask \
             for a better gauge.",
        )
        .inputs([&fluid, &evaporating, &thermometer, &gauge])
        .source(Mark::Physics, "worst case: the errors of both instruments added, the gauge reading low")
        .worked(
            &[
                ("refrigerant", "R-410A"),
                ("evaporating temperature", "40 °F"),
                ("temperature error", "1 °F"),
                ("pressure error", "2 psi"),
            ],
            "1.9 °F",
        )
        .answer("error of the superheat", "δSH", Kind::TemperatureDifference, &thermometer + (&evaporating - low))
}
