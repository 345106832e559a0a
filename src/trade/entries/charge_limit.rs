//! How much refrigerant may be where people are.

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{Expr, choose, least};
use crate::trade::input::{Input, given};

const IEC: &str = "IEC 60335-2-40:2018, annex GG; later editions and UL 60335-2-40 differ, and the name plate and the maker's \
                   instructions govern";

fn lower_limit() -> Input {
    given("lfl", "LFL", Kind::Density)
        .about("lower flammability limit, of the standard that is worked to")
        .between(0.01, 2.0, &unit::KILOGRAM_PER_CUBIC_METER)
        .shown((&unit::POUND_PER_CUBIC_FOOT, 4), (&unit::KILOGRAM_PER_CUBIC_METER, 3))
}

fn release_height() -> Input {
    given("release height", "h_0", Kind::Length)
        .about("0.6 m for a unit on the floor, 1.0 m in a window, 1.8 m on a wall, 2.2 m at the ceiling")
        .between(0.6, 5.0, &unit::METER)
}

fn charge() -> Input {
    given("charge", "m", Kind::Mass).between(0.001, 10_000.0, &unit::KILOGRAM)
}

fn number(input: &Input, unit: &'static crate::quantity::Unit) -> Expr {
    input.expr().number_of(unit)
}

pub(super) fn charge_limit_m1() -> Computation {
    let limit = lower_limit();
    let factor = given("factor", "F", Kind::Volume).about("6 m³ for A2L, 4 m³ for A2 and A3").between(
        1.0,
        10.0,
        &unit::CUBIC_METER,
    );
    entry("charge-limit-m1", "Charge that asks nothing of the room", Group::Limits)
        .purpose("The charge of a flammable refrigerant up to which the standard puts no condition on the room.")
        .inputs([&limit, &factor])
        .source(Mark::Standard, IEC)
        .worked(&[("lfl", "0.307 kg/m³"), ("factor", "6 m³")], "1.84 kg")
        .answer("charge m₁", "m_1", Kind::Mass, &limit * &factor)
}

pub(super) fn charge_limit_room() -> Computation {
    let (limit, height) = (lower_limit(), release_height());
    let area = given("floor area", "A", Kind::Area).between(1.0, 10_000.0, &unit::SQUARE_METER);
    let (l, h, a) = (
        number(&limit, &unit::KILOGRAM_PER_CUBIC_METER),
        number(&height, &unit::METER),
        number(&area, &unit::SQUARE_METER),
    );
    let spread = 2.5 * l.to_the(1.25) * &h * a.root();
    let whole = 0.75 * &l * &h * &a;
    entry("charge-limit-room", "Charge that a room may have", Group::Limits)
        .purpose(
            "The most of a flammable refrigerant that a system may hold where all of it could leak into one unventilated room. Of the two \
             limits the lesser holds. The second is for A2L and bites in small rooms; it is taken for every group, on the safe side.",
        )
        .inputs([&limit, &height, &area])
        .source(Mark::Standard, IEC)
        .worked(&[("lfl", "0.307 kg/m³"), ("release height", "1.8 m"), ("floor area", "20 m²")], "4.60 kg")
        .answer("most charge", "m_max", Kind::Mass, least(spread, whole).of_unit(&unit::KILOGRAM))
}

pub(super) fn min_floor_area() -> Computation {
    let (charge, limit, height) = (charge(), lower_limit(), release_height());
    let (m, l, h) = (
        number(&charge, &unit::KILOGRAM),
        number(&limit, &unit::KILOGRAM_PER_CUBIC_METER),
        number(&height, &unit::METER),
    );
    let spread = (&m / (2.5 * l.to_the(1.25) * &h)).to_the(2.0);
    let whole = &m / (0.75 * &l * &h);
    entry("min-floor-area", "Least floor area for a charge", Group::Limits)
        .purpose(
            "The floor that a room must have for a charge of flammable refrigerant, unventilated. Of the two areas the greater holds. The \
             second is for A2L, small charges and high units; it is taken for every group, on the safe side.",
        )
        .inputs([&charge, &limit, &height])
        .source(Mark::Standard, IEC)
        .worked(&[("charge", "1.84 kg"), ("lfl", "0.307 kg/m³"), ("release height", "0.6 m")], "28.81 m²")
        .answer(
            "least floor area",
            "A_min",
            Kind::Area,
            choose(spread.above(whole.clone()), spread, whole).of_unit(&unit::SQUARE_METER),
        )
}

pub(super) fn room_concentration() -> Computation {
    let charge = charge();
    let volume = given("room volume", "V", Kind::Volume).between(0.1, 1_000_000.0, &unit::CUBIC_METER);
    entry("room-concentration", "Concentration if the whole charge leaks", Group::Limits)
        .purpose(
            "What concentration the room comes to when all of the largest circuit leaks into it and mixes. Hold it against the refrigerant \
             concentration limit (RCL) of its safety standard.",
        )
        .inputs([&charge, &volume])
        .source(Mark::Physics, "mass over volume; the limit to hold it against is that of ASHRAE 34")
        .worked(&[("charge", "4.2 lb"), ("room volume", "1400 ft³")], "48.1 g/m³")
        .answer_in(
            "concentration",
            "c",
            Kind::Density,
            (&unit::POUND_PER_THOUSAND_CUBIC_FEET, 2),
            (&unit::GRAM_PER_CUBIC_METER, 1),
            &charge / &volume,
        )
}

pub(super) fn quarter_lfl() -> Computation {
    let limit = lower_limit();
    entry("quarter-lfl", "A quarter of the lower flammability limit", Group::Limits)
        .purpose("The flammable concentration limit: a quarter of the concentration at which the refrigerant can burn.")
        .inputs([&limit])
        .source(Mark::Standard, "ASHRAE 34, flammable concentration limit, 25 % of the lower flammability limit")
        .worked(&[("lfl", "0.307 kg/m³")], "76.8 g/m³")
        .answer_in(
            "flammable concentration limit",
            "FCL",
            Kind::Density,
            (&unit::POUND_PER_THOUSAND_CUBIC_FEET, 2),
            (&unit::GRAM_PER_CUBIC_METER, 1),
            0.25 * &limit,
        )
}

pub(super) fn rcl_charge() -> Computation {
    let limit = given("rcl", "RCL", Kind::Density)
        .about("refrigerant concentration limit, of ASHRAE 34")
        .between(0.1, 2000.0, &unit::GRAM_PER_CUBIC_METER)
        .shown((&unit::POUND_PER_THOUSAND_CUBIC_FEET, 1), (&unit::GRAM_PER_CUBIC_METER, 0));
    let volume = given("room volume", "V", Kind::Volume).between(0.1, 1_000_000.0, &unit::CUBIC_METER);
    entry("rcl-charge", "Charge that a volume may hold", Group::Limits)
        .purpose("The charge that brings a room to its refrigerant concentration limit when all of it leaks and mixes.")
        .inputs([&limit, &volume])
        .source(Mark::Physics, "concentration times volume; the limit itself is that of ASHRAE 34")
        .worked(&[("rcl", "77 g/m³"), ("room volume", "60 m³")], "4.62 kg")
        .answer("most charge", "m_max", Kind::Mass, &limit * &volume)
}
