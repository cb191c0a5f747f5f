//! Designs whose minutes cannot be told apart, because they are sold together.

use super::minutes::MinutesTable;
use std::collections::BTreeSet;

/// Each set of such designs once, by name.
#[must_use]
pub(crate) fn sold_together(table: &MinutesTable) -> BTreeSet<BTreeSet<&str>> {
    let untold = table.rows.iter().filter(|row| row.told_apart == Some(false) && !row.confounded_with.is_empty());
    untold.map(|row| row.confounded_with.iter().chain([&row.key]).map(String::as_str).collect()).collect()
}
