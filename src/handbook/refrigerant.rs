//! A refrigerant as an author writes it: what it is made of, and what the law and the can say about it.

use super::{Span, Spot};

/// What a refrigerant's properties rest on.
#[derive(Clone, Debug)]
pub enum MadeOf {
    /// One of the program's own equations, by designation.
    Equation(Spot<String>),
    /// A blend: designations and their shares by mass, as written (`68.9 %`).
    Blend(Vec<(Spot<String>, Spot<String>)>),
    /// Nothing the program has an equation for: it is known by its typed points only.
    NotKnown,
}

/// Points typed from a published table of pressure against temperature.
#[derive(Clone, Debug)]
pub struct PointTable {
    /// The whole table.
    pub at: Span,
    /// Key of the source it was typed from.
    pub source: Spot<String>,
    /// What each column holds, with its unit, as written: `temperature °F`, `bubble psig`.
    pub columns: Vec<Spot<String>>,
    /// The figures as typed, row by row.
    pub rows: Vec<Vec<Spot<String>>>,
}

/// A global warming potential and the report it is from.
#[derive(Clone, Debug)]
pub struct Gwp {
    /// Over a hundred years, carbon dioxide being 1.
    pub value: f64,
    /// The report: `IPCC AR4`.
    pub basis: String,
}

/// One file of `refrigerants/`.
#[derive(Clone, Debug)]
pub struct RefrigerantEntry {
    /// The whole file.
    pub at: Span,
    /// Designation, `R-454B`.
    pub designation: Spot<String>,
    /// What its properties rest on.
    pub made_of: MadeOf,
    /// Points typed from a published table: what it is known by where nothing else is, or what its equation is held to.
    pub points: Option<PointTable>,
    /// Safety group, `A2L`.
    pub safety_group: Option<String>,
    /// Global warming potential.
    pub gwp: Option<Gwp>,
    /// Oil it runs with.
    pub oil: Option<String>,
    /// Keys of sources.
    pub sources: Vec<Spot<String>>,
    /// A sentence about it.
    pub note: Option<String>,
}
