//! The outcome of a command: text for both streams and an exit code.

use super::error::Error;
use super::screen::prose;
use crate::reading::file::plain;
use std::fmt::Write as _;
use std::io::{ErrorKind, Write as _};
use std::process::ExitCode;

/// Text and exit code. 0: fine. 1: the shop's data has errors. 2: wrong usage.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Outcome {
    /// The answer, for the output stream.
    pub out: String,
    /// Notes and errors, for the error stream.
    pub err: String,
    /// The exit code.
    pub code: u8,
}

impl Outcome {
    /// Makes an answer without notes.
    #[must_use]
    pub fn of(out: impl Into<String>) -> Self {
        Self { out: out.into(), ..Self::default() }
    }

    /// Turns clap's message into an outcome: help and version are answers, all else is wrong usage.
    #[must_use]
    pub fn usage(error: &clap::Error) -> Self {
        if error.use_stderr() {
            // Like our own messages: clap begins its with a word that the exit code says already.
            let text = error.render().to_string();
            Self { err: text.strip_prefix("error: ").unwrap_or(&text).to_owned(), code: 2, ..Self::default() }
        } else {
            Self::of(error.render().to_string())
        }
    }

    /// Writes both streams. A closed pipe is no error; any other failure is reported, with exit code 2.
    #[must_use]
    pub fn emit(&self) -> ExitCode {
        let printed = std::io::stdout().lock().write_all(self.out.as_bytes()).and_then(|()| std::io::stdout().flush());
        let mut err = self.err.clone();
        let mut code = self.code;
        if let Err(error) = printed.as_ref()
            && error.kind() != ErrorKind::BrokenPipe
        {
            let _ = writeln!(err, "The answer could not be printed: {}.", plain(error));
            code = 2;
        }
        match std::io::stderr().lock().write_all(err.as_bytes()) {
            Err(error) if error.kind() != ErrorKind::BrokenPipe => ExitCode::from(2),
            _ => ExitCode::from(code),
        }
    }
}

impl From<Error> for Outcome {
    /// Puts the error's text on lines of its own, with its exit code.
    fn from(error: Error) -> Self {
        let text = match &error {
            // Without a path or a command, so that lines may be broken.
            Error::Pricing(_) | Error::Typed(_) => prose(&error.to_string()),
            _ => error.to_string(),
        };
        let end = if text.ends_with('\n') { "" } else { "\n" };
        Self { out: String::new(), err: text + end, code: error.code() }
    }
}
