//! When a new price list starts.

use crate::quantity::Day;
use crate::shop::Shop;
use crate::shop::orders::Status;

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
