//! What the figures say of a price, in four words that programs read.

/// What a row says of its prices.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// It costs more than it brings, before any time is paid.
    LosesMoney,
    /// Whole orders reach the target.
    Pays,
    /// One more piece reaches the target, whole orders do not.
    SetUpTooDear,
    /// Neither does.
    Underpaid,
}

impl Verdict {
    /// The words for it.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::LosesMoney => "loses money",
            Self::Pays => "pays",
            Self::SetUpTooDear => "set-up too dear",
            Self::Underpaid => "underpaid",
        }
    }
}
