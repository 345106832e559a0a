//! The properties of a refrigerant as a page carries them: compact tables of Chebyshev terms, made when a handbook is
//! bound, and how far they are off.
//!
//! Takes a refrigerant; gives JavaScript that answers the names of [`Property::script_name`] and the greatest difference
//! from the engine that was found between the places the tables were made from. The script that reads the tables is
//! [`super::RECKONER`]'s.

mod patch;
mod piece;
mod saturated;
mod single;

use std::fmt::Write as _;

use crate::fluid::{FluidError, Refrigerant};
use patch::Patch;
use piece::Piece;

/// The most that a table in a page may be off in temperature: 0.02 °F, in kelvins.
pub const MOST_KELVIN: f64 = 0.02 / 1.8;
/// The most that it may be off in anything else: 0.02 %.
pub const MOST_SHARE: f64 = 2e-4;

/// A refrigerant's tables for a page.
#[derive(Clone, Debug)]
pub struct Compact {
    /// As `R-410A`.
    pub designation: String,
    /// The greatest difference from the engine in a temperature, in kelvins.
    pub off_kelvin: f64,
    /// The greatest difference in anything else, as a share: of a pressure or a density itself, and of the latent heat
    /// (or its entropy) at the cold end, since an enthalpy's zero is a matter of choice.
    pub off_share: f64,
    lines: [Line; 2],
    vapor: Option<Sheet<3>>,
    boiling: Option<Sheet<1>>,
    dense: Option<Sheet<1>>,
}

/// The bubble line or the dew line: ln p, density, enthalpy and entropy over u = √(1 − T/Tc).
#[derive(Clone, Debug)]
struct Line {
    critical: f64,
    temperatures: (f64, f64),
    pieces: Vec<Piece<4>>,
    /// Whether density, enthalpy and entropy are known.
    caloric: bool,
}

/// A property surface in patches.
#[derive(Clone, Debug)]
struct Sheet<const K: usize> {
    patches: Vec<Patch<K>>,
    /// What lies at the corners: two ranges in the variables of the sheet.
    spans: [(f64, f64); 2],
}

/// How far a table was found to be off.
#[derive(Clone, Copy, Debug, Default)]
struct Off {
    kelvin: f64,
    share: f64,
}

impl Off {
    fn kelvin(&mut self, off: f64) {
        self.kelvin = self.kelvin.max(off.abs());
    }
    fn share(&mut self, off: f64) {
        self.share = self.share.max(off.abs());
    }
}

impl Compact {
    /// Makes the tables of `fluid`.
    ///
    /// # Errors
    /// What the engine says where it has no answer within its own range.
    pub fn of(fluid: &Refrigerant) -> Result<Self, FluidError> {
        let mut off = Off::default();
        let lines = saturated::lines(fluid, &mut off)?;
        let (vapor, boiling, dense) = if lines[1].caloric {
            (
                single::vapor(fluid, &lines[1], &mut off),
                single::boiling(fluid, &lines, &mut off),
                single::dense(fluid, &lines, &mut off),
            )
        } else {
            (None, None, None)
        };
        Ok(Self {
            designation: fluid.designation().to_owned(),
            off_kelvin: off.kelvin,
            off_share: off.share,
            lines,
            vapor,
            boiling,
            dense,
        })
    }

    /// Whether the tables keep what is asked of them.
    pub fn holds(&self) -> bool {
        self.off_kelvin <= MOST_KELVIN && self.off_share <= MOST_SHARE
    }

    /// The tables as a JavaScript object.
    pub fn script(&self) -> String {
        let mut text = format!("{{name:{:?},lines:[", self.designation);
        for line in &self.lines {
            let _ = write!(
                text,
                "{{c:{:?},t:[{:?},{:?}],k:{},p:[",
                line.critical,
                line.temperatures.0,
                line.temperatures.1,
                u8::from(line.caloric)
            );
            for piece in &line.pieces {
                piece.write(if line.caloric { 4 } else { 1 }, &mut text);
            }
            text.push_str("]},");
        }
        text.push(']');
        self.vapor.iter().for_each(|sheet| sheet.write("vapor", &mut text));
        self.boiling.iter().for_each(|sheet| sheet.write("boiling", &mut text));
        self.dense.iter().for_each(|sheet| sheet.write("dense", &mut text));
        text + "}"
    }
}

impl<const K: usize> Sheet<K> {
    fn write(&self, name: &str, text: &mut String) {
        let [(a, b), (c, d)] = self.spans;
        let _ = write!(text, ",\n{name}:{{s:[{a:?},{b:?},{c:?},{d:?}],p:[");
        for patch in &self.patches {
            patch.write(text);
        }
        text.push_str("]}");
    }
}

/// A number to so many digits that count, as short as it can be written.
fn short(number: f64, step: f64) -> f64 {
    if number == 0.0 || step == 0.0 {
        return number;
    }
    let digits = (number.abs() / step).log10().ceil().clamp(0.0, 15.0) as usize;
    format!("{number:.digits$e}").parse().unwrap_or(number)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tables_keep_what_is_asked_of_them() {
        let kinds: [&[(&str, f64)]; 4] = [
            &[("R-134a", 1.0)],
            &[("R-744", 1.0)],
            &[("R-32", 0.5), ("R-125", 0.5)],
            &[("R-32", 0.23), ("R-125", 0.25), ("R-134a", 0.52)],
        ];
        for parts in kinds {
            let table = Compact::of(&Refrigerant::blend("of parts", parts).unwrap()).unwrap();
            assert!(table.holds(), "{parts:?}: {} K, {}", table.off_kelvin, table.off_share);
            let mut worse = table.clone();
            worse.off_share = 3e-4;
            assert!(!worse.holds());
            worse.off_share = 0.0;
            worse.off_kelvin = 0.02;
            assert!(!worse.holds());
            assert!(table.script().len() < 40_000, "{parts:?}: {}", table.script().len());
        }
    }
}
