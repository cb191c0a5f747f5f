//! Builds a review: each of its answers in turn, then the advice that follows from them.

use super::below_target::below_target;
use super::find_advice::find_advice;
use super::headline::Headline;
use super::item_prices::item_prices;
use super::key::By;
use super::list_prices::ListPrices;
use super::minutes::MinutesTable;
use super::monthly::Review;
use super::months::months;
use super::order_sizes::orders_of_size;
use super::reconciliation::Reconciliation;
use super::stock;
use super::wage::{Question, Sort, WageTable};
use crate::costing::{Costed, CostingError, column};
use crate::period::year_to;
use crate::quantity::millionths::Minutes;
use crate::quantity::{Day, Period};
use crate::shop::Shop;
use polars::prelude::PolarsResult;

impl Review {
    /// Builds the review of a period.
    ///
    /// # Errors
    /// Where polars fails.
    pub fn of(shop: &Shop, costed: &Costed, period: Period) -> Result<Self, CostingError> {
        let mut tiers = WageTable::of(shop, costed, Question { by: By::Tier, period })?;
        tiers.sort(Sort::Wage);
        let mut designs = WageTable::of(shop, costed, Question { by: By::Design, period })?;
        designs.sort(Sort::Surplus);
        let mut themes = WageTable::of(shop, costed, Question { by: By::Theme, period })?;
        themes.sort(Sort::Wage);
        let within = |day: Day| period.holds(day);
        let rack = shop.hours.entries.iter().filter(|entry| within(entry.day) && shop.hours.is_unattended(entry));
        let is_learned = costed.learned.as_ref().is_some_and(Result::is_ok);
        let season = shop.settings.seasons.iter().find(|(_, season)| **season == period).map(|(name, _)| name.clone());
        let prices = ListPrices::of(shop, costed, period)?;
        let mut review = Self {
            period,
            season,
            target: shop.settings.target,
            headline: Headline::of(shop, costed, period)?,
            below_target: below_target(shop, costed, &designs, &prices)?,
            stages: stages(shop, costed, period)?,
            rack_minutes: rack.map(|entry| Minutes(i128::from(entry.minutes))).sum(),
            reconciliation: Reconciliation::of(shop, costed, period, &designs)?,
            bridge: None,
            logs_begin: None,
            months: months(shop, costed, period)?,
            orders_of_size: orders_of_size(shop, costed, period)?,
            sizes: WageTable::of(shop, costed, Question { by: By::OrderSize, period: year_to(period) })?,
            smallest_order: prices.smallest_order,
            priced_over: prices.season,
            item_prices: item_prices(shop, costed, year_to(period))?,
            minutes: if is_learned { Some(MinutesTable::of(shop, costed)?) } else { None },
            shortfalls: stock::shortfalls(shop, costed, period)?,
            gaps: stock::gaps(shop, costed, period)?,
            advice: Vec::new(),
            themes,
            tiers,
            designs,
        };
        review.advice = find_advice(shop, costed, &review)?;
        Ok(review)
    }
}

/// Sums minutes by stage over the orders handed over in a period, the most first, work without a stage last.
fn stages(shop: &Shop, costed: &Costed, period: Period) -> PolarsResult<Vec<(Option<String>, Minutes)>> {
    let facts = costed.facts.within(period)?;
    let mut stages = Vec::new();
    for stage in facts.stages() {
        let minutes: i128 = facts.values(&column::minutes_in(*stage))?.into_iter().map(i128::from).sum();
        if minutes != 0 {
            stages.push((stage.map(|stage| shop.hours.stages.text(stage).to_owned()), Minutes(minutes)));
        }
    }
    stages.sort_by_key(|(stage, minutes)| (stage.is_none(), -*minutes, stage.clone()));
    Ok(stages)
}
