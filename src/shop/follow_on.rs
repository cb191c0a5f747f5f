//! Problems that only follow from others: what looks into a table that could not be read whole would look wrong, whatever it says.

use super::kinds::{
    FAR_DAY, LIKE_A_CHARGE, NEVER_SOLD, NO_PRICE, NOT_IN_ORDER, NOTHING_SOLD, OTHER_NAME_IN_ORDER, SIMILAR_DESIGNS, TIER_WITHOUT_PRICE,
    UNCLEAR_CHARGE, UNDER_LIST, UNKNOWN_DESIGN, UNKNOWN_ITEM, UNKNOWN_ORDER, UNKNOWN_TIER, UNSOLD_DESIGN, UNUSED_FEES, UNUSED_WORD,
};
use super::specification::{DESIGNS, HOURS, ITEMS, ORDERS, OVERHEADS, PURCHASES, RECIPES, TIERS};
use crate::reading::problem_kind::{BLANK_CELL, ERROR_CELL, NOT_UTF8, RAGGED_ROW, UNWORKED_FORMULA};
use crate::reading::{Problem, ProblemKind, Severity};
use std::collections::BTreeSet;

/// The tables that a check looks into, beside the one its problem is in.
const LOOKS_INTO: &[(&ProblemKind, &[&str])] = &[
    (&UNKNOWN_ORDER, &[ORDERS.name]),
    (&NOT_IN_ORDER, &[ORDERS.name, DESIGNS.name]),
    (&OTHER_NAME_IN_ORDER, &[ORDERS.name, DESIGNS.name]),
    (&UNSOLD_DESIGN, &[ORDERS.name]),
    (&UNKNOWN_DESIGN, &[DESIGNS.name]),
    (&UNCLEAR_CHARGE, &[DESIGNS.name]),
    (&LIKE_A_CHARGE, &[DESIGNS.name]),
    (&SIMILAR_DESIGNS, &[DESIGNS.name, ORDERS.name]),
    (&NEVER_SOLD, &[ORDERS.name]),
    (&NO_PRICE, &[DESIGNS.name, TIERS.name]),
    (&UNDER_LIST, &[DESIGNS.name, TIERS.name]),
    (&UNKNOWN_TIER, &[TIERS.name]),
    (&TIER_WITHOUT_PRICE, &[TIERS.name]),
    (&UNKNOWN_ITEM, &[PURCHASES.name, ITEMS.name, RECIPES.name]),
    (&UNUSED_FEES, &[ORDERS.name]),
    (&UNUSED_WORD, &[ORDERS.name, HOURS.name, OVERHEADS.name, DESIGNS.name, ITEMS.name]),
    (&FAR_DAY, &[ORDERS.name, HOURS.name]),
];

/// What looks for an order's rows, and misses those that could not be read.
const LOOKS_FOR_ROWS: [&ProblemKind; 4] = [&UNKNOWN_ORDER, &NOT_IN_ORDER, &UNSOLD_DESIGN, &NOTHING_SOLD];

/// Leaves out problems that follow from tables which could not be read whole: those of these tables themselves, and those of checks that
/// look into them. `table_of` gives the table a problem is in.
pub(super) fn retain_own(problems: &mut Vec<Problem>, broken: &BTreeSet<&str>, table_of: impl Fn(&Problem) -> Option<&'static str>) {
    let looks_into = |problem: &Problem| LOOKS_INTO.iter().find(|(kind, _)| *kind == problem.kind).map_or(&[][..], |(_, tables)| *tables);
    problems.retain(|problem| {
        table_of(problem).is_none_or(|table| !broken.contains(table)) && !looks_into(problem).iter().any(|table| broken.contains(table))
    });
}

/// Whether a problem of the orders says that a row of theirs, or the order it is of, could not be read.
pub(super) fn is_of_lost_row(problem: &Problem) -> bool {
    let is_lost = [&RAGGED_ROW, &ERROR_CELL, &UNWORKED_FORMULA, &NOT_UTF8].contains(&problem.kind);
    let is_blank = *problem.kind == BLANK_CELL && problem.column.as_deref() == Some("order");
    problem.severity == Severity::Error && problem.place.is_some() && (is_lost || is_blank)
}

/// Leaves out what follows from rows of the orders that could not be read.
pub(super) fn retain_of_known_orders(problems: &mut Vec<Problem>) {
    problems.retain(|problem| !LOOKS_FOR_ROWS.contains(&problem.kind));
}
