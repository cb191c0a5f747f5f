//! Words that the texts of the next list, of what would have been and of a quote share.

use super::figures::{Currency, period_in_words};
use crate::pricing::change::Change;
use crate::pricing::raise::Share;
use crate::quantity::Period;
use crate::quantity::millionths::{MILLION, Minutes, Money};
use crate::quantity::ratio::divide;
use crate::reading::problem::printable;

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

/// A chance as a person reads it: never quite certain.
#[must_use]
pub fn chance_in_words(chance: Share) -> String {
    match divide(chance.0 * 100, MILLION).unwrap_or_default() {
        0 => "under 1 %".to_owned(),
        100 => "over 99 %".to_owned(),
        share => format!("{share} %"),
    }
}

/// `$20` where it is whole, else `$20.50`.
#[must_use]
pub fn short(currency: &Currency, money: Money) -> String {
    if money.0 % MILLION == 0 { currency.whole(money) } else { currency.exact(money) }
}

/// Minutes with one decimal.
#[must_use]
pub fn tenths(minutes: Minutes) -> String {
    let tenths = divide(minutes.0, 100_000).unwrap_or_default();
    format!("{}{}.{}", if tenths < 0 { "−" } else { "" }, tenths.abs() / 10, tenths.abs() % 10)
}

/// Colours with a decimal where they are not whole: `5 colours`, `4.6 colours`, `1 colour`.
#[must_use]
pub fn colours(count: Money) -> String {
    match (count.0 % MILLION, count.0 / MILLION) {
        (0, 1) => "1 colour".to_owned(),
        (0, whole) => format!("{whole} colours"),
        _ => format!("{} colours", tenths(Minutes(count.0))),
    }
}

/// A change in words: `butter at +20 %`.
#[must_use]
pub fn change(change: &Change) -> String {
    let percent = divide(change.times.numerator * 100 * MILLION, change.times.divisor).unwrap_or_default() - 100 * MILLION;
    let percent = format!("{}{} %", if percent < 0 { "−" } else { "+" }, Minutes(percent.abs()).decimal().normalize());
    format!("{} at {percent}", printable(&change.of))
}

/// Some things in a row: `a`, `a and b`, `a, b and c`.
#[must_use]
pub fn and(things: &[String]) -> String {
    match things {
        [] => String::new(),
        [only] => only.clone(),
        [first @ .., last] => format!("{} and {last}", first.join(", ")),
    }
}
