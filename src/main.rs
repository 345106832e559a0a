//! The program: hands its arguments to the library and exits with the status it is told.

fn main() {}
