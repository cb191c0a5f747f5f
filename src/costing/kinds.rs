//! Kinds of problems and assumptions that costing finds.

use crate::reading::{ProblemKind, Severity};

// Recipes and units.

/// An item measured in units that do not convert into each other.
pub(crate) static UNITS_DIFFER: ProblemKind = ProblemKind::error(
    "units-differ",
    "amounts are in units that do not convert into the item's other units",
    "Measure each item in one kind of unit throughout; check --all says where a weight would do.",
);
/// A recipe that contains itself.
pub(crate) static RECIPE_IN_ITSELF: ProblemKind =
    ProblemKind::error("recipe-in-itself", "recipes contain themselves", "Take each out of its own parts.");
/// A recipe that yields nothing.
pub(crate) static MAKES_NOTHING: ProblemKind =
    ProblemKind::error("recipe-makes-nothing", "recipes make nothing", "Write how much each makes under yields.");
/// A recipe used in a unit that its yield does not convert to.
pub(crate) static YIELD_UNIT: ProblemKind =
    ProblemKind::error("yield-unit", "rows use a recipe in a unit that does not convert to its yield's", "Use the unit of the yield.");
/// A weight that is needed and unknown.
pub(crate) static NO_WEIGHT: ProblemKind =
    ProblemKind::error("no-weight", "amounts cannot be turned into grams", "Write them in grams, or give the items a weight in items.csv.");
/// A weight from the published table.
pub(crate) static PUBLISHED_WEIGHT: ProblemKind = ProblemKind::assumption(
    "published-weight",
    "weights are from a published table (USDA SR28)",
    "Where yours differ, write grams_per_cup or grams_each in items.csv.",
);

// Likely slips.

/// A price far from what is usual.
pub(crate) static FAR_PRICE: ProblemKind = ProblemKind::warning(
    "far-price",
    "prices are many times what is usual for the design, or a small part of it",
    "Check each: the price is for one piece, and a line's total is quantity × price.",
);
/// An order handed over before any of its hours.
pub(crate) static WORKED_AFTER: ProblemKind = ProblemKind::warning(
    "worked-after",
    "orders were handed over before any of their hours",
    "Check the month and year of each order's date, and of its hours.",
);
/// A purchase far from what the item usually costs.
pub(crate) static FAR_COST: ProblemKind = ProblemKind::warning(
    "far-cost",
    "purchases cost many times what is usual for the item, or a small part of it",
    "Check packs, size, unit and paid of each.",
);

// Hours.

/// An order no hours name.
pub(crate) static NO_HOURS: ProblemKind =
    ProblemKind::warning("order-without-hours", "orders have no hours", "Log their minutes in hours.csv to see their hourly pay.");
/// An order that lacks a stage which orders usually have.
pub(crate) static NO_STAGE: ProblemKind = ProblemKind::warning(
    "order-without-stage",
    "orders lack work that most orders have, so their hourly pay is unknown",
    "Log their minutes in hours.csv; where none were needed, log 0.",
);

// Overheads.

/// Overhead of months before the logs begin.
pub(crate) static EARLIER: ProblemKind = ProblemKind::warning(
    "earlier-overhead",
    "overheads are for months before your logs begin, so they are in no answer",
    "Where one serves longer, put the last day it serves in to.",
);

// Stock and materials.

/// An item used and never bought.
pub(crate) static NEVER_BOUGHT: ProblemKind = ProblemKind::warning(
    "never-bought",
    "items are in recipes but were never bought, so they are costed at 0",
    "Log a purchase of each (paid 0 if it was free).",
);
/// An item that is assumed to be free.
pub(crate) static FREE_ITEM: ProblemKind =
    ProblemKind::assumption("free-item", "items are assumed to cost nothing", "Log a purchase if you buy them.");
/// An item bought and never used.
pub(crate) static NEVER_USED: ProblemKind =
    ProblemKind::warning("never-used", "items were bought but nothing you sold uses them", "Add them to a recipe or to every order.");
/// An item without a card that may be packaging.
pub(crate) static MAYBE_PACKAGING: ProblemKind = ProblemKind::assumption(
    "maybe-packaging",
    "items are assumed to be ingredients",
    "Give those that are not the class packaging in items.csv.",
);
/// An item used beyond what was bought.
pub(crate) static SHORTFALL: ProblemKind = ProblemKind::warning(
    "ran-out",
    "times an item ran out: your logs use more than you bought",
    "Log the missing purchases, or count your stock.",
);
/// A count that differs from the logs.
pub(crate) static COUNT_GAP: ProblemKind =
    ProblemKind::warning("count-gap", "stock counts differ from the logs", "Count again where the gap is more than usual waste.");
/// A design without a recipe, costed at 0.
pub(crate) static NO_RECIPE: ProblemKind = ProblemKind::warning(
    "no-recipe",
    "designs have no recipe, so their materials are costed at 0",
    "Add their dough and icing to recipes.csv, or a cost by size under [materials] in shop.toml.",
);
/// A design without a recipe, costed by its size.
pub(crate) static COSTED_BY_SIZE: ProblemKind = ProblemKind::assumption(
    "costed-by-size",
    "designs have no recipe and are costed by [materials] in shop.toml",
    "Add their dough and icing to recipes.csv.",
);

// Assumptions where a table or a setting is absent; each at most once.

/// No hours are logged.
pub(crate) static NO_HOURS_LOGGED: ProblemKind = ProblemKind::single(Severity::Assumed, "no-hours");
/// Every piece is assumed to take the same time.
pub(crate) static EQUAL_MINUTES: ProblemKind = ProblemKind::single(Severity::Assumed, "equal-minutes");
/// Designs without a guess are assumed to take their tier's mean.
pub(crate) static TIER_MINUTES: ProblemKind = ProblemKind::single(Severity::Assumed, "tier-minutes");
/// No target wage is set.
pub(crate) static NO_TARGET: ProblemKind = ProblemKind::single(Severity::Assumed, "no-target");
/// No spares are set.
pub(crate) static NO_SPARES: ProblemKind = ProblemKind::single(Severity::Assumed, "no-spares");
/// No card fees are set.
pub(crate) static NO_FEES: ProblemKind = ProblemKind::single(Severity::Assumed, "no-fees");
/// No overheads are logged.
pub(crate) static NO_OVERHEADS: ProblemKind = ProblemKind::single(Severity::Assumed, "no-overheads");
/// No stock counts are logged.
pub(crate) static NO_COUNTS: ProblemKind = ProblemKind::single(Severity::Assumed, "no-counts");
/// Minutes learned from a part of very large logs.
pub(crate) static PART_OF_LOGS: ProblemKind = ProblemKind::single(Severity::Assumed, "part-of-logs");
/// Minutes learned, but their ranges are rough.
pub(crate) static ROUGH_MINUTES: ProblemKind = ProblemKind::single(Severity::Assumed, "rough-minutes");
/// Too little to learn minutes from.
pub(crate) static TOO_FEW_HOURS: ProblemKind = ProblemKind::single(Severity::Assumed, "too-few-hours");
/// Minutes that could not be learned.
pub(crate) static NOT_LEARNED: ProblemKind = ProblemKind::single(Severity::Warning, "minutes-not-learned");
