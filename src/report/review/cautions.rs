//! The usual short cautions.

/// Cautions under a whole review.
pub(crate) const CAUTIONS: &str = "These are past figures from your own logs, rounded minutes included: a few orders say little. Hourly pay is before your \
     own taxes. Not tax, legal or accounting advice; sales tax, helpers' minimum pay, home-kitchen rules and allergens are for your local \
     authorities.";

/// The caution under its first screen.
pub(crate) const CAUTION: &str = "Hourly pay is before your own taxes. Not tax, legal or accounting advice.";

/// How money and hours find their month.
pub(crate) const WHEN_COUNTED: &str =
    "Money counts in the month an order is handed over, whenever it was paid; hours count with the order they were for.";
