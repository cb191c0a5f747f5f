//! Verdicts on a group's pay.

/// The verdict on a row. JSON and CSV use its [`words`](Self::words), screens their own.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Verdict {
    /// Owner's pay is negative: it costs more than it brings in, before any time is paid.
    LosesMoney,
    /// Whole orders reach the target.
    Pays,
    /// One more piece reaches the target, whole orders do not.
    SetUpTooDear,
    /// Neither does.
    Underpaid,
}

impl Verdict {
    /// Returns its words in JSON and CSV.
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
