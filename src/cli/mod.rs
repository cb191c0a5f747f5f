//! The command line: arguments in, a report out. One file per command; what they share is in `shop.rs` and `shared_options.rs`.

mod arguments;
mod check;
mod completions;
mod error;
mod export;
mod files;
mod man;
mod minutes;
mod next_list_files;
mod outcome;
mod progress;
mod quote;
mod review;
mod screen;
mod settings_file;
mod shared_options;
mod shell;
mod shop;
mod start;
mod tiers;
mod wage;
mod whatif;

use crate::pricing::change;
use crate::reading::nearest::nearest;
pub use check::show_rows_on_a_terminal;
use clap::{CommandFactory, Parser};
use error::Error;
pub use outcome::Outcome;
pub use screen::fit_terminal;
use std::ffi::OsString;
use std::path::Path;

/// Runs the program on its arguments, the first being its own name.
#[must_use]
pub fn run(arguments: impl IntoIterator<Item = impl Into<OsString> + Clone>) -> Outcome {
    let words = with_rush_joined(arguments.into_iter().map(Into::into).collect());
    if let Some(advice) = mistyped_command(&words) {
        return Error::usage(advice).into();
    }
    match arguments::Arguments::try_parse_from(words) {
        Ok(arguments) => answer(&arguments).unwrap_or_else(Outcome::from),
        Err(error) => Outcome::usage(&error),
    }
}

/// Joins a percentage to the `--rush` before it. The option's value may be left out, so clap alone would take the next word for it,
/// whatever that is, or none that follows.
fn with_rush_joined(words: Vec<OsString>) -> Vec<OsString> {
    let mut joined: Vec<OsString> = Vec::with_capacity(words.len());
    for word in words {
        let is_percentage = || word.to_str().is_some_and(|word| change::percent(word).is_ok());
        match joined.last_mut() {
            Some(before) if before == "--rush" && is_percentage() => {
                before.push("=");
                before.push(word);
            }
            _ => joined.push(word),
        }
    }
    joined
}

fn answer(arguments: &arguments::Arguments) -> Result<Outcome, Error> {
    match &arguments.command {
        Some(arguments::Command::Check(arguments)) => check::run(arguments),
        Some(arguments::Command::Review(arguments)) => review::run(arguments),
        Some(arguments::Command::Wage(arguments)) => wage::run(arguments),
        Some(arguments::Command::Minutes(arguments)) => minutes::run(arguments),
        Some(arguments::Command::Tiers(arguments)) => tiers::run(arguments),
        Some(arguments::Command::Whatif(arguments)) => whatif::run(arguments),
        Some(arguments::Command::Quote(arguments)) => quote::run(arguments),
        Some(arguments::Command::Export(arguments)) => export::run(arguments),
        Some(arguments::Command::Start(arguments)) => start::run(arguments),
        Some(arguments::Command::Completions(arguments)) => Ok(completions::run(arguments)),
        Some(arguments::Command::Man(arguments)) => man::run(arguments),
        None => review::run_after_check(arguments),
    }
}

/// Advice for a first word that is neither a command nor a folder, but close to a command.
fn mistyped_command(words: &[OsString]) -> Option<String> {
    let word = words.get(1)?.to_str().filter(|word| !word.starts_with('-') && !Path::new(word).exists())?;
    let program = arguments::Arguments::command();
    let commands: Vec<&str> = program.get_subcommands().map(clap::Command::get_name).collect();
    let near = nearest(word, commands.iter().copied()).filter(|_| !commands.contains(&word))?;
    Some(format!("there is no command '{word}' and no such folder; did you mean {near}?"))
}
