//! Values as typed.

use crate::quantity::millionths::Money;
use crate::quantity::{Day, Month, number};
use std::ops::RangeInclusive;

pub fn month(text: &str) -> Result<Month, String> {
    Month::parse(text).ok_or_else(|| "write a month as 2026-10".to_owned())
}

pub fn money(text: &str) -> Result<Money, String> {
    let money = number::plain(text).filter(|amount| amount.is_sign_positive() && !amount.is_zero()).and_then(Money::from_decimal);
    money.filter(|money| money.0 <= 1_000_000_000_000).ok_or_else(|| "write an amount above 0, as 20.00".to_owned())
}

pub fn day(text: &str) -> Result<Day, String> {
    Day::parse(text).ok_or_else(|| "write a day as 2026-09-01".to_owned())
}

/// A whole number within a range.
pub fn whole(text: &str, range: RangeInclusive<i64>) -> Result<i64, String> {
    let number = text.trim().parse().ok().filter(|number| range.contains(number));
    number.ok_or_else(|| format!("write a whole number from {} to {}", range.start(), range.end()))
}

/// Pieces: `24`, `2 dozen`.
pub fn pieces(text: &str) -> Result<i64, String> {
    number::pieces(text)
        .filter(|pieces| (1..=100_000).contains(pieces))
        .ok_or_else(|| "write pieces as 24 or \"2 dozen\", up to 100000".to_owned())
}
