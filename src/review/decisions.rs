//! Designs that do not pay, by what mends them.

use super::below_target::BelowTarget;
use super::monthly::Review;
use super::row::Row;
use super::verdict::Verdict;

/// Fewer orders than these are few for a design.
const FEW: i64 = 3;
/// Designs that are named one by one where all have no room.
pub(crate) const NAMED_FIRST: usize = 3;

/// All designs that need a decision, most short first within each list.
#[derive(Debug, Clone, Default, PartialEq)]
pub(crate) struct Decisions<'a> {
    /// Designs that each need a remedy of their own.
    pub own: Vec<&'a BelowTarget>,
    /// Designs whose pay is low only because of what the order shares: one remedy serves them all.
    pub set_up_too_dear: Vec<&'a BelowTarget>,
    /// Rows of designs that the logs cannot judge yet, whichever way they come out.
    pub open: Vec<&'a Row>,
    /// Whether any design was judged at all.
    pub judged: bool,
}

impl<'a> Decisions<'a> {
    /// Of a review.
    #[must_use]
    pub fn of(review: &'a Review) -> Self {
        let told = review.below_target.iter().filter(|design| design.row.is_conclusive());
        let (set_up_too_dear, own) = told.partition(|design| design.verdict == Verdict::SetUpTooDear);
        let mut open: Vec<&Row> = review.designs.rows.iter().filter(|row| row.verdict.is_some() && !row.is_conclusive()).collect();
        open.sort_by_key(|row| row.known.surplus());
        Self { own, set_up_too_dear, open, judged: review.designs.rows.iter().any(|row| row.verdict.is_some()) }
    }
}

impl BelowTarget {
    /// Whether so few orders hold it that they say little.
    #[must_use]
    pub(crate) fn is_of_few_orders(&self) -> bool {
        self.row.known.orders < FEW
    }
}
