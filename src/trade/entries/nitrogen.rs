//! A pressure test with nitrogen, while the weather changes.

use std::sync::Arc;

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, Function, apply, constant, function, quantity, solve, step};
use crate::trade::input::{Input, given};

fn readings() -> [Input; 3] {
    [
        given("pressure", "p_1", Kind::Pressure).between(0.0, 3000.0, &unit::PSIA).about("when the test began"),
        given("first temperature", "T_1", Kind::Temperature)
            .about("of the gas when the test began: the mean of the tube's surfaces")
            .between(-60.0, 200.0, &unit::FAHRENHEIT),
        given("second temperature", "T_2", Kind::Temperature).about("of the gas now").between(
            -60.0,
            200.0,
            &unit::FAHRENHEIT,
        ),
    ]
}

pub(super) fn nitrogen_pressure() -> Computation {
    let [pressure, first, second] = readings();
    entry("nitrogen-pressure", "Nitrogen test at another temperature", Group::Tightness)
        .purpose(
            "What the gauge of a tight system shows when its nitrogen has become warmer or colder. A pressure below this, by more than \
             gauge and thermometer can be off, is a leak.",
        )
        .inputs([&pressure, &first, &second])
        .source(Mark::Physics, "ideal gas at constant volume, absolute pressure and temperature")
        .worked(
            &[("pressure", "400 psig"), ("first temperature", "85 °F"), ("second temperature", "60 °F")],
            "381.0 psig",
        )
        .answer("pressure now", "p_2", Kind::Pressure, &pressure * &second / &first)
}

/// Second virial coefficient of nitrogen, by Tsonopoulos.
fn second_virial(gas: &Gas) -> Arc<Function> {
    let gas = gas.clone();
    function("second virial coefficient", "B", Kind::SpecificVolume, ("T", Kind::Temperature), move |t| {
        let r = t / &gas.critical_temperature;
        let simple = 0.1445 - 0.33 / &r - 0.1385 / r.to_the(2.0) - 0.0121 / r.to_the(3.0) - 0.000_607 / r.to_the(8.0);
        let shape = 0.0637 + 0.331 / r.to_the(2.0) - 0.423 / r.to_the(3.0) - 0.008 / r.to_the(8.0);
        gas.scale() * (simple + ACENTRIC * shape)
    })
}

/// Third virial coefficient of nitrogen, by Orbey and Vera.
fn third_virial(gas: &Gas) -> Arc<Function> {
    let gas = gas.clone();
    // In the square of a specific volume, which has no kind of its own: given as a multiple of that square.
    function("third virial coefficient, reduced", "C_r", Kind::Ratio, ("T", Kind::Temperature), move |t| {
        let r = t / &gas.critical_temperature;
        let simple = 0.01407 + 0.02432 / r.to_the(2.8) - 0.00313 / r.to_the(10.5);
        let shape = -0.02676 + 0.0177 / r.to_the(2.8) + 0.04 / r.to_the(3.0)
            - 0.003 / r.to_the(6.0)
            - 0.002_28 / r.to_the(10.5);
        simple + ACENTRIC * shape
    })
}

const ACENTRIC: f64 = 0.0372;

/// What of nitrogen the virial equation asks for.
#[derive(Clone)]
struct Gas {
    constant: Expr,
    critical_temperature: Expr,
    critical_pressure: Expr,
}

impl Gas {
    fn nitrogen() -> Self {
        Self {
            constant: constant("R", 296.8, 1, &unit::JOULE_PER_KILOGRAM_KELVIN, "gas constant of nitrogen"),
            critical_temperature: constant("T_c", 126.192, 3, &unit::KELVIN, "critical temperature of nitrogen"),
            critical_pressure: constant("p_c", 3.3958, 4, &unit::MEGAPASCAL, "critical pressure of nitrogen"),
        }
    }

    /// R T_c / p_c, a specific volume.
    fn scale(&self) -> Expr {
        &self.constant * &self.critical_temperature / &self.critical_pressure
    }
}

pub(super) fn nitrogen_pressure_real() -> Computation {
    let [pressure, first, second] = readings();
    let pressure = pressure.between(0.0, 1500.0, &unit::PSIG);
    let gas = Gas::nitrogen();
    let (b, c) = (second_virial(&gas), third_virial(&gas));
    let scale = step("measure of its volume", "v_c", Kind::SpecificVolume, gas.scale());
    let real = |density: &Expr, temperature: &Input| {
        let packed = density * &scale;
        &gas.constant
            * temperature
            * density
            * (1.0 + apply(&b, temperature) * density + apply(&c, temperature) * packed.to_the(2.0))
    };
    let nothing = quantity(0.0, 0, &unit::KILOGRAM_PER_CUBIC_METER, "");
    let most = quantity(300.0, 0, &unit::KILOGRAM_PER_CUBIC_METER, "");
    let density = step(
        "density of the nitrogen",
        "ρ",
        Kind::Density,
        solve("ρ", Kind::Density, nothing, most, |trial| (real(trial, &first), pressure.expr())),
    );
    let now = real(&density, &second);
    entry("nitrogen-pressure-real", "Nitrogen test at another temperature, real gas", Group::Tightness)
        .purpose(
            "As the plain nitrogen test, with nitrogen's own departure from the ideal gas: at 600 psig it moves about a tenth more than the \
             ideal law says. Look here before calling a few psi a leak.",
        )
        .inputs([&pressure, &first, &second])
        .source(
            Mark::FromMemory,
            "virial equation at constant density; coefficients by Tsonopoulos, AIChE J. 20 (1974) 263, and Orbey and Vera, \
             AIChE J. 29 (1983) 107 (coefficients from memory; one worked row checks them)",
        )
        .worked(
            &[("pressure", "600 psig"), ("first temperature", "95 °F"), ("second temperature", "40 °F")],
            "533 psig",
        )
        .answer("pressure now", "p_2", Kind::Pressure, now)
}
