//! How much of an answer is shown: its first screen, or all of it.

/// How much of an answer a person asked to see.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The answer, on one screen.
    First,
    /// With `--details`: how it was worked out, diagnostics and small rows too.
    Details,
}

impl Screen {
    /// Returns what is asked for by whether `--details` was given.
    #[must_use]
    pub fn asked(details: bool) -> Self {
        if details { Self::Details } else { Self::First }
    }
}
