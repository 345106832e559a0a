//! The entries of the catalogue, a file to a small topic, and the list of them in the order of the reference.

mod air_pressure;
mod saturation;
mod superheat;

use super::computation::Computation;

/// Every entry. A new one is a function in a file of its topic and a line here.
pub(super) fn all() -> Vec<Computation> {
    vec![
        air_pressure::atmospheric_pressure(),
        air_pressure::absolute_pressure(),
        air_pressure::vacuum_conversion(),
        saturation::bubble_pressure(),
        saturation::dew_pressure(),
        saturation::bubble_temperature(),
        saturation::dew_temperature(),
        saturation::glide(),
        superheat::superheat(),
        superheat::subcooling(),
    ]
}
