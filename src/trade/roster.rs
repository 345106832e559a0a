//! Refrigerants for the tests of this room, by designation: the blends of `tests/reference/blends.csv` and what has an
//! equation of its own.

use crate::fluid::Refrigerant;

const BLENDS: &str = include_str!("../../tests/reference/blends.csv");

pub(super) fn refrigerant(designation: &str) -> Option<Refrigerant> {
    let blend = BLENDS.lines().find_map(|line| line.strip_prefix(designation)?.strip_prefix(','));
    match blend {
        None => Refrigerant::pure(designation).ok(),
        Some(parts) => {
            let (names, shares) = parts.split_once(',')?;
            let shares = shares.split('/').map(|share| share.parse().unwrap());
            let parts: Vec<(&str, f64)> = names.split('/').zip(shares).collect();
            Refrigerant::blend(designation, &parts).ok()
        }
    }
}
