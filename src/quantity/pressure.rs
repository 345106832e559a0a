//! Pressure above a perfect vacuum, and the difference of two pressures.
//!
//! A gauge reads a difference against the air around it; it becomes a [`Pressure`] only by naming that air. So the
//! two can't be mixed up by accident.

use std::ops::{Add, Sub};

/// One pound-force per square inch in pascals, from the exact pound, inch and standard gravity.
pub(crate) const PSI: f64 = 0.453_592_37 * 9.806_65 / (0.0254 * 0.0254);
/// One conventional inch of mercury in pascals: 13 595.1 kg/m³ under standard gravity (ISO 80000-4, ASTM E380).
pub(crate) const INCH_OF_MERCURY: f64 = 13_595.1 * 9.806_65 * 0.0254;
/// One micron of vacuum in pascals: a thousandth of a conventional millimeter of mercury.
pub(crate) const MICRON: f64 = 13_595.1 * 9.806_65 * 1e-6;
/// The standard atmosphere in pascals, exact by definition (10th CGPM, 1954).
pub(crate) const STANDARD_ATMOSPHERE: f64 = 101_325.0;

/// A pressure above a perfect vacuum. Held in pascals.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Pressure(f64);

/// The difference of two pressures: a gauge reading, a pressure drop, a spring's share. Held in pascals.
///
/// ```compile_fail,E0308
/// # use coldpress::quantity::{Pressure, PressureDifference};
/// fn boil_at(p: Pressure) {}
/// boil_at(PressureDifference::from_psi(118.0)); // 118 on a gauge is not 118 psia
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct PressureDifference(f64);

impl Pressure {
    /// The standard atmosphere, 101 325 Pa exactly.
    pub const STANDARD_ATMOSPHERE: Self = Self(STANDARD_ATMOSPHERE);

    /// From pascals absolute.
    pub const fn from_pascal(pascal: f64) -> Self {
        Self(pascal)
    }
    /// From kilopascals absolute.
    pub const fn from_kilopascal(kilopascal: f64) -> Self {
        Self(kilopascal * 1e3)
    }
    /// From pounds-force per square inch absolute.
    pub const fn from_psia(psia: f64) -> Self {
        Self(psia * PSI)
    }
    /// From a gauge reading in psi, taken where the air stands at `air`.
    pub const fn from_psig(reading: f64, air: Pressure) -> Self {
        Self(reading * PSI + air.0)
    }
    /// From microns of mercury absolute, as a vacuum gauge shows them.
    pub const fn from_micron(micron: f64) -> Self {
        Self(micron * MICRON)
    }
    /// From inches of mercury of vacuum, taken where the air stands at `air`.
    pub const fn from_inch_of_mercury_vacuum(inches: f64, air: Pressure) -> Self {
        Self(air.0 - inches * INCH_OF_MERCURY)
    }
    /// In pascals absolute.
    pub const fn as_pascal(self) -> f64 {
        self.0
    }
    /// In kilopascals absolute.
    pub const fn as_kilopascal(self) -> f64 {
        self.0 / 1e3
    }
    /// In pounds-force per square inch absolute.
    pub const fn as_psia(self) -> f64 {
        self.0 / PSI
    }
    /// What a gauge in psi shows where the air stands at `air`.
    pub const fn as_psig(self, air: Pressure) -> f64 {
        (self.0 - air.0) / PSI
    }
    /// In microns of mercury absolute.
    pub const fn as_micron(self) -> f64 {
        self.0 / MICRON
    }
}

impl PressureDifference {
    /// From pascals.
    pub const fn from_pascal(pascal: f64) -> Self {
        Self(pascal)
    }
    /// From pounds-force per square inch.
    pub const fn from_psi(psi: f64) -> Self {
        Self(psi * PSI)
    }
    /// In pascals.
    pub const fn as_pascal(self) -> f64 {
        self.0
    }
    /// In pounds-force per square inch.
    pub const fn as_psi(self) -> f64 {
        self.0 / PSI
    }
}

impl Sub for Pressure {
    type Output = PressureDifference;
    fn sub(self, other: Self) -> PressureDifference {
        PressureDifference(self.0 - other.0)
    }
}

impl Add<PressureDifference> for Pressure {
    type Output = Pressure;
    fn add(self, difference: PressureDifference) -> Pressure {
        Pressure(self.0 + difference.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn psi_follows_from_its_definition() {
        // NIST SP 811 (2008), appendix B.8, prints 6.894 757 E+03.
        assert_eq!(format!("{PSI:.3}"), "6894.757");
    }

    #[test]
    fn inch_of_mercury_follows_from_its_definition() {
        // NIST SP 811 (2008), appendix B.8: inch of mercury, conventional, 3.386 389 E+03.
        assert_eq!(format!("{INCH_OF_MERCURY:.3}"), "3386.389");
    }

    #[test]
    fn a_gauge_reads_back_what_it_was_set_to() {
        let air = Pressure::from_psia(12.2);
        assert!((Pressure::from_psig(118.0, air).as_psig(air) - 118.0).abs() < 1e-12);
    }
}
