//! A slip of the pen in a typed table, as it is told: the figure, what seems to have happened, what was likely meant.

use std::fmt;

/// Which figure of a row.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Column {
    /// The temperature.
    Temperature,
    /// The bubble pressure.
    Bubble,
    /// The dew pressure.
    Dew,
}

/// What seems to have happened.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SlipKind {
    /// It is no number, or a pressure below zero absolute.
    NotANumber,
    /// Two digits changed places.
    SwappedDigits,
    /// The decimal point is in the wrong place or missing.
    DecimalPoint,
    /// A digit was left out.
    DroppedDigit,
    /// A digit too many.
    ExtraDigit,
    /// One digit is another.
    WrongDigit,
    /// The figure belongs in a neighboring row.
    ShiftedRow,
    /// Bubble and dew pressure have changed places.
    BubbleBelowDew,
    /// From this row on, all figures stand one row too high or too low.
    ShiftedFromHere,
    /// None of these explains it.
    OffTheCurve,
}

/// A figure that breaks the curve of its neighbors.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// The row, counted from 0.
    pub row: usize,
    /// The figure in it.
    pub column: Column,
    /// What seems to have happened.
    pub kind: SlipKind,
    /// The figure as typed.
    pub written: String,
    /// What the neighbors say, in the unit of the column; none where there are too few to say.
    pub expected: Option<f64>,
    /// The figure that was likely meant, as it would be typed.
    pub likely: Option<String>,
}

impl Slip {
    /// What is wrong, without the row: `the bubble pressure `131.2` breaks the curve of the rows around it`.
    pub fn says(&self) -> String {
        let what = match self.column {
            Column::Temperature => "temperature",
            Column::Bubble => "bubble pressure",
            Column::Dew => "dew pressure",
        };
        let says = match self.kind {
            SlipKind::NotANumber => "is no number above zero absolute",
            SlipKind::BubbleBelowDew => "and its neighbor have changed places: bubble is never below dew",
            SlipKind::ShiftedFromHere => "and all figures below stand in the wrong row, off by one",
            _ => "breaks the curve of the rows around it",
        };
        format!("the {what} `{}` {says}", self.written)
    }

    /// How it may have come about, where that can be told.
    pub fn explanation(&self) -> Option<&'static str> {
        match self.kind {
            SlipKind::SwappedDigits => Some("two digits may have changed places"),
            SlipKind::DecimalPoint => Some("the decimal point may be in the wrong place"),
            SlipKind::DroppedDigit => Some("a digit may have been left out"),
            SlipKind::ExtraDigit => Some("there may be a digit too many"),
            SlipKind::WrongDigit => Some("a digit may be wrong"),
            SlipKind::ShiftedRow => Some("it seems to belong in a neighboring row"),
            SlipKind::NotANumber | SlipKind::BubbleBelowDew | SlipKind::ShiftedFromHere | SlipKind::OffTheCurve => None,
        }
    }
}

impl fmt::Display for Slip {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "row {}: {}", self.row + 1, self.says())?;
        if let Some(explanation) = self.explanation() {
            write!(f, "; {explanation}")?;
        }
        match &self.likely {
            Some(likely) => write!(f, ": likely `{likely}`"),
            None => Ok(()),
        }
    }
}
