//! What needs the whole, against outside references and end to end, in one binary.
//!
//! - `reference`: reads the tables of `tests/reference/`.
//! - `worked_examples`: every row of figures worked outside this program, through the catalogue of computations.
//! - `properties`: refrigerants against other programs' figures and the papers' printed ones; the sweep that never fails.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that can't go on stops")]

mod properties;
mod reference;
mod worked_examples;
