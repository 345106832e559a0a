//! Why a computation has no answer, in words for the person who asked.

use crate::fluid::FluidError;
use crate::quantity::{AtmosphereError, Kind, ReadingError};

/// Why there is no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TradeError {
    /// No computation is called so.
    #[error("there is no computation `{typed}`{}", suggestion(.nearest))]
    UnknownComputation {
        /// As typed.
        typed: String,
        /// The nearest name.
        nearest: Option<&'static str>,
    },
    /// Something that is needed was not given.
    #[error("{computation} also needs {}; it takes {takes}", .missing.join(" and "))]
    Missing {
        /// The computation.
        computation: &'static str,
        /// The inputs that are missing, each with how it is written.
        missing: Vec<String>,
        /// Everything it takes.
        takes: String,
    },
    /// Of several inputs that say the same thing, more than one was given.
    #[error("{computation} takes only one of {}, and more was given", .of.join(" or "))]
    OnlyOne {
        /// The computation.
        computation: &'static str,
        /// The inputs to choose from.
        of: Vec<String>,
    },
    /// Something was given that the computation does not take.
    #[error("{computation} takes no `{typed}`{}; it takes {takes}", suggestion(.nearest))]
    UnknownInput {
        /// The computation.
        computation: &'static str,
        /// As typed.
        typed: String,
        /// The nearest name.
        nearest: Option<&'static str>,
        /// Everything it takes.
        takes: String,
    },
    /// A refrigerant where a figure is wanted.
    #[error("{input} is {}, as `{}`, not a refrigerant", .wanted.one(), .wanted.sample())]
    FigureWanted {
        /// The input.
        input: &'static str,
        /// The kind that is wanted.
        wanted: Kind,
    },
    /// A figure where a refrigerant is wanted.
    #[error("{input} is the name of a refrigerant, as `R-410A`, not a figure")]
    RefrigerantWanted {
        /// The input.
        input: &'static str,
    },
    /// A figure of another kind.
    #[error("{input} is {}, as `{}`, and {} was given", .wanted.one(), .wanted.sample(), .given.one())]
    WrongKind {
        /// The input.
        input: &'static str,
        /// The kind that is wanted.
        wanted: Kind,
        /// The kind that was given.
        given: Kind,
    },
    /// A figure that can't be taken as it stands.
    #[error("{input}: {error}")]
    Reading {
        /// The input.
        input: &'static str,
        /// What is wrong with it.
        error: ReadingError,
    },
    /// A figure outside what the formula holds for.
    #[error("{input} of {given} is outside {low} to {high}, where {computation} holds")]
    OutsideRange {
        /// The computation.
        computation: &'static str,
        /// The input.
        input: &'static str,
        /// The figure, as printed.
        given: String,
        /// The lowest that is taken, as printed.
        low: String,
        /// The highest that is taken, as printed.
        high: String,
    },
    /// The altitude of the surroundings can't be.
    #[error(transparent)]
    Altitude(#[from] AtmosphereError),
    /// The refrigerant has no such property there.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// The computation itself refuses: the answer would mislead.
    #[error("{computation}: {says}")]
    Refused {
        /// The computation.
        computation: &'static str,
        /// Why.
        says: &'static str,
    },
    /// What is sought does not lie between the bounds in which it is sought.
    #[error("{computation}: no {sought} from {low} to {high} fits these figures")]
    NoSolution {
        /// The computation.
        computation: &'static str,
        /// What is sought.
        sought: String,
        /// The lower bound, as printed.
        low: String,
        /// The upper bound, as printed.
        high: String,
    },
    /// A division by nothing, the root of a negative number, and the like.
    #[error("{computation}: {quantity} has no value for these figures")]
    NoValue {
        /// The computation.
        computation: &'static str,
        /// The quantity that has none.
        quantity: String,
    },
}

fn suggestion(nearest: &Option<&'static str>) -> String {
    nearest.map(|name| format!("; the nearest is `{name}`")).unwrap_or_default()
}
