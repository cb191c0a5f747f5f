//! The price list: each tier's list price by the day it starts.

use super::kinds::PRICE_TWICE;
use crate::quantity::{Day, Price};
use crate::reading::{Problem, Table};
use std::collections::BTreeMap;
use std::ops::Bound;

/// List prices by tier and start; one without a start held from the beginning.
#[derive(Debug, Clone, Default)]
pub struct PriceList {
    prices: BTreeMap<String, BTreeMap<Option<Day>, Price>>,
}

impl PriceList {
    /// Reads the `tiers` card; two prices of a tier from one day are a problem.
    pub fn read(mut table: Table, problems: &mut Vec<Problem>) -> Self {
        let (tiers, names) = table.text("tier");
        let prices = table.prices("price");
        let from = table.days("from");
        let mut list = Self::default();
        for row in 0..table.rows() {
            let (Some(tier), Some(price)) = (tiers[row], prices[row]) else { continue };
            if !list.add(names.text(tier), from[row], price) {
                let problem = table.problem(&PRICE_TWICE, row, "from", "has two prices from this day").found(names.text(tier));
                problems.push(problem.instead("keep one of them"));
            }
        }
        list
    }

    /// Adds a price from a day on, or from the beginning. False if there already was one from that day, which it replaces.
    pub fn add(&mut self, name: &str, from: Option<Day>, price: Price) -> bool {
        self.prices.entry(name.to_owned()).or_default().insert(from, price).is_none()
    }

    /// Whether the shop has no price list.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.prices.is_empty()
    }

    /// The tiers on it.
    pub fn tiers(&self) -> impl Iterator<Item = &str> {
        self.prices.keys().map(String::as_str)
    }

    /// The day the first of its prices starts; `None` where one always holds.
    #[must_use]
    pub(crate) fn first_start(&self) -> Option<Day> {
        self.prices.values().flat_map(BTreeMap::keys).min().copied().flatten()
    }

    /// The day the last of its prices starts; `None` where all always held.
    #[must_use]
    pub(crate) fn last_start(&self) -> Option<Day> {
        self.prices.values().flat_map(BTreeMap::keys).max().copied().flatten()
    }

    /// Whether a price of a tier starts on just this day.
    #[must_use]
    pub fn starts(&self, tier: &str, day: Day) -> bool {
        self.prices.get(tier).is_some_and(|prices| prices.contains_key(&Some(day)))
    }

    /// The next day after one on which a price of a tier starts.
    #[must_use]
    pub fn next_start(&self, tier: &str, day: Day) -> Option<Day> {
        self.prices.get(tier)?.range((Bound::Excluded(Some(day)), Bound::Unbounded)).next().and_then(|(start, _)| *start)
    }

    /// The day on which the price that a tier has on `day` started; `None` if it always held, or there is none.
    #[must_use]
    pub fn since(&self, tier: &str, day: Day) -> Option<Day> {
        self.prices.get(tier)?.range(..=Some(day)).next_back().and_then(|(start, _)| *start)
    }

    /// The list price of a tier on a day.
    #[must_use]
    pub fn price(&self, tier: &str, day: Day) -> Option<Price> {
        self.prices.get(tier)?.range(..=Some(day)).next_back().map(|(_, price)| *price)
    }
}
