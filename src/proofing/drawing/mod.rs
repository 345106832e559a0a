//! Drawings made from readings: what is given is read, and every figure in them reckoned through the catalogue.
//! `drawing-not-known`: there is no such drawing; `drawing-lacks`: something it is drawn from is not given;
//! `drawing-not-read`: it is given what it can't be drawn from.
//!
//! A drawing is believed sooner than a sentence. So it is made from the same sums as the figures beside it, or not at all.
//!
//! Trips: `kind: three-force`. Mended: `kind: three-forces`.

mod desk;

mod bulb_clock;
mod capacity_against_opening;
mod pressure_enthalpy;
mod psychrometric;
mod pull_down;
mod saturation_curve;
mod superheat_along_coil;
mod three_forces;

pub use bulb_clock::{BulbClock, BulbLine, Hours};
pub use capacity_against_opening::{CapacityAgainstOpening, CapacityCurve};
pub use pressure_enthalpy::{Corner, PressureEnthalpy};
pub use psychrometric::{AirPoint, HumidityCurve, Psychrometric};
pub use pull_down::{PullDown, PullDownReading, PullDownSeries};
pub use saturation_curve::{CurveMark, CurvePoint, SaturationCurve};
pub use superheat_along_coil::SuperheatAlongCoil;
pub use three_forces::ThreeForces;

use super::ValueFigure;
use super::inputs::Bench;
use crate::fluid::Refrigerant;
use crate::handbook::{BlockKind, Drawing, Finding, Handbook, Span};
use crate::quantity::{Pressure, nearest, plain_words};
use crate::trade::Surroundings;
use desk::{Desk, Stop};
use std::collections::BTreeMap;

/// A drawing with every figure in it reckoned.
#[derive(Clone, Debug)]
pub struct DrawingProof {
    /// What is drawn.
    pub scene: Scene,
    /// The air that gauges in it read against.
    pub air: Pressure,
    /// Where its figures come from, each once.
    pub sources: Vec<String>,
}

/// What is drawn, by kind.
#[derive(Clone, Debug)]
pub enum Scene {
    /// The forces on a valve's diaphragm.
    ThreeForces(ThreeForces),
    /// Where the bulb sits on lines of several sizes.
    BulbClock(BulbClock),
    /// Pressure against temperature, of liquid and vapor.
    SaturationCurve(SaturationCurve),
    /// The cycle on a chart of pressure against enthalpy.
    PressureEnthalpy(PressureEnthalpy),
    /// States of moist air.
    Psychrometric(Psychrometric),
    /// Temperature of the refrigerant from the coil's inlet to the bulb.
    SuperheatAlongCoil(SuperheatAlongCoil),
    /// What a valve passes as it opens.
    CapacityAgainstOpening(CapacityAgainstOpening),
    /// A pressure or a temperature as time goes by.
    PullDown(PullDown),
}

type Examine = fn(&Desk<'_>) -> Result<Scene, Stop>;

/// Every kind of drawing, in the order of the author's guide.
const KINDS: [(&str, Examine); 8] = [
    ("three-forces", three_forces::examine),
    ("bulb-clock", bulb_clock::examine),
    ("saturation-curve", saturation_curve::examine),
    ("pressure-enthalpy", pressure_enthalpy::examine),
    ("psychrometric", psychrometric::examine),
    ("superheat-along-coil", superheat_along_coil::examine),
    ("capacity-against-opening", capacity_against_opening::examine),
    ("pull-down", pull_down::examine),
];

/// Reckons every drawing of the handbook.
pub(super) fn examine(
    book: &Handbook,
    values: &BTreeMap<String, ValueFigure>,
    roster: &BTreeMap<String, Refrigerant>,
    around: &Surroundings,
    findings: &mut Vec<Finding>,
) -> BTreeMap<Span, DrawingProof> {
    let bench = Bench { book, roster };
    let mut drawings = BTreeMap::new();
    for block in book.lessons.values().flat_map(|lesson| &lesson.blocks) {
        let BlockKind::Drawing(wanted) = &block.kind else { continue };
        match drawing(wanted, bench, values, around) {
            Ok(proof) => {
                drawings.insert(block.at, proof);
            }
            Err(Stop::Told) => {}
            Err(Stop::Found(finding)) => findings.push(*finding),
        }
    }
    drawings
}

fn drawing(
    drawing: &Drawing,
    bench: Bench<'_>,
    values: &BTreeMap<String, ValueFigure>,
    around: &Surroundings,
) -> Result<DrawingProof, Stop> {
    let asked = plain_words(&drawing.kind.value);
    let Some((_, examine)) = KINDS.iter().find(|(name, _)| plain_words(name) == asked) else {
        let names = || KINDS.iter().map(|(name, _)| *name);
        let says = format!("there is no drawing `{}`", drawing.kind.value);
        let instead = nearest(&drawing.kind.value, names()).map_or_else(
            || format!("there are `{}`", names().collect::<Vec<_>>().join("`, `")),
            |near| format!("the nearest is `{near}`"),
        );
        return Err(Finding::error("drawing-not-known", drawing.kind.at, says).instead(instead).into());
    };
    let desk = Desk::new(drawing, bench, values, around)?;
    let scene = examine(&desk)?;
    Ok(DrawingProof { scene, air: desk.air(), sources: desk.sources() })
}
