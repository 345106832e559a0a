//! The equations of moist air that several entries are made of.
//!
//! All from ASHRAE Handbook, Fundamentals (2017), chapter 1, in its SI form: temperatures counted in °C or K, pressures
//! in Pa or kPa. Air and water vapor are taken as ideal gases, as there.

use std::cell::OnceCell;
use std::sync::Arc;

use crate::quantity::{Kind, unit};
use crate::trade::expression::{Expr, Function, apply, choose, function, if_given, least, quantity, solve, step};
use crate::trade::input::{Input, given};

/// Where the equations come from.
pub(super) const SOURCE: &str = "ASHRAE Handbook, Fundamentals (2017), chapter 1, Psychrometrics";

/// Molar mass of water over that of dry air.
const MASS_RATIO: f64 = 0.621_945;

fn celsius(temperature: &Expr) -> Expr {
    temperature.number_of(&unit::CELSIUS)
}

/// Equations (5) and (6): saturation pressure of water over ice and over liquid water.
fn saturation_pressure() -> Arc<Function> {
    function("saturation pressure of water", "p_ws", Kind::Pressure, ("T", Kind::Temperature), |temperature| {
        let t = temperature.number_of(&unit::KELVIN);
        let ice = -5.674_535_9e3 / &t + 6.392_524_7 - 9.677_843e-3 * &t
            + 6.221_570_1e-7 * t.to_the(2.0)
            + 2.074_782_5e-9 * t.to_the(3.0)
            - 9.484_024e-13 * t.to_the(4.0)
            + 4.163_501_9 * t.ln();
        let water = -5.800_220_6e3 / &t + 1.391_499_3 - 4.864_023_9e-2 * &t + 4.176_476_8e-5 * t.to_the(2.0)
            - 1.445_209_3e-8 * t.to_the(3.0)
            + 6.545_967_3 * t.ln();
        let triple_point = quantity(0.01, 2, &unit::CELSIUS, "");
        choose(temperature.below(triple_point), ice.exp(), water.exp()).of_unit(&unit::PASCAL)
    })
}

/// Air at one place: its dry bulb, and its moisture by whichever reading was given.
pub(super) struct MoistAir {
    pub(super) dry: Input,
    /// Wet bulb, where it may be given.
    pub(super) wet: Option<Input>,
    /// Relative humidity, where it may be given.
    pub(super) humidity: Option<Input>,
    /// Dew point, where it may be given.
    pub(super) dew: Option<Input>,
    saturation: Arc<Function>,
    saturated: Arc<Function>,
    place: Place,
    // Made once, so that whatever asks for them shares one line of the working.
    ratio: OnceCell<Expr>,
    vapor: OnceCell<Expr>,
    heat: OnceCell<Expr>,
}

/// The letters and names of the air at one place.
#[derive(Clone, Copy)]
pub(super) struct Place {
    dry: (&'static str, &'static str),
    wet: (&'static str, &'static str),
    saturated: (&'static str, &'static str),
    ratio: (&'static str, &'static str),
    enthalpy: (&'static str, &'static str),
}

/// The only place there is.
pub(super) const HERE: Place = Place {
    dry: ("dry bulb", "t"),
    wet: ("wet bulb", "t_wb"),
    saturated: ("humidity ratio saturated at the wet bulb", "W_wb"),
    ratio: ("humidity ratio", "W"),
    enthalpy: ("enthalpy of the air", "h"),
};
/// In front of the coil.
pub(super) const IN: Place = Place {
    dry: ("dry bulb in", "t_1"),
    wet: ("wet bulb in", "t_wb,1"),
    saturated: ("humidity ratio saturated at the wet bulb in", "W_wb,1"),
    ratio: ("humidity ratio in", "W_1"),
    enthalpy: ("enthalpy of the air in", "h_1"),
};
/// Behind the coil.
pub(super) const OUT: Place = Place {
    dry: ("dry bulb out", "t_2"),
    wet: ("wet bulb out", "t_wb,2"),
    saturated: ("humidity ratio saturated at the wet bulb out", "W_wb,2"),
    ratio: ("humidity ratio out", "W_2"),
    enthalpy: ("enthalpy of the air out", "h_2"),
};

fn dry_bulb((name, symbol): (&'static str, &'static str)) -> Input {
    given(name, symbol, Kind::Temperature).between(-60.0, 200.0, &unit::FAHRENHEIT)
}

fn wet_bulb((name, symbol): (&'static str, &'static str)) -> Input {
    given(name, symbol, Kind::Temperature).about("by a wetted thermometer in moving air").between(
        -60.0,
        200.0,
        &unit::FAHRENHEIT,
    )
}

const MOISTURE: &str = "moisture";

impl MoistAir {
    /// Air whose moisture is told by its wet bulb.
    pub(super) fn by_wet_bulb(place: Place) -> Self {
        let saturation = saturation_pressure();
        let saturated = function(
            "humidity ratio of saturated air",
            "W_s",
            Kind::HumidityRatio,
            ("T", Kind::Temperature),
            |temperature| ratio_of(&apply(&saturation, temperature)),
        );
        Self::with(place, saturation, saturated)
    }

    /// Air at another place of the same formula, which shares its functions.
    pub(super) fn at(&self, place: Place) -> Self {
        Self::with(place, self.saturation.clone(), self.saturated.clone())
    }

    fn with(place: Place, saturation: Arc<Function>, saturated: Arc<Function>) -> Self {
        Self {
            dry: dry_bulb(place.dry),
            wet: Some(wet_bulb(place.wet)),
            humidity: None,
            dew: None,
            saturation,
            saturated,
            place,
            ratio: OnceCell::new(),
            vapor: OnceCell::new(),
            heat: OnceCell::new(),
        }
    }

    /// Air whose moisture is told by any one of wet bulb, relative humidity and dew point.
    pub(super) fn by_any() -> Self {
        let mut air = Self::by_wet_bulb(HERE);
        air.wet = air.wet.map(|wet| wet.one_of(MOISTURE));
        air.humidity =
            Some(given("relative humidity", "φ", Kind::Ratio).between(0.0, 1.0, &unit::NUMBER).one_of(MOISTURE));
        air.dew = Some(
            given("dew point", "t_dp", Kind::Temperature).between(-140.0, 200.0, &unit::FAHRENHEIT).one_of(MOISTURE),
        );
        air
    }

    /// The same, where the relative humidity is sought.
    pub(super) fn seeking_humidity(mut self) -> Self {
        self.humidity = None;
        self
    }

    /// The same, where the dew point is sought.
    pub(super) fn seeking_dew_point(mut self) -> Self {
        self.dew = None;
        self
    }

    /// The same, where the wet bulb is sought.
    pub(super) fn seeking_wet_bulb(mut self) -> Self {
        self.wet = None;
        self
    }

    /// The readings it may be told by, the dry bulb first.
    pub(super) fn inputs(&self) -> Vec<&Input> {
        [Some(&self.dry), self.wet.as_ref(), self.humidity.as_ref(), self.dew.as_ref()].into_iter().flatten().collect()
    }

    /// The reading that can't be warmer than the dry bulb; the dry bulb itself where none such was given.
    pub(super) fn wet_or_dry(&self) -> Expr {
        let told = |input: &Option<Input>, otherwise: Expr| match input {
            Some(input) => if_given(input, input, otherwise),
            None => otherwise,
        };
        told(&self.wet, told(&self.dew, self.dry.expr()))
    }

    /// Equations (33), with water on the wick, and (35), with ice on it; `saturated` is the humidity ratio of air
    /// saturated at the wet bulb.
    fn wet_ratios(&self, wet: &Expr, saturated: &Expr) -> (Expr, Expr) {
        let (t, wb) = (celsius(&self.dry.expr()), celsius(wet));
        let thawed = ((2501.0 - 2.326 * &wb) * saturated - 1.006 * (&t - &wb)) / (2501.0 + 1.86 * &t - 4.186 * &wb);
        let frozen = ((2830.0 - 0.24 * &wb) * saturated - 1.006 * (&t - &wb)) / (2830.0 + 1.86 * &t - 2.1 * &wb);
        (thawed, frozen)
    }

    fn wet_ratio(&self, wet: &Expr, saturated: &Expr) -> Expr {
        let freezing = quantity(0.0, 0, &unit::CELSIUS, "");
        let (thawed, frozen) = self.wet_ratios(wet, saturated);
        choose(wet.at_least(freezing), thawed, frozen)
    }

    /// Pressure of the water vapor, where the moisture is told by humidity or dew point.
    fn vapor_by_humidity(&self) -> Option<Expr> {
        let humid = self.humidity.as_ref().map(|input| (input, input * apply(&self.saturation, &self.dry)));
        let dewy = self.dew.as_ref().map(|input| (input, apply(&self.saturation, input)));
        match (humid, dewy) {
            (Some((input, by_humidity)), Some((_, by_dew))) => Some(if_given(input, by_humidity, by_dew)),
            (Some((_, one)), None) | (None, Some((_, one))) => Some(one),
            (None, None) => None,
        }
    }

    fn ratio_by(&self, wet: &Input) -> Expr {
        let (name, symbol) = self.place.saturated;
        let saturated = step(name, symbol, Kind::HumidityRatio, apply(&self.saturated, wet));
        self.wet_ratio(&wet.expr(), &saturated)
    }

    /// Humidity ratio: equation (33) or (35) from the wet bulb, (20) from the pressure of the vapor.
    pub(super) fn ratio(&self) -> Expr {
        let by_vapor = self
            .vapor_by_humidity()
            .map(|pressure| ratio_of(&step("pressure of the water vapor", "p_w", Kind::Pressure, pressure)));
        match (&self.wet, by_vapor) {
            (Some(wet), Some(by_vapor)) => if_given(wet, self.ratio_by(wet), by_vapor),
            (Some(wet), None) => self.ratio_by(wet),
            (None, Some(by_vapor)) => by_vapor,
            // Nothing tells of moisture: dry air.
            (None, None) => 0.0.into(),
        }
    }

    /// Humidity ratio as a step.
    pub(super) fn ratio_step(&self) -> Expr {
        self.ratio
            .get_or_init(|| step(self.place.ratio.0, self.place.ratio.1, Kind::HumidityRatio, self.ratio()))
            .clone()
    }

    /// Pressure of the water vapor: equation (20) turned round, where it is not known already.
    pub(super) fn vapor_pressure_step(&self) -> Expr {
        self.vapor
            .get_or_init(|| {
                let ratio = self.ratio_step();
                let from_ratio = Expr::air() * &ratio / (MASS_RATIO + &ratio);
                step("pressure of the water vapor in the air", "p_v", Kind::Pressure, from_ratio)
            })
            .clone()
    }

    /// Relative humidity: equation (22).
    pub(super) fn relative_humidity(&self) -> Expr {
        self.vapor_pressure_step() / apply(&self.saturation, &self.dry)
    }

    /// A hair above the dry bulb, so that a search finds saturated air too.
    fn highest(&self) -> Expr {
        &self.dry + quantity(0.001, 3, &unit::KELVIN_OF_DIFFERENCE, "")
    }

    /// The temperature at which this air is saturated.
    pub(super) fn dew_point(&self) -> Expr {
        let pressure = self.vapor_pressure_step();
        let lowest = quantity(-100.0, 0, &unit::CELSIUS, "");
        solve("t_dp", Kind::Temperature, lowest, self.highest(), |trial| (apply(&self.saturation, trial), pressure))
    }

    /// The temperature of a wetted thermometer in this air.
    ///
    /// Just around freezing the same air can have a wet bulb with water on the wick and another with ice on it; the one
    /// with water is given wherever there is one.
    pub(super) fn wet_bulb(&self) -> Expr {
        let ratio = self.ratio_step();
        let freezing = quantity(0.0, 0, &unit::CELSIUS, "");
        let lowest = quantity(-100.0, 0, &unit::CELSIUS, "");
        let (thawed_at_freezing, _) = self.wet_ratios(&freezing, &apply(&self.saturated, &freezing));
        let thawed = |then: Expr, otherwise: Expr| choose(ratio.at_least(&thawed_at_freezing), then, otherwise);
        let low = thawed(freezing.clone(), lowest);
        let high = thawed(self.highest(), least(self.highest(), &freezing));
        solve("t_wb", Kind::Temperature, low, high, |trial| {
            (self.wet_ratio(trial, &apply(&self.saturated, trial)), ratio.clone())
        })
    }

    /// Enthalpy of the air with its moisture, for each unit of dry air: equation (30).
    pub(super) fn enthalpy(&self) -> Expr {
        let t = celsius(&self.dry.expr());
        (1.006 * &t + self.ratio_step() * (2501.0 + 1.86 * &t)).of_unit(&unit::KILOJOULE_PER_KILOGRAM_OF_DRY_AIR)
    }

    /// Enthalpy as a step.
    pub(super) fn enthalpy_step(&self) -> Expr {
        let (name, symbol) = self.place.enthalpy;
        self.heat.get_or_init(|| step(name, symbol, Kind::MoistAirEnthalpy, self.enthalpy())).clone()
    }

    /// Volume of the air with its moisture, for each unit of dry air: equation (26).
    pub(super) fn volume(&self) -> Expr {
        let warmth = self.dry.expr().number_of(&unit::KELVIN);
        let pressure = Expr::air().number_of(&unit::KILOPASCAL);
        (0.287_042 * warmth * (1.0 + 1.607_858 * self.ratio_step()) / pressure).of_unit(&unit::CUBIC_METER_PER_KILOGRAM)
    }
}

/// Equation (20): the humidity ratio that a pressure of water vapor makes.
fn ratio_of(vapor: &Expr) -> Expr {
    MASS_RATIO * (vapor / (Expr::air() - vapor))
}
