//! What needs the whole, against outside references and end to end, in one binary.
//!
//! - `reference`: reads the tables of `tests/reference/`.
//! - `worked_examples`: every row of figures worked outside this program, through the catalogue of computations.
//! - `script`: the JavaScript of every formula, run by Node.js, against the catalogue.
//! - `moist_air`: moist air against another program.
//! - `slips`: tables with a slip of the pen put in, and clean ones.
//! - `properties`: refrigerants against other programs' figures and the papers' printed ones; the sweep that never fails.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that can't go on stops")]

mod moist_air;
mod properties;
mod reference;
mod script;
mod slips;
mod worked_examples;
