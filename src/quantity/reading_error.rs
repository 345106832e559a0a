//! Why a text is not a figure, in words that say how it would be written.

use super::kind::{Kind, System};

/// Why a text is not a figure. Each says how it would be written.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum ReadingError {
    /// There is nothing.
    #[error("nothing is written here: write {}", sample(.wanted))]
    Nothing {
        /// The kind that was asked for.
        wanted: Option<Kind>,
    },
    /// It does not begin with a number.
    #[error("`{typed}` does not begin with a number: write {}", sample(.wanted))]
    NoNumber {
        /// What was typed.
        typed: String,
        /// The kind that was asked for.
        wanted: Option<Kind>,
    },
    /// A comma that does not stand before three digits.
    #[error("`{typed}` has a comma that does not group thousands: a decimal is written with a point, as `{instead}`")]
    Comma {
        /// What was typed.
        typed: String,
        /// The same with a point.
        instead: String,
    },
    /// The number itself is badly formed.
    #[error("`{typed}` is not one number: write {}", sample(.wanted))]
    BadNumber {
        /// What was typed.
        typed: String,
        /// The kind that was asked for.
        wanted: Option<Kind>,
    },
    /// A fraction of something that is not a length.
    #[error("`{typed}` is a fraction, and only lengths are written so: write `{instead}`")]
    Fraction {
        /// What was typed.
        typed: String,
        /// The same in decimals.
        instead: String,
    },
    /// A number without a unit.
    #[error("`{typed}` has no unit: {} is written with one, as {}", .wanted.one(), choices(.wanted, .typed))]
    NoUnit {
        /// What was typed.
        typed: String,
        /// The kind that was asked for.
        wanted: Kind,
    },
    /// A unit of pressure that says neither gauge nor absolute.
    #[error("`{typed}` does not say from where it is counted: write {instead}")]
    GaugeOrAbsolute {
        /// What was typed.
        typed: String,
        /// How it would be written, each way.
        instead: String,
    },
    /// No unit is spelled so.
    #[error("`{typed}`: there is no unit `{unit}`{}", suggestion(.nearest, .wanted))]
    UnknownUnit {
        /// What was typed.
        typed: String,
        /// The unit that was typed.
        unit: String,
        /// The nearest known one.
        nearest: Option<&'static str>,
        /// The kind that was asked for.
        wanted: Option<Kind>,
    },
    /// A unit of another quantity.
    #[error("`{typed}` is {}, and {} is wanted here: write it as `{}`", .given.one(), .wanted.one(), .wanted.sample())]
    OtherQuantity {
        /// What was typed.
        typed: String,
        /// What its unit measures.
        given: Kind,
        /// The kind that was asked for.
        wanted: Kind,
    },
    /// Colder than can be.
    #[error("`{typed}` is below absolute zero, -459.67 °F")]
    BelowAbsoluteZero {
        /// What was typed.
        typed: String,
    },
    /// A pressure below a perfect vacuum.
    #[error("`{typed}` is below a perfect vacuum{}", air_there(.air))]
    BelowVacuum {
        /// What was typed.
        typed: String,
        /// How hard the air presses there, where the reading was against it.
        air: Option<String>,
    },
    /// No `to` between two figures.
    #[error("`{typed}` is not a range: write the two ends with `to` between, as `8 to 18 °F`")]
    NotARange {
        /// What was typed.
        typed: String,
    },
    /// The upper end comes first.
    #[error("`{typed}` runs downward: write the lower end first, as `{instead}`")]
    Downward {
        /// What was typed.
        typed: String,
        /// The same, turned round.
        instead: String,
    },
}

fn sample(wanted: &Option<Kind>) -> String {
    match wanted {
        Some(Kind::Ratio) => "a number, as `0.8`".to_owned(),
        Some(kind) => format!("a number and its unit, as `{}`", kind.sample()),
        None => "a number and its unit, as `118 psig`".to_owned(),
    }
}

fn choices(wanted: &Kind, typed: &str) -> String {
    match wanted {
        Kind::Pressure => format!("`{typed} psig` or `{typed} psia`"),
        kind => {
            let (us, si) = (kind.unit_in(System::Us), kind.unit_in(System::Si));
            if us.symbol == si.symbol {
                format!("`{typed} {}`", us.symbol)
            } else {
                format!("`{typed} {}` or `{typed} {}`", us.symbol, si.symbol)
            }
        }
    }
}

fn suggestion(nearest: &Option<&'static str>, wanted: &Option<Kind>) -> String {
    match (nearest, wanted) {
        (Some(nearest), _) => format!("; the nearest is `{nearest}`"),
        (None, Some(kind)) => format!("; {} is written as `{}`", kind.one(), kind.sample()),
        (None, None) => String::new(),
    }
}

fn air_there(air: &Option<String>) -> String {
    air.as_ref().map(|air| format!(": the air itself is only {air} there")).unwrap_or_default()
}
