//! States drawn at random over all that the equations hold for: found, or refused for a reason a reader can act on; and found
//! again from enthalpy and from entropy.

use coldpress::{
    fluid::{Equation, FluidError, Refrigerant, State},
    quantity::{Pressure, Temperature},
};
use rand_chacha::{
    ChaCha8Rng,
    rand_core::{RngCore, SeedableRng},
};

use crate::properties::every_refrigerant;

/// How many states of each refrigerant.
const STATES: usize = 150;

/// What one refrigerant's states came to.
#[derive(Default)]
struct Told {
    found: usize,
    two_phase: usize,
    near_critical: usize,
    wrong: Vec<String>,
}

impl Told {
    /// The state, or its refusal counted; anything else is wrong.
    fn enter(&mut self, place: &str, state: Result<State, FluidError>) -> Option<State> {
        match state {
            Ok(state) => {
                self.found += 1;
                return Some(state);
            }
            Err(FluidError::TwoPhase { .. }) => self.two_phase += 1,
            Err(FluidError::NearCritical { .. }) => self.near_critical += 1,
            Err(other) => self.wrong.push(format!("{place}: {other}")),
        }
        None
    }
}

#[test]
fn a_state_drawn_at_random_is_found_and_found_again() {
    let (mut found, mut refused, mut wrong) = (0, 0, Vec::new());
    for (number, fluid) in every_refrigerant().into_iter().enumerate() {
        let mut dice = ChaCha8Rng::seed_from_u64(number as u64);
        let told = of_one(&fluid, &mut || dice.next_u32() as f64 / f64::from(u32::MAX));
        // Refusals are for where two phases stand side by side, and for a narrow band about the critical point.
        if told.found < STATES || told.near_critical > STATES / 4 {
            wrong.push(format!("{}: {} found, {} refused", fluid.designation(), told.found, told.near_critical));
        }
        found += told.found;
        refused += told.two_phase + told.near_critical;
        wrong.extend(told.wrong);
    }
    println!("{found} states found, {refused} refused as two phases or near the critical point");
    assert!(wrong.is_empty(), "{}:\n{}", wrong.len(), wrong[..wrong.len().min(40)].join("\n"));
}

/// Random pressures, even in their logarithm from 1 kPa to 20 MPa, and temperatures, even over the range of the equations.
fn of_one(fluid: &Refrigerant, random: &mut dyn FnMut() -> f64) -> Told {
    let components = fluid.components();
    let least =
        |pick: &dyn Fn(&Equation) -> f64| components.iter().map(|c| pick(c.equation)).fold(f64::INFINITY, f64::min);
    let low = fluid.valid_temperature().0.as_kelvin().max(-least(&|e| -e.valid_temperature().0.as_kelvin()));
    let high = least(&|e| e.valid_temperature().1.as_kelvin());
    let most = least(&|e| e.valid_pressure().as_pascal()).min(20e6);
    let mut told = Told::default();
    for _ in 0..STATES {
        let t = Temperature::from_kelvin(low + (high - low) * (0.001 + 0.998 * random()));
        let p = Pressure::from_pascal(1e3 * (0.999 * most / 1e3).powf(random()));
        let place = format!("{} at {} Pa, {} K", fluid.designation(), p.as_pascal(), t.as_kelvin());
        let Some(state) = told.enter(&place, fluid.state(p, t)) else { continue };
        for (by, again) in [
            ("enthalpy", fluid.state_at_enthalpy(p, state.enthalpy_j_kg())),
            ("entropy", fluid.state_at_entropy(p, state.entropy_j_kg_k())),
        ] {
            let Some(again) = told.enter(&format!("{place}, by {by}"), again) else { continue };
            let apart = |f: fn(&State) -> f64| (f(&again) / f(&state) - 1.0).abs();
            let (warmer, denser) = (apart(|s| s.temperature().as_kelvin()), apart(State::density_kg_m3));
            if warmer > 1e-8 || denser > 1e-6 || again.phase() != state.phase() {
                told.wrong.push(format!("{place}, by {by}: {again:?} is not {state:?}"));
            }
        }
    }
    told
}
