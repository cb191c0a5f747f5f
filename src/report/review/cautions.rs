//! The usual short cautions.

/// What is said beneath every review.
pub const CAUTIONS: &str = "Past figures from your own logs, rounded minutes included: a few orders say little. The hourly wage is before your own \
     taxes. Not tax, legal or accounting advice; sales tax, helpers' minimum pay, home-kitchen rules and allergens are for your local \
     authorities.";

/// How money and hours find their month.
pub const WHEN_COUNTED: &str =
    "Money counts in the month an order is handed over, whenever a deposit or the rest was paid; hours count with the order they served.";
