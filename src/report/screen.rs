//! How much of an answer is printed: its first screen, or all of it.

/// How much of an answer a person asked to see.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Screen {
    /// The answer, on one screen.
    First,
    /// With `--details`: how it was worked out, diagnostics and small rows too.
    Details,
}

impl Screen {
    /// By whether `--details` was given.
    #[must_use]
    pub fn asked(details: bool) -> Self {
        if details { Self::Details } else { Self::First }
    }

    /// Whether everything is shown.
    #[must_use]
    pub fn is_whole(self) -> bool {
        self == Self::Details
    }

    /// The last line of a first screen, which says what `--details` adds; nothing where it is all there.
    #[must_use]
    pub fn more(self, what: &str) -> String {
        if self.is_whole() { String::new() } else { format!("--details shows {what}.\n") }
    }
}
