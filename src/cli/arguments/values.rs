//! Values as typed.

use crate::quantity::millionths::Money;
use crate::quantity::{Day, Month, number};
use std::ops::RangeInclusive;

/// What to write instead of a value that cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub enum WrongValue {
    /// Of a month.
    #[error("write a month as 2026-10")]
    Month,
    /// Of money.
    #[error("write an amount above 0, as 20.00")]
    Money,
    /// Of a day.
    #[error("write a day as 2026-09-01")]
    Day,
    /// Of a whole number, with the least and the most it may be.
    #[error("write a whole number from {0} to {1}")]
    Whole(i64, i64),
    /// Of pieces.
    #[error("write pieces as 24 or \"2 dozen\", up to 100000")]
    Pieces,
}

pub fn month(text: &str) -> Result<Month, WrongValue> {
    Month::parse(text).ok_or(WrongValue::Month)
}

pub fn money(text: &str) -> Result<Money, WrongValue> {
    let money = number::plain(text).filter(|amount| amount.is_sign_positive() && !amount.is_zero()).and_then(Money::from_decimal);
    money.filter(|money| money.0 <= 1_000_000_000_000).ok_or(WrongValue::Money)
}

pub fn day(text: &str) -> Result<Day, WrongValue> {
    Day::parse(text).ok_or(WrongValue::Day)
}

/// Reads a whole number within a range.
pub fn whole(text: &str, range: RangeInclusive<i64>) -> Result<i64, WrongValue> {
    let number = text.trim().parse().ok().filter(|number| range.contains(number));
    number.ok_or(WrongValue::Whole(*range.start(), *range.end()))
}

/// Reads pieces: `24`, `2 dozen`.
pub fn pieces(text: &str) -> Result<i64, WrongValue> {
    number::pieces(text).filter(|pieces| (1..=100_000).contains(pieces)).ok_or(WrongValue::Pieces)
}
