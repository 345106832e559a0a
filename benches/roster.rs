//! How long a bubble or dew point of every refrigerant takes, solved and expanded: `cargo bench --bench roster`.
//!
//! Prints a row a refrigerant, in microseconds: solved points (`bubble`, `dew` at a temperature, `bubble-t`, `dew-t` at a
//! pressure), making the expansions, reading them, and a first answer. Two hundred points from −60 °F or the lowest
//! temperature to 0.995 of the critical one, the quickest of several rounds, so that other work on the machine shows least.
//! Run as a test it goes round once.

#![allow(clippy::unwrap_used, missing_docs, reason = "a benchmark that can't go on stops")]
#![allow(clippy::print_stdout, reason = "what it finds")]

use std::{hint::black_box, path::Path, time::Instant};

use coldpress::{
    fluid::{Equation, Refrigerant},
    quantity::{Pressure, Temperature},
};

const POINTS: usize = 200;

/// Designation, and parts by mass.
type Subject = (String, Vec<(String, f64)>);

fn subjects() -> Vec<Subject> {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/blends.csv");
    let text = std::fs::read_to_string(path).unwrap();
    let blends = text.lines().filter(|line| !line.starts_with('#')).skip(1).map(|line| {
        let cells: Vec<&str> = line.split(',').collect();
        let shares = cells[2].split('/').map(|share| share.parse().unwrap());
        (cells[0].to_owned(), cells[1].split('/').map(str::to_owned).zip(shares).collect())
    });
    let pures = Equation::designations().map(|name| (name.to_owned(), vec![(name.to_owned(), 1.0)]));
    pures.chain(blends).collect()
}

/// Microseconds a call: the quickest of `rounds` rounds of `calls` calls.
fn quickest(rounds: usize, calls: usize, mut call: impl FnMut(usize)) -> f64 {
    let round = |_| {
        let begun = Instant::now();
        (0..calls).for_each(&mut call);
        begun.elapsed().as_secs_f64() * 1e6 / calls as f64
    };
    (0..rounds).map(round).fold(f64::INFINITY, f64::min)
}

fn main() {
    let rounds = if std::env::args().any(|argument| argument == "--bench") { 12 } else { 1 };
    println!("| | parts | bubble | dew | bubble-t | dew-t | make | dew-expanded | dew-t-expanded | first |");
    println!("|---|---|---|---|---|---|---|---|---|---|");
    for (name, parts) in subjects() {
        let parts: Vec<(&str, f64)> = parts.iter().map(|(part, share)| (part.as_str(), *share)).collect();
        let made = || Refrigerant::blend(&name, &parts).unwrap();
        let fluid = made();
        let low = fluid.valid_temperature().0.as_kelvin().max(Temperature::from_fahrenheit(-60.0).as_kelvin());
        let high = 0.995 * fluid.critical().unwrap().temperature.as_kelvin();
        let t: Vec<Temperature> = (0..POINTS)
            .map(|i| Temperature::from_kelvin(low + (high - low) * (i as f64 + 0.5) / POINTS as f64))
            .collect();
        let bubbles: Vec<Pressure> = t.iter().map(|t| fluid.bubble_pressure(*t).unwrap()).collect();
        let dews: Vec<Pressure> = t.iter().map(|t| fluid.dew_pressure(*t).unwrap()).collect();
        let expanded = fluid.expanded().unwrap();
        let figures = [
            quickest(rounds, POINTS, |i| drop(black_box(fluid.bubble_pressure(t[i])))),
            quickest(rounds, POINTS, |i| drop(black_box(fluid.dew_pressure(t[i])))),
            quickest(rounds, POINTS, |i| drop(black_box(fluid.bubble_temperature(bubbles[i])))),
            quickest(rounds, POINTS, |i| drop(black_box(fluid.dew_temperature(dews[i])))),
            quickest(rounds, 1, |_| drop(black_box(made().expanded().map(|made| made.dew_pressure(t[0]))))),
            quickest(rounds, POINTS, |i| drop(black_box(expanded.dew_pressure(t[i])))),
            quickest(rounds, POINTS, |i| drop(black_box(expanded.dew_temperature(dews[i])))),
            quickest(rounds, 1, |_| drop(black_box(made().dew_pressure(t[POINTS / 2])))),
        ];
        println!("| {name} | {} | {} |", parts.len(), figures.map(|us| format!("{us:.3}")).join(" | "));
    }
}
