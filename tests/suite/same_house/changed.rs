//! What programs read otherwise than the recorded build, on purpose, and why. All else must be the same to the last digit.

/// By which minutes an answer splits the hours of whole orders.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Minutes {
    /// By those on the card, or equally; a change in these answers is in the others, too.
    Any,
    /// By those learned from the logs.
    Learned,
}

impl Minutes {
    /// Whether a change that is in answers by `self` is in those by `other`.
    pub fn holds_for(self, other: Self) -> bool {
        self == Self::Any || self == other
    }
}

/// Commands, the fields that changed (of JSON, or columns of CSV), by which minutes, and why.
///
/// A field is named by where it stands in an object, lists passed over: `rows.surplus`, or `surplus` wherever it stands. After `where`
/// stands which objects or rows it changed in: `row where file = counts.csv`.
pub type Change = (&'static [&'static str], &'static [&'static str], Minutes, &'static str);

/// The table: nothing since the digests were written last.
pub const CHANGED: &[Change] = &[];
