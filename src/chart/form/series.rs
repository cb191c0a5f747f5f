//! What is drawn alike, in the key and in words.

use crate::chart::draw::sign::Sign;

/// What bars, signs or points of one kind stand for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Series {
    /// What is drawn, and stands in the key where it occurs.
    pub sign: Sign,
    /// Its words in the key; without any it has no place there.
    pub name: String,
    /// Whether its amounts are said in words: not where a figure of the row says them already.
    pub is_said: bool,
}

impl Series {
    /// One that a column of figures says already.
    #[must_use]
    pub fn new(sign: Sign, name: impl Into<String>) -> Self {
        Self { sign, name: name.into(), is_said: false }
    }

    /// One that is said in words too.
    #[must_use]
    pub fn said(sign: Sign, name: impl Into<String>) -> Self {
        Self { is_said: true, ..Self::new(sign, name) }
    }
}
