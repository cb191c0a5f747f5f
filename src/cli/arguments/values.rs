//! Values as typed.

use crate::quantity::millionths::{Money, is_currency};
use crate::quantity::month_words::MonthWords;
use crate::quantity::{Day, dozens, month_names, number};
use crate::reading::nearest::nearest;
use std::ops::RangeInclusive;

/// A known word close to the one typed, where there is one.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct DidYouMean(Option<&'static str>);

impl std::fmt::Display for DidYouMean {
    /// As it stands before other advice.
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        self.0.map_or(Ok(()), |near| write!(f, "did you mean {}? Else ", near.to_lowercase()))
    }
}

/// What to write instead of a value that cannot be read.
#[derive(Debug, Clone, Copy, PartialEq, Eq, thiserror::Error)]
pub(crate) enum WrongValue {
    /// Of a month.
    #[error("{0}write a month as october, \"october 2026\" or 2026-10")]
    Month(DidYouMean),
    /// Of money.
    #[error("write an amount above 0, as 20.00")]
    Money,
    /// Of a day.
    #[error("write a day as 2026-09-01")]
    Day,
    /// Of a whole number, with the least and the most it may be.
    #[error("write a whole number from {0} to {1}")]
    Whole(i64, i64),
    /// Of a currency.
    #[error("write a currency as its code of three letters: USD, EUR, GBP or another")]
    Currency,
    /// Of pieces.
    #[error("write pieces as 24 or \"2 dozen\", up to 100000")]
    Pieces,
}

pub fn month(text: &str) -> Result<MonthWords, WrongValue> {
    let near = || nearest(text.split_whitespace().next().unwrap_or_default(), *month_names::ENGLISH);
    MonthWords::parse(text).ok_or_else(|| WrongValue::Month(DidYouMean(near())))
}

/// A currency's code, in any letter case.
pub fn currency(text: &str) -> Result<String, WrongValue> {
    let code = text.trim().to_ascii_uppercase();
    is_currency(&code).then_some(code).ok_or(WrongValue::Currency)
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

/// Reads pieces: `24`, `2 dozen`, `2 dz`.
pub fn pieces(text: &str) -> Result<i64, WrongValue> {
    dozens::pieces(text, number::plain).filter(|pieces| (1..=100_000).contains(pieces)).ok_or(WrongValue::Pieces)
}
