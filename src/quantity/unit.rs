//! The units the trade writes, each with its exact factor and the spellings people type.
//!
//! A factor is multiplied out from definitions: the international foot and pound (1959), standard gravity (1901), the
//! international table Btu (1956), the US gallon of 231 cubic inches. What a unit's number is counted from (a perfect
//! vacuum, the air around the gauge, downward from that air) is its [`Reference`]. Reads no text: that is
//! [`super::read`].

use super::exact;
use super::kind::{Kind, System};
use super::pressure::Pressure;

/// What a unit's number is counted from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Reference {
    /// From nothing at all, or from a fixed zero: a perfect vacuum, absolute zero, the ice point.
    Fixed,
    /// Upward from the air around the instrument.
    Gauge,
    /// Downward from the air around the instrument.
    Vacuum,
}

/// A unit of one [`Kind`].
#[derive(Debug)]
pub struct Unit {
    /// As it is printed: `psig`, `°F`, `ft³/lb`.
    pub symbol: &'static str,
    /// What it measures.
    pub kind: Kind,
    /// Where it is at home.
    pub system: System,
    /// SI units in one of it.
    pub factor: f64,
    /// SI value at its zero, where that is fixed.
    pub offset: f64,
    /// What it is counted from.
    pub reference: Reference,
    /// Symbol of the unit of the same kind that readers of the other system would use in its place.
    pub counterpart: &'static str,
    /// Fewest decimals that are any use in it, when a figure is converted.
    pub least_decimals: u8,
    /// Other ways people type it; the symbol itself is not repeated.
    pub spellings: &'static [&'static str],
}

impl PartialEq for Unit {
    fn eq(&self, other: &Self) -> bool {
        self.kind == other.kind && self.symbol == other.symbol
    }
}

impl Unit {
    /// The SI value of `number` of this unit, where the air stands at `air`.
    pub fn to_si(&self, number: f64, air: Pressure) -> f64 {
        match self.reference {
            Reference::Fixed => number * self.factor + self.offset,
            Reference::Gauge => number * self.factor + air.as_pascal(),
            Reference::Vacuum => air.as_pascal() - number * self.factor,
        }
    }

    /// The number of this unit that makes the SI value `si`, where the air stands at `air`.
    pub fn from_si(&self, si: f64, air: Pressure) -> f64 {
        match self.reference {
            Reference::Fixed => (si - self.offset) / self.factor,
            Reference::Gauge => (si - air.as_pascal()) / self.factor,
            Reference::Vacuum => (air.as_pascal() - si) / self.factor,
        }
    }

    /// Whether its number depends on the air around the instrument.
    pub fn needs_air(&self) -> bool {
        self.reference != Reference::Fixed
    }

    /// The unit that shows the same thing to readers of `system`: itself, where it is at home there.
    pub fn in_system(&'static self, system: System) -> &'static Unit {
        if self.system == system {
            return self;
        }
        self.kind.units().find(|unit| unit.symbol == self.counterpart).unwrap_or(self)
    }

    /// The unit without its mark of gauge or vacuum, for the pressure of the air itself.
    pub(super) fn plain(&'static self) -> &'static Unit {
        match (self.reference, self.symbol) {
            (Reference::Gauge, "psig") => &PSIA,
            (Reference::Gauge, "barg") => &BARA,
            (Reference::Gauge, "kPag") => &KILOPASCAL,
            (Reference::Gauge, "MPag") => &MEGAPASCAL,
            (Reference::Vacuum, _) => &INCH_OF_MERCURY_ABSOLUTE,
            _ => self,
        }
    }
}

macro_rules! units {
    ($($name:ident: $kind:ident, $symbol:literal, $system:ident, $factor:expr, $offset:expr, $reference:ident, $counterpart:literal, $least:literal,
        [$($spelling:literal),*];)*) => {
        $(
            #[doc = concat!("`", $symbol, "`")]
            pub static $name: Unit = Unit {
                symbol: $symbol,
                kind: Kind::$kind,
                system: System::$system,
                factor: $factor,
                offset: $offset,
                reference: Reference::$reference,
                counterpart: $counterpart,
                least_decimals: $least,
                spellings: &[$($spelling),*],
            };
        )*
        /// Every unit of every kind.
        pub static UNITS: &[&Unit] = &[$(&$name),*];
    };
}

units! {
    NUMBER: Ratio, "", Us, 1.0, 0.0, Fixed, "", 0, [];
    PERCENT: Ratio, "%", Us, 0.01, 0.0, Fixed, "%", 0, ["percent", "per cent", "pct"];
    PART_PER_MILLION: Ratio, "ppm", Us, 1e-6, 0.0, Fixed, "ppm", 0, ["parts per million"];

    PSIG: Pressure, "psig", Us, exact::PSI, 0.0, Gauge, "barg", 0, ["psi gauge", "psi gage", "psi(g)", "lb/in2 gauge", "lbf/in2 gauge"];
    PSIA: Pressure, "psia", Us, exact::PSI, 0.0, Fixed, "kPa", 0, ["psi absolute", "psi abs", "psi(a)"];
    INCH_OF_MERCURY_OF_VACUUM: Pressure, "inHg vac", Us, exact::INCH_OF_MERCURY, 0.0, Vacuum, "kPa", 1,
        ["inHgv", "in. Hg vac", "inHg vacuum", "in Hg of vacuum", "inches of mercury vacuum", "inches of vacuum", "inHg gauge vacuum", "in vac"];
    INCH_OF_MERCURY_ABSOLUTE: Pressure, "inHg abs", Us, exact::INCH_OF_MERCURY, 0.0, Fixed, "kPa", 1, ["inHga", "inHg absolute", "inches of mercury absolute"];
    MICRON_OF_MERCURY: Pressure, "microns", Us, exact::MICRON, 0.0, Fixed, "Pa", 0, ["micron", "µm Hg", "um Hg", "µmHg", "mTorr", "millitorr", "µ", "microns Hg"];
    BARG: Pressure, "barg", Si, 1e5, 0.0, Gauge, "psig", 2, ["bar gauge", "bar g", "bar(g)", "bar(gauge)"];
    BARA: Pressure, "bara", Si, 1e5, 0.0, Fixed, "psia", 2, ["bar absolute", "bar abs", "bar a", "bar(a)"];
    KILOPASCAL: Pressure, "kPa", Si, 1e3, 0.0, Fixed, "psia", 0, ["kPa abs", "kPa absolute", "kPaa", "kilopascals", "kilopascal"];
    KILOPASCAL_GAUGE: Pressure, "kPag", Si, 1e3, 0.0, Gauge, "psig", 0, ["kPa gauge", "kPa(g)", "kPa g"];
    MEGAPASCAL: Pressure, "MPa", Si, 1e6, 0.0, Fixed, "psia", 2, ["MPa abs", "MPa absolute", "megapascals"];
    MEGAPASCAL_GAUGE: Pressure, "MPag", Si, 1e6, 0.0, Gauge, "psig", 2, ["MPa gauge", "MPa(g)"];
    HECTOPASCAL: Pressure, "hPa", Si, 100.0, 0.0, Fixed, "psia", 0, ["mbar abs", "mbara", "hectopascals"];
    PASCAL: Pressure, "Pa", Si, 1.0, 0.0, Fixed, "microns", 0, ["pascals", "pascal", "Pa abs"];
    MILLIMETER_OF_MERCURY_ABSOLUTE: Pressure, "mmHg abs", Si, exact::MICRON * 1e3, 0.0, Fixed, "psia", 0, ["mmHg absolute", "mmHga", "Torr"];

    PSI: PressureDifference, "psi", Us, exact::PSI, 0.0, Fixed, "kPa", 0, ["lb/in2", "lbf/in2", "psid", "psi difference", "pounds per square inch"];
    KILOPASCAL_OF_DIFFERENCE: PressureDifference, "kPa", Si, 1e3, 0.0, Fixed, "psi", 0, ["kilopascals", "kilopascal"];
    BAR_OF_DIFFERENCE: PressureDifference, "bar", Si, 1e5, 0.0, Fixed, "psi", 2, ["bars", "bar difference"];
    PASCAL_OF_DIFFERENCE: PressureDifference, "Pa", Si, 1.0, 0.0, Fixed, "inH₂O", 0, ["pascals", "pascal"];
    MILLIBAR_OF_DIFFERENCE: PressureDifference, "mbar", Si, 100.0, 0.0, Fixed, "psi", 0, ["millibar", "hPa"];
    MEGAPASCAL_OF_DIFFERENCE: PressureDifference, "MPa", Si, 1e6, 0.0, Fixed, "psi", 2, ["N/mm2"];
    INCH_OF_WATER_OF_DIFFERENCE: PressureDifference, "inH₂O", Us, exact::INCH_OF_WATER, 0.0, Fixed, "Pa", 2, ["in. w.c.", "in wc", "in w.g.", "in. wg", "in H2O", "iwc", "inches of water", "inches water column"];
    INCH_OF_MERCURY_OF_DIFFERENCE: PressureDifference, "inHg", Us, exact::INCH_OF_MERCURY, 0.0, Fixed, "kPa", 1, ["inches of mercury", "in. Hg"];
    FOOT_OF_WATER_OF_DIFFERENCE: PressureDifference, "ftH₂O", Us, exact::INCH_OF_WATER * 12.0, 0.0, Fixed, "kPa", 1, ["ft of water", "feet of water", "ft w.c.", "ft H2O"];
    MILLIMETER_OF_MERCURY_OF_DIFFERENCE: PressureDifference, "mmHg", Si, exact::MICRON * 1e3, 0.0, Fixed, "psi", 0, ["mm of mercury"];

    FAHRENHEIT: Temperature, "°F", Us, exact::FAHRENHEIT_DEGREE, exact::FAHRENHEIT_ZERO, Fixed, "°C", 1, ["F", "degF", "deg F", "degrees F", "Fahrenheit", "degrees Fahrenheit", "ºF", "℉", "F°"];
    CELSIUS: Temperature, "°C", Si, 1.0, exact::ICE_POINT, Fixed, "°F", 1, ["C", "degC", "deg C", "degrees C", "Celsius", "degrees Celsius", "centigrade", "ºC", "℃", "C°"];
    KELVIN: Temperature, "K", Si, 1.0, 0.0, Fixed, "°F", 1, ["kelvin", "kelvins", "°K"];
    RANKINE: Temperature, "°R", Us, exact::FAHRENHEIT_DEGREE, 0.0, Fixed, "K", 1, ["R", "degR", "Rankine"];

    FAHRENHEIT_OF_DIFFERENCE: TemperatureDifference, "°F", Us, exact::FAHRENHEIT_DEGREE, 0.0, Fixed, "K", 1,
        ["F", "dF", "degF", "deg F", "degrees F", "F°", "Fahrenheit degrees", "Fahrenheit", "degrees Fahrenheit", "°R", "ΔF", "Δ°F", "F difference", "ºF", "℉"];
    KELVIN_OF_DIFFERENCE: TemperatureDifference, "K", Si, 1.0, 0.0, Fixed, "°F", 1, ["dK", "kelvin", "kelvins", "ΔK"];
    CELSIUS_OF_DIFFERENCE: TemperatureDifference, "°C", Si, 1.0, 0.0, Fixed, "°F", 1,
        ["C", "dC", "degC", "deg C", "degrees C", "C°", "Celsius degrees", "Celsius", "degrees Celsius", "ΔC", "ºC", "℃"];

    FAHRENHEIT_PER_FOOT: TemperatureGradient, "°F/ft", Us, exact::FAHRENHEIT_DEGREE / exact::FOOT, 0.0, Fixed, "K/m", 4, ["F/ft"];
    KELVIN_PER_METER: TemperatureGradient, "K/m", Si, 1.0, 0.0, Fixed, "°F/ft", 6, [];

    FOOT: Length, "ft", Us, exact::FOOT, 0.0, Fixed, "m", 0, ["feet", "foot", "'", "′"];
    INCH: Length, "in", Us, exact::INCH, 0.0, Fixed, "mm", 2, ["inch", "inches", "\"", "″", "in."];
    METER: Length, "m", Si, 1.0, 0.0, Fixed, "ft", 0, ["meter", "meters", "metre", "metres"];
    MILLIMETER: Length, "mm", Si, 1e-3, 0.0, Fixed, "in", 1, ["millimeter", "millimeters", "millimetres"];
    CENTIMETER: Length, "cm", Si, 1e-2, 0.0, Fixed, "in", 1, ["centimeter", "centimeters"];
    KILOMETER: Length, "km", Si, 1e3, 0.0, Fixed, "ft", 0, ["kilometer", "kilometers"];
    MICROMETER: Length, "µm", Si, 1e-6, 0.0, Fixed, "in", 0, ["um", "micrometer", "micrometers"];

    SQUARE_FOOT: Area, "ft²", Us, exact::FOOT * exact::FOOT, 0.0, Fixed, "m²", 0, ["ft2", "sq ft", "square feet", "square foot"];
    SQUARE_INCH: Area, "in²", Us, exact::INCH * exact::INCH, 0.0, Fixed, "mm²", 2, ["in2", "sq in", "square inches", "square inch"];
    SQUARE_METER: Area, "m²", Si, 1.0, 0.0, Fixed, "ft²", 1, ["m2", "sq m", "square meters", "square meter"];
    SQUARE_CENTIMETER: Area, "cm²", Si, 1e-4, 0.0, Fixed, "in²", 1, ["cm2"];
    SQUARE_MILLIMETER: Area, "mm²", Si, 1e-6, 0.0, Fixed, "in²", 0, ["mm2"];

    CUBIC_FOOT: Volume, "ft³", Us, exact::FOOT * exact::FOOT * exact::FOOT, 0.0, Fixed, "m³", 1, ["ft3", "cu ft", "cubic feet", "cubic foot", "cf"];
    CUBIC_INCH: Volume, "in³", Us, exact::INCH * exact::INCH * exact::INCH, 0.0, Fixed, "mL", 1, ["in3", "cu in", "cubic inches"];
    US_GALLON: Volume, "gal", Us, exact::GALLON, 0.0, Fixed, "L", 1, ["gallon", "gallons", "US gal"];
    CUBIC_METER: Volume, "m³", Si, 1.0, 0.0, Fixed, "ft³", 2, ["m3", "cu m", "cubic meters", "cubic meter"];
    LITER: Volume, "L", Si, exact::LITER, 0.0, Fixed, "ft³", 1, ["l", "liter", "liters", "litre", "litres"];
    MILLILITER: Volume, "mL", Si, 1e-6, 0.0, Fixed, "in³", 0, ["ml", "cm3", "cm³", "cc"];

    POUND: Mass, "lb", Us, exact::POUND, 0.0, Fixed, "kg", 1, ["lbs", "lbm", "pound", "pounds", "#"];
    OUNCE: Mass, "oz", Us, exact::POUND / 16.0, 0.0, Fixed, "g", 1, ["ounce", "ounces"];
    KILOGRAM: Mass, "kg", Si, 1.0, 0.0, Fixed, "lb", 2, ["kilogram", "kilograms", "kgs"];
    GRAM: Mass, "g", Si, 1e-3, 0.0, Fixed, "oz", 0, ["gram", "grams"];
    TONNE: Mass, "t", Si, 1e3, 0.0, Fixed, "lb", 0, ["tonne", "tonnes", "metric ton", "metric tons"];

    POUND_PER_CUBIC_FOOT: Density, "lb/ft³", Us, exact::POUND / (exact::FOOT * exact::FOOT * exact::FOOT), 0.0, Fixed, "kg/m³", 2, ["lb/ft3", "lb/cu ft", "lbm/ft3", "pcf"];
    KILOGRAM_PER_CUBIC_METER: Density, "kg/m³", Si, 1.0, 0.0, Fixed, "lb/ft³", 1, ["kg/m3", "g/L"];
    GRAM_PER_CUBIC_METER: Density, "g/m³", Si, 1e-3, 0.0, Fixed, "lb/1000 ft³", 1, ["g/m3"];
    POUND_PER_THOUSAND_CUBIC_FEET: Density, "lb/1000 ft³", Us, exact::POUND / (1000.0 * exact::FOOT * exact::FOOT * exact::FOOT), 0.0, Fixed, "g/m³", 1, ["lb/Mcf", "lb/1,000 ft³"];

    CUBIC_FOOT_PER_POUND: SpecificVolume, "ft³/lb", Us, exact::FOOT * exact::FOOT * exact::FOOT / exact::POUND, 0.0, Fixed, "m³/kg", 2, ["ft3/lb", "cu ft/lb"];
    CUBIC_METER_PER_KILOGRAM: SpecificVolume, "m³/kg", Si, 1.0, 0.0, Fixed, "ft³/lb", 3, ["m3/kg"];

    CUBIC_FOOT_PER_MINUTE: VolumeFlow, "cfm", Us, exact::CFM, 0.0, Fixed, "L/s", 0, ["ft3/min", "ft³/min", "CFM", "cu ft/min", "cubic feet per minute"];
    CUBIC_FOOT_PER_HOUR: VolumeFlow, "cfh", Us, exact::FOOT * exact::FOOT * exact::FOOT / exact::HOUR, 0.0, Fixed, "L/min", 0, ["ft3/h", "ft³/h", "scfh", "cu ft/h"];
    GALLON_PER_MINUTE: VolumeFlow, "gal/min", Us, exact::GALLON / exact::MINUTE, 0.0, Fixed, "L/s", 1, ["gpm"];
    GALLON_PER_HOUR: VolumeFlow, "gal/h", Us, exact::GALLON / exact::HOUR, 0.0, Fixed, "L/h", 1, ["gph"];
    LITER_PER_SECOND: VolumeFlow, "L/s", Si, exact::LITER, 0.0, Fixed, "cfm", 0, ["l/s", "lps"];
    LITER_PER_MINUTE: VolumeFlow, "L/min", Si, exact::LITER / exact::MINUTE, 0.0, Fixed, "cfh", 0, ["l/min", "lpm"];
    LITER_PER_HOUR: VolumeFlow, "L/h", Si, exact::LITER / exact::HOUR, 0.0, Fixed, "gal/h", 0, ["l/h"];
    CUBIC_METER_PER_HOUR: VolumeFlow, "m³/h", Si, 1.0 / exact::HOUR, 0.0, Fixed, "cfm", 0, ["m3/h", "m3/hr", "cmh"];
    CUBIC_METER_PER_SECOND: VolumeFlow, "m³/s", Si, 1.0, 0.0, Fixed, "cfm", 3, ["m3/s"];

    POUND_PER_MINUTE: MassFlow, "lb/min", Us, exact::POUND / exact::MINUTE, 0.0, Fixed, "g/s", 2, ["lbm/min", "pounds per minute"];
    POUND_PER_HOUR: MassFlow, "lb/h", Us, exact::POUND / exact::HOUR, 0.0, Fixed, "kg/h", 1, ["lb/hr", "lbm/h", "pounds per hour", "pph"];
    GRAM_PER_SECOND: MassFlow, "g/s", Si, 1e-3, 0.0, Fixed, "lb/min", 1, [];
    KILOGRAM_PER_SECOND: MassFlow, "kg/s", Si, 1.0, 0.0, Fixed, "lb/min", 2, [];
    KILOGRAM_PER_HOUR: MassFlow, "kg/h", Si, 1.0 / exact::HOUR, 0.0, Fixed, "lb/h", 1, ["kg/hr"];

    BTU_PER_HOUR: Power, "Btu/h", Us, exact::BTU / exact::HOUR, 0.0, Fixed, "kW", 0, ["Btu/hr", "BTUH", "Btuh", "BTU per hour", "BTU/H"];
    TON_OF_REFRIGERATION: Power, "ton", Us, exact::TON, 0.0, Fixed, "kW", 2, ["tons", "TR", "tons of refrigeration", "ton of refrigeration", "ton refrigeration"];
    HORSEPOWER: Power, "hp", Us, exact::HORSEPOWER, 0.0, Fixed, "kW", 1, ["horsepower"];
    KILOWATT: Power, "kW", Si, 1e3, 0.0, Fixed, "Btu/h", 2, ["kilowatt", "kilowatts"];
    WATT: Power, "W", Si, 1.0, 0.0, Fixed, "Btu/h", 0, ["watt", "watts"];

    BTU: Energy, "Btu", Us, exact::BTU, 0.0, Fixed, "kJ", 0, ["BTU"];
    KILOJOULE: Energy, "kJ", Si, 1e3, 0.0, Fixed, "Btu", 0, ["kilojoules"];
    JOULE: Energy, "J", Si, 1.0, 0.0, Fixed, "Btu", 0, ["joules"];
    MEGAJOULE: Energy, "MJ", Si, 1e6, 0.0, Fixed, "Btu", 0, ["megajoules"];
    KILOWATT_HOUR: Energy, "kWh", Si, 1e3 * exact::HOUR, 0.0, Fixed, "Btu", 0, ["kilowatt hours"];

    BTU_PER_POUND: SpecificEnthalpy, "Btu/lb", Us, exact::BTU / exact::POUND, 0.0, Fixed, "kJ/kg", 1, ["Btu/lbm"];
    KILOJOULE_PER_KILOGRAM: SpecificEnthalpy, "kJ/kg", Si, 1e3, 0.0, Fixed, "Btu/lb", 1, [];
    JOULE_PER_KILOGRAM: SpecificEnthalpy, "J/kg", Si, 1.0, 0.0, Fixed, "Btu/lb", 0, [];

    BTU_PER_POUND_OF_DRY_AIR: MoistAirEnthalpy, "Btu/lb", Us, exact::BTU / exact::POUND, exact::DRY_AIR_AT_FAHRENHEIT_ZERO, Fixed, "kJ/kg", 1, ["Btu/lbm", "Btu/lb of dry air"];
    KILOJOULE_PER_KILOGRAM_OF_DRY_AIR: MoistAirEnthalpy, "kJ/kg", Si, 1e3, 0.0, Fixed, "Btu/lb", 1, ["kJ/kg of dry air"];

    BTU_PER_POUND_FAHRENHEIT: SpecificEntropy, "Btu/(lb·°F)", Us, exact::BTU / exact::POUND * 1.8, 0.0, Fixed, "kJ/(kg·K)", 3, ["Btu/lb/F", "Btu/lb·°F", "Btu/lb °F", "Btu/(lb·°R)", "Btu/lb-F"];
    KILOJOULE_PER_KILOGRAM_KELVIN: SpecificEntropy, "kJ/(kg·K)", Si, 1e3, 0.0, Fixed, "Btu/(lb·°F)", 3, ["kJ/kg/K", "kJ/kg·K", "kJ/kg K", "kJ/kg-K"];
    JOULE_PER_KILOGRAM_KELVIN: SpecificEntropy, "J/(kg·K)", Si, 1.0, 0.0, Fixed, "Btu/(lb·°F)", 3, ["J/kg/K", "J/kg·K", "J/kg K"];

    FOOT_PER_MINUTE: Velocity, "fpm", Us, exact::FOOT / exact::MINUTE, 0.0, Fixed, "m/s", 0, ["ft/min", "feet per minute"];
    FOOT_PER_SECOND: Velocity, "ft/s", Us, exact::FOOT, 0.0, Fixed, "m/s", 1, ["fps", "feet per second", "ft/sec"];
    METER_PER_SECOND: Velocity, "m/s", Si, 1.0, 0.0, Fixed, "fpm", 1, ["meters per second"];

    FOOT_PER_SECOND_SQUARED: Acceleration, "ft/s²", Us, exact::FOOT, 0.0, Fixed, "m/s²", 1, ["ft/s2"];
    METER_PER_SECOND_SQUARED: Acceleration, "m/s²", Si, 1.0, 0.0, Fixed, "ft/s²", 1, ["m/s2"];

    SECOND: Time, "s", Us, 1.0, 0.0, Fixed, "s", 0, ["sec", "secs", "second", "seconds"];
    MINUTE: Time, "min", Us, exact::MINUTE, 0.0, Fixed, "min", 0, ["mins", "minute", "minutes"];
    HOUR: Time, "h", Us, exact::HOUR, 0.0, Fixed, "h", 0, ["hr", "hrs", "hour", "hours"];
    DAY: Time, "days", Us, exact::DAY, 0.0, Fixed, "days", 0, ["day", "d"];

    POUND_PER_POUND: HumidityRatio, "lb/lb", Us, 1.0, 0.0, Fixed, "kg/kg", 4, ["lbw/lba"];
    GRAIN_PER_POUND: HumidityRatio, "gr/lb", Us, exact::GRAIN / exact::POUND, 0.0, Fixed, "g/kg", 1, ["grains/lb", "grains per pound", "gr/lba"];
    KILOGRAM_PER_KILOGRAM: HumidityRatio, "kg/kg", Si, 1.0, 0.0, Fixed, "lb/lb", 4, [];
    GRAM_PER_KILOGRAM: HumidityRatio, "g/kg", Si, 1e-3, 0.0, Fixed, "gr/lb", 0, [];

    CFM_PER_TON: FlowPerCapacity, "cfm/ton", Us, exact::CFM / exact::TON, 0.0, Fixed, "L/(s·kW)", 0, ["cfm per ton", "CFM/TON"];
    LITER_PER_SECOND_KILOWATT: FlowPerCapacity, "L/(s·kW)", Si, exact::LITER / 1e3, 0.0, Fixed, "cfm/ton", 0, ["L/s/kW", "L/s per kW", "(L/s)/kW"];
    CUBIC_METER_PER_HOUR_KILOWATT: FlowPerCapacity, "m³/(h·kW)", Si, 1.0 / exact::HOUR / 1e3, 0.0, Fixed, "cfm/ton", 0, ["m3/h/kW", "m³/h per kW"];

    POUND_PER_MINUTE_TON: MassFlowPerCapacity, "lb/(min·ton)", Us, exact::POUND / exact::MINUTE / exact::TON, 0.0, Fixed, "g/(s·kW)", 2, ["lb/min/ton", "lb/min per ton"];
    GRAM_PER_SECOND_KILOWATT: MassFlowPerCapacity, "g/(s·kW)", Si, 1e-6, 0.0, Fixed, "lb/(min·ton)", 2, ["g/s/kW", "g/s per kW"];

    BTU_PER_CUBIC_FOOT: VolumetricCapacity, "Btu/ft³", Us, exact::BTU / (exact::FOOT * exact::FOOT * exact::FOOT), 0.0, Fixed, "kJ/m³", 0, ["Btu/ft3"];
    KILOJOULE_PER_CUBIC_METER: VolumetricCapacity, "kJ/m³", Si, 1e3, 0.0, Fixed, "Btu/ft³", 1, ["kJ/m3"];

    MICROPASCAL_SECOND: Viscosity, "µPa·s", Si, 1e-6, 0.0, Fixed, "lb/(ft·h)", 3, ["uPa.s", "µPa s", "uPa s"];
    MILLIPASCAL_SECOND: Viscosity, "mPa·s", Si, 1e-3, 0.0, Fixed, "lb/(ft·h)", 3, ["mPa s", "cP", "centipoise"];
    POUND_PER_FOOT_HOUR: Viscosity, "lb/(ft·h)", Us, exact::POUND / exact::FOOT / exact::HOUR, 0.0, Fixed, "µPa·s", 1, ["lb/ft/h", "lb/ft·h", "lb/(ft·hr)"];

    VOLT: Voltage, "V", Us, 1.0, 0.0, Fixed, "V", 0, ["volt", "volts", "VAC", "VDC"];
    MILLIVOLT: Voltage, "mV", Us, 1e-3, 0.0, Fixed, "mV", 0, ["millivolts"];
    AMPERE: Current, "A", Us, 1.0, 0.0, Fixed, "A", 0, ["amp", "amps", "ampere", "amperes"];
    MILLIAMPERE: Current, "mA", Us, 1e-3, 0.0, Fixed, "mA", 0, ["milliamps", "milliamp"];
    OHM: Resistance, "Ω", Us, 1.0, 0.0, Fixed, "Ω", 0, ["ohm", "ohms", "Ω"];
    KILOHM: Resistance, "kΩ", Us, 1e3, 0.0, Fixed, "kΩ", 0, ["kohm", "kohms", "kilohm", "kilohms", "kΩ"];

    NEWTON_METER: Torque, "N·m", Si, 1.0, 0.0, Fixed, "lbf·ft", 1, ["N.m", "Nm", "newton meters"];
    POUND_FORCE_FOOT: Torque, "lbf·ft", Us, exact::POUND * exact::GRAVITY * exact::FOOT, 0.0, Fixed, "N·m", 1, ["lbf.ft", "ft·lbf", "ft-lbf", "ft-lb", "ft lb", "lb-ft", "ft·lb", "foot pounds"];
    POUND_FORCE_INCH: Torque, "lbf·in", Us, exact::POUND * exact::GRAVITY * exact::INCH, 0.0, Fixed, "N·m", 1, ["in·lbf", "in-lb", "in lb", "inch pounds"];

    BTU_PER_HOUR_CFM_FAHRENHEIT: SensibleFactor, "Btu/(h·cfm·°F)", Us, exact::BTU / exact::HOUR / exact::CFM * 1.8, 0.0, Fixed, "W/(L/s·K)", 3, ["Btu/h/cfm/F", "Btu/h·cfm·°F"];
    WATT_PER_LITER_PER_SECOND_KELVIN: SensibleFactor, "W/(L/s·K)", Si, 1e3, 0.0, Fixed, "Btu/(h·cfm·°F)", 3, ["W/(L/s)/K", "W/L/s/K"];

    POUND_PER_HOUR_CFM: TotalFactor, "lb/(h·cfm)", Us, exact::POUND / exact::HOUR / exact::CFM, 0.0, Fixed, "kg/m³", 3, ["lb/h/cfm", "lb/h·cfm"];
    KILOGRAM_PER_CUBIC_METER_OF_AIRFLOW: TotalFactor, "kg/m³", Si, 1.0, 0.0, Fixed, "lb/(h·cfm)", 3, ["kg/m3"];

    PASCAL_CUBIC_METER_PER_SECOND: Throughput, "Pa·m³/s", Si, 1.0, 0.0, Fixed, "micron·cfm", 5, ["Pa.m3/s"];
    MICRON_CUBIC_FOOT_PER_MINUTE: Throughput, "micron·cfm", Us, exact::MICRON * exact::CFM, 0.0, Fixed, "Pa·m³/s", 2, ["micron cfm", "microns·cfm"];

    BTU_PER_WATT_HOUR: Efficiency, "Btu/(W·h)", Us, exact::BTU / exact::HOUR, 0.0, Fixed, "W/W", 2, ["Btu/Wh", "Btu/W/h"];
    WATT_PER_WATT: Efficiency, "W/W", Si, 1.0, 0.0, Fixed, "Btu/(W·h)", 1, ["kW/kW"];

    TONNE_OF_CARBON_DIOXIDE: CarbonEquivalent, "t CO₂e", Us, 1e3, 0.0, Fixed, "t CO₂e", 2, ["tCO2e", "t CO2e", "t CO2 eq", "tonnes CO2e"];
    KILOGRAM_OF_CARBON_DIOXIDE: CarbonEquivalent, "kg CO₂e", Us, 1.0, 0.0, Fixed, "kg CO₂e", 0, ["kgCO2e", "kg CO2e"];

    KELVIN_OF_THERMISTOR: ThermistorConstant, "K", Us, 1.0, 0.0, Fixed, "K", 0, ["kelvin", "kelvins"];
}

/// One standard atmosphere, for a unit that needs no air; a value that must not matter.
pub(super) const ANY_AIR: Pressure = Pressure::STANDARD_ATMOSPHERE;

#[cfg(test)]
mod tests {
    use super::*;

    /// Factors as NIST SP 811 (2008), appendices B.8 and B.9, prints them, to the digits printed there.
    #[test]
    fn factors_are_those_nist_prints() {
        let printed: &[(&Unit, &str)] = &[
            (&PSIA, "6.894757E3"),
            (&INCH_OF_MERCURY_ABSOLUTE, "3.386389E3"),
            (&INCH_OF_WATER_OF_DIFFERENCE, "2.490889E2"),
            (&FOOT_OF_WATER_OF_DIFFERENCE, "2.989067E3"),
            (&MILLIMETER_OF_MERCURY_ABSOLUTE, "1.333224E2"),
            (&BTU_PER_HOUR, "2.930711E-1"),
            (&TON_OF_REFRIGERATION, "3.516853E3"),
            (&HORSEPOWER, "7.456999E2"),
            (&BTU, "1.055056E3"),
            (&BTU_PER_POUND, "2.326E3"),
            (&BTU_PER_POUND_FAHRENHEIT, "4.1868E3"),
            (&POUND, "4.535924E-1"),
            (&OUNCE, "2.834952E-2"),
            (&POUND_PER_CUBIC_FOOT, "1.601846E1"),
            (&CUBIC_FOOT_PER_POUND, "6.242796E-2"),
            (&CUBIC_FOOT, "2.831685E-2"),
            (&US_GALLON, "3.785412E-3"),
            (&CUBIC_INCH, "1.638706E-5"),
            (&CUBIC_FOOT_PER_MINUTE, "4.719474E-4"),
            (&GALLON_PER_MINUTE, "6.309020E-5"),
            (&POUND_PER_MINUTE, "7.559873E-3"),
            (&POUND_PER_HOUR, "1.259979E-4"),
            (&FOOT_PER_MINUTE, "5.08E-3"),
            (&SQUARE_FOOT, "9.290304E-2"),
            (&SQUARE_INCH, "6.4516E-4"),
            (&POUND_FORCE_FOOT, "1.355818"),
            (&POUND_FORCE_INCH, "1.129848E-1"),
            (&POUND_PER_FOOT_HOUR, "4.133789E-4"),
            (&GRAIN_PER_POUND, "1.428571E-4"),
        ];
        for (unit, printed) in printed {
            let expected: f64 = printed.parse().unwrap();
            let digits = printed.split('E').next().unwrap().len().saturating_sub(2);
            let rounded: f64 = format!("{:.digits$e}", unit.factor).parse().unwrap();
            assert_eq!(rounded, expected, "{} ({})", unit.symbol, unit.kind);
        }
    }

    #[test]
    fn every_counterpart_is_a_unit_of_the_same_kind_and_leads_home() {
        for unit in UNITS {
            for system in [System::Us, System::Si] {
                let there = unit.in_system(system);
                assert_eq!(there.kind, unit.kind);
                assert!(
                    there.system == system || there.counterpart == unit.symbol,
                    "{} has no unit in {system:?}: `{}` is not one of {}",
                    unit.symbol,
                    unit.counterpart,
                    unit.kind
                );
            }
        }
    }

    #[test]
    fn no_two_units_of_a_kind_are_spelled_alike() {
        for (i, one) in UNITS.iter().enumerate() {
            for other in UNITS[i + 1..].iter().filter(|other| other.kind == one.kind) {
                for spelling in one.spellings.iter().chain([&one.symbol]) {
                    assert!(
                        other.symbol != *spelling && !other.spellings.contains(spelling),
                        "`{spelling}` is {} and {}",
                        one.symbol,
                        other.symbol
                    );
                }
            }
        }
    }

    #[test]
    fn enthalpy_of_moist_air_is_counted_from_each_tables_own_zero() {
        // ASHRAE Fundamentals 2017 chapter 1: h = 0.240 t (°F) for dry air, and 1.006 t (°C).
        let at_fahrenheit_32 = BTU_PER_POUND_OF_DRY_AIR.from_si(0.0, ANY_AIR);
        assert!((at_fahrenheit_32 - 0.240 * 32.0).abs() < 0.02, "{at_fahrenheit_32}");
    }
}
