//! What became of an order.

/// What became of an order.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// Handed over: costed.
    Done,
    /// Only quoted.
    Quoted,
    /// Cancelled.
    Cancelled,
}

impl Status {
    /// Every status, in the order of [`STATUSES`](super::specification::STATUSES).
    pub(super) const ALL: [Self; 3] = [Self::Done, Self::Quoted, Self::Cancelled];

    /// Returns its name in orders.csv.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Done => "done",
            Self::Quoted => "quoted",
            Self::Cancelled => "cancelled",
        }
    }
}
