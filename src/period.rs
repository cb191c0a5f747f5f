//! The period of a question that names none: one rule each for the latest month, the last year and the ends of the
//! logs. Uses the logs alone, never a clock.

use crate::quantity::month_words::{MonthOfYear, MonthWords};
use crate::quantity::{Day, Month, Period};
use crate::shop::Shop;
use crate::shop::orders::Status;

/// Months in a year.
const YEAR: i32 = 12;
/// A month counts as whole once the logs reach this day of it (DESIGN: late entries change little).
const WHOLE_FROM: i32 = 25;

/// Finds the first and last month of a period that begins with a month and ends with one; an open end has none. `None` for any
/// other period.
#[must_use]
pub(crate) fn whole_months(period: Period) -> Option<(Option<Month>, Option<Month>)> {
    let (first, last) = (period.from.map(Day::month), period.to.map(Day::month));
    let is_whole = first.map(Month::first) == period.from && last.map(Month::last) == period.to;
    is_whole.then_some((first, last))
}

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

/// Why a month typed without its year is not known.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum NoSuchMonth {
    /// The logs have none of that name.
    #[error("your logs have no {month}: they run from {} to {}; give the year, as in \"{month} {}\"", first.in_words(), last.in_words(), year(*last))]
    NotInLogs {
        /// The month.
        month: MonthOfYear,
        /// The logs' first month.
        first: Month,
        /// Their last.
        last: Month,
    },
    /// There are no logs yet.
    #[error("your logs are empty, so give the year of {0}")]
    EmptyLogs(MonthOfYear),
}

fn year(month: Month) -> i32 {
    month.0.div_euclid(YEAR)
}

/// Finds the month that was typed; by its name alone it is the latest such month in the logs.
///
/// # Errors
/// [`NoSuchMonth`] where the logs have none of that name.
pub(crate) fn month_meant(words: MonthWords, shop: &Shop) -> Result<Month, NoSuchMonth> {
    let month = match words {
        MonthWords::Dated(month) => return Ok(month),
        MonthWords::Named(month) => month,
    };
    let (first, last) = logs(shop).map(|(first, last)| (first.month(), last.month())).ok_or(NoSuchMonth::EmptyLogs(month))?;
    Some(month.latest_by(last)).filter(|found| *found >= first).ok_or(NoSuchMonth::NotInLogs { month, first, last })
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
