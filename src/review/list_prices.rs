//! What the cost model says after a period, beside today's list: the same prices and the same smallest order as the price list.

use crate::costing::{Costed, CostingError};
use crate::ids::{Design, Id};
use crate::pricing::cost::{Season, Smallest};
use crate::pricing::season::{Reference, reference_after};
use crate::quantity::Period;
use crate::quantity::millionths::{Money, minor_decimals};
use crate::shop::Shop;
use std::collections::BTreeMap;

/// A design's list price, now and as it should be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ListPrice {
    /// On today's list; else the mean charged.
    pub now: Money,
    /// The list price that pays the target.
    pub fair: Money,
    /// Whether that is more, to the minor unit.
    pub is_raise: bool,
}

/// What the cost model says after a period.
#[derive(Debug, Clone, Default)]
pub struct ListPrices {
    /// The season that fair prices rest on.
    pub season: Period,
    /// The smallest order worth its set-up, of the season's mix at the list in force; `None` where no wage is aimed at or no order has
    /// known hours.
    pub smallest_order: Option<Smallest>,
    /// Of the designs sold.
    pub by_design: BTreeMap<Id<Design>, ListPrice>,
}

impl ListPrices {
    /// Of the reference season that a price list after a period rests on.
    ///
    /// # Errors
    /// Where polars fails or a figure does not fit.
    pub fn of(shop: &Shop, costed: &Costed, period: Period) -> Result<Self, CostingError> {
        let asked = shop.settings.target.zip(reference_after(shop, period));
        let Some((target, (period, day))) = asked else { return Ok(Self::default()) };
        let reference = Reference { period, day, unassigned: true, costs: &BTreeMap::new() };
        let season = Season::at_present(shop, costed, reference)?;
        let smallest_order = season.smallest_order(|design| season.old_price[design], target)?;
        let mut by_design = BTreeMap::new();
        let unit = 10_i128.pow(6 - minor_decimals(&shop.settings.currency));
        for design in shop.designs.all().filter(|design| season.has_hours() && season.sold[*design] > 0) {
            let fair = season.fair_list_price(&season.piece(design)?, target)?;
            if let (Some(now), Some(fair)) = (season.old_price[design], fair) {
                by_design.insert(design, ListPrice { now, fair, is_raise: (fair - now).0 >= unit });
            }
        }
        Ok(Self { season: period, smallest_order, by_design })
    }
}
