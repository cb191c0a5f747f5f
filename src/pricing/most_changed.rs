//! The rows of a what-if that change most.

use super::what_if::{Row, WhatIf};

/// How many there are at the most.
const MOST: usize = 10;

/// The rows whose pay changes most, in their order.
#[must_use]
pub(crate) fn most_changed(answer: &WhatIf) -> Vec<&Row> {
    let change = |at: usize| {
        let both = &answer.rows[at].both;
        (both.after.owner_pay() - both.before.owner_pay()).0.abs()
    };
    let mut kept: Vec<usize> = (0..answer.rows.len()).collect();
    kept.sort_by_key(|at| -change(*at));
    kept.truncate(MOST);
    kept.sort_unstable();
    kept.into_iter().map(|at| &answer.rows[at]).collect()
}
