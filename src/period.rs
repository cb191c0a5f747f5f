//! The period of a question that names none: one rule each for the latest month, the last year and the ends of the
//! logs. Uses the logs alone, never a clock.

use crate::quantity::{Day, Month, Period};
use crate::shop::Shop;
use crate::shop::orders::Status;

/// Months in a year.
const YEAR: i32 = 12;
/// A month counts as whole once the logs reach this day of it (DESIGN: late entries change little).
const WHOLE_FROM: i32 = 25;

/// Finds the first and last day with an order handed over or hours worked; `None` without any.
#[must_use]
pub fn logs(shop: &Shop) -> Option<(Day, Day)> {
    let done = shop.orders.heads.iter().filter(|head| head.status == Status::Done).filter_map(|head| head.day);
    let days = || done.clone().chain(shop.hours.entries.iter().map(|entry| entry.day));
    days().min().zip(days().max())
}

/// Finds the latest whole month: the last one whose 25th the logs have reached. If no whole month has an order in it,
/// returns the month of the logs' last day.
#[must_use]
pub fn latest_month(shop: &Shop) -> Option<Month> {
    let (_, last) = logs(shop)?;
    let month = last.month();
    let is_reached = last >= Day(month.first().0 + WHOLE_FROM - 1);
    let whole = if is_reached { month } else { Month(month.0 - 1) };
    let first = shop.orders.heads.iter().filter(|head| head.status == Status::Done).filter_map(|head| head.day).min();
    Some(if first.is_some_and(|first| first.month() > whole) { month } else { whole })
}

/// Finds the last twelve whole months; all days if the logs hold fewer.
#[must_use]
pub fn last_year(shop: &Shop) -> Period {
    let (Some((first, _)), Some(month)) = (logs(shop), latest_month(shop)) else { return Period::default() };
    let year = year_to(Period::of(month));
    if year.from.is_some_and(|from| first.month() > from.month()) { Period::default() } else { year }
}

/// Extends a period back to twelve months that end with it. A longer period, or one without an end, is returned as it
/// is.
#[must_use]
pub fn year_to(period: Period) -> Period {
    let Some(to) = period.to else { return period };
    let year = Month(to.month().0 - (YEAR - 1)).first();
    Period { from: period.from.map(|from| from.min(year)), to: Some(to) }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn day(text: &str) -> Day {
        Day::parse(text).unwrap()
    }

    #[test]
    fn a_year_is_twelve_months_that_end_with_the_period() {
        let period = |from: &str, to: &str| Period { from: Some(day(from)), to: Some(day(to)) };
        assert_eq!(year_to(period("2026-10-01", "2026-10-31")), period("2025-11-01", "2026-10-31"));
        // Across a leap year, too.
        assert_eq!(year_to(period("2024-02-01", "2024-02-29")), period("2023-03-01", "2024-02-29"));
        let long = period("2024-05-01", "2026-10-31");
        assert_eq!((year_to(long), year_to(Period::default())), (long, Period::default()));
        let open = Period { from: None, to: Some(day("2026-10-31")) };
        assert_eq!(year_to(open), open);
    }
}
