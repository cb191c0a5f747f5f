//! The arguments of the commands for who installs the program.

use clap::Args;
use clap_complete::Shell;
use std::path::PathBuf;

/// Print a shell's completions of these commands
///
/// For installing: save them where your shell looks for completions.
#[derive(Debug, Args)]
#[command(after_help = "Example: fairdozen completions bash > ~/.local/share/bash-completion/completions/fairdozen")]
pub struct Completions {
    /// The shell
    pub shell: Shell,
}

/// Print the manual page, or write one of each command
///
/// For installing: write them to a folder where man looks for pages.
#[derive(Debug, Args)]
#[command(after_help = "Example: fairdozen man --out ~/.local/share/man/man1")]
pub struct Man {
    /// Folder to write the pages of all commands to [default: print the first page]
    #[arg(long, value_name = "DIR")]
    pub out: Option<PathBuf>,
}
