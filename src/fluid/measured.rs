//! Numbers of the data files with the unit written beside them: `374.18 K`, `4978.83 mol/m³`.
//!
//! Takes the text of a YAML value, gives the number in the unit that the reading structure is made for. A missing or
//! another unit is refused, so that a column of the wrong kind can't slip in. One deserializer a unit; none converts.

use serde::{Deserialize, Deserializer, de::Error};

/// Reads `number unit` where the unit must be `unit`.
fn number_in<'de, D: Deserializer<'de>>(from: D, unit: &str) -> Result<f64, D::Error> {
    let text = String::deserialize(from)?;
    parse(&text, unit).map_err(D::Error::custom)
}

fn parse(text: &str, unit: &str) -> Result<f64, String> {
    let wanted = || format!("`{text}` should be a number and then `{unit}`, as `1.5 {unit}`");
    let number = text.trim().strip_suffix(unit).ok_or_else(wanted)?;
    let value: f64 = number.trim().parse().map_err(|_| wanted())?;
    if value.is_finite() { Ok(value) } else { Err(wanted()) }
}

pub(super) fn kelvin<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    number_in(from, "K")
}

pub(super) fn pascal<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    number_in(from, " Pa")
}

pub(super) fn megapascal<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    number_in(from, "MPa")
}

pub(super) fn mole_per_cubic_meter<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    number_in(from, "mol/m³")
}

pub(super) fn kilogram_per_cubic_meter<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    number_in(from, "kg/m³")
}

pub(super) fn nanometer<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    number_in(from, "nm")
}

pub(super) fn kilogram_per_mole<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    number_in(from, "kg/mol")
}

pub(super) fn joule_per_mole_kelvin<'de, D: Deserializer<'de>>(from: D) -> Result<f64, D::Error> {
    number_in(from, "J/(mol K)")
}

/// The excess temperature of a pair; absent where the pair is given in another form.
pub(super) fn optional_kelvin<'de, D: Deserializer<'de>>(from: D) -> Result<Option<f64>, D::Error> {
    kelvin(from).map(Some)
}

/// The excess volume of a pair; absent where the pair is given in another form.
pub(super) fn optional_cubic_meter_per_mole<'de, D: Deserializer<'de>>(from: D) -> Result<Option<f64>, D::Error> {
    number_in(from, "m³/mol").map(Some)
}

#[cfg(test)]
mod tests {
    use super::parse;

    #[test]
    fn a_number_needs_its_own_unit() {
        assert_eq!(parse("374.18 K", "K"), Ok(374.18));
        assert!(parse("374.18", "K").unwrap_err().contains("`374.18` should be a number and then `K`"));
        assert!(parse("3.6 MPa", " Pa").is_err(), "a megapascal is not a pascal");
        assert!(parse("about 3 K", "K").is_err());
    }
}
