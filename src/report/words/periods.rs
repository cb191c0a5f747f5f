//! Periods as a person says them.

use crate::quantity::{Month, Period};

/// A period in words.
#[must_use]
pub fn period_in_words(period: Period) -> String {
    match (period.month().map(Month::in_words), period.from, period.to) {
        (Some(month), ..) => month,
        (None, None, None) => "all time".into(),
        (None, Some(from), None) => format!("from {from}"),
        (None, None, Some(to)) => format!("until {to}"),
        (None, Some(from), Some(to)) => format!("{from} to {to}"),
    }
}

/// A period in whole months where it is of such: `November 2025 to October 2026`.
#[must_use]
pub fn months_in_words(period: Period) -> String {
    match (period.from, period.to) {
        (Some(from), Some(to)) if from == from.month().first() && to == to.month().last() && from.month() != to.month() => {
            format!("{} to {}", from.month().in_words(), to.month().in_words())
        }
        (None, None) => "all of your logs".to_owned(),
        _ => period_in_words(period),
    }
}

/// Of orders: `of October 2026`, `in your logs`, `handed over from 2026-09-01`.
#[must_use]
pub fn orders_of(period: Period) -> String {
    match (period.from, period.to) {
        (None, None) => "in your logs".to_owned(),
        (Some(_), Some(_)) if period.month().is_some() || months_in_words(period) != period_in_words(period) => {
            format!("of {}", months_in_words(period))
        }
        (Some(from), Some(to)) => format!("handed over from {from} to {to}"),
        _ => format!("handed over {}", period_in_words(period)),
    }
}
