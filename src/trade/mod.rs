//! The catalogue of computations: every figure that reaches a page comes from here.
//!
//! One entry is a name, what it is for, its inputs, its formula, where that comes from, and a figure worked with it.
//! The formula is written once, as an expression over quantities; from it come the value ([`reckon`]), the mathematics
//! shown ([`Computation::formula`]), the working with numbers put in ([`Worked::lines`]) and the arithmetic of forms in
//! the page ([`Computation::script`]). Knows no handbook: what a refrigerant is called there, and at which altitude it
//! is used, it is told.
//!
//! To add a computation, write its entry in a file of `entries/` and name it in the list there; the tests of the list
//! then ask of it a source, sound dimensions and a worked figure that comes out.

#![deny(clippy::disallowed_methods)]

mod catalogue;
mod entries;

mod computation;
mod expression;
mod input;
mod property;

mod dimensions;
mod evaluation;
mod root;

mod error;
mod reckon;
mod worked;

mod inline;
mod layout;
mod mathml;
mod plain;
mod working;

mod compact;
mod page;
mod script;
mod slip;

mod table;

#[cfg(test)]
mod roster;

pub use catalogue::{catalogue, find, nearest, require};
pub use compact::{Compact, MOST_KELVIN, MOST_SHARE};
pub use computation::{Answer, Caution, Computation, Group, Mark, Source, WorkedFigure};
pub use error::TradeError;
pub use expression::{Condition, Constant, Expr, Function, Showing, Step};
pub use input::{Input, InputKind, Need};
pub use page::RECKONER;
pub use property::{LookUp, Property};
pub use reckon::{Given, Surroundings, reckon};
pub use script::RUNTIME;
pub use slip::Slip;
pub use table::{Cell, Column, Table, TableError, table, tables};
pub use worked::{Worked, WorkedInput, WorkedStep};
pub use working::{Legend, Line};
