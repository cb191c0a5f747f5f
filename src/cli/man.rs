//! `man`: the manual pages, made of the commands' own help, for installing.

use super::arguments::{Arguments, Man};
use super::error::Error;
use super::files::answers::{Answers, Mark, OUT};
use super::outcome::Outcome;
use crate::report::words::counted;
use clap::CommandFactory;

pub fn run(arguments: &Man) -> Result<Outcome, Error> {
    let pages = pages();
    let Some(folder) = &arguments.out else {
        return Ok(Outcome::of(pages.first().map_or_else(String::new, |(_, page)| String::from_utf8_lossy(page).into_owned())));
    };
    let names = pages.iter().map(|(name, _)| (name.clone(), Mark::Manual)).collect();
    Answers::in_folder(folder, names, OUT)?.write(&pages)?;
    let written = counted(pages.len(), "manual page is", "manual pages are");
    Ok(Outcome::of(format!("{written} in {}\n", folder.display())))
}

/// The page of the program and of each command, by file name.
fn pages() -> Vec<(String, Vec<u8>)> {
    let mut program = Arguments::command().disable_help_subcommand(true);
    program.build();
    let commands: Vec<clap::Command> = program.get_subcommands().cloned().collect();
    std::iter::once(program).chain(commands).map(page).collect()
}

fn page(command: clap::Command) -> (String, Vec<u8>) {
    let page = clap_mangen::Man::new(command);
    let mut text = Vec::new();
    // Memory can always be written to.
    let _ = page.render(&mut text);
    (page.get_filename(), text)
}
