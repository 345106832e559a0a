//! How long a bubble or dew point takes: `cargo bench --bench saturation`.
//!
//! Named `saturation/r410a/dew`. Each asks for a temperature (or pressure) that goes round a hundred values between −40 °C
//! and 0.97 of the critical temperature, so that no figure is that of one lucky point. `tests/reference/time_library.py`
//! times CoolProp on the same points.

#![allow(clippy::unwrap_used, missing_docs, reason = "a benchmark that can't go on stops")]

use std::{hint::black_box, time::Instant};

use coldpress::{
    fluid::Refrigerant,
    quantity::{Pressure, Temperature},
};
use criterion::{Criterion, criterion_group, criterion_main};

/// Name in the benchmark, designation, parts.
type Subject = (&'static str, &'static str, &'static [(&'static str, f64)]);

const SUBJECTS: &[Subject] = &[
    ("r134a", "R-134a", &[("R-134a", 1.0)]),
    ("r744", "R-744", &[("R-744", 1.0)]),
    ("r410a", "R-410A", &[("R-32", 50.0), ("R-125", 50.0)]),
    ("r454b", "R-454B", &[("R-32", 68.9), ("R-1234yf", 31.1)]),
    ("r407c", "R-407C", &[("R-32", 23.0), ("R-125", 25.0), ("R-134a", 52.0)]),
    ("r448a", "R-448A", &[("R-32", 26.0), ("R-125", 26.0), ("R-1234yf", 20.0), ("R-134a", 21.0), ("R-1234ze(E)", 7.0)]),
];

fn temperatures(fluid: &Refrigerant) -> Vec<Temperature> {
    let (low, high) = (233.15, 0.97 * fluid.critical().unwrap().temperature.as_kelvin());
    (0..100).map(|i| Temperature::from_kelvin(low + (high - low) * (f64::from(i) + 0.5) / 100.0)).collect()
}

fn saturation(criterion: &mut Criterion) {
    for (name, designation, parts) in SUBJECTS {
        let mut group = criterion.benchmark_group(format!("saturation/{name}"));
        let fluid = Refrigerant::blend(designation, parts).unwrap();
        let points = temperatures(&fluid);
        let pressures: Vec<Pressure> = points.iter().map(|t| fluid.dew_pressure(*t).unwrap()).collect();
        let mut at = 0;
        let mut next = move || {
            at = (at + 1) % 100;
            at
        };
        group.bench_function("bubble", |b| b.iter(|| fluid.bubble_pressure(black_box(points[next()]))));
        group.bench_function("dew", |b| b.iter(|| fluid.dew_pressure(black_box(points[next()]))));
        group.bench_function("dew-temperature", |b| b.iter(|| fluid.dew_temperature(black_box(pressures[next()]))));
        let expanded = fluid.expanded().unwrap();
        group.bench_function("dew-expanded", |b| b.iter(|| expanded.dew_pressure(black_box(points[next()]))));
        group.bench_function("dew-temperature-expanded", |b| {
            b.iter(|| expanded.dew_temperature(black_box(pressures[next()])))
        });
        group.bench_function("make-expansions", |b| {
            b.iter(|| Refrigerant::blend(designation, parts).unwrap().expanded().unwrap().dew_pressure(points[50]))
        });
        group.bench_function("first-answer", |b| {
            b.iter(|| Refrigerant::blend(designation, parts).unwrap().dew_pressure(black_box(points[50])))
        });
        // As many on each of two threads at once: the same figure as `dew` where they don't wait for each other.
        group.bench_function("dew-on-two-threads", |b| {
            b.iter_custom(|rounds| {
                let ask = || (0..rounds).for_each(|i| drop(black_box(fluid.dew_pressure(points[i as usize % 100]))));
                let begun = Instant::now();
                std::thread::scope(|scope| [scope.spawn(ask), scope.spawn(ask)].map(|asked| asked.join().unwrap()));
                begun.elapsed()
            })
        });
        group.finish();
    }
}

criterion_group!(benches, saturation);
criterion_main!(benches);
