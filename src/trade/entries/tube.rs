//! How much pressure a copper tube stands.

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::input::given;

pub(super) fn tube_working_pressure() -> Computation {
    let stress = given("stress", "S", Kind::PressureDifference)
        .about("allowed at the working temperature; for annealed copper 6000 psi at 100 °F, 5100 psi at 150 °F, 4900 psi at 200 °F")
        .between(100.0, 60_000.0, &unit::PSI)
        .shown((&unit::PSI, 0), (&unit::MEGAPASCAL_OF_DIFFERENCE, 1));
    let wall = given("least wall", "t_min", Kind::Length)
        .about("thinnest the tolerance allows")
        .between(0.005, 1.0, &unit::INCH)
        .shown((&unit::INCH, 3), (&unit::MILLIMETER, 2));
    let outside = given("largest outside diameter", "D_max", Kind::Length)
        .about("widest the tolerance allows")
        .between(0.05, 12.0, &unit::INCH)
        .shown((&unit::INCH, 3), (&unit::MILLIMETER, 2));
    entry("tube-working-pressure", "Working pressure of a copper tube", Group::Lines)
        .purpose(
            "The pressure that a copper tube may work at. Brazing anneals the tube beside the joint, so the annealed figure holds for the \
             whole line. The marking on the tube and the code that applies go first.",
        )
        .inputs([&stress, &wall, &outside])
        .refuse(
            (2.0 * &wall).at_least(&outside),
            "twice the wall is not less than the outside diameter: the two may be swapped",
        )
        .source(
            Mark::Standard,
            "ASME B31, straight pipe under internal pressure, y = 0.4 and no allowance; stresses as printed by the copper industry",
        )
        .worked(
            &[("stress", "6000 psi"), ("least wall", "0.029 in"), ("largest outside diameter", "0.377 in")],
            "984 psi",
        )
        .answer_in(
            "working pressure",
            "P",
            Kind::PressureDifference,
            (&unit::PSI, 0),
            (&unit::MEGAPASCAL_OF_DIFFERENCE, 2),
            2.0 * &stress * &wall / (&outside - 0.8 * &wall),
        )
}
