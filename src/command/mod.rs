//! The commands: one file a verb. Only here does the program speak to a terminal.

mod report;

pub use report::{count_text, findings_text};
