//! What a list is made of and to reach.

use super::list::DesignRow;
use crate::costing::{Costed, Options};
use crate::ids::{Design, Id, Item};
use crate::pricing::cost::{Piece, Season};
use crate::pricing::error::PricingError;
use crate::pricing::what_if::{Compared, Scenario, compare_lists, old_list};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Factor, Percent, Period, Price};
use crate::shop::Shop;
use std::collections::BTreeMap;

/// What the list is to reach, and how it may be made.
#[derive(Debug, Clone)]
pub struct Wanted {
    /// The wage aimed at.
    pub target: Money,
    /// The least wage of any design.
    pub floor: Option<Money>,
    /// How many tiers; `None`: as many as now.
    pub tiers: Option<usize>,
    /// Whether designs stay in their tiers.
    pub keep: bool,
    /// The most any price may rise.
    pub max_rise: Option<Percent>,
    /// Whether prices carry unassigned hours and costs.
    pub unassigned: bool,
    /// Landed prices that change, by item.
    pub costs: BTreeMap<Id<Item>, Factor>,
    /// The season that prices are set by.
    pub season: Period,
    /// The day the list is to start: today's list is the one that is in force then.
    pub starts: Day,
}

/// A design sold in the season at a price.
#[derive(Debug, Clone, Copy)]
pub(super) struct Sold {
    pub(super) design: Id<Design>,
    pub(super) pieces: i64,
    /// Its list price today, or the mean charged.
    pub(super) old_price: Money,
    pub(super) piece: Piece,
}

/// The shop, its season and what is wanted of its new list.
pub(super) struct Maker<'a> {
    pub(super) shop: &'a Shop,
    pub(super) wanted: &'a Wanted,
    pub(super) season: &'a Season,
    /// What of a list price is left.
    pub(super) kept: Factor,
    /// The day whose list is today's.
    pub(super) day: Day,
}

impl Maker<'_> {
    /// The season's orders as they were, and at one price for each design all through it.
    pub(super) fn compared(
        &self,
        costed: &Costed,
        options: Options,
        price: fn(&DesignRow) -> Money,
        rows: &[DesignRow],
    ) -> Result<Compared, PricingError> {
        let new: BTreeMap<Id<Design>, Money> = rows.iter().map(|row| (row.design, price(row))).collect();
        let old = old_list(self.shop, costed, self.wanted.season)?;
        let list = |design: Id<Design>, day: Day| match new.get(&design) {
            Some(price) => Some(Price { amount: *price, pieces: 1 }),
            None => old(design, day),
        };
        let scenario = Scenario { costs: self.wanted.costs.clone(), ..Scenario::default() };
        compare_lists(self.shop, costed, options, self.wanted.season, &scenario, &old, &list)
    }
}
