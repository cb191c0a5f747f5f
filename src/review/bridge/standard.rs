//! The flexible budget: what a design's pieces would have brought in and cost at the base period's rates.
//!
//! The standard of a design is its own average in the base period; of a new design its tier's, else the shop's. If
//! the base period sold no cookies, there is no standard: what was sold is its own, and all its change is volume.

use super::side::{Group, Side, Sums};
use crate::costing::figure::Figure;
use crate::costing::stock::Quantity;
use crate::ids::{Id, Item, Tier};
use crate::quantity::{Amount, TooLarge, ratio};
use std::collections::BTreeMap;

/// Whose average is a design's standard.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StandardFrom {
    /// Its own.
    Own,
    /// Its tier's.
    Tier,
    /// The shop's.
    Shop,
    /// No one's: the base period sold no cookies.
    None,
}

/// The base period's sums, which standards are averages of.
pub(crate) struct Standards {
    shop: Sums,
    tiers: BTreeMap<Id<Tier>, Sums>,
}

/// A design's standard: the sums it is the average of.
pub struct Standard<'a> {
    sums: &'a Sums,
    shop: &'a Sums,
    /// Whose average it is.
    pub source: StandardFrom,
}

impl Standards {
    /// Sums a base period.
    ///
    /// # Errors
    /// [`TooLarge`] where an amount does not fit.
    pub fn of(base: &Side) -> Result<Self, TooLarge> {
        let mut tiers = BTreeMap::new();
        for (group, sums) in &base.groups {
            if let (Group::Design(_), Some(tier)) = (group, sums.tier)
                && !tiers.contains_key(&tier)
            {
                tiers.insert(tier, base.designs(Some(tier))?);
            }
        }
        Ok(Self { shop: base.designs(None)?, tiers })
    }

    /// Returns the pieces of all designs.
    #[must_use]
    pub fn pieces(&self) -> i128 {
        pieces(&self.shop)
    }

    /// Chooses the standard of a design with these sums then and now.
    #[must_use]
    pub(crate) fn of_design<'a>(&'a self, then: &'a Sums, now: &'a Sums) -> Standard<'a> {
        let is_sold = pieces(now) > 0;
        let tier = now.tier.and_then(|tier| self.tiers.get(&tier)).filter(|tier| pieces(tier) > 0 && is_sold);
        let (sums, source) = if pieces(then) > 0 {
            (then, StandardFrom::Own)
        } else if let Some(tier) = tier {
            (tier, StandardFrom::Tier)
        } else if self.pieces() > 0 && is_sold {
            (&self.shop, StandardFrom::Shop)
        } else {
            (now, StandardFrom::None)
        };
        Standard { sums, shop: &self.shop, source }
    }
}

fn pieces(sums: &Sums) -> i128 {
    sums.figures[Figure::Pieces]
}

impl Standard<'_> {
    /// Computes the flexed budget of some pieces: their sums at the standard.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub(crate) fn flexed(&self, pieces: i128) -> Result<Sums, TooLarge> {
        let (sums, all) = (self.sums, self.sums.figures[Figure::Pieces]);
        // A group without pieces on either side cannot be flexed.
        let flex = |sum: i128| if all == 0 { Ok(sum) } else { ratio::multiply_divide(sum, pieces, all) };
        let mut flexed = Sums::default();
        for (item, used) in &sums.items {
            flexed.items.insert(*item, Quantity { amount: Amount::ZERO, cost: flex(used.cost)? });
        }
        let of_items: i128 = flexed.items.values().map(|used| used.cost).sum();
        for figure in [Figure::Packaging, Figure::Fees, Figure::HelperPay, Figure::PieceMinutes] {
            flexed.figures[figure] = flex(sums.figures[figure])?;
        }
        flexed.figures[Figure::ListValue] = flex(sums.charged().0)?;
        flexed.figures[Figure::Ingredients] = of_items + flex(sums.other_ingredients().0)?;
        flexed.figures[Figure::OwnerMinutes] = flexed.figures[Figure::PieceMinutes] + flex(sums.set_up_minutes().0)?;
        Ok(flexed)
    }

    /// Computes what an amount of an item would have cost then: at the standard's price, else the whole base
    /// period's. An item not used then has no price to compare with, and costs what it does now.
    ///
    /// # Errors
    /// [`TooLarge`] where the cost does not fit.
    pub(crate) fn at_its_price(&self, item: Id<Item>, now: Quantity) -> Result<i128, TooLarge> {
        let priced = [self.sums, self.shop].into_iter().filter_map(|sums| sums.items.get(&item)).find(|used| used.amount > Amount::ZERO);
        priced.map_or(Ok(now.cost), |then| ratio::multiply_divide(now.amount.0, then.cost, then.amount.0))
    }
}
