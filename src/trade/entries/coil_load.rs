//! What a coil takes out of the air: heat in all, and water.

use super::psychrometrics::{IN, MoistAir, OUT, SOURCE};
use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Draft, Group, Mark, entry};
use crate::trade::expression::{Expr, step};
use crate::trade::input::{Input, given};

/// Air before and behind the coil.
struct Coil {
    airflow: Input,
    before: MoistAir,
    behind: MoistAir,
}

impl Coil {
    fn new() -> Self {
        let before = MoistAir::by_wet_bulb(IN);
        Self {
            airflow: given("airflow", "V_air", Kind::VolumeFlow).about("measured in front of the coil").between(
                1.0,
                1_000_000.0,
                &unit::CUBIC_FOOT_PER_MINUTE,
            ),
            behind: before.at(OUT),
            before,
        }
    }

    /// Flow of dry air.
    fn flow(&self) -> Expr {
        let volume = step("specific volume of the air in", "v_1", Kind::SpecificVolume, self.before.volume());
        step("flow of dry air", "m_air", Kind::MassFlow, &self.airflow / volume)
    }

    fn draft(&self, name: &'static str, title: &'static str, purpose: &'static str) -> Draft {
        let above = "a wet bulb is above its dry bulb, which cannot be: a reading is wrong, or they are swapped";
        let inputs = [vec![&self.airflow], self.before.inputs(), self.behind.inputs()].concat();
        entry(name, title, Group::Air)
            .purpose(purpose)
            .inputs(inputs)
            .refuse(self.before.wet_or_dry().above(&self.before.dry), above)
            .refuse(self.behind.wet_or_dry().above(&self.behind.dry), above)
            .source(Mark::Standard, SOURCE)
    }
}

const WORKED: &[(&str, &str)] = &[
    ("airflow", "1200 cfm"),
    ("dry bulb in", "80 °F"),
    ("wet bulb in", "67 °F"),
    ("dry bulb out", "58 °F"),
    ("wet bulb out", "56.5 °F"),
];

pub(super) fn coil_total_capacity() -> Computation {
    let coil = Coil::new();
    let heat = coil.flow() * (coil.before.enthalpy_step() - coil.behind.enthalpy_step());
    coil.draft(
        "coil-total-capacity",
        "Total capacity of a coil, by the air",
        "The heat a coil takes from the air, sensible and latent together, by the air before and behind it.",
    )
    .worked(WORKED, "38,184 Btu/h")
    .answer("total capacity", "Q", Kind::Power, heat)
}

pub(super) fn condensate_rate() -> Computation {
    let coil = Coil::new();
    let water = coil.flow() * (coil.before.ratio_step() - coil.behind.ratio_step());
    coil.draft(
        "condensate-rate",
        "Condensate from a coil",
        "The water a coil takes out of the air. A bucket and a watch at the drain check it.",
    )
    .worked(WORKED, "9.3 lb/h")
    .answer_in(
        "condensate",
        "m_water",
        Kind::MassFlow,
        (&unit::POUND_PER_HOUR, 1),
        (&unit::KILOGRAM_PER_HOUR, 2),
        water,
    )
}
