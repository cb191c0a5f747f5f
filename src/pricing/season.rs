//! The season that prices are set by: the last twelve months of hand-overs, or all of them.

use crate::costing::Costed;
use crate::costing::facts::column;
use crate::quantity::{Day, Month, Period};
use crate::shop::Shop;
use crate::shop::orders::Status;
use polars::prelude::{ChunkAgg, PolarsResult};

/// Months of a season.
const MONTHS: i32 = 12;

/// The last twelve calendar months with hand-overs; all of the logs where they are shorter.
///
/// # Errors
/// Where polars fails.
pub fn last_twelve_months(costed: &Costed) -> PolarsResult<Period> {
    let days = costed.facts.frame().column(column::DAY)?.i32()?;
    let (Some(first), Some(last)) = (days.min(), days.max()) else { return Ok(Period::default()) };
    let last = Day(last).month();
    let from = Month(last.0 - (MONTHS - 1));
    if Day(first).month() >= from {
        return Ok(Period::default());
    }
    Ok(Period { from: Some(from.first()), to: Some(last.last()) })
}

/// The last day of which the logs tell: orders handed over, hours, purchases.
#[must_use]
pub fn last_day(shop: &Shop) -> Option<Day> {
    let ordered = shop.orders.heads.iter().filter(|head| head.status == Status::Done).map(|head| head.day);
    let worked = shop.hours.entries.iter().map(|entry| entry.day);
    let bought = shop.purchases.rows.iter().map(|purchase| purchase.day);
    ordered.chain(worked).chain(bought).max()
}

/// The day a new price list starts, where nothing else is asked for: the first of the month after the logs' last.
#[must_use]
pub fn next_start(shop: &Shop) -> Day {
    last_day(shop).map_or(Day(0), |day| day.month().next().first())
}
