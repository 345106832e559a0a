//! What needs the whole, against outside references and end to end, in one binary.
//!
//! - `reference`: reads the tables of `tests/reference/`.
//! - `trees`: the trees of the demonstration handbook, and slips put into them on purpose.
//! - `worked_examples`: every row of figures worked outside this program, through the catalogue of computations.
//! - `script`: the JavaScript of every formula, run by Node.js, against the catalogue.
//! - `moist_air`: moist air against another program.
//! - `slips`: tables with a slip of the pen put in, and clean ones.
//! - `agreement`: how far refrigerants are from other programs' figures, as a table.
//! - `host`: a bound handbook over the network: ways out, conditions, parts, signals, a newer edition under load.
//! - `saturation_table`: a saturation table as a reader has it, with enthalpy and its zero.
//! - `typed_points`: a refrigerant known by a published table only, from its file to the page.
//! - `many_threads`: the solver asked by many threads at once, to the same bits, and with nothing allocated.
//! - `properties`: refrigerants against other programs' figures and the papers' printed ones; the sweep that never fails.
//! - `random_states`: states drawn at random over all that the equations hold for, found and found again.
//! - `bench`: lays out a small handbook in a folder and runs the program on it. No tests of its own.
//! - `findings`: every kind of finding, from the small handbook with one thing wrong, word for word as it is printed.
//! - `real_content`: the demonstration handbook: it binds, twice to the same bytes, and no slip of a digit goes unseen.
//! - `teaching`: the demonstration handbook as something to learn from: lessons whole, examples enough, makers first.
//! - `builds_on`: a house's handbook laid over another.
//! - `theme`: a handbook's own theme, and the fonts it is dressed in.
//! - `accidents`: runs that are killed, disks that are full, places that can't be written, and the exit statuses.
//! - `shell`: `reckon` and the README's own examples, as they are typed.
//! - `house`: how the source is laid out: who knows of whom, what is declared where.

#![allow(clippy::unwrap_used, clippy::panic, reason = "a test that can't go on stops")]

mod accidents;
mod agreement;
mod bench;
mod builds_on;
mod findings;
mod host;
mod house;
mod keys;
mod many_threads;
mod moist_air;
mod page;
mod properties;
mod random_states;
mod real_content;
mod reference;
mod saturation_table;
mod script;
mod shell;
mod slips;
mod teaching;
mod theme;
mod trees;
mod typed_points;
mod worked_examples;
