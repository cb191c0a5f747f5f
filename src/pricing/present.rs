//! A season at present ingredient prices: the one cost model of a piece and of an order that fair prices, quotes, the review and
//! the smallest order worth its set-up rest on.

use super::at_prices::{Landed, with_purchases};
use super::change::Times;
use super::fair::Season;
use super::instead::{Priced, mix};
use super::order_size::{Smallest, smallest};
use crate::costing::minutes_each::MinutesFrom;
use crate::costing::{Costed, MinutesBy, Options, cost_by};
use crate::ids::{Design, Id, Item};
use crate::quantity::millionths::Money;
use crate::quantity::{Day, Period, TooLarge};
use crate::shop::Shop;
use crate::shop::settings::CostFlow;
use std::collections::BTreeMap;

/// Which season, and what is different in it.
#[derive(Debug, Clone, Copy)]
pub struct Asked<'a> {
    /// Its days.
    pub period: Period,
    /// The day whose price list is today's.
    pub day: Day,
    /// Whether hours and costs that no order can carry are part of a piece.
    pub unassigned: bool,
    /// Changes of items' prices.
    pub costs: &'a BTreeMap<Id<Item>, Times>,
}

impl Season {
    /// The season of a costed shop, its uses costed again at present prices and its minutes split as they were.
    ///
    /// # Errors
    /// Where polars fails or a figure does not fit.
    pub fn at_present(shop: &Shop, costed: &Costed, asked: Asked<'_>) -> Result<Self, String> {
        let too_large = |error: TooLarge| error.to_string();
        let present = with_purchases(shop, Landed::Present, asked.costs).map_err(too_large)?;
        let minutes = if costed.minutes_from == MinutesFrom::Equal { MinutesBy::Equal } else { MinutesBy::Card };
        let options = Options { cost_flow: Some(CostFlow::Latest), minutes };
        let present = cost_by(&present, options, costed.learned.clone()).map_err(too_large)?;
        Self::of(shop, &present, asked.period, asked.unassigned, asked.day)
    }

    /// The smallest order worth its set-up, of the season's mix and colours at today's list; `None` where nothing was sold at a list
    /// price or no hours are known.
    ///
    /// # Errors
    /// [`TooLarge`] where a figure does not fit.
    pub fn smallest_order(&self, shop: &Shop, target: Money) -> Result<Option<Smallest>, TooLarge> {
        let sold = shop.designs.all().filter(|design| self.sold[*design] > 0);
        let priced =
            |design: Id<Design>| Some(Priced { design, tier: String::new(), pieces: self.sold[design], price: self.old_price[design]? });
        let priced: Vec<Priced> = sold.filter_map(priced).collect();
        if priced.is_empty() || !self.has_hours() {
            return Ok(None);
        }
        smallest(&self.whole_order(self.colours)?, &mix(self, &priced)?, target).map(Some)
    }
}
