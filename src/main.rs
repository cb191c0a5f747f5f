//! The program: its exit code is the outcome's.

use std::process::ExitCode;

fn main() -> ExitCode {
    fairdozen::cli::fit_terminal();
    fairdozen::cli::show_rows_on_a_terminal();
    fairdozen::cli::run(std::env::args_os()).emit()
}
