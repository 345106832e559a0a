//! What needs the whole, against outside references and end to end, in one binary.
//!
//! - `reference`: reads the tables of `tests/reference/`.
//! - `slips`: tables with a slip of the pen put in, and clean ones.
//! - `properties`: refrigerants against other programs' figures and the papers' printed ones; the sweep that never fails.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that can't go on stops")]

mod properties;
mod reference;
mod slips;
