//! How fast a system loses refrigerant, by the rule, and what that weighs in the air.

use crate::quantity::{Kind, unit};
use crate::trade::computation::{Computation, Group, Mark, entry};
use crate::trade::expression::{least, quantity};
use crate::trade::input::{Input, given};

const RULE: &str = "40 CFR 82.152, leak rate; one method for all systems of a site";

fn full_charge() -> Input {
    given("full charge", "m_full", Kind::Mass).between(0.1, 1_000_000.0, &unit::POUND)
}

pub(super) fn leak_rate_annualizing() -> Computation {
    let added = given("added", "m_added", Kind::Mass).between(0.0, 1_000_000.0, &unit::POUND);
    let full = full_charge();
    let days = given("days since last charge", "t", Kind::Time)
        .between(1.0, 100_000.0, &unit::DAY)
        .shown((&unit::DAY, 0), (&unit::DAY, 0));
    let year = quantity(365.0, 0, &unit::DAY, "");
    entry("leak-rate-annualizing", "Leak rate, annualizing method", Group::Limits)
        .purpose(
            "The share of its charge that a system would lose in a year, going by what was added and how long ago it was last charged. \
             Above the limit for its use the law asks for repair.",
        )
        .inputs([&added, &full, &days])
        .source(Mark::Standard, RULE)
        .worked(
            &[("added", "9 lb"), ("full charge", "120 lb"), ("days since last charge", "75 days")],
            "36.5 %",
        )
        .answer_in(
            "leak rate",
            "r",
            Kind::Ratio,
            (&unit::PERCENT, 1),
            (&unit::PERCENT, 1),
            &added / &full * (&year / least(&days, &year)),
        )
}

pub(super) fn leak_rate_rolling() -> Computation {
    let added = given("added in 365 days", "m_added", Kind::Mass)
        .about("or since the last successful follow-up test, where that is shorter")
        .between(0.0, 1_000_000.0, &unit::POUND);
    let full = full_charge();
    entry("leak-rate-rolling", "Leak rate, rolling average method", Group::Limits)
        .purpose("The share of its charge that was added to a system over the last 365 days.")
        .inputs([&added, &full])
        .source(Mark::Standard, RULE)
        .worked(&[("added in 365 days", "26 lb"), ("full charge", "120 lb")], "21.7 %")
        .answer_in("leak rate", "r", Kind::Ratio, (&unit::PERCENT, 1), (&unit::PERCENT, 1), &added / &full)
}

pub(super) fn co2_equivalent() -> Computation {
    let mass = given("mass", "m", Kind::Mass).between(0.001, 1_000_000.0, &unit::POUND);
    let warming = given("gwp", "GWP", Kind::Ratio)
        .about("over 100 years, by the report that the rule names")
        .between(0.0, 25_000.0, &unit::NUMBER)
        .shown((&unit::NUMBER, 0), (&unit::NUMBER, 0));
    entry("co2-equivalent", "Carbon dioxide equivalent", Group::Limits)
        .purpose("The mass of carbon dioxide that warms as much as this refrigerant would over a hundred years.")
        .inputs([&mass, &warming])
        .source(Mark::Standard, "mass times GWP-100; US rules take that of IPCC AR4 (40 CFR 84, appendix A)")
        .worked(&[("mass", "9 lb"), ("gwp", "2088")], "8.52 t CO₂e")
        .answer("carbon dioxide equivalent", "m_CO2e", Kind::CarbonEquivalent, &mass * &warming)
}
