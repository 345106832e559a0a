//! The kinds of quantity the trade measures: what may be added to what, and in which units each is read and shown.
//!
//! A [`Kind`] is finer than a dimension: a temperature and a difference of temperatures have the same dimension and
//! are not the same thing, nor are a pressure and a difference of pressures. Knows units, not numbers.

use super::spelling::plain_words;
use super::unit::{self, Unit};

/// One of the two systems of units in which every figure is set. "US" is what the trade in the United States reads
/// off its instruments, "SI" what is read elsewhere (bar gauge among them, which is strictly not SI).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum System {
    /// psig, °F, cfm, Btu/h.
    Us,
    /// bar gauge, °C, L/s, kW.
    Si,
}

impl System {
    /// The other one.
    pub const fn other(self) -> Self {
        match self {
            Self::Us => Self::Si,
            Self::Si => Self::Us,
        }
    }
}

/// Exponents of kilogram, meter, second, kelvin and ampere.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub struct Dimension {
    /// Exponent of the kilogram.
    pub mass: i8,
    /// Exponent of the meter.
    pub length: i8,
    /// Exponent of the second.
    pub time: i8,
    /// Exponent of the kelvin.
    pub temperature: i8,
    /// Exponent of the ampere.
    pub current: i8,
}

impl Dimension {
    /// A pure number.
    pub const NONE: Self = Self::of(0, 0, 0, 0, 0);

    /// From the exponents of kilogram, meter, second, kelvin and ampere, in that order.
    pub const fn of(mass: i8, length: i8, time: i8, temperature: i8, current: i8) -> Self {
        Self { mass, length, time, temperature, current }
    }
    /// Of a product.
    pub const fn times(self, other: Self) -> Self {
        Self::of(
            self.mass + other.mass,
            self.length + other.length,
            self.time + other.time,
            self.temperature + other.temperature,
            self.current + other.current,
        )
    }
    /// Of a quotient.
    pub const fn over(self, other: Self) -> Self {
        Self::of(
            self.mass - other.mass,
            self.length - other.length,
            self.time - other.time,
            self.temperature - other.temperature,
            self.current - other.current,
        )
    }
    /// Raised to `exponent`; none where the result has a fractional exponent, as in the square root of a length.
    pub fn to_the(self, exponent: f64) -> Option<Self> {
        let power = |base: i8| {
            let raised = f64::from(base) * exponent;
            let whole = raised.round();
            ((raised - whole).abs() < 1e-9 && whole.abs() <= 100.0).then_some(whole as i8)
        };
        Some(Self::of(
            power(self.mass)?,
            power(self.length)?,
            power(self.time)?,
            power(self.temperature)?,
            power(self.current)?,
        ))
    }
}

impl std::fmt::Display for Dimension {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let named =
            [(self.mass, "kg"), (self.length, "m"), (self.time, "s"), (self.temperature, "K"), (self.current, "A")];
        let mut first = true;
        for (exponent, symbol) in named.into_iter().filter(|(exponent, _)| *exponent != 0) {
            if !first {
                out.write_str(" ")?;
            }
            first = false;
            if exponent == 1 {
                out.write_str(symbol)?;
            } else {
                write!(out, "{symbol}^{exponent}")?;
            }
        }
        if first {
            out.write_str("1")?;
        }
        Ok(())
    }
}

/// How a kind behaves when two of it are added or subtracted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Scale {
    /// A point on a scale, as a temperature or a pressure is: two of them can be subtracted and not added.
    Point,
    /// The distance of two points.
    Difference,
    /// Neither: an amount.
    Amount,
}

macro_rules! kinds {
    ($($(#[$doc:meta])* $kind:ident, $name:literal, [$m:literal, $l:literal, $t:literal, $k:literal, $a:literal], $scale:ident,
        $us:ident $us_decimals:literal, $si:ident $si_decimals:literal, [$($also:literal),*];)*) => {
        /// A kind of quantity. Its [`name`](Kind::name) is how an author writes it (`temperature difference`).
        #[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
        pub enum Kind { $($(#[$doc])* $kind),* }

        impl Kind {
            /// Every kind. Where a unit alone must settle the kind, the first that has the unit is meant.
            pub const ALL: &'static [Kind] = &[$(Kind::$kind),*];

            /// The name in plain words, as `temperature difference`.
            pub const fn name(self) -> &'static str {
                match self { $(Kind::$kind => $name),* }
            }
            /// Other names an author may write for it.
            pub const fn also(self) -> &'static [&'static str] {
                match self { $(Kind::$kind => &[$($also),*]),* }
            }
            /// Exponents of kilogram, meter, second, kelvin and ampere.
            pub const fn dimension(self) -> Dimension {
                match self { $(Kind::$kind => Dimension::of($m, $l, $t, $k, $a)),* }
            }
            /// Whether it is a point on a scale, a difference, or an amount.
            pub const fn scale(self) -> Scale {
                match self { $(Kind::$kind => Scale::$scale),* }
            }
            /// The unit it is shown in where nothing else is asked.
            pub fn unit_in(self, system: System) -> &'static Unit {
                match (self, system) { $((Kind::$kind, System::Us) => &unit::$us, (Kind::$kind, System::Si) => &unit::$si),* }
            }
            /// The decimals shown, in [`Kind::unit_in`], where nothing else is asked.
            pub const fn decimals_in(self, system: System) -> u8 {
                match (self, system) { $((Kind::$kind, System::Us) => $us_decimals, (Kind::$kind, System::Si) => $si_decimals),* }
            }
        }
    };
}

kinds! {
    /// A pure number: a ratio, a fraction, a count.
    Ratio, "ratio", [0, 0, 0, 0, 0], Amount, NUMBER 3, NUMBER 3, ["number", "fraction", "count", "percentage", "efficiency"];
    /// A pressure above a perfect vacuum, whatever the instrument read. Pascals.
    Pressure, "pressure", [1, -1, -2, 0, 0], Point, PSIG 1, BARG 2, ["gauge pressure", "absolute pressure", "vacuum"];
    /// The difference of two pressures: a drop, a spring's share, a head. Pascals.
    PressureDifference, "pressure difference", [1, -1, -2, 0, 0], Difference, PSI 1, KILOPASCAL_OF_DIFFERENCE 1, ["pressure drop", "stress"];
    /// A temperature as a thermometer shows it. Kelvins.
    Temperature, "temperature", [0, 0, 0, 1, 0], Point, FAHRENHEIT 1, CELSIUS 1, [];
    /// The difference of two temperatures: superheat, subcooling, glide. Kelvins.
    TemperatureDifference, "temperature difference", [0, 0, 0, 1, 0], Difference, FAHRENHEIT_OF_DIFFERENCE 1, KELVIN_OF_DIFFERENCE 1, ["superheat", "subcooling", "temperature rise", "temperature drop"];
    /// Kelvins per meter.
    TemperatureGradient, "temperature gradient", [0, -1, 0, 1, 0], Amount, FAHRENHEIT_PER_FOOT 5, KELVIN_PER_METER 4, ["lapse rate"];
    /// Meters.
    Length, "length", [0, 1, 0, 0, 0], Amount, FOOT 1, METER 2, ["altitude", "height", "distance", "diameter"];
    /// Square meters.
    Area, "area", [0, 2, 0, 0, 0], Amount, SQUARE_FOOT 1, SQUARE_METER 2, [];
    /// Cubic meters.
    Volume, "volume", [0, 3, 0, 0, 0], Amount, CUBIC_FOOT 2, CUBIC_METER 3, [];
    /// Kilograms.
    Mass, "mass", [1, 0, 0, 0, 0], Amount, POUND 2, KILOGRAM 3, ["weight", "charge"];
    /// Kilograms per cubic meter; a concentration in air too.
    Density, "density", [1, -3, 0, 0, 0], Amount, POUND_PER_CUBIC_FOOT 2, KILOGRAM_PER_CUBIC_METER 1, ["concentration"];
    /// Cubic meters per kilogram.
    SpecificVolume, "specific volume", [-1, 3, 0, 0, 0], Amount, CUBIC_FOOT_PER_POUND 3, CUBIC_METER_PER_KILOGRAM 4, [];
    /// Cubic meters per second.
    VolumeFlow, "volume flow", [0, 3, -1, 0, 0], Amount, CUBIC_FOOT_PER_MINUTE 0, LITER_PER_SECOND 0, ["airflow", "air flow", "volumetric flow", "pump speed"];
    /// Kilograms per second.
    MassFlow, "mass flow", [1, 0, -1, 0, 0], Amount, POUND_PER_MINUTE 2, GRAM_PER_SECOND 1, [];
    /// Watts: of heat or of electricity.
    Power, "power", [1, 2, -3, 0, 0], Amount, BTU_PER_HOUR 0, KILOWATT 2, ["capacity", "heat flow", "cooling capacity", "heat"];
    /// Joules.
    Energy, "energy", [1, 2, -2, 0, 0], Amount, BTU 0, KILOJOULE 0, [];
    /// Joules per kilogram.
    SpecificEnthalpy, "specific enthalpy", [0, 2, -2, 0, 0], Amount, BTU_PER_POUND 1, KILOJOULE_PER_KILOGRAM 1, ["enthalpy", "specific energy"];
    /// Joules per kilogram of dry air, from dry air at 0 °C; in US units shown from dry air at 0 °F, as its tables are.
    MoistAirEnthalpy, "enthalpy of moist air", [0, 2, -2, 0, 0], Point, BTU_PER_POUND_OF_DRY_AIR 2, KILOJOULE_PER_KILOGRAM_OF_DRY_AIR 2, ["moist air enthalpy"];
    /// Joules per kilogram and kelvin; a specific heat too.
    SpecificEntropy, "specific entropy", [0, 2, -2, -1, 0], Amount, BTU_PER_POUND_FAHRENHEIT 4, KILOJOULE_PER_KILOGRAM_KELVIN 4, ["entropy", "specific heat"];
    /// Meters per second.
    Velocity, "velocity", [0, 1, -1, 0, 0], Amount, FOOT_PER_MINUTE 0, METER_PER_SECOND 2, ["speed"];
    /// Meters per second squared.
    Acceleration, "acceleration", [0, 1, -2, 0, 0], Amount, FOOT_PER_SECOND_SQUARED 3, METER_PER_SECOND_SQUARED 3, [];
    /// Seconds.
    Time, "time", [0, 0, 1, 0, 0], Amount, MINUTE 1, MINUTE 1, ["duration"];
    /// Kilograms of water vapor per kilogram of dry air.
    HumidityRatio, "humidity ratio", [0, 0, 0, 0, 0], Amount, POUND_PER_POUND 5, KILOGRAM_PER_KILOGRAM 5, [];
    /// Cubic meters per second and watt: air over a coil, or displacement, for the cold it makes.
    FlowPerCapacity, "airflow per capacity", [-1, 1, 2, 0, 0], Amount, CFM_PER_TON 0, LITER_PER_SECOND_KILOWATT 1, ["airflow per ton", "volume flow per capacity", "displacement per ton"];
    /// Kilograms per second and watt.
    MassFlowPerCapacity, "mass flow per capacity", [0, -2, 2, 0, 0], Amount, POUND_PER_MINUTE_TON 2, GRAM_PER_SECOND_KILOWATT 2, ["mass flow per ton"];
    /// Joules per cubic meter of suction gas.
    VolumetricCapacity, "volumetric capacity", [1, -1, -2, 0, 0], Amount, BTU_PER_CUBIC_FOOT 1, KILOJOULE_PER_CUBIC_METER 0, [];
    /// Pascal seconds.
    Viscosity, "viscosity", [1, -1, -1, 0, 0], Amount, POUND_PER_FOOT_HOUR 4, MICROPASCAL_SECOND 2, ["dynamic viscosity"];
    /// Volts.
    Voltage, "voltage", [1, 2, -3, 0, -1], Amount, VOLT 1, VOLT 1, ["volts", "electric potential"];
    /// Amperes.
    Current, "current", [0, 0, 0, 0, 1], Amount, AMPERE 1, AMPERE 1, ["amps"];
    /// Ohms.
    Resistance, "resistance", [1, 2, -3, 0, -2], Amount, KILOHM 2, KILOHM 2, ["electric resistance"];
    /// Newton meters.
    Torque, "torque", [1, 2, -2, 0, 0], Amount, POUND_FORCE_FOOT 1, NEWTON_METER 1, [];
    /// Watts per cubic meter a second of air and kelvin: what moving air carries for each degree.
    SensibleFactor, "sensible heat factor of air", [1, -1, -2, -1, 0], Amount, BTU_PER_HOUR_CFM_FAHRENHEIT 3, WATT_PER_LITER_PER_SECOND_KELVIN 3, ["sensible factor"];
    /// Kilograms a second per cubic meter a second of air: what turns an enthalpy difference into heat.
    TotalFactor, "total heat factor of air", [1, -3, 0, 0, 0], Amount, POUND_PER_HOUR_CFM 3, KILOGRAM_PER_CUBIC_METER_OF_AIRFLOW 3, ["total factor"];
    /// Pascals times cubic meters per second: gas that comes in through a leak or leaves through a pump.
    Throughput, "throughput of gas", [1, 2, -3, 0, 0], Amount, MICRON_CUBIC_FOOT_PER_MINUTE 2, PASCAL_CUBIC_METER_PER_SECOND 5, ["throughput"];
    /// Watts of cold per watt of electricity.
    Efficiency, "energy efficiency", [0, 0, 0, 0, 0], Amount, BTU_PER_WATT_HOUR 2, WATT_PER_WATT 2, ["coefficient of performance", "cop", "eer"];
    /// Kilograms of carbon dioxide of the same warming.
    CarbonEquivalent, "carbon dioxide equivalent", [1, 0, 0, 0, 0], Amount, TONNE_OF_CARBON_DIOXIDE 2, TONNE_OF_CARBON_DIOXIDE 2, ["co2 equivalent"];
    /// Kelvins: the B of a thermistor, which is no temperature.
    ThermistorConstant, "thermistor constant", [0, 0, 0, 1, 0], Amount, KELVIN_OF_THERMISTOR 0, KELVIN_OF_THERMISTOR 0, ["beta"];
}

impl Kind {
    /// One of its kind, as it is said: `a pressure`, `an airflow per capacity`.
    pub fn one(self) -> String {
        let vowel = self.name().starts_with(['a', 'e', 'i', 'o']);
        format!("{} {self}", if vowel { "an" } else { "a" })
    }

    /// The kind an author means by `name`; case, hyphens, underscores and spaces are all alike.
    pub fn from_name(name: &str) -> Option<Self> {
        let asked = plain_words(name);
        Self::ALL.iter().copied().find(|kind| plain_words(kind.name()) == asked).or_else(|| {
            Self::ALL.iter().copied().find(|kind| kind.also().iter().any(|also| plain_words(also) == asked))
        })
    }

    /// Its units.
    pub fn units(self) -> impl Iterator<Item = &'static Unit> + Clone {
        unit::UNITS.iter().copied().filter(move |unit| unit.kind == self)
    }

    /// The kind that the difference of two of it is.
    pub const fn difference(self) -> Self {
        match self {
            Self::Temperature => Self::TemperatureDifference,
            Self::Pressure => Self::PressureDifference,
            Self::MoistAirEnthalpy => Self::SpecificEnthalpy,
            kind => kind,
        }
    }

    /// A sample of how one is written, for messages: `118 psig`.
    pub fn sample(self) -> &'static str {
        match self {
            Self::Ratio => "0.8",
            Self::Pressure => "118 psig",
            Self::PressureDifference => "4.5 psi",
            Self::Temperature => "52 °F",
            Self::TemperatureDifference => "12 °F",
            Self::TemperatureGradient => "0.0065 K/m",
            Self::Length => "30 ft",
            Self::Area => "200 ft²",
            Self::Volume => "1.2 ft³",
            Self::Mass => "9 lb",
            Self::Density => "62.8 lb/ft³",
            Self::SpecificVolume => "13.5 ft³/lb",
            Self::VolumeFlow => "1,200 cfm",
            Self::MassFlow => "7.2 lb/min",
            Self::Power => "36,000 Btu/h",
            Self::Energy => "500 Btu",
            Self::SpecificEnthalpy | Self::MoistAirEnthalpy => "31.4 Btu/lb",
            Self::SpecificEntropy => "0.24 Btu/(lb·°F)",
            Self::Velocity => "1,500 fpm",
            Self::Acceleration => "9.81 m/s²",
            Self::Time => "10 min",
            Self::HumidityRatio => "0.0112 lb/lb",
            Self::FlowPerCapacity => "400 cfm/ton",
            Self::MassFlowPerCapacity => "3.2 lb/(min·ton)",
            Self::VolumetricCapacity => "6400 kJ/m³",
            Self::Viscosity => "12.6 µPa·s",
            Self::Voltage => "238 V",
            Self::Current => "40.5 A",
            Self::Resistance => "10 kΩ",
            Self::Torque => "31 lbf·ft",
            Self::SensibleFactor => "1.08 Btu/(h·cfm·°F)",
            Self::TotalFactor => "4.5 lb/(h·cfm)",
            Self::Throughput => "0.004 Pa·m³/s",
            Self::Efficiency => "3.3 W/W",
            Self::CarbonEquivalent => "8.5 t CO₂e",
            Self::ThermistorConstant => "3977 K",
        }
    }
}

impl std::fmt::Display for Kind {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.write_str(self.name())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_kind_is_found_by_each_of_its_names_and_has_units_in_both_systems() {
        for kind in Kind::ALL.iter().copied() {
            for name in std::iter::once(kind.name()).chain(kind.also().iter().copied()) {
                assert_eq!(Kind::from_name(name), Some(kind), "{name}");
            }
            for system in [System::Us, System::Si] {
                assert_eq!(kind.unit_in(system).kind, kind, "{kind} in {system:?}");
            }
            assert!(super::super::read(kind.sample(), Some(kind)).is_ok(), "{}", kind.sample());
        }
    }

    #[test]
    fn a_name_may_be_written_with_hyphens_or_capitals() {
        assert_eq!(Kind::from_name("Temperature-Difference"), Some(Kind::TemperatureDifference));
        assert_eq!(Kind::from_name("volume_flow"), Some(Kind::VolumeFlow));
        assert_eq!(Kind::from_name("warmth"), None);
    }

    #[test]
    fn the_root_of_an_area_is_a_length_and_of_a_length_nothing() {
        assert_eq!(Kind::Area.dimension().to_the(0.5), Some(Kind::Length.dimension()));
        assert_eq!(Kind::Length.dimension().to_the(0.5), None);
        assert_eq!(Kind::Power.dimension().to_string(), "kg m^2 s^-3");
    }
}
