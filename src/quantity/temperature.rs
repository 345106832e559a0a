//! Temperature, and the difference of two temperatures. Superheat and subcooling are differences.

use std::ops::{Add, Sub};

/// The ice point of the Celsius scale in kelvins, exact.
pub(crate) const ICE_POINT: f64 = 273.15;
/// Zero of the Fahrenheit scale in kelvins, exact: 459.67 degrees Fahrenheit above absolute zero.
pub(crate) const FAHRENHEIT_ZERO: f64 = 459.67 / 1.8;

/// A temperature, as a thermometer shows it. Held in kelvins.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct Temperature(f64);

/// Superheat and subcooling are this, not a [`Temperature`]. Held in kelvins.
/// ```compile_fail,E0308
/// # use coldpress::quantity::{Temperature, TemperatureDifference};
/// fn set(superheat: TemperatureDifference) {}
/// set(Temperature::from_fahrenheit(12.0)); // 12 °F on a thermometer is not 12 °F of superheat
/// ```
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct TemperatureDifference(f64);

impl Temperature {
    /// From kelvins.
    pub const fn from_kelvin(kelvin: f64) -> Self {
        Self(kelvin)
    }
    /// From degrees Celsius.
    pub const fn from_celsius(celsius: f64) -> Self {
        Self(celsius + ICE_POINT)
    }
    /// From degrees Fahrenheit.
    pub const fn from_fahrenheit(fahrenheit: f64) -> Self {
        Self((fahrenheit + 459.67) / 1.8)
    }
    /// In kelvins.
    pub const fn as_kelvin(self) -> f64 {
        self.0
    }
    /// In degrees Celsius.
    pub const fn as_celsius(self) -> f64 {
        self.0 - ICE_POINT
    }
    /// In degrees Fahrenheit.
    pub const fn as_fahrenheit(self) -> f64 {
        self.0 * 1.8 - 459.67
    }
}

impl TemperatureDifference {
    /// From kelvins of difference.
    pub const fn from_kelvin(kelvin: f64) -> Self {
        Self(kelvin)
    }
    /// From Fahrenheit degrees of difference.
    pub const fn from_fahrenheit(fahrenheit: f64) -> Self {
        Self(fahrenheit / 1.8)
    }
    /// In kelvins of difference.
    pub const fn as_kelvin(self) -> f64 {
        self.0
    }
    /// In Fahrenheit degrees of difference.
    pub const fn as_fahrenheit(self) -> f64 {
        self.0 * 1.8
    }
}

impl Sub for Temperature {
    type Output = TemperatureDifference;
    fn sub(self, other: Self) -> TemperatureDifference {
        TemperatureDifference(self.0 - other.0)
    }
}

impl Add<TemperatureDifference> for Temperature {
    type Output = Temperature;
    fn add(self, difference: TemperatureDifference) -> Temperature {
        Temperature(self.0 + difference.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_scales_meet_where_they_should() {
        // NIST SP 811 (2008), appendix B.8: t/°C = (t/°F − 32)/1.8.
        assert!((Temperature::from_fahrenheit(-40.0).as_celsius() + 40.0).abs() < 1e-12);
        assert!((Temperature::from_celsius(100.0).as_fahrenheit() - 212.0).abs() < 1e-12);
    }
}
