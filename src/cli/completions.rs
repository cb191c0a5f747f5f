//! `completions`: a shell's completions of the commands, for installing.

use super::arguments::{Arguments, Completions};
use super::outcome::Outcome;
use clap::CommandFactory;

pub fn run(arguments: &Completions) -> Outcome {
    let mut text = Vec::new();
    clap_complete::generate(arguments.shell, &mut Arguments::command(), "fairdozen", &mut text);
    Outcome::of(String::from_utf8_lossy(&text))
}
