//! The rows of a wage table that decide: those to look at first.

use super::key::By;
use super::row::Row;
use super::wage::WageTable;

/// How many there are at the most.
const MOST: usize = 10;

/// The rows farthest above or below the target in money, in their order, or those with most revenue where there is no target; of
/// months, the latest.
#[must_use]
pub fn first_rows(table: &WageTable) -> Vec<&Row> {
    let mut kept: Vec<usize> = (0..table.rows.len()).collect();
    if table.by == By::Month {
        kept.drain(..kept.len().saturating_sub(MOST));
    } else {
        let is_judged = table.rows.iter().any(|row| row.known.surplus().is_some());
        let weight = |row: &Row| if is_judged { row.known.surplus().unwrap_or_default() } else { row.revenue };
        kept.sort_by_key(|at| -weight(&table.rows[*at]).0.abs());
        kept.truncate(MOST);
        kept.sort_unstable();
    }
    kept.into_iter().map(|at| &table.rows[at]).collect()
}
