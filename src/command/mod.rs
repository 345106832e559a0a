//! The commands: one file a verb. Only here does the program speak to a terminal.
//!
//! Arguments become a plain struct first (`arguments`), checked and nothing done; then the verb opens files. Every verb
//! gives an [`Outcome`] or a [`Failure`], and the exit status is decided in one place, [`run`].

mod arguments;
mod report;

mod begin;
mod bind;
mod host;
mod proof;
mod reckon;
mod roster;
mod theme;

pub use arguments::Arguments;
pub use report::{count_text, findings_text};

use arguments::Verb;
use std::fmt::Display;
use std::io::{self, IsTerminal, Write};
use std::path::Path;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Everything is as it should be: status 0.
    Fine,
    /// There are findings that stand in the way: status 1.
    Findings,
}

/// Why a command could not be carried out.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Failure {
    /// It was asked for in a way that can't be carried out: status 2.
    Usage(String),
    /// The machine failed us: status 3.
    Machine(String),
}

impl Failure {
    fn usage(says: impl Into<String>) -> Self {
        Self::Usage(says.into())
    }

    fn machine(what: &str, path: &Path, error: &dyn Display) -> Self {
        Self::Machine(format!("could not {what} `{}`: {error}", path.display()))
    }
}

/// Carries out a command and gives the status to exit with: 0 fine, 1 findings, 2 wrong usage, 3 the machine failed us.
pub fn run(arguments: Arguments) -> u8 {
    let ended = match arguments.verb {
        Verb::Begin { dir } => begin::begin(&dir),
        Verb::Proof { dir } => proof::proof(&dir),
        Verb::Bind { dir, into } => bind::bind(&dir, &into),
        Verb::Host { bound, listen, log } => host::host(&bound, listen, log),
        Verb::Reckon(sum) => reckon::reckon(&sum),
    };
    match ended {
        Ok(Outcome::Fine) => 0,
        Ok(Outcome::Findings) => 1,
        Err(Failure::Usage(says)) => {
            complain(&format!("coldpress: {says}"));
            2
        }
        Err(Failure::Machine(says)) => {
            complain(&format!("coldpress: {says}"));
            3
        }
    }
}

/// Says `text` on standard output. A reader that has gone away (`| head`) is no failure.
fn say(text: &str) {
    let _ = writeln!(io::stdout(), "{text}");
}

/// Says `text` on standard error.
fn complain(text: &str) {
    let _ = writeln!(io::stderr(), "{text}");
}

/// What is being done, on a terminal only; the next one takes its place.
struct Progress {
    shown: bool,
}

impl Progress {
    fn begin() -> Self {
        Self { shown: io::stderr().is_terminal() }
    }

    fn step(&self, what: &str) {
        if self.shown {
            let _ = write!(io::stderr(), "\r\x1b[K{what} …");
            let _ = io::stderr().flush();
        }
    }
}

impl Drop for Progress {
    fn drop(&mut self) {
        if self.shown {
            let _ = write!(io::stderr(), "\r\x1b[K");
        }
    }
}
