//! What a row of the orders log charges.

/// What a row charges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Pieces of a design.
    Cookie,
    /// What was charged for all the order's cookies together.
    Set,
    /// Bringing it.
    Delivery,
    /// For haste.
    Rush,
    /// Taken off.
    Discount,
    /// Given back.
    Refund,
    /// Given beyond the price.
    Tip,
    /// Sales tax: never income.
    Tax,
    /// What was kept of a cancelled order.
    DepositKept,
}

/// Them all, in the order of [`super::specification::KINDS`].
pub(super) const KINDS: [Kind; 9] =
    [Kind::Cookie, Kind::Set, Kind::Delivery, Kind::Rush, Kind::Discount, Kind::Refund, Kind::Tip, Kind::Tax, Kind::DepositKept];
