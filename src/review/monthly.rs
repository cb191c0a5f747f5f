//! The review of a month or season: did the prices cover the time, what does not pay, and what ties it to the logs.

use super::bridge::Bridge;
use super::headline::Headline;
use super::item_prices::{ItemPrices, item_prices};
use super::minutes::MinutesTable;
use super::months::{MonthRow, months};
use super::needing::{Needing, needing};
use super::order_sizes::{OrderOfSize, orders_of_size, smallest_order};
use super::stock::{self, Missing};
use super::ties::Ties;
use super::wage::{By, Question, Sort, WageTable};
use super::worth_doing::{Worth, worth_doing};
use crate::costing::Costed;
use crate::costing::facts::sum;
use crate::period::year_to;
use crate::pricing::order_size::Smallest;
use crate::quantity::millionths::{Minutes, Money};
use crate::quantity::{Day, Period};
use crate::shop::Shop;
use crate::shop::orders::Status;
use polars::prelude::*;

/// A finished review.
#[derive(Debug, Clone)]
pub struct Review {
    /// Which days.
    pub period: Period,
    /// The season's name, where the days are one's.
    pub season: Option<String>,
    /// The wage aimed at.
    pub target: Option<Money>,
    /// The answer.
    pub headline: Headline,
    /// By tier.
    pub tiers: WageTable,
    /// By design.
    pub designs: WageTable,
    /// Designs that do not pay, most short first.
    pub needing: Vec<Needing>,
    /// Hours by stage of the orders handed over, most first; the last name is blank for work without a stage.
    pub stages: Vec<(String, Minutes)>,
    /// Waiting, logged in the period: never paid.
    pub rack_minutes: Minutes,
    /// What ties it to her own sums.
    pub ties: Ties,
    /// What changed since another period, where it was asked for.
    pub bridge: Option<Bridge>,
    /// Orders handed over that no hours name.
    pub orders_without_hours: Vec<String>,
    /// By theme.
    pub themes: WageTable,
    /// Month by month, to the end of the period.
    pub months: Vec<MonthRow>,
    /// Orders of the year that ends with the period, by size.
    pub orders_of_size: Vec<OrderOfSize>,
    /// The same year by classes of size.
    pub sizes: WageTable,
    /// The smallest order worth its set-up, over that year.
    pub smallest_order: Option<Smallest>,
    /// What ingredients cost over that year, dearest first.
    pub item_prices: Vec<ItemPrices>,
    /// Minutes a piece, where they were learned.
    pub minutes: Option<MinutesTable>,
    /// What orders took beyond what was bought, dearest first.
    pub shortfalls: Vec<Missing>,
    /// What counts found missing, dearest first.
    pub gaps: Vec<Missing>,
    /// What is worth doing.
    pub worth_doing: Vec<Worth>,
}

impl Review {
    /// Of a period.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn of(shop: &Shop, costed: &Costed, period: Period) -> PolarsResult<Self> {
        let mut tiers = WageTable::of(shop, costed, Question { by: By::Tier, period })?;
        tiers.sort(Sort::Wage);
        let mut designs = WageTable::of(shop, costed, Question { by: By::Design, period })?;
        designs.sort(Sort::Surplus);
        let mut themes = WageTable::of(shop, costed, Question { by: By::Theme, period })?;
        themes.sort(Sort::Wage);
        let within = |day: Day| period.holds(day);
        let rack = shop.hours.entries.iter().filter(|entry| within(entry.day) && shop.hours.is_unattended(entry, &shop.settings));
        let is_learned = costed.learned.as_ref().is_some_and(Result::is_ok);
        let season = shop.settings.seasons.iter().find(|(_, season)| **season == period).map(|(name, _)| name.clone());
        let mut review = Self {
            period,
            season,
            target: shop.settings.target,
            headline: Headline::of(shop, costed, period)?,
            needing: needing(shop, costed, &designs)?,
            stages: stages(costed, period)?,
            rack_minutes: rack.map(|entry| Minutes(i128::from(entry.minutes))).sum(),
            ties: Ties::of(shop, costed, period, &designs)?,
            bridge: None,
            orders_without_hours: without_hours(shop, period),
            months: months(shop, costed, period)?,
            orders_of_size: orders_of_size(shop, costed, period)?,
            sizes: WageTable::of(shop, costed, Question { by: By::OrderSize, period: year_to(period) })?,
            smallest_order: smallest_order(shop, costed, period)?,
            item_prices: item_prices(shop, costed, year_to(period)),
            minutes: if is_learned { Some(MinutesTable::of(shop, costed)?) } else { None },
            shortfalls: stock::shortfalls(shop, costed, period),
            gaps: stock::gaps(shop, costed, period),
            worth_doing: Vec::new(),
            themes,
            tiers,
            designs,
        };
        review.worth_doing = worth_doing(shop, costed, &review)?;
        Ok(review)
    }
}

impl Review {
    /// Whether nothing was handed over, and no deposit kept.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.designs.rows.is_empty()
    }
}

fn stages(costed: &Costed, period: Period) -> PolarsResult<Vec<(String, Minutes)>> {
    let facts = costed.facts.within(period)?;
    let columns: Vec<String> = facts.stage_columns().map(str::to_owned).collect();
    if columns.is_empty() {
        return Ok(Vec::new());
    }
    let frame = facts.frame().clone().lazy().select(columns.iter().map(|name| sum(name)).collect::<Vec<Expr>>()).collect()?;
    let mut stages = Vec::new();
    for name in &columns {
        let minutes = frame.column(name)?.i128()?.get(0).unwrap_or_default();
        let stage = name.strip_prefix(crate::costing::facts::column::STAGE).unwrap_or(name);
        if minutes != 0 {
            stages.push((stage.to_owned(), Minutes(minutes)));
        }
    }
    stages.sort_by_key(|(stage, minutes)| (stage.is_empty(), -*minutes, stage.clone()));
    Ok(stages)
}

fn without_hours(shop: &Shop, period: Period) -> Vec<String> {
    let Some(named) = shop.hours.named(&shop.settings, &shop.orders) else { return Vec::new() };
    let orders = shop.orders.ids.iter().zip(&shop.orders.heads).zip(named);
    orders
        .filter(|((_, head), named)| head.status == Status::Done && period.holds(head.day) && !named)
        .map(|((id, _), _)| id.to_owned())
        .collect()
}
