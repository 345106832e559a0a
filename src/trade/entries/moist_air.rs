//! Moisture in the air, by whichever two readings there are.

use super::psychrometrics::{MoistAir, SOURCE};
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Draft, Group, Mark, entry};

const WET_ABOVE_DRY: &str =
    "the wet bulb (or dew point) is above the dry bulb, which cannot be: a reading is wrong, or they are swapped";

fn draft(name: &'static str, title: &'static str, purpose: &'static str, air: &MoistAir) -> Draft {
    entry(name, title, Group::Air)
        .purpose(purpose)
        .inputs(air.inputs())
        .refuse(air.wet_or_dry().above(&air.dry), WET_ABOVE_DRY)
        .source(Mark::Standard, SOURCE)
}

pub(super) fn humidity_ratio() -> Computation {
    let air = MoistAir::by_any();
    draft("humidity-ratio", "Humidity ratio", "The mass of water vapor in the air for each mass of dry air.", &air)
        .worked(&[("dry bulb", "80 °F"), ("wet bulb", "67 °F")], "0.0112 lb/lb")
        .answer("humidity ratio", "W", Kind::HumidityRatio, air.ratio())
}

pub(super) fn relative_humidity() -> Computation {
    let air = MoistAir::by_any().seeking_humidity();
    draft(
        "relative-humidity",
        "Relative humidity",
        "How near the air is to holding all the water vapor it can at its temperature.",
        &air,
    )
    .worked(&[("dry bulb", "27 °C"), ("wet bulb", "19 °C")], "47 %")
    .answer_in(
        "relative humidity",
        "φ",
        Kind::Ratio,
        (&unit::PERCENT, 1),
        (&unit::PERCENT, 1),
        air.relative_humidity(),
    )
}

pub(super) fn dew_point() -> Computation {
    let air = MoistAir::by_any().seeking_dew_point();
    draft(
        "dew-point",
        "Dew point of air",
        "The temperature at which this air begins to give up water: a surface colder than it sweats (below freezing, frosts).",
        &air,
    )
    .worked(&[("dry bulb", "75 °F"), ("relative humidity", "50 %")], "55.1 °F")
    .answer("dew point", "t_dp", Kind::Temperature, air.dew_point())
}

pub(super) fn wet_bulb() -> Computation {
    let air = MoistAir::by_any().seeking_wet_bulb();
    draft(
        "wet-bulb",
        "Wet bulb",
        "What a wetted thermometer in moving air shows: the temperature down to which this air cools by evaporation.",
        &air,
    )
    .worked(&[("dry bulb", "95 °F"), ("relative humidity", "40 %")], "75.1 °F")
    .answer("wet bulb", "t_wb", Kind::Temperature, air.wet_bulb())
}

pub(super) fn moist_enthalpy() -> Computation {
    let air = MoistAir::by_any();
    draft(
        "moist-enthalpy",
        "Enthalpy of moist air",
        "The heat content of air with its moisture, for each mass of dry air. US tables count it from dry air at 0 °F and SI tables \
         from 0 °C, so the two don't convert by a factor; only differences do.",
        &air,
    )
    .worked(&[("dry bulb", "40 °C"), ("wet bulb", "20 °C")], "56.7 kJ/kg")
    .answer("enthalpy of the air", "h", Kind::MoistAirEnthalpy, air.enthalpy())
}

pub(super) fn moist_volume() -> Computation {
    let air = MoistAir::by_any();
    draft(
        "moist-volume",
        "Specific volume of moist air",
        "The volume of air with its moisture, for each mass of dry air.",
        &air,
    )
    .worked(&[("dry bulb", "80 °F"), ("wet bulb", "67 °F")], "13.85 ft³/lb")
    .answer("specific volume", "v", Kind::SpecificVolume, air.volume())
}
