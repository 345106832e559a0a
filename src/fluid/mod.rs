//! Properties of refrigerants: equations of state, pure and blended; saturation, density, enthalpy, entropy.
//!
//! Takes temperatures and pressures, gives the other properties. Knows no handbook and no file but its own data.
//!
//! Read in this order: the door; what it gives and refuses; the data; the Helmholtz energy of one fluid and of a
//! mixture; what is solved with it.

#![allow(clippy::needless_range_loop, reason = "sums over components stand as in their formulas, by index")]

mod refrigerant;

mod error;
mod reference;
mod state;

mod equation;
mod measured;
mod mixing;
mod table;

mod ideal;
mod mixture;
mod residual;
mod single;

mod critical;
mod curve;
mod elimination;
mod equilibrium;
mod false_position;
mod split;

mod model;
mod seek;

mod transport;

mod expanded;
mod expansion;

mod points;
mod typed_table;

mod examine;
mod polynomial;
mod slip;
mod typed_column;
mod typing;

#[cfg(test)]
mod checks;
#[cfg(test)]
mod sweep;

pub use equation::Equation;
pub use error::FluidError;
pub use expanded::Expanded;
pub use points::TypedPoint;
pub use reference::Reference;
pub use refrigerant::{Component, Pair, Refrigerant};
pub use slip::{Column, Slip, SlipKind};
pub use state::{CriticalPoint, Phase, Saturation, State};
pub use transport::Correlated;
pub use typed_table::{TypedRow, TypedTable};
