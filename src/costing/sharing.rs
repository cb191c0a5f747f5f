//! Division of a total over lines or orders. Parts add up to the total exactly ([`share`]: largest remainder).

use super::lines::{Lines, Span};
use crate::quantity::{TooLarge, ratio, share};
use std::ops::Range;

/// Parts of a total, each with its line.
pub type Parts = Vec<(usize, i128)>;

/// Adds parts to the lines of a range, in order.
///
/// # Errors
/// [`TooLarge`] where a sum does not fit its column.
pub(crate) fn add_parts(column: &mut [i64], lines: Range<usize>, parts: &[i128]) -> Result<(), TooLarge> {
    for (line, part) in lines.zip(parts) {
        add(column, line, *part)?;
    }
    Ok(())
}

/// Adds to one cell of a column.
///
/// # Errors
/// [`TooLarge`] where the sum does not fit.
pub fn add(column: &mut [i64], line: usize, part: i128) -> Result<(), TooLarge> {
    column[line] = ratio::narrow(i128::from(column[line]) + part)?;
    Ok(())
}

/// Divides a total over lines by weights; `None` if all weights are zero.
///
/// # Errors
/// [`TooLarge`] where the weights do not fit.
pub(crate) fn by_weights(total: i128, lines: &[usize], weights: &[i128]) -> Result<Option<Parts>, TooLarge> {
    Ok(share::by_weight(total, weights)?.map(|parts| lines.iter().copied().zip(parts).collect()))
}

/// Divides a total over orders by weights, then over each order's lines by pieces, or equally if none of them has
/// pieces. `None` if all weights are zero.
///
/// # Errors
/// [`TooLarge`] where the weights do not fit.
pub(crate) fn by_order(total: i128, orders: &[(Vec<usize>, i128)], lines: &Lines) -> Result<Option<Parts>, TooLarge> {
    let weights: Vec<i128> = orders.iter().map(|(_, weight)| *weight).collect();
    let Some(shares) = share::by_weight(total, &weights)? else { return Ok(None) };
    let mut parts = Parts::new();
    for ((members, _), part) in orders.iter().zip(shares) {
        let pieces: Vec<i128> = members.iter().map(|line| i128::from(lines.pieces[*line])).collect();
        let divided = match by_weights(part, members, &pieces)? {
            Some(divided) => divided,
            None => by_weights(part, members, &vec![1; members.len()])?.unwrap_or_default(),
        };
        parts.extend(divided);
    }
    Ok(Some(parts))
}

/// Index of the orders handed over, by day.
#[derive(Debug)]
pub(crate) struct HandOvers {
    by_day: Vec<(crate::quantity::Day, usize)>,
}

impl HandOvers {
    /// Indexes the orders that were handed over.
    #[must_use]
    pub fn of(spans: &[Span]) -> Self {
        let mut by_day: Vec<_> = spans.iter().enumerate().filter(|(_, span)| span.is_done()).map(|(at, span)| (span.day, at)).collect();
        by_day.sort_unstable();
        Self { by_day }
    }

    /// Finds the orders handed over from one day through another, in the order of their ids.
    #[must_use]
    pub fn within(&self, from: crate::quantity::Day, to: crate::quantity::Day) -> Vec<usize> {
        let start = self.by_day.partition_point(|(day, _)| *day < from);
        let end = self.by_day.partition_point(|(day, _)| *day <= to);
        let mut found: Vec<usize> = self.by_day[start..end.max(start)].iter().map(|(_, at)| *at).collect();
        found.sort_unstable();
        found
    }
}
