//! A figure as somebody wrote it: the number, how finely it was given, and the unit.
//!
//! Gives its value, how far the last digit reaches, and the same figure for readers of the other system of units.
//! How it is read from text is [`super::reading`]'s.

use super::kind::{Kind, System};
use super::pressure::Pressure;
use super::printing::{number_text, with_unit};
use super::reading_error::ReadingError;
use super::spelled_unit::find_unit;
use super::unit::Unit;
use super::value::Value;

/// One figure as written.
#[derive(Clone, Debug, PartialEq)]
pub struct Written {
    /// The number.
    pub number: f64,
    /// Digits written after the decimal point.
    pub decimals: u8,
    /// Whole part, numerator and denominator, where it was written as a fraction: `1-1/8` is (1, 1, 8).
    pub fraction: Option<(u32, u32, u32)>,
    /// The unit, which tells the kind.
    pub unit: &'static Unit,
    /// The spelling under which the unit was found; tells `F` from `dF`.
    pub(super) spelling: &'static str,
}

/// Two figures as written, `8 to 18 °F`, the lower first, of one kind.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenRange {
    /// The lower end.
    pub from: Written,
    /// The upper end.
    pub to: Written,
}

impl Written {
    /// A figure that the program writes itself: `number` of `unit`, rounded to `decimals`.
    pub fn of(number: f64, decimals: u8, unit: &'static Unit) -> Self {
        Self { number, decimals, fraction: None, unit, spelling: unit.symbol }
    }

    /// Its value, a gauge or vacuum reading being taken where the air stands at `air`.
    ///
    /// # Errors
    /// [`ReadingError::BelowAbsoluteZero`], [`ReadingError::BelowVacuum`].
    pub fn value(&self, air: Pressure) -> Result<Value, ReadingError> {
        let value = Value::from_unit(self.number, self.unit, air);
        match self.unit.kind {
            Kind::Temperature if value.si < 0.0 => Err(ReadingError::BelowAbsoluteZero { typed: self.to_string() }),
            Kind::Pressure if value.si < 0.0 => Err(ReadingError::BelowVacuum {
                typed: self.to_string(),
                air: self
                    .unit
                    .needs_air()
                    .then(|| with_unit(&number_text(air.as_pascal() / self.unit.factor, 2), self.unit.plain())),
            }),
            _ => Ok(value),
        }
    }

    /// Half a unit of the last digit written (for a fraction, half of one part of its denominator): how far a
    /// recomputed figure may lie from this one and still round to it. A difference, in SI.
    pub fn last_digit(&self) -> Value {
        let step = match self.fraction {
            Some((_, _, denominator)) => 1.0 / f64::from(denominator),
            None => 10f64.powi(-i32::from(self.decimals)),
        };
        Value::of(self.unit.kind.difference(), 0.5 * step * self.unit.factor)
    }

    /// The same figure as one of `kind`, where its unit's spelling is one of `kind` too: `12 °F` read without a kind
    /// is a temperature, and may turn out to be a superheat.
    ///
    /// # Errors
    /// As [`super::read`].
    pub fn as_kind(&self, kind: Kind) -> Result<Self, ReadingError> {
        if self.unit.kind == kind {
            return Ok(self.clone());
        }
        let (unit, spelling) = find_unit(self.spelling, Some(kind), &self.to_string(), &self.number_text())?;
        Ok(Self { unit, spelling, ..self.clone() })
    }

    /// The figure for readers of `system`: as written, where its unit is at home there; otherwise converted, with as
    /// many decimals as the written digits are worth.
    pub fn shown_in(&self, system: System, air: Pressure) -> String {
        with_unit(&self.number_in(system, air), self.unit.in_system(system))
    }

    /// The number alone of [`Written::shown_in`]; its unit is the written one's [`Unit::in_system`].
    pub fn number_in(&self, system: System, air: Pressure) -> String {
        self.number_shown(self.unit.in_system(system), air)
    }

    /// The number as it was written, set as type: `−10`, `1-1/8`.
    pub fn number_text(&self) -> String {
        match self.fraction {
            Some((whole, numerator, denominator)) => {
                let sign = if self.number < 0.0 { "−" } else { "" };
                if whole == 0 {
                    format!("{sign}{numerator}/{denominator}")
                } else {
                    format!("{sign}{whole}-{numerator}/{denominator}")
                }
            }
            None => number_text(self.number, self.decimals),
        }
    }

    /// How many decimals of `unit` the digits of this figure are worth.
    ///
    /// The converted step of the last written digit, rounded to a power of ten near it; but the zeros of a round number
    /// beyond its second digit are not taken for measured, and no unit is given fewer decimals than are of use in it.
    pub fn decimals_in(&self, unit: &Unit) -> u8 {
        let mut step = self.last_digit().si * 2.0;
        if self.fraction.is_none() && self.decimals == 0 {
            let mut rest = self.number.abs();
            while rest >= 100.0 && rest % 10.0 == 0.0 {
                rest /= 10.0;
                step *= 10.0;
            }
        }
        // Up to twice as coarse as written: 39.8 °F is 4.3 °C, not 4.33 °C.
        let decimals = (-(step / unit.factor).log10() - 0.31).ceil().clamp(0.0, 9.0) as u8;
        decimals.max(unit.least_decimals)
    }

    fn number_shown(&self, unit: &'static Unit, air: Pressure) -> String {
        self.number_to(unit, self.decimals_in(unit), air)
    }

    /// The number of `unit` to so many decimals, without zeros where the conversion is exact: 50 °F is 10 °C, not
    /// 10.0 °C. As it was written, where `unit` is the one it was written in.
    pub fn number_to(&self, unit: &'static Unit, decimals: u8, air: Pressure) -> String {
        if unit == self.unit {
            return self.number_text();
        }
        let number = unit.from_si(self.unit.to_si(self.number, air), air);
        let shortest = (0..decimals).find(|fewer| {
            let step = 10f64.powi(-i32::from(*fewer));
            ((number / step).round() * step - number).abs() < 1e-9 * number.abs().max(step)
        });
        number_text(number, shortest.unwrap_or(decimals))
    }
}

impl WrittenRange {
    /// The range for readers of `system`, as [`Written::shown_in`]: `4.4 to 10 K`.
    pub fn shown_in(&self, system: System, air: Pressure) -> String {
        let (low, high) = (self.from.unit.in_system(system), self.to.unit.in_system(system));
        if low == high {
            let numbers = format!("{} to {}", self.from.number_shown(low, air), self.to.number_shown(high, air));
            with_unit(&numbers, high)
        } else {
            format!("{} to {}", self.from.shown_in(system, air), self.to.shown_in(system, air))
        }
    }

    /// What both ends measure.
    pub fn kind(&self) -> Kind {
        self.from.unit.kind
    }

    /// Whether `value` lies within, the ends included.
    ///
    /// # Errors
    /// As [`Written::value`].
    pub fn holds(&self, value: Value, air: Pressure) -> Result<bool, ReadingError> {
        Ok(self.from.value(air)?.si <= value.si && value.si <= self.to.value(air)?.si)
    }
}

/// As it was written, set as type: `−10 °F` with a true minus and a no-break space.
impl std::fmt::Display for Written {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(&with_unit(&self.number_text(), self.unit))
    }
}

impl std::fmt::Display for WrittenRange {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.from.unit == self.to.unit {
            let numbers = format!("{} to {}", self.from.number_text(), self.to.number_text());
            out.write_str(&with_unit(&numbers, self.to.unit))
        } else {
            write!(out, "{} to {}", self.from, self.to)
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{read, read_range};

    const AIR: Pressure = Pressure::from_kilopascal(98.1);

    fn check(text: &str, kind: Kind, shown: &str) {
        let written = read(text, Some(kind)).unwrap();
        let system = written.unit.system.other();
        assert_eq!(written.shown_in(system, AIR).replace('\u{a0}', " "), shown, "{text}");
    }

    #[test]
    fn a_figure_is_converted_to_the_digits_it_is_worth() {
        check("118 psig", Kind::Pressure, "8.14 barg");
        check("100 psig", Kind::Pressure, "6.89 barg");
        check("250 psia", Kind::Pressure, "1724 kPa");
        check("8.14 barg", Kind::Pressure, "118.1 psig");
        check("500 microns", Kind::Pressure, "67 Pa");
        check("5 psi", Kind::PressureDifference, "34 kPa");
        check("39.8 °F", Kind::Temperature, "4.3 °C");
        check("40 °F", Kind::Temperature, "4.4 °C");
        check("110 °F", Kind::Temperature, "43.3 °C");
        check("95 °F", Kind::Temperature, "35 °C");
        check("−40 °F", Kind::Temperature, "−40 °C");
        check("8 °F", Kind::TemperatureDifference, "4.4 K");
        check("4.5 K", Kind::TemperatureDifference, "8.1 °F");
        check("890 ft", Kind::Length, "271 m");
        check("30 ft", Kind::Length, "9.1 m");
        check("7/8 in", Kind::Length, "22.2 mm");
        check("1-1/8 in", Kind::Length, "28.6 mm");
        check("0.785 in", Kind::Length, "19.94 mm");
        check("1,200 cfm", Kind::VolumeFlow, "566 L/s");
        check("36,000 Btu/h", Kind::Power, "10.55 kW");
        check("9 lb", Kind::Mass, "4.08 kg");
        check("400 cfm/ton", Kind::FlowPerCapacity, "54 L/(s·kW)");
        check("10 inHg vac", Kind::Pressure, "64 kPa");
    }

    #[test]
    fn a_range_is_converted_end_by_end_with_one_unit() {
        let range = read_range("8 to 18 °F", Some(Kind::TemperatureDifference)).unwrap();
        assert_eq!(range.shown_in(System::Si, AIR), "4.4 to 10\u{a0}K");
        assert_eq!(range.shown_in(System::Us, AIR), "8 to 18\u{a0}°F");
        assert!(range.holds(Value::of(Kind::TemperatureDifference, 10.0), AIR).unwrap());
        assert!(!range.holds(Value::of(Kind::TemperatureDifference, 10.1), AIR).unwrap());
    }

    #[test]
    fn the_last_digit_reaches_half_of_itself() {
        let reach = |text: &str, kind| read(text, Some(kind)).unwrap().last_digit();
        assert_eq!(reach("39.8 °F", Kind::Temperature), Value::of(Kind::TemperatureDifference, 0.05 / 1.8));
        assert_eq!(reach("118 psig", Kind::Pressure).kind, Kind::PressureDifference);
        assert!((reach("7/8 in", Kind::Length).si - 0.0254 / 16.0).abs() < 1e-12);
    }

    #[test]
    fn a_figure_read_without_a_kind_can_turn_out_to_be_a_difference() {
        let written = read("12 °F", None).unwrap();
        assert_eq!(written.unit.kind, Kind::Temperature);
        assert_eq!(written.as_kind(Kind::TemperatureDifference).unwrap().unit.kind, Kind::TemperatureDifference);
        let difference = read("12 dF", None).unwrap();
        assert_eq!(
            difference.as_kind(Kind::Temperature).unwrap_err().to_string(),
            "`12\u{a0}°F` is a temperature difference, and a temperature is wanted here: write it as `52 °F`"
        );
    }
}
