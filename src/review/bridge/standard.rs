//! The flexible budget: what a design's pieces would have brought in and cost at the base period's rates.
//!
//! The standard of a design is its own average in the base period; of a new design its tier's, else the shop's. If
//! the base period sold no cookies, there is no standard: what was sold is its own, and all its change is volume.

use super::side::{Group, Side, Sums, Used};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{TooLarge, ratio};
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
pub struct Standards {
    shop: Sums,
    tiers: BTreeMap<String, Sums>,
}

/// A design's standard: the sums it is the average of.
pub struct Standard<'a> {
    sums: &'a Sums,
    shop: &'a Sums,
    /// Whose average it is.
    pub source: StandardFrom,
}

/// The flexed budget of some pieces: their figures at the standard.
pub struct Flexed {
    /// Prices charged.
    pub charged: Money,
    /// Ingredients by item.
    pub items: BTreeMap<String, Money>,
    /// Ingredients that belong to no item.
    pub other_ingredients: Money,
    /// Packaging.
    pub packaging: Money,
    /// Fees.
    pub fees: Money,
    /// Helper pay.
    pub helper_pay: Money,
    /// The owner's minutes on pieces themselves.
    pub piece_minutes: Minutes,
    /// The owner's other minutes.
    pub set_up_minutes: Minutes,
}

impl Standards {
    /// Sums a base period.
    ///
    /// # Errors
    /// [`TooLarge`] where an amount does not fit.
    pub fn of(base: &Side) -> Result<Self, TooLarge> {
        let mut tiers = BTreeMap::new();
        for (group, sums) in &base.groups {
            if let (Group::Design(_), Some(tier)) = (group, &sums.tier)
                && !tiers.contains_key(tier)
            {
                tiers.insert(tier.clone(), base.designs(Some(tier))?);
            }
        }
        Ok(Self { shop: base.designs(None)?, tiers })
    }

    /// Returns the pieces of all designs.
    #[must_use]
    pub fn pieces(&self) -> i64 {
        self.shop.pieces
    }

    /// Chooses the standard of a design with these sums then and now.
    #[must_use]
    pub fn of_design<'a>(&'a self, then: &'a Sums, now: &'a Sums) -> Standard<'a> {
        let tier = now.tier.as_ref().and_then(|tier| self.tiers.get(tier)).filter(|tier| tier.pieces > 0 && now.pieces > 0);
        let (sums, source) = if then.pieces > 0 {
            (then, StandardFrom::Own)
        } else if let Some(tier) = tier {
            (tier, StandardFrom::Tier)
        } else if self.shop.pieces > 0 && now.pieces > 0 {
            (&self.shop, StandardFrom::Shop)
        } else {
            (now, StandardFrom::None)
        };
        Standard { sums, shop: &self.shop, source }
    }
}

impl Standard<'_> {
    /// Computes the flexed budget of some pieces.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn flexed(&self, pieces: i64) -> Result<Flexed, TooLarge> {
        let sums = self.sums;
        // A group without pieces on either side cannot be flexed.
        let by = if sums.pieces == 0 { (1, 1) } else { (pieces.into(), sums.pieces.into()) };
        let flex = |sum: i128| ratio::multiply_divide(sum, by.0, by.1);
        let items = sums.items.iter().map(|(item, used)| Ok((item.clone(), Money(flex(used.cost.0)?))));
        Ok(Flexed {
            charged: Money(flex(sums.charged.0)?),
            items: items.collect::<Result<_, TooLarge>>()?,
            other_ingredients: Money(flex(sums.other_ingredients.0)?),
            packaging: Money(flex(sums.packaging.0)?),
            fees: Money(flex(sums.fees.0)?),
            helper_pay: Money(flex(sums.helper_pay.0)?),
            piece_minutes: Minutes(flex(sums.piece_minutes.0)?),
            set_up_minutes: Minutes(flex(sums.set_up_minutes.0)?),
        })
    }

    /// Computes what an amount of an item would have cost then: at the standard's price, else the whole base
    /// period's. An item not used then has no price to compare with, and costs what it does now.
    ///
    /// # Errors
    /// [`TooLarge`] where the cost does not fit.
    pub fn at_its_price(&self, item: &str, now: Used) -> Result<Money, TooLarge> {
        let priced = [self.sums, self.shop].into_iter().filter_map(|sums| sums.items.get(item)).find(|used| used.amount > 0);
        priced.map_or(Ok(now.cost), |then| ratio::multiply_divide(now.amount, then.cost.0, then.amount).map(Money))
    }
}

impl Flexed {
    /// Returns the cost of all ingredients.
    #[must_use]
    pub fn ingredients(&self) -> Money {
        self.items.values().copied().sum::<Money>() + self.other_ingredients
    }

    /// Computes the pay that volume and mix are valued at: prices charged less ingredients, packaging, fees and
    /// helper pay.
    #[must_use]
    pub fn pay(&self) -> Money {
        self.charged - self.ingredients() - self.packaging - self.fees - self.helper_pay
    }

    /// The owner's minutes.
    #[must_use]
    pub fn minutes(&self) -> Minutes {
        self.piece_minutes + self.set_up_minutes
    }
}
