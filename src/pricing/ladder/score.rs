//! How good a ladder is.

use crate::quantity::millionths::Money;
use crate::quantity::{Factor, TooLarge};

/// What is to be least, the first part first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Default)]
pub struct Score {
    /// Money short of target and floors.
    pub short: i64,
    /// Designs priced below both their fair and their old price, and places where two tiers meet and the design above is nearer to the
    /// lower price, or the one below nearer to the upper, by its fair price and by its old one.
    pub out_of_place: i64,
    /// Σ pieces × |new − old price|.
    pub movement: i64,
    /// In each tier, designs beside the largest part of it that shared one. (A tier cut in two counts none: which part keeps the name is
    /// told later.)
    pub moved: i64,
    /// Sum of the designs' prices.
    pub prices: i64,
}

impl std::ops::Add for Score {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            // What is past all bounds stays worse than anything within them.
            short: self.short.saturating_add(other.short),
            out_of_place: self.out_of_place + other.out_of_place,
            movement: self.movement.saturating_add(other.movement),
            moved: self.moved + other.moved,
            prices: self.prices.saturating_add(other.prices),
        }
    }
}

/// What is missing at a price, in money rounded up to the millionth; 0 where nothing is.
pub(super) fn short(needs: i128, price: Money, pieces: i128, kept: Factor) -> Result<i128, TooLarge> {
    let brought = price.0.checked_mul(pieces).and_then(|listed| listed.checked_mul(kept.numerator)).ok_or(TooLarge)?;
    let missing = needs.checked_mul(kept.divisor).ok_or(TooLarge)? - brought;
    Ok(if missing <= 0 { 0 } else { missing / kept.divisor + i128::from(missing % kept.divisor != 0) })
}
