//! What a design's pieces would have brought and taken at the base period's rates: the flexible budget of the textbooks.
//!
//! The standard of a design is its own average of the base period; of a new design its tier's, else the shop's; where the
//! base period sold no cookies there is none, and what was sold is its own standard: then all is volume.

use super::side::{Group, Side, Sums, Used};
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{TooLarge, ratio};
use std::collections::BTreeMap;

/// Whose average a design is held against.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Source {
    /// Its own.
    Own,
    /// Its tier's.
    Tier,
    /// The shop's.
    Shop,
    /// There is none.
    None,
}

/// The base period's sums, to take standards from.
pub struct Standards {
    shop: Sums,
    tiers: BTreeMap<String, Sums>,
}

/// The sums that a design's standard is the average of.
pub struct Standard<'a> {
    sums: &'a Sums,
    shop: &'a Sums,
    /// Whose they are.
    pub source: Source,
}

/// What some pieces would have brought and taken at a standard.
pub struct Flexed {
    /// Charged.
    pub charged: Money,
    /// Ingredients by item.
    pub items: BTreeMap<String, Money>,
    /// Ingredients of no item.
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
    /// Of a base period.
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

    /// Pieces of all designs.
    #[must_use]
    pub fn pieces(&self) -> i64 {
        self.shop.pieces
    }

    /// The standard of a design, of which these are its sums then and now.
    #[must_use]
    pub fn of_design<'a>(&'a self, then: &'a Sums, now: &'a Sums) -> Standard<'a> {
        let tier = now.tier.as_ref().and_then(|tier| self.tiers.get(tier)).filter(|tier| tier.pieces > 0 && now.pieces > 0);
        let (sums, source) = if then.pieces > 0 {
            (then, Source::Own)
        } else if let Some(tier) = tier {
            (tier, Source::Tier)
        } else if self.shop.pieces > 0 && now.pieces > 0 {
            (&self.shop, Source::Shop)
        } else {
            (now, Source::None)
        };
        Standard { sums, shop: &self.shop, source }
    }
}

impl Standard<'_> {
    /// For so many pieces.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn flexed(&self, pieces: i64) -> Result<Flexed, TooLarge> {
        let sums = self.sums;
        // A group without pieces on either side has nothing to be flexed by.
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

    /// What an amount of an item would have cost then: at the price of the standard, else of the whole base period; an item
    /// not used then has no price to be held against, and costs what it does now.
    ///
    /// # Errors
    /// [`TooLarge`] where the cost does not fit.
    pub fn at_its_price(&self, item: &str, now: Used) -> Result<Money, TooLarge> {
        let priced = [self.sums, self.shop].into_iter().filter_map(|sums| sums.items.get(item)).find(|used| used.amount > 0);
        priced.map_or(Ok(now.cost), |then| ratio::multiply_divide(now.amount, then.cost.0, then.amount).map(Money))
    }
}

impl Flexed {
    /// All ingredients.
    #[must_use]
    pub fn ingredients(&self) -> Money {
        self.items.values().copied().sum::<Money>() + self.other_ingredients
    }

    /// What volume and mix are valued at: what was charged less ingredients, packaging, fees and helper pay.
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
