//! The solver asked by many threads at once: the same bits whoever asks, and nothing allocated while it works.

use std::sync::Barrier;

use allocation_counter::measure;
use coldpress::{
    fluid::{FluidError, Refrigerant, State},
    quantity::{Pressure, Temperature},
};

use crate::properties::{every_refrigerant, refrigerant};

/// One question of every kind that the solver answers, at the part `part` of the way from −40 °C to 0.95 of the critical
/// temperature; the answers as bits.
fn ask(fluid: &Refrigerant, part: f64) -> Result<Vec<u64>, FluidError> {
    let high = 0.95 * fluid.critical()?.temperature.as_kelvin();
    let t = Temperature::from_kelvin(233.15 + part * (high - 233.15));
    let (bubble, dew) = (fluid.bubble(t)?, fluid.dew(t)?);
    let liquid = fluid.state(Pressure::from_pascal(1.2 * bubble.pressure.as_pascal()), t)?;
    let vapor = fluid.state(Pressure::from_pascal(0.8 * dew.pressure.as_pascal()), t)?;
    let half = fluid.state_at_quality(dew.pressure, 0.5)?;
    let states = [bubble.liquid, bubble.vapor, dew.liquid, dew.vapor, liquid, vapor, half].into_iter();
    let again = [
        fluid.state_at_enthalpy(dew.pressure, half.enthalpy_j_kg())?,
        fluid.state_at_entropy(liquid.pressure(), liquid.entropy_j_kg_k())?,
    ];
    let of_state = |s: State| [s.temperature().as_kelvin(), s.density_kg_m3(), s.enthalpy_j_kg(), s.entropy_j_kg_k()];
    let figures = states.chain(again).flat_map(of_state).chain([
        bubble.pressure.as_pascal(),
        dew.pressure.as_pascal(),
        fluid.bubble_temperature(bubble.pressure)?.as_kelvin(),
        fluid.dew_temperature(dew.pressure)?.as_kelvin(),
        fluid.expanded()?.bubble_pressure(t)?.as_pascal(),
        fluid.expanded()?.vapor_enthalpy_j_kg(t)?,
    ]);
    Ok(figures.map(f64::to_bits).collect())
}

#[test]
fn threads_that_ask_at_once_are_told_the_same_to_the_last_bit() {
    const THREADS: usize = 16;
    const QUESTIONS: usize = 12;
    let part = |i: usize| (i % QUESTIONS) as f64 / (QUESTIONS - 1) as f64;
    for name in ["R-134a", "R-744", "R-410A", "R-454C", "R-448A"] {
        let alone = refrigerant(name);
        let wanted: Vec<Vec<u64>> = (0..QUESTIONS).map(|i| ask(&alone, part(i)).unwrap()).collect();
        // Not asked anything yet: its lines are walked and its expansions made while all threads want them, and each
        // thread begins with another question.
        let shared = refrigerant(name);
        let start = Barrier::new(THREADS);
        std::thread::scope(|scope| {
            let asked: Vec<_> = (0..THREADS)
                .map(|k| {
                    let (shared, start) = (&shared, &start);
                    scope.spawn(move || {
                        start.wait();
                        (0..QUESTIONS).map(|i| ask(shared, part(k + i)).unwrap()).collect::<Vec<_>>()
                    })
                })
                .collect();
            for (k, thread) in asked.into_iter().enumerate() {
                for (i, found) in thread.join().unwrap().into_iter().enumerate() {
                    assert_eq!(found, wanted[(k + i) % QUESTIONS], "{name}, thread {k}, question {i}");
                }
            }
        });
    }
}

#[test]
fn nothing_is_allocated_while_the_solver_works() {
    // That the counter counts.
    assert_eq!(measure(|| drop(std::hint::black_box(vec![1.0_f64; 8]))).count_total, 1);
    for fluid in every_refrigerant() {
        let name = fluid.designation();
        // What is kept once for a composition: its lines, its zero of enthalpy, its expansions.
        ask(&fluid, 0.5).unwrap();
        let (low, high) = fluid.valid_temperature();
        for i in 0..=40 {
            let part = f64::from(i) / 40.0;
            let t = Temperature::from_kelvin(low.as_kelvin() + (high.as_kelvin() - low.as_kelvin()) * part.sqrt());
            let t = if i == 40 { high } else { t };
            let mut pressures = [Pressure::STANDARD_ATMOSPHERE; 2];
            let mut counts = [0; 4];
            counts[0] = measure(|| {
                pressures = [fluid.bubble(t).unwrap().pressure, fluid.dew(t).unwrap().pressure];
            })
            .count_total;
            // The ends of a line, a rounding outside of it, are errors, which are told in words.
            if (1..40).contains(&i) {
                counts[1] = measure(|| {
                    fluid.bubble_temperature(pressures[0]).unwrap();
                    fluid.dew_temperature(pressures[1]).unwrap();
                })
                .count_total;
                counts[2] = measure(|| {
                    let expanded = fluid.expanded().unwrap();
                    expanded.bubble_pressure(t).unwrap();
                    expanded.dew_temperature(pressures[1]).unwrap();
                })
                .count_total;
            }
            if i % 8 == 4 {
                counts[3] = measure(|| {
                    fluid.state_at_quality(pressures[1], 0.5).unwrap();
                })
                .count_total;
            }
            let at = format!("{name} at {} K", t.as_kelvin());
            assert_eq!(counts, [0; 4], "{at}: points, temperatures, expansions, part boiled");
        }
    }
}
