//! The program: hands its arguments to the library and exits with the status it is told.

use clap::Parser;
use coldpress::command::{Arguments, run};
use std::process::ExitCode;

fn main() -> ExitCode {
    ExitCode::from(run(Arguments::parse()))
}
