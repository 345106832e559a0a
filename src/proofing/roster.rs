//! Refrigerants built from their descriptions. `shares-not-whole`: a blend's shares don't make a hundred per cent;
//! `refrigerant-not-built`: it is made of something that has no equation.
//!
//! Trips: `made-of: {R-32: 50 %, R-125: 60 %}`. Mended: `made-of: {R-32: 50 %, R-125: 50 %}`.
//!
//! `zero-not-known`: the handbook's `counted-from:` names no zero of enthalpy that is in use.
//!
//! Trips: `counted-from: Mollier`. Mended: `counted-from: ASHRAE`.

use super::points;
use crate::fluid::{Equation, Reference, Refrigerant};
use crate::handbook::{Finding, Handbook, MadeOf, RefrigerantEntry, Spot};
use crate::quantity::{Kind, Pressure, nearest, read};
use std::collections::BTreeMap;

/// How far a blend's shares may be from a hundred per cent in all: designations print one decimal of a per cent.
const SHARES_WITHIN: f64 = 0.000_5;

/// Builds every refrigerant of the handbook that can be built, by designation. Each that can't be adds a finding.
pub fn examine(book: &Handbook, findings: &mut Vec<Finding>) -> BTreeMap<String, Refrigerant> {
    let zero = match &book.front.counted_from {
        Some(written) => zero(written).unwrap_or_else(|finding| {
            findings.push(*finding);
            Reference::default()
        }),
        None => Reference::default(),
    };
    let mut roster = BTreeMap::new();
    for (designation, entry) in &book.refrigerants {
        let built = match &entry.made_of {
            MadeOf::NotKnown => points::build(entry, findings),
            _ => match build(entry) {
                Ok(refrigerant) => {
                    points::compare(entry, &refrigerant, findings);
                    Some(refrigerant.counted_from(zero))
                }
                Err(finding) => {
                    findings.push(*finding);
                    None
                }
            },
        };
        roster.extend(built.map(|refrigerant| (designation.clone(), refrigerant)));
    }
    roster
}

/// The zero of enthalpy and entropy of this name.
pub(super) fn zero(written: &Spot<String>) -> Result<Reference, Box<Finding>> {
    Reference::named(&written.value).ok_or_else(|| {
        let names: Vec<&str> = Reference::ALL.iter().map(|zero| zero.name()).collect();
        let says = format!("`{}` is no zero that enthalpy and entropy are counted from", written.value);
        let finding = Finding::error("zero-not-known", written.at, says);
        Box::new(finding.instead(format!("write one of {}", names.join(", "))))
    })
}

fn build(entry: &RefrigerantEntry) -> Result<Refrigerant, Box<Finding>> {
    let designation = &entry.designation.value;
    match &entry.made_of {
        MadeOf::NotKnown => Err(Box::new(Finding::error(
            "refrigerant-not-built",
            entry.designation.at,
            format!("`{designation}` has no equation and no typed points"),
        ))),
        MadeOf::Equation(name) => {
            check_equation(name)?;
            // The designation on the page is the author's; the equation may go under another name.
            Refrigerant::blend(designation, &[(name.value.as_str(), 1.0)])
                .map_err(|error| Box::new(Finding::error("refrigerant-not-built", name.at, error.to_string())))
        }
        MadeOf::Blend(parts) => {
            let mut shares = Vec::with_capacity(parts.len());
            for (name, share) in parts {
                check_equation(name)?;
                shares.push((name.value.as_str(), mass_fraction(share)?));
            }
            let sum: f64 = shares.iter().map(|(_, share)| share).sum();
            if (sum - 1.0).abs() > SHARES_WITHIN {
                let told: Vec<&str> = parts.iter().map(|(_, share)| share.value.as_str()).collect();
                return Err(Box::new(
                    Finding::error(
                        "shares-not-whole",
                        entry.designation.at,
                        format!("the shares of `{designation}` come to {:.1} %", sum * 100.0),
                    )
                    .found(format!("{} = {:.1} %", told.join(" + "), sum * 100.0))
                    .instead("shares by mass make 100 %"),
                ));
            }
            Refrigerant::blend(designation, &shares).map_err(|error| {
                Box::new(Finding::error("refrigerant-not-built", entry.designation.at, error.to_string()))
            })
        }
    }
}

fn check_equation(name: &Spot<String>) -> Result<(), Box<Finding>> {
    if Equation::designations().any(|known| known == name.value) {
        return Ok(());
    }
    let finding = Finding::error(
        "refrigerant-not-built",
        name.at,
        format!("the program has no equation of state for `{}`", name.value),
    );
    Err(Box::new(match nearest(&name.value, Equation::designations()) {
        Some(near) => finding.instead(format!("the nearest is `{near}`")),
        None => finding.instead(format!("it has them for {}", Equation::designations().collect::<Vec<_>>().join(", "))),
    }))
}

fn mass_fraction(share: &Spot<String>) -> Result<f64, Box<Finding>> {
    let fail = |says: String| {
        Box::new(
            Finding::error("share-not-read", share.at, says).instead("write a share by mass in per cent: `68.9 %`"),
        )
    };
    let written = read(&share.value, Some(Kind::Ratio)).map_err(|error| fail(error.to_string()))?;
    let value = written.value(Pressure::STANDARD_ATMOSPHERE).map_err(|error| fail(error.to_string()))?;
    if value.si > 0.0 && value.si <= 1.0 {
        Ok(value.si)
    } else {
        Err(fail(format!("`{}` is no share of a whole", share.value)))
    }
}
