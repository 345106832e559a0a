//! How far the property engine is from other programs' figures, refrigerant by refrigerant.
//!
//! `cargo test --test whole agreement -- --nocapture` prints the table that stands in the contributor's guide.

use std::collections::BTreeMap;

use coldpress::{
    fluid::{Reference, Refrigerant},
    quantity::{Pressure, Temperature},
};

use crate::{properties::refrigerant, reference};

/// The columns of the table, with how far each may be off: of pures, of blends.
///
/// The table at every 20 °F is printed to nine figures at temperatures printed to a millionth of a kelvin, which is worth
/// up to 2e-8 of a pressure; the random points have thirteen. h and s of blends differ for a reason of its own: the
/// other program's ideal part of a mixture takes critical constants where reducing ones belong and weighs each component
/// by its own gas constant, which moves h by up to 0.0013 kJ/kg.
const QUANTITIES: [(&str, f64, f64); 9] = [
    ("bubble pressure", 2e-8, 2e-8),
    ("dew pressure", 2e-8, 2e-8),
    ("liquid density", 2e-8, 2e-8),
    ("vapor density", 2e-8, 2e-8),
    ("first bubble or drop", 2e-8, 2e-8),
    ("liquid enthalpy", 1e-7, 2e-5),
    ("vapor enthalpy", 1e-7, 2e-5),
    ("liquid entropy", 1e-7, 2e-5),
    ("vapor entropy", 1e-7, 2e-5),
];
const BUBBLE_PRESSURE: usize = 0;
const DEW_PRESSURE: usize = 1;
const LIQUID_DENSITY: usize = 2;
const VAPOR_DENSITY: usize = 3;
const FIRST: usize = 4;
const LIQUID_ENTHALPY: usize = 5;

/// What was compared of one refrigerant.
#[derive(Default)]
struct Compared {
    points: usize,
    worst: [Option<f64>; QUANTITIES.len()],
}

impl Compared {
    fn enter(&mut self, quantity: usize, found: f64, wanted: f64) {
        let gap = (found / wanted - 1.0).abs();
        let worst = &mut self.worst[quantity];
        *worst = Some(worst.map_or(gap, |worst| worst.max(gap)));
    }
}

#[test]
fn every_refrigerant_agrees_with_other_programs() {
    let mut order: Vec<(String, bool)> = Vec::new();
    let mut all: BTreeMap<String, Compared> = BTreeMap::new();
    let mut last: Option<Refrigerant> = None;
    let tables = ["random_saturation.csv", "saturation.csv"];
    for row in tables.iter().flat_map(|table| reference::rows(table)) {
        let name = row.text("refrigerant").to_owned();
        let fluid = match last.take() {
            Some(fluid) if fluid.designation() == name => fluid,
            _ => refrigerant(&name),
        };
        if !all.contains_key(&name) {
            order.push((name.clone(), fluid.is_blend()));
        }
        let compared = all.entry(name).or_default();
        compared.points += 1;
        if row.has("side") {
            random_point(&fluid, &row, compared);
        } else {
            table_row(&fluid, &row, compared);
        }
        last = Some(fluid);
    }
    println!("| refrigerant | points | {} |", QUANTITIES.map(|(name, ..)| name).join(" | "));
    println!("|---|---|{}", "---|".repeat(QUANTITIES.len()));
    let mut wrong = Vec::new();
    for (name, blend) in &order {
        let compared = &all[name];
        let told = compared.worst.map(|gap| gap.map_or_else(|| "·".to_owned(), |gap| format!("{gap:.0e}")));
        println!("| {name} | {} | {} |", compared.points, told.join(" | "));
        for ((what, pure, blended), gap) in QUANTITIES.iter().zip(compared.worst) {
            if gap.is_some_and(|gap| gap > if *blend { *blended } else { *pure }) {
                wrong.push(format!("{name}: {what} is off by {:.1e}", gap.unwrap_or_default()));
            }
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
    assert_eq!(order.len(), 48, "every equation and every blend");
}

/// A bubble or dew point at a random temperature, with the first bubble or drop: thirteen figures.
fn random_point(fluid: &Refrigerant, row: &reference::Row, compared: &mut Compared) {
    let t = Temperature::from_kelvin(row.number("T_K"));
    let molar_mass = fluid.molar_mass().unwrap();
    let bubble = row.text("side") == "bubble";
    let point = if bubble { fluid.bubble(t) } else { fluid.dew(t) }.unwrap_or_else(|e| panic!("{}: {e}", row.place()));
    let pressure = if bubble { BUBBLE_PRESSURE } else { DEW_PRESSURE };
    compared.enter(pressure, point.pressure.as_pascal(), row.number("p_Pa"));
    let other = if bubble {
        compared.enter(LIQUID_DENSITY, point.liquid.density_kg_m3() / molar_mass, row.number("rho_liquid_mol_m3"));
        point.vapor
    } else {
        compared.enter(VAPOR_DENSITY, point.vapor.density_kg_m3() / molar_mass, row.number("rho_vapor_mol_m3"));
        point.liquid
    };
    // By moles of the first component
    let masses = fluid.components().iter().map(|c| c.equation.molar_mass_kg_mol()).collect::<Vec<_>>();
    let moles: Vec<f64> = other.mass_fractions().iter().zip(&masses).map(|(w, m)| w / m).collect();
    compared.enter(FIRST, moles[0] / moles.iter().sum::<f64>(), row.number("other_first_mole_fraction"));
}

/// A row of the table at every 20 °F: nine figures, the temperature to a millionth of a kelvin.
fn table_row(fluid: &Refrigerant, row: &reference::Row, compared: &mut Compared) {
    let t = Temperature::from_kelvin(row.number("T_K"));
    let (bubble, dew) = (fluid.bubble(t).unwrap(), fluid.dew(t).unwrap());
    compared.enter(BUBBLE_PRESSURE, bubble.pressure.as_kilopascal(), row.number("p_bubble_kPa"));
    compared.enter(DEW_PRESSURE, dew.pressure.as_kilopascal(), row.number("p_dew_kPa"));
    // So near the critical point that millionth of a kelvin moves the rest.
    if t.as_kelvin() > 0.99 * fluid.critical().unwrap().temperature.as_kelvin() {
        return;
    }
    compared.enter(LIQUID_DENSITY, bubble.liquid.density_kg_m3(), row.number("rho_liquid"));
    compared.enter(VAPOR_DENSITY, dew.vapor.density_kg_m3(), row.number("rho_vapour"));
    for (i, (found, column)) in [
        (bubble.liquid.enthalpy_j_kg(), "h_liquid"),
        (dew.vapor.enthalpy_j_kg(), "h_vapour"),
        (bubble.liquid.entropy_j_kg_k(), "s_liquid"),
        (dew.vapor.entropy_j_kg_k(), "s_vapour"),
    ]
    .into_iter()
    .enumerate()
    {
        compared.enter(LIQUID_ENTHALPY + i, found / 1e3, row.number(column));
    }
}

/// How far the figures of the standards, which rest on older property data, may be from today's: K.
const STANDARD_WITHIN: f64 = 0.75;
/// Blends of HFCs with hydrocarbons, whose pairs were fitted by a program and not by hand, and how far those are.
const HYDROCARBON_BLENDS: [(&str, f64); 2] = [("R-417A", 1.2), ("R-422B", 1.0)];

#[test]
fn boiling_critical_and_lowest_points_are_those_of_the_standards() {
    let rows = reference::rows("standard-points.csv");
    assert_eq!(rows.len(), 48, "every equation and every blend");
    let mut wrong = Vec::new();
    let mut furthest: (f64, String) = (0.0, String::new());
    for row in rows {
        let name = row.text("refrigerant");
        let fluid = refrigerant(name);
        let mut check = |what: &str, found: f64, column: &str, within: f64| {
            if !row.text(column).is_empty() && (found - row.number(column)).abs() > within {
                wrong.push(format!("{name}: {what} {found}, and {} in `{column}`", row.text(column)));
            }
        };
        let critical = fluid.critical().unwrap_or_else(|e| panic!("{e}"));
        let unit = |column: &str| if row.text(column).contains('.') { 0.051 } else { 0.51 };
        check("molar mass", fluid.molar_mass().unwrap() * 1e3, "molar_mass_g_mol", 0.000_51);
        check("critical temperature", critical.temperature.as_celsius(), "critical_C", 0.0051);
        check("critical pressure", critical.pressure.as_kilopascal(), "critical_kPa", unit("critical_kPa"));
        check("critical density", critical.density_kg_m3(), "critical_kg_m3", unit("critical_kg_m3"));
        if let [pure] = fluid.components()[..] {
            // the paper's triple point is 195.49 K, the lower end of its range 195.5 K.
            check("triple point", pure.equation.triple_point().as_kelvin(), "lowest_K", 0.0105);
        }
        let at = Pressure::STANDARD_ATMOSPHERE;
        if row.text("bubble_C").is_empty() {
            // Carbon dioxide is solid under one atmosphere.
            assert!(
                fluid.bubble_temperature(at).is_err() && fluid.with_reference(Reference::NormalBoilingPoint).is_err()
            );
            continue;
        }
        let bubble = fluid.bubble_temperature(at).unwrap().as_celsius();
        let dew = fluid.dew_temperature(at).unwrap().as_celsius();
        check("bubble point", bubble, "bubble_C", 0.0051);
        check("dew point", dew, "dew_C", 0.0051);
        let within = HYDROCARBON_BLENDS.iter().find(|(other, _)| *other == name).map_or(STANDARD_WITHIN, |(_, k)| *k);
        check("bubble point", bubble, "standard_bubble_C", within);
        check("dew point", dew, "standard_dew_C", within);
        if !row.text("standard_bubble_C").is_empty() {
            let gap = (bubble - row.number("standard_bubble_C")).abs().max((dew - row.number("standard_dew_C")).abs());
            if gap > furthest.0 {
                furthest = (gap, name.to_owned());
            }
        }
    }
    println!("furthest from its standard's rounded boiling points: {}, {:.2} K", furthest.1, furthest.0);
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
