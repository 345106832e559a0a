//! The front of a handbook, `handbook.yaml`: what it is called, whose it is, where it is read, and its parts in order.

use super::{Span, Spot};

/// Which system of units a reader sees first. Both are always set.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum UnitsFirst {
    /// psig and °F.
    #[default]
    Us,
    /// Bar and °C.
    Si,
}

/// A part of the handbook: a chapter of the thumb index.
#[derive(Clone, Debug, Default)]
pub struct Part {
    /// Its name: the folder under `lessons/`.
    pub name: Spot<String>,
    /// Its title as readers see it.
    pub title: String,
    /// Lessons in the order the author wants; those not listed follow by name.
    pub lessons: Vec<Spot<String>>,
}

/// `handbook.yaml`.
#[derive(Clone, Debug, Default)]
pub struct Front {
    /// The whole file's place.
    pub at: Span,
    /// Title of the handbook.
    pub title: String,
    /// The school or company whose it is.
    pub house: String,
    /// Edition, as the author writes it.
    pub edition: String,
    /// Altitude as written, `890 ft`: every gauge figure follows from it.
    pub altitude: Spot<String>,
    /// Which units are seen first.
    pub units: UnitsFirst,
    /// Parts in order.
    pub parts: Vec<Part>,
    /// Carry copies asked for.
    pub carry_copies: Vec<Spot<String>>,
    /// The handbook that this one builds on, where it does.
    pub base: Option<Box<Base>>,
}

/// The handbook below, which another builds on.
#[derive(Clone, Debug)]
pub struct Base {
    /// Its title.
    pub title: String,
    /// Whose it is.
    pub house: String,
    /// Its edition.
    pub edition: String,
}
