//! What a row of the orders log charges.

/// What a row charges.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Kind {
    /// Pieces of a design.
    Cookie,
    /// What was charged for all the order's cookies together.
    Set,
    /// Delivery.
    Delivery,
    /// A rush charge.
    Rush,
    /// A discount.
    Discount,
    /// A refund.
    Refund,
    /// A tip.
    Tip,
    /// Sales tax, which is never revenue.
    Tax,
    /// A deposit kept from a cancelled order.
    DepositKept,
}

/// Every kind, in the order of [`super::specification::KINDS`].
pub(super) const KINDS: [Kind; 9] =
    [Kind::Cookie, Kind::Set, Kind::Delivery, Kind::Rush, Kind::Discount, Kind::Refund, Kind::Tip, Kind::Tax, Kind::DepositKept];
