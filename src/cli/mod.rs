//! The command line: arguments in, a report out. One file a command; what they share is in `shop.rs` and `meaning.rs`.

mod arguments;
mod check;
mod export;
mod files;
mod meaning;
mod outcome;
mod review;
mod shop;
mod wage;

use clap::Parser;
pub use outcome::Outcome;
use std::ffi::OsString;

/// Runs the program on its arguments, the first being its own name.
#[must_use]
pub fn run(arguments: impl IntoIterator<Item = impl Into<OsString> + Clone>) -> Outcome {
    let arguments = match arguments::Arguments::try_parse_from(arguments) {
        Ok(arguments) => arguments,
        Err(error) => return Outcome::usage(&error),
    };
    match arguments.command {
        Some(arguments::Command::Check(arguments)) => check::run(&arguments),
        Some(arguments::Command::Review(arguments)) => review::run(&arguments),
        Some(arguments::Command::Wage(arguments)) => wage::run(&arguments),
        Some(arguments::Command::Export(arguments)) => export::run(&arguments),
        None => review::run_after_check(&arguments),
    }
}
